package sum

import (
	"fmt"
	"math"
	"time"

	"jounce/internal/finding"
	"jounce/num/doubt"
	"jounce/quantity"
	"jounce/source"
)

const (
	atLeast    = "at least"
	noMoreThan = "no more than"
)

var sure = Sum{
	Name: "sure", Question: "Can this reading decide it?", Group: Measuring,
	Words:  []string{"uncertainty", "doubt", "±", "guard band", "instrument", "calibration", "too close", "tolerance", "trust"},
	Source: []source.Mark{source.CP},
	Inputs: []Input{
		{Key: "reading", Symbol: "x", Label: "What was read, with its unit", Where: "12 mm, or 12 ± 4 mm", Any: true},
		{Key: "instrument", Symbol: "U_{1}", Label: "Instrument, give or take", Where: "its sheet: a tape 2 mm, a class 1.6 gauge of 12 bar 0.19 bar", Any: true, Optional: true},
		{Key: "placing", Symbol: "U_{2}", Label: "Anything else, give or take", Where: "floor, placing, settling, a second instrument", Any: true, Optional: true},
		{Key: "rule", Label: "The rule", Where: "on which side it fails", Choices: []string{atLeast, noMoreThan}},
		{Key: "limit", Symbol: "l", Label: "Limit", Where: "the rule's figure", Any: true},
		{Key: "read-on", Label: "Read on", Where: "date such as 2026-03-14", Optional: true},
		{Key: "due", Label: "Instrument's check is due on", Where: "its sticker, a date such as 2026-09-01", Optional: true},
	},
	Outputs: []Output{{"x", "The reading with all its doubt", quantity.KindNone}, {"", "Worst likely value", quantity.KindNone}, {"", "Read this to be sure", quantity.KindNone}},
	Example: map[string]string{"reading": "12 mm", "instrument": "4 mm", "rule": "at least", "limit": "10 mm"},
	Run:     runSure,
}

// half reads a give-or-take as the kind that the reading has.
func (a *Args) half(key string, kind quantity.Kind) (float64, error) {
	if !a.Has(key) {
		return 0, nil
	}
	switch kind {
	case quantity.KindTemperature:
		kind = quantity.KindTemperatureDifference
	case quantity.KindAbsPressure:
		kind = quantity.KindPressure
	}
	v, err := quantity.Parse(kind, a.Text(key))
	if err != nil {
		return 0, a.refuse(key, err.Error())
	}
	return math.Abs(v.SI()), nil
}

func runSure(a *Args) (Answer, error) {
	reading := a.Get("reading")
	kind := reading.Kind
	u1, err := a.half("instrument", kind)
	if err != nil {
		return Answer{}, err
	}
	u2, err := a.half("placing", kind)
	if err != nil {
		return Answer{}, err
	}
	bound, err := quantity.Parse(kind, a.Text("limit"))
	if err != nil {
		return Answer{}, a.refuse("limit", err.Error())
	}
	parts := []float64{reading.Half, u1, u2}
	n := reading.Number
	n.Half = doubt.Combine(parts...)
	if n.Half == 0 {
		return Answer{}, a.refuse("instrument", "not given. A reading without its ± decides nothing.")
	}
	limit := finding.Limit{Key: "typed", Name: "The rule typed", Below: a.Text("rule") == atLeast, Kind: kind, Value: bound.SI(), Unit: bound.Unit(), Grade: finding.Note, Source: source.Typed}
	w := &finding.Working{}
	formula(w, "U = √(U_{1}^{2} + U_{2}^{2} + …)", "", width(kind, n.Half, n.Unit))
	for i, name := range []string{"typed with the reading", "instrument", "anything else"} {
		if parts[i] > 0 {
			w.Notes = append(w.Notes, fmt.Sprintf("%s: ± %s, %.0f\u00a0%% of the doubt.", name, width(kind, parts[i], n.Unit), 100*parts[i]*parts[i]/(n.Half*n.Half)))
		}
	}
	note(w, "Two readings with one instrument, subtracted, carry its figure once; independent doubts add as the root of the sum of squares.")
	bare := func(x float64) finding.Number { return finding.Number{Value: x, Kind: kind, Unit: n.Unit} }
	needed := limit.Value - n.Half
	if limit.Below {
		needed = limit.Value + n.Half
	}
	var out Answer
	out.head("", n, w)
	out.out("x", "The reading with all its doubt", n)
	out.out("", "Worst likely value", bare(n.Worst(limit)))
	out.out("", "Best likely value", bare(n.Best(limit)))
	out.out("", "Read this to be sure", bare(needed))
	out.judge(n, limit)
	if off := n.Value - limit.Value; *out.Verdict == finding.TooClose && off != 0 {
		out.Least = fmt.Sprintf("With ± %s it would be decided; or the reading would have to be %s.", width(kind, math.Abs(off), n.Unit), bare(needed))
	}
	return out, a.evidence(&out)
}

// width is a give-or-take in words.
func width(kind quantity.Kind, half float64, u quantity.Unit) string {
	n, _, label := quantity.FormatNumberWith(kind, u.ToSI(u.WidthFromSI(half)), 0, u)
	if label == "" {
		return n
	}
	return n + "\u00a0" + label
}

// evidence says whether the instrument's check was in date.
func (a *Args) evidence(out *Answer) error {
	var day [2]time.Time
	for i, k := range []string{"read-on", "due"} {
		if !a.Has(k) {
			return nil
		}
		d, err := time.Parse(time.DateOnly, a.Text(k))
		if err != nil {
			return a.refuse(k, fmt.Sprintf("%q is no date. Type it as 2026-03-14.", a.Text(k)))
		}
		day[i] = d
	}
	if day[0].After(day[1]) {
		out.say("Not evidence: the instrument was due for its check on %s and was read on %s.", a.Text("due"), a.Text("read-on"))
	}
	return nil
}
