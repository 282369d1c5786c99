package web

import (
	"math"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"jounce/internal/job"
	"jounce/internal/study"
	"jounce/internal/web/form"
	"jounce/quantity"
)

// springTable is one spring as its maker prints it: loads over height and
// pressure where the lines make a grid, and the rest line by line.
type springTable struct {
	ID, Path, Title string
	Used            string // "front", "front and rear", ""
	Heads           []string
	Rows            []springRow
	Rest            *table
	Fields          []form.Field
	Says            *job.Problem // what the table as a whole asks
	Empty           int          // boxes that hold nothing
}

type springRow struct {
	Head  string
	Cells []springCell
}

// springCell is one load; At carries the height and pressure of its line.
type springCell struct {
	form.Field
	Shown string // what stands in the box: the number alone where it is in newtons
	At    string
	Aria  string
}

// springAxle is what an axle says of its spring.
type springAxle struct {
	Title  string
	Fields []form.Field
}

// mostColumns is the most pressures that stand beside each other.
const mostColumns = 10

// cellMark ends the name of the hidden place that carries a cell's line.
const cellMark = ":at"

// springForms makes the boxes of the page.
func (s *server) springForms(p *springsPage, e *edit) {
	used := map[string][]string{}
	for i, name := range study.AxleNames {
		axle := e.Rec.Axles.Front
		if i == 1 {
			axle = e.Rec.Axles.Rear
		}
		if axle.Spring != "" {
			used[axle.Spring] = append(used[axle.Spring], name)
		}
		if axle.Springing == "steel" || e.Res.Axles[i].Refusal != "" || len(e.Res.Refusal) > 0 {
			continue
		}
		p.Airy = append(p.Airy, name)
		a := springAxle{Title: upperFirst(name) + " axle"}
		for _, leaf := range []string{"spring", "springHeight", "springRatio", "airVolume", "bumpVolume"} {
			a.Fields = append(a.Fields, e.View.Field("axles."+name+"."+leaf))
		}
		p.Axles = append(p.Axles, a)
	}
	for i := range e.Rec.Springs {
		t := tableOf(e.View, &e.Rec.Springs[i])
		t.Used = strings.Join(used[t.ID], " and ")
		p.Tables = append(p.Tables, t)
	}
	p.Paste.Targets = pasteTargets(p, e)
}

// tableOf lays out one spring.
func tableOf(v *form.View, s *job.Spring) springTable {
	path := "springs[" + s.ID + "]"
	t := springTable{ID: s.ID, Path: path, Title: s.Name}
	if t.Title == "" {
		t.Title = "Spring " + s.ID
	}
	for _, leaf := range []string{"name", "behaviour", "maxWorking", "maxDynamic", "closed", "open"} {
		t.Fields = append(t.Fields, v.Field(path+"."+leaf))
	}
	if q, ok := v.Problems[path+".points"]; ok {
		t.Says = &q
	}
	g := gridOf(s)
	if !g.fits(len(s.Points)) {
		t.Rest = restTable(v, path, s.Points)
		return t
	}
	for _, c := range g.pressures {
		t.Heads = append(t.Heads, c.text)
	}
	taken := make([]string, len(s.Points))
	for i, pt := range s.Points {
		taken[i] = pt.ID
	}
	for hi, h := range g.heights {
		row := springRow{Head: h.text}
		for pi, pr := range g.pressures {
			cell := springCell{Aria: h.text + ", " + pr.text, At: h.text + "|" + pr.text}
			if pt := g.at[[2]int{hi, pi}]; pt != nil {
				cell.Field = v.Field(path + ".points[" + pt.ID + "].load")
				cell.At = pt.Height.Value + "|" + pt.Pressure.Value
			} else {
				id := job.NextID("p", taken)
				taken = append(taken, id)
				cell.Field = v.Field(path + ".points[" + id + "].load")
			}
			cell.Shown = cell.Value
			if n, ok := strings.CutSuffix(cell.Value, " N"); ok && bareNumber.MatchString(n) {
				cell.Shown = n
			}
			if cell.Shown == "" {
				t.Empty++
			}
			row.Cells = append(row.Cells, cell)
		}
		t.Rows = append(t.Rows, row)
	}
	if len(g.rest) > 0 {
		t.Rest = restTable(v, path, g.rest)
	}
	return t
}

