package study

import (
	"fmt"
	"math"
	"strings"

	"jounce/internal/finding"
	q "jounce/quantity"
	"jounce/source"
	"jounce/stance"
	"jounce/tyre"
)

// fromRoad is an axle's change at a preset from ROAD, as it is typed. At ROAD
// there is none.
func (v *view) fromRoad(p, i int) given {
	name := PresetNames[p]
	if p == 1 {
		return v.fact("Δ", AxleNames[i]+", at ROAD itself", mm(0, 0), source.Typed)
	}
	g := v.read("presets."+strings.ToLower(name)+"."+AxleNames[i], "", exact)
	return g.called("Δ_{"+AxleNames[i]+"}", upper(AxleNames[i])+", "+name+" from ROAD").counting(0)
}

// roadRead is how far ROAD lies above the height at which an axle's heights were
// read, as typed, and the sign it counts with; false where they were read at
// ROAD.
func (v *view) roadRead(i int) (given, float64, bool) {
	switch at := v.rec.Survey.HeightsRead; at {
	case "ROAD":
		return given{}, 0, false
	case "as received":
		g := v.read("presets.road."+AxleNames[i], "", exact)
		return g.called("R_{"+AxleNames[i]+"}", upper(AxleNames[i])+", ROAD above the heights as received").counting(0), 1, true
	default:
		g := v.read("presets."+strings.ToLower(at)+"."+AxleNames[i], "", exact)
		return g.called("R_{"+AxleNames[i]+"}", upper(AxleNames[i])+", "+at+" from ROAD, where the heights were read").counting(0), -1, true
	}
}

// changes are the readings behind a body height at a preset: what both axles
// change from where the heights were read, and how they add up, front and rear.
func (v *view) changes(p int) (in []given, sum func(x []float64) (front, rear float64), says [2]string) {
	var at [2][2]int // places in in, 0 where there is none
	var sign [2]float64
	for i := range AxleNames {
		if p != 1 {
			in = append(in, v.fromRoad(p, i))
			at[i][0], says[i] = len(in), says[i]+" + "+in[len(in)-1].Symbol
		}
		if g, s, ok := v.roadRead(i); ok {
			in, sign[i] = append(in, g), s
			at[i][1], says[i] = len(in), says[i]+map[bool]string{true: " + ", false: " − "}[s > 0]+g.Symbol
		}
	}
	one := func(x []float64, i int) float64 {
		d := 0.0
		if k := at[i][0]; k > 0 {
			d += x[k-1]
		}
		if k := at[i][1]; k > 0 {
			d += sign[i] * x[k-1]
		}
		return d
	}
	return in, func(x []float64) (float64, float64) { return one(x, 0), one(x, 1) }, says
}

// sillHow is the working of the sill over the floor at a preset.
func (v *view) sillHow(p int) *trail {
	if n := v.out.Heights.SillAt[p]; n.Known() && v.how.sill[p] == nil {
		in, sum, says := v.changes(p)
		rule := "0"
		if len(in) > 0 {
			rule = "(" + first(says[0]) + says[1] + ") ÷ 2"
		}
		v.how.sill[p] = v.stands(p, v.read("survey.sill", "", tape).called("z_{s}", "sill over the floor as read, mid-door"), n, in, rule, func(x []float64) float64 {
			front, rear := sum(x)
			return (front + rear) / 2
		})
	}
	return v.how.sill[p]
}

// lowestHow is the working of the lowest part over the floor at a preset.
func (v *view) lowestHow(p int) *trail {
	if n := v.out.Heights.LowestAt[p]; n.Known() && v.how.lowest[p] == nil {
		in, sum, says := v.changes(p)
		t := v.stands(p, v.read("survey.lowest", "", tape).called("z", v.lowestName()+" over the floor as read"), n, in, lowerOf(in, says), func(x []float64) float64 {
			front, rear := sum(x)
			return math.Min(front, rear)
		})
		if t != nil && len(in) > 0 {
			t.note("Its place along the car is not read: the end that sinks more counts.")
		}
		v.how.lowest[p] = t
	}
	return v.how.lowest[p]
}

func lowerOf(in []given, says [2]string) string {
	if len(in) == 0 {
		return "0"
	}
	return "the lower of " + first(says[0]) + " and " + first(says[1])
}

// first is a sum of signed parts as it stands at the beginning of a formula.
func first(sum string) string {
	if rest, minus := strings.CutPrefix(sum, " − "); minus {
		return "−" + rest
	}
	return strings.TrimPrefix(sum, " + ")
}

// stands is a height as read, changed to a preset.
func (v *view) stands(p int, read given, n finding.Number, in []given, rule string, add func(x []float64) float64) *trail {
	_, t, err := v.compute(n.Kind, n.Unit, func(x []float64) (float64, error) { return x[0] + add(x[1:]), nil }, append([]given{read}, in...)...)
	if err != nil {
		return nil
	}
	t.lead(finding.Line{Symbols: read.Symbol + "_{" + PresetNames[p] + "} = " + read.Symbol + " + " + rule, Numbers: fmt.Sprintf("%s %s", read.Number, signedMM(n.Value-read.Value)), Result: n.String()})
	return t
}

func signedMM(m float64) string {
	if m < 0 {
		return "− " + mm(-m, 0).String()
	}
	return "+ " + mm(m, 0).String()
}

// bracketed is a number behind a sign.
func bracketed(n finding.Number) string {
	if n.Value < 0 {
		return "(" + n.String() + ")"
	}
	return n.String()
}

