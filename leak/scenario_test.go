package leak

import (
	"errors"
	"math"
	"testing"

	"jounce/num/doubt"
	"jounce/quantity"
)

// Limits of the trade's handbook B26, used here to show what verdict follows.
const (
	tankWant, tankStops = 0.1 * bar, 0.3 * bar // lost in 12 h [Pa]
	noteSink, stopSink  = 3e-3, 6e-3           // unexplained in 12 h [m]
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %v, expected %v ± %v", what, got, want, within)
	}
}

// night is the handbook's test over 12 h: 10.00 bar at 20 °C, then end at
// 8 °C, one digital gauge, one thermometer, barometer read and unchanged.
func night(end, gaugeHalf float64) Test {
	b := Barometer{Value: 1013 * mbar, Instrument: "barometer"}
	return Test{Volume: 10e-3, VolumeHalf: VolumeDoubt * 10e-3, Readings: []Reading{
		{0, Gauge{10.00 * bar, gaugeHalf, "gauge"}, celsius(20), b},
		{Night, Gauge{quantity.GaugePressure(end), gaugeHalf, "gauge"}, celsius(8), b},
	}}
}

func TestScenario49ColdAlone(t *testing.T) {
	r := must(Decay(night(9.55*bar, 0.04*bar)))
	near(t, "reading by cold alone, bar", float64(r.ColdAlone)/bar, 9.55, 0.005)
	near(t, "explained by cold, bar", r.ByCold/bar, 0.45, 0.005)
	near(t, "lost, bar", r.Lost/bar, 0, 0.005)
	if r.High12 > tankWant {
		t.Errorf("greatest likely loss %v bar: must pass", r.High12/bar)
	}
	if r.Gained || r.Straying > 0 || r.Unsettled {
		t.Errorf("gained %v, straying %d, unsettled %v", r.Gained, r.Straying, r.Unsettled)
	}
}

func TestScenario49NoTemperature(t *testing.T) {
	for i := range 2 {
		x := night(9.55*bar, 0.04*bar)
		x.Readings[i].Temperature = Temperature{}
		if _, err := Decay(x); !errors.Is(err, ErrNoTemperature) {
			t.Errorf("reading %d: %v", i+1, err)
		}
	}
}

func TestScenario49Leak(t *testing.T) {
	r := must(Decay(night(9.20*bar, 0.04*bar)))
	near(t, "lost past the cold, bar", r.Lost12/bar, 0.35, 0.005)
	near(t, "±, bar", r.Half12/bar, 0.04, 0.005)
	near(t, "best likely loss, bar", r.Low12/bar, 0.305, 0.0005)
	near(t, "leak, mL/min", r.Rate.AtTank*6e7, 4.8, 0.05)
	near(t, "leak at 1.013 bar and 20 °C, mL/min", r.Rate.FreeAir.Volume*6e7, 4.8*293.15/281.15, 0.05)
	if r.Low12 <= tankStops {
		t.Errorf("best likely loss %v bar: must fail", r.Low12/bar)
	}
}

// TestScenario49OtherRule: were the figures of one gauge and one thermometer
// counted at both readings, the same test could not be decided.
func TestScenario49OtherRule(t *testing.T) {
	x := night(9.20*bar, 0.04*bar)
	x.Readings[1].Gauge.Instrument, x.Readings[1].Temperature.Instrument = "another", "another"
	r := must(Decay(x))
	k := 281.15 / 293.15 // the first reading's figures count at the last temperature
	warm := 0.5 * 11.013 / 293.15
	near(t, "±, bar", r.Half12/bar, math.Sqrt(0.04*0.04*(1+k*k)+warm*warm*(1+k*k)), 1e-6)
	if r.Low12 > tankStops || r.High12 <= tankStops {
		t.Errorf("%v to %v bar: expected to lie across 0.3", r.Low12/bar, r.High12/bar)
	}
}

// TestScenario10: a class 1.6 gauge of 12 bar cannot prove a loss of 0.1 bar.
func TestScenario10(t *testing.T) {
	cold := must(Decay(night(9.55*bar, 0.04*bar))).ColdAlone
	r := must(Decay(night(float64(cold)-0.1*bar, 0.19*bar)))
	near(t, "lost, bar", r.Lost12/bar, 0.1, 1e-9)
	if r.Low12 > tankWant || r.High12 <= tankWant || r.High12 < 0.28*bar {
		t.Errorf("%v to %v bar: expected to lie across 0.1", r.Low12/bar, r.High12/bar)
	}
	first := night(0, 0.19*bar).Readings[0]
	coarse := must(Decide(first, tankWant, -1))
	fine := must(Decide(first, tankWant, 0.04*bar))
	if coarse.After < 22*hour || coarse.After > 24*hour {
		t.Errorf("the coarse gauge decides after %v h, expected about 23", coarse.After/hour)
	}
	if fine.After < 5*hour || fine.After > 6*hour {
		t.Errorf("the digital gauge decides after %v h, expected about 5.3", fine.After/hour)
	}
}

