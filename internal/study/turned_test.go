package study_test

import (
	"strings"
	"testing"

	"jounce/internal/finding"
	"jounce/internal/study"
	"jounce/quantity"
)

func TestExactTurned(t *testing.T) {
	mm := func(x float64) finding.Number { return finding.Of(quantity.KindLength, "mm", x/1000, 0.006) }
	old := []finding.Finding{
		{ID: "same", Verdict: finding.Fail, Value: mm(10)},
		{ID: "moved", Verdict: finding.Pass, Value: mm(100)},
		{ID: "turned", Verdict: finding.Fail, Value: mm(44)},
		{ID: "closer", Verdict: finding.NotKnown, Shown: "2 to read"},
		{ID: "gone", Verdict: finding.TooClose, Value: mm(5)},
		{ID: "signed", Verdict: finding.Fail, Grade: finding.OwnerSigns},
	}
	now := []finding.Finding{
		{ID: "same", Verdict: finding.Fail, Value: mm(10)},
		{ID: "moved", Verdict: finding.Pass, Value: mm(90)},
		{ID: "closer", Verdict: finding.Pass, Value: mm(70)},
		{ID: "new", Verdict: finding.Fail, Value: mm(1)},
		{ID: "turned", Verdict: finding.Pass, Value: mm(61)},
		{ID: "signed", Verdict: finding.Fail, Grade: finding.OwnerSigns, Signed: &finding.Signed{Who: "A. Quill"}},
	}
	var got []string
	for _, x := range study.Turned(old, now) {
		got = append(got, strings.ReplaceAll(strings.Join([]string{x.Now().ID, x.Verdict(), x.Number(), x.Said()}, "|"), "\u00a0", " "))
	}
	want := []string{"turned|fail → pass|44 ± 6 → 61 ± 6 mm|", "closer|not enough known → pass|2 to read → 70 ± 6 mm|", "new|new: fail|1 ± 6 mm|",
		"gone|gone, was too close to call|5 ± 6 mm|", "moved|pass|100 ± 6 → 90 ± 6 mm|", "signed|fail||signed by A. Quill"}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// TestConservesTurned finds nothing turned in the same record studied twice, and
// the damper's new length where it decides.
func TestConservesTurned(t *testing.T) {
	_, a := worked(t)
	_, b := worked(t)
	if d := study.Turned(a.Findings, b.Findings); len(d) != 0 {
		t.Errorf("%d findings turned by nothing", len(d))
	}
	_, b = worked(t, "axles.front.damper.closed", "330 mm")
	for _, x := range study.Turned(a.Findings, b.Findings) {
		if x.Now().ID == "front.bump" && x.Number() != "" {
			return
		}
	}
	t.Error("another damper, and the front bump left is the same")
}
