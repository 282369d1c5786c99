package study

import (
	"sort"
	"strings"

	"jounce/internal/finding"
)

// Turn is one finding as two states of a record have it.
type Turn struct {
	Before, After *finding.Finding // nil where the state does not have it
}

// Turned compares the findings of two states by their ids: those whose verdict,
// grade, number or signature differ. Turned verdicts come first, those that
// weigh most before the others; then findings that are new or gone; then numbers
// that moved without turning a verdict.
func Turned(before, after []finding.Finding) []Turn {
	was := map[string]*finding.Finding{}
	b, a := keys(before), keys(after)
	for i, k := range b {
		was[k] = &before[i]
	}
	var out []Turn
	for i, k := range a {
		old, now := was[k], &after[i]
		delete(was, k)
		if old == nil || differs(old, now) {
			out = append(out, Turn{old, now})
		}
	}
	for _, k := range b {
		if was[k] != nil {
			out = append(out, Turn{Before: was[k]})
		}
	}
	sort.SliceStable(out, func(i, k int) bool { return out[i].rank() < out[k].rank() })
	return out
}

// keys are the ids of findings; one that stands twice has its number behind it.
func keys(list []finding.Finding) []string {
	out := make([]string, len(list))
	seen := map[string]int{}
	for i, f := range list {
		seen[f.ID]++
		out[i] = f.ID + strings.Repeat("+", seen[f.ID]-1)
	}
	return out
}

func differs(a, b *finding.Finding) bool {
	return a.Verdict != b.Verdict || a.Verdict != finding.Pass && a.Grade != b.Grade || shownAs(a) != shownAs(b) ||
		a.NotEvidence != b.NotEvidence || (a.Signed == nil) != (b.Signed == nil)
}

// shownAs is what stands for the finding's number; empty where nothing does.
func shownAs(f *finding.Finding) string {
	if f.Value.Known() {
		return f.Value.String()
	}
	return f.Shown
}

func (t Turn) rank() int {
	switch {
	case t.Before == nil || t.After == nil:
		return 2
	case t.Before.Verdict == t.After.Verdict:
		return 3
	case t.Before.Verdict == finding.Fail || t.After.Verdict == finding.Fail:
		return 0
	}
	return 1
}

// Now is the finding as it is, or as it was where it is gone.
func (t Turn) Now() finding.Finding {
	if t.After != nil {
		return *t.After
	}
	return *t.Before
}

// Verdict is what became of the verdict: "fail → pass", "pass", "new: fail",
// "gone, was pass".
func (t Turn) Verdict() string {
	switch {
	case t.Before == nil:
		return "new: " + verdictOf(t.After)
	case t.After == nil:
		return "gone, was " + verdictOf(t.Before)
	case t.Before.Verdict == t.After.Verdict:
		return verdictOf(t.After)
	}
	return verdictOf(t.Before) + " → " + verdictOf(t.After)
}

func verdictOf(f *finding.Finding) string { return strings.ToLower(f.Verdict.String()) }

// Number is what became of the number: "44 → 61 mm"; empty where there is none.
func (t Turn) Number() string {
	if t.Before == nil || t.After == nil {
		f := t.Now()
		return shownAs(&f)
	}
	was, is := shownAs(t.Before), shownAs(t.After)
	switch {
	case was == is:
		return is
	case was == "":
		return is
	case is == "":
		return was + " → not known"
	}
	if unit := t.Before.Value.Unit; t.Before.Value.Known() && t.After.Value.Known() && unit == t.After.Value.Unit {
		was = strings.TrimRight(strings.TrimSuffix(was, unit.String()), " \u00a0\u202f")
	}
	return was + " → " + is
}

// Said are the signatures and instruments that differ: "signed by A. Quill".
func (t Turn) Said() string {
	if t.Before == nil || t.After == nil {
		return ""
	}
	var out []string
	switch a, b := t.Before.Signed, t.After.Signed; {
	case a == nil && b != nil:
		out = append(out, "signed by "+b.Who)
	case a != nil && b == nil:
		out = append(out, "no longer signed by "+a.Who)
	}
	switch a, b := t.Before.NotEvidence, t.After.NotEvidence; {
	case a != b && b == "":
		out = append(out, "now evidence")
	case a != b:
		out = append(out, "not evidence: "+b)
	}
	return strings.Join(out, "; ")
}
