package figure

import (
	"math"
	"strings"

	"jounce/internal/draw"
)

// footLabel is lettering under the floor with a leader from a place above it.
type footLabel struct {
	x, y float64 // [mm] where the leader begins
	text string
	dot  bool
}

// plan gathers what is lettered under the floor, and how many rows it takes.
func (f *sideFigure) plan() {
	if z, ok := mm(f.s.Road.Kerb); ok {
		p := f.f.Pt(f.b.nose+0.35*(-f.b.arch[0]-f.b.nose), z)
		f.foot = append(f.foot, footLabel{p.X, p.Y, "kerb " + plain(z, 0), true})
	}
	if z, ok := mm(f.s.Scrub); ok {
		p := f.f.Pt(f.wheel[0].r+60, z)
		f.foot = append(f.foot, footLabel{p.X, p.Y, "scrub line " + plain(z, 0), true})
	}
	if h, l, ok := f.hump(); ok {
		f.foot = append(f.foot, footLabel{f.f.Pt(f.humpX(l), 0).X, f.floor, "hump " + plain(h, 0) + nbsp + "×" + nbsp + plain(l, 0), false})
	}
	if z, ok := mm(f.s.Lowest); ok && !f.lowTouched() {
		x := f.lowX()
		text := "lowest part"
		if f.s.LowestName != "" {
			text = f.s.LowestName
		}
		if f.s.Preset >= 0 && f.s.Preset < 4 {
			if v, known := mm(f.s.LowestAt[f.s.Preset]); known {
				z = v
			}
		}
		if f.st.Len(draw.Body, text+" 188") > 0.55*f.W {
			text = "lowest part"
		}
		p := f.f.Pt(x, z+0)
		f.foot = append(f.foot, footLabel{p.X, p.Y, text + " " + plain(z, 0), true})
	}
	f.rows = 0
	if len(f.foot) > 0 {
		f.rows = 1
		if !f.oneRow(f.foot) {
			f.rows = 2
		}
	}
}

// spread is where the labels stand side by side; false where they do not fit.
func (f *sideFigure) spread(list []footLabel) ([]float64, bool) {
	var want, size []float64
	for _, l := range list {
		want, size = append(want, l.x), append(size, f.st.Len(draw.Body, l.text)+lettered(f.st, 2))
	}
	return draw.Spread(want, size, lettered(f.st, 10), f.left, f.W)
}

func (f *sideFigure) oneRow(list []footLabel) bool {
	_, ok := f.spread(list)
	return ok
}

// footLabels letters what stands under the floor.
func (f *sideFigure) footLabels() {
	line := f.st.Line(draw.Body)
	rows := [][]footLabel{f.foot}
	if f.rows > 1 { // the hump and what is behind it go lower
		n := (len(f.foot) + 1) / 2
		rows = [][]footLabel{f.foot[:n], f.foot[n:]}
	}
	for i, row := range rows {
		at, ok := f.spread(row)
		for k, l := range row {
			y := f.floor + lettered(f.st, 8) + 1.15*line*(float64(i)+0.8)
			t := f.st.Text(draw.Body, at[k], y, l.text, draw.Middle).On(draw.Paper)
			if !ok {
				if !f.tryPut(within(t, f.left, f.W)) {
					continue
				}
			} else {
				f.put(within(t, f.left, f.W))
			}
			if l.dot {
				f.Add(draw.Leader(f.st, draw.Pt(l.x, l.y), draw.Pt(l.x+0.3*(at[k]-l.x), y-0.85*f.st.Size[draw.Body])))
			}
		}
	}
}

// lowTouched tells that a balloon stands for the lowest part.
func (f *sideFigure) lowTouched() bool {
	for _, t := range f.s.Touches {
		if t.Rank > 0 && (t.ID == "lowest" || t.Body && f.s.LowestName != "" && strings.EqualFold(t.Name, f.s.LowestName)) {
			return true
		}
	}
	return false
}

// lowX is where the lowest part is drawn [mm].
func (f *sideFigure) lowX() float64 {
	return math.Max(f.b.nose, math.Min(f.b.tail, mmOr(f.s.LowestX, 0.5*f.b.wb)))
}

// hump is its height and length; false where neither is given.
func (f *sideFigure) hump() (h, l float64, ok bool) {
	h, ok = mm(f.s.Road.Hump)
	l = mmOr(f.s.Road.HumpLength, 900)
	return h, l, ok && h > 0 && l > 0
}

// humpX is the middle of the hump: under the lowest part, between the wheels where it fits [mm].
func (f *sideFigure) humpX(l float64) float64 {
	lo, hi := f.wheel[0].r+l/2, f.b.wb-f.wheel[1].r-l/2
	if lo > hi {
		return 0.5 * f.b.wb
	}
	return math.Max(lo, math.Min(hi, f.lowX()))
}

// ground draws the top of the kerb beside the car, the hump under it, and the floor.
func (f *sideFigure) ground() {
	if z, ok := mm(f.s.Road.Kerb); ok {
		y, x := f.f.Pt(0, z).Y, f.f.Pt(f.b.tail, 0).X+lettered(f.st, 6)
		f.Add(draw.Line(f.left, y, math.Min(f.W, x), y).Stroke(draw.W1.Pen().In(draw.Ink2)).WithTitle("top of the kerb beside the car"))
	}
	if h, l, ok := f.hump(); ok {
		x := f.humpX(l)
		a, b := f.f.Pt(x-l/2, 0), f.f.Pt(x+l/2, 0)
		r := (h*h + l*l/4) / (2 * h) // a circle's segment
		f.Add(draw.Begin(a.X, a.Y).ArcTo(b.X, b.Y, -math.Tan(math.Asin(math.Min(1, l/2/r))/2)).Close().FillStroke(draw.Tyre, draw.W2.Pen()).WithTitle("hump"))
	}
	f.Add(draw.FloorLine(f.st, f.left, f.W, f.floor))
}

// scrubLine is the line from rim edge to rim edge.
func (f *sideFigure) scrubLine() {
	z, ok := mm(f.s.Scrub)
	if !ok {
		return
	}
	a, e := f.f.Pt(-f.wheel[0].flange, z), f.f.Pt(f.b.wb+f.wheel[1].flange, z)
	f.Add(draw.Line(a.X, a.Y, e.X, e.Y).Stroke(draw.W1.Pen().In(draw.Ink2).Chain()))
}

// lowest is the lowest hard part, a box that moves with the body.
func (f *sideFigure) lowest() {
	z, ok := f.lowZ()
	if !ok {
		return
	}
	p, w := f.f.Pt(f.lowX(), z), 70*f.f.SX
	g := draw.G(draw.Rect(p.X-w, p.Y-34*f.f.SX, 2*w, 34*f.f.SX).FillStroke(draw.Paper, draw.W2.Pen()))
	f.Add(f.moving(g).WithTitle(f.s.LowestName))
}

// lowZ is the lowest part over the floor at ROAD [mm].
func (f *sideFigure) lowZ() (float64, bool) {
	if v, known := mm(f.s.LowestAt[1]); known {
		return v, true
	}
	return mm(f.s.Lowest)
}
