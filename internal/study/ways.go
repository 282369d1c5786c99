package study

import (
	"fmt"
	"math"
	"strings"

	"jounce/internal/finding"
	"jounce/internal/job"
	q "jounce/quantity"
	"jounce/source"
	"jounce/stance"
)

// obstacle is one thing on the customer's way, and what it needs of each part.
type obstacle struct {
	id, name string
	where    []string // what it is, in the words of its measures
	need     func(t touchPoint) (float64, bool)
	formula  string        // of what the belly needs
	measures []given       // what it was measured by
	how      func() *trail // of what it needs, where that is a short calculation
	short    bool          // a hump that the car stands astride
	gaps     []finding.Gap
}

// ways judges what the customer's car must get over: humps and driveways at a
// driving height, laden; a kerb beside the parked car at DOWN.
func (v *view) ways() {
	r := v.out.Path.Road
	if r.Hump.Known() {
		v.hump(r)
	}
	if r.RampLength.Known() || r.RampRise.Known() {
		v.ramp(r)
	}
	if r.Kerb.Known() {
		v.kerb(r)
	}
	if r.Hump.Known() || r.RampLength.Known() || r.RampRise.Known() {
		v.nose()
	}
}

// radius is what the wheels roll on: the smaller; without a tyre they touch at a
// point, which errs to the high side.
func (v *view) radius() float64 {
	r := 0.0
	for _, w := range v.out.Heights.Wheel {
		if w.Known && (r == 0 || w.Loaded.Value < r) {
			r = w.Loaded.Value
		}
	}
	return r
}

// hump judges the hump that is typed, unless a wish asks for it.
func (v *view) hump(r Ways) {
	o, err := v.humpOf(r.Hump)
	switch {
	case err != nil:
		v.wonder("ways.hump", v.text("ways.hump"), err.Error())
	case o.short && v.wished("hump cleared", r.Hump):
	default:
		v.cross(o)
	}
}

// humpOf is a hump of some height, with the length that is typed where it is the
// same hump.
func (v *view) humpOf(h finding.Number) (obstacle, error) {
	r, base := v.out.Path.Road, v.way.base
	high := v.read("ways.hump", "", tape).called("h", "hump, height")
	if !high.OK || abs(high.Value-h.Value) >= 0.0005 { // a wish's
		high = v.fact("h", "hump, height, of the wish", h, source.Typed)
	}
	long, along := v.read("ways.humpLength", "", tape).called("l", "hump, length"), base.called("L", "wheelbase")
	o := obstacle{id: "ways.hump", name: "the hump", where: []string{h.String() + " high"}, formula: "h", short: true, measures: []given{high}}
	need := h.Value
	o.how = func() *trail { return v.same(mm(need, 0), high.counting(0)) }
	var at map[string]float64
	if r.HumpLength.Known() && abs(r.Hump.Value-h.Value) < 0.0005 {
		o.where, o.measures = append(o.where, r.HumpLength.String()+" long"), append(o.measures, long)
		w, err := stance.RoundHump(h.Value, r.HumpLength.Value)
		if err != nil {
			return o, err
		}
		if base.OK {
			at = v.overAt(w)
			if r.HumpLength.Value > base.Value {
				need, err = stance.HumpNeed(h.Value, r.HumpLength.Value, base.Value)
				o.formula, o.short = "R − √(R^{2} − L^{2} ÷ 4),  R = l^{2} ÷ 8 h + h ÷ 2", false
				o.how = func() *trail {
					_, t, err := v.compute(q.KindLength, mm(0, 0).Unit, func(x []float64) (float64, error) { return stance.HumpNeed(x[0], x[1], x[2]) }, high.counting(0), long.counting(0), along.counting(0))
					if err != nil {
						return nil
					}
					return t
				}
			}
		}
		if err != nil {
			return o, err
		}
	}
	if !o.short { // on a short one the belly needs most
		o.gaps = v.overhangGaps()
	}
	o.need = func(t touchPoint) (float64, bool) {
		if t.Contact.Somewhere || t.Contact.Back >= 0 && t.Contact.Back <= base.Value {
			return need, true
		}
		n, ok := at[t.ID] // under an overhang: at its own place
		return n, ok
	}
	return o, nil
}

