package leak

import (
	"errors"

	"jounce/num/doubt"
)

// Relief is what a relief valve did against the pressure at which the
// compressor stops.
type Relief struct {
	Lift       float64 // lifts at, over cut-out [1]
	LiftHalf   float64 // its 95 % half-width [1]
	Reseat     float64 // seats at, over cut-out [1]
	ReseatHalf float64 // its 95 % half-width [1]
	Blowdown   float64 // from lift to reseat, over lift [1]
}

// ErrRelief is a relief valve's readings that cannot be of one valve.
var ErrRelief = errors.New("a relief valve seats below the pressure at which it lifts")

// ReliefOf holds a relief valve's readings against the cut-out pressure:
// lift/cut-out and reseat/cut-out, with doubts. One gauge for all counts once
// in each ratio. Handbook B26 (CP) judges lift within 1.10 to 1.15 and reseat
// above 0.90; that is done elsewhere. Closed form.
func ReliefOf(cutOut, lift, reseat Gauge) (Relief, error) {
	for _, g := range []Gauge{cutOut, lift, reseat} {
		if err := g.check(); err != nil {
			return Relief{}, err
		}
		if g.Value == 0 {
			return Relief{}, refuse("a pressure of the relief test", 0, "Pa", "above 0")
		}
	}
	if reseat.Value > lift.Value {
		return Relief{}, ErrRelief
	}
	r := Relief{Blowdown: float64((lift.Value - reseat.Value) / lift.Value)}
	var err error
	if r.Lift, r.LiftHalf, err = over(lift, cutOut); err != nil {
		return Relief{}, err
	}
	r.Reseat, r.ReseatHalf, err = over(reseat, cutOut)
	return r, err
}

func over(a, b Gauge) (value, half float64, err error) {
	hb, ha := once(b.Half, a.Half, a.Instrument == b.Instrument)
	d, err := doubt.Linear(func(x []float64) (float64, error) { return x[0] / x[1], nil },
		[]doubt.Input{{Value: float64(a.Value), Half: ha}, {Value: float64(b.Value), Half: hb}})
	return d.Value, d.Half, err
}
