package study

import (
	"fmt"
	"math"

	"jounce/internal/finding"
	q "jounce/quantity"
	"jounce/source"
	"jounce/stance"
)

func hypot(a, b float64) float64 { return math.Hypot(a, b) }

// cases works out the sprung mass of each corner empty, with the driver alone,
// and full: people, luggage and the air supply. The weights say what they hold
// already.
func (v *view) cases() {
	s := v.rec.Survey
	for i := range v.out.Corners {
		if s.Driver == "in" {
			v.out.Corners[i].Case[1] = v.out.Corners[i].Sprung
		} else if s.Driver == "out" {
			v.out.Corners[i].Case[0] = v.out.Corners[i].Sprung
		}
	}
	v.ladenNeed = v.caseGaps()
	if len(v.ladenNeed) > 0 {
		return
	}
	driver, others := v.items()
	if s.Driver == "in" {
		v.load(2, others)
		driver.out = true
		v.load(0, []aboard{driver})
	} else {
		v.load(1, []aboard{driver})
		v.load(2, append([]aboard{driver}, others...))
	}
}

func (v *view) base() (stance.Base, []finding.Gap) {
	l, f, r := v.read("survey.wheelbase", "L", tape), v.read("survey.trackFront", "b", tape), v.read("survey.trackRear", "b", tape)
	return stance.Base{Wheelbase: l.Value, FrontTrack: f.Value, RearTrack: r.Value}, gaps("shares people and luggage out over the wheels", l, f, r)
}

// caseGaps is what the load cases wait for.
func (v *view) caseGaps() []finding.Gap {
	_, need := v.base()
	if v.rec.Survey.Driver == "" {
		need = append(need, finding.Gap{Path: "survey.driver", Label: "Driver when weighed", Why: "says what the weights hold already"})
	}
	if len(v.rec.Loads.Seats) == 0 {
		return append(need, finding.Gap{Path: "loads.seats[driver].x", Label: "Seats, driver, behind the front axle", Why: "shares people out over the wheels"})
	}
	seen, others := false, 0
	for _, seat := range v.rec.Loads.Seats {
		at := "loads.seats[" + seat.ID + "]"
		if seat.ID == "driver" {
			seen = true
		} else {
			others++
		}
		if v.text(at+".mass") != "" {
			need = append(need, gaps("a mass that can be used", v.read(at+".mass", "m", exact))...)
		}
		need = append(need, gaps("shares people out over the wheels", v.read(at+".x", "x", tape), v.read(at+".y", "y", tape))...)
	}
	if !seen {
		need = append(need, finding.Gap{Path: "loads.seats[driver].x", Label: "Seats, driver, behind the front axle", Why: "shares people out over the wheels"})
	}
	if others == 0 {
		need = append(need, finding.Gap{Path: "loads.seats[front].x", Label: "Seats, passengers, behind the front axle", Why: "a full car holds more than the driver"})
	}
	lug := v.read("loads.luggage", "m", exact)
	if v.text("loads.luggage") != "" {
		need = append(need, gaps("a mass that can be used", lug)...)
	}
	if !lug.OK || lug.Value > 0 {
		need = append(need, gaps("shares luggage out over the wheels", v.read("loads.luggageX", "x", tape))...)
	}
	if v.text("loads.addedMass") != "" {
		need = append(need, gaps("the air supply rides along", v.read("loads.addedMass", "m", exact), v.read("loads.addedX", "x", tape))...)
	}
	return need
}

// aboard is somebody or something that rides along, with its readings.
type aboard struct {
	name             string
	mass, back, left given
	out              bool // taken out of the car
}

func (a aboard) item() stance.Item {
	it := stance.Item{Name: a.name, Mass: a.mass.Value, Back: a.back.Value, Left: a.left.Value}
	if a.out {
		it.Mass = -it.Mass
	}
	return it
}

