package web

import (
	"errors"
	"net/http"
	"slices"
	"strings"

	"jounce/internal/job"
	"jounce/internal/web/form"
	"jounce/internal/web/page"
)

// clash is one place that two people changed.
type clash struct {
	Path, Label  string
	Theirs, Mine string
	By           string // who saved theirs, and when
}

// clashes lists the places that a form changes and somebody else changed since.
func clashes(changes []form.Change, shown, now *job.Job) []clash {
	if shown == now {
		return nil
	}
	var out []clash
	for _, c := range changes {
		theirs, label, by := "", c.Path, ""
		if f, err := now.Field(c.Path, false); err == nil {
			theirs, label = f.Content(), f.Label
			if f.Reading != nil {
				by = f.Reading.By
			}
		}
		if strings.TrimSpace(theirs) == strings.TrimSpace(c.Before) || strings.TrimSpace(theirs) == strings.TrimSpace(c.Text) {
			continue
		}
		out = append(out, clash{Path: c.Path, Label: label, Theirs: theirs, Mine: c.Text, By: by})
	}
	return out
}

type bothPage struct {
	page.Base
	Action string
	Number int // the newest revision
	Author string
	At     string
	Both   []clash
	Kept   []keptField
}

// askBoth is the page that shows both values and asks. What else was typed goes
// with it.
func (s *server) askBoth(w http.ResponseWriter, r *http.Request, o *opened, both []clash, changes []form.Change, t form.Typed) error {
	p := &bothPage{Base: s.jobBase(r, o, "", "two values"), Action: r.URL.RequestURI(), Number: o.Rev.Number,
		Author: o.Rev.Author, At: page.Moment(o.Rev.At), Both: both}
	asked := map[string]bool{}
	for i, b := range both {
		asked[b.Path] = true
		if b.By == "" {
			both[i].By = o.Rev.Author
		}
	}
	for _, c := range changes {
		if asked[c.Path] {
			continue
		}
		if c.NotRead {
			p.Kept = append(p.Kept, keptField{form.NotRead, c.Path})
			continue
		}
		p.Kept = append(p.Kept, keptField{c.Path, c.Text})
		if c.HasWith {
			p.Kept = append(p.Kept, keptField{c.Path + ":with", c.With})
		}
	}
	for path := range t.Open {
		p.Kept = append(p.Kept, keptField{form.Open, path})
	}
	if t.Remove != "" {
		p.Kept = append(p.Kept, keptField{form.Remove, t.Remove})
	}
	slices.SortFunc(p.Kept, func(a, b keptField) int { return strings.Compare(a.Name+a.Value, b.Name+b.Value) })
	return s.render(w, r, http.StatusConflict, "both", p)
}

// late answers a save that lost the race after the form was read: the places are
// compared again with what was saved in between.
func (s *server) late(w http.ResponseWriter, r *http.Request, err error, changes []form.Change, t form.Typed, shown *job.Job) error {
	var lost *job.Conflict
	if !errors.As(err, &lost) {
		return err
	}
	o, err := s.study(lost.Current)
	if err != nil {
		return err
	}
	both := clashes(changes, shown, o.Rec)
	return s.askBoth(w, r, o, both, changes, t)
}
