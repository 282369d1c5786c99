package sum

import (
	"jounce/internal/finding"
	"jounce/quantity"
	"jounce/source"
	"jounce/spring"
)

var coldDrop = Sum{
	Name: "cold-drop", Question: "Did it sink by the cold, or does it leak?", Group: Air,
	Words:  []string{"sank", "overnight", "height", "corner", "leak", "temperature", "settle", "mm", "drop"},
	Source: []source.Mark{source.Calc, source.CP},
	Inputs: []Input{
		springVolume,
		func() Input { in := springArea; in.Optional = false; return in }(),
		springRatio,
		of(kTemp, "°C", -40, 80, Input{Key: "before", Symbol: "T_{1}", Label: "Temperature before", Where: "thermometer beside the spring"}),
		of(kTemp, "°C", -40, 80, Input{Key: "now", Symbol: "T_{2}", Label: "Temperature now", Where: "the same thermometer", Width: thermometer}),
		of(kLength, "mm", -300, 300, Input{Key: "sank", Symbol: "s", Label: "It sank by", Where: "hub to arch, before less now, one tape", Optional: true, Width: tape}),
	},
	Outputs: []Output{{"Δh", "By the cold alone", kLength}, {"", "Left unexplained", kLength}},
	Example: map[string]string{"volume": "1.0 L", "area": "70 cm²", "ratio": "0.97", "before": "20 °C", "now": "8 °C", "sank": "9 mm"},
	Run:     runColdDrop,
}

func runColdDrop(a *Args) (Answer, error) {
	terms := a.all("volume", "area", "ratio", "before", "now")
	sink := func(x []float64) (float64, error) {
		s, err := spring.ColdSink(x[0], x[1], x[2], quantity.Temperature(x[3]), quantity.TemperatureDifference(x[4]-x[3]))
		return -s.Wheel, err
	}
	mm := a.unit(kLength)
	cold, w, err := a.work(kLength, mm, sink, terms...)
	if err != nil {
		return Answer{}, err
	}
	symbols := "Δh = {V (T_{1} − T_{2})}/{T_{1} A r}"
	numbers := "{" + num(terms[0], 2) + " × " + in(quantity.KindTemperatureDifference, "K", terms[3].Value-terms[4].Value, 1) + "}/{" + in(kTemp, "K", terms[3].Value, 1) + " × " + num(terms[1], 0) + " × " + num(terms[2], 2) + "}"
	var out Answer
	sank := a.Get("sank")
	if !sank.OK {
		formula(w, symbols, numbers, cold.String())
		note(w, "Valves shut, the load unchanged. A bellows sinks less: its area grows as it goes down.")
		out.head("by cold alone", cold, w)
		out.out("Δh", "By the cold alone", cold)
		out.say("What it sank beyond that is a leak. The gauge cannot tell: under load the pressure stays.")
		return out, nil
	}
	left, w, err := a.work(kLength, mm, func(x []float64) (float64, error) {
		y, err := sink(x)
		return x[5] - y, err
	}, append(terms, sank)...)
	if err != nil {
		return Answer{}, err
	}
	formula(w, symbols, numbers, cold.String())
	formula(w, "s − Δh", num(sank, 0)+" − "+quantity.Format(kLength, cold.Value, mm, 1), left.String())
	note(w, "One tape and one thermometer, so each ± counts once. Valves shut, the load unchanged; a bellows sinks less.")
	out.head("unexplained", left, w)
	out.out("Δh", "By the cold alone", cold)
	out.out("", "Left unexplained", left)
	out.judge(left, a.shop.Limit("leak.sink.most"), a.shop.Limit("leak.sink.want"))
	out.say("Judged as over 12 h. A spring under load keeps its pressure while it leaks: only the height tells.")
	if *out.Verdict == finding.TooClose {
		out.say("Read again with a fixed pointer instead of a tape.")
	}
	return out, nil
}
