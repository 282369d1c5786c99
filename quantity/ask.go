package quantity

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// settleUnits gives every term exactly one unit, or asks.
func (p *parser) settleUnits(r *reading) error {
	if err := p.askMeaning(*r); err != nil {
		return err
	}
	if err := p.settleFlow(r); err != nil {
		return err
	}
	a, b := &r.a, &r.b
	if r.form == pm && b.percent {
		p.settlePercent(a, b)
		if p.kind == KindRatio && a.units == nil && !p.shown.IsZero() && !b.ofValue {
			p.insert(b.to, "of value") // the box says that the number is no per cent
		}
		if p.kind == KindRatio && a.units == nil && b.fig.val <= math.Abs(a.fig.val) && p.shown.IsZero() && !b.ofValue {
			n, d := number(p.kind, Unit{}, a.fig), number(p.kind, Unit{}, b.fig)
			return p.ask("may be per cent as a whole, or a number and its share", []string{
				n + " % ± " + d + " %",
				n + " ± " + d + " % of value",
			})
		}
	}
	bareA, bareB := a.units == nil, r.form != plain && !b.percent && b.units == nil
	switch {
	case bareA && r.form != plain && !b.percent && !bareB:
		if u := b.units[0]; r.form == pm && !p.shown.IsZero() && p.shown != u {
			return p.askDoubtUnit(*r)
		}
		a.units = b.units
	case !bareA && bareB:
		b.units = a.units
	case bareA:
		u := p.shown
		if u.IsZero() && p.kind == KindRatio {
			u = p.kind.Main()
		}
		if u.IsZero() {
			return p.askUnit(*r)
		}
		a.units = []Unit{u}
		end := a.to
		if bareB {
			b.units = a.units
			if r.form == span || p.kind != KindRatio {
				end = b.to // "1 ± 1 %" of a ratio would be a share
			}
		}
		p.insert(end, u.Name())
	}
	return nil
}

// settlePercent tells a share of the value from a doubt in the unit "%".
func (p *parser) settlePercent(a, b *term) {
	percent, _ := UnitOf(p.kind, "%")
	if percent.IsZero() || b.ofValue {
		return
	}
	inPercent := len(a.units) > 0 && a.units[0] == percent ||
		a.units == nil && (p.kind == KindHumidity || p.shown == percent)
	if inPercent {
		if a.units == nil && p.kind == KindRatio {
			a.units = []Unit{percent}
			p.insert(a.to, percent.Name())
		}
		b.percent, b.units = false, []Unit{percent}
	}
}

// insert writes what was taken from the box into the text.
func (p *parser) insert(at int, unit string) {
	if unit == "" {
		return
	}
	if !tight(unit) {
		unit = " " + unit
	}
	if p.read == "" {
		p.read = p.text
	}
	p.text = p.text[:at] + unit + p.text[at:]
}

// settleFlow gives a flow without its state the state of the other term or of
// the box, or asks.
func (p *parser) settleFlow(r *reading) error {
	if r.a.flow == "" && r.b.flow == "" {
		return nil
	}
	state := ""
	for _, u := range []Unit{firstUnit(r.a), firstUnit(r.b), p.shown} {
		if state == "" && !u.IsZero() {
			_, state, _ = strings.Cut(u.Name(), " ")
		}
	}
	// The later term first, so that places in the text stay right.
	for _, t := range []*term{&r.b, &r.a} {
		if t.flow == "" {
			continue
		}
		u, ok := UnitOf(p.kind, t.flow+" "+state)
		if state == "" || !ok {
			return p.askState(*r, t.states)
		}
		t.units = []Unit{u}
		p.insert(t.to, state)
	}
	return nil
}

func firstUnit(t term) Unit {
	if len(t.units) == 0 {
		return Unit{}
	}
	return t.units[0]
}

// askMeaning asks when a typed unit has several meanings.
func (p *parser) askMeaning(r reading) error {
	t := r.a
	if len(t.units) < 2 {
		t = r.b
	}
	if len(t.units) < 2 {
		return nil
	}
	var answers []string
	for _, u := range t.units {
		with := r
		if len(r.a.units) > 1 {
			with.a.units = []Unit{u}
		}
		if len(r.b.units) > 1 {
			with.b.units = []Unit{u}
		}
		answers = append(answers, p.rewritten(with))
	}
	looks := "has a unit with several meanings"
	if p.kind == KindTemperature || p.kind == KindTemperatureDifference {
		looks = "does not say which degrees"
	}
	return p.ask(looks, answers)
}

// askUnit asks for the unit of a bare number.
func (p *parser) askUnit(r reading) error {
	var answers []string
	for name := range strings.SplitSeq(p.kind.row().ask, "|") {
		with := r
		with.a.units = []Unit{mustUnit(p.kind, name)}
		if with.b.units == nil && !with.b.percent {
			with.b.units = with.a.units
		}
		answers = append(answers, p.rewritten(with))
	}
	return p.ask("has no unit", answers)
}

