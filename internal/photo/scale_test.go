package photo

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func at(x, y float64) *Point { return &Point{x, y} }

// TestExactScale: 3-4-5 by hand. 2.5 m and 500 px are 200 px/m and 5 mm/px; hubs
// 0.3 m up are 60 px above the floor.
func TestExactScale(t *testing.T) {
	s, err := ScaleOf(Marks{FrontHub: at(400, 700), RearHub: at(900, 700), Wheelbase: 2.5, FrontHeight: 0.3, RearHeight: 0.3})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "px/m", s.PixelsPerMetre, 200)
	near(t, "mm/px", s.MMPerPixel, 5)
	near(t, "tilt", s.Tilt, 0)
	floor := s.Pixel(Spot{})
	near(t, "floor x", floor.X, 400)
	near(t, "floor y", floor.Y, 760)
	if s.FacesRight || len(s.Notes) != 0 {
		t.Errorf("%+v", s)
	}
	// 7-24-25, twenty times: 16.3° is more than a hand holds.
	if _, err := ScaleOf(Marks{FrontHub: at(0, 0), RearHub: at(480, 140), Wheelbase: 2.5, FrontHeight: 0.3, RearHeight: 0.3}); err == nil {
		t.Error("16° taken")
	}
	// 9-40-41, ten times: 12.7°.
	_, err = ScaleOf(Marks{FrontHub: at(500, 600), RearHub: at(900, 690), Wheelbase: 2.05, FrontHeight: 0.2, RearHeight: 0.2})
	if err == nil {
		t.Error("12.7° taken")
	}
	// 11-60-61: 10.4°; facing right the tilt is the other way round.
	s, err = ScaleOf(Marks{FrontHub: at(900, 600), RearHub: at(300, 710), Wheelbase: 3.05, FrontHeight: 0.305, RearHeight: 0.305})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "px/m", s.PixelsPerMetre, 200)
	near(t, "tilt", s.Tilt, -math.Atan2(11, 60))
	if !s.FacesRight {
		t.Error("faces left")
	}
	// The floor lies 61 px below the hub, square to the line of the hubs: 11 and 60.
	floor = s.Pixel(Spot{})
	near(t, "floor x", floor.X, 900+11)
	near(t, "floor y", floor.Y, 600+60)
}

func near(t *testing.T, name string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-9*math.Max(1, math.Abs(want)) {
		t.Errorf("%s: %v, want %v", name, got, want)
	}
}

// TestExactRoundTrip: the hubs and the marks under the tyres come out where they
// were pointed at, whichever way the car faces and the camera was held.
func TestExactRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		k, tilt := f("k", 120, 400), f("tilt", -0.15, 0.15)
		l, hf, hr := f("L", 1.8, 3.6), f("hf", 0.2, 0.4), f("hr", 0.2, 0.4)
		side := 1.0
		if rapid.Bool().Draw(t, "right") {
			side = -1
		}
		o := Point{f("ox", 0, 1600), f("oy", 0, 1000)}
		sin, cos := math.Sincos(tilt)
		put := func(x, z float64) *Point {
			x *= side
			return &Point{o.X + k*(x*cos+z*sin), o.Y + k*(x*sin-z*cos)}
		}
		m := Marks{FrontHub: put(0, hf), RearHub: put(l, hr), FrontGround: put(0, 0), RearGround: put(l, 0), Wheelbase: l}
		for _, known := range []bool{false, true} {
			if known {
				m.FrontHeight, m.RearHeight = hf, hr
			}
			s, err := ScaleOf(m)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(s.PixelsPerMetre-k) > 1e-9*k || math.Abs(s.Tilt-tilt) > 1e-9 || s.FacesRight != (side < 0) || s.HeightsSeen == known {
				t.Fatalf("%+v", s)
			}
			for _, v := range [][2]float64{{s.FrontHeight, hf}, {s.RearHeight, hr}, {s.FrontSeen, hf}, {s.RearSeen, hr}, {s.Misfit, 0}} {
				if math.Abs(v[0]-v[1]) > 1e-9 {
					t.Fatalf("%v, want %v", v[0], v[1])
				}
			}
			p := put(1.234, 0.567)
			if got := s.Pixel(Spot{1.234, 0.567}); math.Hypot(got.X-p.X, got.Y-p.Y) > 1e-7 {
				t.Fatalf("%v, want %v", got, *p)
			}
			if got := s.Spot(*p); math.Hypot(got.X-1.234, got.Z-0.567) > 1e-9 {
				t.Fatalf("%v", got)
			}
		}
	})
}

