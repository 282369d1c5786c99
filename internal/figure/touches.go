package figure

import (
	"math"
	"strconv"
	"strings"

	"jounce/internal/draw"
)

// SideTouch is a place where something meets something, with its rank on the way down.
type SideTouch struct {
	No      int     // its place in the list that the page has; scripts know it by that
	ID      string  // "sump"; "lowest" stands for the lowest part
	Rank    int     // 1 touches first; 0 never does, and is not drawn
	Name    string  // "sump"
	At      string  // how far below ROAD: "121 ± 2"
	Half    float64 // its ± [m]
	X, Z    float64 // behind the front hub, over the floor at ROAD [m]
	Y       float64 // left of the middle [m]; in the plan and the end views
	Body    bool    // it moves with the body; otherwise it stays with the wheel
	Assumed bool    // its place is assumed
}

// pin is a balloon on its way to its place. Its box goes from its ring's left to its lettering's right.
type pin struct {
	t     SideTouch
	dot   draw.Point // [mm] at ROAD
	lines []string   // the name, broken
	wide  float64    // [mm] of the lettering; 0 is none
	high  float64    // [mm] of the lettering over and under the ring's middle
	deep  float64
	c     draw.Point // the ring's middle
	left  bool       // the lettering stands left of the ring
}

// plainPin is the ring alone.
func (p pin) plainPin() pin { p.lines, p.wide, p.high, p.deep = nil, 0, 0, 0; return p }

// box is what the balloon takes with its ring's middle at c [mm].
func (p pin) box(st draw.Style, c draw.Point) draw.Box {
	r := st.Disc + lettered(st, 2)
	b := draw.Box{X0: c.X - r, Y0: c.Y - math.Max(r, p.high), X1: c.X + r, Y1: c.Y + math.Max(r, p.deep)}
	if w := st.Disc + lettered(st, 5) + p.wide; p.wide > 0 && p.left {
		b.X0 = c.X - w
	} else if p.wide > 0 {
		b.X1 = c.X + w
	}
	return b
}

// lettering is the box of the words alone.
func (p pin) lettering(st draw.Style, c draw.Point) draw.Box {
	b := p.box(st, c)
	if p.left {
		b.X1 = c.X - st.Disc - lettered(st, 2)
	} else {
		b.X0 = c.X + st.Disc + lettered(st, 2)
	}
	return b
}

// pinOf measures a balloon's lettering.
func (f *sideFigure) pinOf(t SideTouch) pin {
	p := pin{t: t, dot: f.f.Pt(1000*t.X, 1000*t.Z)}
	size, line := f.st.Size[draw.Body], 1.12*f.st.Size[draw.Body]
	p.lines = draw.Wrap(f.st.Face(draw.Body), t.Name, size, lettered(f.st, 116))
	if len(p.lines) > 2 {
		p.lines = p.lines[:2]
	}
	for _, l := range p.lines {
		p.wide = math.Max(p.wide, f.st.Len(draw.Body, l))
	}
	p.wide = math.Max(p.wide, math.Max(f.st.Len(draw.Bold, t.At), 2000*f.bar(t)))
	p.high, p.deep = line*float64(len(p.lines))+0.1*line, 1.15*line
	if f.bar(t) > 0 {
		p.deep += lettered(f.st, 12)
	}
	return p
}

// bar is half the length of the ± bar, at true size [m]; 0 where there is none.
func (f *sideFigure) bar(t SideTouch) float64 {
	if !(t.Half > 0) || t.Half > 0.015 {
		return 0
	}
	return t.Half
}

// balloons draws the touch points: a dot on the part, a leader, a ring with the rank; on wide pictures beside it the name,
// where it touches and the ± at true size.
func (f *sideFigure) balloons() {
	var pins []pin
	for _, t := range f.s.Touches {
		if t.Rank > 0 && !math.IsNaN(t.X+t.Z) && math.Abs(t.X) < 20 && math.Abs(t.Z) < 20 {
			pins = append(pins, f.pinOf(t))
		}
	}
	if len(pins) == 0 {
		return
	}
	p := f.newPlacer(pins)
	body, still := draw.Group{}, draw.Group{}
	for i := range pins {
		p.place(&pins[i])
	}
	for _, q := range pins {
		if q.t.Rank == 0 {
			continue
		}
		if g := f.balloon(q); q.t.Body {
			body.Add(g)
		} else {
			still.Add(g)
		}
	}
	if len(still.Items) > 0 {
		f.Add(still)
	}
	if len(body.Items) > 0 {
		f.Add(f.moving(body))
	}
}

