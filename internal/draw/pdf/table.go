package pdf

import "jounce/internal/draw"

// Col is a column of a table.
type Col struct {
	W     float64 // [mm] with the gap to the next
	Align Align
	Head  string
}

// Cell is the runs of one field.
type Cell []Run

// Row is the cells of one row, with how the row is set.
type Row struct {
	Cells []Cell
	Bold  bool // weight 600 under a rule of 0.35 mm: sums
}

// Cells is a row of plain fields.
func Cells(s ...string) Row {
	r := Row{}
	for _, c := range s {
		r.Cells = append(r.Cells, Cell{Plain(c)})
	}
	return r
}

// Table is rows between thin rules, without column rules or stripes; numbers stand right.
type Table struct {
	Cols []Col
	Rows []Row
	Body Style   // of the rows; List when its size is 0
	Pad  float64 // [mm] above and below a row's text; 0.65 when 0
	Gap  float64 // [mm] free at the right of each column but the last; 1.5 when 0
}

func (t Table) filled() Table {
	if t.Body.Size == 0 {
		t.Body = List
	}
	if t.Pad == 0 {
		t.Pad = 0.65
	}
	if t.Gap == 0 {
		t.Gap = 1.5
	}
	return t
}

func (t Table) room(i int) float64 {
	if i == len(t.Cols)-1 {
		return t.Cols[i].W
	}
	return t.Cols[i].W - t.Gap
}

func (t Table) style(r Row) Style {
	if r.Bold {
		return t.Body.Bold()
	}
	return t.Body
}

// HeadHeight is how tall the head is [mm]; 0 when no column has one.
func (t Table) HeadHeight() float64 {
	t = t.filled()
	h := 0.0
	for i, c := range t.Cols {
		if c.Head != "" {
			h = max(h, Height(Head, t.room(i), Plain(c.Head))+t.Pad)
		}
	}
	return h
}

// RowHeight is how tall row i is with its rule [mm].
func (t Table) RowHeight(i int) float64 {
	t = t.filled()
	h := t.Body.Line()
	for j, c := range t.Rows[i].Cells {
		if j < len(t.Cols) {
			h = max(h, Height(t.style(t.Rows[i]), t.room(j), c...))
		}
	}
	return h + 2*t.Pad
}

// Fit is the end of the run of rows from that fits into h [mm] together with the head; from when not one row does.
func (t Table) Fit(from int, h float64) int {
	h -= t.HeadHeight()
	for i := from; i < len(t.Rows); i++ {
		if h -= t.RowHeight(i); h < -1e-9 {
			return i
		}
	}
	return len(t.Rows)
}

// Table draws the head and the rows from (included) to to (excluded) with the top at x, y [mm] and says the height.
func (s *Sheet) Table(x, y float64, t Table, from, to int) float64 {
	t = t.filled()
	total := 0.0
	for _, c := range t.Cols {
		total += c.W
	}
	top := y
	tab := &block{tag: "Table"}
	var rules draw.Outline
	var bold draw.Outline
	if h := t.HeadHeight(); h > 0 {
		tr := &block{tag: "TR"}
		at := x
		for i, c := range t.Cols {
			th := &block{tag: "TH"}
			up := h - t.Pad - Height(Head, t.room(i), Plain(c.Head))
			s.para(th, at, y+up, t.room(i), Head, c.Align, []Run{Plain(c.Head)})
			tr.kids = append(tr.kids, th)
			at += c.W
		}
		tab.kids = append(tab.kids, tr)
		y += h
	}
	for i := from; i < to && i < len(t.Rows); i++ {
		r, h := t.Rows[i], t.RowHeight(i)
		tr := &block{tag: "TR"}
		at := x
		for j, c := range t.Cols {
			td := &block{tag: "TD"}
			if j < len(r.Cells) {
				s.para(td, at, y+t.Pad, t.room(j), t.style(r), c.Align, r.Cells[j])
			}
			tr.kids = append(tr.kids, td)
			at += c.W
		}
		tab.kids = append(tab.kids, tr)
		if r.Bold {
			bold = bold.MoveTo(x, y).LineTo(x+total, y)
		} else {
			rules = rules.MoveTo(x, y).LineTo(x+total, y)
		}
		y += h
	}
	b := s.artifact()
	s.paint(b, paper, rules.Stroke(draw.Pen{Role: draw.Rule, MM: 0.25}))
	s.paint(b, paper, bold.Stroke(draw.Pen{Role: draw.Ink, MM: 0.35}))
	s.blocks = append(s.blocks, tab)
	return y - top
}

