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

func mm(m, half float64) finding.Number { return finding.Of(q.KindLength, "mm", m, half) }

// heights works out where sill and lowest part stand at each preset, and judges
// them against the floor, the scrub line and the lamps.
func (v *view) heights() {
	h := &v.out.Heights
	h.Form = v.rec.Car.Form
	h.LowestName = v.rec.Survey.LowestName
	for path, to := range map[string]*finding.Number{
		"survey.wheelbase": &h.Wheelbase, "survey.frontOverhang": &h.FrontOverhang, "survey.rearOverhang": &h.RearOverhang,
		"survey.roof": &h.Roof, "survey.sill": &h.Sill, "survey.lowest": &h.Lowest,
	} {
		*to = v.read(path, "", tape).Number
	}
	for i, c := range CornerNames {
		h.HubToArch[i] = v.read("corners."+c+".hubToArch", "h", tape).Number
	}
	h.Scrub = v.scrub()
	off, known := v.roadChange()
	for p := range PresetNames {
		if !known || !h.Change[p][0].Known() {
			continue
		}
		front, rear := off[0]+h.Change[p][0].Value, off[1]+h.Change[p][1].Value
		if h.Sill.Known() {
			h.SillAt[p] = mm(h.Sill.Value+(front+rear)/2, h.Sill.Half) // read mid-door
		}
		if h.Lowest.Known() { // its place along the car is not read: the end that sinks more
			h.LowestAt[p] = mm(h.Lowest.Value+math.Min(front, rear), h.Lowest.Half)
		}
	}
	v.ground()
	v.lamps()
}

// scrub is the lower of the two rim-to-rim lines.
func (v *view) scrub() finding.Number {
	w := v.out.Heights.Wheel
	switch {
	case w[0].Known && w[1].Known && w[1].Scrub.Value < w[0].Scrub.Value, !w[0].Known && w[1].Known:
		return w[1].Scrub
	}
	return w[0].Scrub
}

// roadChange is how far ROAD lies above the heights as read, front and rear [m].
func (v *view) roadChange() ([2]float64, bool) {
	var off [2]float64
	at := v.rec.Survey.HeightsRead
	switch at {
	case "ROAD":
		return off, true
	case "as received":
		f, r := v.read("presets.road.front", "", exact), v.read("presets.road.rear", "", exact)
		return [2]float64{f.Value, r.Value}, f.OK && r.OK
	}
	for p, name := range PresetNames {
		if c := v.out.Heights.Change[p]; name == at && c[0].Known() {
			return [2]float64{-c[0].Value, -c[1].Value}, true
		}
	}
	return off, false
}

// roadGaps is what the heights at ROAD wait for.
func (v *view) roadGaps() []finding.Gap {
	if _, known := v.roadChange(); known {
		return nil
	}
	name := map[string]string{"as received": "road", "DOWN": "down", "HUMP": "hump", "HIGH": "high"}[v.rec.Survey.HeightsRead]
	if name == "" {
		return []finding.Gap{{Path: "survey.heightsRead", Label: "Heights read at", Why: "brings the heights to ROAD"}}
	}
	return gaps("brings the heights to ROAD", v.read("presets."+name+".front", "", exact), v.read("presets."+name+".rear", "", exact))
}

