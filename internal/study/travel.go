package study

import (
	"fmt"

	"jounce/internal/finding"
	q "jounce/quantity"
	"jounce/source"
	"jounce/spring"
)

// travel works out the budget of each axle that gets numbers.
func (v *view) travel() {
	for i := range AxleNames {
		if v.works(i) {
			v.axleTravel(i)
		}
	}
}

func (v *view) axleTravel(i int) {
	name := AxleNames[i]
	base := "axles." + name
	t := &v.out.Axles[i].Travel
	t.Down, t.High = v.presetChange(i)[0], v.presetChange(i)[1]
	if g := v.read("presets.hump."+name, "", exact); g.OK {
		t.Hump = g.Number
	}
	parts, others, need := v.telescopes(i)
	if len(parts) == 0 && len(others) == 0 {
		t.Gap = "No length of spring or damper is read."
		v.unknown(name+".bump", "travel", "Room up at the "+name+".", finding.Stops, name, need)
		v.unknown(name+".droop", "travel", "Room down at the "+name+".", finding.Stops, name, need)
		return
	}
	b, err := spring.Travel(parts, others)
	if err != nil {
		v.ask(base+".damper.road", v.text(base+".damper.road"), err.Error())
		t.Gap = err.Error()
		return
	}
	t.Known = true
	t.BumpParts, t.DroopParts = endings(b.Bump), endings(b.Droop)
	if len(b.Bump) > 0 {
		t.Bump = mm(b.Bump[0].Travel, b.Bump[0].Half)
		for _, l := range b.Bump {
			if l.FirstStop > 0 {
				t.StopMeets = mm(l.FirstStop, l.Half)
			}
		}
	}
	if len(b.Droop) > 0 {
		t.Droop = mm(b.Droop[0].Travel, b.Droop[0].Half)
	}
	v.judgeTravel(i, t, b, need)
}

// telescopes are spring and damper as far as they are read, and what is read at
// the wheel.
func (v *view) telescopes(i int) (parts []spring.Telescope, others []spring.Limiter, need []finding.Gap) {
	name, axle := AxleNames[i], v.axle(i)
	base := "axles." + name
	road, open, closed := v.read(base+".damper.road", "l", tape), v.read(base+".damper.open", "l_{o}", tape), v.read(base+".damper.closed", "l_{c}", tape)
	free, solid := v.read(base+".stop.free", "", tape), v.read(base+".stop.solid", "", tape)
	dr := v.read(base+".damperRatio", "r", ratio)
	if road.OK && dr.OK && (open.OK || closed.OK) {
		parts = append(parts, spring.Telescope{Name: "damper", Length: road.Value, Open: open.Value, Closed: closed.Value, StopFree: free.Value, StopSolid: solid.Value,
			NoStop: !free.OK && !solid.OK, Half: road.Half, OneTape: true, Ratio: dr.Value, RatioShare: dr.Half / dr.Value})
	}
	need = append(need, gaps("room at the wheel", road, open, closed, dr)...)
	need = append(need, gaps("where the stop is met and where it is solid", free, solid)...)
	if rec := v.springRec(axle.Spring); rec != nil {
		sr, h := v.read(base+".springRatio", "r", ratio), v.read(base+".springHeight", "h", tape)
		so, sc := v.read("springs["+rec.ID+"].open", "", exact), v.read("springs["+rec.ID+"].closed", "", exact)
		if sr.OK && h.OK && (so.OK || sc.OK) {
			parts = append(parts, spring.Telescope{Name: "spring", Length: h.Value, Open: so.Value, Closed: sc.Value, NoStop: true, Half: h.Half, OneTape: true, Ratio: sr.Value, RatioShare: sr.Half / sr.Value})
		}
		need = append(need, gaps("the spring must not end the travel", so, sc)...)
	}
	for _, l := range axle.Limiters {
		at := base + ".limiters[" + l.ID + "]"
		if g := v.read(at+".bump", "", tape); g.OK {
			others = append(others, spring.Limiter{Name: l.Name, Direction: spring.Bump, Travel: g.Value, Half: g.Half, Read: true})
		}
		if g := v.read(at+".droop", "", tape); g.OK {
			others = append(others, spring.Limiter{Name: l.Name, Direction: spring.Droop, Travel: g.Value, Half: g.Half, Read: true})
		}
	}
	return parts, others, need
}

