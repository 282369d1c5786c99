package figure

import (
	"math"

	"jounce/body"
	"jounce/internal/draw"
	"jounce/internal/finding"
)

// End is the car from in front and from behind, as far as it is known.
type End struct {
	Body         body.Outline // at ROAD
	Wheel        [2]Wheel
	Track        [2]finding.Number // tyre middle to tyre middle, front and rear [m]
	GroundToBody [4]finding.Number // floor to the body's datum at ROAD, FL FR RL RR [m]
	Scrub        finding.Number    // scrub line [m]
	Lamp         finding.Number    // lamp centre above the floor [m]
	Kerb         finding.Number    // beside the parked car [m]
	Change       [4][2]finding.Number
	Preset       int        // in force, in the order of Side.SillAt; below 0 At counts
	At           [2]float64 // change at the axles from ROAD [m], where no preset is in force

	tight bool // no room beside the car: what is read there stands under the wheels
}

// endFigure is one of the two views under work: axle 0 from in front, 1 from behind. The model's x runs to the right as seen,
// its y up.
type endFigure struct {
	*sheet
	e     End
	axle  int
	left  float64 // +1 where the car's left side is seen on the right, −1 on the left
	f     draw.Frame
	floor float64
	now   float64 // change of the body at the axle [mm]
	half  float64 // [mm] of the body's width
	tyre  wheelMM
	wide  float64 // [mm] tyre section
	track float64 // [mm]
}

// EndViews draws both ends side by side, from in front and from behind, width [mm]. The body of each is a group that moves with
// its axle: it has the data attributes mm and lift, see SideView.
func EndViews(e End, width float64, st draw.Style) draw.Scene {
	sh := newSheet(st, width, 1, "ends", "The car from in front and from behind")
	gap := lettered(st, 16)
	one := (width - gap) / 2
	half := 1000 * math.Max(e.Body.Width.V, 0.5) / 2
	if len(e.Body.Stations) == 0 {
		e.Body = body.New(e.Body.Measures)
		half = 500 * e.Body.Width.V
	}
	tight := narrow(width, st)
	beside := st.Len(draw.Bold, "FR 640") + lettered(st, 16)
	if tight {
		beside = lettered(st, 8)
		if e.Kerb.Known() {
			beside = lettered(st, 16)
		}
	}
	k := (one - 2*beside) / (2*half + 20)
	if st.Medium == draw.Print {
		for _, n := range scales {
			if 1/n <= k {
				k = 1 / n
				break
			}
		}
	}
	k = math.Max(k, 1e-3)
	high := 0.0
	for i := range 2 {
		high = math.Max(high, math.Max(e.change(e.Preset, i), e.change(3, i)))
	}
	line := st.Line(draw.Body)
	e.tight = tight
	floor := 1.5*line + k*(1000*e.Body.Roof.V+high) + lettered(st, 6)
	sh.H = floor + lettered(st, 12) + 3.5*line + e.footRows()*1.15*line + 1.5*st.Line(draw.Cap)
	for i := range 2 {
		f := &endFigure{sheet: sh, e: e, axle: i, left: 1 - 2*float64(i), floor: floor, half: half, now: e.change(e.Preset, i)}
		f.f = draw.Frame{X0: float64(i)*(one+gap) + one/2, Y0: floor, SX: k, SY: -k}
		f.draw(one)
	}
	sh.Desc = e.says()
	f := endFigure{sheet: sh, e: e}
	f.caption()
	return sh.Scene
}

// change is how far the body is from ROAD at an axle [mm].
func (e End) change(preset, axle int) float64 {
	if preset < 0 {
		return 1000 * finite(e.At[axle])
	}
	if preset > 3 {
		return 0
	}
	return mmOr(e.Change[preset][axle], 0)
}

// footRows is how many rows of lettering stand under the floor beside left and right.
func (e End) footRows() float64 {
	if e.Scrub.Known() || e.Kerb.Known() {
		return 1
	}
	return 0
}

