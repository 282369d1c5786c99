package figure

import (
	"math"

	"jounce/body"
	"jounce/internal/draw"
)

// CarShape is a car of the board as it stands.
type CarShape struct {
	Body   body.Outline
	Seen   bool // the shop has seen it; otherwise it is dashed
	Stands bool // it is on stands, the wheels hang
}

// How a car stands on stands, and the floor that a small drawing has at the least (common practice) [mm].
const (
	lifted = 250.0
	hangs  = 60.0
	least  = 5000.0
	beside = 100.0 // floor before the nose and behind the tail
	before = 1000.0
)

// SmallFloor is the floor across the drawings of a board, one scale for all: 5 m, or what the longest car needs [mm].
func SmallFloor(list []CarShape) float64 {
	floor := least
	for _, c := range list {
		b := newShell(c.Body)
		floor = math.Max(floor, b.tail-b.nose+2*beside)
	}
	return floor
}

// SmallCar draws a car from the left as it stands, front to the left: its outline and glass, and the shut lines of one
// that was seen. The drawing is as wide as so much floor [mm].
func SmallCar(c CarShape, floor, width float64, st draw.Style) draw.Scene {
	b := newShell(c.Body)
	lift, hang := 0.0, 0.0
	if c.Stands {
		lift, hang = lifted, lifted-hangs
	}
	k, top := width/floor, b.roof
	for _, p := range b.o.Stations {
		top = math.Max(top, 1000*p.Z)
	}
	y := (top + lift + 60) * k
	s := draw.NewScene(st, width, y+10*draw.Px)
	x := math.Min(math.Max(before, beside-b.nose), floor-beside-b.tail)
	onFloor := draw.Frame{X0: x * k, Y0: y, SX: k, SY: -k}
	up := onFloor
	up.Y0 -= lift * k
	s.Add(draw.FloorLine(st, 0, width, y))
	if c.Stands {
		for _, part := range []float64{0.26, 0.82} {
			s.Add(stand(onFloor, part*b.wb, b.sill+lift))
		}
	}
	wide, thin, skin := draw.W3.Pen(), draw.W1.Pen(), draw.Skin
	if !c.Seen {
		wide, thin, skin = draw.W2.Pen().Dashed(), thin.Dashed(), draw.Paper
	}
	for i := range 2 { // the body stands before the wheels
		s.Add(b.smallWheel(onFloor, i, hang, c)...)
	}
	edge := b.closed().Map(up)
	s.Add(edge.Fill(skin))
	if p := strokes(b.o.Glass()); p != nil {
		s.Add(p.Map(up).Stroke(thin))
	}
	if c.Seen {
		s.Add(strokes(b.o.Shuts()).Map(up).Stroke(thin))
	}
	s.Add(edge.Stroke(wide))
	return s
}

// smallWheel is a wheel on the floor, cut flat at the loaded radius, or hanging so far above it [mm].
func (b shell) smallWheel(fr draw.Frame, i int, hang float64, c CarShape) []draw.Item {
	pen, thin, tone, rim := draw.W2.Pen(), draw.W1.Pen(), draw.Tyre, draw.Skin
	if !c.Seen {
		pen, thin, tone, rim = pen.Dashed(), thin.Dashed(), draw.Paper, draw.Paper
	}
	r, z := b.tyre[i], b.hub[i]
	if hang > 0 {
		z = r + hang
	}
	p, k := fr.Pt(float64(i)*b.wb, z), fr.SX
	a := 90 - math.Acos(math.Min(1, z/r))*180/math.Pi
	tyre := draw.Circle(p.X, p.Y, r*k)
	if z < r {
		tyre = draw.Arc(p.X, p.Y, r*k, -a, 180+a).Close()
	}
	out := []draw.Item{tyre.FillStroke(tone, pen), draw.Circle(p.X, p.Y, 0.62*r*k).FillStroke(rim, thin)}
	if c.Seen {
		out = append(out, draw.Circle(p.X, p.Y, 0.2*r*k).Stroke(thin))
	}
	return out
}

func stand(fr draw.Frame, x, z float64) draw.Path {
	return draw.Polyline(draw.Pt(x-110, 0), draw.Pt(x-40, z), draw.Pt(x+40, z), draw.Pt(x+110, 0)).
		MoveTo(x-80, z*0.45).LineTo(x+80, z*0.45).Map(fr).Stroke(draw.W2.Pen())
}
