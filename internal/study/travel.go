package study

import (
	"fmt"
	"math"

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
	t := &v.out.Axles[i].Travel
	t.Down, t.Hump, t.High = v.change[0][i], v.change[2][i], v.change[3][i]
	parts, others, up, down := v.telescopes(i)
	v.open[i] = [2][]finding.Gap{up, down}
	b, err := spring.Travel(parts, others)
	if err != nil && len(parts)+len(others) > 0 {
		v.ask("axles."+name+".damper.road", v.text("axles."+name+".damper.road"), err.Error())
		b = spring.Budget{}
	}
	t.BumpParts, t.DroopParts = endings(b.Bump), endings(b.Droop)
	t.Known = len(b.Bump)+len(b.Droop) > 0
	if !t.Known {
		t.Gap = "No length of spring or damper can be used."
	}
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
	v.room(i, "bump", "up", t.Bump, b.Bump, up, "travel.bump.least", "travel.bump.want")
	v.room(i, "droop", "down", t.Droop, b.Droop, down, "travel.droop.least", "travel.droop.want")
	v.stretched(i, b.Droop, down)
	v.presetRoom(i, t, up, down)
}

// telescopes are spring and damper as far as they are read, what is read at the
// wheel, and what is missing for a pass upwards and downwards.
func (v *view) telescopes(i int) (parts []spring.Telescope, others []spring.Limiter, up, down []finding.Gap) {
	name, axle := AxleNames[i], v.axle(i)
	base := "axles." + name
	road, open, closed := v.read(base+".damper.road", "l", tape), v.read(base+".damper.open", "l_{o}", tape), v.read(base+".damper.closed", "l_{c}", tape)
	free, solid := v.read(base+".stop.free", "", tape), v.read(base+".stop.solid", "", tape)
	dr := v.read(base+".damperRatio", "r", ratio)
	v.orderly("damper", &road, &closed, &open)
	if free.OK && solid.OK && solid.Value > free.Value {
		v.ask(solid.Path, v.text(solid.Path), fmt.Sprintf("The stop is %s long squeezed solid and %s free. Squeezed it is the shorter one.", solid.Number, free.Number))
		free.OK, solid.OK = false, false
	}
	if road.OK && closed.OK && solid.OK && solid.Value >= road.Value-closed.Value {
		v.ask(solid.Path, v.text(solid.Path), fmt.Sprintf("The stop, %s solid, is longer than the %s that the damper has from ROAD.", solid.Number, mm(road.Value-closed.Value, 0)))
		free.OK, solid.OK = false, false
	}
	if road.OK && dr.OK && (open.OK || closed.OK) {
		one := spring.Telescope{Name: "damper", Length: road.Value, NoStop: !free.OK || !solid.OK, Half: road.Half, OneTape: true, Ratio: dr.Value, RatioShare: dr.Half / dr.Value}
		if open.OK {
			one.Open = open.Value
		}
		if closed.OK {
			one.Closed = closed.Value
		}
		if !one.NoStop {
			one.StopFree, one.StopSolid = free.Value, solid.Value
		}
		parts = append(parts, one)
	}
	up = append(gaps("room at the wheel", road, closed, dr), gaps("where the stop is met and where it is solid", free, solid)...)
	down = gaps("room at the wheel", road, open, dr)
	if rec := v.springRec(axle.Spring); rec != nil {
		sr, h := v.read(base+".springRatio", "r", ratio), v.read(base+".springHeight", "h", tape)
		so, sc := v.read("springs["+rec.ID+"].open", "", exact), v.read("springs["+rec.ID+"].closed", "", exact)
		v.orderly("spring", &h, &sc, &so)
		if sr.OK && h.OK && (so.OK || sc.OK) {
			one := spring.Telescope{Name: "spring", Length: h.Value, NoStop: true, Half: h.Half, OneTape: true, Ratio: sr.Value, RatioShare: sr.Half / sr.Value}
			if so.OK {
				one.Open = so.Value
			}
			if sc.OK {
				one.Closed = sc.Value
			}
			parts = append(parts, one)
		}
		up = append(up, gaps("the spring must not end the travel", sr, h, sc)...)
		down = append(down, gaps("the spring must not end the travel", sr, h, so)...)
	} else {
		pick := finding.Gap{Path: base + ".spring", Label: upper(name) + ", spring", Why: "the spring must not end the travel"}
		up, down = append(up, pick), append(down, pick)
	}
	for _, l := range axle.Limiters {
		at := base + ".limiters[" + l.ID + "]"
		for way, path := range map[spring.Direction]string{spring.Bump: at + ".bump", spring.Droop: at + ".droop"} {
			g := v.read(path, "", tape)
			switch {
			case g.OK:
				others = append(others, spring.Limiter{Name: l.Name, Direction: way, Travel: g.Value, Half: g.Half, Read: true})
			case v.text(path) != "" && way == spring.Bump:
				up = append(up, gaps("it may end the travel", g)...)
			case v.text(path) != "":
				down = append(down, gaps("it may end the travel", g)...)
			}
		}
	}
	return parts, others, up, down
}

