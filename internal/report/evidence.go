package report

import (
	"fmt"
	"strings"

	"jounce/internal/draw"
	"jounce/internal/draw/pdf"
	"jounce/internal/figure"
	"jounce/internal/finding"
)

// decay is the chart with the readings beside it. Rows that do not fit beside
// the chart stand after the working.
func (p *certificate) decay() {
	const chartWide = 94.0
	sc := figure.DecayChart(p.Decay, chartWide, draw.ForPaperChart())
	title := heading(2, or(p.ChartTitle, "Tank"))
	tab := p.readings()
	words := paras(pdf.List, 0.5, p.conditions()...)
	w := p.flow.cols[0].w - leftWide - between
	left := title.height(chartWide) + sc.H
	upto := tab.Fit(0, left-title.height(w))
	beside := upto == len(tab.Rows)
	wordsToo := beside && len(words) == 1 && tableHeight(tab, upto)+1.5+words[0].height(w)+title.height(w) <= left+6
	right := title.height(w) + tableHeight(tab, upto)
	if wordsToo {
		right += 1.5 + words[0].height(w)
	}
	h := max(left, right) + 3.2
	p.flow.put(unit{
		height: func(float64) float64 { return h },
		draw: func(s *pdf.Sheet, x, y, _ float64) {
			ruled().draw(s, x, y, 0)
			y += 2
			title.draw(s, x, y, leftWide)
			s.Scene(x, y+title.height(leftWide), sc)
			at := x + leftWide + between
			sub := "As read, and what the cold explains"
			if !beside {
				sub = fmt.Sprintf("As read; %d more at the end", len(tab.Rows)-upto)
			}
			heading(2, sub).draw(s, at, y, w)
			yy := y + title.height(w)
			yy += s.Table(at, yy, tab, 0, upto)
			if wordsToo {
				words[0].draw(s, at, yy+1.5, w)
			}
		},
	})
	p.from = upto
	if !wordsToo {
		p.flow.all(words)
	}
}

// readingsLeft are the readings that did not fit beside the chart, in two runs
// beside each other.
func (p *certificate) readingsLeft() {
	tab := p.readings()
	if p.from >= len(tab.Rows) {
		return
	}
	p.flow.put(gap(2))
	title := heading(2, "As read, continued")
	const around = 8.0 // [mm] heading and gap
	for from := p.from; from < len(tab.Rows); {
		if len(p.flow.cols) == 0 || tab.Fit(from, p.flow.cols[0].bottom-p.flow.cols[0].y-around) < min(from+2, len(tab.Rows)) {
			p.flow.cols = p.flow.more()
		}
		room := p.flow.cols[0].bottom - p.flow.cols[0].y - around
		most := max(tab.Fit(from, room), from+1)
		a, b := from, min(most, from+(len(tab.Rows)-from+1)/2)
		c := max(min(tab.Fit(b, room), 2*b-a), b)
		p.flow.put(unit{
			height: func(w float64) float64 { return title.height(w) + tableRun(tab, a, b) + 2 },
			draw: func(s *pdf.Sheet, x, y, w float64) {
				title.draw(s, x, y, w)
				y += title.height(w)
				s.Table(x, y, tab, a, b)
				if c > b {
					s.Table(x+w/2, y, tab, b, c)
				}
			},
		})
		from = c
	}
}

func tableRun(t pdf.Table, from, to int) float64 {
	h := t.HeadHeight()
	for i := from; i < to; i++ {
		h += t.RowHeight(i)
	}
	return h
}

func tableHeight(t pdf.Table, to int) float64 { return tableRun(t, 0, to) }

// readings is the table of what was read. The unit of a column stands in its
// head.
func (p *certificate) readings() pdf.Table {
	unit := "bar"
	for _, r := range p.Rows {
		if r.Gauge.Known() {
			unit = r.Gauge.Unit.Name()
		}
	}
	tab := pdf.Table{Gap: 1, Cols: []pdf.Col{
		{W: 10.5, Head: "time"}, {W: 10.5, Align: pdf.Right, Head: "°C"}, {W: 16, Align: pdf.Right, Head: "gauge " + unit},
		{W: 16, Align: pdf.Right, Head: "cold alone"}, {W: 8, Align: pdf.Right, Head: "lost"}}}
	for i, r := range p.Rows {
		gauge := r.Gauge // as read on it; its ± stands beside the instrument
		gauge.Half = 0
		row := pdf.Cells(letters(r.Clock), letters(alone(r.Temperature)), letters(alone(gauge)), letters(alone(r.ColdAlone)), letters(alone(r.Lost)))
		row.Bold = i > 0 && i == len(p.Rows)-1
		tab.Rows = append(tab.Rows, row)
	}
	if len(tab.Rows) == 0 {
		tab.Rows = []pdf.Row{pdf.Cells("none", "", "", "", "")}
	}
	return tab
}

