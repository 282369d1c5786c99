package interp

import (
	"errors"
	"fmt"
	"math"
	"testing"

	gonum "gonum.org/v1/gonum/interp"
)

var (
	hx = []float64{0, 1, 2.5, 3, 5, 6}
	hy = []float64{0, 0.5, 3, 3, 2, 5}
)

func must(t *testing.T, x, y []float64) *Curve {
	t.Helper()
	c, err := New(x, y)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestExactPointsAndLine(t *testing.T) {
	c := must(t, hx, hy)
	for i, x := range hx {
		if v, err := c.At(x); err != nil || math.Abs(v-hy[i]) > 1e-12 {
			t.Errorf("at %v: %v, expected %v, %v", x, v, hy[i], err)
		}
	}
	line := must(t, []float64{1, 3, 4, 9}, []float64{5, 9, 11, 21})
	for _, x := range []float64{1, 1.7, 3.2, 8.9, 9} {
		v, err := line.At(x)
		s, err2 := line.Slope(x)
		if err != nil || err2 != nil || math.Abs(v-(3+2*x)) > 1e-12 || math.Abs(s-2) > 1e-12 {
			t.Errorf("line at %v: %v, slope %v", x, v, s)
		}
	}
	two := must(t, []float64{0, 2}, []float64{1, 5})
	if v, _ := two.At(0.5); v != 2 {
		t.Errorf("two points: %v", v)
	}
}

// TestAgreesLibrary compares values and slopes with gonum's curve of the same
// kind, which sets its end slopes by the same rule.
func TestAgreesLibrary(t *testing.T) {
	var other gonum.FritschButland
	if err := other.Fit(hx, hy); err != nil {
		t.Fatal(err)
	}
	c := must(t, hx, hy)
	for x := 0.0; x <= 6; x += 0.01 {
		v, err := c.At(x)
		s, err2 := c.Slope(x)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		if math.Abs(v-other.Predict(x)) > 1e-12 || math.Abs(s-other.PredictDerivative(x)) > 1e-11 {
			t.Errorf("at %v: %v and %v, slopes %v and %v", x, v, other.Predict(x), s, other.PredictDerivative(x))
		}
	}
}

// TestConservesOrder checks that a rising table gives a rising curve.
func TestConservesOrder(t *testing.T) {
	c := must(t, []float64{0, 1, 2, 3, 10, 10.1}, []float64{0, 0, 0.01, 5, 5.1, 9})
	last := math.Inf(-1)
	for i := 0; i <= 1010; i++ {
		v, err := c.At(math.Min(float64(i)*0.01, 10.1))
		if err != nil {
			t.Fatal(err)
		}
		if v < last-1e-14 {
			t.Fatalf("falls from %v to %v at %v", last, v, float64(i)*0.01)
		}
		last = v
	}
}

// TestOrderOfError halves the spacing on a smooth rising function: the largest
// error must fall with the third power or better.
func TestOrderOfError(t *testing.T) {
	worst := func(n int) float64 {
		x, y := make([]float64, n+1), make([]float64, n+1)
		for i := range x {
			x[i] = float64(i) / float64(n)
			y[i] = math.Exp(x[i])
		}
		c := must(t, x, y)
		var w float64
		for i := 0; i <= 5000; i++ {
			v, _ := c.At(float64(i) / 5000)
			w = math.Max(w, math.Abs(v-math.Exp(float64(i)/5000)))
		}
		return w
	}
	for n := 8; n <= 64; n *= 2 {
		if order := math.Log2(worst(n) / worst(2*n)); order < 2.8 {
			t.Errorf("%d pieces: order %.2f, expected 3", n, order)
		}
	}
}

func TestLimitRefused(t *testing.T) {
	c := must(t, hx, hy)
	for _, x := range []float64{-1e-9, 6.0000001, math.NaN(), math.Inf(1)} {
		if v, err := c.At(x); !errors.Is(err, ErrOutside) || !math.IsNaN(v) {
			t.Errorf("at %v: %v, %v", x, v, err)
		}
		if _, err := c.Slope(x); !errors.Is(err, ErrOutside) {
			t.Errorf("slope at %v: %v", x, err)
		}
	}
	for _, bad := range [][2][]float64{
		{{1}, {1}}, {nil, nil}, {{1, 2}, {1}}, {{1, 1}, {1, 2}}, {{2, 1}, {1, 2}}, {{1, math.NaN()}, {1, 2}}, {{1, 2}, {1, math.Inf(1)}},
	} {
		if _, err := New(bad[0], bad[1]); !errors.Is(err, ErrPoints) {
			t.Errorf("%v: %v", bad, err)
		}
	}
	if _, err := new(Curve).At(1); err == nil {
		t.Error("a curve without points gave a value")
	}
}

func ExampleCurve_At() {
	c, err := New([]float64{0, 0.1, 0.2}, []float64{60, 70, 72})
	if err != nil {
		fmt.Println(err)
		return
	}
	v, _ := c.At(0.05)
	_, err = c.At(0.25)
	fmt.Printf("%.2f\n%v\n", v, err)
	// Output:
	// 66.33
	// outside the points: 0.25, the points reach from 0 to 0.2
}
