package spring

import (
	"math"
	"sort"

	"jounce/num/doubt"
)

// Telescope is a spring or a damper: a part whose length changes as the wheel
// moves. Zero is not read.
type Telescope struct {
	Name       string  // "spring", "damper"
	Length     float64 // at ROAD [m]
	Closed     float64 // shortest [m]
	Open       float64 // longest [m]
	StopFree   float64 // free length of the bump stop on it [m]
	StopSolid  float64 // length of that stop when solid [m]
	NoStop     bool    // it carries no bump stop
	Half       float64 // ± of each length [m]
	OneTape    bool    // all lengths were read with the same instrument
	Ratio      float64 // its travel over wheel travel [1]
	RatioShare float64 // ± of Ratio over Ratio [1]
}

// Direction is where a limiter ends the travel.
type Direction int

// The directions.
const (
	Bump  Direction = iota + 1 // wheel up
	Droop                      // wheel down
)

func (d Direction) String() string { return [...]string{"", "bump", "droop"}[d] }

// Limiter is one thing that ends the travel.
type Limiter struct {
	Name      string
	Direction Direction
	Travel    float64 // from ROAD, at the wheel [m]
	Half      float64 // ± of Travel [m]
	FirstStop float64 // travel at which the bump stop begins to carry [m]; 0 where not known
	Own       float64 // the part's own travel behind Travel [m]; 0 for a limiter read at the wheel
	Ratio     float64 // the part's travel over wheel travel [1]; 0 for a limiter read at the wheel
	Read      bool    // read at the wheel, not worked out
}

// Budget is the travel of a wheel from ROAD.
type Budget struct {
	Bump  []Limiter // least first
	Droop []Limiter // least first
	Gaps  []string  // readings that would add a limiter
	// CloseCall says of bump, then droop, that the second limiter may come
	// before the first one within their doubts.
	CloseCall [2]bool
}

// Travel lists what ends a wheel's travel, the least first.
//
//	bump  = (length at ROAD − closed − solid stop) / ratio
//	droop = (open − length at ROAD) / ratio
//
// for spring and damper, each with its own ratio [1] and lengths [m]; others
// (hose, half-shaft, strap, link) are read at the wheel and taken as they are.
// Handbook calculation 3. Doubt: lengths read with one instrument and
// subtracted carry its figure once, others as the root of the sum of squares;
// the ratio adds its share. The ratio is taken as constant over the travel.
// What is not read is a gap, not a zero.
func Travel(parts []Telescope, others []Limiter) (Budget, error) {
	var b Budget
	for _, p := range parts {
		if err := b.add(p); err != nil {
			return b, err
		}
	}
	for _, o := range others {
		if !(o.Travel >= 0) || math.IsInf(o.Travel, 0) || !(o.Half >= 0) || (o.Direction != Bump && o.Direction != Droop) {
			return b, badNumber(o.Name+", travel at the wheel [mm]", o.Travel/mm, "a travel of zero or more, in bump or in droop")
		}
		o.Read = true
		b.put(o)
	}
	for i, list := range [][]Limiter{b.Bump, b.Droop} {
		sort.SliceStable(list, func(i, j int) bool { return list[i].Travel < list[j].Travel })
		if len(list) > 1 {
			b.CloseCall[i] = list[1].Travel-list[0].Travel <= doubt.Combine(list[0].Half, list[1].Half)
		}
	}
	return b, nil
}

func (b *Budget) put(l Limiter) {
	if l.Direction == Bump {
		b.Bump = append(b.Bump, l)
	} else {
		b.Droop = append(b.Droop, l)
	}
}

func (b *Budget) add(p Telescope) error {
	if p.Ratio == 0 {
		b.Gaps = append(b.Gaps, p.Name+": ratio")
		return nil
	}
	if p.Length == 0 {
		b.Gaps = append(b.Gaps, p.Name+": length at ROAD")
		return nil
	}
	if err := p.check(); err != nil {
		return err
	}
	switch {
	case p.Closed == 0:
		b.Gaps = append(b.Gaps, p.Name+": closed length")
	case p.StopSolid == 0 && !p.NoStop:
		b.Gaps = append(b.Gaps, p.Name+": solid length of its bump stop")
	default:
		b.put(p.bump())
	}
	if p.Open == 0 {
		b.Gaps = append(b.Gaps, p.Name+": open length")
	} else {
		b.put(p.limiter(Droop, p.Open-p.Length, 2))
	}
	return nil
}

func (p Telescope) bump() Limiter {
	readings := 3.0
	if p.NoStop {
		readings = 2
	}
	l := p.limiter(Bump, p.Length-p.Closed-p.StopSolid, readings)
	if p.StopFree > 0 {
		l.FirstStop = math.Max((p.Length-p.Closed-p.StopFree)/p.Ratio, 0)
	}
	return l
}

// limiter turns a part's own travel into the wheel's.
func (p Telescope) limiter(d Direction, own, readings float64) Limiter {
	half := p.Half
	if !p.OneTape {
		half *= math.Sqrt(readings)
	}
	l := Limiter{Name: p.Name, Direction: d, Own: own, Ratio: p.Ratio, Travel: own / p.Ratio}
	l.Half = doubt.Combine(half/p.Ratio, l.Travel*p.RatioShare)
	return l
}

func (p Telescope) check() error {
	if err := checkRatio(p.Ratio); err != nil {
		return err
	}
	for _, v := range []float64{p.Length, p.Closed, p.Open, p.StopFree, p.StopSolid, p.Half, p.RatioShare} {
		if !(v >= 0) || math.IsInf(v, 0) {
			return badNumber(p.Name+", a length [mm]", v/mm, "a length above zero")
		}
	}
	switch {
	case p.Closed > 0 && p.Closed > p.Length:
		return badNumber(p.Name+", length at ROAD [mm]", p.Length/mm, "more than its closed length")
	case p.Open > 0 && p.Open < p.Length:
		return badNumber(p.Name+", length at ROAD [mm]", p.Length/mm, "less than its open length")
	case p.StopFree > 0 && p.StopSolid > p.StopFree:
		return badNumber(p.Name+", solid length of the stop [mm]", p.StopSolid/mm, "less than its free length")
	case p.Closed > 0 && p.Length < p.Closed+p.StopSolid:
		return badNumber(p.Name+", length at ROAD [mm]", p.Length/mm, "more than closed length and solid stop together")
	}
	return nil
}
