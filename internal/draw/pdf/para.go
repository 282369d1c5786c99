package pdf

import (
	"strings"

	"jounce/internal/draw"
	"jounce/internal/draw/font"
)

// Run is a piece of a paragraph.
type Run struct {
	S      string
	Bold   bool   // weight 600
	Style  *Style // own size, face and role; nil takes the paragraph's
	Source bool   // a source mark: the word in a thin box
	Mark   *draw.Mark
	Dy     float64 // [1] raised by this part of the size; negative is lowered
}

// Plain is text in the paragraph's weight.
func Plain(s string) Run { return Run{S: s} }

// Claim is text with weight 600.
func Claim(s string) Run { return Run{S: s, Bold: true} }

// Source is a source mark: "CP", "calc", "S31".
func Source(s string) Run { return Run{S: s, Source: true} }

// Verdict is a small verdict mark in the line.
func Verdict(m draw.Mark) Run { return Run{Mark: &m} }

// In is text in its own style.
func In(st Style, s string) Run { return Run{S: s, Style: &st} }

// Align is where a line stands in its column.
type Align uint8

// The alignments.
const (
	Left Align = iota
	Right
	Centre
)

// atom is a piece that is not broken: a word or a part of one, a source mark, a verdict mark.
type atom struct {
	run   Run
	st    Style
	s     string
	w     float64 // [mm]
	space float64 // [mm] before it, when it does not begin a line; 0 is glued to the one before
	glued bool
}

const sourcePad = 0.8 // [mm] between a source mark's word and its box

// sourceStyle is the lettering of a source mark.
var sourceStyle = Style{7.4 * draw.Pt72, 1.15, font.Cond600, draw.Ink}

// atoms cuts the runs at their spaces.
func atoms(st Style, runs []Run) []atom {
	var out []atom
	space, boxed := true, false // a space, or a box, stands before the next word
	for _, r := range runs {
		rs := st
		if r.Style != nil {
			rs = *r.Style
		}
		if r.Bold {
			rs = rs.Bold()
		}
		gap := rs.Face.Width(" ", rs.Size)
		if r.Source || r.Mark != nil {
			a := atom{run: r, st: rs, w: rs.Size * 1.15, space: gap}
			if r.Source {
				a.st, a.s, a.w = sourceStyle, r.S, sourceStyle.Face.Width(r.S, sourceStyle.Size)+2*sourcePad
			}
			out, space, boxed = append(out, a), false, true
			continue
		}
		words := strings.FieldsFunc(r.S, isSpace)
		space = space || r.S != "" && isSpace(rune(r.S[0]))
		for _, w := range words {
			apart := space || boxed && !strings.ContainsAny(w[:1], ".,;:)")
			out = append(out, atom{run: r, st: rs, s: w, w: rs.Face.Width(w, rs.Size), space: gap, glued: !apart})
			space, boxed = true, false
		}
		if len(words) > 0 {
			space = isSpace(rune(r.S[len(r.S)-1]))
		}
	}
	return out
}

func isSpace(c rune) bool { return c == ' ' || c == '\n' || c == '\t' }

// fitWords breaks words wider than the column anywhere, so that a long name runs on below instead of over its neighbour.
func fitWords(all []atom, w float64) []atom {
	var out []atom
	for _, a := range all {
		for a.s != "" && !a.run.Source && a.w > w && len([]rune(a.s)) > 1 {
			runes := []rune(a.s)
			n := len(runes) - 1
			for n > 1 && a.st.Face.Width(string(runes[:n]), a.st.Size) > w {
				n--
			}
			head := a
			head.s, head.w = string(runes[:n]), a.st.Face.Width(string(runes[:n]), a.st.Size)
			out = append(out, head)
			a.s, a.glued, a.space = string(runes[n:]), false, 0
			a.w = a.st.Face.Width(a.s, a.st.Size)
		}
		out = append(out, a)
	}
	return out
}

