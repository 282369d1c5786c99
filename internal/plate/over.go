package plate

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/photo"
	"jounce/internal/study"
)

// Over is one thing drawn over a redrawn picture to its scale.
type Over struct {
	Key   string // floor, hump, kerb, ramp
	Words string // what it is, with its numbers
	Line  []photo.Point
	Solid bool        // the line is the upper edge of something that stands on the floor
	At    photo.Point // where a leader points to it
}

// Overs are the floor and what of the customer's ways was typed, in the picture.
func (p Picture) Overs(r *study.Result) []Over {
	if !p.Scaled {
		return nil
	}
	left, right := p.reach()
	floor := p.over("floor", "floor, the plane on which both tyres stand", false, spot(left, 0), spot(right, 0))
	floor.At = p.Scale.Pixel(spot(left+0.94*(right-left), 0))
	out := []Over{floor}
	w := r.Path.Road
	if w.Hump.Known() && w.HumpLength.Known() {
		out = append(out, p.hump(w.Hump, w.HumpLength))
	}
	if w.Kerb.Known() {
		z := w.Kerb.Value
		kerb := p.over("kerb", fmt.Sprintf("upper edge of a kerb of %s beside the car", w.Kerb), false, spot(r.Body.Nose.V, z), spot(r.Body.Tail.V, z))
		kerb.At = p.Scale.Pixel(spot(0.75*p.Scale.Wheelbase, z))
		out = append(out, kerb)
	}
	if w.RampLength.Known() && w.RampRise.Known() {
		out = append(out, p.ramp(w, left))
	}
	slices.SortStableFunc(out, func(a, b Over) int { return cmp.Compare(a.At.X, b.At.X) }) // their numbers run from left to right
	return out
}

// reach is how far the picture shows the floor before and behind the front hub [m].
func (p Picture) reach() (left, right float64) {
	a, b := p.Scale.Spot(photo.Point{X: 0, Y: p.Marks[0].At.Y}).X, p.Scale.Spot(photo.Point{X: float64(p.W), Y: p.Marks[0].At.Y}).X
	return math.Min(a, b), math.Max(a, b)
}

func spot(x, z float64) photo.Spot { return photo.Spot{X: x, Z: z} }

// over brings a line into the picture. A leader points at its middle.
func (p Picture) over(key, words string, solid bool, spots ...photo.Spot) Over {
	o := Over{Key: key, Words: words, Solid: solid}
	for _, s := range spots {
		o.Line = append(o.Line, p.Scale.Pixel(s))
	}
	o.At = o.Line[len(o.Line)/2]
	return o
}

// hump is a round hump in the middle between the wheels.
//
//	z = √(R² − u²) − (R − h), R = (L²/4 + h²)/(2·h)
//
// h height, L length along the floor, u from its middle, all in m; plane geometry
// of a circle's segment, the shape that the study rolls the car over.
func (p Picture) hump(high, long finding.Number) Over {
	const n = 32
	mid, h, l := p.Scale.Wheelbase/2, high.Value, long.Value
	r := (l*l/4 + h*h) / (2 * h)
	var line []photo.Spot
	for i := range n + 1 {
		u := l * (float64(i)/n - 0.5)
		line = append(line, spot(mid+u, math.Max(0, math.Sqrt(math.Max(0, r*r-u*u))-(r-h))))
	}
	return p.over("hump", fmt.Sprintf("hump, %s high and %s long", high, long), true, line...)
}

// ramp is a driveway before the front wheels, its foot where the front tyre
// touches it.
//
//	x = −max(R·tan(θ/2), √(2·R·s − s²)), tan θ = rise ÷ length
//
// R loaded radius of the tyre [m], s step at the foot [m], x of the foot behind
// the front hub [m]. Plane geometry of a circle that stands on the floor and
// touches the slope or the edge of the step.
func (p Picture) ramp(w study.Ways, left float64) Over {
	step, radius := 0.0, p.Scale.FrontHeight
	words := fmt.Sprintf("driveway, rising %s over %s", w.RampRise, w.RampLength)
	if w.RampStep.Known() && w.RampStep.Value > 0 {
		step = w.RampStep.Value
		words += fmt.Sprintf(", with a step of %s at its foot", w.RampStep)
	}
	s := math.Min(step, radius)
	foot := -math.Max(radius*math.Tan(math.Atan2(w.RampRise.Value, w.RampLength.Value)/2), math.Sqrt(2*radius*s-s*s))
	end := foot - w.RampLength.Value
	top := step + w.RampRise.Value
	o := p.over("ramp", words, true, spot(foot, 0), spot(foot, step), spot(end, top), spot(math.Min(end, left)-0.1, top))
	// What of it the picture shows.
	at := math.Max(foot-0.5*(foot-math.Max(left, end)), end)
	o.At = p.Scale.Pixel(spot(at, step+(foot-at)/w.RampLength.Value*w.RampRise.Value))
	return o
}

// Cleared are the findings on what the car clears: all on the customer's ways,
// which say themselves at which presets, and those on heights at a preset, 0 to 3.
func Cleared(rec *job.Job, r *study.Result, preset int) []finding.Finding {
	hump := map[string]bool{}
	for _, w := range rec.Wishes {
		hump["wish."+w.ID] = w.Measure == "hump cleared"
	}
	var out []finding.Finding
	for _, f := range r.Findings {
		if f.Topic == "ways" || hump[f.ID] || f.Topic == "heights" && atPreset(f.ID, study.PresetNames[preset]) {
			out = append(out, f)
		}
	}
	return out
}

// atPreset tells that an id is that of a finding about a preset: "ground.road".
func atPreset(id, preset string) bool {
	return slices.Contains(strings.Split(id, "."), strings.ToLower(preset))
}

// Assumed is at how many points the outline of the body is assumed, and of how
// many.
func Assumed(r *study.Result) (n, of int) {
	for _, s := range r.Body.Stations {
		of++
		if !s.KnownZ {
			n++
		}
	}
	return n, of
}
