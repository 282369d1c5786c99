package report

import (
	"fmt"
	"strings"

	"jounce/internal/draw"
	"jounce/internal/draw/pdf"
	"jounce/internal/figure"
	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/source"
)

// Design is the design page: the conversion on one side before steel is cut,
// with what holds it up.
type Design struct {
	Block
	Side     figure.Side
	Places   map[string][2]float64 // where a finding lies on the car, by its id: behind the front hub and over the floor at ROAD [m]
	Axles    [2]Axle
	Corners  [4]Spring
	Weighed  string            // a paragraph on weights and how they were weighed
	Findings []finding.Finding // failures first; the wishes are apart
	Wishes   []Wish
	Problems []job.Problem // what stands in the record and cannot be used
	Look     *Look         // the customer's picture at the presets; nil for none
}

// Axle is the travel of one end, at the wheel from ROAD.
type Axle struct {
	Name             string         // "front"
	Why              string         // why there is no travel; empty where there is
	Bump, Droop      []End          // what ends it, the first first
	StopMeets        finding.Number // where the stop is first touched [m]
	Down, Hump, High finding.Number // the presets from ROAD [m]
}

// End is one part that ends travel.
type End struct {
	Name string
	At   finding.Number // [m]
}

// Spring is one corner at ROAD.
type Spring struct {
	Name     string            // "FL"
	Pressure [3]finding.Number // empty, driver, full [Pa]
	Other    string            // the driver's pressure in the other unit: "51 psi"
	Ride     finding.Number    // [Hz]
	Why      string            // why there is no pressure
}

// Wish is one wish in the customer's own words with what became of it.
type Wish struct {
	Words   string
	Finding finding.Finding
}

// The parts of the design page [mm].
const (
	leftColumn  = 70.0
	rightColumn = 84.0
	columnPad   = 3.0
	pictureHigh = 110.0 // at most
)

// design is the paper under work.
type design struct {
	*paper
	Design
	s     *pdf.Sheet
	scale string
	spot  func(x, z float64) draw.Point // [mm] on the sheet of a place of the car
	top   float64                       // [mm] where the columns begin
	under *column                       // what is left under the wishes
	rest  []unit                        // what did not fit on side one
	words []string
}

// PDF writes the design page: one side, and further sheets for what did not fit
// on it. Side one says what is left out there. The error is that of the
// document.
func (d Design) PDF() ([]byte, error) {
	p := &design{paper: newPaper(d.Block, "01", "Design page, hold 1", "Design page"), Design: d}
	p.Side.LowestName = p.brief("lowest part", p.Side.LowestName, 32)
	p.s = p.doc.Sheet(pdf.Landscape)
	p.s.Frame()
	p.doc.Bookmark("Design page", p.s, p.s.Inner().Y0)
	p.picture()
	p.left()
	p.right()
	p.middle()
	p.decide()
	p.sheets()
	if err := p.look(); err != nil {
		return nil, err
	}
	return p.doc.Bytes()
}

// picture draws the heights picture at the largest scale of ISO 5455 at which
// it fits.
func (p *design) picture() {
	in := p.s.Inner()
	st := draw.ForPaper()
	wide := in.X1 - in.X0 - 2*columnPad
	sc, n := figure.SideView(p.Side, wide, st), figure.SideScale(p.Side, wide, st)
	for w := wide; sc.H > pictureHigh && w > 40; w *= 0.93 {
		if m := figure.SideScale(p.Side, w, st); m != n {
			sc, n = figure.SideView(p.Side, w, st), m
		}
	}
	p.scale = fmt.Sprintf("1 : %d", n)
	if !p.Side.Body.Wheelbase.Known {
		p.scale = "not to scale"
		p.words = append(p.words, "The wheelbase is not read: the car is drawn by its body form and is not to scale.")
	}
	y := in.Y0 - 2.5 // the scene keeps room for lettering above the car
	x := in.X0 + (in.X1-in.X0-sc.W)/2
	p.s.Scene(x, y, sc)
	p.spot = func(back, up float64) draw.Point { return figure.SidePoint(p.Side, sc.W, st, back, up).Add(x, y) }
	p.top = y + sc.H + 0.2
	p.s.Line(in.X0, p.top, in.X1, p.top, 0.35, draw.Ink)
}

