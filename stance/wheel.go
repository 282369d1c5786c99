package stance

// Wheel names one of the four wheels; left and right as seated facing forward.
type Wheel int

// The wheels, in the order of all arrays of this package.
const (
	FL Wheel = iota
	FR
	RL
	RR
)

func (w Wheel) String() string { return [...]string{"FL", "FR", "RL", "RR"}[w] }

// Front says whether the wheel is on the front axle.
func (w Wheel) Front() bool { return w == FL || w == FR }

// OnLeft says whether the wheel is on the left.
func (w Wheel) OnLeft() bool { return w == FL || w == RL }

// Wheels are all four, in order.
var Wheels = [4]Wheel{FL, FR, RL, RR}
