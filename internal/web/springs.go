package web

import (
	"net/http"
	"regexp"
	"strings"

	"jounce/internal/draw"
	"jounce/internal/figure"
	"jounce/internal/finding"
	"jounce/internal/plate"
	"jounce/internal/study"
	"jounce/internal/web/page"
	"jounce/quantity"
)

type springsPage struct {
	page.Base
	formState
	ID, Action string
	Refusal    []string
	Charts     [2]springChart
	Travel     travelPart
	Ride       scenes
	HasRide    bool
	RideSays   string
	Plan       scenes
	Corners    []springCorner
	Found      findingsPart
	Gaps       []page.Missing
	Axles      []springAxle
	Tables     []springTable
	Paste      pasteForm
	Shelf      []shelfRow
	Airy       []string // axles that a spring can be chosen for
	Block      []page.Cell
}

// scenes are one figure drawn for a phone, a column and a wide column. L may be
// empty: M does for both.
type scenes struct{ S, M, L draw.Scene }

// The widths that figures are drawn for [CSS px].
const (
	phonePx  = 292
	columnPx = 474
	widePx   = 730
)

// drawn makes a figure for all widths. Each scene needs an id of its own.
func drawn(id string, f func(width float64, st draw.Style) draw.Scene) scenes {
	at := func(px float64, st draw.Style, end string) draw.Scene {
		s := f(draw.PX(px), st)
		s.ID = id + end
		return s
	}
	return scenes{at(phonePx, draw.Phone(), "-s"), at(columnPx, draw.Tablet(), "-m"), at(widePx, draw.Tablet(), "-l")}
}

// springChart is load over height of one axle, or why there is none.
type springChart struct {
	Title string
	Has   bool
	Fig   scenes
	Says  []string
	Gaps  []page.Missing
}

// travelPart is the travel of the axles: beside each other where there is room.
type travelPart struct {
	Has   bool
	Both  draw.Scene
	Stack []draw.Scene // for a phone
	Says  []string
}

// springCorner is one corner round the plan.
type springCorner struct {
	Name, Words string
	Known       bool
	Big, Unit   string   // "3.5", "bar"
	Lines       []string // "51 psi", "3.3 empty"
	Gap         string
	Href        string
}

// springs is the page of springs, travel and ride.
func (s *server) springs(w http.ResponseWriter, r *http.Request) error {
	if r.Method == http.MethodPost {
		if err := r.ParseForm(); err != nil {
			return err
		}
		fillCells(r.PostForm)
	}
	here := "/jobs/" + r.PathValue("id") + "/springs"
	return s.edit(w, r, func(status int, e *edit) error {
		p, err := s.springsPage(r, e)
		if err != nil {
			return err
		}
		return s.render(w, r, status, "springs", p)
	}, func(*edit) string { return here })
}

// springsPage makes the page out of an edit.
func (s *server) springsPage(r *http.Request, e *edit) (*springsPage, error) {
	p := &springsPage{Base: s.jobBase(r, e.opened, "springs", "Springs"), formState: e.state(), ID: e.ID, Action: "/jobs/" + e.ID + "/springs",
		Refusal: e.Res.Refusal, Block: s.titleBlock(e.opened, "02 Springs")}
	p.Live = true
	p.Found = findingsPart{Title: "Findings on the springs", opened: *e.opened}
	p.Found.Res = about(e.Res, "springs", "travel")
	p.Gaps = page.Gaps(gapsOf(e.Res, p.Found.Res.Findings), p.Found.Res.Findings, func(path string) string { return hrefOf(e.ID, path) })
	for i := range p.Charts {
		p.Charts[i] = s.springChart(e, i)
	}
	p.Travel = travelFigures(e.Res)
	if ride, ok := plate.Ride(e.Res, s.Shop); ok {
		p.HasRide = true
		p.Ride = drawn("ride", func(width float64, st draw.Style) draw.Scene { return figure.RideLine(ride, width, st) })
	} else {
		p.RideSays = "No ride is worked out for this car."
		if len(e.Res.Refusal) == 0 && (e.Res.Axles[0].Air || e.Res.Axles[1].Air) {
			p.RideSays = "Rate and frequency need the air in the springs, beside what the pressures need."
		}
	}
	plan := plate.Plan(e.Res, false)
	p.Plan.S = figure.PlanView(plan, draw.PX(126), draw.PX(330), draw.Phone())
	p.Plan.M = figure.PlanView(plan, draw.PX(190), draw.PX(440), draw.Tablet())
	p.Plan.S.ID, p.Plan.M.ID = "plan-s", "plan-m"
	for i := range e.Res.Corners {
		p.Corners = append(p.Corners, s.springCorner(e, i))
	}
	s.springForms(p, e)
	_, shop, err := s.shopNow(r.Context())
	if err != nil {
		return nil, err
	}
	p.Shelf = shelfRows(shop)
	return p, nil
}

