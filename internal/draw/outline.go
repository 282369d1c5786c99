package draw

import "math"

// Point is a place on the paper.
type Point struct {
	X float64 // [mm] to the right
	Y float64 // [mm] down
}

// Pt is the point x, y [mm].
func Pt(x, y float64) Point { return Point{x, y} }

// Add is the point shifted by dx, dy [mm].
func (p Point) Add(dx, dy float64) Point { return Point{p.X + dx, p.Y + dy} }

// To is the point at the part t [1] of the way to q.
func (p Point) To(q Point, t float64) Point { return Point{p.X + t*(q.X-p.X), p.Y + t*(q.Y-p.Y)} }

// Dist is the distance to q [mm].
func (p Point) Dist(q Point) float64 { return math.Hypot(q.X-p.X, q.Y-p.Y) }

// Polar is the point at the distance r [mm] in the direction deg [°], anticlockwise as seen from the x axis.
func (p Point) Polar(r, deg float64) Point {
	s, c := math.Sincos(deg * math.Pi / 180)
	return Point{p.X + r*c, p.Y - r*s}
}

// Op is the kind of a segment.
type Op uint8

// The kinds of segment.
const (
	OpMove  Op = iota // begin at P
	OpLine            // straight to P
	OpCurve           // cubic to P, with the control points C1 and C2
	OpArc             // circular arc to P with Bulge
	OpClose           // straight back to the last OpMove
)

// Seg is one step of an outline.
type Seg struct {
	Op     Op
	P      Point // where it ends
	C1, C2 Point // control points of a cubic
	Bulge  float64
	// Bulge [1] is the tangent of a quarter of the arc's angle, positive when the arc runs anticlockwise as seen on the
	// paper; 1 is a half circle, 0 a straight line.
}

// Outline is a path without pen or tone. Its methods return a longer outline; they may share memory with the shorter.
type Outline []Seg

// Begin starts an outline at x, y [mm].
func Begin(x, y float64) Outline { return Outline{{Op: OpMove, P: Point{x, y}}} }

// MoveTo lifts the pen and sets it down at x, y [mm].
func (o Outline) MoveTo(x, y float64) Outline { return append(o, Seg{Op: OpMove, P: Point{x, y}}) }

// LineTo draws straight to x, y [mm].
func (o Outline) LineTo(x, y float64) Outline { return append(o, Seg{Op: OpLine, P: Point{x, y}}) }

// CurveTo draws a cubic with the control points x1, y1 and x2, y2 to x, y [mm].
func (o Outline) CurveTo(x1, y1, x2, y2, x, y float64) Outline {
	return append(o, Seg{Op: OpCurve, C1: Point{x1, y1}, C2: Point{x2, y2}, P: Point{x, y}})
}

// ArcTo draws a circular arc to x, y [mm] with the bulge given, see Seg.Bulge.
func (o Outline) ArcTo(x, y, bulge float64) Outline {
	return append(o, Seg{Op: OpArc, P: Point{x, y}, Bulge: bulge})
}

// Close draws straight back to where the pen was last set down.
func (o Outline) Close() Outline { return append(o, Seg{Op: OpClose}) }

// And is both outlines, one after the other, as one.
func (o Outline) And(p Outline) Outline {
	return append(append(make(Outline, 0, len(o)+len(p)), o...), p...)
}

// Line is the straight line from x0, y0 to x1, y1 [mm].
func Line(x0, y0, x1, y1 float64) Outline { return Begin(x0, y0).LineTo(x1, y1) }

// Polyline is the open line through the points; nil for fewer than two.
func Polyline(pts ...Point) Outline {
	if len(pts) < 2 {
		return nil
	}
	o := Begin(pts[0].X, pts[0].Y)
	for _, p := range pts[1:] {
		o = o.LineTo(p.X, p.Y)
	}
	return o
}

// Polygon is the closed line through the points; nil for fewer than three.
func Polygon(pts ...Point) Outline {
	if len(pts) < 3 {
		return nil
	}
	return Polyline(pts...).Close()
}

// Rect is the rectangle with its top left corner at x, y, of width w and height h [mm].
func Rect(x, y, w, h float64) Outline {
	return Begin(x, y).LineTo(x+w, y).LineTo(x+w, y+h).LineTo(x, y+h).Close()
}

