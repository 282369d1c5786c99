package stance

import "math"

// Exchanged says whether four readings fit four earlier ones of the same car much
// better with corners exchanged: LooksExchanged for readings of any kind.
//
//	measure = Σ|now − before|/4
//
// before and now in the order FL, FR, RL, RR and, like noise, in one unit of the
// caller's choice. An exchange is named when it leaves less than a third of the
// change as written, and when that change is larger than noise, which is what
// the readings may have changed by themselves. Where corners are alike nothing
// can be seen and nothing is said. A hint to look, never a correction (CP).
func Exchanged(before, now [4]float64, noise float64) ExchangeCheck {
	var e ExchangeCheck
	best := NoExchange
	for x := NoExchange; x <= Diagonals; x++ {
		for i, from := range exchanges[x] {
			e.IfMoved[x] += math.Abs(now[from]-before[i]) / 4
		}
		if e.IfMoved[x] < e.IfMoved[best] {
			best = x
		}
	}
	e.AsRead = e.IfMoved[NoExchange]
	if best != NoExchange && e.AsRead > noise && e.IfMoved[best] < e.AsRead/3 {
		e.Looks = best
	}
	return e
}

// Crossed is four readings held against themselves: the side that reads more in
// front should read more behind.
type Crossed struct {
	Fronts      float64 // FL − FR, in the readings' unit [1]
	Rears       float64 // RL − RR, in the readings' unit [1]
	Residual    float64 // Fronts − Rears, in the readings' unit [1]
	IfExchanged float64 // the same with one axle's two exchanged [1]
	Looks       bool    // one axle's two look exchanged
}

// LooksCrossed says whether four readings of one car look as if left and right of
// one axle were written in each other's place.
//
//	residual = FL − FR − RL + RR;  with one pair exchanged: FL − FR + RL − RR, up to its sign
//
// v in the order FL, FR, RL, RR; alone is how far the two of an axle must differ
// to say anything, together how large the residual must be; all in one unit of
// the caller's choice. It looks so when both pairs differ by more than alone, to
// opposite sides, the residual is above together, and exchanging one pair leaves
// less than a third of it. A stiff shell on level ground has a residual near
// zero in weights and heights (handbook B8); a twisted one looks the same as an
// exchange, so this is a question, never a correction. Which axle it was the four
// readings cannot say.
func LooksCrossed(v [4]float64, alone, together float64) Crossed {
	c := Crossed{Fronts: v[FL] - v[FR], Rears: v[RL] - v[RR]}
	c.Residual, c.IfExchanged = c.Fronts-c.Rears, c.Fronts+c.Rears
	c.Looks = math.Abs(c.Fronts) > alone && math.Abs(c.Rears) > alone &&
		math.Abs(c.Residual) > together && math.Abs(c.IfExchanged) < math.Abs(c.Residual)/3
	return c
}
