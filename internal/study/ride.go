package study

import (
	"fmt"
	"math"

	"jounce/internal/finding"
	"jounce/num/doubt"
	q "jounce/quantity"
	"jounce/source"
	"jounce/spring"
)

// ride works out rate, wheel rate and frequency.
func (v *view) ride(k int, a *air) {
	c := &v.out.Corners[k]
	if !a.volume.OK && len(a.rec.Volumes) == 0 {
		return
	}
	corner := spring.Corner{Mass: c.Sprung.Value, MassHalf: c.Sprung.Half, Ratio: a.ratio.Value, RatioShare: a.ratio.Half / a.ratio.Value}
	r, err := a.part.Ride(corner, a.height.Value, spring.Moving, q.StandardAtmosphere)
	if err != nil {
		return
	}
	c.Rate = finding.Of(q.KindStiffness, "N/mm", r.Rate.Value, r.Rate.Half)
	c.Wheel = finding.Of(q.KindStiffness, "N/mm", r.Wheel, r.WheelHalf)
	c.Ride = finding.Of(q.KindFrequency, "Hz", r.Frequency, r.FrequencyHalf)
	v.how.ride[k] = v.rideTrail(k, a, r)
}

// rideTrail is the working of a corner's frequency, from what the engine found
// that each input does to it.
func (v *view) rideTrail(k int, a *air, r spring.Ride) *trail {
	c := &v.out.Corners[k]
	volume := a.volume
	if len(a.rec.Volumes) > 0 || !volume.OK { // the maker's, at the height of ROAD
		volume = v.fact("V", "", finding.Of(q.KindVolume, "L", r.Rate.Volume.Value, r.Rate.Volume.Half), source.Maker)
		if len(a.rec.Volumes) > 0 {
			volume.Path = "springs[" + a.rec.ID + "].volumes[" + a.rec.Volumes[0].ID + "].volume"
		}
	}
	slope := v.fact("k_{A}", a.name+" spring, change of area with height", finding.Of(q.KindStiffness, "N/mm", r.Rate.AreaTerm, r.Rate.AreaTermHalf), source.Maker)
	in := map[string]given{"corner weight": v.sprungMass(k), "spring ratio": a.ratio,
		"area": v.area(a, r.Rate.Area), "volume": volume.called("V", a.name+" spring, air at ROAD"), "area term": slope}
	var list []given
	var d doubt.Result
	for _, e := range r.Effects {
		if g, ok := in[e.Input]; ok { // the unsprung mass is off already
			list = append(list, g)
			d.Effects, d.Shares, d.PlusFive = append(d.Effects, e.ByDoubt), append(d.Shares, e.Share), append(d.PlusFive, e.PlusFive)
		}
	}
	t := v.engine(c.Ride, d, list...)
	form := "{n p_{abs} A^{2}}/{V}"
	if r.Rate.Form == spring.FormVolume {
		form = "{n p_{abs} A}/{V} {dV}/{dh}"
	}
	p := c.Pressure[1]
	p.Value, p.Half = float64(r.Rate.Gauge), 0
	t.lead(
		finding.Line{Symbols: "k = " + form + " + k_{A},  k_{A} = −p {dA}/{dh}", Numbers: fmt.Sprintf("%s + %s", finding.Show(q.KindStiffness, "N/mm", r.Rate.AirTerm, 1), finding.Show(q.KindStiffness, "N/mm", r.Rate.AreaTerm, 1)), Result: c.Rate.String()},
		finding.Line{Symbols: "k_{w} = k r^{2}", Numbers: fmt.Sprintf("%s × %s^{2}", c.Rate, plainNumber(a.ratio.Number)), Result: c.Wheel.String()},
		finding.Line{Symbols: "f_{" + c.Name + "} = {1}/{2π} √(k_{w} ÷ m_{" + c.Name + "})", Numbers: fmt.Sprintf("{1}/{2π} √(%s ÷ %s)", c.Wheel, c.Sprung), Result: c.Ride.String()})
	t.step(finding.Term{Symbol: "p", Name: c.Name + ", pressure as weighed", Value: p, Mark: source.Derived})
	t.step(finding.Term{Symbol: "k", Name: c.Name + ", spring rate, moving", Value: c.Rate, Mark: source.Derived})
	t.also(finding.Term{Symbol: "n", Name: "quick movement", Value: finding.Of(q.KindRatio, "", spring.Moving, 0), Mark: "S31"})
	t.note("The tyre would lower the figure by 3 to 7 %; the rubber's own stiffness is left out.")
	return t
}