// orderly asks about a part whose lengths cannot be: closed is the shortest,
// open the longest.
func (v *view) orderly(what string, road, closed, open *given) {
	if road.OK && open.OK && open.Value < road.Value {
		v.ask(open.Path, v.text(open.Path), fmt.Sprintf("The %s is %s open and %s at ROAD. Open it is the longer one.", what, open.Number, road.Number))
		open.OK = false
	}
	if road.OK && closed.OK && closed.Value > road.Value {
		v.ask(closed.Path, v.text(closed.Path), fmt.Sprintf("The %s is %s closed and %s at ROAD. Closed it is the shorter one.", what, closed.Number, road.Number))
		closed.OK = false
	}
	if closed.OK && open.OK && open.Value <= closed.Value {
		v.ask(open.Path, v.text(open.Path), fmt.Sprintf("The %s is %s open and %s closed.", what, open.Number, closed.Number))
		open.OK, closed.OK = false, false
	}
}

func endings(list []spring.Limiter) []Ending {
	out := make([]Ending, len(list))
	for i, l := range list {
		out[i] = Ending{Name: l.Name, At: mm(l.Travel, l.Half), Ends: i == 0}
	}
	return out
}

// room judges one way of one axle. A fail may stand on what is known; a pass
// needs every part that could end the travel.
func (v *view) room(i int, id, way string, n finding.Number, list []spring.Limiter, need []finding.Gap, keys ...string) {
	name := AxleNames[i]
	f := finding.Finding{ID: name + "." + id, Topic: "travel", Place: name, Value: n, Claim: fmt.Sprintf("The %s has room %s from ROAD.", name, way)}
	if !n.Known() {
		v.unknown(f.ID, "travel", f.Claim, finding.Stops, name, need)
		return
	}
	f.Judge(v.limits(keys...)...)
	f.Why = "The " + list[0].Name + " ends it."
	if len(list) > 1 {
		f.Why += fmt.Sprintf(" Next the %s, %s.", list[1].Name, mm(list[1].Travel, list[1].Half))
	}
	switch {
	case f.Verdict == finding.Fail:
		f.Claim = fmt.Sprintf("The %s has too little room %s from ROAD.", name, way)
		f.Least = v.least(f, "More room needed:")
	case len(need) > 0:
		f.Verdict, f.Grade, f.Needs, f.Shown = finding.NotKnown, finding.Stops, need, countWords(len(need))
		f.Why = fmt.Sprintf("So far %s, by the %s; a part that is not read may end it sooner.", n, list[0].Name)
	case f.Verdict == finding.TooClose:
		f.Least = v.least(f, "More room needed:")
		f.Settle = "Read the " + list[0].Name + " again with a fixed pointer, ± 1 mm."
	}
	f.Working = travelWorking(list[0], n)
	v.add(f)
}

