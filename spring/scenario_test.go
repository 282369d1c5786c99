package spring

import (
	"errors"
	"math"
	"strings"
	"testing"

	"jounce/quantity"
)

// The handbook's worked car.
var (
	frontCorner = NewCorner(276, 32, 0.97)
	rearCorner  = NewCorner(234, 28, 0.62)
)

// onePoint is a sleeve known at one height by its area [m²] and volume [m³].
func onePoint(t testing.TB, area, volume float64) *Spring {
	t.Helper()
	d := Data{Kind: Sleeve, Points: []Point{{Pressure: 3.5 * bar, Height: 0.25, Load: 3.5 * bar * area}}, MaxWorking: 7 * bar}
	if volume > 0 {
		d.Volumes = []VolumePoint{{0.25, volume}}
	}
	return must[*Spring](t)(New(d))
}

func near(t testing.TB, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %g, expected %g within %g", what, got, want, within)
	}
}

func TestScenario23(t *testing.T) {
	l, n, err := onePoint(t, 70e-4, 0).CornerPressure(frontCorner, 0.25)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "sprung", l.Sprung, 244, 0.5)
	near(t, "wheel force", l.Wheel, 2393, 0.5)
	near(t, "spring force", l.Spring, 2467, 0.5)
	near(t, "pressure [bar]", float64(n.Value)/bar, 3.5, 0.05)
	near(t, "pressure [psi]", float64(n.Value)/psi, 51, 0.5)
	near(t, "low [bar]", float64(n.Low)/bar, 3.3, 0.05)
	near(t, "high [bar]", float64(n.High)/bar, 3.7, 0.05)
}

func TestScenario24(t *testing.T) {
	s := onePoint(t, 95e-4, 0)
	l, n, err := s.CornerPressure(rearCorner, 0.25)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "wheel force", l.Wheel, 2020, 0.5)
	near(t, "spring force", l.Spring, 3258, 0.5)
	near(t, "pressure [bar]", float64(n.Value)/bar, 3.4, 0.05)
	near(t, "pressure [psi]", float64(n.Value)/psi, 50, 0.5)
	full := rearCorner
	full.Mass += 75
	_, n, err = s.CornerPressure(full, 0.25)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "laden [bar]", float64(n.Value)/bar, 4.7, 0.05)
}

func TestScenario25(t *testing.T) {
	c := rearCorner
	c.Ratio = 1.62
	_, err := c.Load()
	var q *Question
	if !errors.As(err, &q) || len(q.Answers) != 1 || q.Answers[0] != "0.62" || !strings.Contains(q.Ask, "0.62") {
		t.Errorf("%v", err)
	}
	c.Ratio = 0
	var m *Missing
	if _, err := c.Load(); !errors.As(err, &m) || !strings.Contains(m.Error(), "ratio") {
		t.Errorf("no ratio: %v", err)
	}
}

func TestScenario26(t *testing.T) {
	_, n, err := onePoint(t, 95e-4, 0).CornerPressure(rearCorner, 0.25)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "ratio once [bar]", float64(n.Value)/bar, 3.4, 0.05)
	near(t, "ratio squared would be [bar]", float64(n.Value)/rearCorner.Ratio/bar, 5.5, 0.05)
}

func TestScenario27(t *testing.T) {
	s := onePoint(t, 224e-4, 0)
	_, n, err := s.CornerPressure(frontCorner, 0.25)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "pressure [bar]", float64(n.Value)/bar, 1.1, 0.05)
	if n.OverMaximum {
		t.Error("1.1 bar is over the maximum")
	}
}

