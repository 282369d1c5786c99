package quantity_test

import (
	"math"
	"strings"
	"testing"

	. "jounce/quantity"
)

func unit(t *testing.T, k Kind, name string) Unit {
	t.Helper()
	u, ok := UnitOf(k, name)
	if !ok {
		t.Fatalf("%s: no unit %q", k, name)
	}
	return u
}

func TestExactFormat(t *testing.T) {
	for _, c := range []struct {
		kind   Kind
		si     float64
		unit   string
		digits int
		want   string
	}{
		{KindPressure, 3.5e5, "bar", 1, "3.5 bar"},
		{KindPressure, 3.5e5, "psi", 0, "51 psi"},
		{KindPressure, -2e4, "bar", 1, "−0.2 bar"},
		{KindPressure, -1, "bar", 2, "0.00 bar"}, // no minus before nought
		{KindPressure, 3.5e5, "bar", -1, "3.50 bar"},
		{KindLength, 0.589, "mm", 0, "589 mm"},
		{KindLength, 0.0889, "in", 2, "3.50 in"},
		{KindLength, 0.0025, "mm", 0, "3 mm"}, // half goes up
		{KindLength, -0.0025, "mm", 0, "−3 mm"},
		{KindLength, 0.002675, "mm", 2, "2.68 mm"},
		{KindTemperature, 293.15, "°C", 1, "20.0 °C"},
		{KindTemperature, 293.15, "°F", 0, "68 °F"},
		{KindTemperature, 233.15, "°C", 0, "−40 °C"},
		{KindAngle, -1.2 * math.Pi / 180, "°", 1, "−1.2°"},
		{KindAbsPressure, 101325, "mbar a", 0, "1013 mbar a"},
		{KindRatio, 0.62, "", 2, "0.62"},
		{KindRatio, 0.62, "%", 0, "62 %"},
		{KindHumidity, 0.65, "%", 0, "65 %"},
		{KindVolume, 5 * 4.54609e-3, "gal UK", 1, "5.0 gal UK"},
		{KindFreeAirFlow, 0.0004, "L/min ANR", 0, "24 L/min ANR"},
		{KindLength, math.NaN(), "mm", 0, "not known"},
		{KindLength, math.Inf(1), "mm", 0, "not known"},
		{KindLength, math.Inf(-1), "mm", 0, "not known"},
		{KindLength, 0.5, "mm", 40, "500.000000000000000 mm"},
	} {
		u := unit(t, c.kind, c.unit)
		got := Format(c.kind, c.si, u, c.digits)
		if plainSpaces(got) != c.want || got != "not known" && strings.Contains(got, " ") {
			t.Errorf("%v %s: %q, expected %q", c.si, c.unit, got, c.want)
		}
		number, label := FormatNumber(c.kind, c.si, u, c.digits)
		if !strings.HasPrefix(got, number) || !strings.HasSuffix(got, label) {
			t.Errorf("%q: apart it is %q and %q", got, number, label)
		}
	}
}

func TestExactFormatWith(t *testing.T) {
	for _, c := range []struct {
		kind     Kind
		si, half float64
		unit     string
		want     string
	}{
		{KindPressure, 3.5e5, 0.2e5, "bar", "3.5 ± 0.2 bar"},
		{KindPressure, 3.5243e5, 0.2e5, "bar", "3.5 ± 0.2 bar"},
		{KindPressure, 3.5243e5, 0.14e5, "bar", "3.52 ± 0.14 bar"},
		{KindPressure, 0.35e5, 0.04e5, "bar", "0.35 ± 0.04 bar"},
		{KindPressure, 3.5e5, 0.25e5, "bar", "3.50 ± 0.25 bar"},
		{KindPressure, 3.5e5, 0.0996e5, "bar", "3.50 ± 0.10 bar"},
		{KindPressure, 3.5e5, 0.1e5, "bar", "3.5 ± 0.1 bar"},
		{KindPressure, -2e4, 1e3, "bar", "−0.20 ± 0.01 bar"},
		{KindLength, 0.589, 0.004, "mm", "589 ± 4 mm"},
		{KindLength, 0.5894, 0.0044, "mm", "589 ± 4 mm"},
		{KindLength, 0.036, 0.009, "mm", "36 ± 9 mm"},
		{KindLength, 0.082, 0.002, "mm", "82 ± 2 mm"},
		{KindLength, 0.082, 0.0096, "mm", "82 ± 10 mm"},
		{KindLength, 0.082, 0.010, "mm", "82 ± 10 mm"},
		{KindLength, 0.589, 0.0992, "mm", "589 ± 99 mm"},
		{KindLength, 1.2344, 0.1, "mm", "1230 ± 100 mm"},
		{KindLength, 0.0822, 0.0125, "mm", "82 ± 13 mm"},
		{KindLength, 1.2344, 0.234, "mm", "1230 ± 230 mm"},
		{KindTemperature, 293.15, 0.5, "°C", "20.0 ± 0.5 °C"},
		{KindTemperature, 293.15, 0.5, "°F", "68.0 ± 0.9 °F"},
		{KindAngle, -1.2 * math.Pi / 180, 0.1 * math.Pi / 180, "°", "−1.2 ± 0.1°"},
		{KindRatio, 0.62, 0.01, "", "0.62 ± 0.01"},
		{KindMass, 244, 1, "kg", "244 ± 1 kg"},
		{KindMass, 244, 0, "kg", "244 kg"},
		{KindMass, 244, math.NaN(), "kg", "244 kg"},
		{KindMass, 244, math.Inf(1), "kg", "244 kg"},
		{KindMass, math.NaN(), 1, "kg", "not known"},
		{KindMass, 244, -1, "kg", "244 ± 1 kg"},
		{KindMass, -0.2, 1, "kg", "0 ± 1 kg"},
	} {
		u := unit(t, c.kind, c.unit)
		got := FormatWith(c.kind, c.si, c.half, u)
		if got != strings.ReplaceAll(c.want, " ", nb) && !(c.want == "not known" && got == c.want) {
			t.Errorf("%v ± %v %s: %q, expected %q", c.si, c.half, c.unit, got, c.want)
		}
		number, doubt, label := FormatNumberWith(c.kind, c.si, c.half, u)
		if !strings.HasPrefix(got, number) || !strings.Contains(got, doubt) || !strings.HasSuffix(got, label) {
			t.Errorf("%q: apart it is %q, %q and %q", got, number, doubt, label)
		}
	}
}

// TestLimitFormatUnit shows what becomes of a unit that does not fit.
func TestLimitFormatUnit(t *testing.T) {
	kg := unit(t, KindMass, "kg")
	if got := plainSpaces(Format(KindLength, 0.35, kg, 0)); got != "350 mm" {
		t.Errorf("a length in kg: %q", got)
	}
	if got := plainSpaces(Format(KindLength, 0.35, Unit{}, 0)); got != "350 mm" {
		t.Errorf("a length in no unit: %q", got)
	}
	if got := plainSpaces(FormatWith(KindLength, 0.35, 0.001, Unit{})); got != "350 ± 1 mm" {
		t.Errorf("a length in no unit: %q", got)
	}
	if got := Format(KindNone, 3, Unit{}, 1); got != "3.0" {
		t.Errorf("no kind: %q", got)
	}
}