// overAt is how high a way reaches under each part whose place is known; under
// "" the most between the axles. It is worked out once.
func (v *view) overAt(w stance.Way) map[string]float64 {
	key := fmt.Sprint(w)
	if at, ok := v.way.over[key]; ok {
		return at
	}
	at := v.rolledOver(w)
	if v.way.over == nil {
		v.way.over = map[string]map[string]float64{}
	}
	v.way.over[key] = at
	return at
}

func (v *view) rolledOver(w stance.Way) map[string]float64 {
	var ids []string
	var back []float64
	for _, t := range v.floorParts() {
		if !t.Contact.Somewhere {
			ids, back = append(ids, t.ID), append(back, t.Contact.Back)
		}
	}
	o, err := w.Over(v.way.base.Value, v.radius(), back...)
	if err != nil {
		return nil
	}
	at := map[string]float64{"": o.Between}
	for i, id := range ids {
		at[id] = o.At[i]
	}
	return at
}

// floorParts are the parts that may meet the floor: the lowest, the sill, and
// the touch points.
func (v *view) floorParts() []touchPoint {
	var out []touchPoint
	for _, t := range v.way.points {
		if t.Contact.Moves == stance.WithBody && t.meets == onFloor && t.ID != "sill" {
			out = append(out, t)
		}
	}
	return out
}

func (v *view) ramp(r Ways) {
	if !r.RampLength.Known() || !r.RampRise.Known() || !v.way.base.OK {
		v.unknown("ways.ramp", "ways", "The car gets up the driveway.", finding.OwnerSigns, "", gaps("the shape of the driveway",
			v.read("ways.rampLength", "", tape), v.read("ways.rampRise", "", tape), v.way.base))
		return
	}
	w, err := stance.Driveway(r.RampStep.Value, r.RampLength.Value, r.RampRise.Value)
	if err != nil {
		v.wonder("ways.rampRise", v.text("ways.rampRise"), fmt.Sprintf("A driveway %s long that rises %s is steeper than a car climbs; no more than half of its length was expected. Were length and rise exchanged?",
			mm(r.RampLength.Value, 0), mm(r.RampRise.Value, 0)))
		return
	}
	angle := finding.Of(q.KindAngle, "°", stance.RampAngle(r.RampLength.Value, r.RampRise.Value), 0)
	o := obstacle{id: "ways.ramp", name: "the driveway", where: []string{finding.Show(q.KindAngle, "°", angle.Value, 1) + " steep"},
		measures: []given{v.read("ways.rampLength", "", tape).called("l", "driveway, length"), v.read("ways.rampRise", "", tape).called("h", "driveway, rise")}}
	if r.RampStep.Known() && r.RampStep.Value > 0 {
		o.where = append(o.where, "a step of "+r.RampStep.String()+" at its foot")
		o.measures = append(o.measures, v.read("ways.rampStep", "", tape).called("h_{s}", "driveway, step at its foot"))
	}
	at := v.overAt(w)
	o.formula = "rolled over, exact in the plane"
	o.need = func(t touchPoint) (float64, bool) {
		if t.Contact.Somewhere {
			n, ok := at[""]
			return n, ok
		}
		n, ok := at[t.ID]
		return n, ok
	}
	o.gaps = v.overhangGaps()
	v.cross(o)
}

// overhangGaps asks for a part under each overhang.
func (v *view) overhangGaps() []finding.Gap {
	nose, tail := false, false
	for _, t := range v.floorParts() {
		if !t.Contact.Somewhere {
			nose, tail = nose || t.Contact.Back < 0, tail || t.Contact.Back > v.way.base.Value
		}
	}
	var need []finding.Gap
	if !nose {
		need = append(need, finding.Gap{Path: "touch", Label: "Touch point: front valance or lip, with its place ahead of the front axle", Why: "the nose meets a slope first"})
	}
	if !tail {
		need = append(need, finding.Gap{Path: "touch", Label: "Touch point: rear valance, tow eye or tailpipe, with its place behind the rear axle", Why: "the tail comes down while the nose climbs"})
	}
	return need
}