func endings(list []spring.Limiter) []Ending {
	out := make([]Ending, len(list))
	for i, l := range list {
		out[i] = Ending{Name: l.Name, At: mm(l.Travel, l.Half), Ends: i == 0}
	}
	return out
}

func (v *view) judgeTravel(i int, t *Travel, b spring.Budget, need []finding.Gap) {
	name := AxleNames[i]
	judge := func(id, way string, n finding.Number, list []spring.Limiter, keys ...string) {
		if !n.Known() {
			v.unknown(name+"."+id, "travel", "Room "+way+" at the "+name+".", finding.Stops, name, need)
			return
		}
		f := finding.Finding{ID: name + "." + id, Topic: "travel", Place: name, Value: n, Claim: fmt.Sprintf("The %s has room %s from ROAD.", name, way)}
		f.Judge(v.limits(keys...)...)
		if f.Verdict == finding.Fail {
			f.Claim = fmt.Sprintf("The %s has too little room %s from ROAD.", name, way)
		}
		f.Why = "The " + list[0].Name + " ends it."
		if len(list) > 1 {
			f.Why += fmt.Sprintf(" Next the %s, %s.", list[1].Name, mm(list[1].Travel, list[1].Half))
		}
		f.Least = v.least(f, "More room needed:")
		f.Working = travelWorking(list[0], n)
		if f.Verdict == finding.TooClose {
			f.Settle = "Read the " + list[0].Name + " again with a fixed pointer, ± 1 mm."
		}
		v.add(f)
	}
	judge("bump", "up", t.Bump, b.Bump, "travel.bump.least", "travel.bump.want")
	judge("droop", "down", t.Droop, b.Droop, "travel.droop.least", "travel.droop.want")
	if t.Hump.Known() && t.Droop.Known() {
		left := mm(t.Droop.Value-t.Hump.Value, t.Droop.Half)
		f := finding.Finding{ID: name + ".hump", Topic: "travel", Place: name, Value: left, Claim: fmt.Sprintf("At HUMP the %s wheels can still fall.", name), Grade: finding.Stops}
		f.Judge(v.limits("travel.droop.hump")...)
		f.Why = fmt.Sprintf("Room down %s from ROAD, HUMP %s above it.", t.Droop, t.Hump)
		if f.Verdict != finding.Pass {
			f.Least = fmt.Sprintf("HUMP no more than %s above ROAD.", mm(t.Droop.Value-t.Droop.Half-f.Limits[0].Value, 0))
		}
		v.add(f)
	}
	if t.Down.Known() && t.StopMeets.Known() {
		left := mm(t.StopMeets.Value+t.Down.Value, t.StopMeets.Half)
		f := finding.Finding{ID: name + ".down", Topic: "travel", Place: name, Value: left, Claim: "DOWN stays clear of the " + name + " stop."}
		f.Judge(finding.Limit{Key: "travel.down", Name: "DOWN clear of the stop", Below: true, Kind: q.KindLength, Unit: left.Unit, Grade: finding.Note, Source: source.CP})
		f.Why = fmt.Sprintf("The stop meets at %s; DOWN is %s.", t.StopMeets, t.Down)
		v.add(f)
	}
}

func travelWorking(l spring.Limiter, n finding.Number) *finding.Working {
	w := &finding.Working{Doubt: "linear"}
	if l.Read || l.Ratio == 0 {
		w.Notes = []string{"Read at the wheel."}
		return w
	}
	way := "l_{road} − l_{closed} − stop"
	if l.Direction == spring.Droop {
		way = "l_{open} − l_{road}"
	}
	w.Lines = []finding.Line{{Symbols: "t = {" + way + "}/{r}", Numbers: fmt.Sprintf("%s ÷ %.2f", mm(l.Own, 0), l.Ratio), Result: n.String()}}
	return w
}
