package quantity_test

import (
	"errors"
	"math"
	"testing"

	. "jounce/quantity"
)

// near allows for the last bits of float64.
func near(a, b float64) bool { return math.Abs(a-b) <= 4e-16*math.Max(math.Abs(a), math.Abs(b)) }

const nb = "\u00a0"

func TestExactParse(t *testing.T) {
	for _, c := range []struct {
		kind Kind
		text string
		si   float64
		unit string
		echo string
	}{
		// lengths
		{KindLength, "350 mm", 0.35, "mm", "350" + nb + "mm"},
		{KindLength, "350mm", 0.35, "mm", "350" + nb + "mm"},
		{KindLength, "350 MM", 0.35, "mm", "350" + nb + "mm"},
		{KindLength, "  350  mm ", 0.35, "mm", "350" + nb + "mm"},
		{KindLength, "350\u00a0mm", 0.35, "mm", "350" + nb + "mm"},
		{KindLength, "350\u2009mm", 0.35, "mm", "350" + nb + "mm"},
		{KindLength, "350\u202fmm", 0.35, "mm", "350" + nb + "mm"},
		{KindLength, "35 cm", 0.35, "cm", "35" + nb + "cm"},
		{KindLength, "2.74 m", 2.74, "m", "2.74" + nb + "m"},
		{KindLength, "2.74 M", 2.74, "m", "2.74" + nb + "m"},
		{KindLength, "2.740 m", 2.74, "m", "2.74" + nb + "m"},
		{KindLength, "14 in", 0.3556, "in", "14" + nb + "in"},
		{KindLength, "14 in.", 0.3556, "in", "14" + nb + "in"},
		{KindLength, `14"`, 0.3556, "in", "14" + nb + "in"},
		{KindLength, "14″", 0.3556, "in", "14" + nb + "in"},
		{KindLength, "14''", 0.3556, "in", "14" + nb + "in"},
		{KindLength, "14”", 0.3556, "in", "14" + nb + "in"},
		{KindLength, "14 inches", 0.3556, "in", "14" + nb + "in"},
		{KindLength, "3 1/2 in", 0.0889, "in", "3.5" + nb + "in"},
		{KindLength, "3-1/2 in", 0.0889, "in", "3.5" + nb + "in"},
		{KindLength, "3½ in", 0.0889, "in", "3.5" + nb + "in"},
		{KindLength, "3 ½ in", 0.0889, "in", "3.5" + nb + "in"},
		{KindLength, "3 1⁄2 in", 0.0889, "in", "3.5" + nb + "in"},
		{KindLength, "-3 1/2 in", -0.0889, "in", "−3.5" + nb + "in"},
		{KindLength, "½ in", 0.0127, "in", "0.5" + nb + "in"},
		{KindLength, "1/2 in", 0.0127, "in", "0.5" + nb + "in"},
		{KindLength, "5/4 in", 0.03175, "in", "1.25" + nb + "in"},
		{KindLength, "3/8″", 0.009525, "in", "0.375" + nb + "in"},
		{KindLength, "6 ft", 1.8288, "ft", "6" + nb + "ft"},
		{KindLength, "6'", 1.8288, "ft", "6" + nb + "ft"},
		{KindLength, "6′", 1.8288, "ft", "6" + nb + "ft"},
		{KindLength, "6’", 1.8288, "ft", "6" + nb + "ft"},
		{KindLength, `5' 10"`, 1.778, "in", "70" + nb + "in"},
		{KindLength, `5'10½"`, 1.7907, "in", "70.5" + nb + "in"},
		{KindLength, "5 ft 10 1/2 in", 1.7907, "in", "70.5" + nb + "in"},
		{KindLength, "-5 ft 10 in", -1.778, "in", "−70" + nb + "in"},
		{KindLength, "1 m 20 cm 5 mm", 1.205, "mm", "1205" + nb + "mm"},
		{KindLength, "5 ft 1.250 in", 1.55575, "in", "61.25" + nb + "in"},
		{KindLength, "1e3 mm", 1, "mm", "1000" + nb + "mm"},
		{KindLength, "1.5E-1 m", 0.15, "m", "0.15" + nb + "m"},
		{KindLength, "1.250e3 mm", 1.25, "mm", "1250" + nb + "mm"},
		{KindLength, "1 250 mm", 1.25, "mm", "1250" + nb + "mm"},
		{KindLength, "1\u202f250,5 mm", 1.2505, "mm", "1250.5" + nb + "mm"},
		{KindLength, "1,250.5 mm", 1.2505, "mm", "1250.5" + nb + "mm"},
		{KindLength, "1.250,5 mm", 1.2505, "mm", "1250.5" + nb + "mm"},
		{KindLength, "−5 mm", -0.005, "mm", "−5" + nb + "mm"},
		{KindLength, "-5 mm", -0.005, "mm", "−5" + nb + "mm"},
		{KindLength, "− 5 mm", -0.005, "mm", "−5" + nb + "mm"},
		{KindLength, "–5 mm", -0.005, "mm", "−5" + nb + "mm"},
		{KindLength, "+5 mm", 0.005, "mm", "5" + nb + "mm"},
		{KindLength, "-0 mm", 0, "mm", "0" + nb + "mm"},
		{KindLength, ".5 mm", 0.0005, "mm", "0.5" + nb + "mm"},
		{KindLength, "5. mm", 0.005, "mm", "5" + nb + "mm"},
		{KindLength, "12 thou", 12 * 0.0254 / 1000, "thou", "12" + nb + "thou"},
		{KindLength, "12 µm", 12e-6, "µm", "12" + nb + "µm"},
		{KindLength, "12 μm", 12e-6, "µm", "12" + nb + "µm"}, // Greek letter instead of the micro sign
		{KindLength, "12 um", 12e-6, "µm", "12" + nb + "µm"},
		// masses and forces
		{KindMass, "244 kg", 244, "kg", "244" + nb + "kg"},
		{KindMass, "244KG", 244, "kg", "244" + nb + "kg"},
		{KindMass, "1.05 t", 1050, "t", "1.05" + nb + "t"},
		{KindMass, "1.250 t", 1250, "t", "1.25" + nb + "t"},
		{KindMass, "1 tonne", 1000, "t", "1" + nb + "t"},
		{KindMass, "500 g", 0.5, "g", "500" + nb + "g"},
		{KindMass, "538 lb", 538 * 0.45359237, "lb", "538" + nb + "lb"},
		{KindMass, "538 lbs.", 538 * 0.45359237, "lb", "538" + nb + "lb"},
		{KindMass, "12 st 4 lb", 172 * 0.45359237, "lb", "172" + nb + "lb"},
		{KindMass, "12 st", 168 * 0.45359237, "st", "12" + nb + "st"},
		{KindMass, "1,250,000 g", 1250, "g", "1250000" + nb + "g"},
		{KindMass, "1.2500 kg", 1.25, "kg", "1.25" + nb + "kg"},
		{KindMass, "1.2555 kg", 1.2555, "kg", "1.2555" + nb + "kg"},
		{KindMass, "1.2550 kg", 1.255, "kg", "1.2550" + nb + "kg"}, // the fourth decimal keeps it plain
		{KindMass, "1234.567 kg", 1234.567, "kg", "1234.567" + nb + "kg"},
		{KindForce, "2467 N", 2467, "N", "2467" + nb + "N"},
		{KindForce, "3.26 kN", 3260, "kN", "3.26" + nb + "kN"},
		{KindForce, "100 kgf", 980.665, "kgf", "100" + nb + "kgf"},
		// pressures
		{KindPressure, "3.5 bar", 3.5e5, "bar", "3.5" + nb + "bar"},
		{KindPressure, "3.5bar", 3.5e5, "bar", "3.5" + nb + "bar"},
		{KindPressure, "3.5 BAR", 3.5e5, "bar", "3.5" + nb + "bar"},
		{KindPressure, "3,5 bar", 3.5e5, "bar", "3.5" + nb + "bar"},
		{KindPressure, "3.5 barg", 3.5e5, "bar", "3.5" + nb + "bar"},
		{KindPressure, "3.5 bar g", 3.5e5, "bar", "3.5" + nb + "bar"},
		{KindPressure, "3.5 bar(g)", 3.5e5, "bar", "3.5" + nb + "bar"},
		{KindPressure, "3.5 bar gauge", 3.5e5, "bar", "3.5" + nb + "bar"},
		{KindPressure, "3.5 bar (e)", 3.5e5, "bar", "3.5" + nb + "bar"},
		{KindPressure, "350 kPa", 3.5e5, "kPa", "350" + nb + "kPa"},
		{KindPressure, "0.35 MPa", 3.5e5, "MPa", "0.35" + nb + "MPa"},
		{KindPressure, "1.250 bar", 1.25e5, "bar", "1.25" + nb + "bar"},
		{KindPressure, "8,830 bar", 8.83e5, "bar", "8.83" + nb + "bar"},
		{KindPressure, "-0.2 bar", -2e4, "bar", "−0.2" + nb + "bar"},
		{KindAbsPressure, "1013 mbar", 101300, "mbar a", "1013" + nb + "mbar" + nb + "a"},
		{KindAbsPressure, "1013 hPa", 101300, "hPa a", "1013" + nb + "hPa" + nb + "a"},
		{KindAbsPressure, "1.013 bar a", 101300, "bar a", "1.013" + nb + "bar" + nb + "a"},
		{KindAbsPressure, "1.013 bara", 101300, "bar a", "1.013" + nb + "bar" + nb + "a"},
		{KindAbsPressure, "1.013 bar(a)", 101300, "bar a", "1.013" + nb + "bar" + nb + "a"},
		{KindAbsPressure, "1.013 bar (abs)", 101300, "bar a", "1.013" + nb + "bar" + nb + "a"},
		{KindAbsPressure, "1 atm", 101325, "atm a", "1" + nb + "atm" + nb + "a"},
		{KindAbsPressure, "760 Torr", 101325, "Torr a", "760" + nb + "Torr" + nb + "a"},
		// temperatures
		{KindTemperature, "20 °C", 293.15, "°C", "20" + nb + "°C"},
		{KindTemperature, "20°C", 293.15, "°C", "20" + nb + "°C"},
		{KindTemperature, "20 ℃", 293.15, "°C", "20" + nb + "°C"},
		{KindTemperature, "20 ºC", 293.15, "°C", "20" + nb + "°C"}, // ordinal sign
		{KindTemperature, "20 C", 293.15, "°C", "20" + nb + "°C"},
		{KindTemperature, "20 degC", 293.15, "°C", "20" + nb + "°C"},
		{KindTemperature, "20 deg C", 293.15, "°C", "20" + nb + "°C"},
		{KindTemperature, "−40 °C", 233.15, "°C", "−40" + nb + "°C"},
		{KindTemperature, "-40 °F", 233.15, "°F", "−40" + nb + "°F"},
		{KindTemperature, "68 F", 293.15, "°F", "68" + nb + "°F"},
		{KindTemperature, "300 K", 300, "K", "300" + nb + "K"},
		{KindTemperature, "300 \u212a", 300, "K", "300" + nb + "K"}, // the sign for kelvin
		{KindTemperatureDifference, "5 K", 5, "K", "5" + nb + "K"},
		{KindTemperatureDifference, "5 °C", 5, "°C", "5" + nb + "°C"},
		{KindTemperatureDifference, "9 °F", 5, "°F", "9" + nb + "°F"},
		// angles
		{KindAngle, "1.2°", 1.2 * math.Pi / 180, "°", "1.2°"},
		{KindAngle, "1.2 deg", 1.2 * math.Pi / 180, "°", "1.2°"},
		{KindAngle, "1° 30′", 1.5 * math.Pi / 180, "°", "1.5°"},
		{KindAngle, "1°30'", 1.5 * math.Pi / 180, "°", "1.5°"},
		{KindAngle, "-1 deg 30 min", -1.5 * math.Pi / 180, "°", "−1.5°"},
		{KindAngle, `1° 30′ 36″`, 1.51 * math.Pi / 180, "°", "1.51°"},
		{KindAngle, "-0° 30′", -0.5 * math.Pi / 180, "°", "−0.5°"},
		{KindAngle, "20′", math.Pi / 540, "′", "20′"},
		{KindAngle, "0.02 rad", 0.02, "rad", "0.02" + nb + "rad"},
		// the rest
		{KindVolume, "9 L", 9e-3, "L", "9" + nb + "L"},
		{KindVolume, "9 l", 9e-3, "L", "9" + nb + "L"},
		{KindVolume, "9 litres", 9e-3, "L", "9" + nb + "L"},
		{KindVolume, "782 in³", 782 * 16.387064e-6, "in³", "782" + nb + "in³"},
		{KindVolume, "782 in^3", 782 * 16.387064e-6, "in³", "782" + nb + "in³"},
		{KindVolume, "782 cu in", 782 * 16.387064e-6, "in³", "782" + nb + "in³"},
		{KindVolume, "250 cc", 250e-6, "cm³", "250" + nb + "cm³"},
		{KindVolume, "250 mL", 250e-6, "mL", "250" + nb + "mL"},
		{KindVolume, "5 UK gal", 5 * 4.54609e-3, "gal UK", "5" + nb + "gal" + nb + "UK"},
		{KindVolume, "5 gal US", 5 * 3.785411784e-3, "gal US", "5" + nb + "gal" + nb + "US"},
		{KindConductance, "0.9 dm³/(s·bar)", 0.9e-8, "dm³/(s·bar)", "0.9" + nb + "dm³/(s·bar)"},
		{KindConductance, "0.9 dm3/(s bar)", 0.9e-8, "dm³/(s·bar)", "0.9" + nb + "dm³/(s·bar)"},
		{KindConductance, "0.9 dm³/s/bar", 0.9e-8, "dm³/(s·bar)", "0.9" + nb + "dm³/(s·bar)"},
		{KindConductance, "60 L/(min·bar)", 1e-8, "L/(min·bar)", "60" + nb + "L/(min·bar)"},
		{KindArea, "70 cm²", 70e-4, "cm²", "70" + nb + "cm²"},
		{KindArea, "70 cm2", 70e-4, "cm²", "70" + nb + "cm²"},
		{KindArea, "47.625 sq in", 47.625 * 0.00064516, "in²", "47.625" + nb + "in²"},
		{KindStiffness, "22 N/mm", 22e3, "N/mm", "22" + nb + "N/mm"},
		{KindStiffness, "1 kgf/mm", 9806.65, "kgf/mm", "1" + nb + "kgf/mm"},
		{KindFrequency, "1.25 Hz", 1.25, "Hz", "1.25" + nb + "Hz"},
		{KindFrequency, "60 1/min", 1, "cpm", "60" + nb + "cpm"},
		{KindFrequency, "120 rpm", 2, "rpm", "120" + nb + "rpm"},
		{KindSpeed, "90 km/h", 25, "km/h", "90" + nb + "km/h"},
		{KindSpeed, "90 kph", 25, "km/h", "90" + nb + "km/h"},
		{KindSpeed, "100 mph", 44.704, "mph", "100" + nb + "mph"},
		{KindEnergy, "12 kJ", 12e3, "kJ", "12" + nb + "kJ"},
		{KindEnergy, "2 Wh", 7200, "Wh", "2" + nb + "Wh"},
		{KindTime, "12 h", 43200, "h", "12" + nb + "h"},
		{KindTime, "1 h 30 min", 5400, "min", "90" + nb + "min"},
		{KindTime, "2 min 5.5 s", 125.5, "s", "125.5" + nb + "s"},
		{KindTorque, "47 Nm", 47, "N·m", "47" + nb + "N·m"},
		{KindTorque, "47 N m", 47, "N·m", "47" + nb + "N·m"},
		{KindTorque, "47 N.m", 47, "N·m", "47" + nb + "N·m"},
		{KindTorque, "47 N-m", 47, "N·m", "47" + nb + "N·m"},
		{KindTorque, "47 N⋅m", 47, "N·m", "47" + nb + "N·m"},
		{KindTorque, "10 kgf·m", 98.0665, "kgf·m", "10" + nb + "kgf·m"},
		{KindVoltage, "12.625 V", 12.625, "V", "12.625" + nb + "V"},
		{KindCurrent, "30 mA", 0.03, "mA", "30" + nb + "mA"},
		{KindResistance, "4 Ω", 4, "Ω", "4" + nb + "Ω"},
		{KindResistance, "4 \u2126", 4, "Ω", "4" + nb + "Ω"}, // the sign for ohm
		{KindResistance, "4 ohms", 4, "Ω", "4" + nb + "Ω"},
		{KindResistance, "7.7 mΩ", 0.0077, "mΩ", "7.7" + nb + "mΩ"},
		{KindResistance, "1 MΩ", 1e6, "MΩ", "1" + nb + "MΩ"},
		{KindCharge, "70 Ah", 252000, "Ah", "70" + nb + "Ah"},
		{KindCharge, "500 mAh", 1800, "mAh", "500" + nb + "mAh"},
		{KindCapacitance, "1 F", 1, "F", "1" + nb + "F"},
		{KindCapacitance, "0.22 uF", 0.22e-6, "µF", "0.22" + nb + "µF"},
		{KindCapacitance, "0.2 MFD", 0.2e-6, "µF", "0.2" + nb + "µF"},
		{KindHumidity, "65 %", 0.65, "%", "65" + nb + "%"},
		{KindHumidity, "65 % RH", 0.65, "%", "65" + nb + "%"},
		{KindRatio, "0.62", 0.62, "", "0.62"},
		{KindRatio, "0,970", 0.97, "", "0.97"},
		{KindRatio, "1.250", 1.25, "", "1.25"},
		{KindRatio, "62 %", 0.62, "%", "62" + nb + "%"},
		{KindRatio, "1 1/2", 1.5, "", "1.5"},
		{KindMassFlow, "0.5 g/s", 0.0005, "g/s", "0.5" + nb + "g/s"},
		{KindPower, "1 hp", 745.69987158227022, "hp", "1" + nb + "hp"},
		{KindPower, "1 PS", 735.49875, "PS", "1" + nb + "PS"},
	} {
		v, err := Parse(c.kind, c.text)
		if err != nil {
			t.Errorf("%s: %v", c.kind, err)
			continue
		}
		if !near(v.SI(), c.si) || v.Unit().Name() != c.unit || v.Echo() != c.echo {
			t.Errorf("%s %q: %v %q %q, expected %v %q %q", c.kind, c.text, v.SI(), v.Unit(), v.Echo(), c.si, c.unit, c.echo)
		}
		if v.Text() != c.text || v.Kind() != c.kind || v.IsZero() {
			t.Errorf("%s %q: text %q, kind %s", c.kind, c.text, v.Text(), v.Kind())
		}
		if half, ok := v.Half(); ok || half != 0 {
			t.Errorf("%q has a doubt", c.text)
		}
		if lo, hi, ok := v.Range(); ok || lo != v.SI() || hi != v.SI() {
			t.Errorf("%q has a range", c.text)
		}
	}
}