// grid is a maker's table sorted by height and pressure.
type grid struct {
	heights, pressures []gridLine
	at                 map[[2]int]*job.SpringPoint
	rest               []job.SpringPoint // lines that have no place of their own
}

type gridLine struct {
	si   float64 // [m] or [Pa]
	text string  // as typed in the first line that has it
}

// gridOf sorts the lines of a table. A line without a height or a pressure that
// can be read, and the second line of a place, have no place.
func gridOf(s *job.Spring) grid {
	g := grid{at: map[[2]int]*job.SpringPoint{}}
	type placed struct {
		p     *job.SpringPoint
		h, pr float64
	}
	var list []placed
	for i := range s.Points {
		p := &s.Points[i]
		h, err1 := quantity.Parse(quantity.KindLength, p.Height.Value)
		pr, err2 := quantity.Parse(quantity.KindPressure, p.Pressure.Value)
		if err1 != nil || err2 != nil {
			g.rest = append(g.rest, *p)
			continue
		}
		list = append(list, placed{p, h.SI(), pr.SI()})
		g.heights = withLine(g.heights, h.SI(), 1e-4, p.Height.Value)
		g.pressures = withLine(g.pressures, pr.SI(), 500, p.Pressure.Value)
	}
	for _, lines := range [][]gridLine{g.heights, g.pressures} {
		slices.SortFunc(lines, func(a, b gridLine) int { return int(math.Copysign(1, a.si-b.si)) })
	}
	for _, x := range list {
		key := [2]int{lineAt(g.heights, x.h, 1e-4), lineAt(g.pressures, x.pr, 500)}
		if g.at[key] != nil {
			g.rest = append(g.rest, *x.p)
			continue
		}
		g.at[key] = x.p
	}
	return g
}

// lineAt finds the line of a value, to within a tolerance [m] or [Pa].
func lineAt(lines []gridLine, si, within float64) int {
	return slices.IndexFunc(lines, func(l gridLine) bool { return math.Abs(l.si-si) <= within })
}

func withLine(lines []gridLine, si, within float64, text string) []gridLine {
	if lineAt(lines, si, within) >= 0 {
		return lines
	}
	return append(lines, gridLine{si, text})
}

// fits tells that the lines fill a grid well enough to be read as one.
func (g grid) fits(n int) bool {
	boxes := len(g.heights) * len(g.pressures)
	return len(g.heights) > 1 && len(g.pressures) > 1 && len(g.pressures) <= mostColumns && 2*len(g.at) >= boxes && 2*len(g.rest) < n
}

func restTable(v *form.View, path string, points []job.SpringPoint) *table {
	if len(points) == 0 {
		return nil
	}
	t := &table{}
	for _, p := range points {
		item := path + ".points[" + p.ID + "]"
		row := tableRow{Item: item}
		for _, leaf := range []string{"pressure", "height", "load"} {
			f := v.Field(item + "." + leaf)
			row.Cells = append(row.Cells, f)
			if len(t.Rows) == 0 {
				t.Heads = append(t.Heads, headOf(f))
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// fillCells completes what a grid of loads brought: a load with a number alone
// gets its unit, and a box that is filled gets the height and pressure that it
// stands at.
func fillCells(v url.Values) {
	for name, vals := range v {
		item, ok := strings.CutSuffix(name, cellMark)
		if !ok || len(vals) == 0 {
			continue
		}
		load := strings.TrimSpace(v.Get(item + ".load"))
		if load == "" {
			continue
		}
		if bareNumber.MatchString(load) {
			v.Set(item+".load", load+" N")
		}
		height, pressure, ok := strings.Cut(vals[0], "|")
		if ok && !v.Has(item+".height") && !v.Has(item+".pressure") {
			v.Set(item+".height", height)
			v.Set(item+".pressure", pressure)
		}
	}
}

// Item is the path of the line that a cell belongs to.
func (c springCell) Item() string { return strings.TrimSuffix(c.Path, ".load") }

// Cols numbers the columns, for the switch on a phone.
func (t springTable) Cols() []string {
	out := make([]string, len(t.Heads))
	for i := range out {
		out[i] = strconv.Itoa(i)
	}
	return out
}

// Middle is the column that a phone shows first.
func (t springTable) Middle() int { return len(t.Heads) / 2 }
