package spring

import (
	"fmt"
	"math"

	"jounce/num/doubt"
	"jounce/quantity"
)

// Default doubts of a corner where nothing better is typed.
const (
	DefaultMassHalf     = 1.0  // corner weight [kg]
	DefaultUnsprungHalf = 8.0  // unsprung mass of a corner [kg]
	DefaultRatioShare   = 0.01 // spring ratio [1]
)

// MaxRatio is the largest spring ratio that is taken [1]: a spring that moves
// more than its wheel is a ratio turned over, far more often than a rocker.
const MaxRatio = 1.05

// Corner is what a wheel gives to its spring. Halves of zero mean exact.
type Corner struct {
	Mass         float64 // under the tyre [kg]
	MassHalf     float64 // ± of Mass [kg]
	Unsprung     float64 // moves with the wheel [kg]
	UnsprungHalf float64 // ± of Unsprung [kg]
	Ratio        float64 // spring travel over wheel travel [1]
	RatioShare   float64 // ± of Ratio over Ratio [1]
}

// NewCorner is a corner with the default doubts.
func NewCorner(mass, unsprung, ratio float64) Corner {
	return Corner{Mass: mass, MassHalf: DefaultMassHalf, Unsprung: unsprung, UnsprungHalf: DefaultUnsprungHalf,
		Ratio: ratio, RatioShare: DefaultRatioShare}
}

// Load is the way from a corner's weight to the force on its spring.
type Load struct {
	Corner     Corner
	Sprung     float64 // Mass − Unsprung [kg]
	SprungHalf float64 // ± of Sprung [kg]
	Wheel      float64 // Sprung × g [N]
	WheelHalf  float64 // ± of Wheel [N]
	Spring     float64 // Wheel / Ratio [N]
	SpringHalf float64 // ± of Spring [N]
}

// Load works out the force on a corner's spring.
//
//	sprung = mass − unsprung
//	F      = sprung × g / ratio
//
// The ratio counts once for the force (virtual work); it counts twice for the
// rate. g is 9.80665 m/s². Handbook B11. A ratio of zero is missing and never
// taken as 1; above 1.05 it is asked about.
func (c Corner) Load() (Load, error) {
	l := Load{Corner: c}
	if c.Ratio == 0 {
		return l, &Missing{For: "the force on the spring", What: []string{"the spring ratio (spring and wheel heights at two wheel positions)"}}
	}
	if !above(c.Mass) || !(c.Unsprung >= 0) || !(c.MassHalf >= 0) || !(c.UnsprungHalf >= 0) || !(c.RatioShare >= 0) {
		return l, badNumber("corner weight or unsprung mass [kg]", c.Mass, "a weight above zero, an unsprung mass of zero or more")
	}
	if c.Unsprung >= c.Mass {
		return l, badNumber("unsprung mass [kg]", c.Unsprung, fmt.Sprintf("less than the corner's %.4g kg", c.Mass))
	}
	if err := checkRatio(c.Ratio); err != nil {
		return l, err
	}
	l.Sprung = c.Mass - c.Unsprung
	l.SprungHalf = doubt.Combine(c.MassHalf, c.UnsprungHalf)
	l.Wheel, l.WheelHalf = l.Sprung*quantity.StandardGravity, l.SprungHalf*quantity.StandardGravity
	l.Spring = l.Wheel / c.Ratio
	l.SpringHalf = l.Spring * doubt.Combine(l.SprungHalf/l.Sprung, c.RatioShare)
	return l, nil
}

// checkRatio asks about a ratio that is turned over.
func checkRatio(r float64) error {
	if !above(r) || r < 0.1 {
		return badNumber("spring ratio", r, "a figure from 0.1 to 1.05")
	}
	if r > MaxRatio {
		return &Question{Read: fmt.Sprintf("spring ratio %.3g", r), Expected: "spring travel over wheel travel, from 0.1 to 1.05",
			Ask:     fmt.Sprintf("The wheel moves less than the spring? It may be %.2f turned over.", 1/r),
			Answers: []string{fmt.Sprintf("%.2f", math.Round(100/r)/100)}}
	}
	return nil
}

// CornerPressure is the pressure that carries the corner at a spring height, with
// the doubts of weight, unsprung mass, ratio and area in it.
func (s *Spring) CornerPressure(c Corner, height float64) (Load, Need, error) {
	l, err := c.Load()
	if err != nil {
		return l, Need{}, err
	}
	n, err := s.Pressure(l.Spring, l.SpringHalf, height)
	return l, n, err
}
