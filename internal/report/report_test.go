package report

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"jounce/internal/draw"
	"jounce/internal/draw/pdf"
	"jounce/internal/finding"
	"jounce/quantity"
	"jounce/source"
)

func bar(v, half float64) finding.Number {
	return finding.Of(quantity.KindPressure, "bar", v*1e5, half*1e5)
}

func bound(v float64, g finding.Grade) finding.Limit {
	u, _ := quantity.UnitOf(quantity.KindPressure, "bar")
	return finding.Limit{Name: "loss", Kind: quantity.KindPressure, Value: v * 1e5, Unit: u, Grade: g, Source: source.CP}
}

// A sign that no face has is named by its number; directions and line ends leave no trace.
func TestExactLetters(t *testing.T) {
	for in, want := range map[string]string{
		"0.3 ± 0.1 bar":   "0.3 ± 0.1 bar",
		"\U0001F697 red":  "[U+1F697] red",
		"two\nlines\tand": "two lines and",
		"a\u200fb":        "ab",
		"half\xffway":     "half\ufffdway",
	} {
		want = strings.ReplaceAll(want, "\ufffd", letters("\ufffd"))
		if got := letters(in); got != want {
			t.Errorf("%q is lettered %q, expected %q", in, got, want)
		}
		if m := draw.Missing(letters(in)); len(m) > 0 {
			t.Errorf("%q leaves %q, which no face has", in, m)
		}
	}
}

// A number and what follows it are apart, whatever a finding rests on.
func TestExactNumber(t *testing.T) {
	for _, c := range []struct {
		f            finding.Finding
		figure, rest string
	}{
		{finding.Finding{Value: bar(0.03, 0.04)}, "0.03", "± 0.04 bar"},
		{finding.Finding{Value: finding.Of(quantity.KindMass, "kg", 1120, 0)}, "1120", "kg"},
		{finding.Finding{Shown: "0 of 26"}, "0", "of 26"},
		{finding.Finding{Shown: "same seat"}, "", "same seat"},
		{finding.Finding{}, "", "not read"},
	} {
		figure, rest := number(c.f)
		if rest = strings.ReplaceAll(rest, nbsp, " "); figure != c.figure || rest != c.rest {
			t.Errorf("%v gives %q and %q, expected %q and %q", c.f.Value, figure, rest, c.figure, c.rest)
		}
	}
}

// The worst likely value stands beside the limit that ends pass first, once.
func TestExactWorst(t *testing.T) {
	f := finding.Finding{Value: bar(0.03, 0.04), Limits: []finding.Limit{bound(0.3, finding.Stops), bound(0.1, finding.Stops)}, Verdict: finding.Pass}
	if got, want := strings.ReplaceAll(worst(f), nbsp, " "), "Worst likely 0.07 bar; pass ends at "+strings.ReplaceAll(bound(0.1, finding.Stops).Text(), nbsp, " ")+"."; got != want {
		t.Errorf("%q, expected %q", got, want)
	}
	f.Why = "Worst likely 0.07 bar."
	if got := worst(f); got != "" {
		t.Errorf("said twice: %q", got)
	}
}

// Text is cut at spaces and nothing of it is lost.
func TestConservesPieces(t *testing.T) {
	for _, s := range []string{"", "one", strings.Repeat("word ", 500) + "end", strings.Repeat("W", 2000)} {
		var back strings.Builder
		for _, p := range pieces(s) {
			if n := len([]rune(p)); n > pieceRoom {
				t.Errorf("a piece of %d signs", n)
			}
			back.WriteString(p)
		}
		if got := strings.ReplaceAll(back.String(), " ", ""); got != strings.ReplaceAll(s, " ", "") {
			t.Errorf("%d signs came back of %d", len(got), len(s))
		}
	}
}

// What does not fit one column goes to the next, each unit once and in order.
func TestConservesFlow(t *testing.T) {
	d := pdf.New(pdf.Info{Title: "flow"})
	s := d.Sheet(pdf.Portrait)
	var at []int
	var us []unit
	for i := range 50 {
		us = append(us, unit{func(float64) float64 { return 10 }, func(*pdf.Sheet, float64, float64, float64) { at = append(at, i) }})
	}
	made := 0
	f := flow{more: func() []*column { made++; return []*column{{s, 0, 0, 50, 75}, {s, 60, 0, 50, 75}} }}
	f.all(us)
	for i, n := range at {
		if i != n {
			t.Fatalf("unit %d stands in place %d", n, i)
		}
	}
	if len(at) != 50 || made != 4 { // 7 a column, 14 a sheet
		t.Errorf("%d units on %d sheets, expected 50 on 4", len(at), made)
	}
}

// The hold point stays shut for what stops, what is refused and what is no evidence.
func TestExactHold(t *testing.T) {
	pass := finding.Finding{ID: "t1.tank", Verdict: finding.Pass, Grade: finding.Stops}
	fail := pass
	fail.Verdict = finding.Fail
	stale := pass
	stale.NotEvidence = "the gauge was due"
	for _, c := range []struct {
		c    Certificate
		want string
	}{
		{Certificate{}, "Hold point 2 stays shut: the test is not begun."},
		{Certificate{Findings: []finding.Finding{pass}}, "Nothing above holds"},
		{Certificate{Findings: []finding.Finding{fail}, Holds: true}, "Hold point 2 stays shut: tank, fail."},
		{Certificate{Findings: []finding.Finding{stale}}, "Hold point 2 stays shut: a reading above is not evidence."},
		{Certificate{Findings: []finding.Finding{fail}, Refused: "above relief"}, "Hold point 2 stays shut: the test is refused; tank, fail."},
	} {
		var got string
		for _, r := range (&certificate{Certificate: c.c}).hold() {
			got += r.S
		}
		if !strings.HasPrefix(got, c.want) {
			t.Errorf("%q, expected %q", got, c.want)
		}
	}
}

// Empty pages are papers too, and the same twice.
func TestLimitEmpty(t *testing.T) {
	saved := time.Date(2026, 4, 3, 10, 42, 0, 0, time.UTC)
	for name, f := range map[string]func() ([]byte, error){
		"certificate": func() ([]byte, error) { return Certificate{Block: Block{Saved: saved}}.PDF() },
		"design":      func() ([]byte, error) { return Design{Block: Block{Saved: saved}}.PDF() },
	} {
		a, err := f()
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		b, _ := f()
		if !bytes.HasPrefix(a, []byte("%PDF-")) || !bytes.Equal(a, b) {
			t.Errorf("%s: not a PDF, or not the same twice", name)
		}
	}
}

// A markup of formulas becomes runs: below, above, and a fraction on one line.
func TestExactFormula(t *testing.T) {
	var got string
	for _, r := range formula(pdf.List, finding.Line{Symbols: "Q = {V lost}/{p_{0} t}", Numbers: "1 ÷ 2", Result: "0.5"}) {
		if r.Dy < 0 {
			got += "_"
		}
		got += r.S
	}
	if want := "Q = (V lost) ÷ (p_0 t) = 1 ÷ 2 = 0.5"; got != want {
		t.Errorf("%q, expected %q", got, want)
	}
}
