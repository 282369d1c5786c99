package quantity_test

import (
	"math"
	"math/big"
	"testing"

	. "jounce/quantity"
)

// TestExactFactors holds each factor against its definition as a fraction of
// whole numbers.
func TestExactFactors(t *testing.T) {
	for _, c := range []struct {
		kind Kind
		unit string
		is   string // exact, in SI
	}{
		{KindLength, "mm", "1/1000"}, {KindLength, "cm", "1/100"}, {KindLength, "in", "254/10000"},
		{KindLength, "ft", "3048/10000"}, {KindLength, "mi", "1609344/1000"}, {KindLength, "thou", "254/10000000"},
		{KindLength, "µm", "1/1000000"}, {KindLength, "km", "1000"}, {KindLength, "m", "1"},
		{KindMass, "g", "1/1000"}, {KindMass, "t", "1000"}, {KindMass, "lb", "45359237/100000000"},
		{KindMass, "st", "635029318/100000000"}, {KindMass, "oz", "28349523125/1000000000000"},
		{KindMass, "ton UK", "10160469088/10000000"}, {KindMass, "ton US", "90718474/100000"},
		{KindForce, "lbf", "44482216152605/10000000000000"}, {KindForce, "kgf", "980665/100000"},
		{KindForce, "kN", "1000"}, {KindForce, "daN", "10"},
		{KindPressure, "bar", "100000"}, {KindPressure, "mbar", "100"}, {KindPressure, "hPa", "100"},
		{KindPressure, "kPa", "1000"}, {KindPressure, "MPa", "1000000"}, {KindPressure, "Pa", "1"},
		{KindPressure, "psi", "44482216152605/6451600000"}, {KindPressure, "kgf/cm²", "980665/10"},
		{KindPressure, "mmHg", "133322387415/1000000000"}, {KindPressure, "inHg", "3386388640341/1000000000"},
		{KindPressure, "inH₂O", "24908891/100000"},
		{KindAbsPressure, "bar a", "100000"}, {KindAbsPressure, "psi a", "44482216152605/6451600000"},
		{KindAbsPressure, "atm a", "101325"}, {KindAbsPressure, "Torr a", "101325/760"},
		{KindTemperatureDifference, "K", "1"}, {KindTemperatureDifference, "°C", "1"}, {KindTemperatureDifference, "°F", "5/9"},
		{KindVolume, "L", "1/1000"}, {KindVolume, "mL", "1/1000000"}, {KindVolume, "cm³", "1/1000000"},
		{KindVolume, "in³", "16387064/1000000000000"}, {KindVolume, "ft³", "28316846592/1000000000000"},
		{KindVolume, "gal UK", "454609/100000000"}, {KindVolume, "gal US", "3785411784/1000000000000"},
		{KindVolume, "mm³", "1/1000000000"}, {KindVolume, "m³", "1"},
		{KindConductance, "dm³/(s·bar)", "1/100000000"}, {KindConductance, "L/(min·bar)", "1/6000000000"},
		{KindArea, "cm²", "1/10000"}, {KindArea, "mm²", "1/1000000"}, {KindArea, "in²", "64516/100000000"},
		{KindArea, "ft²", "9290304/100000000"}, {KindArea, "m²", "1"},
		{KindStiffness, "N/mm", "1000"}, {KindStiffness, "kN/m", "1000"}, {KindStiffness, "lbf/in", "44482216152605/254000000000"},
		{KindStiffness, "kgf/mm", "980665/100"}, {KindStiffness, "kgf/cm", "980665/1000"},
		{KindFrequency, "kHz", "1000"}, {KindFrequency, "MHz", "1000000"}, {KindFrequency, "cpm", "1/60"}, {KindFrequency, "rpm", "1/60"},
		{KindSpeed, "km/h", "10/36"}, {KindSpeed, "mph", "44704/100000"}, {KindSpeed, "mm/s", "1/1000"},
		{KindSpeed, "in/s", "254/10000"}, {KindSpeed, "ft/s", "3048/10000"},
		{KindEnergy, "kJ", "1000"}, {KindEnergy, "MJ", "1000000"}, {KindEnergy, "Wh", "3600"}, {KindEnergy, "kWh", "3600000"},
		{KindEnergy, "ft·lbf", "13558179483314004/10000000000000000"},
		{KindTime, "min", "60"}, {KindTime, "h", "3600"}, {KindTime, "d", "86400"}, {KindTime, "ms", "1/1000"}, {KindTime, "µs", "1/1000000"},
		{KindTorque, "lbf·ft", "13558179483314004/10000000000000000"}, {KindTorque, "kgf·m", "980665/100000"},
		{KindTorque, "kgf·cm", "980665/10000000"}, {KindTorque, "lbf·in", "1129848290276167/10000000000000000"},
		{KindVoltage, "mV", "1/1000"}, {KindVoltage, "µV", "1/1000000"}, {KindCurrent, "mA", "1/1000"}, {KindCurrent, "µA", "1/1000000"},
		{KindResistance, "mΩ", "1/1000"}, {KindResistance, "kΩ", "1000"}, {KindResistance, "MΩ", "1000000"},
		{KindCharge, "Ah", "3600"}, {KindCharge, "mAh", "36/10"}, {KindCharge, "C", "1"},
		{KindCapacitance, "mF", "1/1000"}, {KindCapacitance, "µF", "1/1000000"}, {KindCapacitance, "nF", "1/1000000000"}, {KindCapacitance, "pF", "1/1000000000000"},
		{KindHumidity, "%", "1/100"}, {KindRatio, "", "1"}, {KindRatio, "%", "1/100"},
		{KindMassFlow, "g/s", "1/1000"}, {KindMassFlow, "g/min", "1/60000"}, {KindMassFlow, "kg/h", "1/3600"},
		{KindMassFlow, "kg/min", "1/60"}, {KindMassFlow, "lb/min", "45359237/6000000000"},
		{KindPower, "kW", "1000"}, {KindPower, "mW", "1/1000"}, {KindPower, "hp", "74569987158227022/100000000000000"}, {KindPower, "PS", "73549875/100000"},
		{KindFreeAirFlow, "L/min ANR", "1/60000"}, {KindFreeAirFlow, "mL/min ANR", "1/60000000"}, {KindFreeAirFlow, "m³/h ANR", "1/3600"},
		{KindFreeAirFlow, "ft³/min ANR", "28316846592/60000000000000"},
	} {
		u, ok := UnitOf(c.kind, c.unit)
		if !ok {
			t.Errorf("%s: no unit %q", c.kind, c.unit)
			continue
		}
		r, ok := new(big.Rat).SetString(c.is)
		if !ok {
			t.Fatal(c.is)
		}
		want, _ := r.Float64()
		if got := u.ToSI(1); !near(got, want) {
			t.Errorf("1 %s is %v, expected %v", c.unit, got, want)
		}
		if got := u.WidthToSI(1); !near(got, want) {
			t.Errorf("a width of 1 %s is %v, expected %v", c.unit, got, want)
		}
	}
}

