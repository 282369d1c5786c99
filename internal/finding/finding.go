// Package finding is the common tongue of judgement: a claim about the car, the
// number it rests on with its doubt, the limit it is held against, the verdict,
// and the working that leads there. Engines do not know it; pages and papers
// know nothing else.
package finding

import (
	"encoding/json"
	"math"

	"jounce/quantity"
	"jounce/source"
)

// Verdict is one of four answers.
type Verdict int

// The four verdicts, in the order in which they are listed.
const (
	Fail     Verdict = iota // the best likely value fails
	TooClose                // the likely values lie on both sides of the limit
	NotKnown                // something that the verdict needs is not read
	Pass                    // the worst likely value passes
)

var verdictWords = [...]string{"Fail", "Too close to call", "Not enough known", "Pass"}
var verdictKeys = [...]string{"fail", "close", "unknown", "pass"}

// String is the verdict in words, as it stands on a page.
func (v Verdict) String() string { return verdictWords[v] }

// Key is a short word for files, classes and figures.
func (v Verdict) Key() string { return verdictKeys[v] }

// MarshalText writes the key.
func (v Verdict) MarshalText() ([]byte, error) { return []byte(v.Key()), nil }

// Grade is what a limit does to the work when it is not passed.
type Grade int

// The grades of a limit.
const (
	Note       Grade = iota // is worth knowing
	OwnerSigns              // may be accepted with a written reason that prints
	Stops                   // work behind it is locked; nobody signs it away
)

var gradeWords = [...]string{"Note", "Owner signs", "Stops the work"}
var gradeKeys = [...]string{"note", "owner signs", "stops"}

// String is the grade in words: "Stops the work".
func (g Grade) String() string { return gradeWords[g] }

// Key is the grade as files write it.
func (g Grade) Key() string { return gradeKeys[g] }

// MarshalText writes the key.
func (g Grade) MarshalText() ([]byte, error) { return []byte(g.Key()), nil }

// GradeOf finds a grade by its key.
func GradeOf(key string) (Grade, bool) {
	for i, k := range gradeKeys {
		if k == key {
			return Grade(i), true
		}
	}
	return Note, false
}

// Limit is one line of a shop's list: a bound on one side, its grade and where
// it is from.
type Limit struct {
	Key    string        `json:"key"`   // "spring.pressure.road.least"
	Name   string        `json:"name"`  // "Spring pressure at ROAD"
	Below  bool          `json:"below"` // true: a value below fails; false: a value above fails
	Kind   quantity.Kind `json:"-"`
	Value  float64       `json:"-"` // [SI of Kind]
	Unit   quantity.Unit `json:"-"` // to write it in
	Grade  Grade         `json:"grade"`
	Source source.Mark   `json:"source"`
	Note   string        `json:"note,omitempty"` // why the shop changed it
}

// Rule is the limit in words: "at least 2.5 bar".
func (l Limit) Rule() string {
	if l.Below {
		return "at least " + l.Text()
	}
	return "no more than " + l.Text()
}

// Text is the bound with its unit.
func (l Limit) Text() string { return Exact(l.Kind, l.Value, l.Unit) }

// Exact writes a value that somebody set, with no more decimals than it has:
// "2.5 bar", "110 mm". A value that was worked out is a [Number].
func Exact(kind quantity.Kind, si float64, unit quantity.Unit) string {
	x := unit.FromSI(si)
	for digits, p := 0, 1.0; digits < 6; digits, p = digits+1, p*10 {
		if math.Abs(math.Round(x*p)/p-x) < 1e-9*math.Max(1, math.Abs(x)) {
			return quantity.Format(kind, si, unit, digits)
		}
	}
	return quantity.Format(kind, si, unit, -1)
}

// MarshalJSON writes the limit with its rule in words.
func (l Limit) MarshalJSON() ([]byte, error) {
	type bare Limit
	return json.Marshal(struct {
		bare
		Rule string `json:"rule"`
	}{bare(l), l.Rule()})
}

// Number is a value with its doubt.
type Number struct {
	Value float64       // [SI of Kind]
	Half  float64       // 95 % half-width [SI of Kind]; 0 where no doubt matters
	Kind  quantity.Kind // what it measures
	Unit  quantity.Unit // to show it in
}

// Of makes a number shown in the unit of the given name. An unknown name is a
// fault of the program.
func Of(kind quantity.Kind, unit string, value, half float64) Number {
	u, ok := quantity.UnitOf(kind, unit)
	if !ok {
		panic("finding: no unit " + unit + " of " + kind.String())
	}
	return Number{Value: value, Half: half, Kind: kind, Unit: u}
}

// Known tells that there is a value.
func (n Number) Known() bool { return n.Kind != quantity.KindNone && !math.IsNaN(n.Value) }

// String is the number with its doubt and unit: "3.5 ± 0.2 bar".
func (n Number) String() string {
	if !n.Known() {
		return "not known"
	}
	return quantity.FormatWith(n.Kind, settled(n.Value), n.Half, n.Unit)
}

