package tyre

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestExactMarkings(t *testing.T) {
	tests := []struct {
		text      string
		kind      Kind
		build     Construction
		use       Use
		plain     string
		diameter  float64 // [mm]
		index     int
		symbol    string
		questions int
	}{
		{"185/70R14", Metric, Radial, Passenger, "185/70R14", 614.6, 0, "", 0},
		{"185/70 R 14 88T", Metric, Radial, Passenger, "185/70R14", 614.6, 88, "T", 0},
		{"185 / 70 r14", Metric, Radial, Passenger, "185/70R14", 614.6, 0, "", 0},
		{"185-70-14", Metric, UnknownConstruction, Passenger, "185/70 14", 614.6, 0, "", 1},
		{"185/70/14", Metric, UnknownConstruction, Passenger, "185/70 14", 614.6, 0, "", 1},
		{"185 70 R14C", Metric, Radial, Commercial, "185/70R14C", 614.6, 0, "", 1},
		{"185/70-14", Metric, UnknownConstruction, Passenger, "185/70 14", 614.6, 0, "", 1},
		{"205/55 R16 91V", Metric, Radial, Passenger, "205/55R16", 631.9, 91, "V", 0},
		{"205/55ZR16 (91Y)", Metric, Radial, Passenger, "205/55R16", 631.9, 91, "Y", 0},
		{"205/55ZR16", Metric, Radial, Passenger, "205/55R16", 631.9, 0, "Z", 0},
		{"195/65R15 91H XL", Metric, Radial, Passenger, "195/65R15", 634.5, 91, "H", 0},
		{"195/65R15 95T EXTRA LOAD TL", Metric, Radial, Passenger, "195/65R15", 634.5, 95, "T", 0},
		{"P185/75R14", Metric, Radial, PMetric, "P185/75R14", 633.1, 0, "", 0},
		{"LT235/75R15 104/101Q", Metric, Radial, LightTruck, "LT235/75R15", 733.5, 104, "Q", 1},
		{"T125/70D15", Metric, Crossply, Temporary, "T125/70D15", 556.0, 0, "", 1},
		{"190/65R390", Metric, Radial, Passenger, "190/65R390", 637.0, 0, "", 1},
		{"185R14", FullSection, Radial, Passenger, "185R14", 659.0, 0, "", 0},
		{"165SR13", FullSection, Radial, Passenger, "165R13", 600.8, 0, "S", 0},
		{"185 R 14 C 102/100Q", FullSection, Radial, Commercial, "185R14C", 659.0, 102, "Q", 1},
		{"145-13", FullSection, UnknownConstruction, Passenger, "145 13", 568.0, 0, "", 1},
		{"6.40-13", Inch, Crossply, Passenger, "6.40-13", 639.064, 0, "", 1},
		{"6,40 – 13 6PR", Inch, Crossply, Passenger, "6.40-13", 639.064, 0, "", 1},
		{"5.60x15 4 ply", Inch, Crossply, Passenger, "5.60-15", 651.256, 0, "", 1},
		{"31x10.50R15", Flotation, Radial, Passenger, "31x10.50R15", 787.4, 0, "", 0},
		{"31×10,5 R15LT 109Q", Flotation, Radial, LightTruck, "31x10.50R15LT", 787.4, 109, "Q", 1},
		{"G78-15", AlphaNumeric, UnknownConstruction, Passenger, "G78-15", 711.2, 0, "", 1},
		{"GR78-15", AlphaNumeric, Radial, Passenger, "GR78-15", 711.2, 0, "", 0},
		{"185/70R14 88T odd", Metric, Radial, Passenger, "185/70R14", 614.6, 88, "T", 1},
	}
	for _, c := range tests {
		s, err := Parse(c.text, DefaultSettings())
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		d := s.Dimensions(DefaultSettings(), Measured{})
		if s.Kind != c.kind || s.Construction != c.build || s.Use != c.use || s.String() != c.plain {
			t.Errorf("%s: read as %v, %v, %v, %q", c.text, s.Kind, s.Construction, s.Use, s.String())
		}
		if math.Abs(d.Diameter*1000-c.diameter) > 1e-6 {
			t.Errorf("%s: diameter %.4f mm, expected %.4f", c.text, d.Diameter*1000, c.diameter)
		}
		if s.LoadIndex != c.index || s.Symbol != c.symbol || len(s.Questions) != c.questions {
			t.Errorf("%s: index %d, symbol %q, %d questions %v", c.text, s.LoadIndex, s.Symbol, len(s.Questions), s.Questions)
		}
	}
}

func TestExactRefusals(t *testing.T) {
	for text, want := range map[string]string{
		"":                  "What does the sidewall say",
		"round and black":   "What does the sidewall say",
		"640-13":            "point left out",
		"185/07R14":         "aspect 7",
		"183/70R14":         "width 183",
		"185/70R41":         "rim 41",
		"185R4":             "sidewall",
		"185 14":            "",
		"99x10.50R15":       "99 in high",
		"H78-15":            "letter is a load",
		"185/70R14 45T":     "45 the load index",
		"185/70R14 88O":     "O the speed symbol",
		"185/70R14 88/102T": "pair of load indices",
		"19.00-13":          "width 19.00",
	} {
		s, err := Parse(text, DefaultSettings())
		if want == "" {
			if err != nil || s.Kind != FullSection || s.Construction != UnknownConstruction {
				t.Errorf("%q: %v %v", text, s, err)
			}
			continue
		}
		var q *Question
		if !errors.As(err, &q) {
			t.Errorf("%q: read as %v, expected a question", text, s)
			continue
		}
		if !strings.Contains(q.Error(), want) || q.Ask == "" || q.Expected == "" {
			t.Errorf("%q: %v, expected it to say %q", text, q, want)
		}
	}
	long := strings.Repeat("185/70R14 ", 20)
	if _, err := Parse(long, DefaultSettings()); err == nil {
		t.Error("a line of 200 characters was read as a size")
	}
	odd := DefaultSettings()
	odd.FullSectionAspect = 82
	if _, err := Parse("185R14", odd); err == nil {
		t.Error("an aspect setting of 8200 % was taken")
	}
}

