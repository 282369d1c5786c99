package catalog

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"jounce/internal/finding"
	"jounce/quantity"
)

// Topic is a part of the list of limits that is read together.
type Topic struct {
	Title  string
	Limits []finding.Limit
}

// topics sorts keys by their first word; the rest stand under the last title.
var topics = []struct {
	title string
	words []string
}{
	{"Spring pressure", []string{"spring", "mount"}},
	{"Travel", []string{"travel"}},
	{"Ride", []string{"ride"}},
	{"Weights and the plane of the heights", []string{"weight", "plane"}},
	{"Leak tests", []string{"leak"}},
	{"Air supply and relief valve", []string{"relief", "tank", "ladder", "air"}},
	{"Over the floor", []string{"ground", "scrub"}},
	{"Room round the springs and tyres", []string{"room", "clear", "clearance"}},
	{"Humps, kerbs and driveways", []string{"way"}},
	{"Wheels, arms and shafts", []string{"camber", "toe", "shaft", "link", "panhard", "arm", "geometry"}},
	{"Brakes", []string{"brake", "hose"}},
	{"Lamps", []string{"lamp"}},
	{"Tyres", []string{"tyre"}},
	{"Everything else", nil},
}

// ByTopic is the whole list as the shop has it, sorted into topics. Within a
// topic the list keeps its order.
func (s *Shop) ByTopic() []Topic {
	in := make([]Topic, len(topics))
	place := map[string]int{}
	for i, t := range topics {
		in[i].Title = t.title
		for _, w := range t.words {
			place[w] = i
		}
	}
	for _, l := range s.Limits() {
		word, _, _ := strings.Cut(l.Key, ".")
		i, ok := place[word]
		if !ok {
			i = len(topics) - 1
		}
		in[i].Limits = append(in[i].Limits, l)
	}
	var out []Topic
	for _, t := range in {
		if len(t.Limits) > 0 {
			out = append(out, t)
		}
	}
	return out
}

// Start is the limit that every shop starts with; false for an unknown key.
func Start(key string) (finding.Limit, bool) {
	l, ok := byKey[key]
	return l, ok
}

// StartText is the bound of that limit as it is typed: "60 mm".
func StartText(key string) string { return texts[key] }

// Change is what the shop has changed in a limit; false when it is as it started.
func (s *Shop) Change(key string) (LimitChange, bool) {
	for _, c := range s.Changes {
		if c.ID == key {
			return c, true
		}
	}
	return LimitChange{}, false
}

// farOff is how many times the bound that the list starts with a bound may be,
// up or down, before it is taken for a slip of the unit.
const farOff = 10

// ReadLimit reads a bound typed for a limit into a box that shows a unit; the
// zero unit shows none. The text it returns is the bound with its unit. Errors
// are those of quantity.ParseIn, or a *quantity.Problem for a bound that no
// limit can have: a doubt, below nothing, more than ten times off where the list
// starts.
func ReadLimit(key, text string, shown quantity.Unit) (quantity.Value, string, error) {
	l, ok := byKey[key]
	if !ok {
		return quantity.Value{}, "", fmt.Errorf("there is no limit %q", key)
	}
	v, err := quantity.ParseIn(l.Kind, text, shown)
	if err != nil {
		return v, "", err
	}
	fault := func(says, fix string) error {
		return &quantity.Problem{Read: strings.TrimSpace(text), Expected: "a bound such as " + texts[key], Fault: says, Fix: fix}
	}
	if _, doubt := v.Half(); doubt {
		return v, "", fault("a limit is one value, without ± or range", "Type one value such as "+texts[key]+".")
	}
	if v.SI() < 0 {
		return v, "", fault("a limit below nothing was read", "Type a value from 0 up, such as "+texts[key]+".")
	}
	if lo, hi := l.Value/farOff, l.Value*farOff; l.Value > 0 && (v.SI() < lo || v.SI() > hi) {
		return v, "", fault(fmt.Sprintf("it is more than %d times off %s, where the list starts", farOff, texts[key]),
			fmt.Sprintf("Type a value from %s to %s, or look at the unit.", plain(l, lo), plain(l, hi)))
	}
	if typed, err := quantity.Parse(l.Kind, text); err == nil && typed == v {
		return v, strings.TrimSpace(text), nil
	}
	return v, strings.NewReplacer("\u00a0", " ", "\u202f", " ").Replace(v.Echo()), nil
}

