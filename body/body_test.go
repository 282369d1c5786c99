package body

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// sample is a measured saloon.
func sample() Measures {
	return Measures{Form: "saloon", Wheelbase: Known(2.540), FrontOverhang: Known(0.690), RearOverhang: Known(0.900), Roof: Known(1.345), Sill: Known(0.138),
		TyreRadius: [2]Length{Known(0.294), Known(0.294)}, Hub: [2]Length{Known(0.281), Known(0.281)}, Arch: [2]Length{Known(0.360), Known(0.359)}}
}

// TestExactExtents finds the measured ends and the measured roof on the outline
// itself: no curve swings past a station.
func TestExactExtents(t *testing.T) {
	for _, form := range Forms {
		m := sample()
		m.Form, m.Boot = form, Known(0.86)
		o := New(m)
		lo, hi, top := math.Inf(1), math.Inf(-1), math.Inf(-1)
		for _, p := range dots(o.Over, 400) {
			lo, hi, top = math.Min(lo, p.X), math.Max(hi, p.X), math.Max(top, p.Z)
		}
		if math.Abs(lo+0.690) > 1e-9 || math.Abs(hi-3.440) > 1e-9 {
			t.Errorf("%s: from %.4f to %.4f m, expected −0.690 to 3.440", form, lo, hi)
		}
		if form != "open two-seater" && math.Abs(top-1.345) > 1e-9 {
			t.Errorf("%s: %.4f m high, expected 1.345", form, top)
		}
		if !o.Nose.Known || !o.Tail.Known {
			t.Errorf("%s: measured ends count as assumed", form)
		}
		if f := o.Check(); len(f) > 0 {
			t.Errorf("%s: %v", form, f)
		}
	}
}

// TestExactKnown tells measured from assumed.
func TestExactKnown(t *testing.T) {
	m := sample()
	m.FrontOverhang, m.Bonnet = Length{}, Known(0.85)
	m.Stations = map[string]Spot{"boot-edge": {Z: Known(0.88)}}
	o := New(m)
	want := map[string][2]bool{"nose-top": {false, false}, "scuttle": {false, true}, "crown": {false, true}, "boot-edge": {false, true}, "tail-top": {true, false}, "roof-rear": {false, false}}
	for id, w := range want {
		s, ok := o.Station(id)
		if !ok || s.KnownX != w[0] || s.KnownZ != w[1] {
			t.Errorf("%s: known %v %v, expected %v", id, s.KnownX, s.KnownZ, w)
		}
		if s.Label == "" {
			t.Errorf("%s has no name in words", id)
		}
	}
	if s, _ := o.Station("scuttle"); s.Z != 0.85 {
		t.Errorf("bonnet at %v, expected 0.85", s.Z)
	}
}

// TestExactTop finds the roof over its highest station, the arch over the hubs
// and the sill mid-door.
func TestExactTop(t *testing.T) {
	o := New(sample())
	crown, _ := o.Station("crown")
	if z, ok := o.Top(crown.X); !ok || math.Abs(z-1.345) > 1e-9 {
		t.Errorf("over the crown %v, %v", z, ok)
	}
	for i, want := range []float64{0.641, 0.640} {
		if z, ok := o.Bottom(float64(i) * 2.54); !ok || math.Abs(z-want) > 5e-6*0.36 { // as roundArch says
			t.Errorf("axle %d: lower edge at %v, expected %v", i, z, want)
		}
	}
	if z, ok := o.Bottom(1.27); !ok || math.Abs(z-0.138) > 1e-9 {
		t.Errorf("sill at %v, expected 0.138", z)
	}
	for _, x := range []float64{-0.7, 3.5} {
		if _, ok := o.Top(x); ok {
			t.Errorf("a body at %v m, beyond its ends", x)
		}
	}
}

