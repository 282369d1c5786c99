package sum

import (
	"math"

	"jounce/gas"
	"jounce/internal/finding"
	"jounce/quantity"
	"jounce/source"
)

var fillTime = Sum{
	Name: "fill-time", Question: "How long to fill?", Group: Air,
	Words:  []string{"charging", "fill", "lift time", "tank", "reservoir", "valve", "conductance", "seconds"},
	Source: []source.Mark{"COURSE-S", "ISO6358"},
	Inputs: []Input{
		of(kVolume, "L", 0.01, 200, Input{Key: "volume", Symbol: "V", Label: "Volume to fill", Where: "the plate, or water weighed in", Width: volume}),
		gauge("from", "p_{1}", "Pressure to begin with", "gauge"),
		gauge("to", "p_{2}", "Pressure wanted", "gauge"),
		gauge("supply", "p_{s}", "Pressure of the supply", "gauge on the line, held while it fills"),
		conductance("c", "Sonic conductance on the way", false), criticalRatio("b", "Critical ratio on the way"),
		roomAir, barometer,
	},
	Outputs: []Output{{"t", "Time, the wall keeping it cool", kTime}, {"t", "Time, no heat lost", kTime}, {"T", "Hottest it can get", kTemp}},
	Example: map[string]string{"volume": "10 L", "from": "0 bar", "to": "7 bar", "supply": "10 bar", "c": "0.5 dm³/(s·bar)"},
	Run:     runFillTime,
}

var emptyTime = Sum{
	Name: "empty-time", Question: "How long to let it down?", Group: Air,
	Words:  []string{"blow-down", "blowdown", "dump", "exhaust", "vent", "bleed", "valve", "seconds"},
	Source: []source.Mark{"AEF", "COURSE-S", "ISO6358"},
	Inputs: []Input{
		of(kVolume, "L", 0.01, 200, Input{Key: "volume", Symbol: "V", Label: "Volume to empty", Where: "the plate, or water weighed in", Width: volume}),
		gauge("from", "p_{1}", "Pressure to begin with", "gauge"),
		gauge("to", "p_{2}", "Pressure to end with", "gauge"),
		conductance("c", "Sonic conductance of the way out", false), criticalRatio("b", "Critical ratio of the way out"),
		roomAir, barometer,
	},
	Outputs:  []Output{{"t", "Time, the wall keeping it warm", kTime}, {"t", "Time, no heat gained", kTime}, {"T", "Coldest it can get", kTemp}},
	Example:  map[string]string{"volume": "10 L", "from": "10 bar", "to": "0.5 bar", "c": "0.5 dm³/(s·bar)"},
	Cautions: []string{"Ears and eyes covered, the outlet pointing at nobody; ice may fly from it."},
	Run:      runEmptyTime,
}

func runFillTime(a *Args) (Answer, error) {
	if a.Get("to").Value <= a.Get("from").Value {
		return Answer{}, a.refuse("to", "it is not above the pressure to begin with: there is nothing to fill.")
	}
	if a.Get("supply").Value <= a.Get("to").Value {
		return Answer{}, a.refuse("supply", "it is not above the pressure wanted: it would never get there.")
	}
	terms := a.all("volume", "from", "to", "c", "b", "temperature", "barometer", "supply")
	out, err := exchange(a, terms, func(x []float64) float64 { return x[7] + x[6] })
	if err != nil {
		return Answer{}, err
	}
	x, t := values(terms), terms[5].Value
	hot, err := gas.FillTemperature(quantity.Temperature(t), quantity.AbsPressure(x[1]+x[6]), quantity.AbsPressure(x[2]+x[6]), quantity.Temperature(t))
	if err != nil {
		return Answer{}, err
	}
	out.out("T", "Hottest it can get", at(kTemp, "°C", float64(hot), 0))
	out.Working.Lines[0] = finding.Line{Symbols: "{dn}/{dt} = {q p_{0}}/{T_{0}},  q = C p_{s} √({T_{0}}/{T}) φ({p}/{p_{s}})", Result: out.Headline.String()}
	out.say("Air gets hot as it is pumped in and loses pressure as it cools: fill, wait twenty minutes, top up.")
	return out, nil
}

func runEmptyTime(a *Args) (Answer, error) {
	if a.Get("to").Value >= a.Get("from").Value {
		return Answer{}, a.refuse("to", "it is not below the pressure to begin with: there is nothing to let out.")
	}
	if a.Get("to").Value <= 0 {
		return Answer{}, a.refuse("to", "the last of the air never quite leaves. Give a small pressure, such as 0.1 bar.", "0.1 bar")
	}
	terms := a.all("volume", "from", "to", "c", "b", "temperature", "barometer")
	out, err := exchange(a, terms, func(x []float64) float64 { return x[6] })
	if err != nil {
		return Answer{}, err
	}
	x := values(terms)
	cold, err := gas.PolytropicTemperature(quantity.Temperature(x[5]), quantity.AbsPressure(x[1]+x[6]), quantity.AbsPressure(x[2]+x[6]), gas.Gamma)
	if err != nil {
		return Answer{}, err
	}
	out.out("T", "Coldest it can get", at(kTemp, "°C", float64(cold), 0))
	out.Working.Lines[0] = finding.Line{Symbols: "{dn}/{dt} = −{q p_{0}}/{T_{0}},  q = C p √({T_{0}}/{T}) φ({p_{b}}/{p})", Result: out.Headline.String()}
	out.say("Air gets cold as it leaves: water in it freezes at the outlet.")
	return out, nil
}

// exchange is a vessel that is filled or emptied, by both bounds of its heat.
func exchange(a *Args, terms []Given, side func(x []float64) float64) (Answer, error) {
	run := func(x []float64, h gas.Heat) (float64, error) {
		t := quantity.Temperature(x[5])
		r, err := gas.Exchange(x[0], gas.Point{Pressure: quantity.AbsPressure(x[1] + x[6]), Temperature: t}, gas.Element{C: x[3], B: x[4]},
			gas.Side{Pressure: quantity.AbsPressure(side(x)), Temperature: t}, quantity.AbsPressure(x[2]+x[6]), h)
		return r.End.T, err
	}
	slow, w, err := a.work(kTime, unit(kTime, "s"), func(x []float64) (float64, error) { return run(x, gas.Isothermal) }, terms...)
	if err != nil {
		return Answer{}, err
	}
	quick, _, err := a.work(kTime, unit(kTime, "s"), func(x []float64) (float64, error) { return run(x, gas.Adiabatic) }, terms...)
	if err != nil {
		return Answer{}, err
	}
	lo, hi := math.Min(slow.Value-slow.Half, quick.Value-quick.Half), math.Max(slow.Value+slow.Half, quick.Value+quick.Half)
	formula(w, "", "", "")
	note(w, "Between two bounds: the wall keeps the air at the room's temperature, or no heat passes. A fill of a second lies near the second, one of minutes near the first.")
	var out Answer
	out.head("", slow, w)
	out.out("t", "Time, the wall keeping the air's temperature", slow)
	out.out("t", "Time, no heat passing", quick)
	out.say("Between %s and %s, all doubts taken.", quantity.Format(kTime, math.Max(lo, 0), unit(kTime, "s"), 1), quantity.Format(kTime, hi, unit(kTime, "s"), 1))
	return out, nil
}

// values are the bare numbers of terms [SI].
func values(terms []Given) []float64 {
	x := make([]float64, len(terms))
	for i, g := range terms {
		x[i] = g.Value
	}
	return x
}
