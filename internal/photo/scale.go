package photo

import (
	"fmt"
	"math"
	"strings"
)

// Point is a place in the upright picture.
type Point struct {
	X, Y float64 // [px] from the left and the upper edge
}

// Spot is a place on the car seen from the side.
type Spot struct {
	X, Z float64 // [m] rearwards from the front hub along the floor; up from the floor
}

// Camera is where the picture was taken from. What is zero is assumed, and
// Redraw says so.
type Camera struct {
	Distance float64 // [m] from the outer faces of the tyres; assumed 6
	Height   float64 // [m] above the floor; assumed 1.5
}

// Marks are what a person pointed at in the picture, and the lengths known of
// the car. Hubs, wheelbase, and either both hub heights or both places where the
// tyres stand are needed; all of them together can be checked against each other.
//
// Which way the car faces needs no question: the front hub is the one called so.
type Marks struct {
	FrontHub, RearHub       *Point  // [px] middles of the wheels; nil: not pointed at
	FrontGround, RearGround *Point  // [px] where the tyres stand on the floor; nil: not pointed at
	Wheelbase               float64 // [m] front hub to rear hub along the floor; 0: not known
	FrontHeight, RearHeight float64 // [m] hub above the floor, the tyre's loaded radius; 0: not known
	Misfit                  float64 // [1] hub heights may differ by this share before it is said; 0: 0.05
	Camera                  Camera  // [m] where the picture was taken from
}

// PointDoubt is how far a place pointed at with a finger may be off (common practice).
const PointDoubt = 3.0 // [px]

// Scale turns metres on the car into pixels of the picture: a similarity, so one
// scale, one turn and one place, in the plane of the hubs.
type Scale struct {
	PixelsPerMetre float64 // [px/m]
	MMPerPixel     float64 // [mm/px]
	Doubt          float64 // [1] half-width of the scale from pointing alone, PointDoubt at either hub
	Tilt           float64 // [rad] of the floor in the picture, positive when its right end is lower
	FacesRight     bool    // the front of the car is on the right of the picture
	Wheelbase      float64 // [m] as given
	FrontHeight    float64 // [m] of the front hub above the floor, as given or else as seen
	RearHeight     float64 // [m] of the rear hub above the floor, as given or else as seen
	HeightsSeen    bool    // FrontHeight and RearHeight are from the picture alone
	FrontSeen      float64 // [m] of the front hub above the mark under its tyre; 0: no mark
	RearSeen       float64 // [m] of the rear hub above the mark under its tyre; 0: no mark
	Misfit         float64 // [1] the larger of seen over given − 1 of the two, with its sign; 0 without both
	Notes          []string
	Camera         Camera // [m] as given, zeros not yet assumed

	origin Point      // [px] the floor under the front hub
	ex, ez [2]float64 // [1] unit vectors in the picture of rearwards and upwards
}

// minSpan is the least distance of the hubs; below it one finger's doubt is 3 %.
const minSpan = 150.0 // [px]

// ScaleOf finds the scale of a picture.
//
// With p the vector from the front hub to the rear hub [px], L the wheelbase, and
// d the height of the rear hub less that of the front one, the vector of one metre
// rearwards is
//
//	(a, b) = ((L·px − σ·d·py), (σ·d·px + L·py)) / (L² + d²)
//
// and the one upwards σ·(b, −a), with σ = 1 when the car faces left and −1 when it
// faces right: the similarity that puts both hubs in their places. Without known
// hub heights the floor is the line through the two marks under the tyres, and the
// scale is the part of p along it over L. Plane geometry, exact; a doubt of 3 px at
// each mark is all that Doubt holds. The error is a *Refusal that names what is missing.
func ScaleOf(m Marks) (Scale, error) {
	if no := m.complete(); no != nil {
		return Scale{}, no
	}
	s := Scale{Wheelbase: m.Wheelbase, Camera: m.Camera, FrontHeight: m.FrontHeight, RearHeight: m.RearHeight}
	p := [2]float64{m.RearHub.X - m.FrontHub.X, m.RearHub.Y - m.FrontHub.Y}
	s.FacesRight = p[0] < 0
	if s.HeightsSeen = !m.heightsKnown(); s.HeightsSeen {
		s.fromFloor(m, p)
	} else {
		s.fromHubs(p)
	}
	s.MMPerPixel = 1000 / s.PixelsPerMetre
	s.Doubt = math.Sqrt2 * PointDoubt / math.Hypot(p[0], p[1])
	s.Tilt = math.Atan2(s.ex[1], s.ex[0])
	if s.FacesRight {
		s.Tilt = math.Atan2(-s.ex[1], -s.ex[0])
	}
	s.origin = Point{m.FrontHub.X - s.ez[0]*s.FrontHeight*s.PixelsPerMetre, m.FrontHub.Y - s.ez[1]*s.FrontHeight*s.PixelsPerMetre}
	if no := s.plausible(); no != nil {
		return Scale{}, no
	}
	s.compare(m)
	if m.FrontGround != nil && s.FrontSeen < 0.1 || m.RearGround != nil && s.RearSeen < 0.1 { // no angle of the camera does that
		return Scale{}, refuse(WrongScale, "Point at the floor under each tyre, below its hub", "the marks on the floor do not lie below the hubs")
	}
	return s, nil
}

