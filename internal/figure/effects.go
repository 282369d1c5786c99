package figure

import (
	"math"

	"jounce/internal/draw"
)

// Effects are bars left and right of a line: what a result would change by, were one input a little more.
type Effects struct {
	Head string // "If one input were 5 % more, the frequency would be"
	Rows []Effect
}

// Effect is one input's bar.
type Effect struct {
	Name  string  // "volume"
	Share float64 // change of the result [1]; minus is to the left
	Text  string  // "− 2.4 %"
}

// EffectBars draws the effects, width [mm] at least about 60; the longest bar fills its side.
func EffectBars(e Effects, width float64, st draw.Style) draw.Scene {
	line := st.Line(draw.Body) * 1.1
	head := draw.Wrap(st.Face(draw.Cap), e.Head, st.Size[draw.Cap], width)
	if e.Head == "" {
		head = nil
	}
	y := float64(len(head)) * st.Line(draw.Cap)
	s := newSheet(st, width, y+line*(float64(len(e.Rows))+0.4), "effects", e.Head)
	for i, h := range head {
		s.put(st.Text(draw.Cap, 0, (float64(i)+0.8)*st.Line(draw.Cap), h, draw.Start))
	}
	left, right, most := 0.0, 0.0, 0.0
	for _, r := range e.Rows {
		left, right = math.Max(left, st.Len(draw.Body, r.Name)), math.Max(right, st.Len(draw.Body, r.Text))
		if !math.IsNaN(r.Share) && !math.IsInf(r.Share, 0) {
			most = math.Max(most, math.Abs(r.Share))
		}
	}
	gap := lettered(st, 10)
	half := (width - left - right - 2*gap) / 2
	mid := left + gap + half
	for i, r := range e.Rows {
		b := y + line*(float64(i)+0.85)
		s.put(st.Text(draw.Body, 0, b, r.Name, draw.Start))
		s.put(st.Text(draw.Body, width, b, r.Text, draw.End))
		if most > 0 && half > 0 && math.Abs(r.Share) <= most {
			w := r.Share / most * half
			s.Add(draw.Rect(math.Min(mid, mid+w), b-0.62*st.Size[draw.Body], math.Abs(w), 0.5*st.Size[draw.Body]).Fill(draw.Ink))
		}
	}
	if len(e.Rows) > 0 {
		s.Add(draw.Line(mid, y+0.1*line, mid, s.H-0.1*line).Stroke(draw.W1.Pen()))
	}
	return s.Scene
}
