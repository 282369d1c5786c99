package pdf

import (
	"fmt"
	"strconv"

	fimage "github.com/carlos7ags/folio/image"

	"jounce/internal/draw"
	"jounce/internal/draw/font"
)

// Sheet is one page. Places are millimetres from the top left corner, y down.
type Sheet struct {
	W, H float64 // [mm]

	doc    *Document
	format Format
	n      int
	blocks []*block
	used   [4]bool
	alphas []float64
	images []*fimage.Image
	links  []link
	later  []func(n, of int)
}

type link struct {
	box draw.Box
	to  *Sheet
}

// The margins and the frame of ISO 5457.
const (
	filing = 20.0 // [mm] the edge that is filed
	margin = 10.0 // [mm] the other edges
	border = 5.0  // [mm] from the frame to the outer border, where the zones stand
)

// Inner is the box inside the frame [mm].
func (s *Sheet) Inner() draw.Box {
	return draw.Box{X0: filing, Y0: margin, X1: s.W - margin, Y1: s.H - margin}
}

// zones is how many fields the frame has along and down.
func (s *Sheet) zones() (along, down int) {
	if s.format == Landscape {
		return 8, 4
	}
	return 4, 6
}

// Zone is the field of the sheet in which x, y [mm] lies, "C3": a letter down, a number along. Places outside count to the
// nearest field.
func (s *Sheet) Zone(x, y float64) string {
	in := s.Inner()
	along, down := s.zones()
	at := func(v, lo, hi float64, n int) int {
		return min(max(int((v-lo)/(hi-lo)*float64(n)), 0), n-1)
	}
	return string(rune('A'+at(y, in.Y0, in.Y1, down))) + strconv.Itoa(1+at(x, in.X0, in.X1, along))
}

// paper is the style of what the sheet draws itself.
var paper = draw.ForPaper()

// Frame draws the frame of 0.7 mm, the outer border and the zones.
func (s *Sheet) Frame() {
	in := s.Inner()
	b := s.artifact()
	s.paint(b, paper, draw.Rect(in.X0-border, in.Y0-border, in.X1-in.X0+2*border, in.Y1-in.Y0+2*border).Stroke(thin()))
	along, down := s.zones()
	ticks := draw.Outline{}
	mark := func(x, y float64, str string) {
		s.letter(b, draw.Text{X: x, Y: y, S: str, Size: 8 * draw.Pt72, Role: draw.Ink, Anchor: draw.Middle, Base: draw.Mid})
	}
	for i := range along {
		step := (in.X1 - in.X0) / float64(along)
		x := in.X0 + float64(i)*step
		if i > 0 {
			ticks = ticks.MoveTo(x, in.Y0-border).LineTo(x, in.Y0).MoveTo(x, in.Y1).LineTo(x, in.Y1+border)
		}
		mark(x+step/2, in.Y0-border/2, strconv.Itoa(i+1))
		mark(x+step/2, in.Y1+border/2, strconv.Itoa(i+1))
	}
	for i := range down {
		step := (in.Y1 - in.Y0) / float64(down)
		y := in.Y0 + float64(i)*step
		if i > 0 {
			ticks = ticks.MoveTo(in.X0-border, y).LineTo(in.X0, y).MoveTo(in.X1, y).LineTo(in.X1+border, y)
		}
		mark(in.X0-border/2, y+step/2, string(rune('A'+i)))
		mark(in.X1+border/2, y+step/2, string(rune('A'+i)))
	}
	s.paint(b, paper, ticks.Stroke(thin()))
	s.paint(b, paper, draw.Rect(in.X0, in.Y0, in.X1-in.X0, in.Y1-in.Y0).Stroke(draw.Pen{Role: draw.Ink, MM: 0.7, Sharp: true}))
}

func thin() draw.Pen { return draw.Pen{Role: draw.Ink, MM: 0.25, Sharp: true} }

// artifact is a new block that is no content: frames, rules.
func (s *Sheet) artifact() *block { return s.tagged("", "") }

// tagged is a new block with a tag and, for a figure, the words that stand for it.
func (s *Sheet) tagged(tag, alt string) *block {
	b := &block{tag: tag, alt: alt}
	s.blocks = append(s.blocks, b)
	return b
}

// Line draws a line of w [mm] in the role; it is no content.
func (s *Sheet) Line(x0, y0, x1, y1, w float64, r draw.Role) {
	s.paint(s.artifact(), paper, draw.Line(x0, y0, x1, y1).Stroke(draw.Pen{Role: r, MM: w}))
}

// Rect draws a rectangle of line width w [mm]; it is no content. w 0 draws no edge, tone None no ground.
func (s *Sheet) Rect(x, y, width, height, w float64, tone draw.Role) {
	s.paint(s.artifact(), paper, draw.Rect(x, y, width, height).FillStroke(tone, draw.Pen{Role: draw.Ink, MM: w, Sharp: true}))
}

