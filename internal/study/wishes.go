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

// wishes answers each wish that has a measure, in the order in which they were
// said.
func (v *view) wishes() {
	for n, w := range v.rec.Wishes {
		v.wish(n, w)
	}
}

func (v *view) wish(n int, w job.Wish) {
	f := finding.Finding{ID: "wish." + w.ID, Topic: "wishes", Grade: finding.OwnerSigns, Source: source.Calc, Place: itoa(n + 1),
		Claim: fmt.Sprintf("Wish %d, “%s”", n+1, strings.TrimSpace(w.Words)), Verdict: finding.NotKnown, Shown: "not read"}
	path := "wishes[" + w.ID + "]"
	if w.Measure == "other" {
		f.Grade, f.Shown, f.Why = finding.Note, "by eye", "It has no measure; the customer judges it."
		v.add(f)
		return
	}
	kind, ok := wishKinds[w.Measure]
	if !ok {
		f.Needs = []finding.Gap{{Path: path + ".measure", Label: fmt.Sprintf("Wish %d, measured by", n+1), Why: "says when the wish is met"}}
		v.add(f)
		return
	}
	target, err := job.Parse(kind, w.Target.Value)
	if err != nil {
		if strings.TrimSpace(w.Target.Value) != "" {
			v.ask(path+".target", w.Target.Value, err.Error())
		}
		f.Needs = []finding.Gap{{Path: path + ".target", Label: fmt.Sprintf("Wish %d, target", n+1), Why: "says when the wish is met"}}
		v.add(f)
		return
	}
	v.meet(&f, w.Measure, target)
	v.add(f)
}

var wishKinds = map[string]q.Kind{
	"sill height at DOWN": q.KindLength, "drop from ROAD": q.KindLength, "lift from ROAD": q.KindLength,
	"hump cleared": q.KindLength, "ride frequency": q.KindFrequency, "leak in 12 h": q.KindPressure,
}

// meet holds what can be had against the target.
func (v *view) meet(f *finding.Finding, measure string, target q.Value) {
	h := v.out.Heights
	t := func(below bool) finding.Limit {
		return finding.Limit{Key: "wish", Name: measure, Below: below, Kind: target.Kind(), Value: target.SI(), Unit: target.Unit(), Grade: finding.OwnerSigns, Source: source.Typed}
	}
	had, below, says := finding.Number{}, true, ""
	var how func() *trail
	switch measure {
	case "drop from ROAD":
		had, says = v.mostDrop()
		how = v.dropTrail
	case "sill height at DOWN":
		below = false
		drop, why := v.mostDrop()
		if h.SillAt[1].Known() && drop.Known() {
			had = mm(h.SillAt[1].Value-drop.Value, hypot(h.SillAt[1].Half, drop.Half))
			how = func() *trail { return v.sillTrail(drop, had) }
		}
		says = why
	case "lift from ROAD":
		had, says = v.mostLift()
		how = v.liftTrail
	case "hump cleared":
		lift, why := v.mostLift()
		over := v.limit("way.clear.least")
		if low, _, _ := v.laden(); low.Known() && lift.Known() {
			had = mm(low.Value+lift.Value-over.Value, hypot(low.Half, lift.Half))
			how = func() *trail { return v.humpTrail(lift, over, had) }
		}
		says = why + " " + v.humpWords(target.SI(), over)
	case "ride frequency":
		below = false
		for k, c := range v.out.Corners {
			if c.Ride.Known() && (!had.Known() || c.Ride.Value > had.Value) {
				had = c.Ride
				how = func() *trail { return v.how.ride[k] }
			}
		}
	case "leak in 12 h":
		below = false
		for _, l := range v.out.Leaks {
			if l.Lost.Known() {
				had = l.Lost
				how = func() *trail { return v.how.tank }
			}
		}
	}
	if !had.Known() {
		f.Why = "Target " + target.Echo() + ". What can be had is not known yet."
		return
	}
	limit := t(below)
	f.Value, f.Shown = had, ""
	if how != nil {
		f.Working = how().finding()
	}
	f.Limits = []finding.Limit{limit}
	f.Verdict = finding.Compare(had, limit)
	words := "the most that can be had is"
	if measure == "leak in 12 h" || measure == "ride frequency" {
		words = "it is"
	} else if !below {
		words = "the lowest that can be had is"
	}
	f.Why = strings.TrimSpace(fmt.Sprintf("Target %s; %s %s. %s", target.Echo(), words, had, says))
	if measure == "drop from ROAD" {
		f.Why = strings.TrimSpace(v.dropWords(target, had, says, f.Verdict) + v.atTarget(target.SI()))
	}
	if open := v.wishOpen(measure); f.Verdict != finding.Fail && len(open) > 0 { // what is not read may end it sooner
		f.Verdict, f.Needs, f.Shown = finding.NotKnown, open, countWords(len(open))
		return
	}
	if f.Verdict == finding.Pass {
		return
	}
	f.Least = v.agree(measure, had, below)
}