// presets reads the changes from ROAD. DOWN lies below ROAD, HUMP above it,
// HIGH not below HUMP.
func (v *view) presets() {
	h := &v.out.Heights
	h.Change[1] = [2]finding.Number{mm(0, 0), mm(0, 0)}
	for p, name := range map[int]string{0: "down", 2: "hump", 3: "high"} {
		for i, axle := range AxleNames {
			path := "presets." + name + "." + axle
			g := v.read(path, "", exact)
			switch {
			case !g.OK:
				continue
			case p == 0 && g.Value > 0, p > 0 && g.Value < 0:
				way := map[bool]string{true: "below", false: "above"}[p == 0]
				v.ask(path, v.text(path), fmt.Sprintf("%s lies %s ROAD; its change was read as %s.", PresetNames[p], way, g.Number), strings.Replace(mm(-g.Value, 0).String(), "\u00a0", " ", -1))
				continue
			}
			h.Change[p][i] = g.Number
			v.change[p][i] = g.Number
		}
	}
	v.humpForRoad()
	for i, axle := range AxleNames {
		if hump, high := h.Change[2][i], h.Change[3][i]; hump.Known() && high.Known() && high.Value < hump.Value {
			v.ask("presets.high."+axle, v.text("presets.high."+axle), fmt.Sprintf("HIGH, %s, lies under HUMP, %s. HIGH is the highest height.", high, hump))
			h.Change[3][i], v.change[3][i] = finding.Number{}, finding.Number{}
		}
	}
	for p := range h.Change { // one axle alone says nothing of the body
		if !h.Change[p][0].Known() || !h.Change[p][1].Known() {
			h.Change[p] = [2]finding.Number{}
		}
	}
}

// humpForRoad asks where ROAD is set as far above the heights as received as HUMP
// is above ROAD, at each axle on air (scenario 45). A note beside the change
// confirms it.
func (v *view) humpForRoad() {
	m, seen := v.movers(), false
	for i, axle := range AxleNames {
		if !m[i] {
			continue
		}
		path := "presets.road." + axle
		road, hump := v.read(path, "", exact), v.out.Heights.Change[2][i]
		usual := road.Value >= 0.035 && road.Value <= 0.050 // handbook: HUMP is ROAD + 35 to 50 mm
		near := hump.Known() && road.Value > 0.015 && abs(road.Value-hump.Value) <= 0.005
		if f, ok := v.place(path); !ok || !road.OK || !usual && !near || f.Reading.Note != "" {
			return
		}
		seen = true
	}
	if !seen {
		return
	}
	path := "presets.road.front"
	if !m[0] {
		path = "presets.road.rear"
	}
	road := v.read(path, "", exact)
	v.wonder(path, v.text(path), fmt.Sprintf("ROAD is set %s above the heights as received: that is your HUMP height. Confirm it with a note beside it, or set ROAD back.", road.Number), "0 mm")
}

// ground judges the lowest hard part at ROAD, laden, at DOWN, and against the
// scrub line.
func (v *view) ground() {
	h := &v.out.Heights
	part := h.LowestName
	if part == "" {
		part = "lowest part"
	}
	low := v.read("survey.lowest", "z", tape)
	n, ladenNeed, says := v.laden()
	need := append(append(gaps("what meets the road first", low), v.roadGaps()...), ladenNeed...)
	v.roadClearance(part, n, low, need, says)
	v.scrubLine(part, n, need)
	v.groundDown(part, n, ladenNeed, says)
}

// groundDown judges the lowest hard part at DOWN, laden.
func (v *view) groundDown(part string, road finding.Number, need []finding.Gap, says string) {
	down, how := v.ladenDown(), v.lowestHow(0)
	if !down.Known() {
		return
	}
	if down != v.out.Heights.LowestAt[0] {
		how = v.moved(touchPoint{Contact: stance.Contact{Moves: stance.WithBody, Room: 1, Somewhere: true}}, 0, v.ladenAt(road), down)
	}
	f := finding.Finding{ID: "ground.down", Topic: "heights", Value: down, Working: how.finding(), Claim: "The " + part + " stays off the floor at DOWN."}
	f.Judge(v.limits("ground.down.least", "ground.down.want")...)
	f.Why = strings.TrimSpace(says)
	switch {
	case f.Verdict == finding.Fail:
		f.Claim = "The " + part + " comes too near the floor at DOWN."
	case len(need) > 0: // empty it is this high; laden it is lower
		f.Verdict, f.Needs, f.Shown = finding.NotKnown, need, countWords(len(need))
		f.Why = fmt.Sprintf("As read %s; laden it is lower.", down)
		v.add(f)
		return
	}
	f.Least = v.least(f, "Set DOWN higher by")
	v.add(f)
}

// ladenDown is the lowest hard part at DOWN as far as load has sunk it.
func (v *view) ladenDown() finding.Number {
	down := v.out.Heights.LowestAt[0]
	if down.Known() {
		down.Value -= v.sunk()
	}
	return down
}

