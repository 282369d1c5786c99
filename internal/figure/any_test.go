package figure

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"jounce/body"
	"jounce/internal/draw"
	"jounce/internal/draw/svg"
	"jounce/internal/finding"
)

// anyTravel is an axle with up to five limiters on each side, some nearly at one height, some presets not known.
func anyTravel(r *rand.Rand, name string) Travel {
	t := Travel{Name: name, Known: true}
	v := 5 + 80*r.Float64()
	t.Droop, t.Bump = length(v, 2), length(5+90*r.Float64(), 2)
	for i := range 1 + r.IntN(5) {
		t.DroopParts = append(t.DroopParts, Ending{fmt.Sprintf("part %d", i), length(v+float64(i)*r.Float64()*9, 2), i == 0})
	}
	b := -mmOr(t.Bump, 0)
	t.StopMeets = length(b*r.Float64(), 2)
	for i := range 1 + r.IntN(5) {
		t.BumpParts = append(t.BumpParts, Ending{fmt.Sprintf("limiter %d", i), length(b-float64(i)*r.Float64()*9, 2), i == 0})
	}
	t.Down, t.High = length(b*r.Float64(), 1), length(v*r.Float64(), 1)
	if r.IntN(2) == 0 {
		t.Hump = length(v*r.Float64(), 1)
	}
	return t
}

// anyDecay is a test of 1 to 20 hours, in a bay that cools or warms, with up to eight readings at any times.
func anyDecay(r *rand.Rand) Decay {
	d := Decay{Band: r.Float64() * 2e4, PassText: "pass ends, 0.1", StopText: "stops the work: 0.3 bar in 12 h", End: "06:00"}
	end, drop, start := 3600+68400*r.Float64(), 30*r.Float64()-12, 2e5+1e6*r.Float64()
	for i := range 40 {
		t := end * float64(i) / 39
		cold := (start+101300)*(293.15-drop*(1-math.Exp(-3*t/end)))/293.15 - 101300
		d.Time, d.Cold = append(d.Time, t), append(d.Cold, cold)
		d.PassEnds, d.Stops = append(d.PassEnds, cold-1e4*t/43200), append(d.Stops, cold-3e4*t/43200)
	}
	for i := range 1 + r.IntN(8) {
		t := 0.0
		if i > 0 {
			t = end * r.Float64()
		}
		v, _ := curve{d.Time, d.Cold}.at(t)
		d.ReadTime, d.Read, d.ReadHalf = append(d.ReadTime, t), append(d.Read, v-2e4*r.Float64()*t/end), append(d.ReadHalf, d.Band)
		d.Labels = append(d.Labels, fmt.Sprintf("%02d:%02d", r.IntN(24), r.IntN(60)))
	}
	if r.IntN(3) > 0 {
		d.Decide, d.DecideAt = end*r.Float64(), "23:17"
	}
	if r.IntN(2) > 0 {
		d.Now, d.NowAt = end*r.Float64(), "20:30"
	}
	return d
}

// anyLoad moves the presets, the loads and the limits of the sample about.
func anyLoad(r *rand.Rand) LoadHeight {
	c := sampleLoad()
	c.Road = 0.08 + 0.1*r.Float64()
	c.Low, c.High = c.Road-0.06*r.Float64(), c.Road+0.05*r.Float64()
	n := 1200 + 3000*r.Float64()
	c.Loads = [3]float64{n, n * (1 + 0.1*r.Float64()), n * (1 + 0.5*r.Float64())}
	if r.IntN(3) == 0 {
		c.TooBig = nil
	}
	if r.IntN(3) == 0 {
		c.TooSmall = nil
	}
	return c
}

