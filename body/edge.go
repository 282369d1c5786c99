package body

import "math"

// feet are the places where an arch meets a level [m]: its front and rear foot,
// and the level brought to where the arch reaches.
func (o *Outline) feet(axle int, z float64) (x0, x1, at float64) {
	r, hub := o.Arch[axle].V, o.Hub[axle].V
	x := float64(axle) * o.Wheelbase.V
	z = math.Max(math.Min(z, hub+0.5*r), hub-0.98*r)
	if o.ArchShape[axle] != "round" {
		h := o.archHalf(axle)
		return x - h, x + h, z
	}
	d := math.Sqrt(math.Max(0, r*r-(hub-z)*(hub-z)))
	return x - d, x + d, z
}

// archFeet are the feet of an arch as the lower edges beside it have them.
func (o *Outline) archFeet(axle int) (front, rear Point) {
	zf, zr := o.Sills[2].Z, o.Sills[0].Z
	if axle == 0 {
		zf = o.Stations[0].Z
	} else {
		zr = o.Stations[len(o.Stations)-1].Z
	}
	x0, _, za := o.feet(axle, zf)
	_, x1, zb := o.feet(axle, zr)
	return Point{x0, za}, Point{x1, zb}
}

// ArchEdge is the edge of the opening over a wheel from its front foot to its
// rear foot; axle 0 is the front. A covered wheel has none: its edge is straight.
func (o Outline) ArchEdge(axle int) []Segment {
	a, b := o.archFeet(axle)
	var out []Segment
	switch o.ArchShape[axle] {
	case "covered":
		out = []Segment{straight(a, b)}
	case "flat":
		out = o.flatArch(axle, a, b)
	default:
		out = o.roundArch(axle, a, b)
	}
	name := [2]string{"front arch", "rear arch"}[axle]
	for i := range out {
		out[i].From, out[i].To = name, name
		firm := o.Arch[axle].Known && o.ArchShape[axle] != "covered" // a cover's lower edge is not what was read
		out[i].FirmA, out[i].FirmD = firm, firm
	}
	return out
}

// Opening is the shape of an arch's opening as ArchEdge would have it were the
// wheel not covered: the line along which a cover sits.
func (o Outline) Opening(axle int) []Segment {
	if o.ArchShape[axle] != "covered" {
		return o.ArchEdge(axle)
	}
	a, b := o.archFeet(axle)
	return o.flatArch(axle, a, b)
}

// roundArch is an arc about the hub, in cubics of at most 45°; they stray from it
// by less than 5e-6 of the radius.
func (o *Outline) roundArch(axle int, a, b Point) []Segment {
	cx, cz, r := float64(axle)*o.Wheelbase.V, o.Hub[axle].V, o.Arch[axle].V
	a0, a1 := math.Atan2(a.Z-cz, a.X-cx), math.Atan2(b.Z-cz, b.X-cx)
	if a0 <= 0 {
		a0 += 2 * math.Pi
	}
	n := max(1, int(math.Ceil(math.Abs(a0-a1)/(math.Pi/4)-1e-9)))
	step := (a1 - a0) / float64(n)
	h := 4.0 / 3 * math.Tan(step/4) * r
	at := func(w float64) (p, t Point) {
		s, c := math.Sincos(w)
		return Point{cx + r*c, cz + r*s}, Point{-s, c}
	}
	var out []Segment
	for i := range n {
		p, tp := at(a0 + float64(i)*step)
		q, tq := at(a0 + float64(i+1)*step)
		if i == 0 {
			p = a
		}
		if i == n-1 {
			q = b
		}
		out = append(out, Segment{A: p, B: Point{p.X + h*tp.X, p.Z + h*tp.Z}, C: Point{q.X - h*tq.X, q.Z - h*tq.Z}, D: q})
	}
	return out
}

