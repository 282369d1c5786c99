package figure

import (
	"strconv"

	"jounce/internal/draw"
)

// SoFar is the car as far as it was measured, in three pens: measured wide, worked
// out thin, assumed dashed.
type SoFar struct {
	Shape CarShape
	Arch  [2]float64 // [mm] hub to arch, front and rear; 0 is not read
	Asked string     // words at a sill that is questioned; empty for none
}

// CarSoFar draws a car that is being measured, from the left. A measured length is
// drawn at its measured end only.
func CarSoFar(c SoFar, width float64, st draw.Style) draw.Scene {
	f := fit(c.Shape)
	small := narrow(width, st)
	line := st.Line(draw.Body)
	wide := 4600.0
	if l := f.wb + f.b.front*f.sx0 + f.b.rear*f.sx1 + 500; l > wide {
		wide = l
	}
	k := width / wide
	high := f.b.roof*f.sz*k + 1.6*line
	s := draw.NewScene(st, width, high+2.6*line)
	s.Title, s.Desc = "The car so far", c.words()
	fr := draw.Frame{X0: (wide-f.wb-f.b.rear*f.sx1+f.b.front*f.sx0)/2*k + 0, Y0: high, SX: k, SY: -k}
	s.Add(draw.FloorLine(st, 0, width, high))
	body := f.outline().Map(fr)
	assumed := draw.W2.Pen().In(draw.Rule).Dashed()
	s.Add(body.Fill(draw.Skin), body.Stroke(assumed))
	for _, g := range f.b.glass {
		var pts []draw.Point
		for _, p := range g {
			pts = append(pts, f.pt(p))
		}
		s.Add(rounded(pts, true).Map(fr).FillStroke(draw.Paper, draw.W1.Pen().In(draw.Rule).Dashed()))
	}
	firm := draw.W3.Pen()
	if c.Shape.Front > 0 {
		s.Add(draw.Line(-c.Shape.Front, 240, -c.Shape.Front, 640*f.sz).Map(fr).Stroke(firm))
	}
	if c.Shape.Rear > 0 {
		s.Add(draw.Line(f.wb+c.Shape.Rear, 240, f.wb+c.Shape.Rear, 760*f.sz).Map(fr).Stroke(firm))
	}
	if c.Shape.Roof > 0 {
		top := f.pt([2]float64{f.b.top[7][0], f.b.roof})
		s.Add(draw.Line(top.X-160, c.Shape.Roof, top.X+300, c.Shape.Roof).Map(fr).Stroke(firm))
	}
	for i, x := range []float64{0, f.wb} {
		hub := f.dia / 2
		pen := draw.W2.Pen().In(draw.Rule).Dashed()
		if c.Shape.Tyre > 0 {
			pen = draw.W3.Pen()
			s.Add(draw.Circle(x, hub, f.dia/2).Map(fr).FillStroke(draw.Tyre, pen))
		} else {
			s.Add(draw.Circle(x, hub, f.dia/2).Map(fr).Stroke(pen))
		}
		s.Add(draw.Circle(x, hub, f.dia*0.31).Map(fr).FillStroke(draw.Skin, draw.W1.Pen()))
		if a := c.Arch[i]; a > 0 {
			s.Add(draw.Arc(x, hub, a, 20, 160).Map(fr).Stroke(firm))
			s.Add(draw.Line(x, hub, x, hub+a).Map(fr).Stroke(draw.W1.Pen()))
			p := fr.Pt(x, hub+a)
			s.Add(st.Text(draw.Bold, p.X, p.Y-line*0.4, strconv.FormatFloat(a, 'f', 0, 64), draw.Middle).On(draw.Skin))
		}
	}
	c.sill(&s, f, fr, line)
	c.below(&s, f, fr, small, line)
	return s
}

// sill draws the sill where it was read, and the question about it.
func (c SoFar) sill(s *draw.Scene, f fitted, fr draw.Frame, line float64) {
	x0, x1 := f.opening(f.sill)+20, f.wb-f.opening(f.sill)-20
	mid := fr.Pt((x0+x1)/2, f.sill)
	switch {
	case c.Asked != "":
		s.Add(draw.Line(x0, f.sill, x1, f.sill).Map(fr).Stroke(draw.W3.Pen().In(draw.Fail)))
		s.Add(s.Style.Text(draw.Bold, mid.X, mid.Y-line*0.5, c.Asked, draw.Middle).In(draw.Fail).On(draw.Skin))
	case c.Shape.Sill > 0:
		s.Add(draw.Line(x0, f.sill, x1, f.sill).Map(fr).Stroke(draw.W3.Pen()))
		s.Add(s.Style.Text(draw.Bold, mid.X, mid.Y-line*0.5, "sill "+strconv.FormatFloat(c.Shape.Sill, 'f', 0, 64), draw.Middle).On(draw.Skin))
	}
}

// below draws the dimensions that were read, under the floor.
func (c SoFar) below(s *draw.Scene, f fitted, fr draw.Frame, small bool, line float64) {
	dim := func(a, b, v float64, word string) {
		if v <= 0 {
			return
		}
		text := strconv.FormatFloat(v, 'f', 0, 64)
		if word != "" && !small {
			text = word + " " + text
		}
		p, q := fr.Pt(a, 0), fr.Pt(b, 0)
		s.Add(draw.Dimension(s.Style, p, q, -1.7*line, text))
	}
	dim(0, f.wb, c.Shape.Wheelbase, "wheelbase")
	dim(-c.Shape.Front, 0, c.Shape.Front, "")
	dim(f.wb, f.wb+c.Shape.Rear, c.Shape.Rear, "")
}

// words says in one sentence what is measured.
func (c SoFar) words() string {
	n := 0
	for _, v := range []float64{c.Shape.Wheelbase, c.Shape.Front, c.Shape.Rear, c.Shape.Roof, c.Shape.Sill, c.Shape.Tyre, c.Arch[0], c.Arch[1]} {
		if v > 0 {
			n++
		}
	}
	if n == 0 {
		return "Nothing is measured yet; the whole car is assumed."
	}
	return strconv.Itoa(n) + " of its eight lengths are measured and firm; the rest is assumed and dashed."
}
