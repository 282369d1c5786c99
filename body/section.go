package body

import "math"

// Rib is a place of the body seen from an end: half its width at a height.
type Rib struct {
	Name      string  // "sill", "waist", "roof rail", …
	Half      float64 // [m] from the middle to the side
	Z         float64 // [m] over the floor
	KnownHalf bool
	KnownZ    bool
}

// tumble is the width of a form at its rail, in shares of its greatest width, and
// how far the rail lies under the roof in shares of its height.
var tumble = map[string][2]float64{
	"saloon": {0.68, 0.06}, "coupé": {0.65, 0.06}, "estate": {0.70, 0.055}, "hatch": {0.69, 0.06}, "pickup": {0.74, 0.06}, "van": {0.88, 0.07}, "open two-seater": {0.86, 0.03},
}

// Ribs is the largest section of the body, from the sill up: half widths at the
// sill, the widest place, the waist, the roof's rail and the middle of the roof.
// Both end views have it as their outline.
func (o Outline) Ribs() []Rib {
	h, t := o.Width.V/2, tumble[o.Form]
	sill, waist, roof := o.Sills[1].Z, o.Waist.V, o.Roof.V
	top, known := roof, o.Roof.Known
	if o.Form == "open two-seater" { // the deck; its screen stands on it
		top, known = o.station("back-light-foot").Z, o.station("back-light-foot").KnownZ
		waist = math.Min(waist, top-0.05)
	}
	wide := sill + 0.55*(waist-sill)
	return []Rib{
		{"sill", 0.93 * h, sill, false, o.Sills[1].KnownZ},
		{"widest place", h, wide, o.Width.Known, false},
		{"waist", 0.925 * h, waist, false, o.Waist.Known},
		{"roof rail", t[0] * h, math.Max(waist+0.01, top-t[1]*roof), false, false},
		{"roof", 0, top, true, known},
	}
}

// Section is the right half of the body seen from an end, from the sill to the
// middle of the roof; X of its points is the distance from the middle.
func (o Outline) Section() []Segment {
	var st []Station
	soft := []float64{0.05, 0.22, 0.05, 0.10, 0.5}
	for i, r := range o.Ribs() {
		st = append(st, Station{ID: r.Name, Label: r.Name, X: r.Half, Z: r.Z, KnownX: r.KnownHalf, KnownZ: r.KnownZ, soft: soft[i]})
	}
	out := curves(st)
	// The roof is level in its middle.
	last := &out[len(out)-1]
	last.C = Point{0.55 * last.A.X, last.D.Z}
	last.B = Point{0.92 * last.A.X, last.D.Z - 0.25*(last.D.Z-last.A.Z)}
	return out
}

// Face is what an end shows besides the section: half widths and heights of the
// edges that run across the car.
type Face struct {
	Deck   Rib // bonnet's rear edge, or the boot's edge
	Edge   Rib // bonnet's front edge, or the tail's upper edge
	Bumper Rib // its middle
	Lip    Rib // lower edge
	Glass  bool
}

// Face is the front where axle is 0, else the rear.
func (o Outline) Face(axle int) Face {
	h, r := o.Width.V/2, o.Roof.V
	if o.Form == "van" || o.Form == "pickup" {
		r *= 0.8
	}
	rib := func(name string, half float64, s Station) Rib { return Rib{name, half * h, s.Z, false, s.KnownZ} }
	bumper := Rib{Name: "bumper", Half: 0.97 * h, Z: 0.31*r + 0.022*r}
	if axle == 0 {
		return Face{rib("bonnet, rear edge", 0.86, o.station("scuttle")), rib("bonnet, front edge", 0.82, o.station("bonnet-edge")), bumper,
			rib("nose, lower edge", 0.86, o.Stations[0]), true}
	}
	deck := o.station("boot-edge")
	if deck.ID == "" { // a van's doors go up to the roof
		deck = Station{Z: o.Waist.V, KnownZ: o.Waist.Known}
	}
	edge := o.station("tail-top")
	if edge.ID == "" {
		edge = deck
	}
	return Face{rib("boot, rear edge", 0.86, deck), rib("tail, upper edge", 0.88, edge), bumper, rib("tail, lower edge", 0.86, o.Stations[len(o.Stations)-1]), o.Form != "pickup" && o.Form != "open two-seater"}
}