// items are the driver, and everybody and everything else. A seat with no mass
// typed holds 75 kg, the driver's 80; the luggage is 50 kg (settled).
func (v *view) items() (driver aboard, others []aboard) {
	kg := func(path string, other float64) given {
		if m := v.read(path, "m", exact); m.OK {
			return m
		}
		m := v.fact("m", "", finding.Number{Value: other, Kind: q.KindMass, Unit: v.shop.Unit(q.KindMass)}, source.CP)
		m.Path = path
		return m
	}
	for _, seat := range v.rec.Loads.Seats {
		at := "loads.seats[" + seat.ID + "]"
		it := aboard{name: seat.Name, mass: kg(at+".mass", 75), back: v.read(at+".x", "x", tape), left: v.read(at+".y", "y", tape)}
		if it.name == "" {
			it.name = "seat " + seat.ID
		}
		if seat.ID != "driver" {
			others = append(others, it)
			continue
		}
		if it.mass.Mark == source.CP {
			it.mass.Value = 80
		}
		if m := v.read("survey.driverMass", "m", exact); m.OK {
			it.mass = m
		}
		driver = it
	}
	others = append(others, aboard{name: "luggage", mass: kg("loads.luggage", 50), back: v.read("loads.luggageX", "x", tape)})
	if m, x := v.read("loads.addedMass", "m", exact), v.read("loads.addedX", "x", tape); m.OK && x.OK {
		others = append(others, aboard{name: "air supply", mass: m, back: x})
	}
	return driver, others
}

// load sets one case from the weights as they are and what is added to them.
func (v *view) load(n int, list []aboard) {
	base, _ := v.base()
	var before stance.Corners
	for i := range before {
		if w := v.out.Corners[i].Weight; w.Known() {
			before[i] = stance.Mass{Value: w.Value, Half: w.Half, From: stance.Read}
		}
	}
	items := make([]stance.Item, len(list))
	for i, it := range list {
		items[i] = it.item()
	}
	a, err := stance.Add(before, base, items)
	if err != nil {
		return
	}
	if n == 2 {
		v.added = &a.Change
	}
	for i := range v.out.Corners {
		c := &v.out.Corners[i]
		if c.Sprung.Known() {
			c.Case[n] = c.Sprung
			c.Case[n].Value += a.Change[i]
			c.Case[n].Half = hypot(c.Sprung.Half, a.ChangeHalf[i])
		}
		if n == 0 {
			continue // no finding rests on it
		}
		change := v.rides(n, i, a, list)
		if n == 2 {
			v.how.added[i] = change
		}
		if !c.Sprung.Known() {
			continue
		}
		sprung := v.worked("m_{"+c.Name+"}", c.Name+", sprung mass", c.Sprung, v.how.sprung[i])
		if _, t, err := v.compute(q.KindMass, c.Sprung.Unit, func(x []float64) (float64, error) { return x[0] + x[1], nil }, sprung, change); err == nil {
			t.lead(finding.Line{Symbols: "m = " + sprung.Symbol + " + " + change.Symbol, Numbers: fmt.Sprintf("%s + %s", c.Sprung, change.Number), Result: c.Case[n].String()})
			v.how.load[i][n] = t
		}
	}
}

// rides is what people and luggage change at one wheel, by moments.
func (v *view) rides(n, i int, a stance.Added, list []aboard) given {
	track := v.read("survey.track"+upper(AxleNames[i/2]), "b", tape)
	share := finding.Of(q.KindRatio, "", a.RollFront, 0)
	if a.Moment != 0 {
		share.Half = a.ChangeHalf[i] * track.Value / math.Abs(a.Moment)
	}
	in := []given{v.fact("s", "front axle's share of the sideways moment, assumed as its share of the weight", share, source.CP), v.read("survey.wheelbase", "L", tape).counting(0), track.counting(0)}
	for _, it := range list {
		in = append(in, it.mass.called("m", it.name).counting(0), it.back.called("x", it.name+", behind the front axle").counting(0))
		if it.left.OK {
			in = append(in, it.left.called("y", it.name+", left of the middle").counting(0))
		}
	}
	items := make([]stance.Item, len(list))
	_, t, err := v.compute(q.KindMass, v.shop.Unit(q.KindMass), func(x []float64) (float64, error) {
		at := 3
		for k, it := range list {
			items[k] = it.item()
			items[k].Mass, items[k].Back = x[at], x[at+1]
			if at += 2; it.out {
				items[k].Mass = -x[at-2]
			}
			if it.left.OK {
				items[k].Left = x[at]
				at++
			}
		}
		b, err := stance.Add(stance.Corners{}, stance.Base{Wheelbase: x[1], FrontTrack: x[2], RearTrack: x[2], RollFront: x[0]}, items)
		return b.Change[i], err
	}, in...)
	name := CornerNames[i]
	number := finding.Number{Value: a.Change[i], Half: a.ChangeHalf[i], Kind: q.KindMass, Unit: v.shop.Unit(q.KindMass)}
	g := v.worked("Δ_{"+name+"}", name+", people and luggage ("+Cases[n]+")", number, t)
	if err != nil {
		g.from = nil
		return g
	}
	end, roll := "Σ m x ÷ L", "(1 − s)"
	if i < RL {
		end, roll = "(Σ m − Σ m x ÷ L)", "s"
	}
	sign := map[bool]string{true: " + ", false: " − "}[i%2 == 0]
	t.lead(finding.Line{Symbols: "Δ_{" + name + "} = " + end + " ÷ 2" + sign + roll + " Σ m y ÷ b", Result: number.String()})
	t.note("Their places and masses are taken as typed, without ±.")
	return g
}

