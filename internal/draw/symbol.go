package draw

import "math"

// Side is a side of a line as its walker sees it.
type Side int8

// The sides.
const (
	OnLeft  Side = 1
	OnRight Side = -1
)

// Arrowhead is a slim filled head, three times as long as wide, with its tip at tip, pointing in the direction deg [°].
func Arrowhead(st Style, tip Point, deg float64) Path {
	l := st.Arrow
	back := tip.Polar(-l, deg)
	return Polygon(tip, back.Polar(l/6, deg+90), back.Polar(l/6, deg-90)).Fill(Ink)
}

// Arrow is a thin line from a to b with a head at b, in the role.
func Arrow(st Style, a, b Point, r Role) Group {
	deg := heading(a, b)
	end := b
	if a.Dist(b) > st.Arrow {
		end = b.Polar(-st.Arrow/2, deg)
	}
	return G(Polyline(a, end).Stroke(W1.Pen().In(r)), Arrowhead(st, b, deg).WithTone(r))
}

// heading is the direction from a to b [°], anticlockwise as seen.
func heading(a, b Point) float64 { return math.Atan2(-(b.Y-a.Y), b.X-a.X) * 180 / math.Pi }

// IBar is the bar of a ± from a to b: a medium line with a stop across each end.
func IBar(st Style, a, b Point) Path {
	h, deg := st.Tick*0.85, heading(a, b)
	if a == b {
		deg = 0
	}
	o := Polyline(a, b)
	for _, p := range []Point{a, b} {
		l, r := p.Polar(h, deg+90), p.Polar(h, deg-90)
		o = o.MoveTo(l.X, l.Y).LineTo(r.X, r.Y)
	}
	return o.Stroke(W2.Pen())
}

// Dot is a filled dot: a reading, or where a leader ends.
func Dot(st Style, x, y float64) Path { return Circle(x, y, st.Arrow*0.27).Fill(Ink) }

// Reading is a dot with the bar of its ±, upright from y−d to y+d [mm].
func Reading(st Style, x, y, d float64) Group {
	return G(IBar(st, Pt(x, y-d), Pt(x, y+d)), Circle(x, y, st.Arrow*0.34).Fill(Ink))
}

// Leader is a thin line through the points with a dot at the first.
func Leader(st Style, pts ...Point) Group {
	if len(pts) == 0 {
		return Group{}
	}
	return G(Polyline(pts...).Stroke(W1.Pen()), Dot(st, pts[0].X, pts[0].Y))
}

// Balloon is a numbered ring centred at x, y. Its radius is Style.Disc.
func Balloon(st Style, x, y float64, label string) Group {
	return G(Circle(x, y, st.Disc).FillStroke(Paper, W2.Pen()), st.Text(Bold, x, y, label, Middle).At(Mid)).WithClass("balloon")
}

// Ticks are strokes at 45° on one side of a run of points, Style.Tick apart, length [mm] each, leaning back along the run.
func Ticks(st Style, pts []Point, side Side, length float64) Outline {
	var out Outline
	if !(st.Tick > 0) {
		return out
	}
	next := math.Max(st.Tick/2, length*math.Sqrt2/2) // the first one leans back to the run's beginning, not past it
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		l := a.Dist(b)
		if l == 0 || math.IsInf(l, 0) || math.IsNaN(l) || l/st.Tick > mostHatchLines {
			continue
		}
		back := heading(a, b) + float64(side)*135
		for ; next <= l; next += st.Tick {
			p := a.To(b, next/l)
			q := p.Polar(length, back)
			out = out.MoveTo(p.X, p.Y).LineTo(q.X, q.Y)
		}
		next -= l
	}
	return out
}

// LimitLine is a medium line through the points, hatched on the forbidden side.
func LimitLine(st Style, pts []Point, forbidden Side) Group {
	return G(Ticks(st, pts, forbidden, st.Tick*1.25).Stroke(W1.Pen()), Polyline(pts...).Stroke(W2.Pen())).WithClass("limit")
}

