package tyre

// Wheel is a rim on its mounting face.
type Wheel struct {
	Width  float64 // nominal width between the bead seats [m]
	Offset float64 // mounting face outboard of the centre line, ET [m]
}

// BeadBackspace is the distance from the inner bead seat to the mounting face:
// half of the nominal width plus the offset [m]. Measured to the rim's lip it is
// about 12.7 mm more (from memory): the two are mixed up in print.
func (w Wheel) BeadBackspace() float64 { return w.Width/2 + w.Offset }

// WheelChange is what another rim moves. Outward is away from the car.
type WheelChange struct {
	InnerEdge  float64 // inner edge moves outward by [m]; negative is towards the car
	OuterEdge  float64 // outer edge moves outward by [m]
	CentreLine float64 // centre line moves outward by [m]
	Track      float64 // track grows by [m], both sides changed
}

// Change is what putting another rim in this one's place moves (T10, T11).
func (w Wheel) Change(now Wheel) WheelChange {
	return WheelChange{
		InnerEdge:  w.BeadBackspace() - now.BeadBackspace(),
		OuterEdge:  (now.Width/2 - now.Offset) - (w.Width/2 - w.Offset),
		CentreLine: w.Offset - now.Offset,
		Track:      2 * (w.Offset - now.Offset),
	}
}