// about is a result with the findings of some topics only.
func about(res *study.Result, topics ...string) *study.Result {
	out := *res
	out.Findings = nil
	for _, f := range res.Findings {
		if contains(topics, f.Topic) {
			out.Findings = append(out.Findings, f)
		}
	}
	return &out
}

// gapsOf are the gaps that keep some of the findings back.
func gapsOf(res *study.Result, list []finding.Finding) []finding.Gap {
	held := map[string]bool{}
	for _, f := range list {
		held[f.ID] = true
	}
	var out []finding.Gap
	for _, g := range res.Gaps {
		var settles []string
		for _, id := range g.Settles {
			if held[id] {
				settles = append(settles, id)
			}
		}
		if g.Settles = settles; len(settles) > 0 {
			out = append(out, g)
		}
	}
	return out
}

// springChart draws one axle's load over height, or says why it cannot be drawn.
func (s *server) springChart(e *edit, i int) springChart {
	a := e.Res.Axles[i]
	name := study.AxleNames[i]
	out := springChart{Title: upperFirst(name) + " spring: load over height, at equal pressure"}
	if len(e.Res.Refusal) == 0 {
		if load, ok := plate.Load(a, s.Shop); ok && a.Air && a.Refusal == "" {
			out.Has = true
			out.Fig = drawn("load-"+name, func(width float64, st draw.Style) draw.Scene { return figure.LoadChart(load, width, st) })
			return out
		}
	}
	out.Title = upperFirst(name) + " spring"
	out.Says, out.Gaps = s.noChart(e, i)
	return out
}

// noChart says why an axle has no chart, and what is to be typed for one.
func (s *server) noChart(e *edit, i int) ([]string, []page.Missing) {
	a, name := e.Res.Axles[i], study.AxleNames[i]
	rec := &e.Rec.Axles.Front
	if i == 1 {
		rec = &e.Rec.Axles.Rear
	}
	link := func(path, label, why string) []page.Missing {
		return []page.Missing{{Gap: finding.Gap{Path: path, Label: label, Why: why}, Href: hrefOf(e.ID, path), Count: why}}
	}
	base := "axles." + name
	switch {
	case len(e.Res.Refusal) > 0:
		return []string{"No spring numbers: this car is refused. What it is refused for stands with the findings."}, nil
	case a.Refusal != "" && rec.Springing != "steel":
		return []string{"No spring numbers for the " + name + " axle, " + a.Layout + ": " + a.Refusal + ".",
			"Records, wiring and everything else of this job still work."}, nil
	case rec.Springing == "steel":
		return []string{"The " + name + " axle stays on its steel springs, so no air spring is worked out for it."}, nil
	case !a.Air:
		return []string{"It is not said yet what the " + name + " axle stands on."}, link(base+".springing", upperFirst(name)+", air or steel", "says whether a spring is worked out")
	}
	spring := false
	points := 0
	for _, sp := range e.Rec.Springs {
		if sp.ID == rec.Spring && sp.ID != "" {
			spring, points = true, len(sp.Points)
		}
	}
	switch {
	case !spring:
		return []string{"No spring is chosen for the " + name + " axle. Type one below, paste its table, or take one from the shelf."}, link(base+".spring", upperFirst(name)+", spring", "gives the force at a pressure")
	case points == 0:
		return []string{"The " + name + " spring has no line of its maker's table yet. One line gives the pressure at that height; two heights give this chart."},
			link("springs["+rec.Spring+"].points[p1].load", upperFirst(name)+" spring, one line of load, pressure, height", "gives the force at a pressure")
	}
	if q, ok := e.View.Problems["springs["+rec.Spring+"].points"]; ok {
		return []string{"The " + name + " spring's table cannot be used yet: " + q.Says}, nil
	}
	return []string{"The " + name + " spring's table has one height. It gives the pressure there; load over height needs two heights."}, link("springs["+rec.Spring+"].points", upperFirst(name)+" spring, a second height", "draws load over height")
}