// TestExactStationWins puts a control point elsewhere.
func TestExactStationWins(t *testing.T) {
	m := sample()
	m.Bonnet = Known(0.90)
	m.Stations = map[string]Spot{"scuttle": {Known(0.70), Known(0.80)}, "nose-top": {X: Known(-0.75)}, "screen-top": {X: Known(1.2)}}
	o := New(m)
	if z, ok := o.Top(0.70); !ok || math.Abs(z-0.80) > 1e-9 {
		t.Errorf("over 700 mm the outline is %v high, expected 0.80", z)
	}
	if o.Nose != (Length{-0.75, true}) {
		t.Errorf("nose %v", o.Nose)
	}
	if f := o.Check(); len(f) > 0 {
		t.Error(f)
	}
}

// TestExactHalves cuts a curve: both halves lie on it.
func TestExactHalves(t *testing.T) {
	for _, s := range New(sample()).Over {
		a, b := s.Halves()
		if a.D != b.A || math.Hypot(a.At(0.5).X-s.At(0.25).X, a.At(0.5).Z-s.At(0.25).Z) > 1e-12 || math.Hypot(b.At(0.5).X-s.At(0.75).X, b.At(0.5).Z-s.At(0.75).Z) > 1e-12 {
			t.Errorf("%v", s)
		}
	}
}

// TestLimitFaults types what cannot be; each is named with its numbers.
func TestLimitFaults(t *testing.T) {
	for _, c := range []struct {
		name  string
		spoil func(m *Measures)
		of    string
		says  []string
	}{
		{"wheel larger than the arch", func(m *Measures) { m.Arch[1] = Known(0.280) }, "arch.rear", []string{"Rear arch, 280", "294", "14"}},
		{"negative overhang", func(m *Measures) { m.FrontOverhang = Known(-0.690) }, "frontOverhang", []string{"Front overhang, \u2212690"}},
		{"short overhang", func(m *Measures) { m.RearOverhang = Known(0.200) }, "rearOverhang", []string{"Rear overhang, 200", "294"}},
		{"overhang within the arch", func(m *Measures) { m.RearOverhang = Known(0.350) }, "rearOverhang", []string{"Rear overhang, 350", "359"}},
		{"roof under the waist", func(m *Measures) { m.Waist = Known(1.400) }, "roof", []string{"roof, 1345", "waist, 1400"}},
		{"roof under the arches", func(m *Measures) { m.Roof = Known(0.600) }, "roof", []string{"600", "641"}},
		{"out of order", func(m *Measures) {
			m.Stations = map[string]Spot{"scuttle": {X: Known(2.2)}, "roof-rear": {X: Known(2.0)}}
		}, "roof-rear.x", []string{"Roof, rear edge: 2000", "expected behind"}},
		{"crosses itself", func(m *Measures) { m.Stations = map[string]Spot{"rear-lip": {Known(3.0), Known(1.2)}} }, "rear-lip", []string{"crosses itself", "tail, lower edge", "3"}},
		{"crosses itself along the car", func(m *Measures) { m.Stations = map[string]Spot{"tail": {X: Known(2.0)}} }, "tail.x", []string{"crosses itself", "tail, at the bumper", "rear arch"}},
		{"short wheelbase", func(m *Measures) { m.Wheelbase = Known(0.5) }, "wheelbase", []string{"500", "588"}},
		{"no number", func(m *Measures) { m.Bonnet = Known(math.NaN()) }, "bonnet", []string{"Bonnet"}},
		{"under the floor", func(m *Measures) { m.Stations = map[string]Spot{"nose-lip": {Z: Known(-0.1)}} }, "nose-lip.z", []string{"nose, lower edge", "\u2212100"}},
		{"no such point", func(m *Measures) { m.Stations = map[string]Spot{"fin": {}} }, "fin", []string{"saloon", "fin"}},
		{"wheel in the air", func(m *Measures) { m.Hub[0] = Known(0.4) }, "hub.front", []string{"400", "294"}},
	} {
		m := sample()
		c.spoil(&m)
		f := New(m).Check()
		i := slices.IndexFunc(f, func(f Fault) bool { return len(f.Of) > 0 && f.Of[0] == c.of })
		if i < 0 {
			t.Errorf("%s: %v, expected a fault of %s", c.name, f, c.of)
			continue
		}
		for _, w := range c.says {
			if !strings.Contains(strings.ToLower(f[i].Says), strings.ToLower(w)) {
				t.Errorf("%s: %q lacks %q", c.name, f[i].Says, w)
			}
		}
	}
}

