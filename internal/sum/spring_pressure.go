package sum

import (
	"fmt"

	"jounce/internal/finding"
	"jounce/quantity"
	"jounce/source"
	"jounce/spring"
)

var maxWorking = of(kPressure, "bar", 1, 30, Input{Key: "maximum", Symbol: "p_{max}", Label: "Highest standing pressure", Where: "the maker's sheet", Optional: true})

var springPressure = Sum{
	Name: "spring-pressure", Question: "How much pressure carries this corner?", Group: Springs,
	Words:  []string{"psi", "bar", "bag", "air spring", "balloon", "corner weight", "area", "load"},
	Source: []source.Mark{"S31", source.CP},
	Inputs: []Input{cornerWeight, unsprungMass, springRatio, springArea, lineLoad, linePressure, maxWorking},
	Outputs: []Output{{"p", "Pressure at this height", kPressure}, {"F", "Force along the spring", kForce},
		{"W − U", "Carried by the spring", kMass}, {"A", "Effective area", kArea}},
	Example: map[string]string{"weight": "276 kg", "unsprung": "32 kg", "ratio": "0.97", "area": "70 cm²"},
	Run:     runSpringPressure,
}

func runSpringPressure(a *Args) (Answer, error) {
	line, build, err := a.line()
	if err != nil {
		return Answer{}, err
	}
	terms := append(a.all("weight", "unsprung", "ratio"), line...)
	need := func(x []float64) (spring.Load, spring.Need, error) {
		s, err := build(x[3:])
		if err != nil {
			return spring.Load{}, spring.Need{}, err
		}
		return s.CornerPressure(spring.Corner{Mass: x[0], Unsprung: x[1], Ratio: x[2]}, anyHeight)
	}
	p, w, err := a.work(kPressure, a.unit(kPressure), func(x []float64) (float64, error) {
		_, n, err := need(x)
		return float64(n.Value), err
	}, terms...)
	if err != nil {
		return Answer{}, err
	}
	l, n, err := need(values(terms))
	if err != nil {
		return Answer{}, err
	}
	f, _, err := a.work(kForce, unit(kForce, "N"), func(x []float64) (float64, error) {
		l, err := spring.Corner{Mass: x[0], Unsprung: x[1], Ratio: x[2]}.Load()
		return l.Spring, err
	}, terms[:3]...)
	if err != nil {
		return Answer{}, err
	}
	formula(w, "F = {(W − U) g}/{r}", "{("+num(terms[0], 0)+" − "+num(terms[1], 0)+") × 9.81}/{"+num(terms[2], 2)+"}", f.String())
	formula(w, "p = {F}/{A}", "{"+in(kForce, "N", l.Spring, 0)+"}/{"+in(kArea, "cm²", n.Area.Value, 1)+"}", p.String())
	note(w, "The ratio counts once for the force. The area is that of this height; at another height it is another.")
	var out Answer
	out.head("", p, w)
	out.out("p", "Pressure at this height", p)
	out.out("F", "Force along the spring", f)
	out.out("W − U", "Carried by the spring", finding.Number{Value: l.Sprung, Kind: kMass, Unit: a.unit(kMass)})
	out.out("A", "Effective area", at(kArea, "cm²", n.Area.Value, 0))
	limits := []finding.Limit{a.shop.Limit("spring.pressure.fold"), a.shop.Limit("spring.pressure.least"), a.shop.Limit("spring.pressure.most")}
	if a.Has("maximum") {
		limits = append([]finding.Limit{share(a.shop.Limit("spring.share.most"), a.Get("maximum"))}, limits...)
	}
	out.judge(p, limits...)
	if p.Value < a.shop.Limit("spring.pressure.fold").Value {
		out.say("The spring is too large: below %s it folds on rebound.", a.shop.Limit("spring.pressure.fold").Text())
	}
	if a.Has("maximum") {
		return out, waysOut(&out, a, n, terms[2].Value)
	}
	out.say("Weigh it laden too: pressure follows weight, and the tank must hold about 2 bar more than the highest.")
	return out, nil
}

// share turns a limit on a share of a maximum into one on the pressure itself.
func share(l finding.Limit, maximum Given) finding.Limit {
	l.Name = fmt.Sprintf("%s (%s of %s)", l.Name, l.Text(), maximum.String())
	l.Kind, l.Value, l.Unit = kPressure, l.Value*maximum.Value, maximum.Number.Unit
	return l
}

// waysOut says what would carry a load that is too much for a spring.
func waysOut(out *Answer, a *Args, n spring.Need, r float64) error {
	n.Maximum = quantity.GaugePressure(a.Get("maximum").Value)
	ways, err := n.WaysOut(r, a.shop.Limit("spring.share.most").Value)
	if err != nil || !ways.Over {
		return err
	}
	allowed := quantity.Format(kPressure, float64(ways.Allowed), a.unit(kPressure), 1)
	out.Least = fmt.Sprintf("A spring of %s would carry it at %s.", quantity.Format(kArea, ways.AreaNeeded, unit(kArea, "cm²"), 0), allowed)
	if ways.RatioPossible {
		out.Least += fmt.Sprintf(" So would this one where the ratio is %s.", quantity.Format(kRatio, ways.RatioNeeded, quantity.Unit{}, 2))
	}
	return nil
}

var springLoad = Sum{
	Name: "spring-load", Question: "What does this spring lift at that pressure?", Group: Springs,
	Words:    []string{"force", "psi", "bar", "bag", "air spring", "lift", "area", "kN", "N", "kg"},
	Source:   []source.Mark{"S31"},
	Inputs:   []Input{gauge("pressure", "p", "Pressure in the spring", "gauge on its line"), springArea, lineLoad, linePressure},
	Outputs:  []Output{{"F", "Force along the spring", kForce}, {"A", "Effective area", kArea}},
	Example:  map[string]string{"pressure": "4 bar", "load": "3325 N", "at": "3.5 bar"},
	Cautions: []string{"Never a hand or a head where a spring may close: stands first, then air."},
	Run:      runSpringLoad,
}

func runSpringLoad(a *Args) (Answer, error) {
	line, build, err := a.line()
	if err != nil {
		return Answer{}, err
	}
	terms := append(a.all("pressure"), line...)
	push := func(x []float64) (spring.Force, error) {
		s, err := build(x[1:])
		if err != nil {
			return spring.Force{}, err
		}
		return s.Force(quantity.GaugePressure(x[0]), anyHeight)
	}
	f, w, err := a.work(kForce, unit(kForce, "N"), func(x []float64) (float64, error) {
		r, err := push(x)
		return r.Value, err
	}, terms...)
	if err != nil {
		return Answer{}, err
	}
	r, err := push(values(terms))
	if err != nil {
		return Answer{}, err
	}
	formula(w, "F = p A", num(terms[0], 2)+" × "+in(kArea, "cm²", r.Area.Value, 1), f.String())
	note(w, "Along the spring and at this height. The maker's pressure next to it gives the area.")
	var out Answer
	out.head("", f, w)
	out.out("F", "Force along the spring", f)
	out.out("A", "Effective area", at(kArea, "cm²", r.Area.Value, 0))
	out.say("That is the weight of %s over the spring itself; at the wheel it is that times the spring's ratio.",
		quantity.Format(kMass, f.Value/quantity.StandardGravity, a.unit(kMass), 0))
	return out, nil
}
