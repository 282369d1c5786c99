package figure

import (
	"math"
	"strconv"

	"jounce/internal/draw"
)

// touches are the touch points seen from above: a dot at the place, and a ring with the rank as near as the others let it.
func (f *planFigure) touches() {
	var dots, rings []draw.Point
	var list []SideTouch
	for _, t := range f.p.Touches {
		if t.Rank > 0 && !math.IsNaN(t.X+t.Y) && math.Abs(t.X) < 20 && math.Abs(t.Y) < 5 {
			list = append(list, t)
			dots = append(dots, f.f.Pt(-1000*t.Y, 1000*t.X))
		}
	}
	for i, t := range list {
		c, ok := f.ring(dots[i], dots, rings)
		if !ok {
			continue
		}
		rings = append(rings, c)
		rim := c.To(dots[i], math.Min(1, f.st.Disc/math.Max(c.Dist(dots[i]), 1e-6)))
		g := draw.G(draw.Leader(f.st, dots[i], rim), draw.Balloon(f.st, c.X, c.Y, strconv.Itoa(t.Rank)))
		g.ID, g.Class, g.Title = "t"+strconv.Itoa(t.Rank), "touch", t.Name+", touches at "+t.At+" below ROAD"
		f.Add(g.WithData("touch", strconv.Itoa(t.No)))
		f.take(draw.Box{X0: c.X - f.st.Disc, Y0: c.Y - f.st.Disc, X1: c.X + f.st.Disc, Y1: c.Y + f.st.Disc})
	}
}

// ring is the nearest free place for a ring about a dot: on the car, off the dots, the other rings and all lettering.
func (f *planFigure) ring(dot draw.Point, dots, rings []draw.Point) (draw.Point, bool) {
	r := f.st.Disc
	for d := r + lettered(f.st, 8); d < r+lettered(f.st, 120); d += lettered(f.st, 6) {
		for k := range 16 {
			c := dot.Polar(d, 45+22.5*float64(k))
			if f.clearRing(c, r, dots, rings) {
				return c, true
			}
		}
	}
	return draw.Point{}, false
}

func (f *planFigure) clearRing(c draw.Point, r float64, dots, rings []draw.Point) bool {
	gap := lettered(f.st, 3)
	half, nose, tail := f.d.half*f.f.SX, f.f.Pt(0, -f.d.front).Y, f.f.Pt(0, f.d.wb+f.d.rear).Y
	if math.Abs(c.X-f.f.X0) > half-r || c.Y < nose+r || c.Y > tail-r || c.X < r || c.X > f.W-r {
		return false
	}
	for _, p := range dots {
		if c.Dist(p) < r+gap {
			return false
		}
	}
	for _, p := range rings {
		if c.Dist(p) < 2*r+gap {
			return false
		}
	}
	b := draw.Box{X0: c.X - r, Y0: c.Y - r, X1: c.X + r, Y1: c.Y + r}
	for _, o := range f.taken {
		if o.Overlaps(b, -gap) {
			return false
		}
	}
	return true
}
