package figure

import (
	"math"

	"jounce/internal/draw"
	"jounce/internal/finding"
)

// Travel is the travel of one axle at the wheel, from ROAD. Heights of the body are
// positive up: what is met on the way down has a negative At.
type Travel struct {
	Name             string         // "front"
	Bump, Droop      finding.Number // room left down and up, to the first that ends it [m]
	StopMeets        finding.Number // where the bump stop is first touched [m]
	BumpParts        []Ending       // in the order in which they end it
	DroopParts       []Ending
	Known            bool
	Down, Hump, High finding.Number // the presets [m]
	Gap              string         // why it is not known
}

// Ending is one part that ends travel.
type Ending struct {
	Name string         // "strap"
	At   finding.Number // of the body, from ROAD, down is minus [m]
	Ends bool           // it is the first
}

// travelFigure is the figure of one or more axles side by side.
type travelFigure struct {
	*sheet
	y      draw.Axis
	cols   []travelCol
	labelW float64
}

type travelCol struct {
	t    Travel
	x, w float64 // the bar
	end  float64 // right end of its lettering
}

// TravelBars draws the travel of the axles as upright bars, HIGH at the top as on the car. Two axles stand side by side
// where the width [mm] allows it, else the caller draws them one by one: see TravelWidth.
func TravelBars(axles []Travel, width float64, st draw.Style) draw.Scene {
	f := travelFigure{sheet: newSheet(st, width, 0, "travel", "Travel at the wheel, mm from ROAD")}
	line := st.Line(draw.Body)
	lo, hi := travelSpan(axles)
	tall := lettered(st, 300)
	if narrow(width, st) {
		tall = lettered(st, 290)
	}
	top, foot := 1.8*line, 0.6*line
	f.labelW = 0
	for _, p := range f.presets(axles) {
		f.labelW = math.Max(f.labelW, p.width(st))
	}
	f.columns(axles)
	// More room above and below until the names of what ends travel fit.
	for range 12 {
		f.H = top + tall + foot
		f.y = draw.Axis{V0: lo, V1: hi, P0: top + tall, P1: top}
		more := false
		for _, c := range f.cols {
			_, _, okUp, okDown := f.places(c)
			more = more || !okUp || !okDown
		}
		if !more {
			break
		}
		tall += 2 * line
	}
	for i, c := range f.cols {
		f.bar(c)
		f.ends(c)
		f.Desc += travelWords(axles[i])
	}
	f.presetLines(axles)
	for _, c := range f.cols {
		f.rooms(c)
	}
	return f.Scene
}

// TravelWidth is the least width [mm] at which two axles fit beside each other.
func TravelWidth(axles []Travel, st draw.Style) float64 {
	f := travelFigure{sheet: newSheet(st, 1, 1, "", "")}
	w := 0.0
	for _, p := range f.presets(axles) {
		w = math.Max(w, p.width(st))
	}
	for _, a := range axles {
		w += lettered(st, 78) + f.widest(a)
	}
	return w + lettered(st, 20)
}

func travelWords(t Travel) string {
	if !t.Known {
		return t.Name + ": " + t.Gap + ". "
	}
	return t.Name + ": " + t.Droop.String() + " up, " + t.Bump.String() + " down. "
}

// travelSpan is the window in millimetres: all that is named, and a little past it.
func travelSpan(axles []Travel) (lo, hi float64) {
	lo, hi = -40, 30
	for _, t := range axles {
		for _, n := range []finding.Number{t.Down, t.Hump, t.High, t.StopMeets} {
			if v, ok := mm(n); ok {
				lo, hi = span(lo, hi, v)
			}
		}
		for _, list := range [][]Ending{t.BumpParts, t.DroopParts} {
			for _, e := range list {
				if v, ok := mm(e.At); ok && math.Abs(v) < 400 {
					lo, hi = span(lo, hi, v)
				}
			}
		}
	}
	pad := 0.12 * (hi - lo)
	return lo - pad, hi + pad
}

