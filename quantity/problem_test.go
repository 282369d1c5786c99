package quantity_test

import (
	"errors"
	"strings"
	"testing"
	"unicode/utf8"

	. "jounce/quantity"
)

func TestExactProblems(t *testing.T) {
	for _, c := range []struct {
		kind  Kind
		text  string
		fault string // part of it
	}{
		// nothing there, or no text at all
		{KindLength, "", "nothing is typed"},
		{KindLength, "  \u00a0", "nothing is typed"},
		{KindLength, strings.Repeat("1", 201), "longer than 200 bytes"},
		{KindLength, "3\x00 mm", "cannot be seen"},
		{KindLength, "3\tmm", "cannot be seen"},
		{KindLength, "3 mm\n", "cannot be seen"},
		{KindLength, "3\u200b mm", "cannot be seen"}, // zero-width space
		{KindLength, "\ufeff3 mm", "cannot be seen"}, // byte order mark
		{KindLength, "\u202e3 mm", "cannot be seen"}, // right to left from here
		{KindLength, "3\u0301 mm", "cannot be seen"}, // an accent on a digit
		{KindLength, "3\u2028mm", "cannot be seen"},
		{KindLength, "3 mm\xff", "not UTF-8"},
		{KindNone, "3 mm", "not known"},
		{Kind(-3), "3 mm", "not known"},
		{Kind(999), "3 mm", "not known"},
		// no number
		{KindLength, "mm", "begin with a number"},
		{KindLength, "NaN", "begin with a number"},
		{KindLength, "NaN mm", "begin with a number"},
		{KindLength, "Inf mm", "begin with a number"},
		{KindLength, "-Inf mm", "begin with a number"},
		{KindLength, "about 3 mm", "begin with a number"},
		{KindLength, "-", "begin with a number"},
		{KindLength, ".", "begin with a number"},
		{KindLength, ", mm", "begin with a number"},
		{KindLength, "３ mm", "begin with a number"}, // full-width digit
		{KindLength, "٣ mm", "begin with a number"}, // Arabic-Indic digit
		{KindLength, "² mm", "begin with a number"},
		{KindLength, "0x10 mm", "not known"},
		{KindLength, "3_000 mm", "not known"},
		// bad numbers
		{KindLength, "--5 mm", "two signs"},
		{KindLength, "−−5 mm", "two signs"},
		{KindLength, "- -5 mm", "two signs"},
		{KindLength, "1.2.3 mm", "do not part thousands"},
		{KindLength, "1,2,3 mm", "do not part thousands"},
		{KindLength, "1.25,5.5 mm", "do not fit"},
		{KindLength, "12.5,250 mm", "do not part thousands"},
		{KindLength, "0,125,000 mm", "do not part thousands"},
		{KindLength, "1 250.5,5 mm", "more than one mark"},
		{KindLength, "1e400 mm", "out of all reach"},
		{KindLength, "1e99 mm", "out of all reach"},
		{KindLength, "1e-99 mm", "out of all reach"},
		{KindLength, "1e3.5 mm", "cannot be read"},
		{KindLength, "1e3e3 mm", "not known"},
		{KindLength, "1/0 in", "fraction"},
		{KindLength, "3 1/0 in", "fraction"},
		{KindLength, "3 5/4 in", "fraction"},
		{KindLength, "3 0/4 in", "fraction"},
		{KindLength, "1/2/3 in", "fraction"},
		{KindLength, "1/2.5 in", "fraction"},
		{KindLength, "1/9999 in", "fraction"},
		{KindLength, "3² mm", "more than one number"},
		{KindPressure, "3 4 bar", "more than one number"},
		{KindLength, strings.Repeat("9", 199), "out of all reach"},
		{KindLength, "99999999999999999999 mm", "out of all reach"},
		// units
		{KindLength, "3 kg", "kg is a mass"},
		{KindMass, "3 mm", "mm is a length"},
		{KindMass, "3 N", "N is a force"},
		{KindForce, "500 lb", "lb is a mass"},
		{KindForce, "50 kg", "kg is a mass"},
		{KindPressure, "32 lb", "lb is a mass"},
		{KindTime, "5 m", "m is a length"},
		{KindEnergy, "5 Nm", "Nm is a torque"},
		{KindLength, "3 cm²", "cm² is an area"},
		{KindArea, "3 cm³", "cm³ is a volume"},
		{KindVolume, "25 L/min", "a flow of free air"},
		{KindMass, "3 K", "K is a temperature or a temperature difference"},
		{KindPressure, "3 bar a", "bar a is an absolute pressure"},
		{KindPressure, "3 bara", "bara is an absolute pressure"},
		{KindPressure, "44 psia", "psia is an absolute pressure"},
		{KindPressure, "1 atm", "atm is an absolute pressure"},
		{KindPressure, "3 bar ± 0.1 bar a", "bar a is an absolute pressure"},
		{KindAbsPressure, "3 bar g", "bar g is a gauge pressure"},
		{KindAbsPressure, "3 psig", "psig is a gauge pressure"},
		{KindPressure, "3.5 mPa", "not known"}, // millipascal
		{KindLength, "5 m m", "not known"},
		{KindLength, "5 m.m", "not known"},
		{KindSpeed, "5 k m/h", "not known"},
		{KindLength, "3 мм", "not known"}, // Cyrillic
		{KindLength, "3 mm please", "not known"},
		{KindLength, "3 m/", "not known"},
		{KindLength, "3 ·", "not known"},
		{KindLength, "3 mm²²²²²²²²²²²²²²²²²²²²²²", "not known"},
		// compounds
		{KindLength, "5' 10", "no unit"},
		{KindLength, "5 ft 14 in", "less than one ft"},
		{KindLength, "5.5 ft 3 in", "only the last number"},
		{KindLength, "5 ft -3 in", "hyphen"},
		{KindLength, "5 ft 10 cm", "does not go into"},
		{KindLength, "10 in 5 ft", "does not go into"},
		{KindLength, "5 ft 3 kg", "kg is a mass"},
		{KindAngle, "1° 60′", "less than one °"},
		{KindMass, "12 st 14 lb", "less than one st"},
		{KindTime, "1 h 90 min", "less than one h"},
		// ± and ranges
		{KindLength, "3 mm ± 0 mm", "more than nought"},
		{KindLength, "3 mm ± -1 mm", "more than nought"},
		{KindLength, "3 mm ± ", "no number"},
		{KindLength, "± 2 mm", "no number"},
		{KindLength, "3 mm ± 1 kg", "kg is a mass"},
		{KindLength, "3 mm ± 1 ± 1", "not known"},
		{KindLength, "0 mm ± 2 %", "nought or out of all reach"},
		{KindLength, "1e-15 mm ± 1e-15 %", "nought or out of all reach"},
		{KindTemperature, "20 °C ± 2 %", "share of a temperature"},
		{KindLength, "4 to 3 mm", "backwards"},
		{KindLength, "3 to 3 mm", "no width"},
		{KindLength, "3 in to 100 mm", "two units"},
		{KindLength, "range 3 mm", "two ends"},
		{KindLength, "3 mm to", "not known"},
		{KindLength, "3 mm ..", "no number"},
		{KindLength, "3 to 4 to 5 mm", "not known"},
		// what does not exist
		{KindTemperature, "−274 °C", "colder than −273.15"},
		{KindTemperature, "-1 K", "colder"},
		{KindTemperature, "-300 to 20 °C", "colder"},
		{KindAbsPressure, "-1 bar", "cannot be negative"},
		{KindPressure, "-2 bar", "below vacuum"},
		{KindHumidity, "120 %", "between 0 % and 100 %"},
		{KindHumidity, "-1 %", "between 0 % and 100 %"},
		{KindHumidity, "90 to 110 %", "between 0 % and 100 %"},
	} {
		v, err := Parse(c.kind, c.text)
		var p *Problem
		if !errors.As(err, &p) {
			t.Errorf("%s %q: %v, %v, expected a problem", c.kind, c.text, v, err)
			continue
		}
		if !v.IsZero() {
			t.Errorf("%s %q: a value beside the problem", c.kind, c.text)
		}
		if !strings.Contains(p.Fault, c.fault) {
			t.Errorf("%s %q: %s, expected %q", c.kind, c.text, p.Fault, c.fault)
		}
		if p.Read != c.text || p.Fix == "" || p.Expected == "" {
			t.Errorf("%s %q: %+v", c.kind, c.text, p)
		}
		msg := err.Error()
		if !utf8.ValidString(msg) || strings.ContainsAny(msg, "\x00\n\t\u200b\u202e\ufeff\u2028") || len(msg) > 400 {
			t.Errorf("%q: the message cannot be shown: %q", c.text, msg)
		}
		if strings.ContainsAny(strings.ReplaceAll(msg, c.text, ""), "!") || !strings.HasSuffix(msg, ".") {
			t.Errorf("%q: %s", c.text, msg)
		}
	}
}

func TestExactHints(t *testing.T) {
	for _, c := range []struct {
		kind      Kind
		text, fix string
	}{
		{KindForce, "500 lb", "lbf"}, {KindForce, "50 kg", "kgf"}, {KindPressure, "32 lb", "psi"},
		{KindTime, "5 m", "min"}, {KindEnergy, "5 Nm", "J"},
		{KindPressure, "3 bar a", "less the barometer"}, {KindAbsPressure, "3 bar g", "plus the barometer"},
	} {
		_, err := Parse(c.kind, c.text)
		var p *Problem
		if !errors.As(err, &p) || !strings.Contains(p.Fix, c.fix) {
			t.Errorf("%s %q: %v", c.kind, c.text, err)
		}
	}
}
