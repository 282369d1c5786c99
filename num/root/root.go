// Package root finds where a function of one variable is zero.
package root

import (
	"errors"
	"fmt"
	"math"
)

// Result is a root and what was done to find it.
type Result struct {
	X          float64 // the root [unit of the variable]
	Residual   float64 // function at X [unit of the function]
	Width      float64 // the root lies within this of X [unit of the variable]
	Iterations int     // evaluations after the two at the ends
}

// Errors of this package; the facts are in the text of what is returned.
var (
	ErrNoBracket    = errors.New("the function has the same sign at both ends")
	ErrNotConverged = errors.New("no root found within the evaluations allowed")
	ErrNotANumber   = errors.New("the function is not a number there")
	ErrTolerance    = errors.New("the tolerance must be above zero")
)

// maxIterations is beyond what bisection of any two float64 needs together
// with the wasted steps that Brent's rule allows [evaluations].
const maxIterations = 200

// epsilon is the spacing of float64 at 1 [1].
const epsilon = 0x1p-52

// Brent finds a root of f between a and b, where f must have different signs.
//
// Method: inverse quadratic interpolation and secant steps, with bisection when
// they do not shrink the bracket fast enough (R. P. Brent, Algorithms for
// Minimization without Derivatives, 1973, chapter 4). The root is bracketed
// throughout; at return it lies within tol + 4·2⁻⁵²·|X| of X. Not converged, a
// bracket without a change of sign and a function that is not a number are
// errors. Where f jumps through zero the jump is found: look at Residual.
//
// tol is the half-width asked for [unit of the variable].
func Brent(f func(float64) float64, a, b, tol float64) (Result, error) {
	if !(tol > 0) {
		return Result{}, ErrTolerance
	}
	fa, fb := f(a), f(b)
	switch {
	case math.IsNaN(fa):
		return Result{}, fmt.Errorf("%w: at %g", ErrNotANumber, a)
	case math.IsNaN(fb):
		return Result{}, fmt.Errorf("%w: at %g", ErrNotANumber, b)
	case fa == 0:
		return Result{X: a}, nil
	case fb == 0:
		return Result{X: b}, nil
	case (fa > 0) == (fb > 0):
		return Result{}, fmt.Errorf("%w: %g at %g, %g at %g", ErrNoBracket, fa, a, fb, b)
	}
	return brent(f, a, b, fa, fb, tol)
}

// brent keeps the best point in b, the other end of the bracket in c.
func brent(f func(float64) float64, a, b, fa, fb, tol float64) (Result, error) {
	c, fc := a, fa
	step := b - a
	before := step
	for i := 1; i <= maxIterations; i++ {
		if math.Abs(fc) < math.Abs(fb) {
			a, b, c = b, c, b
			fa, fb, fc = fb, fc, fb
		}
		within := 2*epsilon*math.Abs(b) + tol/2
		half := (c - b) / 2
		if fb == 0 || math.Abs(half) <= within {
			return Result{X: b, Residual: fb, Width: math.Abs(half) * 2, Iterations: i - 1}, nil
		}
		step, before = next(a, b, c, fa, fb, fc, step, before, half, within)
		a, fa = b, fb
		if math.Abs(step) > within {
			b += step
		} else {
			b += math.Copysign(within, half)
		}
		fb = f(b)
		if math.IsNaN(fb) {
			return Result{}, fmt.Errorf("%w: at %g", ErrNotANumber, b)
		}
		if (fb > 0) == (fc > 0) {
			c, fc = a, fa
			step = b - a
			before = step
		}
	}
	return Result{X: b, Residual: fb, Width: math.Abs(c - b), Iterations: maxIterations}, ErrNotConverged
}

// next chooses the next step and remembers the one before.
func next(a, b, c, fa, fb, fc, step, before, half, within float64) (s, last float64) {
	if math.Abs(before) < within || math.Abs(fa) <= math.Abs(fb) {
		return half, half
	}
	var p, q float64
	r := fb / fa
	if a == c { // secant
		p, q = 2*half*r, 1-r
	} else { // inverse quadratic
		u, v := fa/fc, fb/fc
		p = r * (2*half*u*(u-v) - (b-a)*(v-1))
		q = (u - 1) * (v - 1) * (r - 1)
	}
	if p > 0 {
		q = -q
	}
	p = math.Abs(p)
	if 2*p < math.Min(3*half*q-math.Abs(within*q), math.Abs(before*q)) {
		return p / q, step
	}
	return half, half
}
