package study

import (
	"errors"
	"fmt"
	"strings"

	"jounce/internal/finding"
	"jounce/quantity"
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
		if lok {
			v.tyreLoad(i, left, right, rok)
		}
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
	for _, q := range s.Questions {
		v.problems = append(v.problems, v.question(path, text, q))
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
	n := func(x, half float64) finding.Number { return finding.Of(quantity.KindLength, "mm", x, half) }
	v.out.Heights.Wheel[i] = Wheel{Known: true, Size: s.Text, Diameter: n(d.Diameter, d.DiameterHalf), Loaded: n(d.LoadedRadius, d.LoadedHalf),
		Flange: n(d.FlangeRadius, d.FlangeHalf), Scrub: n(d.ScrubLine, d.ScrubHalf), Measured: d.LoadedMeasured}
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

// tyreLoad holds the load index against the axle's load.
func (v *view) tyreLoad(i int, left, right tyre.Size, both bool) {
	if !both {
		right = left
	}
	a, b := v.out.Corners[2*i].Weight, v.out.Corners[2*i+1].Weight
	if left.LoadIndex == 0 || right.LoadIndex == 0 || !a.Known() || !b.Known() {
		return
	}
	load := a.Value + b.Value
	c, err := tyre.CheckLoad(left, right, load)
	if err != nil {
		return
	}
	f := finding.Finding{ID: AxleNames[i] + ".tyre.load", Topic: "tyres", Place: AxleNames[i], Grade: finding.Stops, Source: "T7",
		Claim: "The " + AxleNames[i] + " tyres carry the axle.", Value: finding.Of(quantity.KindMass, "kg", c.Pair, 0),
		Why: fmt.Sprintf("2 × %.0f = %.0f kg; the axle weighs %.0f kg.", c.PerTyre, c.Pair, load), Verdict: finding.Pass}
	if !c.Enough {
		f.Verdict = finding.Fail
		f.Claim = "The " + AxleNames[i] + " tyres do not carry the axle."
		f.Least = fmt.Sprintf("Load index %d or more.", c.Least)
	}
	v.add(f)
}

var measuredNothing = tyre.Measured{}