type presetLine struct {
	text string
	more string    // on a second line: the other axle's, where it differs
	at   []float64 // of each axle [mm]; NaN where not known
	road bool
}

// width is the room that the line's words take [mm].
func (p presetLine) width(st draw.Style) float64 {
	return math.Max(st.Len(draw.Bold, p.text), st.Len(draw.Cap, p.more))
}

// presets are the lines that run through all bars.
func (f *travelFigure) presets(axles []Travel) []presetLine {
	out := []presetLine{{text: "ROAD" + nbsp + "0", road: true}}
	for range axles {
		out[0].at = append(out[0].at, 0)
	}
	for i, name := range []string{"HIGH", "HUMP", "DOWN"} {
		p := presetLine{text: name}
		same, known := true, false
		first := math.NaN()
		for _, t := range axles {
			v, ok := mm([]finding.Number{t.High, t.Hump, t.Down}[i])
			if !ok {
				v = math.NaN()
			} else if !known {
				known, first = true, v
			} else if math.Abs(v-first) > 0.5 {
				same = false
			}
			p.at = append(p.at, v)
		}
		if !known {
			continue
		}
		p.text += nbsp + signed(first)
		if !same && len(axles) > 1 {
			p.text = name + nbsp + signedOr(p.at[0])
			p.more = axles[1].Name + nbsp + signedOr(p.at[1])
		}
		out = append(out, p)
	}
	return out
}

// signedOr is a height with its sign, or a dash where it is not known.
func signedOr(v float64) string {
	if math.IsNaN(v) {
		return "–"
	}
	return signed(v)
}

func (f *travelFigure) widest(t Travel) float64 {
	w := 0.0
	for _, list := range [][]label{f.labels(t, true), f.labels(t, false)} {
		for _, l := range list {
			w = math.Max(w, f.st.Len(l.class, l.text))
		}
	}
	return math.Max(w, lettered(f.st, 40))
}

func (f *travelFigure) columns(axles []Travel) {
	x := f.labelW + lettered(f.st, 24)
	w := lettered(f.st, 28)
	slack := 0.0
	if need := TravelWidth(axles, f.st); len(axles) > 0 {
		slack = math.Max(0, f.W-need) / float64(len(axles))
	}
	for _, t := range axles {
		end := x + w + lettered(f.st, 34) + f.widest(t)
		f.cols = append(f.cols, travelCol{t, x, w, end})
		x = end + lettered(f.st, 16) + slack*0.8
	}
}

// label is one name beside a bar.
type label struct {
	text  string
	class draw.Size
	at    float64 // [mm] from ROAD
}

// labels are the names of what ends travel up or down, and the bump stop's first touch.
func (f *travelFigure) labels(t Travel, up bool) []label {
	list := t.BumpParts
	if up {
		list = t.DroopParts
	}
	var out []label
	if v, ok := mm(t.StopMeets); ok && !up {
		out = append(out, label{"stop meets " + signed(v), draw.Bold, v})
	}
	for _, e := range list {
		v, ok := mm(e.At)
		if !ok {
			continue
		}
		class := draw.Cap
		if e.Ends {
			class = draw.Bold
		}
		out = append(out, label{e.Name + " " + signed(v), class, v})
	}
	return out
}

// places are the heights of the names [mm]: above and below the figures for the room.
func (f *travelFigure) places(c travelCol) (up, down []float64, okUp, okDown bool) {
	spread := func(list []label, lo, hi float64) ([]float64, bool) {
		var want, size []float64
		for _, l := range list {
			want, size = append(want, f.y.At(l.at)), append(size, f.st.Size[draw.Body]*1.15)
		}
		return draw.Spread(want, size, 0, lo, hi)
	}
	top, bottom := f.figure(c.t.Droop, true, c.t), f.figure(c.t.Bump, false, c.t)
	h := f.st.Size[draw.Number] * 0.5
	up, okUp = spread(f.labels(c.t, true), 1.5*f.st.Line(draw.Body), top-h)
	down, okDown = spread(f.labels(c.t, false), bottom+h, f.H)
	return up, down, okUp, okDown
}