func TestScenario28(t *testing.T) {
	n := must[Need](t)(onePoint(t, 95e-4, 0).Pressure(7030, 0, 0.25))
	near(t, "pressure [bar]", float64(n.Value)/bar, 7.4, 0.05)
	if !n.OverMaximum {
		t.Error("7.4 bar on a 7 bar spring is not marked")
	}
	w := must[WaysOut](t)(n.WaysOut(0.62, 0.7))
	near(t, "allowed [bar]", float64(w.Allowed)/bar, 4.9, 0.05)
	near(t, "area needed, up to the next [cm²]", math.Ceil(w.AreaNeeded*1e4), 144, 0)
	near(t, "ratio needed", w.RatioNeeded, 0.62*7.4/4.9, 0.001)
	if !w.Over || !w.RatioPossible {
		t.Errorf("%+v", w)
	}
	// Turned round: the area found carries the load at the allowed pressure.
	n = must[Need](t)(onePoint(t, w.AreaNeeded, 0).Pressure(7030, 0, 0.25))
	near(t, "pressure on that area [bar]", float64(n.Value)/bar, 4.9, 1e-9)
	_, n, err := onePoint(t, 95e-4, 0).CornerPressure(Corner{Mass: 7030 * 0.62 / quantity.StandardGravity, Ratio: w.RatioNeeded}, 0.25)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "pressure at that ratio [bar]", float64(n.Value)/bar, 4.9, 1e-9)
	if w := must[WaysOut](t)(n.WaysOut(0.9, 0.2)); w.RatioPossible {
		t.Errorf("a ratio of %.2f is called possible", w.RatioNeeded)
	}
}

func TestScenario29(t *testing.T) {
	k := must[Peak](t)(BumpPeak(3.5*bar, 1.0e-3, 0.55e-3, Moving, 1.013*bar))
	near(t, "peak [bar]", float64(k.Value)/bar, 9.3, 0.05)
	w := k.WayOut(7 * bar)
	if !w.Possible || w.Over <= 0 {
		t.Errorf("%+v", w)
	}
	stop := must[Peak](t)(BumpPeak(3.5*bar, 1.0e-3, w.LeastLeft, Moving, 1.013*bar))
	near(t, "peak with the earlier stop [bar]", float64(stop.Value)/bar, 7, 1e-9)
	more := must[Peak](t)(BumpPeak(3.5*bar, 1.0e-3+w.AddVolume, 0.55e-3+w.AddVolume, Moving, 1.013*bar))
	near(t, "peak with more volume [bar]", float64(more.Value)/bar, 7, 1e-9)
	if w := k.WayOut(10 * bar); w.Over > 0 || w.AddVolume != 0 {
		t.Errorf("%+v", w)
	}
	if w := k.WayOut(3 * bar); w.Possible {
		t.Errorf("%+v", w)
	}
}

func TestScenario44(t *testing.T) {
	s := sleeveSpring(t)
	start := State{Height: 0.16, Temperature: 293.15}
	l := must[Load](t)(rearCorner.Load())
	full := rearCorner
	full.Mass += 75
	laden := must[Load](t)(full.Load())
	n := must[Need](t)(s.Pressure(l.Spring, 0, start.Height))
	start.Load, start.Pressure = l.Spring, n.Value
	held := must[Response](t)(s.Respond(start, HeightHeld, laden.Spring, start.Temperature, Stops{}, atm))
	near(t, "pressure follows the load", must[Force](t)(s.Force(held.To.Pressure, start.Height)).Value, laden.Spring, 1e-3)
	if held.Height != 0 {
		t.Errorf("height held moved %g m", held.Height)
	}
	shut := must[Response](t)(s.Respond(start, ValvesShut, laden.Spring, start.Temperature, Stops{}, atm))
	if !(shut.Height < -0.01) || !(shut.Pressure > 0) || shut.Pressure >= held.Pressure {
		t.Errorf("valves shut: %+v", shut)
	}
	stops := Stops{BumpHeight: 0.11, BumpRate: 150e3}
	open := must[Response](t)(s.Respond(start, PressureHeld, laden.Spring, start.Temperature, stops, atm))
	if !(open.Height < shut.Height) || open.Pressure != 0 || !open.OnStop {
		t.Errorf("pressure held: %+v", open)
	}
	near(t, "force at the end", float64(open.To.Pressure)*must[Area](t)(s.Area(open.To.Pressure, open.To.Height)).Value+open.StopForce, laden.Spring, 1)
	var out *Outside
	stops.SolidHeight = open.To.Height + 0.001
	if _, err := s.Respond(start, PressureHeld, laden.Spring, start.Temperature, stops, atm); !errors.As(err, &out) || !strings.Contains(err.Error(), "solid") {
		t.Errorf("past the solid stop: %v", err)
	}
	if _, err := s.Respond(start, PressureHeld, laden.Spring, start.Temperature, Stops{}, atm); !errors.As(err, &out) || !strings.Contains(err.Error(), "sinks") {
		t.Errorf("without stops: %v", err)
	}
	var m *Missing
	if _, err := s.Respond(start, 0, laden.Spring, start.Temperature, Stops{}, atm); !errors.As(err, &m) || !strings.Contains(err.Error(), "which control") {
		t.Errorf("no control said: %v", err)
	}
}