// agree names the target that can be had for sure, where there is one.
func (v *view) agree(measure string, had finding.Number, below bool) string {
	if had.Kind != q.KindLength {
		return "Agree another target with the customer, or change what ends it first."
	}
	sure, most := floorMM(had.Value-had.Half), math.Inf(1)
	if !below {
		sure = ceilMM(had.Value + had.Half)
	}
	if measure == "sill height at DOWN" {
		most = v.out.Heights.SillAt[1].Value
	}
	if sure <= 0 || sure > most {
		return "Nothing can be agreed for sure while what ends it stays as it is: change that, or read it again."
	}
	return fmt.Sprintf("Agree %s with the customer, which can be had, or change what ends it first.", mm(sure, 0))
}

// wishOpen is what is not read and may end a wish sooner than what is.
func (v *view) wishOpen(measure string) []finding.Gap {
	var open []finding.Gap
	travel := func(way int) {
		moves := v.movers()
		for i := range v.open {
			if moves[i] {
				open = append(open, v.open[i][way]...)
			}
		}
	}
	switch measure {
	case "drop from ROAD", "sill height at DOWN":
		travel(0)
		wheel := false
		for k := range v.rec.Touch {
			wheel = wheel || v.rec.Touch[k].Moves == withWheel
			if rec := &v.rec.Touch[k]; rec.Moves != inDroop && rec.Meets != onRubber && (rec.Name != "" || v.text("touch["+rec.ID+"].room") != "") {
				open = append(open, v.touchNeeds(rec, v.pointOf(rec))...)
			}
		}
		if !wheel {
			open = append(open, finding.Gap{Path: "touch", Label: "Touch point: what stands nearest to tyre, bag or arm as the wheel rises", Why: "it may meet before the stop"})
		}
	case "lift from ROAD":
		travel(1)
	case "hump cleared":
		_, need, _ := v.laden()
		travel(1)
		open = append(open, need...)
	case "ride frequency":
		for k, c := range v.out.Corners {
			if v.works(k/2) && !c.Ride.Known() {
				open = append(open, finding.Gap{Path: "axles." + AxleNames[k/2] + ".airVolume", Label: c.Name + ", ride frequency", Why: "each corner must keep to it"})
			}
		}
	}
	return open
}

// mostDrop is how far the body goes down from ROAD, all axles on air alike,
// before the first bump stop is met or a touch point has less room than stops
// the work, and which it is.
func (v *view) mostDrop() (finding.Number, string) {
	best, says, _ := v.dropEnds()
	return best, says
}

// dropTrail is the working of the most that the body goes down.
func (v *view) dropTrail() *trail {
	n, _, how := v.dropEnds()
	if how == nil {
		return nil
	}
	return how(n)
}

