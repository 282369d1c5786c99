package sum

import (
	"jounce/gas"
	"jounce/quantity"
	"jounce/source"
)

var gaugeTomorrow = Sum{
	Name: "gauge-tomorrow", Question: "What should the gauge read tomorrow?", Group: Air,
	Words:  []string{"overnight", "cold", "morning", "temperature", "expected reading", "psi", "bar", "tank"},
	Source: []source.Mark{"EN13184", source.Calc},
	Inputs: []Input{
		gauge("pressure", "p_{1}", "Gauge now", "gauge on the tank, twenty minutes after pumping"),
		of(kTemp, "°C", -40, 80, Input{Key: "now", Symbol: "T_{1}", Label: "Temperature now", Where: "thermometer on the tank"}),
		of(kTemp, "°C", -40, 80, Input{Key: "then", Symbol: "T_{2}", Label: "Temperature then", Where: "what you expect, or what it is, on the same thermometer", Width: thermometer}),
		barometer,
	},
	Outputs: []Output{{"p_{2}", "Gauge then, nothing lost", kPressure}, {"", "Change by temperature alone", kPressure}},
	Example: map[string]string{"pressure": "10.00 bar", "now": "20 °C", "then": "8 °C"},
	Run:     runGaugeTomorrow,
}

func runGaugeTomorrow(a *Args) (Answer, error) {
	terms := a.all("pressure", "now", "then", "barometer")
	then := func(x []float64) (float64, error) {
		b := quantity.AbsPressure(x[3])
		p := gas.Heated(quantity.GaugePressure(x[0]).Absolute(b), quantity.Temperature(x[1]), quantity.Temperature(x[2]))
		return float64(p.Gauge(b)), nil
	}
	bar := a.unit(kPressure)
	p, w, err := a.work(kPressure, bar, then, terms...)
	if err != nil {
		return Answer{}, err
	}
	change, _, err := a.work(kPressure, bar, func(x []float64) (float64, error) {
		y, err := then(x)
		return y - x[0], err
	}, terms...)
	if err != nil {
		return Answer{}, err
	}
	formula(w, "p_{2} = (p_{1} + p_{b}) {T_{2}}/{T_{1}} − p_{b}",
		"("+num(terms[0], 2)+" + "+in(kAbs, bar.Name()+" a", terms[3].Value, 3)+") × {"+in(kTemp, "K", terms[2].Value, 2)+"}/{"+in(kTemp, "K", terms[1].Value, 2)+"} − "+in(kAbs, bar.Name()+" a", terms[3].Value, 3), p.String())
	note(w, "One thermometer for both, so its ± counts once.")
	note(w, "A closed vessel that keeps its volume. A spring under load does not: there the height tells, not the gauge.")
	var out Answer
	out.head("", p, w)
	out.out("p_{2}", "Gauge then, nothing lost", p)
	out.out("", "Change by temperature alone", change)
	out.say("If it reads within the ±, nothing that this gauge can see was lost. Read the thermometer at the same moment.")
	return out, nil
}