// TestScenario50: spring pressure 3.4 before and after, the corner 18 mm lower.
func TestScenario50(t *testing.T) {
	x := night(3.4*bar, 0.04*bar)
	x.Deformable = true
	if _, err := Decay(x); !errors.Is(err, ErrDeformable) {
		t.Errorf("pressure of a spring was taken as evidence: %v", err)
	}
	r := must(Sink(rear(), standing(18e-3, 20, 20)))
	near(t, "unexplained, mm", r.Unexplained12*1e3, 18, 0.001)
	if r.Low12 <= stopSink {
		t.Errorf("least likely %v mm: must fail", r.Low12*1e3)
	}
}

func front() Spring {
	return Spring{Volume: 1.0e-3, VolumeHalf: 0.05e-3, Area: 70e-4, AreaHalf: 2.8e-4, Ratio: 0.97, RatioHalf: 0.0097, Pressure: 3.5 * bar}
}

func rear() Spring {
	return Spring{Volume: 1.2e-3, VolumeHalf: 0.06e-3, Area: 95e-4, AreaHalf: 3.8e-4, Ratio: 0.62, RatioHalf: 0.0062, Pressure: 3.4 * bar}
}

func standing(down, from, to float64) Stand {
	return Stand{Time: Night, Before: Height{0.362, 2e-3, "tape"}, After: Height{0.362 - down, 2e-3, "tape"},
		TempBefore: celsius(from), TempAfter: celsius(to)}
}

func TestScenario51(t *testing.T) {
	f := must(Sink(front(), standing(9e-3, 20, 8)))
	near(t, "front, by cold, mm", f.ByCold*1e3, 6, 0.1)
	near(t, "front, unexplained, mm", f.Unexplained12*1e3, 3, 0.1)
	if f.Low12 > noteSink || f.High12 <= noteSink {
		t.Errorf("front: %v to %v mm: too close to call", f.Low12*1e3, f.High12*1e3)
	}
	far := must(Sink(front(), standing(20e-3, 20, 8)))
	near(t, "front, 20 mm down, unexplained", far.Unexplained12*1e3, 14, 0.1)
	if far.Low12 <= stopSink {
		t.Errorf("front, 20 mm down: least likely %v mm: must fail", far.Low12*1e3)
	}
	r := must(Sink(rear(), standing(9e-3, 20, 8)))
	near(t, "rear, by cold, mm", r.ByCold*1e3, 8, 0.5)
	if r.High12 > noteSink {
		t.Errorf("rear: greatest likely %v mm: must pass", r.High12*1e3)
	}
	bare := rear()
	bare.Pressure = 0
	if n := must(Sink(bare, standing(9e-3, 20, 8))); n.Barometer || n.Half >= r.Half || n.High12 > noteSink {
		t.Errorf("without the spring's pressure: barometer %v, ± %v mm", n.Barometer, n.Half*1e3)
	}
}

func TestScenario53(t *testing.T) {
	if err := Allowed(11.6*bar, 11.5*bar); !errors.Is(err, ErrAboveRelief) {
		t.Error(err)
	}
	if err := Allowed(10*bar, 0); !errors.Is(err, ErrAboveRelief) {
		t.Error(err)
	}
	if err := Allowed(quantity.GaugePressure(math.NaN()), 11.5*bar); !errors.Is(err, ErrAboveRelief) {
		t.Error(err)
	}
	if err := Allowed(10*bar, 11.5*bar); err != nil {
		t.Error(err)
	}
}

// TestAgreesMonteCarlo draws all instruments at random and compares.
func TestAgreesMonteCarlo(t *testing.T) {
	const n = 100000
	for _, name := range []string{"one set", "two sets"} {
		x := night(9.20*bar, 0.04*bar)
		for i := range x.Readings {
			x.Readings[i].Barometer.Half = 2 * mbar
		}
		if name == "two sets" {
			x.Readings[1].Gauge.Instrument, x.Readings[1].Temperature.Instrument, x.Readings[1].Barometer.Instrument = "g2", "t2", "b2"
		}
		r := must(Decay(x))
		in, _ := pair(x.Readings[0], x.Readings[1])
		mc := must(doubt.MonteCarlo(lost, in[:], n, 11))
		// the half-width of n samples is uncertain by 1/√(2n) = 0.22 %; four times that
		near(t, name+", half-width over Monte Carlo's", r.Half/mc.Half, 1, 0.01)
		near(t, name+", loss, bar", mc.Value/bar, r.Lost/bar, 4*r.Half/bar/math.Sqrt(n))
		near(t, name+", lower end, bar", mc.Lo/bar, (r.Lost-r.Half)/bar, 0.02*r.Half/bar)
	}
	s, st := rear(), standing(9e-3, 20, 8)
	r := must(Sink(s, st))
	in, has := sinkDoubts(s, st)
	mc := must(doubt.MonteCarlo(func(x []float64) (float64, error) {
		cold, baro := explained(x, float64(s.Pressure), has)
		return x[h1] - x[h2] - (cold+baro)/x[ratio], nil
	}, in[:], n, 12))
	near(t, "sinking, half-width over Monte Carlo's", r.Half/mc.Half, 1, 0.01)
}
