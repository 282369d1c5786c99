package quantity_test

import (
	"errors"
	"testing"

	. "jounce/quantity"
)

// FuzzParse reads any text as every kind, with and without a box. Nothing
// panics; every error is a Question with answers or a Problem; an accepted
// text is kept, and it and its echo read as the same value.
func FuzzParse(f *testing.F) {
	for _, k := range Kinds() {
		f.Add(k.Example())
	}
	for _, s := range []string{"", "100", "3,5 bar", "1.250 kg", "3½ in", "5' 10 1/2\"", "1° 30′", "range 3.3..3.7 bar",
		"3.3 to 3.7 bar", "3.3–3.7", "4 ± 2 %", "68 °F +/- 1", "25 NL/min", "0.9 scfm", "3 bar a", "1e3 mm", "--5",
		"1\u202f250,5", "3-4 mm", "5 gal", "−1.2 ± 0.1°", "62 ± 2 %", "1e-15 mm ± 1e-15 %", "12 st 4 lb", "\xff", "3\x00"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, k := range Kinds() {
			v, err := Parse(k, text)
			checkReading(t, k, text, v, err)
			if err == nil && v.Text() != text {
				t.Fatalf("%s %q is kept as %q", k, text, v.Text())
			}
			v, err = ParseIn(k, text, k.Main())
			checkReading(t, k, text, v, err)
		}
	})
}

func checkReading(t *testing.T, k Kind, text string, v Value, err error) {
	t.Helper()
	if err != nil {
		var q *Question
		var p *Problem
		switch {
		case !v.IsZero():
			t.Fatalf("%s %q: a value beside the error %v", k, text, err)
		case errors.As(err, &q):
			if len(q.Answers) == 0 {
				t.Fatalf("%s %q: no answers", k, text)
			}
			for _, a := range q.Answers {
				if _, err := Parse(k, a); err != nil {
					t.Fatalf("%s %q: answer %q: %v", k, text, a, err)
				}
			}
		case !errors.As(err, &p):
			t.Fatalf("%s %q: %T", k, text, err)
		}
		return
	}
	for _, s := range []string{v.Text(), v.Echo()} {
		again, err := Parse(k, s)
		if err != nil {
			t.Fatalf("%s %q: %q is not read: %v", k, text, s, err)
		}
		if err := sameValue(v, again); err != nil {
			t.Fatalf("%s %q: %q: %v", k, text, s, err)
		}
	}
}
