package sum

import (
	"jounce/internal/finding"
	"jounce/quantity"
	"jounce/source"
	"jounce/spring"
)

var frontFrequency = of(quantity.KindFrequency, "Hz", 0.5, 4, Input{Key: "front", Symbol: "f_{f}", Label: "Front's frequency", Where: "only for the rear: what this sum gave in front", Optional: true, Width: Width{Share: 0.03}})

var ride = Sum{
	Name: "ride", Question: "How hard does it ride, front against rear?", Group: Springs,
	Words:  []string{"frequency", "Hz", "cpm", "soft", "harsh", "pitch", "wheel rate", "comfort", "volume"},
	Source: []source.Mark{"S31", "ORTIZ", source.CP},
	Inputs: []Input{cornerWeight, unsprungMass, springRatio, springArea, lineLoad, linePressure, springVolume, springKind, springHeight, secondHeight, secondArea, barometer, frontFrequency},
	Outputs: []Output{{"f", "Ride frequency", quantity.KindFrequency}, {"k", "Rate of the spring, moving", quantity.KindStiffness},
		{"k_{w}", "The same at the wheel", quantity.KindStiffness}, {"p", "Pressure at this height", kPressure}},
	Example: map[string]string{"weight": "234 kg", "unsprung": "28 kg", "ratio": "0.62", "area": "95 cm²", "volume": "1.2 L", "kind": "sleeve", "front": "1.73 Hz"},
	Run:     runRide,
}

var springRate = Sum{
	Name: "spring-rate", Question: "How stiff is this air spring?", Group: Springs,
	Words:   []string{"rate", "stiffness", "N/mm", "lb/in", "spring rate", "dynamic", "static", "volume"},
	Source:  []source.Mark{"S31", "FS"},
	Inputs:  []Input{gauge("pressure", "p", "Pressure in the spring", "gauge on its line"), springArea, lineLoad, linePressure, springVolume, springKind, springHeight, secondHeight, secondArea, barometer},
	Outputs: []Output{{"k", "Rate, moving", quantity.KindStiffness}, {"k", "Rate, settling slowly", quantity.KindStiffness}},
	Example: map[string]string{"pressure": "3.5 bar", "area": "70 cm²", "volume": "1.0 L", "kind": "sleeve"},
	Run:     runSpringRate,
}

// shaped is a spring with its volume and, where given, a second height. The
// terms are those of line, the volume, and second height and area; build makes
// the spring and the height it stands at.
func (a *Args) shaped() (terms []Given, build func(x []float64) (*spring.Spring, float64, error), err error) {
	terms, _, err = a.line()
	if err != nil {
		return nil, nil, err
	}
	kind, byArea, two, nominal := spring.Sleeve, len(terms) == 1, a.Has("area2"), terms[0].Value
	if a.Text("kind") == "bellows" {
		kind = spring.Bellows
	}
	terms = append(terms, a.Get("volume"))
	if two {
		if !a.Has("height") || !a.Has("height2") {
			return nil, nil, a.refuse("height2", "the area at a second height counts only with both heights: height= and height2=.")
		}
		second := a.Get("area2")
		second.Half = 0 // moves with the first
		terms = append(terms, a.Get("height"), a.Get("height2"), second)
	}
	return terms, func(x []float64) (*spring.Spring, float64, error) {
		d := spring.Data{Kind: kind}
		p, load, rest := 1e5, x[0]*1e5, x[1:]
		if !byArea {
			p, load, rest = x[1], x[0], x[2:]
		}
		h := anyHeight
		if two {
			h = rest[1]
			second := rest[3] * x[0] / nominal // what is wrong with a maker's line is wrong with both
			d.Points = append(d.Points, spring.Point{Pressure: quantity.GaugePressure(p), Height: rest[2], Load: second * p})
		}
		d.Points = append(d.Points, spring.Point{Pressure: quantity.GaugePressure(p), Height: h, Load: load})
		d.Volumes = []spring.VolumePoint{{Height: h, Volume: rest[0]}}
		s, err := spring.New(d)
		return s, h, err
	}, nil
}

func runSpringRate(a *Args) (Answer, error) {
	shape, build, err := a.shaped()
	if err != nil {
		return Answer{}, err
	}
	terms := append(a.all("pressure", "barometer"), shape...)
	rate := func(x []float64, n float64) (spring.Rate, error) {
		s, h, err := build(x[2:])
		if err != nil {
			return spring.Rate{}, err
		}
		return s.Rate(quantity.GaugePressure(x[0]), h, n, quantity.AbsPressure(x[1]))
	}
	r, err := rate(values(terms), spring.Moving)
	if err != nil {
		return Answer{}, err
	}
	terms = append(terms, slopeDoubt(r))
	of := func(n float64) (finding.Number, *finding.Working, error) {
		return a.work(quantity.KindStiffness, unit(quantity.KindStiffness, "N/mm"), func(x []float64) (float64, error) {
			r, err := rate(x[:len(x)-1], n)
			return r.Value + x[len(x)-1], err
		}, terms...)
	}
	k, w, err := of(spring.Moving)
	if err != nil {
		return Answer{}, err
	}
	slow, _, err := of(spring.Slow)
	if err != nil {
		return Answer{}, err
	}
	rateWorking(w, r, k)
	var out Answer
	out.head("", k, w)
	out.out("k", "Rate, moving", k)
	out.out("k", "Rate, settling slowly", slow)
	out.say("Along the spring. At the wheel it is that times the square of the spring's ratio.")
	return out, nil
}