// unread is what an obstacle waits for in a preset: a part between the axles,
// where none is read. Nothing hangs under the lowest hard part: where that much
// room is enough all along the car, none is asked for.
func (v *view) unread(o obstacle, k int, limit finding.Limit) []finding.Gap {
	for _, t := range v.floorParts() {
		if t.Contact.Somewhere || t.Contact.Back >= 0 && t.Contact.Back <= v.way.base.Value {
			return nil
		}
	}
	anywhere := touchPoint{Contact: stance.Contact{Somewhere: true}}
	if low := v.out.Heights.LowestAt[k]; low.Known() {
		if need, ok := o.need(anywhere); ok && finding.Compare(mm(low.Value-v.sunk()-need, low.Half), limit) == finding.Pass {
			return nil
		}
	}
	open := []finding.Gap{{Path: "touch", Label: "Touch point: what hangs lowest between the axles, with its place behind the front axle", Why: "the belly comes down on it"}}
	if o.short {
		open = append(open, v.overhangGaps()...)
	}
	return open
}

// part is one part over an obstacle in one pose.
type part struct {
	name   string
	room   finding.Number // over what it needs
	need   float64
	height finding.Number
	stale  string
	point  touchPoint
	preset int
}

// over is the part with the least room over an obstacle in a preset, laden.
func (v *view) over(o obstacle, k int) (part, bool) {
	best, ok := part{}, false
	c := v.out.Heights.Change[k]
	if !c[0].Known() {
		return best, false
	}
	pose := stance.Pose{Front: c[0].Value, Rear: c[1].Value}
	for _, t := range v.floorParts() {
		need, known := o.need(t)
		if !known {
			continue
		}
		r, err := t.Contact.At(pose)
		if err != nil {
			continue
		}
		if n := mm(r.Left-v.sunk()-need, r.Half); !ok || n.Value < best.room.Value {
			best, ok = part{name: t.Name, room: n, need: need, height: mm(r.Left-v.sunk(), r.Half), stale: staleOf(t.room), point: t, preset: k}, true
		}
	}
	return best, ok
}

// sunk is how far load sinks the car: as the lowest part was read laden [m].
func (v *view) sunk() float64 {
	n, _, _ := v.laden()
	if low := v.out.Heights.LowestAt[1]; n.Known() && low.Known() {
		return low.Value - n.Value
	}
	return 0
}

// cross judges an obstacle at ROAD or, where that does not clear it, at HUMP.
func (v *view) cross(o obstacle) {
	f := finding.Finding{ID: o.id, Topic: "ways", Claim: "The car clears " + o.name + "."}
	limit := v.limit("way.clear.least")
	_, need, _ := v.laden()
	need = append(append([]finding.Gap(nil), need...), v.roadGaps()...)
	need = append(need, o.gaps...)
	chosen, where := part{}, ""
	for _, k := range []int{1, 2} {
		p, ok := v.over(o, k)
		if !ok {
			continue
		}
		one := finding.Finding{ID: o.id, Topic: "ways", Claim: f.Claim, Value: p.room}
		one.Judge(limit)
		if open := v.unread(o, k, limit); one.Verdict != finding.Fail && len(open) > 0 {
			one.Verdict, one.Needs = finding.NotKnown, open
		}
		if where == "" || one.Verdict != finding.Fail && f.Verdict == finding.Fail || one.Verdict == finding.Pass {
			f, chosen, where = one, p, PresetNames[k]
		}
		if f.Verdict == finding.Pass {
			break
		}
	}
	if where == "" {
		low := v.read("survey.lowest", "z", tape)
		v.unknown(f.ID, f.Topic, f.Claim, finding.OwnerSigns, "", append(gaps("what meets it first", low), need...))
		return
	}
	f.Claim = fmt.Sprintf("The car clears %s at %s.", o.name, where)
	f.Why = fmt.Sprintf("%s: the %s stands %s over the floor at %s, laden, and needs %s. %s", upper(strings.Join(o.where, ", ")), chosen.name, chosen.height, where,
		mm(chosen.need, 0), v.clears(o, limit))
	f.Working = v.wayWorking(o, chosen).finding()
	f.NotEvidence = chosen.stale
	switch {
	case f.Verdict == finding.Fail:
		f.Claim = fmt.Sprintf("The %s meets %s at %s.", chosen.name, o.name, where)
		f.Least = v.leastHeight(o, limit)
	case len(need)+len(f.Needs) > 0:
		f.Needs = append(f.Needs, need...)
		f.Verdict, f.Shown = finding.NotKnown, countWords(len(f.Needs))
	case f.Verdict == finding.TooClose:
		f.Least = v.leastHeight(o, limit)
		f.Settle = "Read the " + chosen.name + " again with a fixed pointer, ± 1 mm."
	}
	v.add(f)
}

