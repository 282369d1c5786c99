package quantity

// Kind says what a value measures. The zero Kind is none of them.
type Kind int

// The kinds, with the SI unit in which [Value.SI] gives them.
const (
	KindNone                  Kind = iota
	KindLength                     // [m]
	KindMass                       // [kg]
	KindForce                      // [N]
	KindPressure                   // [Pa] above the barometer (gauge)
	KindAbsPressure                // [Pa] above vacuum
	KindTemperature                // [K]
	KindTemperatureDifference      // [K]
	KindAngle                      // [rad]
	KindVolume                     // [m³]
	KindFreeAirFlow                // [m³/s] of air at ANR with the same mass
	KindConductance                // [m³/(s·Pa)] sonic conductance of ISO 6358
	KindArea                       // [m²]
	KindStiffness                  // [N/m]
	KindFrequency                  // [Hz]
	KindSpeed                      // [m/s]
	KindEnergy                     // [J]
	KindTime                       // [s]
	KindTorque                     // [N·m]
	KindVoltage                    // [V]
	KindCurrent                    // [A]
	KindResistance                 // [Ω]
	KindCharge                     // [C]
	KindCapacitance                // [F]
	KindHumidity                   // [1] relative humidity, 0 to 1
	KindRatio                      // [1]
	KindMassFlow                   // [kg/s]
	KindPower                      // [W]
	kindCount
)

// kindRow is what the package knows about one kind.
type kindRow struct {
	name    string  // stable name in files
	words   string  // with its article, for sentences
	example string  // a text that Parse accepts
	ask     string  // names of the units offered for a bare number, "|" between
	most    float64 // largest value that the trade meets [SI]; see package comment
	least   float64 // nothing below it exists [SI]; −Inf is written as noLeast
	floor   string  // why nothing is below least
}

const noLeast = -1e300

var kindTable = [kindCount]kindRow{
	KindNone:                  {name: "none", words: "a value", example: "350 mm", least: noLeast},
	KindLength:                {"length", "a length", "350 mm", "in|mm", 10, noLeast, ""},
	KindMass:                  {"mass", "a mass", "244 kg", "lb|kg", 10e3, noLeast, ""},
	KindForce:                 {"force", "a force", "2467 N", "lbf|N", 50e3, noLeast, ""},
	KindPressure:              {"pressure", "a gauge pressure", "3.5 bar", "psi|bar", 250e5, -1.1e5, "a gauge pressure cannot lie below vacuum"},
	KindAbsPressure:           {"absolute-pressure", "an absolute pressure", "1013 mbar a", "psi a|bar a", 250e5, 0, "an absolute pressure cannot be negative"},
	KindTemperature:           {"temperature", "a temperature", "20 °C", "°F|°C", 1200, 0, "nothing is colder than −273.15 °C"},
	KindTemperatureDifference: {"temperature-difference", "a temperature difference", "5 K", "°F|K", 1000, noLeast, ""},
	KindAngle:                 {"angle", "an angle", "1.2°", "°|′", 6.3, noLeast, ""},
	KindVolume:                {"volume", "a volume", "9 L", "in³|L", 0.5, noLeast, ""},
	KindFreeAirFlow:           {"free-air-flow", "a flow of free air", "25 L/min ANR", "L/min ANR|ft³/min ANR", 0.05, noLeast, ""},
	KindConductance:           {"conductance", "a sonic conductance", "0.9 dm³/(s·bar)", "L/(min·bar)|dm³/(s·bar)", 1e-6, noLeast, ""},
	KindArea:                  {"area", "an area", "70 cm²", "in²|cm²", 0.2, noLeast, ""},
	KindStiffness:             {"stiffness", "a stiffness", "22 N/mm", "lbf/in|N/mm", 1e6, noLeast, ""},
	KindFrequency:             {"frequency", "a frequency", "1.25 Hz", "cpm|Hz", 25e3, noLeast, ""},
	KindSpeed:                 {"speed", "a speed", "90 km/h", "mph|km/h", 110, noLeast, ""},
	KindEnergy:                {"energy", "an energy", "12 kJ", "kJ|J", 1e6, noLeast, ""},
	KindTime:                  {"time", "a time", "12 h", "s|min|h", 30 * 86400, noLeast, ""},
	KindTorque:                {"torque", "a torque", "47 N·m", "lbf·ft|N·m", 1000, noLeast, ""},
	KindVoltage:               {"voltage", "a voltage", "12.6 V", "mV|V", 500, noLeast, ""},
	KindCurrent:               {"current", "a current", "30 mA", "mA|A", 1000, noLeast, ""},
	KindResistance:            {"resistance", "a resistance", "4 Ω", "mΩ|Ω", 1e7, noLeast, ""},
	KindCharge:                {"charge", "a charge", "70 Ah", "mAh|Ah", 500 * 3600, noLeast, ""},
	KindCapacitance:           {"capacitance", "a capacitance", "0.22 µF", "µF|F", 10, noLeast, ""},
	KindHumidity:              {"humidity", "a relative humidity", "65 %", "%", 1, 0, "relative humidity lies between 0 % and 100 %"},
	KindRatio:                 {"ratio", "a ratio", "0.62", "", 9, noLeast, ""},
	KindMassFlow:              {"mass-flow", "a mass flow", "0.5 g/s", "g/s|kg/h", 10, noLeast, ""},
	KindPower:                 {"power", "a power", "180 W", "hp|W", 1e6, noLeast, ""},
}

var kindByName = func() map[string]Kind {
	m := make(map[string]Kind, kindCount)
	for k := KindNone + 1; k < kindCount; k++ {
		m[kindTable[k].name] = k
	}
	return m
}()

func (k Kind) row() *kindRow {
	if k <= KindNone || k >= kindCount {
		return &kindTable[KindNone]
	}
	return &kindTable[k]
}

// String is the stable name used in files: "length", "free-air-flow".
func (k Kind) String() string { return k.row().name }

// Words is the kind with its article, for a sentence: "a gauge pressure".
func (k Kind) Words() string { return k.row().words }

// Example is a text of the kind that [Parse] accepts.
func (k Kind) Example() string { return k.row().example }

// KindOf finds a kind by the name that String gives.
func KindOf(name string) (Kind, bool) {
	k, ok := kindByName[name]
	return k, ok
}

// Kinds lists all kinds in their fixed order.
func Kinds() []Kind {
	out := make([]Kind, 0, kindCount-1)
	for k := KindNone + 1; k < kindCount; k++ {
		out = append(out, k)
	}
	return out
}

// Units lists the units of a kind, the one mostly used in this trade first.
func (k Kind) Units() []Unit {
	if k <= KindNone || k >= kindCount {
		return nil
	}
	return append([]Unit(nil), unitsOfKind[k]...)
}

// Main is the unit mostly used for the kind, the first of Units.
func (k Kind) Main() Unit {
	if k <= KindNone || k >= kindCount {
		return Unit{}
	}
	return unitsOfKind[k][0]
}
