package leak

import (
	"errors"
	"math"
	"testing"

	"jounce/gas"
	"jounce/quantity"
)

// TestConservesMass: the rate is the mass of air that went.
func TestConservesMass(t *testing.T) {
	r := must(Decay(case41()))
	m1 := gas.Mass(r.P1, 31e-3, r.First.Temperature.Value)
	m2 := gas.Mass(r.P2, 31e-3, r.Last.Temperature.Value)
	near(t, "mass flow", float64(r.Rate.Mass)*r.Time/(m1-m2), 1, 1e-12)
	near(t, "free air by mass", float64(r.Rate.FreeAir.Mass())/float64(r.Rate.Mass), 1, 1e-9)
	near(t, "moles", r.Rate.Molar*gas.Molar/gas.R/float64(r.Rate.Mass), 1, 1e-12)
}

// TestExactNoLeak: whatever the weather does, a tight tank loses nothing.
func TestExactNoLeak(t *testing.T) {
	first := Reading{0, Gauge{8 * bar, 0.04 * bar, "g"}, celsius(25), Barometer{1020 * mbar, 1 * mbar, "b"}}
	list := []Reading{first}
	for i, c := range []float64{18, 3, -11, 30} {
		b := Barometer{Value: quantity.AbsPressure(1000+7*i) * mbar, Half: mbar, Instrument: "b"}
		e := must(Expect(first, celsius(c), b))
		list = append(list, Reading{float64(i+1) * hour, Gauge{e.Gauge, 0.04 * bar, "g"}, celsius(c), b})
	}
	r := must(Decay(Test{Volume: 10e-3, Readings: list}))
	near(t, "lost, Pa", r.Lost, 0, 1e-6)
	for _, p := range r.Points {
		near(t, "lost on the way, Pa", p.Lost, 0, 1e-6)
		near(t, "the cold's curve, Pa", float64(p.Cold-p.Gauge), 0, 1e-6)
		if p.Stray || !p.Known {
			t.Errorf("%+v", p)
		}
	}
}

func TestExactScaling(t *testing.T) {
	full := must(Decay(night(9.20*bar, 0.04*bar)))
	x := night(9.20*bar, 0.04*bar)
	x.Readings[1].At = Night / 4
	r := must(Decay(x))
	near(t, "loss as read", r.Lost, full.Lost, 1e-9)
	near(t, "loss in 12 h", r.Lost12, 4*full.Lost12, 1e-6)
	near(t, "doubt in 12 h", r.Half12, 4*full.Half12, 1e-6)
	near(t, "rate", r.Rate.Throughput/full.Rate.Throughput, 4, 1e-12)
}

func TestExactParts(t *testing.T) {
	r := must(Decay(night(9.20*bar, 0.04*bar)))
	var sum, shares float64
	for _, p := range r.Parts {
		sum += p.Half * p.Half
		shares += p.Share
	}
	near(t, "parts combine to the whole", math.Sqrt(sum), r.Half, 1e-9)
	near(t, "shares", shares, 1, 1e-12)
	near(t, "gauge, bar", r.Parts[0].Half/bar, 0.04, 1e-9)
	near(t, "thermometer, bar", r.Parts[1].Half/bar, 11.013/293.15*0.5, 1e-6)
	near(t, "last point carries the same doubt", r.Points[1].Doubt, r.Half, 1)
	volume := r.Rate.Parts[len(r.Rate.Parts)-1]
	near(t, "volume's part of the rate", volume.Half, 0.05*r.Rate.Throughput, 1e-9)
}

// TestLimitBarometer: not read, its change counts once as 0 ± 0.02 bar.
func TestLimitBarometer(t *testing.T) {
	read := must(Decay(night(9.20*bar, 0.04*bar)))
	for _, which := range [][]int{{0, 1}, {0}, {1}} {
		x := night(9.20*bar, 0.04*bar)
		for _, i := range which {
			x.Readings[i].Barometer = Barometer{}
		}
		r := must(Decay(x))
		if r.BarometerRead || r.B1 != r.B2 {
			t.Errorf("%v: read %v, %v and %v", which, r.BarometerRead, r.B1, r.B2)
		}
		near(t, "doubt without a barometer, bar", r.Half/bar, math.Hypot(read.Half/bar, 0.02), 1e-5)
	}
}

