package sum

import (
	"encoding/json"
	"fmt"
	"strings"

	"jounce/internal/finding"
	"jounce/quantity"
	"jounce/source"
)

// Answer is what a sum says.
type Answer struct {
	Name, Question string
	Direction      string           // before the number: "lost", "up"
	Headline       finding.Number   // the number asked for
	Also           finding.Number   // the same in the other unit of the trade, where there is one
	Shown          string           // stands for the number where it is none
	Says           []string         // what it means, what to set to be sure
	Outputs        []finding.Term   // every number that came out
	Working        *finding.Working // how the headline came about
	Verdict        *finding.Verdict // against Limit, where the shop has one
	Limit          *finding.Limit   // the rule that decided
	Least          string           // the least change that would turn it
	Cautions       []string         // where the person stands
	Source         []source.Mark    // whose formulas and rules
}

// Big is the answer as it stands large on a page: "lost 0.35 ± 0.04 bar".
func (a Answer) Big() string {
	s := a.Shown
	if s == "" {
		s = a.Headline.String()
	}
	if a.Direction != "" {
		s = a.Direction + " " + s
	}
	return s
}

// head sets the number asked for; a pressure stands in bar and psi.
func (a *Answer) head(direction string, n finding.Number, w *finding.Working) {
	a.Direction, a.Headline, a.Working = direction, n, w
	other := map[string]string{"bar": "psi", "psi": "bar"}[n.Unit.Name()]
	if u, ok := quantity.UnitOf(n.Kind, other); ok && other != "" && n.Kind == quantity.KindPressure {
		a.Also = finding.Number{Value: n.Value, Half: n.Half, Kind: n.Kind, Unit: u}
	}
}

// out adds a number that came out.
func (a *Answer) out(symbol, name string, n finding.Number) {
	a.Outputs = append(a.Outputs, finding.Term{Symbol: symbol, Name: name, Value: n, Mark: source.Calc})
}

// say adds a sentence.
func (a *Answer) say(format string, args ...any) {
	a.Says = append(a.Says, fmt.Sprintf(format, args...))
}

// judge holds a number against limits, the gravest first. Of several numbers
// that are judged the verdict that weighs most stays.
func (a *Answer) judge(n finding.Number, limits ...finding.Limit) {
	f := finding.Finding{Value: n}
	f.Judge(limits...)
	l, ok := f.Decided()
	if f.Verdict == finding.Pass || !ok { // the narrowest of those that pass
		l = limits[len(limits)-1]
	}
	if a.Verdict != nil && !weighs(f.Verdict, l.Grade, *a.Verdict, a.Limit.Grade) {
		return
	}
	a.Verdict, a.Limit, a.Least = &f.Verdict, &l, leastChange(n, l, f.Verdict)
}

// weighs tells that a verdict and grade weigh more than another.
func weighs(v finding.Verdict, g finding.Grade, than finding.Verdict, thanG finding.Grade) bool {
	switch {
	case v == finding.Pass || than == finding.Pass:
		return v != finding.Pass && than == finding.Pass
	case g != thanG:
		return g > thanG
	}
	return v < than
}

// leastChange says what would turn a verdict that is no pass.
func leastChange(n finding.Number, l finding.Limit, v finding.Verdict) string {
	gap := n.Worst(l) - l.Value
	word := "less"
	if l.Below {
		gap, word = -gap, "more"
	}
	width := quantity.Format(widthKind(l.Kind), gap, widthUnit(l), -1)
	switch v {
	case finding.Fail:
		return "It must be " + width + " " + word + " to pass for sure."
	case finding.TooClose:
		return "Read it again with something finer, or make it " + width + " " + word + "."
	}
	return ""
}

func widthKind(k quantity.Kind) quantity.Kind {
	if k == quantity.KindTemperature {
		return quantity.KindTemperatureDifference
	}
	return k
}