// TestExactRounding shows that a typed decimal in millimetres is the float64
// nearest to it in metres: the factor adds no error of its own.
func TestExactRounding(t *testing.T) {
	mm, _ := UnitOf(KindLength, "mm")
	for i := range 5000 {
		want, _ := big.NewRat(int64(i), 1000).Float64()
		if got := mm.ToSI(float64(i)); got != want {
			t.Fatalf("%d mm is %v, expected %v", i, got, want)
		}
	}
}

func TestExactTemperatures(t *testing.T) {
	for _, c := range []struct{ c, f, k float64 }{
		{0, 32, 273.15}, {100, 212, 373.15}, {-40, -40, 233.15}, {20, 68, 293.15}, {-273.15, -459.67, 0}, {37, 98.6, 310.15},
	} {
		for unit, x := range map[string]float64{"°C": c.c, "°F": c.f, "K": c.k} {
			u, _ := UnitOf(KindTemperature, unit)
			if got := u.ToSI(x); math.Abs(got-c.k) > 1e-12 {
				t.Errorf("%v %s is %v K", x, unit, got)
			}
			if got := u.FromSI(c.k); math.Abs(got-x) > 1e-12 {
				t.Errorf("%v K is %v %s, expected %v", c.k, got, unit, x)
			}
		}
	}
}

// TestExactEveryUnit goes through all units of all kinds.
func TestExactEveryUnit(t *testing.T) {
	for _, k := range Kinds() {
		names := map[string]bool{}
		if k.Main() != k.Units()[0] {
			t.Errorf("%s: the main unit is not the first", k)
		}
		for _, u := range k.Units() {
			if u.Kind() != k || u.IsZero() || u.String() != u.Name() {
				t.Errorf("%s: unit %q has kind %s", k, u, u.Kind())
			}
			if names[u.Name()] {
				t.Errorf("%s: two units %q", k, u)
			}
			names[u.Name()] = true
			if got, ok := UnitOf(k, u.Name()); !ok || got != u {
				t.Errorf("%s: UnitOf(%q) is %q", k, u, got)
			}
			if d := u.Digits(); d < 0 || d > 12 {
				t.Errorf("%s: %d digits", u, d)
			}
			for _, x := range []float64{1, 0.62, 17.3, 99} {
				if got := u.FromSI(u.ToSI(x)); math.Abs(got-x) > 1e-12*math.Max(x, math.Abs(u.FromSI(0))) {
					t.Errorf("%v %s comes back as %v", x, u, got)
				}
				if got := u.WidthFromSI(u.WidthToSI(x)); !nearly(got, x) {
					t.Errorf("a width of %v %s comes back as %v", x, u, got)
				}
			}
			v, err := Parse(k, "1 "+u.Name())
			if err != nil {
				t.Errorf("%s: %v", k, err)
			} else if v.Unit() != u || v.SI() != u.ToSI(1) {
				t.Errorf("%s: 1 %s is read as %s", k, u, v.Echo())
			}
		}
	}
}

