package study

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"jounce/internal/finding"
	"jounce/internal/job"
	q "jounce/quantity"
	"jounce/stance"
)

// roomAt is the room at a touch point in one place of the travel, and the limits
// that hold there.
type roomAt struct {
	where  string // "DOWN", "full bump"
	n      finding.Number
	travel float64 // what has used it up [m]
	w      func() *trail
	limits []finding.Limit
	rise   bool          // a preset above ROAD
	end    bool          // full bump or full droop
	laden  bool          // with everybody aboard
	open   []finding.Gap // parts not read that may end the travel sooner
}

// touches judges every touch point of the record, what would hurt most first.
func (v *view) touches() {
	list := make([]*job.Touch, 0, len(v.rec.Touch))
	for k := range v.rec.Touch {
		list = append(list, &v.rec.Touch[k])
	}
	sort.SliceStable(list, func(i, k int) bool { return hurts(list[i]) > hurts(list[k]) })
	for _, rec := range list {
		v.touch(rec)
	}
	v.floorReadings()
}

// hurts is what a touch would hurt: a brake pipe or a hose before a tyre, a tyre
// before a bag, a bag before metal, metal before what scrapes on the floor.
func hurts(t *job.Touch) int {
	if t.Moves == inDroop {
		return 6
	}
	return map[string]int{onTyre: 5, onLiner: 4, onBag: 3, onMetal: 2, onFloor: 1}[t.Meets]
}

// touch judges one touch point.
func (v *view) touch(rec *job.Touch) {
	at := "touch[" + rec.ID + "]"
	if rec.Name == "" && v.text(at+".room") == "" || rec.Meets == onRubber {
		return
	}
	t := v.pointOf(rec)
	place := strings.TrimSpace(t.Name)
	if rec.Wheel != "" {
		place += ", " + rec.Wheel
	}
	f := finding.Finding{ID: "touch." + rec.ID, Topic: "touch", Place: rec.Wheel, Claim: "There is room enough " + beside(place) + "."}
	if need := v.touchNeeds(rec, t); len(need) > 0 {
		v.unknown(f.ID, f.Topic, f.Claim, finding.Stops, f.Place, need)
		return
	}
	if rec.Meets == onFloor && strings.EqualFold(place, strings.TrimSpace(v.out.Heights.LowestName)) {
		return // ground.down and ground.road say it
	}
	list, need := v.rooms(t)
	if len(list) == 0 {
		v.unknown(f.ID, f.Topic, f.Claim, finding.Stops, f.Place, need)
		return
	}
	v.worst(&f, t, place, list, need)
	if low := v.ladenDown(); f.Verdict == finding.Pass && rec.Meets == onFloor && low.Known() && f.Value.Value >= low.Value {
		return // what hangs lower is judged
	}
	v.add(f)
}

// beside names a place: "at the sump", "between bag and tyre".
func beside(name string) string {
	if a, b, ok := strings.Cut(name, " to "); ok {
		return "between " + a + " and " + b
	}
	return "at the " + name
}

// pointOf is the touch point as the path has it; one that could not be used is
// made again without its doubts.
func (v *view) pointOf(rec *job.Touch) touchPoint {
	for _, t := range v.way.points {
		if t.rec == rec {
			return t
		}
	}
	t, _ := v.touchRead(rec)
	return t
}

// touchNeeds is what a touch point itself waits for.
func (v *view) touchNeeds(rec *job.Touch, t touchPoint) []finding.Gap {
	at := "touch[" + rec.ID + "]"
	var need []finding.Gap
	gap := func(part, label, why string) {
		need = append(need, finding.Gap{Path: at + "." + part, Label: t.Name + ", " + label, Why: why})
	}
	if !t.room.OK {
		gap("room", "room at ROAD", "says when it touches")
	}
	if rec.Moves == "" {
		gap("moves", "how the room closes", "says when it touches")
	}
	if !t.ratio.OK && v.text(at+".ratio") != "" {
		gap("ratio", "room used up per millimetre of travel", "says when it touches")
	}
	if rec.Meets == "" && rec.Moves != inDroop {
		gap("meets", "what meets what", "says how much room is wanted")
	}
	if rec.Wheel == "" && (rec.Moves == withWheel || rec.Moves == inDroop) {
		gap("wheel", "at which wheel", "says whose travel closes it")
	}
	return need
}

