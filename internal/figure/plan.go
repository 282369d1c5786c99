package figure

import (
	"math"
	"slices"

	"jounce/internal/draw"
	"jounce/internal/finding"
)

// Plan is the car from above, front up, so that FL FR RL RR stand on the page as they
// stand round the car. Lengths in metres; what is not known is assumed.
type Plan struct {
	Wheelbase, FrontOverhang, RearOverhang finding.Number // [m]
	Width                                  finding.Number // of the body [m]
	Diameter, TyreWidth                    finding.Number // of the wheels [m]
	Corners                                []PlanCorner   // FL FR RL RR, lettered beside the car; nil on a screen where the page letters them
	Stops                                  []PlanStop     // of the walk round the car
	You                                    *PlanSpot      // where you stand
	Keep                                   []PlanArea     // where nobody may be
	Touches                                []SideTouch    // where something meets something, as rings with their ranks
}

// PlanCorner is what is lettered beside one wheel.
type PlanCorner struct {
	Head  string         // "FL left front"
	Value finding.Number // the large figure
	Lines []string       // "51 psi", "3.3 empty"
	Mark  *draw.Mark     // beside the head
}

// PlanSide is a side of the car as somebody walks round it.
type PlanSide uint8

// The sides.
const (
	AtLeft PlanSide = iota
	AtTail
	AtRight
	AtNose
)

// StopState is how far a stop of the walk is.
type StopState uint8

// The states.
const (
	ToCome StopState = iota
	Here
	Done
)

// PlanStop is a numbered stop of the walk.
type PlanStop struct {
	Label string
	Side  PlanSide
	X     float64 // along the car, rearwards from the front axle, in wheelbases: 0 the front wheel, 1 the rear [1]
	State StopState
	Href  string // where a touch leads; "" is nowhere
	Title string // what it is, for those who cannot see it
}

// PlanSpot is a place round the car.
type PlanSpot struct {
	Side PlanSide
	X    float64 // as PlanStop.X, for the left and the right [1]
}

// PlanArea is an area in which nobody may be, hatched.
type PlanArea uint8

// The areas.
const (
	UnderCar PlanArea = iota
	BeforeCar
	BehindCar
	LeftOfCar
	RightOfCar
)

// planDims are the car's measures in millimetres, assumed where not known (common practice).
type planDims struct{ wb, front, rear, half, dia, tyre float64 }

func (p Plan) dims() planDims {
	wb := mmOr(p.Wheelbase, 2500)
	return planDims{wb, mmOr(p.FrontOverhang, 0.27*wb), mmOr(p.RearOverhang, 0.35*wb), mmOr(p.Width, 0.62*wb) / 2, mmOr(p.Diameter, 610), mmOr(p.TyreWidth, 185)}
}

type planFigure struct {
	*sheet
	p    Plan
	d    planDims
	f    draw.Frame // model: x to the right of the car's middle, y rearwards from the front axle [mm]
	walk float64    // distance of the walk from the body [mm on the paper]
}

// PlanView draws the plan, width by height [mm]. Its scale follows from the room that the lettering leaves.
func PlanView(p Plan, width, height float64, st draw.Style) draw.Scene {
	f := planFigure{sheet: newSheet(st, width, height, "plan", "The car from above, front up"), p: p, d: p.dims()}
	side, end := lettered(st, 10), lettered(st, 22)
	if len(p.Stops) > 0 || p.You != nil {
		f.walk = 2.1 * st.Disc
		side, end = f.walk+1.5*st.Disc, f.walk+1.5*st.Disc
	}
	if len(p.Keep) > 0 {
		f.walk = math.Max(f.walk, lettered(st, 42))
		side, end = math.Max(side, f.walk+lettered(st, 8)), math.Max(end, f.walk+lettered(st, 8))
	}
	if len(p.Corners) > 0 {
		side = math.Max(side, f.lettering()+lettered(st, 12))
	}
	long := f.d.front + f.d.wb + f.d.rear
	k := math.Min((height-2*end)/long, (width-2*side)/(2*f.d.half+60))
	if !(k > 0) {
		k = 1e-3
	}
	f.f = draw.Frame{X0: width / 2, Y0: height/2 - k*(long/2-f.d.front), SX: k, SY: k}
	f.keep()
	f.body()
	f.corners()
	f.touches()
	f.stops()
	f.you()
	return f.Scene
}

