package stance

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func near(t testing.TB, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %g, expected %g within %g", what, got, want, within)
	}
}

func TestScenario03(t *testing.T) {
	c := NewCorners(276, 276, 234, 0, 1)
	c[RR] = Mass{}
	d, err := c.Derive(1020, 10)
	if err != nil {
		t.Fatal(err)
	}
	if d[RR].Value != 234 || d[RR].From != Derived || d[FL].From != Read {
		t.Errorf("%+v", d)
	}
	near(t, "its ±", d[RR].Half, math.Sqrt(103), 1e-12)
	var m *Missing
	same, err := c.Derive(0, 0)
	if !errors.As(err, &m) || !strings.Contains(err.Error(), "RR") || same[FL].Value != 276 || same[RR].From != NotRead {
		t.Errorf("no total: %v %+v", err, same)
	}
	if _, err := c.Derive(700, 10); err == nil {
		t.Error("a total below the three corners was taken")
	}
	c[RL] = Mass{}
	if _, err := c.Derive(1020, 10); !errors.As(err, &m) || len(m.What) != 2 {
		t.Errorf("two missing: %v", err)
	}
	if _, err := c.Shares(); !errors.As(err, &m) || len(m.What) != 2 {
		t.Errorf("shares of two corners: %v", err)
	}
}

func TestScenario04(t *testing.T) {
	c := NewCorners(276, 276, 234, 234, 1)
	k := must[TicketCheck](t)(CheckTicket(c[:], 1065, 10))
	near(t, "apart [%]", k.Apart*100, 4.4, 0.05)
	near(t, "±", k.Half, math.Sqrt(104), 1e-12)
	axle := must[TicketCheck](t)(CheckTicket(c[:2], 552, 10))
	if axle.Apart != 0 {
		t.Errorf("%+v", axle)
	}
}

func TestScenario06(t *testing.T) {
	before := NewCorners(276, 276, 234, 234, 1)
	e := must[ExchangeCheck](t)(LooksExchanged(before, NewCorners(234, 234, 276, 276, 1), 0))
	if e.Looks != FrontRear || e.AsRead != 42 || e.Looks.String() != "front and rear look exchanged" {
		t.Errorf("%+v", e)
	}
	e = must[ExchangeCheck](t)(LooksExchanged(NewCorners(300, 270, 250, 215, 1), NewCorners(271, 299, 214, 252, 1), 0))
	if e.Looks != LeftRight {
		t.Errorf("%+v", e)
	}
	for _, now := range []Corners{before, NewCorners(280, 281, 240, 238, 1), NewCorners(270, 282, 230, 240, 1)} {
		if e := must[ExchangeCheck](t)(LooksExchanged(before, now, 0)); e.Looks != NoExchange {
			t.Errorf("%v: %v", now, e.Looks)
		}
	}
	// The driver sits on the right; the left became heavier.
	with := NewCorners(301, 284, 252, 237, 1)
	if d := must[DriverSide](t)(CheckDriver(before, with, false)); d.Looks != LeftRight {
		t.Errorf("%+v", d)
	}
	if d := must[DriverSide](t)(CheckDriver(before, with, true)); d.Looks != NoExchange {
		t.Errorf("%+v", d)
	}
}

func TestScenario07(t *testing.T) {
	c := LooksLikeGroundToArch(0.640, 0.281, []float64{0.360, 0.361, 0.358})
	near(t, "hub to arch", c.HubToArch, 0.359, 1e-12)
	if !c.LooksWrong {
		t.Errorf("%+v", c)
	}
	for _, ok := range []float64{0.340, 0.360, 0.400} {
		if c := LooksLikeGroundToArch(ok, 0.281, []float64{0.360, 0.361, 0.358}); c.LooksWrong {
			t.Errorf("%+v", c)
		}
	}
	if c := LooksLikeGroundToArch(0.640, 0.281, nil); !c.LooksWrong {
		t.Errorf("%+v", c)
	}
	if c := LooksLikeGroundToArch(0.640, 0.281, []float64{0.641, 0.632, 0.645}); !c.LooksWrong {
		t.Errorf("all four from the ground: %+v", c)
	}
}

func TestScenario08(t *testing.T) {
	w := must[Warp](t)(FlatPlane(Heights{0.640, 0.641, 0.632, 0.645}, 0.002))
	near(t, "residual [mm]", w.Residual/mm, 12, 1e-9)
	near(t, "fronts [mm]", w.Fronts/mm, -1, 1e-9)
	near(t, "rears [mm]", w.Rears/mm, -13, 1e-9)
	near(t, "its ± [mm]", w.ResidualHalf/mm, 2*math.Sqrt2, 1e-9)
	if w.First != [2]Wheel{RL, RR} {
		t.Errorf("%v first", w.First)
	}
}

func TestScenario41(t *testing.T) {
	a := must[Aim](t)(AimAfter(-1.2, 0.2, 0, -0.030, 0.002, 2.540))
	near(t, "pitch [%]", a.Pitch, 1.2, 0.05)
	near(t, "aim [%]", a.Now, 0.0, 0.05)
	if up := a.RearRise(-0.5) / mm; math.Ceil(up) != 13 {
		t.Errorf("rear up %.1f mm reaches the limit, expected 13 in whole millimetres", up)
	}
	near(t, "rear up for −1.0 % [mm]", a.RearRise(-1.0)/mm, 25, 0.5)
	near(t, "and down in front", a.FrontRise(-1.0), -a.RearRise(-1.0), 0)
	up, down := a.PitchRoom(-0.5, -2.75)
	if up > 0 || down < 0 {
		t.Errorf("room %g up, %g down", up, down)
	}
	back := must[Aim](t)(AimAfter(a.Now, 0, 0, a.RearRise(-1.0), 0, 2.540))
	near(t, "turned round", back.Now, -1.0, 1e-12)
}