// anySide is a car of any measures, of which some are not read.
func anySide(r *rand.Rand) Side {
	forms := []string{"saloon", "coupé", "estate", "hatch", "pickup", "van", "open two-seater", ""}
	s := sampleSide("saloon")
	k := 0.6 + 0.9*r.Float64()
	some := func(n *finding.Number, v float64) {
		*n = finding.Number{}
		if r.IntN(4) > 0 {
			*n = length(v*k*(0.85+0.3*r.Float64()), 2)
		}
	}
	m := body.Measures{Form: forms[r.IntN(len(forms))]}
	maybe := func(l *body.Length, v float64) {
		var n finding.Number
		some(&n, v)
		*l = body.Length{V: n.Value, Known: n.Known()}
	}
	maybe(&m.Wheelbase, 2540)
	maybe(&m.FrontOverhang, 700)
	maybe(&m.RearOverhang, 900)
	maybe(&m.Roof, 1400)
	maybe(&m.Sill, 150)
	maybe(&m.Width, 1600)
	some(&s.Lowest, 110)
	some(&s.Scrub, 99)
	some(&s.Road.Hump, 100)
	some(&s.Road.HumpLength, 900)
	some(&s.Road.Kerb, 120)
	for i := range 2 {
		maybe(&m.TyreRadius[i], 295)
		maybe(&m.Hub[i], 281)
		maybe(&m.Arch[i], 380)
		m.ArchShape[i] = []string{"", "flat", "covered"}[r.IntN(3)]
	}
	s.Body = body.New(m)
	for i := range s.SillAt {
		some(&s.SillAt[i], 60+40*float64(i))
	}
	for i := range r.IntN(13) {
		s.Touches = append(s.Touches, SideTouch{No: i, Rank: i + 1, Name: []string{"sump", "exhaust, rear joint at the tunnel", "sill seam"}[r.IntN(3)], At: "88 ± 3", Half: 0.003,
			X: -0.6 + 3.6*r.Float64(), Z: 0.05 + 0.6*r.Float64(), Body: r.IntN(2) == 0})
	}
	s.Zones = r.IntN(2) == 0
	s.Preset, s.Growing = r.IntN(4), r.IntN(2) == 0
	return s
}

// TestLimitAnyData draws what the record may well say and asks for the faults of each.
func TestLimitAnyData(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 12))
	for i := range 150 {
		for _, px := range []float64{292, 474, 730} {
			w, st := draw.PX(px), StyleFor(px)
			axles := []Travel{anyTravel(r, "front"), anyTravel(r, "rear")}
			if w < TravelWidth(axles, st) {
				axles = axles[:1]
			}
			front := hertz(1+r.Float64(), 0.3*r.Float64())
			ride := Ride{Front: front, Rear: hertz(1+r.Float64(), 0.3*r.Float64()), Least: 1.2, Most: 1.8, WantLo: front.Value * 1.05, WantHi: front.Value * 1.2, WantText: "rear wanted, 5 to 20 % above"}
			side := anySide(r)
			side.Road.RampLength, side.Road.RampRise = length(1000+8000*r.Float64(), 0), length(900*r.Float64(), 0)
			ramp, _ := RampView(side, w, st)
			end := End{Body: side.Body, Wheel: side.Wheel, Scrub: side.Scrub, Kerb: side.Road.Kerb, Change: side.Change, Preset: side.Preset}
			for k := range 4 {
				if r.IntN(2) == 0 {
					end.GroundToBody[k] = length(150+500*r.Float64(), 2)
				}
			}
			if r.IntN(2) == 0 {
				end.Track, end.Lamp = [2]finding.Number{length(1200+400*r.Float64(), 2), {}}, length(500+300*r.Float64(), 3)
			}
			scenes := map[string]draw.Scene{
				"ramp": ramp, "ends": EndViews(end, w, st), "outline": OutlineView(side, w, st),
				"travel": TravelBars(axles, w, st), "ride": RideLine(ride, w, st), "decay": DecayChart(anyDecay(r), w, st),
				"load": LoadChart(anyLoad(r), w, st), "side": SideView(side, w, st),
			}
			for name, s := range scenes {
				for _, f := range s.Faults() {
					t.Errorf("%s %d at %v px: %s", name, i, px, f)
				}
				if _, err := svg.Inline(s); err != nil {
					t.Errorf("%s %d at %v px: %v", name, i, px, err)
				}
			}
		}
	}
}
