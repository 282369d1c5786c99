package gas

import (
	"math"

	"jounce/num/root"
	"jounce/quantity"
)

// Element is a valve, a fitting, a tube or a leak as ISO 6358 describes it.
type Element struct {
	C       float64 // sonic conductance [m³/(s·Pa)]; 1 dm³/(s·bar) is 1e-8
	B       float64 // critical pressure ratio [1]
	M       float64 // subsonic exponent, 0.5 if zero [1]
	Laminar float64 // ratio above which flow is linear, 0.999 if zero, 1 for none [1]
}

// Regime is how air flows through an element.
type Regime string

// The three regimes of ISO 6358.
const (
	Choked   Regime = "choked"   // at the speed of sound; what is behind does not matter
	Subsonic Regime = "subsonic" // below it
	Linear   Regime = "linear"   // nearly equal pressures: flow follows their difference
)

// Flow is what passes an element, with its working.
type Flow struct {
	Ratio   float64              // p2/p1 [1]
	Regime  Regime               // which branch of the law holds
	Share   float64              // of the choked flow [1]
	FullANR quantity.FreeAirFlow // choked flow at this inlet, as free air at ANR
	FreeAir quantity.FreeAirFlow // flow as free air at ANR
	Mass    quantity.MassFlow    // flow [kg/s]
}

const (
	ellipse       = 0.5   // exponent of the 1989 edition [1]
	laminarBranch = 0.999 // ratio above which flow is linear [1]
)

func (e Element) exponent() float64 {
	if e.M == 0 {
		return ellipse
	}
	return e.M
}

func (e Element) laminar() float64 {
	if e.Laminar == 0 {
		return laminarBranch
	}
	return e.Laminar
}

// Check says what is wrong with the element, nil if nothing.
func (e Element) Check() error {
	switch {
	case !(e.C >= 0) || math.IsInf(e.C, 0):
		return outside("sonic conductance", e.C, "zero or above")
	case !(e.B >= 0 && e.B < 1):
		return outside("critical pressure ratio", e.B, "0 to below 1")
	case !(e.exponent() > 0 && e.exponent() <= 1):
		return outside("subsonic exponent", e.M, "above 0 to 1")
	case !(e.laminar() > e.B && e.laminar() <= 1):
		return outside("ratio of the linear branch", e.Laminar, "between the critical ratio and 1")
	}
	return nil
}

// Share is the part of the choked flow that passes at the ratio p2/p1 [1].
//
//	φ = 1                              r ≤ b
//	φ = (1 − ((r−b)/(1−b))²)^m         b < r < r_lin
//	φ = φ(r_lin)·(1−r)/(1−r_lin)       r ≥ r_lin
//
// r = p2/p1 0 to 1, b critical ratio, m exponent, r_lin where the linear branch
// begins [1]. Sources: COURSE-V for the first two (ISO 6358:1989, m free since
// 2013); SIMDOC for the third, without which the slope at equal pressures is
// infinite. Continuous, not smooth, at r_lin.
func (e Element) Share(r float64) (float64, Regime) {
	lin := e.laminar()
	switch {
	case r <= e.B:
		return 1, Choked
	case r < lin || lin == 1:
		return e.subsonic(math.Min(r, 1)), Subsonic
	}
	return e.subsonic(lin) * math.Max(0, 1-r) / (1 - lin), Linear
}

func (e Element) subsonic(r float64) float64 {
	u := (r - e.B) / (1 - e.B)
	if m := e.exponent(); m != ellipse {
		return math.Pow(math.Max(0, 1-u*u), m)
	}
	return math.Sqrt(math.Max(0, 1-u*u))
}

// Flow is the flow from p1 to p2.
//
//	q = C·p1·√(T0/T1)·φ(p2/p1)     ṁ = ρ0·q
//
// q free air at ANR (ISO 8778: 100 kPa, 293.15 K, ρ0 = 1.185 kg/m³, a constant
// of the standard that no gas law gives) [m³/s]; C [m³/(s·Pa)]; p absolute
// [Pa]; T1 inlet temperature [K]. Sources: COURSE-V, SIMDOC, EQDOC. Range:
// 0 ≤ p2 ≤ p1. Catalogue figures of C scatter by 10 to 20 % (COURSE-V).
func (e Element) Flow(p1 quantity.AbsPressure, t1 quantity.Temperature, p2 quantity.AbsPressure) (Flow, error) {
	if err := e.Check(); err != nil {
		return Flow{}, err
	}
	if err := positive("inlet pressure", float64(p1), "inlet temperature", float64(t1)); err != nil {
		return Flow{}, err
	}
	if !(p2 >= 0 && p2 <= p1) {
		return Flow{}, outside("outlet pressure", float64(p2), "0 to the inlet pressure")
	}
	f := Flow{Ratio: float64(p2 / p1)}
	f.Share, f.Regime = e.Share(f.Ratio)
	full := e.C * float64(p1) * math.Sqrt(float64(quantity.ANR.Temperature)/float64(t1))
	f.FullANR = quantity.FreeAirFlow{Volume: full, Ref: quantity.ANR}
	f.FreeAir = quantity.FreeAirFlow{Volume: full * f.Share, Ref: quantity.ANR}
	f.Mass = f.FreeAir.Mass()
	return f, nil
}