// anyMeasures are any lengths at all, or those of some car.
func anyMeasures(sane bool) *rapid.Generator[Measures] {
	return rapid.Custom(func(t *rapid.T) Measures {
		one := func(name string, lo, hi float64) Length {
			if !rapid.Bool().Draw(t, name+" read") {
				return Length{}
			}
			if sane {
				return Known(rapid.Float64Range(lo, hi).Draw(t, name))
			}
			return Known(rapid.OneOf(rapid.Float64Range(-1, 4), rapid.Float64(), rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), 0})).Draw(t, name))
		}
		m := Measures{Form: rapid.SampledFrom(append([]string{"", "barge"}, Forms...)).Draw(t, "form"), Stations: map[string]Spot{}}
		m.Wheelbase, m.FrontOverhang, m.RearOverhang = one("wheelbase", 1.8, 3.6), one("front", 0.5, 1.1), one("rear", 0.5, 1.4)
		m.Roof, m.Sill, m.SillFront, m.SillRear = one("roof", 1.1, 2.2), one("sill", 0.06, 0.3), one("sill front", 0.06, 0.3), one("sill rear", 0.06, 0.3)
		m.Bonnet, m.Waist, m.Boot, m.Width = one("bonnet", 0.78, 1.0), one("waist", 0.75, 1.0), one("boot", 0.78, 1.0), one("width", 1.3, 2.1)
		for i := range 2 {
			m.TyreRadius[i], m.Hub[i], m.Arch[i] = one("tyre", 0.25, 0.36), one("hub", 0.24, 0.33), one("arch", 0.37, 0.43)
			m.ArchShape[i] = rapid.SampledFrom([]string{"", "round", "flat", "covered", "oval"}).Draw(t, "shape")
		}
		if !sane {
			for id := range labels {
				if rapid.IntRange(0, 3).Draw(t, id) == 0 {
					m.Stations[id] = Spot{one(id+".x", 0, 0), one(id+".z", 0, 0)}
				}
			}
		}
		return m
	})
}

// sound asks an outline for coordinates that are no numbers.
func sound(t interface{ Fatalf(string, ...any) }, o Outline) {
	good := func(where string, list ...Point) {
		for _, p := range list {
			if s := p.X + p.Z; math.IsNaN(s) || math.IsInf(s, 0) {
				t.Fatalf("%s: %v", where, p)
			}
		}
	}
	for _, s := range slices.Concat(o.Edge(), o.Section(), o.Opening(0), o.Opening(1)) {
		good("from "+s.From+" to "+s.To, s.A, s.B, s.C, s.D)
	}
	for _, l := range slices.Concat(o.Glass(), o.Shuts(), o.Fittings(), o.Handles()) {
		good("trim", l...)
	}
	for _, x := range []float64{-1, 0, 1.3, o.Wheelbase.V, o.Tail.V, math.NaN()} {
		a, _ := o.Top(x)
		b, _ := o.Bottom(x)
		good("top and bottom", Point{a, b})
	}
	for i := range 2 {
		f := o.Face(i)
		good("face", Point{f.Deck.Half, f.Deck.Z}, Point{f.Lip.Half, f.Lip.Z}, Point{f.Edge.Half, f.Edge.Z})
	}
	for _, f := range o.Check() {
		if f.Says == "" || f.Place == "" {
			t.Fatalf("a fault without words: %+v", f)
		}
	}
}