// Path draws a path in the paper's widths; it is no content.
func (s *Sheet) Path(p draw.Path) { s.paint(s.artifact(), paper, p) }

// Text letters one line, as content of its own.
func (s *Sheet) Text(t draw.Text) { s.letter(s.tagged("P", ""), t) }

// Scene draws the scene at its true size with its top left corner at x, y [mm]. Its title and description stand for it where
// it cannot be seen.
func (s *Sheet) Scene(x, y float64, sc draw.Scene) {
	alt := sc.Title
	if sc.Desc != "" {
		alt += ". " + sc.Desc
	}
	if alt == "" {
		alt = "figure"
	}
	b := s.tagged("Figure", alt)
	st := sc.Style
	if st.W[draw.W1] == 0 {
		st = paper
	}
	s.items(b, st, []draw.Item{draw.Group{DX: x, DY: y, Items: sc.Items}})
}

// Mark draws the verdict mark with its top left corner at x, y in a box of the size [mm], 4 in lists and 6 beside a claim.
// The word that always stands with it is the caller's.
func (s *Sheet) Mark(m draw.Mark, x, y, size float64) {
	b := s.tagged("Figure", m.Words())
	for _, p := range draw.MarkPaths(m, x, y, size/draw.MarkBox) {
		s.paint(b, paper, p)
	}
}

// Photo draws the photo into the box; alt says what it shows.
func (s *Sheet) Photo(box draw.Box, p *Photo, alt string) {
	n := 0
	for i, im := range s.images {
		if im == p.im {
			n = i + 1
		}
	}
	if n == 0 {
		s.images = append(s.images, p.im)
		n = len(s.images)
	}
	b := s.tagged("Figure", alt)
	b.ops = append(b.ops, op{raw: fmt.Sprintf("q %s cm /I%d Do Q\n", nums(box.X1-box.X0, 0, 0, box.Y0-box.Y1, box.X0, box.Y1), n)})
}

// Link makes the box lead to another sheet.
func (s *Sheet) Link(box draw.Box, to *Sheet) { s.links = append(s.links, link{box, to}) }

// Numbered calls f when the document is finished, with the number of this sheet and of all; f may draw.
func (s *Sheet) Numbered(f func(n, of int)) { s.later = append(s.later, f) }

// SheetOf is the line "sheet 1 of 2" with its base line at x, y [mm].
func (s *Sheet) SheetOf(x, y float64, st Style) {
	s.Numbered(func(n, of int) {
		s.Text(draw.Text{X: x, Y: y, S: fmt.Sprintf("sheet %d of %d", n, of), Size: st.Size, Face: st.Face, Role: st.Role})
	})
}

// Style is how lettering on a sheet is set.
type Style struct {
	Size float64 // [mm] the em
	Lead float64 // [1] distance of base lines by size
	Face font.Face
	Role draw.Role
}

// The styles of the papers.
var (
	Title   = Style{19 * draw.Pt72, 1.1, font.Norm600, draw.Ink}    // the sheet's title
	Big     = Style{17 * draw.Pt72, 1.05, font.Norm600, draw.Ink}   // a certificate's number
	Claimed = Style{12 * draw.Pt72, 1.2, font.Norm600, draw.Ink}    // a certificate's claim
	Figure  = Style{10.5 * draw.Pt72, 1.1, font.Norm600, draw.Ink}  // a finding's number
	Head    = Style{8.6 * draw.Pt72, 1.2, font.Cond600, draw.Ink2}  // section headings
	Text9   = Style{9 * draw.Pt72, 1.3, font.Cond500, draw.Ink}     // text of a certificate
	List    = Style{8.6 * draw.Pt72, 1.24, font.Cond500, draw.Ink}  // lists, findings
	Caption = Style{7.4 * draw.Pt72, 1.15, font.Cond500, draw.Ink2} // captions; nothing is smaller
)

// In is the style in another role.
func (st Style) In(r draw.Role) Style { st.Role = r; return st }

// Bold is the style with weight 600.
func (st Style) Bold() Style { st.Face = st.Face.Bold(); return st }

// Sized is the style with the size [pt].
func (st Style) Sized(pt float64) Style { st.Size = pt * draw.Pt72; return st }

// Line is the distance of base lines [mm].
func (st Style) Line() float64 { return st.Size * st.Lead }

// base is how far below the top of its line a base line stands [mm].
func (st Style) base() float64 { return st.Line()/2 + st.Size*(font.Ascent-font.Descent)/2 }

// Heading letters a heading of the level (1 to 3) with the top of its line at x, y [mm] and says its height.
func (s *Sheet) Heading(level int, x, y float64, st Style, str string) float64 {
	b := s.tagged("H"+strconv.Itoa(min(max(level, 1), 6)), "")
	s.letter(b, draw.Text{X: x, Y: y + st.base(), S: str, Size: st.Size, Face: st.Face, Role: st.Role})
	return st.Line()
}
