package sum

import (
	"errors"
	"strings"

	"jounce/internal/finding"
	"jounce/quantity"
	"jounce/source"
	"jounce/tyre"
)

func wheelReading(key, label, where string) Input {
	return of(kLength, "mm", 100, 1200, Input{Key: key, Label: label, Where: where, Optional: true, Width: tape})
}

var tyreSize = Sum{
	Name: "tyre", Question: "How big is this tyre, really?", Group: Wheels,
	Words:  []string{"tire", "size", "diameter", "radius", "scrub line", "load index", "185/70R14", "crossply", "revs"},
	Source: []source.Mark{"T2", "T7", "S19", source.CP},
	Inputs: []Input{
		{Key: "size", Label: "Size as marked", Where: "the sidewall, all of it: 185/70R13 86T"},
		wheelReading("diameter", "Diameter, measured", "tape round it over π, or two squares"),
		wheelReading("loaded", "Hub centre to floor, measured", "tape, the car's weight on it"),
		of(kMass, "kg", 50, 4000, Input{Key: "axle", Label: "Load on its axle", Where: "scales, laden", Optional: true, Width: pads}),
	},
	Outputs: []Output{{"D", "Diameter", kLength}, {"", "Hub centre to floor", kLength}, {"", "Rim-to-rim line over the floor", kLength}, {"", "Load that two may carry", kMass}},
	Example: map[string]string{"size": "185/70R13 75S", "axle": "690 kg"},
	Run:     runTyre,
}

// settings are the shop's figures for what a tyre's marking leaves open.
func (a *Args) settings() tyre.Settings {
	set := tyre.DefaultSettings()
	if a.shop.FullWidth > 0 {
		set.FullSectionAspect = a.shop.FullWidth / 100
	}
	return set
}

// marked reads a tyre's size under a key, with what was measured on it.
func (a *Args) marked(key string, m tyre.Measured) (tyre.Dimensions, error) {
	size, err := tyre.Parse(a.Text(key), a.settings())
	var q *tyre.Question
	if errors.As(err, &q) {
		return tyre.Dimensions{}, a.refuse(key, q.Error(), q.Answers...)
	}
	if err != nil {
		return tyre.Dimensions{}, a.refuse(key, err.Error())
	}
	return size.Dimensions(a.settings(), m), nil
}

func (a *Args) length(value, half float64) finding.Number {
	return finding.Number{Value: value, Half: half, Kind: kLength, Unit: a.unit(kLength)}
}

func runTyre(a *Args) (Answer, error) {
	d, err := a.marked("size", tyre.Measured{Diameter: a.Get("diameter").Value, LoadedRadius: a.Get("loaded").Value})
	if err != nil {
		return Answer{}, err
	}
	s, w := d.Size, &finding.Working{}
	diameter := a.length(d.Diameter, d.DiameterHalf)
	switch {
	case d.DiameterMeasured:
		formula(w, "D", "measured", diameter.String())
	case s.Diameter > 0:
		formula(w, "D", "as marked or tabled", diameter.String())
	default:
		formula(w, "D = rim + 2 × width × aspect", in(kLength, "mm", s.Rim, 1)+" + 2 × "+in(kLength, "mm", s.Width, 1)+" × "+in(kRatio, "", s.Aspect, 2)+" mm", diameter.String())
	}
	formula(w, "line = loaded radius − flange radius", in(kLength, "mm", d.LoadedRadius, 1)+" − "+in(kLength, "mm", d.FlangeRadius, 1)+" mm", a.length(d.ScrubLine, d.ScrubHalf).String())
	note(w, "Loaded radius %s of the free one and flange %s over the rim where not measured (common practice). A worn tyre is up to 14 mm smaller.",
		quantity.Format(kRatio, d.Settings.LoadedShare, quantity.Unit{}, 3), quantity.Format(kLength, d.Settings.FlangeHeight, unit(kLength, "mm"), 1))
	var out Answer
	out.head("", diameter, w)
	out.out("D", "Diameter", diameter)
	out.out("", "Hub centre to floor", a.length(d.LoadedRadius, d.LoadedHalf))
	out.out("", "Rim-to-rim line over the floor", a.length(d.ScrubLine, d.ScrubHalf))
	out.out("", "Distance in one turn", a.length(d.Rolling, 0))
	what := s.String() + ", " + s.Construction.String()
	if s.Kind == tyre.Metric || s.Kind == tyre.FullSection {
		what += ", aspect " + quantity.Format(kRatio, s.Aspect, unit(kRatio, "%"), 0) + " (" + s.AspectFrom + ")"
	}
	out.say("Read as %s. Nominal diameter %s, %s turns a kilometre.", what, quantity.Format(kLength, d.Diameter, a.unit(kLength), 1), in(quantity.KindRatio, "", d.RevsPerKm, 0))
	if d.DiameterHigh > d.DiameterLow {
		out.say("The marking allows %s to %s.", quantity.Format(kLength, d.DiameterLow, a.unit(kLength), 0), quantity.Format(kLength, d.DiameterHigh, a.unit(kLength), 0))
	}
	if d.Estimate {
		out.say("An estimate: measure it.")
	}
	if s.Construction == tyre.Crossply {
		out.say("Never with a radial on the same axle; radials in front need radials behind (S18).")
	}
	asks(&out, s)
	if a.Has("axle") {
		return out, tyreLoad(a, &out, s)
	}
	return out, nil
}

// asks passes on what the marking leaves open.
func asks(out *Answer, s tyre.Size) {
	for _, q := range s.Questions {
		text := q.Ask
		if len(q.Answers) > 0 {
			text += " (" + strings.Join(q.Answers, "; ") + ")"
		}
		out.say("%s", text)
	}
}