func TestLimitStrayAndGain(t *testing.T) {
	x := night(9.55*bar, 0.04*bar)
	half := Reading{Night / 2, Gauge{9.775 * bar, 0.04 * bar, "gauge"}, celsius(14), x.Readings[0].Barometer}
	x.Readings = []Reading{x.Readings[0], half, x.Readings[1]}
	if r := must(Decay(x)); r.Straying != 0 {
		t.Errorf("a reading on the line strays: %+v", r.Points[1])
	}
	x.Readings[1].Gauge.Value = 9.5 * bar
	r := must(Decay(x))
	if r.Straying != 1 || !r.Points[1].Stray || r.Points[1].Off < 0.2*bar {
		t.Errorf("a reading 0.28 bar off does not stray: %+v", r.Points[1])
	}
	x.Readings[1].Temperature = Temperature{}
	if r := must(Decay(x)); r.Points[1].Known || r.Straying != 0 || r.Points[1].Gauge != 9.5*bar {
		t.Errorf("a reading between without temperature: %+v", r.Points[1])
	}
	up := night(9.75*bar, 0.04*bar)
	up.Pumped = 5 * 60
	if r := must(Decay(up)); !r.Gained || !r.Unsettled {
		t.Errorf("gained %v, unsettled %v", r.Gained, r.Unsettled)
	}
}

func TestExactExpect(t *testing.T) {
	b := Barometer{Value: 1013 * mbar}
	e := must(Expect(Reading{Gauge: Gauge{10 * bar, 0.04 * bar, "g"}, Temperature: celsius(20), Barometer: b}, celsius(8), Barometer{}))
	near(t, "tomorrow, bar", float64(e.Gauge)/bar, 9.549, 0.0005)
	near(t, "±, bar", e.Half/bar, math.Sqrt(0.04*0.04+0.01878*0.01878+0.02*0.02), 1e-4)
	near(t, "a kelvin, bar", e.PerKelvin/bar, 0.03757, 1e-5)
	if _, err := Expect(Reading{Gauge: Gauge{Value: bar}}, celsius(8), b); !errors.Is(err, ErrNoTemperature) {
		t.Error(err)
	}
}

func TestExactSink(t *testing.T) {
	s := rear()
	st := standing(0, 8, 8)
	st.BaroBefore, st.BaroAfter = Barometer{1000 * mbar, 0, "b"}, Barometer{1020 * mbar, 0, "b"}
	r := must(Sink(s, st))
	// V·Δb/((p+b)·A)/ratio
	near(t, "barometer's part", r.ByBarometer, 1.2e-3*2000/(4.4*bar*95e-4)/0.62, 1e-9)
	near(t, "unexplained", r.Unexplained, -r.ByBarometer, 1e-12)
	warm := must(Sink(s, standing(0, 8, 20)))
	if warm.ByCold >= 0 || warm.Unexplained <= 0 {
		t.Errorf("warmer air lifts: by cold %v, unexplained %v", warm.ByCold, warm.Unexplained)
	}
	short := standing(9e-3, 20, 8)
	short.Time = Night / 2
	half := must(Sink(s, short))
	near(t, "scaled", half.Unexplained12, 2*half.Unexplained, 1e-15)
	near(t, "doubt scaled", half.Half12, 2*half.Half, 1e-15)
}

func TestExactRelief(t *testing.T) {
	g := func(p float64) Gauge { return Gauge{quantity.GaugePressure(p * bar), 0.04 * bar, "g"} }
	r := must(ReliefOf(g(10), g(11.3), g(9.4)))
	near(t, "lift", r.Lift, 1.13, 1e-12)
	near(t, "its doubt, counted once", r.LiftHalf, 0.004, 1e-9)
	near(t, "reseat", r.Reseat, 0.94, 1e-12)
	near(t, "blowdown", r.Blowdown, 1.9/11.3, 1e-12)
	if _, err := ReliefOf(g(10), g(9), g(9.4)); !errors.Is(err, ErrRelief) {
		t.Error(err)
	}
	if _, err := ReliefOf(g(10), g(0), g(0)); !errors.Is(err, ErrNumber) {
		t.Error(err)
	}
}

