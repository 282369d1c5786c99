package spring

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"jounce/num/doubt"
	"jounce/quantity"
)

// sleeveSpring is invented: two lines of pressure over a plateau, and volumes.
func sleeveSpring(t testing.TB) *Spring {
	t.Helper()
	d := Data{Name: "sleeve, invented", Kind: Sleeve, MaxWorking: 8 * bar, MinHeight: 0.08, MaxHeight: 0.24}
	area := []float64{118, 106, 100, 97, 95, 93, 88} // [cm²] at 3 bar
	for i, a := range area {
		h := 0.09 + 0.02*float64(i)
		d.Points = append(d.Points, Point{3 * bar, h, 3 * bar * a * 1e-4}, Point{6 * bar, h, 6 * bar * a * 1.03e-4})
		d.Volumes = append(d.Volumes, VolumePoint{h, 0.55e-3 + 0.0100*(h-0.09)})
	}
	return must[*Spring](t)(New(d))
}

func TestExactPointsAreMet(t *testing.T) {
	s := sleeveSpring(t)
	for _, p := range s.Data().Points {
		f := must[Force](t)(s.Force(p.Pressure, p.Height))
		near(t, "load of a maker's point", f.Value, p.Load, 1e-9*p.Load)
		if f.Area.Held {
			t.Errorf("%g bar at %g m is in the data", float64(p.Pressure)/bar, p.Height)
		}
		n := must[Need](t)(s.Pressure(p.Load, 0, p.Height))
		near(t, "pressure of a maker's point", float64(n.Value), float64(p.Pressure), 1e-6*float64(p.Pressure))
	}
	// Between two pressures the load is linear, outside the area is held.
	mid := must[Force](t)(s.Force(4.5*bar, 0.15))
	near(t, "load halfway", mid.Value, (3*97+6*97*1.03)/2*1e-4*bar, 1e-6)
	low := must[Force](t)(s.Force(1.5*bar, 0.15))
	near(t, "load below the data", low.Value, 1.5*97e-4*bar, 1e-6)
	high := must[Force](t)(s.Force(7*bar, 0.15))
	near(t, "load above the data", high.Value, 7*97*1.03e-4*bar, 1e-6)
	if mid.Area.Held || !low.Area.Held || !high.Area.Held {
		t.Error("held is not marked as it should be")
	}
}

// The pressure for a force and the force of a pressure are each other's
// inverse everywhere in the data.
func TestExactInverse(t *testing.T) {
	s := sleeveSpring(t)
	rng := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		p := quantity.GaugePressure((0.5 + 8*rng.Float64()) * bar)
		h := 0.09 + 0.12*rng.Float64()
		f := must[Force](t)(s.Force(p, h))
		n := must[Need](t)(s.Pressure(f.Value, 0, h))
		near(t, "pressure", float64(n.Value), float64(p), 1e-6*float64(p))
	}
}

func TestLimitOutsideIsRefused(t *testing.T) {
	s := sleeveSpring(t)
	var out *Outside
	for _, h := range []float64{0.088, 0.212} {
		if _, err := s.Force(3*bar, h); !errors.As(err, &out) || out.Low != 90 || !strings.Contains(err.Error(), "90 to 210 mm") {
			t.Errorf("%g m: %v", h, err)
		}
	}
	if _, err := s.Force(-1, 0.15); err == nil {
		t.Error("a pressure below zero has a force")
	}
	if _, err := s.Pressure(math.NaN(), 0, 0.15); err == nil {
		t.Error("no number has a pressure")
	}
	one := onePoint(t, 70e-4, 0)
	if _, err := one.Pressure(2000, 0, 0.26); !errors.As(err, &out) || !strings.Contains(err.Error(), "second height") {
		t.Errorf("one point, another height: %v", err)
	}
	var m *Missing
	if _, err := one.Rate(3.5*bar, 0.25, Moving, atm); !errors.As(err, &m) || len(m.What) != 1 || !strings.Contains(m.What[0], "volume") {
		t.Errorf("a rate without a volume: %v", err)
	}
	bellows := must[*Spring](t)(New(Data{Kind: Bellows, Points: []Point{{3 * bar, 0.2, 2000}}}))
	if _, err := bellows.Rate(3*bar, 0.2, Moving, atm); !errors.As(err, &m) || len(m.What) != 2 || !strings.Contains(m.What[1], "second height") {
		t.Errorf("a bellows of one height: %v", err)
	}
	unknown := must[*Spring](t)(New(Data{Points: []Point{{3 * bar, 0.2, 2000}}, Volumes: []VolumePoint{{0.2, 1e-3}}}))
	if _, err := unknown.Rate(3*bar, 0.2, Moving, atm); !errors.As(err, &m) || !strings.Contains(err.Error(), "bellows or sleeve") {
		t.Errorf("a spring of unknown kind: %v", err)
	}
}

