package body

import "math"

// Outline is a body from the left at ROAD: what was measured, and the form's
// proportions for the rest.
type Outline struct {
	Measures    Measures  // as they were given
	Form        string    // one of Forms
	Stations    []Station // from the nose's lower edge over the roof to the tail's
	Over        []Segment // the curves between them
	Sills       []Station // lower edge between the arches: front, mid-door, rear
	Wheelbase   Length
	Nose, Tail  Length    // x of the foremost and of the rearmost point
	Roof, Waist Length    // z
	Width       Length    // without mirrors
	Hub         [2]Length // z of the hubs
	Tyre        [2]Length // radius
	Arch        [2]Length // hub to arch
	ArchShape   [2]string // "round", "flat" or "covered"
}

// most is the longest length that counts [m]; beyond it, as when it is no number,
// a length counts as not read.
const most = 50.0

// usable is a length that can be drawn.
func (l Length) usable() bool { return l.Known && math.Abs(l.V) <= most }

// or is the length, or the one assumed [m].
func (l Length) or(assumed float64) Length {
	if l.usable() {
		return l
	}
	return Length{V: assumed}
}

// within is the length, or the nearest of the range as an assumed one where it
// lies outside.
func (l Length) within(lo, hi float64) Length {
	if v := math.Max(lo, math.Min(hi, l.V)); v != l.V {
		return Length{V: v}
	}
	return l
}

// New lays out a body. Whatever is typed gives an outline: what cannot be drawn
// is drawn as assumed, and Check says so.
func New(m Measures) Outline {
	o := Outline{Measures: m, Form: formOf(m.Form)}
	p := proportions[o.Form]
	o.Wheelbase = m.Wheelbase.or(unitBase/1000).within(0.8, 12)
	k := o.Wheelbase.V * 1000 / unitBase
	o.wheels()
	front := m.FrontOverhang.or(p.front*k/1000).within(o.reach(0), 6)
	rear := m.RearOverhang.or(p.rear*k/1000).within(o.reach(1), 6)
	over := math.Max(o.Hub[0].V+o.Arch[0].V, o.Hub[1].V+o.Arch[1].V)
	o.Roof = m.Roof.or(p.roof/1000).within(1.2*over, 8)
	o.Width = m.Width.or(p.width*k/1000).within(0.5, 4)
	o.sills(k)
	l := layout{form: o.Form, k: k, r: o.Roof.V * 1000, n: -front.V * 1000, t: (o.Wheelbase.V + rear.V) * 1000, over: over*1000 + 45}
	l.lip = math.Min(math.Max(0.6*1000*o.Sills[1].Z+80, 0.13*l.r), 0.3*l.r)
	l.scuttle, l.boot = o.read(m.Bonnet, l), o.read(m.Boot, l)
	if l.scuttle == 0 && m.Waist.usable() {
		l.scuttle = o.read(Length{math.Max(m.Waist.V-0.02*o.Roof.V, l.over/1000), true}, l)
	}
	l.stations()
	o.Stations = l.list
	o.clearLips()
	o.know(front, rear)
	o.place()
	o.waist(over)
	o.Over = curves(o.Stations)
	o.extents(front, rear)
	o.footSills()
	return o
}

// read is a height between the arches and the roof in the layout's measure; 0
// where it is not read or cannot be drawn.
func (o *Outline) read(z Length, l layout) float64 {
	if v := 1000 * z.V; z.usable() && v > 0.35*l.r && v < l.r-60 {
		return v
	}
	return 0
}

// wheels takes the wheels and arches; one axle's stands for the other's.
func (o *Outline) wheels() {
	m := o.Measures
	for i := range 2 {
		r := m.TyreRadius[i]
		if !r.usable() {
			r = Length{V: m.TyreRadius[1-i].or(0.305).V}
		}
		o.Tyre[i] = r.within(0.15, 0.8)
		t := o.Tyre[i].V
		o.Hub[i] = m.Hub[i].or(0.955*t).within(0.5*t, 1.02*t)
		a := m.Arch[i]
		if !a.usable() { // it keeps clear of the body's end and of its upper edge where those are read
			a = Length{V: t + 0.062}
			if v := [2]Length{m.FrontOverhang, m.RearOverhang}[i]; v.usable() {
				a.V = math.Min(a.V, v.V-beyond)
			}
			if z := [2]Length{m.Bonnet, m.Boot}[i]; z.usable() {
				a.V = math.Min(a.V, z.V-o.Hub[i].V-0.05)
			}
			a.V = math.Max(1.01*t, a.V)
		}
		o.Arch[i] = a.within(0.6*t, 3*t)
		o.ArchShape[i] = m.ArchShape[i]
		if s := o.ArchShape[i]; s != "flat" && s != "covered" {
			o.ArchShape[i] = "round"
		}
	}
}

// beyond is how far the body reaches beyond an arch at the least [m].
const beyond = 0.03

// reach is the least overhang that can be drawn: the arch and a little of the
// body beyond it [m].
func (o *Outline) reach(axle int) float64 { return o.archHalf(axle) + beyond }

// archHalf is half the width of an arch where it is widest [m].
func (o *Outline) archHalf(axle int) float64 {
	if o.ArchShape[axle] == "round" {
		return o.Arch[axle].V
	}
	return math.Max(o.Tyre[axle].V*1.12+0.02, 0.8*o.Arch[axle].V)
}

