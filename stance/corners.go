package stance

import (
	"fmt"
	"math"

	"jounce/num/doubt"
)

// From says where a corner weight is from.
type From int

// Where a weight is from.
const (
	NotRead From = iota
	Read         // on the scales
	Derived      // total less the other three
)

func (f From) String() string { return [...]string{"not read", "read", "derived"}[f] }

// Mass is a weight and its doubt.
type Mass struct {
	Value float64 // [kg]
	Half  float64 // ± of Value [kg]
	From  From
}

// Corners are the weights under the four tyres, in the order FL, FR, RL, RR.
type Corners [4]Mass

// NewCorners are four weights read with the same doubt [kg].
func NewCorners(fl, fr, rl, rr, half float64) Corners {
	var c Corners
	for i, v := range []float64{fl, fr, rl, rr} {
		c[i] = Mass{Value: v, Half: half, From: Read}
	}
	return c
}

// Derive fills the one corner that is missing from the car's total weight.
//
//	corner = total − the other three
//
// total and half [kg]. With none missing nothing changes. With one missing and
// no total (zero), or with more missing, a *Missing names the corners; the
// others stay as they are. A derived weight that is not above zero is asked
// about.
func (c Corners) Derive(total, half float64) (Corners, error) {
	var gaps []string
	missing := FL
	sum, halves := 0.0, []float64{half}
	for _, w := range Wheels {
		if c[w].From == NotRead {
			missing = w
			gaps = append(gaps, "the weight at "+w.String())
			continue
		}
		sum += c[w].Value
		halves = append(halves, c[w].Half)
	}
	switch {
	case len(gaps) == 0:
		return c, nil
	case len(gaps) == 1 && total == 0:
		return c, &Missing{For: "the weight at " + missing.String(), What: []string{"a reading there, or the car's total weight"}}
	case len(gaps) > 1:
		return c, &Missing{For: "the weights of the car", What: gaps}
	}
	if v := total - sum; v > 0 {
		c[missing] = Mass{Value: v, Half: doubt.Combine(halves...), From: Derived}
		return c, nil
	}
	return c, bad("total weight [kg]", total, fmt.Sprintf("more than the three corners' %.4g kg", sum))
}

// Shares are the sums and shares of four corner weights.
type Shares struct {
	Corners        Corners
	Total          float64 // [kg]
	TotalHalf      float64 // ± of Total [kg]
	Front          float64 // both front wheels [kg]
	Rear           float64 // both rear wheels [kg]
	Left           float64 // both left wheels [kg]
	Right          float64 // both right wheels [kg]
	Diagonal       float64 // FR + RL [kg]
	FrontShare     float64 // Front over Total [1]
	LeftShare      float64 // Left over Total [1]
	Cross          float64 // Diagonal over Total [1]
	CrossHalf      float64 // ± of Cross [1]
	FrontSides     float64 // heavier over lighter front wheel, less 1 [1]
	FrontSidesHalf float64 // ± of FrontSides [1]
	RearSides      float64 // heavier over lighter rear wheel, less 1 [1]
	RearSidesHalf  float64 // ± of RearSides [1]
}

// Shares works out sums and shares.
//
//	cross = (FR + RL) / total
//
// All four must be known. Doubts are independent. Handbook B8; CG-08 has the
// same definition of cross.
func (c Corners) Shares() (Shares, error) {
	s := Shares{Corners: c}
	var gaps []string
	halves := make([]float64, 4)
	for _, w := range Wheels {
		if c[w].From == NotRead {
			gaps = append(gaps, "the weight at "+w.String())
			continue
		}
		if !above(c[w].Value) || !(c[w].Half >= 0) {
			return s, bad("weight at "+w.String()+" [kg]", c[w].Value, "a weight above zero")
		}
		halves[w] = c[w].Half
	}
	if gaps != nil {
		return s, &Missing{For: "the shares of the weight", What: gaps}
	}
	fl, fr, rl, rr := c[FL].Value, c[FR].Value, c[RL].Value, c[RR].Value
	s.Front, s.Rear, s.Left, s.Right, s.Diagonal = fl+fr, rl+rr, fl+rl, fr+rr, fr+rl
	s.Total, s.TotalHalf = s.Front+s.Rear, doubt.Combine(halves...)
	s.FrontShare, s.LeftShare, s.Cross = s.Front/s.Total, s.Left/s.Total, s.Diagonal/s.Total
	// ∂cross/∂corner is (1 − cross)/total on the diagonal, −cross/total off it.
	on, off := (1-s.Cross)/s.Total, s.Cross/s.Total
	s.CrossHalf = doubt.Combine(on*halves[FR], on*halves[RL], off*halves[FL], off*halves[RR])
	s.FrontSides, s.FrontSidesHalf = sides(c[FL], c[FR])
	s.RearSides, s.RearSidesHalf = sides(c[RL], c[RR])
	return s, nil
}

