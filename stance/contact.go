package stance

import (
	"math"
	"sort"

	"jounce/num/doubt"
)

// Pose is how far the body has moved over the two axles from ROAD, up is plus.
type Pose struct {
	Front float64 // over the front axle [m]
	Rear  float64 // over the rear axle [m]
}

// Mean is the middle of both changes [m].
func (p Pose) Mean() float64 { return (p.Front + p.Rear) / 2 }

// Moves is what uses up the room at a point.
type Moves int

// The three kinds of handbook calculation 1.
const (
	WithBody    Moves = iota + 1 // the body sinks on its springs: floor points
	WithWheel                    // the wheel rises into the body: tyre, stop, arm
	LimitsDroop                  // the wheel falls away from the body: hose, lead, joint, link
)

func (m Moves) String() string {
	return [...]string{"", "with the body", "with the wheel", "limits droop"}[m]
}

// Contact is a place where something may meet something as the body moves.
type Contact struct {
	Name      string
	Moves     Moves
	Room      float64 // clearance as read [m]
	Read      Pose    // pose in which it was read; nothing is ROAD
	Half      float64 // ± of Room [m]
	Ratio     float64 // room used up over travel [1]; with the body it is 1
	RatioHalf float64 // ± of Ratio [1]
	Rear      bool    // with the wheel, limits droop: at the rear axle
	Back      float64 // with the body: behind the front axle [m]
	Somewhere bool    // its place is not known: the end that takes most counts
	Wheelbase float64 // with the body, at a known place [m]
}

// Room is what is left at a point.
type Room struct {
	Left   float64 // below zero is past touching [m]
	Half   float64 // ± of Left [m]
	Travel float64 // what has used it up: fall of the body at the point, rise or fall of the wheel [m]
}

// At is the room left in a pose.
//
//	left = room − ratio·travel
//	U²(left) = U²(room) + travel²·U²(ratio)
//
// room as read [m]; ratio [1] room used up over travel; travel [m] from the pose
// in which it was read, ROAD where none is said:
// fall of the body at the point for one that moves with it (a straight line from
// axle to axle, ratio 1), rise of the wheel for one that moves with the wheel,
// fall of the wheel for one that limits droop. Handbook calculation 1 and step
// B13. Changes within 1 m. The ratio is taken as constant over the travel;
// tyres and floor are rigid; both sides alike.
func (c Contact) At(p Pose) (Room, error) {
	if err := c.check(); err != nil {
		return Room{}, err
	}
	if !(math.Abs(p.Front) <= 1) || !(math.Abs(p.Rear) <= 1) {
		return Room{}, bad("change of height [mm]", math.Max(math.Abs(p.Front), math.Abs(p.Rear))/mm, "a change within 1,000 mm")
	}
	travel := math.Inf(-1)
	for _, w := range c.weights() {
		travel = math.Max(travel, c.travel(w, p))
	}
	return Room{Left: c.Room - c.ratio()*travel, Half: doubt.Combine(c.Half, travel*c.ratioHalf()), Travel: travel}, nil
}

func (c Contact) check() error {
	switch {
	case c.Moves < WithBody || c.Moves > LimitsDroop:
		return &Missing{For: "the room at " + c.Name, What: []string{"how it closes: with the body, with the wheel, or in droop"}}
	case !(c.Room >= 0 && c.Room <= 1) || !(c.Half >= 0) || math.IsInf(c.Half, 0):
		return bad(c.Name+", room [mm]", c.Room/mm, "a room from 0 to 1,000 mm")
	case c.Moves != WithBody && (!(c.Ratio > 0 && c.Ratio <= 10) || !(c.RatioHalf >= 0) || math.IsInf(c.RatioHalf, 0)):
		return bad(c.Name+", room used up per millimetre", c.Ratio, "a ratio above zero and up to 10")
	case c.Moves == WithBody && !c.Somewhere && (!above(c.Wheelbase) || !(math.Abs(c.Back) <= 10)):
		return &Missing{For: "the room at " + c.Name, What: []string{"the wheelbase and the place along the car"}}
	}
	return nil
}

func (c Contact) ratio() float64 {
	if c.Moves == WithBody {
		return 1
	}
	return c.Ratio
}

func (c Contact) ratioHalf() float64 {
	if c.Moves == WithBody {
		return 0
	}
	return c.RatioHalf
}

// weights turn a pose into travel that uses up room; of two the greater counts.
func (c Contact) weights() [][2]float64 {
	sign := -1.0 // the body sinks
	if c.Moves == LimitsDroop {
		sign = 1
	}
	switch {
	case c.Somewhere:
		return [][2]float64{{sign, 0}, {0, sign}}
	case c.Moves == WithBody:
		share := c.Back / c.Wheelbase
		return [][2]float64{{sign * (1 - share), sign * share}}
	case c.Rear:
		return [][2]float64{{0, sign}}
	}
	return [][2]float64{{sign, 0}}
}

func (c Contact) travel(weight [2]float64, p Pose) float64 {
	return weight[0]*(p.Front-c.Read.Front) + weight[1]*(p.Rear-c.Read.Rear)
}

// Path is a way of the body from its highest to its lowest through some poses,
// straight between them.
type Path []Pose

