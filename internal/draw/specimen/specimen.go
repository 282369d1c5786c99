// Package specimen draws one figure with everything the drawing can do, for the tests of the encoders and for the eye.
package specimen

import (
	"math"

	"jounce/internal/draw"
)

// Scene is the specimen for a style, width [mm] at least 160.
func Scene(st draw.Style, width float64) draw.Scene {
	s := draw.NewScene(st, width, 150)
	s.ID, s.Title = "specimen", "Everything the drawing can do"
	s.Desc = "Lines, tones, hatches, lettering, marks, dimensions, balloons, limits."
	lines(&s, st)
	tones(&s, st)
	marks(&s, st)
	chart(&s, st)
	dimensions(&s, st)
	bodyGroup(&s, st)
	return s
}

func lines(s *draw.Scene, st draw.Style) {
	for i, p := range []draw.Pen{
		draw.W1.Pen(), draw.W2.Pen(), draw.W3.Pen(), draw.W4.Pen(), draw.W1.Pen().In(draw.Ink2).Chain(), draw.W1.Pen().In(draw.Ink2).ChainTwo(),
		draw.W1.Pen().Dashed(), draw.W1.Pen().Dotted(), draw.W3.Pen().In(draw.Move),
	} {
		y := 6 + float64(i)*4
		s.Add(draw.Line(4, y, 40, y).Stroke(p))
	}
	for i, n := range []string{"thin", "medium", "wide", "outline", "chain", "double dot", "dash", "dots", "move"} {
		s.Add(st.Text(draw.Cap, 42, 6+float64(i)*4, n, draw.Start).At(draw.Mid).Sized(st.Least))
	}
	s.Add(draw.Begin(4, 46).CurveTo(14, 38, 24, 54, 34, 46).Stroke(draw.W3.Pen()))
	s.Add(draw.Begin(4, 52).ArcTo(20, 52, 0.5).ArcTo(36, 52, -0.5).Stroke(draw.W2.Pen()))
	s.Add(draw.Arc(48, 50, 6, 0, 270).Stroke(draw.W2.Pen()))
	s.Add(draw.Break(st, draw.Pt(4, 60), draw.Pt(40, 60)))
}

func tones(s *draw.Scene, st draw.Style) {
	s.Add(draw.Circle(72, 14, 9).FillStroke(draw.Tyre, draw.W3.Pen()), draw.Circle(72, 14, 5).FillStroke(draw.Skin, draw.W2.Pen()))
	s.Add(draw.Rect(84, 5, 18, 18).Stroke(draw.W2.Pen()).WithHatch(st.Hatch()))
	ring := draw.Circle(114, 14, 9).And(draw.Circle(114, 14, 5))
	s.Add(ring.Stroke(draw.W2.Pen()).WithTone(draw.Field).WithHatch(draw.Hatch{Angle: -45, Pitch: st.Tick, Pen: draw.W1.Pen()}))
	s.Add(draw.Rect(126, 5, 12, 18).Fill(draw.Move).WithAlpha(0.4), draw.Rect(132, 9, 12, 18).Fill(draw.Ink).WithAlpha(0.25))
	s.Add(st.Text(draw.Bold, 132, 15, "on", draw.Middle).In(draw.OnMove).At(draw.Mid))
}

func marks(s *draw.Scene, st draw.Style) {
	size := 30 * draw.Px
	if st.Medium == draw.Print {
		size = 6
	}
	for i, m := range draw.Marks {
		x, y := 70.0, 32+float64(i)*9.5
		s.Add(draw.VerdictMark(m, x, y, size), st.Text(draw.Bold, x+6, y, m.Words(), draw.Start).At(draw.Mid).In(m.Role()))
	}
	s.Add(draw.G(draw.Balloon(st, 118, 34, "1")).Link("/job/1/finding/3", "Finding 1, bump stop").WithData("rank", "1"))
	s.Add(draw.Leader(st, draw.Pt(110, 52), draw.Pt(116.9, 36.4)))
	s.Add(st.Text(draw.Body, 123, 32, "bump stop", draw.Start), st.Text(draw.Body, 123, 37, "", draw.Start).Value("68", " ± 2"))
	s.Add(draw.IBar(st, draw.Pt(123, 40.5), draw.Pt(131, 40.5)), draw.Triangle(st, 126, 52, 90, draw.Ink), draw.Triangle(st, 134, 52, 0, draw.Move))
	s.Add(draw.Line(108, 52, 134, 52).Stroke(draw.W3.Pen().In(draw.Move)))
	s.Add(st.Text(draw.Number, 108, 62, "− 2.5° ⌀ 8 → ½", draw.Start))
	s.Add(draw.Arrow(st, draw.Pt(150, 62), draw.Pt(150, 50), draw.Ink))
}

