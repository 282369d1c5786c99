package quantity

import (
	"math"
	"strings"
)

// Factors that are exact by definition. Sources: nist-sp811, NIST Special
// Publication 811 (2008), appendix B.8 and B.9; bipm-si, The International
// System of Units, 9th edition.
const (
	inch        = 0.0254                  // [m]
	foot        = 12 * inch               // [m]
	mile        = 5280 * foot             // [m]
	pound       = 0.45359237              // [kg]
	poundForce  = pound * 9.80665         // [N]
	cubicInch   = inch * inch * inch      // [m³]
	cubicFoot   = foot * foot * foot      // [m³]
	gallonUK    = 4.54609e-3              // [m³]
	gallonUS    = 231 * cubicInch         // [m³]
	mercury     = 13595.1 * 9.80665       // [Pa/m] conventional column
	waterColumn = 1000 * 9.80665          // [Pa/m] conventional column
	horsepower  = 550 * foot * poundForce // [W]
)

// unitTable holds the units of all kinds but the pressures and the flows of
// free air, which are made in pressureUnits and flowUnits. In each kind the
// unit mostly used here comes first.
var unitTable = []unitRow{
	{kind: KindLength, name: "mm", mul: 1, div: 1e3, digits: 0, also: "millimetre|millimetres|millimeter|millimeters"},
	{kind: KindLength, name: "cm", mul: 1, div: 1e2, digits: 1, also: "centimetre|centimetres|centimeter|centimeters"},
	{kind: KindLength, name: "m", mul: 1, div: 1, digits: 3, also: "metre|metres|meter|meters"},
	{kind: KindLength, name: "in", mul: 127, div: 5e3, digits: 2, also: "″|inch|inches|ins"},
	{kind: KindLength, name: "ft", mul: 381, div: 1250, digits: 2, also: "′|foot|feet"},
	{kind: KindLength, name: "µm", mul: 1, div: 1e6, digits: 0, also: "micron|microns"},
	{kind: KindLength, name: "thou", mul: 127, div: 5e6, digits: 0},
	{kind: KindLength, name: "km", mul: 1e3, div: 1, digits: 0},
	{kind: KindLength, name: "mi", mul: mile, div: 1, digits: 0, also: "mile|miles"},

	{kind: KindMass, name: "kg", mul: 1, div: 1, digits: 0, also: "kgs|kilo|kilos|kilogram|kilograms"},
	{kind: KindMass, name: "g", mul: 1, div: 1e3, digits: 0, also: "gram|grams"},
	{kind: KindMass, name: "t", mul: 1e3, div: 1, digits: 3, also: "tonne|tonnes"},
	{kind: KindMass, name: "lb", mul: pound, div: 1, digits: 0, also: "lbs|pound|pounds"},
	{kind: KindMass, name: "st", mul: 14 * pound, div: 1, digits: 1, also: "stone|stones"},
	{kind: KindMass, name: "oz", mul: pound, div: 16, digits: 1, also: "ounce|ounces"},
	{kind: KindMass, name: "ton UK", mul: 2240 * pound, div: 1, digits: 3, also: "UK·ton|UK·tons|tons·UK|long·ton|long·tons"},
	{kind: KindMass, name: "ton US", mul: 2000 * pound, div: 1, digits: 3, also: "US·ton|US·tons|tons·US|short·ton|short·tons"},

	{kind: KindForce, name: "N", mul: 1, div: 1, digits: 0, also: "newton|newtons"},
	{kind: KindForce, name: "kN", mul: 1e3, div: 1, digits: 2},
	{kind: KindForce, name: "lbf", mul: poundForce, div: 1, digits: 0, also: "lb·f"},
	{kind: KindForce, name: "kgf", mul: StandardGravity, div: 1, digits: 0, also: "kg·f|kp"},
	{kind: KindForce, name: "daN", mul: 10, div: 1, digits: 0},

	{kind: KindTemperature, name: "°C", mul: 1, div: 1, pre: 273.15, digits: 1, also: "C|deg·C|degC|degrees·C|Celsius|deg·Celsius|°·Celsius"},
	{kind: KindTemperature, name: "°F", mul: 5, div: 9, pre: 459.67, digits: 0, also: "F|deg·F|degF|degrees·F|Fahrenheit|deg·Fahrenheit|°·Fahrenheit"},
	{kind: KindTemperature, name: "K", mul: 1, div: 1, digits: 1, also: "kelvin"},

	{kind: KindTemperatureDifference, name: "K", mul: 1, div: 1, digits: 1, also: "kelvin"},
	{kind: KindTemperatureDifference, name: "°C", mul: 1, div: 1, digits: 1, also: "C|deg·C|degC|degrees·C|Celsius"},
	{kind: KindTemperatureDifference, name: "°F", mul: 5, div: 9, digits: 0, also: "F|deg·F|degF|degrees·F|Fahrenheit"},

	{kind: KindAngle, name: "°", mul: math.Pi, div: 180, digits: 1, also: "deg|degs|degree|degrees"},
	{kind: KindAngle, name: "′", mul: math.Pi, div: 180 * 60, digits: 0, also: "min|arcmin|minute|minutes"},
	{kind: KindAngle, name: "″", mul: math.Pi, div: 180 * 3600, digits: 0, also: "arcsec|sec|second|seconds"},
	{kind: KindAngle, name: "rad", mul: 1, div: 1, digits: 3, also: "radian|radians"},
	{kind: KindAngle, name: "mrad", mul: 1, div: 1e3, digits: 0},

	{kind: KindVolume, name: "L", mul: 1, div: 1e3, digits: 2, also: "l|ltr|litre|litres|liter|liters|dm³|cu·dm"},
	{kind: KindVolume, name: "mL", mul: 1, div: 1e6, digits: 0, also: "ml"},
	{kind: KindVolume, name: "cm³", mul: 1, div: 1e6, digits: 0, also: "cc|ccm|cu·cm"},
	{kind: KindVolume, name: "in³", mul: cubicInch, div: 1, digits: 1, also: "cu·in|cu·inch|cu·inches|cubic·in|cubic·inch|cubic·inches"},
	{kind: KindVolume, name: "gal UK", mul: gallonUK, div: 1, digits: 2, also: "UK·gal|imp·gal|gal·imp|UK·gallon|UK·gallons|imperial·gallon|imperial·gallons|gal(UK)"},
	{kind: KindVolume, name: "gal US", mul: gallonUS, div: 1, digits: 2, also: "US·gal|US·gallon|US·gallons|gal(US)"},
	{kind: KindVolume, name: "ft³", mul: cubicFoot, div: 1, digits: 3, also: "cu·ft|cubic·ft|cubic·foot|cubic·feet"},
	{kind: KindVolume, name: "m³", mul: 1, div: 1, digits: 4, also: "cu·m"},
	{kind: KindVolume, name: "mm³", mul: 1, div: 1e9, digits: 0},

	{kind: KindConductance, name: "dm³/(s·bar)", mul: 1, div: 1e8, digits: 3, also: "dm³/s/bar|dm³/s·bar|L/(s·bar)|L/s/bar|L/s·bar"},
	{kind: KindConductance, name: "L/(min·bar)", mul: 1, div: 6e9, digits: 1, also: "L/min/bar|L/min·bar|dm³/(min·bar)"},
	{kind: KindConductance, name: "m³/(s·Pa)", mul: 1, div: 1, digits: 11, also: "m³/s/Pa|m³/s·Pa"},

	{kind: KindArea, name: "cm²", mul: 1, div: 1e4, digits: 1, also: "sq·cm"},
	{kind: KindArea, name: "mm²", mul: 1, div: 1e6, digits: 1, also: "sq·mm"},
	{kind: KindArea, name: "m²", mul: 1, div: 1, digits: 4, also: "sq·m"},
	{kind: KindArea, name: "in²", mul: inch * inch, div: 1, digits: 2, also: "sq·in|square·inch|square·inches"},
	{kind: KindArea, name: "ft²", mul: foot * foot, div: 1, digits: 2, also: "sq·ft"},

	{kind: KindStiffness, name: "N/mm", mul: 1e3, div: 1, digits: 1},
	{kind: KindStiffness, name: "N/m", mul: 1, div: 1, digits: 0},
	{kind: KindStiffness, name: "kN/m", mul: 1e3, div: 1, digits: 1},
	{kind: KindStiffness, name: "lbf/in", mul: poundForce, div: inch, digits: 0, also: "lb/in|lbs/in"},
	{kind: KindStiffness, name: "kgf/mm", mul: 1e3 * StandardGravity, div: 1, digits: 2, also: "kg/mm|kp/mm"},
	{kind: KindStiffness, name: "kgf/cm", mul: 1e2 * StandardGravity, div: 1, digits: 1, also: "kg/cm|kp/cm"},

	{kind: KindFrequency, name: "Hz", mul: 1, div: 1, digits: 2, also: "hertz|1/s|/s"},
	{kind: KindFrequency, name: "kHz", mul: 1e3, div: 1, digits: 2},
	{kind: KindFrequency, name: "MHz", mul: 1e6, div: 1, digits: 1},
	{kind: KindFrequency, name: "cpm", mul: 1, div: 60, digits: 0, also: "1/min|/min|c/min|cycles/min"},
	{kind: KindFrequency, name: "rpm", mul: 1, div: 60, digits: 0, also: "r/min|rev/min|U/min"},

	{kind: KindSpeed, name: "km/h", mul: 1e3, div: 3600, digits: 0, also: "kmh|kph|km/hr"},
	{kind: KindSpeed, name: "mph", mul: mile, div: 3600, digits: 0, also: "mi/h|mile/h|miles/h"},
	{kind: KindSpeed, name: "m/s", mul: 1, div: 1, digits: 2},
	{kind: KindSpeed, name: "mm/s", mul: 1, div: 1e3, digits: 1},
	{kind: KindSpeed, name: "in/s", mul: inch, div: 1, digits: 2},
	{kind: KindSpeed, name: "ft/s", mul: foot, div: 1, digits: 2},

	{kind: KindEnergy, name: "J", mul: 1, div: 1, digits: 0, also: "joule|joules"},
	{kind: KindEnergy, name: "kJ", mul: 1e3, div: 1, digits: 1},
	{kind: KindEnergy, name: "MJ", mul: 1e6, div: 1, digits: 3},
	{kind: KindEnergy, name: "Wh", mul: 3600, div: 1, digits: 1, also: "W·h"},
	{kind: KindEnergy, name: "kWh", mul: 3600e3, div: 1, digits: 2, also: "kW·h"},
	{kind: KindEnergy, name: "ft·lbf", mul: foot * poundForce, div: 1, digits: 0, also: "ft·lb|ft·lbs"},

	{kind: KindTime, name: "s", mul: 1, div: 1, digits: 1, also: "sec|secs|second|seconds"},
	{kind: KindTime, name: "min", mul: 60, div: 1, digits: 0, also: "mins|minute|minutes"},
	{kind: KindTime, name: "h", mul: 3600, div: 1, digits: 1, also: "hr|hrs|hour|hours"},
	{kind: KindTime, name: "d", mul: 86400, div: 1, digits: 1, also: "day|days"},
	{kind: KindTime, name: "ms", mul: 1, div: 1e3, digits: 1},
	{kind: KindTime, name: "µs", mul: 1, div: 1e6, digits: 0},

	{kind: KindTorque, name: "N·m", mul: 1, div: 1, digits: 0},
	{kind: KindTorque, name: "lbf·ft", mul: poundForce * foot, div: 1, digits: 0, also: "lb·ft|lbs·ft|ft·lb|ft·lbs|ft·lbf"},
	{kind: KindTorque, name: "lbf·in", mul: poundForce * inch, div: 1, digits: 0, also: "lb·in|lbs·in|in·lb|in·lbs|in·lbf"},
	{kind: KindTorque, name: "kgf·m", mul: StandardGravity, div: 1, digits: 1, also: "kg·m|m·kg|m·kgf|kp·m|m·kp"},
	{kind: KindTorque, name: "kgf·cm", mul: StandardGravity, div: 100, digits: 0, also: "kg·cm"},

	{kind: KindVoltage, name: "V", mul: 1, div: 1, digits: 2, also: "volt|volts"},
	{kind: KindVoltage, name: "mV", mul: 1, div: 1e3, digits: 0, also: "millivolt|millivolts"},
	{kind: KindVoltage, name: "µV", mul: 1, div: 1e6, digits: 0},

	{kind: KindCurrent, name: "A", mul: 1, div: 1, digits: 1, also: "amp|amps|ampere|amperes"},
	{kind: KindCurrent, name: "mA", mul: 1, div: 1e3, digits: 0, also: "milliamp|milliamps"},
	{kind: KindCurrent, name: "µA", mul: 1, div: 1e6, digits: 0},

	{kind: KindResistance, name: "Ω", mul: 1, div: 1, digits: 2, also: "ohm|ohms"},
	{kind: KindResistance, name: "mΩ", mul: 1, div: 1e3, digits: 1, also: "mohm|mohms|milliohm|milliohms"},
	{kind: KindResistance, name: "kΩ", mul: 1e3, div: 1, digits: 2, also: "kohm|kohms|kilohm|kilohms"},
	{kind: KindResistance, name: "MΩ", mul: 1e6, div: 1, digits: 2, also: "Mohm|Mohms|megohm|megohms"},

	{kind: KindCharge, name: "Ah", mul: 3600, div: 1, digits: 1, also: "A·h|amp·h|amp·hour|amp·hours"},
	{kind: KindCharge, name: "mAh", mul: 18, div: 5, digits: 0, also: "mA·h"},
	{kind: KindCharge, name: "C", mul: 1, div: 1, digits: 0, also: "coulomb|coulombs|A·s"},

	{kind: KindCapacitance, name: "F", mul: 1, div: 1, digits: 2, also: "farad|farads"},
	{kind: KindCapacitance, name: "mF", mul: 1, div: 1e3, digits: 1},
	{kind: KindCapacitance, name: "µF", mul: 1, div: 1e6, digits: 2, also: "mfd|microfarad|microfarads"},
	{kind: KindCapacitance, name: "nF", mul: 1, div: 1e9, digits: 1},
	{kind: KindCapacitance, name: "pF", mul: 1, div: 1e12, digits: 0},

	{kind: KindHumidity, name: "%", mul: 1, div: 100, digits: 0, also: "%·RH|%·rel.·hum.|per·cent|percent"},

	{kind: KindRatio, name: "", mul: 1, div: 1, digits: 3},
	{kind: KindRatio, name: "%", mul: 1, div: 100, digits: 1, also: "per·cent|percent"},

	{kind: KindMassFlow, name: "g/s", mul: 1, div: 1e3, digits: 2},
	{kind: KindMassFlow, name: "kg/s", mul: 1, div: 1, digits: 5},
	{kind: KindMassFlow, name: "g/min", mul: 1, div: 6e4, digits: 1},
	{kind: KindMassFlow, name: "kg/min", mul: 1, div: 60, digits: 3},
	{kind: KindMassFlow, name: "kg/h", mul: 1, div: 3600, digits: 2},
	{kind: KindMassFlow, name: "lb/min", mul: pound, div: 60, digits: 3, also: "lbs/min"},

	{kind: KindPower, name: "W", mul: 1, div: 1, digits: 0, also: "watt|watts"},
	{kind: KindPower, name: "kW", mul: 1e3, div: 1, digits: 2},
	{kind: KindPower, name: "mW", mul: 1, div: 1e3, digits: 0},
	{kind: KindPower, name: "hp", mul: horsepower, div: 1, digits: 1, also: "bhp"},
	{kind: KindPower, name: "PS", mul: 75 * StandardGravity, div: 1, digits: 1, also: "cv|pk"},
}