// tyreLoad holds what two tyres may carry against the axle's load.
func tyreLoad(a *Args, out *Answer, s tyre.Size) error {
	axle := a.Get("axle")
	c, err := tyre.CheckLoad(s, s, axle.Value)
	if err != nil {
		return a.refuse("size", err.Error())
	}
	pair := finding.Number{Value: c.Pair, Half: axle.Half, Kind: kMass, Unit: a.unit(kMass)}
	out.judge(pair, finding.Limit{Key: "tyre.load.least", Name: "Load that two tyres may carry, the axle's load", Below: true, Kind: kMass, Value: axle.Value, Unit: a.unit(kMass), Grade: finding.Stops, Source: "T7"})
	pair.Half = 0
	out.out("", "Load that two may carry", pair)
	if *out.Verdict != finding.Pass && c.Least > 0 {
		out.Least = "The least load index that carries it is " + in(kRatio, "", float64(c.Least), 0) + "."
	}
	return nil
}

var tyreSwap = Sum{
	Name: "tyre-swap", Question: "What does another tyre change?", Group: Wheels,
	Words:  []string{"tire", "speedometer", "speedo", "scrub line", "arch gap", "lower", "plus size", "mph"},
	Source: []source.Mark{"T2", "S18", "SCRUB", source.CP},
	Inputs: []Input{
		{Key: "was", Label: "First fitted, as marked", Where: "the sidewall, or the handbook of the car"},
		{Key: "now", Label: "The other, as marked", Where: "the sidewall"},
		of(kLength, "mm", 0, 600, Input{Key: "part", Label: "A part over the floor at ROAD", Where: "tape to its lowest point", Optional: true, Width: tape}),
	},
	Outputs: []Output{{"", "Body rises by", kLength}, {"", "Diameter, change", kRatio}, {"", "Speedometer reads higher by", kRatio},
		{"", "Rim-to-rim line was", kLength}, {"", "Rim-to-rim line is", kLength}, {"", "Gap of tread to arch grows by", kLength}},
	Example: map[string]string{"was": "185/70R13", "now": "195/50R15", "part": "80 mm"},
	Run:     runTyreSwap,
}

func runTyreSwap(a *Args) (Answer, error) {
	was, err := a.marked("was", tyre.Measured{})
	if err != nil {
		return Answer{}, err
	}
	now, err := a.marked("now", tyre.Measured{})
	if err != nil {
		return Answer{}, err
	}
	c := tyre.Compare(was, now)
	w := &finding.Working{}
	pc := unit(kRatio, "%")
	body := a.length(c.Body, quadrature(was.LoadedHalf, now.LoadedHalf))
	share := against(a.length(now.Diameter, now.DiameterHalf), a.length(was.Diameter, was.DiameterHalf))
	share.Value = c.DiameterShare
	reading := finding.Number{Value: c.Reading, Half: share.Half, Kind: kRatio, Unit: pc}
	formula(w, "reading = {D_{was}}/{D_{now}} − 1", "{"+in(kLength, "mm", was.Diameter, 1)+"}/{"+in(kLength, "mm", now.Diameter, 1)+"} − 1", reading.String())
	note(w, "Sizes as marked, new tyres. The tolerance of the marking is in the ±; measure both to narrow it.")
	var out Answer
	word := "up"
	if c.Body < 0 {
		word = "down"
	}
	shown := body
	if c.Body < 0 {
		shown.Value = -shown.Value
	}
	out.head(word, shown, w)
	out.out("", "Body rises by", a.length(c.Body, body.Half))
	out.out("", "Diameter was", a.length(was.Diameter, was.DiameterHalf))
	out.out("", "Diameter is", a.length(now.Diameter, now.DiameterHalf))
	out.out("", "Diameter, change", share)
	out.out("", "Speedometer reads higher by", reading)
	out.out("", "Rim-to-rim line was", a.length(was.ScrubLine, was.ScrubHalf))
	out.out("", "Rim-to-rim line is", a.length(now.ScrubLine, now.ScrubHalf))
	out.out("", "Gap of tread to arch grows by", a.length(c.ArchGap, quadrature(was.DiameterHalf, now.DiameterHalf)/2))
	size, off := share, reading
	size.Value, off.Value = max(size.Value, -size.Value), max(off.Value, -off.Value)
	out.judge(off, a.shop.Limit("tyre.reading.most"))
	out.judge(size, a.shop.Limit("tyre.diameter.most"))
	higher := "high"
	if c.Reading < 0 {
		higher = "low"
	}
	out.say("Diameter %s to %s, %s; the speedometer reads %s %s.", quantity.Format(kLength, was.Diameter, a.unit(kLength), 1), quantity.Format(kLength, now.Diameter, a.unit(kLength), 1), percent(100*c.DiameterShare), quantity.Format(kRatio, off.Value, pc, 1), higher)
	mm := a.unit(kLength)
	out.say("Look at every part between %s and %s over the floor: with a flat tyre it changes sides.", quantity.Format(kLength, c.ScrubLow, mm, 0), quantity.Format(kLength, c.ScrubHigh, mm, 0))
	if p := a.Get("part"); p.OK && c.CrossesScrubLine(p.Value) {
		out.say("The part at %s does.", p.Number)
	} else if p.OK {
		out.say("The part at %s does not.", p.Number)
	}
	if c.LoadLost {
		out.say("The other carries less: its load index is lower.")
	}
	if c.TopSpeedLost {
		out.say("The other's speed symbol is lower.")
	}
	asks(&out, now.Size)
	return out, nil
}
