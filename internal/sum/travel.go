package sum

import (
	"fmt"
	"strings"

	"jounce/internal/finding"
	"jounce/source"
	"jounce/spring"
)

func partLength(key, symbol, label, where string) Input {
	return of(kLength, "mm", 10, 1200, Input{Key: key, Symbol: symbol, Label: label, Where: where, Optional: true})
}

func atWheel(key, label string) Input {
	return of(kLength, "mm", 0, 400, Input{Key: key, Label: label, Where: "at the wheel, from ROAD", Optional: true, Width: tape})
}

func partRatio(key, label string) Input {
	return of(kRatio, "", 0.02, 5, Input{Key: key, Label: label, Where: "its travel over the wheel's, by tape at two positions", Optional: true, Width: ratio})
}

var travel = Sum{
	Name: "travel", Question: "How far can it travel each way?", Group: Springs,
	Words:  []string{"bump", "droop", "damper", "shock", "strut", "stop", "limiter", "drop", "mm"},
	Source: []source.Mark{source.Calc, source.CP},
	Inputs: []Input{
		partLength("damper", "", "Damper, length at ROAD", "eye to eye"),
		partLength("damper-closed", "", "Damper, closed", "the maker's sheet, or pushed in"),
		partLength("damper-open", "", "Damper, open", "the maker's sheet, or pulled out"),
		of(kLength, "mm", 0, 200, Input{Key: "stop", Label: "Bump stop, squeezed solid", Where: "a third of its free length where nobody measured; nought where there is none", Optional: true}),
		partRatio("damper-ratio", "Damper travel over wheel travel"),
		partLength("spring", "", "Spring, height at ROAD", "between its end plates"),
		partLength("spring-least", "", "Spring, least height", "the maker's sheet: where the rubber carries on itself"),
		partLength("spring-most", "", "Spring, greatest height", "the maker's sheet"),
		partRatio("spring-ratio", "Spring travel over wheel travel"),
		atWheel("hose", "Brake hose taut, in droop"), atWheel("shaft", "Half-shaft at its end, in droop"), atWheel("other", "Anything else that ends bump"),
	},
	Outputs: []Output{{"", "Bump left", kLength}, {"", "Droop left", kLength}},
	Example: map[string]string{"damper": "403 mm", "damper-closed": "320 mm", "damper-open": "447 mm", "stop": "17 mm", "damper-ratio": "0.97"},
	Run:     runTravel,
}

// places takes the inputs that are there; value finds one of them by its key in
// a list of values, nought where it is not there.
func (a *Args) places(keys ...string) (terms []Given, value func(x []float64, key string) float64) {
	at := map[string]int{}
	for _, k := range keys {
		if g := a.Get(k); g.OK {
			at[k] = len(terms)
			terms = append(terms, g)
		}
	}
	return terms, func(x []float64, key string) float64 {
		if i, ok := at[key]; ok {
			return x[i]
		}
		return 0
	}
}

func runTravel(a *Args) (Answer, error) {
	var keys []string
	for _, in := range a.sum.Inputs {
		keys = append(keys, in.Key)
	}
	terms, v := a.places(keys...)
	tapeOnce := fact("", "The tape, once for a difference", at(kLength, "mm", 0, tape.Fixed), source.CP)
	terms = append(terms, tapeOnce)
	budget := func(x []float64) (spring.Budget, error) {
		tape := x[len(x)-1]
		long := func(l float64) float64 {
			if l == 0 {
				return 0
			}
			return l + tape
		}
		parts := []spring.Telescope{
			{Name: "damper", Length: long(v(x, "damper")), Closed: v(x, "damper-closed"), Open: twice(v(x, "damper-open"), tape), StopSolid: v(x, "stop"),
				NoStop: a.Has("stop") && v(x, "stop") <= 0, Ratio: v(x, "damper-ratio"), OneTape: true},
			{Name: "spring", Length: long(v(x, "spring")), Closed: v(x, "spring-least"), Open: twice(v(x, "spring-most"), tape), NoStop: true, Ratio: v(x, "spring-ratio"), OneTape: true},
		}
		var others []spring.Limiter
		for _, o := range []struct {
			key, name string
			d         spring.Direction
		}{{"hose", "brake hose", spring.Droop}, {"shaft", "half-shaft", spring.Droop}, {"other", "another part", spring.Bump}} {
			if a.Has(o.key) {
				others = append(others, spring.Limiter{Name: o.name, Direction: o.d, Travel: v(x, o.key)})
			}
		}
		return spring.Travel(parts, others)
	}
	b, err := budget(values(terms))
	if err != nil {
		return Answer{}, err
	}
	if len(b.Bump)+len(b.Droop) == 0 {
		return Answer{}, fmt.Errorf("nothing ends the travel yet. Read %s", strings.Join(b.Gaps, "; "))
	}
	var out Answer
	for _, side := range []struct {
		name, word string
		list       func(b spring.Budget) []spring.Limiter
		limits     []string
	}{
		{"Bump left", "up", func(b spring.Budget) []spring.Limiter { return b.Bump }, []string{"travel.bump.least", "travel.bump.want"}},
		{"Droop left", "down", func(b spring.Budget) []spring.Limiter { return b.Droop }, []string{"travel.droop.least", "travel.droop.want"}},
	} {
		if len(side.list(b)) == 0 {
			out.say("%s is not known: nothing that ends it is read.", side.name)
			continue
		}
		n, w, err := a.work(kLength, a.unit(kLength), func(x []float64) (float64, error) {
			b, err := budget(x)
			if err != nil {
				return 0, err
			}
			return side.list(b)[0].Travel, nil
		}, terms...)
		if err != nil {
			return Answer{}, err
		}
		out.out("", side.name, n)
		out.say("%s: %s, ended by the %s.", side.name, n, side.list(b)[0].Name)
		for _, l := range side.list(b)[1:] {
			out.out("", side.name+" to the "+l.Name, finding.Number{Value: l.Travel, Kind: kLength, Unit: a.unit(kLength)})
		}
		if out.Working == nil {
			out.head(side.word, n, w)
		}
		out.judge(n, a.shop.Limit(side.limits[0]), a.shop.Limit(side.limits[1]))
	}
	formula(out.Working, "bump = {length at ROAD − closed − solid stop}/{ratio}", "", "")
	formula(out.Working, "droop = {open − length at ROAD}/{ratio}", "", "")
	note(out.Working, "All lengths by one tape, so its ± counts once for a difference. The ratio is taken as constant over the travel.")
	for _, g := range b.Gaps {
		out.say("Not read: %s.", g)
	}
	return out, nil
}

// twice moves an open length so that its difference to the length at ROAD
// carries the tape once, the other way round than the closed one.
func twice(l, tape float64) float64 {
	if l == 0 {
		return 0
	}
	return l + 2*tape
}