// Circle is the circle about x, y with radius r [mm].
func Circle(x, y, r float64) Outline { return Begin(x+r, y).ArcTo(x-r, y, 1).ArcTo(x+r, y, 1).Close() }

// Arc is the arc about x, y with radius r [mm] from the direction a0 to a1 [°], anticlockwise as seen when a1 > a0.
func Arc(x, y, r, a0, a1 float64) Outline {
	c := Point{x, y}
	n := max(1, int(math.Ceil(math.Abs(a1-a0)/180-1e-9)))
	step := (a1 - a0) / float64(n)
	p := c.Polar(r, a0)
	o := Begin(p.X, p.Y)
	for i := 1; i <= n; i++ {
		p = c.Polar(r, a0+float64(i)*step)
		o = o.ArcTo(p.X, p.Y, math.Tan(step*math.Pi/720))
	}
	return o
}

// ArcOf is the circle on which an arc from a to b with the bulge lies: centre, radius [mm], direction of a and angle run
// through [°], anticlockwise as seen. A bulge of 0 or a chord of no length gives ok false.
func ArcOf(a, b Point, bulge float64) (c Point, r, a0, sweep float64, ok bool) {
	chord := a.Dist(b)
	if bulge == 0 || chord == 0 || math.IsNaN(bulge) || math.IsInf(bulge, 0) {
		return Point{}, 0, 0, 0, false
	}
	sweep = 4 * math.Atan(bulge) * 180 / math.Pi
	r = chord * (1 + bulge*bulge) / (4 * math.Abs(bulge))
	// The centre lies on the left of the chord, as seen, by h when the arc runs anticlockwise and is short.
	h := chord * (1 - bulge*bulge) / (4 * bulge)
	ux, uy := (b.X-a.X)/chord, (b.Y-a.Y)/chord
	c = Point{(a.X+b.X)/2 + h*uy, (a.Y+b.Y)/2 - h*ux}
	a0 = math.Atan2(-(a.Y-c.Y), a.X-c.X) * 180 / math.Pi
	return c, r, a0, sweep, true
}

// Cubics is the outline with every arc as cubics of at most 45° each; they stray from the arc by less than 5e-6 of the radius.
func (o Outline) Cubics() Outline {
	out := make(Outline, 0, len(o))
	var at, start Point
	for _, s := range o {
		switch s.Op {
		case OpMove:
			start = s.P
		case OpArc:
			out = appendArc(out, at, s.P, s.Bulge)
			at = s.P
			continue
		case OpClose:
			s.P = start
		}
		out = append(out, s)
		at = s.P
	}
	return out
}

func appendArc(out Outline, a, b Point, bulge float64) Outline {
	c, r, a0, sweep, ok := ArcOf(a, b, bulge)
	if !ok {
		return append(out, Seg{Op: OpLine, P: b})
	}
	n := max(1, int(math.Ceil(math.Abs(sweep)/45-1e-9)))
	step := sweep / float64(n)
	k := 4.0 / 3 * math.Tan(step*math.Pi/720) * r
	p := a
	for i := 1; i <= n; i++ {
		from, to := a0+float64(i-1)*step, a0+float64(i)*step
		q := b
		if i < n {
			q = c.Polar(r, to)
		}
		out = append(out, Seg{Op: OpCurve, C1: p.Polar(k, from+90), C2: q.Polar(-k, to+90), P: q})
		p = q
	}
	return out
}

// Flatten is the outline as runs of straight lines that stray from it by at most tol [mm]. A closed run ends where it began.
func (o Outline) Flatten(tol float64) [][]Point {
	var runs [][]Point
	var run []Point
	flush := func() {
		if len(run) > 1 {
			runs = append(runs, run)
		}
		run = nil
	}
	for _, s := range o.Cubics() {
		switch s.Op {
		case OpMove:
			flush()
			run = []Point{s.P}
		case OpLine:
			run = append(run, s.P)
		case OpCurve:
			if len(run) > 0 {
				run = flattenCubic(run, run[len(run)-1], s, tol)
			}
		case OpClose:
			if len(run) > 0 {
				first := run[0]
				run = append(run, first)
				flush()
				run = []Point{first}
			}
		}
	}
	flush()
	return runs
}

