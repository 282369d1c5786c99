package stance

import (
	"math"

	"jounce/quantity"
)

// Heights are four readings over the floor, in the order FL, FR, RL, RR [m].
type Heights [4]float64

// Places are where four heights were read.
type Places [4]struct {
	Back float64 // behind the front axle [m]
	Left float64 // left of the centre line [m]
}

// AtWheels are the places over the four wheels.
func AtWheels(base Base) Places {
	var p Places
	for _, w := range Wheels {
		track := base.FrontTrack
		if !w.Front() {
			p[w].Back, track = base.Wheelbase, base.RearTrack
		}
		p[w].Left = track / 2
		if !w.OnLeft() {
			p[w].Left = -track / 2
		}
	}
	return p
}

// Warp is how far four heights are from lying in a plane.
type Warp struct {
	Heights      Heights
	Half         float64  // ± of one reading [m]
	Residual     float64  // FL − FR − RL + RR [m]
	ResidualHalf float64  // ± of Residual [m]
	Fronts       float64  // FL − FR [m]
	Rears        float64  // RL − RR [m]
	First        [2]Wheel // the pair to be read again first: the one that differs more
	Other        [2]Wheel
}

// FlatPlane works out the flat-plane residual of four heights.
//
//	residual = FL − FR − RL + RR
//
// Heights and half, the ± of one reading, [m]. On a level floor under a straight
// body it is zero at any pitch and roll, provided left and right were read at
// mirrored places and front and rear pairs are equally far apart. Handbook B8,
// scenario 8. Doubt: each of the differences FL − FR and RL − RR was read with
// one instrument and carries its figure once; the two are independent. The
// residual alone cannot say which corner is wrong.
func FlatPlane(h Heights, half float64) (Warp, error) {
	w := Warp{Heights: h, Half: half}
	for i, v := range h {
		if !above(v) {
			return w, bad("height at "+Wheel(i).String()+" [mm]", v/mm, "a height above zero")
		}
	}
	if !(half >= 0) {
		return w, bad("± of a height [mm]", half/mm, "zero or more")
	}
	w.Fronts, w.Rears = h[FL]-h[FR], h[RL]-h[RR]
	w.Residual = w.Fronts - w.Rears
	w.ResidualHalf = math.Sqrt2 * half
	w.First, w.Other = [2]Wheel{RL, RR}, [2]Wheel{FL, FR}
	if math.Abs(w.Fronts) > math.Abs(w.Rears) {
		w.First, w.Other = w.Other, w.First
	}
	return w, nil
}

// Plane is the plane that fits four heights best.
type Plane struct {
	Front     float64        // height over the front axle's centre [m]
	NoseUp    quantity.Angle // [rad]; positive when the nose is up
	LeftUp    quantity.Angle // [rad]; positive when the left side is up
	SlopeBack float64        // rise behind the front axle [m/m]; negative when the nose is up
	SlopeLeft float64        // rise to the left [m/m]
	Residuals Heights        // reading less plane at each place [m]
	Worst     float64        // largest residual in size [m]
}

// BestPlane fits h = front + a·back + b·left to four heights by least squares.
//
// Heights, back and left [m]. The four places must not lie in a line. Solved by
// the normal equations about the middle of the four places; their error is
// below 1e-12 of the heights for places some decimetres apart. With places in a
// rectangle each residual is a quarter of the flat-plane residual.
func BestPlane(h Heights, at Places) (Plane, error) {
	var mx, my, mh float64
	for i := range h {
		if !finite(h[i]) || !finite(at[i].Back) || !finite(at[i].Left) {
			return Plane{}, bad("height at "+Wheel(i).String()+" [mm]", h[i]/mm, "a height and its place")
		}
		mx, my, mh = mx+at[i].Back/4, my+at[i].Left/4, mh+h[i]/4
	}
	var xx, xy, yy, xh, yh float64
	for i := range h {
		x, y, z := at[i].Back-mx, at[i].Left-my, h[i]-mh
		xx, xy, yy = xx+x*x, xy+x*y, yy+y*y
		xh, yh = xh+x*z, yh+y*z
	}
	det := xx*yy - xy*xy
	if !(det > 1e-9*xx*yy) || !(xx > 1e-4) || !(yy > 1e-4) {
		return Plane{}, &Question{Read: "the places of the four heights", Expected: "places that do not lie in a line",
			Ask: "Where were the heights read, along and across?"}
	}
	p := Plane{SlopeBack: (xh*yy - yh*xy) / det, SlopeLeft: (yh*xx - xh*xy) / det}
	p.Front = mh - p.SlopeBack*mx - p.SlopeLeft*my
	p.NoseUp, p.LeftUp = quantity.Angle(-math.Atan(p.SlopeBack)), quantity.Angle(math.Atan(p.SlopeLeft))
	for i := range h {
		p.Residuals[i] = h[i] - p.At(at[i].Back, at[i].Left)
		p.Worst = math.Max(p.Worst, math.Abs(p.Residuals[i]))
	}
	return p, nil
}

// At is the plane's height at a place [m].
func (p Plane) At(back, left float64) float64 {
	return p.Front + p.SlopeBack*back + p.SlopeLeft*left
}
