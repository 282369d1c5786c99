package figure

import (
	"math"
	"slices"

	"jounce/internal/draw"
)

// shell is a car's shape from the left in millimetres: x rearwards from the front axle, z up from the floor, at ROAD.
// The stations are invented, one run for each form, scaled from wheelbase, overhangs, roof and sill; no car was traced.
type shell struct {
	form       string
	wb         float64    // wheelbase
	nose, tail float64    // x of the foremost and the rearmost point
	roof, sill float64    // z
	hub, arch  [2]float64 // z of the hub, radius of the arch about it
	belt       float64    // z of the waist, where the glass begins
	mid        float64    // z of the shut lines' bend
	pts        []station
}

// station is a corner of the outline and how far it is rounded [mm].
type station struct{ x, z, r float64 }

// proportions of a form where the car is not measured, in millimetres for a wheelbase of 2,540 (common practice).
type proportion struct{ front, rear, roof float64 }

var proportions = map[string]proportion{
	"saloon":          {690, 900, 1370},
	"coupé":           {700, 860, 1290},
	"estate":          {700, 980, 1420},
	"hatch":           {680, 620, 1400},
	"pickup":          {720, 1080, 1640},
	"van":             {760, 1020, 1980},
	"open two-seater": {640, 780, 1190},
}

// proportionOf is the proportion of the form; a form that is not known counts as a saloon.
func proportionOf(form string) proportion {
	if p, ok := proportions[form]; ok {
		return p
	}
	return proportions["saloon"]
}

// newBody lays out the stations.
func newBody(form string, wb, front, rear, roof, sill float64, hub, arch [2]float64) shell {
	b := shell{form: form, wb: wb, nose: -front, tail: wb + rear, roof: roof, sill: sill, hub: hub, arch: arch}
	k, r := wb/2540, roof
	// The body must close over the arches whatever is typed.
	over := math.Max(hub[0]+arch[0], hub[1]+arch[1]) + 45
	deck := func(share float64) float64 { return math.Max(share*r, over) }
	n, t := b.nose, b.tail
	lip := math.Max(0.6*sill+80, 0.13*r)
	head := []station{{n + 62, lip, 60}, {n + 6, 0.375 * r, 80}, {n, math.Max(0.49*r, over-150), 40}, {n + 52, math.Max(0.535*r, over-60), 60}}
	foot := []station{{t - 44, 0.38 * r, 80}, {t - 112, lip + 40, 40}}
	scuttle := station{640 * k, deck(0.628), 50}
	var top []station
	switch form {
	case "coupé":
		top = []station{{720 * k, deck(0.66), 50}, {1180 * k, r - 52, 150}, {1560 * k, r, 200}, {1940 * k, r - 40, 300}, {t - 420*k, 0.70 * r, 200}, {t - 80, deck(0.64), 60}, {t, 0.56 * r, 60}}
		scuttle.x = 720 * k
	case "estate":
		top = []station{scuttle, {1062 * k, r - 58, 150}, {1500 * k, r, 200}, {t - 300*k, r - 34, 140}, {t - 66, deck(0.66), 80}, {t, 0.56 * r, 60}}
	case "hatch":
		top = []station{scuttle, {1092 * k, r - 58, 150}, {1500 * k, r, 200}, {t - 560*k, r - 44, 180}, {t - 70, deck(0.65), 70}, {t, 0.55 * r, 60}}
	case "pickup":
		top = []station{{560 * k, deck(0.62), 50}, {900 * k, r - 60, 120}, {1180 * k, r, 120}, {1500 * k, r - 24, 80}, {1590 * k, deck(0.585), 30}, {t - 10, deck(0.585), 20}}
		foot = []station{{t - 14, 0.28 * r, 30}, {t - 60, lip + 60, 30}}
	case "van":
		head[3] = station{n + 70, math.Max(0.44*r, over-60), 60}
		head[2] = station{n, math.Max(0.40*r, over-150), 40}
		head[1].z = 0.30 * r
		top = []station{{150 * k, deck(0.53), 60}, {620 * k, r - 120, 160}, {980 * k, r, 220}, {t - 40, r - 26, 70}, {t, 0.62 * r, 60}}
		foot = []station{{t - 6, 0.3 * r, 40}, {t - 70, lip + 40, 30}}
	case "open two-seater":
		d := deck(0.68)
		top = []station{{860 * k, d, 40}, {1080 * k, d - 70, 90}, {1640 * k, d - 80, 90}, {1800 * k, d + 6, 70}, {t - 110, math.Max(d-50, over-20), 80}, {t - 6, 0.56 * r, 60}}
		scuttle.x, scuttle.z = 860*k, d
	default:
		top = []station{scuttle, {1092 * k, r - 62, 150}, {1560 * k, r, 200}, {2110 * k, r - 52, 220}, {math.Min(2560*k, t-300), math.Max(r-442, over), 140}, {t - 90, deck(0.625), 80}, {t - 8, 0.57 * r, 40}}
	}
	b.pts = slices.Concat(head, top, foot)
	b.belt = math.Max(scuttle.z+0.02*r, over+20)
	if form == "van" {
		b.belt = deck(0.53)
	}
	b.mid = 0.30 * r
	return b
}

