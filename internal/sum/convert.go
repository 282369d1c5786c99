package sum

import (
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
	kind, target := v.Kind, quantity.Unit{}
	if a.Has("to") {
		var ok bool
		if kind, target, ok = readable(v, a.Text("to")); !ok {
			return Answer{}, a.refuse("to", fmt.Sprintf("%q is no unit of %s. One of: %s.", a.Text("to"), v.Kind.Words(), strings.Join(unitNames(v.Kind), ", ")))
		}
	}
	si := v.Value
	if kind != v.Kind { // the text reads as this kind too
		other, err := quantity.Parse(kind, a.Text("value"))
		if err != nil {
			return Answer{}, err
		}
		si = other.SI()
	}
	w := &finding.Working{}
	var out Answer
	for _, u := range kind.Units() {
		n := finding.Number{Value: si, Half: v.Half, Kind: kind, Unit: u}
		if u == target || target.IsZero() && u.Name() != "" && !strings.Contains(u.Name(), " at ") {
			text := n.String()
			if n.Half == 0 {
				text = quantity.Format(kind, si, u, figures(u.FromSI(si)))
			}
			if out.Shown == "" {
				out.Shown, out.Headline = text, n
			} else {
				out.say("%s", text)
			}
			out.out("", u.Name(), n)
		}
	}
	formula(w, a.Text("value"), "", out.Shown)
	out.Working = w
	if kind == quantity.KindPressure {
		out.say("A gauge pressure, above the barometer. An absolute one is written with an a behind its unit: 4 bar a.")
	}
	if kind == quantity.KindFreeAirFlow {
		note(w, "The same air by mass, counted at another state.")
	}
	return out, nil
}

// readable finds the unit wanted, in the kind read or in another as which the
// value can be read: a temperature difference, a torque written as energy.
func readable(v Given, name string) (quantity.Kind, quantity.Unit, bool) {
	if u, ok := quantity.UnitOf(v.Kind, name); ok {
		return v.Kind, u, true
	}
	for _, k := range quantity.Kinds() {
		u, ok := quantity.UnitOf(k, name)
		if !ok {
			continue
		}
		if _, err := quantity.Parse(k, v.Typed); err == nil {
			return k, u, true
		}
	}
	return v.Kind, quantity.Unit{}, false
}

func unitNames(k quantity.Kind) []string {
	var names []string
	for _, u := range k.Units() {
		if u.Name() != "" {
			names = append(names, u.Name())
		}
	}
	return names
}
