package gas

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"jounce/quantity"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %v, expected %v ± %v", what, got, want, within)
	}
}

// TestExactHandbook checks the figures that the trade's handbook works out in
// B11 and B15.
func TestExactHandbook(t *testing.T) {
	near(t, "10 L at 10 bar, kJ", must(StoredEnergy(11.01325*bar, 10*litre, atm))/1e3, 14, 0.5)
	near(t, "19 L at 12 bar, kJ", must(TankEnergy(12*bar, 19*litre, atm))/1e3, 32, 0.5)
	w := must(WaterPerFill(10*litre, atm, atm+10*bar, atm, room, 0.7))
	near(t, "water per fill of 10 L to 10 bar, g", w.Liquid*1e3, 1.1, 0.05)
	near(t, "conserved water", w.Before+w.Drawn-w.Carried-w.Liquid, 0, 1e-18)
	peak := must(Polytropic(4.513*bar, 1*litre, 0.55*litre, 1.38))
	near(t, "bump peak, bar", float64(peak.Gauge(1.013*bar))/bar, 9.3, 0.05)
}

func TestExactState(t *testing.T) {
	m := Mass(8*bar, 10*litre, room)
	near(t, "pressure of the mass of a state", float64(Pressure(m, 10*litre, room)), 8*bar, 1e-6)
	near(t, "worked cooling of B26, bar", float64(Heated(11.013*bar, celsius(20), celsius(8)).Gauge(1.013*bar))/bar, 9.55, 0.005)
	near(t, "vapour that cannot condense", must(WaterPerFill(litre, atm, 2*atm, atm, room, 0.1)).Liquid, 0, 0)
	again := must(WaterPerFill(10*litre, atm+7.5*bar, atm+10*bar, atm, room, 0.7))
	near(t, "a refill drops all it draws", again.Liquid, again.Drawn, 1e-12)
}

func TestExactPolytropicPair(t *testing.T) {
	p := must(Polytropic(4*bar, 1e-3, 0.6e-3, 1.38))
	hot := must(PolytropicTemperature(room, 4*bar, p, 1.38))
	// p·V/T must stay
	near(t, "amount of air", float64(p)*0.6e-3/float64(hot), 4*bar*1e-3/293.15, 1e-12)
}

func TestLimitFlow(t *testing.T) {
	e := Element{C: 2 * dmsb, B: 0.3}
	near(t, "equal pressures", must(e.Flow(5*bar, room, 5*bar)).FreeAir.Volume, 0, 0)
	a, _ := e.Share(0.999 - 1e-12)
	b, _ := e.Share(0.999 + 1e-12)
	near(t, "continuous where the linear branch begins", a, b, 1e-9)
	c, _ := e.Share(0.3 + 1e-9)
	near(t, "continuous at the critical ratio", c, 1, 1e-12)
	near(t, "to vacuum as to the critical ratio", must(e.Flow(5*bar, room, 0)).FreeAir.Volume, must(e.Flow(5*bar, room, 1.5*bar)).FreeAir.Volume, 0)
	ideal := Element{C: 2 * dmsb, B: 0.3, Laminar: 1}
	s, regime := ideal.Share(0.9999)
	near(t, "without a linear branch", s, math.Sqrt(1-math.Pow(0.6999/0.7, 2)), 1e-12)
	if regime != Subsonic {
		t.Errorf("regime %q", regime)
	}
	near(t, "reverse flow", float64(e.Between(2*bar, room, 5*bar, room)), -float64(e.Between(5*bar, room, 2*bar, room)), 0)
	near(t, "free exponent", must(Element{C: 2 * dmsb, B: 0.3, M: 0.55}.Flow(7*bar, room, 6*bar)).Share, math.Pow(1-math.Pow((6.0/7-0.3)/0.7, 2), 0.55), 1e-15)
}

func TestExactInverses(t *testing.T) {
	e := Element{C: 1.3 * dmsb, B: 0.27}
	for _, r := range []float64{0.4, 0.6, 0.85, 0.97, 0.9995} {
		f := must(e.Flow(7*bar, 310, quantity.AbsPressure(r*7*bar)))
		near(t, "outlet for a flow", float64(must(e.OutletFor(f.FreeAir.Volume, 7*bar, 310))), r*7*bar, 1e-4)
	}
	f := must(e.Flow(7*bar, 310, 6*bar))
	fit := must(Fit(f.FullANR.Volume, f.FreeAir.Volume, 7*bar, 310, 6*bar)).Element
	near(t, "fitted C", fit.C/dmsb, 1.3, 1e-12)
	near(t, "fitted b", fit.B, 0.27, 1e-12)
	for _, m := range []float64{0.05, 0.3, 0.8, 1} {
		near(t, "Mach number from a pressure", must(MachFromPressure(Isentropic(m).Pressure)), m, 1e-12)
		near(t, "Mach number from a Fanno pressure", must(MachFromFannoPressure(Fanno(m).Pressure)), m, 1e-12)
		near(t, "Mach number from friction", must(MachFromFanno(math.Max(0, Fanno(m).Friction))), m, 1e-7)
	}
	for _, h := range []float64{-500, 0, 1234, 9000} {
		near(t, "height of a pressure", must(HeightOf(must(AtGeopotential(h)).Pressure)), h, 1e-7)
		near(t, "geometric height", must(AtGeometric(must(AtGeopotential(h)).Geometric)).Geopotential, h, 1e-8)
	}
	for _, h := range []Heat{Isothermal, Adiabatic} {
		near(t, "time of a blow-down", must(BlowdownTime(Blowdown(1.7, h).Pressure, h)), 1.7, 1e-12)
	}
}

