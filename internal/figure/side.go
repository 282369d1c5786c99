package figure

import (
	"math"
	"strconv"
	"strings"

	"jounce/body"
	"jounce/internal/draw"
	"jounce/internal/finding"
)

// Side is the heights picture: the car from the left, front to the left, the floor at 0. A Number that is not known is
// left out; what of the body is assumed is drawn so.
type Side struct {
	Name       string       // of the state it shows, where several are compared: "revision 12"
	Body       body.Outline // at ROAD
	Wheel      [2]Wheel
	SillAt     [4]finding.Number // at DOWN, ROAD, HUMP, HIGH [m]
	Lowest     finding.Number    // lowest hard part above the floor at ROAD [m]
	LowestName string            // which it is
	LowestAt   [4]finding.Number // [m]
	LowestX    finding.Number    // how far behind the front hub it is; else in the middle [m]
	Scrub      finding.Number    // scrub line, the lower of the two axles [m]
	Change     [4][2]finding.Number
	Preset     int         // in force, in the order of SillAt; 1 is ROAD; below 0 At counts
	At         [2]float64  // change at the axles from ROAD [m], where no preset is in force
	Growing    bool        // drawn with three pens while the car is being measured: measured, worked out, assumed
	Touches    []SideTouch // where something meets something, in their order
	Road       Road        // what must be got over
	Ghost      *Side       // another state of the same car, drawn behind as a double-dot chain
	Zones      bool        // fields along and down, so that findings can cite the place; on wide screens only
}

// Wheel is one axle's tyre as the picture needs it.
type Wheel struct {
	Known    bool
	Diameter finding.Number // [m]
	Loaded   finding.Number // loaded radius [m]
	Flange   finding.Number // rim edge radius [m]
	Width    finding.Number // of the tyre's section [m]
	Measured bool           // the loaded radius was read, not worked out
}

// Road is what a car must get over.
type Road struct {
	Hump, HumpLength, Kerb         finding.Number // [m]
	RampStep, RampLength, RampRise finding.Number // [m] a driveway: the step at its foot, how long and how high its slope is
}

// presetNames are the presets in the order of SillAt.
var presetNames = [4]string{"DOWN", "ROAD", "HUMP", "HIGH"}

// sideFigure is the picture under work.
type sideFigure struct {
	*sheet
	s      Side
	b      shell
	f      draw.Frame
	floor  float64     // y of the floor [mm on the paper]
	left   float64     // what the zones take at the left [mm]
	top    float64     // y of the picture's upper edge, under the zones [mm]
	now    [2]float64  // change of the body at the axles from ROAD [mm]
	wheel  [2]wheelMM  // [mm]
	fan    float64     // width kept for the heights at the tail [mm]; 0 where they stand below
	foot   []footLabel // what is lettered under the floor
	rows   int         // of lettering under the floor
	bars   bool        // a ± bar is drawn
	narrow bool
}

type wheelMM struct {
	r, loaded, flange float64
	known             bool
}

// scales are those of ISO 5455 for reduction.
var scales = []float64{1, 2, 5, 10, 20, 50, 100, 200}

// SideScale is the scale 1 : n of ISO 5455 at which the picture fits a width [mm] on paper, its lettering beside it.
func SideScale(s Side, width float64, st draw.Style) int {
	f := sideFigure{sheet: newSheet(st, width, 1, "", ""), s: s}
	f.layout()
	room := width - f.margins()
	for _, n := range scales {
		if (f.b.tail-f.b.nose)/n <= room {
			return int(n)
		}
	}
	return int(scales[len(scales)-1])
}

// SideView draws the heights picture, width [mm]. On paper its scale is one of ISO 5455, see SideScale; on a screen it
// fills the width. Every group with the data attribute "mm" moves with the body: a script may give it another transform.
// Its other attributes are x0 and x1, where the hubs stand, and y, the front hub's height, in the picture's pixels, and mm,
// pixels for a millimetre of the car; with lift it goes up and down by that share of front and rear, without a turn.
func SideView(s Side, width float64, st draw.Style) draw.Scene {
	f := newSide(s, width, st)
	f.Desc = f.says()
	f.ground()
	f.ghost()
	f.wheels()
	f.car()
	f.scrubLine()
	f.lowest()
	f.arches()
	f.extremes()
	f.heights()
	f.footLabels()
	f.dimensions()
	f.balloons()
	f.caption()
	f.zones()
	return f.Scene
}

