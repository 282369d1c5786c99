package sum

import (
	"errors"
	"fmt"
	"math"
	"sort"
	"strings"

	"jounce/internal/catalog"
	"jounce/internal/finding"
	"jounce/num/doubt"
	"jounce/quantity"
	"jounce/source"
)

// Problem is something typed that cannot be used, something missing, or a
// question that must be settled first.
type Problem struct {
	Key     string   `json:"key,omitempty"`     // the input, empty where it is the whole
	Label   string   `json:"label,omitempty"`   // its words
	Read    string   `json:"read"`              // what stands there
	Says    string   `json:"says"`              // what is wrong and what would fix it
	Answers []string `json:"answers,omitempty"` // texts that would settle a question
}

// Error is the problem in a sentence.
func (p Problem) Error() string {
	switch {
	case p.Label != "":
		return p.Label + " (" + p.Key + "): " + p.Says
	case p.Key != "":
		return p.Key + ": " + p.Says
	}
	return p.Says
}

// Given is what was typed into an input, or its default, ready for an engine.
type Given struct {
	finding.Number
	Input Input
	Typed string // as typed; the default where nothing was
	Mark  source.Mark
	OK    bool // there is a value
}

// Args is all that was given to a sum.
type Args struct {
	sum   Sum
	shop  *catalog.Shop
	given map[string]Given
	watch watch
}

// watch is told of each doubt that is carried through a calculation.
type watch func(f doubt.Func, in []doubt.Input, r doubt.Result)

// Ask reads what was typed and runs the sum with the limits that the program
// starts with. Where shown is true each box shows its unit, so that a bare
// number has it; where it is false a bare number is a question. Either there is
// an answer or there is at least one problem.
func (s Sum) Ask(values map[string]string, shown bool) (Answer, []Problem) {
	return s.AskIn(catalog.NewShop(""), values, shown)
}

// AskIn is Ask with a shop's own limits and units.
func (s Sum) AskIn(shop *catalog.Shop, values map[string]string, shown bool) (Answer, []Problem) {
	return s.ask(shop, values, shown, nil)
}

func (s Sum) ask(shop *catalog.Shop, typed map[string]string, shown bool, w watch) (Answer, []Problem) {
	values := make(map[string]string, len(typed))
	for key, text := range typed {
		values[strings.ToLower(key)] = text
	}
	problems := s.strangers(values)
	a := &Args{sum: s, shop: shop, given: map[string]Given{}, watch: w}
	for _, in := range s.Inputs {
		g, p := read(in, strings.TrimSpace(values[in.Key]), shop, shown)
		if p != nil {
			problems = append(problems, *p)
			continue
		}
		a.given[in.Key] = g
	}
	if len(problems) > 0 {
		return Answer{}, problems
	}
	out, err := s.Run(a)
	if err != nil {
		return Answer{}, []Problem{s.problem(err)}
	}
	out.Name, out.Question, out.Source = s.Name, s.Question, s.Source
	out.Cautions = append(out.Cautions, s.Cautions...)
	return out, nil
}

// strangers names the keys that the sum does not ask for.
func (s Sum) strangers(values map[string]string) []Problem {
	var out []Problem
	for key, text := range values {
		if _, ok := s.Input(key); ok {
			continue
		}
		var keys []string
		for _, in := range s.Inputs {
			keys = append(keys, in.Key)
		}
		out = append(out, Problem{Key: key, Read: text, Says: "this sum does not ask for it. It asks for " + strings.Join(keys, ", ") + "."})
	}
	sort.Slice(out, func(i, k int) bool { return out[i].Key < out[k].Key })
	return out
}

// problem is an engine's or a sum's error as a problem.
func (s Sum) problem(err error) Problem {
	var p Problem
	if errors.As(err, &p) {
		return p
	}
	says := err.Error()
	if !strings.HasSuffix(says, "?") {
		says = strings.TrimSuffix(says, ".") + "."
	}
	return Problem{Says: says}
}

