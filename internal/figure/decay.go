package figure

import (
	"math"
	"strings"

	"jounce/internal/draw"
	"jounce/quantity"
)

// Decay is the decay chart of a leak test: the cold's curve between readings, the band
// of the gauge, where pass ends and where the work stops. Gauge pressures in pascals,
// times in seconds from the first reading.
type Decay struct {
	Time               []float64     // of the curves [s]
	Cold               []float64     // expected from temperature alone [Pa]
	PassEnds, Stops    []float64     // cold less the limits, grown over 12 h [Pa]
	Band               float64       // half-width of the gauge's band [Pa]
	ReadTime           []float64     // of the readings [s]
	Read, ReadHalf     []float64     // [Pa]
	Labels             []string      // clock of each reading
	PassText, StopText string        // "pass ends, 0.1", "stops the work: 0.3 bar in 12 h"
	Decide             float64       // when the test can be decided [s]; 0 where not known
	DecideAt           string        // the same as a time of day: "23:17"
	End                string        // clock at the end of Time, "" where it is a reading's
	Now                float64       // the present, drawn as the accent pointer on a screen [s]; 0 or less is none
	NowAt              string        // the same as a time of day
	Unit               quantity.Unit // of the axis; bar where zero
}

func (d Decay) unit() quantity.Unit {
	if d.Unit.IsZero() {
		u, _ := quantity.UnitOf(quantity.KindPressure, "bar")
		return u
	}
	return d.Unit
}

// in is a run of pressures over time in the chart's unit.
func (d Decay) in(time, pa []float64) curve {
	c := curve{x: time, y: make([]float64, len(pa))}
	for i, v := range pa {
		c.y[i] = d.unit().FromSI(v)
	}
	return c.finite()
}

// decayChart is the chart under work.
type decayChart struct {
	*sheet
	d                 Decay
	x, y              draw.Axis
	cold, pass, stops curve
	reads             curve
	half              []float64
	band              float64
	decides           int // place of the decision's upright among what is taken, from 1; 0 is none
}

// DecayChart draws a leak test, width [mm] at least about 70. A test without curves or readings gives a chart that
// says so.
func DecayChart(d Decay, width float64, st draw.Style) draw.Scene {
	u := d.unit()
	c := decayChart{d: d, cold: d.in(d.Time, d.Cold), pass: d.in(d.Time, d.PassEnds), stops: d.in(d.Time, d.Stops), reads: d.in(d.ReadTime, d.Read), band: u.WidthFromSI(d.Band)}
	for i := range d.Read {
		h := 0.0
		if i < len(d.ReadHalf) {
			h = u.WidthFromSI(d.ReadHalf[i])
		}
		c.half = append(c.half, h)
	}
	h := math.Min(math.Max(0.5*width, lettered(st, 290)), lettered(st, 390))
	if st.Medium == draw.Print {
		h = 0.56 * width
	}
	c.sheet = newSheet(st, width, h, "decay", "Pressure over time: what the cold explains, and what was read")
	if len(c.cold.x) < 2 && len(c.reads.x) < 1 {
		c.put(st.Text(draw.Cap, width/2, h/2, "No reading yet", draw.Middle))
		return c.Scene
	}
	c.Desc = c.says()
	c.axes()
	c.curves()
	c.readings()
	c.names()
	return c.Scene
}

func (c *decayChart) says() string {
	s := "Readings: "
	for i := range c.reads.x {
		if i > 0 {
			s += "; "
		}
		if i < len(c.d.Labels) {
			s += c.d.Labels[i] + " "
		}
		s += plain(c.reads.y[i], 2) + " " + c.d.unit().Name()
	}
	s += "."
	if c.d.Decide > 0 && c.d.DecideAt != "" {
		s += " Can be decided at " + c.d.DecideAt + "."
	}
	return s
}