// laden is the lowest part at ROAD with everybody aboard: as read laden; or,
// where both axles are held at height, as read. Else it waits for a reading.
func (v *view) laden() (finding.Number, []finding.Gap, string) {
	n := v.out.Heights.LowestAt[1]
	if g := v.read("survey.lowestLaden", "z", tape); g.OK {
		off, known := v.roadChange()
		if !known {
			return finding.Number{}, nil, ""
		}
		return mm(g.Value+math.Min(off[0], off[1]), g.Half), nil, " Read laden."
	}
	var need []finding.Gap
	again := finding.Gap{Path: "survey.lowestLaden", Label: "Lowest hard part above the floor, laden", Why: "an axle that is not held at height sinks under load"}
	for i, name := range AxleNames {
		a := v.axle(i)
		switch {
		case a.Springing == "air" && a.Control == "":
			need = append(need, finding.Gap{Path: "axles." + name + ".control", Label: upper(name) + ", control", Why: "says whether load makes it sink"})
		case a.Control != "height-held" || a.Springing != "air":
			if len(need) == 0 || need[len(need)-1].Path != again.Path {
				need = append(need, again)
			}
		}
	}
	return n, need, " Held at height it stays under load; the few millimetres that the tyres give are not counted."
}

func (v *view) roadClearance(part string, n finding.Number, low given, need []finding.Gap, says string) {
	f := finding.Finding{ID: "ground.road", Topic: "heights", Value: n, Claim: "The " + part + " keeps clear of the floor at ROAD, laden."}
	if !n.Known() {
		v.unknown(f.ID, "heights", f.Claim, finding.Stops, "", need)
		return
	}
	f.Working = v.ladenAt(n).from.finding()
	f.Judge(v.limits("ground.road.least", "ground.road.want")...)
	f.Why = fmt.Sprintf("Wanted %s, down to %s with the customer's signature.", v.limit("ground.road.want").Text(), v.limit("ground.road.least").Text()) + says
	switch {
	case f.Verdict == finding.Fail:
		f.Claim = "The " + part + " hangs too low for ROAD."
		f.Least = v.least(f, "Raise ROAD by")
	case len(need) > 0: // empty it is this high; laden it is lower
		f.Verdict, f.Grade, f.Needs, f.Shown = finding.NotKnown, finding.Stops, need, countWords(len(need))
		f.Why = fmt.Sprintf("As read %s; laden it is lower.", n)
	default:
		f.Least = v.least(f, "Raise ROAD by")
	}
	f.NotEvidence = staleOf(low)
	v.add(f)
}

func (v *view) scrubLine(part string, n finding.Number, need []finding.Gap) {
	h := v.out.Heights
	claim := "On a flat tyre the rim meets the road first."
	if !h.Wheel[0].Known && !h.Wheel[1].Known {
		need = append(need, finding.Gap{Path: "axles.front.tyreLeft", Label: "Front, tyre, left, as written on it", Why: "gives the scrub line"})
	}
	if !h.Scrub.Known() || !n.Known() {
		v.unknown("scrub.road", "heights", claim, finding.Stops, "", need)
		return
	}
	lower := 0
	if !h.Wheel[0].Known || h.Scrub == h.Wheel[1].Scrub && h.Scrub != h.Wheel[0].Scrub {
		lower = 1
	}
	a, b := v.ladenAt(n), v.worked("s", AxleNames[lower]+", rim-to-rim line over the floor", h.Scrub, v.how.scrub[lower])
	over, w, err := v.compute(q.KindLength, v.shop.Unit(q.KindLength), func(x []float64) (float64, error) { return x[0] - x[1], nil }, a, b)
	if err != nil {
		return
	}
	w.lead(finding.Line{Symbols: "c = " + a.Symbol + " − s", Numbers: fmt.Sprintf("%s − %s", n, h.Scrub), Result: over.String()})
	f := finding.Finding{ID: "scrub.road", Topic: "heights", Value: over, Working: w.finding(), Claim: claim}
	f.Judge(v.limits("scrub.road.least", "scrub.road.want")...)
	f.Why = fmt.Sprintf("Scrub line %s over the floor, laden.", h.Scrub)
	f.Least = v.least(f, "Raise ROAD by")
	switch {
	case f.Verdict == finding.Fail && f.Grade == finding.Stops:
		f.Claim = "On a flat tyre the " + part + " meets the road."
	case f.Verdict != finding.Fail && len(need) > 0:
		f.Verdict, f.Grade, f.Needs, f.Shown, f.Least = finding.NotKnown, finding.Stops, need, countWords(len(need)), ""
	case f.Verdict == finding.TooClose:
		if !h.Wheel[lower].Measured {
			f.Settle = "Measure the loaded radius and the rim edge; the tyre's marking makes most of the ±."
			f.SettleAt = "axles." + AxleNames[lower] + ".loadedRadius"
		}
	}
	v.add(f)
}

