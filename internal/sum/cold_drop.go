package sum

import (
	"jounce/internal/finding"
	"jounce/leak"
	"jounce/quantity"
	"jounce/source"
	"jounce/spring"
)

func archHeight(key, symbol, label, where string, w Width) Input {
	return of(kLength, "mm", 100, 900, Input{Key: key, Symbol: symbol, Label: label, Where: where, Optional: true, Width: w})
}

var coldDrop = Sum{
	Name: "cold-drop", Question: "Did it sink by the cold, or does it leak?", Group: Air,
	Words:  []string{"sank", "overnight", "height", "corner", "leak", "temperature", "settle", "mm", "drop", "soak"},
	Source: []source.Mark{source.Calc, source.CP},
	Inputs: []Input{
		springVolume,
		func() Input { i := springArea; i.Optional = false; return i }(),
		springRatio,
		of(kTemp, "°C", -40, 80, Input{Key: "before", Symbol: "T_{1}", Label: "Temperature before", Where: "thermometer beside the spring"}),
		of(kTemp, "°C", -40, 80, Input{Key: "now", Symbol: "T_{2}", Label: "Temperature now", Where: "the same thermometer", Width: thermometer}),
		archHeight("was", "h_{1}", "Hub to arch before", "tape, the car untouched since", Width{}),
		archHeight("is", "h_{2}", "Hub to arch now", "the same tape", tape),
		of(kTime, "h", 0.05, 400, Input{Key: "time", Symbol: "t", Label: "Time between", Where: "clock", Default: "12 h", Mark: source.CP}),
	},
	Outputs: []Output{{"Δh", "By the cold alone", kLength}, {"", "Unexplained, in 12 h", kLength}},
	Example: map[string]string{"volume": "1.0 L", "area": "70 cm²", "ratio": "0.97", "before": "20 °C", "now": "8 °C", "was": "360 mm", "is": "351 mm"},
	Run:     runColdDrop,
}

func runColdDrop(a *Args) (Answer, error) {
	terms := a.all("volume", "area", "ratio", "before", "now")
	once(&terms[3], &terms[4])
	mm := a.unit(kLength)
	cold, w, err := a.work(kLength, mm, func(x []float64) (float64, error) {
		s, err := spring.ColdSink(x[0], x[1], x[2], quantity.Temperature(x[3]), quantity.TemperatureDifference(x[4]-x[3]))
		return -s.Wheel, err
	}, terms...)
	if err != nil {
		return Answer{}, err
	}
	line := finding.Line{Symbols: "Δh = {V (T_{1} − T_{2})}/{T_{1} A r}", Result: cold.String(),
		Numbers: "{" + num(terms[0], 2) + " × " + in(quantity.KindTemperatureDifference, "K", terms[3].Value-terms[4].Value, 1) + "}/{" + in(kTemp, "K", terms[3].Value, 1) + " × " + num(terms[1], 0) + " × " + num(terms[2], 2) + "}"}
	var out Answer
	if !a.Has("was") && !a.Has("is") {
		w.Lines = append(w.Lines, line)
		note(w, "Valves shut, the load unchanged. A bellows sinks less: its area grows as it goes down.")
		out.head("by cold alone", cold, w)
		out.out("Δh", "By the cold alone", cold)
		out.say("What it sank beyond that is a leak. The gauge cannot tell: under load the pressure stays.")
		return out, nil
	}
	for _, k := range []string{"was", "is"} {
		if !a.Has(k) {
			return Answer{}, a.refuse(k, "not given. Both heights are needed, or neither.")
		}
	}
	was, is := a.Get("was"), a.Get("is")
	once(&was, &is)
	sunk := func(x []float64) (leak.Sunk, error) {
		return leak.Sink(leak.Spring{Volume: x[0], Area: x[1], Ratio: x[2]}, leak.Stand{Time: x[7],
			Before: leak.Height{Value: x[5]}, After: leak.Height{Value: x[6]},
			TempBefore: leak.Temperature{Value: quantity.Temperature(x[3])}, TempAfter: leak.Temperature{Value: quantity.Temperature(x[4])}})
	}
	all := append(terms, was, is, a.Get("time"))
	left, w, err := a.work(kLength, mm, func(x []float64) (float64, error) {
		s, err := sunk(x)
		return s.Unexplained12, err
	}, all...)
	if err != nil {
		return Answer{}, err
	}
	s, err := sunk(values(all))
	if err != nil {
		return Answer{}, err
	}
	w.Lines = append(w.Lines, line)
	formula(w, "(h_{1} − h_{2} − Δh) {12 h}/{t}", "("+num(was, 0)+" − "+num(is, 0)+" − "+in(kLength, mm.Name(), s.ByCold, 1)+") × {12}/{"+num(all[7], 1)+"}", left.String())
	note(w, "One tape and one thermometer, so each ± counts once. Valves shut, the load unchanged; a bellows sinks less.")
	out.head("unexplained", left, w)
	out.out("Δh", "By the cold alone", cold)
	out.out("", "Unexplained, in 12 h", left)
	out.judge(left, a.shop.Limit("leak.sink.most"), a.shop.Limit("leak.sink.want"))
	out.say("It sank by %s; the cold explains %s.", quantity.Format(kLength, s.Sank, mm, 0), quantity.Format(kLength, s.ByCold, mm, 0))
	out.say("A spring under load keeps its pressure while it leaks: only the height tells.")
	if *out.Verdict == finding.TooClose {
		out.Least = "Read again with a fixed pointer instead of a tape."
	}
	return out, nil
}
