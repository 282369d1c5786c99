package report

import (
	"fmt"

	"jounce/internal/draw"
	"jounce/internal/draw/pdf"
)

// Look is how the car will look: the customer's picture redrawn at the presets.
type Look struct {
	Title  string // what the picture is called
	Taken  string // when, in words; empty where it does not say
	Shots  [4]Shot
	Marked []string // what lies over the pictures, by its number
	Limits []string // what the pictures cannot show
}

// Shot is the picture at one preset.
type Shot struct {
	Preset string
	JPEG   []byte // nil where it is not drawn
	Why    string // why it is not
	Says   string // what stands under it
	Lines  []LookLine
}

// LookLine is one line over a picture, in shares of its width and height.
type LookLine struct {
	No     int
	Points []draw.Point // [1]
	At     draw.Point   // [1] where a leader points to it from below
}

// The parts of the sheet [mm].
const (
	lookGap   = 4.0  // between the pictures
	lookStrip = 6.5  // under a picture, for the numbers of its lines
	lookTall  = 56.0 // a picture at most
)

// look is the sheet of the customer's picture at the four presets, two by two.
func (p *design) look() error {
	l := p.Look
	if l == nil {
		return nil
	}
	s := p.doc.Sheet(pdf.Landscape)
	s.Frame()
	in := s.Inner()
	y := in.Y0 + 3
	y += s.Heading(1, in.X0+columnPad, y, pdf.Claimed, "How it will look") + 2
	s.Line(in.X0, y, in.X1, y, 0.35, draw.Ink)
	p.doc.Bookmark("How it will look", s, in.Y0)
	x := in.X1 - rightColumn
	h := s.TitleBlock(x, in.Y1, rightColumn, p.small())
	s.Line(x, y, x, in.Y1-h, 0.35, draw.Ink)
	wide := (x - in.X0 - 2*columnPad - lookGap) / 2
	tall := (in.Y1 - y) / 2
	for i, shot := range l.Shots {
		at := draw.Point{X: in.X0 + columnPad + float64(i%2)*(wide+lookGap), Y: y + 2.4 + float64(i/2)*tall}
		if err := p.shot(s, at, wide, shot); err != nil {
			return err
		}
	}
	c := &column{s, x + columnPad, y + 2.4, rightColumn - 2*columnPad, in.Y1 - h - 1}
	f := flow{cols: []*column{c}, more: p.more}
	f.all(p.lookWords())
	return nil
}

// shot sets one picture with its lines, their numbers and its caption.
func (p *design) shot(s *pdf.Sheet, at draw.Point, wide float64, shot Shot) error {
	y := at.Y + s.Heading(2, at.X, at.Y, pdf.Head, shot.Preset) + 1
	if shot.JPEG == nil {
		s.Para(at.X, y, wide, pdf.List, plain("Not drawn: "+letters(stop(shot.Why))))
		return nil
	}
	photo, err := pdf.JPEG(shot.JPEG)
	if err != nil {
		return fmt.Errorf("how it will look at %s: %w", shot.Preset, err)
	}
	pw, ph := photo.Size()
	w, h := wide, wide*float64(ph)/float64(pw)
	if h > lookTall {
		w, h = lookTall*float64(pw)/float64(ph), lookTall
	}
	s.Photo(draw.Box{X0: at.X, Y0: y, X1: at.X + w, Y1: y + h}, photo, "The car at "+shot.Preset+", redrawn from its picture. "+letters(shot.Says))
	s.Scene(at.X, y, overlay(shot.Lines, w, h))
	s.Para(at.X, y+h+lookStrip, wide, pdf.List, plain(letters(shot.Says)))
	return nil
}

// overlay is the lines over a picture, dark with a light core so that they show on
// any ground, and their numbers under it.
func overlay(lines []LookLine, w, h float64) draw.Scene {
	st := draw.ForPaper()
	sc := draw.NewScene(st, w, h+lookStrip)
	sc.Title = "Lines over the picture, to its scale"
	over := draw.Group{Clip: &draw.Box{X0: 0, Y0: 0, X1: w, Y1: h}}
	dark, light := draw.Pen{Role: draw.Ink, MM: 0.6}, draw.Pen{Role: draw.Paper, MM: 0.25}
	for _, l := range lines {
		var o draw.Outline
		for k, p := range l.Points {
			if k == 0 {
				o = o.MoveTo(p.X*w, p.Y*h)
			} else {
				o = o.LineTo(p.X*w, p.Y*h)
			}
		}
		lead := draw.Line(l.At.X*w, l.At.Y*h, l.At.X*w, h)
		for _, pen := range []draw.Pen{dark, light} {
			over.Add(o.Stroke(pen), lead.Stroke(pen))
		}
	}
	sc.Add(over)
	for _, l := range lines {
		sc.Add(draw.Line(l.At.X*w, h, l.At.X*w, h+0.8).Stroke(draw.W1.Pen()), draw.Balloon(st, l.At.X*w, h+0.8+st.Disc, fmt.Sprint(l.No)))
	}
	return sc
}

// lookWords are the words beside the pictures: what the lines are, and what the
// pictures cannot show.
func (p *design) lookWords() []unit {
	l := p.Look
	head := l.Title
	if l.Taken != "" {
		head += ", taken " + l.Taken
	}
	out := append([]unit{heading(2, "The picture")}, paras(pdf.List, 1.6, plain(letters(stop(head))))...)
	if len(l.Marked) > 0 {
		out = append(out, heading(2, "Lines over it, to its scale"))
		for i, m := range l.Marked {
			out = append(out, paras(pdf.List, 0.6, claim(fmt.Sprint(i+1)+"  "), plain(letters(stop(m))))...)
		}
		out = append(out, gap(1.2))
	}
	out = append(out, heading(2, "What these pictures are, and are not"))
	for _, t := range append([]string{"Redrawn from measures, one camera: heights in the plane of the wheels are true, the far side is not"}, l.Limits...) {
		out = append(out, paras(pdf.List, 0.8, plain(letters(stop(t))))...)
	}
	return out
}
