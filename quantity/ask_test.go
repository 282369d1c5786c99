package quantity_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	. "jounce/quantity"
)

func TestExactQuestions(t *testing.T) {
	for _, c := range []struct {
		kind    Kind
		text    string
		ask     string
		answers []string
	}{
		// no unit
		{KindPressure, "100", "100 psi (6.9 bar) or 100 bar?", []string{"100 psi", "100 bar"}},
		{KindPressure, "0", "0 psi (0 bar) or 0 bar?", []string{"0 psi", "0 bar"}},
		{KindPressure, "3.5 ± 0.2", "3.5 psi ± 0.2 psi or 3.5 bar ± 0.2 bar?", []string{"3.5 psi ± 0.2 psi", "3.5 bar ± 0.2 bar"}},
		{KindPressure, "3.5 ± 2 %", "3.5 psi ± 2 % of value or 3.5 bar ± 2 % of value?", []string{"3.5 psi ± 2 % of value", "3.5 bar ± 2 % of value"}},
		{KindPressure, "3 to 4", "3 psi to 4 psi or 3 bar to 4 bar?", []string{"3 psi to 4 psi", "3 bar to 4 bar"}},
		{KindLength, "14", "14 in (356 mm) or 14 mm?", []string{"14 in", "14 mm"}},
		{KindLength, "3 1/2", "3.5 in (89 mm) or 3.5 mm?", []string{"3.5 in", "3.5 mm"}},
		{KindMass, "244", "244 lb (111 kg) or 244 kg?", []string{"244 lb", "244 kg"}},
		{KindTemperature, "68", "68 °F (20 °C) or 68 °C?", []string{"68 °F", "68 °C"}},
		{KindTime, "12", "12 s, 12 min or 12 h?", []string{"12 s", "12 min", "12 h"}},
		{KindAngle, "−2", "−2° (−120′) or −2′?", []string{"−2°", "−2′"}},
		{KindHumidity, "65", "Is 65 % meant?", []string{"65 %"}},
		{KindAbsPressure, "14.7", "14.7 psi a (1.0 bar a) or 14.7 bar a?", []string{"14.7 psi a", "14.7 bar a"}},
		// decimals or thousands
		{KindMass, "1.250 kg", "1.25 kg or 1250 kg?", []string{"1.25 kg", "1250 kg"}},
		{KindMass, "1,250 kg", "1.25 kg or 1250 kg?", []string{"1.25 kg", "1250 kg"}},
		{KindMass, "1.255 kg", "1.2550 kg or 1255 kg?", []string{"1.2550 kg", "1255 kg"}},
		{KindMass, "2,740 lb", "2.74 lb or 2740 lb?", []string{"2.74 lb", "2740 lb"}},
		{KindMass, "1.250", "1.25 lb, 1250 lb, 1.25 kg or 1250 kg?", []string{"1.25 lb", "1250 lb", "1.25 kg", "1250 kg"}},
		{KindMass, "1.250 kg ± 2.500 kg", "1.25 kg ± 2.5 kg or 1250 kg ± 2500 kg?", []string{"1.25 kg ± 2.5 kg", "1250 kg ± 2500 kg"}},
		{KindMass, "1.250 kg ± 2 kg", "1.25 kg ± 2 kg or 1250 kg ± 2 kg?", []string{"1.25 kg ± 2 kg", "1250 kg ± 2 kg"}},
		{KindMass, "-1.250 kg", "−1.25 kg or −1250 kg?", []string{"−1.25 kg", "−1250 kg"}},
		{KindLength, "2.740 mm", "2.74 mm or 2740 mm?", []string{"2.74 mm", "2740 mm"}},
		{KindForce, "2.393 N", "2.3930 N or 2393 N?", []string{"2.3930 N", "2393 N"}},
		{KindPressure, "1,200 psi", "1.2 psi or 1200 psi?", []string{"1.2 psi", "1200 psi"}},
		{KindAbsPressure, "1.013 mbar", "1.0130 mbar a or 1013 mbar a?", []string{"1.0130 mbar a", "1013 mbar a"}},
		{KindFrequency, "1.250 Hz", "1.25 Hz or 1250 Hz?", []string{"1.25 Hz", "1250 Hz"}},
		{KindResistance, "4.700 Ω", "4.7 Ω or 4700 Ω?", []string{"4.7 Ω", "4700 Ω"}},
		{KindTime, "1,500 s", "1.5 s or 1500 s?", []string{"1.5 s", "1500 s"}},
		// a unit with several meanings
		{KindVolume, "5 gal", "5 gal UK (6.0 gal US) or 5 gal US?", []string{"5 gal UK", "5 gal US"}},
		{KindVolume, "5 gallons", "5 gal UK (6.0 gal US) or 5 gal US?", []string{"5 gal UK", "5 gal US"}},
		{KindMass, "2 tons", "2 t, 2 ton UK or 2 ton US?", []string{"2 t", "2 ton UK", "2 ton US"}},
		{KindTemperature, "68°", "68 °F (20 °C) or 68 °C?", []string{"68 °F", "68 °C"}},
		{KindTemperature, "68 deg", "68 °F (20 °C) or 68 °C?", []string{"68 °F", "68 °C"}},
		{KindTemperature, "60 to 70 deg", "60 to 70 °F or 60 to 70 °C?", []string{"60 to 70 °F", "60 to 70 °C"}},
		{KindTemperature, "68 °F ± 1°", "68 °F ± 1 °F or 68 °F ± 1 °C?", []string{"68 °F ± 1 °F", "68 °F ± 1 °C"}},
		{KindCapacitance, "10 MF", "10 µF (0.010 mF) or 10 mF?", []string{"10 µF", "10 mF"}},
		// a flow without its state
		{KindFreeAirFlow, "25 L/min", "25 L/min ANR; 25 L/min DIN 1343 or 25 L/min at 1.013 bar, 20 °C?",
			[]string{"25 L/min ANR", "25 L/min DIN 1343", "25 L/min at 1.013 bar, 20 °C"}},
		{KindFreeAirFlow, "1.5 cfm", "1.5 ft³/min ANR; 1.5 ft³/min DIN 1343 or 1.5 ft³/min at 1.013 bar, 20 °C?",
			[]string{"1.5 ft³/min ANR", "1.5 ft³/min DIN 1343", "1.5 ft³/min at 1.013 bar, 20 °C"}},
		{KindFreeAirFlow, "0.9 scfm", "0.9 ft³/min at 14.696 psi a, 68 °F; 0.9 ft³/min at 14.696 psi a, 60 °F or 0.9 ft³/min at 14.5 psi a, 68 °F?",
			[]string{"0.9 ft³/min at 14.696 psi a, 68 °F", "0.9 ft³/min at 14.696 psi a, 60 °F", "0.9 ft³/min at 14.5 psi a, 68 °F"}},
		{KindFreeAirFlow, "0.076 Pa m³/s", "0.076 Pa·m³/s at 20 °C (0.071 Pa·m³/s at 0 °C) or 0.076 Pa·m³/s at 0 °C?",
			[]string{"0.076 Pa·m³/s at 20 °C", "0.076 Pa·m³/s at 0 °C"}},
		{KindFreeAirFlow, "25 ± 1 L/min", "25 L/min ANR ± 1 L/min ANR; 25 L/min DIN 1343 ± 1 L/min DIN 1343 or 25 L/min at 1.013 bar, 20 °C ± 1 L/min at 1.013 bar, 20 °C?",
			[]string{"25 L/min ANR ± 1 L/min ANR", "25 L/min DIN 1343 ± 1 L/min DIN 1343", "25 L/min at 1.013 bar, 20 °C ± 1 L/min at 1.013 bar, 20 °C"}},
		// a hyphen that may part a range
		{KindLength, "3-4 mm", "Is 3 to 4 mm meant?", []string{"3 to 4 mm"}},
		{KindPressure, "3 bar - 4 bar", "Is 3 bar to 4 bar meant?", []string{"3 bar to 4 bar"}},
		// per cent of what
		{KindRatio, "62 ± 2 %", "62 % ± 2 % or 62 ± 2 % of value?", []string{"62 % ± 2 %", "62 ± 2 % of value"}},
		{KindRatio, "1.5 ± 0.5 %", "1.5 % ± 0.5 % or 1.5 ± 0.5 % of value?", []string{"1.5 % ± 0.5 %", "1.5 ± 0.5 % of value"}},
	} {
		_, err := Parse(c.kind, c.text)
		var q *Question
		if !errors.As(err, &q) {
			t.Errorf("%s %q: %v, expected a question", c.kind, c.text, err)
			continue
		}
		if q.Ask != c.ask || !slices.Equal(q.Answers, c.answers) {
			t.Errorf("%s %q: %q %q, expected %q %q", c.kind, c.text, q.Ask, q.Answers, c.ask, c.answers)
		}
		if q.Read != c.text || !strings.Contains(q.Expected, c.kind.Words()) || q.Looks == "" {
			t.Errorf("%s %q: %+v", c.kind, c.text, q)
		}
		for _, a := range q.Answers {
			if _, err := Parse(c.kind, a); err != nil {
				t.Errorf("%s %q: the answer %q is not read: %v", c.kind, c.text, a, err)
			}
		}
	}
}

