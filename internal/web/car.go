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
	Plan     draw.Scene  // without lettering, for narrow columns
	PlanWide *draw.Scene // with the touch points
	Balance  []balance
	Stage    page.Stage
	Car      sizes
	Ends     sizes
	Ramp     *sizes // nil where no driveway is typed
	Photos   []photoCard
	PhotosTo string
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

// balance is one share of the weight.
type balance struct {
	Name  string
	Value finding.Number
	Href  string
}

type cornerCell struct {
	Name, Words string
	Pressure    finding.Number
	Ride        finding.Number
	Weight      finding.Number
	Sprung      finding.Number
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
		x := cornerCell{Name: study.CornerNames[i], Words: study.CornerWords[i], Pressure: c.Pressure[1], Ride: c.Ride, Weight: c.Weight, Sprung: c.Sprung, Derived: c.Derived, Gap: c.Gap}
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
	p.plan(o, href)
	p.Height = heightOf(r, o)
	p.Car = sideSizes(sideAt(o.Res, p.Height), "car")
	s.around(r, p, o)
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

// plan is the car from above and how its weight lies on it.
func (p *carPage) plan(o *opened, href func(string) string) {
	f := plate.Plan(o.Res, false)
	wide := figure.PlanView(f, draw.PX(170), draw.PX(400), draw.Desktop())
	wide.ID = "abovewide"
	p.PlanWide = &wide
	f.Touches = nil
	p.Plan = figure.PlanView(f, draw.PX(76), draw.PX(230), draw.Phone())
	p.Plan.ID = "fromabove"
	w := o.Res.Weights
	for _, b := range []balance{{Name: "on the front axle", Value: w.Front}, {Name: "on the left", Value: w.Left}, {Name: "crosswise, FL and RR", Value: w.Cross}} {
		if w.Known && b.Value.Known() {
			b.Href = href("corners.FL.weight")
			for _, f := range o.Res.Findings {
				if f.Topic == "weights" && f.Value == b.Value {
					b.Href = "#f-" + f.ID
				}
			}
			p.Balance = append(p.Balance, b)
		}
	}
}

// around is the car from its ends, on its driveway and in its pictures.
func (s *server) around(r *http.Request, p *carPage, o *opened) {
	side, ends := sideAt(o.Res, p.Height), plate.Ends(o.Res)
	ends.Preset, ends.At = side.Preset, side.At
	p.Ends = wider(func(width float64, st draw.Style) draw.Scene { return figure.EndViews(ends, width, st) }, "ends")
	if _, ok := figure.RampView(side, draw.PX(widthS), draw.Phone()); ok {
		ramp := wider(func(width float64, st draw.Style) draw.Scene {
			sc, _ := figure.RampView(side, width, st)
			return sc
		}, "ramp")
		p.Ramp = &ramp
	}
	p.PhotosTo = "/jobs/" + o.ID + "/photos"
	if s.Files == nil {
		return
	}
	for _, ph := range o.Rec.Photos {
		if c := s.card(r.Context(), o, ph); c.Look != "" && len(p.Photos) == 0 {
			p.Photos = append(p.Photos, c)
		}
	}
}
