package spring

import (
	"math"

	"jounce/num/doubt"
	"jounce/num/interp"
	"jounce/num/root"
	"jounce/quantity"
)

// Area is the effective area at one pressure and height.
type Area struct {
	Pressure   quantity.GaugePressure // asked for [Pa]
	Height     float64                // asked for [m]
	Value      float64                // load over pressure [m²]
	Half       float64                // ± of Value [m²]
	Slope      float64                // change of area with height, negative where it shrinks as the spring grows taller [m²/m]
	SlopeKnown bool                   // two heights or more are known
	Held       bool                   // the pressure lies outside the data of a height next to it: the nearest pressure's area stands in
	Estimate   bool                   // from a geometric estimate, not from a maker
}

// Area is the effective area at a pressure and a height.
//
// At each height of the data the load is linear in the pressure between the
// maker's pressures, and proportional to it below the lowest and above the
// highest (the area of the nearest pressure is held, Held is set). Over the
// heights the area is a monotone cubic through those values.
//
//	A(p, h) = F(p, h) / p
//
// Error: where the area changes by a share s over a step Δp of pressure, the
// straight line is off by at most s·Δp/(4·p) of the load: 0.4 % for 3 % over
// 2 bar at 4 bar. Between heights the curve never leaves the maker's values at
// its two ends. Both lie within the ± 4 % that a maker's line is taken with.
// Outside the heights of the data it is refused; one point is good at its own
// height only (± 0.5 mm).
func (s *Spring) Area(p quantity.GaugePressure, height float64) (Area, error) {
	a := Area{Pressure: p, Height: height, Estimate: s.data.Estimate}
	if !above(float64(p)) {
		return a, badNumber("pressure [bar]", float64(p)/bar, "a pressure above zero")
	}
	if err := s.inData(height); err != nil {
		return a, err
	}
	a.Held = s.held(float64(p), height)
	if len(s.rows) == 1 {
		a.Value = s.rows[0].area(float64(p))
	} else {
		c, err := s.areaCurve(float64(p))
		if err != nil {
			return a, err
		}
		h := clamp(height, s.heights)
		if a.Value, err = c.At(h); err != nil {
			return a, err
		}
		if a.Slope, err = c.Slope(h); err != nil {
			return a, err
		}
		a.SlopeKnown = true
	}
	a.Half = s.data.AreaShare * a.Value
	return a, nil
}

// inData refuses heights outside the points.
func (s *Spring) inData(height float64) error {
	lo, hi := s.Heights()
	if height >= lo-sameHeight && height <= hi+sameHeight {
		return nil
	}
	why := "the maker's points"
	if len(s.rows) == 1 {
		why = "the only point: a second height from the maker's lines would help"
	}
	return &Outside{What: "spring height", Value: height / mm, Low: lo / mm, High: hi / mm, Unit: "mm", Why: why}
}

func clamp(h float64, heights []float64) float64 {
	return math.Min(math.Max(h, heights[0]), heights[len(heights)-1])
}

// held says whether a height next to h does not know so low or so high a
// pressure.
func (s *Spring) held(p, h float64) bool {
	outside := func(r row) bool { return p < r.pressure[0] || p > r.pressure[len(r.pressure)-1] }
	for i, r := range s.rows {
		if math.Abs(h-r.height) <= sameHeight {
			return outside(r)
		}
		if i+1 < len(s.rows) && h > r.height && h < s.rows[i+1].height-sameHeight {
			return outside(r) || outside(s.rows[i+1])
		}
	}
	return false
}

// areaCurve is the area over height at one pressure.
func (s *Spring) areaCurve(p float64) (*interp.Curve, error) {
	if s.fixed != nil {
		return s.fixed, nil
	}
	area := make([]float64, len(s.rows))
	for i, r := range s.rows {
		area[i] = r.area(p)
	}
	return interp.New(s.heights, area)
}

// area is load over pressure at the row's height [m²].
func (r row) area(p float64) float64 {
	n := len(r.pressure)
	switch {
	case n == 1 || p <= r.pressure[0]:
		return r.load[0] / r.pressure[0]
	case p >= r.pressure[n-1]:
		return r.load[n-1] / r.pressure[n-1]
	}
	i := 1
	for p > r.pressure[i] {
		i++
	}
	t := (p - r.pressure[i-1]) / (r.pressure[i] - r.pressure[i-1])
	return (r.load[i-1] + t*(r.load[i]-r.load[i-1])) / p
}