// at brings x, z onto a point of the model; the model's y is z.
func xz(x, z float64) draw.Point { return draw.Pt(x, z) }

// roundOff is the run through the corners, each cut by a cubic; a corner never takes more than half of its shorter side.
func roundOff(pts []station) draw.Outline {
	if len(pts) < 2 {
		return nil
	}
	o := draw.Begin(pts[0].x, pts[0].z)
	for i := 1; i < len(pts)-1; i++ {
		p, a, c := xz(pts[i].x, pts[i].z), xz(pts[i-1].x, pts[i-1].z), xz(pts[i+1].x, pts[i+1].z)
		la, lc := p.Dist(a), p.Dist(c)
		r := math.Min(pts[i].r, math.Min(la, lc)*0.49)
		if la == 0 || lc == 0 || r <= 0 {
			o = o.LineTo(p.X, p.Y)
			continue
		}
		s, e := p.To(a, r/la), p.To(c, r/lc)
		c1, c2 := s.To(p, 0.62), e.To(p, 0.62)
		o = o.LineTo(s.X, s.Y).CurveTo(c1.X, c1.Y, c2.X, c2.Y, e.X, e.Y)
	}
	last := pts[len(pts)-1]
	return o.LineTo(last.x, last.z)
}

// feet are the places where the arch of an axle meets a level below it [mm], clear of the hub.
func (b shell) feet(axle int, z float64) (x0, x1, at float64) {
	r, hub := b.arch[axle], b.hub[axle]
	z = math.Max(math.Min(z, hub+0.5*r), hub-0.98*r)
	d := math.Sqrt(math.Max(0, r*r-(hub-z)*(hub-z)))
	x := float64(axle) * b.wb
	return x - d, x + d, z
}

// upper is the outline from the foot before the front arch over the roof to the foot behind the rear arch, open.
func (b shell) upper() draw.Outline {
	f0, _, fz := b.feet(0, b.pts[0].z)
	last := b.pts[len(b.pts)-1]
	_, r1, rz := b.feet(1, last.z)
	first := b.pts[0]
	pts := slices.Concat([]station{{math.Max(f0, b.nose+70), fz, 0}, {first.x, fz, first.r}}, b.pts[1:len(b.pts)-1], []station{{last.x, rz, last.r}, {math.Min(r1, b.tail-70), rz, 0}})
	return roundOff(pts)
}

// crest is the upper outline between nose and tail, for the extreme positions.
func (b shell) crest() draw.Outline { return roundOff(b.pts[1 : len(b.pts)-1]) }

// peak is where the highest station stands, for the names of the extreme positions [mm].
func (b shell) peak() float64 {
	if b.form == "open two-seater" {
		return 0.78 * b.wb
	}
	top := b.pts[0]
	for _, p := range b.pts {
		if p.z > top.z {
			top = p
		}
	}
	return top.x
}

// archLine is the edge of an arch from one foot to the other as a run of points, from the front.
func (b shell) archLine(axle int) []draw.Point {
	zf, zr := b.sill, b.sill
	if axle == 0 {
		zf = b.pts[0].z
	} else {
		zr = b.pts[len(b.pts)-1].z
	}
	x0, _, za := b.feet(axle, zf)
	_, x1, zb := b.feet(axle, zr)
	cx, cz, r := float64(axle)*b.wb, b.hub[axle], b.arch[axle]
	a0, a1 := math.Atan2(za-cz, x0-cx), math.Atan2(zb-cz, x1-cx)
	if a0 < 0 {
		a0 += 2 * math.Pi
	}
	var out []draw.Point
	for i := range 41 {
		s, c := math.Sincos(a0 + (a1-a0)*float64(i)/40)
		out = append(out, xz(cx+r*c, cz+r*s))
	}
	return out
}

// sillLine is the sill between the arches.
func (b shell) sillLine() draw.Outline {
	_, x0, z0 := b.feet(0, b.sill)
	x1, _, z1 := b.feet(1, b.sill)
	return draw.Line(x0, z0, x1, z1)
}

// closed is the whole outline for its tone.
func (b shell) closed() draw.Outline {
	o := b.upper()
	rear, front := b.archLine(1), b.archLine(0)
	for i := len(rear) - 1; i >= 0; i-- {
		o = o.LineTo(rear[i].X, rear[i].Y)
	}
	for i := len(front) - 1; i >= 0; i-- {
		o = o.LineTo(front[i].X, front[i].Y)
	}
	return o.Close()
}