// complete names everything that is missing at once.
func (m Marks) complete() *Refusal {
	var missing []string
	add := func(is bool, what string) {
		if is {
			missing = append(missing, what)
		}
	}
	add(m.FrontHub == nil, "the middle of the front wheel")
	add(m.RearHub == nil, "the middle of the rear wheel")
	add(m.Wheelbase == 0, "the wheelbase")
	if !m.heightsKnown() && !m.floorMarked() {
		missing = append(missing, "the floor (the tyres' loaded radius, or the places where both tyres stand)")
	}
	if len(missing) > 0 {
		return &Refusal{Why: NoScale, What: "its scale is not known yet: " + joined(missing) + " " + plural(len(missing), "is", "are") + " missing",
			Fix: "Point at both wheels in the picture and give the wheelbase"}
	}
	for _, v := range []float64{m.Wheelbase, m.FrontHeight, m.RearHeight, m.FrontHub.X, m.FrontHub.Y, m.RearHub.X, m.RearHub.Y} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return refuse(WrongScale, "Point again", "a place or a length in it is not a number")
		}
	}
	switch span := math.Hypot(m.RearHub.X-m.FrontHub.X, m.RearHub.Y-m.FrontHub.Y); {
	case m.Wheelbase < 0.5 || m.Wheelbase > 8:
		return refuse(WrongScale, "Read the wheelbase again", "a wheelbase of %s mm is none of a car", millimetres(m.Wheelbase))
	case m.heightsKnown() && (min(m.FrontHeight, m.RearHeight) < 0.1 || max(m.FrontHeight, m.RearHeight) > 1):
		return refuse(WrongScale, "Read the loaded radius again", "hubs %s and %s mm above the floor are none of a car",
			millimetres(m.FrontHeight), millimetres(m.RearHeight))
	case span < minSpan:
		return refuse(WrongScale, "Point at the middles of both wheels; if they are right, take the picture from nearer",
			"the hubs are %.0f px apart, and at least %.0f are needed", span, minSpan)
	}
	return nil
}

func (m Marks) heightsKnown() bool { return m.FrontHeight != 0 && m.RearHeight != 0 }
func (m Marks) floorMarked() bool  { return m.FrontGround != nil && m.RearGround != nil }

// fromHubs is the similarity from both hubs with their heights.
func (s *Scale) fromHubs(p [2]float64) {
	l, d := s.Wheelbase, s.RearHeight-s.FrontHeight
	q := l*l + d*d
	sd := s.side() * d
	s.setAxes((l*p[0]-sd*p[1])/q, (sd*p[0]+l*p[1])/q)
}

// fromFloor takes the floor from the marks under the tyres, and the hub heights
// from the picture.
func (s *Scale) fromFloor(m Marks, p [2]float64) {
	g := [2]float64{m.RearGround.X - m.FrontGround.X, m.RearGround.Y - m.FrontGround.Y}
	k := (p[0]*g[0] + p[1]*g[1]) / (g[0]*g[0] + g[1]*g[1]) / s.Wheelbase
	s.setAxes(g[0]*k, g[1]*k)
	s.FrontHeight, s.RearHeight = s.above(m.FrontHub, m.FrontGround), s.above(m.RearHub, m.FrontGround)
}

func (s *Scale) setAxes(a, b float64) {
	s.PixelsPerMetre = math.Hypot(a, b)
	s.ex = [2]float64{a / s.PixelsPerMetre, b / s.PixelsPerMetre}
	s.ez = [2]float64{s.side() * s.ex[1], -s.side() * s.ex[0]}
}

// side is 1 when the car faces left, −1 when it faces right.
func (s *Scale) side() float64 {
	if s.FacesRight {
		return -1
	}
	return 1
}

// above is how far hub stands above a mark, along the car's own upwards [m].
func (s *Scale) above(hub, mark *Point) float64 {
	return ((hub.X-mark.X)*s.ez[0] + (hub.Y-mark.Y)*s.ez[1]) / s.PixelsPerMetre
}