// balance judges cross weight and side to side.
func (v *view) balance(pad [4]given) {
	var c stance.Corners
	for i, p := range pad {
		if !p.OK {
			return
		}
		c[i] = stance.Mass{Value: p.Value, Half: p.Half, From: stance.Read}
		if p.Mark == source.Derived {
			c[i].From = stance.Derived
		}
	}
	s, err := c.Shares()
	if err != nil {
		return
	}
	unit, _ := q.UnitOf(q.KindRatio, "%")
	share := func(x, half float64) finding.Number {
		return finding.Number{Value: x, Half: half, Kind: q.KindRatio, Unit: unit}
	}
	v.out.Weights = Weights{Known: true, Total: finding.Number{Value: s.Total, Half: s.TotalHalf, Kind: q.KindMass, Unit: v.shop.Unit(q.KindMass)},
		Cross: share(s.Cross, s.CrossHalf), Front: share(s.FrontShare, 0), Left: share(s.LeftShare, 0)}
	pads := pad
	for i := range pads {
		pads[i] = pad[i].called("W_{"+CornerNames[i]+"}", CornerNames[i]+", weight")
	}
	f := finding.Finding{ID: "weight.cross", Topic: "weights", Value: share(s.Cross, s.CrossHalf), Claim: "The weight lies square on its wheels.", Working: v.crossed(s, pads)}
	f.Judge(v.limits("weight.cross.least", "weight.cross.most")...)
	f.NotEvidence = staleOf(pad[:]...)
	f.Why = "Cross weight, FR and RL of the whole; wanted " + v.between("weight.cross.least", "weight.cross.most") + "."
	if f.Verdict == finding.Fail {
		f.Claim, f.Least = "The car stands on one diagonal.", "Level the pads, settle the car, weigh again; then look at heights and tyre pressures."
	}
	v.add(f)
	for i, name := range AxleNames {
		d, half := s.FrontSides, s.FrontSidesHalf
		if i == 1 {
			d, half = s.RearSides, s.RearSidesHalf
		}
		f := finding.Finding{ID: name + ".weights", Topic: "weights", Place: name, Value: share(d, half), Claim: "The " + name + " wheels carry alike."}
		f.Working = v.sideways(i, f.Value, pads)
		f.Judge(v.limits("weight.side.most")...)
		f.NotEvidence = staleOf(pad[2*i], pad[2*i+1])
		f.Why = fmt.Sprintf("%s %s, %s %s.", CornerNames[2*i], v.out.Corners[2*i].Weight, CornerNames[2*i+1], v.out.Corners[2*i+1].Weight)
		if f.Verdict == finding.Fail {
			f.Claim, f.Least = "One "+name+" wheel carries more than the other.", "Check driver, fuel and that the pads stand level, then weigh again."
		}
		v.add(f)
	}
}

// corners puts four weights in place of those that the shares were taken of.
func corners(of stance.Shares, x []float64) stance.Corners {
	c := of.Corners
	for i := range c {
		c[i].Value = x[i]
	}
	return c
}