func (e End) says() string {
	s := ""
	for i, n := range e.GroundToBody {
		if v, ok := mm(n); ok {
			s += cornerNames[i] + " " + plain(v, 0) + ", "
		}
	}
	if s == "" {
		return "Ground to body is not known."
	}
	return "Ground to body in mm: " + s[:len(s)-2] + "."
}

var cornerNames = [4]string{"FL", "FR", "RL", "RR"}

// draw draws one view in a width [mm].
func (f *endFigure) draw(one float64) {
	e, i := f.e, f.axle
	w := e.Wheel[i]
	if !w.Known && e.Wheel[1-i].Known {
		w = e.Wheel[1-i]
	}
	r := 1000 * e.Body.Tyre[i].V
	f.tyre = wheelMM{r, math.Min(1000*e.Body.Hub[i].V, r), math.Min(mmOr(w.Flange, 0.62*r), 0.95*r), e.Wheel[i].Known}
	f.wide = mmOr(w.Width, 0.31*2*r)
	f.track = mmOr(e.Track[i], 2*f.half-f.wide-50)
	title := f.st.Text(draw.Cap, f.f.X0, 0.85*f.st.Line(draw.Cap), [2]string{"from in front", "from behind"}[i], draw.Middle)
	f.put(title)
	f.kerb()
	f.wheels()
	f.body()
	f.Add(draw.FloorLine(f.st, f.f.X0-one/2, f.f.X0+one/2, f.floor))
	f.lines(one)
	f.heights(one)
	f.below()
}

// kerb is the stone beside the car's left side, its face a hand from the tyre.
func (f *endFigure) kerb() {
	z, ok := mm(f.e.Kerb)
	if !ok {
		return
	}
	x := f.left * (math.Max(f.half, f.track/2+f.wide/2) + 60)
	p, w := f.f.Pt(x, z), f.left*lettered(f.st, map[bool]float64{true: 10, false: 26}[f.e.tight])
	box := draw.Polygon(p, p.Add(w, 0), draw.Pt(p.X+w, f.floor), draw.Pt(p.X, f.floor))
	f.Add(box.Stroke(draw.W2.Pen()).WithHatch(f.st.Hatch()).WithTitle("kerb"))
}

// wheels stand on the floor; what the body hides of them is dashed with it.
func (f *endFigure) wheels() {
	for _, s := range []float64{-1, 1} {
		o := f.tyreShape(s * f.track / 2)
		if f.tyre.known {
			f.Add(o.FillStroke(draw.Tyre, draw.W3.Pen()))
		} else {
			f.Add(o.FillStroke(draw.Paper, draw.W1.Pen().In(draw.Rule).Dashed()))
		}
	}
}

// tyreShape is a tyre from an end: its section's width, its shoulders rounded, flat on the floor.
func (f *endFigure) tyreShape(x float64) draw.Outline {
	h, c, top := f.wide/2, 0.28*f.wide, f.tyre.loaded+f.tyre.r
	o := draw.Begin(x-h+0.25*c, 0).LineTo(x+h-0.25*c, 0).CurveTo(x+h, 0, x+h, 0.3*c, x+h, 0.8*c).LineTo(x+h, top-c).CurveTo(x+h, top-0.3*c, x+h-0.3*c, top, x+h-c, top)
	return o.LineTo(x-h+c, top).CurveTo(x-h+0.3*c, top, x-h, top-0.3*c, x-h, top-c).LineTo(x-h, 0.8*c).CurveTo(x-h, 0.3*c, x-h, 0, x-h+0.25*c, 0).Close().Map(f.f)
}

// both is a half section and its mirror as one run from sill to sill.
func both(list []body.Segment) []body.Segment {
	out := append([]body.Segment{}, list...)
	flip := func(p body.Point) body.Point { return body.Point{X: -p.X, Z: p.Z} }
	for i := len(list) - 1; i >= 0; i-- {
		s := list[i].Reversed()
		s.A, s.B, s.C, s.D = flip(s.A), flip(s.B), flip(s.C), flip(s.D)
		out = append(out, s)
	}
	return out
}

