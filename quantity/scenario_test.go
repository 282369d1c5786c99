package quantity_test

import (
	"errors"
	"testing"

	. "jounce/quantity"
)

// The scenarios are those of the trade handbook, section 6, as far as reading
// a text settles them. What is out of place for a certain car is asked where
// the car is known.

func question(t *testing.T, kind Kind, text string) *Question {
	t.Helper()
	_, err := Parse(kind, text)
	var q *Question
	if !errors.As(err, &q) {
		t.Fatalf("%s %q: %v, expected a question", kind, text, err)
	}
	return q
}

func TestScenario1(t *testing.T) {
	q := question(t, KindPressure, "100")
	if q.Ask != "100 psi (6.9 bar) or 100 bar?" {
		t.Errorf("asked %q", q.Ask)
	}
	for i, want := range []float64{100 * 4.4482216152605 / 0.00064516, 100e5} {
		if got := MustParse(KindPressure, q.Answers[i]).SI(); !near(got, want) {
			t.Errorf("answer %q is %v Pa, expected %v", q.Answers[i], got, want)
		}
	}
}

func TestScenario9Unit(t *testing.T) {
	q := question(t, KindTemperature, "68")
	got := map[string]float64{}
	for _, a := range q.Answers {
		v := MustParse(KindTemperature, a)
		got[v.Unit().Name()] = v.SI()
	}
	if len(got) != 2 || !nearly(got["°F"], 293.15) || !nearly(got["°C"], 341.15) {
		t.Errorf("answers %q", q.Answers)
	}
}

func TestScenario13(t *testing.T) {
	v := MustParse(KindPressure, "3,5 bar")
	if v.SI() != 3.5e5 || plainSpaces(v.Echo()) != "3.5 bar" || v.Text() != "3,5 bar" {
		t.Errorf("3,5 bar: %v Pa, echo %q, text %q", v.SI(), v.Echo(), v.Text())
	}
	q := question(t, KindMass, "1.250 kg")
	if len(q.Answers) != 2 || MustParse(KindMass, q.Answers[0]).SI() != 1.25 || MustParse(KindMass, q.Answers[1]).SI() != 1250 {
		t.Errorf("1.250 kg: %q", q.Answers)
	}
}

// TestScenario15Unit: without a unit in sight the unit itself is asked about.
func TestScenario15Unit(t *testing.T) {
	if q := question(t, KindLength, "14"); q.Ask != "14 in (356 mm) or 14 mm?" {
		t.Errorf("asked %q", q.Ask)
	}
}

// TestScenario95Units: the same readings in other units are the same to the
// last digit that anybody prints.
func TestScenario95Units(t *testing.T) {
	for _, c := range []struct {
		kind Kind
		a, b string
	}{
		{KindPressure, "3.52 bar", "51.053283681034 psi"},
		{KindPressure, "3.52 bar", "352 kPa"},
		{KindLength, "355.6 mm", "14 in"},
		{KindMass, "244 kg", "537.9279197731 lb"},
		{KindTemperature, "20 °C", "68 °F"},
		{KindForce, "980.665 N", "100 kgf"},
		{KindVolume, "4.54609 L", "1 gal UK"},
	} {
		a, b := MustParse(c.kind, c.a), MustParse(c.kind, c.b)
		u := c.kind.Main()
		for digits := range 7 {
			if x, y := Format(c.kind, a.SI(), u, digits), Format(c.kind, b.SI(), u, digits); x != y {
				t.Errorf("%s and %s: %s and %s", c.a, c.b, x, y)
			}
		}
	}
}