// dropEnds is mostDrop with the working of what ends it.
func (v *view) dropEnds() (finding.Number, string, func(finding.Number) *trail) {
	best, says := finding.Number{}, ""
	var how func(finding.Number) *trail
	for i, a := range v.out.Axles {
		n, t := a.Travel.StopMeets, v.how.stop[i]
		if !n.Known() && a.Travel.Bump.Known() {
			n, t = a.Travel.Bump, v.how.bump[i]
		}
		if n.Known() && (!best.Known() || n.Value < best.Value) {
			best, says = n, "The "+a.Name+" stop is met first."
			how = func(finding.Number) *trail { return t }
		}
	}
	if !best.Known() {
		return best, says, how
	}
	for _, t := range v.way.points {
		if t.rec == nil && t.ID != "lowest" || t.Rests {
			continue
		}
		if n, ok := v.dropTo(t); ok && n.Value < best.Value {
			best, says = n, "The "+t.Name+" ends it first."
			how = func(n finding.Number) *trail { return v.dropToTrail(t, n) }
		}
	}
	return best, says, how
}

// wishPath is the way straight down from ROAD: axles on air alike.
func (v *view) wishPath() stance.Path {
	p, err := stance.NewPath(mostDeep, -mostDeep, v.movers(), stance.Pose{})
	if err != nil {
		return stance.Path{{}}
	}
	return p
}

// dropTo is the change of the axles at which a point has no more than the room
// that stops the work.
func (v *view) dropTo(t touchPoint) (finding.Number, bool) {
	m, drop, ok := v.dropOf(t.Contact, v.standing(t.meets, true).Value)
	if !ok {
		return finding.Number{}, false
	}
	half := m.Half
	if m.At < 0 {
		half *= drop / -m.At
	}
	return mm(drop, half), true
}

// dropOf is where a contact has no more than some room, and how far the axles
// have gone down by then.
func (v *view) dropOf(c stance.Contact, keep float64) (stance.Meeting, float64, bool) {
	c.Room = math.Max(c.Room-keep, 0)
	m, ok, err := c.Meets(v.wishPath())
	return m, -math.Min(m.Pose.Front, m.Pose.Rear), err == nil && ok && m.At <= 0
}

// dropToTrail is the working of a drop that a touch point ends.
func (v *view) dropToTrail(t touchPoint, n finding.Number) *trail {
	limit := v.standing(t.meets, true)
	keep := v.fact("k", "room that must stay", mm(limit.Value, 0), limit.Source)
	room := t.room
	if t.rec == nil { // the lowest hard part
		room = v.lowestAt(1)
	}
	in := []given{room.called("c_{0}", t.Name+", room at ROAD"), keep}
	numbers := fmt.Sprintf("%s − %s", room.Number, keep.Number)
	body := t.Contact.Moves == stance.WithBody
	if !body {
		in = append(in, t.ratio.called("r", t.Name+", room used up per millimetre of travel"))
		numbers = fmt.Sprintf("(%s) ÷ %s", numbers, plainNumber(t.ratio.Number))
	}
	read := t.Contact.Read
	_, w, err := v.compute(n.Kind, n.Unit, func(x []float64) (float64, error) {
		c := t.Contact
		c.Room = x[0]
		if read != (stance.Pose{}) { // its room is taken at ROAD here
			c.Read = stance.Pose{}
		}
		if !body {
			c.Ratio = x[2]
		}
		_, drop, ok := v.dropOf(c, x[1])
		if !ok {
			return 0, fmt.Errorf("%s never meets", t.Name)
		}
		return drop, nil
	}, in...)
	if err != nil {
		return nil
	}
	w.lead(finding.Line{Symbols: map[bool]string{true: "d = c_{0} − k", false: "d = (c_{0} − k) ÷ r"}[body], Numbers: numbers, Result: n.String()})
	return w
}

// sillTrail is the working of the lowest that the sill can stand.
func (v *view) sillTrail(drop, had finding.Number) *trail {
	z, d := v.worked("z_{s ROAD}", "sill over the floor at ROAD", v.out.Heights.SillAt[1], v.sillHow(1)), v.worked("d", "most that the body goes down from ROAD", drop, v.dropTrail())
	_, t, err := v.compute(had.Kind, had.Unit, func(x []float64) (float64, error) { return x[0] - x[1], nil }, z, d)
	if err != nil {
		return nil
	}
	t.lead(finding.Line{Symbols: "z_{least} = " + z.Symbol + " − d", Numbers: fmt.Sprintf("%s − %s", z.Number, drop), Result: had.String()})
	return t
}