// TestExactMisfit: from 30° off square the wheelbase is cos 30° of itself, heights
// read 15.5 % too large.
func TestExactMisfit(t *testing.T) {
	const k, l, h = 250.0, 2.6, 0.3
	c := math.Cos(math.Pi / 6)
	m := Marks{FrontHub: at(300, 500), RearHub: at(300+k*l*c, 500), FrontGround: at(300, 500+k*h), RearGround: at(300+k*l*c, 500+k*h),
		Wheelbase: l, FrontHeight: h, RearHeight: h}
	s, err := ScaleOf(m)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "misfit", s.Misfit, 1/c-1)
	near(t, "seen", s.FrontSeen, h/c)
	if len(s.Notes) != 2 {
		t.Fatalf("%q", s.Notes)
	}
	for _, want := range []string{"The front hub stands 346 mm", "300 mm by its tyre", "15 % more", "at an angle, some 30° off square", "46 mm at the hub", "155 mm at 1 m"} {
		if !strings.Contains(s.Notes[0], want) {
			t.Errorf("%q does not say %q", s.Notes[0], want)
		}
	}
	m.Misfit = 0.2
	if s, err = ScaleOf(m); err != nil || len(s.Notes) != 0 {
		t.Errorf("%v %q", err, s.Notes)
	}
	// A hub 2 px too low in a small picture is pointing, not an angle: 0.25 m are 37 px, 3 px twice are 11 %.
	small := Marks{FrontHub: at(100, 100), RearHub: at(475, 100), FrontGround: at(100, 135.5), RearGround: at(475, 135.5), Wheelbase: 2.5, FrontHeight: 0.25, RearHeight: 0.25}
	if s, err = ScaleOf(small); err != nil || len(s.Notes) != 0 || math.Abs(s.Misfit) < 0.05 {
		t.Errorf("%v %v %q", err, s.Misfit, s.Notes)
	}
}

// TestNoScale names what is missing.
func TestNoScale(t *testing.T) {
	ok := Marks{FrontHub: at(400, 700), RearHub: at(900, 700), Wheelbase: 2.5, FrontHeight: 0.3, RearHeight: 0.3}
	for _, c := range []struct {
		change func(*Marks)
		why    Why
		say    string
	}{
		{func(m *Marks) { m.RearHub = nil }, NoScale, "the middle of the rear wheel is missing"},
		{func(m *Marks) { m.FrontHub, m.Wheelbase = nil, 0 }, NoScale, "the middle of the front wheel and the wheelbase are missing"},
		{func(m *Marks) { *m = Marks{} }, NoScale, "the middle of the front wheel, the middle of the rear wheel, the wheelbase and the floor"},
		{func(m *Marks) { m.RearHeight, m.FrontGround = 0, at(1, 1) }, NoScale, "where both tyres stand"},
		{func(m *Marks) { m.Wheelbase = 2500 }, WrongScale, "2,500,000 mm is none of a car"},
		{func(m *Marks) { m.FrontHeight = 300 }, WrongScale, "none of a car"},
		{func(m *Marks) { m.RearHub = at(480, 700) }, WrongScale, "80 px apart"},
		{func(m *Marks) { m.RearHub = at(400, 1200) }, WrongScale, "at 90°"},
		{func(m *Marks) { m.RearHub.X = math.NaN() }, WrongScale, "not a number"},
		{func(m *Marks) { m.FrontHeight, m.FrontGround, m.RearGround = 0, at(400, 600), at(900, 600) }, WrongScale, "below the hubs"},
		{func(m *Marks) { m.FrontGround = at(400, 600) }, WrongScale, "below the hubs"},
		{func(m *Marks) { m.FrontHeight, m.FrontGround, m.RearGround = 0, at(400, 800), at(400, 800) }, WrongScale, "one place"},
	} {
		m := ok
		m.FrontHub, m.RearHub = at(400, 700), at(900, 700)
		c.change(&m)
		_, err := ScaleOf(m)
		var no *Refusal
		if !errors.As(err, &no) || no.Why != c.why || !strings.Contains(err.Error(), c.say) {
			t.Errorf("%v; want %s, %q", err, c.why, c.say)
		}
	}
}