// settled rounds away what differs between the same reading typed in two units,
// nine figures behind the first, so that a tie prints the same digit.
func settled(x float64) float64 {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return x
	}
	scale := math.Pow(10, 8-math.Floor(math.Log10(math.Abs(x))))
	if math.IsInf(scale, 0) || scale == 0 {
		return x
	}
	return math.Round(x*scale) / scale
}

// MarshalText writes what String says.
func (n Number) MarshalText() ([]byte, error) { return []byte(n.String()), nil }

// Worst is the likely value nearest the wrong side of a limit [SI].
func (n Number) Worst(l Limit) float64 {
	if l.Below {
		return n.Value - n.Half
	}
	return n.Value + n.Half
}

// Best is the likely value farthest on the right side of a limit [SI].
func (n Number) Best(l Limit) float64 {
	if l.Below {
		return n.Value + n.Half
	}
	return n.Value - n.Half
}

// Compare holds a number against a limit: pass only if the worst likely value
// passes, fail only if the best likely value fails. A value on the limit
// passes.
func Compare(n Number, l Limit) Verdict {
	if !n.Known() {
		return NotKnown
	}
	slack := 1e-12 * math.Max(math.Abs(l.Value), math.Abs(n.Value)) // a sum that is equal on paper
	fails := func(x float64) bool {
		if l.Below {
			return x < l.Value-slack
		}
		return x > l.Value+slack
	}
	switch worst, best := fails(n.Worst(l)), fails(n.Best(l)); {
	case !worst:
		return Pass
	case best:
		return Fail
	}
	return TooClose
}

// Gap is something that is not recorded and that a verdict needs.
type Gap struct {
	Path    string   `json:"path"`    // the place in the record
	Label   string   `json:"label"`   // its words
	Why     string   `json:"why"`     // what it would give
	Settles []string `json:"settles"` // ids of the findings that wait for it
}

// Finding is one claim about the car.
type Finding struct {
	ID          string      `json:"id"`              // stable: "front.pressure"
	Topic       string      `json:"topic"`           // "springs", "travel", "weights", "tyres", "heights", "touch", "ways", "leak", "record"
	Claim       string      `json:"claim"`           // one plain sentence
	Value       Number      `json:"value"`           // the number it rests on
	Shown       string      `json:"shown,omitempty"` // what stands for the number where it is none: "2 to read"
	Verdict     Verdict     `json:"verdict"`
	Grade       Grade       `json:"grade"` // of the limit that decided
	Limits      []Limit     `json:"limits,omitempty"`
	Why         string      `json:"why,omitempty"`      // what it means, what is wanted
	Least       string      `json:"least,omitempty"`    // the least change that would turn it
	Settle      string      `json:"settle,omitempty"`   // the one reading that would settle it
	SettleAt    string      `json:"settleAt,omitempty"` // its place in the record
	Source      source.Mark `json:"source"`
	Place       string      `json:"place,omitempty"` // "FL", "front", "tank"
	Needs       []Gap       `json:"needs,omitempty"`
	Working     *Working    `json:"working,omitempty"`
	Signed      *Signed     `json:"signed,omitempty"`
	NotEvidence string      `json:"notEvidence,omitempty"` // why the reading is no evidence: "gauge 7 was due on …"
}

// Signed is an acceptance of a finding that the owner signs for.
type Signed struct {
	Who    string `json:"who"`
	Reason string `json:"reason"`
	At     string `json:"at,omitempty"`
}

// Holds tells that work behind the finding is locked. A pass that rests on an
// instrument out of its check is no evidence and opens nothing that stops.
func (f Finding) Holds() bool {
	if f.Verdict == Pass {
		return f.NotEvidence != "" && f.Grade == Stops
	}
	switch f.Grade {
	case Stops:
		return true
	case OwnerSigns:
		return f.Signed == nil && f.Verdict != NotKnown
	}
	return false
}

// Judge holds the finding's number against limits, the gravest first, and keeps
// the verdict that weighs most: a fail of a limit that stops before one that the
// owner signs for; then what is too close in the same order; then a pass.
func (f *Finding) Judge(limits ...Limit) {
	f.Limits = limits
	f.Verdict, f.Source = Pass, source.Calc
	for i, l := range limits {
		v := Compare(f.Value, l)
		if i == 0 || heavier(v, l.Grade, f.Verdict, f.Grade) {
			f.Verdict, f.Grade, f.Source = v, l.Grade, l.Source
		}
	}
}

func heavier(v Verdict, g Grade, than Verdict, thanG Grade) bool {
	if (v == Pass) != (than == Pass) {
		return than == Pass
	}
	if g != thanG && v != Pass {
		return g > thanG
	}
	return v < than
}

// Decided is the limit that gave the verdict, if one did.
func (f Finding) Decided() (Limit, bool) {
	for _, l := range f.Limits {
		if l.Grade == f.Grade && Compare(f.Value, l) == f.Verdict {
			return l, true
		}
	}
	return Limit{}, false
}

// Tally counts findings by verdict: fail, too close, not known, pass.
type Tally [4]int

// Count makes the tally of a list.
func Count(list []Finding) Tally {
	var t Tally
	for _, f := range list {
		t[f.Verdict]++
	}
	return t
}
