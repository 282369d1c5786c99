package proof

import (
	"testing"

	"jounce/internal/finding"
	"jounce/quantity"
)

func TestAgree(t *testing.T) {
	bar := func(v, half float64) finding.Number {
		return finding.Of(quantity.KindPressure, "bar", v*1e5, half*1e5)
	}
	for _, c := range []struct {
		m, p    finding.Number
		allowed float64
		want    finding.Verdict
		decides string
	}{
		{bar(3.55, 0.04), bar(3.52, 0.2), 0.35e5, finding.Pass, ""},
		{bar(4.4, 0.04), bar(3.52, 0.2), 0.35e5, finding.Fail, ""},
		{bar(3.8, 0.04), bar(3.52, 0.2), 0.35e5, finding.TooClose, "the prediction"},
		{bar(3.8, 0.19), bar(3.52, 0.1), 0.35e5, finding.TooClose, "the reading"},
		{finding.Number{}, bar(3.52, 0.2), 0.35e5, finding.NotKnown, ""},
		{finding.Of(quantity.KindLength, "mm", 1, 0), bar(3.52, 0.2), 1, finding.NotKnown, ""},
	} {
		a := Agree(c.m, c.p, c.allowed)
		if a.Verdict != c.want || a.Decides != c.decides {
			t.Errorf("%v against %v: %v, %q", c.m, c.p, a.Verdict, a.Decides)
		}
	}
}
