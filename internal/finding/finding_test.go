package finding

import (
	"testing"

	"jounce/quantity"
)

func length(mm, half float64) Number { return Of(quantity.KindLength, "mm", mm/1000, half/1000) }

func least(mm float64, g Grade) Limit {
	n := length(mm, 0)
	return Limit{Below: true, Kind: n.Kind, Value: n.Value, Unit: n.Unit, Grade: g}
}

func TestScenario32ClearanceAgainstTen(t *testing.T) {
	rule := least(10, Stops)
	for _, c := range []struct {
		mm, half float64
		want     Verdict
	}{{12, 4, TooClose}, {12, 1, Pass}, {8, 1, Fail}, {10, 0, Pass}, {9, 1, TooClose}, {8.9, 1, Fail}, {11, 1, Pass}} {
		if got := Compare(length(c.mm, c.half), rule); got != c.want {
			t.Errorf("%g ± %g mm against at least 10 mm: %v, want %v", c.mm, c.half, got, c.want)
		}
	}
	if got := Compare(Number{}, rule); got != NotKnown {
		t.Errorf("nothing read: %v", got)
	}
}

func TestJudgeKeepsWhatWeighsMost(t *testing.T) {
	stops, signs := least(45, Stops), least(60, OwnerSigns)
	for _, c := range []struct {
		mm, half float64
		verdict  Verdict
		grade    Grade
	}{
		{70, 2, Pass, Stops}, {50, 2, Fail, OwnerSigns}, {44, 2, TooClose, Stops},
		{40, 2, Fail, Stops}, {60, 3, TooClose, OwnerSigns}, {46, 2, TooClose, Stops},
	} {
		f := Finding{Value: length(c.mm, c.half)}
		f.Judge(stops, signs)
		if f.Verdict != c.verdict || f.Verdict != Pass && f.Grade != c.grade {
			t.Errorf("%g ± %g: %v %v, want %v %v", c.mm, c.half, f.Verdict, f.Grade, c.verdict, c.grade)
		}
	}
}

func TestHoldsIsNotSignedAwayWhereItStops(t *testing.T) {
	s := &Signed{Who: "H. Orme", Reason: "show car"}
	for _, c := range []struct {
		f    Finding
		want bool
	}{
		{Finding{Verdict: Fail, Grade: Stops, Signed: s}, true},
		{Finding{Verdict: NotKnown, Grade: Stops}, true},
		{Finding{Verdict: TooClose, Grade: Stops}, true},
		{Finding{Verdict: Fail, Grade: OwnerSigns}, true},
		{Finding{Verdict: Fail, Grade: OwnerSigns, Signed: s}, false},
		{Finding{Verdict: Fail, Grade: Note}, false},
		{Finding{Verdict: Pass, Grade: Stops}, false},
	} {
		if got := c.f.Holds(); got != c.want {
			t.Errorf("%v, %v, signed %v: holds %v", c.f.Verdict, c.f.Grade, c.f.Signed != nil, got)
		}
	}
}

func TestMarkup(t *testing.T) {
	for in, want := range map[string]string{
		"k = {n p_{abs} A^{2}}/{V}":   "k = (n p_abs A²) ÷ V",
		"F = (W − U) g / r":           "F = (W − U) g / r",
		"{":                           "{",
		"a_b":                         "a_b",
		"f = {1}/{2π} √({k_{w}}/{m})": "f = 1 ÷ 2π √(k_w ÷ m)",
	} {
		if got := Plain(in); got != want {
			t.Errorf("Plain(%q) = %q, want %q", in, got, want)
		}
	}
}