// least is the least change that turns a finding about a length.
func (v *view) least(f finding.Finding, words string) string {
	l, ok := f.Decided()
	if !ok || f.Verdict == finding.Pass {
		return ""
	}
	d := l.Value - f.Value.Worst(l)
	if !l.Below {
		d = -d
	}
	if f.Value.Kind == q.KindLength {
		d = ceilMM(d)
	}
	return fmt.Sprintf("%s %s.", words, finding.Number{Value: d, Kind: f.Value.Kind, Unit: f.Value.Unit})
}

// lamps judges the aim of the dipped beam in every driving preset: the body's
// pitch turns the lamps with it.
func (v *view) lamps() {
	h := &v.out.Heights
	aim := v.read("survey.lampAim", "a", width{abs: 0.002})
	base := v.read("survey.wheelbase", "L", tape)
	high := v.read("survey.lampHeight", "", tape)
	if !aim.OK || !base.OK {
		return
	}
	off, known := v.roadChange()
	if !known {
		return
	}
	for p, name := range PresetNames {
		if p == 0 || p == 3 || !h.Change[p][0].Known() {
			continue // standing presets
		}
		var axle [2]given
		for i := range axle {
			n := h.Change[p][i]
			n.Value += off[i]
			axle[i] = v.risen(p, i, n)
		}
		v.lamp(p, name, aim, base, high.OK && high.Value > 0.850, axle[0], axle[1])
	}
}

// risen is an axle's change at a preset from where the aim was read.
func (v *view) risen(p, i int, n finding.Number) given {
	symbol, label := "Δ_{"+AxleNames[i]+"}", AxleNames[i]+", change from where the aim was read"
	set := v.fromRoad(p, i)
	set.own = false
	off, sign, other := v.roadRead(i)
	switch {
	case !other && p == 1:
		return v.fact(symbol, label, n, source.Typed)
	case !other:
		return set
	case p == 1 && sign > 0:
		return off
	}
	_, t, err := v.compute(n.Kind, n.Unit, func(x []float64) (float64, error) { return x[0] + sign*x[1], nil }, set, off)
	if err != nil {
		t = nil
	} else {
		t.lead(finding.Line{Symbols: symbol + " = Δ " + map[bool]string{true: "+", false: "−"}[sign > 0] + " R", Numbers: fmt.Sprintf("%s %s", set.Number, signedMM(sign*off.Value)), Result: n.String()})
	}
	return v.worked(symbol, label, n, t)
}

