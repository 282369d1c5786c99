package web

import (
	"net/http"
	"net/url"
	"strings"
	"time"

	"jounce/internal/job"
	"jounce/internal/study"
	"jounce/internal/web/form"
)

// edit is one page with a form on a job, at any point of its life: as saved, as
// typed, with what is wrong in it.
type edit struct {
	*opened            // the record as it is to be shown, studied
	View    *form.View // its boxes
	Base    int        // revision that the form is based on
	Open    []string   // places left open in this form
	Unsaved bool       // the page shows what is not saved
	Asked   []asking   // questions that keep this form from being saved
	Added   string     // path of an item that was just added
}

// asking is one question above the form, with a link to its field.
type asking struct{ Path, Label string }

// show writes the page of an edit with a status.
type show func(status int, e *edit) error

// edit runs a page with a form: GET shows it, POST takes it. next says where to
// go once it is saved.
func (s *server) edit(w http.ResponseWriter, r *http.Request, out show, next func(e *edit) string) error {
	o, err := s.open(r)
	if err != nil {
		return err
	}
	if r.Method != http.MethodPost {
		if signerOf(r) == "" {
			http.Redirect(w, r, "/name?next="+url.QueryEscape(r.URL.RequestURI()), http.StatusSeeOther)
			return nil
		}
		return out(http.StatusOK, &edit{opened: o, View: form.NewView(o.Rec, o.Res.Problems), Base: o.Rev.Number})
	}
	if err := r.ParseForm(); err != nil {
		return err
	}
	t := form.Read(r.PostForm)
	live := r.Header.Get("X-Live") != ""
	signer := signerOf(r)
	if !live {
		name, ok, err := s.signer(w, r)
		if !ok || err != nil {
			return err
		}
		signer = name
	}
	shown := o.Rec
	if t.Base != 0 && t.Base != o.Rev.Number {
		old, err := s.Records.LoadRevision(r.Context(), o.ID, t.Base)
		if err != nil {
			return err
		}
		before, err := s.study(old)
		if err != nil {
			return err
		}
		shown = before.Rec
	}
	changes := t.Changes(shown)
	if both := clashes(changes, shown, o.Rec); len(both) > 0 && !live {
		return s.askBoth(w, r, o, both, changes, t)
	}
	e, err := s.typedIn(o, t, changes, signer, !live)
	if err != nil {
		return asked{err.Error()}
	}
	if live || t.Add != "" {
		return out(http.StatusOK, e)
	}
	if len(e.Asked) > 0 {
		return out(http.StatusUnprocessableEntity, e)
	}
	if len(changes) > 0 || t.Remove != "" {
		if _, err := s.keep(r, e.Rec, o.Rev.Number, signer, ""); err != nil {
			return s.late(w, r, err, changes, t, shown)
		}
	}
	http.Redirect(w, r, next(e), http.StatusSeeOther)
	return nil
}

// typedIn brings what was typed into a copy of the record and studies it.
// toKeep makes sure that the record can be read again, which a page that is only
// shown need not.
func (s *server) typedIn(o *opened, t form.Typed, changes []form.Change, signer string, toKeep bool) (*edit, error) {
	rec := o.Rec.Clone()
	by := form.Signature{Who: signer, At: s.Clock().Format(time.RFC3339)}
	if err := form.Apply(rec, changes, by); err != nil {
		return nil, err
	}
	e := &edit{Base: o.Rev.Number, Unsaved: true}
	if t.Remove != "" {
		if err := rec.Remove(t.Remove); err != nil {
			return nil, err
		}
	}
	if t.Add != "" {
		path, err := form.Append(rec, t.Add)
		if err != nil {
			return nil, err
		}
		e.Added = path
	}
	if toKeep {
		doc, err := rec.Encode()
		if err != nil {
			return nil, err
		}
		if _, err := job.Decode(doc); err != nil {
			return nil, err // an id that no item can have: nothing is saved that cannot be read again
		}
	}
	res := study.Of(rec, s.Shop)
	res.Problems = append(res.Problems, study.Exchanged(o.Rec, rec)...)
	e.opened = &opened{ID: o.ID, Rev: o.Rev, Rec: rec, Res: res}
	e.View = form.NewView(rec, e.Res.Problems)
	changed := map[string]bool{}
	for _, c := range changes {
		changed[c.Path] = true
	}
	for _, p := range e.Res.Problems {
		switch {
		case t.Open[p.Path]:
			e.View.Open[p.Path] = true
			e.Open = append(e.Open, p.Path)
		case changed[p.Path]:
			e.Asked = append(e.Asked, asking{p.Path, p.Label})
		}
	}
	return e, nil
}

// keep saves a record as the next revision.
func (s *server) keep(r *http.Request, rec *job.Job, base int, signer, why string) (job.Revision, error) {
	save, err := saveOf(rec, study.Of(rec, s.Shop), base, signer, why)
	if err != nil {
		return job.Revision{}, err
	}
	rev, err := s.Records.Save(r.Context(), save)
	if err == nil {
		note(r, rev)
	}
	return rev, err
}

// hrefOf is the page on which a place is typed.
func hrefOf(id, path string) string {
	return "/jobs/" + id + "/record/" + sectionOf(path) + "#" + path
}

// inside tells that a path is a place or lies in it.
func inside(path, in string) bool {
	if !strings.HasPrefix(path, in) {
		return false
	}
	rest := path[len(in):]
	return rest == "" || rest[0] == '.' || rest[0] == '['
}