func (p *design) left() {
	in := p.s.Inner()
	p.s.Line(in.X0+leftColumn, p.top, in.X0+leftColumn, in.Y1, 0.35, draw.Ink)
	c := &column{p.s, in.X0 + columnPad, p.top + 2.4, leftColumn - 2*columnPad, in.Y1 - 1}
	units := []unit{heading(2, "Travel at the wheel, mm from ROAD, and what ends it")}
	units = append(units, p.travel(c.w), gap(1.6), heading(2, "Corners at ROAD, front up"), p.quad(), gap(0.6))
	for _, w := range append(p.words, p.Weighed) {
		if w != "" {
			units = append(units, paras(pdf.List, 0.8, plain(w))...)
		}
	}
	p.keep(c, append(units, p.conventions()...))
}

// keep puts the units into the column of side one, and what does not fit after
// the findings of the next sheet.
func (p *design) keep(c *column, us []unit) {
	for i, u := range us {
		if !c.fits(u) {
			p.rest = append(p.rest, us[i:]...)
			return
		}
		c.put(u)
	}
}

// travel is the table of what ends travel at both ends.
func (p *design) travel(w float64) unit {
	tab := pdf.Table{Pad: 0.3, Gap: 1, Cols: []pdf.Col{{W: w - 46}, {W: 23, Align: pdf.Right, Head: p.axleName(0)}, {W: 23, Align: pdf.Right, Head: p.axleName(1)}}}
	add := func(name string, f func(a Axle) string) {
		row := []string{name}
		any := false
		for _, a := range p.Axles {
			s := f(a)
			any = any || s != ""
			row = append(row, letters(or(s, "not read")))
		}
		if any {
			tab.Rows = append(tab.Rows, pdf.Cells(row...))
		}
	}
	end := func(es []End, i int) string {
		if i >= len(es) {
			return ""
		}
		return bare(es[i].At) + " " + strings.ReplaceAll(p.brief("what ends travel", es[i].Name, 16), " ", nbsp)
	}
	value := func(n finding.Number) string {
		if !n.Known() {
			return ""
		}
		return signed(n)
	}
	add("room up", func(a Axle) string { return a.first(end(a.Bump, 0)) })
	add("stop met at", func(a Axle) string { return unread(a.StopMeets) })
	add("room down", func(a Axle) string { return a.first(end(a.Droop, 0)) })
	add("DOWN", func(a Axle) string { return value(a.Down) })
	add("HUMP", func(a Axle) string { return value(a.Hump) })
	add("HIGH", func(a Axle) string { return value(a.High) })
	if len(tab.Rows) == 0 {
		tab.Rows = []pdf.Row{pdf.Cells("travel", "not read", "not read")}
	}
	return unit{
		height: func(float64) float64 { return tableHeight(tab, len(tab.Rows)) },
		draw:   func(s *pdf.Sheet, x, y, _ float64) { s.Table(x, y, tab, 0, len(tab.Rows)) },
	}
}

// first is the words, or why there are none.
func (a Axle) first(s string) string {
	if s == "" {
		return a.Why
	}
	return s
}

func unread(n finding.Number) string {
	if !n.Known() {
		return ""
	}
	return bare(n)
}

func (p *design) axleName(i int) string {
	return letters(or(p.Axles[i].Name, [2]string{"front", "rear"}[i]))
}

// signed is a preset's change with its sign.
func signed(n finding.Number) string {
	s := bare(n)
	if n.Value > 0 {
		return "+" + s
	}
	return s
}

