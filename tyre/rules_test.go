package tyre

import (
	"math"
	"strings"
	"testing"
	"time"
)

func TestExactWorkedCarTyre(t *testing.T) {
	d := dims(t, "185/70R13")
	near(t, "loaded radius", d.LoadedRadius, 0.281343, 1e-6)
	near(t, "flange radius", d.FlangeRadius, 0.1826, 1e-9)
	near(t, "turns in a kilometre", d.RevsPerKm, 1000/(3.05*0.5892), 1e-6)
	near(t, "crossply rolls less", dims(t, "6.40-13").Rolling, 2.99*0.639064, 1e-9)
	m := d.Size.Dimensions(d.Settings, Measured{LoadedRadius: 0.280, FlangeRadius: 0.184, Half: 0.001})
	near(t, "scrub line by two readings", m.ScrubLine, 0.096, 1e-12)
	near(t, "one tape, once", m.ScrubHalf, 0.001, 1e-12)
	if !m.LoadedMeasured || !m.FlangeMeasured || m.DiameterMeasured {
		t.Errorf("%+v", m)
	}
}

// A line through the logarithms: 45 kg × 10^(index/80), which the table leaves
// by 1.78 % at most.
func TestAgreesLoadIndexLaw(t *testing.T) {
	for i := firstIndex; i <= 119; i++ {
		kg, _ := LoadOf(i)
		law := 45 * math.Pow(10, float64(i)/80)
		if off := math.Abs(kg/law - 1); off > 0.0178 {
			t.Errorf("index %d: %g kg, the law says %.1f (%.2f %%)", i, kg, law, off*100)
		}
	}
}

func TestLimitLoads(t *testing.T) {
	last := 0.0
	for i := firstIndex; i <= lastIndex; i++ {
		kg, ok := LoadOf(i)
		if !ok || kg <= last {
			t.Errorf("index %d: %g after %g", i, kg, last)
		}
		last = kg
		if back, ok := IndexFor(kg); !ok || back != i {
			t.Errorf("%g kg needs index %d, got %d", kg, i, back)
		}
	}
	for _, i := range []int{-1, 59, 127} {
		if _, ok := LoadOf(i); ok {
			t.Errorf("index %d has a load", i)
		}
	}
	if _, ok := IndexFor(1701); ok {
		t.Error("an index was found for 1,701 kg")
	}
	if _, ok := SpeedLoadShare("H", 220/3.6); ok {
		t.Error("an H tyre was judged at 220 km/h")
	}
	if share, ok := SpeedLoadShare("V", 225/3.6); !ok || math.Abs(share-0.955) > 1e-12 {
		t.Errorf("V at 225 km/h: %g", share)
	}
}

func TestExactMixes(t *testing.T) {
	for _, c := range []struct {
		fl, fr, rl, rr Construction
		want           Mix
	}{
		{Radial, Radial, Radial, Radial, MixAlike},
		{Crossply, Crossply, Radial, Radial, MixRadialRear},
		{Radial, Radial, Crossply, Crossply, MixRadialFront},
		{Radial, Radial, Radial, Crossply, MixOnAxle},
		{Radial, Radial, Radial, UnknownConstruction, MixUnknown},
		{Radial, Radial, BiasBelted, BiasBelted, MixBiasBelted},
	} {
		if got := Mixed(c.fl, c.fr, c.rl, c.rr); got != c.want {
			t.Errorf("%v %v, %v %v: %v, expected %v", c.fl, c.fr, c.rl, c.rr, got, c.want)
		}
	}
}

func TestExactAge(t *testing.T) {
	today := time.Date(2025, 11, 25, 15, 0, 0, 0, time.UTC)
	m, err := Age("DOT XY12 ABC 2319", today)
	if err != nil {
		t.Fatal(err)
	}
	// Week 23 of 2019 began on Monday, 3 June 2019.
	if !m.Monday.Equal(time.Date(2019, 6, 3, 0, 0, 0, 0, time.UTC)) || m.Days != 2367 {
		t.Errorf("%+v", m)
	}
	near(t, "age", m.Years, 2367/365.25, 1e-12)
	old, err := Age("239", today)
	if err != nil || !old.Old || old.Years < 10 || old.WeeksLeft > 0 {
		t.Errorf("%+v %v", old, err)
	}
	if _, err := Age("5320", today); err != nil { // 2020 had 53 weeks
		t.Error(err)
	}
	for _, code := range []string{"", "5419", "0019", "5319", "5025", "12345", "DDYY"} {
		if m, err := Age(code, today); err == nil {
			t.Errorf("%q was read as %+v", code, m)
		} else if !strings.Contains(err.Error(), "expected") {
			t.Errorf("%q: %v", code, err)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"185/70R14", "185R14", "6.40-13", "185/70/14", "185 70 R14C", "31x10.50R15",
		"205/55 R16 91V", "LT235/75R15 104/101Q", "G78-15", "640-13", "190/65R390", "6,40 – 13 6PR", "(91Y)"} {
		f.Add(s)
	}
	set := DefaultSettings()
	f.Fuzz(func(t *testing.T, text string) {
		s, err := Parse(text, set)
		if err != nil {
			if _, ok := err.(*Question); !ok {
				t.Fatalf("%q: %T is no question", text, err)
			}
			return
		}
		d := s.Dimensions(set, Measured{})
		if !(d.Diameter > s.Rim) || !(d.Diameter < 2) || !(d.LoadedRadius > 0) || !(d.RevsPerKm > 0) || !(d.DiameterHalf > 0) {
			t.Fatalf("%q: %+v", text, d)
		}
		if s.Width > 0.52 || s.Width < 0.07 {
			t.Fatalf("%q: %g m wide", text, s.Width)
		}
		again, err := Parse(s.String(), set)
		if err != nil {
			t.Fatalf("%q: its plain form %q is not read: %v", text, s.String(), err)
		}
		if again.String() != s.String() || again.Construction != s.Construction {
			t.Fatalf("%q: %q becomes %q", text, s.String(), again.String())
		}
	})
}

func BenchmarkParse(b *testing.B) {
	set := DefaultSettings()
	for b.Loop() {
		if _, err := Parse("205/55 R16 91V", set); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDimensions(b *testing.B) {
	s := mustParse(b, "185/70R14")
	for b.Loop() {
		_ = s.Dimensions(DefaultSettings(), Measured{})
	}
}
