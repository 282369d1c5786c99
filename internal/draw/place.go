package draw

import (
	"fmt"
	"math"
	"sort"

	"jounce/internal/draw/font"
)

// Spread pushes labels apart along a line: label i wants its middle at want[i], takes size[i], and neighbours keep gap [mm]
// between them, all within lo to hi. Labels keep the order of their wishes; equal wishes keep the order of the slice. The sum
// of the squared shifts is the least possible (isotonic regression by pooling neighbours, then clamped, which stays optimal).
// ok is false when they do not all fit: they are then laid out evenly from lo and run past hi.
func Spread(want, size []float64, gap, lo, hi float64) (at []float64, ok bool) {
	n := len(want)
	at = make([]float64, n)
	if n == 0 {
		return at, true
	}
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return want[order[a]] < want[order[b]] })
	// off[i] is how far label i stands after the first when all touch; want−off must then rise.
	off := make([]float64, n)
	for i := 1; i < n; i++ {
		off[i] = off[i-1] + (size[order[i-1]]+size[order[i]])/2 + gap
	}
	least, most := lo+size[order[0]]/2, hi-size[order[n-1]]/2-off[n-1]
	type pool struct {
		sum float64
		n   int
	}
	var pools []pool
	for i, k := range order {
		pools = append(pools, pool{want[k] - off[i], 1})
		for j := len(pools) - 1; j > 0 && pools[j-1].sum/float64(pools[j-1].n) > pools[j].sum/float64(pools[j].n); j-- {
			pools[j-1].sum += pools[j].sum
			pools[j-1].n += pools[j].n
			pools = pools[:j]
		}
	}
	i := 0
	for _, p := range pools {
		y := math.Max(least, math.Min(most, p.sum/float64(p.n)))
		for range p.n {
			at[order[i]] = y + off[i]
			i++
		}
	}
	return at, most >= least-1e-9
}

// Axis is a linear scale: the value V0 stands at P0 [mm], V1 at P1. P1 below P0 turns it round, as an upright axis needs.
type Axis struct {
	V0, V1 float64 // [unit of the value]
	P0, P1 float64 // [mm]
}

// At is where the value stands [mm]. An axis of no length puts everything in its middle.
func (a Axis) At(v float64) float64 {
	if a.V1 == a.V0 {
		return (a.P0 + a.P1) / 2
	}
	return a.P0 + (v-a.V0)/(a.V1-a.V0)*(a.P1-a.P0)
}

// Value is what stands at the place p [mm].
func (a Axis) Value(p float64) float64 {
	if a.P1 == a.P0 {
		return a.V0
	}
	return a.V0 + (p-a.P0)/(a.P1-a.P0)*(a.V1-a.V0)
}

// Ticks are at most n round values within the axis, in rising order: steps of 1, 2, 2.5 or 5 times a power of ten.
func (a Axis) Ticks(n int) []float64 { return RoundTicks(a.V0, a.V1, n) }

// RoundTicks are at most n round values between lo and hi, in rising order.
func RoundTicks(lo, hi float64, n int) []float64 {
	if lo > hi {
		lo, hi = hi, lo
	}
	if n < 1 || !(hi > lo) || math.IsInf(hi-lo, 0) {
		return nil
	}
	for e := math.Max(-300, math.Floor(math.Log10((hi-lo)/float64(n)))-1); ; e++ {
		for _, m := range []float64{1, 2, 2.5, 5} {
			step := m * math.Pow(10, e)
			first, last := math.Ceil(lo/step-1e-9), math.Floor(hi/step+1e-9)
			if count := int(last-first) + 1; count > n {
				continue
			}
			var out []float64
			for k := first; k <= last; k++ {
				out = append(out, k*step+0) // +0 turns −0 into 0
			}
			return out
		}
	}
}

// Fault is something wrong with a scene.
type Fault struct{ Place, What string }

// String is the fault as one sentence.
func (f Fault) String() string { return f.Place + ": " + f.What }

