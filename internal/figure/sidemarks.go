package figure

import (
	"math"
	"slices"
	"strings"

	"jounce/internal/draw"
)

// arches are the heights from hub to arch as dimensions beside the wheels. What was read holds at ROAD only.
func (f *sideFigure) arches() {
	if f.narrow || !f.atRoad() {
		return
	}
	g := draw.Group{Class: "atroad"}
	for i := range 2 {
		if !f.b.o.Arch[i].Known {
			continue
		}
		x, way, end := float64(i)*f.b.wb, -1.0, f.b.nose
		if i == 1 {
			way, end = 1, f.b.tail
		}
		size := f.st.Size[draw.Body]
		off := lettered(f.st, 7)
		if o := f.b.o.Fittings(); way < 0 && f.f.SX*(-f.b.arch[i]-1000*o[0][1].X) < off+1.3*size { // clear of the bumper
			off = lettered(f.st, 4)
		}
		if way > 0 { // the figure stands at the left of its line
			off += 1.1 * size
		}
		hub, edge := f.f.Pt(x+way*f.b.arch[i], f.wheel[i].loaded), f.f.Pt(x, f.b.hub[i]+f.b.arch[i])
		high := draw.Pt(hub.X, edge.Y)
		room := way * (f.f.Pt(end, 0).X - hub.X)
		if off+1.4*size > room || hub.Dist(high) < 2.6*f.st.Arrow {
			continue
		}
		g.Add(draw.Line(edge.X, edge.Y, hub.X, edge.Y).Stroke(draw.W1.Pen()), draw.Dimension(f.st, hub, high, -way*off, plain(f.b.arch[i], 0)))
		f.take(draw.Box{X0: hub.X + way*off - 1.2*size, X1: hub.X + way*off + 0.2*size, Y0: edge.Y, Y1: hub.Y})
	}
	if len(g.Items) > 0 {
		f.Add(g)
	}
}

// heights is the fan of the sill's heights behind the tail, or on a phone a row below.
func (f *sideFigure) heights() {
	type height struct {
		v float64
		p int
	}
	var list []height
	for _, p := range []int{3, 2, 1, 0} {
		if v, ok := mm(f.s.SillAt[p]); ok {
			list = append(list, height{v, p})
		}
	}
	if len(list) == 0 {
		return
	}
	line := f.st.Line(draw.Body)
	if f.narrow {
		y := f.H - 2.9*line
		step := f.W / 5
		f.put(f.st.Text(draw.Cap, 0, y, "sill", draw.Start))
		for i := range list {
			h := list[len(list)-1-i]
			class := draw.Body
			if h.p == f.s.Preset {
				class = draw.Bold
			}
			x := step * (float64(i) + 1.4)
			f.put(f.st.Text(class, x, y, presetNames[h.p], draw.Middle))
			f.put(f.st.Text(class, x, y+line, plain(h.v, 0), draw.Middle))
		}
		return
	}
	x := f.f.Pt(f.b.tail, 0).X
	x0, x1, x2 := x+lettered(f.st, 4), x+lettered(f.st, 16), x+lettered(f.st, 30)
	var want, size []float64
	for _, h := range list {
		want, size = append(want, f.f.Pt(0, h.v).Y), append(size, line)
	}
	at, _ := draw.Spread(want, size, 0, 0, f.floor-0.05*line)
	for i, h := range list {
		class := draw.Body
		if h.p == f.s.Preset {
			class = draw.Bold
		}
		f.Add(draw.Polyline(draw.Pt(x0, want[i]), draw.Pt(x1, want[i]), draw.Pt(x2, at[i]), draw.Pt(x2+lettered(f.st, 4), at[i])).Stroke(draw.W1.Pen()))
		f.put(f.st.Text(class, x2+lettered(f.st, 7), at[i], plain(h.v, 0)+nbsp+presetNames[h.p], draw.Start).At(draw.Mid).On(draw.Paper))
	}
	f.present(x0)
	f.put(within(f.st.Text(draw.Cap, x2+lettered(f.st, 7), slices.Min(at)-1.3*line, "sill", draw.Start).At(draw.Mid).On(draw.Paper), 0, f.W))
}