func nearly(a, b float64) bool { return math.Abs(a-b) <= 1e-14*math.Max(math.Abs(a), math.Abs(b)) }

func TestExactUnitOf(t *testing.T) {
	for _, c := range []struct {
		kind       Kind
		name, want string // want "-": none
	}{
		{KindLength, "inch", "in"}, {KindLength, "MM", "mm"}, {KindLength, "Mm", "mm"}, {KindLength, "", "-"},
		{KindLength, "kg", "-"}, {KindLength, "mm\x00", "-"}, {KindLength, "m m", "-"}, {KindLength, "·", "-"},
		{KindVolume, "gal", "-"}, {KindVolume, "imp gal", "gal UK"}, {KindTemperature, "°", "-"},
		{KindPressure, "psig", "psi"}, {KindPressure, "psia", "-"}, {KindAbsPressure, "psia", "psi a"},
		{KindPressure, "lb/in²", "psi"}, {KindPressure, "MPA", "MPa"}, {KindPressure, "mPa", "-"},
		{KindResistance, "mω", "-"}, {KindRatio, "", ""}, {KindNone, "mm", "-"}, {Kind(99), "mm", "-"},
		{KindFreeAirFlow, "NL/min", "L/min DIN 1343"}, {KindFreeAirFlow, "Nm3/h", "m³/h DIN 1343"},
		{KindFreeAirFlow, "sccm", "mL/min DIN 1343"}, {KindFreeAirFlow, "cfm (ANR)", "ft³/min ANR"},
		{KindFreeAirFlow, "l/min anr", "L/min ANR"}, {KindFreeAirFlow, "L/min DIN1343", "L/min DIN 1343"},
		{KindFreeAirFlow, "L/min", "-"}, {KindFreeAirFlow, "mbar L/s at 20°C", "mbar·L/s at 20 °C"},
	} {
		u, ok := UnitOf(c.kind, c.name)
		if ok != (c.want != "-") || ok && u.Name() != c.want {
			t.Errorf("UnitOf(%s, %q) is %q, %v; expected %q", c.kind, c.name, u, ok, c.want)
		}
	}
	var none Unit
	if none.Name() != "" || none.Kind() != KindNone || none.ToSI(3) != 3 || none.FromSI(3) != 3 ||
		none.WidthToSI(3) != 3 || none.WidthFromSI(3) != 3 || none.Digits() != 0 {
		t.Error("the zero unit changes a number")
	}
}

// TestPinnedKindNames holds the names that stand in files: they never change.
func TestPinnedKindNames(t *testing.T) {
	want := []string{"length", "mass", "force", "pressure", "absolute-pressure", "temperature",
		"temperature-difference", "angle", "volume", "free-air-flow", "conductance", "area", "stiffness",
		"frequency", "speed", "energy", "time", "torque", "voltage", "current", "resistance", "charge",
		"capacitance", "humidity", "ratio", "mass-flow", "power"}
	kinds := Kinds()
	if len(kinds) != len(want) {
		t.Fatalf("%d kinds, expected %d", len(kinds), len(want))
	}
	for i, k := range kinds {
		if k.String() != want[i] {
			t.Errorf("kind %d is %q, expected %q", i, k, want[i])
		}
		if back, ok := KindOf(want[i]); !ok || back != k {
			t.Errorf("KindOf(%q) is %v", want[i], back)
		}
		if v, err := Parse(k, k.Example()); err != nil || v.Kind() != k {
			t.Errorf("the example of %s is not read: %v", k, err)
		}
		if k.Words() == "" || k.Words() == KindNone.Words() {
			t.Errorf("%s has no words", k)
		}
	}
	for _, name := range []string{"", "none", "Length", "weight"} {
		if k, ok := KindOf(name); ok {
			t.Errorf("KindOf(%q) is %s", name, k)
		}
	}
	for _, k := range []Kind{KindNone, -1, 99} {
		if k.String() != "none" || k.Units() != nil || !k.Main().IsZero() {
			t.Errorf("kind %d is %s with units", int(k), k)
		}
	}
}

// TestExactUnitsAreACopy shows that a caller cannot change the table.
func TestExactUnitsAreACopy(t *testing.T) {
	KindLength.Units()[0] = Unit{}
	if KindLength.Main().IsZero() {
		t.Error("the table of units was changed from outside")
	}
}
