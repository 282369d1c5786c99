// Package gas is the physics of air in this trade: its state, its change of
// state, its flow through valves and tubes, filling and emptying of vessels,
// the water in it and the atmosphere it is taken from.
//
// Every pressure in a gas law is absolute; the types say so. Air is an ideal
// gas with constant heats: at 20 bar and room temperature its density differs
// by less than 0.6 %, in the range of this trade (to 15 bar) by less than 0.5 %.
package gas

import (
	"errors"
	"fmt"
	"math"

	"jounce/quantity"
)

// Properties of dry air and of water vapour.
const (
	R     = quantity.AirGasConstant // specific gas constant of dry air [J/(kg·K)]
	Gamma = 1.4                     // ratio of specific heats of air [1]
	Cv    = R / (Gamma - 1)         // specific heat at constant volume [J/(kg·K)]
	Cp    = Gamma * Cv              // specific heat at constant pressure [J/(kg·K)]
	Rv    = 461.52                  // specific gas constant of water vapour [J/(kg·K)]
	Molar = 8.314463                // molar gas constant [J/(mol·K)]
)

// ErrRange is wrapped by every error about an input outside the range of a
// formula.
var ErrRange = errors.New("outside the range of the formula")

func outside(what string, v float64, expected string) error {
	return fmt.Errorf("%s is %g, expected %s: %w", what, v, expected, ErrRange)
}

// positive checks named values [any unit] in order.
func positive(pairs ...any) error {
	for i := 0; i+1 < len(pairs); i += 2 {
		v := pairs[i+1].(float64)
		if !(v > 0) || math.IsInf(v, 0) {
			return outside(pairs[i].(string), v, "above zero")
		}
	}
	return nil
}

// Density is the density of dry air [kg/m³].
//
//	ρ = p/(R·T)
//
// p absolute [Pa], T [K]. Ideal gas; see the package comment for its error.
func Density(p quantity.AbsPressure, t quantity.Temperature) float64 {
	return float64(p) / (R * float64(t))
}

// HumidDensity is the density of moist air [kg/m³]: each of the two gases by
// its own partial pressure.
//
//	ρ = (p − φ·ps)/(R·T) + φ·ps/(Rv·T)
//
// p absolute [Pa], T [K], φ relative humidity 0 to 1 [1], ps saturation
// pressure at T [Pa].
func HumidDensity(p quantity.AbsPressure, t quantity.Temperature, humidity float64) (float64, error) {
	ps, err := Saturation(t)
	if err != nil {
		return 0, err
	}
	pv := humidity * float64(ps)
	if !(humidity >= 0 && humidity <= 1) || !(pv < float64(p)) {
		return 0, outside("humidity", humidity, "0 to 1, its vapour below the pressure")
	}
	return (float64(p)-pv)/(R*float64(t)) + pv/(Rv*float64(t)), nil
}

// Mass is the mass of dry air in a volume [kg]: m = p·V/(R·T), V [m³].
func Mass(p quantity.AbsPressure, volume float64, t quantity.Temperature) float64 {
	return float64(p) * volume / (R * float64(t))
}

// Pressure is the pressure of a mass of dry air in a volume: p = m·R·T/V,
// m [kg], V [m³].
func Pressure(mass, volume float64, t quantity.Temperature) quantity.AbsPressure {
	return quantity.AbsPressure(mass * R * float64(t) / volume)
}

// Heated is the pressure of a closed rigid volume at another temperature:
// p2 = p1·T2/T1 (ideal gas; common practice of leak tests, EN 13184).
func Heated(p quantity.AbsPressure, from, to quantity.Temperature) quantity.AbsPressure {
	return quantity.AbsPressure(float64(p) * float64(to) / float64(from))
}

// Polytropic is the pressure after a change of volume.
//
//	p2 = p1·(V1/V2)ⁿ
//
// p absolute [Pa], V [m³], n polytropic exponent: 1 slow (heat has time), 1.38
// moving (handbook B11, source S31), 1.4 no heat at all [1]. Zero or negative
// volumes are an error. n is an idealisation: a real stroke runs between 1 and
// 1.4 and n is not constant over it.
func Polytropic(p quantity.AbsPressure, v1, v2, n float64) (quantity.AbsPressure, error) {
	if err := positive("volume before", v1, "volume after", v2, "pressure", float64(p)); err != nil {
		return 0, err
	}
	return quantity.AbsPressure(float64(p) * math.Pow(v1/v2, n)), nil
}

// PolytropicTemperature is the temperature after a change of pressure.
//
//	T2 = T1·(p2/p1)^((n−1)/n)
//
// p absolute [Pa], T [K], n polytropic exponent, 1.4 for a change without heat
// [1].
func PolytropicTemperature(t quantity.Temperature, p1, p2 quantity.AbsPressure, n float64) (quantity.Temperature, error) {
	if err := positive("temperature", float64(t), "pressure before", float64(p1), "pressure after", float64(p2), "exponent", n); err != nil {
		return 0, err
	}
	return quantity.Temperature(float64(t) * math.Pow(float64(p2/p1), (n-1)/n)), nil
}

// StoredEnergy is the work that the air of a vessel does when it expands
// without heat to the barometer: what a burst sets free [J].
//
//	W = p·V/(γ−1)·(1 − (pₐ/p)^((γ−1)/γ))
//
// p absolute [Pa], pₐ barometer [Pa], V [m³]. The work done on the atmosphere
// is not taken off, so it errs on the high side. Handbook B15 (calculated
// there): 10 L at 10 bar 14 kJ, 19 L at 12 bar 32 kJ.
func StoredEnergy(p quantity.AbsPressure, volume float64, barometer quantity.AbsPressure) (float64, error) {
	if err := positive("pressure", float64(p), "volume", volume, "barometer", float64(barometer)); err != nil {
		return 0, err
	}
	if p < barometer {
		return 0, outside("pressure", float64(p), "at or above the barometer")
	}
	return float64(p) * volume / (Gamma - 1) * (1 - math.Pow(float64(barometer/p), (Gamma-1)/Gamma)), nil
}

// TankEnergy is StoredEnergy of a tank by its gauge [J]; volume [m³].
func TankEnergy(p quantity.GaugePressure, volume float64, barometer quantity.AbsPressure) (float64, error) {
	return StoredEnergy(p.Absolute(barometer), volume, barometer)
}

// FreeAir is the volume at the barometer of the air that a vessel holds above
// it, at one temperature [m³]: V·p_gauge/p_barometer.
func FreeAir(p quantity.GaugePressure, volume float64, barometer quantity.AbsPressure) float64 {
	return volume * float64(p) / float64(barometer)
}