func TestExactDoubt(t *testing.T) {
	for _, c := range []struct {
		kind     Kind
		text     string
		si, half float64
		echo     string
	}{
		{KindPressure, "3.5 bar ± 0.1 bar", 3.5e5, 1e4, "3.5 bar ± 0.1 bar"},
		{KindPressure, "3.5 bar ± 0.1", 3.5e5, 1e4, "3.5 bar ± 0.1 bar"},
		{KindPressure, "3.5 ± 0.1 bar", 3.5e5, 1e4, "3.5 bar ± 0.1 bar"},
		{KindPressure, "3.5bar±0.1", 3.5e5, 1e4, "3.5 bar ± 0.1 bar"},
		{KindPressure, "3.5 bar +/- 0.1 bar", 3.5e5, 1e4, "3.5 bar ± 0.1 bar"},
		{KindPressure, "3.5 bar +- 0.1 bar", 3.5e5, 1e4, "3.5 bar ± 0.1 bar"},
		{KindPressure, "3.5 bar +\u2212 0.1 bar", 3.5e5, 1e4, "3.5 bar ± 0.1 bar"},
		{KindPressure, "3.5 bar ± 50 mbar", 3.5e5, 5e3, "3.5 bar ± 0.05 bar"},
		{KindPressure, "4 bar ± 2 %", 4e5, 8e3, "4 bar ± 0.08 bar"},
		{KindPressure, "4 bar ± 2 % of value", 4e5, 8e3, "4 bar ± 0.08 bar"},
		{KindPressure, "4 bar ± 2 percent of reading", 4e5, 8e3, "4 bar ± 0.08 bar"},
		{KindPressure, "4 ± 2 bar", 4e5, 2e5, "4 bar ± 2 bar"},
		{KindPressure, "-0.5 bar ± 2 %", -5e4, 1e3, "−0.5 bar ± 0.01 bar"},
		{KindLength, "118 mm ± 2 mm", 0.118, 0.002, "118 mm ± 2 mm"},
		{KindLength, "118 ± 2 mm", 0.118, 0.002, "118 mm ± 2 mm"},
		{KindLength, "5 ft 10 in ± 1/4 in", 1.778, 0.00635, "70 in ± 0.25 in"},
		{KindLength, "3 1/2 ± 1/16 in", 0.0889, 0.0015875, "3.5 in ± 0.0625 in"},
		{KindTemperature, "20 °C ± 0.5 K", 293.15, 0.5, "20 °C ± 0.5 °C"},
		{KindTemperature, "20 °C ± 0.5 °C", 293.15, 0.5, "20 °C ± 0.5 °C"},
		{KindTemperature, "20 °C ± 0.9 °F", 293.15, 0.5, "20 °C ± 0.5 °C"},
		{KindTemperature, "68 °F ± 1", 293.15, 5.0 / 9, "68 °F ± 1 °F"},
		{KindAngle, "−1.2° ± 0.1°", -1.2 * math.Pi / 180, 0.1 * math.Pi / 180, "−1.2° ± 0.1°"},
		{KindAngle, "-1.2 ± 0.1°", -1.2 * math.Pi / 180, 0.1 * math.Pi / 180, "−1.2° ± 0.1°"},
		{KindHumidity, "65 % ± 3 %", 0.65, 0.03, "65 % ± 3 %"}, // points, not a share
		{KindHumidity, "65 ± 3 %", 0.65, 0.03, "65 % ± 3 %"},
		{KindHumidity, "60 % ± 5 % of value", 0.60, 0.03, "60 % ± 3 %"},
		{KindRatio, "0.62 ± 0.01", 0.62, 0.01, "0.62 ± 0.01"},
		{KindRatio, "0.5 ± 1 %", 0.5, 0.005, "0.5 ± 0.005"}, // a share
		{KindRatio, "62 % ± 1 %", 0.62, 0.01, "62 % ± 1 %"},
		{KindRatio, "62 % ± 1", 0.62, 0.01, "62 % ± 1 %"},
		{KindPressure, "3.3 to 3.7 bar", 3.5e5, 2e4, "3.3 bar to 3.7 bar"},
		{KindPressure, "3.3 bar to 3.7 bar", 3.5e5, 2e4, "3.3 bar to 3.7 bar"},
		{KindPressure, "3.3 bar TO 3.7", 3.5e5, 2e4, "3.3 bar to 3.7 bar"},
		{KindPressure, "range 3.3..3.7 bar", 3.5e5, 2e4, "3.3 bar to 3.7 bar"},
		{KindPressure, "Range 3.3 to 3.7 bar", 3.5e5, 2e4, "3.3 bar to 3.7 bar"},
		{KindPressure, "3.3..3.7 bar", 3.5e5, 2e4, "3.3 bar to 3.7 bar"},
		{KindPressure, "3.3…3.7 bar", 3.5e5, 2e4, "3.3 bar to 3.7 bar"},
		{KindPressure, "3.3–3.7 bar", 3.5e5, 2e4, "3.3 bar to 3.7 bar"},
		{KindTemperature, "-5 to 5 °C", 273.15, 5, "−5 °C to 5 °C"},
		{KindTemperature, "–5–5 °C", 273.15, 5, "−5 °C to 5 °C"},
		{KindMass, "1 to 2 tonnes", 1500, 500, "1 t to 2 t"}, // "to" in tonne parts nothing
	} {
		v, err := Parse(c.kind, c.text)
		if err != nil {
			t.Errorf("%s: %v", c.kind, err)
			continue
		}
		half, ok := v.Half()
		// A doubt is a difference: its last bits are those of the value.
		if !near(v.SI(), c.si) || !ok || math.Abs(half-c.half) > 1e-15*math.Max(math.Abs(c.si), c.half) {
			t.Errorf("%s %q: %v ± %v, expected %v ± %v", c.kind, c.text, v.SI(), half, c.si, c.half)
		}
		if got := plainSpaces(v.Echo()); got != c.echo {
			t.Errorf("%s %q: echo %q, expected %q", c.kind, c.text, got, c.echo)
		}
		lo, hi, ok := v.Range()
		if !ok || math.Abs(lo-(c.si-c.half)) > 1e-12*math.Abs(c.si)+1e-15 || math.Abs(hi-(c.si+c.half)) > 1e-12*math.Abs(c.si)+1e-15 {
			t.Errorf("%s %q: range %v to %v", c.kind, c.text, lo, hi)
		}
		if v.Text() != c.text {
			t.Errorf("%q: text %q", c.text, v.Text())
		}
	}
}