// plain is a bound of a limit in its unit, without rounding what counts.
func plain(l finding.Limit, si float64) string {
	return strings.TrimSpace(strconv.FormatFloat(l.Unit.FromSI(si), 'g', 6, 64) + " " + l.Unit.String())
}

// Bound is the rule of a limit as the shop has typed it: "no more than 2.75 %".
func (s *Shop) Bound(key string) string {
	c, _ := s.Change(key)
	if c.Value != "" {
		return ruleOf(key) + c.Value
	}
	return StartBound(key)
}

// StartBound is the rule that the list starts with, as it is typed.
func StartBound(key string) string { return ruleOf(key) + texts[key] }

func ruleOf(key string) string {
	if byKey[key].Below {
		return "at least "
	}
	return "no more than "
}

// Crossed is a limit whose bound leaves nothing that could pass.
type Crossed struct {
	Key  string // of the limit with the least bound
	Says string
}

// Crossed lists the limits of one name whose least bound stands above a most
// bound.
func (s *Shop) Crossed() []Crossed {
	var out []Crossed
	all := s.Limits()
	for _, least := range all {
		for _, most := range all {
			if least.Below && !most.Below && least.Name == most.Name && least.Value > most.Value {
				out = append(out, Crossed{least.Key, fmt.Sprintf("%s: %s and %s; nothing passes both", least.Name, s.Bound(least.Key), s.Bound(most.Key))})
			}
		}
	}
	return out
}

// Units that a shop may have things shown in, the first one when it says none.
var (
	PressureUnits = []string{"bar", "psi"}
	LengthUnits   = []string{"mm", "in"}
	MassUnits     = []string{"kg", "lb"}
)

// Bounds of the aspect that a tyre with none marked may be given [%].
const (
	LeastFullWidth = 50.0  // [%]
	MostFullWidth  = 100.0 // [%]
	UsualFullWidth = 82.0  // [%] what an unset aspect counts as (S19)
)

func (s *Shop) checkDisplay() error {
	for _, u := range []struct {
		name, is string
		of       []string
	}{{"pressure", s.Pressure, PressureUnits}, {"length", s.Length, LengthUnits}, {"mass", s.Mass, MassUnits}} {
		if u.is != "" && u.is != u.of[0] && u.is != u.of[1] {
			return fmt.Errorf("unit of %s: read %q, expected %s or %s", u.name, u.is, u.of[0], u.of[1])
		}
	}
	if f := s.FullWidth; f != 0 && !(f >= LeastFullWidth && f <= MostFullWidth) {
		return fmt.Errorf("aspect of a tyre with none marked: read %g %%, expected %g to %g %%", f, LeastFullWidth, MostFullWidth)
	}
	return nil
}

func (c LimitChange) check(l finding.Limit) error {
	if c.Value != "" {
		if _, _, err := ReadLimit(c.ID, c.Value, quantity.Unit{}); err != nil {
			return fmt.Errorf("%s: %w", l.Name, err)
		}
	}
	if _, ok := finding.GradeOf(c.Grade); c.Grade != "" && !ok {
		return fmt.Errorf("%s: read the grade %q, expected note, owner signs or stops", l.Name, c.Grade)
	}
	if strings.TrimSpace(c.Note) == "" {
		return errors.New(l.Name + ": a changed limit needs a note that says why")
	}
	return nil
}
