package study

import (
	"math"

	"jounce/internal/finding"
	"jounce/num/doubt"
	"jounce/quantity"
	"jounce/source"
)

// trail is a working that goes on: the readings behind a number, and what each
// does to it. A number that rests on another one leads its trail on.
type trail struct {
	*finding.Working
	number finding.Number
	leaves []leaf // one for each of Terms
}

// kept are the trails of numbers that other numbers rest on.
type kept struct {
	sprung       [4]*trail    // mass on the spring, as weighed
	load         [4][3]*trail // the same in the cases
	added        [4]given     // what a full car adds to the weight
	pressure     [4][3]*trail
	ride         [4]*trail
	frequency    [2]*trail // of an axle
	bump, droop  [2]*trail
	stop         [2]*trail // where the bump stop is met
	sill, lowest [4]*trail // over the floor at the presets, once they are asked for
	scrub        [2]*trail
	tank         *trail // the last test's
}

// leaf is what one reading or fact does at the end of a trail.
type leaf struct {
	five float64 // change of the number with five per cent more of it; NaN where that was not worked out [SI]
	half float64 // ± of the number by its doubt alone [SI]
	at   shift   // of the inputs, with five per cent more of it
	more []shift // where it comes in on several ways
}

// shift is what five per cent more of a leaf does to one input of a calculation.
type shift struct {
	input int
	by    float64
}

// counting is a reading whose ± enters a calculation with another width than it
// was read with: nothing where one tape or gauge has been counted already.
func (g given) counting(half float64) given {
	g.counts, g.own = half, true
	return g
}

// input is what enters a calculation.
func (g given) input() doubt.Input {
	if g.own {
		return doubt.Input{Value: g.Value, Half: g.counts}
	}
	return doubt.Input{Value: g.Value, Half: g.Half}
}

// called names a reading for one working: its symbol and its words there.
func (g given) called(symbol, label string) given {
	g.Symbol, g.Label = symbol, label
	return g
}

// lead puts formulas before those of the numbers that the working rests on.
func (t *trail) lead(lines ...finding.Line) {
	t.Lines = append(lines, t.Lines...)
}

// finding is the working of a trail, nil where there is none.
func (t *trail) finding() *finding.Working {
	if t == nil {
		return nil
	}
	if t.Effects == nil {
		t.effects()
	}
	return t.Working
}

// compute runs a calculation on inputs that are all known, carries their doubts
// through it linearly and writes the terms and effects of its working. Inputs
// that were worked out themselves stand among its steps, their readings among its
// terms: the shares multiply, and five per cent more of a reading is carried
// through both calculations.
func (v *view) compute(kind quantity.Kind, unit quantity.Unit, f doubt.Func, in ...given) (finding.Number, *trail, error) {
	x := make([]doubt.Input, len(in))
	for i, g := range in {
		x[i] = g.input()
	}
	r, err := v.carry(f, x)
	if err != nil {
		return finding.Number{}, nil, err
	}
	at := make([]float64, len(in))
	n := finding.Number{Value: r.Value, Half: r.Half, Kind: kind, Unit: unit}
	return n, lay(n, r, in, func(l leaf) float64 {
		for i := range x {
			at[i] = x[i].Value
		}
		at[l.at.input] += l.at.by
		for _, s := range l.more {
			at[s.input] += s.by
		}
		y, err := f(at)
		if err != nil {
			return math.NaN()
		}
		return y - r.Value
	}), nil
}

// number is compute for one of several numbers of which the working is not
// shown.
func (v *view) number(kind quantity.Kind, unit quantity.Unit, f doubt.Func, in ...given) (finding.Number, error) {
	x := make([]doubt.Input, len(in))
	for i, g := range in {
		x[i] = g.input()
	}
	r, err := v.carry(f, x)
	return finding.Number{Value: r.Value, Half: r.Half, Kind: kind, Unit: unit}, err
}

func (v *view) carry(f doubt.Func, x []doubt.Input) (doubt.Result, error) {
	r, err := doubt.Linear(f, x)
	if err == nil && v.watch != nil {
		v.watch(f, x, r)
	}
	return r, err
}

// engine is the trail of a number that an engine carried doubts to: its own
// effects and shares, in the order of the inputs. Five per cent more of a reading
// behind an input is taken in proportion.
func (v *view) engine(n finding.Number, r doubt.Result, in ...given) *trail {
	one := func(s shift) float64 {
		switch x := in[s.input]; {
		case x.Value != 0:
			return r.PlusFive[s.input] * s.by / (0.05 * x.Value)
		case x.input().Half != 0:
			return r.Effects[s.input] * s.by / x.input().Half
		}
		return 0
	}
	return lay(n, r, in, func(l leaf) float64 {
		sum := one(l.at)
		for _, s := range l.more {
			sum += one(s)
		}
		return sum
	})
}

