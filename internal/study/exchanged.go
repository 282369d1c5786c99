package study

import (
	"fmt"
	"math"
	"strings"

	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/quantity"
	"jounce/stance"
)

// four is a reading that is taken at all four corners. The thresholds, in the
// unit it is shown in, are common practice: they only raise a question.
type four struct {
	leaf, label string
	kind        quantity.Kind
	unit        string
	per         float64 // of SI in one of unit [1]
	noise       float64 // what it may change by between two readings, in unit [1]
	alone       float64 // least difference on an axle that says anything, in unit [1]
	together    float64 // least residual that says anything, in unit; below 1 a share of the sum [1]
	digits      int
}

var fours = []four{
	{"weight", "Corner weights", quantity.KindMass, "kg", 1, 8, 8, 0.03, 0},
	{"hubToArch", "Hub to arch", quantity.KindLength, "mm", 0.001, 6, 5, 12, 0},
	{"groundToBody", "Ground to body", quantity.KindLength, "mm", 0.001, 6, 4, 8, 0},
	{"pressure", "Spring pressures", quantity.KindPressure, "bar", 1e5, 0.3, 0.2, 0.5, 2},
}

func (f four) path(corner int) string { return "corners." + CornerNames[corner] + "." + f.leaf }

// of reads the four, in f's unit; false where one is missing or cannot be used.
func (f four) of(j *job.Job) (v [4]float64, ok bool) {
	for i := range v {
		at, err := j.Field(f.path(i), false)
		if err != nil {
			return v, false
		}
		q, err := job.Parse(f.kind, at.Content())
		if err != nil || q.IsZero() || q.SI() <= 0 {
			return v, false
		}
		v[i] = q.SI() / f.per
	}
	return v, true
}

// words are four readings as they are said: "FL 276, FR 276, RL 234, RR 234 kg".
func (f four) words(v [4]float64) string {
	parts := make([]string, 4)
	for i, x := range v {
		parts[i] = fmt.Sprintf("%s %.*f", CornerNames[i], f.digits, x)
	}
	return strings.Join(parts, ", ") + " " + f.unit
}

// changed is the first of the four places that two records differ in.
func (f four) changed(before, now *job.Job) (string, bool) {
	for i := range 4 {
		a, err1 := before.Field(f.path(i), false)
		b, err2 := now.Field(f.path(i), false)
		if err1 == nil && err2 == nil && strings.TrimSpace(a.Content()) != strings.TrimSpace(b.Content()) {
			return f.path(i), true
		}
	}
	return "", false
}

// swap is the answer that two pairs, or one, were written in each other's place.
func (f four) swap(words string, corners ...int) job.Swap {
	s := job.Swap{Words: words}
	for i := 0; i+1 < len(corners); i += 2 {
		s.Pairs = append(s.Pairs, [2]string{f.path(corners[i]), f.path(corners[i+1])})
	}
	return s
}

// Exchanged asks about readings of the four corners that look as if written in
// each other's place: held against an earlier state of the record, with front and
// rear, left and right or the diagonals exchanged; by themselves, with the two of
// one axle exchanged; and about a driver who made the other side heavier. Only
// what now differs from before is asked about. It is a question, never a
// correction.
func Exchanged(before, now *job.Job) []job.Problem {
	var out []job.Problem
	for _, f := range fours {
		at, ok := f.changed(before, now)
		if !ok {
			continue
		}
		if p, ok := f.exchanged(before, now); ok {
			p.Path, p.Label = at, f.label
			out = append(out, p)
		}
	}
	return out
}

func (f four) exchanged(before, now *job.Job) (job.Problem, bool) {
	b, ok := f.of(now)
	if !ok {
		return job.Problem{}, false
	}
	sides := f.swap("Left and right were exchanged", FL, FR, RL, RR)
	p := job.Problem{Read: f.words(b)}
	if a, ok := f.of(before); ok {
		if f.kind == quantity.KindMass && before.Survey.Driver == "out" && now.Survey.Driver == "in" && now.Survey.DriverSide != "" {
			p.Says, p.Swaps = "The driver's side went lighter with the driver in. Left and right look exchanged. Were they?", []job.Swap{sides}
			return p, wrongSide(a, b, now.Survey.DriverSide == "left")
		}
		answer := map[stance.Exchange]job.Swap{stance.LeftRight: sides,
			stance.FrontRear: f.swap("Front and rear were exchanged", FL, RL, FR, RR),
			stance.Diagonals: f.swap("The diagonals were exchanged", FL, RR, FR, RL)}
		if x := stance.Exchanged(a, b, f.noise).Looks; x != stance.NoExchange {
			p.Says, p.Swaps = fmt.Sprintf("It was %s before: %s. Were they?", f.words(a), x), []job.Swap{answer[x]}
			return p, true
		}
	}
	together := f.together
	if together < 1 && f.kind == quantity.KindMass {
		together *= b[0] + b[1] + b[2] + b[3]
	}
	c := stance.LooksCrossed(b, f.alone, together)
	side := map[bool]string{true: "left", false: "right"}
	p.Says = fmt.Sprintf("In front the %s reads %.*f more, behind the %s reads %.*f more. With the two of one axle exchanged all would lie straight. Were they exchanged?",
		side[c.Fronts > 0], f.digits, math.Abs(c.Fronts), side[c.Rears > 0], f.digits, math.Abs(c.Rears))
	p.Swaps = []job.Swap{f.swap("FL and FR were exchanged", FL, FR), f.swap("RL and RR were exchanged", RL, RR)}
	return p, c.Looks
}

// wrongSide tells that the other side than the driver's grew with the driver in.
func wrongSide(out, in [4]float64, left bool) bool {
	var a, b stance.Corners
	for i := range a {
		a[i] = stance.Mass{Value: out[i], Half: pads.abs, From: stance.Read}
		b[i] = stance.Mass{Value: in[i], Half: pads.abs, From: stance.Read}
	}
	d, err := stance.CheckDriver(a, b, left)
	return err == nil && d.Looks == stance.LeftRight
}

// Warped asks about four heights over the floor that no stiff body can have, when
// one of them changed: the finding on the plane says so, and the question is
// which was misread. Where they look exchanged instead, Exchanged asks.
func Warped(before, now *job.Job, res *Result) []job.Problem {
	f := fours[2]
	at, ok := f.changed(before, now)
	if !ok {
		return nil
	}
	for _, g := range res.Findings {
		if g.ID != "plane.residual" || g.Verdict != finding.Fail {
			continue
		}
		v, _ := f.of(now)
		return []job.Problem{{Path: at, Label: f.label, Read: f.words(v),
			Says: fmt.Sprintf("No straight body on a level floor stands so: FL − FR − RL + RR is %s, expected %s. %s %s Which was misread?", g.Value, rulesOf(g.Limits), g.Why, firstSentence(g.Least))}}
	}
	return nil
}

// rulesOf are limits in words.
func rulesOf(list []finding.Limit) string {
	var words []string
	for _, l := range list {
		words = append(words, l.Rule())
	}
	return strings.Join(words, ", ")
}

func lower(s string) string { return string(s[0]|0x20) + s[1:] }

func firstSentence(s string) string {
	head, _, _ := strings.Cut(s, ". ")
	return strings.TrimSuffix(head, ".") + "."
}
