package figure

import (
	"math"
	"slices"
	"strings"

	"jounce/internal/draw"
	"jounce/internal/finding"
)

// Side is the heights picture: the car from the left, front to the left, the floor at 0. A Number that is not known is
// assumed from the form's proportions and drawn so, or left out.
type Side struct {
	Form          string         // "saloon", "coupé", "estate", "hatch", "pickup", "van", "open two-seater"
	Wheelbase     finding.Number // [m]
	FrontOverhang finding.Number // front hub to the foremost point [m]
	RearOverhang  finding.Number // rear hub to the rearmost point [m]
	Roof          finding.Number // above the floor at ROAD [m]
	Wheel         [2]Wheel
	Sill          finding.Number    // as read, above the floor at ROAD [m]
	SillAt        [4]finding.Number // at DOWN, ROAD, HUMP, HIGH [m]
	Lowest        finding.Number    // lowest hard part above the floor at ROAD [m]
	LowestName    string            // which it is
	LowestAt      [4]finding.Number // [m]
	Scrub         finding.Number    // scrub line, the lower of the two axles [m]
	HubToArch     [4]finding.Number // FL FR RL RR [m]
	Change        [4][2]finding.Number
	Preset        int  // in force, in the order of SillAt; 1 is ROAD
	Growing       bool // drawn with three pens while the car is being measured: measured, worked out, assumed
}

// Wheel is one axle's tyre as the picture needs it.
type Wheel struct {
	Known    bool
	Diameter finding.Number // [m]
	Loaded   finding.Number // loaded radius [m]
	Flange   finding.Number // rim edge radius [m]
	Measured bool           // the loaded radius was read, not worked out
}

// the presets in the order of SillAt.
var presetNames = [4]string{"DOWN", "ROAD", "HUMP", "HIGH"}

// sideFigure is the picture under work.
type sideFigure struct {
	*sheet
	s      Side
	b      shell
	f      draw.Frame
	floor  float64    // y of the floor [mm on the paper]
	wheel  [2]wheelMM // [mm]
	fan    float64    // width kept for the heights at the tail [mm]; 0 where they stand below
	narrow bool
}

type wheelMM struct {
	r, loaded, flange float64
	known             bool
}

// scales are those of ISO 5455 for reduction.
var scales = []float64{1, 2, 5, 10, 20, 50, 100, 200}

// SideScale is the scale 1 : n of ISO 5455 at which the picture fits a width [mm] on paper, its lettering beside it.
func SideScale(s Side, width float64, st draw.Style) int {
	f := sideFigure{sheet: newSheet(st, width, 1, "", ""), s: s}
	f.layout()
	room := width - f.margins()
	for _, n := range scales {
		if (f.b.tail-f.b.nose)/n <= room {
			return int(n)
		}
	}
	return int(scales[len(scales)-1])
}

// SideView draws the heights picture, width [mm]. On paper its scale is one of ISO 5455, see SideScale; on a screen it
// fills the width. The body is a group with the id "body" that a page may move up and down by itself.
func SideView(s Side, width float64, st draw.Style) draw.Scene {
	f := sideFigure{sheet: newSheet(st, width, 1, "side", "The car from the left, front to the left, with its heights"), s: s}
	f.layout()
	k := (width - f.margins()) / (f.b.tail - f.b.nose)
	if st.Medium == draw.Print {
		k = 1 / float64(SideScale(s, width, st))
	}
	if !(k > 0) || math.IsInf(k, 0) {
		k = 1e-3
	}
	line := st.Line(draw.Body)
	top := 1.9 * line
	high := math.Max(f.change(3, 0), math.Max(f.change(3, 1), 0))
	f.floor = top + k*(f.b.roof+high)
	f.H = f.floor + f.below(line)
	x0 := lettered(st, 8) - k*f.b.nose
	if st.Medium == draw.Print {
		x0 += (width - f.margins() - k*(f.b.tail-f.b.nose)) / 2
	}
	f.f = draw.Frame{X0: x0, Y0: f.floor, SX: k, SY: -k}
	f.Desc = f.says()
	f.ground()
	f.car()
	f.wheels()
	f.lines()
	f.marks()
	f.extremes()
	f.heights()
	f.dimensions()
	f.caption()
	return f.Scene
}

