package web

import (
	"encoding/json"
	"math"
	"strconv"
	"strings"

	"jounce/body"
	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/study"
	"jounce/internal/web/page"
)

// Summary is what the board shows of a job without opening its record. It is
// saved with each revision and is as old as that.
type Summary struct {
	Car      string        `json:"car,omitempty"` // "long estate, 1972"
	Form     string        `json:"form,omitempty"`
	Keeper   string        `json:"keeper,omitempty"`
	Where    string        `json:"where,omitempty"`
	Bay      string        `json:"bay,omitempty"`
	Stands   string        `json:"stands,omitempty"`
	Stage    string        `json:"stage,omitempty"`
	Holds    string        `json:"holds,omitempty"` // what holds it, one sentence; empty for nothing
	Tally    finding.Tally `json:"tally"`
	Problems int           `json:"problems,omitempty"`
	Shape    Shape         `json:"shape,omitzero"`
}

// Shape is what was read of the body, for its small drawing: lengths in millimetres at ROAD; 0 is not read.
type Shape struct {
	Wheelbase float64         `json:"wheelbase,omitempty"` // [mm]
	Front     float64         `json:"front,omitempty"`     // [mm] front overhang
	Rear      float64         `json:"rear,omitempty"`      // [mm] rear overhang
	Roof      float64         `json:"roof,omitempty"`      // [mm] above the floor
	Bonnet    float64         `json:"bonnet,omitempty"`    // [mm] above the floor
	Waist     float64         `json:"waist,omitempty"`     // [mm] above the floor
	Boot      float64         `json:"boot,omitempty"`      // [mm] above the floor
	Sill      float64         `json:"sill,omitempty"`      // [mm] above the floor
	Tyre      float64         `json:"tyre,omitempty"`      // [mm] across, front
	RearTyre  float64         `json:"rearTyre,omitempty"`  // [mm] across
	Hub       [2]float64      `json:"hub,omitzero"`        // [mm] above the floor
	Arch      [2]float64      `json:"arch,omitzero"`       // [mm] hub to arch
	ArchShape [2]string       `json:"archShape,omitzero"`
	Put       map[string]Spot `json:"put,omitempty"` // control points that somebody put elsewhere
}

// Spot is where a control point was put; what is not typed is nil.
type Spot struct {
	X *float64 `json:"x,omitempty"` // [mm] behind the front hub
	Z *float64 `json:"z,omitempty"` // [mm] above the floor
}

// Summarise makes the summary of a record and what was found in it.
func Summarise(rec *job.Job, res *study.Result) Summary {
	s := Summary{Car: carLine(rec), Form: rec.Car.Form, Keeper: rec.Keeper.Name, Where: rec.Place.Where, Bay: rec.Place.Bay,
		Stands: rec.Place.Stands, Stage: rec.Place.Stage, Tally: res.Tally, Problems: len(res.Problems), Holds: rec.Place.Holds,
		Shape: shapeOf(res.Body)}
	if s.Holds == "" {
		s.Holds = holds(res)
	}
	return s
}

// holds is the claim of the first finding that locks the work.
func holds(res *study.Result) string {
	if len(res.Refusal) > 0 {
		return res.Refusal[0]
	}
	unknown := 0
	for _, f := range res.Findings {
		switch {
		case !f.Holds():
		case f.Verdict == finding.NotKnown:
			unknown++
		default:
			return f.Claim
		}
	}
	if unknown > 0 && len(res.Gaps) > 0 {
		return page.Plural(unknown, "finding that stops the work is", "findings that stop the work are") + " not known; most wait for: " + res.Gaps[0].Label + "."
	}
	return ""
}

// shapeOf keeps what was read of a body.
func shapeOf(o body.Outline) Shape {
	m := o.Measures
	mm := func(l body.Length) float64 {
		if !l.Known {
			return 0
		}
		return math.Round(1e4*l.V) / 10
	}
	s := Shape{Wheelbase: mm(m.Wheelbase), Front: mm(m.FrontOverhang), Rear: mm(m.RearOverhang), Roof: mm(m.Roof), Bonnet: mm(m.Bonnet), Waist: mm(m.Waist),
		Boot: mm(m.Boot), Sill: mm(m.Sill), Tyre: 2 * mm(m.TyreRadius[0]), RearTyre: 2 * mm(m.TyreRadius[1]), ArchShape: m.ArchShape}
	for i := range 2 {
		s.Hub[i], s.Arch[i] = mm(m.Hub[i]), mm(m.Arch[i])
	}
	for id, p := range m.Stations {
		if _, drawn := o.Station(id); !drawn {
			continue
		}
		var at Spot
		if x := mm(p.X); p.X.Known {
			at.X = &x
		}
		if z := mm(p.Z); p.Z.Known {
			at.Z = &z
		}
		if at != (Spot{}) {
			if s.Put == nil {
				s.Put = map[string]Spot{}
			}
			s.Put[id] = at
		}
	}
	return s
}

// measures is what the room body makes the outline of.
func (s Shape) measures(form string) body.Measures {
	m := func(v float64) body.Length { return body.Length{V: v / 1000, Known: v != 0} }
	out := body.Measures{Form: form, Wheelbase: m(s.Wheelbase), FrontOverhang: m(s.Front), RearOverhang: m(s.Rear), Roof: m(s.Roof), Bonnet: m(s.Bonnet), Waist: m(s.Waist),
		Boot: m(s.Boot), Sill: m(s.Sill), TyreRadius: [2]body.Length{m(s.Tyre / 2), m(s.RearTyre / 2)}, ArchShape: s.ArchShape, Stations: map[string]body.Spot{}}
	for i := range 2 {
		out.Hub[i], out.Arch[i] = m(s.Hub[i]), m(s.Arch[i])
	}
	for id, p := range s.Put {
		var at body.Spot
		if p.X != nil {
			at.X = body.Known(*p.X / 1000)
		}
		if p.Z != nil {
			at.Z = body.Known(*p.Z / 1000)
		}
		out.Stations[id] = at
	}
	return out
}

// Outcomes that the list is narrowed by.
const (
	stateOpen = "open"
	stateDone = "handed over"
)

// saveOf makes what the store keeps of a record.
func saveOf(rec *job.Job, res *study.Result, base int, author, note string) (job.Save, error) {
	doc, err := rec.Encode()
	if err != nil {
		return job.Save{}, err
	}
	sum, err := json.Marshal(Summarise(rec, res))
	if err != nil {
		return job.Save{}, err
	}
	save := job.Save{Job: rec.ID, Base: base, Document: doc, Author: author, Note: note, Name: jobName(rec), State: stateOpen, Summary: sum}
	if rec.Place.Stage == stateDone || rec.Place.Where == "gone home" {
		save.State = stateDone
	}
	if len(rec.Place.Promised) == len(job.DateLayout) {
		save.Due = rec.Place.Promised
	}
	for _, p := range rec.Check() {
		if p.Path == "place.promised" {
			save.Due = ""
		}
	}
	for _, f := range rec.Fields() {
		if text := strings.TrimSpace(f.Content()); text != "" {
			save.Text = append(save.Text, job.Passage{Place: placeWords(f), Text: text})
		}
		if f.Reading != nil && f.Reading.Note != "" {
			save.Text = append(save.Text, job.Passage{Place: "note at " + f.Label, Text: f.Reading.Note})
		}
	}
	return save, nil
}

// placeWords says where a text stands; empty for what the list shows anyway.
func placeWords(f job.Field) string {
	switch f.Path {
	case "id", "name", "car.description", "car.year":
		return ""
	}
	return f.Label
}

func itoa(n int) string { return strconv.Itoa(n) }