// rooms are the places of the travel where a kind of point is judged, and what
// is missing for others (step B13 and the shop's limits).
func (v *view) rooms(t touchPoint) (list []roomAt, need []finding.Gap) {
	preset := func(k int, keys ...string) {
		if c := v.out.Heights.Change[k]; c[0].Known() {
			r := v.roomIn(t, k, stance.Pose{Front: c[0].Value, Rear: c[1].Value}, math.Max(c[0].Half, c[1].Half))
			r.limits, r.rise = v.limits(keys...), k > 1
			list = append(list, r)
		} else if k == 0 {
			need = append(need, gaps("where it comes nearest", v.read("presets.down.front", "", exact), v.read("presets.down.rear", "", exact))...)
		}
	}
	end := func(keys ...string) {
		r, open, ok := v.roomEnd(t)
		if ok {
			r.limits = v.limits(keys...)
			list = append(list, r)
		} else {
			need = append(need, open...)
		}
	}
	droop := t.Contact.Moves == stance.LimitsDroop
	switch key := map[string]string{onMetal: "room.metal.least", onBag: "room.bag.least"}[t.meets]; {
	case key != "":
		for k := range PresetNames {
			preset(k, key)
		}
		if t.Contact.Moves != stance.WithBody {
			end("room.bump.least")
		}
	case droop:
		end("room.slack.least")
	case t.meets == onFloor:
		preset(0, "ground.down.least", "ground.down.want")
		for n := range list {
			list[n] = v.roomLaden(t, list[n])
		}
		_, more, _ := v.laden()
		need = append(need, more...)
	case t.meets == onLiner:
		// Step B13 grants the 8 mm "at park only" and asks 15 mm of a tyre against
		// anything at full bump from ROAD; a liner is no exception there, where the
		// wheel turns and steers, so it belongs to both rows of the settled limits.
		preset(0, "room.liner.least", "room.liner.want")
		end("room.tyre.least")
	case t.meets == onTyre:
		end("room.tyre.least")
	}
	return list, need
}

// roomIn is the room left in a preset.
func (v *view) roomIn(t touchPoint, k int, pose stance.Pose, half float64) roomAt {
	where := PresetNames[k]
	r, err := t.Contact.At(pose)
	if err != nil {
		return roomAt{where: where}
	}
	n := mm(r.Travel, half)
	return v.roomAfter(t, where, n, func() *trail { return v.travelled(t, k, n) })
}

// roomLaden is the height of a floor point at DOWN as far as load sinks the car.
func (v *view) roomLaden(t touchPoint, r roomAt) roomAt {
	r.laden = true
	if s := v.sunk(); s != 0 && r.n.Known() {
		r.n.Value -= s
		n := r.n
		r.w = func() *trail { return v.partHeight(part{point: t, preset: 0, height: n}) }
	}
	return r
}

// roomAfter is the room left after a travel that uses it up.
func (v *view) roomAfter(t touchPoint, where string, travel finding.Number, how func() *trail) roomAt {
	words := map[stance.Moves]string{stance.WithBody: "fall of the body there, ", stance.WithWheel: "rise of the wheel, ", stance.LimitsDroop: "fall of the wheel, "}[t.Contact.Moves]
	in := []given{t.room.called("c_{0}", t.Name+", room at ROAD"), t.ratio.called("r", t.Name+", room used up per millimetre of travel"), v.worked("t", words+where, travel, nil)}
	left := func(x []float64) (float64, error) {
		c := t.Contact
		c.Room, c.Ratio = x[0], x[1]
		pose := stance.Pose{Front: -x[2], Rear: -x[2]}
		if c.Moves == stance.LimitsDroop {
			pose = stance.Pose{Front: x[2], Rear: x[2]}
		}
		r, err := c.At(pose)
		return r.Left, err
	}
	n, err := v.number(q.KindLength, v.shop.Unit(q.KindLength), left, in...)
	if err != nil {
		return roomAt{where: where}
	}
	return roomAt{where: where, n: n, travel: travel.Value, w: func() *trail {
		in[2].from = how()
		_, w, err := v.compute(n.Kind, n.Unit, left, in...)
		if err != nil {
			return nil
		}
		line := finding.Line{Symbols: "c = c_{0} − r t", Numbers: fmt.Sprintf("%s − %s × %s", t.room.Number, plainNumber(t.ratio.Number), bracketed(travel)), Result: n.String()}
		if t.Contact.Moves == stance.WithBody {
			line = finding.Line{Symbols: "c = c_{0} − t", Numbers: fmt.Sprintf("%s − %s", t.room.Number, bracketed(travel)), Result: n.String()}
		}
		w.lead(line)
		return w
	}}
}