// quad is the four corners as they stand on the car.
func (p *design) quad() unit {
	text := func(k int) []pdf.Run {
		c := p.Corners[k]
		out := []pdf.Run{claim(c.Name + "  ")}
		if !c.Pressure[1].Known() {
			return append(out, plain(p.brief("why "+c.Name+" has no pressure", or(c.Why, "not read"), 60)))
		}
		out = append(out, claim(c.Pressure[1].String()))
		if c.Other != "" {
			out = append(out, plain(", "+c.Other))
		}
		return out
	}
	more := func(k int) []pdf.Run {
		c := p.Corners[k]
		if !c.Pressure[1].Known() {
			return nil
		}
		s := "ride not read"
		if c.Ride.Known() {
			s = c.Ride.String()
		}
		switch e, f := c.Pressure[0], c.Pressure[2]; {
		case e.Known() && f.Known():
			s += ". Empty " + alone(e) + ", full " + f.String()
		case e.Known():
			s += ". Empty " + e.String() + ", full not read"
		case f.Known():
			s += ". Empty not read, full " + f.String()
		default:
			s += ". Empty, full not read"
		}
		return []pdf.Run{plain(s)}
	}
	st := pdf.List
	cell := func(k int, w float64) float64 {
		return pdf.Height(st, w, text(k)...) + pdf.Height(st, w, more(k)...) + 1.2
	}
	row := func(i int, w float64) float64 { return max(cell(2*i, w), cell(2*i+1, w)) }
	return unit{
		height: func(w float64) float64 { w = w/2 - 1.5; return row(0, w) + row(1, w) },
		draw: func(s *pdf.Sheet, x, y, w float64) {
			cw := w/2 - 1.5
			for i := range 2 {
				s.Line(x, y, x+w, y, 0.25, draw.Rule)
				for k := range 2 {
					at := x + float64(k)*(cw+3)
					h := s.Para(at, y+0.6, cw, st, text(2*i+k)...)
					s.Para(at, y+0.6+h, cw, st, more(2*i+k)...)
				}
				y += row(i, cw)
			}
		},
	}
}

// right are the wishes over the title block.
func (p *design) right() { p.under = p.wishes() }

// wishes draws the wishes over the title block and says where they end.
func (p *design) wishes() *column {
	in := p.s.Inner()
	x := in.X1 - rightColumn
	rows := p.fields()
	h := p.s.TitleBlock(x, in.Y1, rightColumn, rows)
	p.s.Line(x, p.top, x, in.Y1-h, 0.35, draw.Ink)
	c := &column{p.s, x + columnPad, p.top + 2.4, rightColumn - 2*columnPad, in.Y1 - h - 1}
	c.put(heading(2, "Wishes, in the customer’s words"))
	if len(p.Wishes) == 0 {
		p.keep(c, paras(pdf.List, 0, plain("No wish is recorded.")))
		return c
	}
	var all []unit
	for i, w := range p.Wishes {
		all = append(all, wish(i+1, w, true)...)
	}
	if total(all, c.w) > c.bottom-c.y {
		all = nil
		for i, w := range p.Wishes {
			all = append(all, wish(i+1, w, false)...)
		}
		var full []unit
		for i, w := range p.Wishes {
			full = append(full, wish(i+1, w, true)...)
		}
		p.rest = append(p.rest, joined(heading(2, "Wishes, with what became of them"), full)...)
		note := paras(pdf.List, 0, plain("What became of each stands from sheet 2 on."))
		room := c.bottom - c.y - total(note, c.w)
		n := 0
		for n < len(all) && total(all[:n+1], c.w) <= room {
			n++
		}
		if n < len(all) {
			note = paras(pdf.List, 0, plain("More wishes, and what became of each, stand from sheet 2 on."))
		}
		for _, u := range append(all[:n:n], note...) {
			c.put(u)
		}
		return c
	}
	for _, u := range all {
		c.put(u)
	}
	return c
}

// wish is one wish: number, words, mark; below what became of it.
func wish(n int, w Wish, full bool) []unit {
	quoted := claim("“" + strings.TrimSpace(w.Words) + "” ")
	words := []pdf.Run{quoted}
	if full {
		words = append(words, after(w.Finding, true, false, false)...)
	} else {
		words = append(words, plain(w.Finding.Verdict.String()+"."))
	}
	var out []unit
	for i, u := range paras(pdf.List, 0, words...) {
		first := i == 0
		out = append(out, unit{
			height: func(w float64) float64 { return max(u.height(w-11), 4.2) + 1.5 },
			draw: func(s *pdf.Sheet, x, y, wide float64) {
				if first {
					s.Line(x, y, x+wide, y, 0.25, draw.Rule)
					s.Para(x, y+0.75, 5, pdf.List, pdf.Claim(fmt.Sprint(n)))
					s.Mark(mark(w.Finding.Verdict), x+wide-4.2, y+0.75, 4)
				}
				u.draw(s, x+5, y+0.75, wide-11)
			},
		})
	}
	return out
}

