package photo

import (
	"fmt"
	"math"
)

// Unseen is something that the redrawn picture cannot show, or shows otherwise
// than it would be.
type Unseen struct {
	Text    string  // one or two sentences
	By      float64 // [m] how far something may lie elsewhere; 0 where no length says it
	Assumed bool    // a figure in it was assumed and not measured
}

// What is assumed of the camera and of the body where nothing is given (common practice).
const (
	assumedDistance = 6.0  // [m]
	assumedHeight   = 1.5  // [m]
	assumedInset    = 0.25 // [m]
)

// unseen works out what one picture cannot show.
//
// Seen from D metres at height H, what stands i further away at height z appears
// at H + (z − H)·D/(D + i), so it is off by (z − H)·i/(D + i), and a movement d of
// it would appear as d·D/(D + i), d·i/(D + i) less than is drawn. A pitch φ =
// (rear − front)/wheelbase moves what is at height z along by φ·(z − hub). Central
// projection, exact for a camera square to the car.
func unseen(s Scale, h Shape, c Change, hidden float64) []Unseen {
	d, eye, inset := s.Camera.Distance, s.Camera.Height, h.Inset
	assumed := d <= 0 || eye <= 0 || inset <= 0
	d, eye, inset = orAssumed(d, assumedDistance), orAssumed(eye, assumedHeight), orAssumed(inset, assumedInset)
	roof, most, low := h.Top[0].Z, 0.0, math.Inf(1)
	lowAt := 0.0
	for _, p := range h.Top {
		roof = math.Max(roof, p.Z)
	}
	x0, x1 := h.span()
	for _, x := range []float64{x0, x1} {
		most = math.Max(most, math.Abs(c.At(x, s.Wheelbase)))
	}
	for _, p := range h.Bottom {
		if z := p.Z + c.At(p.X, s.Wheelbase); z < low {
			low, lowAt = z, p.X
		}
	}
	share := inset / (d + inset)
	var out []Unseen
	add := func(by float64, assumed bool, format string, args ...any) {
		out = append(out, Unseen{fmt.Sprintf(format, args...), by, assumed})
	}
	if low < -0.0005 {
		add(-low, false, "At this height the body would be %s mm beneath the floor, %s mm behind the front hub: it would touch down before.",
			millimetres(-low), millimetres(lowAt))
	}
	if len(s.Notes) > 0 && s.Misfit != 0 {
		add(math.Abs(s.Misfit)*roof, false, "The hubs' heights do not fit the tyres by %.0f %%: heights in this picture may be off by %s mm at the roof, and a movement of %s mm by %s mm.",
			math.Abs(s.Misfit)*100, millimetres(math.Abs(s.Misfit)*roof), millimetres(most), millimetres(math.Abs(s.Misfit)*most))
	}
	by := math.Abs(roof-eye)*share + most*share
	from := fmt.Sprintf("Seen from %.1f m at a height of %.1f m, with the roof's edge %s mm further away than the tyres", d, eye, millimetres(inset))
	if assumed {
		from += " (assumed where not given)"
	}
	add(by, assumed, "%s: the roof stands up to %s mm elsewhere than the scale says, and would seem to move by %s mm less than is drawn.",
		from, millimetres(math.Abs(roof-eye)*share), millimetres(most*share))
	if pitch := (c.Rear - c.Front) / s.Wheelbase; math.Abs(pitch*roof) >= 0.0005 {
		along := math.Abs(pitch) * (roof - (s.FrontHeight+s.RearHeight)/2)
		which := "rearwards"
		if pitch > 0 {
			which = "forwards"
		}
		add(along, false, "The body pitches by %.1f°: the roof would also move %s by some %s mm, which is not drawn.",
			math.Abs(math.Atan(pitch))*180/math.Pi, which, millimetres(along))
	}
	if hidden > 0 {
		add(0, false, "The upper %s mm of a tyre were hidden by its arch and are drawn from the tyre beside them.", millimetres(hidden))
	}
	if most > 0 {
		add(0, false, "What the body uncovers is stretched from beside it, up to %s mm. Shadows and the wheels of the other side stay; what is seen through the glass goes along.",
			millimetres(most))
	}
	return out
}

func orAssumed(v, assumed float64) float64 {
	if v > 0 {
		return v
	}
	return assumed
}
