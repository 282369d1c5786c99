package spring

import (
	"math"

	"jounce/quantity"
)

// WheelRate is a spring's rate as the wheel feels it: k · ratio² [N/m], with
// ratio = spring travel over wheel travel (ENGT).
func WheelRate(k, ratio float64) float64 { return k * ratio * ratio }

// RideRate is spring and tyre one behind the other: ks·kt/(ks+kt) [N/m]
// (GILLESPIE, ENGT). ks rate at the wheel, kt tyre rate [N/m].
func RideRate(ks, kt float64) float64 { return ks * kt / (ks + kt) }

// Frequency is the undamped natural frequency √(k/m)/2π [Hz] of a mass [kg] on
// a rate [N/m] (ORTIZ).
func Frequency(k, m float64) float64 { return math.Sqrt(k/m) / (2 * math.Pi) }

// StaticDeflection is how far a linear spring of that frequency [Hz] would sag
// under its mass: g/(2πf)² [m] (VIBM). A levelled air spring does not sag so far:
// for it the figure is fictitious.
func StaticDeflection(f float64) float64 {
	w := 2 * math.Pi * f
	return quantity.StandardGravity / (w * w)
}

// Modes are the two undamped motions of a corner on spring and tyre.
type Modes struct {
	Body, Hop           float64 // angular frequencies, slow and fast [rad/s]
	BodyHz, HopHz       float64 // the same [Hz]
	BodyRatio, HopRatio float64 // motion of the wheel over that of the body [1]
}

// QuarterCar works out the two modes of a sprung mass over an unsprung one.
//
//	ms·mu·ω⁴ − (ms·(ks+kt) + mu·ks)·ω² + ks·kt = 0,  wheel/body = 1 − ms·ω²/ks
//
// ms, mu sprung and unsprung mass [kg]; ks rate at the wheel, kt tyre rate
// [N/m]. No damping. Source BARTON, page 209. Closed form; the smaller root
// is taken from the product of the two, so that nothing cancels.
func QuarterCar(ms, mu, ks, kt float64) (Modes, error) {
	if !above(ms) || !above(mu) || !above(ks) || !above(kt) {
		return Modes{}, badNumber("quarter car", math.Min(math.Min(ms, mu), math.Min(ks, kt)), "masses and rates above zero")
	}
	b := (ms*(ks+kt) + mu*ks) / (ms * mu)
	c := ks * kt / (ms * mu)
	fast := (b + math.Sqrt(b*b-4*c)) / 2
	slow := c / fast
	m := Modes{Body: math.Sqrt(slow), Hop: math.Sqrt(fast), BodyRatio: 1 - ms*slow/ks, HopRatio: 1 - ms*fast/ks}
	m.BodyHz, m.HopHz = m.Body/(2*math.Pi), m.Hop/(2*math.Pi)
	return m, nil
}

// Coil is a round-wire steel spring.
type Coil struct {
	Wire    float64 // wire diameter [m]
	Mean    float64 // mean coil diameter [m]
	Active  float64 // coils that work [1]
	Modulus float64 // shear modulus, 79.3e9 for spring steel [Pa]
}

// Rate is G·d⁴/(8·D³·n) [N/m] (BARTON, page 213): linear, no coil touching
// another.
func (c Coil) Rate() (float64, error) {
	if !above(c.Wire) || !above(c.Mean) || !above(c.Active) || !above(c.Modulus) || c.Mean <= c.Wire {
		return 0, badNumber("coil's mean diameter [mm]", c.Mean/mm, "wire, coil, count and modulus above zero, the coil wider than the wire")
	}
	return c.Modulus * math.Pow(c.Wire, 4) / (8 * math.Pow(c.Mean, 3) * c.Active), nil
}

// FiniteDifferenceRate is a spring maker's dynamic rate: the force one step
// below the design height less the force one step above it, over both steps
// (FS, page 22).
//
//	K = ( p_abs·(Ac·(V/Vc)ⁿ − Ae·(V/Ve)ⁿ) − p₀·(Ac − Ae) ) / 2s
//
// p design pressure, p₀ barometer [Pa]; V volume at design height, Vc one step
// compressed, Ve one step extended [m³]; Ac, Ae areas there [m²]; n = 1.38 [1];
// s step, half an inch in the source [m]. Result [N/m].
func FiniteDifferenceRate(p quantity.GaugePressure, v, vc, ve, ac, ae, step, n float64, barometer quantity.AbsPressure) (float64, error) {
	for _, x := range []float64{float64(p), v, vc, ve, ac, ae, step, n, float64(barometer)} {
		if !above(x) {
			return 0, badNumber("an input of the finite-difference rate", x, "a figure above zero")
		}
	}
	abs := float64(p.Absolute(barometer))
	return (abs*(ac*math.Pow(v/vc, n)-ae*math.Pow(v/ve, n)) - float64(barometer)*(ac-ae)) / (2 * step), nil
}

// AirRate is the compression term alone, for a shape whose area and volume are
// known: n·p_abs·A²/V [N/m]. A cylinder has no other (COURSE-S).
func AirRate(p quantity.AbsPressure, area, volume, n float64) float64 {
	return n * float64(p) * area * area / volume
}
