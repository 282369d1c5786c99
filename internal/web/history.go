package web

import (
	"net/http"
	"strconv"

	"jounce/internal/job"
	"jounce/internal/web/page"
)

// historyLines is the number of revisions on a page.
const historyLines = 50

type historyPage struct {
	page.Base
	ID     string
	Lines  []job.HistoryLine
	Newest int
	Before int // the next page begins before it; 0 when there is none
	Block  []page.Cell
}

// history lists the revisions of a job.
func (s *server) history(w http.ResponseWriter, r *http.Request) error {
	o, err := s.open(r)
	if err != nil {
		return err
	}
	before, _ := strconv.Atoi(r.FormValue("before"))
	lines, err := s.Records.History(r.Context(), o.ID, job.HistoryPage{Before: before, Limit: historyLines})
	if err != nil {
		return err
	}
	p := &historyPage{Base: s.jobBase(r, o, "history", "History"), ID: o.ID, Lines: lines, Newest: o.Rev.Number, Block: s.titleBlock(o, "History")}
	if n := len(lines); n == historyLines && lines[n-1].Number > 1 {
		p.Before = lines[n-1].Number
	}
	return s.render(w, r, http.StatusOK, "history", p)
}

type revisionPage struct {
	page.Base
	ID      string
	Line    job.HistoryLine
	Newest  int
	Changes []change
	Against int
	Found   findingsPart
}

// change is one place in which two revisions differ.
type change struct{ Label, Before, After string }

// revision shows one revision: what it changed and what was found in it.
func (s *server) revision(w http.ResponseWriter, r *http.Request) error {
	now, old, err := s.two(r)
	if err != nil {
		return err
	}
	p := &revisionPage{Base: s.jobBase(r, old, "history", "revision "+itoa(old.Rev.Number)), ID: old.ID, Newest: now.Rev.Number,
		Line:  job.HistoryLine{Number: old.Rev.Number, Author: old.Rev.Author, At: old.Rev.At, Note: old.Rev.Note, Digest: old.Rev.Digest},
		Found: findingsPart{Title: "Findings of this revision", opened: *old}}
	before := &job.Job{}
	if old.Rev.Number > 1 {
		rev, err := s.Records.LoadRevision(r.Context(), old.ID, old.Rev.Number-1)
		if err != nil {
			return err
		}
		if before, err = job.Decode(rev.Document); err != nil {
			return err
		}
		p.Against = rev.Number
	}
	p.Changes = changesOf(before, old.Rec)
	return s.render(w, r, http.StatusOK, "revision", p)
}

func (s *server) two(r *http.Request) (now, old *opened, err error) {
	if now, err = s.open(r); err != nil {
		return nil, nil, err
	}
	n, err := strconv.Atoi(r.PathValue("n"))
	if err != nil || n < 1 {
		return nil, nil, errNoPage
	}
	rev, err := s.Records.LoadRevision(r.Context(), now.ID, n)
	if err != nil {
		return nil, nil, err
	}
	old, err = s.study(rev)
	return now, old, err
}

// changesOf lists the places in which two records differ.
func changesOf(before, after *job.Job) []change {
	was := map[string]job.Field{}
	for _, f := range before.Fields() {
		was[f.Path] = f
	}
	var out []change
	for _, f := range after.Fields() {
		b := was[f.Path]
		delete(was, f.Path)
		text := ""
		if b.Path != "" {
			text = b.Content()
		}
		if text != f.Content() && f.Path != "id" {
			out = append(out, change{f.Label, text, f.Content()})
		}
	}
	for _, f := range before.Fields() {
		if _, gone := was[f.Path]; gone && f.Content() != "" {
			out = append(out, change{f.Label, f.Content(), ""})
		}
	}
	return out
}

// restore saves an old revision again, as the newest: nothing is taken away.
func (s *server) restore(w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return err
	}
	signer, ok, err := s.signer(w, r)
	if !ok || err != nil {
		return err
	}
	now, old, err := s.two(r)
	if err != nil {
		return err
	}
	base, err := strconv.Atoi(r.PostFormValue(":base"))
	if err != nil || base != now.Rev.Number {
		return asked{"somebody saved revision " + itoa(now.Rev.Number) + " meanwhile; look at it, then restore again"}
	}
	why := "restored from revision " + itoa(old.Rev.Number) + ", by " + old.Rev.Author + ", " + page.Moment(old.Rev.At)
	if _, err := s.keep(r, old.Rec, base, signer, why); err != nil {
		return err
	}
	http.Redirect(w, r, "/jobs/"+now.ID+"/history", http.StatusSeeOther)
	return nil
}
