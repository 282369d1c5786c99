package figure

import (
	"math"

	"jounce/internal/draw"
	"jounce/internal/finding"
)

// Ride is the ride frequency of both axles against what is wanted.
type Ride struct {
	Front, Rear    finding.Number // [Hz]
	Least, Most    float64        // limits for any axle [Hz]; 0 where there is none
	WantLo, WantHi float64        // wanted at the rear, from the front's [Hz]; 0 where not known
	WantText       string         // "rear wanted, 5 to 20 % above"
}

// RideLine draws the ride frequencies on one line, width [mm] at least about 70.
func RideLine(r Ride, width float64, st draw.Style) draw.Scene {
	line := st.Line(draw.Body)
	s := newSheet(st, width, 6.6*line, "ride", "Ride frequency, front against rear")
	lo, hi := rideSpan(r)
	m := lettered(st, 14)
	x := draw.Axis{V0: lo, V1: hi, P0: m, P1: width - m}
	y := 3.6 * line
	s.Desc = "Front " + r.Front.String() + ", rear " + r.Rear.String() + "."
	s.Add(draw.Line(x.P0, y, x.P1, y).Stroke(draw.W3.Pen()))
	hatchLine(s, x, y, r.Least, r.Most)
	ticks := x.Ticks(6)
	for i, t := range tickText(ticks, "") {
		if i == len(ticks)-1 {
			t = plain(ticks[i], decimals(ticks[1]-ticks[0]))
		}
		s.Add(draw.Line(x.At(ticks[i]), y, x.At(ticks[i]), y+lettered(st, 6)).Stroke(draw.W1.Pen()))
		s.tryPut(within(st.Text(draw.Cap, x.At(ticks[i]), y+1.05*line, t, draw.Middle), 0, width))
	}
	s.rideDots(r, x, y)
	if r.WantHi > r.WantLo && r.WantText != "" {
		s.wanted(r, x, y+1.75*line)
	}
	return s.Scene
}

func rideSpan(r Ride) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, n := range []finding.Number{r.Front, r.Rear} {
		if n.Known() {
			lo, hi = span(lo, hi, n.Value-n.Half, n.Value+n.Half)
		}
	}
	for _, v := range []float64{r.Least, r.Most, r.WantLo, r.WantHi} {
		if v > 0 {
			lo, hi = span(lo, hi, v)
		}
	}
	if lo > hi {
		lo, hi = 1, 2
	}
	pad := math.Max((hi-lo)*0.1, 0.05)
	return lo - pad, hi + pad
}

// hatchLine marks what is forbidden outside two limits on a level line.
func hatchLine(s *sheet, x draw.Axis, y, least, most float64) {
	up := lettered(s.st, 9)
	limit := func(v, end float64) {
		a := x.At(v)
		side := draw.OnLeft // above the line, walking right
		if end < a {
			side = draw.OnRight
		}
		s.Add(draw.Ticks(s.st, []draw.Point{draw.Pt(a, y), draw.Pt(end, y)}, side, s.st.Tick*1.25).Stroke(draw.W1.Pen()))
		s.Add(draw.Line(a, y-up, a, y+up*0.6).Stroke(draw.W2.Pen()))
	}
	if least > 0 {
		limit(least, x.P0)
	}
	if most > 0 {
		limit(most, x.P1)
	}
}

// rideDots draws both values with the bars of their ± and names them above.
func (s *sheet) rideDots(r Ride, x draw.Axis, y float64) {
	line := s.st.Line(draw.Body)
	type axle struct {
		n    finding.Number
		name string
	}
	var list []axle
	for _, a := range []axle{{r.Front, "front"}, {r.Rear, "rear"}} {
		if a.n.Known() {
			list = append(list, a)
		}
	}
	var want, size []float64
	var text []draw.Text
	for _, a := range list {
		t := s.st.Text(draw.Bold, 0, 0.95*line, a.name+nbsp+plain(a.n.Value, 2), draw.Middle)
		want, size, text = append(want, x.At(a.n.Value)), append(size, t.Width()), append(text, t)
	}
	at, _ := draw.Spread(want, size, lettered(s.st, 12), 0, s.W)
	apart := len(list) < 2 || math.Abs(list[0].n.Value-list[1].n.Value) > (list[0].n.Half+list[1].n.Half)*1.1
	for i, a := range list {
		level := y - 0.85*line
		if !apart && i == 0 {
			level = y - 1.5*line
		}
		px := x.At(a.n.Value)
		s.Add(draw.Polyline(draw.Pt(px, y), draw.Pt(px, y-1.95*line), draw.Pt(at[i], y-2.45*line)).Stroke(draw.W1.Pen()))
		if a.n.Half > 0 {
			s.Add(draw.IBar(s.st, draw.Pt(x.At(a.n.Value-a.n.Half), level), draw.Pt(x.At(a.n.Value+a.n.Half), level)))
		}
		s.Add(draw.Circle(px, y, s.st.Arrow*0.4).Fill(draw.Ink))
		text[i].X = at[i]
		s.put(text[i])
	}
}

// wanted draws the bracket of what the rear should be.
func (s *sheet) wanted(r Ride, x draw.Axis, y float64) {
	a, b := x.At(r.WantLo), x.At(r.WantHi)
	up := lettered(s.st, 5)
	s.Add(draw.Polyline(draw.Pt(a, y-up), draw.Pt(a, y), draw.Pt(b, y), draw.Pt(b, y-up)).Stroke(draw.W2.Pen()))
	text := r.WantText
	if s.st.Len(draw.Body, text) > s.W {
		text = "rear wanted"
	}
	s.put(within(s.st.Text(draw.Body, (a+b)/2, y+0.95*s.st.Line(draw.Body), text, draw.Middle), 0, s.W))
}
