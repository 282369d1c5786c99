package quantity_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	. "jounce/quantity"
)

func anyKind(t *rapid.T) Kind { return rapid.SampledFrom(Kinds()).Draw(t, "kind") }

func anyUnit(t *rapid.T, k Kind) Unit { return rapid.SampledFrom(k.Units()).Draw(t, "unit") }

// existing is a number in the unit that something of the kind can have.
func existing(t *rapid.T, k Kind, u Unit) float64 {
	x := rapid.Float64Range(-1e6, 1e6).Draw(t, "number")
	switch k {
	case KindHumidity:
		return math.Mod(math.Abs(x), 100)
	case KindTemperature:
		return u.FromSI(math.Abs(x))
	case KindAbsPressure, KindPressure:
		return math.Abs(x)
	}
	return x
}

// plainNumber writes a number so that its thousands are no question.
func plainNumber(x float64) string {
	s := strconv.FormatFloat(x, 'f', 5, 64)
	return strings.Replace(s, "-", "−", rapidMinus(x))
}

// rapidMinus keeps both minus signs in play.
func rapidMinus(x float64) int { return int(math.Abs(x)) % 2 }

func withUnit(n string, u Unit) string {
	if u.Name() == "" {
		return n
	}
	return n + " " + u.Name()
}

// sameValue holds the SI values of two readings against each other.
func sameValue(a, b Value) error {
	ha, oka := a.Half()
	hb, okb := b.Half()
	switch {
	case !nearTo(a.SI(), b.SI(), 1e-12):
		return fmt.Errorf("SI %v and %v", a.SI(), b.SI())
	case oka != okb || !nearTo(ha, hb, 1e-12):
		return fmt.Errorf("half %v and %v", ha, hb)
	}
	return nil
}

func nearTo(a, b, rel float64) bool {
	return math.Abs(a-b) <= rel*math.Max(math.Abs(a), math.Abs(b))
}

// TestExactTextRoundTrip: what was typed is kept byte for byte, reads as the
// same value again, and its echo reads as the same SI value.
func TestExactTextRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := anyKind(t)
		u := anyUnit(t, k)
		x := existing(t, k, u)
		text := withUnit(plainNumber(x), u)
		half := rapid.Float64Range(0.001, 1e3).Draw(t, "half")
		switch rapid.IntRange(0, 3).Draw(t, "form") {
		case 1:
			text += " ± " + withUnit(plainNumber(half), u)
		case 2:
			text += " ± " + plainNumber(half)
		case 3:
			text = withUnit(plainNumber(x)+" to "+plainNumber(x+half), u)
		}
		v, err := Parse(k, text)
		if err != nil {
			if k == KindHumidity && strings.Contains(text, "to") { // over 100 %
				return
			}
			t.Fatalf("%v", err)
		}
		if v.Text() != text || v.Unit() != u {
			t.Fatalf("%q is kept as %q in %s", text, v.Text(), v.Unit())
		}
		if again, err := Parse(k, v.Text()); err != nil || again != v {
			t.Fatalf("%q read again: %v, %v", text, again, err)
		}
		echo, err := Parse(k, v.Echo())
		if err != nil {
			t.Fatalf("%q: its echo %q is not read: %v", text, v.Echo(), err)
		}
		if err := sameValue(v, echo); err != nil {
			t.Fatalf("%q: its echo %q: %v", text, v.Echo(), err)
		}
		if echo.Echo() != v.Echo() {
			t.Fatalf("%q: the echo of its echo is %q, not %q", text, echo.Echo(), v.Echo())
		}
	})
}

// TestExactBoxRoundTrip: what a box keeps reads without the box as the same.
func TestExactBoxRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := anyKind(t)
		u := anyUnit(t, k)
		x := existing(t, k, u)
		text := plainNumber(x)
		switch rapid.IntRange(0, 3).Draw(t, "form") {
		case 1:
			text += " ± " + plainNumber(rapid.Float64Range(0.001, 1e3).Draw(t, "half"))
		case 2:
			text = " " + text + "  "
		case 3:
			if k != KindTemperature && math.Abs(x) > 1 {
				text += " ± 3 %"
			}
		}
		v, err := ParseIn(k, text, u)
		if err != nil {
			t.Fatalf("%q in a box of %s: %v", text, u, err)
		}
		if v.Unit() != u || !strings.HasPrefix(v.Text(), strings.TrimRight(strings.Split(text, "±")[0], " ")) {
			t.Fatalf("%q in a box of %s is kept as %q", text, u, v.Text())
		}
		again, err := Parse(k, v.Text())
		if err != nil || again != v {
			t.Fatalf("%q in a box of %s, kept as %q, reads as %v, %v", text, u, v.Text(), again, err)
		}
	})
}

// TestExactFormatReadsBack: what is formatted reads as the same number within
// half a unit of its last digit.
func TestExactFormatReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := anyKind(t)
		u := anyUnit(t, k)
		x := existing(t, k, u)
		digits := rapid.SampledFrom([]int{0, 1, 2, 4}).Draw(t, "digits")
		text := Format(k, u.ToSI(x), u, digits)
		v, err := Parse(k, text)
		if err != nil {
			if k == KindTemperature || k == KindHumidity { // rounded past the end of the scale
				return
			}
			t.Fatalf("%q: %v", text, err)
		}
		if got := v.In(u); math.Abs(got-x) > 0.5*math.Pow(10, -float64(digits))*(1+1e-6)+1e-9*math.Abs(x) {
			t.Fatalf("%v is written %q and read as %v", x, text, got)
		}
	})
}

// TestExactAnswersAreRead: each answer of each question is read without a
// further question.
func TestExactAnswersAreRead(t *testing.T) {
	pieces := []string{"1.250", "1,250", "68", "3 1/2", "0.9", " ", "kg", "mm", "gal", "°", "tons", "scfm",
		"L/min", "bar", "-", "to", "±", "%", "in", "Hz", "mF", "MF", "psi a", "1e3"}
	rapid.Check(t, func(t *rapid.T) {
		k := anyKind(t)
		text := strings.Join(rapid.SliceOfN(rapid.SampledFrom(pieces), 1, 6).Draw(t, "pieces"), " ")
		_, err := Parse(k, text)
		q, ok := err.(*Question)
		if !ok {
			return
		}
		if len(q.Answers) == 0 || q.Ask == "" {
			t.Fatalf("%q: a question without answers: %+v", text, q)
		}
		for _, a := range q.Answers {
			if _, err := Parse(k, a); err != nil {
				t.Fatalf("%q: answer %q: %v", text, a, err)
			}
		}
	})
}