// frequencies judges each axle's ride and the rear against the front.
func (v *view) frequencies(set [2]*air) {
	var n [2]finding.Number
	for i := range AxleNames {
		if !v.works(i) {
			n[i] = v.steelRide(i)
			continue
		}
		a, b := v.out.Corners[2*i].Ride, v.out.Corners[2*i+1].Ride
		if !a.Known() || !b.Known() {
			if v.out.Corners[2*i].Pressure[1].Known() && set[i] != nil {
				v.unknown(AxleNames[i]+".ride", "springs", "How hard the "+AxleNames[i]+" rides.", finding.OwnerSigns, AxleNames[i], gaps("gives rate and frequency", set[i].volume))
			}
			continue
		}
		n[i] = a
		n[i].Value = (a.Value + b.Value) / 2
		v.frequency(i, n[i])
		v.sides(i, a, b)
	}
	if n[0].Known() && n[1].Known() {
		v.frontRear(n)
	}
}

// steelRide is the ride of an axle that keeps its steel springs.
func (v *view) steelRide(i int) finding.Number {
	axle := v.axle(i)
	if axle.Springing != "steel" || v.out.Axles[i].Refusal != "" {
		return finding.Number{}
	}
	k, r := v.read("axles."+AxleNames[i]+".steelRate", "k", width{rel: 0.03}), v.read("axles."+AxleNames[i]+".springRatio", "r", ratio)
	a, b := v.out.Corners[2*i].Sprung, v.out.Corners[2*i+1].Sprung
	if !k.OK || !r.OK || !a.Known() || !b.Known() {
		return finding.Number{}
	}
	hertz, _ := q.UnitOf(q.KindFrequency, "Hz")
	mass := finding.Number{Value: (a.Value + b.Value) / 2, Half: a.Half, Kind: a.Kind, Unit: a.Unit}
	n, w, err := v.compute(q.KindFrequency, hertz, func(x []float64) (float64, error) {
		return spring.Frequency(spring.WheelRate(x[1], x[2]), x[0]), nil
	}, v.worked("m", AxleNames[i]+", sprung mass, mean of left and right", mass, v.meanMass(i, mass)), k, r)
	if err != nil {
		return finding.Number{}
	}
	w.lead(finding.Line{Symbols: "f_{" + AxleNames[i] + "} = {1}/{2π} √(k r^{2} ÷ m)", Numbers: fmt.Sprintf("{1}/{2π} √(%s × %s^{2} ÷ %s)", k.Number, plainNumber(r.Number), mass), Result: n.String()})
	v.how.frequency[i] = w
	f := finding.Finding{ID: AxleNames[i] + ".ride", Topic: "springs", Place: AxleNames[i], Value: n, Working: w.finding(), Claim: "The " + AxleNames[i] + ", on steel, rides between firm and soft."}
	f.Judge(v.limits("ride.frequency.least", "ride.frequency.most")...)
	f.Why = "Steel springs kept; wanted " + v.between("ride.frequency.least", "ride.frequency.most") + "."
	if f.Verdict == finding.Fail {
		f.Claim, f.Least = "The "+AxleNames[i]+", on steel, rides outside what is wanted.", "Another steel spring, or air."
	}
	v.add(f)
	return n
}

// meanMass is the mean of what an axle's springs carry; the ± is that of the
// left, which the two have in common but for the pads.
func (v *view) meanMass(i int, mass finding.Number) *trail {
	l, r := v.sprungMass(2*i), v.sprungMass(2*i+1)
	_, t, err := v.compute(mass.Kind, mass.Unit, func(x []float64) (float64, error) { return (x[0] + x[1]) / 2, nil }, l.counting(2*l.Half), r.counting(0))
	if err != nil {
		return nil
	}
	t.lead(finding.Line{Symbols: "m = (" + l.Symbol + " + " + r.Symbol + ") ÷ 2", Numbers: fmt.Sprintf("(%s + %s) ÷ 2", l.Number, r.Number), Result: mass.String()})
	t.note("The ± of the left stands for both sides.")
	return t
}

func (v *view) sprungMass(k int) given {
	return v.worked("m_{"+CornerNames[k]+"}", CornerNames[k]+", sprung mass", v.out.Corners[k].Sprung, v.how.sprung[k])
}

func (v *view) rideOf(k int) given {
	return v.worked("f_{"+CornerNames[k]+"}", CornerNames[k]+", ride frequency", v.out.Corners[k].Ride, v.how.ride[k])
}

func (v *view) frequency(i int, n finding.Number) {
	c := v.out.Corners[2*i]
	f := finding.Finding{ID: AxleNames[i] + ".ride", Topic: "springs", Place: AxleNames[i], Value: n, Claim: "The " + AxleNames[i] + " rides between firm and soft."}
	f.Judge(v.limits("ride.frequency.least", "ride.frequency.most")...)
	f.Why = fmt.Sprintf("%s at the spring, %s at the wheel; wanted %s.", c.Rate, c.Wheel, v.between("ride.frequency.least", "ride.frequency.most"))
	l, r := v.rideOf(2*i), v.rideOf(2*i+1)
	if _, t, err := v.compute(n.Kind, n.Unit, func(x []float64) (float64, error) { return (x[0] + x[1]) / 2, nil }, l.counting(2*l.Half), r.counting(0)); err == nil {
		t.lead(finding.Line{Symbols: "f_{" + AxleNames[i] + "} = (" + l.Symbol + " + " + r.Symbol + ") ÷ 2", Numbers: fmt.Sprintf("(%s + %s) ÷ 2", l.Number, r.Number), Result: n.String()})
		t.note("Left and right share spring and ratio: the ± of the left stands for both.")
		v.how.frequency[i], f.Working = t, t.finding()
	}
	if f.Verdict == finding.Fail {
		if n.Value > 1.5 {
			f.Claim = "The " + AxleNames[i] + " rides hard."
			f.Least = "More air volume, in the spring or beside it."
		} else {
			f.Claim = "The " + AxleNames[i] + " rides soft."
			f.Least = "Less air volume, or a steeper piston."
		}
	}
	v.add(f)
}

