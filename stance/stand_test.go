package stance

import (
	"math"
	"testing"
)

// TestExactStand stands a car on a slope: the line under the wheels has the
// slope's angle, and the hubs stand a radius off the road.
func TestExactStand(t *testing.T) {
	w, err := Driveway(0, 6, 0.9)
	if err != nil {
		t.Fatal(err)
	}
	s, err := w.Stand(4.5, 2.5, 0.3)
	if err != nil {
		t.Fatal(err)
	}
	if got := math.Atan2(s.Front.Z-s.Rear.Z, s.Front.X-s.Rear.X); math.Abs(got-RampAngle(6, 0.9)) > 1e-9 {
		t.Errorf("%v rad, expected %v", got, RampAngle(6, 0.9))
	}
	if d := math.Hypot(s.Front.X-s.Rear.X, s.Front.Z-s.Rear.Z); math.Abs(d-2.5) > 1e-6 {
		t.Errorf("the hubs stand %v m apart", d)
	}
	if z := w.At(4.5) + 0.3/math.Cos(RampAngle(6, 0.9)); math.Abs(s.Front.Z-z) > 1e-9 {
		t.Errorf("front hub at %v, expected %v", s.Front.Z, z)
	}
}

// TestLimitStand stands a car on the flat before and after, and refuses nonsense.
func TestLimitStand(t *testing.T) {
	w, _ := Driveway(0.03, 6, 0.9)
	for x, want := range map[float64]float64{-5: 0.3, 20: 0.93 + 0.3} {
		if s, err := w.Stand(x, 2.5, 0.3); err != nil || math.Abs(s.Front.Z-want) > 1e-9 || math.Abs(s.Rear.Z-want) > 1e-9 {
			t.Errorf("at %v m: %+v, %v", x, s, err)
		}
	}
	if w.At(-1) != 0 || math.Abs(w.At(0)-0.03) > 1e-12 || math.Abs(w.At(50)-0.93) > 1e-12 {
		t.Errorf("heights %v %v %v", w.At(-1), w.At(0), w.At(50))
	}
	for _, x := range []float64{math.NaN(), math.Inf(1)} {
		if _, err := w.Stand(x, 2.5, 0.3); err == nil {
			t.Errorf("stands at %v", x)
		}
	}
	if _, err := (Way{}).Stand(0, 2.5, 0.3); err == nil {
		t.Error("stands on no way")
	}
}
