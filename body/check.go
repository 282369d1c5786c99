package body

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Fault is something about a body that cannot be.
type Fault struct {
	Of    []string // what it is about: "wheelbase", "frontOverhang", "roof", "arch.front", "scuttle.x", …; the first is asked about
	Place string   // in words: "front overhang"
	Says  string   // place and numbers, in one or two sentences
}

// Check is what of the measures cannot be. Lengths that are not read are not
// asked about.
func (o Outline) Check() []Fault {
	var out []Fault
	for _, f := range []func() []Fault{o.numbers, o.overhangs, o.arches, o.levels, o.strangers, o.disorder, o.crossed} {
		out = append(out, f()...)
	}
	return out
}

// mm is a length in whole millimetres, its minus U+2212.
func mm(v float64) string {
	n := math.Round(v * 1000)
	if n == 0 {
		return "0\u00a0mm"
	}
	return strings.Replace(fmt.Sprintf("%.0f\u00a0mm", n), "-", "\u2212", 1)
}

// named is a measure with the name that a fault gives it.
type named struct {
	of, place string
	v         Length
}

// measures are all lengths with their names.
func (o *Outline) measures() []named {
	m := o.Measures
	out := []named{{"wheelbase", "wheelbase", m.Wheelbase}, {"frontOverhang", "front overhang", m.FrontOverhang}, {"rearOverhang", "rear overhang", m.RearOverhang},
		{"roof", "roof above the floor", m.Roof}, {"bonnet", "bonnet above the floor", m.Bonnet}, {"waist", "waist above the floor", m.Waist}, {"boot", "boot edge above the floor", m.Boot},
		{"sill", "sill above the floor", m.Sill}, {"sillFront", "sill above the floor, front", m.SillFront}, {"sillRear", "sill above the floor, rear", m.SillRear}, {"width", "width of the body", m.Width}}
	for i, end := range ends {
		out = append(out, named{"tyre." + end, end + " tyre, radius", m.TyreRadius[i]}, named{"hub." + end, end + " hub above the floor", m.Hub[i]}, named{"arch." + end, end + " arch, from the hub", m.Arch[i]})
	}
	ids := make([]string, 0, len(m.Stations))
	for id := range m.Stations {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	for _, id := range ids {
		name := o.station(id).Label
		if name == "" {
			name = id
		}
		out = append(out, named{id + ".x", name + ", behind the front hub", m.Stations[id].X}, named{id + ".z", name + ", above the floor", m.Stations[id].Z})
	}
	return out
}

var ends = [2]string{"front", "rear"}

// numbers are lengths that are no numbers or longer than any car, and heights
// under the floor.
func (o Outline) numbers() []Fault {
	var out []Fault
	for _, n := range o.measures() {
		switch {
		case !n.v.Known:
		case math.IsNaN(n.v.V) || math.Abs(n.v.V) > most:
			out = append(out, Fault{[]string{n.of}, n.place, fmt.Sprintf("%s: %v m is no length of a car. It is drawn as assumed.", upper(n.place), n.v.V)})
		case n.v.V <= 0 && !strings.HasSuffix(n.of, ".x") && !strings.HasSuffix(n.of, "Overhang"):
			out = append(out, Fault{[]string{n.of}, n.place, fmt.Sprintf("%s, %s: it was expected to be above 0.", upper(n.place), mm(n.v.V))})
		}
	}
	return out
}

// overhangs are those that the tyre or the arch reaches beyond.
func (o Outline) overhangs() []Fault {
	var out []Fault
	m := o.Measures
	for i, v := range []Length{m.FrontOverhang, m.RearOverhang} {
		of, place := ends[i]+"Overhang", ends[i]+" overhang"
		switch {
		case !v.usable():
		case v.V < 0:
			out = append(out, Fault{[]string{of}, place, fmt.Sprintf("%s, %s. It is measured from the hub outwards and was expected to be above 0.", upper(place), mm(v.V))})
		case v.V >= o.reach(i)-1e-9:
		case m.Arch[i].usable() && v.V > o.Tyre[i].V:
			out = append(out, Fault{[]string{of, "arch." + ends[i]}, place, fmt.Sprintf("%s, %s. The %s arch reaches %s from the hub; the body was expected to reach further.", upper(place), mm(v.V), ends[i], mm(o.archHalf(i)))})
		default:
			out = append(out, Fault{[]string{of, "tyre." + ends[i]}, place, fmt.Sprintf("%s, %s. The tyre alone reaches %s from the hub; the body was expected to reach further.", upper(place), mm(v.V), mm(o.Tyre[i].V))})
		}
	}
	return out
}

// arches are wheels larger than their arch, and arches that meet.
func (o Outline) arches() []Fault {
	var out []Fault
	m := o.Measures
	for i, end := range ends {
		if a, t := m.Arch[i], m.TyreRadius[i]; a.usable() && t.usable() && a.V > 0 && t.V > a.V {
			out = append(out, Fault{[]string{"arch." + end, "tyre." + end}, end + " arch",
				fmt.Sprintf("%s arch, %s above the hub. The tyre reaches %s: at ROAD it would stand %s in the wing.", upper(end), mm(a.V), mm(t.V), mm(t.V-a.V))})
		}
	}
	if w := m.Wheelbase; w.usable() && w.V > 0 {
		if t := o.Tyre[0].V + o.Tyre[1].V; w.V <= t {
			out = append(out, Fault{[]string{"wheelbase"}, "wheelbase", fmt.Sprintf("Wheelbase, %s. The two tyres alone take %s.", mm(w.V), mm(t))})
		} else if a := o.archHalf(0) + o.archHalf(1); w.V <= a {
			out = append(out, Fault{[]string{"wheelbase", "arch.front"}, "wheelbase", fmt.Sprintf("Wheelbase, %s. The two arches alone take %s.", mm(w.V), mm(a))})
		}
	}
	return out
}

// levels are heights in the wrong order.
func (o Outline) levels() []Fault {
	m := o.Measures
	order := []struct {
		low, high named
		why       string
	}{
		{named{"waist", "waist", m.Waist}, named{"roof", "roof", m.Roof}, "The side glass lies between them."},
		{named{"bonnet", "bonnet", m.Bonnet}, named{"roof", "roof", m.Roof}, "The windscreen lies between them."},
		{named{"boot", "boot edge", m.Boot}, named{"roof", "roof", m.Roof}, "The back light lies between them."},
		{named{"sill", "sill", m.Sill}, named{"waist", "waist", m.Waist}, "The door lies between them."},
		{named{"sill", "sill", m.Sill}, named{"bonnet", "bonnet", m.Bonnet}, "The wing lies between them."},
		{named{"sillFront", "sill at the front", m.SillFront}, named{"waist", "waist", m.Waist}, "The door lies between them."},
		{named{"sillRear", "sill at the rear", m.SillRear}, named{"waist", "waist", m.Waist}, "The door lies between them."},
	}
	var out []Fault
	for _, p := range order {
		if o.Form == "van" && p.low.of == "boot" || !p.low.v.usable() || !p.high.v.usable() || p.high.v.V <= 0 || p.low.v.V < p.high.v.V {
			continue
		}
		out = append(out, Fault{[]string{p.high.of, p.low.of}, p.high.place, fmt.Sprintf("The %s, %s, lies under the %s, %s. %s", p.high.place, mm(p.high.v.V), p.low.place, mm(p.low.v.V), p.why)})
	}
	for i, end := range ends {
		if h, r := m.Hub[i], m.TyreRadius[i]; h.usable() && r.usable() && r.V > 0 && h.V > 1.02*r.V {
			out = append(out, Fault{[]string{"hub." + end, "tyre." + end}, end + " hub", fmt.Sprintf("%s hub, %s above the floor. The tyre's radius is %s: the wheel would hang in the air.", upper(end), mm(h.V), mm(r.V))})
		}
	}
	if m.Roof.usable() && m.Roof.V > 0 && !o.Roof.Known && (m.Arch[0].usable() || m.Arch[1].usable()) {
		out = append(out, Fault{[]string{"roof"}, "roof", fmt.Sprintf("The roof, %s. The arches alone reach %s over the floor.", mm(m.Roof.V), mm(math.Max(o.Hub[0].V+o.Arch[0].V, o.Hub[1].V+o.Arch[1].V)))})
	}
	return out
}

// strangers are control points that the form does not have.
func (o Outline) strangers() []Fault {
	var out []Fault
	for id := range o.Measures.Stations {
		if o.station(id).ID == "" {
			out = append(out, Fault{[]string{id}, id, fmt.Sprintf("The outline of a %s has no point named %q.", o.Form, id)})
		}
	}
	slices.SortFunc(out, func(a, b Fault) int { return strings.Compare(a.Place, b.Place) })
	return out
}

// disorder is a control point that somebody put before one that it follows. What
// is assumed gives way and is not asked about.
func (o Outline) disorder() []Fault {
	var out []Fault
	var a Station
	for _, b := range o.run() {
		if !b.KnownX {
			continue
		}
		if a.ID != "" && b.X <= a.X {
			out = append(out, Fault{[]string{b.ID + ".x", a.ID + ".x"}, b.Label, fmt.Sprintf("%s: %s behind the front hub. It was expected behind %s, which stands at %s.", upper(b.Label), mm(b.X), a.Label, mm(a.X))})
		}
		a = b
	}
	return out
}

// steps is into how many lines a curve is cut to look for crossings.
const steps = 10

// mostCrossings is how many crossings are told.
const mostCrossings = 3

// crossed are places where the outline crosses itself.
func (o Outline) crossed() []Fault {
	var out []Fault
	list := o.Edge()
	told := map[[2]string]bool{}
	lines, boxes := make([]line, len(list)), make([]box, len(list))
	for i := range list {
		lines[i] = dots(list[i:i+1], steps)
		boxes[i] = boxOf(lines[i])
	}
	for i := range list {
		for k := i + 1; k < len(list) && len(out) < mostCrossings; k++ {
			if !boxes[i].meets(boxes[k]) {
				continue
			}
			p, ok := meet(list[i], list[k], lines[i], lines[k], k == i+1 || i == 0 && k == len(list)-1)
			if !ok {
				continue
			}
			a, b := stretch(list[i]), stretch(list[k])
			if told[[2]string{a, b}] {
				continue
			}
			told[[2]string{a, b}] = true
			out = append(out, Fault{o.movers(list[i], list[k]), "outline", fmt.Sprintf("The outline crosses itself: %s and %s meet %s behind the front hub, %s above the floor.", a, b, mm(p.X), mm(p.Z))})
		}
	}
	return out
}

// stretch is a part of the outline in words.
func stretch(s Segment) string {
	if s.From == s.To {
		return "the " + s.From
	}
	return "the stretch from " + s.From + " to " + s.To
}

// movers are the typed control points at the ends of two stretches; of one that
// was typed along the car alone, that place.
func (o *Outline) movers(list ...Segment) []string {
	typed := func(st Station) string {
		if at := o.Measures.Stations[st.ID]; at.X.Known && !at.Z.Known {
			return st.ID + ".x"
		}
		return st.ID
	}
	var out []string
	for _, s := range list {
		for _, st := range o.Stations {
			if name := typed(st); st.Typed && (st.Label == s.From || st.Label == s.To) && !slices.Contains(out, name) {
				out = append(out, name)
			}
		}
	}
	if len(out) == 0 {
		for _, st := range o.Stations {
			if st.Typed {
				out = append(out, typed(st))
			}
		}
	}
	return out
}

// meet is where two curves, laid out in points, cross; neighbours share an end,
// which does not count.
func meet(s, t Segment, a, b line, neighbours bool) (Point, bool) {
	for i := 1; i < len(a); i++ {
		for k := 1; k < len(b); k++ {
			p, ok := cross(a[i-1], a[i], b[k-1], b[k])
			if ok && !(neighbours && (touches(p, s.A, t) || touches(p, s.D, t))) {
				return p, true
			}
		}
	}
	return Point{}, false
}

// touches tells that p is the end that a curve shares with its neighbour.
func touches(p, end Point, t Segment) bool {
	close := func(a, b Point) bool { return math.Hypot(a.X-b.X, a.Z-b.Z) < 1e-6 }
	return close(p, end) && (close(end, t.A) || close(end, t.D))
}

// box is what a line lies in.
type box struct{ lo, hi Point }

func boxOf(l line) box {
	b := box{l[0], l[0]}
	for _, p := range l[1:] {
		b.lo = Point{math.Min(b.lo.X, p.X), math.Min(b.lo.Z, p.Z)}
		b.hi = Point{math.Max(b.hi.X, p.X), math.Max(b.hi.Z, p.Z)}
	}
	return b
}

func (a box) meets(b box) bool {
	return a.lo.X <= b.hi.X && b.lo.X <= a.hi.X && a.lo.Z <= b.hi.Z && b.lo.Z <= a.hi.Z
}

// cross is where the lines ab and cd cross; parallel lines do not.
func cross(a, b, c, d Point) (Point, bool) {
	ux, uz, vx, vz := b.X-a.X, b.Z-a.Z, d.X-c.X, d.Z-c.Z
	det := ux*vz - uz*vx
	if math.Abs(det) < 1e-15 {
		return Point{}, false
	}
	s, t := ((c.X-a.X)*vz-(c.Z-a.Z)*vx)/det, ((c.X-a.X)*uz-(c.Z-a.Z)*ux)/det
	if s < 0 || s > 1 || t < 0 || t > 1 {
		return Point{}, false
	}
	return Point{a.X + s*ux, a.Z + s*uz}, true
}

// upper is a text with a large first letter.
func upper(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