// fields is the title block with the places to sign.
func (p *design) fields() [][]pdf.Field {
	rows := [][]pdf.Field{{{Caption: "owner", H: 11.5}, {Caption: "lead", H: 11.5}, {Caption: "customer", H: 11.5}}}
	rows = append(rows, p.named()...)
	rows = append(rows,
		[]pdf.Field{p.field("car", p.Car, 4), p.field("keeper", p.Keeper, 2)},
		[]pdf.Field{p.field("saved by", p.Author, 2), {Caption: "date", Value: p.b.date()}, {Caption: "scale", Value: p.scale, Span: 1}, {Caption: "sheet", Sheet: true, Span: 1}},
		[]pdf.Field{p.field("shop", p.Shop, 3), {Caption: "record, to prove this print unaltered", Value: letters(p.b.digest()), Span: 3}})
	return rows
}

// conventions are what every number on the page rests on, and the source marks.
func (p *design) conventions() []unit {
	st := pdf.Caption.In(draw.Ink)
	st.Lead = 1.3
	words, _ := legend(p.all(), source.CP, source.Calc)
	us := paras(st, 0.3, plain("x forward, y left, z up (ISO 8855). Left and right as seated facing forward. Pressures are gauge. ± holds 95 in 100."))
	return append(us, paras(st, 0, words...)...)
}

// all are the findings with those of the wishes.
func (p *design) all() []finding.Finding {
	all := append([]finding.Finding(nil), p.Findings...)
	for _, w := range p.Wishes {
		all = append(all, w.Finding)
	}
	return all
}

// middle are the findings, failures first. What does not fit goes to the next
// sheet and side one says so.
func (p *design) middle() {
	in := p.s.Inner()
	c := &column{p.s, in.X0 + leftColumn + columnPad, p.top + 2.4, in.X1 - in.X0 - leftColumn - rightColumn - 2*columnPad, in.Y1 - 1}
	c.put(heading(2, "Findings, wishes among them: "+tally(finding.Count(p.all()))+asked(len(p.Problems), ", ")))
	if len(p.Findings) == 0 && len(p.Problems) == 0 {
		p.keep(c, paras(pdf.List, 1, plain("Nothing can be said yet: nothing is recorded that a finding could rest on.")))
	}
	list := p.units()
	room := c.bottom - c.y
	if total(flat(list), c.w) <= room {
		p.keep(c, flat(list))
		return
	}
	n := 0
	for n < len(list) && total(flat(list[:n+1]), c.w)+p.noteHeight(n+1, c.w) <= room {
		n++
	}
	for _, u := range flat(list[:n]) {
		c.put(u)
	}
	for _, u := range p.note(n) {
		c.put(u)
	}
	p.rest = append(flat(list[n:]), p.rest...)
}

// units are the problems of the record and the findings, each as the units it
// is set in: failures, what is too close, what is not known, what cannot be
// used, passes.
func (p *design) units() [][]unit {
	var out [][]unit
	problems := func() {
		for _, q := range p.Problems {
			out = append(out, problem(q))
		}
	}
	done := false
	for _, f := range p.Findings {
		if f.Verdict == finding.Pass && !done {
			problems()
			done = true
		}
		r := listed
		r.zone = p.zone(f.ID)
		out = append(out, r.units(f))
	}
	if !done {
		problems()
	}
	return out
}

// zone is the field of the sheet in which a finding's place lies on the drawing;
// "" where it has none.
func (p *design) zone(id string) string {
	at, ok := p.Places[id]
	if !ok || p.spot == nil {
		return ""
	}
	q := p.spot(at[0], at[1])
	return p.s.Zone(q.X, q.Y)
}

