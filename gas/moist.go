package gas

import (
	"math"

	"jounce/num/root"
	"jounce/quantity"
)

// freezing is the lowest temperature of IF97 region 4 [K].
const freezing = 273.15

var region4 = [11]float64{0,
	0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7,
	0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3}

// SaturationWater is the vapour pressure over liquid water [Pa].
//
// At 0 °C and above: IAPWS-IF97, equation 30 (IF97), error below 0.025 %. Below
// 0 °C, over supercooled water: the equation of W. Wagner and A. Pruss (1993),
// extrapolated below its range; at −40 °C it lies within 1 % of other formulas.
// Range −60 to 373.9 °C.
func SaturationWater(t quantity.Temperature) (quantity.AbsPressure, error) {
	x := float64(t)
	switch {
	case !(x >= 213.15 && x <= 647.096):
		return 0, outside("temperature in °C over water", t.Celsius(), "−60 to 373.9")
	case x < freezing:
		return quantity.AbsPressure(supercooled(x)), nil
	}
	n := &region4
	v := x + n[9]/(x-n[10])
	a := v*v + n[1]*v + n[2]
	b := n[3]*v*v + n[4]*v + n[5]
	c := n[6]*v*v + n[7]*v + n[8]
	q := 2 * c / (-b + math.Sqrt(b*b-4*a*c))
	return quantity.AbsPressure(q * q * q * q * 1e6), nil
}

func supercooled(t float64) float64 {
	const tc, pc = 647.096, 22.064e6
	u := 1 - t/tc
	s := math.Sqrt(u)
	sum := -7.85951783*u + 1.84408259*u*s - 11.7866497*u*u*u + 22.6807411*u*u*u*s - 15.9618719*u*u*u*u + 1.80122502*math.Pow(u, 7.5)
	return pc * math.Exp(tc/t*sum)
}

// SaturationIce is the vapour pressure over ice [Pa]: IAPWS R14-08, equation 6
// (R14). Range 50 K to the triple point at 0.01 °C.
func SaturationIce(t quantity.Temperature) (quantity.AbsPressure, error) {
	const tt, pt = 273.16, 611.657
	x := float64(t) / tt
	if !(t >= 50 && t <= tt) {
		return 0, outside("temperature in °C over ice", t.Celsius(), "−223 to 0.01")
	}
	sum := -0.212144006e2*math.Pow(x, 0.333333333e-2) + 0.273203819e2*math.Pow(x, 0.120666667e1) - 0.610598130e1*math.Pow(x, 0.170333333e1)
	return quantity.AbsPressure(pt * math.Exp(sum/x)), nil
}

// Saturation is the vapour pressure over ice below 0 °C and over water from
// there on [Pa].
func Saturation(t quantity.Temperature) (quantity.AbsPressure, error) {
	if t < freezing {
		return SaturationIce(t)
	}
	return SaturationWater(t)
}

// Magnus is the vapour pressure over water by Magnus' short formula [Pa]:
// 611.2·e^(17.62·t/(243.12+t)), t [°C] (COURSE-M). Only for comparing with
// texts that use it; −45 to 60 °C within 0.6 %.
func Magnus(t quantity.Temperature) quantity.AbsPressure {
	c := t.Celsius()
	return quantity.AbsPressure(611.2 * math.Exp(17.62*c/(243.12+c)))
}

// DewPoint is the temperature at which air with a vapour pressure is saturated
// over water, frost ignored: the reading of a chilled mirror with dew on it.
// Brent's method to 1e-9 K.
func DewPoint(vapour quantity.AbsPressure) (quantity.Temperature, error) {
	return invert(vapour, SaturationWater, 213.15, 640)
}

// FrostPoint is the temperature at which air with a vapour pressure is
// saturated: over ice below 0 °C, over water from there on. State which of the
// two is meant: at −20 °C they are 2 K apart.
func FrostPoint(vapour quantity.AbsPressure) (quantity.Temperature, error) {
	return invert(vapour, Saturation, 150, 640)
}

func invert(vapour quantity.AbsPressure, f func(quantity.Temperature) (quantity.AbsPressure, error), lo, hi float64) (quantity.Temperature, error) {
	if !(vapour > 0) {
		return 0, outside("vapour pressure", float64(vapour), "above zero")
	}
	r, err := root.Brent(func(t float64) float64 {
		p, err := f(quantity.Temperature(t))
		if err != nil {
			return math.NaN()
		}
		return math.Log(float64(p / vapour))
	}, lo, hi, 1e-9)
	if err != nil {
		return 0, outside("vapour pressure", float64(vapour), "that of −60 to 366 °C")
	}
	return quantity.Temperature(r.X), nil
}

// AtPressure is a vapour pressure after the air was brought to another total
// pressure, nothing condensed [Pa]: it goes with the total pressure.
func AtPressure(vapour, from, to quantity.AbsPressure) quantity.AbsPressure {
	return vapour * to / from
}