// Faults lists what a draughtsman would send back: lettering that lies on other lettering, leaves the sheet, is smaller than
// the style allows or has signs the face lacks, and coordinates that are no numbers. Every figure's test asks for it.
func (s Scene) Faults() []Fault {
	var out []Fault
	type line struct {
		t Text
		b Box
	}
	var lines []line
	s.Walk(func(it Item, m Matrix) {
		switch v := it.(type) {
		case Text:
			if v.String() == "" {
				return
			}
			place := fmt.Sprintf("%q", v.String())
			for _, sp := range v.Pieces() {
				if miss := sp.Face.Missing(sp.S); len(miss) > 0 {
					out = append(out, Fault{place, fmt.Sprintf("the face %s lacks %q", sp.Face, string(miss))})
				}
			}
			if v.Size < s.Style.Least-1e-9 {
				out = append(out, Fault{place, fmt.Sprintf("lettered %.2f mm, the least is %.2f mm", v.Size, s.Style.Least)})
			}
			b := m.Box(v.Box())
			if !(b.X0 >= -0.01 && b.Y0 >= -0.01 && b.X1 <= s.W+0.01 && b.Y1 <= s.H+0.01) {
				out = append(out, Fault{place, fmt.Sprintf("at %.1f to %.1f, %.1f to %.1f mm leaves the sheet of %.1f by %.1f mm", b.X0, b.X1, b.Y0, b.Y1, s.W, s.H)})
			}
			for _, l := range lines {
				if l.b.Overlaps(b, 0.05*v.Size) {
					out = append(out, Fault{place, fmt.Sprintf("lies on %q", l.t.String())})
				}
			}
			lines = append(lines, line{v, b})
		case Path:
			for _, g := range v.Outline {
				if x := g.P.X + g.P.Y + g.C1.X + g.C1.Y + g.C2.X + g.C2.Y + g.Bulge; math.IsNaN(x) || math.IsInf(x, 0) {
					out = append(out, Fault{"path " + v.ID + v.Title, "a coordinate is no number"})
					break
				}
			}
		}
	})
	return out
}

// Matrix is a turn and a shift: x' = A·x + C·y + E, y' = B·x + D·y + F.
type Matrix struct{ A, B, C, D, E, F float64 }

// Identity changes nothing.
var Identity = Matrix{A: 1, D: 1}

// Matrix is the group's turn and shift.
func (g Group) Matrix() Matrix {
	s, c := math.Sincos(g.Angle * math.Pi / 180)
	x, y := g.About.X, g.About.Y
	return Matrix{c, -s, s, c, x - c*x - s*y + g.DX, y + s*x - c*y + g.DY}
}

// Then is the matrix that does n first and m after it.
func (m Matrix) Then(n Matrix) Matrix {
	return Matrix{m.A*n.A + m.C*n.B, m.B*n.A + m.D*n.B, m.A*n.C + m.C*n.D, m.B*n.C + m.D*n.D, m.A*n.E + m.C*n.F + m.E, m.B*n.E + m.D*n.F + m.F}
}

// Pt is the point moved by the matrix.
func (m Matrix) Pt(p Point) Point { return Point{m.A*p.X + m.C*p.Y + m.E, m.B*p.X + m.D*p.Y + m.F} }

// Box is the box round the moved box.
func (m Matrix) Box(b Box) Box {
	out := Box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, p := range []Point{{b.X0, b.Y0}, {b.X1, b.Y0}, {b.X1, b.Y1}, {b.X0, b.Y1}} {
		q := m.Pt(p)
		out = Box{math.Min(out.X0, q.X), math.Min(out.Y0, q.Y), math.Max(out.X1, q.X), math.Max(out.Y1, q.Y)}
	}
	return out
}

// Walk calls f for every item in drawing order, groups before their items, with the matrix that brings the item's
// coordinates onto the sheet.
func (s Scene) Walk(f func(it Item, m Matrix)) { walk(s.Items, Identity, f) }

func walk(items []Item, m Matrix, f func(Item, Matrix)) {
	for _, it := range items {
		it = Plain(it)
		f(it, m)
		if g, ok := it.(Group); ok {
			walk(g.Items, m.Then(g.Matrix()), f)
		}
	}
}

// Missing lists the signs of s that no face of the product has, each once: what the edge refuses or replaces before lettering.
func Missing(s string) []rune { return font.Cond500.Missing(s) }