// Force is what the spring pushes with at a pressure and a height.
type Force struct {
	Area  Area
	Value float64 // pressure × area [N]
	Half  float64 // ± of Value [N]
}

// Force is F = p · A(p, h). Limits and errors as Area.
func (s *Spring) Force(p quantity.GaugePressure, height float64) (Force, error) {
	if p == 0 {
		return Force{Area: Area{Height: height, Estimate: s.data.Estimate}}, s.inData(height)
	}
	a, err := s.Area(p, height)
	if err != nil {
		return Force{Area: a}, err
	}
	return Force{Area: a, Value: float64(p) * a.Value, Half: float64(p) * a.Half}, nil
}

// Need is the pressure that carries a load at a height.
type Need struct {
	Load        float64                // on the spring [N]
	LoadHalf    float64                // ± of Load [N]
	Area        Area                   // at that height and pressure
	Value       quantity.GaugePressure // Load / Area [Pa]
	Half        float64                // ± of Value [Pa]
	Low, High   quantity.GaugePressure // Value ∓ Half [Pa]
	Maximum     quantity.GaugePressure // the spring's highest standing pressure [Pa]; 0 not known
	OfMaximum   float64                // Value over Maximum [1]; 0 where Maximum is not known
	OverMaximum bool                   // Value is above Maximum: refuse, see WaysOut
	Iterations  int                    // evaluations of the root finder; 0 where the area does not depend on the pressure
}

// Pressure is the pressure that carries a load at a height: the p that makes
// p · A(p, h) the load.
//
//	U²(p)/p² = (U(A)/A)² + (U(F)/F)²
//
// F load on the spring and U its half-widths [N]; A effective area [m²].
// Solved in one step where the area does not depend on the pressure, by Brent's
// method to 1e-9 of the pressure otherwise. A pressure above the spring's
// maximum is returned and marked, since the way out is computed from it.
func (s *Spring) Pressure(load, loadHalf, height float64) (Need, error) {
	n := Need{Load: load, LoadHalf: loadHalf, Maximum: s.data.MaxWorking}
	if !above(load) || !(loadHalf >= 0) {
		return n, badNumber("load on the spring [N]", load, "a load above zero")
	}
	p, err := s.solvePressure(&n, height)
	if err != nil {
		return n, err
	}
	if n.Area, err = s.Area(p, height); err != nil {
		return n, err
	}
	n.Value = p
	n.Half = float64(p) * doubt.Combine(n.Area.Half/n.Area.Value, loadHalf/load)
	n.Low, n.High = p-quantity.GaugePressure(n.Half), p+quantity.GaugePressure(n.Half)
	if n.Maximum > 0 {
		n.OfMaximum = float64(p / n.Maximum)
		n.OverMaximum = p > n.Maximum
	}
	return n, nil
}

func (s *Spring) solvePressure(n *Need, height float64) (quantity.GaugePressure, error) {
	a, err := s.Area(1*bar, height)
	if err != nil {
		return 0, err
	}
	if s.fixed != nil || (len(s.rows) == 1 && len(s.rows[0].pressure) == 1) {
		return quantity.GaugePressure(n.Load / a.Value), nil
	}
	lo, hi := a.Value, a.Value
	for _, r := range s.rows {
		for i := range r.pressure {
			lo = math.Min(lo, r.load[i]/r.pressure[i])
			hi = math.Max(hi, r.load[i]/r.pressure[i])
		}
	}
	var inner error
	res, err := root.Brent(func(p float64) float64 {
		a, err := s.Area(quantity.GaugePressure(p), height)
		if err != nil {
			inner = err
			return math.NaN()
		}
		return p*a.Value - n.Load
	}, 0.99*n.Load/hi, 1.01*n.Load/lo, 1e-9*n.Load/hi)
	if inner != nil {
		return 0, inner
	}
	n.Iterations = res.Iterations
	return quantity.GaugePressure(res.X), err
}
