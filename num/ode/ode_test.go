package ode

import (
	"errors"
	"fmt"
	"math"
	"testing"
)

func decay(_ float64, y, dy []float64) { dy[0] = -y[0] }

func spring(_ float64, y, dy []float64) { dy[0], dy[1] = y[1], -y[0] }

func TestExactSolutions(t *testing.T) {
	o := Options{Rel: 1e-9, Abs: []float64{1e-12}}
	for _, c := range []struct {
		name     string
		f        Func
		from, to float64
		y0, want []float64
	}{
		{"decay", decay, 0, 5, []float64{1}, []float64{math.Exp(-5)}},
		{"backwards", decay, 5, 0, []float64{math.Exp(-5)}, []float64{1}},
		{"oscillation, ten turns", spring, 0, 20 * math.Pi, []float64{1, 0}, []float64{1, 0}},
		{"logistic", func(_ float64, y, dy []float64) { dy[0] = y[0] * (1 - y[0]) }, 0, 3, []float64{0.1}, []float64{1 / (1 + 9*math.Exp(-3))}},
		{"time alone", func(t float64, _, dy []float64) { dy[0] = 3 * t * t }, -1, 2, []float64{-1}, []float64{8}},
		{"nothing", decay, 1, 1, []float64{4}, []float64{4}},
		{"from zero", func(t float64, _, dy []float64) { dy[0] = math.Cos(t) }, 0, 1, []float64{0}, []float64{math.Sin(1)}},
	} {
		r, err := Solve(c.f, c.from, c.y0, c.to, o)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		for i, w := range c.want {
			// tolerance times the steps, as the doc comment says
			if math.Abs(r.Y[i]-w) > 1e-9*float64(max(r.Steps, 1)) {
				t.Errorf("%s: state %d is %v, expected %v after %d steps", c.name, i, r.Y[i], w, r.Steps)
			}
		}
		if r.T != c.to || r.Stopped {
			t.Errorf("%s: ended at %v", c.name, r.T)
		}
	}
}

// fixed integrates with n equal steps, error control off.
func fixed(f Func, y0 []float64, to float64, n int) (*solver, []float64) {
	h := to / float64(n)
	s, err := begin(f, 0, y0, to, Options{Rel: 1, Abs: []float64{1e9}, First: h, Max: h})
	if err != nil {
		panic(err)
	}
	for range n {
		s.try(h)
		s.accept(h, false)
	}
	return s, s.y
}

// TestOrderOfSteps halves the step: the error must fall with the fifth power.
func TestOrderOfSteps(t *testing.T) {
	e := func(n int) float64 {
		_, y := fixed(spring, []float64{1, 0}, 4, n)
		return math.Hypot(y[0]-math.Cos(4), y[1]+math.Sin(4))
	}
	for n := 16; n <= 64; n *= 2 {
		if order := math.Log2(e(n) / e(2*n)); math.Abs(order-5) > 0.3 {
			t.Errorf("%d steps: order %.2f, expected 5", n, order)
		}
	}
}

// TestOrderOfExtension checks the state between steps: within one step its
// error must fall with the fifth power of the step (order 4 and one).
func TestOrderOfExtension(t *testing.T) {
	e := func(h float64) float64 {
		s, err := begin(spring, 0, []float64{1, 0}, h, Options{Rel: 1, Abs: []float64{1e9}})
		if err != nil {
			t.Fatal(err)
		}
		s.try(h)
		s.extend(h)
		y := make([]float64, 2)
		var w float64
		for u := 0.1; u < 1; u += 0.1 {
			s.dense(u, h, y)
			w = math.Max(w, math.Hypot(y[0]-math.Cos(u*h), y[1]+math.Sin(u*h)))
		}
		return w
	}
	for h := 0.4; h > 0.1; h /= 2 {
		if order := math.Log2(e(h) / e(h/2)); order < 4.7 {
			t.Errorf("step %v: order %.2f, expected 5", h, order)
		}
	}
}

