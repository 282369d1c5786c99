package quantity

// The few types that are told apart by the compiler, because mixing them up
// is how this trade hurts itself. Everything else is a float64 in SI with its
// unit in a comment.

// StandardAtmosphere is the barometer assumed when none was read [Pa].
// ISO 2533 prints 101 325 Pa; the trade rounds it to 1.013 bar.
const StandardAtmosphere AbsPressure = 101325

// StandardGravity is the conventional value of the acceleration of free fall
// [m/s²] (ISO 80000-3).
const StandardGravity = 9.80665

// ZeroCelsius is 0 °C on the absolute scale [K].
const ZeroCelsius Temperature = 273.15

// AbsPressure is a pressure above vacuum [Pa].
type AbsPressure float64

// GaugePressure is a pressure above the barometer [Pa].
type GaugePressure float64

// Absolute adds the barometer.
func (p GaugePressure) Absolute(barometer AbsPressure) AbsPressure {
	return AbsPressure(float64(p) + float64(barometer))
}

// Gauge takes the barometer off.
func (p AbsPressure) Gauge(barometer AbsPressure) GaugePressure {
	return GaugePressure(float64(p) - float64(barometer))
}

// Temperature is a temperature above absolute zero [K].
type Temperature float64

// Celsius is the same temperature on the Celsius scale [°C].
func (t Temperature) Celsius() float64 { return float64(t - ZeroCelsius) }

// FromCelsius makes a temperature from degrees Celsius.
func FromCelsius(c float64) Temperature { return Temperature(c) + ZeroCelsius }

// TemperatureDifference is a difference of two temperatures [K].
type TemperatureDifference float64

// Sub is the difference t − u.
func (t Temperature) Sub(u Temperature) TemperatureDifference {
	return TemperatureDifference(t - u)
}

// Angle is a plane angle [rad].
type Angle float64

// MassFlow is a flow of mass [kg/s].
type MassFlow float64

// Reference is the state of air that a volume flow is counted at.
type Reference struct {
	Name        string      // as written behind the unit: "ANR", "DIN 1343"
	Pressure    AbsPressure // [Pa]
	Temperature Temperature // [K]
	Density     float64     // [kg/m³]
}

// FreeAirFlow is a volume flow of air counted at a named state.
type FreeAirFlow struct {
	Volume float64   // [m³/s] at the reference state
	Ref    Reference // the state it is counted at
}

// Mass is the same flow as mass [kg/s].
func (q FreeAirFlow) Mass() MassFlow { return MassFlow(q.Volume * q.Ref.Density) }