// TestExactQuestionInBox shows what stays a question although the box shows a
// unit, and that the question quotes what was typed, no more.
func TestExactQuestionInBox(t *testing.T) {
	for _, c := range []struct {
		kind         Kind
		shown, typed string
		answers      []string
	}{
		{KindMass, "kg", "1.250", []string{"1.25 kg", "1250 kg"}},
		{KindLength, "mm", "350 ± 0.1 in", []string{"350 mm ± 0.1 in", "350 in ± 0.1 in"}},
		{KindTemperature, "°C", "68°", []string{"68 °F", "68 °C"}},
		{KindFreeAirFlow, "L/min ANR", "0.9 scfm", []string{
			"0.9 ft³/min at 14.696 psi a, 68 °F", "0.9 ft³/min at 14.696 psi a, 60 °F", "0.9 ft³/min at 14.5 psi a, 68 °F"}},
		{KindFreeAirFlow, "L/min ANR", "0.9 mbar L/s", []string{"0.9 mbar·L/s at 20 °C", "0.9 mbar·L/s at 0 °C"}},
	} {
		shown, _ := UnitOf(c.kind, c.shown)
		_, err := ParseIn(c.kind, c.typed, shown)
		var q *Question
		if !errors.As(err, &q) || !slices.Equal(q.Answers, c.answers) || q.Read != c.typed {
			t.Errorf("%q in %s: %v", c.typed, c.shown, err)
		}
	}
}