// layout fills in what is not measured.
func (f *sideFigure) layout() {
	s := f.s
	p := proportionOf(s.Form)
	wb := mmOr(s.Wheelbase, 2540)
	if wb < 500 {
		wb = 2540
	}
	k := wb / 2540
	for i, w := range s.Wheel {
		o := s.Wheel[1-i] // one axle's tyre stands for the other's
		if !w.Known && o.Known {
			w = o
			w.Known = false
		}
		r := mmOr(w.Diameter, 610) / 2
		loaded := math.Min(mmOr(w.Loaded, 0.955*r), r)
		f.wheel[i] = wheelMM{r, loaded, math.Min(mmOr(w.Flange, 0.62*r), 0.95*r), s.Wheel[i].Known}
	}
	var hub, arch [2]float64
	for i := range 2 {
		hub[i] = f.wheel[i].loaded
		arch[i] = math.Max(mmOr(s.HubToArch[2*i], f.wheel[i].r+62), 0.6*f.wheel[i].r)
	}
	sill := mmOr(s.Sill, 0.62*hub[0])
	roof := math.Max(mmOr(s.Roof, p.roof), 1.2*math.Max(hub[0]+arch[0], hub[1]+arch[1]))
	f.b = newBody(s.Form, wb, math.Max(mmOr(s.FrontOverhang, p.front*k), f.wheel[0].r+90), math.Max(mmOr(s.RearOverhang, p.rear*k), f.wheel[1].r+90), roof, sill, hub, arch)
	f.narrow = narrow(f.W, f.st)
	if !f.narrow && f.anySill() {
		f.fan = lettered(f.st, 40) + f.st.Len(draw.Bold, "188 ROAD")
	}
}

func (f *sideFigure) anySill() bool {
	for _, n := range f.s.SillAt {
		if n.Known() {
			return true
		}
	}
	return false
}

// margins is the width that the car does not have [mm].
func (f *sideFigure) margins() float64 { return lettered(f.st, 16) + f.fan }

// below is the room under the floor [mm].
func (f *sideFigure) below(line float64) float64 {
	h := 2.6 * line
	if f.s.Scrub.Known() {
		h += 0.9 * line
	}
	if f.narrow && f.anySill() {
		h += 2.2 * line
	}
	return h + 1.3*line
}

// change is how far the body is from ROAD at an axle [mm], 0 where not known.
func (f *sideFigure) change(preset, axle int) float64 {
	if preset < 0 || preset > 3 {
		return 0
	}
	return mmOr(f.s.Change[preset][axle], 0)
}

func (f *sideFigure) says() string {
	var t []string
	for i, n := range f.s.SillAt {
		if v, ok := mm(n); ok {
			t = append(t, presetNames[i]+" "+plain(v, 0))
		}
	}
	if len(t) == 0 {
		return "Sill heights are not known."
	}
	return "Sill above the floor in mm: " + strings.Join(t, ", ") + "."
}

// ground draws the floor.
func (f *sideFigure) ground() { f.Add(draw.FloorLine(f.st, 0, f.W, f.floor)) }

// moved is the group of the body at a preset: lifted at the front axle, turned by what the axles differ.
func (f *sideFigure) moved(g draw.Group, preset int) draw.Group {
	a, b := f.change(preset, 0), f.change(preset, 1)
	deg := math.Atan2(b-a, f.b.wb) * 180 / math.Pi
	return g.Turn(f.f.Pt(0, f.b.hub[0]), deg).Shift(0, -a*f.f.SX)
}

// extremes are DOWN and HIGH as double-dot chains.
func (f *sideFigure) extremes() {
	if f.s.Growing {
		return
	}
	pen := draw.W1.Pen().In(draw.Ink2).ChainTwo()
	var names []draw.Text
	for _, p := range []int{0, 3} {
		if p == f.s.Preset || !f.s.Change[p][0].Known() && !f.s.Change[p][1].Known() {
			continue
		}
		if p == 0 && f.narrow { // too near the outline to be told apart
			continue
		}
		f.Add(f.moved(draw.G(f.b.crest().Map(f.f).Stroke(pen)), p))
		x := f.b.peak()
		y := f.f.Pt(0, f.b.topAt(x)+f.lift(p, x)).Y
		t := f.st.Text(draw.Cap, f.f.Pt(x, 0).X, y-lettered(f.st, 4), presetNames[p], draw.Middle)
		if p == 0 { // below its own line, on the glass
			t = t.At(draw.Top).On(draw.Skin)
			t.Y = y + lettered(f.st, 5)
		}
		names = append(names, t)
	}
	for _, t := range names {
		f.tryPut(t)
	}
}

