package web

import (
	"context"
	"errors"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"jounce/internal/job"
	"jounce/internal/web/page"
)

// After a save the page reached says which revision it became, and takes it back
// with one tap. keep notes the revision in the request; the redirect that follows
// carries its number to the next page as ?kept=15, whatever handler sends it.

// keptName is the name under which an address carries the revision just kept.
const keptName = "kept"

// fewWords is how many changes a line of the history says before "and 3 more".
const fewWords = 3

type noteKey struct{}

// noted is the revision that a request kept; number 0 is none.
type noted struct {
	id     string
	number int
}

// noting makes a request that notes what it keeps and an answer that says so.
func noting(w http.ResponseWriter, r *http.Request) (http.ResponseWriter, *http.Request) {
	n := new(noted)
	return &noteWriter{w, n}, r.WithContext(context.WithValue(r.Context(), noteKey{}, n))
}

// note remembers the revision that a request kept.
func note(r *http.Request, rev job.Revision) {
	if n, ok := r.Context().Value(noteKey{}).(*noted); ok {
		n.id, n.number = rev.Job, rev.Number
	}
}

// noteWriter adds the revision kept to the address of a redirect.
type noteWriter struct {
	http.ResponseWriter
	kept *noted
}

// Unwrap is the answer underneath.
func (w *noteWriter) Unwrap() http.ResponseWriter { return w.ResponseWriter }

// WriteHeader sends the status, a redirect with the revision kept in it.
func (w *noteWriter) WriteHeader(status int) {
	if to := w.Header().Get("Location"); status == http.StatusSeeOther && w.kept.number > 0 {
		w.Header().Set("Location", keptAt(to, *w.kept))
	}
	w.ResponseWriter.WriteHeader(status)
}

// keptAt is an address of the job's pages that says which revision was kept;
// another address stays as it is.
func keptAt(to string, n noted) string {
	u, err := url.Parse(to)
	if err != nil || u.Host != "" || !inside(strings.ReplaceAll(u.Path, "/", "."), ".jobs."+n.id) {
		return to
	}
	q := u.Query()
	q.Set(keptName, strconv.Itoa(n.number))
	u.RawQuery = q.Encode()
	return u.String()
}

// kept is the status line of a page: of the revision just kept, and on the car
// and the history of the newest in any case.
func (s *server) kept(r *http.Request, o *opened, room string) *page.Kept {
	if r.Method != http.MethodGet || o.Rev.Number < 1 {
		return nil
	}
	k := &page.Kept{ID: o.ID, Number: o.Rev.Number, By: o.Rev.Author, At: page.Moment(o.Rev.At)}
	k.Back = withoutKept(r.URL)
	if n, err := strconv.Atoi(r.URL.Query().Get(keptName)); err == nil && n >= 1 && n <= o.Rev.Number {
		k.Fresh = true
		if n < o.Rev.Number {
			k.Number, k.Newest = n, o.Rev.Number
			return k
		}
	}
	if !k.Fresh && room != "car" && room != "history" {
		return nil
	}
	before := past{rec: new(job.Job)}
	if k.Undo = o.Rev.Number > 1; k.Undo {
		var err error
		if before, err = s.revisionOf(r.Context(), o.ID, o.Rev.Number-1); err != nil {
			k.Words = ended("what it changed cannot be said: " + err.Error())
			return k
		}
	}
	k.Words = ended(saidOf(o.Rev.Number, o.Rev.Note, job.Diff(before.rec, o.Rec)))
	return k
}

// ended ends a sentence that has no end of its own.
func ended(s string) string {
	if strings.HasSuffix(s, "…") || strings.HasSuffix(s, ".") {
		return s
	}
	return s + "."
}

// withoutKept is the address of a page without the revision kept.
func withoutKept(u *url.URL) string {
	q := u.Query()
	q.Del(keptName)
	if len(q) == 0 {
		return u.Path
	}
	return u.Path + "?" + q.Encode()
}

// past is a saved revision with its record.
type past struct {
	job.Revision
	rec *job.Job
}

// revisionOf loads a revision without studying it.
func (s *server) revisionOf(ctx context.Context, id string, number int) (past, error) {
	rev, err := s.Records.LoadRevision(ctx, id, number)
	if err != nil {
		return past{}, err
	}
	rec, err := job.Decode(rev.Document)
	return past{rev, rec}, err
}

// undo saves the state before the newest revision as another revision: nothing
// is taken away, and undoing that one does it again.
func (s *server) undo(w http.ResponseWriter, r *http.Request) error {
	o, signer, ok, err := s.posted(w, r)
	if !ok || err != nil {
		return err
	}
	base, err := strconv.Atoi(r.PostForm.Get(":base"))
	switch {
	case err != nil || base < 1 || base > o.Rev.Number:
		return asked{"which revision is to be undone was not said; go back to the page, load it again and undo from there"}
	case base != o.Rev.Number:
		return asked{notNewest(base, o.Rev)}
	case base == 1:
		return asked{"revision 1 began this job; there is nothing before it"}
	}
	before, err := s.revisionOf(r.Context(), o.ID, base-1)
	if err != nil {
		return err
	}
	words := "undid revision " + itoa(base) + ": " + job.Words(job.Diff(o.Rec, before.rec), fewWords)
	if _, err := s.keep(r, before.rec, base, signer, words); err != nil {
		var lost *job.Conflict
		if errors.As(err, &lost) {
			return asked{notNewest(base, lost.Current)}
		}
		return err
	}
	back := local(r.PostForm.Get(":back"))
	if back == "/" {
		back = "/jobs/" + o.ID
	}
	http.Redirect(w, r, back, http.StatusSeeOther)
	return nil
}

// notNewest says why a revision is not undone.
func notNewest(base int, newest job.Revision) string {
	return "revision " + itoa(base) + " is not the newest: " + newest.Author + " saved revision " + itoa(newest.Number) + " since, " + page.Moment(newest.At) +
		". Only the newest is undone. The history compares the two and restores an earlier one; nothing was changed"
}