// sills lays out the lower edge between the arches; a height that is not read
// follows from the others.
func (o *Outline) sills(k float64) {
	m := o.Measures
	mid := m.Sill
	if !mid.usable() {
		mid = Length{V: 0.62 * o.Hub[0].V}
		f, r := m.SillFront, m.SillRear
		switch {
		case f.usable() && r.usable():
			mid.V = (f.V + r.V) / 2
		case f.usable():
			mid.V = f.V
		case r.usable():
			mid.V = r.V
		}
	}
	top := math.Max(o.Hub[0].V, o.Hub[1].V) + 0.3
	mid = mid.within(0.01, top)
	for i, s := range []Length{m.SillFront, mid, m.SillRear} {
		id := [3]string{"sill-front", "sill", "sill-rear"}[i]
		z := s.or(mid.V).within(0.01, top)
		o.Sills = append(o.Sills, Station{ID: id, Label: [3]string{"sill, behind the front wheel", "sill, mid-door", "sill, before the rear wheel"}[i],
			X: [3]float64{0.25, 0.5, 0.75}[i] * o.Wheelbase.V, Z: z.V, KnownX: true, KnownZ: z.Known})
	}
}

// footSills brings the sill's ends to the arches.
func (o *Outline) footSills() {
	_, o.Sills[0].X, _ = o.feet(0, o.Sills[0].Z)
	o.Sills[2].X, _, _ = o.feet(1, o.Sills[2].Z)
	a, b := o.Sills[0].X, o.Sills[2].X
	if a > b { // the arches meet
		a, b = b, a
	}
	o.Sills[1].X = math.Max(a, math.Min(b, 0.5*o.Wheelbase.V))
}

// clearLips keeps the lower edges of nose and tail clear of the arches.
func (o *Outline) clearLips() {
	first, last := &o.Stations[0], &o.Stations[len(o.Stations)-1]
	f, _, _ := o.feet(0, first.Z)
	_, r, _ := o.feet(1, last.Z)
	first.X = math.Min(first.X, f-0.02)
	last.X = math.Max(last.X, r+0.02)
}

// know marks the stations that measures fix.
func (o *Outline) know(front, rear Length) {
	m := o.Measures
	tail := "tail-top"
	if o.Form == "pickup" {
		tail = "boot-edge"
	}
	for i := range o.Stations {
		s := &o.Stations[i]
		switch s.ID {
		case "nose-top":
			s.KnownX = front.Known
		case "scuttle":
			s.KnownZ = m.Bonnet.usable() && near(m.Bonnet.V, s.Z)
		case "crown":
			s.KnownZ = o.Roof.Known && o.Form != "open two-seater"
		case "boot-edge", "back-light-foot":
			if s.ID == "boot-edge" || o.Form == "pickup" {
				s.KnownZ = m.Boot.usable() && near(m.Boot.V, s.Z)
			}
		}
		if s.ID == tail {
			s.KnownX = rear.Known && o.Wheelbase.Known
		}
	}
}

func near(a, b float64) bool { return math.Abs(a-b) < 1e-6 }

// place puts the stations where somebody put them; what is assumed gives way
// along the car.
func (o *Outline) place() {
	for i := range o.Stations {
		s := &o.Stations[i]
		spot, ok := o.Measures.Stations[s.ID]
		if !ok {
			continue
		}
		if spot.X.usable() {
			s.X, s.KnownX, s.Typed = spot.X.V, true, true
		}
		if spot.Z.usable() {
			s.Z, s.KnownZ, s.Typed = spot.Z.V, true, true
		}
	}
	o.yield()
}

// apart is how far an assumed station keeps from its neighbour along the car [m].
const apart = 0.03

// run is the part of the stations along which x rises, from the bonnet's edge to
// the boot's.
func (o *Outline) run() []Station {
	from, to := 0, len(o.Stations)
	for i, s := range o.Stations {
		switch s.ID {
		case "bonnet-edge":
			from = i
		case "tail-top", "tail":
			to = min(to, i)
		}
	}
	return o.Stations[from:to]
}

// yield lets assumed stations give way to those that are known.
func (o *Outline) yield() {
	st := o.run()
	for i := 1; i < len(st); i++ {
		if !st[i].KnownX && st[i].X < st[i-1].X+apart {
			st[i].X = st[i-1].X + apart
		}
	}
	for i := len(st) - 2; i >= 0; i-- {
		if !st[i].KnownX && st[i].X > st[i+1].X-apart {
			st[i].X = st[i+1].X - apart
		}
	}
}

// waist is where the glass begins.
func (o *Outline) waist(over float64) {
	sc := o.station("scuttle")
	z := math.Max(sc.Z+0.02*o.Roof.V, over+0.065)
	if o.Form == "van" {
		z = sc.Z
	}
	o.Waist = o.Measures.Waist.or(z).within(0.2*o.Roof.V, 0.97*o.Roof.V)
}

// station is the station with the id; the zero one where the form has none.
func (o *Outline) station(id string) Station {
	for _, s := range o.Stations {
		if s.ID == id {
			return s
		}
	}
	return Station{}
}

// Station is the control point with the id; false where the form has none.
func (o Outline) Station(id string) (Station, bool) {
	s := o.station(id)
	return s, s.ID != ""
}

// extents are the foremost and the rearmost point.
func (o *Outline) extents(front, rear Length) {
	o.Nose, o.Tail = Length{math.Inf(1), false}, Length{math.Inf(-1), false}
	for _, s := range o.Stations {
		if s.X < o.Nose.V {
			o.Nose = Length{s.X, s.KnownX}
		}
		if s.X > o.Tail.V {
			o.Tail = Length{s.X, s.KnownX}
		}
	}
}