// axes lays out the plot: grid, scale, clock.
func (c *decayChart) axes() {
	lo, hi := span(math.Inf(1), math.Inf(-1), c.stops.y...)
	lo, hi = span(lo, hi, c.pass.y...)
	lo, hi = span(lo, hi, c.cold.plus(c.band).y...)
	lo, hi = span(lo, hi, c.cold.plus(-c.band).y...)
	t0, t1 := span(0, 1, c.cold.x...)
	t0, t1 = span(t0, t1, c.reads.x...)
	t0, t1 = span(t0, t1, c.d.Decide, c.d.Now)
	for i, v := range c.reads.y {
		lo, hi = span(lo, hi, v-c.half[i], v+c.half[i])
	}
	pad := math.Max((hi-lo)*0.07, 1e-6)
	ticks := draw.RoundTicks(lo-pad, hi+pad/2, 5)
	text := tickText(ticks, c.d.unit().Name())
	left := 0.0
	for _, s := range text {
		left = math.Max(left, c.st.Len(draw.Body, s))
	}
	line := c.st.Line(draw.Body)
	left += lettered(c.st, 8)
	c.x = draw.Axis{V0: t0, V1: t1, P0: left, P1: c.W - lettered(c.st, 16)}
	c.y = draw.Axis{V0: lo - pad, V1: hi + pad/2, P0: c.H - 1.9*line, P1: 1.5 * line}
	for i, v := range ticks {
		y := c.y.At(v)
		c.Add(draw.Line(c.x.P0, y, c.x.P1, y).Stroke(draw.W1.Pen().In(draw.Rule)))
		c.put(c.st.Text(draw.Body, left-lettered(c.st, 7), y, text[i], draw.End).At(draw.Mid))
	}
}

// curves draws the band, the cold, and the two limits.
func (c *decayChart) curves() {
	if len(c.cold.x) < 2 {
		return
	}
	up, down := c.cold.plus(c.band).on(c.x, c.y), c.cold.plus(-c.band).on(c.x, c.y)
	thin := draw.W1.Pen()
	c.Add(draw.Band(up, down).Fill(draw.Tyre).WithAlpha(0.6))
	c.Add(draw.Polyline(up...).Stroke(thin), draw.Polyline(down...).Stroke(thin))
	if len(c.stops.x) > 1 {
		c.Add(draw.LimitLine(c.st, c.stops.on(c.x, c.y), draw.OnRight))
	}
	if len(c.pass.x) > 1 {
		c.Add(draw.Polyline(c.pass.on(c.x, c.y)...).Stroke(draw.W2.Pen().Dashed()))
	}
	c.Add(draw.Polyline(c.cold.on(c.x, c.y)...).Stroke(draw.W3.Pen()))
}

// readings draws the dots, the crossing, the pointer and the clock.
func (c *decayChart) readings() {
	foot, line := c.y.P0, c.st.Line(draw.Body)
	c.Add(draw.Line(c.x.P0, c.y.P1-0.6*line, c.x.P0, foot).Stroke(draw.W1.Pen()), draw.Line(c.x.P0, foot, c.x.P1, foot).Stroke(draw.W1.Pen()))
	if d := c.d.Decide; d > 0 {
		x, half := c.x.At(d), c.st.Arrow*0.55
		if y, ok := c.pass.at(d); ok {
			c.Add(draw.Line(x, c.y.P1-0.1*line, x, foot).Stroke(draw.W1.Pen()))
			c.Add(draw.Circle(x, c.y.At(y), half).FillStroke(draw.Paper, draw.W2.Pen()))
		}
		c.put(within(c.st.Text(draw.Bold, x, c.y.P1-0.45*line, comma("can be decided", c.d.DecideAt), draw.Middle).On(draw.Paper), 0, c.W))
		c.take(draw.Box{X0: x - half, Y0: c.y.P1, X1: x + half, Y1: foot})
		c.decides = len(c.taken)
	}
	for i := range c.reads.x {
		x, y := c.x.At(c.reads.x[i]), c.y.At(c.reads.y[i])
		d := math.Abs(c.y.At(c.reads.y[i]+c.half[i]) - y)
		c.Add(draw.Reading(c.st, x, y, d))
		c.take(draw.Box{X0: x - c.st.Arrow*0.5, Y0: y - d, X1: x + c.st.Arrow*0.5, Y1: y + d})
	}
	c.clock()
}

func comma(a, b string) string {
	if b == "" {
		return a
	}
	return a + ", " + b
}