// lowestAt is the lowest part at a preset with its trail.
func (v *view) lowestAt(p int) given {
	return v.worked("z_{"+PresetNames[p]+"}", v.lowestName()+" over the floor at "+PresetNames[p], v.out.Heights.LowestAt[p], v.lowestHow(p))
}

// ladenAt is the lowest part at ROAD with everybody aboard, with its trail.
func (v *view) ladenAt(n finding.Number) given {
	name := v.lowestName() + " over the floor at ROAD, laden"
	g := v.read("survey.lowestLaden", "z_{laden}", tape)
	if !g.OK {
		return v.worked("z_{ROAD}", name, n, v.lowestHow(1))
	}
	in, sum, says := v.changes(1)
	t := v.stands(1, g.called("z′", v.lowestName()+" over the floor as read, laden"), n, in, lowerOf(in, says), func(x []float64) float64 {
		front, rear := sum(x)
		return math.Min(front, rear)
	})
	return v.worked("z′_{ROAD}", name, n, t)
}

// scrubTrail is the working of an axle's rim-to-rim line, by the tyre's own
// calculation.
func (v *view) scrubTrail(i int, s tyre.Size, d tyre.Dimensions) *trail {
	set, base := v.tyreSettings(), "axles."+AxleNames[i]
	flange := v.fact("h", "height of the rim's flange, usual", mm(set.FlangeHeight, d.FlangeHalf), source.CP)
	n := mm(d.ScrubLine, d.ScrubHalf)
	line := finding.Line{Symbols: "s = r − (D_{rim} ÷ 2 + h)", Numbers: fmt.Sprintf("%s − (%s ÷ 2 + %s)", mm(d.LoadedRadius, d.LoadedHalf), finding.Exact(q.KindLength, s.Rim, n.Unit), flange.Number), Result: n.String()}
	var t *trail
	var err error
	if d.LoadedMeasured {
		r := v.read(base+".loadedRadius", "", tape).called("r", AxleNames[i]+", loaded radius")
		_, t, err = v.compute(n.Kind, n.Unit, func(x []float64) (float64, error) {
			set := set
			set.FlangeHeight = x[1]
			return s.Dimensions(set, tyre.Measured{LoadedRadius: x[0]}).ScrubLine, nil
		}, r, flange)
	} else {
		across := v.read(base+".tyreLeft", "D", exact)
		size := v.fact("D", AxleNames[i]+" tyre, diameter by its marking "+s.Text, mm(d.Diameter, d.DiameterHalf), source.Derived)
		size.Path, size.Who = across.Path, across.Who
		loaded := v.fact("σ", "loaded radius over half the diameter", finding.Of(q.KindRatio, "", set.LoadedShare, 0), source.CP)
		if d.FreeRadius > 0 {
			loaded.Half = math.Sqrt(math.Max(0, d.LoadedHalf*d.LoadedHalf-math.Pow(set.LoadedShare*d.DiameterHalf/2, 2))) / d.FreeRadius
		}
		_, t, err = v.compute(n.Kind, n.Unit, func(x []float64) (float64, error) {
			set := set
			set.LoadedShare, set.FlangeHeight = x[1], x[2]
			return s.Dimensions(set, tyre.Measured{Diameter: x[0]}).ScrubLine, nil
		}, size, loaded, flange)
		if err == nil {
			t.lead(finding.Line{Symbols: "r = σ D ÷ 2", Numbers: fmt.Sprintf("%s × %s ÷ 2", plainNumber(loaded.Number), size.Number), Result: mm(d.LoadedRadius, d.LoadedHalf).String()})
		}
	}
	if err != nil {
		return nil
	}
	t.lead(line)
	return t
}

// travelled is the working of how far a point has moved in a pose of the body
// that is a preset.
func (v *view) travelled(t touchPoint, p int, n finding.Number) *trail {
	in := []given{v.fromRoad(p, 0), v.fromRoad(p, 1)}
	wide := t.rec != nil && t.Contact.Moves == stance.WithBody && !t.Contact.Somewhere
	if wide {
		in = append(in, v.read("touch["+t.rec.ID+"].x", "", tape).called("x", t.Name+", behind the front axle").counting(0), v.way.base.called("L", "wheelbase").counting(0))
	}
	_, w, err := v.compute(n.Kind, n.Unit, func(x []float64) (float64, error) {
		c := t.Contact
		if wide {
			c.Back, c.Wheelbase = x[2], x[3]
		}
		r, err := c.At(stance.Pose{Front: x[0], Rear: x[1]})
		return r.Travel, err
	}, in...)
	if err != nil {
		return nil
	}
	if p == 1 {
		w.lead(finding.Line{Symbols: "t = 0 at ROAD itself", Result: n.String()})
		return w
	}
	f, r := in[0].Symbol, in[1].Symbol
	says := map[stance.Moves]string{stance.WithWheel: "−" + f, stance.LimitsDroop: f}[t.Contact.Moves]
	switch {
	case t.Contact.Moves == stance.WithBody && t.Contact.Somewhere:
		says = "the greater of −" + f + " and −" + r
	case t.Contact.Moves == stance.WithBody:
		says = "−(" + f + " + (" + r + " − " + f + ") x ÷ L)"
	case t.Contact.Rear:
		says = strings.ReplaceAll(says, f, r)
	}
	w.lead(finding.Line{Symbols: "t = " + says, Result: n.String()})
	return w
}