func TestLimitBadData(t *testing.T) {
	ok := Point{3 * bar, 0.2, 2000}
	for name, d := range map[string]Data{
		"no point":              {},
		"load zero":             {Points: []Point{{3 * bar, 0.2, 0}}},
		"height negative":       {Points: []Point{{3 * bar, -0.2, 2000}}},
		"no number":             {Points: []Point{{quantity.GaugePressure(math.NaN()), 0.2, 2000}}},
		"two loads":             {Points: []Point{ok, {3 * bar, 0.2, 2100}}},
		"load falls":            {Points: []Point{ok, {5 * bar, 0.2, 1900}}},
		"load falls below":      {Points: []Point{ok, {2 * bar, 0.2, 2000}}},
		"volume falls":          {Points: []Point{ok}, Volumes: []VolumePoint{{0.2, 1e-3}, {0.22, 0.9e-3}}},
		"volume zero":           {Points: []Point{ok}, Volumes: []VolumePoint{{0.2, 0}}},
		"outside its own limit": {Points: []Point{ok}, MinHeight: 0.25, MaxHeight: 0.3},
		"limits exchanged":      {Points: []Point{ok}, MinHeight: 0.25, MaxHeight: 0.2},
		"dynamic below working": {Points: []Point{ok}, MaxWorking: 7 * bar, MaxDynamic: 5 * bar},
		"doubt over all":        {Points: []Point{ok}, AreaShare: 1.5},
	} {
		if _, err := New(d); err == nil || err.Error() == "" {
			t.Errorf("%s was taken", name)
		}
	}
	if _, err := New(Data{Points: []Point{ok, ok}}); err != nil {
		t.Errorf("the same line twice: %v", err)
	}
}

// The rate is the slope of the force over height with closed valves: a
// difference of forces must agree with the formula.
func TestAgreesRateByDifference(t *testing.T) {
	s := sleeveSpring(t)
	const h, p = 0.155, 3 * bar // at a pressure of the data the area does not lean on the pressure
	for _, n := range []float64{Slow, Moving} {
		r := must[Rate](t)(s.Rate(p, h, n, atm))
		force := func(x float64) float64 {
			v0, v1 := must[Volume](t)(s.Volume(p, h)), must[Volume](t)(s.Volume(p, x))
			abs := float64(quantity.GaugePressure(p).Absolute(atm)) * math.Pow(v0.Value/v1.Value, n)
			a := must[Area](t)(s.Area(p, x))
			return (abs - float64(atm)) * a.Value
		}
		const d = 1e-6
		near(t, "rate by difference", (force(h-d)-force(h+d))/(2*d), r.Value, 1e-6*r.Value)
	}
	r := must[Rate](t)(s.Rate(p, h, Moving, atm))
	if r.Form != FormVolume || r.Half <= 0 || r.Half > 0.2*r.Value {
		t.Errorf("%+v", r)
	}
}