// clock letters the times, the weightiest first; what would touch another is left to its tick.
func (c *decayChart) clock() {
	foot, y := c.y.P0, c.y.P0+1.25*c.st.Line(draw.Body)
	tick := func(t float64) float64 {
		x := c.x.At(t)
		c.Add(draw.Line(x, foot, x, foot+lettered(c.st, 6)).Stroke(draw.W1.Pen()))
		return x
	}
	letter := func(class draw.Size, t float64, s string) {
		x := tick(t)
		if s != "" {
			c.tryPut(within(c.st.Text(class, x, y, s, draw.Middle), 0, c.W))
		}
	}
	if c.d.Now > 0 && c.st.Medium == draw.Screen {
		now, l := c.x.At(c.d.Now), c.st.Arrow
		c.Add(draw.Triangle(c.st, now, foot, 90, draw.Move))
		c.take(draw.Box{X0: now - 0.6*l, Y0: foot - l, X1: now + 0.6*l, Y1: foot})
		letter(draw.Bold, c.d.Now, c.d.NowAt)
	}
	n := len(c.reads.x)
	label := func(i int) string {
		if i < len(c.d.Labels) {
			return c.d.Labels[i]
		}
		return ""
	}
	if n > 0 {
		letter(draw.Body, c.reads.x[0], label(0))
	}
	if c.d.End != "" {
		letter(draw.Body, c.x.V1, c.d.End)
	}
	for i := n - 1; i > 0; i-- {
		letter(draw.Body, c.reads.x[i], label(i))
	}
}

// names letters the lines: the stop below its line, where nothing is; the cold above its band; the end of pass below its
// dashes where there is room, else on them.
func (c *decayChart) names() {
	cap := 0.7 * c.st.Size[draw.Body]
	gap := lettered(c.st, 4)
	if len(c.stops.x) > 1 && c.d.StopText != "" {
		c.stopName(cap + gap + c.st.Tick)
	}
	if len(c.cold.x) > 1 {
		up := c.cold.plus(c.band).on(c.x, c.y)
		if c.band > 0 && !c.along(draw.Body, up, "cold alone, and the gauge’s ± band", []float64{0.98, 0.9, 0.8, 0.7, 0.5}, gap, true) {
			c.along(draw.Body, up, "cold alone", []float64{0.98, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4}, gap, true)
		}
	}
	if len(c.pass.x) > 1 && c.d.PassText != "" {
		c.passName(cap, gap)
	}
}

// stopName stands below the line that stops. On a narrow figure it may cut the upright of the decision, and then loses what
// follows its colon.
func (c *decayChart) stopName(off float64) {
	pts, parts := c.stops.on(c.x, c.y), []float64{0.4, 0.3, 0.2, 0.5, 0.1, 0.05, 0.6, 0.7}
	short, _, _ := strings.Cut(c.d.StopText, ":")
	if c.along(draw.Bold, pts, c.d.StopText, parts, off, false) {
		return
	}
	all := c.taken
	if c.decides > 0 {
		c.taken = append(append([]draw.Box(nil), all[:c.decides-1]...), all[c.decides:]...)
	}
	_ = c.along(draw.Bold, pts, c.d.StopText, parts, off, false) || c.along(draw.Bold, pts, short, parts, off, false)
	c.taken = append(c.taken, all...)
}

// along letters a name above or below a run of points, its right end at a part of the plot's width; the first free place counts.
func (c *decayChart) along(class draw.Size, pts []draw.Point, name string, parts []float64, off float64, above bool) bool {
	w := c.st.Len(class, name)
	for _, part := range parts {
		x0 := c.x.P0 + part*(c.x.P1-c.x.P0-w)
		if x0 < c.x.P0+1 {
			return false
		}
		top, bottom, ok := runs(pts, x0-1, x0+w+1)
		if !ok {
			continue
		}
		y := bottom + off
		if above {
			y = top - off
		}
		if t := c.st.Text(class, x0, y, name, draw.Start).On(draw.Paper); y < c.y.P0-lettered(c.st, 4) && c.tryPut(t) {
			return true
		}
	}
	return false
}

func (c *decayChart) passName(cap, gap float64) {
	pts, w := c.pass.on(c.x, c.y), c.st.Len(draw.Body, c.d.PassText)
	stop := c.stops.on(c.x, c.y)
	for _, part := range []float64{0.99, 0.9, 0.8, 0.7} {
		x0 := c.x.P0 + part*(c.x.P1-c.x.P0-w)
		_, bottom, ok := runs(pts, x0-1, x0+w)
		top, _, under := runs(stop, x0-1, x0+w)
		y := bottom + gap + cap
		if ok && (!under || y+gap < top) && c.tryPut(c.st.Text(draw.Body, x0, y, c.d.PassText, draw.Start).On(draw.Paper)) {
			return
		}
	}
	for _, part := range []float64{0.99, 0.85, 0.7, 0.55} {
		x0 := c.x.P0 + part*(c.x.P1-c.x.P0-w)
		m, ok := c.pass.at(c.x.Value(x0 + w/2))
		if ok && c.tryPut(c.st.Text(draw.Body, x0, c.y.At(m), c.d.PassText, draw.Start).At(draw.Mid).On(draw.Paper)) {
			return
		}
	}
}
