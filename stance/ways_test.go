package stance

import (
	"math"
	"testing"
)

const wheelbase = 2.540

// A hump shorter than the wheelbase needs its whole height, one so long that both
// axles stand on it the sagitta of the wheelbase.
func TestExactHump(t *testing.T) {
	near(t, "100 mm over 0.9 m", must[float64](t)(HumpNeed(0.100, 0.9, wheelbase)), 0.100, 0)
	near(t, "as long as the car", must[float64](t)(HumpNeed(0.100, wheelbase, wheelbase)), 0.100, 0)
	// 100 mm over 3.7 m: R = 3.7²/0.8 + 0.05 = 17.1625 m, L²/8R = 46.99 mm.
	near(t, "radius", HumpRadius(0.100, 3.7), 17.1625, 1e-9)
	need := must[float64](t)(HumpNeed(0.100, 3.7, wheelbase))
	near(t, "100 mm over 3.7 m", need, wheelbase*wheelbase/8/17.1625, 0.0001)
	// The two rules meet where the hump is as long as the wheelbase.
	near(t, "just longer", must[float64](t)(HumpNeed(0.100, wheelbase*(1+1e-9), wheelbase)), 0.100, 1e-6)
}

func TestAgreesHumpRolledOver(t *testing.T) {
	for _, length := range []float64{0.5, 0.9, 1.8, 3.0, 3.7, 6, 10} {
		w := must[Way](t)(RoundHump(0.100, length))
		got := must[Over](t)(w.Over(wheelbase, 0)).Between
		near(t, "rolled over", got, must[float64](t)(HumpNeed(0.100, length, wheelbase)), 0.0003)
	}
}

// A nose meets a slope when the tyre does: a wheel of radius r touches it
// r·tan(θ/2) before the foot, and the slope under the nose stands
// (a − r·tan(θ/2))·tan θ high.
func TestExactNoseAtASlope(t *testing.T) {
	for _, c := range []struct{ length, rise, radius, over float64 }{{4, 0.5, 0.28, 0.69}, {4, 0.5, 0, 0.69}, {6, 1.2, 0.30, 0.9}} {
		theta := RampAngle(c.length, c.rise)
		w := must[Way](t)(Driveway(0, c.length, c.rise))
		got := must[Over](t)(w.Over(wheelbase, c.radius, -c.over)).At[0]
		near(t, "nose", got, (c.over-c.radius*math.Tan(theta/2))*math.Tan(theta), 2e-5)
	}
}

// Over the top of a long slope the belly needs most in the middle, where the car
// stands astride the edge: L/2·tan(θ/2) with wheels that touch at a point.
func TestExactBellyOverTheTop(t *testing.T) {
	theta := RampAngle(8, 1.2)
	w := must[Way](t)(Driveway(0, 8, 1.2))
	o := must[Over](t)(w.Over(wheelbase, 0))
	near(t, "belly", o.Between, wheelbase/2*math.Tan(theta/2), 1e-5)
	// A tail behind the rear axle comes down to b·tan θ while the nose climbs.
	tail := must[Over](t)(w.Over(wheelbase, 0, wheelbase+0.9)).At[0]
	near(t, "tail", tail, 0.9*math.Tan(theta), 1e-4)
}

func TestLimitWays(t *testing.T) {
	flat := Way{{0, 0}, {1, 0}}
	o := must[Over](t)(flat.Over(wheelbase, 0.28, -0.7, 1.2, 3.4))
	near(t, "flat, between", o.Between, 0, 1e-12)
	for _, n := range o.At {
		near(t, "flat", n, 0, 1e-9)
	}
	// A low step under large wheels lifts the car no higher than itself.
	step := must[Way](t)(Driveway(0.030, 4, 0.2))
	if n := must[Over](t)(step.Over(wheelbase, 0.28)).Between; n > 0.05 || n <= 0 {
		t.Errorf("a step of 30 mm needs %g", n)
	}
	near(t, "nose", must[float64](t)(NoseAngle(0.122, 0.690))*180/math.Pi, 10.03, 0.005)
	for _, err := range []error{
		second(RoundHump(0, 1)), second(RoundHump(0.3, 0.5)), second(RoundHump(math.NaN(), 1)),
		second(Driveway(0, 1, 0.9)), second(Driveway(-0.01, 4, 0.5)), second(Driveway(0, 0, 0.5)),
		second(HumpNeed(0.1, 1, 0)), second(NoseAngle(0.1, 0)), second(Way(nil).Over(2.5, 0.3)), second(flat.Over(2.5, 0.3, math.NaN())), second(flat.Over(math.NaN(), 0.3)),
	} {
		if err == nil {
			t.Error("something that cannot be was taken")
		}
	}
}

func second[T any](_ T, err error) error { return err }