func widthUnit(l finding.Limit) quantity.Unit {
	if l.Kind == quantity.KindTemperature {
		return quantity.KindTemperatureDifference.Main()
	}
	return l.Unit
}

// Text is the answer for a terminal, lines broken at a width [characters].
func (a Answer) Text(width int) string {
	t := &text{width: max(width, 40)}
	t.line(0, a.Question)
	big := a.Big()
	if a.Also.Known() {
		big += " (" + a.Also.String() + ")"
	}
	t.line(2, big)
	if a.Verdict != nil {
		t.line(2, fmt.Sprintf("%s: %s %s, %s, %s.", a.Verdict, a.Limit.Name, a.Limit.Rule(), strings.ToLower(a.Limit.Grade.String()), a.Limit.Source))
		if a.Least != "" {
			t.line(2, a.Least)
		}
	}
	for _, s := range a.Says {
		t.line(2, s)
	}
	for _, s := range a.Cautions {
		t.line(2, "Where you stand: "+s)
	}
	t.terms("Numbers", a.Outputs)
	if w := a.Working; w != nil {
		t.working(w)
	}
	if len(a.Source) > 0 {
		t.line(0, "Source: "+marks(a.Source))
	}
	return t.String()
}

func marks(list []source.Mark) string {
	s := make([]string, len(list))
	for i, m := range list {
		s[i] = string(m)
	}
	return strings.Join(s, ", ")
}

// text is a page of plain lines.
type text struct {
	strings.Builder
	width int
}

// line writes a paragraph, broken at spaces that may break.
func (t *text) line(indent int, s string) {
	t.WriteString(finding.Paragraph(indent, t.width, s))
}

func (t *text) terms(title string, list []finding.Term) {
	if len(list) == 0 {
		return
	}
	t.line(0, title)
	for _, x := range list {
		s := x.Name + ": " + x.Value.String() + " [" + string(x.Mark) + "]"
		if x.Symbol != "" {
			s = finding.Plain(x.Symbol) + "  " + s
		}
		if x.Share >= 0.005 {
			s += fmt.Sprintf(", %.0f\u00a0%% of the doubt", 100*x.Share)
		}
		t.line(2, s)
	}
}

func (t *text) working(w *finding.Working) {
	t.line(0, "Working")
	for _, l := range w.Lines {
		s := finding.Plain(l.Symbols)
		if l.Numbers != "" {
			s += " = " + finding.Plain(l.Numbers)
		}
		if l.Result != "" {
			s += " = " + l.Result
		}
		t.line(2, s)
	}
	t.terms("What went in", w.Terms)
	t.terms("On the way", w.Steps)
	if len(w.Effects) > 0 {
		t.line(0, "What 5\u00a0% more would do")
		for _, e := range w.Effects {
			t.line(2, fmt.Sprintf("%s: %s, %s", e.Name, signed(e.Change), percent(e.Percent)))
		}
	}
	for _, n := range w.Notes {
		t.line(2, n)
	}
	if w.Doubt != "" {
		t.line(2, "± is a 95\u00a0% half-width, carried "+w.Doubt+"ly.")
	}
}

// percent is a change in per cent with its sign.
func percent(p float64) string {
	return plus(p, quantity.Format(quantity.KindRatio, p/100, unit(quantity.KindRatio, "%"), 1))
}

func signed(n finding.Number) string {
	return plus(n.Value, quantity.Format(n.Kind, n.Value, n.Unit, n.Unit.Digits()+1))
}

func plus(x float64, s string) string {
	if x > 0 {
		return "+" + s
	}
	return s
}

// number is a finding.Number as JSON: the text and the figures behind it.
type number struct {
	Text  string   `json:"text"`
	Value *float64 `json:"value,omitempty"` // [unit]
	Half  float64  `json:"half,omitempty"`  // [unit]
	Unit  string   `json:"unit,omitempty"`
	SI    *float64 `json:"si,omitempty"`
}