// travelFigures draws the travel that is known and says what is not.
func travelFigures(res *study.Result) travelPart {
	var p travelPart
	if len(res.Refusal) > 0 {
		return p
	}
	var known []figure.Travel
	for _, t := range plate.Travel(res) {
		if t.Known {
			known = append(known, t)
		} else if t.Gap != "" {
			p.Says = append(p.Says, upperFirst(t.Name)+": "+lowerFirst(t.Gap))
		}
	}
	for _, a := range res.Axles {
		if !a.Air && a.Refusal == "" {
			p.Says = append(p.Says, upperFirst(a.Name)+": not on air, so its travel is not worked out.")
		}
	}
	if len(known) == 0 {
		return p
	}
	p.Has = true
	width := max(draw.PX(columnPx), figure.TravelWidth(known, draw.Tablet()))
	if len(known) == 1 {
		width = draw.PX(380)
	}
	p.Both = figure.TravelBars(known, width, draw.Tablet())
	p.Both.ID = "travel-m"
	for i, t := range known {
		one := figure.TravelBars(known[i:i+1], draw.PX(phonePx), draw.Phone())
		one.ID = "travel-" + t.Name
		p.Stack = append(p.Stack, one)
	}
	return p
}

// springCorner is one corner's pressures: driver aboard large, the other units
// and cases under it.
func (s *server) springCorner(e *edit, i int) springCorner {
	c := e.Res.Corners[i]
	out := springCorner{Name: study.CornerNames[i], Words: study.CornerWords[i], Gap: c.Gap, Href: hrefOf(e.ID, "corners."+study.CornerNames[i]+".weight")}
	axle := e.Res.Axles[i/2]
	switch {
	case len(e.Res.Refusal) > 0 || axle.Refusal != "":
		out.Gap = "refused"
	case !axle.Air:
		out.Gap = "not on air"
	}
	n := c.Pressure[1]
	if !n.Known() {
		return out
	}
	out.Known, out.Gap, out.Href = true, "", "#f-"+out.Name+".pressure"
	out.Big, out.Unit = quantity.FormatNumber(n.Kind, n.Value, n.Unit, 1)
	if n.Half > 0 {
		out.Lines = append(out.Lines, "±\u00a0"+quantity.Format(n.Kind, n.Half, n.Unit, 2))
	}
	second, digits := "psi", 0
	if n.Unit.Name() == "psi" {
		second, digits = "bar", 1
	}
	u, _ := quantity.UnitOf(n.Kind, second)
	out.Lines = append(out.Lines, quantity.Format(n.Kind, n.Value, u, digits))
	for k, words := range study.Cases {
		if m := c.Pressure[k]; k != 1 && m.Known() {
			number, _ := quantity.FormatNumber(m.Kind, m.Value, m.Unit, 1)
			out.Lines = append(out.Lines, number+"\u00a0"+words)
		}
	}
	return out
}

func upperFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

func lowerFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

// bareNumber is a text that a box of the table takes in its own unit.
var bareNumber = regexp.MustCompile(`^[0-9]+(\.[0-9]+)?$`)
