package figure

import (
	"math"

	"jounce/body"
	"jounce/internal/draw"
	"jounce/internal/finding"
	"jounce/quantity"
)

func length(v, half float64) finding.Number {
	return finding.Of(quantity.KindLength, "mm", v/1000, half/1000)
}

func hertz(v, half float64) finding.Number {
	return finding.Of(quantity.KindFrequency, "Hz", v, half)
}

// sampleDecay is the night of an invented tank: 10 bar at 20 °C, the bay cools to 8 °C.
func sampleDecay() Decay {
	d := Decay{Band: 4000, PassText: "pass ends, 0.1", StopText: "stops the work: 0.3 bar in 12 h", Decide: 19000, DecideAt: "23:17", Now: 9000, NowAt: "20:30", End: "06:00"}
	for t := 0.0; t <= 43200; t += 900 {
		temp := 281.15 + 12*math.Exp(-t/12000)
		cold := 1101300*temp/293.15 - 101300
		d.Time, d.Cold = append(d.Time, t), append(d.Cold, cold)
		d.PassEnds, d.Stops = append(d.PassEnds, cold-10000*t/43200), append(d.Stops, cold-30000*t/43200)
	}
	d.Decide = 4000.0 / 10000 * 43200
	d.ReadTime = []float64{0, 3600, 9000}
	for _, t := range d.ReadTime {
		v, _ := curve{d.Time, d.Cold}.at(t)
		d.Read, d.ReadHalf = append(d.Read, v), append(d.ReadHalf, 4000)
	}
	d.Labels = []string{"18:00", "19:00", "20:30"}
	return d
}

func sampleLoad() LoadHeight {
	area := func(h float64) float64 { // [m²] of an invented bellows
		x := (h - 0.14) / 0.08
		return 0.0070 - 0.0018*x*x*x - 0.0002*x
	}
	iso := func(bar float64, label string) Isobar {
		b := Isobar{Pressure: bar * 1e5, Label: label}
		for h := 0.055; h <= 0.2151; h += 0.005 {
			b.Heights, b.Loads = append(b.Heights, h), append(b.Loads, bar*1e5*area(h))
		}
		return b
	}
	small, big := iso(5.5, "5.5 bar: too small above"), iso(2.5, "2.5 bar: owner signs below")
	c := LoadHeight{Name: "Front spring", Least: 0.064, Most: 0.205, Road: 0.15, Low: 0.092, High: 0.194, Loads: [3]float64{2300, 2467, 2660}, LoadText: [3]string{"3.3", "3.5", "3.8"}, TooSmall: &small, TooBig: &big}
	for _, p := range []float64{2, 3, 4, 5, 6} {
		c.Isobars = append(c.Isobars, iso(p, plain(p, 0)+nbsp+"bar"))
	}
	return c
}

func sampleTravel() []Travel {
	front := Travel{Name: "front", Known: true, Bump: length(84, 2), Droop: length(45, 2), StopMeets: length(-68, 2), Down: length(-60, 1), Hump: length(20, 1), High: length(45, 1)}
	front.BumpParts = []Ending{{"stop solid", length(-84, 2), true}, {"spring shut", length(-89, 2), false}, {"damper shut", length(-94, 2), false}}
	front.DroopParts = []Ending{{"strut open", length(45, 2), true}, {"spring open", length(57, 2), false}, {"brake hose", length(63, 2), false}}
	rear := Travel{Name: "rear", Known: true, Bump: length(86, 2), Droop: length(48, 2), StopMeets: length(-71, 2), Down: length(-55, 1), Hump: length(20, 1), High: length(40, 1)}
	rear.BumpParts = []Ending{{"stop solid", length(-86, 2), true}, {"spring shut", length(-92, 2), false}, {"damper shut", length(-96, 2), false}}
	rear.DroopParts = []Ending{{"strap", length(48, 2), true}, {"spring open", length(71, 2), false}}
	return []Travel{front, rear}
}

func sampleRide() Ride {
	return Ride{Front: hertz(1.73, 0.06), Rear: hertz(1.48, 0.05), Least: 1.2, Most: 1.8, WantLo: 1.82, WantHi: 2.08, WantText: "rear wanted, 5 to 20 % above"}
}

func samplePlan() Plan {
	return Plan{Wheelbase: length(2540, 2), FrontOverhang: length(690, 2), RearOverhang: length(900, 2)}
}

func sampleWalk() Plan {
	p := samplePlan()
	for i, s := range []PlanStop{{Side: AtLeft}, {Side: AtLeft, X: 0.05}, {Side: AtLeft, X: 0.43}, {Side: AtLeft, X: 0.6}, {Side: AtLeft, X: 1}, {Side: AtTail}, {Side: AtRight, X: 1}, {Side: AtRight, X: 0}, {Side: AtNose}} {
		s.Label, s.State = plain(float64(i+1), 0), Done
		if i == 7 {
			s.State = Here
		} else if i > 7 {
			s.State = ToCome
		}
		s.Href, s.Title = "/job/1/stop/"+s.Label, "Stop "+s.Label
		p.Stops = append(p.Stops, s)
	}
	return p
}