// lettering is the widest lettering beside the car [mm].
func (f *planFigure) lettering() float64 {
	w := 0.0
	for _, c := range f.p.Corners {
		w = math.Max(w, f.st.Len(draw.Cap, c.Head))
		if c.Value.Known() {
			w = math.Max(w, f.st.Len(draw.Number, c.Value.String()))
		}
		for _, l := range c.Lines {
			w = math.Max(w, f.st.Len(draw.Body, l))
		}
	}
	return w
}

// planOutline is the body from above: an own, plain shape, in shares of the half width and the overhangs.
func (d planDims) outline() draw.Outline {
	h, n, t := d.half, -d.front, d.wb+d.rear
	o := draw.Begin(0, n).CurveTo(0.6*h, n, 0.9*h, n+0.06*d.front, 0.95*h, n+0.28*d.front).
		CurveTo(h, -0.13*d.front, h, 0.28*d.wb, h, 0.47*d.wb).
		CurveTo(h, 0.79*d.wb, h, d.wb+0.07*d.rear, 0.98*h, d.wb+0.4*d.rear).
		CurveTo(0.95*h, t-0.2*d.rear, 0.85*h, t-0.01*d.rear, 0.5*h, t).LineTo(-0.5*h, t)
	return o.CurveTo(-0.85*h, t-0.01*d.rear, -0.95*h, t-0.2*d.rear, -0.98*h, d.wb+0.4*d.rear).
		CurveTo(-h, d.wb+0.07*d.rear, -h, 0.79*d.wb, -h, 0.47*d.wb).
		CurveTo(-h, 0.28*d.wb, -h, -0.13*d.front, -0.95*h, n+0.28*d.front).
		CurveTo(-0.9*h, n+0.06*d.front, -0.6*h, n, 0, n).Close()
}

func (f *planFigure) body() {
	d, h := f.d, f.d.half
	tyres := func(do func(o draw.Outline)) {
		for _, y := range []float64{0, d.wb} {
			for _, s := range []float64{-1, 1} {
				x := s*(h-0.5*d.tyre-25) - 0.5*d.tyre
				do(draw.Rect(x, y-d.dia/2, d.tyre, d.dia).Map(f.f))
			}
		}
	}
	f.Add(d.outline().Map(f.f).FillStroke(draw.Skin, draw.Pen{Role: draw.Ink, W: draw.W4}))
	if slices.Contains(f.p.Keep, UnderCar) {
		f.Add(d.outline().Map(f.f).Hatched(f.st.Hatch()))
	}
	tyres(func(o draw.Outline) { f.Add(o.FillStroke(draw.Tyre, draw.W1.Pen().Dashed()).WithAlpha(1)) })
	glass := draw.W2.Pen()
	y0, y1, y2, y3 := 0.275*d.wb, 0.44*d.wb, 0.823*d.wb, 0.99*d.wb
	f.Add(draw.Begin(-0.82*h, y0).CurveTo(-0.4*h, y0-0.035*d.wb, 0.4*h, y0-0.035*d.wb, 0.82*h, y0).LineTo(0.68*h, y1).
		CurveTo(0.3*h, y1-0.02*d.wb, -0.3*h, y1-0.02*d.wb, -0.68*h, y1).Close().Map(f.f).Stroke(glass))
	f.Add(draw.Begin(-0.66*h, y2).CurveTo(-0.3*h, y2+0.016*d.wb, 0.3*h, y2+0.016*d.wb, 0.66*h, y2).LineTo(0.78*h, y3).
		CurveTo(0.4*h, y3+0.028*d.wb, -0.4*h, y3+0.028*d.wb, -0.78*h, y3).Close().Map(f.f).Stroke(glass))
	f.Add(draw.Line(-0.68*h, y1, -0.66*h, y2).MoveTo(0.68*h, y1).LineTo(0.66*h, y2).Map(f.f).Stroke(draw.W1.Pen()))
	chain := draw.W1.Pen().In(draw.Ink2).Chain()
	over := lettered(f.st, 8) / f.f.SX
	f.Add(draw.Line(0, -d.front-over, 0, d.wb+d.rear+over).Map(f.f).Stroke(chain))
	for _, y := range []float64{0, d.wb} {
		f.Add(draw.Line(-h-over*0.4, y, h+over*0.4, y).Map(f.f).Stroke(chain))
	}
	if f.walk == 0 {
		tip := f.f.Pt(0, -d.front).Add(0, -lettered(f.st, 20))
		f.Add(draw.Arrowhead(f.st, tip, 90))
	}
}

