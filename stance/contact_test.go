package stance

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
)

var level = must2(NewPath(0.045, -0.150, [2]bool{true, true}, Pose{}))

func must2(p Path, err error) Path {
	if err != nil {
		panic(err)
	}
	return p
}

// The clearances of the handbook's scenario 31, read with a tape.
var worked = []Contact{
	{Name: "sill", Moves: WithBody, Room: 0.138, Half: 0.002, Back: 1.27, Wheelbase: 2.54},
	{Name: "sump", Moves: WithBody, Room: 0.121, Half: 0.002, Back: 0.1, Wheelbase: 2.54},
	{Name: "exhaust joint", Moves: WithBody, Room: 0.104, Half: 0.002, Back: 1.5, Wheelbase: 2.54},
	{Name: "inner liner", Moves: WithWheel, Room: 0.089, Half: 0.002, Ratio: 1},
	{Name: "bump stop", Moves: WithWheel, Room: 0.068, Half: 0.002, Ratio: 1},
}

func TestScenario31(t *testing.T) {
	met := must[[]Met](t)(Order(worked, level))
	for i, want := range []struct {
		name string
		at   float64
	}{{"bump stop", 68}, {"inner liner", 89}, {"exhaust joint", 104}, {"sump", 121}, {"sill", 138}} {
		if got := worked[met[i].Index].Name; got != want.name || met[i].Never {
			t.Errorf("place %d: %s, want %s", i+1, got, want.name)
		}
		near(t, want.name+" [mm]", met[i].At/mm, -want.at, 1e-9)
		near(t, want.name+" ± [mm]", met[i].Half/mm, 2, 1e-9)
	}
	target := Pose{-0.080, -0.080}
	for name, want := range map[string][2]float64{"bump stop": {-12, 2}, "inner liner": {9, 2}, "exhaust joint": {24, 2}} {
		for _, c := range worked {
			if c.Name == name {
				r := must[Room](t)(c.At(target))
				near(t, name+" left [mm]", r.Left/mm, want[0], 1e-9)
				near(t, name+" ± [mm]", r.Half/mm, want[1], 1e-9)
			}
		}
	}
}

// contact = clearance ÷ ratio, and its doubt is that of the quotient.
func TestExactContact(t *testing.T) {
	for _, c := range []Contact{
		{Name: "arm", Moves: WithWheel, Room: 0.050, Half: 0.001, Ratio: 0.62, RatioHalf: 0.0062},
		{Name: "hose", Moves: LimitsDroop, Room: 0.020, Half: 0.002, Ratio: 0.8, RatioHalf: 0.008, Rear: true},
	} {
		m, ok, err := c.Meets(level)
		if err != nil || !ok {
			t.Fatal(c.Name, ok, err)
		}
		want := c.Room / c.Ratio
		near(t, c.Name, math.Abs(m.At), want, 1e-12)
		near(t, c.Name+" ±", m.Half, want*math.Hypot(c.Half/c.Room, c.RatioHalf/c.Ratio), 1e-12)
		if (m.At > 0) != (c.Moves == LimitsDroop) {
			t.Errorf("%s meets at %g", c.Name, m.At)
		}
	}
	// A nose 0.69 m ahead of the axle falls faster than the axle when the tail stays.
	lip := Contact{Name: "lip", Moves: WithBody, Room: 0.150, Back: -0.69, Wheelbase: 2.54}
	r := must[Room](t)(lip.At(Pose{-0.040, 0}))
	near(t, "lip [mm]", r.Left/mm, 150-40*(1+0.69/2.54), 1e-9)
	// A part whose place is not known takes the end that sinks more.
	any := Contact{Name: "lowest", Moves: WithBody, Room: 0.104, Somewhere: true}
	near(t, "lowest [mm]", must[Room](t)(any.At(Pose{-0.020, -0.055})).Left/mm, 49, 1e-9)
	near(t, "lowest [mm]", must[Room](t)(any.At(Pose{-0.055, -0.020})).Left/mm, 49, 1e-9)
	// Read with the rear 15 mm higher than ROAD: at ROAD it may stand behind.
	any.Read = Pose{0, 0.015}
	near(t, "lowest at ROAD [mm]", must[Room](t)(any.At(Pose{})).Left/mm, 89, 1e-9)
	near(t, "lowest as read [mm]", must[Room](t)(any.At(Pose{0, 0.015})).Left/mm, 104, 1e-9)
}

