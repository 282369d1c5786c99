package pdf

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"

	ffont "github.com/carlos7ags/folio/font"

	"jounce/internal/draw"
	"jounce/internal/draw/font"
)

// block is a run of operators with one tag.
type block struct {
	tag, alt string
	ops      []op
	kids     []*block
}

// op is raw operators or a line of lettering.
type op struct {
	raw  string
	text *line
}

// line is one piece of lettering at its base line.
type line struct {
	x, y, size float64 // [mm]
	face       font.Face
	s          string
	grey       float64
	angle      float64 // [°] anticlockwise as seen
	halo       float64 // [mm] width of the halo; 0 is none
	haloGrey   float64
}

func fontName(f font.Face) string { return fmt.Sprintf("F%d", f&3) }

// num is a number for an operator, to 0.0001, never "-0".
func num(v float64) string {
	v = math.Round(v*1e4) / 1e4
	if v == 0 {
		return "0"
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

func nums(v ...float64) string {
	s := make([]string, len(v))
	for i, x := range v {
		s[i] = num(x)
	}
	return strings.Join(s, " ")
}

// greys of the roles in print: black on white, no accent because nothing moves on paper.
var greys = map[draw.Role]float64{
	draw.Ink: 0, draw.Ink2: 0.2, draw.Rule: 0.467, draw.Faint: 0.784, draw.Skin: 1, draw.Tyre: 0.894, draw.Paper: 1, draw.Field: 1,
	draw.Move: 0, draw.OnMove: 1, draw.Pass: 0, draw.Fail: 0, draw.Close: 0, draw.Unknown: 0,
}

// write writes the line with its kerns.
func (l *line) write(b *bytes.Buffer, ef *ffont.EmbeddedFont) {
	s, c := math.Sincos(l.angle * math.Pi / 180)
	var show strings.Builder
	show.WriteString("[")
	var run []rune
	flush := func() {
		if len(run) > 0 {
			fmt.Fprintf(&show, "<%X>", ef.EncodeString(string(run)))
			run = run[:0]
		}
	}
	last := rune(-1)
	for _, r := range l.s {
		if last >= 0 {
			if k := l.face.Kern(last, r); k != 0 {
				flush()
				show.WriteString(num(-k * 1000))
			}
		}
		run = append(run, r)
		last = r
	}
	flush()
	show.WriteString("] TJ")
	matrix := nums(c, -s, -s, -c, l.x, l.y) + " Tm"
	if l.halo > 0 {
		fmt.Fprintf(b, "q %s G %s w 1 j BT /%s %s Tf 1 Tr %s %s ET Q\n", num(l.haloGrey), num(l.halo), fontName(l.face), num(l.size), matrix, show.String())
	}
	fmt.Fprintf(b, "BT /%s %s Tf %s g %s %s ET\n", fontName(l.face), num(l.size), num(l.grey), matrix, show.String())
	// Signs that share a glyph (a space and the space that holds) must read back as the plain one.
	if strings.ContainsRune(l.s, '\u00a0') {
		ef.EncodeString(" ")
	}
}

// pathOps writes the outline's construction.
func pathOps(o draw.Outline) string {
	var b strings.Builder
	for _, s := range o.Cubics() {
		switch s.Op {
		case draw.OpMove:
			b.WriteString(nums(s.P.X, s.P.Y) + " m ")
		case draw.OpLine:
			b.WriteString(nums(s.P.X, s.P.Y) + " l ")
		case draw.OpCurve:
			b.WriteString(nums(s.C1.X, s.C1.Y, s.C2.X, s.C2.Y, s.P.X, s.P.Y) + " c ")
		case draw.OpClose:
			b.WriteString("h ")
		}
	}
	return b.String()
}

// penOps writes the pen's state.
func penOps(st draw.Style, p draw.Pen) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s G %s w ", num(greys[p.Role]), num(st.Width(p)))
	dashes := make([]string, 0, 6)
	for _, d := range p.Pattern() {
		dashes = append(dashes, num(d))
	}
	fmt.Fprintf(&b, "[%s] 0 d ", strings.Join(dashes, " "))
	ends, corners := 0, 1
	if p.Round {
		ends = 1
	}
	if p.Sharp {
		corners = 0
	}
	fmt.Fprintf(&b, "%d J %d j ", ends, corners)
	return b.String()
}

// finite reports whether every coordinate of the outline is a number.
func finite(o draw.Outline) bool {
	for _, s := range o {
		if x := s.P.X + s.P.Y + s.C1.X + s.C1.Y + s.C2.X + s.C2.Y + s.Bulge; math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}

// paint appends a path in the state given; the operators stand between q and Q.
func (s *Sheet) paint(b *block, st draw.Style, p draw.Path) {
	if len(p.Outline) == 0 {
		return
	}
	if !finite(p.Outline) {
		s.doc.fail("sheet %d: a coordinate of the path %q is no number", s.n+1, p.ID+p.Title)
		return
	}
	var w strings.Builder
	w.WriteString("q ")
	if p.Alpha > 0 && p.Alpha < 1 {
		fmt.Fprintf(&w, "/A%d gs ", s.alpha(p.Alpha))
	}
	path := pathOps(p.Outline)
	if p.Tone != draw.None {
		fmt.Fprintf(&w, "%s g %sf* ", num(greys[p.Tone]), path)
	}
	if p.Hatch.Draws() {
		if lines := p.Hatch.Lines(p.Outline); len(lines) > 0 {
			fmt.Fprintf(&w, "q %s%sS Q ", penOps(st, p.Hatch.Pen), pathOps(lines))
		}
	}
	if p.Pen.Draws() && st.Width(p.Pen) > 0 {
		fmt.Fprintf(&w, "%s%sS ", penOps(st, p.Pen), path)
	}
	w.WriteString("Q\n")
	b.ops = append(b.ops, op{raw: w.String()})
}

// letter appends a line of lettering.
func (s *Sheet) letter(b *block, t draw.Text) {
	if t.String() == "" {
		return
	}
	p, dx := t.BaseLine(), 0.0
	sin, cos := math.Sincos(t.Angle * math.Pi / 180)
	rx, ry := p.X-t.X, p.Y-t.Y
	for _, sp := range t.Pieces() {
		if !s.canSet(sp.Face, sp.S) {
			return
		}
		x, y := rx+dx, ry
		l := &line{x: t.X + cos*x + sin*y, y: t.Y - sin*x + cos*y, size: t.Size, face: sp.Face, s: sp.S, grey: greys[sp.Role], angle: t.Angle}
		if sp.Role == draw.None {
			dx += sp.Face.Width(sp.S, t.Size)
			continue
		}
		if v := l.x + l.y + l.size + l.angle; math.IsNaN(v) || math.IsInf(v, 0) {
			s.doc.fail("sheet %d: the place of %q is no number", s.n+1, sp.S)
			return
		}
		if t.Halo != draw.None {
			l.halo, l.haloGrey = 1, greys[t.Halo]
		}
		s.used[sp.Face&3] = true
		b.ops = append(b.ops, op{text: l})
		dx += sp.Face.Width(sp.S, t.Size)
	}
}

// canSet refuses signs the face lacks.
func (s *Sheet) canSet(f font.Face, str string) bool {
	miss := f.Missing(str)
	if len(miss) == 0 {
		return true
	}
	s.doc.fail("sheet %d: %q has %q, which the face %s lacks", s.n+1, str, string(miss), f)
	return false
}

// alpha is the number of the sheet's opacity a.
func (s *Sheet) alpha(a float64) int {
	for i, x := range s.alphas {
		if x == a {
			return i + 1
		}
	}
	s.alphas = append(s.alphas, a)
	return len(s.alphas)
}

// items appends a scene's items.
func (s *Sheet) items(b *block, st draw.Style, list []draw.Item) {
	for _, it := range list {
		switch v := draw.Plain(it).(type) {
		case draw.Path:
			s.paint(b, st, v)
		case draw.Text:
			s.letter(b, v)
		case draw.Group:
			m := v.Matrix()
			if x := m.A + m.B + m.C + m.D + m.E + m.F; math.IsNaN(x) || math.IsInf(x, 0) {
				s.doc.fail("sheet %d: the place of the group %q is no number", s.n+1, v.ID+v.Title)
				continue
			}
			open := "q "
			if m != draw.Identity {
				open += nums(m.A, m.B, m.C, m.D, m.E, m.F) + " cm "
			}
			if c := v.Clip; c != nil {
				open += nums(c.X0, c.Y0, c.X1-c.X0, c.Y1-c.Y0) + " re W n "
			}
			b.ops = append(b.ops, op{raw: open + "\n"})
			s.items(b, st, v.Items)
			b.ops = append(b.ops, op{raw: "Q\n"})
		}
	}
}