// A bellows is much stiffer than its air alone; the finite difference of its
// maker agrees within the doubt of the formula.
func TestAgreesBellowsWithItsMaker(t *testing.T) {
	s := style22(t)
	r := must[Rate](t)(s.Rate(76.6*psi, 9.5*inch, Moving, psia0))
	if r.AreaTerm < r.AirTerm {
		t.Errorf("area term %.0f, air term %.0f N/m: on this bellows the area leads", r.AreaTerm, r.AirTerm)
	}
	near(t, "maker's rate", r.Value, 1321.9*lbIn, r.Half)
	b := s.Behaviour()
	if !b.Known || b.Looks != Bellows || b.Contradicts {
		t.Errorf("%+v", b)
	}
	b = sleeveSpring(t).Behaviour()
	if !b.Known || b.Looks != Sleeve || b.PlateauHigh-b.PlateauLow < 0.05 {
		t.Errorf("%+v", b)
	}
	if b := onePoint(t, 70e-4, 0).Behaviour(); b.Known {
		t.Errorf("%+v", b)
	}
}

// Linear propagation against sampling of the whole chain. 4,000 samples know a
// half-width to 1.1 %; 5 % is four and a half times that.
func TestAgreesRideMonteCarlo(t *testing.T) {
	const area, volume = 70e-4, 1.0e-3
	r := must[Ride](t)(onePoint(t, area, volume).Ride(frontCorner, 0.25, Moving, atm))
	c := frontCorner
	in := []doubt.Input{{Value: c.Mass, Half: c.MassHalf}, {Value: c.Unsprung, Half: c.UnsprungHalf},
		{Value: c.Ratio, Half: c.Ratio * c.RatioShare}, {Value: area, Half: area * DefaultAreaShare},
		{Value: volume, Half: volume * DefaultVolumeShare}, {Value: 0, Half: plateauSlope}}
	chain := func(x []float64) (*Ride, error) {
		d := Data{Kind: Bellows, Volumes: []VolumePoint{{0.25, x[4]}}}
		for _, dh := range []float64{-0.001, 0, 0.001} {
			d.Points = append(d.Points, Point{3.5 * bar, 0.25 + dh, 3.5 * bar * x[3] * (1 - x[5]*dh)})
		}
		s, err := New(d)
		if err != nil {
			return nil, err
		}
		ride, err := s.Ride(Corner{Mass: x[0], Unsprung: x[1], Ratio: x[2]}, 0.25, Moving, atm)
		return &ride, err
	}
	freq := must[doubt.Sample](t)(doubt.MonteCarlo(func(x []float64) (float64, error) {
		ride, err := chain(x)
		return ride.Frequency, err
	}, in, 4000, 7))
	near(t, "half-width of the frequency", r.FrequencyHalf, freq.Half, 0.05*r.FrequencyHalf)
	press := must[doubt.Sample](t)(doubt.MonteCarlo(func(x []float64) (float64, error) {
		ride, err := chain(x)
		return float64(ride.Need.Value), err
	}, in, 4000, 8))
	near(t, "half-width of the pressure", r.Need.Half, press.Half, 0.05*r.Need.Half)
	var shares float64
	for _, e := range r.Effects {
		shares += e.Share
	}
	near(t, "shares", shares, 1, 1e-9)
}

// With valves shut air is neither made nor lost, and the load is carried.
func TestConservesAir(t *testing.T) {
	s := sleeveSpring(t)
	start := State{Height: 0.15, Temperature: 293.15, Pressure: 3.4 * bar}
	start.Load = must[Force](t)(s.Force(start.Pressure, start.Height)).Value
	for _, load := range []float64{0.8 * start.Load, start.Load, 1.2 * start.Load} {
		for _, temp := range []quantity.Temperature{281.15, 293.15, 303.15} {
			r := must[Response](t)(s.Respond(start, ValvesShut, load, temp, Stops{}, atm))
			mass := func(st State) float64 {
				return float64(st.Pressure.Absolute(atm)) * must[Volume](t)(s.Volume(st.Pressure, st.Height)).Value / float64(st.Temperature)
			}
			near(t, "air", mass(r.To)/mass(start), 1, 1e-12)
			near(t, "force", must[Force](t)(s.Force(r.To.Pressure, r.To.Height)).Value, load, 0.2)
			if (r.Height > 0) != (load < start.Load) && temp == start.Temperature && load != start.Load {
				t.Errorf("load %g moves the spring by %g m", load, r.Height)
			}
		}
	}
}