func TestScenario16(t *testing.T) {
	d := dims(t, "185/70R14")
	near(t, "rim", d.Size.Rim, 0.3556, 1e-12)
	near(t, "section height", d.SectionHeight, 0.1295, 1e-12)
	near(t, "diameter", d.Diameter, 0.6146, 1e-12)
	if d.Size.Construction != Radial || d.Size.Aspect != 0.70 {
		t.Errorf("read as %v", d.Size)
	}
}

func TestScenario17(t *testing.T) {
	now, was := dims(t, "185R14"), dims(t, "185/70R14")
	near(t, "least diameter", now.DiameterLow, 0.652, 0.0005)
	near(t, "greatest diameter", now.DiameterHigh, 0.659, 0.0005)
	c := Compare(was, now)
	near(t, "growth", c.Diameter, 0.044, 0.0005)
	near(t, "growth, share", c.DiameterShare, 0.072, 0.0005)
	near(t, "arch gap", c.ArchGap, -0.022, 0.0005)
	if c.Reading >= 0 {
		t.Errorf("a bigger tyre reads low, not %+.3f", c.Reading)
	}
}

func TestScenario18(t *testing.T) {
	d := dims(t, "6.40-13")
	near(t, "diameter", d.Diameter, 0.639, 0.0005)
	near(t, "its doubt", d.DiameterHalf, 0.010, 1e-12)
	if !d.Estimate || d.Size.Width > 0.2 || d.Size.Construction != Crossply {
		t.Errorf("read as %+v", d)
	}
	if got := Mixed(Crossply, Radial, Crossply, Crossply); got != MixOnAxle {
		t.Errorf("crossply and radial on one axle: %v", got)
	}
	if _, err := Parse("640-13", DefaultSettings()); err == nil || !strings.Contains(err.Error(), "6.40-13") {
		t.Errorf("640-13: %v", err)
	}
	read := d.Size.Dimensions(DefaultSettings(), Measured{Diameter: 0.634})
	if read.Estimate || read.Diameter != 0.634 || read.DiameterHalf != 0.002 {
		t.Errorf("a measured diameter was not taken: %+v", read)
	}
}

func TestScenario19(t *testing.T) {
	s := mustParse(t, "185/70/14")
	if s.Construction != UnknownConstruction || len(s.Questions) != 1 || !strings.Contains(s.Questions[0].Ask, "radial or crossply") {
		t.Errorf("%+v", s)
	}
	s = mustParse(t, "185 70 R14C")
	if s.Use != Commercial || len(s.Questions) != 1 || !strings.Contains(s.Questions[0].Ask, "pressure") {
		t.Errorf("%+v", s)
	}
}

func TestScenario20(t *testing.T) {
	s := mustParse(t, "185/70R13 75S")
	c, err := CheckLoad(s, s, 820)
	if err != nil {
		t.Fatal(err)
	}
	if c.PerTyre != 387 || c.Pair != 774 || c.Enough || c.Spare != -46 || c.Least != 77 {
		t.Errorf("%+v", c)
	}
	if c, _ := CheckLoad(s, s, 774); !c.Enough {
		t.Error("774 kg on 2 × 387 was refused")
	}
	if _, err := CheckLoad(s, mustParse(t, "185/70R13"), 820); err == nil {
		t.Error("a tyre with no index was judged")
	}
	if _, err := CheckLoad(s, s, 0); err == nil {
		t.Error("an axle of 0 kg was judged")
	}
}

func TestScenario21(t *testing.T) {
	c := Compare(dims(t, "185/70R13"), dims(t, "195/50R15"))
	near(t, "was", c.Was.Diameter, 0.589, 0.0005)
	near(t, "now", c.Now.Diameter, 0.576, 0.0005)
	near(t, "body", c.Body, -0.0063, 0.00005)
	near(t, "scrub line was", c.Was.ScrubLine, 0.099, 0.0005)
	near(t, "scrub line now", c.Now.ScrubLine, 0.067, 0.0005)
	near(t, "speedometer", c.ReadingPercent, 2.3, 0.05)
	for height, crosses := range map[float64]bool{0.066: false, 0.070: true, 0.098: true, 0.105: false} {
		if c.CrossesScrubLine(height) != crosses {
			t.Errorf("a part at %.0f mm: crosses %v", height*1000, !crosses)
		}
	}
}

func TestScenario22(t *testing.T) {
	a, b := mustParse(t, "185/70R14 88T"), mustParse(t, "195/65R14 88T")
	d := Differences(a, b)
	if len(d) != 2 || d[0].What != "width" || d[1].What != "aspect" || d[1].Right != "65 %" {
		t.Errorf("%v", d)
	}
	if d := Differences(a, mustParse(t, "185/70 R 14")); len(d) != 0 {
		t.Errorf("equal sizes differ in %v", d)
	}
	if d := Differences(a, mustParse(t, "185/70/14")); len(d) != 1 || d[0].What != "construction" {
		t.Errorf("%v", d)
	}
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %g, expected %g within %g", what, got, want, within)
	}
}
