package spring

import (
	"math"

	"jounce/num/doubt"
	"jounce/quantity"
)

// Polytropic exponents (handbook B11, S31; FS uses 1.38).
const (
	Slow   = 1.0  // settling: the air keeps its temperature [1]
	Moving = 1.38 // riding [1]
)

// Form is the form of the first term of a rate.
type Form int

// The forms.
const (
	FormArea   Form = iota + 1 // n·p·A²/V: the volume is taken to grow as the area says
	FormVolume                 // n·p·A·(dV/dh)/V: the volume's own slope is known
)

func (f Form) String() string {
	return [...]string{"", "n·p_abs·A²/V", "n·p_abs·A·(dV/dh)/V"}[f]
}

// Rate is a spring's rate at one pressure and height.
type Rate struct {
	Exponent     float64                // n [1]
	Barometer    quantity.AbsPressure   // [Pa]
	Absolute     quantity.AbsPressure   // pressure in the spring [Pa]
	Area         Area                   // at gauge pressure and height
	Volume       Volume                 // at that height
	Form         Form                   // which form AirTerm has
	AirTerm      float64                // compression of the air [N/m]
	AreaTerm     float64                // −p·dA/dh: the area grows as the spring shortens [N/m]
	AreaTermHalf float64                // ± of AreaTerm [N/m]
	Plateau      bool                   // one height only, sleeve: the area was taken as constant
	Value        float64                // AirTerm + AreaTerm [N/m]
	Half         float64                // ± of Value at a constant load [N/m]
	Gauge        quantity.GaugePressure // [Pa]
}

const (
	// slopeShare is the doubt of the area term from two heights or more [1],
	// beside the area's own.
	slopeShare = 0.10
	// plateauSlope is the doubt of a sleeve's slope where one height is known:
	// 1 % of the area in 10 mm, in 1/m.
	plateauSlope = 1.0
)

// Rate is the stiffness of the spring at a pressure and a height.
//
//	k = n·p_abs·A·(dV/dh)/V − p·dA/dh     where the volume's slope is known
//	k = n·p_abs·A²/V        − p·dA/dh     otherwise
//
// n polytropic exponent, 1 slow and 1.38 moving [1]; p_abs = p + barometer
// [Pa]; A effective area [m²]; V volume [m³]; h height [m]. Source S31 and the
// formula of FS, with which case 3.3 agrees to 0.3 % in the first form and 2.5 %
// in the second. Valid for small travel about the height and closed valves; over
// a large bump use [FiniteDifferenceRate] or [Spring.Peak].
//
// Half is taken at constant load: less area means more pressure, so that the
// two partly cancel. The rubber's own stiffness is left out; the rate errs
// low by a few per cent (common practice).
//
// A rate waits for a volume, and on a bellows (or where the kind is not known)
// for a second height, whichever is missing.
func (s *Spring) Rate(p quantity.GaugePressure, height, n float64, barometer quantity.AbsPressure) (Rate, error) {
	r := Rate{Exponent: n, Barometer: barometer, Absolute: p.Absolute(barometer), Gauge: p}
	if !(n >= 1 && n <= 1.4) {
		return r, badNumber("polytropic exponent", n, "a figure from 1 to 1.4")
	}
	if !(barometer >= 50e3 && barometer <= 110e3) {
		return r, badNumber("barometer [bar]", float64(barometer)/bar, "a figure from 0.5 to 1.1 bar absolute")
	}
	if err := s.rateGaps(); err != nil {
		return r, err
	}
	var err error
	if r.Area, err = s.Area(p, height); err != nil {
		return r, err
	}
	if r.Volume, err = s.Volume(p, height); err != nil {
		return r, err
	}
	grows := r.Area.Value
	r.Form = FormArea
	if r.Volume.SlopeKnown {
		r.Form, grows = FormVolume, r.Volume.Slope
	}
	r.AirTerm = n * float64(r.Absolute) * r.Area.Value * grows / r.Volume.Value
	if r.Area.SlopeKnown {
		r.AreaTerm = -float64(p) * r.Area.Slope
		r.AreaTermHalf = math.Abs(r.AreaTerm) * slopeShare
	} else {
		r.Plateau = true
		r.AreaTermHalf = float64(p) * r.Area.Value * plateauSlope
	}
	r.Value = r.AirTerm + r.AreaTerm
	r.Half = r.half()
	return r, nil
}