// TestAgreesMarch compares the exact series rule with a march through two
// ellipses, choked, for pairs of all kinds.
func TestAgreesMarch(t *testing.T) {
	for _, c := range [][4]float64{{2, 0.3, 2, 0.3}, {3, 0.4, 1.3, 0.2}, {1.3, 0.2, 3, 0.4}, {1, 0.5, 3, 0.3}, {0.5, 0.1, 0.4, 0.45}, {1, 1e-6, 1, 1e-6}} {
		a, b := Element{C: c[0] * dmsb, B: c[1], Laminar: 1}, Element{C: c[2] * dmsb, B: c[3], Laminar: 1}
		pair := must(SeriesPair(a, b))
		q := must(SeriesFlow([]Element{a, b}, 8*bar, room, 0))
		near(t, fmt.Sprintf("pair %v, choked", c), q.Volume/(8*bar)/dmsb, pair.Element.C/dmsb, 1e-6)
		atTrue := must(SeriesFlow([]Element{a, b}, 8*bar, room, quantity.AbsPressure(pair.TrueB*8*bar)))
		near(t, fmt.Sprintf("pair %v, at its true ratio", c), atTrue.Volume/q.Volume, 1, 1e-6)
		above := must(SeriesFlow([]Element{a, b}, 8*bar, room, quantity.AbsPressure((pair.TrueB+0.02)*8*bar)))
		if above.Volume >= q.Volume*(1-1e-7) {
			t.Errorf("pair %v: still choked above its true ratio %v", c, pair.TrueB)
		}
	}
	limit := must(SeriesPair(Element{C: dmsb}, Element{C: dmsb}))
	near(t, "two without a critical ratio", limit.Element.C/dmsb, math.Sqrt(0.5), 1e-12)
}

// TestConservesSeries checks that one flow passes every element of a chain.
func TestConservesSeries(t *testing.T) {
	list := []Element{{C: 2 * dmsb, B: 0.3}, {C: 1 * dmsb, B: 0.4}, {C: 3 * dmsb, B: 0.2}}
	q := must(SeriesFlow(list, 8*bar, 300, 6.5*bar)).Volume
	p := quantity.AbsPressure(8 * bar)
	for _, e := range list {
		p = must(e.OutletFor(q, p, 300))
	}
	near(t, "pressure behind the chain", float64(p), 6.5*bar, 1)
	same := must(Parallel(list[0], list[0]))
	near(t, "two alike side by side", same.C/dmsb, 4, 1e-12)
	near(t, "and their ratio", same.B, 0.3, 1e-12)
}

// TestAgreesClosedForm compares the run over time with the closed forms of
// choked flow.
func TestAgreesClosedForm(t *testing.T) {
	e := Element{C: 1 * dmsb, B: 0.3}
	for _, h := range []Heat{Isothermal, Adiabatic} {
		fill := must(Exchange(litre, Point{Pressure: bar, Temperature: room}, e, Side{7 * bar, room}, 2*bar, h))
		near(t, "choked filling", fill.End.T/must(ChokedFillTime(litre, e, 7*bar, room, bar, 2*bar, h)), 1, 1e-6)
		near(t, "choked all the time", fill.ChokedFor, fill.End.T, 0)
		empty := must(Exchange(litre, Point{Pressure: 7 * bar, Temperature: 310}, e, Side{bar, room}, 4*bar, h))
		tau := must(TimeConstant(litre, e.C, 310))
		near(t, "choked emptying", empty.End.T/(tau*must(BlowdownTime(4.0/7, h))), 1, 1e-6)
	}
	run := must(Exchange(litre, Point{Pressure: bar, Temperature: 280}, e, Side{7 * bar, 310}, 6.9*bar, Adiabatic))
	near(t, "temperature after filling", float64(run.End.Temperature), float64(must(FillTemperature(280, bar, 6.9*bar, 310))), 1e-5)
	out := must(Exchange(litre, Point{Pressure: 7 * bar, Temperature: 300}, e, Side{bar, 300}, 1.2*bar, Adiabatic))
	near(t, "temperature after emptying", float64(out.End.Temperature), float64(must(PolytropicTemperature(300, 7*bar, 1.2*bar, Gamma))), 1e-5)
	near(t, "air that passed, L", out.FreeAirUsed/litre, (7/300.0-1.2/float64(out.End.Temperature))*293.15, 1e-9)
}

