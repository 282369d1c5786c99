package study

import (
	"fmt"

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
	for i := range pad {
		c := &v.out.Corners[i]
		c.Weight, c.Derived = pad[i].Number, pad[i].Mark == source.Derived
		if un := v.unsprungOf(i); pad[i].OK && un.OK {
			n, _, err := v.compute(q.KindMass, v.shop.Unit(q.KindMass), func(x []float64) (float64, error) { return x[0] - x[1], nil }, pad[i], un)
			if err == nil && n.Value > 0 {
				c.Sprung = n
			} else {
				v.ask(un.Path, v.text(un.Path), fmt.Sprintf("%s: the unsprung mass, %s, is not below the weight, %s.", c.Name, un.Number, pad[i].Number))
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
	in := []given{total}
	for i := range pad {
		if i != at {
			in = append(in, pad[i])
		}
	}
	n, _, err := v.compute(q.KindMass, v.shop.Unit(q.KindMass), func(x []float64) (float64, error) { return x[0] - x[1] - x[2] - x[3], nil }, in...)
	if err != nil || n.Value <= 0 {
		return pad[at]
	}
	return given{Number: n, Symbol: "W", Label: CornerNames[at] + ", weight", Path: pad[at].Path, Mark: source.Derived, OK: true}
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
	var sum float64
	for _, p := range pad {
		if !p.OK || p.Mark == source.Derived {
			return
		}
		sum += p.Value
	}
	unit, _ := q.UnitOf(q.KindRatio, "%")
	front, rear, total := v.read("survey.ticketFront", "", weighbridge), v.read("survey.ticketRear", "", weighbridge), v.read("survey.total", "", weighbridge)
	against := func(id, words string, corners, ticket float64) {
		f := finding.Finding{ID: "weight.ticket." + id, Topic: "weights", Value: finding.Number{Value: abs(corners-ticket) / ticket, Kind: q.KindRatio, Unit: unit},
			Claim: "The corners agree with the " + words + "."}
		f.Judge(v.limits("weight.ticket.most", "weight.ticket.want")...)
		f.Why = fmt.Sprintf("Corners %.0f kg, ticket %.0f kg.", corners, ticket)
		if f.Verdict == finding.Fail {
			f.Claim = "The corners and the " + words + " are apart."
			f.Least = "Check fuel, driver and that the scales stand level, then weigh again."
		}
		v.add(f)
	}
	switch {
	case front.OK && rear.OK:
		against("front", "front axle ticket", pad[0].Value+pad[1].Value, front.Value)
		against("rear", "rear axle ticket", pad[2].Value+pad[3].Value, rear.Value)
	case total.OK:
		against("total", "weighbridge", sum, total.Value)
	}
}