func TestExactParseIn(t *testing.T) {
	for _, c := range []struct {
		kind  Kind
		shown string
		typed string
		text  string // what is kept
		si    float64
		half  float64
	}{
		{KindLength, "mm", "350", "350 mm", 0.35, 0},
		{KindLength, "mm", " 350 ", " 350 mm ", 0.35, 0},
		{KindLength, "mm", "350 ± 2", "350 ± 2 mm", 0.35, 0.002},
		{KindLength, "mm", "350 ± 2 %", "350 mm ± 2 %", 0.35, 0.007},
		{KindLength, "mm", "350 ± 2 % of value", "350 mm ± 2 % of value", 0.35, 0.007},
		{KindLength, "mm", "350 ± 2 mm", "350 ± 2 mm", 0.35, 0.002},
		{KindLength, "mm", "350 mm ± 2", "350 mm ± 2", 0.35, 0.002},
		{KindLength, "mm", "350 to 360", "350 to 360 mm", 0.355, 0.005},
		{KindLength, "mm", "14 in", "14 in", 0.3556, 0},
		{KindLength, "in", "3 1/2", "3 1/2 in", 0.0889, 0},
		{KindLength, "in", "3½", "3½ in", 0.0889, 0},
		{KindPressure, "bar", "3,5", "3,5 bar", 3.5e5, 0},
		{KindPressure, "psi", "3.5 bar", "3.5 bar", 3.5e5, 0},
		{KindAngle, "°", "-1.2", "-1.2°", -1.2 * math.Pi / 180, 0},
		{KindAngle, "°", "1° 30′", "1° 30′", 1.5 * math.Pi / 180, 0},
		{KindTemperature, "°C", "20 ± 0.5", "20 ± 0.5 °C", 293.15, 0.5},
		{KindAbsPressure, "mbar a", "1013", "1013 mbar a", 101300, 0},
		{KindHumidity, "%", "65", "65 %", 0.65, 0},
		{KindHumidity, "%", "65 ± 3", "65 ± 3 %", 0.65, 0.03},
		{KindRatio, "", "0.62", "0.62", 0.62, 0},
		{KindRatio, "%", "62", "62 %", 0.62, 0},
		{KindRatio, "%", "62 ± 2", "62 % ± 2", 0.62, 0.02},
		{KindRatio, "%", "60 to 64", "60 to 64 %", 0.62, 0.02},
		{KindRatio, "", "4 ± 2 %", "4 ± 2 % of value", 4, 0.08},
		{KindRatio, "%", "62 ± 2 %", "62 % ± 2 %", 0.62, 0.02},
		{KindFreeAirFlow, "L/min ANR", "24", "24 L/min ANR", 0.0004, 0},
		{KindFreeAirFlow, "L/min ANR", "24 L/min", "24 L/min ANR", 0.0004, 0},
		{KindFreeAirFlow, "L/min ANR", "0.4 L/s", "0.4 L/s ANR", 0.0004, 0},
		{KindFreeAirFlow, "L/min ANR", "24 L/min ± 6", "24 L/min ANR ± 6", 0.0004, 0.0001},
		{KindFreeAirFlow, "L/min ANR", "24 ± 6 L/min", "24 ± 6 L/min ANR", 0.0004, 0.0001},
		{KindFreeAirFlow, "L/min ANR", "24 L/min ± 6 L/min", "24 L/min ANR ± 6 L/min ANR", 0.0004, 0.0001},
		{KindFreeAirFlow, "L/min ANR", "18 to 30 L/min", "18 to 30 L/min ANR", 0.0004, 0.0001},
	} {
		shown, ok := UnitOf(c.kind, c.shown)
		if !ok {
			t.Fatalf("no unit %q", c.shown)
		}
		v, err := ParseIn(c.kind, c.typed, shown)
		if err != nil {
			t.Errorf("%q in %s: %v", c.typed, c.shown, err)
			continue
		}
		half, _ := v.Half()
		if v.Text() != c.text || !near(v.SI(), c.si) || math.Abs(half-c.half) > 1e-15*math.Max(c.half, math.Abs(c.si)) {
			t.Errorf("%q in %s: %q %v ± %v, expected %q %v ± %v", c.typed, c.shown, v.Text(), v.SI(), half, c.text, c.si, c.half)
		}
		again, err := Parse(c.kind, v.Text())
		if err != nil || again != v {
			t.Errorf("%q read again: %v, %v", v.Text(), again, err)
		}
	}
}