// lay writes a working from what each input does; five works out what shifted
// inputs do together.
func lay(n finding.Number, r doubt.Result, in []given, five func(leaf) float64) *trail {
	leaves, steps := 0, 0
	for _, g := range in {
		if g.from == nil {
			leaves++
		} else {
			leaves, steps = leaves+len(g.from.Terms), steps+1+len(g.from.Steps)
		}
	}
	t := &trail{Working: &finding.Working{Doubt: "linear", Terms: make([]finding.Term, 0, leaves+1)}, number: n, leaves: make([]leaf, 0, leaves+1)}
	if steps > 0 {
		t.Steps = make([]finding.Term, 0, steps)
	}
	for i := range in {
		g := &in[i]
		if g.from != nil {
			t.behind(i, g, r)
			continue
		}
		t.put(g.term(r.Shares[i]), leaf{half: math.Abs(r.Effects[i]), at: shift{i, 0.05 * g.Value}})
	}
	for k := range t.leaves {
		l := &t.leaves[k]
		if l.more == nil && in[l.at.input].from == nil {
			l.five = r.PlusFive[l.at.input]
		} else if !math.IsNaN(l.five) {
			l.five = five(*l)
		}
	}
	return t
}

// term is a reading as it stands in a working.
func (g *given) term(share float64) finding.Term {
	return finding.Term{Symbol: g.Symbol, Name: g.Label, Value: g.Number, Mark: g.Mark, Path: g.Path, Who: g.Who, Share: share}
}

// also names a reading that a working shows and that does nothing to its number,
// or of which it was not worked out what it does.
func (t *trail) also(term finding.Term) {
	t.put(term, leaf{five: math.NaN()})
}

// behind leads the trail of an input on.
func (t *trail) behind(i int, g *given, r doubt.Result) {
	part := 0.0 // of the input's ± in that of the result
	if half := g.from.number.Half; half > 0 {
		part = math.Abs(r.Effects[i]) / half
	}
	step := g.term(r.Shares[i])
	step.Path = "" // its readings are the places
	t.step(step)
	for _, s := range g.from.Steps {
		s.Share *= step.Share
		t.step(s)
	}
	for _, l := range g.from.Lines {
		t.line(l)
	}
	t.note(g.from.Notes...)
	for k, term := range g.from.Terms {
		l := g.from.leaves[k]
		term.Share *= step.Share
		t.put(term, leaf{five: l.five, half: l.half * part, at: shift{i, l.five}})
	}
}

// put keeps a leaf; one that is there already, on another way, adds up.
func (t *trail) put(term finding.Term, l leaf) {
	for k := range t.Terms {
		old := &t.Terms[k]
		if term.Path != old.Path || term.Path == "" && (term.Name != old.Name || term.Symbol != old.Symbol || term.Value != old.Value) {
			continue
		}
		old.Share += term.Share
		was := &t.leaves[k]
		was.half = math.Hypot(was.half, l.half)
		was.five += l.five // only to keep that one was not worked out
		was.more = append(was.more, l.at)
		return
	}
	t.Terms, t.leaves = append(t.Terms, term), append(t.leaves, l)
}

// widen gives a trail the ± that its number is shown with.
func (t *trail) widen(n finding.Number) {
	if t.number.Half > 0 {
		for k := range t.leaves {
			t.leaves[k].half *= n.Half / t.number.Half
		}
	}
	t.number = n
}

func (t *trail) step(s finding.Term) {
	for k, old := range t.Steps {
		if old.Symbol == s.Symbol && old.Name == s.Name && old.Value == s.Value {
			t.Steps[k].Share += s.Share
			return
		}
	}
	t.Steps = append(t.Steps, s)
}

func (t *trail) line(l finding.Line) {
	for _, old := range t.Lines {
		if old == l {
			return
		}
	}
	t.Lines = append(t.Lines, l)
}

func (t *trail) note(says ...string) {
	for _, s := range says {
		known := false
		for _, old := range t.Notes {
			known = known || old == s
		}
		if !known {
			t.Notes = append(t.Notes, s)
		}
	}
}

// effects are what each leaf does to the number; what does nothing is left out.
// A number of nothing has no per cent: its changes are in its unit alone.
func (t *trail) effects() {
	most := 0.0
	for _, l := range t.leaves {
		most = math.Max(most, l.half)
		if !math.IsNaN(l.five) {
			most = math.Max(most, math.Abs(l.five))
		}
	}
	n := t.number
	of := math.Abs(n.Value)
	if of < 1e-9*most {
		of = 0
	}
	t.Effects = make([]finding.Effect, 0, len(t.leaves))
	for k, l := range t.leaves {
		if math.IsNaN(l.five) || math.Abs(l.five) < 1e-3*most && l.half < 1e-3*most {
			continue
		}
		e := finding.Effect{Name: t.Terms[k].Name, Change: finding.Number{Value: l.five, Kind: n.Kind, Unit: n.Unit}, Half: finding.Number{Value: l.half, Kind: n.Kind, Unit: n.Unit}}
		if of > 0 {
			e.Percent, e.Doubt = 100*l.five/of, 100*l.half/of
		}
		t.Effects = append(t.Effects, e)
	}
}

// same is a number taken over as it is from where it was worked out, or read.
func (v *view) same(n finding.Number, g given) *trail {
	one := func(x []float64) (float64, error) { return x[0], nil }
	_, t, err := v.compute(n.Kind, n.Unit, one, g)
	if err != nil {
		return nil
	}
	return t
}

// worked is a number that was worked out, with its trail.
func (v *view) worked(symbol, label string, n finding.Number, t *trail) given {
	g := v.fact(symbol, label, n, source.Derived)
	g.from = t
	return g
}