// figure is the height of the middle of a room's figure [mm].
func (f *travelFigure) figure(n finding.Number, up bool, t Travel) float64 {
	v, ok := mm(n)
	h := f.st.Size[draw.Number] * 0.62
	road := f.y.At(0)
	if up {
		if !ok {
			return road - h
		}
		return math.Min(f.y.At(v/2), road-h)
	}
	if !ok {
		return road + h
	}
	return math.Max(f.y.At(-v/2), road+h)
}

// bar draws the bar of one axle: free, squeezed stop, hatched past the ends.
func (f *travelFigure) bar(c travelCol) {
	st := f.st
	f.put(within(st.Text(draw.Bold, c.x+c.w/2, 0.8*st.Line(draw.Body), titled(c.t.Name), draw.Middle), 0, f.W))
	top, foot := f.y.P1, f.y.P0
	up, okUp := endAt(c.t.DroopParts, c.t.Droop, 1)
	down, okDown := endAt(c.t.BumpParts, c.t.Bump, -1)
	wall := draw.W3.Pen()
	if !c.t.Known {
		wall = wall.In(draw.Rule).Dashed()
	}
	f.Add(draw.Rect(c.x, top, c.w, foot-top).Fill(draw.Skin))
	if okUp {
		f.Add(draw.Rect(c.x, top, c.w, f.y.At(up)-top).FillStroke(draw.Paper, draw.Pen{}).WithHatch(st.Hatch()))
	}
	if okDown {
		y := f.y.At(down)
		f.Add(draw.Rect(c.x, y, c.w, foot-y).FillStroke(draw.Paper, draw.Pen{}).WithHatch(st.Hatch()))
		if v, ok := mm(c.t.StopMeets); ok && v > down {
			f.Add(draw.Rect(c.x, f.y.At(v), c.w, y-f.y.At(v)).FillStroke(draw.Tyre, draw.Pen{}), draw.Line(c.x, f.y.At(v), c.x+c.w, f.y.At(v)).Stroke(draw.W2.Pen()))
		}
	}
	f.Add(draw.Line(c.x, top, c.x, foot).MoveTo(c.x+c.w, top).LineTo(c.x+c.w, foot).Stroke(wall))
	over := lettered(st, 5)
	for _, e := range []struct {
		v  float64
		ok bool
	}{{up, okUp}, {down, okDown}} {
		if e.ok {
			f.Add(draw.Line(c.x-over, f.y.At(e.v), c.x+c.w+over, f.y.At(e.v)).Stroke(draw.Pen{Role: draw.Ink, W: draw.W4}))
		}
	}
}

func titled(s string) string {
	if s == "" {
		return s
	}
	r := []rune(s)
	if r[0] >= 'a' && r[0] <= 'z' {
		r[0] -= 'a' - 'A'
	}
	return string(r)
}

// endAt is where travel ends [mm from ROAD]: at the part that ends it, else where the room is used up.
func endAt(parts []Ending, room finding.Number, sign float64) (float64, bool) {
	for _, e := range parts {
		if v, ok := mm(e.At); ok && e.Ends {
			return v, true
		}
	}
	v, ok := mm(room)
	return sign * v, ok
}

// ends letters what ends travel, in order, pushed apart, each with a leader to its height on the bar.
func (f *travelFigure) ends(c travelCol) {
	up, down, _, _ := f.places(c)
	x0, x1 := c.x+c.w, c.x+c.w+lettered(f.st, 22)
	draws := func(list []label, at []float64) {
		for i, l := range list {
			y := f.y.At(l.at)
			f.Add(draw.Polyline(draw.Pt(x0, y), draw.Pt(x0+lettered(f.st, 6), y), draw.Pt(x1-lettered(f.st, 5), at[i]), draw.Pt(x1, at[i])).Stroke(draw.W1.Pen()))
			f.put(f.st.Text(l.class, x1+lettered(f.st, 3), at[i], l.text, draw.Start).At(draw.Mid).On(draw.Paper))
		}
	}
	draws(f.labels(c.t, true), up)
	draws(f.labels(c.t, false), down)
	if !c.t.Known && c.t.Gap != "" {
		// Why it is not known stands where the names would.
		for i, l := range draw.Wrap(f.st.Face(draw.Cap), c.t.Gap, f.st.Size[draw.Cap], math.Max(c.end, f.W*float64(1)/float64(len(f.cols)))-x1) {
			f.tryPut(f.st.Text(draw.Cap, x1, f.y.P1+(float64(i)+1)*f.st.Line(draw.Cap), l, draw.Start))
		}
	}
}

