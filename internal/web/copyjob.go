package web

import (
	"errors"
	"net/http"
	"strconv"
	"strings"

	"jounce/internal/job"
	"jounce/internal/web/form"
	"jounce/internal/web/page"
)

// copyPlaces are the places that a copy asks for at once: what tells the new car
// and its keeper from the old.
var copyPlaces = []string{"name", "car.description", "car.year", "car.plate", "keeper.name", "keeper.contact"}

type copyPage struct {
	page.Base
	ID, Action string
	BaseRev    int
	Fields     []form.Field
	Wrong      string
	Carried    int // entries that carry over
	Left       leftOut
}

// copyJob begins a job as a copy of an earlier one: GET says what would carry over
// and what would be left out, POST makes it.
func (s *server) copyJob(w http.ResponseWriter, r *http.Request) error {
	now, err := s.open(r)
	if err != nil {
		return err
	}
	if r.Method != http.MethodPost {
		if nameFirst(w, r) {
			return nil
		}
		return s.copyForm(w, r, http.StatusOK, now, form.NewView(now.Rec.Copy(), nil), "")
	}
	if err := r.ParseForm(); err != nil {
		return err
	}
	signer, ok, err := s.signer(w, r)
	if !ok || err != nil {
		return err
	}
	base, err := strconv.Atoi(r.PostForm.Get(form.Base))
	if err != nil || base < 1 {
		base = now.Rev.Number
	}
	source, err := s.openAt(r.Context(), now, base)
	if err != nil {
		return err
	}
	rec := source.Rec.Copy()
	changes := form.Read(r.PostForm).Changes(rec)
	for _, c := range changes {
		if !contains(copyPlaces, c.Path) {
			return asked{c.Path + ": a copy does not ask for this; type it in the new job"}
		}
	}
	if err := form.Apply(rec, changes, form.Signature{}); err != nil {
		return asked{err.Error()}
	}
	if strings.TrimSpace(rec.Name) == "" && strings.TrimSpace(rec.Car.Description) == "" {
		return s.copyForm(w, r, http.StatusUnprocessableEntity, source, form.NewView(rec, nil), "Name of the job, empty. A name or the car in a few words was expected, so that somebody can find it.")
	}
	rec.Place.Stage = page.Stages[0]
	measured, _ := job.LeftOut(source.Rec, rec)
	if err := s.begin(r, rec, signer, job.CopyNote(source.ID, base, len(measured))); err != nil {
		return err
	}
	http.Redirect(w, r, "/jobs/"+rec.ID+"/copied", http.StatusSeeOther)
	return nil
}

// begin saves the first revision of a job under the next free number.
func (s *server) begin(r *http.Request, rec *job.Job, signer, why string) error {
	for {
		var err error
		if rec.ID, err = s.Records.NextJobNumber(r.Context()); err != nil {
			return err
		}
		_, err = s.keep(r, rec, 0, signer, why)
		var taken *job.Conflict
		if !errors.As(err, &taken) {
			return err
		}
	}
}

func (s *server) copyForm(w http.ResponseWriter, r *http.Request, status int, source *opened, v *form.View, wrong string) error {
	p := &copyPage{Base: s.jobBase(r, source, "", "copy"), ID: source.ID, Action: "/jobs/" + source.ID + "/copy", BaseRev: source.Rev.Number, Wrong: wrong}
	for _, path := range copyPlaces {
		p.Fields = append(p.Fields, v.Field(path))
	}
	rec := source.Rec.Copy()
	for _, f := range rec.Fields() {
		if strings.TrimSpace(f.Content()) != "" {
			p.Carried++
		}
	}
	measured, rest := job.LeftOut(source.Rec, rec)
	p.Left = leftOutOf(source.ID, measured, rest, nil)
	return s.render(w, r, status, "copy", p)
}

// leftOut is what a copy does not have of its source.
type leftOut struct {
	Measured, Rest int // readings, and other entries
	Again          int // of the readings, those that the new job has by now
	Parts          []leftPart
	Others         []leftPart
}

// leftPart is what was left out on one page of the record.
type leftPart struct {
	Title, Href string
	Lines       []leftLine
}

// leftLine is one place that was left out, or an item with so many in it.
type leftLine struct {
	Label, Href string
	Count       int    // places in the item; 0 for a single place
	Now         string // what the new job has there
}

// leftOutOf lists what was left out. now is the record as it is, nil while there
// is none.
func leftOutOf(id string, measured, rest []job.Change, now *job.Job) leftOut {
	out := leftOut{Measured: len(measured), Rest: len(rest)}
	out.Parts, out.Again = leftParts(id, measured, now)
	out.Others, _ = leftParts(id, rest, now)
	return out
}

func leftParts(id string, list []job.Change, now *job.Job) (parts []leftPart, again int) {
	at, items := map[string]int{}, map[string]int{}
	for _, sec := range sections {
		at[sec.Key] = len(parts)
		parts = append(parts, leftPart{Title: sec.Title, Href: "/jobs/" + id + "/record/" + sec.Key})
	}
	for _, c := range list {
		part := &parts[at[sectionOf(c.Path)]]
		l := leftLine{Label: c.Label, Href: hrefOf(id, c.Path)}
		if now != nil {
			if f, err := now.Field(c.Path, false); err == nil && strings.TrimSpace(f.Content()) != "" {
				l.Now = f.Content()
				again++
			}
		}
		if c.Item != "" && l.Now == "" {
			if n, ok := items[c.Item]; ok {
				part.Lines[n].Count++
				continue
			}
			items[c.Item] = len(part.Lines)
			l = leftLine{Label: c.Named, Href: part.Href, Count: 1}
		}
		part.Lines = append(part.Lines, l)
	}
	kept := parts[:0]
	for _, p := range parts {
		if len(p.Lines) > 0 {
			kept = append(kept, p)
		}
	}
	return kept, again
}

type copiedPage struct {
	page.Base
	ID, Source string
	Revision   int
	Left       leftOut
	Block      []page.Cell
}

// copied lists what was left out when the job began as a copy: the note of its
// first revision names the source.
func (s *server) copied(w http.ResponseWriter, r *http.Request) error {
	o, err := s.open(r)
	if err != nil {
		return err
	}
	first, err := s.revisionOf(r.Context(), o.ID, 1)
	if err != nil {
		return err
	}
	id, number, ok := job.CopiedFrom(first.Note)
	if !ok {
		return asked{"job " + o.ID + " did not begin as a copy of another one, so nothing was left out of it"}
	}
	source, err := s.revisionOf(r.Context(), id, number)
	if err != nil {
		return err
	}
	p := &copiedPage{Base: s.jobBase(r, o, "", "copied"), ID: o.ID, Source: id, Revision: number, Block: s.titleBlock(o, "What was left out")}
	measured, rest := job.LeftOut(source.rec, first.rec)
	p.Left = leftOutOf(o.ID, measured, rest, o.Rec)
	return s.render(w, r, http.StatusOK, "copied", p)
}
