package doubt

import (
	"errors"
	"fmt"
	"math"
	"testing"
)

func near(a, b, rel float64) bool { return math.Abs(a-b) <= rel*math.Max(math.Abs(a), math.Abs(b)) }

func TestExactLinear(t *testing.T) {
	f := func(x []float64) (float64, error) { return 3*x[0] - 4*x[1] + 0*x[2] + 7, nil }
	r, err := Linear(f, []Input{{10, 1}, {2, 1}, {5, 9}})
	if err != nil {
		t.Fatal(err)
	}
	if r.Value != 29 || !near(r.Half, 5, 1e-14) || !near(r.Low(), 24, 1e-14) || !near(r.High(), 34, 1e-14) {
		t.Errorf("%v ± %v", r.Value, r.Half)
	}
	if !near(r.Shares[0], 9.0/25, 1e-14) || !near(r.Shares[1], 16.0/25, 1e-14) || r.Shares[2] != 0 {
		t.Errorf("shares %v", r.Shares)
	}
	if !near(r.PlusFive[0], 1.5, 1e-12) || !near(r.PlusFive[1], -0.4, 1e-12) {
		t.Errorf("plus five per cent %v", r.PlusFive)
	}
}

// TestExactMagnitudes: one formula in very different units gives the same
// relative half-width and shares.
func TestExactMagnitudes(t *testing.T) {
	f := func(x []float64) (float64, error) { return x[0] * x[1] / x[2], nil }
	a, err := Linear(f, []Input{{1e5, 1e3}, {2e-9, 4e-11}, {3, 0}})
	if err != nil {
		t.Fatal(err)
	}
	want := math.Sqrt(0.01*0.01 + 0.02*0.02)
	if !near(a.Half/a.Value, want, 1e-10) || !near(a.Shares[1], 0.8, 1e-10) {
		t.Errorf("relative %v, expected %v; shares %v", a.Half/a.Value, want, a.Shares)
	}
	tiny, err := Linear(f, []Input{{1e5, 1e-9}, {1, 0}, {1, 0}})
	if err != nil || !near(tiny.Half, 1e-9, 1e-6) {
		t.Errorf("a half-width far below the value: %v, %v", tiny.Half, err)
	}
}

func TestExactZeroDoubt(t *testing.T) {
	r, err := Linear(func(x []float64) (float64, error) { return x[0], nil }, []Input{{0, 0}})
	if err != nil || r.Half != 0 || r.Shares[0] != 0 || r.PlusFive[0] != 0 {
		t.Errorf("%+v, %v", r, err)
	}
}

func TestLimitOneSided(t *testing.T) {
	f := func(x []float64) (float64, error) {
		if x[0] < 0 {
			return 0, errors.New("below zero")
		}
		return 2 * x[0], nil
	}
	r, err := Linear(f, []Input{{0.1, 1}})
	if err != nil || r.OneSided != 1 || !near(r.Half, 2, 1e-12) {
		t.Errorf("%+v, %v", r, err)
	}
	none := func(x []float64) (float64, error) {
		if x[0] != 1 {
			return 0, errors.New("only at one")
		}
		return 1, nil
	}
	if _, err := Linear(none, []Input{{1, 0.1}}); err == nil {
		t.Error("a calculation that fails on both sides was accepted")
	}
	if r, err := Linear(none, []Input{{1, 0}}); err != nil || !math.IsNaN(r.PlusFive[0]) {
		t.Errorf("plus five per cent where it fails: %+v, %v", r, err)
	}
}

