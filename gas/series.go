package gas

import (
	"errors"
	"math"

	"jounce/num/root"
	"jounce/quantity"
)

// ErrNoElement is an empty list of elements.
var ErrNoElement = errors.New("there is no element in the list")

// Pair is two elements in series taken as one, with its working.
type Pair struct {
	Element Element // C exact, B by the standard's rule
	Alpha   float64 // C1/(b1·C2) [1]
	First   bool    // the first element chokes before the second
	TrueB   float64 // ratio p2/p1 at which the pair really chokes [1]
}

// SeriesPair is two elements in series by the exact rule.
//
//	α = C1/(b1·C2)
//	α ≤ 1:  C = C1                                      the first chokes
//	α > 1:  C = C2·α·(α·b1 + (1−b1)·√(α² + k² − 1))/(α² + k²),  k = (1−b1)/b1
//	b = 1 − C²·((1−b1)/C1² + (1−b2)/C2²)
//	b_true = b2·C/C2, or b1·r2 with φ2(r2) = α when the first chokes
//
// C [m³/(s·Pa)], b [1]. Source: ISO6358 (1989), from memory, verified by
// marching through two ellipses. The order of the two matters. Exact for the
// choked flow of two elements with m = 0.5 and the full stagnation pressure
// between them; the standard's b is an approximation and lies below the true
// one. b1 = 0 is taken as its limit: the square law.
func SeriesPair(first, second Element) (Pair, error) {
	for _, e := range []Element{first, second} {
		if err := e.Check(); err != nil {
			return Pair{}, err
		}
		if e.C == 0 {
			return Pair{}, outside("sonic conductance", 0, "above zero: a shut element passes nothing")
		}
		if e.exponent() != ellipse {
			return Pair{}, outside("subsonic exponent", e.M, "0.5: the exact rule is for ellipses")
		}
	}
	c1, b1, c2, b2 := first.C, first.B, second.C, second.B
	p := Pair{Alpha: math.Inf(1)}
	if b1 > 0 {
		p.Alpha = c1 / (b1 * c2)
	}
	c := 1 / math.Sqrt(1/(c1*c1)+1/(c2*c2))
	switch {
	case b1 > 0 && p.Alpha <= 1:
		p.First = true
		c = c1
		u := math.Sqrt(1 - p.Alpha*p.Alpha)
		p.TrueB = b1 * (b2 + (1-b2)*u)
	case b1 > 0:
		a, k := p.Alpha, (1-b1)/b1
		c = c2 * a * (a*b1 + (1-b1)*math.Sqrt(a*a+k*k-1)) / (a*a + k*k)
	}
	if !p.First {
		p.TrueB = b2 * c / c2
	}
	p.Element = Element{C: c, B: ruleB(c, first, second)}
	return p, nil
}

// ruleB is the standard's b of a series, not below zero.
func ruleB(c float64, list ...Element) float64 {
	var sum float64
	for _, e := range list {
		sum += (1 - e.B) / (e.C * e.C)
	}
	return math.Max(0, 1-c*c*sum)
}

// SeriesSquare is elements in series by the square law.
//
//	1/C² = Σ 1/Cᵢ²,   b = 1 − C²·Σ (1−bᵢ)/Cᵢ²
//
// C [m³/(s·Pa)], b [1]. Source: COURSE-S (C), from memory (b). Exact only for
// elements with b = 0; with b = 0.3 it is 6 % low for two equal ones, which
// errs towards slow filling.
func SeriesSquare(list ...Element) (Element, error) {
	var sum float64
	for _, e := range list {
		if err := e.Check(); err != nil {
			return Element{}, err
		}
		if e.C == 0 {
			return Element{}, nil
		}
		sum += 1 / (e.C * e.C)
	}
	if len(list) == 0 {
		return Element{}, ErrNoElement
	}
	c := 1 / math.Sqrt(sum)
	return Element{C: c, B: ruleB(c, list...)}, nil
}

// Parallel is elements side by side: conductances add (COURSE-S). b is such
// that the subsonic ellipses share one flow at the ratio half way between the
// mean of b, weighted by C, and 1; exact when all b are equal.
func Parallel(list ...Element) (Element, error) {
	if len(list) == 0 {
		return Element{}, ErrNoElement
	}
	var c, cb float64
	for _, e := range list {
		if err := e.Check(); err != nil {
			return Element{}, err
		}
		c += e.C
		cb += e.C * e.B
	}
	if c == 0 {
		return Element{}, nil
	}
	r := (cb/c + 1) / 2
	var share float64
	for _, e := range list {
		s, _ := e.Share(r)
		share += e.C * s / c
	}
	if share >= 1 {
		return Element{C: c, B: cb / c}, nil
	}
	u := math.Sqrt(1 - share*share)
	return Element{C: c, B: math.Max(0, (r-u)/(1-u))}, nil
}

// SeriesFlow is the flow through a chain of elements from p1 to p2, found by
// marching the pressure through them.
//
// The flow is the one at which the pressure behind the last element is p2, or
// at which one element chokes first. Between elements the whole stagnation
// pressure is kept and the temperature is that of the inlet. Bisection of the
// flow by Brent's method to 1e-12 of the first element's choked flow. Where it
// differs from SeriesPair, this is right: that one is a fit.
func SeriesFlow(list []Element, p1 quantity.AbsPressure, t1 quantity.Temperature, p2 quantity.AbsPressure) (quantity.FreeAirFlow, error) {
	none := quantity.FreeAirFlow{Ref: quantity.ANR}
	if len(list) == 0 {
		return none, ErrNoElement
	}
	full := math.Inf(1)
	for _, e := range list {
		f, err := e.Flow(p1, t1, p2)
		if err != nil {
			return none, err
		}
		full = math.Min(full, f.FullANR.Volume)
	}
	if full == 0 || p1 == p2 {
		return none, nil
	}
	temp := math.Sqrt(float64(quantity.ANR.Temperature) / float64(t1))
	// behind is the pressure behind the chain less p2; below zero where the
	// chain cannot pass the flow.
	behind := func(q float64) float64 {
		p := float64(p1)
		for i, e := range list {
			share := q / (e.C * p * temp)
			last := i == len(list)-1
			switch {
			case share >= 1 && last && share < 1+1e-12:
				return e.B*p - float64(p2)
			case share >= 1:
				return -float64(p2) - float64(p1)*(share-1) - 1e-9*float64(p1)
			}
			p *= e.ratioFor(share)
		}
		return p - float64(p2)
	}
	r, err := root.Brent(behind, 0, full*(1+1e-9), 1e-13*full)
	if err != nil {
		return none, err
	}
	none.Volume = math.Min(r.X, full)
	return none, nil
}

// ratioFor is the greatest ratio p2/p1 at which the share of the choked flow
// passes, 0 ≤ share < 1 [1].
func (e Element) ratioFor(share float64) float64 {
	lin := e.laminar()
	if lin < 1 {
		if at := e.subsonic(lin); share <= at {
			return 1 - share/at*(1-lin)
		}
	}
	return e.B + (1-e.B)*math.Sqrt(1-math.Pow(share, 1/e.exponent()))
}
