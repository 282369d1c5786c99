package study_test

import (
	"testing"

	"jounce/internal/catalog"
	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/study"
)

// decay is the worked car with one leak test of two readings.
func decay(t *testing.T, first, last job.LeakReading, changes ...string) *study.Result {
	t.Helper()
	j, _ := worked(t, changes...)
	first.ID, last.ID = "a", "b"
	first.At, last.At = "2026-04-02T18:00", "2026-04-03T06:00"
	j.LeakTests[0].Readings = []job.LeakReading{first, last}
	return study.Of(j, catalog.NewShop("Thornhythe Coachworks"))
}

func gauge(bar, celsius string) job.LeakReading {
	r := job.LeakReading{Pressure: job.Reading{Value: bar, With: "gauge7"}, Barometer: job.Reading{Value: "1013 mbar a", With: "baro"}}
	r.Barometer.Value = "1013 mbar a ± 0.01 mbar"
	if celsius != "" {
		r.Temperature = job.Reading{Value: celsius, With: "therm2"}
	}
	return r
}

func TestScenario49ColdIsNoLeak(t *testing.T) {
	r := decay(t, gauge("10.00 bar", "20 °C"), gauge("9.55 bar", "8 °C"))
	f := find(t, r, "t1.tank")
	verdict(t, f, finding.Pass, f.Grade)
	near(t, "cold alone", r.Leaks[0].ColdAlone.Value/1e5, 9.55, 0.005)

	r = decay(t, gauge("10.00 bar", ""), gauge("9.55 bar", ""))
	f = find(t, r, "t1.tank")
	if f.Verdict != finding.NotKnown || len(f.Needs) < 2 {
		t.Errorf("without temperatures: %v, needs %v", f.Verdict, f.Needs)
	}
	says(t, f.Why, "annot judge")

	r = decay(t, gauge("10.00 bar", "20 °C"), gauge("9.20 bar", "8 °C"))
	f = find(t, r, "t1.tank")
	verdict(t, f, finding.Fail, finding.Stops)
	near(t, "lost", f.Value.Value/1e5, 0.35, 0.005)
	near(t, "±", f.Value.Half/1e5, 0.04, 0.006)
	says(t, f.Claim, "4.8 mL/min")
}

func TestScenario10GaugeTooCoarse(t *testing.T) {
	a, b := gauge("10.0 bar ± 0.19 bar", "20 °C"), gauge("9.9 bar ± 0.19 bar", "20 °C")
	f := find(t, decay(t, a, b), "t1.tank")
	if f.Verdict != finding.TooClose {
		t.Fatalf("%v", f.Verdict)
	}
	says(t, f.Claim, "cannot prove pass or fail with this gauge")
	says(t, f.Settle, "Read again at", "a gauge of ±")
}

func TestScenario11InstrumentOutOfCheck(t *testing.T) {
	a, b := gauge("10.00 bar", "20 °C"), gauge("9.55 bar", "8 °C")
	a.Pressure.At, b.Pressure.At = "2027-04-02T18:00", "2027-04-03T06:00"
	f := find(t, decay(t, a, b), "t1.tank")
	says(t, f.NotEvidence, "gauge 7", "due")
	if f.Verdict != finding.Pass {
		t.Errorf("it is worked out all the same: %v", f.Verdict)
	}
}

func heights(r job.LeakReading, fl, fr, rl, rr, with string) job.LeakReading {
	for p, v := range map[*job.Reading]string{&r.FL: fl, &r.FR: fr, &r.RL: rl, &r.RR: rr} {
		*p = job.Reading{Value: v, With: with}
	}
	return r
}

func TestScenario50LoadedSpringKeepsItsPressure(t *testing.T) {
	a := heights(gauge("10.00 bar", "20 °C"), "360 mm", "360 mm", "359 mm", "359 mm", "rule4")
	b := heights(gauge("10.00 bar", "20 °C"), "342 mm", "360 mm", "359 mm", "359 mm", "rule4")
	f := find(t, decay(t, a, b), "t1.corners")
	verdict(t, f, finding.Fail, finding.Stops)
	says(t, f.Claim, "FL leaks", "pressure is set by weight, height tells")
}

func TestScenario51SinkPastTheCold(t *testing.T) {
	tapes := func(fl, rl string) [4]study.Sink {
		a := heights(gauge("10.00 bar", "20 °C"), "360 mm", "360 mm", "359 mm", "359 mm", "tape")
		b := heights(gauge("9.55 bar", "8 °C"), fl, "354 mm", rl, "351 mm", "tape")
		return decay(t, a, b).Leaks[0].Corners
	}
	c := tapes("351 mm", "350 mm")
	near(t, "front, by cold", c[study.FL].ByCold.Value*1000, 6, 0.5)
	near(t, "front, unexplained", c[study.FL].Unexplained.Value*1000, 3, 0.5)
	if c[study.FL].Verdict != finding.TooClose {
		t.Errorf("front −9: %v", c[study.FL].Verdict)
	}
	near(t, "rear, by cold", c[study.RL].ByCold.Value*1000, 8, 0.5)
	if c[study.RL].Verdict == finding.Fail {
		t.Errorf("rear −9: %v %v", c[study.RL].Verdict, c[study.RL].Unexplained)
	}
	c = tapes("340 mm", "350 mm")
	near(t, "front −20, unexplained", c[study.FL].Unexplained.Value*1000, 14, 0.5)
	if c[study.FL].Verdict != finding.Fail || c[study.FL].Grade != finding.Stops {
		t.Errorf("front −20: %v %v", c[study.FL].Verdict, c[study.FL].Grade)
	}
}

func TestScenario53TestAboveRelief(t *testing.T) {
	r := decay(t, gauge("10.00 bar", "20 °C"), gauge("9.55 bar", "8 °C"), "leakTests[t1].pressure", "12 bar")
	f := find(t, r, "t1.refused")
	verdict(t, f, finding.Fail, finding.Stops)
	says(t, f.Why, "No pneumatic over-pressure test in this shop")
}

func TestScenario54ClampedTube(t *testing.T) {
	f := find(t, decay(t, gauge("10.00 bar", "20 °C"), gauge("9.55 bar", "8 °C"), "leakTests[t1].isolation", "tube clamped"), "t1.isolation")
	verdict(t, f, finding.Fail, finding.Stops)
	if f.Source != "S1" {
		t.Errorf("source %q", f.Source)
	}
}

func TestScenario90NobodyUnderACarOnAir(t *testing.T) {
	_, r := worked(t)
	says(t, r.Leaks[0].Cautions[1], "Nobody under the car", "air does not hold a car", "rated stands")
}

func TestWhatWasNotTestedKeepsTheHoldShut(t *testing.T) {
	r := decay(t, gauge("10.00 bar", "20 °C"), gauge("9.55 bar", "8 °C"), "leakTests[t1].relief.lift", "", "leakTests[t1].joints.soaped", "")
	for _, id := range []string{"t1.relief", "t1.joints"} {
		if f := find(t, r, id); f.Verdict != finding.NotKnown || f.Shown != "not read" || !f.Holds() {
			t.Errorf("%s: %v, %q, holds %v", id, f.Verdict, f.Shown, f.Holds())
		}
	}
	if !r.Leaks[0].Holds {
		t.Error("the hold point opens on what was not tested")
	}
}