func TestLimitRefused(t *testing.T) {
	id := func(x []float64) (float64, error) { return x[0], nil }
	for _, in := range []Input{{math.NaN(), 0}, {1, -1}, {1, math.NaN()}, {math.Inf(1), 1}, {1, math.Inf(1)}} {
		if _, err := Linear(id, []Input{in}); !errors.Is(err, ErrInput) {
			t.Errorf("%v: %v", in, err)
		}
		if _, err := MonteCarlo(id, []Input{in}, 1000, 1); !errors.Is(err, ErrInput) {
			t.Errorf("%v: %v", in, err)
		}
	}
	if _, err := Linear(func([]float64) (float64, error) { return math.NaN(), nil }, nil); !errors.Is(err, ErrNumber) {
		t.Error(err)
	}
	if _, err := MonteCarlo(id, []Input{{1, 1}}, 10, 1); !errors.Is(err, ErrCount) {
		t.Error(err)
	}
	half := func(x []float64) (float64, error) { return math.Sqrt(x[0]), nil }
	if _, err := MonteCarlo(half, []Input{{0, 1}}, 1000, 1); !errors.Is(err, ErrFailed) {
		t.Error(err)
	}
}

// TestAgreesMonteCarlo compares the two methods where the bend is mild.
func TestAgreesMonteCarlo(t *testing.T) {
	const n = 200000
	for name, c := range map[string]struct {
		f  Func
		in []Input
	}{
		"product": {func(x []float64) (float64, error) { return x[0] * x[1], nil }, []Input{{244, 8}, {0.97, 0.0097}}},
		"gas law": {func(x []float64) (float64, error) { return x[0]*x[1]/x[2] - x[3], nil },
			[]Input{{11.013e5, 4e3}, {281.15, 0.5}, {293.15, 0.5}, {1.013e5, 2e3}}},
		"root": {func(x []float64) (float64, error) { return math.Sqrt(x[0] / x[1]), nil }, []Input{{28900, 1500}, {244, 8}}},
	} {
		lin, err := Linear(c.f, c.in)
		if err != nil {
			t.Fatal(err)
		}
		mc, err := MonteCarlo(c.f, c.in, n, 7)
		if err != nil {
			t.Fatal(err)
		}
		// 1/√(2n) is 0.16 %: four times that, and the bend's own 0.5 %.
		if !near(lin.Half, mc.Half, 0.0115) {
			t.Errorf("%s: linear ±%v, Monte Carlo ±%v", name, lin.Half, mc.Half)
		}
		if math.Abs(lin.Low()-mc.Lo) > 0.03*lin.Half || math.Abs(lin.High()-mc.Hi) > 0.03*lin.Half {
			t.Errorf("%s: linear %v to %v, Monte Carlo %v to %v", name, lin.Low(), lin.High(), mc.Lo, mc.Hi)
		}
	}
}

func TestConservesSeed(t *testing.T) {
	f := func(x []float64) (float64, error) { return x[0] * x[0], nil }
	a, _ := MonteCarlo(f, []Input{{3, 1}}, 1000, 5)
	b, _ := MonteCarlo(f, []Input{{3, 1}}, 1000, 5)
	c, _ := MonteCarlo(f, []Input{{3, 1}}, 1000, 6)
	if a != b || a == c {
		t.Errorf("same seed %v %v, other seed %v", a, b, c)
	}
}

func TestExactCombine(t *testing.T) {
	if got := Combine(3, 4); got != 5 {
		t.Errorf("3 and 4 combine to %v", got)
	}
	if got := Combine(); got != 0 {
		t.Errorf("nothing combines to %v", got)
	}
}

func ExampleLinear() {
	area := func(x []float64) (float64, error) { return x[0] / x[1], nil } // force over pressure
	r, err := Linear(area, []Input{{2467, 50}, {3.5e5, 0.04e5}})
	fmt.Printf("%.1f ± %.1f cm², the force's share %.0f %%, %v\n", r.Value*1e4, r.Half*1e4, 100*r.Shares[0], err)
	// Output: 70.5 ± 1.6 cm², the force's share 76 %, <nil>
}

func BenchmarkLinear(b *testing.B) {
	in := []Input{{11.013e5, 4e3}, {281.15, 0.5}, {293.15, 0.5}, {1.013e5, 2e3}}
	f := func(x []float64) (float64, error) { return x[0]*x[1]/x[2] - x[3], nil }
	for b.Loop() {
		if _, err := Linear(f, in); err != nil {
			b.Fatal(err)
		}
	}
}
