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
	switch measure {
	case "drop from ROAD":
		had, says = v.mostDrop()
	case "sill height at DOWN":
		below = false
		drop, why := v.mostDrop()
		if h.SillAt[1].Known() && drop.Known() {
			had = mm(h.SillAt[1].Value-drop.Value, hypot(h.SillAt[1].Half, drop.Half))
		}
		says = why
	case "lift from ROAD":
		had, says = v.mostLift()
	case "hump cleared":
		lift, why := v.mostLift()
		over := v.limit("way.clear.least")
		if h.LowestAt[1].Known() && lift.Known() {
			had = mm(h.LowestAt[1].Value+lift.Value-over.Value, hypot(h.LowestAt[1].Half, lift.Half))
		}
		says = why + " " + v.humpWords(target.SI(), over)
	case "ride frequency":
		below = false
		for _, c := range v.out.Corners {
			if c.Ride.Known() && (!had.Known() || c.Ride.Value > had.Value) {
				had = c.Ride
			}
		}
	case "leak in 12 h":
		below = false
		for _, l := range v.out.Leaks {
			if l.Lost.Known() {
				had = l.Lost
			}
		}
	}
	if !had.Known() {
		f.Why = "Target " + target.Echo() + ". What can be had is not known yet."
		return
	}
	limit := t(below)
	f.Value, f.Shown = had, ""
	f.Limits = []finding.Limit{limit}
	f.Verdict = finding.Compare(had, limit)
	words := "the most that can be had is"
	if measure == "leak in 12 h" || measure == "ride frequency" {
		words = "it is"
	}
	f.Why = strings.TrimSpace(fmt.Sprintf("Target %s; %s %s. %s", target.Echo(), words, had, says))
	if measure == "drop from ROAD" {
		f.Why = strings.TrimSpace(v.dropWords(target, had, says, f.Verdict) + v.atTarget(target.SI()))
	}
	if f.Verdict == finding.Pass {
		return
	}
	f.Least = "Agree another target with the customer, or change what ends it first."
	if had.Kind == q.KindLength {
		sure := floorMM(had.Value - had.Half)
		if !below {
			sure = ceilMM(had.Value + had.Half)
		}
		f.Least = fmt.Sprintf("Agree %s with the customer, which can be had, or change what ends it first.", mm(sure, 0))
	}
}

// mostDrop is how far the body goes down from ROAD, all axles on air alike,
// before the first bump stop is met or a touch point has less room than stops
// the work, and which it is.
func (v *view) mostDrop() (finding.Number, string) {
	best, says := finding.Number{}, ""
	for _, a := range v.out.Axles {
		n := a.Travel.StopMeets
		if !n.Known() && a.Travel.Bump.Known() {
			n = a.Travel.Bump
		}
		if n.Known() && (!best.Known() || n.Value < best.Value) {
			best, says = n, "The "+a.Name+" stop is met first."
		}
	}
	if !best.Known() {
		return best, says
	}
	for _, t := range v.way.points {
		if t.rec == nil && t.ID != "lowest" || t.Rests {
			continue
		}
		if n, ok := v.dropTo(t); ok && n.Value < best.Value {
			best, says = n, "The "+t.Name+" ends it first."
		}
	}
	return best, says
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
	c := t.Contact
	c.Room -= v.standing(t.meets, true).Value
	if c.Room < 0 {
		c.Room = 0
	}
	m, ok, err := c.Meets(v.wishPath())
	if err != nil || !ok || m.At > 0 {
		return finding.Number{}, false
	}
	drop := -math.Min(m.Pose.Front, m.Pose.Rear)
	half := m.Half
	if m.At < 0 {
		half *= drop / -m.At
	}
	return mm(drop, half), true
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
	return fmt.Sprintf("Target %s; first is %s at %s. %s is not possible without changing it.", target.Echo(), first, had, target.Echo())
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
