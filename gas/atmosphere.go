package gas

import (
	"math"

	"jounce/quantity"
)

// Constants of the standard atmosphere (ISO 2533, US 1976).
const (
	lapse       = 0.0065    // fall of temperature with height [K/m]
	seaLevelT   = 288.15    // temperature at height zero [K]
	earthRadius = 6356766.0 // nominal radius [m]
	exponentH   = 5.25588   // g·M/(R*·lapse) with M 0.0289644 kg/mol and R* 8.31432 J/(mol·K) [1]
)

// Air is the standard atmosphere at a height.
type Air struct {
	Geopotential float64              // height by which tables of air count [m]
	Geometric    float64              // height above sea level [m]
	Pressure     quantity.AbsPressure // barometer [Pa]
	Temperature  quantity.Temperature // [K]
	Density      float64              // [kg/m³]
}

// AtGeopotential is the standard atmosphere at a geopotential height.
//
//	T = 288.15 − 0.0065·H,  p = 101 325·(T/288.15)^5.25588
//
// H [m], p [Pa], T [K]. Sources: ISO2533, ASHRAE Table 1. Range −1000 to
// 11 000 m. Weather moves the real barometer by 3 % either way.
func AtGeopotential(height float64) (Air, error) {
	if !(height >= -1000 && height <= 11000) {
		return Air{}, outside("geopotential height in metres", height, "−1000 to 11 000")
	}
	t := seaLevelT - lapse*height
	a := Air{
		Geopotential: height,
		Geometric:    earthRadius * height / (earthRadius - height),
		Temperature:  quantity.Temperature(t),
		Pressure:     quantity.AbsPressure(float64(quantity.StandardAtmosphere) * math.Pow(t/seaLevelT, exponentH)),
	}
	a.Density = Density(a.Pressure, a.Temperature)
	return a, nil
}

// AtGeometric is the standard atmosphere at a height above sea level.
//
//	H = r·z/(r + z), r = 6 356 766 m
//
// z [m]. Source: FLUIDS (US 1976). The two heights differ by 0.02 % in pressure
// at 3 km, so nothing in a workshop hangs on it; tables do.
func AtGeometric(height float64) (Air, error) {
	if !(height >= -1000 && height <= 11019) {
		return Air{}, outside("height in metres", height, "−1000 to 11 019")
	}
	a, err := AtGeopotential(earthRadius * height / (earthRadius + height))
	a.Geometric = height
	return a, err
}

// HeightOf is the geopotential height at which the standard atmosphere has a
// pressure [m]: the inverse of AtGeopotential, closed form.
func HeightOf(p quantity.AbsPressure) (float64, error) {
	if !(p >= 22632 && p <= 113930) {
		return 0, outside("barometer in pascals", float64(p), "22 632 to 113 930")
	}
	return seaLevelT / lapse * (1 - math.Pow(float64(p/quantity.StandardAtmosphere), 1/exponentH)), nil
}
