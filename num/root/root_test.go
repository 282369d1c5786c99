package root

import (
	"errors"
	"fmt"
	"math"
	"testing"
)

func TestExactRoots(t *testing.T) {
	for _, c := range []struct {
		name       string
		f          func(float64) float64
		a, b, root float64
	}{
		{"square root of two", func(x float64) float64 { return x*x - 2 }, 0, 2, math.Sqrt2},
		{"ends exchanged", func(x float64) float64 { return x*x - 2 }, 2, 0, math.Sqrt2},
		{"pi", math.Sin, 3, 4, math.Pi},
		{"cube, flat at its root", func(x float64) float64 { return (x - 1) * (x - 1) * (x - 1) }, -5, 7.3, 1},
		{"steep", func(x float64) float64 { return math.Exp(30*x) - 1 }, -1, 2, 0},
		{"large numbers", func(x float64) float64 { return x - 1.2345e9 }, 0, 1e12, 1.2345e9},
		{"small numbers", func(x float64) float64 { return x - 3e-9 }, 0, 1, 3e-9},
		{"jump", func(x float64) float64 { return math.Copysign(1, x-0.3) }, 0, 1, 0.3},
		{"root at an end", func(x float64) float64 { return x }, 0, 1, 0},
	} {
		r, err := Brent(c.f, c.a, c.b, 1e-12)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		allowed := 1e-12 + 4*epsilon*math.Abs(c.root)
		if math.Abs(r.X-c.root) > allowed && c.name != "cube, flat at its root" {
			t.Errorf("%s: %v, expected %v within %v", c.name, r.X, c.root, allowed)
		}
		if c.name == "cube, flat at its root" && math.Abs(r.X-c.root) > 1e-5 {
			t.Errorf("%s: %v", c.name, r.X)
		}
		if r.Residual != c.f(r.X) {
			t.Errorf("%s: residual %v, function %v", c.name, r.Residual, c.f(r.X))
		}
		if r.Iterations > 120 {
			t.Errorf("%s: %d iterations", c.name, r.Iterations)
		}
	}
}

func TestLimitRefused(t *testing.T) {
	square := func(x float64) float64 { return x * x }
	if _, err := Brent(square, 1, 2, 1e-9); !errors.Is(err, ErrNoBracket) {
		t.Errorf("no bracket: %v", err)
	}
	nan := func(x float64) float64 { return math.Sqrt(x - 1) }
	if _, err := Brent(nan, 0, 2, 1e-9); !errors.Is(err, ErrNotANumber) {
		t.Errorf("not a number at an end: %v", err)
	}
	hole := func(x float64) float64 {
		if x > 0 && x < 3 {
			return math.NaN()
		}
		return x - 1
	}
	if _, err := Brent(hole, 0, 4, 1e-9); !errors.Is(err, ErrNotANumber) {
		t.Errorf("not a number inside: %v", err)
	}
	if _, err := Brent(square, -1, 1, 0); !errors.Is(err, ErrTolerance) {
		t.Errorf("no tolerance: %v", err)
	}
}

// TestAgreesBisection compares with plain halving on a family of curves.
func TestAgreesBisection(t *testing.T) {
	for k := 1; k <= 40; k++ {
		f := func(x float64) float64 { return math.Pow(x, float64(k)) - 0.5 }
		lo, hi := 0.0, 1.0
		for hi-lo > 1e-14 {
			if m := (lo + hi) / 2; f(m) < 0 {
				lo = m
			} else {
				hi = m
			}
		}
		r, err := Brent(f, 0, 1, 1e-13)
		if err != nil || math.Abs(r.X-lo) > 3e-13 {
			t.Errorf("power %d: %v, halving gives %v, %v", k, r.X, lo, err)
		}
	}
}

func FuzzBrent(f *testing.F) {
	f.Add(1.0, -2.0, 0.5, 0.0, 3.0)
	f.Fuzz(func(t *testing.T, p, q, s, a, b float64) {
		r, err := Brent(func(x float64) float64 { return ((p*x+q)*x + s) * x }, a, b, 1e-9)
		if err != nil {
			return
		}
		if r.X < math.Min(a, b) || r.X > math.Max(a, b) {
			t.Errorf("%v is outside %v to %v", r.X, a, b)
		}
	})
}

func ExampleBrent() {
	r, err := Brent(func(x float64) float64 { return x*x - 2 }, 0, 2, 1e-9)
	fmt.Printf("%.6f %v\n", r.X, err)
	// Output: 1.414214 <nil>
}
