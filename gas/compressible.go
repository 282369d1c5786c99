package gas

import (
	"math"

	"jounce/num/root"
)

// IsentropicRow is the state of air brought from rest to a Mach number without
// heat or friction, over its state at rest.
type IsentropicRow struct {
	Pressure    float64 // p/pt [1]
	Density     float64 // ρ/ρt [1]
	Temperature float64 // T/Tt [1]
	Area        float64 // A/A* [1]
}

// Isentropic is the row of the isentropic table for a Mach number above zero.
//
//	T/Tt = (1 + (γ−1)/2·M²)⁻¹,  p/pt = (T/Tt)^(γ/(γ−1)),  ρ/ρt = (T/Tt)^(1/(γ−1))
//	A/A* = 1/M·((1 + (γ−1)/2·M²)·2/(γ+1))^((γ+1)/(2(γ−1)))
//
// γ = 1.4. Source: any table of compressible flow, for example K14. Exact.
func Isentropic(mach float64) IsentropicRow {
	t := 1 / (1 + (Gamma-1)/2*mach*mach)
	return IsentropicRow{
		Temperature: t,
		Pressure:    math.Pow(t, Gamma/(Gamma-1)),
		Density:     math.Pow(t, 1/(Gamma-1)),
		Area:        math.Pow(2/(t*(Gamma+1)), (Gamma+1)/(2*(Gamma-1))) / mach,
	}
}

// MachFromPressure is the Mach number at which air from rest has the pressure
// ratio p/pt, between 0 and 1 (closed form) [1].
func MachFromPressure(ratio float64) (float64, error) {
	if !(ratio > 0 && ratio <= 1) {
		return 0, outside("pressure over that at rest", ratio, "above 0 to 1")
	}
	return math.Sqrt(2 / (Gamma - 1) * (math.Pow(ratio, -(Gamma-1)/Gamma) - 1)), nil
}

// CriticalRatio is p/pt at the speed of sound: 0.528282 for γ = 1.4 [1].
func CriticalRatio() float64 { return math.Pow(2/(Gamma+1), Gamma/(Gamma-1)) }

// ChokedParameter is ṁ·√(R·Tt)/(pt·A) at the speed of sound: 0.684731 for
// γ = 1.4 [1] (WHITE: about 0.685).
func ChokedParameter() float64 {
	return math.Sqrt(Gamma) * math.Pow(2/(Gamma+1), (Gamma+1)/(2*(Gamma-1)))
}

// NozzleConductance is the sonic conductance of an ideal nozzle of an area
// [m³/(s·Pa)]; area [m²]. A discharge coefficient times it is a real one's.
//
//	C = 0.684731·A/(ρ0·√(R·T0))
//
// S[mm²] = 5.02·C[dm³/(s·bar)], printed as about 5 (COURSE-V).
func NozzleConductance(area float64) float64 {
	return ChokedParameter() * area / (1.185 * math.Sqrt(R*293.15))
}

// FannoRow is the state of air in a tube with friction and without heat, over
// its state at the speed of sound.
type FannoRow struct {
	Friction    float64 // f·L*/d with Darcy's f; Fanning's is a quarter of it [1]
	Pressure    float64 // p/p* [1]
	Temperature float64 // T/T* [1]
	Total       float64 // pt/pt* [1]
}

// Fanno is the row of the Fanno table for a Mach number above zero.
//
//	f·L*/d = (1−M²)/(γ·M²) + (γ+1)/(2γ)·ln((γ+1)·M²/(2+(γ−1)·M²))
//	T/T* = (γ+1)/(2+(γ−1)·M²),  p/p* = √(T/T*)/M,  pt/pt* = A/A*
//
// γ = 1.4; constant bore, constant f. Sources: MASSEY (whose f is Fanning's),
// FAROKHI. Exact.
func Fanno(mach float64) FannoRow {
	m2 := mach * mach
	t := (Gamma + 1) / (2 + (Gamma-1)*m2)
	return FannoRow{
		Friction:    (1-m2)/(Gamma*m2) + (Gamma+1)/(2*Gamma)*math.Log(t*m2),
		Temperature: t,
		Pressure:    math.Sqrt(t) / mach,
		Total:       Isentropic(mach).Area,
	}
}

// MachFromFanno is the subsonic Mach number at the mouth of a tube that chokes
// at its end, from f·L/d with Darcy's f [1]. Brent's method to 1e-13 in M.
func MachFromFanno(friction float64) (float64, error) {
	if !(friction >= 0 && friction < 1e6) {
		return 0, outside("f·L/d", friction, "0 to 1e6")
	}
	const fastest = 1 - 1e-5 // beyond it f·L*/d is below 1e-10
	if friction <= Fanno(fastest).Friction {
		return 1, nil
	}
	r, err := root.Brent(func(m float64) float64 { return math.Log(Fanno(m).Friction / friction) }, 1e-4, fastest, 1e-13)
	return r.X, err
}

// MachFromFannoPressure is the Mach number at which p/p* is reached (closed
// form) [1].
func MachFromFannoPressure(ratio float64) (float64, error) {
	if !(ratio > 0) {
		return 0, outside("p/p*", ratio, "above zero")
	}
	// p/p* = √t/M with t = (γ+1)/(2+(γ−1)M²): a quadratic in M²
	k := (Gamma + 1) / (ratio * ratio)
	m2 := (-1 + math.Sqrt(1+(Gamma-1)*k)) / (Gamma - 1)
	return math.Sqrt(m2), nil
}
