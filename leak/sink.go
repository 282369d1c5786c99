package leak

import (
	"errors"
	"math"

	"jounce/num/doubt"
	"jounce/quantity"
)

// Spring is a standing air spring as far as its sinking needs it.
type Spring struct {
	Volume     float64                // of air at its height [m³]
	VolumeHalf float64                // 95 % half-width [m³]
	Area       float64                // effective area at its height [m²]
	AreaHalf   float64                // 95 % half-width [m²]
	Ratio      float64                // spring travel over wheel travel [1]
	RatioHalf  float64                // 95 % half-width [1]
	Pressure   quantity.GaugePressure // zero if not read: the barometer is then left out [Pa]
}

// Stand is a car standing with its valves shut, read twice at one corner.
type Stand struct {
	Time                  float64 // between the readings [s]
	Before, After         Height  // at the wheel: hub to arch
	TempBefore, TempAfter Temperature
	BaroBefore, BaroAfter Barometer
}

// Sunk is what the heights say. Lengths are at the wheel and positive
// downwards.
type Sunk struct {
	Sank          float64      // as read [m]
	SpringCold    float64      // the cold's part, at the spring [m]
	ByCold        float64      // the cold's part [m]
	ByBarometer   float64      // the barometer's part, zero if it or the pressure was not read [m]
	Barometer     bool         // the barometer's part, or the doubt of it, is counted
	Unexplained   float64      // sank less both [m]
	Half          float64      // its 95 % half-width [m]
	Parts         []Part       // whose doubt it is; Half in metres
	Sank12        float64      // as read, scaled to 12 h [m]
	Unexplained12 float64      // scaled to 12 h [m]
	Half12        float64      // scaled to 12 h [m]
	Low12         float64      // least likely [m]
	High12        float64      // greatest likely [m]
	Doubt         doubt.Result // inputs in the order h1, h2, T1, T2, b1, b2, V, A, ratio
}

// ErrRatio is a spring ratio that is not there: none is assumed.
var ErrRatio = errors.New("the spring ratio is needed: spring travel over wheel travel, by tape at two heights")

const (
	h1 = iota
	h2
	_ // T1, T2, b1, b2 as in a pair of readings
	_
	_
	_
	volume
	area
	ratio
	sinkInputs
)

// Sink works out how far a standing corner sank past the cold.
//
//	Δh_cold = V·(T1 − T2)/(T1·A)/i
//	Δh_baro = V·(b2 − b1)/((p + b1)·A)/i
//	unexplained = (h1 − h2) − Δh_cold − Δh_baro, scaled by 12 h/t
//
// V air in the spring [m³], A effective area [m²], i spring over wheel travel
// [1], T of its air [K], b barometer, p gauge pressure of the spring [Pa], h at
// the wheel [m]. The load stays, so the pressure stays and the volume follows
// the temperature (ideal gas). Source: handbook B26 (CP) for the cold's part;
// the barometer's is the same law.
//
// Range: small changes, below a tenth of the volume; A is taken as constant
// over the change (1 % a centimetre errs by as much). A barometer that was not
// read counts as unchanged ± 0.02 bar where the spring's pressure is known (0.6
// to 1 mm for usual springs), and is left out, too narrow by that, where it is
// not. Heights are read with the car untouched: opening a door moves it more.
func Sink(s Spring, st Stand) (Sunk, error) {
	if err := checkSink(s, st); err != nil {
		return Sunk{}, err
	}
	in, hasBaro := sinkDoubts(s, st)
	p := float64(s.Pressure)
	d, err := doubt.Linear(func(x []float64) (float64, error) {
		cold, baro := explained(x, p, hasBaro)
		return x[h1] - x[h2] - (cold+baro)/x[ratio], nil
	}, in[:])
	if err != nil {
		return Sunk{}, err
	}
	var x [sinkInputs]float64
	for i := range in {
		x[i] = in[i].Value
	}
	cold, baro := explained(x[:], p, hasBaro)
	r := Sunk{
		Sank: x[h1] - x[h2], SpringCold: cold, ByCold: cold / s.Ratio, ByBarometer: baro / s.Ratio,
		Barometer: hasBaro, Unexplained: d.Value, Half: d.Half, Doubt: d, Parts: sinkParts(d),
	}
	scale := Night / st.Time
	r.Sank12, r.Unexplained12, r.Half12 = r.Sank*scale, r.Unexplained*scale, r.Half*scale
	r.Low12, r.High12 = r.Unexplained12-r.Half12, r.Unexplained12+r.Half12
	return r, nil
}

func checkSink(s Spring, st Stand) error {
	switch {
	case !(st.Time > 0) || math.IsInf(st.Time, 0):
		return ErrReadings
	case s.Ratio == 0:
		return ErrRatio
	case !(s.Ratio > 0.05 && s.Ratio < 5):
		return refuse("the spring ratio", s.Ratio, "", "0.05 to 5")
	case !(s.Volume > 0 && s.Volume < 1):
		return refuse("the spring's volume", s.Volume, "m³", "above 0 to 1 m³")
	case !(s.Area > 0 && s.Area < 1):
		return refuse("the spring's area", s.Area, "m²", "above 0 to 1 m²")
	case !(s.Pressure >= 0 && s.Pressure < 1e8):
		return refuse("the spring's pressure", float64(s.Pressure), "Pa", "0 to 1000 bar")
	}
	for _, t := range []Temperature{st.TempBefore, st.TempAfter} {
		if err := t.check(); err != nil {
			return err
		}
		if !t.Read() {
			return ErrNoTemperature
		}
	}
	return errors.Join(st.BaroBefore.check(), st.BaroAfter.check())
}

// sinkDoubts are the inputs, and whether the barometer is counted.
func sinkDoubts(s Spring, st Stand) (in [sinkInputs]doubt.Input, hasBaro bool) {
	a := Reading{Temperature: st.TempBefore, Barometer: st.BaroBefore}
	b := Reading{Temperature: st.TempAfter, Barometer: st.BaroAfter}
	gas, _ := pair(a, b)
	copy(in[:], gas[:])
	in[h1].Value, in[h2].Value = st.Before.Value, st.After.Value
	in[h1].Half, in[h2].Half = once(st.Before.Half, st.After.Half, st.Before.Instrument == st.After.Instrument)
	in[volume] = doubt.Input{Value: s.Volume, Half: s.VolumeHalf}
	in[area] = doubt.Input{Value: s.Area, Half: s.AreaHalf}
	in[ratio] = doubt.Input{Value: s.Ratio, Half: s.RatioHalf}
	return in, s.Pressure > 0
}

// explained is what cold and barometer do at the spring [m].
func explained(x []float64, pressure float64, hasBaro bool) (cold, baro float64) {
	cold = x[volume] * (x[t1] - x[t2]) / (x[t1] * x[area])
	if hasBaro {
		baro = x[volume] * (x[b2] - x[b1]) / ((pressure + x[b1]) * x[area])
	}
	return cold, baro
}

func sinkParts(d doubt.Result) []Part {
	list := make([]Part, 0, 6)
	for _, n := range []struct {
		name string
		a, b int
	}{{"rule", h1, h2}, {"thermometer", t1, t2}, {"barometer", b1, b2}, {"volume", volume, volume}, {"area", area, area}, {"ratio", ratio, ratio}} {
		p := Part{Name: n.name, Half: absolute(d.Effects[n.a]), Share: d.Shares[n.a]}
		if n.a != n.b {
			p.Half, p.Share = doubt.Combine(d.Effects[n.a], d.Effects[n.b]), d.Shares[n.a]+d.Shares[n.b]
		}
		list = append(list, p)
	}
	return list
}
