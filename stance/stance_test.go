package stance

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"jounce/tyre"
)

var saloon = Base{Wheelbase: 2.540, FrontTrack: 1.36, RearTrack: 1.37}

func TestExactBoot(t *testing.T) {
	boot := must[Added](t)(Add(NewCorners(276, 276, 234, 234, 1), saloon, []Item{{Name: "boot fit-out", Mass: 34, Back: 2.540 + 0.55}}))
	near(t, "rear [kg]", boot.RearChange, 41, 0.5)
	near(t, "front [kg]", boot.FrontChange, -7, 0.5)
	near(t, "each rear wheel", boot.Change[RL], boot.RearChange/2, 1e-12)
	if boot.After[RL].From != Read || boot.ChangeHalf[RL] != 0 {
		t.Errorf("%+v", boot)
	}
}

// Weight, pitching moment and rolling moment are all kept.
func TestConservesMoments(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 200 {
		base := saloon
		if rng.IntN(2) == 1 {
			base.RollFront = 0.3 + 0.5*rng.Float64()
		}
		before := NewCorners(276, 270, 234, 231, 1)
		var items []Item
		var mass, along, across float64
		for range 1 + rng.IntN(6) {
			it := Item{Name: "x", Mass: 90 * rng.Float64(), Back: -0.3 + 3.2*rng.Float64(), Left: 0.8 * (rng.Float64() - 0.5)}
			items = append(items, it)
			mass, along, across = mass+it.Mass, along+it.Mass*it.Back, across+it.Mass*it.Left
		}
		a := must[Added](t)(Add(before, base, items))
		c := a.Change
		near(t, "weight", c[FL]+c[FR]+c[RL]+c[RR], mass, 1e-9)
		near(t, "moment along", (c[RL]+c[RR])*base.Wheelbase, along, 1e-9)
		near(t, "moment across", (c[FL]-c[FR])*base.FrontTrack/2+(c[RL]-c[RR])*base.RearTrack/2, across, 1e-9)
		if a.RollAssumed != (base.RollFront == 0) {
			t.Errorf("assumed %v with %g", a.RollAssumed, base.RollFront)
		}
		// The centre of the car with it all is the centre of all masses.
		k0, k1 := must[Centre](t)(CentreOf(before, base)), must[Centre](t)(CentreOf(a.After, base))
		total := must[Shares](t)(before.Shares()).Total
		near(t, "centre along", k1.Back, (k0.Back*total+along)/(total+mass), 1e-9)
		near(t, "centre across", k1.Left, (k0.Left*total+across)/(total+mass), 1e-9)
	}
}

// The two-wheel sums do not depend on the assumed share of roll stiffness.
func TestLimitRollShare(t *testing.T) {
	driver := []Item{{Name: "driver", Mass: 80, Back: 1.35, Left: -0.36}}
	soft, stiff := saloon, saloon
	soft.RollFront, stiff.RollFront = 0.01, 1
	a := must[Added](t)(Add(Corners{}, soft, driver))
	b := must[Added](t)(Add(Corners{}, stiff, driver))
	c := must[Added](t)(Add(Corners{}, saloon, driver))
	near(t, "front axle", a.FrontChange, b.FrontChange, 0)
	near(t, "all of it in front", b.Change[RL]-b.Change[RR], 0, 1e-9)
	if !c.RollAssumed || c.RollFront != 0.5 || c.ChangeHalf[FL] <= 0 || c.After[FL].From != NotRead {
		t.Errorf("%+v", c)
	}
	if c.Change[FR] <= c.Change[FL] {
		t.Error("a driver on the right makes the left heavier")
	}
	known := must[Added](t)(Add(NewCorners(276, 276, 234, 234, 1), saloon, driver))
	near(t, "assumed from the weights", known.RollFront, 552.0/1020, 1e-12)
	var m *Missing
	if _, err := Add(Corners{}, Base{Wheelbase: 2.54}, driver); !errors.As(err, &m) {
		t.Errorf("no track: %v", err)
	}
	if _, err := Add(Corners{}, Base{}, nil); err == nil {
		t.Error("no wheelbase was taken")
	}
	if _, err := Add(NewCorners(276, 276, 234, 234, 1), saloon, []Item{{Name: "lead", Mass: 2000, Back: 5}}); err == nil {
		t.Error("a lifted front wheel was taken")
	}
}

