package figure

import (
	"math"
	"strconv"

	"jounce/internal/draw"
)

// OutlineView is the body's outline under work, width [mm]: measured firm, assumed faint, its control points to be taken and
// moved. Each point is a link to its box on the page ("#outline.stations[scuttle].z") with the data attributes point, its id, and x
// and z, its place in whole millimetres; the group round them has mm, pixels for a millimetre of the car.
func OutlineView(s Side, width float64, st draw.Style) draw.Scene {
	f := newOutline(s, width, st)
	known := 0
	for _, p := range f.b.o.Stations {
		if p.KnownX || p.KnownZ {
			known++
		}
	}
	f.Desc = plain(float64(known), 0) + " of " + plain(float64(len(f.b.o.Stations)), 0) + " control points rest on measures."
	f.ground()
	f.wheels()
	f.car()
	if f.dimensioned() {
		f.H += 1.8 * st.Line(draw.Body)
		f.dimensions()
	}
	f.grips()
	return f.Scene
}

// grips are the control points: solid where both places rest on measures, half solid for one, open where both are assumed.
func (f *sideFigure) grips() {
	all := draw.Group{}.WithID("points").WithData("mm", decimal(f.f.SX/draw.Px, 5))
	r := lettered(f.st, 6)
	for _, p := range f.b.o.Stations {
		q := f.f.Pt(1000*p.X, 1000*p.Z)
		ring := draw.Circle(q.X, q.Y, r).FillStroke(draw.Paper, draw.W2.Pen().In(draw.Move))
		g := draw.Group{Class: "grip"}
		if t := f.st.Touch; t > 0 {
			g.Add(draw.Circle(q.X, q.Y, 0.54*t).Fill(draw.Paper).WithAlpha(0.001)) // a page may show the picture a little smaller
		}
		g.Add(ring)
		switch {
		case p.KnownX && p.KnownZ:
			g.Add(draw.Circle(q.X, q.Y, r).Fill(draw.Move))
		case p.KnownX:
			g.Add(draw.Rect(q.X-r*0.3, q.Y-r, 0.6*r, 2*r).Fill(draw.Move))
		case p.KnownZ:
			g.Add(draw.Rect(q.X-r, q.Y-r*0.3, 2*r, 0.6*r).Fill(draw.Move))
		}
		title := p.Label + ", " + plain(1000*p.X, 0) + " behind the front hub, " + plain(1000*p.Z, 0) + " above the floor"
		if f.st.Medium == draw.Screen {
			g = g.Link("#outline.stations["+p.ID+"].z", title)
		} else {
			g = g.WithTitle(title)
		}
		all.Add(g.WithData("point", p.ID).WithData("x", strconv.Itoa(int(math.Round(1000*p.X)))).WithData("z", strconv.Itoa(int(math.Round(1000*p.Z)))))
	}
	f.Add(all)
}

// newOutline lays the picture out, with room for a finger at the ends.
func newOutline(s Side, width float64, st draw.Style) *sideFigure {
	s = bare(s)
	f := &sideFigure{sheet: newSheet(st, width, 1, "outline", "The body from the left, front to the left, with its control points"), s: s}
	f.layout()
	edge := lettered(st, 26)
	k := (width - 2*edge) / (f.b.tail - f.b.nose)
	if !(k > 0) || math.IsInf(k, 0) {
		k = 1e-3
	}
	top := f.b.roof
	for _, p := range f.b.o.Stations {
		top = math.Max(top, 1000*p.Z)
	}
	f.floor = edge + k*math.Min(top, 4000)
	f.f = draw.Frame{X0: edge - k*f.b.nose, Y0: f.floor, SX: k, SY: -k}
	f.H = f.floor + lettered(st, 12)
	return f
}

// OutlineFrame is where OutlineView puts the car: millimetres behind the front hub and above the floor onto the paper.
func OutlineFrame(s Side, width float64, st draw.Style) draw.Frame { return newOutline(s, width, st).f }

// bare is the picture without what does not belong to the outline.
func bare(s Side) Side { return Side{Body: s.Body, Wheel: s.Wheel, Growing: true, Preset: 1} }