func jsonNumber(n finding.Number) *number {
	if !n.Known() {
		return nil
	}
	v, si := n.Unit.FromSI(n.Value), n.Value
	return &number{Text: n.String(), Value: &v, Half: n.Unit.WidthFromSI(n.Half), Unit: n.Unit.Name(), SI: &si}
}

type output struct {
	Symbol string  `json:"symbol,omitempty"`
	Name   string  `json:"name"`
	Value  *number `json:"value"`
}

// MarshalJSON writes the answer with its numbers as texts and as figures.
func (a Answer) MarshalJSON() ([]byte, error) {
	outs := make([]output, len(a.Outputs))
	for i, o := range a.Outputs {
		outs[i] = output{Symbol: finding.Plain(o.Symbol), Name: o.Name, Value: jsonNumber(o.Value)}
	}
	var rule string
	if a.Limit != nil {
		rule = a.Limit.Rule()
	}
	return json.Marshal(struct {
		Sum      string           `json:"sum"`
		Question string           `json:"question"`
		Answer   string           `json:"answer"`
		Headline *number          `json:"headline,omitempty"`
		Also     *number          `json:"also,omitempty"`
		Says     []string         `json:"says,omitempty"`
		Verdict  *finding.Verdict `json:"verdict,omitempty"`
		Limit    *finding.Limit   `json:"limit,omitempty"`
		Rule     string           `json:"rule,omitempty"`
		Least    string           `json:"least,omitempty"`
		Outputs  []output         `json:"outputs,omitempty"`
		Working  *finding.Working `json:"working,omitempty"`
		Cautions []string         `json:"cautions,omitempty"`
		Source   []source.Mark    `json:"source,omitempty"`
	}{a.Name, a.Question, a.Big(), jsonNumber(a.Headline), jsonNumber(a.Also), a.Says, a.Verdict, a.Limit, rule, a.Least, outs, a.Working, a.Cautions, a.Source})
}

type inputJSON struct {
	Key      string      `json:"key"`
	Label    string      `json:"label"`
	Where    string      `json:"where,omitempty"`
	Kind     string      `json:"kind,omitempty"`
	Unit     string      `json:"unit,omitempty"`
	Least    *float64    `json:"least,omitempty"`
	Most     *float64    `json:"most,omitempty"`
	Default  string      `json:"default,omitempty"`
	Mark     source.Mark `json:"mark,omitempty"`
	Optional bool        `json:"optional,omitempty"`
	Choices  []string    `json:"choices,omitempty"`
}

type outputJSON struct {
	Label string `json:"label"`
	Kind  string `json:"kind"`
}

// MarshalJSON writes what the sum asks for and what it answers.
func (s Sum) MarshalJSON() ([]byte, error) {
	ins := make([]inputJSON, len(s.Inputs))
	for i, in := range s.Inputs {
		j := inputJSON{Key: in.Key, Label: in.Label, Where: in.Where, Unit: in.Unit.Name(), Default: in.Default, Mark: in.Mark, Optional: in.Optional, Choices: in.Choices}
		if in.Kind != quantity.KindNone {
			j.Kind = in.Kind.String()
		}
		if in.Least != in.Most {
			j.Least, j.Most = &in.Least, &in.Most
		}
		ins[i] = j
	}
	outs := make([]outputJSON, len(s.Outputs))
	for i, o := range s.Outputs {
		outs[i] = outputJSON{o.Label, o.Kind.String()}
	}
	return json.Marshal(struct {
		Name     string            `json:"name"`
		Question string            `json:"question"`
		Group    string            `json:"group"`
		Words    []string          `json:"words,omitempty"`
		Inputs   []inputJSON       `json:"inputs"`
		Outputs  []outputJSON      `json:"outputs"`
		Source   []source.Mark     `json:"source,omitempty"`
		Example  map[string]string `json:"example"`
	}{s.Name, s.Question, s.Group, s.Words, ins, outs, s.Source, s.Example})
}