// manyMeanings lists spellings that have several meanings within their kind.
var manyMeanings = []struct {
	kind  Kind
	also  string
	units string
}{
	{KindTemperature, "°|deg|degs|degree|degrees", "°F|°C"},
	{KindTemperatureDifference, "°|deg|degs|degree|degrees", "°F|K"},
	{KindVolume, "gal|gals|gallon|gallons", "gal UK|gal US"},
	{KindMass, "ton|tons", "t|ton UK|ton US"},
	{KindCapacitance, "mf|MF|Mf", "µF|mF"},
	{KindFreeAirFlow, "scfm", "ft³/min at 14.696 psi a, 68 °F|ft³/min at 14.696 psi a, 60 °F|ft³/min at 14.5 psi a, 68 °F"},
	{KindFreeAirFlow, "slm|slpm|sL/min", "L/min DIN 1343|L/min at 1.013 bar, 20 °C"},
}

// wrongKindHint says what somebody most likely means by a unit of another
// kind, by kind and lower-case unit.
var wrongKindHint = map[Kind]map[string]string{
	KindForce:    {"lb": "lbf", "lbs": "lbf", "kg": "kgf", "kgs": "kgf"},
	KindPressure: {"lb": "psi", "lbs": "psi", "kg": "kgf/cm²"},
	KindTime:     {"m": "min"},
	KindEnergy:   {"nm": "J"},
}