// body is what moves with the axle.
func (f *endFigure) body() {
	o := f.e.Body
	face := o.Face(f.axle)
	section := both(o.Section())
	lip := math.Min(1000*face.Lip.Z, 1000*o.Sills[1].Z+160)
	skirt := f.skirt(face, lip)
	g := draw.Group{}
	g.Add(seen(section).And(nil).Close().Map(f.f).Fill(draw.Skin), skirt.Close().Map(f.f).Fill(draw.Skin))
	for _, s := range []float64{-1, 1} { // what is hidden of the tyres
		if x := s * f.track / 2; f.tyre.known {
			g.Add(draw.Line(x-f.wide/2, lip+20, x-f.wide/2, f.tyre.loaded+f.tyre.r).LineTo(x+f.wide/2, f.tyre.loaded+f.tyre.r).LineTo(x+f.wide/2, lip+20).Map(f.f).Stroke(draw.W1.Pen().In(draw.Rule).Dashed()))
		}
	}
	faint, firm := draw.Pen{Role: draw.Ink2, W: draw.W2, Round: true}, draw.Pen{Role: draw.Ink, W: draw.W4, Round: true}
	f.face(&g, face)
	g.Add(skirt.Map(f.f).Stroke(faint))
	var a, z []body.Segment
	for _, s := range section {
		p, q := s.Halves()
		for _, h := range []body.Segment{p, q} {
			if h.FirmA {
				a = append(a, h)
			} else {
				z = append(z, h)
			}
		}
	}
	g.Add(seen(z).Map(f.f).Stroke(faint), seen(a).Map(f.f).Stroke(firm))
	f.datums(&g)
	g = g.WithID([2]string{"front", "rear"}[f.axle]).WithData("mm", decimal(f.f.SX/draw.Px, 5)).WithData("lift", decimal(float64(f.axle), 0))
	f.Add(g.Shift(0, -f.now*f.f.SX))
}

// skirt is the lower edge that an end shows, from sill to sill under the bumper.
func (f *endFigure) skirt(face body.Face, lip float64) draw.Outline {
	r := f.e.Body.Ribs()
	h, hz, lh := 1000*r[0].Half, 1000*r[0].Z, 1000*face.Lip.Half
	up := math.Max(lip, hz)
	return draw.Begin(h, hz).LineTo(h, up).CurveTo(h, up-0.25*(up-hz), lh+20, lip, lh-40, lip).LineTo(-lh+40, lip).CurveTo(-lh-20, lip, -h, up-0.25*(up-hz), -h, up).LineTo(-h, hz)
}

// face is glass, bonnet or boot edges, bumper and lamps.
func (f *endFigure) face(g *draw.Group, face body.Face) {
	o := f.e.Body
	thin, mid := draw.W1.Pen().In(draw.Ink2), draw.W2.Pen().In(draw.Ink2)
	ribs := o.Ribs()
	deck, edge := 1000*face.Deck.Z, 1000*face.Edge.Z
	across := func(half, z, bow float64) {
		g.Add(draw.Begin(-half, z).CurveTo(-0.5*half, z+bow, 0.5*half, z+bow, half, z).Map(f.f).Stroke(thin))
	}
	across(1000*face.Edge.Half, edge, 14)
	if face.Glass {
		foot, top := math.Max(deck, 1000*o.Waist.V)+22, 1000*ribs[4].Z-0.055*1000*o.Roof.V
		if top-foot > 80 {
			a, b := 0.93*1000*ribs[2].Half, 0.91*1000*ribs[3].Half
			g.Add(draw.Begin(-a, foot).CurveTo(-0.5*a, foot+16, 0.5*a, foot+16, a, foot).LineTo(b, top).CurveTo(0.5*b, top+12, -0.5*b, top+12, -b, top).Close().Map(f.f).FillStroke(draw.Paper, mid))
		}
		across(1000*face.Deck.Half, deck, 20)
	}
	if o.Form == "open two-seater" && f.axle == 0 {
		z, top := 1000*ribs[4].Z, 1000*o.Roof.V
		g.Add(draw.Begin(-0.8*f.half, z).LineTo(-0.7*f.half, top).LineTo(0.7*f.half, top).LineTo(0.8*f.half, z).Map(f.f).Stroke(mid))
	}
	b := 1000 * face.Bumper.Half
	g.Add(draw.Rect(-b, 1000*face.Bumper.Z-30, 2*b, 60).Map(f.f).FillStroke(draw.Skin, thin))
	f.lamps(g, edge)
}

