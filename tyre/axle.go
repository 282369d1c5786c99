package tyre

import "fmt"

// LoadCheck holds the load an axle's tyres may carry against the axle's load.
type LoadCheck struct {
	Index   int     // load index of the weaker tyre [1]
	PerTyre float64 // what that index stands for [kg]
	Pair    float64 // twice that [kg]
	Axle    float64 // load on the axle [kg]
	Spare   float64 // Pair − Axle [kg]; negative is missing
	Share   float64 // Axle over Pair [1]
	Enough  bool    // Pair ≥ Axle
	Least   int     // least load index that would carry the axle [1]; 0 where none up to 126 does
}

// CheckLoad compares twice the load of the weaker of two tyres with the load
// on their axle [kg] (T7 for the indices). A tyre without a load index is
// asked about.
func CheckLoad(left, right Size, axle float64) (LoadCheck, error) {
	if axle <= 0 || axle > 5000 {
		return LoadCheck{}, &Question{Read: fmt.Sprintf("%g kg", axle), Expected: "an axle load above 0 and up to 5 t", Ask: "What does the axle weigh?"}
	}
	for _, s := range []Size{left, right} {
		if s.LoadIndex == 0 {
			return LoadCheck{}, &Question{Read: s.Text, Expected: "a load index behind the size, such as 75T",
				Ask: "Which number stands behind the size?"}
		}
	}
	c := LoadCheck{Index: min(left.LoadIndex, right.LoadIndex), PerTyre: min(left.Load, right.Load), Axle: axle}
	c.Pair = 2 * c.PerTyre
	c.Spare = c.Pair - axle
	c.Share = axle / c.Pair
	c.Enough = c.Spare >= 0
	if least, ok := IndexFor(axle / 2); ok {
		c.Least = least
	}
	return c, nil
}

// Difference is one thing in which two tyres differ that must be alike.
type Difference struct {
	What        string // "width", "aspect", "rim", "construction", ...
	Left, Right string // as marked on each
}

// Differences lists in what the two tyres of an axle differ. An empty list
// means that they belong together as far as the markings say. An unknown
// construction on either side counts as a difference, since it is not known
// to be alike, unless both markings are the same text.
func Differences(left, right Size) []Difference {
	var d []Difference
	add := func(differ bool, what, l, r string) {
		if differ {
			d = append(d, Difference{what, l, r})
		}
	}
	mm := func(v float64) string { return fmt.Sprintf("%.0f mm", v*1000) }
	far := func(a, b, within float64) bool { return a-b > within || b-a > within }
	add(left.Kind != right.Kind, "way of marking", left.Kind.String(), right.Kind.String())
	add(far(left.Width, right.Width, 5e-4), "width", mm(left.Width), mm(right.Width))
	add(far(left.Aspect, right.Aspect, 1e-6), "aspect", fmt.Sprintf("%.0f %%", left.Aspect*100), fmt.Sprintf("%.0f %%", right.Aspect*100))
	add(far(left.Diameter, right.Diameter, 5e-4), "diameter", mm(left.Diameter), mm(right.Diameter))
	add(far(left.Rim, right.Rim, 5e-4), "rim", mm(left.Rim), mm(right.Rim))
	add(left.Construction != right.Construction, "construction", left.Construction.String(), right.Construction.String())
	add(left.Use != right.Use, "service", left.Use.String(), right.Use.String())
	return d
}

// Mix is how the constructions of a car's tyres go together.
type Mix int

// The mixes.
const (
	MixAlike       Mix = iota // one construction all round
	MixRadialRear             // crossply in front, radial behind: allowed (S18)
	MixRadialFront            // radial in front with crossply behind: never (S18)
	MixOnAxle                 // two constructions on one axle: never (S18)
	MixUnknown                // a construction is not known: ask
	MixBiasBelted             // bias-belted with another: ask a tyre fitter
)

func (m Mix) String() string {
	return [...]string{"one construction all round", "crossply in front, radial behind",
		"radial in front, crossply behind", "two constructions on one axle",
		"a construction is not known", "bias-belted together with another construction"}[m]
}

// Mixed says how the constructions of four tyres go together. Source S18 states
// the rule for approved vehicles: radials in front need radials behind. The
// worst that is found is returned.
func Mixed(frontLeft, frontRight, rearLeft, rearRight Construction) Mix {
	if (frontLeft != frontRight && frontLeft != 0 && frontRight != 0) ||
		(rearLeft != rearRight && rearLeft != 0 && rearRight != 0) {
		return MixOnAxle
	}
	for _, c := range []Construction{frontLeft, frontRight, rearLeft, rearRight} {
		if c == UnknownConstruction {
			return MixUnknown
		}
	}
	switch {
	case frontLeft == rearLeft:
		return MixAlike
	case frontLeft == BiasBelted || rearLeft == BiasBelted:
		return MixBiasBelted
	case frontLeft == Radial:
		return MixRadialFront
	default:
		return MixRadialRear
	}
}