// problem is one place of the record that cannot be used.
func problem(q job.Problem) []unit {
	f := finding.Finding{Claim: q.Label + " cannot be used as it stands.", Verdict: finding.NotKnown, Shown: "asked", Why: stop(q.Says)}
	if q.Read != "" {
		f.Why = "“" + q.Read + "” " + f.Why
	}
	r := listed
	r.verdict, r.mark = false, 0
	return r.units(f)
}

// askedOf is the topic of a place that cannot be used, among findings.
const askedOf = "asked"

// asked counts the places of the record that cannot be used.
func asked(n int, before string) string {
	switch n {
	case 0:
		return ""
	case 1:
		return before + "1 place asked about"
	}
	return fmt.Sprintf("%s%d places asked about", before, n)
}

// note says what is left out of side one when n pieces stand on it.
func (p *design) note(n int) []unit {
	list := p.ordered()
	if n >= len(list) {
		return nil
	}
	var left []finding.Finding
	problems := 0
	for _, f := range list[n:] {
		if f.Topic == askedOf {
			problems++
			continue
		}
		left = append(left, f)
	}
	words := fmt.Sprintf("%d more from sheet 2 on: ", len(list)-n)
	if len(left) > 0 {
		words += tally(finding.Count(left)) + asked(problems, ", ") + "."
	} else {
		words += asked(problems, "") + "."
	}
	return paras(pdf.List, 0, claim(words))
}

// ordered are the findings as units lists them, with the problems where they
// stand among them.
func (p *design) ordered() []finding.Finding {
	var out []finding.Finding
	problems := make([]finding.Finding, len(p.Problems))
	for i := range problems {
		problems[i].Topic = askedOf
	}
	for _, f := range p.Findings {
		if f.Verdict == finding.Pass && problems != nil {
			out, problems = append(out, problems...), nil
		}
		out = append(out, f)
	}
	return append(out, problems...)
}

func (p *design) noteHeight(n int, w float64) float64 { return total(p.note(n), w) + 1 }

func flat(list [][]unit) []unit {
	var out []unit
	for _, us := range list {
		out = append(out, us...)
	}
	return out
}

// decide says who decides, and what stands behind the marks of published
// sources, under the wishes or after everything else.
func (p *design) decide() {
	st := pdf.Caption.In(draw.Ink)
	st.Lead = 1.3
	_, published := legend(p.all())
	p.keep(p.under, append([]unit{gap(1.2)}, paras(st, 0.4, plain("Who signs decides; whether the car may be driven so, law, insurer and tester decide. The program signs nothing."))...))
	if len(published) > 0 {
		p.keep(p.under, paras(st, 0, published...))
	}
}

// sheets are those that go on.
func (p *design) sheets() {
	if len(p.long) > 0 {
		p.rest = append(p.rest, inFull(p.long)...)
	}
	if len(p.rest) == 0 {
		return
	}
	f := flow{more: p.more}
	f.all(p.rest)
}

// more is the next sheet with its three columns.
func (p *design) more() []*column {
	s := p.doc.Sheet(pdf.Landscape)
	s.Frame()
	in := s.Inner()
	y := in.Y0 + 3
	y += s.Heading(1, in.X0+columnPad, y, pdf.Claimed, "Design page, continued") + 2
	s.Line(in.X0, y, in.X1, y, 0.35, draw.Ink)
	p.doc.Bookmark(fmt.Sprintf("Sheet %d", p.doc.Sheets()), s, in.Y0)
	w := (in.X1 - in.X0) / 3
	h := s.TitleBlock(in.X1-w, in.Y1, w, p.small())
	var cols []*column
	for i := range 3 {
		c := &column{s, in.X0 + float64(i)*w + columnPad, y + 1.5, w - 2*columnPad, in.Y1 - 1}
		if i == 2 {
			c.bottom = in.Y1 - h - 1
		}
		if i > 0 {
			s.Line(in.X0+float64(i)*w, y, in.X0+float64(i)*w, c.bottom+1, 0.25, draw.Ink)
		}
		cols = append(cols, c)
	}
	return cols
}