func TestConservesWaterAndAir(t *testing.T) {
	fill := must(Exchange(5*litre, Point{Pressure: bar, Temperature: room}, Element{C: 2 * dmsb, B: 0.2}, Side{9 * bar, room}, 8*bar, Isothermal))
	near(t, "free air into an isothermal vessel, L", fill.FreeAirUsed/litre, 35, 1e-6)
	for i := 1; i < len(fill.Curve); i++ {
		if fill.Curve[i].T < fill.Curve[i-1].T || fill.Curve[i].Pressure < fill.Curve[i-1].Pressure {
			t.Errorf("curve turns back at %+v", fill.Curve[i])
		}
	}
}

func TestLimitRefused(t *testing.T) {
	ok := Element{C: dmsb, B: 0.3}
	at := Point{Pressure: bar, Temperature: room}
	for name, err := range map[string]error{
		"negative volume":        second(Polytropic(bar, -1, 1, 1.4)),
		"no pressure":            second(StoredEnergy(0, 1, bar)),
		"below the barometer":    second(StoredEnergy(0.5*bar, 1, bar)),
		"b of one":               second(Element{C: 1, B: 1}.Flow(bar, room, 0)),
		"negative C":             second(Element{C: -1}.Flow(bar, room, 0)),
		"uphill":                 second(ok.Flow(bar, room, 2*bar)),
		"no temperature":         second(ok.Flow(bar, 0, 0)),
		"not a number":           second(ok.Flow(bar, room, quantity.AbsPressure(math.NaN()))),
		"more than choked":       second(ok.OutletFor(1, bar, room)),
		"two flows that differ":  second(Fit(1, 0.2, 7*bar, room, 6.8*bar)),
		"subsonic above choked":  second(Fit(1, 2, 7*bar, room, 6*bar)),
		"nothing in series":      second(SeriesSquare()),
		"nothing side by side":   second(Parallel()),
		"shut element in a pair": second(SeriesPair(ok, Element{})),
		"wide tube":              second(NewTube(0.05, 1, 0.02)),
		"endless tube":           second(NewTube(4e-3, 100, 0.02)),
		"smooth as nothing":      second(NewTube(4e-3, 1, 0)),
		"target beyond":          second(Exchange(litre, at, ok, Side{7 * bar, room}, 8*bar, Adiabatic)),
		"target behind":          second(Exchange(litre, at, ok, Side{7 * bar, room}, 0.5*bar, Adiabatic)),
		"no volume":              second(Exchange(0, at, ok, Side{7 * bar, room}, 2*bar, Adiabatic)),
		"subsonic by the rule":   second(ChokedFillTime(litre, ok, 7*bar, room, bar, 5*bar, Isothermal)),
		"too high":               second(AtGeopotential(12000)),
		"too high, geometric":    second(AtGeometric(12000)),
		"hot water":              second(SaturationWater(700)),
		"warm ice":               second(SaturationIce(280)),
		"humidity above one":     second(WaterPerFill(1, atm, 2*atm, atm, room, 1.2)),
		"emptying by filling":    second(WaterPerFill(1, 2*atm, atm, atm, room, 0.5)),
		"all vapour":             second(HumidityRatio(2, 1)),
		"no vapour":              second(DewPoint(0)),
		"no friction":            second(MachFromFanno(-1)),
		"above the rest":         second(MachFromPressure(1.1)),
	} {
		if !errors.Is(err, ErrRange) && !errors.Is(err, ErrNoElement) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func second[T any](_ T, err error) error { return err }

// FuzzExchange: whatever is typed, a run ends with the target or an error.
func FuzzExchange(f *testing.F) {
	f.Add(1e-3, 1e5, 293.0, 1e-8, 0.3, 7e5, 6e5, true)
	f.Add(1e-2, 9e5, 250.0, 1e-9, 0.0, 1e5, 2e5, false)
	f.Fuzz(func(t *testing.T, v, p, temp, c, b, side, target float64, hot bool) {
		if v > 1 || c > 1e-5 || temp > 400 || temp < 200 || p > 3e6 || side > 3e6 {
			return
		}
		h := Isothermal
		if hot {
			h = Adiabatic
		}
		run, err := Exchange(v, Point{Pressure: quantity.AbsPressure(p), Temperature: quantity.Temperature(temp)},
			Element{C: c, B: b}, Side{quantity.AbsPressure(side), 293}, quantity.AbsPressure(target), h)
		if err == nil && math.Abs(float64(run.End.Pressure)-target) > 1e-6*math.Max(p, side) {
			t.Errorf("ended at %v, target %v", run.End.Pressure, target)
		}
	})
}