// lines breaks the runs into lines of at most w [mm].
func lines(st Style, w float64, runs []Run) [][]atom {
	var out [][]atom
	var cur []atom
	used := 0.0
	all := fitWords(atoms(st, runs), w)
	for i := 0; i < len(all); {
		j := i + 1 // the unit i..j−1 is not broken
		for j < len(all) && all[j].glued {
			j++
		}
		unitWidth := 0.0
		for _, a := range all[i:j] {
			unitWidth += a.w
		}
		if len(cur) > 0 && used+all[i].space+unitWidth > w+1e-9 {
			out = append(out, cur)
			cur, used = nil, 0
		}
		if len(cur) > 0 {
			used += all[i].space
		}
		cur = append(cur, all[i:j]...)
		used += unitWidth
		i = j
	}
	if len(cur) > 0 {
		out = append(out, cur)
	}
	return out
}

// Height is how tall the paragraph is in a column of w [mm].
func Height(st Style, w float64, runs ...Run) float64 {
	return float64(len(lines(st, w, runs))) * st.Line()
}

// Width is how wide the runs are on one line [mm].
func Width(st Style, runs ...Run) float64 {
	total := 0.0
	for i, a := range atoms(st, runs) {
		if i > 0 && !a.glued {
			total += a.space
		}
		total += a.w
	}
	return total
}

// Para sets the runs from x, y (the top) into a column of w [mm] and says its height. A space between two runs stands only where
// one of the strings has it; beside a source or verdict mark always, save before a full stop, comma or bracket.
// No-break spaces (U+00A0, U+202F) hold a number to its unit.
func (s *Sheet) Para(x, y, w float64, st Style, runs ...Run) float64 {
	return s.ParaAt(x, y, w, st, Left, runs...)
}

// ParaAt is Para with an alignment.
func (s *Sheet) ParaAt(x, y, w float64, st Style, al Align, runs ...Run) float64 {
	return s.para(s.tagged("P", ""), x, y, w, st, al, runs)
}

func (s *Sheet) para(b *block, x, y, w float64, st Style, al Align, runs []Run) float64 {
	ls := lines(st, w, runs)
	for i, l := range ls {
		width := 0.0
		for j, a := range l {
			if j > 0 && !a.glued {
				width += a.space
			}
			width += a.w
		}
		at := x
		switch al {
		case Right:
			at = x + w - width
		case Centre:
			at = x + (w-width)/2
		}
		s.line(b, at, y+float64(i)*st.Line()+st.base(), st, l)
	}
	return float64(len(ls)) * st.Line()
}

// line letters one line of atoms from x on the base line y.
func (s *Sheet) line(b *block, x, y float64, st Style, l []atom) {
	for j, a := range l {
		if j > 0 && !a.glued && a.space > 0 {
			// The space is lettered too, so that the words stay apart when the text is copied.
			s.letter(b, draw.Text{X: x, Y: y, S: " ", Size: a.st.Size, Face: a.st.Face, Role: a.st.Role})
			x += a.space
		} else if j > 0 && l[j-1].run.Source {
			x += 0.3 // a comma keeps clear of the box
		}
		switch {
		case a.run.Source:
			up := (st.Size - a.st.Size) * font.CapHeight / 2
			s.letter(b, draw.Text{X: x + sourcePad, Y: y - up, S: a.s, Size: a.st.Size, Face: a.st.Face, Role: draw.Ink})
			h := font.CapHeight*a.st.Size + 1.3
			s.paint(b, paper, draw.Rect(x, y-up-font.CapHeight*a.st.Size-0.65, a.w, h).Stroke(thin()))
		case a.run.Mark != nil:
			k := a.w / draw.MarkBox
			top := y - font.CapHeight*st.Size/2 - a.w/2
			for _, p := range draw.MarkPaths(*a.run.Mark, x, top, k) {
				s.paint(b, paper, p)
			}
		default:
			s.letter(b, draw.Text{X: x, Y: y - a.run.Dy*a.st.Size, S: a.s, Size: a.st.Size, Face: a.st.Face, Role: a.st.Role})
		}
		x += a.w
	}
}
