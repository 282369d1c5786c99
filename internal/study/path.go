package study

import (
	"math"

	"jounce/internal/finding"
	q "jounce/quantity"
	"jounce/stance"
)

// The way of the body on the drawing, mean of the axles from ROAD [m]. Where no
// HIGH and no droop is known it begins at topAssumed; it goes on pastLast below
// the last touch, to leastDeep at least and mostDeep at most.
const (
	topAssumed = 0.045
	leastDeep  = 0.140
	mostDeep   = 0.250
	pastLast   = 0.020
)

// way is what the steps of the path are made from.
type way struct {
	path   stance.Path
	off    [2]float64 // ROAD above the heights as read [m]
	known  bool       // off is known
	points []touchPoint
	carry  [2]carried
	aim    given
	base   given
	over   map[string]map[string]float64 // what obstacles need of each part, once worked out
}

// carried is what a spring carries with the driver aboard, one wheel of the
// axle, the mean of left and right.
type carried struct {
	known       bool
	mass        finding.Number
	least, most float64                // heights between which the spring can be [m]; 0 not known
	nodes       map[int]finding.Number // pressures every pressureGrid of spring height from ROAD
}

// pressureGrid is how far apart along the spring's height pressures are worked
// out; between them they are drawn straight. On the demo's springs that is
// within 0.004 bar, less than half the last digit that is shown.
const pressureGrid = 0.002 // [m]

// path works out the way of the body and what meets on it.
func (v *view) path() {
	w := &v.way
	w.off, w.known = v.roadChange()
	w.aim, w.base = v.read("survey.lampAim", "a", width{abs: 0.002}), v.read("survey.wheelbase", "L", tape)
	for i := range w.carry {
		w.carry[i] = v.carriedBy(i)
		if a := v.air[i]; a != nil && a.part != nil {
			limits := a.part.Data()
			w.carry[i].least, w.carry[i].most = limits.MinHeight, limits.MaxHeight
		}
	}
	w.points = v.touchPoints()
	p := &v.out.Path
	top, bottom, ok := v.reach()
	if !ok {
		return
	}
	p.Known = true
	v.order(float64(bottom)/1000, float64(top)/1000)
	p.Road = v.waysRead()
	p.Steps = make([]Step, 0, max(0, top-bottom+1))
	for n := top; n >= bottom; n-- {
		p.Steps = append(p.Steps, v.step(w.path.Pose(float64(n)/1000)))
	}
	for k := range PresetNames {
		if c := v.out.Heights.Change[k]; c[0].Known() {
			s := v.step(stance.Pose{Front: c[0].Value, Rear: c[1].Value})
			p.Presets[k] = &s
		}
	}
}

// movers says which axles' heights can be set: one on steel stays where it is.
func (v *view) movers() [2]bool {
	m := [2]bool{v.rec.Axles.Front.Springing != "steel", v.rec.Axles.Rear.Springing != "steel"}
	if !m[0] && !m[1] {
		return [2]bool{true, true}
	}
	return m
}

// reach lays the path through the presets and says between which whole
// millimetres it is stepped.
func (v *view) reach() (top, bottom int, ok bool) {
	p, w := &v.out.Path, &v.way
	var poses []stance.Pose
	for _, k := range []int{1, 0, 2, 3} { // ROAD is kept of two with the same mean
		if c := v.out.Heights.Change[k]; c[0].Known() {
			poses = append(poses, stance.Pose{Front: c[0].Value, Rear: c[1].Value})
		}
	}
	moves := v.movers()
	var err error
	if w.path, err = stance.NewPath(mostDeep, -mostDeep, moves, poses...); err != nil {
		return 0, 0, false
	}
	high, low := 0.0, 0.0
	for _, pose := range poses {
		high, low = math.Max(high, pose.Mean()), math.Min(low, pose.Mean())
	}
	high = ceilMM(high)
	if p.Droop = v.endOf(false); p.Droop.Known() {
		high = math.Max(high, floorMM(p.Droop.Value))
	}
	if high == 0 {
		high = topAssumed
	}
	deep, most := leastDeep, mostDeep
	if moves[0] != moves[1] { // the mean moves half as far as the axle
		deep, most = deep/2, most/2
	}
	deep = math.Max(deep, -low)
	deep = math.Max(deep, w.lastTouch()+pastLast)
	top, bottom = int(math.Round(1000*math.Min(high, most))), -int(math.Round(1000*ceilMM(math.Min(deep, most))))
	return top, bottom, true
}