func TestLimitRefused(t *testing.T) {
	good := night(9.2*bar, 0.04*bar)
	change := func(f func(*Test)) Test {
		x := good
		x.Readings = append([]Reading(nil), good.Readings...)
		f(&x)
		return x
	}
	for name, c := range map[string]struct {
		x    Test
		want error
	}{
		"one reading":        {change(func(x *Test) { x.Readings = x.Readings[:1] }), ErrReadings},
		"no time":            {change(func(x *Test) { x.Readings[1].At = 0 }), ErrReadings},
		"backwards":          {change(func(x *Test) { x.Readings[1].At = -1 }), ErrReadings},
		"time not known":     {change(func(x *Test) { x.Readings[0].At = math.NaN() }), ErrReadings},
		"no volume":          {change(func(x *Test) { x.Volume = 0 }), ErrNumber},
		"volume unsure":      {change(func(x *Test) { x.VolumeHalf = 1 }), ErrNumber},
		"below the vacuum":   {change(func(x *Test) { x.Readings[0].Gauge.Value = -2 * bar }), ErrNumber},
		"doubt below zero":   {change(func(x *Test) { x.Readings[0].Gauge.Half = -1 }), ErrNumber},
		"hot as fire":        {change(func(x *Test) { x.Readings[0].Temperature.Value = 900 }), ErrNumber},
		"Celsius as kelvin":  {change(func(x *Test) { x.Readings[0].Temperature.Value = 20 }), ErrNumber},
		"millibar as pascal": {change(func(x *Test) { x.Readings[0].Barometer.Value = 1013 }), ErrNumber},
	} {
		if _, err := Decay(c.x); !errors.Is(err, c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
	for name, c := range map[string]struct {
		f    func(*Spring, *Stand)
		want error
	}{
		"no ratio":       {func(s *Spring, _ *Stand) { s.Ratio = 0 }, ErrRatio},
		"no volume":      {func(s *Spring, _ *Stand) { s.Volume = 0 }, ErrNumber},
		"no area":        {func(s *Spring, _ *Stand) { s.Area = math.NaN() }, ErrNumber},
		"no time":        {func(_ *Spring, st *Stand) { st.Time = 0 }, ErrReadings},
		"no temperature": {func(_ *Spring, st *Stand) { st.TempAfter = Temperature{} }, ErrNoTemperature},
	} {
		s, st := rear(), standing(9e-3, 20, 8)
		c.f(&s, &st)
		if _, err := Sink(s, st); !errors.Is(err, c.want) {
			t.Errorf("sink, %s: %v", name, err)
		}
	}
	if d := must(Decide(good.Readings[0], 0, -1)); d.Possible || d.After != 0 {
		t.Errorf("a limit of nothing can be decided: %+v", d)
	}
	if _, err := Decide(good.Readings[0], math.NaN(), -1); !errors.Is(err, ErrNumber) {
		t.Error(err)
	}
}

// FuzzDecay: whatever is read, there is an error or a finite answer.
func FuzzDecay(f *testing.F) {
	f.Add(10e5, 9.2e5, 293.15, 281.15, 101300.0, 101300.0, 43200.0, 0.01)
	f.Fuzz(func(t *testing.T, p1, p2, ta, tb, ba, bb, time, v float64) {
		r, err := Decay(Test{Volume: v, Readings: []Reading{
			{0, Gauge{quantity.GaugePressure(p1), 4e3, ""}, Temperature{quantity.Temperature(ta), 0.5, ""}, Barometer{quantity.AbsPressure(ba), 100, ""}},
			{time, Gauge{quantity.GaugePressure(p2), 4e3, ""}, Temperature{quantity.Temperature(tb), 0.5, ""}, Barometer{quantity.AbsPressure(bb), 100, ""}},
		}})
		if err != nil {
			return
		}
		for _, x := range []float64{r.Lost, r.Half, r.Rate.Throughput, r.Rate.Half, float64(r.ColdAlone)} {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				t.Errorf("not finite: %+v", r)
			}
		}
	})
}
