package stance

import (
	"math"
)

// Item is a mass put into the car: a person, luggage, a tank.
type Item struct {
	Name string
	Mass float64 // [kg]; negative is taken out
	Back float64 // behind the front axle [m]; negative is ahead of it
	Left float64 // left of the centre line [m]; negative is right of it
}

// Base is the car's wheels on the floor.
type Base struct {
	Wheelbase  float64 // [m]
	FrontTrack float64 // between the front tyres' centres [m]
	RearTrack  float64 // between the rear tyres' centres [m]
	RollFront  float64 // front axle's share of the roll stiffness [1]; 0 is not known
}

// Added is what items do to the four wheels.
type Added struct {
	Items       []Item
	Base        Base
	Mass        float64    // sum of the items [kg]
	Back        float64    // their common place behind the front axle [m]
	Left        float64    // their common place left of the centre line [m]
	FrontChange float64    // on the front axle [kg]
	RearChange  float64    // on the rear axle [kg]
	Moment      float64    // Σ mass × left [kg·m]
	RollFront   float64    // share of Moment the front axle was given [1]
	RollAssumed bool       // RollFront is assumed, not known
	Change      [4]float64 // on each wheel [kg]
	ChangeHalf  [4]float64 // ± of Change by the assumed share alone [kg]; zero where it is known
	Before      Corners
	After       Corners // Before + Change; empty where Before was
}

// rollDoubt is the doubt of an assumed share of the roll stiffness [1].
const rollDoubt = 0.2

// Add works out what people and luggage do to the corner weights by moments.
//
//	rear  = Σ m·back / L,  front = Σ m − rear
//	wheel = axle/2 ± s·Σ(m·left) / track
//
// m mass [kg], back behind the front axle, left of the centre line, L wheelbase,
// track [m]; s the axle's share of the sideways moment [1].
//
// Along the car the answer follows from statics alone (CG-05 agrees). Across it
// does not: four springs under a stiff body share a sideways moment by their
// roll stiffness, wherever along the car it acts. Where the front's share is not
// known, it is assumed to be the front axle's share of the standing weight (or
// one half where no weights are known), ± 0.2, and ChangeHalf says what that
// doubt is worth at each wheel. The axle changes do not depend on it. Heights
// are taken as held, so that the places do not move.
func Add(before Corners, base Base, items []Item) (Added, error) {
	a := Added{Items: items, Base: base, Before: before, RollFront: base.RollFront}
	if !above(base.Wheelbase) || base.Wheelbase > 6 {
		return a, bad("wheelbase [m]", base.Wheelbase, "a length above zero and up to 6 m")
	}
	if !(base.RollFront >= 0 && base.RollFront <= 1) {
		return a, bad("front share of the roll stiffness", base.RollFront, "a share from 0 to 1")
	}
	var along float64
	for _, it := range items {
		if !finite(it.Mass) || !(math.Abs(it.Back) <= 8) || !(math.Abs(it.Left) <= 1.5) {
			return a, bad(it.Name+", mass [kg]", it.Mass, "a mass, a place within 8 m along and 1.5 m across")
		}
		a.Mass += it.Mass
		along += it.Mass * it.Back
		a.Moment += it.Mass * it.Left
	}
	if a.Mass != 0 {
		a.Back, a.Left = along/a.Mass, a.Moment/a.Mass
	}
	a.RearChange = along / base.Wheelbase
	a.FrontChange = a.Mass - a.RearChange
	return a, a.spread()
}

// spread gives each axle's change to its two wheels.
func (a *Added) spread() error {
	if a.RollFront == 0 {
		a.RollAssumed, a.RollFront = true, 0.5
		if s, err := a.Before.Shares(); err == nil {
			a.RollFront = s.FrontShare
		}
	}
	if a.Moment != 0 && (!above(a.Base.FrontTrack) || !above(a.Base.RearTrack)) {
		return &Missing{For: "the change at each wheel", What: []string{"the tracks of both axles"}}
	}
	for _, w := range Wheels {
		axle, share, track := a.FrontChange, a.RollFront, a.Base.FrontTrack
		if !w.Front() {
			axle, share, track = a.RearChange, 1-a.RollFront, a.Base.RearTrack
		}
		a.Change[w] = axle / 2
		if a.Moment != 0 {
			sign := 1.0
			if !w.OnLeft() {
				sign = -1
			}
			a.Change[w] += sign * share * a.Moment / track
			if a.RollAssumed {
				a.ChangeHalf[w] = math.Abs(rollDoubt * a.Moment / track)
			}
		}
		if a.Before[w].From != NotRead {
			m := a.Before[w]
			m.Value += a.Change[w]
			m.Half = math.Hypot(m.Half, a.ChangeHalf[w])
			if m.Value <= 0 {
				return bad("weight at "+w.String()+" with it all [kg]", m.Value, "a weight above zero: the wheel would lift")
			}
			a.After[w] = m
		}
	}
	return nil
}