// lastTouch is how deep the last point meets, down to the sill: lower the car
// does not go on level ground.
func (w *way) lastTouch() float64 {
	last, sill := 0.0, mostDeep
	for _, t := range w.points {
		if m, ok, err := t.Contact.Meets(w.path); err == nil && ok && m.At < 0 {
			if t.ID == "sill" {
				sill = -m.At
			}
			last = math.Max(last, -m.At)
		}
	}
	return math.Min(last, sill)
}

// endOf is where the travel ends first on the path, up or down.
func (v *view) endOf(bump bool) finding.Number {
	var end finding.Number
	for i := range v.out.Axles {
		t := v.out.Axles[i].Travel
		n, moves := t.Droop, stance.LimitsDroop
		if bump {
			n, moves = t.Bump, stance.WithWheel
		}
		if !n.Known() || n.Value < 0 {
			continue
		}
		c := stance.Contact{Moves: moves, Room: n.Value, Half: n.Half, Ratio: 1, Rear: i == 1}
		if m, ok, err := c.Meets(v.way.path); err == nil && ok && (!end.Known() || abs(m.At) < abs(end.Value)) {
			end = mm(m.At, m.Half)
		}
	}
	return end
}

// order hands the points out in the order of their meeting between the two ends
// of the way; those that would meet beyond them never do.
func (v *view) order(bottom, top float64) {
	p, w := &v.out.Path, &v.way
	contacts := make([]stance.Contact, len(w.points))
	for i, t := range w.points {
		contacts[i] = t.Contact
	}
	list, err := stance.Order(contacts, w.path)
	if err != nil {
		return // each was asked when it was made
	}
	var never []touchPoint
	sorted := make([]touchPoint, 0, len(list))
	for _, met := range list {
		t := w.points[met.Index]
		if met.Never || met.At < bottom || met.At > top {
			never = append(never, t)
			continue
		}
		t.Touch.At, t.Touch.Rank = mm(met.At, met.Half), len(sorted)+1
		if t.Ends && met.At <= 0 && !p.Stop.Known() {
			p.Stop = t.Touch.At
		}
		sorted = append(sorted, t)
	}
	w.points = append(sorted, never...)
	for _, t := range w.points {
		p.Touches = append(p.Touches, t.Touch)
	}
}

// step is the car in one pose. What cannot be had there is not known: a spring
// shorter or longer than it can be, a pressure while the stop carries as well.
func (v *view) step(pose stance.Pose) Step {
	w, h := &v.way, &v.out.Heights
	s := Step{Height: pose.Mean(), Front: pose.Front, Rear: pose.Rear, Left: make([]finding.Number, len(w.points))}
	front, rear := pose.Front+w.off[0], pose.Rear+w.off[1]
	if w.known && h.Sill.Known() {
		s.Sill = mm(h.Sill.Value+(front+rear)/2, h.Sill.Half)
	}
	if w.known && h.Lowest.Known() {
		s.Lowest = mm(h.Lowest.Value+math.Min(front, rear), h.Lowest.Half)
	}
	if w.base.OK {
		s.NoseUp = math.Atan2(pose.Front-pose.Rear, w.base.Value)
	}
	if w.known && w.base.OK && w.aim.OK {
		if a, err := stance.AimAfter(100*w.aim.Value, 100*w.aim.Half, front, rear, 0, w.base.Value); err == nil {
			s.Aim = finding.Of(q.KindRatio, "%", a.Now/100, a.Half/100)
		}
	}
	for i, d := range [2]float64{pose.Front, pose.Rear} {
		v.axleStep(&s, i, d)
	}
	for i, t := range w.points {
		if r, err := t.Contact.At(pose); err == nil {
			s.Left[i] = mm(r.Left, r.Half)
		}
	}
	return s
}

