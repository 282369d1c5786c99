package spring

import (
	"fmt"
	"math"

	"jounce/num/root"
	"jounce/quantity"
)

// Control is what the valves do when load or temperature change.
type Control int

// The controls.
const (
	ValvesShut   Control = iota + 1 // the mass of air stays
	HeightHeld                      // pressure follows the load
	PressureHeld                    // height follows the load
)

func (c Control) String() string {
	return [...]string{"", "valves shut", "height held", "pressure held"}[c]
}

// Stops are the rubber that ends a spring's travel. A rate of zero is no stop.
type Stops struct {
	BumpHeight  float64 // spring height at which the bump stop begins to carry [m]
	BumpRate    float64 // rate of the bump stop at the spring [N/m]
	SolidHeight float64 // spring height at which it is solid [m]; 0 is not known
	StrapHeight float64 // spring height at which the rebound strap pulls [m]
	StrapRate   float64 // rate of the strap at the spring [N/m]
}

// Force is what the stops add to the spring at a height: pushing up positive
// [N]. Both are taken as linear; a rubber stop stiffens, so that near solid the
// real one pushes more.
func (s Stops) Force(height float64) float64 {
	var f float64
	if s.BumpRate > 0 && height < s.BumpHeight {
		f += s.BumpRate * (s.BumpHeight - height)
	}
	if s.StrapRate > 0 && height > s.StrapHeight {
		f -= s.StrapRate * (height - s.StrapHeight)
	}
	return f
}

// State is a spring at rest.
type State struct {
	Load        float64                // carried by spring and stops [N]
	Height      float64                // of the spring [m]
	Pressure    quantity.GaugePressure // [Pa]
	Temperature quantity.Temperature   // of its air [K]
}

// Response is the way from one state of rest to another.
type Response struct {
	Control        Control
	From, To       State
	Height         float64                // growth of the spring's height [m]; negative sinks
	Pressure       quantity.GaugePressure // growth of the pressure [Pa]
	StopForce      float64                // carried by the stops at the end [N]
	OnStop         bool                   // the bump stop carries at the end
	VolumeBefore   float64                // [m³]; 0 where it does not matter
	VolumeAfter    float64                // [m³]
	Residual       float64                // force left over by the solver [N]
	Iterations     int                    // evaluations of the root finder
	VolumeFromArea bool                   // the volumes are carried by the area: an estimate
}

// Respond works out where a spring comes to rest at another load or
// temperature.
//
//	height held    p·A(p, h₁) = F₂
//	pressure held  p₁·A(p₁, h) + S(h) = F₂, solved for h
//	valves shut    p·A(p, h) + S(h) = F₂ with p_abs = p₁_abs·V(h₁)/V(h)·T₂/T₁
//
// F load [N], A effective area [m²], V volume [m³], T temperature [K], S stops
// [N]. Valves shut is the slow change: the air has taken the second temperature.
// Brent's method within the data, to 1 µm. Between two heights where the
// balance holds, the first one met from the start is returned. A spring that
// finds no rest within its data is an error that says by how much: that is a
// car on its stops, and the data of the stops are missing.
func (s *Spring) Respond(from State, control Control, load float64, t quantity.Temperature, stops Stops, barometer quantity.AbsPressure) (Response, error) {
	r := Response{Control: control, From: from, To: State{Load: load, Temperature: t}}
	if !above(load) || !above(float64(from.Pressure)) || !above(from.Height) {
		return r, badNumber("load, pressure or height before", load, "figures above zero")
	}
	var err error
	switch control {
	case HeightHeld:
		err = s.respondHeight(&r, stops)
	case PressureHeld:
		err = s.respondPressure(&r, stops)
	case ValvesShut:
		err = s.respondShut(&r, stops, barometer)
	default:
		err = &Missing{For: "the answer to another load", What: []string{"which control is fitted: height held, pressure held, or valves shut"}}
	}
	if err != nil {
		return r, err
	}
	if r.To.Height < stops.SolidHeight {
		return r, &Outside{What: "spring height at rest", Value: r.To.Height / mm, Low: stops.SolidHeight / mm, High: from.Height / mm, Unit: "mm",
			Why: "the bump stop is solid there and carries the rest"}
	}
	r.Height = r.To.Height - from.Height
	r.Pressure = r.To.Pressure - from.Pressure
	r.StopForce = stops.Force(r.To.Height)
	r.OnStop = r.StopForce > 0
	return r, nil
}

func (s *Spring) respondHeight(r *Response, stops Stops) error {
	r.To.Height = r.From.Height
	n, err := s.Pressure(r.To.Load-stops.Force(r.From.Height), 0, r.From.Height)
	r.To.Pressure, r.Iterations = n.Value, n.Iterations
	return err
}

func (s *Spring) respondPressure(r *Response, stops Stops) error {
	if len(s.rows) < 2 {
		return &Missing{For: "the height at a held pressure", What: []string{"a load at a second height"}}
	}
	curve, err := s.areaCurve(float64(r.From.Pressure))
	if err != nil {
		return err
	}
	lo, hi := s.Heights()
	r.To.Pressure = r.From.Pressure
	return s.settle(r, lo, hi, func(h float64) float64 {
		a, err := curve.At(clamp(h, s.heights))
		if err != nil {
			return math.NaN()
		}
		return float64(r.From.Pressure)*a + stops.Force(h) - r.To.Load
	})
}