// humpTrail is the working of the highest hump that can be cleared.
func (v *view) humpTrail(lift finding.Number, over finding.Limit, had finding.Number) *trail {
	low, _, _ := v.laden()
	z, u := v.ladenAt(low), v.worked("u", "most that the body goes up from ROAD", lift, v.liftTrail())
	k := v.fact("k", "room over the hump", mm(over.Value, 0), over.Source)
	_, t, err := v.compute(had.Kind, had.Unit, func(x []float64) (float64, error) { return x[0] + x[1] - x[2], nil }, z, u, k)
	if err != nil {
		return nil
	}
	t.lead(finding.Line{Symbols: "h = " + z.Symbol + " + u − k", Numbers: fmt.Sprintf("%s + %s − %s", z.Number, lift, k.Number), Result: had.String()})
	return t
}

// liftTrail is the working of the most that the body goes up.
func (v *view) liftTrail() *trail {
	n, _ := v.mostLift()
	keep := v.limit("travel.droop.hump")
	for i, a := range v.out.Axles {
		droop := a.Travel.Droop
		if !droop.Known() || droop.Value-keep.Value != n.Value {
			continue
		}
		d, k := v.worked("t_{droop}", a.Name+", room down from ROAD", droop, v.how.droop[i]), v.fact("k", "room that must stay at HUMP", mm(keep.Value, 0), keep.Source)
		_, t, err := v.compute(n.Kind, n.Unit, func(x []float64) (float64, error) { return x[0] - x[1], nil }, d, k)
		if err != nil {
			return nil
		}
		t.lead(finding.Line{Symbols: "u = t_{droop} − k", Numbers: fmt.Sprintf("%s − %s", droop, k.Number), Result: n.String()})
		return t
	}
	return nil
}

// standing is the limit of a kind of touch with the car standing low: what stops
// the work, or what is wanted.
func (v *view) standing(meets string, stops bool) finding.Limit {
	switch meets {
	case onMetal:
		return v.limit("room.metal.least")
	case onBag:
		return v.limit("room.bag.least")
	case onFloor:
		if stops {
			return v.limit("ground.down.least")
		}
		return v.limit("ground.down.want")
	}
	if meets == onLiner && !stops {
		return v.limit("room.liner.want")
	}
	return v.limit("room.liner.least")
}

// dropWords answers a drop as it was asked: what comes first, and where.
func (v *view) dropWords(target q.Value, had finding.Number, says string, verdict finding.Verdict) string {
	if verdict != finding.Fail {
		return fmt.Sprintf("Target %s; the most that can be had is %s. %s", target.Echo(), had, says)
	}
	first := "what comes first"
	for _, t := range v.way.points {
		if n, ok := v.dropTo(t); ok && t.Contact.Moves != stance.LimitsDroop && abs(n.Value-had.Value) < 1e-6 {
			first = "the " + t.Name
			break
		}
	}
	says = fmt.Sprintf("Target %s; first is %s at %s. %s is not possible without changing it.", target.Echo(), first, had, target.Echo())
	var more []string
	for _, a := range v.out.Axles {
		n := a.Travel.StopMeets
		if !n.Known() {
			n = a.Travel.Bump
		}
		if n.Known() && n.Value < target.SI() && n.Value > had.Value+1e-6 {
			more = append(more, fmt.Sprintf("the %s stop at %s", a.Name, n))
		}
	}
	if len(more) > 0 {
		says += " In the way after it: " + and(more) + "."
	}
	return says
}

