package sum

import (
	"math"

	"jounce/quantity"
	"jounce/spring"
)

// Inputs of a corner and of a spring as one line of its maker tells it.

var (
	cornerWeight = of(kMass, "kg", 20, 1500, Input{Key: "weight", Symbol: "W", Label: "Weight under the wheel", Where: "corner scales, driver aboard", Width: pads})
	unsprungMass = of(kMass, "kg", 1, 200, Input{Key: "unsprung", Symbol: "U", Label: "Moves with the wheel", Where: "weighed, or guessed: wheel, hub, brake, half of the arms", Width: hanging})
	springRatio  = of(kRatio, "", 0.02, 5, Input{Key: "ratio", Symbol: "r", Label: "Spring travel over wheel travel", Where: "spring and wheel heights by tape at two positions of the wheel; on a live axle both wheels together", Width: ratio})
	springArea   = of(kArea, "cm²", 5, 1500, Input{Key: "area", Symbol: "A", Label: "Effective area", Where: "the maker's load over pressure at this height, never the end plate's diameter", Optional: true, Width: area})
	lineLoad     = of(kForce, "N", 50, 60000, Input{Key: "load", Symbol: "F_{0}", Label: "Maker's line, load", Where: "instead of the area: the maker's load at the height it stands at", Optional: true, Width: area})
	linePressure = of(kPressure, "bar", 0.1, 20, Input{Key: "at", Symbol: "p_{0}", Label: "Maker's line, pressure", Where: "the pressure of that line", Optional: true})
	springVolume = of(kVolume, "L", 0.05, 60, Input{Key: "volume", Symbol: "V", Label: "Air in the spring at this height", Where: "the maker's sheet, or water weighed in", Width: volume})
	springKind   = Input{Key: "kind", Label: "The rubber", Where: "rolls over a piston, or folds like a bellows", Choices: []string{"sleeve", "bellows"}}
	springHeight = of(kLength, "mm", 30, 900, Input{Key: "height", Symbol: "h", Label: "Height of the spring", Where: "between its end plates at ROAD; needed where a second height is given", Optional: true})
	secondHeight = of(kLength, "mm", 30, 900, Input{Key: "height2", Symbol: "h_{2}", Label: "Second height", Where: "another height of the maker's table", Optional: true})
	secondArea   = of(kArea, "cm²", 5, 1500, Input{Key: "area2", Symbol: "A_{2}", Label: "Effective area at the second height", Where: "load over pressure there", Optional: true})
)

// anyHeight stands for the height of a spring that is known at one height only
// and asked at that height [m].
const anyHeight = 0.2

// line is a spring known by its area, or by one line of its maker. The terms
// are area, or load and pressure; build makes the spring from their values.
func (a *Args) line() (terms []Given, build func(x []float64) (*spring.Spring, error), err error) {
	if a.Has("area") {
		return a.all("area"), func(x []float64) (*spring.Spring, error) { return oneLine(x[0], 1e5, x[0]*1e5) }, nil
	}
	if !a.Has("load") && !a.Has("at") {
		return nil, nil, a.refuse("area", "not given. Give the effective area at this height, or load= and at= of one line of the maker's table.")
	}
	if !a.Has("load") {
		return nil, nil, a.refuse("load", "the load of the maker's line is not given.")
	}
	if !a.Has("at") {
		return nil, nil, a.refuse("at", "the pressure of the maker's line is not given.")
	}
	return a.all("load", "at"), func(x []float64) (*spring.Spring, error) { return oneLine(0, x[1], x[0]) }, nil
}

// oneLine is a spring of one line [Pa, N]; an area is only there to be checked.
func oneLine(area, p, load float64) (*spring.Spring, error) {
	if math.IsNaN(area) {
		load = math.NaN()
	}
	return spring.New(spring.Data{Points: []spring.Point{{Pressure: quantity.GaugePressure(p), Height: anyHeight, Load: load}}})
}