// plausible refuses a picture that lies on its side and marks that swapped places.
func (s *Scale) plausible() *Refusal {
	switch tilt := s.Tilt * 180 / math.Pi; {
	case math.IsNaN(s.PixelsPerMetre) || math.IsInf(s.PixelsPerMetre, 0) || s.PixelsPerMetre <= 0:
		return refuse(WrongScale, "Point again at the places where the tyres stand", "the marks under both tyres lie in one place")
	case math.Abs(tilt) > 12:
		return refuse(WrongScale, "Turn the picture upright, or point at the wheels again",
			"the line of the floor lies at %.0f° in it, and 12° are the most that a hand holds", math.Abs(tilt))
	case s.FrontHeight < 0.1 || s.RearHeight < 0.1:
		return refuse(WrongScale, "Point at the floor under each tyre, below its hub", "the marks on the floor do not lie below the hubs")
	}
	return nil
}

// compare holds the hub heights seen against those given.
func (s *Scale) compare(m Marks) {
	limit := m.Misfit
	if limit <= 0 {
		limit = 0.05
	}
	if s.HeightsSeen {
		s.Notes = append(s.Notes, fmt.Sprintf("The hubs stand %s and %s mm above the floor in the picture. No loaded radius was given to check that against.",
			millimetres(s.FrontHeight), millimetres(s.RearHeight)))
	}
	for _, w := range []struct {
		name  string
		hub   *Point
		mark  *Point
		given float64
		seen  *float64
	}{{"front", m.FrontHub, m.FrontGround, s.FrontHeight, &s.FrontSeen}, {"rear", m.RearHub, m.RearGround, s.RearHeight, &s.RearSeen}} {
		if w.mark == nil {
			continue
		}
		*w.seen = s.above(w.hub, w.mark)
		if s.HeightsSeen {
			continue
		}
		off := *w.seen/w.given - 1
		if math.Abs(off) > math.Abs(s.Misfit) {
			s.Misfit = off
		}
		// Pointing alone is no reason to doubt the picture.
		pointing := math.Sqrt2 * PointDoubt / (w.given * s.PixelsPerMetre)
		if math.Abs(off) > math.Max(limit, pointing) {
			s.Notes = append(s.Notes, misfitNote(w.name, *w.seen, w.given, off))
		}
	}
}

// misfitNote says what the difference means. A hub that seems too high means a
// foreshortened wheelbase: seen from an angle ψ off square it is L·cos ψ, so that
// heights read with it are too large by 1/cos ψ.
func misfitNote(name string, seen, given, off float64) string {
	more, angle := "less", ""
	if off > 0 {
		more = "more"
		angle = fmt.Sprintf(", some %.0f° off square", math.Acos(1/(1+off))*180/math.Pi)
	}
	return fmt.Sprintf("The %s hub stands %s mm above the floor in the picture and %s mm by its tyre, %.0f %% %s: "+
		"the picture was taken at an angle%s, or a mark or the wheelbase is wrong. Heights may be off by %s mm at the hub and by %s mm at 1 m above the floor.",
		name, millimetres(seen), millimetres(given), math.Abs(off)*100, more, angle, millimetres(math.Abs(seen-given)), millimetres(math.Abs(off)))
}

// Pixel is where a spot on the car lies in the picture.
func (s Scale) Pixel(p Spot) Point {
	x, z := p.X*s.PixelsPerMetre, p.Z*s.PixelsPerMetre
	return Point{s.origin.X + x*s.ex[0] + z*s.ez[0], s.origin.Y + x*s.ex[1] + z*s.ez[1]}
}

// Spot is the spot on the car that lies at a place of the picture, if it lies in
// the plane of the hubs.
func (s Scale) Spot(p Point) Spot {
	dx, dy := p.X-s.origin.X, p.Y-s.origin.Y
	return Spot{(dx*s.ex[0] + dy*s.ex[1]) / s.PixelsPerMetre, (dx*s.ez[0] + dy*s.ez[1]) / s.PixelsPerMetre}
}

// millimetres is a length in whole millimetres, minus U+2212.
func millimetres(m float64) string {
	if math.IsNaN(m) || math.Abs(m) > 1e6 {
		return "?"
	}
	return strings.Replace(grouped(int(math.Round(m*1000))), "-", "\u2212", 1)
}

func joined(s []string) string {
	if len(s) < 2 {
		return strings.Join(s, "")
	}
	return strings.Join(s[:len(s)-1], ", ") + " and " + s[len(s)-1]
}

func plural(n int, one, more string) string {
	if n == 1 {
		return one
	}
	return more
}