func (v *view) lamp(p int, name string, aim, base given, tall bool, front, rear given) {
	unit, _ := q.UnitOf(q.KindRatio, "%")
	n, w, err := v.compute(q.KindRatio, unit, func(x []float64) (float64, error) {
		return -(x[0] + (x[1]-x[2])/x[3]), nil
	}, aim, front, rear, base)
	if err != nil {
		return
	}
	v.out.Heights.Pitch[p] = finding.Number{Value: (front.Value - rear.Value) / base.Value, Kind: q.KindRatio, Unit: unit}
	w.lead(finding.Line{Symbols: "a_{now} = a + {Δ_{front} − Δ_{rear}}/{L}", Numbers: fmt.Sprintf("%s + (%s − %s) ÷ %s", aim.Number, front.Number, rear.Number, base.Number),
		Result: finding.Number{Value: -n.Value, Half: n.Half, Kind: n.Kind, Unit: unit}.String()})
	w.note("Shown is how far the beam points below horizontal.")
	f := finding.Finding{ID: "lamp." + strings.ToLower(name), Topic: "heights", Value: n, Working: w.finding(), Place: "front",
		Claim: "The dipped beam points low enough at " + name + "."}
	low, high := v.limit("lamp.aim.least"), v.limit("lamp.aim.most")
	centres := "no higher than 850 mm"
	if tall { // S6: lamps whose centres stand higher point lower
		low.Value, centres = 0.0125, "above 850 mm"
	}
	f.Judge(low, high)
	number, _, _ := strings.Cut(low.Text(), "\u00a0")
	f.Why = "Below horizontal, " + number + " to " + high.Text() + " where the lamp centres are " + centres + ". The tester decides."
	switch {
	case f.Verdict == finding.Fail && n.Value < low.Value:
		f.Claim = "The dipped beam dazzles at " + name + "."
		short := low.Value - (n.Value - n.Half)
		f.Least = fmt.Sprintf("Rear up %s, or lower the lamp aim by %.1f %% and check every other driving preset again.", mm(ceilMM(short*base.Value), 0), math.Ceil(1000*short)/10)
	case f.Verdict == finding.Fail:
		f.Claim = "The dipped beam points too low at " + name + "."
		f.Least = fmt.Sprintf("Raise the lamp aim by %.1f %% and check every other driving preset again.", math.Ceil(1000*(n.Value+n.Half-high.Value))/10)
	case f.Verdict == finding.TooClose:
		f.Claim = "Whether the dipped beam points low enough at " + name + "."
		f.Settle = "Read the aim again on the tester, with the load that is named."
	}
	v.add(f)
}

// entries questions single readings that need another place of the record to be
// doubted.
func (v *view) entries() {
	v.archMixup()
	v.archTwist()
	v.lengthMixup()
	for i, axle := range AxleNames {
		path := "axles." + axle + ".springRatio"
		if val, err := job.Parse(q.KindRatio, v.text(path)); err == nil && val.SI() > 1.2 {
			v.ask(path, val.Echo(), fmt.Sprintf("%s: the wheel moves less than the spring? It may be turned over; %.2f is 1 ÷ %s.", val.Echo(), 1/val.SI(), val.Echo()), twoDecimals(1/val.SI()))
		}
		if v.axle(i).TeedSprings == "yes" {
			v.add(finding.Finding{ID: axle + ".tee", Topic: "springs", Place: axle, Verdict: finding.Fail, Grade: finding.Stops, Source: source.CP, Shown: "refused",
				Claim: "Two " + axle + " springs on one line have no roll stiffness.", Why: "Air crosses over in a bend.", Least: "One valve and one line for each spring."})
		}
	}
	if v.rec.Axles.Front.Springing == "air" && v.rec.Axles.Rear.Springing == "steel" || v.rec.Axles.Front.Springing == "steel" && v.rec.Axles.Rear.Springing == "air" {
		v.add(finding.Finding{ID: "half.stage", Topic: "springs", Verdict: finding.Fail, Grade: finding.Note, Source: source.CP, Shown: "half",
			Claim: "Air on one axle and steel on the other: the car pitches when it is raised or lowered.", Why: "The axles are worked out apart. Presets for four corners are not shown.",
			Least: "Air on both axles, or check lamps and clearance at every height."})
	}
}

func twoDecimals(x float64) string { return fmt.Sprintf("%.2f", x) }