// newSide lays the picture out.
func newSide(s Side, width float64, st draw.Style) *sideFigure {
	f := &sideFigure{sheet: newSheet(st, width, 1, "side", "The car from the left, front to the left, with its heights"), s: s}
	f.layout()
	k := (width - f.margins()) / (f.b.tail - f.b.nose)
	if st.Medium == draw.Print {
		k = 1 / float64(SideScale(s, width, st))
	}
	if !(k > 0) || math.IsInf(k, 0) {
		k = 1e-3
	}
	line := st.Line(draw.Body)
	high := math.Max(math.Max(f.change(3, 0), f.change(3, 1)), math.Max(math.Max(f.now[0], f.now[1]), 0))
	f.floor = f.top + 1.9*line + k*(f.b.roof+high)
	x0 := f.left + lettered(st, 8) - k*f.b.nose
	if st.Medium == draw.Print {
		x0 += (width - f.margins() - k*(f.b.tail-f.b.nose)) / 2
	}
	f.f = draw.Frame{X0: x0, Y0: f.floor, SX: k, SY: -k}
	f.plan()
	f.H = f.floor + f.below(line)
	return f
}

// layout takes over what is known of the car.
func (f *sideFigure) layout() {
	s := f.s
	f.b = newShell(s.Body)
	for i, w := range s.Wheel {
		o := s.Wheel[1-i] // one axle's tyre stands for the other's
		if !w.Known && o.Known {
			w = o
		}
		r := f.b.tyre[i]
		f.wheel[i] = wheelMM{r, math.Min(f.b.hub[i], r), math.Min(mmOr(w.Flange, 0.62*r), 0.95*r), s.Wheel[i].Known}
	}
	f.now = [2]float64{1000 * finite(s.At[0]), 1000 * finite(s.At[1])}
	if s.Preset >= 0 {
		f.now = [2]float64{f.change(s.Preset, 0), f.change(s.Preset, 1)}
	}
	f.narrow = narrow(f.W, f.st)
	if f.zoned() {
		f.left, f.top = lettered(f.st, 22), 1.5*f.st.Line(draw.Cap)
	}
	if !f.narrow && f.anySill() {
		f.fan = lettered(f.st, 40) + f.st.Len(draw.Bold, "188 ROAD")
	}
}

// finite is v, or 0 where it is no number or no length of a car [m].
func finite(v float64) float64 {
	if math.IsNaN(v) || math.Abs(v) > 2 {
		return 0
	}
	return v
}

func (f *sideFigure) anySill() bool {
	for _, n := range f.s.SillAt {
		if n.Known() {
			return true
		}
	}
	return false
}

// margins is the width that the car does not have [mm].
func (f *sideFigure) margins() float64 { return lettered(f.st, 16) + f.fan + f.left }

// below is the room under the floor [mm].
func (f *sideFigure) below(line float64) float64 {
	h := lettered(f.st, 10) + 1.15*line*float64(f.rows)
	if f.dimensioned() {
		h += 1.5 * line
	}
	if f.narrow && f.anySill() {
		h += 2.3 * line
	}
	return h + 1.4*line
}

// change is how far the body is from ROAD at an axle [mm], 0 where not known.
func (f *sideFigure) change(preset, axle int) float64 {
	if preset < 0 || preset > 3 {
		return 0
	}
	return mmOr(f.s.Change[preset][axle], 0)
}

// atRoad tells that the body stands at ROAD: what was read holds.
func (f *sideFigure) atRoad() bool { return f.now == [2]float64{} }

func (f *sideFigure) says() string {
	var t []string
	for i, n := range f.s.SillAt {
		if v, ok := mm(n); ok {
			t = append(t, presetNames[i]+" "+plain(v, 0))
		}
	}
	out := "Sill heights are not known."
	if len(t) > 0 {
		out = "Sill above the floor in mm: " + strings.Join(t, ", ") + "."
	}
	t = nil
	for _, p := range f.s.Touches {
		if p.Rank > 0 {
			t = append(t, plain(float64(p.Rank), 0)+" "+p.Name+" at "+p.At)
		}
	}
	if len(t) > 0 {
		out += " What touches first on the way down, mm below ROAD: " + strings.Join(t, ", ") + "."
	}
	return out
}

// turned is the group of the body where its axles are changed from ROAD [mm]: lifted at the front axle, turned by what the
// axles differ.
func (f *sideFigure) turned(g draw.Group, change [2]float64) draw.Group {
	deg := math.Atan2(change[1]-change[0], f.b.wb) * 180 / math.Pi
	return g.Turn(f.f.Pt(0, f.b.hub[0]), deg).Shift(0, -change[0]*f.f.SX)
}

// moving is the group of the body at its present height, told to scripts.
func (f *sideFigure) moving(g draw.Group) draw.Group {
	a, b := f.f.Pt(0, f.b.hub[0]), f.f.Pt(f.b.wb, f.b.hub[0])
	return f.turned(g, f.now).WithData("mm", decimal(f.f.SX/draw.Px, 5)).WithData("x0", decimal(a.X/draw.Px, 2)).WithData("x1", decimal(b.X/draw.Px, 2)).WithData("y", decimal(a.Y/draw.Px, 2))
}

// decimal is a number as a script reads it.
func decimal(v float64, digits int) string { return strconv.FormatFloat(v, 'f', digits, 64) }

// lift is how far the body over x is from ROAD [mm].
func (f *sideFigure) lift(change [2]float64, x float64) float64 {
	return change[0] + (change[1]-change[0])*x/f.b.wb
}
