package web

import (
	"errors"
	"net/http"
	"slices"
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
	Aside   string     // what was put aside by an answer to a clash, for the history
}

// formState is what every page with a form of the record says of the form itself.
type formState struct {
	BaseRev int // revision that the form is based on
	Open    []string
	Unsaved bool
	Asked   []asking
}

// state is how an edit stands.
func (e *edit) state() formState { return formState{e.Base, e.Open, e.Unsaved, e.Asked} }

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
		if nameFirst(w, r) {
			return nil
		}
		return out(http.StatusOK, &edit{opened: o, View: form.NewView(o.Rec, o.Res.Problems), Base: o.Rev.Number})
	}
	if err := r.ParseForm(); err != nil {
		return err
	}
	live := r.Header.Get("X-Live") != ""
	signer := signerOf(r)
	if !live {
		name, ok, err := s.signer(w, r)
		if !ok || err != nil {
			return err
		}
		signer = name
	}
	t := form.Read(r.PostForm)
	if to := s.sent.next(t.Sent); to != "" && !live {
		return leadOn(w, r, to) // it was taken before
	}
	f, err := s.filled(r, o, t, signer)
	if err != nil {
		return err
	}
	for {
		e, both, err := s.typedIn(o, f, live)
		switch {
		case err != nil:
			return asked{err.Error()}
		case len(both) > 0 && !live:
			return s.askBoth(w, r, o, f, both)
		case live || t.Add != "":
			return out(http.StatusOK, e)
		case len(e.Asked) > 0:
			return out(http.StatusUnprocessableEntity, e)
		}
		if e.Aside != "" || len(job.Diff(o.Rec, e.Rec)) > 0 {
			_, err := s.keep(r, e.Rec, o.Rev.Number, signer, e.Aside)
			if lost, ok := errors.AsType[*job.Conflict](err); ok && lost.Current.Number > o.Rev.Number {
				if o, err = s.study(lost.Current); err == nil {
					continue // somebody saved in the same moment
				}
			}
			if err != nil {
				return err
			}
		}
		to := next(e)
		s.sent.took(t.Sent, to)
		return leadOn(w, r, to)
	}
}

// filled is a form as it came, with the record that its page showed.
type filled struct {
	form.Typed
	shown   *job.Job
	changes []form.Change
	by      form.Signature
}

// filled finds the record that a form was made from, and what the form changes.
func (s *server) filled(r *http.Request, o *opened, t form.Typed, signer string) (*filled, error) {
	if t.Base == 0 {
		t.Base = o.Rev.Number
	}
	f := &filled{Typed: t, shown: o.Rec, by: form.Signature{Who: signer, At: s.typedAt(t.At)}}
	if t.Base != o.Rev.Number {
		old, err := s.revisionOf(r.Context(), o.ID, t.Base)
		if err != nil {
			return nil, err
		}
		f.shown = old.rec
	}
	f.changes = t.Changes(f.shown)
	return f, nil
}

// longestUnsent is how long a form may have waited in a browser for its time to
// be believed.
const longestUnsent = 60 * 24 * time.Hour

// typedAt is when a form was typed: now, or when the browser that sends it later
// says, on the shop's clock.
func (s *server) typedAt(said string) string {
	now := s.Clock()
	if at, err := time.Parse(time.RFC3339, said); err == nil && at.Before(now) && now.Sub(at) < longestUnsent {
		now = at.In(now.Location())
	}
	return now.Format(time.RFC3339)
}

// typedIn brings what was typed into the record that its page showed, merges it
// with what was saved since, and studies the result. A page that only shows what
// is typed takes the typed value where two clash, and need not make sure that the
// record can be read again.
func (s *server) typedIn(o *opened, f *filled, live bool) (*edit, []job.Clash, error) {
	rec := f.shown.Clone()
	if err := form.Apply(rec, f.changes, f.by); err != nil {
		return nil, nil, err
	}
	if f.Remove != "" {
		if err := rec.Remove(f.Remove); err != nil {
			return nil, nil, err
		}
	}
	e := &edit{Base: o.Rev.Number, Unsaved: true}
	var both []job.Clash
	if f.Base != o.Rev.Number {
		rec, both, e.Aside = f.merged(rec, o, live)
	}
	if f.Add != "" {
		path, err := form.Append(rec, f.Add)
		if err != nil {
			return nil, nil, err
		}
		e.Added = path
	}
	if !live {
		doc, err := rec.Encode()
		if err != nil {
			return nil, nil, err
		}
		if _, err := job.Decode(doc); err != nil {
			return nil, nil, err // an id that no item can have: nothing is saved that cannot be read again
		}
	}
	if len(both) > 0 && !live {
		return nil, both, nil
	}
	s.show(e, o, f, rec)
	if live {
		e.View.Since = f.since(o)
	}
	return e, both, nil
}

// show studies the record of an edit and lists what it asks.
func (s *server) show(e *edit, o *opened, f *filled, rec *job.Job) {
	res := study.Of(rec, s.Shop)
	res.Problems = append(res.Problems, study.Exchanged(o.Rec, rec)...)
	res.Problems = append(res.Problems, study.Warped(o.Rec, rec, res)...)
	e.opened = &opened{ID: o.ID, Rev: o.Rev, Rec: rec, Res: res}
	e.View = form.NewView(rec, e.Res.Problems)
	changed, moved := map[string]bool{}, false
	for _, c := range f.changes {
		changed[c.Path] = f.Stands[c.Path] != job.Theirs
		moved = moved || changed[c.Path] && onOutline(c.Path)
	}
	for _, p := range e.Res.Problems {
		switch {
		case f.Open[p.Path]:
			e.View.Open[p.Path] = true
			e.Open = append(e.Open, p.Path)
		case changed[p.Path] || moved && onOutline(p.Path) && !askedBefore(o.Res.Problems, p):
			e.Asked = append(e.Asked, asking{p.Path, p.Label})
		}
	}
}

// onOutline tells that a place is one of a control point of the outline. Whether
// the outline crosses itself depends on several: what one of them brings about may
// be asked at another.
func onOutline(path string) bool { return strings.HasPrefix(path, "outline.stations[") }

// askedBefore tells that a problem was there before.
func askedBefore(before []job.Problem, p job.Problem) bool {
	return slices.ContainsFunc(before, func(q job.Problem) bool { return q.Path == p.Path && q.Says == p.Says })
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
