// Package interp draws a smooth curve through measured points and refuses to
// guess outside them.
package interp

import (
	"errors"
	"fmt"
	"math"
	"sort"
)

// Curve is a monotone piecewise cubic through points. Its zero value has no
// points; make one with New.
type Curve struct {
	x, y, slope []float64
}

// Errors of this package.
var (
	ErrPoints  = errors.New("a curve needs at least two points with rising x")
	ErrOutside = errors.New("outside the points")
)

// New makes the curve through the points; x must rise.
//
// Method: cubic Hermite pieces whose inner slopes are the weighted harmonic
// mean of the two secants, zero where they differ in sign (F. N. Fritsch and
// J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300), and three-point end
// slopes limited so that the end pieces stay monotone (F. N. Fritsch and
// R. E. Carlson, SIAM J. Numer. Anal. 17 (1980) 238). Between two points the
// curve never leaves their values, so a table that only rises gives a curve
// that only rises. The curve has a continuous slope; its second derivative
// jumps at the points. The error is of third order in the spacing where the
// table is monotone, of second order at its turning points. Two points give
// the straight line.
func New(x, y []float64) (*Curve, error) {
	if len(x) < 2 || len(x) != len(y) {
		return nil, fmt.Errorf("%w: %d and %d values", ErrPoints, len(x), len(y))
	}
	for i := range x {
		if math.IsNaN(x[i]) || math.IsInf(x[i], 0) || math.IsNaN(y[i]) || math.IsInf(y[i], 0) {
			return nil, fmt.Errorf("%w: point %d is (%g, %g)", ErrPoints, i+1, x[i], y[i])
		}
		if i > 0 && !(x[i] > x[i-1]) {
			return nil, fmt.Errorf("%w: point %d at %g follows %g", ErrPoints, i+1, x[i], x[i-1])
		}
	}
	c := &Curve{x: append([]float64(nil), x...), y: append([]float64(nil), y...)}
	c.slope = slopes(c.x, c.y)
	return c, nil
}

func slopes(x, y []float64) []float64 {
	n := len(x)
	d := make([]float64, n)
	step := func(k int) float64 { return x[k+1] - x[k] }
	secant := func(k int) float64 { return (y[k+1] - y[k]) / step(k) }
	if n == 2 {
		d[0], d[1] = secant(0), secant(0)
		return d
	}
	for k := 1; k < n-1; k++ {
		s0, s1 := secant(k-1), secant(k)
		if s0*s1 <= 0 {
			continue
		}
		w1, w2 := 2*step(k)+step(k-1), step(k)+2*step(k-1)
		d[k] = (w1 + w2) / (w1/s0 + w2/s1)
	}
	d[0] = endSlope(step(0), step(1), secant(0), secant(1))
	d[n-1] = endSlope(step(n-2), step(n-3), secant(n-2), secant(n-3))
	return d
}

// endSlope is the three-point slope at an end, limited; d0, s0 belong to the
// end piece.
func endSlope(d0, d1, s0, s1 float64) float64 {
	s := ((2*d0+d1)*s0 - d0*s1) / (d0 + d1)
	switch {
	case s*s0 <= 0:
		return 0
	case s0*s1 <= 0 && math.Abs(s) > 3*math.Abs(s0):
		return 3 * s0
	}
	return s
}

// Range is the first and the last x [unit of x].
func (c *Curve) Range() (lo, hi float64) {
	if len(c.x) == 0 {
		return math.NaN(), math.NaN()
	}
	return c.x[0], c.x[len(c.x)-1]
}

// At is the curve at x [unit of y]; outside the points it is an error.
func (c *Curve) At(x float64) (float64, error) {
	k, err := c.piece(x)
	if err != nil {
		return math.NaN(), err
	}
	v, _ := c.eval(k, x)
	return v, nil
}

// Slope is dy/dx at x [unit of y per unit of x]; outside the points it is an
// error.
func (c *Curve) Slope(x float64) (float64, error) {
	k, err := c.piece(x)
	if err != nil {
		return math.NaN(), err
	}
	_, s := c.eval(k, x)
	return s, nil
}

func (c *Curve) piece(x float64) (int, error) {
	n := len(c.x)
	if n == 0 {
		return 0, ErrPoints
	}
	if !(x >= c.x[0] && x <= c.x[n-1]) {
		return 0, fmt.Errorf("%w: %g, the points reach from %g to %g", ErrOutside, x, c.x[0], c.x[n-1])
	}
	k := sort.SearchFloat64s(c.x, x)
	if k > 0 {
		k--
	}
	return k, nil
}

// eval is the cubic of one piece and its slope.
func (c *Curve) eval(k int, x float64) (v, slope float64) {
	h := c.x[k+1] - c.x[k]
	s := (c.y[k+1] - c.y[k]) / h
	t := x - c.x[k]
	c2 := (3*s - 2*c.slope[k] - c.slope[k+1]) / h
	c3 := (c.slope[k] + c.slope[k+1] - 2*s) / (h * h)
	return c.y[k] + t*(c.slope[k]+t*(c2+t*c3)), c.slope[k] + t*(2*c2+3*t*c3)
}