// Field is one field of a title block, after ISO 7200: a caption over a value.
type Field struct {
	Caption string
	Value   string
	Span    int     // of six columns; 2 when 0
	H       float64 // [mm] least height; 8.4 when 0. A place to sign takes 14
	Big     bool    // the value in 11.5 pt
	Sheet   bool    // the value is "1 of 2", filled in when the document is finished
	Runs    []Run   // set instead of Value
}

const (
	fieldPad  = 0.7 // [mm] above and below
	fieldSide = 1.6 // [mm] left and right
)

func (f Field) style() Style {
	if f.Big {
		return Text9.Bold().Sized(11.5)
	}
	return Text9.Bold()
}

func (f Field) runs() []Run {
	if len(f.Runs) > 0 {
		return f.Runs
	}
	return []Run{Plain(f.Value)}
}

func (f Field) span() int {
	if f.Span <= 0 {
		return 2
	}
	return min(f.Span, 6)
}

// height is how tall the field is in a column of w [mm].
func (f Field) height(w float64) float64 {
	st := f.style()
	st.Lead = 1.15
	h := 2*fieldPad + Caption.Line() + max(st.Line(), Height(st, w-2*fieldSide, f.runs()...))
	least := f.H
	if least == 0 {
		least = 8.4
	}
	return max(h, least)
}

// TitleBlockHeight is how tall the rows are in a block of w [mm].
func TitleBlockHeight(w float64, rows [][]Field) float64 {
	h := 0.0
	for _, r := range rows {
		h += rowHeight(w, r)
	}
	return h
}

func rowHeight(w float64, r []Field) float64 {
	h := 0.0
	for _, f := range r {
		h = max(h, f.height(w/6*float64(f.span())))
	}
	return h
}

// TitleBlock draws the rows of fields with the right or left lower corner of the block at the foot of the frame: x is its left,
// bottom its foot, w its width [mm]. A line of 0.5 mm stands above it and at its left. It says the height.
func (s *Sheet) TitleBlock(x, bottom, w float64, rows [][]Field) float64 {
	total := TitleBlockHeight(w, rows)
	y := bottom - total
	var inner draw.Outline
	for i, r := range rows {
		h, at := rowHeight(w, r), x
		if i > 0 {
			inner = inner.MoveTo(x, y).LineTo(x+w, y)
		}
		for j, f := range r {
			fw := w / 6 * float64(f.span())
			if j > 0 {
				inner = inner.MoveTo(at, y).LineTo(at, y+h)
			}
			s.field(at, y, fw, f)
			at += fw
		}
		y += h
	}
	b := s.artifact()
	s.paint(b, paper, inner.Stroke(thin()))
	edge := draw.Pen{Role: draw.Ink, MM: 0.5, Sharp: true}
	s.paint(b, paper, draw.Polyline(draw.Pt(x, bottom), draw.Pt(x, bottom-total), draw.Pt(x+w, bottom-total)).Stroke(edge))
	return total
}

func (s *Sheet) field(x, y, w float64, f Field) {
	b := s.tagged("P", "")
	y += fieldPad
	if f.Caption != "" {
		y += s.para(b, x+fieldSide, y, w-2*fieldSide, Caption, Left, []Run{Plain(f.Caption)})
	}
	st := f.style()
	st.Lead = 1.15
	if f.Sheet {
		s.Numbered(func(n, of int) {
			s.para(b, x+fieldSide, y, w-2*fieldSide, st, Left, []Run{Plain(num(float64(n)) + " of " + num(float64(of)))})
		})
		return
	}
	s.para(b, x+fieldSide, y, w-2*fieldSide, st, Left, f.runs())
}
