package figure

import (
	"math"

	"jounce/body"
	"jounce/internal/draw"
)

// car draws the body at its present height: what was measured firm, what was assumed faint.
func (f *sideFigure) car() {
	b := f.b
	g := draw.Group{}
	g.Add(b.closed().Map(f.f).Fill(draw.Skin))
	firm, faint := draw.Pen{Role: draw.Ink, W: draw.W4, Round: true}, draw.Pen{Role: draw.Ink2, W: draw.W2, Round: true}
	glass, thin := draw.W2.Pen().In(draw.Ink2), draw.W1.Pen().In(draw.Ink2)
	if b.o.Waist.Known {
		glass = draw.W2.Pen()
	}
	if f.s.Growing {
		firm = draw.Pen{Role: draw.Ink, W: draw.W3, Round: true}
		faint = draw.W1.Pen().In(draw.Rule).Dashed()
		glass, thin = faint, faint
	}
	f.trim(&g, glass, thin)
	a, z := b.parts()
	g.Add(z.Map(f.f).Stroke(faint), a.Map(f.f).Stroke(firm))
	f.datum(&g)
	f.Add(f.moving(g.WithID("body")))
	for i, shape := range b.o.ArchShape { // a wheel behind its cover
		if c := f.f.Pt(float64(i)*b.wb, f.wheel[i].loaded); shape == "covered" {
			f.Add(draw.Circle(c.X, c.Y, f.wheel[i].r*f.f.SX).Stroke(draw.W1.Pen().In(draw.Rule).Dashed()), draw.Line(c.X-f.st.Tick, c.Y, c.X+f.st.Tick, c.Y).MoveTo(c.X, c.Y-f.st.Tick).LineTo(c.X, c.Y+f.st.Tick).Stroke(draw.W1.Pen().In(draw.Ink2)))
		}
	}
}

// trim draws what is within the outline: glass, shut lines, lamps, bumpers, handles, and the edge of a covered arch.
func (f *sideFigure) trim(g *draw.Group, glass, thin draw.Pen) {
	o := f.b.o
	if p := strokes(o.Glass()); p != nil {
		g.Add(p.Map(f.f).Stroke(glass))
	}
	g.Add(strokes(o.Shuts()).Map(f.f).Stroke(thin))
	for i, s := range o.ArchShape {
		if s == "covered" {
			g.Add(seen(o.Opening(i)).Map(f.f).Stroke(thin))
		}
	}
	if f.s.Growing {
		return
	}
	g.Add(strokes(o.Fittings()).Map(f.f).FillStroke(draw.Skin, thin.With(draw.Solid)), strokes(o.Handles()).Map(f.f).Stroke(draw.W2.Pen().In(thin.Role)))
}

// datum is the two triangles on the sill from which its height is read (the form of ISO 5459), where it is read.
func (f *sideFigure) datum(g *draw.Group) {
	if !f.b.o.Sills[1].KnownZ {
		return
	}
	for _, part := range []float64{0.27, 0.73} {
		p := f.f.Pt(part*f.b.wb, f.sillAt(part*f.b.wb))
		l := f.st.Arrow * 0.9
		f.take(draw.Box{X0: p.X - 0.6*l, Y0: p.Y - l, X1: p.X + 0.6*l, Y1: p.Y})
		g.Add(draw.Polygon(p.Add(-0.6*l, -l), p.Add(0.6*l, -l), p).Fill(draw.Ink))
	}
}

// sillAt is the lower edge between the arches over x, at ROAD [mm].
func (f *sideFigure) sillAt(x float64) float64 {
	z, ok := f.b.o.Bottom(x / 1000)
	if !ok {
		return f.b.sill
	}
	return 1000 * z
}