// corners letters the four values, left of the car right-aligned to it and right of it left-aligned.
func (f *planFigure) corners() {
	gap := f.d.half*f.f.SX + lettered(f.st, 12)
	line := f.st.Line(draw.Body)
	for i, c := range f.p.Corners {
		if i > 3 {
			break
		}
		y := f.f.Pt(0, float64(i/2)*f.d.wb).Y - 1.2*line
		x, anchor := f.W/2-gap, draw.End
		if i%2 == 1 {
			x, anchor = f.W/2+gap, draw.Start
		}
		f.put(f.st.Text(draw.Cap, x, y, c.Head, anchor))
		if c.Mark != nil {
			m := lettered(f.st, 16)
			mx := x - f.st.Len(draw.Cap, c.Head) - m
			if i%2 == 1 {
				mx = x + f.st.Len(draw.Cap, c.Head) + m
			}
			f.Add(draw.VerdictMark(*c.Mark, mx, y-0.35*f.st.Size[draw.Cap], m))
		}
		y += 0.3 * line
		if c.Value.Known() {
			y += f.st.Size[draw.Number]
			f.put(f.st.Text(draw.Number, x, y, c.Value.String(), anchor))
		}
		for _, l := range c.Lines {
			y += line
			f.put(f.st.Text(draw.Body, x, y, l, anchor))
		}
	}
}

// at is the place of a stop on the walk [mm].
func (f *planFigure) at(side PlanSide, x float64) draw.Point {
	d, w := f.d, f.walk
	switch side {
	case AtLeft:
		return f.f.Pt(-d.half, x*d.wb).Add(-w, 0)
	case AtRight:
		return f.f.Pt(d.half, x*d.wb).Add(w, 0)
	case AtTail:
		return f.f.Pt(0, d.wb+d.rear).Add(0, w)
	}
	return f.f.Pt(0, -d.front).Add(0, -w)
}

// stops draws the walk: done solid, here with a wide ring, to come dashed. Stops on one side are pushed apart.
func (f *planFigure) stops() {
	n := len(f.p.Stops)
	if n == 0 {
		return
	}
	pts := make([]draw.Point, n)
	for _, side := range []PlanSide{AtLeft, AtRight} {
		var want, size []float64
		var who []int
		for i, s := range f.p.Stops {
			pts[i] = coalesce(s.Side == AtLeft || s.Side == AtRight, pts[i], f.at(s.Side, s.X))
			if s.Side == side {
				want, size, who = append(want, f.at(side, s.X).Y), append(size, 2*f.st.Disc), append(who, i)
			}
		}
		at, _ := draw.Spread(want, size, lettered(f.st, 5), f.at(AtNose, 0).Y, f.at(AtTail, 0).Y)
		for k, i := range who {
			pts[i] = draw.Pt(f.at(side, 0).X, at[k])
		}
	}
	f.path(pts)
	for i, s := range f.p.Stops {
		f.stop(s, pts[i])
	}
}

func coalesce(keep bool, a, b draw.Point) draw.Point {
	if keep && a != (draw.Point{}) {
		return a
	}
	return b
}

// path joins the stops round the car's corners, wide as far as the walk has come.
func (f *planFigure) path(pts []draw.Point) {
	l, r := f.at(AtLeft, 0).X, f.at(AtRight, 0).X
	top, foot := f.at(AtNose, 0).Y, f.at(AtTail, 0).Y
	c := f.walk
	for i := 1; i < len(pts); i++ {
		a, b := f.p.Stops[i-1], f.p.Stops[i]
		run := []draw.Point{pts[i-1]}
		corner := func(side, end PlanSide, rev bool) {
			x, sx := l, 1.0
			if side == AtRight {
				x, sx = r, -1
			}
			y, sy := top, 1.0
			if end == AtTail {
				y, sy = foot, -1
			}
			p, q := draw.Pt(x, y+sy*c), draw.Pt(x+sx*c, y)
			if rev {
				p, q = q, p
			}
			run = append(run, p, q)
		}
		flank := func(s PlanSide) bool { return s == AtLeft || s == AtRight }
		switch {
		case flank(a.Side) && !flank(b.Side):
			corner(a.Side, b.Side, false)
		case !flank(a.Side) && flank(b.Side):
			corner(b.Side, a.Side, true)
		}
		run = append(run, pts[i])
		pen := draw.W1.Pen()
		if a.State == Done && b.State != ToCome {
			pen = draw.W3.Pen()
		}
		f.Add(draw.Polyline(run...).Stroke(pen))
	}
}