// flatArch is an opening with a level top and rounded corners.
func (o *Outline) flatArch(axle int, a, b Point) []Segment {
	top, x, h := o.Hub[axle].V+o.Arch[axle].V, float64(axle)*o.Wheelbase.V, o.archHalf(axle)
	c := 0.42 * h
	side := func(p Point, way float64) (low, high Point) {
		return Point{x + way*h*0.97, math.Max(p.Z, top-1.25*c)}, Point{x + way*(h-c), top}
	}
	l0, h0 := side(a, -1)
	l1, h1 := side(b, 1)
	turn := func(low, high Point) Segment {
		return Segment{A: low, B: Point{low.X, low.Z + 0.6*(high.Z-low.Z)}, C: Point{high.X - 0.6*(high.X-low.X), high.Z}, D: high}
	}
	return []Segment{straight(a, l0), turn(l0, h0), straight(h0, h1), turn(l1, h1).Reversed(), straight(l1, b)}
}

// SillEdge is the lower edge between the arches, from front to rear.
func (o Outline) SillEdge() []Segment {
	_, a := o.archFeet(0)
	b, _ := o.archFeet(1)
	s := o.Sills
	mid := Point{s[1].X, s[1].Z}
	out := []Segment{straight(a, mid), straight(mid, b)}
	for i := range out {
		out[i].From, out[i].To = s[i].Label, s[i+1].Label
		out[i].FirmA, out[i].FirmD = s[i].KnownZ, s[i+1].KnownZ
	}
	return out
}

// Edge is the whole outline in order, closed: from the front arch forward, over
// the roof and back under the sill.
func (o Outline) Edge() []Segment {
	front, _ := o.archFeet(0)
	_, rear := o.archFeet(1)
	first, last := o.Stations[0], o.Stations[len(o.Stations)-1]
	lower := func(a, b Point, name string, known bool) Segment {
		s := straight(a, b)
		s.From, s.To, s.FirmA, s.FirmD = name, name, known, known
		return s
	}
	out := []Segment{lower(front, first.at(), "lower edge of the nose", first.KnownZ)}
	out = append(out, o.Over...)
	out = append(out, lower(last.at(), rear, "lower edge of the tail", last.KnownZ))
	back := func(list []Segment) {
		for i := len(list) - 1; i >= 0; i-- {
			out = append(out, list[i].Reversed())
		}
	}
	back(o.ArchEdge(1))
	back(o.SillEdge())
	back(o.ArchEdge(0))
	return out
}

// Top is the height of the outline over x [m]; false before the nose and behind
// the tail.
func (o Outline) Top(x float64) (z float64, ok bool) { return reach(o.Edge(), x, math.Max) }

// Bottom is the height of the lower edge over x [m], in an arch that of the arch;
// false before the nose and behind the tail.
func (o Outline) Bottom(x float64) (z float64, ok bool) { return reach(o.Edge(), x, math.Min) }

// reach is the highest or the lowest place where the curves stand over x.
func reach(list []Segment, x float64, better func(a, b float64) float64) (z float64, ok bool) {
	for _, s := range list {
		lo, hi := math.Min(math.Min(s.A.X, s.B.X), math.Min(s.C.X, s.D.X)), math.Max(math.Max(s.A.X, s.B.X), math.Max(s.C.X, s.D.X))
		if !(x >= lo-1e-12 && x <= hi+1e-12) {
			continue
		}
		for _, t := range crossings(s, x) {
			v := s.At(t).Z
			if ok {
				v = better(z, v)
			}
			z, ok = v, true
		}
	}
	return z, ok
}

// crossings are the parameters at which a curve stands over x, found between
// steps of a sixteenth by halving; their error is under 1e-9 of the curve.
func crossings(s Segment, x float64) []float64 {
	var out []float64
	const n = 16
	for i := range n {
		a, b := float64(i)/n, float64(i+1)/n
		fa, fb := s.At(a).X-x, s.At(b).X-x
		switch {
		case fa == 0:
			out = append(out, a)
			continue
		case i == n-1 && fb == 0:
			out = append(out, b)
			continue
		case fa*fb > 0:
			continue
		}
		for range 34 {
			m := (a + b) / 2
			if f := s.At(m).X - x; f*fa > 0 {
				a = m
			} else {
				b = m
			}
		}
		out = append(out, (a+b)/2)
	}
	return out
}

// dots is the curves as points, n steps a curve.
func dots(list []Segment, n int) line {
	if len(list) == 0 {
		return nil
	}
	out := make(line, 1, 1+n*len(list))
	out[0] = list[0].A
	for _, s := range list {
		for i := 1; i <= n; i++ {
			out = append(out, s.At(float64(i)/float64(n)))
		}
	}
	return out
}