// present is the sill's present height: a line from the rear arch to the fan, with a pointer. It is the one accent of the
// drawing, and it moves.
func (f *sideFigure) present(x float64) {
	z, ok := mm(f.s.SillAt[1])
	if !ok {
		return
	}
	pen, role := draw.W3.Pen().In(draw.Move), draw.Move
	if f.st.Medium == draw.Print {
		pen, role = draw.W2.Pen(), draw.Ink
	}
	y := f.f.Pt(0, z).Y
	from := f.f.Pt(math.Max(f.b.feet()[3], f.b.wb+f.wheel[1].r)+20, 0).X
	g := draw.G(draw.Line(from, y, x, y).Stroke(pen), draw.Triangle(f.st, x-lettered(f.st, 2), y, 0, role)).WithID("sill")
	mean := (f.now[0] + f.now[1]) / 2
	f.Add(g.Shift(0, -mean*f.f.SX).WithData("mm", decimal(f.f.SX/draw.Px, 5)).WithData("lift", "0.5"))
}

// dimensioned tells that there is something to dimension under the floor.
func (f *sideFigure) dimensioned() bool {
	o := f.b.o
	return o.Wheelbase.Known || o.Nose.Known || o.Tail.Known
}

// dimensions are wheelbase and overhangs, those that are measured.
func (f *sideFigure) dimensions() {
	line := f.st.Line(draw.Body)
	off := lettered(f.st, 2) + 1.15*line*float64(f.rows) + 1.25*line
	at := func(x float64) draw.Point { return draw.Pt(f.f.Pt(x, 0).X, f.floor+lettered(f.st, 8)) }
	dim := func(known bool, a, b float64, word string) {
		if !known {
			return
		}
		text := plain(b-a, 0)
		if word != "" && f.st.Len(draw.Body, word+" "+text)+2 < at(a).Dist(at(b)) {
			text = word + " " + text
		}
		f.Add(draw.Dimension(f.st, at(a), at(b), -off, text))
	}
	o := f.b.o
	dim(o.Nose.Known, f.b.nose, 0, "")
	dim(o.Wheelbase.Known, 0, f.b.wb, "wheelbase")
	dim(o.Tail.Known && o.Wheelbase.Known, f.b.wb, f.b.tail, "")
}

// caption names what is assumed.
func (f *sideFigure) caption() {
	o := f.b.o
	var t []string
	for _, e := range []struct {
		known bool
		name  string
	}{{o.Wheelbase.Known, "wheelbase"}, {o.Nose.Known, "nose"}, {o.Tail.Known, "tail"}, {o.Roof.Known, "roof line"}, {o.Waist.Known, "waist"}, {o.Sills[1].KnownZ, "sill"}, {o.Arch[0].Known, "front arch"}, {o.Arch[1].Known, "rear arch"},
		{f.wheel[0].known, "front wheel"}, {f.wheel[1].known, "rear wheel"}} {
		if !e.known {
			t = append(t, e.name)
		}
	}
	s := "Drawn firm: measured. Faint: assumed from the body form."
	if len(t) > 0 {
		s = "Drawn firm: measured. Faint: assumed, among them " + list(t) + "."
	}
	if f.bars {
		s += " The ± bars are 1 : 1, larger than the car."
	}
	lines := draw.Wrap(f.st.Face(draw.Cap), s, f.st.Size[draw.Cap], f.W)
	y := f.H - 0.35*f.st.Line(draw.Cap)
	f.H += float64(len(lines)-1) * f.st.Line(draw.Cap)
	for i, l := range lines {
		f.put(f.st.Text(draw.Cap, 0, y+float64(i)*f.st.Line(draw.Cap), l, draw.Start))
	}
}

// list is words as a list: "a, b and c".
func list(t []string) string {
	if len(t) < 2 {
		return strings.Join(t, "")
	}
	return strings.Join(t[:len(t)-1], ", ") + " and " + t[len(t)-1]
}
