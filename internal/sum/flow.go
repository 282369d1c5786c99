package sum

import (
	"jounce/gas"
	"jounce/quantity"
	"jounce/source"
)

var flow = Sum{
	Name: "flow", Question: "How much air goes through this valve?", Group: Air,
	Words:  []string{"ISO 6358", "conductance", "choked", "subsonic", "valve", "fitting", "L/min", "scfm", "litres a minute"},
	Source: []source.Mark{"ISO6358", "COURSE-V", "SIMDOC"},
	Inputs: []Input{
		conductance("c", "Sonic conductance", false), criticalRatio("b", "Critical ratio"),
		gauge("before", "p_{1}", "Pressure before the part", "gauge on the tank side"),
		gauge("after", "p_{2}", "Pressure behind the part", "gauge on the spring side; nought to the open"),
		roomAir, barometer,
	},
	Outputs: []Output{{"q", "Flow as free air", quantity.KindFreeAirFlow}, {"r", "Ratio of the pressures", kRatio}, {"ṁ", "Mass flow", quantity.KindMassFlow}},
	Example: map[string]string{"c": "1.2 dm³/(s·bar)", "b": "0.35", "before": "9 bar", "after": "3.5 bar"},
	Run:     runFlow,
}

func runFlow(a *Args) (Answer, error) {
	terms := a.all("c", "b", "before", "after", "temperature", "barometer")
	pass := func(x []float64) (gas.Flow, error) {
		p1, p2 := quantity.AbsPressure(x[2]+x[5]), quantity.AbsPressure(x[3]+x[5])
		return gas.Element{C: x[0], B: x[1]}.Flow(p1, quantity.Temperature(x[4]), p2)
	}
	if terms[3].Value > terms[2].Value {
		return Answer{}, a.refuse("after", "it is above the pressure before the part: air would run back. Exchange the two.")
	}
	q, w, err := a.work(quantity.KindFreeAirFlow, unit(quantity.KindFreeAirFlow, "L/min ANR"), func(x []float64) (float64, error) {
		if x[3] > x[2] {
			x = append([]float64(nil), x...)
			x[3] = x[2]
		}
		f, err := pass(x)
		return f.FreeAir.At(quantity.ANR).Volume, err
	}, terms...)
	if err != nil {
		return Answer{}, err
	}
	x := make([]float64, len(terms))
	for i, g := range terms {
		x[i] = g.Value
	}
	f, err := pass(x)
	if err != nil {
		return Answer{}, err
	}
	formula(w, "q = C p_{1} √({T_{0}}/{T_{1}}) φ({p_{2}}/{p_{1}})", "", q.String())
	step(w, "r", "Ratio of the absolute pressures", at(kRatio, "", f.Ratio, 0), source.Calc)
	step(w, "φ", "Share of the choked flow", at(kRatio, "", f.Share, 0), source.Calc)
	note(w, "Free air at ANR: 100 kPa, 20 °C, 65 %% humidity. A maker's C scatters by 10 to 20 %% (COURSE-V).")
	var out Answer
	out.head("", q, w)
	out.out("q", "Flow as free air", q)
	out.out("r", "Ratio of the pressures", at(kRatio, "", f.Ratio, 0))
	out.out("ṁ", "Mass flow", at(quantity.KindMassFlow, "g/s", float64(f.Mass), 0))
	out.out("", "Flow if it were choked", at(quantity.KindFreeAirFlow, "L/min ANR", f.FullANR.Volume, 0))
	switch f.Regime {
	case gas.Choked:
		out.say("Choked: air passes at the speed of sound. Less pressure behind it gives no more flow.")
	case gas.Subsonic:
		out.say("Below the speed of sound: %s of what would pass if it were choked.", quantity.Format(kRatio, f.Share, unit(kRatio, "%"), 0))
	default:
		out.say("The pressures are nearly equal: the flow follows their difference and dies slowly.")
	}
	return out, nil
}