func sampleCorners() Plan {
	p := samplePlan()
	pass := draw.MarkPass
	for _, n := range []string{"FL left front", "FR right front", "RL left rear", "RR right rear"} {
		p.Corners = append(p.Corners, PlanCorner{Head: n, Value: finding.Of(quantity.KindPressure, "bar", 350000, 0), Lines: []string{"51 psi", "3.3 empty", "3.8 full"}, Mark: &pass})
	}
	return p
}

func sampleCaution() Plan {
	p := samplePlan()
	p.You, p.Keep = &PlanSpot{AtLeft, 0.3}, []PlanArea{UnderCar, BehindCar}
	return p
}

// sampleBody is a measured body of a form.
func sampleBody(form string) body.Measures {
	m := body.Measures{Form: form, Wheelbase: body.Known(2.540), FrontOverhang: body.Known(0.690), RearOverhang: body.Known(0.900), Roof: body.Known(1.345), Sill: body.Known(0.138)}
	if form != "saloon" {
		o := body.New(body.Measures{Form: form, Wheelbase: body.Known(2.540)})
		m.FrontOverhang, m.RearOverhang, m.Roof = body.Known(-o.Nose.V), body.Known(o.Tail.V-2.540), body.Known(o.Roof.V)
	}
	for i := range 2 {
		m.TyreRadius[i], m.Hub[i] = body.Known(0.2945), body.Known(0.281)
	}
	m.Arch = [2]body.Length{body.Known(0.360), body.Known(0.359)}
	return m
}

func sampleSide(form string) Side {
	s := Side{Body: body.New(sampleBody(form)), Lowest: length(104, 2), LowestName: "exhaust joint", Scrub: length(99, 3), Preset: 1}
	w := Wheel{Known: true, Diameter: length(589, 4), Loaded: length(281, 3), Flange: length(183, 0), Width: length(185, 0)}
	s.Wheel = [2]Wheel{w, w}
	for i, v := range []float64{-60, 0, 20, 45} {
		s.SillAt[i], s.LowestAt[i] = length(138+v, 2), length(104+v, 2)
		s.Change[i] = [2]finding.Number{length(v, 1), length(v*0.92, 1)}
	}
	return s
}

// sampleTouched is a car with its touch points, its hump and its kerb.
func sampleTouched(form string) Side {
	s := sampleSide(form)
	s.Zones = true
	s.Road = Road{Hump: length(100, 0), HumpLength: length(900, 0), Kerb: length(120, 0), RampStep: length(30, 0), RampLength: length(6000, 0), RampRise: length(900, 0)}
	for i, t := range []SideTouch{
		{ID: "stop.front", Name: "front bump stop", At: "68 ± 2", Half: 0.002, X: 0.08, Z: 0.62},
		{ID: "liner", Name: "inner liner", At: "89 ± 2", Half: 0.002, X: -0.12, Z: 0.60},
		{ID: "lowest", Name: "exhaust joint", At: "104 ± 2", Half: 0.002, X: 1.02, Z: 0.104, Body: true},
		{ID: "sump", Name: "sump", At: "121 ± 2", Half: 0.002, X: 0.51, Z: 0.121, Body: true},
		{ID: "sill", Name: "sill seam", At: "138 ± 2", Half: 0.002, X: 1.72, Z: 0.138, Body: true},
		{ID: "lip", Name: "spoiler lip", At: "205 ± 4", Half: 0.004, X: -0.6, Z: 0.205, Body: true},
	} {
		t.No, t.Rank = i, i+1
		s.Touches = append(s.Touches, t)
	}
	return s
}

// sampleGrowing is a car of which seven numbers are typed.
func sampleGrowing() Side {
	m := sampleBody("saloon")
	m.FrontOverhang, m.Roof, m.Sill = body.Length{}, body.Length{}, body.Length{}
	s := sampleSide("saloon")
	s.Body, s.Growing, s.Lowest = body.New(m), true, finding.Number{}
	s.SillAt, s.LowestAt, s.Change = [4]finding.Number{}, [4]finding.Number{}, [4][2]finding.Number{}
	return s
}

// sampleGhost is a car beside its state of another revision.
func sampleGhost() Side {
	s, m := sampleSide("saloon"), sampleBody("saloon")
	m.Roof, m.Boot = body.Known(1.400), body.Known(0.900)
	g := sampleSide("saloon")
	g.Body, g.Name = body.New(m), "revision 12"
	s.Ghost = &g
	return s
}

// sampleEnd is a car measured across.
func sampleEnd(form string) End {
	s, m := sampleTouched(form), sampleBody(form)
	m.Width = body.Known(1.610)
	e := End{Body: body.New(m), Wheel: s.Wheel, Track: [2]finding.Number{length(1330, 3), length(1310, 3)}, Scrub: s.Scrub, Lamp: length(640, 3), Kerb: s.Road.Kerb, Change: s.Change, Preset: 1}
	for i, v := range []float64{640, 641, 632, 645} {
		e.GroundToBody[i] = length(v, 2)
	}
	return e
}

// sampleTouchedPlan is the plan with touch points at the wheels and under the middle.
func sampleTouchedPlan() Plan {
	p := samplePlan()
	for i, t := range sampleTouched("saloon").Touches {
		t.Y = []float64{0.6, -0.6, 0.1, 0, 0.7, 0}[i]
		p.Touches = append(p.Touches, t)
	}
	return p
}