// rooms draws the room up and down as dimensions with large figures.
func (f *travelFigure) rooms(c travelCol) {
	x, road := c.x+c.w+lettered(f.st, 11), f.y.At(0)
	room := func(n finding.Number, sign float64, y float64) {
		v, ok := mm(n)
		if !ok {
			return
		}
		a, b := draw.Pt(x, road), draw.Pt(x, f.y.At(sign*v))
		if a.Dist(b) > 2.2*f.st.Arrow {
			f.Add(draw.Arrow(f.st, a.To(b, 0.5), b, draw.Ink), draw.Arrow(f.st, a.To(b, 0.5), a, draw.Ink))
		} else if a.Dist(b) > 0.1 {
			f.Add(draw.Polyline(a, b).Stroke(draw.W1.Pen()))
		}
		f.put(f.st.Text(draw.Number, x+lettered(f.st, 7), y, plain(v, 0), draw.Start).At(draw.Mid).On(draw.Paper))
	}
	room(c.t.Droop, 1, f.figure(c.t.Droop, true, c.t))
	room(c.t.Bump, -1, f.figure(c.t.Bump, false, c.t))
}

// presetLines draws the presets through the bars, sloping between them where they differ, and letters them at the left.
func (f *travelFigure) presetLines(axles []Travel) {
	if len(f.cols) == 0 {
		return
	}
	list := f.presets(axles)
	x0 := f.labelW + lettered(f.st, 4)
	var want, size []float64
	for _, p := range list {
		high := f.st.Size[draw.Body] * 1.15
		if p.more != "" {
			high *= 2
		}
		want, size = append(want, f.y.At(firstKnown(p.at))), append(size, high)
	}
	at, _ := draw.Spread(want, size, 0, 0, f.H)
	for i, p := range list {
		pen, class := draw.W1.Pen(), draw.Body
		if p.road {
			class = draw.Bold
			if f.st.Medium == draw.Screen {
				pen = draw.W3.Pen().In(draw.Move)
			} else {
				pen = draw.W2.Pen()
			}
		}
		pts := []draw.Point{draw.Pt(x0, at[i]), draw.Pt(x0+lettered(f.st, 8), want[i])}
		for k, c := range f.cols {
			if v := p.at[k]; !math.IsNaN(v) {
				pts = append(pts, draw.Pt(c.x, f.y.At(v)), draw.Pt(c.x+c.w, f.y.At(v)))
			}
		}
		f.Add(draw.Polyline(pts...).Stroke(pen))
		first := at[i]
		if p.more != "" {
			half := 0.56 * f.st.Size[draw.Body]
			first -= half
			f.put(f.st.Text(draw.Cap, x0-lettered(f.st, 3), at[i]+half, p.more, draw.End).At(draw.Mid))
		}
		f.put(f.st.Text(class, x0-lettered(f.st, 3), first, p.text, draw.End).At(draw.Mid))
	}
	f.coverLetters()
}

func firstKnown(vs []float64) float64 {
	for _, v := range vs {
		if !math.IsNaN(v) {
			return v
		}
	}
	return 0
}

// coverLetters puts the lettering above the lines that were drawn after it.
func (f *travelFigure) coverLetters() {
	var lines, words []draw.Item
	for _, it := range f.Items {
		if _, ok := it.(draw.Text); ok {
			words = append(words, it)
		} else {
			lines = append(lines, it)
		}
	}
	f.Items = append(lines, words...)
}