// NewPath orders poses by their mean, the highest first, and adds the two ends:
// beyond the outermost pose both axles go alike, or only those that may move.
// top and bottom are means [m]; a pose beyond them stays on the path. Of two
// poses with the same mean the first is kept.
func NewPath(top, bottom float64, moves [2]bool, poses ...Pose) (Path, error) {
	if !finite(top) || !finite(bottom) || top <= bottom || len(poses) == 0 || !moves[0] && !moves[1] {
		return nil, bad("height at the top [mm]", top/mm, "a top above the bottom, one pose and one axle that moves")
	}
	for _, p := range poses {
		if !(math.Abs(p.Front) <= 1) || !(math.Abs(p.Rear) <= 1) {
			return nil, bad("change of height [mm]", p.Mean()/mm, "a change within 1,000 mm")
		}
	}
	list := append(Path(nil), poses...)
	sort.SliceStable(list, func(i, k int) bool { return list[i].Mean() > list[k].Mean() })
	out := list[:1]
	for _, p := range list[1:] {
		if out[len(out)-1].Mean()-p.Mean() > 1e-9 {
			out = append(out, p)
		}
	}
	if d := top - out[0].Mean(); d > 0 {
		out = append(Path{shifted(out[0], d, moves)}, out...)
	}
	if d := bottom - out[len(out)-1].Mean(); d < 0 {
		out = append(out, shifted(out[len(out)-1], d, moves))
	}
	return out, nil
}

func shifted(p Pose, mean float64, moves [2]bool) Pose {
	switch {
	case moves[0] && moves[1]:
		return Pose{p.Front + mean, p.Rear + mean}
	case moves[0]:
		return Pose{p.Front + 2*mean, p.Rear}
	}
	return Pose{p.Front, p.Rear + 2*mean}
}

// Pose is the pose at a mean height [m]; outside the path its end.
func (p Path) Pose(mean float64) Pose {
	if len(p) == 0 {
		return Pose{}
	}
	if mean >= p[0].Mean() {
		return p[0]
	}
	for i := 1; i < len(p); i++ {
		if lo := p[i].Mean(); mean >= lo {
			s := (mean - lo) / (p[i-1].Mean() - lo)
			return Pose{p[i].Front + s*(p[i-1].Front-p[i].Front), p[i].Rear + s*(p[i-1].Rear-p[i].Rear)}
		}
	}
	return p[len(p)-1]
}

// Meeting is where a point meets on a path.
type Meeting struct {
	At   float64 // mean change from ROAD [m]
	Half float64 // ± of At [m]
	Pose Pose    // there
}

// Meets is where the room at a point is used up on the path, the place nearest
// ROAD in the way that uses it up; ok is false where it never is.
//
//	at = −room/ratio where the body sinks alike
//
// In closed form on each straight piece. The ± is that of the room left there
// over the slope of the piece.
func (c Contact) Meets(p Path) (m Meeting, ok bool, err error) {
	if err := c.check(); err != nil {
		return m, false, err
	}
	down, up := p.from(0, false), p.from(0, true)
	ways := [2]Path{down, up}
	if c.Moves == LimitsDroop {
		ways = [2]Path{up, down}
	}
	for _, way := range ways {
		for i := 1; i < len(way); i++ {
			a, err := c.At(way[i-1])
			if err != nil {
				return m, false, err
			}
			if a.Left <= 0 {
				return Meeting{At: way[i-1].Mean(), Half: a.Half, Pose: way[i-1]}, true, nil
			}
			if m, ok := c.piece(way[i-1], way[i]); ok {
				return m, true, nil
			}
		}
	}
	return m, false, nil
}

// piece is where the room is first used up between two poses.
func (c Contact) piece(a, b Pose) (Meeting, bool) {
	first := math.Inf(1)
	var m Meeting
	for _, w := range c.weights() {
		ta, tb := c.travel(w, a), c.travel(w, b)
		s := (c.Room/c.ratio() - ta) / (tb - ta)
		if !(tb > ta) || !(s >= 0 && s <= 1+1e-12) || s >= first {
			continue
		}
		first = s
		at := Pose{a.Front + s*(b.Front-a.Front), a.Rear + s*(b.Rear-a.Rear)}
		travel := ta + s*(tb-ta)
		slope := c.ratio() * (tb - ta) / math.Abs(b.Mean()-a.Mean())
		m = Meeting{At: at.Mean(), Half: doubt.Combine(c.Half, travel*c.ratioHalf()) / slope, Pose: at}
	}
	return m, !math.IsInf(first, 1)
}

// from is the part of the path that leads away from a mean height, up or down.
func (p Path) from(mean float64, up bool) Path {
	out := Path{p.Pose(mean)}
	if up {
		for i := len(p) - 1; i >= 0; i-- {
			if p[i].Mean() > mean+1e-9 {
				out = append(out, p[i])
			}
		}
		return out
	}
	for _, q := range p {
		if q.Mean() < mean-1e-9 {
			out = append(out, q)
		}
	}
	return out
}

// Met is one of several points in the order of their meeting.
type Met struct {
	Index int // in the list that was asked about
	Meeting
	Never bool // it does not meet on the path
}

// Order puts points in the order in which they meet on the way down from ROAD;
// after them, in their order on the way up, those that meet above it; last those
// that never meet.
func Order(points []Contact, p Path) ([]Met, error) {
	out := make([]Met, len(points))
	for i, c := range points {
		m, ok, err := c.Meets(p)
		if err != nil {
			return nil, err
		}
		out[i] = Met{Index: i, Meeting: m, Never: !ok}
	}
	sort.SliceStable(out, func(i, k int) bool { return out[i].sooner(out[k]) })
	return out, nil
}

func (m Met) sooner(than Met) bool {
	if m.group() != than.group() {
		return m.group() < than.group()
	}
	return !m.Never && math.Abs(m.At) < math.Abs(than.At)
}

func (m Met) group() int {
	switch {
	case m.Never:
		return 2
	case m.At > 0:
		return 1
	}
	return 0
}
