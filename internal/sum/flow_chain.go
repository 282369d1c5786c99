package sum

import (
	"fmt"

	"jounce/gas"
	"jounce/quantity"
	"jounce/source"
)

const (
	oneAfterAnother = "one after another"
	sideBySide      = "side by side"
	chainLength     = 4
)

var flowChain = Sum{
	Name: "flow-chain", Question: "What do valve, tube and fitting pass together?", Group: Air,
	Words:  []string{"series", "parallel", "ISO 6358", "conductance", "bottleneck", "restriction", "L/min", "manifold"},
	Source: []source.Mark{"ISO6358", "COURSE-S"},
	Inputs: append([]Input{
		{Key: "arrangement", Label: "How they stand", Where: "along the air's way", Choices: []string{oneAfterAnother, sideBySide}, Default: oneAfterAnother, Mark: source.CP},
		gauge("before", "p_{1}", "Pressure before the first", "gauge on the tank side"),
		gauge("after", "p_{2}", "Pressure behind the last", "gauge on the spring side; nought to the open"),
		roomAir, barometer,
	}, chainInputs()...),
	Outputs: []Output{{"q", "Flow as free air", quantity.KindFreeAirFlow}, {"C", "Conductance of the whole", quantity.KindConductance}, {"b", "Critical ratio of the whole", kRatio}},
	Example: map[string]string{"before": "9 bar", "after": "3.5 bar", "c1": "1.2 dm³/(s·bar)", "b1": "0.35", "c2": "0.8 dm³/(s·bar)", "b2": "0.2"},
	Run:     runFlowChain,
}

func chainInputs() []Input {
	var list []Input
	for i := 1; i <= chainLength; i++ {
		list = append(list, conductance(fmt.Sprintf("c%d", i), fmt.Sprintf("Part %d, sonic conductance", i), i > 2),
			criticalRatio(fmt.Sprintf("b%d", i), fmt.Sprintf("Part %d, critical ratio", i)))
	}
	return list
}

func runFlowChain(a *Args) (Answer, error) {
	terms := a.all("before", "after", "temperature", "barometer")
	if terms[1].Value > terms[0].Value {
		return Answer{}, a.refuse("after", "it is above the pressure before the first part: air would run back. Exchange the two.")
	}
	n := 0
	for i := 1; i <= chainLength; i++ {
		if c := a.Get(fmt.Sprintf("c%d", i)); c.OK {
			b := a.Get(fmt.Sprintf("b%d", i))
			c.Input.Symbol, b.Input.Symbol = fmt.Sprintf("C_{%d}", i), fmt.Sprintf("b_{%d}", i)
			terms, n = append(terms, c, b), n+1
		}
	}
	series := a.Text("arrangement") == oneAfterAnother
	through := func(x []float64) (float64, error) {
		p1, p2 := quantity.AbsPressure(x[0]+x[3]), quantity.AbsPressure(min(x[1], x[0])+x[3])
		parts := elements(x[4:])
		if series {
			q, err := gas.SeriesFlow(parts, p1, quantity.Temperature(x[2]), p2)
			return q.At(quantity.ANR).Volume, err
		}
		whole, err := gas.Parallel(parts...)
		if err != nil {
			return 0, err
		}
		f, err := whole.Flow(p1, quantity.Temperature(x[2]), p2)
		return f.FreeAir.At(quantity.ANR).Volume, err
	}
	q, w, err := a.work(quantity.KindFreeAirFlow, unit(quantity.KindFreeAirFlow, "L/min ANR"), through, terms...)
	if err != nil {
		return Answer{}, err
	}
	x := make([]float64, len(terms))
	for i, g := range terms {
		x[i] = g.Value
	}
	whole, err := together(elements(x[4:]), series)
	if err != nil {
		return Answer{}, err
	}
	var out Answer
	out.head("", q, w)
	out.out("q", "Flow as free air", q)
	out.out("C", "Conductance of the whole", at(quantity.KindConductance, "dm³/(s·bar)", whole.C, 0))
	out.out("b", "Critical ratio of the whole", at(kRatio, "", whole.B, 0))
	if !series {
		formula(w, "C = C_{1} + C_{2} + …", "", "")
		out.say("Side by side, conductances add.")
		return out, nil
	}
	formula(w, "p_{1} → C_{1} → C_{2} → … → p_{2}", "", q.String())
	note(w, "The pressure is marched through the parts until the last meets its own; the whole pressure at rest is kept between them. C and b of the whole are a fit: the flow is the figure to trust.")
	worst, least := 0, x[4]
	for i := range n {
		if c := x[4+2*i]; c < least {
			worst, least = i, c
		}
	}
	out.say("Part %d is the narrowest of the %d: a wider part elsewhere helps little.", worst+1, n)
	return out, nil
}

func elements(x []float64) []gas.Element {
	var list []gas.Element
	for i := 0; i+1 < len(x); i += 2 {
		list = append(list, gas.Element{C: x[i], B: x[i+1]})
	}
	return list
}

// together is several parts taken as one.
func together(parts []gas.Element, series bool) (gas.Element, error) {
	if !series {
		return gas.Parallel(parts...)
	}
	whole := parts[0]
	for _, p := range parts[1:] {
		pair, err := gas.SeriesPair(whole, p)
		if err != nil {
			return gas.Element{}, err
		}
		whole = pair.Element
		whole.B = max(whole.B, 0)
	}
	return whole, nil
}