// lamps are the lamps of the end; a centre that was read is crossed.
func (f *endFigure) lamps(g *draw.Group, edge float64) {
	if f.axle == 1 {
		edge = math.Min(edge, 1000*f.e.Body.Waist.V-40)
		for _, s := range []float64{-1, 1} {
			x := s*0.80*f.half - 55
			g.Add(draw.Rect(x, edge-190, 110, 130).Map(f.f).FillStroke(draw.Skin, draw.W1.Pen().In(draw.Ink2)))
		}
		return
	}
	z, known := mm(f.e.Lamp)
	if !known {
		z = edge - 120
	}
	pen := draw.W1.Pen().In(draw.Ink2)
	if known {
		pen = draw.W2.Pen()
	}
	for _, s := range []float64{-1, 1} {
		p := f.f.Pt(s*0.70*f.half, z)
		r := 78 * f.f.SX
		g.Add(draw.Circle(p.X, p.Y, r).FillStroke(draw.Skin, pen))
		if known {
			c := r + lettered(f.st, 4)
			g.Add(draw.Line(p.X-c, p.Y, p.X+c, p.Y).MoveTo(p.X, p.Y-c).LineTo(p.X, p.Y+c).Stroke(draw.W1.Pen().In(draw.Ink2).Chain()))
		}
	}
	if !known || f.e.tight {
		return
	}
	t := f.st.Text(draw.Body, f.f.X0, f.f.Pt(0, z).Y, "lamp "+plain(z, 0), draw.Middle).At(draw.Mid).On(draw.Skin)
	g.Add(t)
	a := f.f.Pt(0.70*f.half, z)
	g.Add(draw.Line(f.f.X0+t.Width()/2+lettered(f.st, 4), a.Y, a.X-78*f.f.SX-lettered(f.st, 6), a.Y).Stroke(draw.W1.Pen()))
}

// corner is the corner on a side as seen: −1 at the left of the view.
func (f *endFigure) corner(side float64) int {
	if side == f.left {
		return 2 * f.axle
	}
	return 2*f.axle + 1
}

// datums are triangles at the heights from ground to body that were read.
func (f *endFigure) datums(g *draw.Group) {
	for _, s := range []float64{-1, 1} {
		z, ok := mm(f.e.GroundToBody[f.corner(s)])
		if !ok {
			continue
		}
		p := f.f.Pt(s*f.halfAt(z), z)
		deg := 0.0
		if s < 0 {
			deg = 180
		}
		g.Add(draw.Triangle(f.st, p.X, p.Y, deg, draw.Ink))
	}
}

// halfAt is half the body's width at a height at ROAD [mm]; under the sill that of the sill.
func (f *endFigure) halfAt(z float64) float64 {
	half := 1000 * f.e.Body.Ribs()[0].Half
	for _, s := range f.e.Body.Section() {
		for i := range 20 {
			a, b := s.At(float64(i)/20), s.At(float64(i+1)/20)
			if lo, hi := 1000*math.Min(a.Z, b.Z), 1000*math.Max(a.Z, b.Z); z >= lo && z < hi {
				return 1000 * (a.X + (z/1000-a.Z)/(b.Z-a.Z)*(b.X-a.X))
			}
		}
	}
	return half
}

// heights letters ground to body beside the car, on both sides.
func (f *endFigure) heights(one float64) {
	for _, s := range []float64{-1, 1} {
		c := f.corner(s)
		z, ok := mm(f.e.GroundToBody[c])
		if !ok || f.e.tight {
			continue
		}
		anchor := draw.Start
		if s < 0 {
			anchor = draw.End
		}
		p := f.f.Pt(s*f.half, z+f.now)
		text := cornerNames[c] + " " + plain(z+f.now, 0)
		t := f.st.Text(draw.Bold, p.X+s*lettered(f.st, 13), p.Y, text, anchor).At(draw.Mid).On(draw.Paper)
		f.put(within(t, f.f.X0-one/2, f.f.X0+one/2))
	}
}

