package pdf

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"testing"
	"time"

	"jounce/internal/draw"
	"jounce/internal/draw/specimen"
)

// saved is the date of the invented revision.
var saved = time.Date(2026, 4, 3, 10, 42, 0, 0, time.UTC)

// lastWords are the last words of each part of the specimen; a test looks for all of them in the PDF.
var lastWords = []string{"ends at 0.1.", "unaltered", "stated.", "d3f8", "sheet 2 of 2", "0.03", "Tested Ångström"}

// specimenDoc is a certificate and a landscape sheet with every kind of thing on them.
func specimenDoc(t testing.TB) *Document {
	t.Helper()
	d := New(Info{Title: "Leak and relief", Author: "Thornhythe Coachworks", Subject: "0412 / 21", Keywords: []string{"revision 31", "digest 7c1e"}, Creator: "Jounce", Created: saved})
	s := d.Sheet(Portrait)
	certificate(t, s)
	l := d.Sheet(Landscape)
	l.Frame()
	in := l.Inner()
	l.Scene(in.X0+4, in.Y0+3, specimen.Scene(draw.ForPaper(), 180))
	l.SheetOf(in.X0+4, in.Y1-3, Caption)
	s.Link(draw.Box{X0: 20, Y0: 10, X1: 60, Y1: 20}, l)
	b := d.Bookmark("Certificate", s, 10)
	b.Bookmark("Claims", s, 30)
	d.Bookmark("Specimen", l, 10)
	return d
}

func certificate(t testing.TB, s *Sheet) {
	s.Frame()
	in := s.Inner()
	x, w := in.X0+5, in.X1-in.X0-10
	y := in.Y0 + 5
	y += s.Heading(1, x, y, Title, "Leak and relief certificate")
	s.ParaAt(x, y-5, w, Text9.Sized(10), Right, Plain("hold point 2, air system of one car"))
	y += 3
	s.Line(in.X0, y, in.X1, y, 0.5, draw.Ink)
	y += 3
	for i, m := range draw.Marks {
		s.Mark(m, x, y, 6)
		h := s.Para(x+10, y-0.5, w-60, Claimed, Plain("The tank holds."))
		h += s.Para(x+10, y-0.5+h, w-60, Text9, Claim(m.Words()+". "), Plain("0.4 psi lost in 12 h past the cold. Worst likely 0.07; pass ends at 0.1."), Source("CP"))
		s.ParaAt(x, y, w, Big, Right, Plain("0.03 "), In(Text9, "± 0.04 bar"))
		y += h + 2
		if i < 3 {
			s.Line(x, y-1, x+w, y-1, 0.25, draw.Rule)
		}
	}
	y += 4
	s.Heading(2, x, y, Head, "As read, and what the cold explains")
	tab := Table{Cols: []Col{{18, Left, "time"}, {18, Right, "bay °C"}, {22, Right, "gauge bar"}, {22, Right, "cold alone bar, worked out"}, {14, Right, "lost"}}}
	tab.Rows = append(tab.Rows, Cells("18:00", "20.0", "10.00", "10.00", "0.00"), Cells("19:00, with the door shut", "17.7", "9.91", "9.91", "0.00"))
	last := Cells("06:00", "8.0", "9.52", "9.55", "0.03")
	last.Bold = true
	tab.Rows = append(tab.Rows, last)
	y += 5
	y += s.Table(x, y, tab, 0, len(tab.Rows)) + 3
	y += s.Para(x, y, 60, List, Plain("FL 276, FR 276, RL 234, RR 234\u00a0kg; half tank, 80\u00a0kg in the right seat. Readings by steel tape unless stated."), Source("S31"), Plain(", "), Verdict(draw.MarkPass), Plain("pass. "), Plain("p"), Run{S: "cold", Dy: -0.2, Style: &Caption}, Plain(" = 9.55\u00a0bar")) + 3
	s.Photo(draw.Box{X0: x + 100, Y0: y - 40, X1: x + 140, Y1: y - 10}, photo(t), "a grey ramp")
	h := s.TitleBlock(in.X1-112, in.Y1, 112, [][]Field{
		{{Caption: "tested by, air", H: 14}, {Caption: "checked by", H: 14}, {Caption: "keeper has seen it", H: 14}},
		{{Caption: "job, sheet, title", Value: "0412 / 21 Leak and relief", Span: 4, Big: true}, {Caption: "revision", Value: "31", Big: true}},
		{{Caption: "car", Value: "compact saloon, 1966", Span: 3}, {Caption: "keeper", Value: "A. Quill", Span: 3}},
		{{Caption: "shop", Value: "Thornhythe Coachworks"}, {Caption: "date", Value: "3 April 2026"}, {Caption: "sheet", Sheet: true}},
		{{Caption: "record, to prove this print unaltered", Value: "revision 31, 7c1e 44a0 9b52 d3f8", Span: 6}},
	})
	s.Line(in.X0, in.Y1-h, in.X1, in.Y1-h, 0.5, draw.Ink)
	s.Text(draw.Text{X: x, Y: in.Y1 - 10, S: "Tested Ångström ≥ ≤ √ Δ Ω ½ ⌀ → ₂", Size: List.Size, Role: draw.Ink})
}

func photo(t testing.TB) *Photo {
	im := image.NewGray(image.Rect(0, 0, 64, 48))
	for i := range im.Pix {
		im.Pix[i] = uint8(i % 64 * 4)
	}
	im.Set(0, 0, color.White)
	var b bytes.Buffer
	if err := jpeg.Encode(&b, im, nil); err != nil {
		t.Fatal(err)
	}
	p, err := JPEG(b.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	return p
}
