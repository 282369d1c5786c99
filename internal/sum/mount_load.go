package sum

import (
	"jounce/internal/finding"
	"jounce/source"
	"jounce/spring"
)

var mountLoad = Sum{
	Name: "mount-load", Question: "What does the damper's mounting carry now?", Group: Springs,
	Words:  []string{"turret", "tower", "load path", "mounting", "strut top", "coilover", "kN", "engineer"},
	Source: []source.Mark{source.Calc, source.CP},
	Inputs: []Input{
		cornerWeight, unsprungMass, springRatio,
		of(kForce, "kN", 0, 100, Input{Key: "before", Symbol: "F_{0}", Label: "Most that the mounting carried before", Where: "the damper's maker, or the force of the spring that sat there; empty where nobody knows", Optional: true}),
		of(kRatio, "", 1, 10, Input{Key: "factor", Symbol: "n", Label: "Bump over standing", Where: "what a mounting is judged by", Default: "3", Mark: source.CP}),
	},
	Outputs: []Output{{"F", "Standing, on the mounting", kForce}, {"n F", "In a bump", kForce}, {"", "In a bump over before", kRatio}},
	Example: map[string]string{"weight": "234 kg", "unsprung": "28 kg", "ratio": "0.62"},
	Run:     runMountLoad,
}

func runMountLoad(a *Args) (Answer, error) {
	terms := a.all("weight", "unsprung", "ratio", "factor")
	before := a.Get("before").Value
	carried := func(x []float64) (spring.MountLoad, error) {
		l, err := spring.Corner{Mass: x[0], Unsprung: x[1], Ratio: x[2]}.Load()
		if err != nil {
			return spring.MountLoad{}, err
		}
		return spring.LoadPath(l.Spring, x[3], before)
	}
	kN := unit(kForce, "kN")
	bump, w, err := a.work(kForce, kN, func(x []float64) (float64, error) {
		m, err := carried(x)
		return m.Bump, err
	}, terms...)
	if err != nil {
		return Answer{}, err
	}
	standing, _, err := a.work(kForce, kN, func(x []float64) (float64, error) {
		m, err := carried(x)
		return m.Standing, err
	}, terms...)
	if err != nil {
		return Answer{}, err
	}
	m, err := carried(values(terms))
	if err != nil {
		return Answer{}, err
	}
	formula(w, "F = {(W − U) g}/{r}", "{("+num(terms[0], 0)+" − "+num(terms[1], 0)+") × 9.81}/{"+num(terms[2], 2)+"}", standing.String())
	formula(w, "F_{bump} = n F", num(terms[3], 0)+" × "+in(kForce, "kN", m.Standing, 2), bump.String())
	var out Answer
	out.head("", bump, w)
	out.out("F", "Standing, on the mounting", standing)
	out.out("n F", "In a bump", bump)
	limit := a.shop.Limit("mount.load.most")
	if !m.BeforeKnown {
		v := finding.NotKnown
		out.Verdict, out.Limit = &v, &limit
		out.say("%s standing and %s in a bump, where only a damper's forces went.", standing, bump)
		out.Least = "Read what the mounting carried before, put the spring in its old seat, or have an engineer's scheme."
	} else {
		over := at(kRatio, "", m.BumpBy, m.BumpBy*bump.Half/bump.Value)
		out.out("", "In a bump over before", over)
		out.judge(over, limit)
		out.say("%s in a bump against %s before.", bump, a.Get("before").Number)
	}
	out.say("An engineer says whether the metal is strong enough; this sum does not.")
	return out, nil
}