func (v *view) sides(i int, a, b finding.Number) {
	unit, _ := q.UnitOf(q.KindRatio, "%")
	d := math.Abs(a.Value-b.Value) / ((a.Value + b.Value) / 2)
	// Both sides share spring data and ratio, so their doubts cancel but for
	// what the pads add.
	f := finding.Finding{ID: AxleNames[i] + ".sides", Topic: "springs", Place: AxleNames[i], Value: finding.Number{Value: d, Kind: q.KindRatio, Unit: unit},
		Claim: "Left and right ride alike at the " + AxleNames[i] + "."}
	l, r := v.rideOf(2*i).counting(0), v.rideOf(2*i+1).counting(0)
	if _, t, err := v.compute(q.KindRatio, unit, func(x []float64) (float64, error) { return math.Abs(x[0]-x[1]) / ((x[0] + x[1]) / 2), nil }, l, r); err == nil {
		t.lead(finding.Line{Symbols: "d = |" + l.Symbol + " − " + r.Symbol + "| ÷ their mean", Numbers: fmt.Sprintf("|%s − %s| ÷ %s", l.Number, r.Number, finding.Show(q.KindFrequency, "Hz", (a.Value+b.Value)/2, 2)), Result: f.Value.String()})
		t.note("Both sides share spring data and ratio: their doubts cancel but for what the pads add, and none is counted.")
		f.Working = t.finding()
	}
	f.Judge(v.limits("ride.side.most")...)
	if f.Verdict == finding.Fail {
		f.Claim = "Left and right ride differently at the " + AxleNames[i] + "."
		f.Least = "Bring the corner weights nearer each other."
	}
	v.add(f)
}

// frontRear judges the rear's frequency against the front's. Where the two
// rules cannot both be met it shows both ranges and names what to change first.
func (v *view) frontRear(n [2]finding.Number) {
	unit, _ := q.UnitOf(q.KindRatio, "%")
	front, rear := v.worked("f_{front}", "front frequency", n[0], v.how.frequency[0]), v.worked("f_{rear}", "rear frequency", n[1], v.how.frequency[1])
	d, w, err := v.compute(q.KindRatio, unit, func(x []float64) (float64, error) { return x[1]/x[0] - 1, nil }, front, rear)
	if err != nil {
		return
	}
	w.lead(finding.Line{Symbols: "d = {f_{rear}}/{f_{front}} − 1", Numbers: fmt.Sprintf("%s ÷ %s − 1", n[1], n[0]), Result: d.String()})
	f := finding.Finding{ID: "ride.rear", Topic: "springs", Place: "rear", Value: d, Working: w.finding(), Claim: "The rear is a little stiffer than the front: it rides flat."}
	least, most, cap := v.limit("ride.rear.least"), v.limit("ride.rear.most"), v.limit("ride.frequency.most")
	f.Judge(least, most)
	lo, hi := n[0].Value*(1+least.Value), n[0].Value*(1+most.Value)
	f.Why = fmt.Sprintf("%s against %s; wanted %.2f to %.2f Hz behind, %s above the front.", n[1], n[0], lo, hi, v.between("ride.rear.least", "ride.rear.most"))
	if f.Verdict == finding.Fail || f.Verdict == finding.TooClose {
		if d.Value < least.Value {
			f.Claim = fmt.Sprintf("The rear is %.0f %% softer than the front: it will pitch.", -100*d.Value)
			if d.Value >= 0 {
				f.Claim = "The rear is hardly stiffer than the front: it may pitch."
			}
			f.Least = "Less air volume behind or a steeper piston there, or more air volume in front. Pressure is set by weight and does not change this."
		} else {
			f.Claim = "The rear is much stiffer than the front."
			f.Least = "More air volume behind, or less in front."
		}
		if lo > cap.Value {
			f.Why += fmt.Sprintf(" But %s is the most for any axle: the two rules cannot both be met.", cap.Text())
			f.Least = fmt.Sprintf("First soften the front to %.2f Hz or less with more air volume there, then take volume away behind.", cap.Value/(1+least.Value))
		}
	}
	v.add(f)
}
