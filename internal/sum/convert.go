package sum

import (
	"errors"
	"fmt"
	"strings"

	"jounce/internal/finding"
	"jounce/quantity"
	"jounce/source"
)

var convert = Sum{
	Name: "convert", Question: "What is that in the other unit?", Group: Measuring,
	Words:  []string{"convert", "units", "psi", "bar", "kPa", "inch", "mm", "lb", "kg", "stone", "gallon", "litre", "N/mm", "lbf/in", "°F", "°C", "N·m", "scfm", "thou"},
	Source: []source.Mark{source.Calc},
	Inputs: []Input{
		{Key: "value", Label: "Value with its unit", Where: "3 bar, 3 1/2 in, 150 lbf/in", Any: true},
		{Key: "to", Label: "Unit wanted", Where: "psi, mm, N/mm; empty lists them all", Optional: true},
		barometer,
	},
	Outputs: []Output{{"", "The same in the unit wanted", quantity.KindNone}},
	Example: map[string]string{"value": "3 bar", "to": "psi"},
	Run:     runConvert,
}

// figures is how many decimals a number needs for five significant figures.
func figures(x float64) int {
	n := 4
	for x = max(x, -x); x >= 10 && n > 0; x /= 10 {
		n--
	}
	for ; x > 0 && x < 1 && n < 12; x *= 10 {
		n++
	}
	return n
}

func runConvert(a *Args) (Answer, error) {
	v := a.Get("value")
	n, target, w := v.Number, quantity.Unit{}, &finding.Working{}
	if a.Has("to") {
		var err error
		if n, target, err = a.turned(v, w); err != nil {
			return Answer{}, err
		}
	}
	var out Answer
	for _, u := range n.Kind.Units() {
		n.Unit = u
		if u != target && (!target.IsZero() || u.Name() == "" || strings.Contains(u.Name(), " at ")) {
			continue
		}
		text := n.String()
		if n.Half == 0 {
			text = quantity.Format(n.Kind, n.Value, u, figures(u.FromSI(n.Value)))
		}
		if out.Shown == "" {
			out.Shown, out.Headline = text, n
		} else {
			out.say("%s", text)
		}
		out.out("", u.Name(), n)
	}
	formula(w, a.Text("value"), "", out.Shown)
	out.Working = w
	switch n.Kind {
	case kPressure:
		out.say("A gauge pressure, above the barometer. An absolute one is written with an a behind its unit: 4 bar a.")
	case quantity.KindFreeAirFlow:
		note(w, "The same air by mass, counted at another state.")
	}
	return out, nil
}

// turned is the value in the kind of the unit wanted. Between gauge and
// absolute pressures stands the barometer.
func (a *Args) turned(v Given, w *finding.Working) (finding.Number, quantity.Unit, error) {
	name, b, n := a.Text("to"), a.Get("barometer"), v.Number
	if u, ok := quantity.UnitOf(v.Kind, name); ok {
		return n, u, nil
	}
	gaugeUnit, isGauge := quantity.UnitOf(kPressure, name)
	absUnit, isAbs := quantity.UnitOf(kAbs, name)
	b.Number.Unit = unit(kAbs, "mbar a")
	switch {
	case v.Kind == kPressure && isAbs:
		n.Kind, n.Value, n.Half = kAbs, float64(quantity.GaugePressure(v.Value).Absolute(quantity.AbsPressure(b.Value))), quadrature(v.Half, b.Half)
		note(w, "Barometer %s [%s].", b.Number, b.Mark)
		return n, absUnit, nil
	case v.Kind == kAbs && isGauge:
		n.Kind, n.Value, n.Half = kPressure, float64(quantity.AbsPressure(v.Value).Gauge(quantity.AbsPressure(b.Value))), quadrature(v.Half, b.Half)
		note(w, "Barometer %s [%s].", b.Number, b.Mark)
		return n, gaugeUnit, nil
	}
	for _, k := range quantity.Kinds() { // a torque written as an energy, a difference as a temperature
		u, ok := quantity.UnitOf(k, name)
		if !ok || k == kPressure || k == kAbs {
			continue
		}
		if other, err := quantity.Parse(k, v.Typed); err == nil {
			half, _ := other.Half()
			return finding.Number{Value: other.SI(), Half: half, Kind: k}, u, nil
		}
	}
	return n, quantity.Unit{}, a.noUnit(v.Kind, name)
}

// noUnit refuses a unit, or asks which of its meanings is meant.
func (a *Args) noUnit(k quantity.Kind, name string) error {
	_, err := quantity.Parse(k, "1 "+name)
	var q *quantity.Question
	if errors.As(err, &q) {
		var meant []string
		for _, s := range q.Answers {
			meant = append(meant, strings.TrimPrefix(s, "1 "))
		}
		return a.refuse("to", fmt.Sprintf("%q has several meanings: %s.", name, strings.Join(meant, "; ")), meant...)
	}
	return a.refuse("to", fmt.Sprintf("%q is no unit of %s. One of: %s.", name, k.Words(), strings.Join(unitNames(k), ", ")))
}

// unitNames are the first units of a kind; the others are spoken of.
func unitNames(k quantity.Kind) []string {
	const most = 18
	var names []string
	for _, u := range k.Units() {
		if u.Name() == "" {
			continue
		}
		if len(names) == most {
			return append(names, "and others")
		}
		names = append(names, u.Name())
	}
	return names
}