// balloon is one of them, drawn.
func (f *sideFigure) balloon(p pin) draw.Group {
	st := f.st
	g := draw.Group{ID: "t" + strconv.Itoa(p.t.Rank), Class: "touch", Title: p.t.Name + ", touches at " + p.t.At + " below ROAD"}
	rim := p.c.To(p.dot, math.Min(1, st.Disc/math.Max(p.c.Dist(p.dot), 1e-6)))
	g.Add(draw.Leader(st, p.dot, rim), draw.Balloon(st, p.c.X, p.c.Y, strconv.Itoa(p.t.Rank)))
	if p.wide > 0 {
		x, size, way, anchor := p.c.X+st.Disc+lettered(st, 5), st.Size[draw.Body], 1.0, draw.Start
		if p.left {
			x, way, anchor = p.c.X-st.Disc-lettered(st, 5), -1, draw.End
		}
		line := 1.12 * size
		for i, l := range p.lines {
			g.Add(st.Text(draw.Body, x, p.c.Y-line*float64(len(p.lines)-1-i)-0.12*size, l, anchor).On(draw.Skin))
		}
		value, rest, _ := strings.Cut(p.t.At, " ")
		t := st.Text(draw.Body, x, p.c.Y+line-0.12*size, "", anchor).On(draw.Skin)
		if rest != "" {
			rest = " " + rest
		}
		g.Add(t.Value(value, rest))
		if b := 1000 * f.bar(p.t); b > 0 {
			y := p.c.Y + line + lettered(st, 7)
			g.Add(draw.IBar(st, draw.Pt(x, y), draw.Pt(x+way*2*b, y)))
			f.bars = true
		}
	}
	return g.WithData("touch", strconv.Itoa(p.t.No))
}

// placer finds places for balloons.
type placer struct {
	f      *sideFigure
	step   float64
	sky    []float64 // y above which a column is clear of the body in its highest position
	door   draw.Box  // the flank between the arches
	dots   []draw.Point
	placed []pin
}

func (f *sideFigure) newPlacer(pins []pin) *placer {
	p := &placer{f: f, step: lettered(f.st, 9)}
	for _, q := range pins {
		p.dots = append(p.dots, q.dot)
	}
	high := [2]float64{math.Max(f.change(3, 0), f.now[0]), math.Max(f.change(3, 1), f.now[1])}
	for x := 0.0; x <= f.W; x += p.step {
		m := (x - f.f.X0) / f.f.SX
		y := f.f.Pt(0, f.b.hub[0]).Y
		if z := f.b.topAt(m); z > 0 {
			y = f.f.Pt(0, z+f.lift(high, m)).Y
		}
		p.sky = append(p.sky, y-lettered(f.st, 5))
	}
	feet := f.b.feet()
	a, b := f.f.Pt(feet[1], f.b.belt), f.f.Pt(feet[2], f.b.sill)
	p.door = draw.Box{X0: a.X + lettered(f.st, 6), Y0: a.Y + lettered(f.st, 5), X1: b.X - lettered(f.st, 6), Y1: b.Y - lettered(f.st, 5)}
	return p
}

// place puts a balloon where its leader is short and crosses little: beside the car first with its lettering, then without,
// at last wherever there is room. What crosses nothing is kept at once.
func (p *placer) place(q *pin) {
	right, left := *q, *q
	left.left = true
	tries := [][]pin{{right, left}, {q.plainPin()}, {q.plainPin()}}
	if p.f.narrow {
		tries = tries[1:]
	}
	under, clean := math.Inf(1), lettered(p.f.st, 240) // from there on a leader runs through something
	for i, list := range tries {
		last, cost := i == len(tries)-1, math.Inf(1)
		far := lettered(p.f.st, 190)
		if last {
			far = math.Inf(1)
		}
		got := *q
		for _, t := range list {
			if c, v := p.best(t, last, far); v < cost {
				t.c, cost = c, v
				got = t
			}
		}
		if cost < under-0.5*clean || math.IsInf(under, 1) {
			*q, under = got, cost
		}
		if under < clean || last && !math.IsInf(under, 1) {
			p.keep(*q)
			return
		}
	}
	*q = q.plainPin() // no room at all: its row of the list is left to say it
	q.t.Rank = 0
}

// keep remembers a placed balloon.
func (p *placer) keep(q pin) {
	p.placed = append(p.placed, q)
	p.f.take(p.moved(q, q.box(p.f.st, q.c)))
}