// askState asks for the state that a flow is counted at.
func (p *parser) askState(r reading, states []string) error {
	var answers []string
	for _, s := range states {
		with := r
		for _, t := range []*term{&with.a, &with.b} {
			if t.flow != "" {
				t.units = []Unit{mustUnit(p.kind, t.flow+" "+s)}
			}
		}
		if with.a.units == nil {
			with.a.units = with.b.units
		}
		answers = append(answers, p.rewritten(with))
	}
	return p.ask("does not say at which state the air is counted", answers)
}

// askDoubtUnit asks when only the doubt has a unit, and not that of the box.
func (p *parser) askDoubtUnit(r reading) error {
	inBox, inTyped := r, r
	inBox.a.units = []Unit{p.shown}
	inTyped.a.units = r.b.units
	return p.ask("has a ± in another unit than the box", []string{p.rewritten(inBox), p.rewritten(inTyped)})
}

// settleThousands asks when a point or comma may part decimals or thousands.
func (p *parser) settleThousands(r reading) error {
	twinA := twin(p.kind, r.a.units[0], r.a.fig)
	twinB := r.form != plain && !r.b.percent && twin(p.kind, r.b.units[0], r.b.fig)
	if !twinA && !twinB {
		return nil
	}
	decimals, thousands := r, r
	if twinA {
		decimals.a.fig, thousands.a.fig = figure{val: r.a.fig.val}, figure{val: r.a.fig.parted}
	}
	if twinB {
		decimals.b.fig, thousands.b.fig = figure{val: r.b.fig.val}, figure{val: r.b.fig.parted}
	}
	return p.ask("may have decimals or thousands", []string{p.rewritten(decimals), p.rewritten(thousands)})
}

// rewritten is a reading as a text that has only one meaning.
func (p *parser) rewritten(r reading) string {
	a, b := p.termText(r.a), p.termText(r.b)
	switch r.form {
	case pm:
		return a + " ± " + b
	case span:
		return a + " to " + b
	}
	return a
}

func (p *parser) termText(t term) string {
	u := firstUnit(t)
	n := number(p.kind, u, t.fig)
	switch {
	case t.percent && t.units == nil:
		return n + " % of value"
	case u.Name() == "":
		return n
	case tight(u.Name()):
		return n + u.Name()
	}
	return n + " " + u.Name()
}

// number is a figure for an answer. One that may have thousands stays so, and
// the answer is asked about in its turn.
func number(kind Kind, unit Unit, f figure) string {
	s := ""
	if f.twin {
		s = strconv.FormatFloat(f.val, 'f', 3, 64)
	} else {
		s = shortest(kind, unit, f.val)
	}
	return strings.ReplaceAll(s, "-", minus)
}

// ask makes a Question of the answers that can be read. An answer that is a
// question itself is replaced by its own answers.
func (p *parser) ask(looks string, candidates []string) error {
	var answers []string
	for _, c := range candidates {
		if p.depth > 3 || len(answers) >= 8 {
			break
		}
		try := parser{kind: p.kind, text: c, depth: p.depth + 1}
		_, err := try.parse()
		switch err := err.(type) {
		case nil:
			answers = append(answers, c)
		case *Question:
			answers = append(answers, err.Answers...)
		}
	}
	seen := map[string]bool{}
	answers = slices.DeleteFunc(answers, func(s string) bool {
		again := seen[s]
		seen[s] = true
		return again
	})
	if len(answers) == 0 {
		return p.bad("it "+looks, "")
	}
	return &Question{
		Read: p.typed(), Expected: expected(p.kind), Looks: looks,
		Ask: p.sentence(answers), Answers: answers,
	}
}

// sentence is "100 psi (6.9 bar) or 100 bar?".
func (p *parser) sentence(answers []string) string {
	if len(answers) == 1 {
		return "Is " + answers[0] + " meant?"
	}
	first := answers[0]
	if len(answers) == 2 {
		first += p.inOther(answers[0], answers[1])
	}
	last, comma := len(answers)-1, ", "
	if strings.Contains(strings.Join(answers, ""), ",") {
		comma = "; "
	}
	return strings.Join(append([]string{first}, answers[1:last]...), comma) + " or " + answers[last] + "?"
}

// inOther is the first of two answers in the unit of the second, in brackets,
// when both are single numbers in different units.
func (p *parser) inOther(first, second string) string {
	a, errA := (&parser{kind: p.kind, text: first, depth: 9}).parse()
	b, errB := (&parser{kind: p.kind, text: second, depth: 9}).parse()
	if errA != nil || errB != nil || a.form != plain || b.form != plain || a.unit == b.unit {
		return ""
	}
	x := b.unit.FromSI(a.si)
	digits := 0
	if m := math.Abs(x); m > 0 && m < 10 {
		digits = min(max(1-int(math.Floor(math.Log10(m))), 0), 9)
	}
	number, unit := FormatNumber(p.kind, a.si, b.unit, digits)
	if tight(unit) {
		return " (" + number + unit + ")"
	}
	return " (" + number + " " + strings.ReplaceAll(unit, nbsp, " ") + ")"
}