func TestExactShares(t *testing.T) {
	s := must[Shares](t)(NewCorners(276, 276, 234, 234, 1).Shares())
	near(t, "cross", s.Cross, 0.5, 1e-12)
	near(t, "total ±", s.TotalHalf, 2, 1e-12)
	near(t, "cross ±", s.CrossHalf, 0.5*2/1020, 1e-12)
	s = must[Shares](t)(NewCorners(300, 270, 234, 234, 1).Shares())
	near(t, "sides in front", s.FrontSides, 30.0/270, 1e-12)
	near(t, "sides behind", s.RearSides, 0, 1e-12)
	if s.FrontSidesHalf <= 0 {
		t.Error("no doubt")
	}
	if _, err := NewCorners(276, 276, -12, 234, 1).Shares(); err == nil {
		t.Error("a corner of −12 kg was taken")
	}
}

func TestExactPlane(t *testing.T) {
	at := AtWheels(Base{Wheelbase: 2.5, FrontTrack: 1.4, RearTrack: 1.4})
	h := Heights{}
	for i, p := range at {
		h[i] = 0.640 + 0.01*p.Back - 0.004*p.Left
	}
	p := must[Plane](t)(BestPlane(h, at))
	near(t, "front", p.Front, 0.640, 1e-12)
	near(t, "nose up", float64(p.NoseUp), -math.Atan(0.01), 1e-12)
	near(t, "left up", float64(p.LeftUp), -math.Atan(0.004), 1e-12)
	near(t, "worst", p.Worst, 0, 1e-12)
	w := must[Warp](t)(FlatPlane(h, 0))
	near(t, "residual", w.Residual, 0, 1e-12)
	h[RR] += 0.012
	p = must[Plane](t)(BestPlane(h, at))
	w = must[Warp](t)(FlatPlane(h, 0))
	for i, want := range []float64{1, -1, -1, 1} {
		near(t, "a quarter each", p.Residuals[i], want*w.Residual/4, 1e-12)
	}
	near(t, "at a sill", p.At(1.25, 0), p.Front+1.25*p.SlopeBack, 1e-12)
}

func TestLimitPlane(t *testing.T) {
	var line Places
	for i := range line {
		line[i].Back = float64(i)
	}
	if _, err := BestPlane(Heights{0.6, 0.6, 0.6, 0.6}, line); err == nil {
		t.Error("four places in a line gave a plane")
	}
	if _, err := BestPlane(Heights{math.NaN(), 0.6, 0.6, 0.6}, AtWheels(saloon)); err == nil {
		t.Error("no number gave a plane")
	}
	if _, err := FlatPlane(Heights{0, 0.6, 0.6, 0.6}, 0.002); err == nil {
		t.Error("a height of zero was taken")
	}
	if w := must[Warp](t)(FlatPlane(Heights{0.650, 0.640, 0.640, 0.640}, 0.002)); w.First != [2]Wheel{FL, FR} {
		t.Errorf("%+v", w)
	}
}

func TestExactArch(t *testing.T) {
	set := tyre.DefaultSettings()
	size, err := tyre.Parse("185/70R13", set)
	if err != nil {
		t.Fatal(err)
	}
	a := must[ArchHeight](t)(Arch(size.Dimensions(set, tyre.Measured{}), 0.360, 0.002))
	near(t, "arch", a.Arch, 0.281343+0.360, 1e-9)
	near(t, "gap", a.TreadGap, 0.360-0.2946, 1e-9)
	near(t, "scrub line", a.ScrubLine, 0.0987, 5e-5)
	if a.ArchHalf <= 0.002 {
		t.Errorf("%+v", a)
	}
	var m *Missing
	if _, err := Arch(tyre.Dimensions{}, 0.360, 0.002); !errors.As(err, &m) {
		t.Errorf("no tyre: %v", err)
	}
}

func TestExactBodyPoint(t *testing.T) {
	// The worked car's sill, halfway, with the rear 30 mm down.
	p := must[BodyPoint](t)(At(1.27, 0.138, 0, -0.030, 2.540))
	near(t, "sill", p.Now, 0.123, 1e-12)
	for back, want := range map[float64]float64{0: 0, 2.540: -0.030, -0.5: 0.030 * 0.5 / 2.54, 3.0: -0.030 * 3 / 2.54} {
		near(t, "rise", must[BodyPoint](t)(At(back, 0.2, 0, -0.030, 2.540)).Change, want, 1e-12)
	}
}

func TestLimitCentreHeight(t *testing.T) {
	for _, raised := range []float64{0, 0.05, 2.4} {
		if _, err := CentreHeight(1250, 560, 583, 2.5, raised, 0.29); err == nil {
			t.Errorf("raised by %g m was taken", raised)
		}
	}
	// 1 kg is worth about 10 mm.
	a := must[float64](t)(CentreHeight(1250, 560, 583, 2.5, 0.5, 0.29))
	b := must[float64](t)(CentreHeight(1250, 560, 584, 2.5, 0.5, 0.29))
	near(t, "1 kg [mm]", (b-a)/mm, 9.8, 0.05)
}
