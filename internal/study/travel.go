package study

import (
	"fmt"
	"math"
	"strings"

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
		v.how.bump[i] = v.ending(i, b.Bump, false)
		for _, l := range b.Bump {
			if l.FirstStop > 0 {
				t.StopMeets = mm(l.FirstStop, l.Half)
				v.how.stop[i] = v.ending(i, []spring.Limiter{l}, true)
			}
		}
	}
	if len(b.Droop) > 0 {
		t.Droop = mm(b.Droop[0].Travel, b.Droop[0].Half)
		v.how.droop[i] = v.ending(i, b.Droop, false)
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
	f.Working = v.how.bump[i].finding()
	if list[0].Direction == spring.Droop {
		f.Working = v.how.droop[i].finding()
	}
	v.add(f)
}

// stretched fails a spring that ends the droop: the rubber is pulled. While
// another part is not read, that part may end it first and nothing is said.
func (v *view) stretched(i int, droop []spring.Limiter, need []finding.Gap) {
	if len(need) > 0 || len(droop) == 0 || droop[0].Name != "spring" {
		return
	}
	name := AxleNames[i]
	v.add(finding.Finding{ID: name + ".stretch", Topic: "travel", Place: name, Verdict: finding.Fail, Grade: finding.OwnerSigns, Source: source.CP, Working: v.how.droop[i].finding(),
		Value: mm(droop[0].Travel, droop[0].Half), Claim: "The " + name + " spring ends the droop: the rubber is pulled.", Why: "The damper, a strap or another part must end it before the spring does.",
		Least: "A droop strap shorter than the spring allows, and its reading."})
}

// presetRoom judges what is left at HUMP, at HIGH and at DOWN.
func (v *view) presetRoom(i int, t *Travel, up, down []finding.Gap) {
	name := AxleNames[i]
	left := func(id, claim string, n finding.Number, need []finding.Gap, limit finding.Limit, why string) finding.Finding {
		f := finding.Finding{ID: name + "." + id, Topic: "travel", Place: name, Value: n, Claim: claim}
		f.Judge(limit)
		f.Why, f.Working = why, v.roomLeft(i, id, n, t)
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
			path := "presets.high." + name
			v.wonder(path, v.text(path), fmt.Sprintf("HIGH, %s at the %s, lies over the end of the travel: the wheels hang %s above ROAD. The car cannot go there.", t.High, name, t.Droop))
			f.Claim, f.Least = "HIGH is higher than the "+name+" can go.", fmt.Sprintf("HIGH no more than %s above ROAD.", mm(floorMM(t.Droop.Value-t.Droop.Half), 0))
		}
		v.add(f)
	}
	if t.Down.Known() && t.StopMeets.Known() {
		f := left("down", "DOWN stays clear of the "+name+" stop.", mm(t.StopMeets.Value+t.Down.Value, t.StopMeets.Half), up, none, fmt.Sprintf("The stop meets at %s; DOWN is %s.", t.StopMeets, t.Down))
		if f.Verdict == finding.Fail {
			f.Claim = "At DOWN the " + name + " sits on its stop."
			if v.pastSolid(name, t) {
				f.Claim = "DOWN is lower than the " + name + " can go."
			}
			f.Least = fmt.Sprintf("DOWN no lower than %s.", mm(-floorMM(t.StopMeets.Value-t.StopMeets.Half), 0))
		}
		v.add(f)
	}
}

// pastSolid asks about a DOWN that lies below where the travel ends solid: what
// is said of it would be of a height that the car never has.
func (v *view) pastSolid(name string, t *Travel) bool {
	past := -t.Down.Value - t.Bump.Value - t.Bump.Half
	if !(past > 0) {
		return false
	}
	path := "presets.down." + name
	v.wonder(path, v.text(path), fmt.Sprintf("DOWN, %s at the %s, lies under the end of the travel: it is solid %s below ROAD. The car cannot go there.", t.Down, name, t.Bump),
		strings.ReplaceAll(mm(-floorMM(t.StopMeets.Value-t.StopMeets.Half), 0).String(), "\u00a0", " "))
	return true
}

// floorMM and ceilMM round to whole millimetres on the side that keeps the
// promise [m].
func floorMM(m float64) float64 { return math.Floor(m*1000+1e-6) / 1000 }
func ceilMM(m float64) float64  { return math.Ceil(m*1000-1e-6) / 1000 }

// ending is the working of what ends an axle's travel first, or of where its bump
// stop is met. Lengths by one tape and subtracted carry its figure once.
func (v *view) ending(i int, list []spring.Limiter, stop bool) *trail {
	l := list[0]
	n := mm(l.Travel, l.Half)
	if stop {
		n.Value = l.FirstStop
	}
	if l.Read || l.Ratio == 0 {
		return v.endingRead(i, l, n)
	}
	in, part, says := v.lengths(i, l, stop)
	_, t, err := v.compute(n.Kind, n.Unit, func(x []float64) (float64, error) {
		b, err := spring.Travel([]spring.Telescope{part(x)}, nil)
		switch {
		case err != nil:
			return 0, err
		case stop:
			return b.Bump[0].FirstStop, nil
		case l.Direction == spring.Droop:
			return b.Droop[0].Travel, nil
		}
		return b.Bump[0].Travel, nil
	}, in...)
	if err != nil {
		return nil
	}
	symbol := map[bool]string{true: "t_{stop}", false: "t_{" + l.Direction.String() + "}"}[stop]
	numbers := "(" + in[1].String()
	for _, g := range in[2:] {
		numbers += " − " + g.String()
	}
	t.lead(finding.Line{Symbols: symbol + " = {" + says + "}/{" + in[0].Symbol + "}", Numbers: numbers + ") ÷ " + plainNumber(in[0].Number), Result: n.String()})
	if stop { // the engine gives it the ± of the end of the travel
		t.widen(n)
		t.note("The ± is that of the end of the travel, a little wider.")
	}
	t.note("Lengths by one tape and subtracted: its ± counts once. The ratio is taken as constant over the travel.")
	for _, next := range list[1:] {
		t.step(finding.Term{Symbol: "t", Name: "next, the " + next.Name, Value: mm(next.Travel, next.Half), Mark: source.Derived})
	}
	return t
}