// The closed form for cold is the small change of the solver where the area is
// constant and the volume grows by it.
func TestAgreesColdSink(t *testing.T) {
	const area = 80e-4
	d := Data{Kind: Sleeve}
	for _, h := range []float64{0.10, 0.15, 0.20} {
		d.Points = append(d.Points, Point{3 * bar, h, 3 * bar * area})
		d.Volumes = append(d.Volumes, VolumePoint{h, 1.2e-3 + area*(h-0.15)})
	}
	s := must[*Spring](t)(New(d))
	start := State{Height: 0.15, Temperature: 293.15, Pressure: 4 * bar, Load: 4 * bar * area}
	r := must[Response](t)(s.Respond(start, ValvesShut, start.Load, 281.15, Stops{}, atm))
	k := must[Sink](t)(ColdSink(1.2e-3, area, 1, 293.15, -12))
	near(t, "sink [mm]", r.Height/mm, k.Spring/mm, 0.002)
	near(t, "pressure stays", float64(r.To.Pressure), 4*bar, 10)
}

func TestExactVolumes(t *testing.T) {
	const area = 80e-4
	d := Data{Kind: Sleeve, Volumes: []VolumePoint{{0.15, 1.2e-3}}}
	for _, h := range []float64{0.10, 0.15, 0.20} {
		d.Points = append(d.Points, Point{3 * bar, h, 3 * bar * area})
	}
	s := must[*Spring](t)(New(d))
	v := must[Volume](t)(s.Volume(3*bar, 0.12))
	near(t, "carried volume", v.Value, 1.2e-3-0.03*area, 1e-12)
	if !v.FromArea || v.SlopeKnown {
		t.Errorf("%+v", v)
	}
	if v := must[Volume](t)(s.Volume(3*bar, 0.15)); v.FromArea || v.Value != 1.2e-3 {
		t.Errorf("%+v", v)
	}
	if _, err := s.Volume(3*bar, 0.21); err == nil {
		t.Error("a volume beyond the loads")
	}
	peak := must[Peak](t)(s.Peak(3.5*bar, 0.15, 0.10, Moving, atm))
	near(t, "peak of the curve", float64(peak.Value), float64(must[Peak](t)(BumpPeak(3.5*bar, 1.2e-3, 0.8e-3, Moving, atm)).Value), 1e-3)
	if _, err := BumpPeak(3.5*bar, 1e-3, 1.1e-3, Moving, atm); err == nil {
		t.Error("a bump that makes room")
	}
}

func TestExactTravel(t *testing.T) {
	// The worked car's front: 68 up, 45 down at the wheel.
	damper := Telescope{Name: "damper", Length: 0.400, Closed: 0.309, Open: 0.44365, StopFree: 0.055, StopSolid: 0.02504,
		Half: 2 * mm, OneTape: true, Ratio: 0.97, RatioShare: 0.01}
	b := must[Budget](t)(Travel([]Telescope{damper, {Name: "spring", Length: 0.25, Closed: 0.10, Open: 0.32, NoStop: true, Ratio: 0.97}},
		[]Limiter{{Name: "brake hose", Direction: Droop, Travel: 0.044, Half: 2 * mm}, {Name: "half-shaft", Direction: Droop, Travel: 0.090}}))
	near(t, "bump [mm]", b.Bump[0].Travel/mm, 68, 0.01)
	near(t, "its ± [mm]", b.Bump[0].Half/mm, math.Hypot(2/0.97, 0.68), 1e-6)
	near(t, "first touch [mm]", b.Bump[0].FirstStop/mm, 36/0.97, 1e-6)
	if b.Bump[0].Name != "damper" || b.Bump[1].Name != "spring" {
		t.Errorf("bump: %+v", b.Bump)
	}
	names := ""
	for _, l := range b.Droop {
		names += l.Name + ","
	}
	if names != "brake hose,damper,spring,half-shaft," {
		t.Errorf("droop in order: %s", names)
	}
	if b.CloseCall != [2]bool{false, true} || len(b.Gaps) != 0 {
		t.Errorf("%+v", b)
	}
	damper.OneTape = false
	b = must[Budget](t)(Travel([]Telescope{damper}, nil))
	near(t, "three instruments [mm]", b.Bump[0].Half/mm, math.Hypot(math.Sqrt(3)*2/0.97, 0.68), 1e-6)
}

