package sum

import (
	"math"

	"jounce/internal/finding"
	"jounce/quantity"
	"jounce/source"
	"jounce/stance"
)

func carried(key, label, where string) Input {
	return of(kMass, "kg", 0, 2000, Input{Key: key, Label: label, Where: where, Optional: true, Width: Width{Share: 0.05}})
}

func placed(key, label string) Input {
	return of(kLength, "m", -2, 8, Input{Key: key, Label: label, Where: "tape along the floor from the front axle; minus is ahead of it", Optional: true, Width: Width{Fixed: 0.05}})
}

func axle(key, symbol, label, where string) Input {
	return of(kMass, "kg", 40, 5000, Input{Key: key, Symbol: symbol, Label: label, Where: where, Optional: true, Width: Width{Fixed: 10}})
}

func plate(key, label string) Input {
	return of(kMass, "kg", 40, 5000, Input{Key: key, Label: label, Where: "the car's plate", Optional: true})
}

var people = Sum{
	Name: "people", Question: "What do four people and the boot do to it?", Group: Springs,
	Words:  []string{"passengers", "luggage", "laden", "axle load", "moments", "plate", "overload", "seats", "kg", "lb", "st"},
	Source: []source.Mark{"G2", source.Calc},
	Inputs: []Input{
		of(kLength, "mm", 1200, 5000, Input{Key: "wheelbase", Symbol: "L", Label: "Wheelbase", Where: "hub to hub", Width: tape}),
		carried("front", "On the front seats", "bathroom scales, or 75 kg each and 80 the driver"), placed("front-place", "Front seats behind the front axle"),
		carried("rear", "On the rear seats", "75 kg each"), placed("rear-place", "Rear seats behind the front axle"),
		carried("luggage", "In the boot", "50 kg is usual"), placed("luggage-place", "Boot behind the front axle"),
		axle("front-axle", "W_{f}", "Front axle before", "scales, without these people"), axle("rear-axle", "W_{r}", "Rear axle before", "scales, without these people"),
		plate("front-plate", "Front axle may carry"), plate("rear-plate", "Rear axle may carry"),
	},
	Outputs: []Output{{"", "Comes onto the rear axle", kMass}, {"", "Comes onto the front axle", kMass}, {"", "Rear axle then", kMass}, {"", "Front axle then", kMass}},
	Example: map[string]string{"wheelbase": "2540 mm", "front": "155 kg", "front-place": "1.25 m", "rear": "150 kg", "rear-place": "2.1 m", "luggage": "50 kg", "luggage-place": "3.1 m",
		"front-axle": "480 kg", "rear-axle": "430 kg", "rear-plate": "760 kg"},
	Run: runPeople,
}

func runPeople(a *Args) (Answer, error) {
	keys, any := []string{"wheelbase"}, false
	for _, k := range []string{"front", "rear", "luggage"} {
		if !a.Has(k) {
			continue
		}
		if !a.Has(k + "-place") {
			return Answer{}, a.refuse(k+"-place", "not given. A mass without its place says nothing.")
		}
		keys, any = append(keys, k, k+"-place"), true
	}
	if !any {
		return Answer{}, a.refuse("front", "nobody is aboard. Give front=, rear= or luggage= with its place.")
	}
	terms, v := a.places(append(keys, "front-axle", "rear-axle")...)
	aboard := terms[:len(keys)]
	load := func(x []float64) (stance.Added, error) {
		var items []stance.Item
		for _, k := range []string{"front", "rear", "luggage"} {
			if a.Has(k) {
				items = append(items, stance.Item{Name: k, Mass: v(x, k), Back: v(x, k+"-place")})
			}
		}
		return stance.Add(stance.Corners{}, stance.Base{Wheelbase: v(x, "wheelbase")}, items)
	}
	of := func(get func(s stance.Added, x []float64) float64, terms []Given) (finding.Number, *finding.Working, error) {
		return a.work(kMass, a.unit(kMass), func(x []float64) (float64, error) {
			s, err := load(x)
			return get(s, x), err
		}, terms...)
	}
	rear, w, err := of(func(s stance.Added, _ []float64) float64 { return s.RearChange }, aboard)
	if err != nil {
		return Answer{}, err
	}
	front, _, err := of(func(s stance.Added, _ []float64) float64 { return s.FrontChange }, aboard)
	if err != nil {
		return Answer{}, err
	}
	formula(w, "rear = {Σ m x}/{L}", "", rear.String())
	formula(w, "front = Σ m − rear", "", front.String())
	note(w, "By moments about the front axle, the heights held. Sideways is left out: half of each goes to each wheel where people sit on both sides.")
	var out Answer
	out.head("rear axle", rear, w)
	out.out("", "Comes onto the rear axle", rear)
	out.out("", "Comes onto the front axle", front)
	out.say("%s onto the front axle, %s onto the rear, half of it each wheel.", front, rear)
	for _, side := range []struct {
		before, plate, name string
		get                 func(s stance.Added) float64
	}{{"rear-axle", "rear-plate", "Rear axle then", func(s stance.Added) float64 { return s.RearChange }},
		{"front-axle", "front-plate", "Front axle then", func(s stance.Added) float64 { return s.FrontChange }}} {
		if !a.Has(side.before) {
			continue
		}
		n, _, err := of(func(s stance.Added, x []float64) float64 { return v(x, side.before) + side.get(s) }, terms)
		if err != nil {
			return Answer{}, err
		}
		out.out("", side.name, n)
		if p := a.Get(side.plate); p.OK {
			out.judge(n, finding.Limit{Key: "axle.plate." + side.plate, Name: side.name + ", the car's plate", Kind: kMass, Value: p.Value, Unit: a.unit(kMass), Grade: finding.Stops, Source: source.Maker})
		}
	}
	return out, nil
}

