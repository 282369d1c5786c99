package spring

import (
	"math"

	"jounce/quantity"
)

// IsobarPoint is one point of a line of constant pressure.
type IsobarPoint struct {
	Height float64 // [m]
	Load   float64 // [N]
	Area   float64 // [m²]
	Held   bool    // the pressure lies outside the data there
}

// Isobar is the load over the heights of the data at one pressure, in n equal
// steps from the lowest to the highest height; one point where only one height
// is known.
func (s *Spring) Isobar(p quantity.GaugePressure, n int) ([]IsobarPoint, error) {
	if n < 2 {
		return nil, badNumber("points of a line", float64(n), "two or more")
	}
	lo, hi := s.Heights()
	if len(s.rows) == 1 {
		n = 1
	}
	line := *s // one pressure, so one curve of the area for all its points
	if n > 1 && float64(p) > 0 {
		c, err := s.areaCurve(float64(p))
		if err != nil {
			return nil, err
		}
		line.fixed = c
	}
	points := make([]IsobarPoint, n)
	for i := range points {
		h := lo
		if n > 1 {
			h = lo + (hi-lo)*float64(i)/float64(n-1)
		}
		f, err := line.Force(p, h)
		if err != nil {
			return nil, err
		}
		points[i] = IsobarPoint{Height: h, Load: f.Value, Area: f.Area.Value, Held: f.Area.Held}
	}
	return points, nil
}

// Behaviour is what the points look like.
type Behaviour struct {
	Known       bool                   // three heights or more: something can be said
	Pressure    quantity.GaugePressure // of the line that was looked at [Pa]
	Slope       float64                // mean change of the area with height, as a share of the middle area [1/m]
	PlateauLow  float64                // heights between which the area stays within ± 5 % of the middle's [m]
	PlateauHigh float64                // [m]
	Looks       Kind                   // bellows or sleeve; unknown in between
	Contradicts bool                   // the data say another kind than Looks
}

// Slopes of the area that tell the kinds apart, as shares of the area in 1 m
// (common practice): a sleeve on its plateau loses less than 3 % in 10 mm, a
// bellows more than 5 %.
const (
	sleeveSlope  = -3.0
	bellowsSlope = -5.0
)

// plateauShare is how far the area may change along a plateau [1].
const plateauShare = 0.05

// Behaviour looks at the middle pressure's area over the heights and says
// whether it looks like a bellows or like a sleeve, and where its plateau is.
// It is a hint for the reader of the data, never a model.
func (s *Spring) Behaviour() Behaviour {
	r := s.rows[len(s.rows)/2]
	b := Behaviour{Pressure: quantity.GaugePressure(r.pressure[len(r.pressure)/2])}
	if len(s.rows) < 3 {
		return b
	}
	points, err := s.Isobar(b.Pressure, 101)
	if err != nil {
		return b
	}
	b.Known = true
	mid := points[50]
	first, last := points[0], points[100]
	b.Slope = (last.Area - first.Area) / (last.Height - first.Height) / mid.Area
	near := func(p IsobarPoint) bool { return math.Abs(p.Area/mid.Area-1) <= plateauShare }
	lo, hi := 50, 50
	for lo > 0 && near(points[lo-1]) {
		lo--
	}
	for hi < 100 && near(points[hi+1]) {
		hi++
	}
	b.PlateauLow, b.PlateauHigh = points[lo].Height, points[hi].Height
	switch {
	case b.Slope < bellowsSlope:
		b.Looks = Bellows
	case b.Slope > sleeveSlope:
		b.Looks = Sleeve
	}
	b.Contradicts = s.data.Kind != UnknownKind && b.Looks != UnknownKind && b.Looks != s.data.Kind
	return b
}

// Guess is a geometric estimate of an effective area, for want of a maker's
// line. It is no basis for a pass.
type Guess struct {
	Kind     Kind
	Diameter float64 // effective diameter [m]
	Area     float64 // [m²]
	Share    float64 // doubt of the area [1]
	Half     float64 // ± of Area [m²]
}

// GuessSleeve estimates a sleeve's area from the outer diameter of the inflated
// sleeve and the piston's diameter [m]: the effective diameter lies midway
// between the two (the rubber is horizontal at the bottom of the lobe), ± 15 %
// of the area (common practice).
func GuessSleeve(outer, piston float64) (Guess, error) {
	if !above(outer) || !above(piston) || piston >= outer {
		return Guess{}, badNumber("piston diameter [mm]", piston/mm, "less than the sleeve's outer diameter, both above zero")
	}
	return guess(Sleeve, (outer+piston)/2, 0.15), nil
}

// GuessBellows estimates a bellows' area at its design height from the outer
// diameter of a convolution, inflated, and the diameter of the bead or girdle
// [m]: midway between the two, ± 20 % of the area (common practice).
func GuessBellows(outer, bead float64) (Guess, error) {
	if !above(outer) || !above(bead) || bead >= outer {
		return Guess{}, badNumber("bead diameter [mm]", bead/mm, "less than the convolution's outer diameter, both above zero")
	}
	return guess(Bellows, (outer+bead)/2, 0.20), nil
}

func guess(k Kind, d, share float64) Guess {
	a := math.Pi * d * d / 4
	return Guess{Kind: k, Diameter: d, Area: a, Share: share, Half: a * share}
}

// Data makes a spring's data of the estimate, at one height [m]: marked as an
// estimate in everything that is worked out from it.
func (g Guess) Data(height float64) Data {
	return Data{Kind: g.Kind, Points: []Point{{Pressure: bar, Height: height, Load: g.Area * bar}},
		AreaShare: g.Share, Estimate: true}
}