// roomEnd is the room left where the axle's travel ends; what is not read may
// end it sooner, which leaves more room.
func (v *view) roomEnd(t touchPoint) (roomAt, []finding.Gap, bool) {
	i, where, way := 0, "full bump", 0
	if t.Contact.Rear {
		i = 1
	}
	n, how := v.out.Axles[i].Travel.Bump, v.how.bump[i]
	if t.Contact.Moves == stance.LimitsDroop {
		where, way, n, how = "full droop", 1, v.out.Axles[i].Travel.Droop, v.how.droop[i]
	}
	open := v.open[i][way]
	if !n.Known() {
		if len(open) == 0 {
			open = []finding.Gap{{Path: "axles." + AxleNames[i] + ".layout", Label: upper(AxleNames[i]) + ", travel of the wheel", Why: "no numbers are worked out for this axle; measure the room at both ends of its travel"}}
		}
		return roomAt{}, open, false
	}
	r := v.roomAfter(t, where, n, func() *trail { return how })
	r.end, r.open = true, open
	return r, nil, true
}

// worst keeps the place that weighs most and says the others.
func (v *view) worst(f *finding.Finding, t touchPoint, place string, list []roomAt, need []finding.Gap) {
	var chosen roomAt
	plain := *f
	for n, r := range list {
		one := plain
		one.Value = r.n
		one.Judge(r.limits...)
		if one.Verdict != finding.Pass && len(r.open) > 0 { // the end may come sooner
			one.Verdict, one.Needs, one.Shown = finding.NotKnown, r.open, countWords(len(r.open))
		}
		if n == 0 || before(one, *f) || one.Verdict == f.Verdict && one.Grade == f.Grade && margin(r) < margin(chosen) {
			*f, chosen = one, r
		}
	}
	if chosen.w != nil {
		f.Working = chosen.w().finding()
	}
	if f.Verdict == finding.Pass && len(need) > 0 {
		f.Verdict, f.Grade, f.Needs, f.Shown = finding.NotKnown, finding.Stops, need, countWords(len(need))
	}
	said := make([]string, len(list))
	for n, r := range list {
		said[n] = fmt.Sprintf("%s at %s%s", r.n, r.where, map[bool]string{true: ", laden"}[r.laden])
	}
	f.Why = fmt.Sprintf("%s at ROAD as read; left %s.", t.room.Number, strings.Join(said, ", "))
	if len(list) == 1 && list[0].where == "ROAD" {
		f.Why = "As read at ROAD; no other preset is set."
	}
	if t.meets == onLiner && chosen.end && f.Verdict != finding.Pass {
		f.Why += fmt.Sprintf(" At DOWN, where the car only stands, %s is enough; driven at ROAD a tyre keeps %s from anything, the liner too.",
			v.limit("room.liner.want").Text(), v.limit("room.tyre.least").Text())
	}
	if t.rec.Lock != "" {
		f.Why += " Steering when read: " + t.rec.Lock + "."
	}
	f.NotEvidence = staleOf(t.room, t.ratio)
	switch f.Verdict {
	case finding.Fail:
		f.Claim = "There is too little room " + beside(place) + ", at " + chosen.where + "."
		f.Least = v.moreRoom(*f, t, chosen)
	case finding.TooClose:
		f.Least = v.moreRoom(*f, t, chosen)
		f.Settle = roomSettles(*f, t, place)
	}
}