// TestExactPlainThousands lists numbers with three decimals that are plain,
// because nobody meets the other reading: asking would only be in the way.
func TestExactPlainThousands(t *testing.T) {
	for _, c := range []struct {
		kind Kind
		text string
		in   float64 // as a number in the typed unit
	}{
		{KindPressure, "1.250 bar", 1.25}, {KindPressure, "1,250 bar", 1.25}, {KindPressure, "9.000 bar", 9},
		{KindPressure, "1.250 MPa", 1.25}, {KindAbsPressure, "1.013 bar", 1.013},
		{KindLength, "0.375 in", 0.375}, {KindLength, "1.375 in", 1.375}, {KindLength, "2.740 m", 2.74},
		{KindLength, "12.345 mm", 12.345}, {KindLength, "0.375 mm", 0.375}, {KindLength, "1.250 ft", 1.25},
		{KindMass, "0.250 kg", 0.25}, {KindMass, "1.050 t", 1.05}, {KindMass, "244.000 kg", 244},
		{KindForce, "3.260 kN", 3.26}, {KindTemperature, "20.125 °C", 20.125}, {KindAngle, "1.250°", 1.25},
		{KindVolume, "9.000 L", 9}, {KindArea, "47.625 in²", 47.625}, {KindSpeed, "90.000 km/h", 90},
		{KindTorque, "47.250 N·m", 47.25}, {KindVoltage, "12.625 V", 12.625}, {KindCurrent, "1.250 A", 1.25},
		{KindCharge, "70.000 Ah", 70}, {KindCapacitance, "1.000 F", 1}, {KindHumidity, "65.125 %", 65.125},
		{KindRatio, "1.250", 1.25}, {KindRatio, "1.250 %", 1.25}, {KindConductance, "1.250 dm³/(s·bar)", 1.25},
		{KindTime, "1.250 h", 1.25}, {KindStiffness, "22.375 kN/m", 22.375},
	} {
		v, err := Parse(c.kind, c.text)
		if err != nil {
			t.Errorf("%v", err)
			continue
		}
		if !near(v.SI(), v.Unit().ToSI(c.in)) {
			t.Errorf("%s %q: %v", c.kind, c.text, v.Echo())
		}
	}
}

func TestExactQuestionSentence(t *testing.T) {
	_, err := Parse(KindPressure, "100")
	if got, want := err.Error(), `"100" has no unit. 100 psi (6.9 bar) or 100 bar?`; got != want {
		t.Errorf("%s, expected %s", got, want)
	}
	_, err = Parse(KindLength, "3 kg")
	if got, want := err.Error(), `"3 kg": kg is a mass. Type a length such as 350 mm.`; got != want {
		t.Errorf("%s, expected %s", got, want)
	}
}
