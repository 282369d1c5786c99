package sum

import (
	"jounce/internal/finding"
	"jounce/quantity"
	"jounce/source"
	"jounce/stance"
)

func pad(key, symbol, label string) Input {
	return of(kMass, "kg", 20, 1500, Input{Key: key, Symbol: symbol, Label: label, Where: "corner scales, level, the car rolled and settled", Optional: true, Width: pads})
}

var corners = Sum{
	Name: "corners", Question: "Does it stand straight on its four wheels?", Group: Springs,
	Words:  []string{"corner weights", "cross weight", "wedge", "diagonal", "scales", "percent", "side to side", "weighbridge", "kg", "lb"},
	Source: []source.Mark{source.Calc, source.CP},
	Inputs: []Input{
		pad("fl", "FL", "Left front"), pad("fr", "FR", "Right front"), pad("rl", "RL", "Left rear"), pad("rr", "RR", "Right rear"),
		of(kMass, "kg", 100, 5000, Input{Key: "total", Symbol: "W", Label: "Whole car", Where: "weighbridge ticket; with one corner missing it gives that corner", Optional: true, Width: Width{Fixed: 10}}),
	},
	Outputs: []Output{{"", "Cross weight, FR and RL of all", kRatio}, {"", "On the front axle", kRatio}, {"", "On the left", kRatio}, {"", "Whole car", kMass}},
	Example: map[string]string{"fl": "276 kg", "fr": "276 kg", "rl": "234 kg", "rr": "234 kg", "total": "1020 kg"},
	Run:     runCorners,
}

var wheelKeys = [4]string{"fl", "fr", "rl", "rr"}

func runCorners(a *Args) (Answer, error) {
	read := 0
	for _, k := range wheelKeys {
		if a.Has(k) {
			read++
		}
	}
	keys := append([]string(nil), wheelKeys[:]...)
	if read < 4 {
		keys = append(keys, "total")
	}
	terms, v := a.places(keys...)
	weigh := func(x []float64) (stance.Shares, error) {
		var c stance.Corners
		for i, k := range wheelKeys {
			if a.Has(k) {
				c[i] = stance.Mass{Value: v(x, k), Half: a.Get(k).Half, From: stance.Read}
			}
		}
		if read < 4 {
			var err error
			if c, err = c.Derive(v(x, "total"), a.Get("total").Half); err != nil {
				return stance.Shares{}, err
			}
		}
		return c.Shares()
	}
	s, err := weigh(values(terms))
	if err != nil {
		return Answer{}, err
	}
	of := func(u quantity.Unit, get func(s stance.Shares) float64) (finding.Number, *finding.Working, error) {
		return a.work(u.Kind(), u, func(x []float64) (float64, error) {
			s, err := weigh(x)
			return get(s), err
		}, terms...)
	}
	var out Answer
	pc := unit(kRatio, "%")
	for _, o := range []struct {
		symbol, name string
		u            quantity.Unit
		get          func(s stance.Shares) float64
		half         float64 // the engine's own where the calculation has a kink
		limits       []string
	}{
		{"", "Cross weight, FR and RL of all", pc, func(s stance.Shares) float64 { return s.Cross }, 0, []string{"weight.cross.least", "weight.cross.most"}},
		{"", "On the front axle", pc, func(s stance.Shares) float64 { return s.FrontShare }, 0, nil},
		{"", "On the left", pc, func(s stance.Shares) float64 { return s.LeftShare }, 0, nil},
		{"", "Front axle, heavier side over lighter", pc, func(s stance.Shares) float64 { return s.FrontSides }, s.FrontSidesHalf, []string{"weight.side.most"}},
		{"", "Rear axle, heavier side over lighter", pc, func(s stance.Shares) float64 { return s.RearSides }, s.RearSidesHalf, []string{"weight.side.most"}},
		{"", "Whole car", a.unit(kMass), func(s stance.Shares) float64 { return s.Total }, 0, nil},
	} {
		n, w, err := of(o.u, o.get)
		if err != nil {
			return Answer{}, err
		}
		n.Half = max(n.Half, o.half)
		if out.Working == nil {
			out.head("", n, w)
		}
		out.out(o.symbol, o.name, n)
		for _, l := range o.limits {
			out.judge(n, a.shop.Limit(l))
		}
	}
	formula(out.Working, "cross = {FR + RL}/{FL + FR + RL + RR}", "{"+in(kMass, "kg", s.Diagonal, 0)+"}/{"+in(kMass, "kg", s.Total, 0)+"}", out.Headline.String())
	for i, k := range wheelKeys {
		if m := s.Corners[i]; m.From == stance.Derived {
			n := finding.Number{Value: m.Value, Half: m.Half, Kind: kMass, Unit: a.unit(kMass)}
			in, _ := a.sum.Input(k)
			out.Outputs = append(out.Outputs, finding.Term{Symbol: in.Symbol, Name: in.Label + ", whole car less the other three", Value: n, Mark: source.Derived})
			out.say("%s is derived: %s. Weigh it.", in.Label, n)
		}
	}
	if read == 4 && a.Has("total") {
		return out, ticket(a, &out, s)
	}
	return out, nil
}

// ticket holds the four corners against the weighbridge.
func ticket(a *Args, out *Answer, s stance.Shares) error {
	total := a.Get("total")
	t, err := stance.CheckTicket(s.Corners[:], total.Value, total.Half)
	if err != nil {
		return err
	}
	apart := at(kRatio, "%", t.Apart, t.ApartHalf)
	out.out("", "Corners against the ticket", apart)
	out.judge(apart, a.shop.Limit("weight.ticket.most"), a.shop.Limit("weight.ticket.want"))
	if finding.Compare(apart, a.shop.Limit("weight.ticket.want")) == finding.Fail {
		out.say("%s apart from the ticket: check fuel, driver, and that the scales are level.", quantity.Format(kRatio, t.Apart, unit(kRatio, "%"), 1))
	}
	return nil
}