func TestLimitTravel(t *testing.T) {
	b := must[Budget](t)(Travel([]Telescope{{Name: "damper", Length: 0.4, Ratio: 0.97, Closed: 0.3}, {Name: "spring"}}, nil))
	if strings.Join(b.Gaps, "; ") != "damper: solid length of its bump stop; damper: open length; spring: ratio" || len(b.Bump)+len(b.Droop) != 0 {
		t.Errorf("%+v", b)
	}
	for name, p := range map[string]Telescope{
		"shorter than closed": {Name: "d", Length: 0.2, Closed: 0.3, Ratio: 1},
		"longer than open":    {Name: "d", Length: 0.5, Open: 0.4, Ratio: 1},
		"solid over free":     {Name: "d", Length: 0.4, Closed: 0.3, StopFree: 0.02, StopSolid: 0.03, Ratio: 1},
		"standing past solid": {Name: "d", Length: 0.31, Closed: 0.3, StopFree: 0.05, StopSolid: 0.03, Ratio: 1},
		"ratio turned over":   {Name: "d", Length: 0.4, Ratio: 1.62},
	} {
		if _, err := Travel([]Telescope{p}, nil); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
	if _, err := Travel(nil, []Limiter{{Name: "hose", Travel: 0.04}}); err == nil {
		t.Error("a limiter without a direction was taken")
	}
}

func TestExactGuesses(t *testing.T) {
	g := must[Guess](t)(GuessSleeve(0.130, 0.090))
	near(t, "area [cm²]", g.Area*1e4, math.Pi*5.5*5.5, 1e-9)
	s := must[*Spring](t)(New(g.Data(0.2)))
	n := must[Need](t)(s.Pressure(3000, 0, 0.2))
	if !n.Area.Estimate {
		t.Error("an estimate is not marked")
	}
	near(t, "its doubt", n.Half/float64(n.Value), 0.15, 1e-12)
	if g := must[Guess](t)(GuessBellows(0.2, 0.15)); g.Share != 0.20 || g.Kind != Bellows {
		t.Errorf("%+v", g)
	}
	if _, err := GuessSleeve(0.09, 0.13); err == nil {
		t.Error("a piston wider than its sleeve")
	}
}

func TestLimitStops(t *testing.T) {
	s := Stops{BumpHeight: 0.1, BumpRate: 1e5, StrapHeight: 0.2, StrapRate: 2e5}
	for h, want := range map[float64]float64{0.15: 0, 0.1: 0, 0.09: 1000, 0.21: -2000} {
		near(t, "stop force", s.Force(h), want, 1e-6)
	}
	if (Stops{}).Force(0) != 0 {
		t.Error("no stop pushes")
	}
}

func TestLimitIsobar(t *testing.T) {
	s := sleeveSpring(t)
	line := must[[]IsobarPoint](t)(s.Isobar(3*bar, 13))
	if len(line) != 13 || line[0].Height != 0.09 || math.Abs(line[12].Height-0.21) > 1e-12 {
		t.Errorf("%+v", line)
	}
	for i := 1; i < len(line); i++ {
		if line[i].Load > line[i-1].Load {
			t.Errorf("the load rises at %g m", line[i].Height)
		}
	}
	if l := must[[]IsobarPoint](t)(onePoint(t, 70e-4, 0).Isobar(3*bar, 13)); len(l) != 1 {
		t.Errorf("one height gives %d points", len(l))
	}
}
