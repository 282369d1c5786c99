// Package sum holds the quick sums: one question as it is asked in the bay,
// typed quantities in, the answer with its working out, and no job needed.
//
// Each sum stands in a file of its own and describes itself: what it asks for,
// with kinds, units and plausible ranges, what it answers, where it is from and
// an example. A sum writes no formula of its own: it calls an engine, carries
// the doubt of what was typed through it and says what the number means.
// Nothing is assumed: what is missing is named, a default is shown with its
// mark, and what is typed may be questioned.
package sum

import (
	"sort"
	"strings"

	"jounce/quantity"
	"jounce/source"
)

// Width is the doubt that a reading has when none was typed: the sum of a fixed
// part and a share of the value.
type Width struct {
	Fixed float64 // 95 % half-width [SI of the input's kind]
	Share float64 // 95 % half-width over the value [1]
}

// Input is one thing that a sum asks for.
type Input struct {
	Key      string        // as typed on the command line: "volume"
	Symbol   string        // in the working: "V"
	Label    string        // beside its box: "Air in the tank"
	Where    string        // where it is read
	Kind     quantity.Kind // KindNone for a text, a choice, or a quantity of any kind
	Unit     quantity.Unit // shown in its box
	Least    float64       // below is questioned [Unit]
	Most     float64       // above is questioned; both zero where nothing is [Unit]
	Default  string        // what stands there when nothing is typed
	Mark     source.Mark   // where the default is from
	Optional bool          // the sum answers without it
	Any      bool          // a quantity of any kind
	Choices  []string      // one of these
	Width    Width         // doubt when none is typed
}

// Quantity tells that the input is a value with a unit.
func (i Input) Quantity() bool { return i.Any || i.Kind != quantity.KindNone }

// Output is one number that a sum answers.
type Output struct {
	Symbol string
	Label  string
	Kind   quantity.Kind
}

// Sum is one question with all that is needed to ask it.
type Sum struct {
	Name     string            // on the command line and in an address: "leak"
	Question string            // as asked in the bay
	Group    string            // one of Groups
	Words    []string          // further words that find it: slang, units, parts
	Inputs   []Input           // in the order of asking
	Outputs  []Output          // the first is the answer
	Source   []source.Mark     // whose formulas and rules
	Example  map[string]string // values that it runs with
	Cautions []string          // where the person stands
	Run      func(a *Args) (Answer, error)
}

// The groups of questions, in the trade's words.
const (
	Touch     = "Will it touch?"
	Springs   = "On the springs"
	Air       = "Air"
	Wheels    = "Wheels and steering"
	Measuring = "Measuring"
)

// Groups is the order in which the groups are listed.
var Groups = []string{Touch, Springs, Air, Wheels, Measuring}

// Input finds an input by its key.
func (s Sum) Input(key string) (Input, bool) {
	for _, i := range s.Inputs {
		if i.Key == key {
			return i, true
		}
	}
	return Input{}, false
}

// All lists every sum, group by group.
func All() []Sum {
	var out []Sum
	for _, g := range Groups {
		for _, s := range list {
			if s.Group == g {
				out = append(out, s)
			}
		}
	}
	return out
}

// Find is the sum of a name.
func Find(name string) (Sum, bool) {
	for _, s := range list {
		if s.Name == name {
			return s, true
		}
	}
	return Sum{}, false
}

// Search lists the sums that all the words fit, the best first: the question
// counts most, then the words and units it knows, then its inputs. No words
// list all.
func Search(words string) []Sum {
	asked := strings.Fields(strings.ToLower(words))
	if len(asked) == 0 {
		return All()
	}
	type hit struct {
		s     Sum
		score int
	}
	var hits []hit
	for _, s := range All() {
		score, fits := 0, true
		for _, w := range asked {
			n := s.fits(w)
			score, fits = score+n, fits && n > 0
		}
		if fits {
			hits = append(hits, hit{s, score})
		}
	}
	sort.SliceStable(hits, func(i, k int) bool { return hits[i].score > hits[k].score })
	out := make([]Sum, len(hits))
	for i, h := range hits {
		out[i] = h.s
	}
	return out
}

// fits is how well one word fits a sum: 0 not at all.
func (s Sum) fits(word string) int {
	score := 0
	if strings.Contains(strings.ToLower(s.Question), word) || strings.Contains(s.Name, word) {
		score += 8
	}
	for _, w := range s.Words {
		switch w = strings.ToLower(w); {
		case w == word:
			score += 6
		case len(word) > 2 && strings.Contains(w, word):
			score += 3
		}
	}
	for _, i := range s.Inputs {
		if len(word) > 2 && strings.Contains(strings.ToLower(i.Label), word) {
			score++
		}
		for _, u := range i.Kind.Units() {
			if strings.ToLower(u.Name()) == word {
				score++
			}
		}
	}
	return score
}

// unit is a unit by kind and name. An unknown name is a fault of the program.
func unit(kind quantity.Kind, name string) quantity.Unit {
	u, ok := quantity.UnitOf(kind, name)
	if !ok {
		panic("sum: no unit " + name + " of " + kind.String())
	}
	return u
}

// of completes an input with its kind, the unit of its box and its plausible
// range in that unit.
func of(kind quantity.Kind, name string, least, most float64, in Input) Input {
	in.Kind, in.Unit, in.Least, in.Most = kind, unit(kind, name), least, most
	return in
}

// The doubts of readings for which nothing better is typed.
var (
	tape        = Width{Fixed: 0.002} // steel tape [m]
	pads        = Width{Fixed: 1}     // corner scales [kg]
	hanging     = Width{Fixed: 8}     // unsprung mass, guessed [kg]
	digital     = Width{Fixed: 4000}  // digital gauge, 0.25 % of 16 bar [Pa]
	thermometer = Width{Fixed: 0.5}   // [K]
	glass       = Width{Fixed: 2000}  // barometer not read on the day [Pa]
	ratio       = Width{Share: 0.01}  // spring ratio by tape
	area        = Width{Share: 0.04}  // from a maker's line
	volume      = Width{Share: 0.05}
	catalogue   = Width{Share: 0.15} // sonic conductance from a catalogue
)
