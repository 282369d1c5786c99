package study

import (
	"errors"
	"fmt"
	"strings"

	"jounce/internal/finding"
	q "jounce/quantity"
	"jounce/source"
	"jounce/tyre"
)

func (v *view) tyreSettings() tyre.Settings {
	s := tyre.DefaultSettings()
	if v.shop.FullWidth > 0 {
		s.FullSectionAspect = v.shop.FullWidth / 100
	}
	return s
}

// tyres reads the sizes as marked and what follows from them.
func (v *view) tyres() {
	var kinds [4]tyre.Construction
	for i := range v.out.Axles {
		left, lok := v.tyreSize(i, "tyreLeft")
		right, rok := v.tyreSize(i, "tyreRight")
		if lok {
			kinds[2*i] = left.Construction
			kinds[2*i+1] = left.Construction
			v.wheel(i, left)
		}
		if rok {
			kinds[2*i+1] = right.Construction
		}
		if lok && rok {
			v.tyrePair(i, left, right)
		}
		v.tyreLoad(i, left, right, lok, rok)
	}
	if m := tyre.Mixed(kinds[0], kinds[1], kinds[2], kinds[3]); m == tyre.MixOnAxle || m == tyre.MixRadialFront {
		v.add(finding.Finding{ID: "tyres.mixed", Topic: "tyres", Claim: "These tyres do not belong on one car.", Verdict: finding.Fail, Grade: finding.Stops,
			Shown: "mixed", Why: upper(m.String()) + ".", Least: "One construction all round.", Source: "S18"})
	}
}

func (v *view) tyreSize(i int, part string) (tyre.Size, bool) {
	path := "axles." + AxleNames[i] + "." + part
	text := strings.TrimSpace(v.text(path))
	if text == "" {
		return tyre.Size{}, false
	}
	s, err := tyre.Parse(text, v.tyreSettings())
	if err != nil {
		var q *tyre.Question
		if errors.As(err, &q) {
			v.ask(path, text, q.Error(), q.Answers...)
		} else {
			v.ask(path, text, err.Error())
		}
		return s, false
	}
	if len(s.Questions) > 0 && !v.asked[path] {
		v.asked[path] = true
		v.tyreAsks(i, path, text, s.Questions)
	}
	return s, true
}

// wheel works out one axle's tyre for the heights picture.
func (v *view) wheel(i int, s tyre.Size) {
	hub := v.read("axles."+AxleNames[i]+".loadedRadius", "r", tape)
	m := tyre.Measured{}
	if hub.OK {
		m.LoadedRadius, m.Half = hub.Value, hub.Half
	}
	d := s.Dimensions(v.tyreSettings(), m)
	n := func(x, half float64) finding.Number { return finding.Of(q.KindLength, "mm", x, half) }
	v.out.Heights.Wheel[i] = Wheel{Known: true, Size: s.Text, Diameter: n(d.Diameter, d.DiameterHalf), Loaded: n(d.LoadedRadius, d.LoadedHalf),
		Flange: n(d.FlangeRadius, d.FlangeHalf), Scrub: n(d.ScrubLine, d.ScrubHalf), Measured: d.LoadedMeasured}
	v.how.scrub[i] = v.scrubTrail(i, s, d)
}

func (v *view) tyrePair(i int, left, right tyre.Size) {
	diff := tyre.Differences(left, right)
	if len(diff) == 0 {
		return
	}
	var parts []string
	for _, d := range diff {
		parts = append(parts, fmt.Sprintf("%s %s against %s", d.What, d.Left, d.Right))
	}
	v.add(finding.Finding{ID: AxleNames[i] + ".tyres", Topic: "tyres", Place: AxleNames[i], Verdict: finding.Fail, Grade: finding.Stops, Source: source.CP,
		Claim: "The two " + AxleNames[i] + " tyres differ.", Shown: "mixed", Why: "Left against right: " + strings.Join(parts, ", ") + ".",
		Least: "Two tyres of one size and make-up on the axle."})
}

// tyreLoad holds twice the weaker tyre's load index against the axle, laden.
func (v *view) tyreLoad(i int, left, right tyre.Size, lok, rok bool) {
	name := AxleNames[i]
	id, claim := name+".tyre.load", "The "+name+" tyres carry the axle, laden."
	var need []finding.Gap
	gap := func(part, words string) {
		need = append(need, finding.Gap{Path: "axles." + name + "." + part, Label: upper(name) + ", " + words, Why: "says what the tyres may carry"})
	}
	if !lok || left.LoadIndex == 0 {
		gap("tyreLeft", "tyre, left, with its load index")
	}
	if !rok || right.LoadIndex == 0 {
		gap("tyreRight", "tyre, right, with its load index")
	}
	load, laden := v.axleLoad(i)
	if !load.Known() {
		need = append(need, gaps("says what the tyres must carry", v.read("corners."+CornerNames[2*i]+".weight", "", pads), v.read("corners."+CornerNames[2*i+1]+".weight", "", pads))...)
	}
	if len(need) > 0 {
		v.unknown(id, "tyres", claim, finding.Stops, name, need)
		return
	}
	c, err := tyre.CheckLoad(left, right, load.Value)
	if err != nil {
		return
	}
	pair := finding.Number{Value: c.Pair, Half: load.Half, Kind: q.KindMass, Unit: v.shop.Unit(q.KindMass)}
	f := finding.Finding{ID: id, Topic: "tyres", Place: name, Claim: claim, Value: pair}
	f.Judge(finding.Limit{Key: "tyre.load", Name: "Load on the axle", Below: true, Kind: q.KindMass, Value: load.Value, Unit: pair.Unit, Grade: finding.Stops, Source: "T7"})
	f.Value.Half = 0 // the index has none; the axle's is in the verdict
	f.Working = v.carrying(i, c, load, left, right)
	f.Why = fmt.Sprintf("2 × %.0f = %.0f kg; the axle weighs %s%s.", c.PerTyre, c.Pair, load, map[bool]string{true: " laden", false: " as weighed"}[laden])
	switch {
	case f.Verdict == finding.Fail:
		f.Claim, f.Least = "The "+name+" tyres do not carry the axle.", fmt.Sprintf("Load index %d or more.", tyreIndex(load.Value+load.Half))
	case !laden:
		f.Verdict, f.Needs, f.Shown = finding.NotKnown, v.ladenNeed, countWords(len(v.ladenNeed))
	}
	v.add(f)
}