// half is the doubt of a rate at constant load F = p·A. With p = F/A the air
// term is n·(F·A + p₀·A²)/V or n·(F + p₀·A)·V'/V, and the area term is F·A'/A,
// in which a common factor of A cancels.
func (r Rate) half() float64 {
	a, v := r.Area.Half/r.Area.Value, r.Volume.Half/r.Volume.Value
	ambient := r.AirTerm * float64(r.Barometer) / float64(r.Absolute)
	byArea := ambient
	if r.Form == FormArea {
		byArea = r.AirTerm + ambient
	}
	return doubt.Combine(byArea*a, r.AirTerm*v, r.AreaTermHalf)
}

// rateGaps names what a rate waits for.
func (s *Spring) rateGaps() error {
	var what []string
	if len(s.data.Volumes) == 0 {
		what = append(what, "the spring's volume at the height of ROAD")
	}
	if len(s.rows) == 1 && s.data.Kind != Sleeve {
		if s.data.Kind == UnknownKind {
			what = append(what, "the kind of spring (bellows or sleeve), or a load at a second height")
		} else {
			what = append(what, "a load at a second height (a bellows loses area as it grows taller)")
		}
	}
	if what == nil {
		return nil
	}
	return &Missing{For: "the rate of the spring", What: what}
}

// Ride is how a corner rides on its spring.
type Ride struct {
	Load          Load
	Need          Need
	Rate          Rate
	Wheel         float64 // rate at the wheel, Rate × ratio² [N/m]
	WheelHalf     float64 // ± of Wheel [N/m]
	Frequency     float64 // of the sprung mass on it [Hz]
	FrequencyHalf float64 // ± of Frequency [Hz]
	Effects       []Effect
}

// Effect is what an input's doubt and 5 % more of it do to the frequency.
type Effect struct {
	Input    string  // name of the input
	ByDoubt  float64 // change by its half-width [Hz]
	Share    float64 // its part of the squared half-width [1]
	PlusFive float64 // change by 5 % more of it [Hz]
}

// Ride works out pressure, rates and frequency of a corner at a spring height.
//
//	wheel rate = k · ratio²
//	f          = √(wheel rate / sprung) / 2π
//
// k spring rate [N/m], ratio spring travel over wheel travel [1], sprung mass
// [kg]. Handbook B11. The change of the ratio over the travel, the damper and
// the tyre are left out: the tyre would lower the frequency by 3 to 7 %, see
// [RideRate]. The doubt is propagated from corner weight, unsprung mass, ratio,
// area, volume and the area term, taken as independent (num/doubt.Linear).
func (s *Spring) Ride(c Corner, height, n float64, barometer quantity.AbsPressure) (Ride, error) {
	var r Ride
	var err error
	if r.Load, r.Need, err = s.CornerPressure(c, height); err != nil {
		return r, err
	}
	if r.Rate, err = s.Rate(r.Need.Value, height, n, barometer); err != nil {
		return r, err
	}
	if !(r.Rate.Value > 0) {
		return r, badNumber("spring rate [N/mm]", r.Rate.Value/1000, "a rate above zero; the area falls faster than the air stiffens")
	}
	r.Wheel = WheelRate(r.Rate.Value, c.Ratio)
	r.WheelHalf = r.Wheel * doubt.Combine(r.Rate.Half/r.Rate.Value, 2*c.RatioShare)
	r.Frequency = Frequency(r.Wheel, r.Load.Sprung)
	return r, r.propagate()
}

// propagate carries the doubts of the inputs to the frequency.
func (r *Ride) propagate() error {
	c, k := r.Load.Corner, r.Rate
	area, volume := k.Area.Value, k.Volume.Value
	names := []string{"corner weight", "unsprung mass", "spring ratio", "area", "volume", "area term"}
	in := []doubt.Input{{Value: c.Mass, Half: c.MassHalf}, {Value: c.Unsprung, Half: c.UnsprungHalf},
		{Value: c.Ratio, Half: c.Ratio * c.RatioShare}, {Value: area, Half: k.Area.Half},
		{Value: volume, Half: k.Volume.Half}, {Value: k.AreaTerm, Half: k.AreaTermHalf}}
	res, err := doubt.Linear(func(x []float64) (float64, error) {
		sprung := x[0] - x[1]
		force := sprung * quantity.StandardGravity / x[2]
		grows := x[3]
		if k.Form == FormVolume {
			grows = k.Volume.Slope
		}
		air := k.Exponent * (force/x[3] + float64(k.Barometer)) * x[3] * grows / x[4]
		// The area term follows the load.
		return Frequency(WheelRate(air+x[5]*force/r.Load.Spring, x[2]), sprung), nil
	}, in)
	if err != nil {
		return err
	}
	r.FrequencyHalf = res.Half
	for i, name := range names {
		r.Effects = append(r.Effects, Effect{Input: name, ByDoubt: res.Effects[i], Share: res.Shares[i], PlusFive: res.PlusFive[i]})
	}
	return nil
}