// lift is how far the body over x is from ROAD at a preset [mm].
func (f *sideFigure) lift(preset int, x float64) float64 {
	a, b := f.change(preset, 0), f.change(preset, 1)
	return a + (b-a)*x/f.b.wb
}

// car draws the body at the preset in force.
func (f *sideFigure) car() {
	b := f.b
	g := draw.Group{}
	assumed, out := draw.W1.Pen().In(draw.Rule).Dashed(), draw.Pen{Role: draw.Ink, W: draw.W4}
	g.Add(b.closed().Map(f.f).Fill(draw.Skin))
	if f.s.Growing {
		f.grow(&g, assumed)
	} else {
		for _, w := range b.glass() {
			g.Add(w.Map(f.f).Stroke(draw.W2.Pen()))
		}
		g.Add(b.shuts().Map(f.f).Stroke(draw.W1.Pen()), b.fittings().Map(f.f).FillStroke(draw.Skin, draw.W2.Pen()), b.handles().Map(f.f).Stroke(draw.W2.Pen()))
		g.Add(b.closed().Map(f.f).Stroke(out))
	}
	f.Add(f.moved(g, f.s.Preset).WithID("body"))
}

// grow draws the body with three pens. A measured extent is firm at its measured end only.
func (f *sideFigure) grow(g *draw.Group, assumed draw.Pen) {
	b, s := f.b, f.s
	firm := draw.W3.Pen()
	for _, w := range b.glass() {
		g.Add(w.Map(f.f).Stroke(assumed))
	}
	g.Add(b.shuts().Map(f.f).Stroke(assumed))
	k := 260.0 * b.wb / 2540
	roofLo := b.roof - 0.10*b.roof
	ends := []struct {
		known  bool
		inside func(p draw.Point) bool
	}{
		{s.FrontOverhang.Known(), func(p draw.Point) bool { return p.X < b.nose+k }},
		{s.RearOverhang.Known(), func(p draw.Point) bool { return p.X > b.tail-k }},
		{s.Roof.Known(), func(p draw.Point) bool { return p.Y > roofLo }},
	}
	draws := func(pts []draw.Point) {
		for i := 1; i < len(pts); i++ {
			on := func(j int) bool {
				m := pts[j-1].To(pts[j], 0.5)
				for _, e := range ends {
					if e.known && e.inside(m) {
						return true
					}
				}
				return false
			}
			first, is := i, on(i)
			for i+1 < len(pts) && on(i+1) == is {
				i++
			}
			pen := assumed
			if is {
				pen = firm
			}
			g.Add(draw.Polyline(pts[first-1 : i+1]...).Map(f.f).Stroke(pen))
		}
	}
	for _, run := range b.upper().Flatten(1) {
		draws(dense(run, 30))
	}
	for i := range 2 {
		pen := assumed
		if s.HubToArch[2*i].Known() {
			pen = firm
		}
		g.Add(draw.Polyline(b.archLine(i)...).Map(f.f).Stroke(pen))
	}
	pen := assumed
	if s.Sill.Known() {
		pen = firm
	}
	g.Add(b.sillLine().Map(f.f).Stroke(pen))
}

// dense is the run with no step longer than most [mm].
func dense(run []draw.Point, most float64) []draw.Point {
	out := run[:1:1]
	for i := 1; i < len(run); i++ {
		n := max(1, int(math.Ceil(run[i-1].Dist(run[i])/most)))
		for k := 1; k <= n; k++ {
			out = append(out, run[i-1].To(run[i], float64(k)/float64(n)))
		}
	}
	return out
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
		f.Add(draw.Line(c.X-w.r*k-over, c.Y, c.X+w.r*k+over, c.Y).MoveTo(c.X, c.Y-(f.b.arch[i]*k)-over).LineTo(c.X, f.floor).Stroke(chain))
	}
}

