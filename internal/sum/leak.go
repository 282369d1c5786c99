package sum

import (
	"errors"
	"math"

	"jounce/internal/finding"
	"jounce/leak"
	"jounce/quantity"
	"jounce/source"
)

// glassRead is the doubt of a barometer that was read [Pa].
var glassRead = Width{Fixed: 100}

var baroStart = of(kAbs, "mbar a", 600, 1100, Input{Key: "barometer", Symbol: "b_{1}", Label: "Barometer at the start", Where: "barometer in the bay; not read counts as unchanged ± 20 mbar", Optional: true})
var baroEnd = of(kAbs, "mbar a", 600, 1100, Input{Key: "barometer-end", Symbol: "b_{2}", Label: "Barometer at the end", Where: "the same barometer", Optional: true, Width: glassRead})

var isItALeak = Sum{
	Name: "leak", Question: "Is this a leak, or the cold?", Group: Air,
	Words:  []string{"decay", "overnight", "tank", "pressure drop", "loses air", "mL/min", "psi", "bar", "gauge", "soap"},
	Source: []source.Mark{"CFR", "EN13184", "E2930", source.CP},
	Inputs: []Input{
		gaugeRead("start", "p_{1}", "Gauge at the start", "on the tank, twenty minutes after pumping"),
		of(kTemp, "°C", -40, 80, Input{Key: "start-temperature", Symbol: "T_{1}", Label: "Temperature at the start", Where: "thermometer on the tank", Optional: true}),
		gaugeRead("end", "p_{2}", "Gauge at the end", "the same gauge"),
		of(kTemp, "°C", -40, 80, Input{Key: "end-temperature", Symbol: "T_{2}", Label: "Temperature at the end", Where: "the same thermometer", Optional: true, Width: thermometer}),
		of(kTime, "h", 0.05, 400, Input{Key: "time", Symbol: "t", Label: "Time between", Where: "clock"}),
		of(kVolume, "L", 0.05, 200, Input{Key: "volume", Symbol: "V", Label: "Air in the tank and lines", Where: "the tank's plate", Width: volume}),
		of(kPressure, "bar", 0.0005, 2, Input{Key: "gauge", Symbol: "U", Label: "What the gauge is good for", Where: "its sheet: class 1.6 of 12 bar is 0.19 bar, digital 0.25 % of 16 bar is 0.04", Default: "0.04 bar", Mark: source.CP}),
		baroStart, baroEnd,
		{Key: "vessel", Label: "What was tested", Where: "a tank with its lines keeps its volume, a spring does not", Choices: []string{"tank", "spring"}, Default: "tank", Mark: source.CP},
		of(kPressure, "bar", 0.5, 30, Input{Key: "relief", Label: "Relief valve lifts at", Where: "its plate; a test above it is refused", Optional: true}),
	},
	Outputs: []Output{{"ΔP_{12}", "Lost past the cold, in 12 h", kPressure}, {"ΔP", "Lost past the cold, in the time read", kPressure},
		{"", "What the cold alone would leave", kPressure}, {"Q", "The leak as free air", quantity.KindFreeAirFlow}, {"", "Time after which this gauge can decide", kTime}},
	Example:  map[string]string{"start": "10.00 bar", "start-temperature": "20 °C", "end": "9.20 bar", "end-temperature": "8 °C", "time": "12 h", "volume": "10 L", "barometer": "1013 mbar", "barometer-end": "1013 mbar"},
	Cautions: []string{"Soap it, never feel for it: a jet of air goes through skin. Nobody under the car, stands under its jacking points."},
	Run:      runLeak,
}

// gaugeRead asks for a pressure whose doubt is that of a gauge asked for apart.
func gaugeRead(key, symbol, label, where string) Input {
	i := gauge(key, symbol, label, where)
	i.Width = Width{}
	return i
}

// once gives two readings of one instrument its doubt once: the second carries
// the larger of the two.
func once(first, second *Given) {
	second.Half = math.Max(first.Half, second.Half)
	first.Half = 0
}

// decayTerms are the inputs of a decay test with each doubt counted once, and
// the test that follows from their values.
func (a *Args) decayTerms() ([]Given, func(x []float64) leak.Test) {
	p1, p2, t1, t2 := a.Get("start"), a.Get("end"), a.Get("start-temperature"), a.Get("end-temperature")
	b1, b2 := a.Get("barometer"), a.Get("barometer-end")
	p2.Half = math.Max(p2.Half, a.Get("gauge").Value)
	once(&p1, &p2)
	once(&t1, &t2)
	if b1.OK && b2.OK {
		once(&b1, &b2)
	} else {
		level := b1
		if !level.OK {
			level = b2
		}
		if !level.OK {
			level.Value = float64(quantity.StandardAtmosphere)
		}
		n := finding.Number{Value: level.Value, Kind: kAbs, Unit: unit(kAbs, "mbar a")}
		b1 = fact("b_{1}", "Barometer at the start", n, source.CP)
		n.Half = leak.BarometerChange
		b2 = fact("b_{2}", "Barometer at the end, taken as unchanged", n, source.CP)
	}
	terms := []Given{p1, p2, t1, t2, b1, b2, a.Get("time"), a.Get("volume")}
	return terms, func(x []float64) leak.Test {
		reading := func(at, p, t, b float64, pg, tg, bg Given) leak.Reading {
			return leak.Reading{At: at, Gauge: leak.Gauge{Value: quantity.GaugePressure(p), Half: pg.Half},
				Temperature: leak.Temperature{Value: quantity.Temperature(t), Half: tg.Half},
				Barometer:   leak.Barometer{Value: quantity.AbsPressure(b), Half: bg.Half}}
		}
		return leak.Test{Volume: x[7], VolumeHalf: terms[7].Half, Readings: []leak.Reading{
			reading(0, x[0], x[2], x[4], p2, t2, b2), reading(x[6], x[1], x[3], x[5], p2, t2, b2)}}
	}
}