// FloorLine is a wide line from x0 to x1 at y with ticks at 45° below it.
func FloorLine(st Style, x0, x1, y float64) Group {
	pts := []Point{{x0, y}, {x1, y}}
	under := []Point{{x0, y + st.Tick*0.25}, {x1, y + st.Tick*0.25}}
	side := OnRight
	if x1 < x0 {
		side = OnLeft
	}
	return G(Ticks(st, under, side, st.Tick*1.25).Stroke(W1.Pen().In(Rule)), Polyline(pts...).Stroke(W3.Pen()))
}

// Triangle is a filled triangle with its tip at x, y and its body in the direction deg [°]: 90 stands on a line like a datum,
// 0 points at a line from its right like a pointer.
func Triangle(st Style, x, y, deg float64, r Role) Path {
	l := st.Arrow * 0.95
	tip := Pt(x, y)
	back := tip.Polar(l, deg)
	return Polygon(tip, back.Polar(l*0.58, deg+90), back.Polar(l*0.58, deg-90)).Fill(r)
}

// Break is a thin line from a to b with a zigzag in its middle: the part goes on.
func Break(st Style, a, b Point) Path {
	deg, l := heading(a, b), st.Tick
	m := a.To(b, 0.5)
	return Polyline(a, m.Polar(-l/2, deg), m.Polar(-l/6, deg).Polar(l, deg+90), m.Polar(l/6, deg).Polar(-l, deg+90), m.Polar(l/2, deg), b).Stroke(W1.Pen())
}

// upright turns a direction of a line so that lettering along it reads from below or from the right [°].
func upright(deg float64) float64 {
	deg = math.Mod(deg+720, 180)
	if deg > 90+1e-6 {
		deg -= 180
	}
	return deg
}

// Dimension is the distance from a to b as ISO 129 draws it: extension lines with a gap, a thin line off [mm] to the left of
// the walker from a to b (negative is to the right), slim filled heads, the label above the line. When there is no room
// between the extension lines, the heads stand outside and the label beyond b.
func Dimension(st Style, a, b Point, off float64, label string) Group {
	deg, l := heading(a, b), a.Dist(b)
	p, q := a.Polar(off, deg+90), b.Polar(off, deg+90)
	gap, past := PX(4), PX(5)
	g := Group{Class: "dim"}
	for _, e := range [][2]Point{{a, p}, {b, q}} {
		if d := math.Abs(off); d > gap {
			sign := off / d
			s, t := e[0].Polar(sign*gap, deg+90), e[1].Polar(sign*past, deg+90)
			g.Add(Polyline(s, t).Stroke(W1.Pen()))
		}
	}
	text := st.Text(Body, 0, 0, label, Middle)
	w, lift := text.Width(), st.Size[Body]*0.28
	up := upright(deg)
	place := func(c Point) Item {
		c = c.Polar(lift, up+90)
		text.X, text.Y, text.Angle = c.X, c.Y, up
		return text
	}
	if l >= 2.6*st.Arrow && l >= w+1 {
		g.Add(Polyline(p.Polar(st.Arrow/2, deg), q.Polar(-st.Arrow/2, deg)).Stroke(W1.Pen()))
		g.Add(Arrowhead(st, p, deg+180), Arrowhead(st, q, deg), place(p.To(q, 0.5)))
		return g
	}
	tail := 2 * st.Arrow
	out := tail + w + lift
	if l >= w+1 { // room for the label, not for the heads
		out = tail
		g.Add(place(p.To(q, 0.5)))
	} else {
		g.Add(place(q.Polar(tail+w/2, deg)))
	}
	g.Add(Polyline(p.Polar(-tail, deg), q.Polar(out, deg)).Stroke(W1.Pen()))
	g.Add(Arrowhead(st, p, deg), Arrowhead(st, q, deg+180))
	return g
}

// Band is the closed outline between two runs of points that begin on the same side: a doubt round a curve.
func Band(upper, lower []Point) Outline {
	pts := append([]Point(nil), upper...)
	for i := len(lower) - 1; i >= 0; i-- {
		pts = append(pts, lower[i])
	}
	return Polygon(pts...)
}