// TestLimitAnyMeasures lays out whatever may be typed.
func TestLimitAnyMeasures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { sound(t, New(anyMeasures(false).Draw(t, "measures"))) })
}

// TestLimitAnyCar finds no crossing and no disorder in what the forms assume
// between the measures of any car.
func TestLimitAnyCar(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := New(anyMeasures(true).Draw(t, "measures"))
		sound(t, o)
		if f := slices.Concat(o.crossed(), o.disorder()); len(f) > 0 {
			t.Fatalf("%v", f)
		}
		for i, s := range o.Over {
			for _, p := range dots([]Segment{s}, 20) {
				if p.X < math.Min(s.A.X, s.D.X)-1e-9 || p.X > math.Max(s.A.X, s.D.X)+1e-9 || p.Z < math.Min(s.A.Z, s.D.Z)-1e-9 || p.Z > math.Max(s.A.Z, s.D.Z)+1e-9 {
					t.Fatalf("curve %d leaves the box of its stations at %v", i, p)
				}
			}
		}
	})
}

func FuzzNew(f *testing.F) {
	f.Add("saloon", 2.54, 0.69, 0.9, 1.345, 0.138, 0.36, 0.7, 0.8, "round")
	f.Add("van", -1.0, 0.0, math.Inf(1), math.NaN(), 5.0, 0.1, 0.0, -1.0, "flat")
	f.Fuzz(func(t *testing.T, form string, wb, front, rear, roof, sill, arch, x, z float64, shape string) {
		m := Measures{Form: form, Wheelbase: Known(wb), FrontOverhang: Known(front), RearOverhang: Known(rear), Roof: Known(roof), Sill: Known(sill), ArchShape: [2]string{shape, shape}}
		m.Arch = [2]Length{Known(arch), Known(arch)}
		m.Stations = map[string]Spot{"scuttle": {Known(x), Known(z)}, "tail": {Known(z), Known(x)}}
		sound(t, New(m))
	})
}

func ExampleNew() {
	o := New(Measures{Form: "saloon", Wheelbase: Known(2.540), Roof: Known(1.345)})
	s, _ := o.Station("crown")
	fmt.Printf("%s: %.0f mm, known %v\n", s.Label, s.Z*1000, s.KnownZ)
	s, _ = o.Station("scuttle")
	fmt.Printf("%s: %.0f mm, known %v\n", s.Label, s.Z*1000, s.KnownZ)
	// Output:
	// roof, highest point: 1345 mm, known true
	// scuttle, bonnet's rear edge: 845 mm, known false
}

func ExampleOutline_Check() {
	m := Measures{Form: "saloon", TyreRadius: [2]Length{Known(0.305), {}}, Arch: [2]Length{Known(0.290), {}}}
	for _, f := range New(m).Check() {
		fmt.Println(strings.ReplaceAll(f.Says, "\u00a0", " "))
	}
	// Output: Front arch, 290 mm above the hub. The tyre reaches 305 mm: at ROAD it would stand 15 mm in the wing.
}

// TestLimitLowWaist lays out cars whose waist or bonnet is no higher than the
// arches: the body still closes over them.
func TestLimitLowWaist(t *testing.T) {
	big := [2]Length{{}, Known(0.36)}
	for _, m := range []Measures{
		{Waist: Known(0.75), TyreRadius: big},
		{Bonnet: Known(0.75), TyreRadius: big},
		{Form: "pickup", Boot: Known(0.75), TyreRadius: big},
		{Bonnet: Known(0.78), Arch: [2]Length{Known(0.43), Known(0.43)}, Hub: [2]Length{Known(0.33), Known(0.33)}, TyreRadius: [2]Length{Known(0.34), Known(0.34)}},
	} {
		if f := New(m).Check(); len(f) > 0 {
			t.Errorf("%+v: %v", m, f)
		}
	}
}