// Between is the mass flow from side a to side b, negative when it runs from b
// to a [kg/s]. The temperature of the side that the air comes from counts.
// Inputs are taken as checked: this is for the inner loop of a simulation.
func (e Element) Between(pa quantity.AbsPressure, ta quantity.Temperature, pb quantity.AbsPressure, tb quantity.Temperature) quantity.MassFlow {
	if pb > pa {
		return -e.Between(pb, tb, pa, ta)
	}
	share, _ := e.Share(float64(pb / pa))
	return quantity.MassFlow(quantity.ANR.Density * e.C * float64(pa) * share *
		math.Sqrt(float64(quantity.ANR.Temperature)/float64(ta)))
}

// Fitted is an element found from two measured flows.
type Fitted struct {
	Element Element
	Share   float64 // of the choked flow in the second measurement [1]
	Ratio   float64 // p2/p1 in the second measurement [1]
}

// Fit finds C and b from one choked and one subsonic flow measured at the same
// inlet.
//
//	C = q1/(p1·√(T0/T1));  (r−b)/(1−b) = u = √(1 − s²)  →  b = (r−u)/(1−u)
//
// q1 choked and q2 subsonic flow as free air at ANR [m³/s], s = q2/q1, p1
// inlet, p2 outlet of the second, absolute [Pa], T1 [K]. Source: COURSE-V, with
// m = 0.5. Closed form. A small error in s near 1 is a large one in b: measure
// where the flow is 30 to 80 % of choked. That the first flow is choked is
// taken on trust; if it is not, C comes out low.
func Fit(choked, subsonic float64, p1 quantity.AbsPressure, t1 quantity.Temperature, p2 quantity.AbsPressure) (Fitted, error) {
	if err := positive("choked flow", choked, "subsonic flow", subsonic, "inlet pressure", float64(p1),
		"inlet temperature", float64(t1), "outlet pressure", float64(p2)); err != nil {
		return Fitted{}, err
	}
	f := Fitted{Share: subsonic / choked, Ratio: float64(p2 / p1)}
	if f.Share >= 1 || f.Ratio >= 1 {
		return Fitted{}, outside("subsonic flow over choked", f.Share, "below 1, with the outlet below the inlet")
	}
	u := math.Sqrt(1 - f.Share*f.Share)
	b := (f.Ratio - u) / (1 - u)
	if b < 0 {
		return Fitted{}, outside("critical ratio found", b, "0 to below 1: the two flows do not belong to one element")
	}
	f.Element = Element{C: choked / (float64(p1) * math.Sqrt(float64(quantity.ANR.Temperature)/float64(t1))), B: b}
	return f, nil
}

// OutletFor is the outlet pressure at which a flow passes: the inverse of Flow
// for a subsonic flow. q is free air at ANR [m³/s].
//
// Found by Brent's method to 1e-12 of the inlet pressure. At or above the
// choked flow there is no single answer, which is an error.
func (e Element) OutletFor(q float64, p1 quantity.AbsPressure, t1 quantity.Temperature) (quantity.AbsPressure, error) {
	f, err := e.Flow(p1, t1, 0)
	if err != nil {
		return 0, err
	}
	if !(q >= 0 && q < f.FullANR.Volume) {
		return 0, outside("flow", q, "0 to below the choked flow")
	}
	want := q / f.FullANR.Volume
	r, err := root.Brent(func(r float64) float64 {
		s, _ := e.Share(r)
		return s - want
	}, e.B, 1, 1e-12)
	if err != nil {
		return 0, err
	}
	return quantity.AbsPressure(r.X * float64(p1)), nil
}

// KvPerCv is the flow coefficient Kv [m³/h] for a Cv of one US gallon a minute
// at one psi: exact by the units, 3.785411784e-3·60·√(1e5/6894.757) [1].
const KvPerCv = 0.8649776

// KvFlow is the flow of air through a valve whose Kv is known, as free air at
// ANR, for a moderate pressure drop (p2 above half of p1).
//
//	q = Kv/3600·√(1000/ρ0)·√((p1−p2)·p2)/10⁵
//
// Kv [m³/h of water at 1 bar], ρ0 = 1.185 kg/m³, p absolute [Pa]; at 20 °C. In
// L/min and bar this is 484·Kv·√(Δp·p2), printed as 485 (COURSE-V). Air is
// counted at its density behind the valve; it is not for choked flow.
func KvFlow(kv float64, p1, p2 quantity.AbsPressure) (quantity.FreeAirFlow, error) {
	if err := positive("Kv", kv, "inlet pressure", float64(p1)); err != nil {
		return quantity.FreeAirFlow{}, err
	}
	if !(p2 >= p1/2 && p2 <= p1) {
		return quantity.FreeAirFlow{}, outside("outlet pressure", float64(p2), "half the inlet pressure to the inlet pressure")
	}
	v := kv / 3600 * math.Sqrt(1000/quantity.ANR.Density) * math.Sqrt(float64(p1-p2)*float64(p2)) / 1e5
	return quantity.FreeAirFlow{Volume: v, Ref: quantity.ANR}, nil
}
