package figure

import (
	"math"

	"jounce/body"
	"jounce/internal/draw"
)

// shell is a body's outline as the drawing takes it: millimetres, x rearwards from the front hub, z up from the floor, at
// ROAD. The model's y is z.
type shell struct {
	o          body.Outline
	wb         float64    // wheelbase
	nose, tail float64    // x of the foremost and the rearmost point
	roof, sill float64    // z
	belt       float64    // z of the waist, where the glass begins
	hub, arch  [2]float64 // z of the hub, hub to arch
	tyre       [2]float64 // radius
}

func newShell(o body.Outline) shell {
	if len(o.Stations) == 0 {
		o = body.New(o.Measures)
	}
	b := shell{o: o, wb: 1000 * o.Wheelbase.V, nose: 1000 * o.Nose.V, tail: 1000 * o.Tail.V, roof: 1000 * o.Roof.V, sill: 1000 * o.Sills[1].Z, belt: 1000 * o.Waist.V}
	for i := range 2 {
		b.hub[i], b.arch[i], b.tyre[i] = 1000*o.Hub[i].V, 1000*o.Arch[i].V, 1000*o.Tyre[i].V
	}
	return b
}

// onModel is a place of the body on the model.
func onModel(p body.Point) draw.Point { return draw.Pt(1000*p.X, 1000*p.Z) }

// seen is the body's curves as an outline; a curve that does not begin where the last one ended lifts the pen.
func seen(list []body.Segment) draw.Outline {
	var o draw.Outline
	var last body.Point
	for i, s := range list {
		a, d := onModel(s.A), onModel(s.D)
		if i == 0 || s.A != last {
			o = o.MoveTo(a.X, a.Y)
		}
		last = s.D
		b, c := onModel(s.B), onModel(s.C)
		if flat(a, b, c, d) {
			o = o.LineTo(d.X, d.Y)
			continue
		}
		o = o.CurveTo(b.X, b.Y, c.X, c.Y, d.X, d.Y)
	}
	return o
}

// flat tells that the control points of a cubic lie on its chord within 0.2 mm of the car.
func flat(a, b, c, d draw.Point) bool {
	l := a.Dist(d)
	if l == 0 {
		return true
	}
	off := func(p draw.Point) float64 { return math.Abs((d.X-a.X)*(p.Y-a.Y)-(d.Y-a.Y)*(p.X-a.X)) / l }
	return off(b) < 0.2 && off(c) < 0.2
}

// strokes is runs of points of the body as one outline.
func strokes(runs [][]body.Point) draw.Outline {
	var o draw.Outline
	for _, r := range runs {
		for i, p := range r {
			q := onModel(p)
			if i == 0 {
				o = o.MoveTo(q.X, q.Y)
			} else if i == len(r)-1 && p == r[0] {
				o = o.Close()
			} else {
				o = o.LineTo(q.X, q.Y)
			}
		}
	}
	return o
}

// closed is the whole outline for its tone.
func (b shell) closed() draw.Outline { return seen(b.o.Edge()).Close() }

// crest is the upper outline between nose and tail, for the extreme positions.
func (b shell) crest() draw.Outline { return seen(b.o.Over[1:max(2, len(b.o.Over)-1)]) }

// parts is the outline in what is measured and what is assumed.
func (b shell) parts() (firm, assumed draw.Outline) {
	list := b.o.Edge()
	var f, a []body.Segment
	for _, s := range list {
		halves := []body.Segment{s}
		if s.FirmA != s.FirmD {
			x, y := s.Halves()
			halves = []body.Segment{x, y}
		}
		for _, h := range halves {
			if h.FirmA {
				f = append(f, h)
			} else {
				a = append(a, h)
			}
		}
	}
	return seen(f), seen(a)
}

// peak is where the highest station stands, for the names of the extreme positions [mm].
func (b shell) peak() float64 {
	x, top := 0.0, 0.0
	for _, p := range b.o.Stations {
		if p.Z > top {
			x, top = 1000*p.X, p.Z
		}
	}
	return x
}

// topAt is the height of the outline over x [mm]; 0 beyond the ends.
func (b shell) topAt(x float64) float64 {
	z, _ := b.o.Top(x / 1000)
	return 1000 * z
}

// feet are the places where the lower edge meets the arches: before and behind the front one, before and behind the rear one [mm].
func (b shell) feet() [4]float64 {
	var out [4]float64
	for i := range 2 {
		e := b.o.ArchEdge(i)
		out[2*i], out[2*i+1] = 1000*e[0].A.X, 1000*e[len(e)-1].D.X
	}
	return out
}
