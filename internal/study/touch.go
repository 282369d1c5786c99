package study

import (
	"strings"

	"jounce/internal/finding"
	"jounce/internal/job"
	q "jounce/quantity"
	"jounce/source"
	"jounce/stance"
)

// touchPoint is a touch with what the engine needs of it.
type touchPoint struct {
	Touch
	Contact stance.Contact
	rec     *job.Touch // nil for one that the study makes itself
	meets   string     // job.Touch.Meets
	room    given
	ratio   given
}

// The kinds of what meets what, as the record has them.
const (
	onFloor   = "hard part and floor"
	onMetal   = "metal and metal"
	onBag     = "bag and anything"
	onLiner   = "tyre and liner"
	onTyre    = "tyre and anything"
	onRubber  = "rubber meant to rest"
	inDroop   = "limits droop"
	withWheel = "with the wheel"
	withBody  = "with the body"
)

var movesOf = map[string]stance.Moves{withBody: stance.WithBody, withWheel: stance.WithWheel, inDroop: stance.LimitsDroop}

// touchPoints are the touch points of the record that can be used, and those
// that the study makes itself: the bump stops, what ends each axle's travel, the
// sill and the lowest hard part.
func (v *view) touchPoints() []touchPoint {
	var out []touchPoint
	for k := range v.rec.Touch {
		if t, ok := v.touchRead(&v.rec.Touch[k]); ok {
			out = append(out, t)
		}
	}
	typed := len(out)
	for i := range AxleNames {
		out = append(out, v.stops(i)...)
	}
	for _, t := range v.floorPoints() {
		if !named(out[:typed], t.Name) {
			out = append(out, t)
		}
	}
	return out
}

// named tells that a floor point has this name.
func named(list []touchPoint, name string) bool {
	for _, t := range list {
		if t.Contact.Moves == stance.WithBody && strings.EqualFold(strings.TrimSpace(t.Name), strings.TrimSpace(name)) {
			return true
		}
	}
	return false
}

// touchRead makes a touch point of the record ready; false where room or kind of
// travel is missing.
func (v *view) touchRead(rec *job.Touch) (touchPoint, bool) {
	at := "touch[" + rec.ID + "]"
	t := touchPoint{rec: rec, meets: rec.Meets, room: v.read(at+".room", "c_{0}", tape), ratio: v.read(at+".ratio", "r", ratio)}
	t.Touch = Touch{ID: rec.ID, Name: rec.Name, Path: at + ".room", Place: rec.Wheel, Moves: rec.Moves, Room: t.room.Number, Photo: rec.Photo,
		Rests: rec.Meets == onRubber, Ends: rec.Meets == onFloor || rec.Meets == onMetal && rec.Moves != inDroop}
	if t.Name == "" {
		t.Name = "touch point " + rec.ID
	}
	moves, ok := movesOf[rec.Moves]
	if !ok || !t.room.OK || !t.ratio.OK && v.text(at+".ratio") != "" {
		return t, false
	}
	if !t.ratio.OK || t.ratio.Value == 1 { // not typed, or typed as one: millimetre for millimetre
		one := finding.Of(q.KindRatio, "", 1, 0)
		if half := t.ratio.Half; t.ratio.OK && strings.Contains(v.text(at+".ratio"), "±") {
			one.Half = half
		}
		label := "room used up per millimetre of travel, not typed"
		if t.ratio.OK {
			label = t.ratio.Label
		}
		t.ratio = given{Number: one, Symbol: "r", Label: label, Path: at + ".ratio", Mark: source.Typed, OK: true}
	}
	v.kindsAgree(rec, at)
	t.Contact = stance.Contact{Name: t.Name, Moves: moves, Room: t.room.Value, Half: t.room.Half, Ratio: t.ratio.Value, RatioHalf: t.ratio.Half}
	v.locate(&t, at)
	return t, v.usable(t)
}

// kindsAgree asks about a point whose kind of travel does not go with what meets
// what: a tyre moves with the wheel, the floor is met by the body.
func (v *view) kindsAgree(rec *job.Touch, at string) {
	says := ""
	switch {
	case (rec.Meets == onTyre || rec.Meets == onLiner) && rec.Moves == withBody:
		says = "The tyre moves with the wheel; this point was typed as moving with the body, which is for what meets the floor. Which is right?"
	case rec.Meets == onFloor && rec.Moves != withBody:
		says = "What meets the floor moves with the body; this point was typed as “" + rec.Moves + "”. Which is right?"
	default:
		return
	}
	v.wonder(at+".moves", rec.Moves, says)
}

// usable tells that the engine can work with the point.
func (v *view) usable(t touchPoint) bool {
	_, err := t.Contact.At(stance.Pose{})
	return err == nil
}