// slopeDoubt is the engine's doubt of how the area changes with the height, as
// an input of its own: it is no doubt of anything typed.
func slopeDoubt(r spring.Rate) Given {
	return fact("", "Area's change with height, give or take", at(quantity.KindStiffness, "N/mm", 0, r.AreaTermHalf), source.Calc)
}

// rateWorking writes how a spring's rate came about.
func rateWorking(w *finding.Working, r spring.Rate, k finding.Number) {
	n := in(kRatio, "", r.Exponent, 2)
	formula(w, "k = {n p_{abs} A^{2}}/{V} − p {dA}/{dh}",
		"{"+n+" × "+in(kAbs, "bar a", float64(r.Absolute), 2)+" × "+in(kArea, "cm²", r.Area.Value, 1)+"^{2}}/{"+in(kVolume, "L", r.Volume.Value, 2)+"}", k.String())
	stiff := unit(quantity.KindStiffness, "N/mm")
	step(w, "", "From the air being squeezed", finding.Number{Value: r.AirTerm, Kind: stiff.Kind(), Unit: stiff}, source.Calc)
	step(w, "", "From the area growing as it shortens", finding.Number{Value: r.AreaTerm, Half: r.AreaTermHalf, Kind: stiff.Kind(), Unit: stiff}, source.Calc)
	if r.Plateau {
		note(w, "One height only, a sleeve: the area is taken as constant (common practice).")
	}
	note(w, "n is %s moving, 1 settling (S31). The rubber's own stiffness is left out: the rate errs low by a few per cent.", n)
}

func runRide(a *Args) (Answer, error) {
	shape, build, err := a.shaped()
	if err != nil {
		return Answer{}, err
	}
	terms := append(a.all("weight", "unsprung", "ratio", "barometer"), shape...)
	rides := func(x []float64) (spring.Ride, error) {
		s, h, err := build(x[4:])
		if err != nil {
			return spring.Ride{}, err
		}
		return s.Ride(spring.Corner{Mass: x[0], Unsprung: x[1], Ratio: x[2]}, h, spring.Moving, quantity.AbsPressure(x[3]))
	}
	r, err := rides(values(terms))
	if err != nil {
		return Answer{}, err
	}
	terms = append(terms, slopeDoubt(r.Rate))
	f, w, err := a.work(quantity.KindFrequency, unit(quantity.KindFrequency, "Hz"), func(x []float64) (float64, error) {
		r, err := rides(x[:len(x)-1])
		return spring.Frequency(spring.WheelRate(r.Rate.Value+x[len(x)-1], x[2]), r.Load.Sprung), err
	}, terms...)
	if err != nil {
		return Answer{}, err
	}
	k := at(quantity.KindStiffness, "N/mm", r.Rate.Value, 0)
	rateWorking(w, r.Rate, k)
	formula(w, "k_{w} = k r^{2}", k.String()+" × "+num(terms[2], 2)+"^{2}", at(quantity.KindStiffness, "N/mm", r.Wheel, 0).String())
	formula(w, "f = {1}/{2π} √({k_{w}}/{W − U})", "", f.String())
	var out Answer
	out.head("", f, w)
	out.out("f", "Ride frequency", f)
	out.out("k", "Rate of the spring, moving", k)
	out.out("k_{w}", "The same at the wheel", at(quantity.KindStiffness, "N/mm", r.Wheel, 0))
	out.out("p", "Pressure at this height", finding.Number{Value: float64(r.Need.Value), Half: 0, Kind: kPressure, Unit: a.unit(kPressure)})
	out.judge(f, a.shop.Limit("ride.frequency.least"), a.shop.Limit("ride.frequency.most"))
	if front := a.Get("front"); front.OK {
		over := against(f, front.Number)
		out.out("", "Rear above the front", over)
		out.judge(over, a.shop.Limit("ride.rear.least"), a.shop.Limit("ride.rear.most"))
		out.say("The rear is %s against the front; wanted is %s to %s.", over, a.shop.Limit("ride.rear.least").Text(), a.shop.Limit("ride.rear.most").Text())
	}
	out.say("More pressure does not change it: the weight sets the pressure. Volume, area profile and ratio do.")
	return out, nil
}

// against is how much one number lies above another, with both doubts [1].
func against(n, than finding.Number) finding.Number {
	q := n.Value / than.Value
	half := q * quadrature(n.Half/n.Value, than.Half/than.Value)
	return at(kRatio, "%", q-1, half)
}
