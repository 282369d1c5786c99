package report

import (
	"strings"

	"jounce/internal/draw"
	"jounce/internal/draw/pdf"
	"jounce/internal/figure"
	"jounce/internal/finding"
	"jounce/source"
)

// Certificate is the leak and relief certificate of one test: what it claims,
// what was read, what the cold explains, and with what.
type Certificate struct {
	Block
	Test        string            // "Leak test 1, tank"
	Refused     string            // why the test is refused, empty where it is not
	Findings    []finding.Finding // of this test: tank, corners, relief, joints
	Holds       bool              // the hold point stays shut
	Decay       figure.Decay      // the chart; without curves and readings it says so
	ChartTitle  string            // "Tank, 10 L, shut from 18:00 to 06:00"
	Rows        []Reading
	Conditions  []string // sentences: when filled, how isolated, who tested
	Corners     [4]Corner
	Plan        figure.Plan
	Instruments []Instrument
	Working     *finding.Working // of the tank; nil where it was not worked out
	Span        string           // when and how warm: "from 2 April 2026, 18:00 to …, at 8 to 20 °C"
}

// Reading is one look at thermometer and gauge, and what the cold explains.
type Reading struct {
	Clock                               string
	Temperature, Gauge, ColdAlone, Lost finding.Number
}

// Corner is one corner over the test.
type Corner struct {
	Name        string // "FL"
	Known       bool
	From, To    string         // clocks of its two heights
	Start, End  finding.Number // hub to arch as read [m]
	Sank        finding.Number // [m]
	ByCold      finding.Number // [m]
	Unexplained finding.Number // as 12 h [m]
	Verdict     finding.Verdict
	Gap         string // why it is not known
	Steel       bool   // it does not stand on air, and is no part of the test
}

// Instrument is one instrument that readings of the test name.
type Instrument struct {
	Name        string
	Accuracy    string // "± 0.04 bar"
	Checked     string // "checked 9 February 2026"
	NotEvidence string // why readings with it are no evidence; empty where they are
}

// The parts of a portrait sheet [mm].
const (
	margin    = 5.0   // between frame and text
	blockWide = 107.0 // of the title block
	leftWide  = 104.0 // of the left of two parts
	between   = 5.0   // the two parts
)

// certificate is the paper under work.
type certificate struct {
	*paper
	Certificate
	flow  flow
	first *pdf.Sheet
	from  int    // the first reading that did not fit beside the chart
	later []unit // instruments that did not fit beside the corners
}

// PDF writes the certificate: one sheet, more where the readings or the words
// do not fit. The error is that of the document.
func (c Certificate) PDF() ([]byte, error) {
	p := &certificate{paper: newPaper(c.Block, "21", "Leak and relief", "Leak and relief certificate"), Certificate: c}
	p.open()
	p.claims()
	p.decay()
	p.corners()
	p.working()
	p.readingsLeft()
	p.instrumentsLeft()
	p.longWords()
	return p.doc.Bytes()
}

// open makes the first sheet with its title and what stands at its foot.
func (p *certificate) open() {
	s := p.doc.Sheet(pdf.Portrait)
	p.first = s
	s.Frame()
	box := s.Inner()
	y := box.Y0 + 4
	s.Heading(1, box.X0+margin, y, pdf.Title, "Leak and relief certificate")
	s.ParaAt(box.X0+margin, y+2.4, box.X1-box.X0-2*margin, pdf.Text9.Sized(10), pdf.Right, pdf.Plain("hold point 2, air system of one car"))
	y += pdf.Title.Line() + 2.6
	s.Line(box.X0, y, box.X1, y, 0.5, draw.Ink)
	p.doc.Bookmark("Leak and relief certificate", s, box.Y0).Bookmark("Claims", s, y)
	foot := p.foot(s)
	p.flow = flow{cols: []*column{{s, box.X0 + margin, y + 1.4, box.X1 - box.X0 - 2*margin, foot}}, more: p.more}
}

// more is the sheet that goes on.
func (p *certificate) more() []*column {
	s := p.doc.Sheet(pdf.Portrait)
	s.Frame()
	box := s.Inner()
	y := box.Y0 + 4
	y += s.Heading(1, box.X0+margin, y, pdf.Claimed, "Leak and relief certificate, continued") + 2
	s.Line(box.X0, y, box.X1, y, 0.5, draw.Ink)
	p.doc.Bookmark("Continued", s, box.Y0)
	h := s.TitleBlock(box.X1-blockWide, box.Y1, blockWide, p.small())
	return []*column{{s, box.X0 + margin, y + 2, box.X1 - box.X0 - 2*margin, box.Y1 - h - 1}}
}

// foot draws what the paper says and does not beside the title block, and says
// where the room above ends.
func (p *certificate) foot(s *pdf.Sheet) float64 {
	rows := append([][]pdf.Field{{
		{Caption: "tested by, air", H: 14}, {Caption: "checked by", H: 14}, {Caption: "keeper has seen it", H: 14},
	}}, p.named()...)
	rows = append(rows,
		[]pdf.Field{p.field("car", p.Car, 3), p.field("keeper", p.Keeper, 3)},
		[]pdf.Field{p.field("shop", p.Shop, 2), {Caption: "date", Value: p.b.date()}, {Caption: "sheet", Sheet: true}},
		p.record())
	box := s.Inner()
	x, w := box.X0+margin, box.X1-box.X0-blockWide-2*margin+2
	say := p.says()
	h := 3 + pdf.Head.Line() + 1.2 + total(say, w) + 1
	if more := h - pdf.TitleBlockHeight(blockWide, rows); more > 0 {
		for i := range rows[0] {
			rows[0][i].H += more // the places to sign take what is left
		}
	}
	h = max(h, pdf.TitleBlockHeight(blockWide, rows))
	y := box.Y1 - h
	s.Line(box.X0, y, box.X1, y, 0.5, draw.Ink)
	s.TitleBlock(box.X1-blockWide, box.Y1, blockWide, rows)
	s.Line(box.X1-blockWide, y, box.X1-blockWide, box.Y1, 0.5, draw.Ink)
	col := column{s, x, y + 3, w, box.Y1}
	col.put(heading(2, "What this paper says, and does not"))
	for _, u := range say {
		col.put(u)
	}
	return y - 0.5
}

