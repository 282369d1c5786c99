package web

import (
	"context"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"jounce/internal/job"
	"jounce/internal/web/page"
)

// A page of the history has so many revisions; where only those that changed a
// place are asked for, so many are looked through for it.
const (
	historyLines  = 25
	historyLooked = 100
)

type historyPage struct {
	page.Base
	ID      string
	Of      string // the place whose history it is, in words; empty for all
	Type    string // address where the place is typed
	Lines   []pastLine
	From    int    // the first revision looked at
	Older   string // address of the older ones
	Compare compareForm
	Block   []page.Cell
}

// pastLine is one revision with what it changed.
type pastLine struct {
	job.HistoryLine
	Words string      // what it changed
	One   *changeLine // the only place that it changed of those asked for
	Lines []changeLine
	Left  string // address of what was left out, where the job began as a copy
}

// history lists the revisions of a job, each with what it changed: all of them,
// or with ?place=corners.FL.weight those that changed a place, a group or an item,
// or with ?section=weights those that changed something on a page of the record.
func (s *server) history(w http.ResponseWriter, r *http.Request) error {
	o, err := s.open(r)
	if err != nil {
		return err
	}
	q := r.URL.Query()
	before, _ := strconv.Atoi(q.Get("before"))
	place, key := strings.TrimSpace(q.Get("place")), q.Get("section")
	p := &historyPage{Base: s.jobBase(r, o, "history", "History"), ID: o.ID, Block: s.titleBlock(o, "History")}
	var want func(job.Change) bool
	if sec, ok := findSection(key); ok {
		p.Of, p.Type, want = sec.Title, "/jobs/"+o.ID+"/record/"+sec.Key, func(c job.Change) bool { return sectionOf(c.Path) == sec.Key }
	} else if key != "" {
		return errNoPage
	}
	if place != "" {
		p.Of, p.Type, want = place, hrefOf(o.ID, place), func(c job.Change) bool { return c.Touches(place) }
	}
	limit := historyLines
	if want != nil {
		limit = historyLooked
	}
	list, err := s.Records.History(r.Context(), o.ID, job.HistoryPage{Before: before, Limit: limit})
	if err != nil {
		return err
	}
	p.Lines = s.pastLines(r.Context(), o, list, want)
	if place != "" {
		p.Of = wordsOf(o.Rec, place)
		p.single(pastOf(o.ID, place))
	}
	if n := len(list); n > 0 && list[n-1].Number > 1 {
		p.From = list[n-1].Number
		q.Set("before", itoa(p.From))
		q.Del(keptName)
		p.Older = "/jobs/" + o.ID + "/history?" + q.Encode()
	}
	if p.Compare, err = s.compareForm(r.Context(), o, 0, 0); err != nil {
		return err
	}
	return s.render(w, r, http.StatusOK, "history", p)
}

// single gives lines in which one place alone is told the words of that place.
func (p *historyPage) single(past string) {
	for i, l := range p.Lines {
		if len(l.Lines) == 1 && l.Lines[0].Past == past && !l.Lines[0].Order {
			p.Lines[i].One, p.Lines[i].Lines = &l.Lines[0], nil
			p.Of = l.Lines[0].Label
		}
	}
}

// pastLines says what each revision of a run changed; with want only those that
// changed what is wanted. A revision that cannot be read says so on its line.
func (s *server) pastLines(ctx context.Context, o *opened, list []job.HistoryLine, want func(job.Change) bool) []pastLine {
	var out []pastLine
	records := map[int]*job.Job{0: {}, o.Rev.Number: o.Rec}
	record := func(n int) (*job.Job, error) {
		if records[n] == nil {
			x, err := s.revisionOf(ctx, o.ID, n)
			if err != nil {
				return nil, err
			}
			records[n] = x.rec
		}
		return records[n], nil
	}
	for _, h := range list {
		l := pastLine{HistoryLine: h}
		is, err := record(h.Number)
		var was *job.Job
		if err == nil {
			was, err = record(h.Number - 1)
		}
		if err != nil {
			l.Words = "what it changed cannot be said: " + err.Error()
			out = append(out, l)
			continue
		}
		delete(records, h.Number)
		changes := job.Diff(was, is)
		if _, _, ok := job.CopiedFrom(h.Note); ok && h.Number == 1 {
			l.Left = "/jobs/" + o.ID + "/copied"
		}
		if want == nil {
			l.Words = saidOf(h.Number, h.Note, changes)
			out = append(out, l)
			continue
		}
		var some []job.Change
		for _, c := range changes {
			if want(c) {
				some = append(some, c)
			}
		}
		if len(some) > 0 {
			l.Lines = linesOf(o.ID, some)
			out = append(out, l)
		}
	}
	return out
}

// saidOf is what a revision did: its note, and its changes in words where the
// note does not say them.
func saidOf(number int, note string, changes []job.Change) string {
	words := job.Words(changes, fewWords)
	if number == 1 {
		words = "the first, with " + page.Plural(len(changes), "entry", "entries")
	}
	switch {
	case note == "":
		return words
	case strings.Contains(note, words):
		return note
	}
	return note + ": " + words
}

// wordsOf is a place of the record in words; the path where the record has none.
func wordsOf(rec *job.Job, path string) string {
	if f, err := rec.Field(path, false); err == nil {
		return f.Label
	}
	for _, f := range rec.Fields() {
		if inside(f.Path, path) {
			return titleOf(rec, path)
		}
	}
	return path
}

// pastOf is the address of the history of a place.
func pastOf(id, path string) string {
	return "/jobs/" + id + "/history?place=" + url.QueryEscape(path)
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