// VapourDensity is the mass of vapour in a volume [kg/m³]: pv/(Rv·T).
func VapourDensity(vapour quantity.AbsPressure, t quantity.Temperature) float64 {
	return float64(vapour) / (Rv * float64(t))
}

// HumidityRatio is the mass of vapour for each mass of dry air [kg/kg]:
// 0.621945·pv/(p − pv) (ASHRAE).
func HumidityRatio(vapour, total quantity.AbsPressure) (float64, error) {
	if !(vapour >= 0 && vapour < total) {
		return 0, outside("vapour pressure", float64(vapour), "0 to below the total pressure")
	}
	return 0.621945 * float64(vapour) / float64(total-vapour), nil
}

// Condensate is the water of one cubic metre of drawn-in air, before and after
// compression and cooling, with its working.
type Condensate struct {
	Drawn   float64 // vapour drawn in [kg/m³ of drawn-in air]
	Carried float64 // vapour that the cooled air can still carry [kg/m³ of drawn-in air]
	Liquid  float64 // what drops out, zero if nothing [kg/m³ of drawn-in air]
}

// Condense is what drops out of air that is compressed and cooled.
//
//	drawn   = φ·ps(T1)/(Rv·T1)
//	carried = ps(T2)/(Rv·T2)·(p1/p2)·(T2/T1)
//
// φ relative humidity of the air drawn in [1], T1, p1 its temperature [K] and
// pressure [Pa], T2, p2 those after the cooler; pressures absolute. Source:
// COURSE-M. The volume of the vapour itself is left out (1 % of the result at
// 30 °C, low).
func Condense(humidity float64, t1 quantity.Temperature, p1 quantity.AbsPressure, t2 quantity.Temperature, p2 quantity.AbsPressure) (Condensate, error) {
	if !(humidity >= 0 && humidity <= 1) {
		return Condensate{}, outside("relative humidity", humidity, "0 to 1")
	}
	if err := positive("barometer", float64(p1), "pressure", float64(p2)); err != nil {
		return Condensate{}, err
	}
	in, err := Saturation(t1)
	if err != nil {
		return Condensate{}, err
	}
	out, err := Saturation(t2)
	if err != nil {
		return Condensate{}, err
	}
	c := Condensate{Drawn: humidity * VapourDensity(in, t1)}
	c.Carried = VapourDensity(out, t2) * float64(p1/p2) * float64(t2/t1)
	c.Liquid = math.Max(0, c.Drawn-c.Carried)
	return c, nil
}

// Water is the water of one fill of a tank, with its working.
type Water struct {
	FreeAir  float64 // air drawn in, at the barometer and the tank's temperature [m³]
	Before   float64 // vapour in the tank before the fill [kg]
	Drawn    float64 // vapour drawn in with the air [kg]
	Carried  float64 // vapour that stays in the air of the full tank [kg]
	Liquid   float64 // what condenses [kg]
	Saturate float64 // saturation pressure at the tank's temperature [Pa]
}

// WaterPerFill is what condenses when a tank is filled and has cooled, the air
// already in it included.
//
//	before  = min(φ·p_start/p_b, 1)·ps/(Rv·T)·V
//	drawn   = φ·ps/(Rv·T)·V·(p_end − p_start)/p_b
//	carried = min(before + drawn, ps/(Rv·T)·V)
//	liquid  = before + drawn − carried
//
// V tank [m³]; pressures absolute, p_b barometer [Pa]; T of room and cooled
// tank [K]; φ relative humidity of the room [1]; ps saturation pressure [Pa].
// Handbook B15 (calculated there): 1.1 g for 10 L to 10 bar at 20 °C and 70 %.
// Liquid that was in the tank before is not counted.
func WaterPerFill(volume float64, start, end, barometer quantity.AbsPressure, t quantity.Temperature, humidity float64) (Water, error) {
	if err := positive("volume", volume, "pressure before", float64(start), "barometer", float64(barometer)); err != nil {
		return Water{}, err
	}
	if !(humidity >= 0 && humidity <= 1) {
		return Water{}, outside("relative humidity", humidity, "0 to 1")
	}
	if !(end >= start) {
		return Water{}, outside("pressure after", float64(end), "at or above the pressure before")
	}
	ps, err := Saturation(t)
	if err != nil {
		return Water{}, err
	}
	full := VapourDensity(ps, t) * volume
	w := Water{
		Saturate: float64(ps),
		FreeAir:  volume * float64(end-start) / float64(barometer),
		Before:   math.Min(humidity*float64(start/barometer), 1) * full,
	}
	w.Drawn = humidity * full * float64(end-start) / float64(barometer)
	w.Carried = math.Min(w.Before+w.Drawn, full)
	w.Liquid = w.Before + w.Drawn - w.Carried
	return w, nil
}
