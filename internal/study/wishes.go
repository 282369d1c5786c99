package study

import (
	"fmt"
	"strings"

	"jounce/internal/finding"
	"jounce/internal/job"
	q "jounce/quantity"
	"jounce/source"
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
		if h.LowestAt[1].Known() && lift.Known() {
			had = mm(h.LowestAt[1].Value+lift.Value-0.025, hypot(h.LowestAt[1].Half, lift.Half))
		}
		says = why + " 25 mm stay between hump and the lowest part."
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

// mostDrop is how far the body goes down from ROAD before the first bump stop
// is met, and which it is.
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
	return best, says
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