// says is what the paper is good for.
func (p *certificate) says() []unit {
	st := pdf.List
	span := "The air system as it stood at this test"
	if p.Span != "" {
		span = "The air system as read " + p.Span
	}
	us := paras(st, 0.9, plain(span+". Not the ride, the brakes, or any fitting opened since. Whether the car may be driven, law, insurer and tester decide."))
	words, published := legend(p.Findings, source.Calc)
	us = append(us, paras(st, 0.9, append(words, published...)...)...)
	return append(us, paras(st, 0, plain("± holds 95 in 100. Pressures are gauge; 1"+nbsp+"bar is 14.504"+nbsp+"psi. The program signs nothing."))...)
}

// claims are the findings of the test, with what they do to the hold point.
func (p *certificate) claims() {
	for i, f := range p.Findings {
		p.flow.all(p.claim(f, i > 0))
	}
	if len(p.Findings) == 0 {
		p.flow.all(paras(pdf.Claimed, 1, plain("Nothing is claimed: nothing of this test is recorded.")))
	}
	p.flow.put(gap(0.6))
	p.flow.all(paras(pdf.Text9, 1.2, p.hold()...))
}

// hold says whether hold point 2 stays shut and why.
func (p *certificate) hold() []pdf.Run {
	var because []string
	if len(p.Findings) == 0 {
		because = append(because, "the test is not begun")
	}
	if p.Refused != "" {
		because = append(because, "the test is refused")
	}
	stale := false
	for _, f := range p.Findings {
		stale = stale || f.NotEvidence != ""
		if f.Verdict != finding.Pass && f.Holds() && !strings.HasSuffix(f.ID, ".refused") {
			because = append(because, held(f))
		}
	}
	if stale {
		because = append(because, "a reading above is not evidence")
	}
	if p.Holds && len(because) == 0 {
		because = append(because, "something above is not settled")
	}
	if len(because) > 0 {
		return []pdf.Run{claim("Hold point 2 stays shut: "), plain(stop(strings.Join(because, "; ")))}
	}
	return []pdf.Run{plain("Nothing above holds the work at hold point 2. The people who sign below decide.")}
}

// held is why one finding holds.
func held(f finding.Finding) string {
	what := f.ID
	if i := strings.LastIndexByte(what, '.'); i >= 0 {
		what = what[i+1:]
	}
	if len(f.Needs) > 0 || f.Shown == "not read" {
		return what + " not read"
	}
	return what + ", " + strings.ToLower(f.Verdict.String())
}

// claim is one finding with its mark of 6 mm, its words and its number.
func (p *certificate) claim(f finding.Finding, ruled bool) []unit {
	const mark6, left, figure, pad = 6.0, 10.6, 42.0, 1.25
	split := paras(pdf.Text9, 0, after(f, true, true, true)...)
	head := letters(stop(f.Claim))
	big, rest := number(f)
	if big == "" && rest == "not known" {
		rest = "not read"
	}
	var out []unit
	for i, u := range split {
		if i > 0 {
			out = append(out, inset(u, left, figure))
			continue
		}
		up := func(w float64) float64 { return pdf.Height(pdf.Claimed, w-left-figure, pdf.Plain(head)) }
		out = append(out, unit{
			height: func(w float64) float64 { return max(up(w)+u.height(w-left-2), mark6) + 2*pad },
			draw: func(s *pdf.Sheet, x, y, w float64) {
				if ruled {
					s.Line(x, y, x+w, y, 0.25, draw.Rule)
				}
				s.Mark(mark(f.Verdict), x, y+pad, mark6)
				h := s.Para(x+left, y+pad-0.4, w-left-figure, pdf.Claimed, pdf.Plain(head))
				s.ParaAt(x+w-figure, y+pad-1.3, figure, pdf.Big, pdf.Right, numberRuns(pdf.Big, pdf.Text9, big, rest)...)
				u.draw(s, x+left, y+pad-0.4+h, w-left-2)
			},
		})
	}
	return out
}

// inset is the unit with room kept free left and right [mm].
func inset(u unit, left, right float64) unit {
	return unit{
		height: func(w float64) float64 { return u.height(w - left - right) },
		draw:   func(s *pdf.Sheet, x, y, w float64) { u.draw(s, x+left, y, w-left-right) },
	}
}

// ruled is a section's line from frame to frame.
func ruled() unit {
	return unit{
		height: func(float64) float64 { return 2 },
		draw: func(s *pdf.Sheet, _, y, _ float64) {
			in := s.Inner()
			s.Line(in.X0, y, in.X1, y, 0.25, draw.Ink)
		},
	}
}

// longWords are the texts that were too long for the title block.
func (p *certificate) longWords() {
	if len(p.long) == 0 {
		return
	}
	p.flow.put(ruled())
	p.flow.all(inFull(p.long))
}
