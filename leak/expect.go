package leak

import (
	"math"

	"jounce/gas"
	"jounce/num/doubt"
	"jounce/quantity"
)

// Expectation is what a gauge should read later if nothing is lost.
type Expectation struct {
	Absolute  quantity.AbsPressure   // now [Pa]
	Later     quantity.AbsPressure   // at the other temperature [Pa]
	Gauge     quantity.GaugePressure // what the gauge should read [Pa]
	Half      float64                // 95 % half-width for the same gauge [Pa]
	Parts     []Part                 // whose doubt it is
	PerKelvin float64                // change of the reading for each kelvin [Pa/K]
}

// Expect is what the gauge should read at another temperature.
//
//	p2 = (p1 + b1)·T2/T1 − b2
//
// p gauge, b barometer [Pa], T [K]. The barometer of a moment to come is not
// read: give a zero one, and it counts as unchanged ± 0.02 bar. Doubts as in
// Decay: one gauge and one thermometer count once. Exact for a rigid vessel; a
// spring under load keeps its pressure instead.
func Expect(now Reading, later Temperature, barometer Barometer) (Expectation, error) {
	then := Reading{Temperature: later, Barometer: barometer, Gauge: now.Gauge}
	for _, r := range []Reading{now, then} {
		if err := r.check(); err != nil {
			return Expectation{}, err
		}
	}
	if !now.Temperature.Read() || !later.Read() {
		return Expectation{}, ErrNoTemperature
	}
	in, _ := pair(now, then)
	in[g2].Value = 0
	d, err := doubt.Linear(lost, in[:])
	if err != nil {
		return Expectation{}, err
	}
	p := now.Gauge.Value.Absolute(quantity.AbsPressure(in[b1].Value))
	return Expectation{
		Absolute: p, Later: gas.Heated(p, now.Temperature.Value, later.Value),
		Gauge: quantity.GaugePressure(d.Value), Half: d.Half, Parts: parts(d),
		PerKelvin: float64(p) / float64(now.Temperature.Value),
	}, nil
}

// Decision is when a running test can be decided.
type Decision struct {
	Limit    float64 // loss allowed in 12 h [Pa]
	Half     float64 // 95 % half-width of a loss between two readings [Pa]
	Parts    []Part  // whose doubt it is
	After    float64 // from the first reading [s]
	Possible bool    // false where the limit is not above zero
}

// Decide is when a test that began with a reading can be decided for a limit,
// if nothing is lost.
//
//	U·12 h/t ≤ limit  →  t = 12 h·U/limit
//
// U 95 % half-width of the loss [Pa], limit loss allowed in 12 h [Pa]. gauge is
// the half-width of the gauge asked about, a negative one for the gauge that
// was read [Pa]: a better instrument's figure says when that would do. The
// temperature is taken to stay; a fall of 12 K makes U 4 % less. A barometer
// not read at the start counts as not read. If air is being lost, a verdict of
// fail can come sooner and one of pass later.
func Decide(first Reading, limit, gauge float64) (Decision, error) {
	if err := first.check(); err != nil {
		return Decision{}, err
	}
	if !first.Temperature.Read() {
		return Decision{}, ErrNoTemperature
	}
	if math.IsNaN(limit) || math.IsNaN(gauge) || math.IsInf(gauge, 0) {
		return Decision{}, refuse("the limit or the gauge's doubt", limit, "Pa", "a number")
	}
	if gauge >= 0 {
		first.Gauge.Half = gauge
	}
	in, _ := pair(first, first)
	d, err := doubt.Linear(lost, in[:])
	if err != nil {
		return Decision{}, err
	}
	r := Decision{Limit: limit, Half: d.Half, Parts: parts(d), Possible: limit > 0}
	if r.Possible {
		r.After = Night * r.Half / limit
	}
	return r, nil
}