// flattenCubic appends the cubic in n equal steps; it strays by at most 0.75·d/n², with d the larger second difference of its points.
func flattenCubic(run []Point, a Point, s Seg, tol float64) []Point {
	d := math.Max(math.Hypot(a.X-2*s.C1.X+s.C2.X, a.Y-2*s.C1.Y+s.C2.Y), math.Hypot(s.C1.X-2*s.C2.X+s.P.X, s.C1.Y-2*s.C2.Y+s.P.Y))
	n := 1
	if d > 0 && tol > 0 {
		n = int(math.Ceil(math.Sqrt(6 * d * 0.125 / tol)))
	}
	n = min(max(n, 1), 400)
	for i := 1; i < n; i++ {
		t := float64(i) / float64(n)
		u := 1 - t
		run = append(run, Point{
			u*u*u*a.X + 3*u*u*t*s.C1.X + 3*u*t*t*s.C2.X + t*t*t*s.P.X,
			u*u*u*a.Y + 3*u*u*t*s.C1.Y + 3*u*t*t*s.C2.Y + t*t*t*s.P.Y,
		})
	}
	return append(run, s.P)
}

// Box is a rectangle on the paper.
type Box struct {
	X0, Y0 float64 // [mm] top left
	X1, Y1 float64 // [mm] bottom right
}

// Overlaps reports whether the boxes share more than eps [mm] in both directions.
func (b Box) Overlaps(c Box, eps float64) bool {
	return math.Min(b.X1, c.X1)-math.Max(b.X0, c.X0) > eps && math.Min(b.Y1, c.Y1)-math.Max(b.Y0, c.Y0) > eps
}

// Bounds is the box round the outline (of its flattened form, within 0.01 mm); ok is false for an empty outline.
func (o Outline) Bounds() (b Box, ok bool) {
	b = Box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, run := range o.Flatten(0.01) {
		for _, p := range run {
			b = Box{math.Min(b.X0, p.X), math.Min(b.Y0, p.Y), math.Max(b.X1, p.X), math.Max(b.Y1, p.Y)}
			ok = true
		}
	}
	return b, ok
}

// Shift is the outline moved by dx, dy [mm].
func (o Outline) Shift(dx, dy float64) Outline { return o.Map(Frame{X0: dx, Y0: dy, SX: 1, SY: 1}) }

// Turn is the outline turned about c by deg [°], anticlockwise as seen.
func (o Outline) Turn(c Point, deg float64) Outline {
	s, k := math.Sincos(deg * math.Pi / 180)
	turn := func(p Point) Point {
		x, y := p.X-c.X, p.Y-c.Y
		return Point{c.X + k*x + s*y, c.Y - s*x + k*y}
	}
	out := make(Outline, len(o))
	for i, g := range o {
		g.P, g.C1, g.C2 = turn(g.P), turn(g.C1), turn(g.C2)
		out[i] = g
	}
	return out
}

// Frame brings model coordinates onto the paper: X0 + SX·x, Y0 + SY·y. A side elevation at 1 : 20 with x forward, front to the
// left, z up is Frame{X0: ..., Y0: floor, SX: -1.0/20, SY: -1.0/20}.
type Frame struct {
	X0, Y0 float64 // [mm] where the model's origin stands
	SX, SY float64 // [mm per unit of the model] negative turns the direction round
}

// Pt is a place of the model on the paper.
func (f Frame) Pt(x, y float64) Point { return Point{f.X0 + f.SX*x, f.Y0 + f.SY*y} }

// Map brings an outline given in model coordinates onto the paper. In the model, bulge is taken as the paper takes it before
// the frame: positive is anticlockwise with x right and y down, so a frame that mirrors one direction turns its sign.
// Arcs under unequal scales become cubics.
func (o Outline) Map(f Frame) Outline {
	if math.Abs(math.Abs(f.SX)-math.Abs(f.SY)) > 1e-9*math.Abs(f.SX) {
		o = o.Cubics()
	}
	flip := f.SX*f.SY < 0
	out := make(Outline, len(o))
	for i, g := range o {
		g.P, g.C1, g.C2 = f.Pt(g.P.X, g.P.Y), f.Pt(g.C1.X, g.C1.Y), f.Pt(g.C2.X, g.C2.Y)
		if flip {
			g.Bulge = -g.Bulge
		}
		out[i] = g
	}
	return out
}
