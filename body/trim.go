package body

import "math"

// panes are where the side windows begin and end along the car [mm for a
// wheelbase of 2,540]; a far end beyond the roof ends where the roof comes down.
var panes = map[string][][2]float64{
	"saloon": {{0, 1505}, {1555, 9999}},
	"coupé":  {{0, 1760}, {1815, 9999}},
	"estate": {{0, 1500}, {1550, 2270}, {2330, 9999}},
	"hatch":  {{0, 1520}, {1570, 9999}},
	"pickup": {{0, 1470}},
	"van":    {{0, 1050}},
}

// Glass is the side windows between the pillars, closed: what lies between the
// waist and the roof less its rail.
func (o Outline) Glass() [][]Point {
	k, belt, rail := o.unit(), o.Waist.V, 0.055*o.Roof.V
	end := o.Tail.V - 0.1
	if o.Form == "estate" {
		end = o.Tail.V - 0.19*o.Roof.V
	}
	over := dots(o.Over, 24)
	var out [][]Point
	for _, c := range panes[o.Form] {
		x0, x1 := math.Max(c[0]*k, o.Nose.V), math.Min(c[1]*k, end)
		var top []Point
		for x := x0; x <= x1; x += 0.01 {
			if z := over.at(x) - rail; z > belt+0.002 {
				top = append(top, Point{x, z})
			} else if len(top) > 0 {
				break
			}
		}
		if len(top) < 10 {
			continue
		}
		foot := []Point{{top[0].X, belt}}
		pane := append(foot, thin(top, 0.0015)...)
		out = append(out, append(pane, Point{top[len(top)-1].X, belt}, foot[0]))
	}
	return out
}

// unit is a millimetre of the forms' drawings on this car [m].
func (o *Outline) unit() float64 { return o.Wheelbase.V / unitBase }

// line is a run of points.
type line []Point

// at is the highest place of the line over x; 0 where it does not reach.
func (l line) at(x float64) float64 {
	z := 0.0
	for i := 1; i < len(l); i++ {
		if p, q := l[i-1], l[i]; (p.X <= x) != (q.X <= x) {
			z = math.Max(z, p.Z+(x-p.X)/(q.X-p.X)*(q.Z-p.Z))
		}
	}
	return z
}

// thin drops the points that lie within tol [m] of the line without them
// (Ramer, Douglas and Peucker).
func thin(pts []Point, tol float64) []Point {
	if len(pts) < 3 {
		return pts
	}
	a, b := pts[0], pts[len(pts)-1]
	l := math.Hypot(b.X-a.X, b.Z-a.Z)
	far, at := 0.0, 0
	for i := 1; i < len(pts)-1; i++ {
		p := pts[i]
		d := math.Hypot(p.X-a.X, p.Z-a.Z)
		if l > 0 {
			d = math.Abs((b.X-a.X)*(p.Z-a.Z)-(b.Z-a.Z)*(p.X-a.X)) / l
		}
		if d > far {
			far, at = d, i
		}
	}
	if far <= tol {
		return []Point{a, b}
	}
	return append(thin(pts[:at+1], tol), thin(pts[at:], tol)[1:]...)
}

// Shuts are the shut lines, the waist's crease and, on an open car, its screen.
func (o Outline) Shuts() [][]Point {
	k, r, foot := o.unit(), o.Roof.V, 0.03*o.Roof.V
	over := dots(o.Over, 24)
	var out [][]Point
	add := func(pts ...Point) { out = append(out, pts) }
	down := func(x float64) {
		x *= k
		add(Point{x, o.Waist.V}, Point{x - 0.008, o.sillAt(x) + foot})
	}
	front := func(x float64) {
		x *= k
		z, s := math.Min(o.Waist.V, over.at(x)-0.02), o.sillAt(x)+foot
		add(Point{x, z}, Point{x - 0.03, math.Max(s, 0.30*r+0.06)}, Point{x + 0.01, s})
	}
	switch o.Form {
	case "van":
		front(430)
		down(1090)
	case "pickup":
		front(600)
		down(1500)
		add(Point{1590 * k, over.at(1700*k) - 0.02}, Point{1590 * k, o.sillAt(1590*k) + 0.04})
	case "coupé", "hatch":
		front(690)
		down(1800)
	case "open two-seater":
		front(930)
		down(1700)
		add(Point{800 * k, over.at(800 * k)}, Point{1030 * k, r}, Point{1062 * k, r}, Point{850 * k, over.at(850 * k)})
	default:
		front(655)
		down(1530)
		if o.Form == "saloon" {
			add(Point{2235 * k, o.Waist.V}, Point{2215 * k, o.Waist.V - 0.1*r}, Point{2180 * k, o.Waist.V - 0.15*r})
		}
	}
	z := math.Max(o.Hub[0].V+o.Arch[0].V, o.Hub[1].V+o.Arch[1].V) + 0.032
	if z < o.Waist.V-0.022 {
		out = append(out, o.crease(z))
	}
	return out
}

// crease is a level line along the flank, inside the outline.
func (o *Outline) crease(z float64) []Point {
	x0, x1 := o.Nose.V, o.Tail.V
	pts := dots(o.Over, 24)
	mid := 0.5 * o.Wheelbase.V
	for i := 1; i < len(pts); i++ {
		p, q := pts[i-1], pts[i]
		if (p.Z <= z) == (q.Z <= z) {
			continue
		}
		x := p.X + (z-p.Z)/(q.Z-p.Z)*(q.X-p.X)
		if x < mid {
			x0 = math.Max(x0, x)
		} else {
			x1 = math.Min(x1, x)
		}
	}
	return []Point{{x0 + 0.012, z}, {x1 - 0.02, z}}
}

// sillAt is the height of the sill at x [m].
func (o *Outline) sillAt(x float64) float64 {
	s := o.Sills
	for i := 1; i < len(s); i++ {
		if a, b := s[i-1], s[i]; x <= b.X && b.X > a.X {
			t := math.Max(0, (x-a.X)/(b.X-a.X))
			return a.Z + t*(b.Z-a.Z)
		}
	}
	return s[len(s)-1].Z
}

// Fittings are bumpers and lamps as closed boxes, enough to tell the ends apart.
func (o Outline) Fittings() [][]Point {
	r := o.Roof.V
	if o.Form == "van" || o.Form == "pickup" {
		r *= 0.8
	}
	z, n, t := 0.31*r, o.Nose.V, o.Tail.V
	box := func(x0, z0, x1, z1 float64) []Point {
		return []Point{{x0, z0}, {x1, z0}, {x1, z1}, {x0, z1}, {x0, z0}}
	}
	return [][]Point{
		box(n-0.012, z, n+0.15, z+0.045*r), box(t-0.15, z, t+0.010, z+0.045*r),
		box(n+0.010, 0.43*r, n+0.080, 0.49*r), box(t-0.084, 0.42*r, t-0.022, 0.52*r),
	}
}

// Handles are short strokes on the doors.
func (o Outline) Handles() [][]Point {
	k, z := o.unit(), o.Waist.V-0.075*o.Roof.V
	at := []float64{1600}
	switch o.Form {
	case "saloon", "estate":
		at = []float64{1370, 2060}
	case "pickup":
		at = []float64{1370}
	case "van":
		at = []float64{960}
	}
	var out [][]Point
	for _, x := range at {
		out = append(out, []Point{{x * k, z}, {x*k + 0.11, z}})
	}
	return out
}