// clears says at which presets an obstacle is cleared.
func (v *view) clears(o obstacle, limit finding.Limit) string {
	var yes, no, close, open []string
	for k, name := range PresetNames {
		if p, ok := v.over(o, k); ok {
			verdict := finding.Compare(p.room, limit)
			switch {
			case verdict == finding.Fail:
				no = append(no, name)
			case len(v.unread(o, k, limit)) > 0:
				open = append(open, name)
			case verdict == finding.Pass:
				yes = append(yes, name)
			default:
				close = append(close, name)
			}
		}
	}
	var out []string
	for _, s := range []struct {
		words string
		list  []string
	}{{"Cleared at ", yes}, {"not cleared at ", no}, {"too close to call at ", close}, {"not enough known at ", open}} {
		if len(s.list) > 0 {
			out = append(out, s.words+and(s.list))
		}
	}
	if len(out) == 0 {
		return ""
	}
	return upper(strings.Join(out, ", ")) + "."
}

// and joins words: "DOWN, ROAD and HUMP".
func and(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:len(list)-1], ", ") + " and " + list[len(list)-1]
}

// lift is the least height over ROAD, both axles alike, at which an obstacle is
// cleared with the shop's distance.
func (v *view) lift(o obstacle, limit finding.Limit) (finding.Number, bool) {
	p, ok := v.over(o, 1)
	if !ok {
		return finding.Number{}, false
	}
	return mm(limit.Value-p.room.Value, p.room.Half), true
}

func (v *view) leastHeight(o obstacle, limit finding.Limit) string {
	n, ok := v.lift(o, limit)
	if !ok {
		return ""
	}
	sure := mm(ceilMM(n.Value+n.Half), 0)
	says := fmt.Sprintf("It is cleared for sure %s above ROAD", sure)
	if len(o.gaps)+len(v.unread(o, 1, limit)) > 0 {
		says = fmt.Sprintf("That part clears it %s above ROAD, others are not read", sure)
	}
	if most, _ := v.mostLift(); most.Known() {
		if most.Value-most.Half >= sure.Value-1e-9 {
			return says + ", which the travel allows: HUMP there."
		}
		return says + fmt.Sprintf("; the travel allows %s. Longer travel, or another way.", mm(floorMM(math.Max(0, most.Value-most.Half)), 0))
	}
	return says + "."
}

// wayWorking is the working of the room over an obstacle.
func (v *view) wayWorking(o obstacle, p part) *trail {
	z := v.worked("z", p.name+" over the floor at "+PresetNames[p.preset]+", laden", p.height, v.partHeight(p))
	n := v.worked("n", "what it needs over "+o.name, mm(p.need, 0), v.needOf(o, p))
	room, w, err := v.compute(q.KindLength, v.shop.Unit(q.KindLength), func(x []float64) (float64, error) { return x[0] - x[1], nil }, z, n)
	if err != nil {
		return nil
	}
	w.lead(finding.Line{Symbols: "m = z − n", Numbers: fmt.Sprintf("%s − %s", z.Number, n.Number), Result: room.String()})
	w.note("At a walking pace, level across; the suspension does not move and the tyres do not give.", "What is on the way is taken as typed, without ±.")
	return w
}

// needOf is the working of what an obstacle needs of a part. Where the car had
// to be rolled over it, its measures are named without what each would do.
func (v *view) needOf(o obstacle, p part) *trail {
	var t *trail
	if o.how != nil && (p.point.Contact.Somewhere || p.point.Contact.Back >= 0 && p.point.Contact.Back <= v.way.base.Value) {
		t = o.how()
	}
	formula := o.formula
	if t == nil {
		formula = "rolled over, exact in the plane"
		t = &trail{Working: &finding.Working{}}
		for _, g := range append(append([]given(nil), o.measures...), v.way.base.called("L", "wheelbase")) {
			t.also(g.term(0))
		}
	}
	t.lead(finding.Line{Symbols: "n = " + formula, Result: mm(p.need, 0).String()})
	return t
}