func read(in Input, text string, shop *catalog.Shop, shown bool) (Given, *Problem) {
	g := Given{Input: in, Typed: text, Mark: source.Typed}
	if text == "" && in.Default != "" {
		g.Typed, g.Mark = in.Default, in.Mark
	}
	if g.Typed == "" {
		if in.Optional {
			return g, nil
		}
		return g, &Problem{Key: in.Key, Label: in.Label, Says: "not given. " + wanted(in)}
	}
	if !in.Quantity() {
		if len(in.Choices) > 0 && !choice(in.Choices, &g.Typed) {
			return g, &Problem{Key: in.Key, Label: in.Label, Read: text, Says: fmt.Sprintf("%q is none of: %s.", text, strings.Join(in.Choices, ", ")), Answers: in.Choices}
		}
		g.OK = true
		return g, nil
	}
	v, p := parse(in, g.Typed, shop, shown)
	if p != nil {
		return g, p
	}
	half, typed := v.Half()
	if !typed {
		half = in.Width.Fixed + in.Width.Share*math.Abs(v.SI())
	}
	g.Number = finding.Number{Value: v.SI(), Half: half, Kind: v.Kind(), Unit: display(shop, in, v)}
	g.OK = true
	return g, nil
}

// wanted says what would fill an input.
func wanted(in Input) string {
	switch {
	case len(in.Choices) > 0:
		return "One of: " + strings.Join(in.Choices, ", ") + "."
	case in.Any:
		return "Any quantity with its unit, such as 3 bar."
	case in.Quantity() && in.Where != "":
		return "It is " + in.Kind.Words() + ", read so: " + in.Where + "."
	case in.Quantity():
		return "It is " + in.Kind.Words() + " such as " + in.Kind.Example() + "."
	}
	return in.Where + "."
}

func choice(list []string, text *string) bool {
	for _, c := range list {
		if strings.EqualFold(c, *text) {
			*text = c
			return true
		}
	}
	return false
}

func parse(in Input, text string, shop *catalog.Shop, shown bool) (quantity.Value, *Problem) {
	if in.Any {
		return parseAny(in, text)
	}
	box := quantity.Unit{}
	if shown {
		box = Box(shop, in)
	}
	v, err := quantity.ParseIn(in.Kind, text, box)
	if err != nil {
		p := &Problem{Key: in.Key, Label: in.Label, Read: text, Says: err.Error()}
		var q *quantity.Question
		if errors.As(err, &q) {
			p.Answers = q.Answers
		}
		return v, p
	}
	if x := v.In(in.Unit); in.Least != in.Most && (x < in.Least-1e-9*math.Abs(in.Least) || x > in.Most+1e-9*math.Abs(in.Most)) {
		lo, hi := in.Unit.ToSI(in.Least), in.Unit.ToSI(in.Most)
		u := display(shop, in, v)
		return v, &Problem{Key: in.Key, Label: in.Label, Read: text, Says: fmt.Sprintf("%s is outside %s to %s, what this sum can meet. Is the unit right?",
			v.Echo(), quantity.Format(in.Kind, lo, u, -1), quantity.Format(in.Kind, hi, u, -1))}
	}
	return v, nil
}

// Box is the unit that the box of an input shows in a shop.
func Box(shop *catalog.Shop, in Input) quantity.Unit {
	main := in.Kind.Main()
	if in.Unit == main {
		return shop.Unit(in.Kind)
	}
	return in.Unit
}

// display is the unit that a value is shown in: never the one typed, so that
// the same readings in other units give the same text.
func display(shop *catalog.Shop, in Input, v quantity.Value) quantity.Unit {
	if in.Any {
		return v.Unit()
	}
	return Box(shop, in)
}

// parseAny reads a quantity of whatever kind its unit says.
func parseAny(in Input, text string) (quantity.Value, *Problem) {
	var best error
	kinds := append([]quantity.Kind{quantity.KindTime, quantity.KindTorque}, quantity.Kinds()...) // minutes are mostly of an hour
	for _, k := range kinds {
		v, err := quantity.Parse(k, text)
		if err == nil && (k != quantity.KindRatio || strings.Contains(text, "%")) {
			return v, nil
		}
		var q *quantity.Question
		if errors.As(err, &q) && len(q.Answers) > 0 && len(q.Answers) < 4 && hasLetter(text) && best == nil {
			best = err
		}
	}
	p := &Problem{Key: in.Key, Label: in.Label, Read: text, Says: fmt.Sprintf("%q has no unit that is known. %s", text, wanted(in))}
	var q *quantity.Question
	if errors.As(best, &q) {
		p.Says, p.Answers = q.Error(), q.Answers
	}
	return quantity.Value{}, p
}