func (f *planFigure) stop(s PlanStop, p draw.Point) {
	disc := draw.Circle(p.X, p.Y, f.st.Disc)
	t := f.st.Text(draw.Bold, p.X, p.Y, s.Label, draw.Middle).At(draw.Mid)
	var ring draw.Path
	switch s.State {
	case Done:
		ring, t = disc.FillStroke(draw.Ink, draw.W2.Pen()), t.In(draw.Paper)
	case Here:
		ring = disc.FillStroke(draw.Paper, draw.W3.Pen())
	default:
		ring = disc.FillStroke(draw.Paper, draw.W1.Pen().Dashed())
	}
	g := draw.G(ring, t)
	if s.Href != "" && f.st.Medium == draw.Screen {
		hit := draw.Rect(p.X-f.st.Touch/2, p.Y-f.st.Touch/2, f.st.Touch, f.st.Touch).Fill(draw.Paper).WithAlpha(0.001)
		g = draw.G(hit, ring, t).Link(s.Href, s.Title)
	} else {
		g = g.WithTitle(s.Title)
	}
	f.Add(g)
}

// keep hatches where nobody may be.
func (f *planFigure) keep() {
	d, w := f.d, f.walk
	box := func(a, b draw.Point) draw.Path {
		return draw.Rect(a.X, a.Y, b.X-a.X, b.Y-a.Y).Stroke(draw.W2.Pen()).WithHatch(f.st.Hatch())
	}
	nose, tail := -d.front, d.wb+d.rear
	for _, k := range f.p.Keep {
		switch k {
		case UnderCar: // all round it a little, so that the hatch shows beside the body
			e := f.rim()
			f.Add(box(f.f.Pt(-d.half, nose).Add(-e, -e), f.f.Pt(d.half, tail).Add(e, e)))
		case BeforeCar:
			e := f.rim()
			f.Add(box(f.f.Pt(-d.half, nose).Add(-e, -w), f.f.Pt(d.half, nose).Add(e, -e)))
		case BehindCar:
			e := f.rim()
			f.Add(box(f.f.Pt(-d.half, tail).Add(-e, e), f.f.Pt(d.half, tail).Add(e, w)))
		case LeftOfCar:
			f.Add(box(f.f.Pt(-d.half, nose).Add(-w, 0), f.f.Pt(-d.half, tail)))
		case RightOfCar:
			f.Add(box(f.f.Pt(d.half, nose), f.f.Pt(d.half, tail).Add(w, 0)))
		}
	}
}

// rim is how far the hatch under the car shows beside it [mm]; 0 where one may be under it.
func (f *planFigure) rim() float64 {
	if slices.Contains(f.p.Keep, UnderCar) {
		return lettered(f.st, 9)
	}
	return 0
}

// you is the dot where somebody stands, with its word.
func (f *planFigure) you() {
	if f.p.You == nil {
		return
	}
	p := f.at(f.p.You.Side, f.p.You.X)
	r := f.st.Disc * 0.55
	f.Add(draw.Circle(p.X, p.Y, r+lettered(f.st, 3)).Fill(draw.Paper), draw.Circle(p.X, p.Y, r).Fill(draw.Ink))
	y := p.Y + r + 1.05*f.st.Size[draw.Bold]
	if f.p.You.Side == AtTail {
		f.put(within(f.st.Text(draw.Bold, p.X+r+lettered(f.st, 6), p.Y, "you", draw.Start).At(draw.Mid).On(draw.Paper), 0, f.W))
		return
	}
	f.put(within(f.st.Text(draw.Bold, p.X, y, "you", draw.Middle).On(draw.Paper), 0, f.W))
}