// partHeight is the working of a floor part's height at a preset, laden.
func (v *view) partHeight(p part) *trail {
	t, k := p.point, p.preset
	if t.rec == nil {
		low, _, _ := v.laden()
		if g := v.read("survey.lowestLaden", "", tape); g.OK && low.Known() {
			laden := v.ladenAt(low)
			return v.moved(t, k, laden, p.height)
		}
		return v.lowestHow(k)
	}
	return v.moved(t, k, v.ladenRoom(t), p.height)
}

// ladenRoom is a touch point's height over the floor at ROAD, less what load
// sinks the car.
func (v *view) ladenRoom(t touchPoint) given {
	room := t.room.called("c_{0}", t.Name+", over the floor at ROAD")
	if s := v.sunk(); s != 0 {
		low, _, _ := v.laden()
		a, b := v.lowestAt(1), v.ladenAt(low)
		_, w, err := v.compute(room.Kind, room.Unit, func(x []float64) (float64, error) { return x[0] - (x[1] - x[2]), nil }, room, a.counting(0), b.counting(0))
		if err == nil {
			n := room.Number
			n.Value -= s
			w.lead(finding.Line{Symbols: "c = c_{0} − (" + a.Symbol + " − " + b.Symbol + ")", Numbers: fmt.Sprintf("%s − (%s − %s)", room.Number, a.Number, b.Number), Result: n.String()})
			room = v.worked("c", t.Name+", over the floor at ROAD, laden", n, w)
		}
	}
	return room
}

// moved is a height at ROAD after the body's fall to a preset.
func (v *view) moved(t touchPoint, k int, room given, n finding.Number) *trail {
	c := v.out.Heights.Change[k]
	fall := mm(0, 0)
	r, err := t.Contact.At(stance.Pose{Front: c[0].Value, Rear: c[1].Value})
	if r0, err0 := t.Contact.At(stance.Pose{}); err == nil && err0 == nil {
		fall = mm(r0.Left-r.Left, 0)
	}
	var how *trail
	if t.rec != nil {
		how = v.travelled(t, k, fall)
	} else {
		how = v.travelled(touchPoint{Touch: t.Touch, Contact: stance.Contact{Moves: stance.WithBody, Room: 1, Somewhere: true}}, k, fall)
	}
	_, w, err := v.compute(n.Kind, n.Unit, func(x []float64) (float64, error) { return x[0] - x[1], nil }, room, v.worked("t", "fall of the body there, "+PresetNames[k], fall, how).counting(0))
	if err != nil {
		return nil
	}
	w.lead(finding.Line{Symbols: "z = " + room.Symbol + " − t", Numbers: room.String() + " − " + bracketed(fall), Result: n.String()})
	return w
}

// kerb holds the sill at DOWN against a kerb beside the parked car.
func (v *view) kerb(r Ways) {
	f := finding.Finding{ID: "ways.kerb", Topic: "ways", Claim: "The sill stays over the kerb at DOWN."}
	sill := v.out.Heights.SillAt[0]
	if !sill.Known() {
		v.unknown(f.ID, f.Topic, f.Claim, finding.OwnerSigns, "", append(append(gaps("what stands over the kerb", v.read("survey.sill", "z", tape)), v.roadGaps()...),
			gaps("the height when parked", v.read("presets.down.front", "", exact), v.read("presets.down.rear", "", exact))...))
		return
	}
	z, k := v.worked("z", "sill over the floor at DOWN", sill, v.sillHow(0)), v.read("ways.kerb", "k", tape)
	n, w, err := v.compute(q.KindLength, v.shop.Unit(q.KindLength), func(x []float64) (float64, error) { return x[0] - x[1], nil }, z, k)
	if err != nil {
		return
	}
	w.lead(finding.Line{Symbols: "m = z − k", Numbers: fmt.Sprintf("%s − %s", sill, k.Number), Result: n.String()})
	f.Value, f.Working = n, w.finding()
	limit := v.limit("way.clear.least")
	f.Judge(limit)
	var yes []string
	for p, name := range PresetNames {
		if s := v.out.Heights.SillAt[p]; s.Known() && finding.Compare(mm(s.Value-k.Value, hypot(s.Half, k.Half)), limit) == finding.Pass {
			yes = append(yes, name)
		}
	}
	f.Why = fmt.Sprintf("Sill %s over the floor at DOWN, kerb %s.", sill, k.Number)
	if len(yes) > 0 {
		f.Why += " Cleared at " + and(yes) + "."
	}
	switch f.Verdict {
	case finding.Fail:
		f.Claim = "The sill comes down on the kerb at DOWN."
		if n.Value > 0 {
			f.Claim = "The sill stands too near the kerb at DOWN."
		}
		f.Least = v.least(f, "Park off the kerb, or set DOWN higher by")
	case finding.TooClose:
		f.Least, f.Settle = v.least(f, "Park off the kerb, or set DOWN higher by"), "Read the sill again with a fixed pointer, ± 1 mm."
	}
	f.NotEvidence = staleOf(k)
	v.add(f)
}

