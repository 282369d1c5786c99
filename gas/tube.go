package gas

import (
	"math"
)

// Tube is the flow through a tube by three models that do not agree.
type Tube struct {
	Friction  Element // friction and an entry loss by the square law
	Empirical Element // text-book fit
	Fanno     Element // adiabatic friction with a loss-free entry
}

// TubeSpread is how far the models of a tube may lie apart, either way, for
// bores from 4 mm up; 15 % at 2.5 mm [1]. Compared in the published checks; use
// it as the doubt of a tube's conductance that nobody measured.
const TubeSpread = 0.10

// entryPerArea is the sonic conductance of a sharp entry for each square metre
// of bore, 0.16 dm³/(s·bar) per mm² (COURSE-S) [m/(s·Pa)].
const entryPerArea = 0.16e-8 / 1e-6

// NewTube is a smooth tube of a bore and a length by each of three models.
// friction is Darcy's factor, about 0.02 in these tubes [1].
//
//	friction:  C_f = A/(ρ0·√(R·T0·f·L/d)), b = 0; with C_e = 0.16 dm³/(s·bar)
//	           per mm²: 1/C² = 1/C_f² + 1/C_e²               source COURSE-S
//	empirical: C = 0.029·d²/√(L/d^1.25 + 510), b = 474·C/d²  from memory
//	Fanno:     f·L/d = Fanno(M1); ṁ = A·p0·√(γ/(R·T))·M1·(1+(γ−1)/2·M1²)^(−(γ+1)/(2(γ−1)))
//
// d bore [m], L length [m], A = π·d²/4 [m²], ρ0 and T0 those of ANR. Range:
// bores 2 to 20 mm, lengths 0.05 to 20 m. Straight tube; bends and fittings
// come on top as elements in series.
func NewTube(bore, length, friction float64) (Tube, error) {
	if !(bore >= 2e-3 && bore <= 20e-3) {
		return Tube{}, outside("bore in metres", bore, "0.002 to 0.02")
	}
	if !(length >= 0.05 && length <= 20) {
		return Tube{}, outside("length in metres", length, "0.05 to 20")
	}
	if !(friction > 0.005 && friction < 0.1) {
		return Tube{}, outside("friction factor (Darcy)", friction, "0.005 to 0.1")
	}
	area := math.Pi / 4 * bore * bore
	const rho, t0 = 1.185, 293.15
	long := friction * length / bore
	flow := Element{C: area / (rho * math.Sqrt(R*t0*long))}
	both, err := SeriesSquare(flow, Element{C: entryPerArea * area})
	if err != nil {
		return Tube{}, err
	}
	c := 0.029 * bore * bore / math.Sqrt(length/math.Pow(bore, 1.25)+510)
	t := Tube{Friction: both, Empirical: Element{C: c, B: 474 * c / (bore * bore)}}
	m1, err := MachFromFanno(long)
	if err != nil {
		return Tube{}, err
	}
	in, out := Isentropic(m1), Fanno(m1)
	t.Fanno = Element{
		C: area * math.Sqrt(Gamma/(R*t0)) * m1 * math.Pow(in.Temperature, 0.5*(Gamma+1)/(Gamma-1)) / rho,
		B: in.Pressure / out.Pressure,
	}
	return t, nil
}

// TubeVolume is the air space of a tube [m³]; bore and length [m].
func TubeVolume(bore, length float64) float64 { return math.Pi / 4 * bore * bore * length }
