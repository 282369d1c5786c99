package quantity

import (
	"math"
	"strings"
)

// compounds tells whether values of the kind may be typed in two or three
// units: 5 ft 10 in, 12 st 4 lb, 1° 30′, 1 h 20 min.
func compounds(k Kind) bool {
	return k == KindLength || k == KindMass || k == KindAngle || k == KindTime
}

// compound reads such a value. Each unit must go a whole number of times into
// the one before it; only the last number may have decimals or a fraction. The
// value is in the last unit; an angle is in the first.
func (p *parser) compound(t *term, s string) error {
	var total float64 // in the unit of the last number
	var first, last Unit
	ratio := 1.0 // units of the last number in one of the first
	negative := false
	for n := 0; s != ""; n++ {
		fig, rest, fault := scanFigure(s)
		if fault != "" {
			return p.bad(fault, "")
		}
		end := strings.IndexFunc(rest, isDigitOrVulgar)
		if end < 0 {
			end = len(rest)
		}
		typed := unitText(rest[:end])
		if typed == "" {
			return p.bad("one of the numbers has no unit", "")
		}
		units := findUnits(p.kind, typed)
		if len(units) != 1 {
			t.typed = strings.TrimSpace(rest[:end])
			return p.unknownUnit(*t, typed)
		}
		u := units[0]
		if n == 0 {
			first, negative = u, fig.negative
			total = math.Abs(fig.val)
		} else {
			step := last.WidthToSI(1) / u.WidthToSI(1)
			whole := math.Round(step)
			switch {
			case math.Abs(step-whole) > 1e-9*whole || whole < 2:
				return p.bad(u.Name()+" does not go into "+last.Name(), "")
			case fig.negative || fig.val >= whole:
				return p.bad("the part in "+u.Name()+" must be less than one "+last.Name(), "")
			}
			total, ratio = total*whole+fig.val, ratio*whole
		}
		if end < len(rest) && !fig.whole {
			return p.bad("only the last number may have decimals", "")
		}
		last, s = u, rest[end:]
	}
	t.fig = figure{val: total}
	t.units = []Unit{last}
	if p.kind == KindAngle {
		t.fig.val = total / ratio
		t.units[0] = first
	}
	if negative && t.fig.val != 0 {
		t.fig.val = -t.fig.val
	}
	if t.fig.val > 1e15 || t.fig.val < -1e15 {
		return p.bad("the number is out of all reach", "")
	}
	return nil
}