func runLeak(a *Args) (Answer, error) {
	if a.Text("vessel") == "spring" {
		return Answer{}, a.refuse("vessel", leak.ErrDeformable.Error()+". Ask cold-drop.")
	}
	if a.Has("relief") {
		if err := leak.Allowed(quantity.GaugePressure(a.Get("start").Value), quantity.GaugePressure(a.Get("relief").Value)); err != nil {
			return Answer{}, a.refuse("start", err.Error()+".")
		}
	}
	for _, k := range []string{"start-temperature", "end-temperature"} {
		if !a.Has(k) {
			return Answer{}, a.refuse(k, leak.ErrNoTemperature.Error()+".")
		}
	}
	terms, test := a.decayTerms()
	bar := a.unit(kPressure)
	of := func(u quantity.Unit, get func(r leak.Result) float64) (finding.Number, *finding.Working, error) {
		return a.work(u.Kind(), u, func(x []float64) (float64, error) {
			r, err := leak.Decay(test(x))
			return get(r), err
		}, terms...)
	}
	lost, w, err := of(bar, func(r leak.Result) float64 { return r.Lost12 })
	if err != nil {
		return Answer{}, err
	}
	now, _, err := of(bar, func(r leak.Result) float64 { return r.Lost })
	if err != nil {
		return Answer{}, err
	}
	rate, _, err := of(unit(quantity.KindFreeAirFlow, "mL/min at 1.013 bar, 20 °C"), func(r leak.Result) float64 { return r.Rate.FreeAir.At(quantity.ANR).Volume })
	if err != nil {
		return Answer{}, err
	}
	r, err := leak.Decay(test(values(terms)))
	if err != nil {
		return Answer{}, err
	}
	abs := bar.Name() + " a"
	formula(w, "ΔP = (p_{1} + b_{1}) {T_{2}}/{T_{1}} − (p_{2} + b_{2})",
		in(kAbs, abs, float64(r.P1), 3)+" × {"+in(kTemp, "K", terms[3].Value, 2)+"}/{"+in(kTemp, "K", terms[2].Value, 2)+"} − "+in(kAbs, abs, float64(r.P2), 3), now.String())
	formula(w, "ΔP_{12} = ΔP {12 h}/{t}", in(kPressure, bar.Name(), r.Lost, 3)+" × {12}/{"+in(kTime, "h", r.Time, 1)+"}", lost.String())
	note(w, "One gauge, one thermometer, one barometer: each ± counts once. Only for a vessel that keeps its volume.")
	var out Answer
	out.head("lost", lost, w)
	out.out("ΔP_{12}", "Lost past the cold, in 12 h", lost)
	out.out("ΔP", "Lost past the cold, in the time read", now)
	out.out("", "What the cold alone would leave", finding.Number{Value: float64(r.ColdAlone), Half: now.Half, Kind: kPressure, Unit: bar})
	out.out("Q", "The leak as free air", rate)
	out.judge(lost, a.shop.Limit("leak.tank.most"), a.shop.Limit("leak.tank.want"))
	return out, leakSays(a, &out, r, test(values(terms)))
}

// leakSays says what a decay test means and when it could be decided.
func leakSays(a *Args, out *Answer, r leak.Result, t leak.Test) error {
	bar := a.unit(kPressure)
	out.say("The cold alone would leave %s; the gauge fell by %s, of which cold explains %s.",
		quantity.Format(kPressure, float64(r.ColdAlone), bar, 2), quantity.Format(kPressure, r.GaugeDrop, bar, 2), quantity.Format(kPressure, r.ByCold, bar, 2))
	switch {
	case r.Gained:
		unknown := finding.NotKnown // a gain is no pass
		out.Verdict, out.Least = &unknown, "Read both ends again, or find who pumped."
		out.say("More air at the end than at the start: somebody pumped, or a reading is wrong.")
	case r.Lost-r.Half > 0:
		out.say("It leaks: %s mL a minute, as free air at the barometer and the tank's temperature.", in(quantity.KindFreeAirFlow, "mL/min ANR", r.Rate.AtTank, 1))
	default:
		out.say("Nothing that these instruments can see was lost.")
	}
	want := a.shop.Limit("leak.tank.want")
	d, err := leak.Decide(t.Readings[0], want.Value, -1)
	if err != nil || !d.Possible {
		return errors.Join(err)
	}
	after := at(kTime, "h", d.After, 0)
	out.out("", "Time after which this gauge can decide", after)
	if *out.Verdict == finding.TooClose {
		out.Least = "Cannot prove pass or fail with this gauge in that time: read again " + after.String() + " after the start, or use a finer gauge."
	}
	return nil
}