// margin is how far a room stands from its gravest limit [m].
func margin(r roomAt) float64 {
	m := math.Inf(1)
	for _, l := range r.limits {
		m = math.Min(m, r.n.Worst(l)-l.Value)
	}
	return m
}

// moreRoom is the least change that turns the verdict: more room there, or less
// travel to it.
func (v *view) moreRoom(f finding.Finding, t touchPoint, r roomAt) string {
	l, ok := f.Decided()
	if !ok {
		return ""
	}
	short := l.Value - f.Value.Worst(l)
	more := mm(ceilMM(short), 0).String()
	travel := mm(ceilMM(short/t.ratio.Value), 0).String()
	switch {
	case r.end && t.Contact.Moves == stance.LimitsDroop:
		return fmt.Sprintf("%s more slack, or a strap that ends the droop %s sooner.", more, travel)
	case r.end:
		return fmt.Sprintf("%s more room there, or a stop that ends the bump %s sooner.", more, travel)
	case r.where == "ROAD":
		return more + " more room there."
	case r.rise:
		return fmt.Sprintf("%s more room there, or %s lower by %s.", more, r.where, travel)
	}
	if short/t.ratio.Value > r.travel { // DOWN would stand above ROAD
		return more + " more room there."
	}
	return fmt.Sprintf("%s more room there, or %s higher by %s.", more, r.where, travel)
}

// roomSettles names the one reading that carries most of the doubt.
func roomSettles(f finding.Finding, t touchPoint, place string) string {
	most := finding.Term{}
	if f.Working == nil {
		return ""
	}
	for _, term := range f.Working.Terms {
		if term.Share > most.Share {
			most = term
		}
	}
	switch most.Path {
	case t.Path, "":
		return "Read the room " + beside(place) + " again with a fixed pointer, ± 1 mm."
	case t.ratio.Path:
		return fmt.Sprintf("Read the ratio %s again over more travel: it makes %.0f %% of the ±.", beside(place), 100*most.Share)
	}
	return fmt.Sprintf("Read again what ends the travel, %s: it makes %.0f %% of the ±.", most.Name, 100*most.Share)
}

// floorReadings holds the floor points against the lowest hard part: none may
// stand under it, and the same part has one height.
func (v *view) floorReadings() {
	h := &v.out.Heights
	low := h.LowestAt[1]
	if !low.Known() {
		return
	}
	v.sillReadings()
	for _, t := range v.way.points {
		if t.rec == nil || t.meets != onFloor || t.Contact.Moves != stance.WithBody {
			continue
		}
		same := strings.EqualFold(strings.TrimSpace(t.Name), strings.TrimSpace(h.LowestName))
		low := low
		if same && !t.Contact.Somewhere { // read at another height: brought to ROAD at its own place
			low.Value = h.Lowest.Value + v.way.off[0] + (v.way.off[1]-v.way.off[0])*t.Contact.Back/t.Contact.Wheelbase
		}
		d := t.room.Value - low.Value
		if half := hypot(t.room.Half, low.Half); same && abs(d) > half {
			v.wonder(t.Path, t.room.Number.String(), fmt.Sprintf("The %s stands %s over the floor here; in the survey, brought to ROAD, it is %s. Which is right?", t.Name, t.room.Number, low))
		} else if !same && d < -half {
			v.wonder(t.Path, t.room.Number.String(), fmt.Sprintf("The %s stands %s over the floor at ROAD, under the lowest hard part, the %s at %s. Which hangs lowest?", t.Name, t.room.Number, v.lowestName(), low))
		}
	}
}

// sillReadings holds the sill against the lowest hard part, both as read.
func (v *view) sillReadings() {
	low := v.read("survey.lowest", "", tape)
	if strings.Contains(strings.ToLower(v.lowestName()), "sill") {
		return
	}
	for _, path := range []string{"survey.sill", "outline.sillFront", "outline.sillRear"} {
		if s := v.read(path, "", tape); s.OK && s.Value-low.Value < -hypot(s.Half, low.Half) {
			v.wonder(path, v.text(path), fmt.Sprintf("The sill stands %s over the floor, under the lowest hard part, the %s at %s. Which hangs lowest?", s.Number, v.lowestName(), low.Number))
		}
	}
}