func tyreIndex(axle float64) int {
	n, _ := tyre.IndexFor(axle / 2)
	return n
}

// axleLoad is the weight on an axle with everybody aboard, or as weighed where
// the load cases are not known.
func (v *view) axleLoad(i int) (finding.Number, bool) {
	a, b := v.out.Corners[2*i], v.out.Corners[2*i+1]
	if !a.Weight.Known() || !b.Weight.Known() {
		return finding.Number{}, false
	}
	n := finding.Number{Value: a.Weight.Value + b.Weight.Value, Half: hypot(a.Weight.Half, b.Weight.Half), Kind: q.KindMass, Unit: v.shop.Unit(q.KindMass)}
	if len(v.ladenNeed) > 0 || v.added == nil {
		return n, false
	}
	n.Value += v.added[2*i] + v.added[2*i+1]
	return n, true
}

// tyreAsks keeps what a marking leaves open as a note: the size is used all the
// same.
func (v *view) tyreAsks(i int, path, text string, asks []tyre.Question) {
	var why []string
	for _, a := range asks {
		why = append(why, a.Ask)
	}
	v.add(finding.Finding{ID: path, Topic: "tyres", Place: AxleNames[i], Verdict: finding.NotKnown, Grade: finding.Note, Source: source.CP, Shown: "ask",
		Claim: "What " + text + " leaves open.", Why: strings.Join(why, " ")})
}

var measuredNothing = tyre.Measured{}

// carrying is the working of what two tyres carry against their axle. The load
// of an index has no doubt: what stands below is the margin over the axle.
func (v *view) carrying(i int, c tyre.LoadCheck, load finding.Number, left, right tyre.Size) *finding.Working {
	kg, at := v.shop.Unit(q.KindMass), "axles."+AxleNames[i]
	side := func(part, words string, s tyre.Size) given {
		g := v.fact("C_{"+part+"}", fmt.Sprintf("%s tyre, %s, load index %d", AxleNames[i], words, s.LoadIndex), finding.Number{Value: s.Load, Kind: q.KindMass, Unit: kg}, "T7")
		g.Path = at + ".tyre" + upper(words)
		g.Who = v.read(g.Path, "", exact).Who
		return g
	}
	l, r := side("l", "left", left), side("r", "right", right)
	axle := v.worked("W_{"+AxleNames[i]+"}", AxleNames[i]+" axle", load, v.axleTrail(i, load))
	margin, t, err := v.compute(q.KindMass, kg, func(x []float64) (float64, error) {
		left, right := left, right
		left.Load, right.Load = x[0], x[1]
		c, err := tyre.CheckLoad(left, right, x[2])
		return c.Spare, err
	}, l, r, axle)
	if err != nil {
		return nil
	}
	t.lead(finding.Line{Symbols: "C = 2 × the smaller of C_{l} and C_{r}", Numbers: fmt.Sprintf("2 × %.0f kg", c.PerTyre), Result: finding.Number{Value: c.Pair, Kind: q.KindMass, Unit: kg}.String()},
		finding.Line{Symbols: "C − " + axle.Symbol, Numbers: fmt.Sprintf("%.0f − %s", c.Pair, load), Result: margin.String()})
	t.note("What each input does is shown on the margin over the axle.")
	return t.finding()
}

// axleTrail is the working of the weight on an axle.
func (v *view) axleTrail(i int, load finding.Number) *trail {
	var in []given
	says, numbers := "", ""
	for k := 2 * i; k < 2*i+2; k++ {
		w := v.weighed[k].called("W_{"+CornerNames[k]+"}", CornerNames[k]+", weight")
		in, says, numbers = append(in, w), says+" + "+w.Symbol, numbers+" + "+w.String()
	}
	if len(v.ladenNeed) == 0 && v.added != nil {
		for k := 2 * i; k < 2*i+2; k++ {
			d := v.how.added[k]
			in, says, numbers = append(in, d.counting(0)), says+" + "+d.Symbol, numbers+" + "+d.String()
		}
	}
	_, t, err := v.compute(load.Kind, load.Unit, func(x []float64) (float64, error) {
		sum := 0.0
		for _, y := range x {
			sum += y
		}
		return sum, nil
	}, in...)
	if err != nil {
		return nil
	}
	t.lead(finding.Line{Symbols: "W_{" + AxleNames[i] + "} = " + strings.TrimPrefix(says, " + "), Numbers: strings.TrimPrefix(numbers, " + "), Result: load.String()})
	return t
}
