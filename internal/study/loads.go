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
	out, in := []stance.Item{driver}, []stance.Item{driver}
	out[0].Mass = -out[0].Mass
	if s.Driver == "in" {
		v.load(0, out)
		v.load(2, others)
	} else {
		v.load(1, in)
		v.load(2, append(in, others...))
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

// items are the driver, and everybody and everything else. A seat with no mass
// typed holds 75 kg, the driver's 80 (settled).
func (v *view) items() (driver stance.Item, others []stance.Item) {
	for _, seat := range v.rec.Loads.Seats {
		at := "loads.seats[" + seat.ID + "]"
		it := stance.Item{Name: seat.Name, Mass: 75, Back: v.read(at+".x", "x", tape).Value, Left: v.read(at+".y", "y", tape).Value}
		if m := v.read(at+".mass", "m", exact); m.OK {
			it.Mass = m.Value
		} else if seat.ID == "driver" {
			it.Mass = 80
		}
		if seat.ID != "driver" {
			others = append(others, it)
			continue
		}
		if m := v.read("survey.driverMass", "m", exact); m.OK {
			it.Mass = m.Value
		}
		driver = it
	}
	luggage := stance.Item{Name: "luggage", Mass: 50, Back: v.read("loads.luggageX", "x", tape).Value} // settled
	if m := v.read("loads.luggage", "m", exact); m.OK {
		luggage.Mass = m.Value
	}
	others = append(others, luggage)
	if m, x := v.read("loads.addedMass", "m", exact), v.read("loads.addedX", "x", tape); m.OK && x.OK {
		others = append(others, stance.Item{Name: "air supply", Mass: m.Value, Back: x.Value})
	}
	return driver, others
}

// load sets one case from the weights as they are and what is added to them.
func (v *view) load(n int, items []stance.Item) {
	base, _ := v.base()
	var before stance.Corners
	for i := range before {
		if w := v.out.Corners[i].Weight; w.Known() {
			before[i] = stance.Mass{Value: w.Value, Half: w.Half, From: stance.Read}
		}
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
		if !c.Sprung.Known() {
			continue
		}
		c.Case[n] = c.Sprung
		c.Case[n].Value += a.Change[i]
		c.Case[n].Half = hypot(c.Sprung.Half, a.ChangeHalf[i])
	}
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
	f := finding.Finding{ID: "weight.cross", Topic: "weights", Value: share(s.Cross, s.CrossHalf), Claim: "The weight lies square on its wheels.",
		Working: &finding.Working{Lines: []finding.Line{{Symbols: "c = {FR + RL}/{W}", Numbers: fmt.Sprintf("%.0f ÷ %.0f kg", s.Diagonal, s.Total), Result: share(s.Cross, s.CrossHalf).String()}}, Doubt: "linear", Notes: []string{"3 mm of pad height error move about 4 kg diagonally."}}}
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
		f.Judge(v.limits("weight.side.most")...)
		f.NotEvidence = staleOf(pad[2*i], pad[2*i+1])
		f.Why = fmt.Sprintf("%s %s, %s %s.", CornerNames[2*i], v.out.Corners[2*i].Weight, CornerNames[2*i+1], v.out.Corners[2*i+1].Weight)
		if f.Verdict == finding.Fail {
			f.Claim, f.Least = "One "+name+" wheel carries more than the other.", "Check driver, fuel and that the pads stand level, then weigh again."
		}
		v.add(f)
	}
}

// plane judges the four ground-to-body heights: a rigid body has no freedom for
// the fourth.
func (v *view) plane() {
	var h stance.Heights
	var half float64
	for i, name := range CornerNames {
		g := v.read("corners."+name+".groundToBody", "z", tape)
		if !g.OK {
			return
		}
		h[i], half = g.Value, math.Max(half, g.Half)
	}
	w, err := stance.FlatPlane(h, half)
	if err != nil {
		return
	}
	n := mm(math.Abs(w.Residual), w.ResidualHalf)
	f := finding.Finding{ID: "plane.residual", Topic: "weights", Value: n, Claim: "The four heights lie in one plane.",
		Working: &finding.Working{Lines: []finding.Line{{Symbols: "e = FL − FR − RL + RR", Numbers: fmt.Sprintf("%.0f − %.0f − %.0f + %.0f", h[0]*1000, h[1]*1000, h[2]*1000, h[3]*1000), Result: mm(w.Residual, w.ResidualHalf).String()}}, Doubt: "linear"}}
	f.Judge(v.limits("plane.residual.most")...)
	f.Why = fmt.Sprintf("%s and %s differ by %.0f, %s and %s by %.0f. The residual alone cannot say which corner is wrong.",
		w.First[0], w.First[1], math.Abs(pairOf(w, w.First[0]))*1000, w.Other[0], w.Other[1], math.Abs(pairOf(w, w.Other[0]))*1000)
	if f.Verdict != finding.Pass {
		f.Claim = "The four heights do not lie in one plane."
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
