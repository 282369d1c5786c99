// Package figure draws what the studies found: pure functions of data, a width in
// millimetres and a draw.Style, each giving one draw.Scene.
//
// The data types mirror those of the studies field by field and know nothing of them;
// pages and papers convert. What is not known is left out or drawn as assumed, never
// guessed in silence. Lettering and line widths belong to the style and are not scaled
// with the car or the chart, so the same figure is drawn anew for 292, 474 and 730 px
// and for paper.
package figure

import (
	"math"
	"strconv"
	"strings"

	"jounce/internal/draw"
	"jounce/internal/finding"
)

// nbsp keeps a number and its unit on one line; minus is U+2212.
const (
	nbsp  = "\u00a0"
	minus = "\u2212"
)

// StyleFor is the screen style for a figure px [CSS px] wide.
func StyleFor(px float64) draw.Style {
	switch {
	case px < 420:
		return draw.Phone()
	case px < 1000:
		return draw.Tablet()
	}
	return draw.Desktop()
}

// narrow tells that a figure must do with the words of a phone.
func narrow(width float64, st draw.Style) bool { return width < lettered(st, 400) }

// lettered is n CSS pixels scaled with the lettering of the style [mm]: distances that
// words need, on paper as on a screen.
func lettered(st draw.Style, n float64) float64 {
	return n * draw.Px * st.Size[draw.Body] / draw.PX(15)
}

// plain is a number with so many decimals, its minus U+2212.
func plain(v float64, digits int) string {
	s := strconv.FormatFloat(v, 'f', digits, 64)
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	return strings.Replace(s, "-", minus, 1)
}

// signed is a whole number with its sign apart, as heights from ROAD are written: "+ 45", "− 60", "0".
func signed(v float64) string {
	s := plain(math.Abs(v), 0)
	switch {
	case s == "0":
		return s
	case v < 0:
		return minus + nbsp + s
	}
	return "+" + nbsp + s
}

// decimals is how many decimals the round values at this step need.
func decimals(step float64) int {
	for d := 0; d < 6; d++ {
		if x := step * math.Pow(10, float64(d)); math.Abs(x-math.Round(x)) < 1e-6*x {
			return d
		}
	}
	return 6
}

// tickText writes round values alike, the topmost with its unit.
func tickText(ticks []float64, unit string) []string {
	d := 0
	if len(ticks) > 1 {
		d = decimals(ticks[1] - ticks[0])
	}
	out := make([]string, len(ticks))
	for i, v := range ticks {
		out[i] = plain(v, d)
		if whole := plain(v, 0); d > 0 && math.Abs(v-math.Round(v)) < 1e-9 && i == len(ticks)-1 {
			out[i] = whole
		}
		if i == len(ticks)-1 && unit != "" {
			out[i] += nbsp + unit
		}
	}
	return out
}

// mm is a length in millimetres and whether it is known.
func mm(n finding.Number) (float64, bool) {
	if !n.Known() || math.IsInf(n.Value, 0) {
		return 0, false
	}
	return n.Value * 1000, true
}

// mmOr is a length in millimetres, or the one assumed.
func mmOr(n finding.Number, assumed float64) float64 {
	if v, ok := mm(n); ok {
		return v
	}
	return assumed
}

// sheet is a scene under work that remembers where lettering stands.
type sheet struct {
	draw.Scene
	st    draw.Style
	taken []draw.Box
}

func newSheet(st draw.Style, w, h float64, id, title string) *sheet {
	s := &sheet{Scene: draw.NewScene(st, w, h), st: st}
	s.ID, s.Title = id, title
	return s
}

// put letters the text and remembers its place.
func (s *sheet) put(t draw.Text) {
	s.Add(t)
	s.take(t.Box())
}

// take keeps lettering out of the box.
func (s *sheet) take(b draw.Box) { s.taken = append(s.taken, b) }

// free tells whether the text would stand on the sheet and clear of the rest.
func (s *sheet) free(t draw.Text) bool {
	b := t.Box()
	if b.X0 < 0 || b.Y0 < 0 || b.X1 > s.W || b.Y1 > s.H {
		return false
	}
	for _, o := range s.taken {
		if o.Overlaps(b, -lettered(s.st, 2)) {
			return false
		}
	}
	return true
}

// tryPut letters the first of the texts that is free.
func (s *sheet) tryPut(texts ...draw.Text) bool {
	for _, t := range texts {
		if s.free(t) {
			s.put(t)
			return true
		}
	}
	return false
}

// within shifts a text anchored in its middle so that it stays between x0 and x1 [mm].
func within(t draw.Text, x0, x1 float64) draw.Text {
	b := t.Box()
	if d := b.X1 - x1; d > 0 {
		t.X -= d
		b = t.Box()
	}
	if d := x0 - b.X0; d > 0 {
		t.X += d
	}
	return t
}

// curve is a run of values over a rising run of places, straight between them.
type curve struct{ x, y []float64 }

// at is the curve's value at x; ok is false outside it.
func (c curve) at(x float64) (float64, bool) {
	n := min(len(c.x), len(c.y))
	for i := 1; i < n; i++ {
		if a, b := c.x[i-1], c.x[i]; x >= a && x <= b {
			if b == a {
				return c.y[i], true
			}
			return c.y[i-1] + (x-a)/(b-a)*(c.y[i]-c.y[i-1]), true
		}
	}
	return 0, false
}

// finite drops the places where either is no number.
func (c curve) finite() curve {
	var out curve
	for i := range min(len(c.x), len(c.y)) {
		if v := c.x[i] + c.y[i]; !math.IsNaN(v) && !math.IsInf(v, 0) {
			out.x, out.y = append(out.x, c.x[i]), append(out.y, c.y[i])
		}
	}
	return out
}

// plus is the curve lifted by d.
func (c curve) plus(d float64) curve {
	out := curve{x: c.x, y: make([]float64, len(c.y))}
	for i, v := range c.y {
		out.y[i] = v + d
	}
	return out
}

// on brings the curve onto the paper.
func (c curve) on(x, y draw.Axis) []draw.Point {
	pts := make([]draw.Point, 0, len(c.x))
	for i := range min(len(c.x), len(c.y)) {
		pts = append(pts, draw.Pt(x.At(c.x[i]), y.At(c.y[i])))
	}
	return pts
}

// span is the least and the most of the values; lo > hi when there are none.
func span(lo, hi float64, vs ...float64) (float64, float64) {
	for _, v := range vs {
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			lo, hi = math.Min(lo, v), math.Max(hi, v)
		}
	}
	return lo, hi
}

// runs is the highest and the lowest of a run of points between two places on the paper [mm]; ok is false where it is not.
func runs(pts []draw.Point, x0, x1 float64) (top, bottom float64, ok bool) {
	c := curve{}
	for _, p := range pts {
		c.x, c.y = append(c.x, p.X), append(c.y, p.Y)
	}
	top, bottom = math.Inf(1), math.Inf(-1)
	add := func(y float64) { top, bottom, ok = math.Min(top, y), math.Max(bottom, y), true }
	for _, x := range []float64{x0, x1} {
		if y, in := c.at(x); in {
			add(y)
		}
	}
	for _, p := range pts {
		if p.X >= x0 && p.X <= x1 {
			add(p.Y)
		}
	}
	return top, bottom, ok
}