// sides is heavier over lighter less 1, and its doubt.
func sides(a, b Mass) (off, half float64) {
	if a.Value < b.Value {
		a, b = b, a
	}
	ratio := a.Value / b.Value
	return ratio - 1, ratio * doubt.Combine(a.Half/a.Value, b.Half/b.Value)
}

// TicketCheck holds the scales against a weighbridge.
type TicketCheck struct {
	Scales     float64 // sum of the corners [kg]
	Ticket     float64 // weighbridge [kg]
	Difference float64 // Ticket − Scales [kg]
	Half       float64 // ± of Difference [kg]
	Apart      float64 // |Difference| over Scales [1]
	ApartHalf  float64 // ± of Apart [1]
}

// CheckTicket compares corner weights with a ticket for the same wheels: all
// four, or one axle's two. The share is of the scales' sum.
func CheckTicket(corners []Mass, ticket, ticketHalf float64) (TicketCheck, error) {
	var t TicketCheck
	halves := []float64{ticketHalf}
	for _, m := range corners {
		if m.From == NotRead {
			return t, &Missing{For: "the comparison with the ticket", What: []string{"every corner weight of it"}}
		}
		t.Scales += m.Value
		halves = append(halves, m.Half)
	}
	if !above(t.Scales) || !above(ticket) {
		return t, bad("weighbridge ticket [kg]", ticket, "weights above zero")
	}
	t.Ticket, t.Difference, t.Half = ticket, ticket-t.Scales, doubt.Combine(halves...)
	t.Apart, t.ApartHalf = math.Abs(t.Difference)/t.Scales, t.Half/t.Scales
	return t, nil
}

// Exchange is which corners look as if written in each other's place.
type Exchange int

// The exchanges.
const (
	NoExchange Exchange = iota
	FrontRear
	LeftRight
	Diagonals
)

func (e Exchange) String() string {
	return [...]string{"nothing looks exchanged", "front and rear look exchanged",
		"left and right look exchanged", "diagonals look exchanged"}[e]
}

// ExchangeCheck is a set of weights held against an earlier one.
type ExchangeCheck struct {
	Looks   Exchange
	AsRead  float64    // mean change per corner as written [kg]
	IfMoved [4]float64 // mean change per corner for each Exchange [kg]; the first is AsRead
}

// exchanges say which corner each corner's reading would come from.
var exchanges = [4][4]Wheel{NoExchange: {FL, FR, RL, RR}, FrontRear: {RL, RR, FL, FR}, LeftRight: {FR, FL, RR, RL}, Diagonals: {RR, RL, FR, FL}}

// LooksExchanged says whether a set of weights fits an earlier one of the same
// car much better with corners exchanged.
//
// Measure: mean |change| over the corners. An exchange is named when it leaves
// less than a third of the change as written, and when that change is larger
// than noise [kg] (scales, fuel, a driver: 8 kg by default where zero). On a car
// whose corners are alike nothing can be seen, and nothing is said. It is a
// hint to look, never a correction.
func LooksExchanged(before, now Corners, noise float64) (ExchangeCheck, error) {
	if noise == 0 {
		noise = 8
	}
	var e ExchangeCheck
	for _, w := range Wheels {
		if before[w].From == NotRead || now[w].From == NotRead {
			return e, &Missing{For: "the comparison of two weighings", What: []string{"all four corners of both"}}
		}
	}
	var a, b [4]float64
	for _, w := range Wheels {
		a[w], b[w] = before[w].Value, now[w].Value
	}
	return Exchanged(a, b, noise), nil
}

// DriverSide says whether the side the driver sits on became heavier.
type DriverSide struct {
	Left, Right float64 // growth of each side with the driver in [kg]
	Half        float64 // ± of the difference of the two [kg]
	Looks       Exchange
}

// CheckDriver compares the weights without and with the driver: the driver's
// side must gain more. LeftRight is reported when the other side gained more,
// beyond the doubt.
func CheckDriver(without, with Corners, driverOnLeft bool) (DriverSide, error) {
	var d DriverSide
	a, err := without.Shares()
	if err != nil {
		return d, err
	}
	b, err := with.Shares()
	if err != nil {
		return d, err
	}
	d.Left, d.Right = b.Left-a.Left, b.Right-a.Right
	d.Half = doubt.Combine(a.TotalHalf, b.TotalHalf)
	more := d.Right - d.Left
	if driverOnLeft {
		more = -more
	}
	if more < -d.Half {
		d.Looks = LeftRight
	}
	return d, nil
}