// topAt is the height of the outline over x [mm].
func (b shell) topAt(x float64) float64 {
	z := 0.0
	for _, run := range b.upper().Flatten(2) {
		for i := 1; i < len(run); i++ {
			p, q := run[i-1], run[i]
			if (p.X <= x) != (q.X <= x) {
				z = math.Max(z, p.Y+(x-p.X)/(q.X-p.X)*(q.Y-p.Y))
			}
		}
	}
	return z
}

// glass is the side windows between the pillars: what lies between the waist and the roof less its rail.
func (b shell) glass() []draw.Outline {
	k := b.wb / 2540
	var cuts [][2]float64
	switch b.form {
	case "coupé":
		cuts = [][2]float64{{0, 1760 * k}, {1815 * k, b.tail}}
	case "estate":
		cuts = [][2]float64{{0, 1500 * k}, {1550 * k, 2270 * k}, {2330 * k, b.tail - 150}}
	case "hatch":
		cuts = [][2]float64{{0, 1520 * k}, {1570 * k, b.tail}}
	case "pickup":
		cuts = [][2]float64{{0, 1470 * k}}
	case "van":
		cuts = [][2]float64{{0, 1050 * k}}
	case "open two-seater":
		return nil
	default:
		cuts = [][2]float64{{0, 1505 * k}, {1555 * k, b.tail}}
	}
	rail, belt := 0.055*b.roof, b.belt
	var out []draw.Outline
	for _, c := range cuts {
		var top []draw.Point
		for x := math.Max(c[0], b.nose); x <= c[1]; x += 12 {
			if z := b.topAt(x) - rail; z > belt+2 {
				top = append(top, xz(x, z))
			} else if len(top) > 0 {
				break
			}
		}
		if len(top) < 8 {
			continue
		}
		pts := append([]draw.Point{xz(top[0].X, belt)}, top...)
		out = append(out, draw.Polygon(append(pts, xz(top[len(top)-1].X, belt))...))
	}
	return out
}

// shuts are the shut lines, the waist and, on an open car, its windscreen.
func (b shell) shuts() draw.Outline {
	k := b.wb / 2540
	var o draw.Outline
	down := func(x float64) {
		o = o.MoveTo(x, b.belt).LineTo(x-8, b.sill+0.03*b.roof)
	}
	front := func(x float64) {
		z := math.Min(b.belt, b.topAt(x)-20)
		o = o.MoveTo(x, z).LineTo(x-30, b.mid+60).LineTo(x+10, b.sill+0.03*b.roof)
	}
	switch b.form {
	case "van":
		front(430 * k)
		down(1090 * k)
	case "pickup":
		front(600 * k)
		down(1500 * k)
		o = o.MoveTo(1590*k, b.topAt(1700*k)-20).LineTo(1590*k, b.sill+40)
	case "coupé", "hatch":
		front(690 * k)
		down(1800 * k)
	case "open two-seater":
		front(930 * k)
		down(1700 * k)
		o = o.MoveTo(800*k, b.topAt(800*k)).LineTo(1030*k, b.roof).LineTo(1062*k, b.roof).LineTo(850*k, b.topAt(850*k))
	default:
		front(655 * k)
		down(1530 * k)
		_, r, _ := b.feet(1, b.sill)
		if x := 2 * b.wb; r < x && b.form != "estate" {
			o = o.MoveTo(2235*k, b.belt).LineTo(2215*k, b.belt-0.1*b.roof).LineTo(2180*k, b.belt-0.15*b.roof)
		}
	}
	if z := math.Max(b.hub[0]+b.arch[0], b.hub[1]+b.arch[1]) + 42; z < b.belt-12 {
		o = o.MoveTo(b.nose+12, z-10).LineTo(b.tail-26, z-10)
	}
	return o
}

// fittings are bumpers, lamps and handles, enough to tell the ends apart.
func (b shell) fittings() draw.Outline {
	r := b.roof
	if b.form == "van" || b.form == "pickup" {
		r *= 0.8
	}
	z := 0.31 * r
	box := func(x0, z0, x1, z1 float64) draw.Outline { return draw.Rect(x0, z0, x1-x0, z1-z0) }
	o := box(b.nose-12, z, b.nose+150, z+0.045*r)
	o = o.And(box(b.tail-150, z, b.tail+10, z+0.045*r))
	o = o.And(box(b.nose+10, 0.43*r, b.nose+80, 0.49*r))
	return o.And(box(b.tail-84, 0.42*r, b.tail-22, 0.52*r))
}

// handles are short strokes on the doors.
func (b shell) handles() draw.Outline {
	k, z := b.wb/2540, b.belt-0.075*b.roof
	at := []float64{1370}
	switch b.form {
	case "saloon", "estate", "":
		at = []float64{1370, 2060}
	case "coupé", "hatch", "open two-seater":
		at = []float64{1600}
	case "van":
		at = []float64{960}
	}
	var o draw.Outline
	for _, x := range at {
		o = o.MoveTo(x*k, z).LineTo(x*k+110, z)
	}
	return o
}