// pressureUnits makes each unit of pressure twice: as gauge, whose name stands
// alone, and as absolute, whose name says so ("bar a"). In a box for an
// absolute pressure the plain name is read as absolute, because the box says
// so; a name that says gauge is refused there, and the other way round.
func pressureUnits() []*unitRow {
	base := []unitRow{
		{name: "bar", mul: 1e5, div: 1, digits: 2},
		{name: "psi", mul: poundForce, div: inch * inch, digits: 1, also: "lbf/in²|lb/in²|lbs/in²|lb/sq·in|lbf/sq·in"},
		{name: "kPa", mul: 1e3, div: 1, digits: 0},
		{name: "MPa", mul: 1e6, div: 1, digits: 3},
		{name: "mbar", mul: 1e2, div: 1, digits: 0, also: "millibar"},
		{name: "hPa", mul: 1e2, div: 1, digits: 0},
		{name: "Pa", mul: 1, div: 1, digits: 0, also: "pascal"},
		{name: "kgf/cm²", mul: 1e4 * StandardGravity, div: 1, digits: 2, also: "kg/cm²|kp/cm²"},
		{name: "inHg", mul: mercury * inch, div: 1, digits: 2, also: "in·Hg|″Hg"},
		{name: "mmHg", mul: mercury, div: 1e3, digits: 0, also: "mm·Hg"},
		{name: "inH₂O", mul: waterColumn * inch, div: 1, digits: 1, also: "in·H2O|inH2O"},
	}
	var out []*unitRow
	for _, b := range base {
		g := b
		g.kind = KindPressure
		g.also = marked(b, "·g|(g)|·gauge|(gauge)|(e)")
		out = append(out, &g)
	}
	base = append(base,
		unitRow{name: "atm", mul: 101325, div: 1, digits: 4},
		unitRow{name: "Torr", mul: 101325, div: 760, digits: 0})
	for _, b := range base {
		a := b
		a.kind = KindAbsPressure
		a.name = b.name + " a"
		a.also = b.name + "|" + marked(b, "·a|(a)|·abs|(abs)|·absolute|(absolute)")
		out = append(out, &a)
	}
	return out
}

func marked(b unitRow, marks string) string {
	var forms []string
	for form := range strings.SplitSeq(b.name+"|"+b.also, "|") {
		if form == "" {
			continue
		}
		forms = append(forms, form)
		for mark := range strings.SplitSeq(marks, "|") {
			forms = append(forms, form+mark)
		}
	}
	return strings.Join(forms, "|")
}
