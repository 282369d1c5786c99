package web

import (
	"net/http"
	"strings"

	"jounce/internal/draw"
	"jounce/internal/figure"
	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/plate"
	"jounce/internal/study"
	"jounce/internal/web/page"
)

type carPage struct {
	page.Base
	ID       string
	Refusal  []string
	Found    findingsPart
	Gaps     []page.Missing
	Problems []problemLine
	Wishes   []wishLine
	Corners  []cornerCell
	Plan     draw.Scene
	Stage    page.Stage
	Car      sizes
	Height   *heightPart
	Holds    string
	Block    []page.Cell
}

type problemLine struct {
	job.Problem
	Href string
}

type wishLine struct {
	No     int
	Words  string
	Target string
	Found  *finding.Finding // the judgement; nil for a wish that nothing measures
}

type cornerCell struct {
	Name, Words string
	Pressure    finding.Number
	Ride        finding.Number
	Weight      finding.Number
	Derived     bool
	Gap         string
	Steel       bool   // the axle keeps its steel springs
	Href        string // the finding on its spring, or where its weight is typed
}

// job is the main page of a job: what is wrong, what is missing, what was asked.
func (s *server) job(w http.ResponseWriter, r *http.Request) error {
	o, err := s.open(r)
	if err != nil {
		return err
	}
	p := &carPage{Base: s.jobBase(r, o, "car", "The car"), ID: o.ID, Refusal: o.Res.Refusal, Block: s.titleBlock(o, "01 The car"),
		Found: findingsPart{Title: "Findings, what stops the work first", Zones: plate.Zones(o.Res), opened: *o}, Stage: page.StageOf(o.Rec.Place.Stage), Holds: holds(o.Res)}
	href := func(path string) string { return hrefOf(o.ID, path) }
	p.Gaps = page.Gaps(o.Res.Gaps, o.Res.Findings, href)
	for _, q := range o.Res.Problems {
		p.Problems = append(p.Problems, problemLine{q, href(q.Path)})
	}
	for i, x := range o.Rec.Wishes {
		l := wishLine{No: i + 1, Words: x.Words, Target: strings.TrimSuffix(x.Measure, "other")}
		if !x.Target.Empty() {
			if l.Target != "" {
				l.Target += ": "
			}
			l.Target += x.Target.Value
		}
		if f, ok := findingIn(o.Res, "wish."+x.ID); ok {
			l.Found = &f
		}
		p.Wishes = append(p.Wishes, l)
	}
	for i, c := range o.Res.Corners {
		x := cornerCell{Name: study.CornerNames[i], Words: study.CornerWords[i], Pressure: c.Pressure[1], Ride: c.Ride, Weight: c.Weight, Derived: c.Derived, Gap: c.Gap}
		x.Href = href("corners." + x.Name + ".weight")
		x.Steel = o.Res.Axles[i/2].Layout != "" && !o.Res.Axles[i/2].Air
		for _, f := range o.Res.Findings {
			if f.Topic == "springs" && f.Place == x.Name {
				x.Href = "#f-" + f.ID
				break
			}
		}
		p.Corners = append(p.Corners, x)
	}
	h := o.Res.Heights
	p.Plan = figure.PlanView(figure.Plan{Wheelbase: h.Wheelbase, FrontOverhang: h.FrontOverhang, RearOverhang: h.RearOverhang}, draw.PX(200), draw.PX(430), draw.Tablet())
	p.Plan.ID, p.Plan.Title = "fromabove", "The car seen from above, front up"
	p.Height = heightOf(r, o)
	p.Car = sideSizes(sideAt(o.Res, p.Height), "car")
	return s.render(w, r, http.StatusOK, "car", p)
}

// sideAt is the heights picture at the height of the rule.
func sideAt(r *study.Result, h *heightPart) figure.Side {
	s := plate.Side(r)
	if h.Gap != "" || h.Now == 0 {
		return s
	}
	step := h.step(r.Path)
	s.Preset, s.At = -1, [2]float64{step.Front, step.Rear}
	for i, n := range r.Path.Presets {
		if n != nil && below(*n) == h.Now {
			s.Preset = i
		}
	}
	return s
}