// Where a point meets, no room is left; just above, some is. Seen along many
// paths by small steps.
func TestAgreesSteps(t *testing.T) {
	rng := rand.New(rand.NewPCG(31, 4))
	for range 300 {
		u := func(a, b float64) float64 { return a + (b-a)*rng.Float64() }
		path := must2(NewPath(0.05, -0.15, [2]bool{rng.IntN(2) == 1, true}, Pose{}, Pose{u(-0.06, -0.02), u(-0.06, -0.02)}, Pose{u(0.02, 0.05), u(0, 0.05)}))
		c := Contact{Name: "x", Moves: Moves(1 + rng.IntN(3)), Room: u(0.01, 0.12), Half: 0.002, Ratio: u(0.3, 1.2), Rear: rng.IntN(2) == 1,
			Back: u(-0.8, 3.4), Somewhere: rng.IntN(4) == 0, Wheelbase: 2.54}
		m, ok, err := c.Meets(path)
		if err != nil {
			t.Fatal(err)
		}
		step, end := -1e-4, path[len(path)-1].Mean()
		if c.Moves == LimitsDroop {
			step, end = 1e-4, path[0].Mean()
		}
		if ok && m.At*step < 0 {
			continue // it meets on the other way, past a turn of the body
		}
		seen := math.NaN()
		for h := 0.0; (end-h)/step >= 0; h += step {
			if must[Room](t)(c.At(path.Pose(h))).Left <= 0 {
				seen = h
				break
			}
		}
		if ok != !math.IsNaN(seen) && math.Abs(m.At-end) > 2e-4 {
			t.Errorf("%+v on %v: meets %v at %g, seen at %g", c, path, ok, m.At, seen)
		} else if ok && !math.IsNaN(seen) && math.Abs(m.At-seen) > 1.01e-4 {
			t.Errorf("%+v on %v: meets at %g, seen at %g", c, path, m.At, seen)
		}
	}
}

func TestExactPath(t *testing.T) {
	p := must[Path](t)(NewPath(0.060, -0.140, [2]bool{true, true}, Pose{}, Pose{-0.060, -0.040}, Pose{0.020, 0.030}))
	for _, c := range []struct{ mean, front, rear float64 }{
		{0.060, 0.055, 0.065}, {0.025, 0.020, 0.030}, {0.0125, 0.010, 0.015}, {0, 0, 0}, {-0.025, -0.030, -0.020}, {-0.050, -0.060, -0.040}, {-0.140, -0.150, -0.130}, {-0.5, -0.150, -0.130},
	} {
		got := p.Pose(c.mean)
		near(t, "front", got.Front, c.front, 1e-12)
		near(t, "rear", got.Rear, c.rear, 1e-12)
	}
	// An axle on steel stays.
	p = must[Path](t)(NewPath(0.030, -0.050, [2]bool{false, true}, Pose{}, Pose{0, -0.055}))
	near(t, "front on steel", p.Pose(-0.050).Front, 0, 0)
	near(t, "rear", p.Pose(-0.050).Rear, -0.100, 1e-12)
}

func TestLimitContact(t *testing.T) {
	for _, c := range []Contact{
		{Name: "no kind", Room: 0.1, Ratio: 1},
		{Name: "no ratio", Moves: WithWheel, Room: 0.1},
		{Name: "no place", Moves: WithBody, Room: 0.1},
		{Name: "below zero", Moves: WithWheel, Room: -0.001, Ratio: 1},
		{Name: "no number", Moves: WithWheel, Room: math.NaN(), Ratio: 1},
		{Name: "no doubt", Moves: WithWheel, Room: 0.1, Half: math.Inf(1), Ratio: 1},
	} {
		_, err := c.At(Pose{})
		if _, _, err2 := c.Meets(level); err == nil || err2 == nil {
			t.Errorf("%s was taken", c.Name)
		}
		var m *Missing
		var q *Question
		if !errors.As(err, &m) && !errors.As(err, &q) {
			t.Errorf("%s: %v", c.Name, err)
		}
	}
	if _, err := worked[0].At(Pose{1.1, 0}); err == nil {
		t.Error("a change of 1,100 mm was taken")
	}
	if _, err := NewPath(-0.1, 0.1, [2]bool{true, true}, Pose{}); err == nil {
		t.Error("a path from below to above was taken")
	}
	if _, ok, _ := (Contact{Name: "far", Moves: WithWheel, Room: 0.6, Ratio: 1}).Meets(level); ok {
		t.Error("600 mm were used up in 150")
	}
	// No room at ROAD: it meets there.
	if m, ok, _ := (Contact{Name: "touching", Moves: WithWheel, Ratio: 1}).Meets(level); !ok || m.At != 0 {
		t.Errorf("%+v %v", m, ok)
	}
}