// atTarget says what else would have too little room at a drop, or too near to
// call, in the order in which it meets.
func (v *view) atTarget(drop float64) string {
	pose := v.wishPose(-drop)
	var short, close []string
	for _, t := range v.way.points {
		if t.Rests || t.Contact.Moves == stance.LimitsDroop || t.rec == nil && t.ID != "lowest" {
			continue
		}
		r, err := t.Contact.At(pose)
		if err != nil {
			continue
		}
		n, limit := mm(r.Left, r.Half), v.standing(t.meets, false)
		words := fmt.Sprintf("the %s: %s left against a rule of %s", t.Name, n, limit.Text())
		if t.meets == onFloor {
			words = fmt.Sprintf("the %s would stand %s over the floor against %s", t.Name, n, limit.Text())
		}
		switch finding.Compare(n, limit) {
		case finding.Fail:
			short = append(short, words)
		case finding.TooClose:
			close = append(close, words)
		}
	}
	says := ""
	if len(close) > 0 {
		says += fmt.Sprintf(" Next %s: %s.", strings.Join(close, ", and "), map[bool]string{true: "too close to call, read it again with a fixed pointer", false: "too close to call, read them again with a fixed pointer"}[len(close) == 1])
		if len(close) == 2 {
			says = strings.Replace(says, ": too close", ": both too close", 1)
		}
	}
	if len(short) > 0 {
		says += fmt.Sprintf(" Too little room at %s: %s.", mm(drop, 0), strings.Join(short, ", and "))
	}
	return says
}

// wishPose is the body moved by as much as a wish says: the axles on air alike.
func (v *view) wishPose(d float64) stance.Pose {
	m := v.movers()
	p := stance.Pose{}
	if m[0] {
		p.Front = d
	}
	if m[1] {
		p.Rear = d
	}
	return p
}

// humpWords say what a hump needs and at which presets it is cleared.
func (v *view) humpWords(h float64, limit finding.Limit) string {
	o, err := v.humpOf(mm(h, 0))
	if err != nil {
		return limit.Text() + " stay between hump and the lowest part."
	}
	says := limit.Text() + " stay between hump and the lowest part."
	if n, ok := v.lift(o, limit); ok && n.Value > 0 {
		says += fmt.Sprintf(" It needs %s of room, %s above ROAD.", mm(h+limit.Value, 0), n)
	}
	return strings.TrimSpace(says + " " + v.clears(o, limit))
}

// wishMarks are the heights that wishes ask for.
func (v *view) wishMarks() {
	if !v.out.Path.Known {
		return
	}
	for n, w := range v.rec.Wishes {
		target, err := job.Parse(q.KindLength, w.Target.Value)
		if err != nil {
			continue
		}
		var at finding.Number
		switch x := target.SI(); w.Measure {
		case "drop from ROAD":
			at = mm(v.wishPose(-x).Mean(), 0)
		case "lift from ROAD":
			at = mm(v.wishPose(x).Mean(), 0)
		case "sill height at DOWN":
			if sill := v.out.Heights.SillAt[1]; sill.Known() {
				at = mm(x-sill.Value, sill.Half)
			}
		case "hump cleared":
			if o, err := v.humpOf(mm(x, 0)); err == nil {
				if lift, ok := v.lift(o, v.limit("way.clear.least")); ok && lift.Value > 0 {
					at = mm(v.wishPose(lift.Value).Mean(), lift.Half)
				}
			}
		}
		if at.Known() {
			v.out.Path.Wishes = append(v.out.Path.Wishes, WishMark{No: n + 1, Words: strings.TrimSpace(w.Words), Height: at})
		}
	}
}

// mostLift is how far the body goes up from ROAD with the droop kept that HUMP
// must keep.
func (v *view) mostLift() (finding.Number, string) {
	best, says := finding.Number{}, ""
	keep := v.shop.Limit("travel.droop.hump").Value
	for _, a := range v.out.Axles {
		if n := a.Travel.Droop; n.Known() && (!best.Known() || n.Value-keep < best.Value) {
			best, says = n, "The "+a.Name+" droop ends it."
			best.Value -= keep
		}
	}
	return best, says
}