// lines is the scrub line between the tyres, and the middle of the car.
func (f *endFigure) lines(one float64) {
	chain := draw.W1.Pen().In(draw.Ink2).Chain()
	top := f.f.Pt(0, 1000*f.e.Body.Roof.V+f.now).Y - lettered(f.st, 5)
	f.Add(draw.Line(f.f.X0, top, f.f.X0, f.floor).Stroke(chain))
	z, ok := mm(f.e.Scrub)
	if !ok {
		return
	}
	a, b := f.f.Pt(-f.track/2-f.wide/2, z), f.f.Pt(f.track/2+f.wide/2, z)
	f.Add(draw.Line(a.X, a.Y, b.X, b.Y).Stroke(chain))
}

// below letters under the floor: left and right, the scrub line and the kerb, the track and the width.
func (f *endFigure) below() {
	line, st := f.st.Line(draw.Body), f.st
	y := f.floor + lettered(st, 8) + 0.9*line
	for _, s := range []float64{-1, 1} {
		word := "right"
		if s == f.left {
			word = "left"
		}
		t := st.Text(draw.Cap, f.f.Pt(s*f.track/2, 0).X, y, word, draw.Middle)
		if z, ok := mm(f.e.GroundToBody[f.corner(s)]); ok && f.e.tight {
			t = st.Text(draw.Bold, t.X, y, cornerNames[f.corner(s)]+" "+plain(z+f.now, 0), draw.Middle)
		}
		room := f.W/2 - lettered(st, 8)
		f.put(within(t, f.f.X0-room/2, f.f.X0+room/2))
	}
	if f.e.footRows() > 0 {
		y += 1.1 * line
		if z, ok := mm(f.e.Scrub); ok && f.axle == 0 {
			f.put(st.Text(draw.Body, f.f.X0, y, "scrub line "+plain(z, 0), draw.Middle))
		}
		if z, ok := mm(f.e.Kerb); ok && f.axle == 1 {
			f.put(st.Text(draw.Body, f.f.X0, y, "kerb "+plain(z, 0), draw.Middle))
		}
	}
	dim := func(half, off float64, known bool, words string) {
		if !known {
			return
		}
		a, b := draw.Pt(f.f.Pt(-half, 0).X, y+lettered(st, 2)), draw.Pt(f.f.Pt(half, 0).X, y+lettered(st, 2))
		text := words + " " + plain(2*half, 0)
		if st.Len(draw.Body, text)+2 > a.Dist(b) {
			text = plain(2*half, 0)
		}
		f.Add(draw.Dimension(st, a, b, -off, text))
	}
	dim(f.track/2, 1.35*line, f.e.Track[f.axle].Known(), "track")
	if f.axle == 0 {
		dim(f.half, 2.55*line, f.e.Body.Width.Known, "width")
	}
}

// caption names what is assumed.
func (f *endFigure) caption() {
	e := f.e
	var t []string
	for _, x := range []struct {
		known bool
		name  string
	}{{e.Body.Width.Known, "width"}, {e.Body.Roof.Known, "roof line"}, {e.Track[0].Known() && e.Track[1].Known(), "track"}, {e.Wheel[0].Known && e.Wheel[1].Known, "wheels"}, {e.Lamp.Known(), "lamps"}} {
		if !x.known {
			t = append(t, x.name)
		}
	}
	s := "Left and right as seated. Heights: ground to body. Firm: measured; faint: assumed"
	if len(t) > 0 {
		s += ", among them " + list(t)
	}
	lines := draw.Wrap(f.st.Face(draw.Cap), s+".", f.st.Size[draw.Cap], f.W)
	y := f.H - 0.35*f.st.Line(draw.Cap)
	f.H += float64(len(lines)-1) * f.st.Line(draw.Cap)
	for i, l := range lines {
		f.put(f.st.Text(draw.Cap, 0, y+float64(i)*f.st.Line(draw.Cap), l, draw.Start))
	}
}
