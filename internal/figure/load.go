package figure

import (
	"math"

	"jounce/internal/draw"
)

// LoadHeight is load over height of one spring at equal pressures. Lengths in metres,
// forces in newtons, pressures in pascals above the barometer.
type LoadHeight struct {
	Name      string // "Front spring"
	Isobars   []Isobar
	Least     float64    // height at which the rubber meets itself, or the table ends [m]
	Most      float64    // greatest height, or the table's end [m]
	LeastText string     // "rubber meets itself"; that where ""
	MostText  string     // "open"; that where ""
	Road      float64    // spring height at ROAD [m]
	Low, High float64    // spring height at DOWN and HIGH, 0 where no preset is known [m]
	Loads     [3]float64 // along the spring: empty, driver, full; 0 where not known [N]
	LoadText  [3]string  // their pressures: "3.5"
	TooSmall  *Isobar    // above it the spring is too small
	TooBig    *Isobar    // below it the spring is too big
}

// Isobar is load over height at one pressure.
type Isobar struct {
	Pressure float64   // [Pa] above the barometer
	Label    string    // "4 bar"; for a limit its whole name, "5.5 bar: too small above"
	Heights  []float64 // [m]
	Loads    []float64 // [N]
}

func (b Isobar) curve() curve { return curve{b.Heights, b.Loads}.finite() }

// the load cases in words.
var caseNames = [3]string{"empty", "driver", "full"}

type loadChart struct {
	*sheet
	c    LoadHeight
	x, y draw.Axis
}

// LoadChart draws load over height, width [mm] at least about 70.
func LoadChart(c LoadHeight, width float64, st draw.Style) draw.Scene {
	line := st.Line(draw.Body)
	h := math.Min(math.Max(0.8*width, lettered(st, 340)), lettered(st, 400))
	l := loadChart{newSheet(st, width, h, "load", c.Name+": load over height, at equal pressure"), c, draw.Axis{}, draw.Axis{}}
	l.Desc = "Working line at driver load from DOWN to HIGH, limits hatched."
	if !l.axes(line) {
		l.put(st.Text(draw.Cap, width/2, h/2, "No load table", draw.Middle))
		return l.Scene
	}
	l.loads()
	l.uprights()
	l.lines()
	l.presets()
	return l.Scene
}

