package web

import (
	"encoding/json"
	"strconv"
	"strings"

	"jounce/internal/figure"
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
	Shape    figure.Shape  `json:"shape,omitzero"`
}

// Summarise makes the summary of a record and what was found in it.
func Summarise(rec *job.Job, res *study.Result) Summary {
	s := Summary{Car: carLine(rec), Form: rec.Car.Form, Keeper: rec.Keeper.Name, Where: rec.Place.Where, Bay: rec.Place.Bay,
		Stands: rec.Place.Stands, Stage: rec.Place.Stage, Tally: res.Tally, Problems: len(res.Problems), Holds: rec.Place.Holds,
		Shape: figure.ShapeOf(res.Body)}
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