// stretched fails a spring that ends the droop: the rubber is pulled. While
// another part is not read, that part may end it first and nothing is said.
func (v *view) stretched(i int, droop []spring.Limiter, need []finding.Gap) {
	if len(need) > 0 || len(droop) == 0 || droop[0].Name != "spring" {
		return
	}
	name := AxleNames[i]
	v.add(finding.Finding{ID: name + ".stretch", Topic: "travel", Place: name, Verdict: finding.Fail, Grade: finding.OwnerSigns, Source: source.CP,
		Value: mm(droop[0].Travel, droop[0].Half), Claim: "The " + name + " spring ends the droop: the rubber is pulled.", Why: "The damper, a strap or another part must end it before the spring does.",
		Least: "A droop strap shorter than the spring allows, and its reading."})
}

// presetRoom judges what is left at HUMP, at HIGH and at DOWN.
func (v *view) presetRoom(i int, t *Travel, up, down []finding.Gap) {
	name := AxleNames[i]
	left := func(id, claim string, n finding.Number, need []finding.Gap, limit finding.Limit, why string) finding.Finding {
		f := finding.Finding{ID: name + "." + id, Topic: "travel", Place: name, Value: n, Claim: claim}
		f.Judge(limit)
		f.Why = why
		if f.Verdict != finding.Fail && len(need) > 0 {
			f.Verdict, f.Needs, f.Shown = finding.NotKnown, need, countWords(len(need))
		}
		return f
	}
	none := finding.Limit{Key: "travel.left", Name: "Room left", Below: true, Kind: q.KindLength, Unit: v.shop.Unit(q.KindLength), Grade: finding.Note, Source: source.CP}
	if t.Hump.Known() && t.Droop.Known() {
		limit := v.limit("travel.droop.hump")
		f := left("hump", fmt.Sprintf("At HUMP the %s wheels can still fall.", name), mm(t.Droop.Value-t.Hump.Value, t.Droop.Half), down, limit,
			fmt.Sprintf("Room down %s from ROAD, HUMP %s above it.", t.Droop, t.Hump))
		if most := t.Droop.Value - t.Droop.Half - limit.Value; f.Verdict == finding.Fail || f.Verdict == finding.TooClose {
			f.Least = "More room down; HUMP cannot be had with this travel."
			if most > 0.001 {
				f.Least = fmt.Sprintf("HUMP no more than %s above ROAD.", mm(floorMM(most), 0))
			}
		}
		v.add(f)
	}
	if t.High.Known() && t.Droop.Known() {
		f := left("high", "HIGH can be reached at the "+name+".", mm(t.Droop.Value-t.High.Value, t.Droop.Half), down, none, fmt.Sprintf("Room down %s from ROAD, HIGH %s above it.", t.Droop, t.High))
		if f.Verdict == finding.Fail {
			f.Claim, f.Least = "HIGH is higher than the "+name+" can go.", fmt.Sprintf("HIGH no more than %s above ROAD.", mm(floorMM(t.Droop.Value-t.Droop.Half), 0))
		}
		v.add(f)
	}
	if t.Down.Known() && t.StopMeets.Known() {
		f := left("down", "DOWN stays clear of the "+name+" stop.", mm(t.StopMeets.Value+t.Down.Value, t.StopMeets.Half), up, none, fmt.Sprintf("The stop meets at %s; DOWN is %s.", t.StopMeets, t.Down))
		if f.Verdict == finding.Fail {
			f.Claim, f.Least = "At DOWN the "+name+" sits on its stop.", fmt.Sprintf("DOWN no lower than %s.", mm(-floorMM(t.StopMeets.Value-t.StopMeets.Half), 0))
		}
		v.add(f)
	}
}

// floorMM and ceilMM round to whole millimetres on the side that keeps the
// promise [m].
func floorMM(m float64) float64 { return math.Floor(m*1000+1e-6) / 1000 }
func ceilMM(m float64) float64  { return math.Ceil(m*1000-1e-6) / 1000 }

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