// lines are the scrub line and the lowest part.
func (f *sideFigure) lines() {
	if z, ok := mm(f.s.Scrub); ok {
		a := f.f.Pt(-f.wheel[0].flange, z)
		e := f.f.Pt(f.b.wb+f.wheel[1].flange, z)
		f.Add(draw.Line(a.X, a.Y, e.X, e.Y).Stroke(draw.W1.Pen().In(draw.Ink2).Chain()))
		x := f.f.Pt(f.wheel[0].r+60, 0).X
		y := f.floor + 1.15*f.st.Line(draw.Body)
		f.Add(draw.Leader(f.st, draw.Pt(x, a.Y), draw.Pt(x, y-0.8*f.st.Size[draw.Body])))
		f.put(within(f.st.Text(draw.Body, x, y, "scrub line "+plain(z, 0), draw.Start).On(draw.Paper), 0, f.W))
	}
	if z, ok := mm(f.s.Lowest); ok {
		d := f.lift(f.s.Preset, 0.5*f.b.wb)
		p := f.f.Pt(0.5*f.b.wb, z+d)
		w := 70 * f.f.SX
		f.Add(draw.Rect(p.X-w, p.Y-34*f.f.SX, 2*w, 34*f.f.SX).FillStroke(draw.Paper, draw.W2.Pen()))
		if f.s.Preset >= 0 && f.s.Preset < 4 {
			if v, known := mm(f.s.LowestAt[f.s.Preset]); known {
				z = v
			}
		}
		name := strings.TrimSpace(f.s.LowestName + " " + plain(z, 0))
		if f.s.LowestName == "" {
			name = "lowest " + plain(z, 0)
		}
		if f.st.Len(draw.Body, name) > 0.7*f.b.wb*f.f.SX {
			name = plain(z, 0)
		}
		y := f.f.Pt(0, f.b.sill+d).Y - lettered(f.st, 26)
		t := f.st.Text(draw.Body, p.X, y, name, draw.Middle).On(draw.Skin)
		f.Add(draw.Leader(f.st, p, draw.Pt(p.X, y+lettered(f.st, 4))))
		f.put(t)
	}
}

// marks are the sill's datum triangles and the arch heights.
func (f *sideFigure) marks() {
	if f.s.Sill.Known() {
		g := draw.Group{}
		for _, part := range []float64{0.27, 0.73} {
			p := f.f.Pt(part*f.b.wb, f.b.sill)
			l := f.st.Arrow * 0.9
			g.Add(draw.Polygon(p.Add(-0.6*l, -l), p.Add(0.6*l, -l), p).Fill(draw.Ink))
		}
		f.Add(f.moved(g, f.s.Preset))
	}
	for i := range 2 {
		v, ok := mm(f.s.HubToArch[2*i])
		if !ok {
			continue
		}
		x := float64(i) * f.b.wb
		d := f.change(f.s.Preset, i)
		hub, edge := f.f.Pt(x, f.wheel[i].loaded), f.f.Pt(x, f.wheel[i].loaded+f.b.arch[i]+d)
		f.Add(draw.Line(hub.X, hub.Y, edge.X, edge.Y).Stroke(draw.W1.Pen()), draw.Dot(f.st, edge.X, edge.Y))
		if d != 0 {
			continue // what was read holds at ROAD only
		}
		text := f.st.Text(draw.Bold, edge.X, edge.Y-lettered(f.st, 8), plain(v, 0), draw.Middle).On(draw.Skin)
		if top := f.f.Pt(x, f.b.topAt(x)).Y; edge.Y-top < lettered(f.st, 14)+0.7*f.st.Size[draw.Bold] {
			// No room under the wing: above it, clear of the outline and of HIGH.
			y := top - lettered(f.st, 8) - math.Max(0, f.lift(3, x)*f.f.SX)
			f.Add(draw.Line(edge.X, edge.Y, edge.X, y).Stroke(draw.W1.Pen()))
			text = text.On(draw.Paper)
			text.Y = y - lettered(f.st, 3)
		}
		f.tryPut(text)
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
		class, pen := draw.Body, draw.W1.Pen()
		if h.p == f.s.Preset {
			class = draw.Bold
			pen = draw.W2.Pen()
			if f.st.Medium == draw.Screen {
				pen = draw.W3.Pen().In(draw.Move)
			}
			f.present(x0, want[i], pen)
		}
		f.Add(draw.Polyline(draw.Pt(x0, want[i]), draw.Pt(x1, want[i]), draw.Pt(x2, at[i]), draw.Pt(x2+lettered(f.st, 4), at[i])).Stroke(draw.W1.Pen()))
		f.put(f.st.Text(class, x2+lettered(f.st, 7), at[i], plain(h.v, 0)+nbsp+presetNames[h.p], draw.Start).At(draw.Mid).On(draw.Paper))
	}
	f.put(within(f.st.Text(draw.Cap, x2+lettered(f.st, 7), slices.Min(at)-1.3*line, "sill", draw.Start).At(draw.Mid).On(draw.Paper), 0, f.W))
}