// wheels stand on the floor and do not move: the tyre cut flat at the loaded radius, the rim's flange, the hub.
func (f *sideFigure) wheels() {
	k := f.f.SX
	for i, w := range f.wheel {
		c := f.f.Pt(float64(i)*f.b.wb, w.loaded)
		a := 90 - math.Acos(math.Min(1, w.loaded/w.r))*180/math.Pi
		tyre := draw.Arc(c.X, c.Y, w.r*k, -a, 180+a).Close()
		rim := draw.Circle(c.X, c.Y, w.flange*k)
		if !w.known {
			pen := draw.W1.Pen().In(draw.Rule).Dashed()
			f.Add(tyre.FillStroke(draw.Paper, pen), rim.Stroke(pen))
		} else {
			f.Add(tyre.FillStroke(draw.Tyre, draw.W3.Pen()), rim.FillStroke(draw.Skin, draw.W2.Pen()))
			f.Add(draw.Circle(c.X, c.Y, 0.34*w.flange*k).Stroke(draw.W1.Pen()))
			if !f.narrow {
				for h := range 5 {
					q := c.Polar(0.62*w.flange*k, 90+72*float64(h))
					f.Add(draw.Circle(q.X, q.Y, 0.085*w.flange*k).Stroke(draw.W1.Pen()))
				}
			}
		}
		over := lettered(f.st, 6)
		chain := draw.W1.Pen().In(draw.Ink2).Chain()
		f.Add(draw.Line(c.X-w.r*k-over, c.Y, c.X+w.r*k+over, c.Y).MoveTo(c.X, c.Y-w.r*k-over).LineTo(c.X, f.floor).Stroke(chain))
	}
}

// extremes are DOWN and HIGH as double-dot chains.
func (f *sideFigure) extremes() {
	if f.s.Growing {
		return
	}
	pen := draw.W1.Pen().In(draw.Ink2).ChainTwo()
	for _, p := range []int{0, 3} {
		d := [2]float64{f.change(p, 0), f.change(p, 1)}
		if d == f.now || !f.s.Change[p][0].Known() && !f.s.Change[p][1].Known() {
			continue
		}
		if p == 0 && f.narrow { // too near the outline to be told apart
			continue
		}
		f.Add(f.turned(draw.G(f.b.crest().Map(f.f).Stroke(pen)), d).WithClass("extreme"))
		x := f.b.peak()
		y := f.f.Pt(0, f.b.topAt(x)+f.lift(d, x)).Y
		t := f.st.Text(draw.Cap, f.f.Pt(x, 0).X, y-lettered(f.st, 4), presetNames[p], draw.Middle)
		if p == 0 { // below its own line, on the glass
			t = t.At(draw.Top).On(draw.Skin)
			t.Y = y + lettered(f.st, 5)
		}
		f.tryPut(t)
	}
}

// ghost is another state of the car behind this one, with its name.
func (f *sideFigure) ghost() {
	g := f.s.Ghost
	if g == nil {
		return
	}
	o := newShell(g.Body)
	pen := draw.W2.Pen().In(draw.Ink2).ChainTwo()
	list := append([]body.Segment{}, g.Body.Over...)
	if len(list) == 0 {
		list = o.o.Over
	}
	list = append(append(append(list, o.o.ArchEdge(0)...), o.o.SillEdge()...), o.o.ArchEdge(1)...)
	d := [2]float64{}
	if g.Preset >= 0 && g.Preset < 4 {
		d = [2]float64{mmOr(g.Change[g.Preset][0], 0), mmOr(g.Change[g.Preset][1], 0)}
	}
	f.Add(f.turned(draw.G(seen(list).Map(f.f).Stroke(pen)), d).WithID("ghost").WithTitle(g.Name))
	if g.Name == "" {
		return
	}
	line := f.st.Line(draw.Cap)
	t := f.st.Text(draw.Cap, f.W-lettered(f.st, 2), f.top+0.8*line, g.Name, draw.End)
	w := t.Width()
	f.put(t)
	f.take(draw.Box{X0: t.X - w - lettered(f.st, 52), Y0: t.Y - f.st.Size[draw.Cap], X1: t.X - w, Y1: t.Y})
	f.Add(draw.Line(t.X-w-lettered(f.st, 52), t.Y-0.3*f.st.Size[draw.Cap], t.X-w-lettered(f.st, 6), t.Y-0.3*f.st.Size[draw.Cap]).Stroke(pen))
}