// axleStep is one axle of a step, its body d above ROAD.
func (v *view) axleStep(s *Step, i int, d float64) {
	t, a := v.out.Axles[i].Travel, v.air[i]
	if t.Bump.Known() {
		s.Bump[i] = mm(t.Bump.Value+d, t.Bump.Half)
	}
	if t.Droop.Known() {
		s.Droop[i] = mm(t.Droop.Value-d, t.Droop.Half)
	}
	if a == nil || !a.height.OK || !a.ratio.OK {
		return
	}
	height := a.height.Value + a.ratio.Value*d
	if c := v.way.carry[i]; height <= 0 || height < c.least || c.most > 0 && height > c.most {
		return
	}
	s.Spring[i] = finding.Number{Value: height, Half: hypot(a.height.Half, a.ratio.Half*d), Kind: a.height.Kind, Unit: a.height.Unit}
	if t.StopMeets.Known() && d < -t.StopMeets.Value || t.Droop.Known() && d > t.Droop.Value+1e-9 {
		return
	}
	s.Pressure[i] = v.pressureNear(i, a, height)
}

// pressureNear is the pressure at a spring height, from the two nearest nodes of
// the grid; where the table does not reach one of them it is worked out there.
func (v *view) pressureNear(i int, a *air, height float64) finding.Number {
	c := &v.way.carry[i]
	if c.nodes == nil {
		c.nodes = map[int]finding.Number{}
	}
	node := func(k int) finding.Number {
		n, ok := c.nodes[k]
		if !ok {
			n = v.pressureAt(i, a, a.height.Value+float64(k)*pressureGrid)
			c.nodes[k] = n
		}
		return n
	}
	at := (height - a.height.Value) / pressureGrid
	k := int(math.Floor(at + 1e-9))
	share := at - float64(k)
	lo := node(k)
	if share < 1e-9 {
		return lo
	}
	hi := node(k + 1)
	if !lo.Known() || !hi.Known() {
		return v.pressureAt(i, a, height)
	}
	lo.Value += share * (hi.Value - lo.Value)
	lo.Half += share * (hi.Half - lo.Half)
	return lo
}

// pressureAt is the pressure that carries the axle's share of the car, driver
// aboard, on one spring at a height: force along the spring over the effective
// area there.
func (v *view) pressureAt(i int, a *air, height float64) finding.Number {
	c := v.way.carry[i]
	if a.part == nil || !c.known {
		return finding.Number{}
	}
	n, err := a.part.Pressure(c.mass.Value*q.StandardGravity/a.ratio.Value, 0, height)
	if err != nil {
		return finding.Number{}
	}
	p := float64(n.Value)
	return finding.Number{Value: p, Half: p * hypot(hypot(c.mass.Half/c.mass.Value, a.ratio.Half/a.ratio.Value), n.Area.Half/n.Area.Value),
		Kind: q.KindPressure, Unit: v.shop.Unit(q.KindPressure)}
}

// carriedBy is the mean of what the two springs of an axle carry with the driver
// aboard.
func (v *view) carriedBy(i int) carried {
	var m [2]finding.Number
	for k := range m {
		c := v.out.Corners[2*i+k]
		if m[k] = c.Sprung; c.Case[1].Known() {
			m[k] = c.Case[1]
		}
		if !m[k].Known() {
			return carried{}
		}
	}
	n := m[0]
	n.Value, n.Half = (m[0].Value+m[1].Value)/2, math.Max(m[0].Half, m[1].Half)
	return carried{known: true, mass: n}
}

// waysRead is what is on the customer's way, as typed.
func (v *view) waysRead() Ways {
	n := func(name string) finding.Number { return v.read("ways."+name, "", tape).Number }
	return Ways{n("hump"), n("humpLength"), n("kerb"), n("rampStep"), n("rampLength"), n("rampRise")}
}