// nose judges the angle under the nose at ROAD (handbook calculation 15).
func (v *view) nose() {
	f := finding.Finding{ID: "ways.nose", Topic: "ways", Place: "front", Claim: "The nose meets no slope up to the angle that is wanted, at ROAD, laden."}
	degrees, _ := q.UnitOf(q.KindAngle, "°")
	found := false
	for _, t := range v.floorParts() {
		if t.Contact.Somewhere || t.Contact.Back >= 0 || t.rec == nil {
			continue
		}
		over := v.read("touch["+t.rec.ID+"].x", "a", tape)
		over.Value, over.Label = -over.Value, t.Name+", ahead of the front axle"
		room := v.ladenRoom(t).called("z", t.Name+", over the floor at ROAD, laden")
		n, w, err := v.compute(q.KindAngle, degrees, func(x []float64) (float64, error) { return stance.NoseAngle(x[0], x[1]) }, room, over)
		if err != nil || found && n.Value >= f.Value.Value {
			continue
		}
		w.lead(finding.Line{Symbols: "α = atan {z}/{a}", Numbers: fmt.Sprintf("atan (%s ÷ %s)", room.Number, over.Number), Result: n.String()})
		found, f.Value, f.Working, f.NotEvidence = true, n, w.finding(), staleOf(t.room)
		f.Why = fmt.Sprintf("The %s, %s over the floor, laden.", t.Name, room.Number)
	}
	if !found {
		v.unknown(f.ID, f.Topic, f.Claim, finding.OwnerSigns, "front", []finding.Gap{{Path: "touch", Label: "Touch point: front valance or lip, with its place ahead of the front axle", Why: "the nose meets a slope first"}})
		return
	}
	limit := v.limit("way.nose.least")
	limit.Unit = degrees
	f.Judge(limit)
	if f.Verdict == finding.Fail || f.Verdict == finding.TooClose {
		over := math.Abs(f.Working.Terms[1].Value.Value)
		up := mm(ceilMM(over*(math.Tan(limit.Value)-math.Tan(f.Value.Worst(limit)))), 0)
		f.Least = fmt.Sprintf("The nose higher by %s before a slope.", up)
	}
	_, need, _ := v.laden()
	switch {
	case f.Verdict == finding.Fail:
		f.Claim = "The nose meets slopes of less than the angle that is wanted, at ROAD, laden."
	case len(need) > 0:
		f.Verdict, f.Needs, f.Shown, f.Least = finding.NotKnown, need, countWords(len(need)), ""
	}
	if f.Verdict == finding.TooClose {
		f.Settle = "Read the lip again with a fixed pointer, ± 1 mm."
	}
	v.add(f)
}

// wished tells that a wish asks for the same hump.
func (v *view) wished(measure string, n finding.Number) bool {
	for _, w := range v.rec.Wishes {
		if w.Measure != measure {
			continue
		}
		if t, err := job.Parse(q.KindLength, w.Target.Value); err == nil && abs(t.SI()-n.Value) < 0.0005 {
			return true
		}
	}
	return false
}