// moved is a box where it lies when the body stands as it is drawn.
func (p *placer) moved(q pin, b draw.Box) draw.Box {
	if !q.t.Body || p.f.atRoad() {
		return b
	}
	return p.f.turned(draw.Group{}, p.f.now).Matrix().Box(b)
}

// best is the place of least cost, and that cost, infinite where there is none, with a leader no longer than far [mm]; anywhere also lets it stand on the car.
func (p *placer) best(q pin, anywhere bool, far float64) (draw.Point, float64) {
	f := p.f
	best, cost := draw.Point{}, math.Inf(1)
	r := f.st.Disc + lettered(f.st, 3)
	for y := f.top + r; y < f.floor-r; y += p.step {
		for x := f.left + r; x < f.W-r; x += p.step {
			c := draw.Pt(x, y)
			d := c.Dist(q.dot)
			if d >= cost || d > far || d < f.st.Disc+lettered(f.st, 7) {
				continue
			}
			b := q.box(f.st, c)
			if !anywhere && !p.clear(b) || !p.open(q, b) {
				continue
			}
			if v := d + p.crossed(q, c); v < cost {
				best, cost = c, v
			}
		}
	}
	return best, cost
}

// clear tells that a box lies wholly above the car or wholly on its flank.
func (p *placer) clear(b draw.Box) bool {
	if d := p.door; b.X0 >= d.X0 && b.X1 <= d.X1 && b.Y0 >= d.Y0 && b.Y1 <= d.Y1 {
		return true
	}
	lo, hi := int(b.X0/p.step), int(b.X1/p.step)+1
	for i := max(lo, 0); i <= min(hi, len(p.sky)-1); i++ {
		if b.Y1 > p.sky[i] {
			return false
		}
	}
	return true
}

// open tells that a box lies on the picture, off other lettering and off the touch points.
func (p *placer) open(q pin, b draw.Box) bool {
	f := p.f
	m := p.moved(q, b)
	top, left := f.top, f.left
	if left > 0 { // off the line beside the zones' letters
		left += lettered(f.st, 2)
	}
	if f.st.Medium == draw.Print { // off the sheet's frame
		top += 4
	}
	if b.X0 < left || b.X1 > f.W || b.Y0 < top || m.Y0 < top || m.X0 < left || m.X1 > f.W || b.Y1 > f.floor || m.Y1 > f.floor {
		return false
	}
	side := lettered(f.st, 11) // words stand clear of what is on either side, and a ring of words
	if q.wide == 0 {
		side = lettered(f.st, 7)
	}
	aside := draw.Box{X0: m.X0 - side, Y0: m.Y0, X1: m.X1 + side, Y1: m.Y1}
	for _, o := range f.taken {
		if o.Overlaps(m, -lettered(f.st, 3)) || !f.narrow && o.Overlaps(aside, -lettered(f.st, 1)) {
			return false
		}
	}
	for _, d := range p.dots {
		if e := lettered(f.st, 4); d.X > b.X0-e && d.X < b.X1+e && d.Y > b.Y0-e && d.Y < b.Y1+e {
			return false
		}
	}
	return true
}

// crossed is what a leader costs that runs over lettering or other leaders [mm].
func (p *placer) crossed(q pin, c draw.Point) float64 {
	cost := 0.0
	if q.wide > 0 && hits(q.lettering(p.f.st, c), c, q.dot) { // under its own words
		cost += lettered(p.f.st, 240)
	}
	for _, d := range p.dots { // words right over another's place shut it in
		if q.wide > 0 && d != q.dot && hits(q.lettering(p.f.st, c), d, draw.Pt(d.X, d.Y-lettered(p.f.st, 60))) {
			cost += lettered(p.f.st, 100)
		}
	}
	for _, o := range p.placed {
		if hits(o.box(p.f.st, o.c), c, q.dot) {
			cost += lettered(p.f.st, 240)
		}
		if hits(q.box(p.f.st, c), o.c, o.dot) {
			cost += lettered(p.f.st, 240)
		}
		if crosses(c, q.dot, o.c, o.dot) {
			cost += lettered(p.f.st, 60)
		}
	}
	return cost
}

// hits tells that a straight line runs through a box.
func hits(b draw.Box, p, q draw.Point) bool {
	for i := range 25 {
		m := p.To(q, float64(i)/24)
		if m.X > b.X0 && m.X < b.X1 && m.Y > b.Y0 && m.Y < b.Y1 {
			return true
		}
	}
	return false
}

// crosses tells that two straight lines cross.
func crosses(a, b, c, d draw.Point) bool {
	side := func(p, q, r draw.Point) float64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}