func (p *certificate) conditions() []pdf.Run {
	var out []pdf.Run
	for _, s := range p.Conditions {
		out = append(out, plain(stop(s)+" "))
	}
	return out
}

// corners are the four heights round the plan, front up, and the instruments.
func (p *certificate) corners() {
	const planWide = 22.0
	title := heading(2, "Hub to arch, mm, front up, as on the car")
	w := (leftWide - planWide - 4) / 2
	up := max(p.cornerHeight(0, w), p.cornerHeight(1, w), 20)
	down := max(p.cornerHeight(2, w), p.cornerHeight(3, w), 20)
	left := title.height(leftWide) + up + down + 1.5
	right := p.flow.cols[0].w - leftWide - between
	tools := p.tools()
	n, high := 0, title.height(right)
	for n < len(tools) && high+tools[n].height(right) <= max(left, 40) {
		high += tools[n].height(right)
		n++
	}
	p.later = tools[n:]
	h := max(left, high) + 3
	p.flow.put(unit{
		height: func(float64) float64 { return h },
		draw: func(s *pdf.Sheet, x, y, _ float64) {
			ruled().draw(s, x, y, 0)
			y += 2
			title.draw(s, x, y, leftWide)
			col := column{s, x + leftWide + between, y, right, 1e9}
			col.put(heading(2, "Read with"))
			for _, u := range tools[:n] {
				col.put(u)
			}
			y += title.height(leftWide)
			for k := range p.Corners {
				at, top := x, y
				if k%2 == 1 {
					at = x + w + planWide + 4
				}
				if k > 1 {
					top = y + up + 1.5
				}
				p.corner(s, k, at, top, w)
			}
			sc := figure.PlanView(p.Plan, planWide, up+down, draw.ForPaperChart())
			s.Scene(x+w+2, y+0.5, sc)
		},
	})
}

const cornerHead = 5.4 // [mm] the corner's name over its table

// cornerTable is one corner's table.
func (p *certificate) cornerTable(k int, w float64) pdf.Table {
	c := p.Corners[k]
	t := pdf.Table{Pad: 0.3, Cols: []pdf.Col{{W: w * 0.56}, {W: w * 0.44, Align: pdf.Right}}}
	if !c.Known {
		t.Cols = []pdf.Col{{W: w}}
		word := "Not read: " + stop(or(c.Gap, "hub to arch at the start and at the end"))
		if c.Steel {
			word = "On steel: no part of this test."
		}
		t.Rows = []pdf.Row{pdf.Cells(letters(word))}
		return t
	}
	t.Rows = []pdf.Row{
		pdf.Cells(letters(or(c.From, "first")), alone(c.Start)), pdf.Cells(letters(or(c.To, "last")), alone(c.End)),
		pdf.Cells("sank", alone(c.Sank)), pdf.Cells("by cold", alone(c.ByCold)), pdf.Cells("unexplained", bare(c.Unexplained)),
	}
	t.Rows[4].Bold = true
	return t
}

func (p *certificate) cornerHeight(k int, w float64) float64 {
	t := p.cornerTable(k, w)
	return cornerHead + tableHeight(t, len(t.Rows))
}

func (p *certificate) corner(s *pdf.Sheet, k int, x, y, w float64) {
	c := p.Corners[k]
	name := pdf.Claimed.Sized(11)
	s.Para(x, y, w, name, plain(c.Name))
	v := c.Verdict
	if !c.Known {
		v = finding.NotKnown
	}
	if !c.Steel {
		at := x + pdf.Width(name, plain(c.Name)) + 1.6
		s.Mark(mark(v), at, y+0.4, 4)
		s.Para(at+5.4, y+0.9, w-11, pdf.List, pdf.Plain(strings.ToLower(v.String())))
	}
	t := p.cornerTable(k, w)
	s.Table(x, y+cornerHead, t, 0, len(t.Rows))
}

// tools are the instruments, one a unit, and how corners are judged.
func (p *certificate) tools() []unit {
	var out []unit
	for _, i := range p.Instruments {
		out = append(out, tool(i)...)
	}
	if len(p.Instruments) == 0 {
		out = append(out, paras(pdf.List, 1.5, plain("No instrument is named with any reading."))...)
	}
	out = append(out, gap(1.2))
	return append(out, paras(pdf.List, 0, plain("A loaded spring keeps its pressure while it leaks: only its height tells. So corners are judged by height."))...)
}