// axes chooses the window: from limit to limit in height, and in load what the limits and the loads span.
func (l *loadChart) axes(line float64) bool {
	c := l.c
	x0, x1 := math.Inf(1), math.Inf(-1)
	y0, y1 := math.Inf(1), math.Inf(-1)
	for _, b := range c.Isobars {
		x0, x1 = span(x0, x1, b.curve().x...)
		y0, y1 = span(y0, y1, b.curve().y...)
	}
	for _, v := range []float64{c.Least, c.Most, c.Road, c.Low, c.High} {
		if v > 0 {
			x0, x1 = span(x0, x1, v)
		}
	}
	if x0 >= x1 || y0 >= y1 {
		return false
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, b := range []*Isobar{c.TooBig, c.TooSmall} {
		if b != nil {
			lo, hi = span(lo, hi, b.curve().y...)
		}
	}
	for _, v := range c.Loads {
		if v > 0 {
			lo, hi = span(lo, hi, v)
		}
	}
	if c.TooBig == nil {
		lo, hi = span(lo, hi, y0)
	}
	if c.TooSmall == nil {
		lo, hi = span(lo, hi, y1)
	}
	pad, side := 0.08*(hi-lo), 0.06*(x1-x0)
	lo = math.Max(0, lo-pad)
	ticks := draw.RoundTicks(lo/1000, (hi+pad)/1000, 5)
	text := tickText(ticks, "kN")
	left := 0.0
	for _, t := range text {
		left = math.Max(left, l.st.Len(draw.Body, t))
	}
	left += lettered(l.st, 8)
	l.x = draw.Axis{V0: x0 - side, V1: x1 + side, P0: left, P1: l.W - 1}
	l.y = draw.Axis{V0: lo, V1: hi + pad, P0: l.H - 3.9*line, P1: 0.5 * line}
	for i, v := range ticks {
		y := l.y.At(v * 1000)
		l.Add(draw.Line(left, y, l.x.P1, y).Stroke(draw.W1.Pen().In(draw.Rule)))
		l.put(l.st.Text(draw.Body, left-lettered(l.st, 7), y, text[i], draw.End).At(draw.Mid))
	}
	l.Add(draw.Line(left, l.y.P1, left, l.y.P0).Stroke(draw.W1.Pen()), draw.Line(left, l.y.P0, l.x.P1, l.y.P0).Stroke(draw.W1.Pen()))
	return true
}

// on is the isobar on the paper, cut off at the window's upper and lower edge.
func (l *loadChart) on(b Isobar) []draw.Point { return b.curve().on(l.x, l.y) }

// lines draws isobars and limits, then names them where nothing else stands.
func (l *loadChart) lines() {
	clip := draw.Box{X0: l.x.P0, Y0: l.y.P1, X1: l.x.P1, Y1: l.y.P0}
	g := draw.Group{Clip: &clip}
	for _, b := range l.c.Isobars {
		g.Add(draw.Polyline(l.on(b)...).Stroke(draw.W1.Pen()))
	}
	if b := l.c.TooSmall; b != nil {
		g.Add(draw.LimitLine(l.st, l.on(*b), draw.OnLeft))
	}
	if b := l.c.TooBig; b != nil {
		g.Add(draw.LimitLine(l.st, l.on(*b), draw.OnRight))
	}
	// The lettering has its halo over the lines: they come first.
	l.Items = append([]draw.Item{g}, l.Items...)
	if b := l.c.TooSmall; b != nil {
		l.limitName(*b, false)
	}
	if b := l.c.TooBig; b != nil {
		l.limitName(*b, true)
	}
	for _, b := range l.c.Isobars {
		l.name(b, draw.Body, []float64{0.78, 0.84, 0.7, 0.9, 0.24, 0.3, 0.18})
	}
}

// limitName stands on the side that is allowed, clear of the ticks; on the line where the room is taken.
func (l *loadChart) limitName(b Isobar, above bool) {
	pts, w := l.on(b), l.st.Len(draw.Bold, b.Label)
	cap, gap := 0.7*l.st.Size[draw.Bold], lettered(l.st, 5)
	for _, part := range []float64{0.5, 0.42, 0.58, 0.35, 0.65, 0.3, 0.7} {
		x := l.x.P0 + part*(l.x.P1-l.x.P0) - w/2
		top, bottom, ok := runs(pts, x, x+w)
		y := bottom + gap + cap
		if above {
			y = top - gap
		}
		if ok && x > l.x.P0 && x+w < l.x.P1 && y-cap > l.y.P1 && y < l.y.P0 && l.tryPut(l.st.Text(draw.Bold, x, y, b.Label, draw.Start).On(draw.Paper)) {
			return
		}
	}
	l.name(b, draw.Bold, []float64{0.5, 0.4, 0.6, 0.3, 0.7})
}

// name letters a curve on itself, at the first part of the width that is free.
func (l *loadChart) name(b Isobar, class draw.Size, parts []float64) {
	w := l.st.Len(class, b.Label)
	for _, part := range parts {
		x := l.x.P0 + part*(l.x.P1-l.x.P0)
		v, ok := b.curve().at(l.x.Value(x))
		y := l.y.At(v)
		if !ok || y < l.y.P1+l.st.Size[class] || y > l.y.P0-l.st.Size[class] || x-w/2 < l.x.P0 || x+w/2 > l.x.P1 {
			continue
		}
		if l.tryPut(l.st.Text(class, x, y, b.Label, draw.Middle).At(draw.Mid).On(draw.Paper)) {
			return
		}
	}
}

// loads draws the working line and the dots on the ROAD upright. Load does not change with height, so the line is level.
func (l *loadChart) loads() {
	c := l.c
	if !(c.Road > 0) {
		return
	}
	x, r := l.x.At(c.Road), l.st.Arrow*0.36
	if c.Loads[1] > 0 && c.Low > 0 && c.High > c.Low {
		y, h := l.y.At(c.Loads[1]), l.st.Tick*0.8
		a, b := l.x.At(c.Low), l.x.At(c.High)
		l.Add(draw.Line(a, y, b, y).Stroke(draw.W3.Pen()), draw.Line(a, y-h, a, y+h).MoveTo(b, y-h).LineTo(b, y+h).Stroke(draw.W2.Pen()))
		l.take(draw.Box{X0: a, Y0: y - h, X1: b, Y1: y + h})
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	var want, size []float64
	var text []draw.Text
	widest := 0.0
	for i, n := range c.Loads {
		if n > 0 {
			lo, hi = span(lo, hi, l.y.At(n))
			t := caseNames[i]
			if c.LoadText[i] != "" {
				t += nbsp + c.LoadText[i]
			}
			want, size = append(want, l.y.At(n)), append(size, l.st.Size[draw.Body]*1.05)
			text = append(text, l.st.Text(draw.Bold, x-2.2*r, 0, t, draw.End).At(draw.Mid).On(draw.Paper))
			widest = math.Max(widest, l.st.Len(draw.Bold, t))
		}
	}
	if lo > hi {
		return
	}
	l.Add(draw.Line(x, lo, x, hi).Stroke(draw.W1.Pen()))
	l.take(draw.Box{X0: x - r, Y0: lo - r, X1: x + r, Y1: hi + r})
	at, _ := draw.Spread(want, size, 0, l.y.P1, l.y.P0)
	for i, t := range text {
		t.Y = at[i]
		if x-2.2*r-widest < l.x.P0+1 { // ROAD is near the left edge: the words stand right of it
			t.X, t.Anchor = x+2.2*r, draw.Start
		}
		l.put(t)
	}
	for _, n := range c.Loads {
		if n > 0 {
			l.Add(draw.Circle(x, l.y.At(n), r).Fill(draw.Ink))
		}
	}
}

// uprights are the ends of the spring, hatched outwards.
func (l *loadChart) uprights() {
	end := func(v float64, side draw.Side) {
		if v > 0 {
			x := l.x.At(v)
			l.Add(draw.LimitLine(l.st, []draw.Point{draw.Pt(x, l.y.P0), draw.Pt(x, l.y.P1)}, side))
			l.take(draw.Box{X0: x - l.st.Tick, Y0: l.y.P1, X1: x + l.st.Tick, Y1: l.y.P0})
		}
	}
	end(l.c.Least, draw.OnLeft)
	end(l.c.Most, draw.OnRight)
}

// presets are the ticks of the height axis with the spring's own height under them, and below these its two ends.
func (l *loadChart) presets() {
	line, foot := l.st.Line(draw.Body), l.y.P0
	var want, size, at []float64
	var name, value []string
	add := func(n string, v float64) {
		if v > 0 {
			t := plain(v*1000, 0)
			want, name, value = append(want, l.x.At(v)), append(name, n), append(value, t)
			size = append(size, math.Max(l.st.Len(draw.Body, n), l.st.Len(draw.Bold, t)))
		}
	}
	add("DOWN", l.c.Low)
	add("ROAD", l.c.Road)
	add("HIGH", l.c.High)
	at, _ = draw.Spread(want, size, lettered(l.st, 6), 0, l.W)
	for i := range at {
		class := draw.Body
		if name[i] == "ROAD" {
			class = draw.Bold
		}
		l.Add(draw.Line(want[i], foot, want[i], foot+lettered(l.st, 7)).Stroke(draw.W1.Pen()))
		l.put(l.st.Text(class, at[i], foot+1.35*line, name[i], draw.Middle))
		l.put(l.st.Text(class, at[i], foot+2.3*line, value[i], draw.Middle))
	}
	if l.st.Medium == draw.Screen && l.c.Road > 0 {
		l.Add(draw.Triangle(l.st, l.x.At(l.c.Road), foot, 90, draw.Move))
	}
	l.ends(foot + 3.35*line)
}

func (l *loadChart) ends(y float64) {
	word := func(s, d string) string {
		if s == "" {
			return d
		}
		return s
	}
	var t []draw.Text
	if l.c.Least > 0 {
		t = append(t, within(l.st.Text(draw.Cap, l.x.At(l.c.Least), y, word(l.c.LeastText, "rubber meets itself")+nbsp+plain(l.c.Least*1000, 0), draw.Middle), 0, l.W))
	}
	if l.c.Most > 0 {
		t = append(t, within(l.st.Text(draw.Cap, l.x.At(l.c.Most), y, word(l.c.MostText, "open")+nbsp+plain(l.c.Most*1000, 0), draw.Middle), 0, l.W))
	}
	for i, v := range t {
		if !l.tryPut(v) && i > 0 { // no room beside the other: on the line above, where the presets leave it
			v.Y = y + 0.5*l.st.Line(draw.Body)
			l.tryPut(v)
		}
	}
}