// endingRead is a limiter that was read at the wheel.
func (v *view) endingRead(i int, l spring.Limiter, n finding.Number) *trail {
	g := v.fact("t", l.Name+", read at the wheel", n, source.Typed)
	for _, rec := range v.axle(i).Limiters {
		if at := "axles." + AxleNames[i] + ".limiters[" + rec.ID + "]." + l.Direction.String(); rec.Name == l.Name {
			if r := v.read(at, "t", tape); r.OK && r.Value == l.Travel {
				g = r.called("t", l.Name+", read at the wheel")
			}
		}
	}
	t := v.same(n, g)
	if t != nil {
		t.lead(finding.Line{Symbols: "t_{" + l.Direction.String() + "} = t", Result: n.String()})
		t.note("Read at the wheel.")
	}
	return t
}

// lengths are the readings that a part's travel is worked out from, the ratio
// first and then in the order in which they are subtracted; and the part made of
// them.
func (v *view) lengths(i int, l spring.Limiter, stop bool) (in []given, part func([]float64) spring.Telescope, says string) {
	base := "axles." + AxleNames[i]
	r, road := v.read(base+".damperRatio", "r", ratio).called("r_{d}", AxleNames[i]+" damper, ratio"), v.read(base+".damper.road", "", tape)
	open, closed := v.read(base+".damper.open", "", tape), v.read(base+".damper.closed", "", tape)
	if l.Name == "spring" {
		at := "springs[" + v.axle(i).Spring + "]"
		r, road = v.read(base+".springRatio", "r", ratio).called("r", AxleNames[i]+" spring, ratio"), v.read(base+".springHeight", "", tape)
		open, closed = v.read(at+".open", "", exact), v.read(at+".closed", "", exact)
	}
	named := func(g given, symbol, words string) given { return g.called(symbol, AxleNames[i]+" "+l.Name+", "+words) }
	road, open, closed = named(road, "l_{road}", "at ROAD"), named(open, "l_{open}", "open"), named(closed, "l_{closed}", "closed").counting(0)
	part = func(x []float64) spring.Telescope {
		return spring.Telescope{Name: l.Name, Ratio: x[0], Length: x[1], Closed: x[2], NoStop: true}
	}
	if l.Direction == spring.Droop {
		part = func(x []float64) spring.Telescope {
			return spring.Telescope{Name: l.Name, Ratio: x[0], Length: x[2], Open: x[1], NoStop: true}
		}
		return []given{r, open.counting(road.Half), road.counting(0)}, part, "l_{open} − l_{road}"
	}
	free, solid := v.read(base+".stop.free", "", tape), v.read(base+".stop.solid", "", tape)
	if l.Name == "spring" || !free.OK || !solid.OK {
		return []given{r, road, closed}, part, "l_{road} − l_{closed}"
	}
	free, solid = free.called("s_{free}", AxleNames[i]+" bump stop, free").counting(0), solid.called("s_{solid}", AxleNames[i]+" bump stop, solid").counting(0)
	part = func(x []float64) spring.Telescope {
		p := spring.Telescope{Name: l.Name, Ratio: x[0], Length: x[1], Closed: x[2], StopFree: x[3], StopSolid: x[3]}
		return p
	}
	if stop {
		return []given{r, road, closed, free}, part, "l_{road} − l_{closed} − s_{free}"
	}
	return []given{r, road, closed, solid}, part, "l_{road} − l_{closed} − s_{solid}"
}

// roomLeft is the working of what is left of an axle's travel at a preset.
func (v *view) roomLeft(i int, id string, n finding.Number, t *Travel) *finding.Working {
	end := v.worked("t_{droop}", AxleNames[i]+", room down from ROAD", t.Droop, v.how.droop[i])
	sign, minus := -1.0, " − "
	if id == "down" {
		end = v.worked("t_{stop}", AxleNames[i]+", stop met below ROAD", t.StopMeets, v.how.stop[i])
		sign, minus = 1, " + "
	}
	set := v.read("presets."+id+"."+AxleNames[i], "Δ", exact).called("Δ", upper(AxleNames[i])+", "+map[string]string{"down": "DOWN", "hump": "HUMP", "high": "HIGH"}[id]+" from ROAD")
	_, w, err := v.compute(n.Kind, n.Unit, func(x []float64) (float64, error) { return x[0] + sign*x[1], nil }, end, set.counting(0))
	if err != nil {
		return nil
	}
	w.lead(finding.Line{Symbols: "t = " + end.Symbol + minus + "Δ", Numbers: end.String() + minus + set.String(), Result: n.String()})
	return w.finding()
}