func TestExactEvents(t *testing.T) {
	o := Options{Rel: 1e-10, Abs: []float64{1e-12}, Max: 1, Events: []Event{
		{Cross: func(_ float64, y []float64) float64 { return y[0] }},
		{Cross: func(_ float64, y []float64) float64 { return y[1] }, Direction: 1},
		{Cross: func(t float64, _ []float64) float64 { return t - 7 }, Stop: true},
	}}
	r, err := Solve(spring, 0, []float64{1, 0}, 20, o)
	if err != nil {
		t.Fatal(err)
	}
	// cos crosses at π/2, 3π/2; its slope −sin rises through zero at π; 5π/2 is after 7.
	want := []struct {
		event int
		t     float64
	}{{0, math.Pi / 2}, {1, math.Pi}, {0, 3 * math.Pi / 2}, {2, 7}}
	if len(r.Crossings) != len(want) || !r.Stopped || math.Abs(r.T-7) > 1e-12 {
		t.Fatalf("%+v", r)
	}
	for i, w := range want {
		if c := r.Crossings[i]; c.Event != w.event || math.Abs(c.T-w.t) > 1e-8 {
			t.Errorf("crossing %d: event %d at %v, expected %d at %v", i, c.Event, c.T, w.event, w.t)
		}
	}
	if math.Abs(r.Y[0]-math.Cos(7)) > 1e-8 {
		t.Errorf("state at the stop %v", r.Y)
	}
}

// TestLimitEventAtStart: a guard that is zero at the start has just fired.
func TestLimitEventAtStart(t *testing.T) {
	o := Options{Rel: 1e-8, Abs: []float64{1e-10}, Max: 0.5, Events: []Event{
		{Cross: func(_ float64, y []float64) float64 { return y[0] - 1 }, Stop: true},
	}}
	r, err := Solve(spring, 0, []float64{1, 0}, 2, o)
	if err != nil || r.Stopped || len(r.Crossings) != 0 {
		t.Errorf("%+v, %v", r, err)
	}
}

func TestExactSamples(t *testing.T) {
	var times []float64
	at := []float64{0, 0.1, 1, 2.5, 5, 9}
	r, err := Solve(decay, 0, []float64{1}, 5, Options{Rel: 1e-9, Abs: []float64{1e-12}, At: at,
		Watch: func(t float64, _ []float64) { times = append(times, t) }})
	if err != nil || len(r.Sampled) != 5 {
		t.Fatalf("%d samples, %v", len(r.Sampled), err)
	}
	for i, y := range r.Sampled {
		if math.Abs(y[0]-math.Exp(-at[i])) > 1e-7 {
			t.Errorf("at %v: %v", at[i], y[0])
		}
	}
	if len(times) != r.Steps+1 || times[len(times)-1] != 5 {
		t.Errorf("watched %d times in %d steps", len(times), r.Steps)
	}
}

func TestLimitRefused(t *testing.T) {
	ok := Options{Rel: 1e-6, Abs: []float64{1e-9}}
	for _, o := range []Options{{}, {Rel: 1e-6}, {Rel: 1e-6, Abs: []float64{1, 1}}, {Rel: 1e-6, Abs: []float64{math.NaN()}}} {
		if _, err := Solve(decay, 0, []float64{1}, 1, o); !errors.Is(err, ErrOptions) {
			t.Errorf("%+v: %v", o, err)
		}
	}
	if _, err := Solve(decay, 0, []float64{1}, math.Inf(1), ok); !errors.Is(err, ErrOptions) {
		t.Error(err)
	}
	few := ok
	few.MaxSteps = 3
	if _, err := Solve(spring, 0, []float64{1, 0}, 100, few); !errors.Is(err, ErrSteps) {
		t.Error(err)
	}
	blow := func(_ float64, y, dy []float64) { dy[0] = y[0] * y[0] }
	if _, err := Solve(blow, 0, []float64{1}, 2, ok); !errors.Is(err, ErrTooSmall) && !errors.Is(err, ErrSteps) {
		t.Errorf("a solution that runs to infinity at 1: %v", err)
	}
	nan := func(_ float64, y, dy []float64) { dy[0] = math.Sqrt(-1) }
	if _, err := Solve(nan, 0, []float64{1}, 2, ok); !errors.Is(err, ErrNumber) {
		t.Error(err)
	}
}

func ExampleSolve() {
	half := Event{Cross: func(_ float64, y []float64) float64 { return y[0] - 0.5 }, Stop: true}
	r, err := Solve(func(_ float64, y, dy []float64) { dy[0] = -y[0] }, 0, []float64{1}, 10,
		Options{Rel: 1e-9, Abs: []float64{1e-12}, Events: []Event{half}})
	fmt.Printf("half is left at %.6f %v\n", r.T, err)
	// Output: half is left at 0.693147 <nil>
}

func BenchmarkSolve(b *testing.B) {
	for b.Loop() {
		if _, err := Solve(spring, 0, []float64{1, 0}, 20*math.Pi, Options{Rel: 1e-8, Abs: []float64{1e-10}}); err != nil {
			b.Fatal(err)
		}
	}
}
