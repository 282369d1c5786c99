package report

import (
	"strings"

	"jounce/internal/draw"
	"jounce/internal/draw/pdf"
	"jounce/internal/finding"
)

// unit is a piece of a page that is not split.
type unit struct {
	height func(w float64) float64 // in a column of w [mm]
	draw   func(s *pdf.Sheet, x, y, w float64)
}

// column is where units go: a strip of a sheet [mm].
type column struct {
	s               *pdf.Sheet
	x, y, w, bottom float64
}

// fits tells whether the unit goes into what is left.
func (c *column) fits(u unit) bool { return c.y+u.height(c.w) <= c.bottom+1e-6 }

func (c *column) put(u unit) {
	u.draw(c.s, c.x, c.y, c.w)
	c.y += u.height(c.w)
}

// flow puts units into columns, one after the other; more makes columns when
// they are used up.
type flow struct {
	cols []*column
	more func() []*column
}

func (f *flow) put(u unit) {
	for range 64 {
		for len(f.cols) > 0 {
			if f.cols[0].fits(u) {
				f.cols[0].put(u)
				return
			}
			f.cols = f.cols[1:]
		}
		f.cols = f.more()
		if !f.cols[0].fits(u) { // no column is tall enough: it is set all the same
			f.cols[0].put(u)
			return
		}
	}
}

func (f *flow) all(us []unit) {
	for _, u := range us {
		f.put(u)
	}
}

func total(us []unit, w float64) float64 {
	h := 0.0
	for _, u := range us {
		h += u.height(w)
	}
	return h
}

// pieceRoom is how many signs are set in one piece; a longer text may be split
// over two columns.
const pieceRoom = 600

// pieces cuts a text that is too long for one unit at its spaces.
func pieces(s string) []string {
	var out []string
	r := []rune(s)
	for len(r) > pieceRoom {
		cut := pieceRoom
		for i := pieceRoom; i > pieceRoom-200; i-- {
			if r[i] == ' ' {
				cut = i
				break
			}
		}
		out, r = append(out, strings.TrimSpace(string(r[:cut]))), r[cut:]
	}
	return append(out, strings.TrimSpace(string(r)))
}

// paras are a text as units in the style, with gap [mm] after each.
func paras(st pdf.Style, gap float64, runs ...pdf.Run) []unit {
	var out []unit
	var now []pdf.Run
	n := 0
	end := func() {
		if len(now) == 0 {
			return
		}
		set := now
		out = append(out, unit{
			height: once(func(w float64) float64 { return pdf.Height(st, w, set...) + gap }),
			draw:   func(s *pdf.Sheet, x, y, w float64) { s.Para(x, y, w, st, set...) },
		})
		now, n = nil, 0
	}
	for _, r := range runs {
		size := len([]rune(r.S))
		if n > 0 && n+size > pieceRoom {
			end()
		}
		if size <= pieceRoom {
			now, n = append(now, r), n+size
			continue
		}
		for _, s := range pieces(r.S) {
			piece := r
			piece.S = s + " "
			now = append(now, piece)
			end()
		}
	}
	end()
	return out
}

// once remembers the height for the width last asked.
func once(f func(w float64) float64) func(w float64) float64 {
	last, h := -1.0, 0.0
	return func(w float64) float64 {
		if w != last {
			last, h = w, f(w)
		}
		return h
	}
}

func gap(h float64) unit {
	return unit{func(float64) float64 { return h }, func(*pdf.Sheet, float64, float64, float64) {}}
}

// heading is a section's heading of the level.
func heading(level int, str string) unit {
	str = letters(str)
	return unit{
		height: func(w float64) float64 { return pdf.Height(pdf.Head, w, pdf.Plain(str)) + 1 },
		draw: func(s *pdf.Sheet, x, y, w float64) {
			if pdf.Width(pdf.Head, pdf.Plain(str)) <= w {
				s.Heading(level, x, y, pdf.Head, str)
				return
			}
			s.Para(x, y, w, pdf.Head, pdf.Plain(str))
		},
	}
}

// row is a finding as the design page lists it: mark, claim and why, number.
type row struct {
	mark    float64 // [mm] side of the verdict mark
	verdict bool    // its words stand before the why
	st, big pdf.Style
	rest    pdf.Style
	zone    string // field of the sheet in which its place lies on the drawing; "" where it has none
}

// listed is how findings stand on the design page.
var listed = row{mark: 4, verdict: true, st: pdf.List, big: pdf.Figure, rest: pdf.List}

// units are the finding as units: one, unless its words are longer than a
// column.
func (r row) units(f finding.Finding) []unit {
	claimStyle := r.st
	words := append([]pdf.Run{{S: letters(stop(f.Claim)) + " ", Bold: true}}, after(f, r.verdict, false, false)...)
	if r.zone != "" {
		words = append(words, plain(" Drawing"+nbsp+r.zone+"."))
	}
	split := paras(claimStyle, 0, words...)
	figure, rest := number(f)
	const pad, left = 0.65, 6.5
	room := figureRoom(numberRuns(r.big, r.rest, figure, rest))
	out := make([]unit, 0, len(split))
	for i, u := range split {
		first := i == 0
		out = append(out, unit{
			height: func(w float64) float64 { return max(u.height(w-left-room), 4.2) + 2*pad },
			draw: func(s *pdf.Sheet, x, y, w float64) {
				if first {
					s.Line(x, y, x+w, y, 0.25, draw.Rule)
					if r.mark > 0 {
						s.Mark(mark(f.Verdict), x, y+pad, r.mark)
					}
					s.ParaAt(x+w-room+1.5, y+pad-0.3, room-1.5, r.big, pdf.Right, numberRuns(r.big, r.rest, figure, rest)...)
				}
				u.draw(s, x+left, y+pad, w-left-room)
			},
		})
	}
	return out
}

// figureRoom is the width kept for a number [mm], in a few steps so that the
// words beside it keep an edge.
func figureRoom(runs []pdf.Run) float64 {
	w := pdf.Width(pdf.List, runs...) + 2
	for _, step := range []float64{15, 20, 25} {
		if w <= step {
			return step
		}
	}
	return min(w, 31)
}

// joined is two units that stay together: a heading and what it heads.
func joined(a unit, b []unit) []unit {
	if len(b) == 0 {
		return []unit{a}
	}
	u := unit{
		height: func(w float64) float64 { return a.height(w) + b[0].height(w) },
		draw: func(s *pdf.Sheet, x, y, w float64) {
			a.draw(s, x, y, w)
			b[0].draw(s, x, y+a.height(w), w)
		},
	}
	return append([]unit{u}, b[1:]...)
}

// numberRuns is a number large and the rest of it small.
func numberRuns(big, small pdf.Style, figure, rest string) []pdf.Run {
	if figure == "" {
		return []pdf.Run{in(small.Bold(), rest)}
	}
	if rest == "" {
		return []pdf.Run{in(big, figure)}
	}
	return []pdf.Run{in(big, figure+" "), in(small, rest)}
}

// inFull are the texts that were too long for a field.
func inFull(long []string) []unit {
	var out []unit
	for _, l := range long {
		out = append(out, paras(pdf.List, 1, plain(l))...)
	}
	return joined(heading(2, "In full, too long for its place"), out)
}