func chart(s *draw.Scene, st draw.Style) {
	x, y := draw.Axis{V0: 0, V1: 12, P0: 14, P1: 70}, draw.Axis{V0: 9.2, V1: 10, P0: 106, P1: 74}
	curve := func(f float64) (out []draw.Point) {
		for h := 0.0; h <= 12; h += 0.25 {
			out = append(out, draw.Pt(x.At(h), y.At(9.55+0.45*math.Exp(-h/4)+f*h/12)))
		}
		return out
	}
	for _, v := range y.Ticks(5) {
		s.Add(draw.Line(14, y.At(v), 70, y.At(v)).Stroke(draw.W1.Pen().In(draw.Faint)))
		s.Add(st.Text(draw.Cap, 12.5, y.At(v), trim(v), draw.End).At(draw.Mid).Sized(st.Least))
	}
	s.Add(draw.Band(curve(0.05), curve(-0.05)).Fill(draw.Tyre), draw.Polyline(curve(0)...).Stroke(draw.W3.Pen()))
	s.Add(draw.LimitLine(st, curve(-0.25), draw.OnRight))
	for _, h := range []float64{1, 3, 6, 11} {
		s.Add(draw.Reading(st, x.At(h), y.At(9.55+0.45*math.Exp(-h/4)), 1.5))
	}
	s.Add(st.Text(draw.Body, x.At(7), y.At(9.3), "stops the work", draw.Middle).On(draw.Paper))
	s.Add(draw.Line(14, 72, 14, 106).Stroke(draw.W2.Pen()))
}

func trim(v float64) string {
	n := math.Round(v * 10)
	return string([]rune{rune('0' + int(n)/100%10), rune('0' + int(n)/10%10), '.', rune('0' + int(n)%10)})
}

func dimensions(s *draw.Scene, st draw.Style) {
	w := s.W
	s.Add(draw.FloorLine(st, 4, w-4, 120))
	s.Add(draw.Dimension(st, draw.Pt(20, 122), draw.Pt(90, 122), -14, "wheelbase 2540"))
	s.Add(draw.Dimension(st, draw.Pt(90, 122), draw.Pt(95, 122), -14, "40"))
	s.Add(draw.Dimension(st, draw.Pt(w-20, 120), draw.Pt(w-20, 80), -8, "690"))
	s.Add(draw.Dimension(st, draw.Pt(w-60, 110), draw.Pt(w-35, 90), 8, "sloping"))
	want := []float64{80, 82, 83, 99}
	size := make([]float64, 4)
	for i := range size {
		size[i] = st.Line(draw.Body)
	}
	at, _ := draw.Spread(want, size, 0, 70, 118)
	for i, n := range []string{"183 HIGH", "158 HUMP", "138 ROAD", "78 DOWN"} {
		s.Add(draw.Polyline(draw.Pt(78, want[i]), draw.Pt(82, want[i]), draw.Pt(86, at[i]), draw.Pt(88, at[i])).Stroke(draw.W1.Pen()))
		s.Add(st.Text(draw.Body, 89, at[i], n, draw.Start).At(draw.Mid))
	}
}

func bodyGroup(s *draw.Scene, st draw.Style) {
	g := draw.G(
		draw.Polygon(draw.Pt(0, 0), draw.Pt(20, 0), draw.Pt(16, -8), draw.Pt(4, -8)).FillStroke(draw.Skin, draw.W4.Pen()),
		st.Text(draw.Body, 10, -4, "turned", draw.Middle).At(draw.Mid),
	).WithID("body").WithData("move", "y").Turn(draw.Pt(0, 0), 10).Shift(s.W-50, 72)
	s.Add(g)
	c := draw.G(draw.Circle(s.W-12, 130, 12).Fill(draw.Tyre))
	c.Clip = &draw.Box{X0: s.W - 24, Y0: 126, X1: s.W - 12, Y1: 150}
	s.Add(c)
}