func (v *view) crossed(of stance.Shares, pads [4]given) *finding.Working {
	unit, _ := q.UnitOf(q.KindRatio, "%")
	n, t, err := v.compute(q.KindRatio, unit, func(x []float64) (float64, error) {
		s, err := corners(of, x).Shares()
		return s.Cross, err
	}, pads[:]...)
	if err != nil {
		return nil
	}
	t.lead(finding.Line{Symbols: "c = {W_{FR} + W_{RL}}/{W_{FL} + W_{FR} + W_{RL} + W_{RR}}", Numbers: fmt.Sprintf("%.0f ÷ %.0f kg", of.Diagonal, of.Total), Result: n.String()})
	t.note("3 mm of pad height error move about 4 kg diagonally.")
	return t.finding()
}

// sideways is how much more the heavier wheel of an axle carries. A wheel that
// becomes the lighter one counts below nothing, so that the ± keeps its width.
func (v *view) sideways(i int, n finding.Number, pads [4]given) *finding.Working {
	heavy, light := 2*i, 2*i+1
	if pads[heavy].Value < pads[light].Value {
		heavy, light = light, heavy
	}
	_, t, err := v.compute(n.Kind, n.Unit, func(x []float64) (float64, error) { return x[0]/x[1] - 1, nil }, pads[heavy], pads[light])
	if err != nil {
		return nil
	}
	t.lead(finding.Line{Symbols: "d = {" + pads[heavy].Symbol + "}/{" + pads[light].Symbol + "} − 1", Numbers: fmt.Sprintf("%s ÷ %s − 1", pads[heavy].Number, pads[light].Number), Result: n.String()})
	return t.finding()
}

// plane judges the four ground-to-body heights: a rigid body has no freedom for
// the fourth.
func (v *view) plane() {
	var h stance.Heights
	var half float64
	var in [4]given
	for i, name := range CornerNames {
		g := v.read("corners."+name+".groundToBody", "z", tape)
		if !g.OK {
			return
		}
		h[i], half = g.Value, math.Max(half, g.Half)
		in[i] = g.called("z_{"+name+"}", name+", ground to body")
	}
	w, err := stance.FlatPlane(h, half)
	if err != nil {
		return
	}
	n := mm(math.Abs(w.Residual), w.ResidualHalf)
	f := finding.Finding{ID: "plane.residual", Topic: "weights", Value: n, Claim: "The four heights lie in one plane.", Working: v.warp(w, in)}
	f.Judge(v.limits("plane.residual.most")...)
	f.Why = fmt.Sprintf("%s and %s differ by %.0f, %s and %s by %.0f. The residual alone cannot say which corner is wrong.",
		w.First[0], w.First[1], math.Abs(pairOf(w, w.First[0]))*1000, w.Other[0], w.Other[1], math.Abs(pairOf(w, w.Other[0]))*1000)
	if f.Verdict == finding.Fail {
		f.Claim = "The four heights do not lie in one plane."
	}
	if f.Verdict != finding.Pass {
		f.Least = fmt.Sprintf("Read %s and %s again first. If it stays, suspect floor, tyre or shell.", w.First[0], w.First[1])
	}
	v.add(f)
}

func pairOf(w stance.Warp, one stance.Wheel) float64 {
	if one == stance.FL || one == stance.FR {
		return w.Fronts
	}
	return w.Rears
}

// warp is the working of the flat-plane residual: each pair was read with one
// instrument, whose ± counts once.
func (v *view) warp(w stance.Warp, in [4]given) *finding.Working {
	for i := range in {
		in[i] = in[i].counting(w.Half)
		if i%2 == 1 {
			in[i] = in[i].counting(0)
		}
	}
	sign := math.Copysign(1, w.Residual)
	n := mm(math.Abs(w.Residual), w.ResidualHalf)
	_, t, err := v.compute(n.Kind, n.Unit, func(x []float64) (float64, error) {
		r, err := stance.FlatPlane(stance.Heights(x), w.Half)
		return sign * r.Residual, err
	}, in[:]...)
	if err != nil {
		return nil
	}
	t.lead(finding.Line{Symbols: "e = |z_{FL} − z_{FR} − z_{RL} + z_{RR}|", Numbers: fmt.Sprintf("|%s − %s − %s + %s|", in[0].Number, in[1].Number, in[2].Number, in[3].Number), Result: n.String()})
	t.note("Left and right of a pair are read with one rule, whose ± counts once.")
	return t.finding()
}
