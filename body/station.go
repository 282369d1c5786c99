package body

import "math"

// Point is a place on the body from the side: X behind the front hub, Z over the
// floor.
type Point struct {
	X float64 // [m]
	Z float64 // [m]
}

// Station is a control point of the outline. The outline passes through it.
type Station struct {
	ID     string // "scuttle"; see Labels
	Label  string // in words, for the page
	X      float64
	Z      float64
	KnownX bool // measured or put there; otherwise assumed from the form
	KnownZ bool
	Typed  bool // somebody put it there, at least in one direction

	soft float64 // [m] how far the turn at the station reaches into its neighbours
}

// at is the station's place.
func (s Station) at() Point { return Point{s.X, s.Z} }

// labels are the stations in words; a form that has another part at the place
// has its own word in formLabels.
var labels = map[string]string{
	"nose-lip":        "nose, lower edge",
	"nose":            "nose, at the bumper",
	"nose-top":        "nose, foremost point",
	"bonnet-edge":     "bonnet, front edge",
	"scuttle":         "scuttle, bonnet's rear edge",
	"screen-top":      "windscreen, top",
	"crown":           "roof, highest point",
	"roof-rear":       "roof, rear edge",
	"back-light-foot": "back light, foot",
	"boot-edge":       "boot, rear edge",
	"tail-top":        "tail, rearmost point",
	"tail":            "tail, at the bumper",
	"rear-lip":        "tail, lower edge",
}

var formLabels = map[string]map[string]string{
	"estate": {"boot-edge": "tailgate, foot of its glass"},
	"hatch":  {"boot-edge": "tailgate, foot of its glass"},
	"pickup": {"roof-rear": "cab, rear upper edge", "back-light-foot": "cab, foot of its rear wall", "boot-edge": "load bed, rear upper edge", "tail": "tailgate, at the bumper"},
	"van":    {"scuttle": "windscreen, foot", "roof-rear": "roof, rear edge"},
	"open two-seater": {"screen-top": "cockpit, front", "crown": "cockpit, lowest edge", "roof-rear": "cockpit, rear",
		"back-light-foot": "rear deck, front", "boot-edge": "rear deck, rear edge"},
}

// label is a station of a form in words.
func label(form, id string) string {
	if l := formLabels[form][id]; l != "" {
		return l
	}
	return labels[id]
}

// Segment is a cubic curve from A to D with the control points B and C.
type Segment struct {
	A, B, C, D Point
	From, To   string // what lies at its ends, in words: "scuttle, bonnet's rear edge"
	FirmA      bool   // the half at A follows from measures
	FirmD      bool   // the half at D follows from measures
}

// At is the point at the part t [1] of the curve's parameter.
func (s Segment) At(t float64) Point {
	u := 1 - t
	a, b, c, d := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
	return Point{a*s.A.X + b*s.B.X + c*s.C.X + d*s.D.X, a*s.A.Z + b*s.B.Z + c*s.C.Z + d*s.D.Z}
}

// Halves are the two parts of the curve, cut at half its parameter; each is firm
// or not as its end is.
func (s Segment) Halves() (Segment, Segment) {
	mid := func(p, q Point) Point { return Point{(p.X + q.X) / 2, (p.Z + q.Z) / 2} }
	ab, bc, cd := mid(s.A, s.B), mid(s.B, s.C), mid(s.C, s.D)
	abc, bcd := mid(ab, bc), mid(bc, cd)
	m := mid(abc, bcd)
	return Segment{s.A, ab, abc, m, s.From, s.To, s.FirmA, s.FirmA}, Segment{m, bcd, cd, s.D, s.From, s.To, s.FirmD, s.FirmD}
}

// Reversed is the curve run the other way.
func (s Segment) Reversed() Segment {
	return Segment{s.D, s.C, s.B, s.A, s.To, s.From, s.FirmD, s.FirmA}
}

// straight is the line from a to b.
func straight(a, b Point) Segment {
	return Segment{A: a, B: Point{a.X + (b.X-a.X)/3, a.Z + (b.Z-a.Z)/3}, C: Point{b.X - (b.X-a.X)/3, b.Z - (b.Z-a.Z)/3}, D: b}
}

// curves runs cubics through the stations.
//
// The tangent at a station halves the angle between its neighbours; where a
// direction turns back at the station it has no part in that direction, so that
// a measured extent is the outline's extent. A handle is as long as the station
// is soft, at most 0.45 of the chord, and never takes more than half of the
// chord's x or z: each curve then runs within the box of its two stations and is
// monotone in both directions.
func curves(st []Station) []Segment {
	out := make([]Segment, 0, len(st))
	for i := 1; i < len(st); i++ {
		a, d := st[i-1], st[i]
		ta, td := tangent(st, i-1), tangent(st, i)
		s := Segment{A: a.at(), D: d.at(), From: a.Label, To: d.Label}
		s.B = handle(s.A, s.D, ta, a.soft, 1)
		s.C = handle(s.D, s.A, td, d.soft, -1)
		level := math.Abs(d.X-a.X) >= math.Abs(d.Z-a.Z)
		firm := func(p Station) bool { return p.KnownX && p.KnownZ || level && p.KnownZ || !level && p.KnownX }
		s.FirmA, s.FirmD = firm(a), firm(d)
		out = append(out, s)
	}
	return out
}

// tangent is the direction in which the outline passes a station; 0, 0 at a corner.
func tangent(st []Station, i int) Point {
	in, out := unit(st, i-1, i), unit(st, i, i+1)
	switch {
	case i == 0:
		return out
	case i == len(st)-1:
		return in
	}
	t := Point{in.X + out.X, in.Z + out.Z}
	if in.X*out.X <= 0 {
		t.X = 0
	}
	if in.Z*out.Z <= 0 {
		t.Z = 0
	}
	if l := math.Hypot(t.X, t.Z); l > 1e-9 {
		return Point{t.X / l, t.Z / l}
	}
	return Point{}
}

// unit is the direction from station i to station k; 0, 0 where there is none.
func unit(st []Station, i, k int) Point {
	if i < 0 || k >= len(st) {
		return Point{}
	}
	dx, dz := st[k].X-st[i].X, st[k].Z-st[i].Z
	l := math.Hypot(dx, dz)
	if l < 1e-9 {
		return Point{}
	}
	return Point{dx / l, dz / l}
}

// handle is the control point beside p of the curve from p to q.
func handle(p, q Point, t Point, soft, way float64) Point {
	dx, dz := math.Abs(q.X-p.X), math.Abs(q.Z-p.Z)
	h := math.Min(soft, 0.45*math.Hypot(dx, dz))
	if t.X != 0 {
		h = math.Min(h, 0.5*dx/math.Abs(t.X))
	}
	if t.Z != 0 {
		h = math.Min(h, 0.5*dz/math.Abs(t.Z))
	}
	return Point{p.X + way*h*t.X, p.Z + way*h*t.Z}
}
