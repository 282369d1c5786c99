package draw

import (
	"math"
	"sort"
)

// Hatch is parallel lines inside an outline. The zero value is no hatch.
type Hatch struct {
	Angle float64 // [°] of the lines, anticlockwise as seen from the x axis
	Pitch float64 // [mm] between neighbouring lines
	Pen   Pen
}

// Draws reports whether the hatch leaves lines.
func (h Hatch) Draws() bool { return h.Pitch > 0 && h.Pen.Draws() }

// most lines a hatch may have; a finer one is drawn with a wider pitch, so that wrong data cannot fill the memory.
const mostHatchLines = 4000

// Lines is the hatch of the outline as an outline of straight pieces, even-odd, exact to 0.01 mm. The lines of all
// hatches of one angle and pitch lie on one raster of the paper, so that neighbours join.
func (h Hatch) Lines(o Outline) Outline {
	if !h.Draws() {
		return nil
	}
	s, c := math.Sincos(h.Angle * math.Pi / 180)
	// u runs along the lines, v across them; on the paper, y down: direction (c, −s), normal (s, c).
	type uv struct{ u, v float64 }
	var runs [][]uv
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, run := range o.Flatten(0.01) {
		r := make([]uv, 0, len(run)+1)
		for _, p := range run {
			q := uv{p.X*c - p.Y*s, p.X*s + p.Y*c}
			lo, hi = math.Min(lo, q.v), math.Max(hi, q.v)
			r = append(r, q)
		}
		runs = append(runs, append(r, r[0])) // an open run is closed, as a tone closes it
	}
	if !(hi > lo) || math.IsInf(hi-lo, 0) {
		return nil
	}
	pitch := math.Max(h.Pitch, (hi-lo)/mostHatchLines)
	var out Outline
	for k := math.Ceil(lo / pitch); k*pitch < hi; k++ {
		v := k*pitch + 1e-9 // beside the corners
		var us []float64
		for _, r := range runs {
			for i := 1; i < len(r); i++ {
				if a, b := r[i-1], r[i]; (a.v <= v) != (b.v <= v) {
					us = append(us, a.u+(v-a.v)/(b.v-a.v)*(b.u-a.u))
				}
			}
		}
		sort.Float64s(us)
		for i := 1; i < len(us); i += 2 {
			if us[i]-us[i-1] > 0.02 {
				a, b := us[i-1], us[i]
				out = out.MoveTo(a*c+v*s, v*c-a*s).LineTo(b*c+v*s, v*c-b*s)
			}
		}
	}
	return out
}