// present is the sill's present height: from the rear arch to the fan, with a pointer.
func (f *sideFigure) present(x, y float64, pen draw.Pen) {
	_, foot, _ := f.b.feet(1, f.b.pts[len(f.b.pts)-1].z)
	f.Add(draw.Line(f.f.Pt(math.Max(foot, f.b.wb+f.wheel[1].r)+20, 0).X, y, x, y).Stroke(pen))
	if f.st.Medium == draw.Screen {
		f.Add(draw.Triangle(f.st, x-lettered(f.st, 2), y, 0, draw.Move))
	} else {
		f.Add(draw.Triangle(f.st, x-lettered(f.st, 2), y, 0, draw.Ink))
	}
}

// dimensions are wheelbase and overhangs, those that are measured.
func (f *sideFigure) dimensions() {
	line := f.st.Line(draw.Body)
	off := 2.45 * line
	if f.s.Scrub.Known() {
		off += 0.3 * line
	}
	at := func(x float64) draw.Point { return draw.Pt(f.f.Pt(x, 0).X, f.floor+lettered(f.st, 8)) }
	off -= lettered(f.st, 8)
	dim := func(n finding.Number, a, b float64, word string) {
		v, ok := mm(n)
		if !ok {
			return
		}
		text := plain(v, 0)
		if word != "" && f.st.Len(draw.Body, word+" "+text)+2 < at(a).Dist(at(b)) {
			text = word + " " + text
		}
		g := draw.Dimension(f.st, at(a), at(b), -off, text)
		f.Add(g)
	}
	dim(f.s.FrontOverhang, f.b.nose, 0, "")
	dim(f.s.Wheelbase, 0, f.b.wb, "wheelbase")
	dim(f.s.RearOverhang, f.b.wb, f.b.tail, "")
}

// caption names what is assumed.
func (f *sideFigure) caption() {
	var t []string
	for _, e := range []struct {
		n    finding.Number
		name string
	}{{f.s.Wheelbase, "wheelbase"}, {f.s.FrontOverhang, "nose"}, {f.s.RearOverhang, "tail"}, {f.s.Roof, "roof line"}, {f.s.Sill, "sill"}, {f.s.HubToArch[0], "front arch"}, {f.s.HubToArch[2], "rear arch"}} {
		if !e.n.Known() {
			t = append(t, e.name)
		}
	}
	for i, w := range f.wheel {
		if !w.known {
			t = append(t, [2]string{"front wheel", "rear wheel"}[i])
		}
	}
	s := "Between what is measured the outline is assumed."
	if len(t) > 0 {
		s = "Assumed: " + strings.Join(t, ", ") + "."
	}
	lines := draw.Wrap(f.st.Face(draw.Cap), s, f.st.Size[draw.Cap], f.W)
	y := f.H - 0.35*f.st.Line(draw.Cap)
	f.H += float64(len(lines)-1) * f.st.Line(draw.Cap)
	for i, l := range lines {
		f.put(f.st.Text(draw.Cap, 0, y+float64(i)*f.st.Line(draw.Cap), l, draw.Start))
	}
}
