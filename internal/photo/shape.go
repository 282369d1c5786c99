package photo

import (
	"math"
	"slices"
)

// Shape is the car's outline from the side as it stood when the picture was
// taken. The lines are runs of spots from the front rearwards; between two spots
// they are straight, a step is two spots of the same x.
type Shape struct {
	Top       []Spot  // [m] bumper, bonnet, roof, boot
	Bottom    []Spot  // [m] lower edges: bumper, arches' edges, sills
	TyreFront float64 // [m] free radius of the front tyre
	TyreRear  float64 // [m] free radius of the rear tyre
	Inset     float64 // [m] how far the roof's edge stands inboard of the tyres' outer faces; assumed 0.25
}

// Change is how far the body moves over its wheels.
type Change struct {
	Front float64 // [m] at the front hub, up positive
	Rear  float64 // [m] at the rear hub, up positive
}

// At is the movement of the body's column x [m], for a body that stays rigid:
// linear in x, front and rear hub at their own.
func (c Change) At(x, wheelbase float64) float64 { return c.Front + (c.Rear-c.Front)*x/wheelbase }

// maxChange is the largest movement that is drawn; more is a wrong unit.
const maxChange = 0.25 // [m]

// check refuses outlines that cannot be drawn; the error is a *Refusal.
func (h Shape) check(s Scale) error {
	const again = "Look at the outline once more"
	for _, l := range []struct {
		name string
		line []Spot
	}{{"top", h.Top}, {"bottom", h.Bottom}} {
		if len(l.line) < 2 {
			return &Refusal{Why: WrongShape, Name: "The outline", What: "its " + l.name + " line has fewer than two spots", Fix: again}
		}
		for i, p := range l.line {
			if math.IsNaN(p.X+p.Z) || math.Abs(p.X) > 10 || p.Z < -0.05 || p.Z > 5 {
				return outline(again, "spot %d of its %s line, %s mm rearwards and %s mm up, is none of a car", i+1, l.name, millimetres(p.X), millimetres(p.Z))
			}
			if i > 0 && p.X < l.line[i-1].X {
				return outline(again, "its %s line turns back at spot %d, %s mm rearwards; it has to run from the front to the rear",
					l.name, i+1, millimetres(p.X))
			}
		}
	}
	x0, x1 := h.span()
	if x0 > 0 || x1 < s.Wheelbase {
		return outline(again, "it runs from %s to %s mm, and both hubs, 0 and %s mm, have to lie within",
			millimetres(x0), millimetres(x1), millimetres(s.Wheelbase))
	}
	for _, r := range []float64{h.TyreFront, h.TyreRear} {
		if !(r >= 0.15 && r <= 0.8) {
			return outline("Read the tyre's size again", "a tyre of %s mm radius is none of a car", millimetres(r))
		}
	}
	for _, p := range slices.Concat(h.Top, h.Bottom) {
		if p.X < x0 || p.X > x1 {
			continue
		}
		if top, bottom := line(h.Top).at(p.X), line(h.Bottom).at(p.X); bottom > top+0.005 {
			return outline(again, "its lines cross %s mm rearwards: bottom at %s mm, top at %s mm", millimetres(p.X), millimetres(bottom), millimetres(top))
		}
	}
	return nil
}

func outline(fix, format string, args ...any) *Refusal {
	no := refuse(WrongShape, fix, format, args...)
	no.Name = "The outline"
	return no
}

// span is where both lines are.
func (h Shape) span() (x0, x1 float64) {
	return max(h.Top[0].X, h.Bottom[0].X), min(h.Top[len(h.Top)-1].X, h.Bottom[len(h.Bottom)-1].X)
}

// check refuses a movement that is none.
func (c Change) check() error {
	for _, w := range []struct {
		name string
		v    float64
	}{{"front", c.Front}, {"rear", c.Rear}} {
		if !(math.Abs(w.v) <= maxChange) {
			return &Refusal{Why: WrongChange, Name: "The height", Fix: "Look at its unit; movements are in millimetres on the page",
				What: "at the " + w.name + " the body would move by " + millimetres(w.v) + " mm, and " + millimetres(maxChange) + " mm are the most that is drawn"}
		}
	}
	return nil
}

// line is a run of spots with x that never falls.
type line []Spot

// at is the height at x, that of the nearer end beyond the ends.
func (l line) at(x float64) float64 {
	i, _ := slices.BinarySearchFunc(l, x, func(p Spot, x float64) int {
		if p.X <= x {
			return -1
		}
		return 1
	})
	switch {
	case i == 0:
		return l[0].Z
	case i == len(l):
		return l[i-1].Z
	}
	a, b := l[i-1], l[i]
	return a.Z + (b.Z-a.Z)*(x-a.X)/(b.X-a.X)
}