// Centre is a centre of gravity seen from above.
type Centre struct {
	Back  float64 // behind the front axle [m]
	Ahead float64 // ahead of the rear axle [m]
	Left  float64 // left of the centre line [m]; NaN where a track is not known
}

// CentreOf finds the centre of gravity from the corner weights.
//
//	back = L·rear/total
//	left = Σ axle's (left − right)·track/2 / total
//
// L wheelbase [m]; weights [kg]. G1, G2, G3. The tyres' contact is taken in the
// middle of the tread.
func CentreOf(c Corners, base Base) (Centre, error) {
	s, err := c.Shares()
	if err != nil {
		return Centre{}, err
	}
	if !above(base.Wheelbase) {
		return Centre{}, bad("wheelbase [m]", base.Wheelbase, "a length above zero")
	}
	k := Centre{Back: base.Wheelbase * s.Rear / s.Total, Left: math.NaN()}
	k.Ahead = base.Wheelbase - k.Back
	if above(base.FrontTrack) && above(base.RearTrack) {
		k.Left = ((c[FL].Value-c[FR].Value)*base.FrontTrack + (c[RL].Value-c[RR].Value)*base.RearTrack) / 2 / s.Total
	}
	return k, nil
}

// AxleLoads are the weights on two axles of a mass at a place.
//
//	rear = m·back/L, front = m − rear
//
// mass [kg]; back behind the front axle and wheelbase [m]; results [kg]
// (G2, G4).
func AxleLoads(mass, back, wheelbase float64) (front, rear float64, err error) {
	if !above(mass) || !above(wheelbase) || !finite(back) {
		return 0, 0, bad("mass [kg]", mass, "mass and wheelbase above zero")
	}
	rear = mass * back / wheelbase
	return mass - rear, rear, nil
}

// CentreHeight is the height of the centre of gravity from the weight on the
// axle that stays on the floor while the other is raised.
//
//	sin θ = raised/L;  h = r + L·(R_raised − R_level)/(W·tan θ)
//
// total W, level and tilted readings R of the axle on the floor [kg]; wheelbase
// L, raised height of the other axle, loaded radius r of the tyres [m].
// Source G5 (reduces to the same triangle), CG-06. Valid with the suspension
// blocked and the fuel still; the difference of two readings is small, so 1 kg
// moves h by L/(W·tan θ), 10 mm on a small car raised by half a metre. The
// example of G6 does not follow from its own equation and must not be met.
func CentreHeight(total, level, tilted, wheelbase, raised, radius float64) (float64, error) {
	if !above(total) || !above(level) || !above(tilted) || !above(wheelbase) || !above(radius) {
		return 0, bad("weights or lengths", total, "figures above zero")
	}
	if !(raised > 0.05*wheelbase && raised < 0.7*wheelbase) {
		return 0, bad("raised height [m]", raised, "5 to 70 % of the wheelbase")
	}
	sin := raised / wheelbase
	tan := sin / math.Sqrt(1-sin*sin)
	return radius + wheelbase*(tilted-level)/(total*tan), nil
}

// Transfer is the weight that moves from one end or side to the other.
//
//	ΔW = m·a·h/b
//
// mass m [kg]; acceleration a over g [1]; centre height h [m]; base b, wheelbase
// or track [m]; result [kg]. CG-07. Rigid body; springs share the sideways
// part between the axles.
func Transfer(mass, g, height, base float64) (float64, error) {
	if !above(mass) || !finite(g) || !above(height) || !above(base) {
		return 0, bad("mass [kg]", mass, "mass, height and base above zero")
	}
	return mass * g * height / base, nil
}
