package stance

import (
	"math"

	"jounce/num/doubt"
)

// Aim is where the dipped beam points, in per cent of distance: negative is
// below the horizontal, as −1.2 is 12 mm down in a metre.
type Aim struct {
	Was         float64 // aim before [%]
	FrontChange float64 // rise of the body at the front axle [m]
	RearChange  float64 // rise of the body at the rear axle [m]
	Wheelbase   float64 // [m]
	Pitch       float64 // change of the aim, positive when the nose goes up [%]
	Now         float64 // aim after [%]
	Half        float64 // ± of Now [%]
}

// AimAfter works out the headlamp aim after a change of the body's heights.
//
//	Δ% = 100·(Δfront − Δrear)/L
//
// Handbook calculation 9. was and wasHalf the aim before [%]; front and rear
// rise of the body over the axles, heightHalf ± of their difference, wheelbase
// L [m]. The tangent is taken for the angle (error below 0.1 % of the change up
// to 3°). Limits of the aim: source S6.
func AimAfter(was, wasHalf, front, rear, heightHalf, wheelbase float64) (Aim, error) {
	a := Aim{Was: was, FrontChange: front, RearChange: rear, Wheelbase: wheelbase}
	if !above(wheelbase) || wheelbase > 6 {
		return a, bad("wheelbase [m]", wheelbase, "a length above zero and up to 6 m")
	}
	if !(math.Abs(was) <= 10) || !(math.Abs(front) <= 0.5) || !(math.Abs(rear) <= 0.5) || !(wasHalf >= 0) || !(heightHalf >= 0) {
		return a, bad("aim [%]", was, "an aim within 10 %, height changes within 500 mm")
	}
	a.Pitch = 100 * (front - rear) / wheelbase
	a.Now = was + a.Pitch
	a.Half = doubt.Combine(wasHalf, 100*heightHalf/wheelbase)
	return a, nil
}

// RearRise is how far the rear must come up for an aim of so many per cent [m];
// negative is down. The front stays.
func (a Aim) RearRise(want float64) float64 { return (a.Now - want) / 100 * a.Wheelbase }

// FrontRise is how far the front must come up for that aim [m]; negative is
// down. The rear stays.
func (a Aim) FrontRise(want float64) float64 { return -a.RearRise(want) }

// PitchRoom is how much pitch, as a difference of front and rear rise, the aim
// has left towards its two limits [m]: up to the higher (nose up), down to the
// lower. Below zero is past it. Limits in per cent, such as −0.5 and −2.75 (S6).
func (a Aim) PitchRoom(high, low float64) (noseUp, noseDown float64) {
	return (high - a.Now) / 100 * a.Wheelbase, (a.Now - low) / 100 * a.Wheelbase
}
