package sum

import (
	"jounce/internal/finding"
	"jounce/num/doubt"
	"jounce/quantity"
	"jounce/source"
	"jounce/spring"
)

// quadrature is the doubt of independent parts together.
func quadrature(halves ...float64) float64 { return doubt.Combine(halves...) }

var bumpPeak = Sum{
	Name: "bump-peak", Question: "What does a bump do to the pressure?", Group: Springs,
	Words:  []string{"peak", "burst", "dynamic maximum", "full bump", "psi", "bar", "volume"},
	Source: []source.Mark{"S31"},
	Inputs: []Input{
		gauge("pressure", "p_{1}", "Pressure at ROAD, laden", "gauge, or the sum before"),
		of(kVolume, "L", 0.05, 60, Input{Key: "before", Symbol: "V_{1}", Label: "Air in the spring at ROAD", Where: "the maker's sheet, or water weighed in", Width: volume}),
		of(kVolume, "L", 0.02, 60, Input{Key: "after", Symbol: "V_{2}", Label: "Air in the spring at full bump", Where: "the maker's sheet at that height", Width: volume}),
		of(kPressure, "bar", 1, 40, Input{Key: "maximum", Symbol: "p_{max}", Label: "Highest pressure in a bump", Where: "the maker's sheet: dynamic maximum", Optional: true}),
		barometer,
	},
	Outputs: []Output{{"p_{2}", "Pressure at full bump", kPressure}},
	Example: map[string]string{"pressure": "3.5 bar", "before": "1.0 L", "after": "0.55 L", "maximum": "7 bar"},
	Run:     runBumpPeak,
}

func runBumpPeak(a *Args) (Answer, error) {
	terms := a.all("pressure", "before", "after", "barometer")
	if terms[2].Value >= terms[1].Value {
		return Answer{}, a.refuse("after", "it is not less than the volume at ROAD: a bump makes it smaller. Exchange the two.")
	}
	bump := func(x []float64) (spring.Peak, error) {
		return spring.BumpPeak(quantity.GaugePressure(x[0]), x[1], x[2], spring.Moving, quantity.AbsPressure(x[3]))
	}
	p, w, err := a.work(kPressure, a.unit(kPressure), func(x []float64) (float64, error) {
		k, err := bump(x)
		return float64(k.Value), err
	}, terms...)
	if err != nil {
		return Answer{}, err
	}
	k, err := bump(values(terms))
	if err != nil {
		return Answer{}, err
	}
	bar := a.unit(kPressure).Name() + " a"
	formula(w, "p_{2} = (p_{1} + p_{b}) ({V_{1}}/{V_{2}})^{n} − p_{b}",
		in(kAbs, bar, float64(k.StartAbs), 2)+" × ({"+num(terms[1], 2)+"}/{"+num(terms[2], 2)+"})^{"+in(kRatio, "", k.Exponent, 2)+"} − "+in(kAbs, bar, float64(k.Barometer), 2), p.String())
	note(w, "Valves shut and a fast stroke. It errs on the high side: heat flows, and the air in long lines helps.")
	var out Answer
	out.head("", p, w)
	out.out("p_{2}", "Pressure at full bump", p)
	m := a.Get("maximum")
	if !m.OK {
		out.say("Hold it against the spring's dynamic maximum, which is above its standing one.")
		return out, nil
	}
	out.judge(p, finding.Limit{Key: "spring.peak.most", Name: "Bump peak, the spring's dynamic maximum", Kind: kPressure, Value: m.Value, Unit: m.Number.Unit, Grade: finding.Stops, Source: source.Maker})
	way := k.WayOut(quantity.GaugePressure(m.Value))
	if way.Over > 0 && way.Possible {
		out.Least = "Leave " + quantity.Format(kVolume, way.LeastLeft, unit(kVolume, "L"), 2) + " at full bump by an earlier stop, or add " +
			quantity.Format(kVolume, way.AddVolume, unit(kVolume, "L"), 2) + " of volume."
	}
	return out, nil
}