// archMixup catches a ground-to-arch height in the hub-to-arch box.
func (v *view) archMixup() {
	for i, c := range CornerNames {
		path := "corners." + c + ".hubToArch"
		g := v.read(path, "", tape)
		if !g.OK {
			continue
		}
		var sum float64
		var n int
		for k, o := range CornerNames {
			if other := v.read("corners."+o+".hubToArch", "", tape); k != i && other.OK {
				sum, n = sum+other.Value, n+1
			}
		}
		radius := v.loadedRadius(i / 2)
		if n < 2 || radius == 0 {
			continue
		}
		if mean := sum / float64(n); abs(g.Value-mean) > 0.15 && abs(g.Value-radius-mean) < 0.06 {
			less := mm(g.Value-radius, 0)
			v.ask(path, v.text(path), fmt.Sprintf("%s, %s. The others are near %s. Less the loaded radius, %s, it is %s: that looks like ground to arch.",
				c, g.Number, mm(mean, 0), mm(radius, 0), less), strings.ReplaceAll(less.String(), "\u00a0", " "))
		}
	}
}

// archTwist asks about four hub-to-arch heights that no straight body has, by the
// limit of the flat plane. Arches that were beaten or mended differ truly: a note
// beside one of the two that differ most says so.
func (v *view) archTwist() {
	var h stance.Heights
	var half float64
	for i, c := range CornerNames {
		g := v.read("corners."+c+".hubToArch", "", tape)
		if !g.OK {
			return
		}
		h[i], half = g.Value, math.Max(half, g.Half)
	}
	w, err := stance.FlatPlane(h, half)
	if err != nil {
		return
	}
	limit, n := v.limit("plane.residual.most"), mm(math.Abs(w.Residual), w.ResidualHalf)
	if finding.Compare(n, limit) != finding.Fail {
		return
	}
	for _, c := range w.First {
		if f, ok := v.place("corners." + c.String() + ".hubToArch"); ok && f.Reading.Note != "" {
			return
		}
	}
	path := "corners." + w.First[0].String() + ".hubToArch"
	v.wonder(path, v.text(path), fmt.Sprintf("Hub to arch, FL − FR − RL + RR is %s, expected no more than %s: %s and %s differ by %.0f, %s and %s by %.0f. Read %s and %s again first; where the arches truly differ, say so in a note beside one.",
		n, limit.Text(), w.First[0], w.First[1], math.Abs(pairOf(w, w.First[0]))*1000, w.Other[0], w.Other[1], math.Abs(pairOf(w, w.Other[0]))*1000, w.First[0], w.First[1]))
}

// loadedRadius is the tyre's, before the wheels are worked out [m]; 0 unknown.
func (v *view) loadedRadius(i int) float64 {
	if g := v.read("axles."+AxleNames[i]+".loadedRadius", "", tape); g.OK {
		return g.Value
	}
	if s, ok := v.tyreSize(i, "tyreLeft"); ok {
		return s.Dimensions(v.tyreSettings(), measuredNothing).LoadedRadius
	}
	return 0
}

// lengthMixup catches an inch typed as a millimetre among a spring's heights.
func (v *view) lengthMixup() {
	for _, s := range v.rec.Springs {
		var all []float64
		for _, p := range s.Points {
			if val, err := job.Parse(q.KindLength, p.Height.Value); err == nil {
				all = append(all, val.SI())
			}
		}
		for _, p := range s.Points {
			val, err := job.Parse(q.KindLength, p.Height.Value)
			if err != nil || len(all) < 2 {
				continue
			}
			if m := median(all); val.SI() < m/10 && abs(val.SI()*25.4-m) < m/2 {
				v.ask("springs["+s.ID+"].points["+p.ID+"].height", p.Height.Value,
					fmt.Sprintf("%s among heights near %s: is it %s in (%s) or %s?", val.Echo(), mm(m, 0), number(val.SI()*1000), mm(val.SI()*25.4, 0), val.Echo()),
					number(val.SI()*1000)+" in", p.Height.Value)
			}
		}
	}
}

func number(x float64) string {
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.2f", x), "0"), ".")
}

func median(list []float64) float64 {
	s := append([]float64(nil), list...)
	for i := range s {
		for k := i; k > 0 && s[k] < s[k-1]; k-- {
			s[k], s[k-1] = s[k-1], s[k]
		}
	}
	return s[len(s)/2]
}
