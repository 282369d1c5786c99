package study

import (
	"fmt"
	"strings"

	"jounce/internal/finding"
	q "jounce/quantity"
	"jounce/source"
)

// weights reads the four pads, derives the one that is missing where the total
// is known, and takes the unsprung mass off.
func (v *view) weights() {
	var pad [4]given
	missing, last := 0, 0
	for i, name := range CornerNames {
		v.out.Corners[i].Name = name
		pad[i] = v.read("corners."+name+".weight", "W", pads)
		if !pad[i].OK {
			missing, last = missing+1, i
		}
	}
	if total := v.read("survey.total", "W", weighbridge); missing == 1 && total.OK {
		pad[last] = v.derive(last, pad, total)
	}
	v.weighed = pad
	for i := range pad {
		c := &v.out.Corners[i]
		c.Weight, c.Derived = pad[i].Number, pad[i].Mark == source.Derived
		if un := v.unsprungOf(i); pad[i].OK && un.OK {
			pad, un := pad[i].called("W_{"+c.Name+"}", c.Name+", weight"), un.called("U_{"+c.Name+"}", c.Name+", unsprung")
			n, t, err := v.compute(q.KindMass, v.shop.Unit(q.KindMass), func(x []float64) (float64, error) { return x[0] - x[1], nil }, pad, un)
			if err == nil && n.Value > 0 {
				t.lead(finding.Line{Symbols: "m_{" + c.Name + "} = " + pad.Symbol + " − " + un.Symbol, Numbers: pad.String() + " − " + un.String(), Result: n.String()})
				c.Sprung, v.how.sprung[i] = n, t
			} else {
				v.ask(un.Path, v.text(un.Path), fmt.Sprintf("%s: the unsprung mass, %s, is not below the weight, %s.", c.Name, un.Number, pad.Number))
			}
		}
	}
	v.cases()
	v.balance(pad)
	v.tickets(pad)
	v.plane()
}

// derive is the corner that follows from the total and the other three.
func (v *view) derive(at int, pad [4]given, total given) given {
	in := []given{total.called("W", "weight of the whole car")}
	numbers := total.String()
	for i := range pad {
		if i != at {
			in = append(in, pad[i].called("W_{"+CornerNames[i]+"}", CornerNames[i]+", weight"))
			numbers += " − " + pad[i].String()
		}
	}
	n, t, err := v.compute(q.KindMass, v.shop.Unit(q.KindMass), func(x []float64) (float64, error) { return x[0] - x[1] - x[2] - x[3], nil }, in...)
	if err != nil || n.Value <= 0 {
		return pad[at]
	}
	t.lead(finding.Line{Symbols: "W_{" + CornerNames[at] + "} = W − the other three", Numbers: numbers, Result: n.String()})
	return given{Number: n, Symbol: "W", Label: CornerNames[at] + ", weight", Path: pad[at].Path, Mark: source.Derived, OK: true, from: t}
}

// unsprungOf is one wheel's: typed for the wheel, or half of the axle's.
func (v *view) unsprungOf(i int) given {
	base := "axles." + AxleNames[i/2]
	side := map[int]string{0: "Left", 1: "Right"}[i%2]
	if g := v.read(base+".unsprung"+side, "U", unsprung); g.OK {
		return g
	}
	axle := v.read(base+".unsprungAxle", "U", width{abs: 2 * unsprung.abs})
	if !axle.OK {
		return given{Path: base + ".unsprung" + side}
	}
	axle.Value, axle.Half, axle.Mark = axle.Value/2, axle.Half/2, source.Derived
	return axle
}

// tickets holds the corners against the weighbridge. Both are taken as printed:
// the limits, 2 and 5 %, are wide enough for the doubts of scales and ticket
// (settled: 4.4 % apart is for the owner to sign).
func (v *view) tickets(pad [4]given) {
	for i, p := range pad {
		if !p.OK || p.Mark == source.Derived {
			return
		}
		pad[i] = p.called("W_{"+CornerNames[i]+"}", CornerNames[i]+", weight").counting(0)
	}
	unit, _ := q.UnitOf(q.KindRatio, "%")
	front, rear, total := v.read("survey.ticketFront", "", weighbridge), v.read("survey.ticketRear", "", weighbridge), v.read("survey.total", "", weighbridge)
	against := func(id, words string, ticket given, corners ...given) {
		var sum float64
		numbers := make([]string, len(corners))
		for i, c := range corners {
			sum, numbers[i] = sum+c.Value, c.String()
		}
		f := finding.Finding{ID: "weight.ticket." + id, Topic: "weights", Value: finding.Number{Value: abs(sum-ticket.Value) / ticket.Value, Kind: q.KindRatio, Unit: unit},
			Claim: "The corners agree with the " + words + "."}
		f.Working = v.apart(f.Value, ticket.called("T", words+", as printed").counting(0), corners, strings.Join(numbers, " + "))
		f.Judge(v.limits("weight.ticket.most", "weight.ticket.want")...)
		f.Why = fmt.Sprintf("Corners %.0f kg, ticket %.0f kg.", sum, ticket.Value)
		if f.Verdict == finding.Fail {
			f.Claim = "The corners and the " + words + " are apart."
			f.Least = "Check fuel, driver and that the scales stand level, then weigh again."
		}
		v.add(f)
	}
	switch {
	case front.OK && rear.OK:
		against("front", "front axle ticket", front, pad[0], pad[1])
		against("rear", "rear axle ticket", rear, pad[2], pad[3])
	case total.OK:
		against("total", "weighbridge", total, pad[:]...)
	}
}

// apart is the working of corners held against a ticket, without doubts.
func (v *view) apart(n finding.Number, ticket given, corners []given, numbers string) *finding.Working {
	_, t, err := v.compute(n.Kind, n.Unit, func(x []float64) (float64, error) {
		d := -x[0]
		for _, c := range x[1:] {
			d += c
		}
		return abs(d) / x[0], nil
	}, append([]given{ticket}, corners...)...)
	if err != nil {
		return nil
	}
	t.lead(finding.Line{Symbols: "d = |ΣW − T| ÷ T", Numbers: fmt.Sprintf("|%s − %s| ÷ %s", numbers, ticket.Number, ticket.Number), Result: n.String()})
	t.note("Scales and ticket are taken as printed: the limits are wide enough for their doubts (common practice).")
	return t.finding()
}