func floorHeight(key, symbol, label string) Input {
	return of(kLength, "mm", 20, 2000, Input{Key: key, Symbol: symbol, Label: label, Where: "floor to the same mark of the body, left and right at mirrored places", Width: tape})
}

var flatPlane = Sum{
	Name: "flat-plane", Question: "Is the body flat, or is a height wrong?", Group: Measuring,
	Words:   []string{"warp", "twist", "four heights", "ground to body", "floor", "cross", "residual", "mm", "in"},
	Source:  []source.Mark{source.Calc, source.CP},
	Inputs:  []Input{floorHeight("fl", "FL", "Left front"), floorHeight("fr", "FR", "Right front"), floorHeight("rl", "RL", "Left rear"), floorHeight("rr", "RR", "Right rear")},
	Outputs: []Output{{"", "Off the plane", kLength}},
	Example: map[string]string{"fl": "640 mm", "fr": "641 mm", "rl": "632 mm", "rr": "645 mm"},
	Run:     runFlatPlane,
}

func runFlatPlane(a *Args) (Answer, error) {
	terms := a.all(wheelKeys[:]...)
	once(&terms[1], &terms[0])
	once(&terms[3], &terms[2])
	flat := func(x []float64) (stance.Warp, error) {
		return stance.FlatPlane(stance.Heights{x[0], x[1], x[2], x[3]}, 0)
	}
	mm := a.unit(kLength)
	n, w, err := a.work(kLength, mm, func(x []float64) (float64, error) {
		f, err := flat(x)
		return f.Residual, err
	}, terms...)
	if err != nil {
		return Answer{}, err
	}
	f, err := flat(values(terms))
	if err != nil {
		return Answer{}, err
	}
	formula(w, "FL − FR − RL + RR", num(terms[0], 0)+" − "+num(terms[1], 0)+" − "+num(terms[2], 0)+" + "+num(terms[3], 0), n.String())
	note(w, "One tape: each pair, subtracted, carries its ± once. Pitch and roll do not enter.")
	size := n
	size.Value = math.Abs(size.Value)
	var out Answer
	out.head("off the plane by", size, w)
	out.out("", "Off the plane, with its sign", n)
	out.out("", "Left front less right front", finding.Number{Value: f.Fronts, Kind: kLength, Unit: mm})
	out.out("", "Left rear less right rear", finding.Number{Value: f.Rears, Kind: kLength, Unit: mm})
	out.judge(size, a.shop.Limit("plane.residual.most"))
	if *out.Verdict == finding.Pass {
		return out, nil
	}
	one, other := math.Abs(f.Rears), math.Abs(f.Fronts)
	if f.First[0] == stance.FL {
		one, other = other, one
	}
	out.Least = ""
	out.say("Measure %s and %s again first: they differ by %s, the others by %s. If it stays, suspect floor, tyre or shell; the figure alone cannot say which corner is wrong.",
		f.First[0], f.First[1], quantity.Format(kLength, one, mm, -1), quantity.Format(kLength, other, mm, -1))
	return out, nil
}