// TestExactNoShownUnit shows that a shown unit of another kind counts as none.
func TestExactNoShownUnit(t *testing.T) {
	kg, _ := UnitOf(KindMass, "kg")
	for _, shown := range []Unit{{}, kg} {
		var q *Question
		if _, err := ParseIn(KindLength, "14", shown); !errors.As(err, &q) {
			t.Errorf("14 in a box of %q: %v", shown.Name(), err)
		}
	}
}

func TestExactValueCompares(t *testing.T) {
	a, b := MustParse(KindLength, "350 mm"), MustParse(KindLength, "350 mm")
	if a != b {
		t.Error("the same text gives two values")
	}
	if a == MustParse(KindLength, "350mm") {
		t.Error("other text, same value: what was typed is lost")
	}
	var none Value
	if !none.IsZero() || none.Text() != "" || none.Echo() != "" || none.Kind() != KindNone || none.SI() != 0 {
		t.Errorf("the zero value is %#v", none)
	}
	if MustParse(KindLength, "0 mm").IsZero() {
		t.Error("a typed nought counts as nothing typed")
	}
	in, _ := UnitOf(KindLength, "in")
	if got := MustParse(KindLength, "355.6 mm").In(in); !near(got, 14) {
		t.Errorf("355.6 mm is %v in", got)
	}
	kg, _ := UnitOf(KindMass, "kg")
	if got := a.In(kg); got != a.SI() {
		t.Errorf("a length in kg is %v", got)
	}
}

func TestExactMustParse(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("MustParse took a text with two meanings")
		}
	}()
	MustParse(KindPressure, "100")
}