// locate says which axle moves the point, and where it is drawn.
func (v *view) locate(t *touchPoint, at string) {
	x, z := v.read(at+".x", "x", tape), v.read(at+".z", "z", tape)
	t.Y = v.read(at+".y", "y", tape).Number
	base := v.way.base
	switch {
	case t.Contact.Moves == stance.WithBody:
		t.Contact.Somewhere = !x.OK || !base.OK
		t.Contact.Back, t.Contact.Wheelbase = x.Value, base.Value
	case strings.HasPrefix(t.Place, "R") || t.Place == "rear":
		t.Contact.Rear = true
	case t.Place == "":
		t.Contact.Somewhere = true
	}
	v.draw(t, x.Number, z.Number)
}

// draw is where the point is on the drawing: as typed, else assumed from its
// kind.
func (v *view) draw(t *touchPoint, x, z finding.Number) {
	t.Assumed = !x.Known() || !z.Known()
	if x.Known() {
		t.X = x
	} else if base := v.way.base; t.Contact.Moves == stance.WithBody && base.OK {
		t.X = mm(base.Value/2, 0)
	} else if t.Contact.Rear && base.OK {
		t.X = mm(base.Value, 0)
	} else if !t.Contact.Rear {
		t.X = mm(0, 0)
	}
	if z.Known() {
		t.Z = z
		return
	}
	hub := 0.28
	i := 0
	if t.Contact.Rear {
		i = 1
	}
	if w := v.out.Heights.Wheel[i]; w.Known {
		hub = w.Loaded.Value
	}
	switch {
	case t.Contact.Moves == stance.WithBody:
		t.Z = mm(t.Contact.Room, 0)
	case t.meets == onLiner || t.meets == onTyre:
		t.Z = mm(2*hub+t.Contact.Room, 0)
	case t.Contact.Moves == stance.WithWheel:
		t.Z = mm(hub+0.25, 0)
	default:
		t.Z = mm(hub, 0)
	}
}

// stops are where an axle's bump stop is met, on which the car may rest, and
// where its travel ends solid.
func (v *view) stops(i int) []touchPoint {
	name, t := AxleNames[i], v.out.Axles[i].Travel
	var out []touchPoint
	add := func(id, words, path string, n finding.Number, rests bool) {
		p := touchPoint{Touch: Touch{ID: id + "." + name, Name: words, Path: path, Place: name, Moves: withWheel, Room: n, Rests: rests, Ends: !rests}}
		p.Contact = stance.Contact{Name: words, Moves: stance.WithWheel, Room: n.Value, Half: n.Half, Ratio: 1, Rear: i == 1}
		v.draw(&p, finding.Number{}, finding.Number{})
		if v.usable(p) {
			out = append(out, p)
		}
	}
	if !t.Bump.Known() {
		return nil
	}
	end := t.BumpParts[0].Name
	words, path := name+" "+end, "axles."+name
	switch stop := t.StopMeets.Known(); {
	case end == "damper" && stop:
		words, path = name+" bump stop, solid", path+".stop.solid"
	case end == "damper" || end == "spring":
		words, path = words+", closed", path+".damper.closed"
	}
	if t.StopMeets.Known() && t.StopMeets.Value < t.Bump.Value {
		add("rest", name+" bump stop", "axles."+name+".stop.free", t.StopMeets, true)
	}
	add("stop", words, path, t.Bump, false)
	return out
}

// floorPoints are the sill, mid-door, and the lowest hard part, whose place
// along the car is not read.
func (v *view) floorPoints() []touchPoint {
	h, w := &v.out.Heights, &v.way
	if !w.known {
		return nil
	}
	read := stance.Pose{Front: -w.off[0], Rear: -w.off[1]}
	var out []touchPoint
	add := func(id, words string, n, road finding.Number, somewhere bool) {
		p := touchPoint{Touch: Touch{ID: id, Name: words, Path: "survey." + id, Moves: withBody, Room: road, Ends: true}, meets: onFloor}
		p.Contact = stance.Contact{Name: words, Moves: stance.WithBody, Room: n.Value, Half: n.Half, Read: read, Somewhere: somewhere, Back: 1, Wheelbase: 2}
		v.draw(&p, finding.Number{}, mm(road.Value, 0))
		p.Assumed = somewhere
		if v.usable(p) {
			out = append(out, p)
		}
	}
	if h.SillAt[1].Known() {
		add("sill", "sill", h.Sill, h.SillAt[1], false)
	}
	if h.LowestAt[1].Known() {
		add("lowest", v.lowestName(), h.Lowest, h.LowestAt[1], true)
	}
	return out
}

func (v *view) lowestName() string {
	if n := v.out.Heights.LowestName; n != "" {
		return n
	}
	return "lowest part"
}