func hasLetter(s string) bool {
	return strings.ContainsFunc(s, func(r rune) bool { return r > '9' })
}

// Get is what was given under a key. A key that the sum does not declare is a
// fault of the program.
func (a *Args) Get(key string) Given {
	g, ok := a.given[key]
	if !ok {
		panic("sum: " + a.sum.Name + " has no input " + key)
	}
	return g
}

// Has tells that there is a value under a key.
func (a *Args) Has(key string) bool { return a.Get(key).OK }

// Text is what was typed under a key.
func (a *Args) Text(key string) string { return a.Get(key).Typed }

// refuse is a problem with one input.
func (a *Args) refuse(key, says string, answers ...string) error {
	g := a.Get(key)
	return Problem{Key: key, Label: g.Input.Label, Read: g.Typed, Says: says, Answers: answers}
}

// unit is the unit in which the shop shows a kind.
func (a *Args) unit(kind quantity.Kind) quantity.Unit { return a.shop.Unit(kind) }

// fact is a value that was not typed and carries its own doubt: a model's
// spread, a share that two readings have in common.
func fact(symbol, label string, n finding.Number, mark source.Mark) Given {
	return Given{Number: n, Mark: mark, OK: true, Input: Input{Symbol: symbol, Label: label, Kind: n.Kind, Unit: n.Unit}}
}

// warmer is the step that stands for five per cent more in a temperature,
// where five per cent of the absolute value would say nothing [K].
const warmer = 5

// work runs a calculation on inputs that are all there, carries their doubts
// through it linearly and writes the terms and effects of its working.
func (a *Args) work(kind quantity.Kind, u quantity.Unit, f doubt.Func, in ...Given) (finding.Number, *finding.Working, error) {
	x, at := make([]doubt.Input, len(in)), make([]float64, len(in))
	for i, g := range in {
		x[i], at[i] = doubt.Input{Value: g.Value, Half: g.Half}, g.Value
	}
	if _, err := f(at); err != nil {
		return finding.Number{}, nil, err // the engine's own words
	}
	r, err := doubt.Linear(f, x)
	if err != nil {
		return finding.Number{}, nil, err
	}
	if a.watch != nil {
		a.watch(f, x, r)
	}
	n := finding.Number{Value: r.Value, Half: r.Half, Kind: kind, Unit: u}
	w := &finding.Working{Doubt: "linear"}
	for i, g := range in {
		w.Terms = append(w.Terms, finding.Term{Symbol: g.Input.Symbol, Name: g.Input.Label, Value: g.Number, Mark: g.Mark, Path: g.Input.Key, Share: r.Shares[i]})
		name, d := g.Input.Label, r.PlusFive[i]
		if g.Kind == quantity.KindTemperature || g.Kind == quantity.KindTemperatureDifference {
			moved := append([]float64(nil), at...)
			moved[i] += warmer
			name, d = name+" (5 K more)", math.NaN()
			if y, err := f(moved); err == nil {
				d = y - r.Value
			}
		}
		if !math.IsNaN(d) && !math.IsInf(d, 0) && d != 0 && r.Value != 0 {
			w.Effects = append(w.Effects, finding.Effect{Name: name, Percent: 100 * d / math.Abs(r.Value), Change: finding.Number{Value: d, Kind: kind, Unit: u}, Doubt: math.Abs(100 * r.Effects[i] / r.Value)})
		}
	}
	return n, w, nil
}

// all takes several inputs at once.
func (a *Args) all(keys ...string) []Given {
	out := make([]Given, len(keys))
	for i, k := range keys {
		out[i] = a.Get(k)
	}
	return out
}