// tool is one instrument: name and check date, its give or take at the right.
func tool(i Instrument) []unit {
	name, acc := or(i.Name, "an instrument without a name"), i.Accuracy
	if len([]rune(acc)) > 20 {
		name, acc = name+", "+acc, ""
	}
	words := []pdf.Run{plain(name + ", " + strings.ReplaceAll(i.Checked, " ", nbsp))}
	if i.NotEvidence != "" {
		words = append(words, claim(" Not evidence: "), plain(stop(i.NotEvidence)))
	}
	var out []unit
	for k, u := range paras(pdf.List, 1.5, words...) {
		first := k == 0
		out = append(out, unit{
			height: func(w float64) float64 { return u.height(w - 17) },
			draw: func(s *pdf.Sheet, x, y, w float64) {
				if first {
					s.Line(x, y, x+w, y, 0.25, draw.Rule)
					s.ParaAt(x+w-16, y+0.75, 16, pdf.List, pdf.Right, plain(acc))
				}
				u.draw(s, x, y+0.75, w-17)
			},
		})
	}
	return out
}

// instrumentsLeft are those that did not fit beside the corners.
func (p *certificate) instrumentsLeft() {
	if len(p.later) == 0 {
		return
	}
	p.flow.all(joined(heading(2, "Read with, continued"), p.later))
	p.flow.put(gap(1.5))
}

// working is the tank's working, and what cold does to a corner.
func (p *certificate) working() {
	p.flow.put(ruled())
	if p.Working == nil || len(p.Working.Lines) == 0 {
		p.flow.all(paras(pdf.List, 1, pdf.In(pdf.Head, "Working. "), plain("None: the tank's loss was not worked out.")))
		return
	}
	st := pdf.List
	st.Lead = 1.25
	var lines [][]pdf.Run
	for _, l := range p.Working.Lines {
		lines = append(lines, formula(st, l))
	}
	known := false
	for _, c := range p.Corners {
		known = known || c.Known
	}
	if known {
		lines = append(lines, []pdf.Run{plain("sink by cold = V ΔT ÷ (T A r)"), pdf.Source("calc")})
	}
	if len(p.Working.Notes) > 0 {
		lines = append(lines, []pdf.Run{plain(strings.Join(p.Working.Notes, " "))})
	}
	p.flow.put(unit{
		height: func(w float64) float64 { return heading(2, "Working").height(w) + pairs(nil, 0, 0, w, st, lines) + 1 },
		draw: func(s *pdf.Sheet, x, y, w float64) {
			heading(2, "Working").draw(s, x, y, w)
			pairs(s, x, y+heading(2, "Working").height(w), w, st, lines)
		},
	})
}

// pairs sets lines, two beside each other where both fit; without a sheet it
// only measures.
func pairs(s *pdf.Sheet, x, y, w float64, st pdf.Style, lines [][]pdf.Run) float64 {
	const apart = 9.0
	h := 0.0
	for i := 0; i < len(lines); i++ {
		first := pdf.Width(st, lines[i]...)
		second := i+1 < len(lines) && first+apart+pdf.Width(st, lines[i+1]...) <= w
		if s != nil {
			s.Para(x, y+h, w, st, lines[i]...)
			if second {
				at := max(first+apart, w/2)
				if over := at + pdf.Width(st, lines[i+1]...) - w; over > 0 {
					at -= over
				}
				s.Para(x+at, y+h, w-at+1, st, lines[i+1]...)
			}
		}
		h += pdf.Height(st, w, lines[i]...) + 0.2
		if second {
			i++
		}
	}
	return h
}

// formula is one line of a working: in symbols, with numbers, the result.
func formula(st pdf.Style, l finding.Line) []pdf.Run {
	var out []pdf.Run
	markup(st, finding.Markup(l.Symbols), &out)
	for _, s := range []string{l.Numbers, l.Result} {
		if s != "" {
			out = append(out, plain(" = "))
			markup(st, finding.Markup(s), &out)
		}
	}
	return out
}

// markup sets the small markup of formulas on one line.
func markup(st pdf.Style, parts []finding.Part, out *[]pdf.Run) {
	small := st
	small.Size *= 0.78
	for _, q := range parts {
		switch {
		case q.Over != nil || q.Under != nil:
			for i, group := range [][]finding.Part{q.Over, q.Under} {
				if i == 1 {
					*out = append(*out, plain(" ÷ "))
				}
				if len(group) > 1 || len(group) == 1 && strings.ContainsAny(group[0].Text, " +−×÷") {
					*out = append(*out, plain("("))
					markup(st, group, out)
					*out = append(*out, plain(")"))
				} else {
					markup(st, group, out)
				}
			}
		case q.Sub != "":
			*out = append(*out, pdf.Run{S: letters(q.Sub), Style: &small, Dy: -0.25})
		case q.Sup != "":
			*out = append(*out, pdf.Run{S: letters(q.Sup), Style: &small, Dy: 0.4})
		default:
			*out = append(*out, plain(q.Text))
		}
	}
}