func TestScenario51(t *testing.T) {
	front := must[Sink](t)(ColdSink(1.0e-3, 70e-4, 0.97, quantity.FromCelsius(20), -12))
	rear := must[Sink](t)(ColdSink(1.2e-3, 95e-4, 0.62, quantity.FromCelsius(20), -12))
	near(t, "front [mm]", front.Wheel/mm, -6, 0.5)
	near(t, "rear [mm]", rear.Wheel/mm, -8, 0.5)
}

func TestScenario75(t *testing.T) {
	s := onePoint(t, 120e-4, 0)
	pressure := func(axle float64) float64 {
		_, n, err := s.CornerPressure(Corner{Mass: axle / 2, Unsprung: 45, Ratio: 1}, 0.25)
		if err != nil {
			t.Fatal(err)
		}
		return float64(n.Value) / bar
	}
	empty, laden := pressure(640), pressure(1350)
	near(t, "empty [bar]", empty, 2.2, 0.05)
	near(t, "laden [bar]", laden, 5.1, 0.05)
	near(t, "ratio", laden/empty, 2.3, 0.05)
}

func TestScenario91(t *testing.T) {
	front := must[Ride](t)(onePoint(t, 70e-4, 1.0e-3).Ride(frontCorner, 0.25, Moving, atm))
	rear := must[Ride](t)(onePoint(t, 95e-4, 1.2e-3).Ride(rearCorner, 0.25, Moving, atm))
	near(t, "front rate [N/mm]", front.Rate.Value/1000, 30.7, 0.05)
	near(t, "front wheel rate [N/mm]", front.Wheel/1000, 28.9, 0.05)
	near(t, "front [Hz]", front.Frequency, 1.73, 0.005)
	near(t, "rear rate [N/mm]", rear.Rate.Value/1000, 46.1, 0.05)
	near(t, "rear wheel rate [N/mm]", rear.Wheel/1000, 17.7, 0.05)
	near(t, "rear [Hz]", rear.Frequency, 1.48, 0.005)
	near(t, "rear over front [%]", 100*(rear.Frequency/front.Frequency-1), -15, 0.5)
	if !front.Rate.Plateau || front.Rate.Form != FormArea {
		t.Errorf("%+v", front.Rate)
	}
	// More pressure is no cure: at one height the weight sets it.
	_, n, err := onePoint(t, 95e-4, 1.2e-3).CornerPressure(rearCorner, 0.25)
	if err != nil || n.Value != rear.Need.Value {
		t.Errorf("pressure is not set by the weight: %v, %v, %v", n.Value, rear.Need.Value, err)
	}
}

func TestScenario92(t *testing.T) {
	l := must[Load](t)(rearCorner.Load())
	m := must[MountLoad](t)(LoadPath(l.Spring, BumpFactor, 0))
	near(t, "standing [kN]", m.Standing/1000, 3.26, 0.005)
	near(t, "bump [kN]", m.Bump/1000, 9.8, 0.05)
	if m.BeforeKnown {
		t.Error("nothing is known of before")
	}
	m = must[MountLoad](t)(LoadPath(l.Spring, BumpFactor, 2500))
	near(t, "bump over before", m.BumpBy, 3*l.Spring/2500, 1e-12)
}