func (s *Spring) respondShut(r *Response, stops Stops, barometer quantity.AbsPressure) error {
	if !above(float64(r.From.Temperature)) || !above(float64(r.To.Temperature)) {
		return &Missing{For: "the answer with valves shut", What: []string{"the air's temperature before and after"}}
	}
	if len(s.rows) < 2 {
		return &Missing{For: "the answer with valves shut", What: []string{"a load at a second height"}}
	}
	before, err := s.Volume(r.From.Pressure, r.From.Height)
	if err != nil {
		return err
	}
	r.VolumeBefore = before.Value
	amount := float64(r.From.Pressure.Absolute(barometer)) * before.Value * float64(r.To.Temperature) / float64(r.From.Temperature)
	gauge := func(h float64) (quantity.GaugePressure, float64, bool) {
		v, err := s.Volume(r.From.Pressure, h)
		if err != nil {
			return 0, 0, false
		}
		return quantity.AbsPressure(amount / v.Value).Gauge(barometer), v.Value, v.FromArea
	}
	lo, hi := s.shutRange()
	err = s.settle(r, lo, hi, func(h float64) float64 {
		p, v, _ := gauge(h)
		if v == 0 {
			return math.NaN()
		}
		f, err := s.Force(max(p, 0), h)
		if err != nil {
			return math.NaN()
		}
		return f.Value + stops.Force(h) - r.To.Load
	})
	if err != nil {
		return err
	}
	r.To.Pressure, r.VolumeAfter, r.VolumeFromArea = gauge(r.To.Height)
	return nil
}

// shutRange is where both load and volume are known.
func (s *Spring) shutRange() (lo, hi float64) {
	lo, hi = s.Heights()
	if n := len(s.data.Volumes); n > 1 {
		lo = math.Max(lo, s.data.Volumes[0].Height)
		hi = math.Min(hi, s.data.Volumes[n-1].Height)
	}
	return lo, hi
}

// settle walks from the start towards the side that balances and then closes
// in on the first rest.
func (s *Spring) settle(r *Response, lo, hi float64, surplus func(h float64) float64) error {
	start := math.Min(math.Max(r.From.Height, lo), hi)
	f0 := surplus(start)
	if math.IsNaN(f0) {
		return badNumber("spring height [mm]", start/mm, "a height within the data")
	}
	if f0 == 0 {
		r.To.Height = start
		return nil
	}
	end := lo // too little force: it sinks
	if f0 > 0 {
		end = hi
	}
	const steps = 100
	at, f := start, f0
	for i := 1; i <= steps; i++ {
		next := start + (end-start)*float64(i)/steps
		fn := surplus(next)
		if (fn > 0) != (f0 > 0) || fn == 0 {
			res, err := root.Brent(surplus, at, next, 1e-6)
			r.To.Height, r.Residual, r.Iterations = res.X, res.Residual, res.Iterations
			return err
		}
		at, f = next, fn
	}
	verb := "sinks"
	if f0 > 0 {
		verb = "rises"
	}
	return &Outside{What: fmt.Sprintf("the spring %s past the end of its data with %.0f N over; height", verb, math.Abs(f)),
		Value: at / mm, Low: lo / mm, High: hi / mm, Unit: "mm", Why: "the rest is the stops' to carry"}
}

// Sink is what cold does to the height of a standing spring with valves shut.
type Sink struct {
	Volume      float64                        // [m³]
	Area        float64                        // [m²]
	Ratio       float64                        // spring travel over wheel travel [1]
	Temperature quantity.Temperature           // before [K]
	Change      quantity.TemperatureDifference // after less before [K]
	Spring      float64                        // change of the spring's height [m]; negative sinks
	Wheel       float64                        // change at the wheel [m]
}

// ColdSink is how far a standing spring sinks by itself when it cools.
//
//	Δh = V·ΔT / (T·A) / ratio
//
// V volume [m³], ΔT change of temperature [K], T temperature before [K], A
// effective area [m²]. Handbook calculation 8. The load stays, so the pressure
// stays as far as the area does: a bellows, whose area grows as it sinks,
// sinks less. Use [Spring.Respond] where the curves are known.
func ColdSink(volume, area, ratio float64, t quantity.Temperature, change quantity.TemperatureDifference) (Sink, error) {
	k := Sink{Volume: volume, Area: area, Ratio: ratio, Temperature: t, Change: change}
	if !above(volume) || !above(area) || !(t > 200 && t < 400) || !(math.Abs(float64(change)) < 100) {
		return k, badNumber("temperature [K]", float64(t), "volume and area above zero, a temperature from 200 to 400 K")
	}
	if err := checkRatio(ratio); err != nil {
		return k, err
	}
	k.Spring = volume * float64(change) / (float64(t) * area)
	k.Wheel = k.Spring / ratio
	return k, nil
}
