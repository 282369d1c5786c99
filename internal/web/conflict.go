package web

import (
	"cmp"
	"net/http"
	"slices"
	"strings"

	"jounce/internal/job"
	"jounce/internal/web/form"
	"jounce/internal/web/page"
)

// merged brings a typed record together with what was saved since its page was
// made. What an answer put aside is said for the history, with names and times.
func (f *filled) merged(mine *job.Job, o *opened, live bool) (*job.Job, []job.Clash, string) {
	rec, both := job.Merge(f.shown, mine, o.Rec)
	if len(both) == 0 {
		return rec, nil, ""
	}
	answers := map[string]job.Stand{}
	if f.Seen == o.Rev.Number {
		answers = f.Stands
	}
	var aside []string
	for _, c := range both {
		if live {
			answers[c.Path] = job.Mine
		}
		switch answers[c.Path] {
		case job.Mine:
			aside = append(aside, c.Label+": "+said(c.Mine)+" stands, put aside: "+said(c.Theirs)+named(c.Theirs.By, c.Theirs.At))
		case job.Theirs:
			aside = append(aside, c.Label+": "+said(c.Theirs)+" stands, put aside: "+said(c.Mine)+named(f.by.Who, f.by.At))
		}
	}
	rec, both = job.MergeWith(f.shown, mine, o.Rec, answers)
	return rec, both, job.Short(strings.Join(aside, "; "), mostAside)
}

// mostAside is the longest note on values put aside [signs].
const mostAside = 900

// said is one side of a clash in words.
func said(s job.Side) string {
	switch {
	case !s.There:
		return "taken out"
	case s.NotRead != "":
		return "not read: " + s.NotRead
	case strings.TrimSpace(s.Value) == "":
		return "empty"
	}
	return s.Value
}

func named(who, at string) string {
	if who == "" {
		return ""
	}
	if len(at) >= len(job.TimeLayout) {
		at = at[:10] + " " + at[11:16]
	}
	return " by " + strings.TrimSpace(who+" "+at)
}

// since says at each place what somebody saved there after the form was opened.
func (f *filled) since(o *opened) map[string]string {
	if f.Base == o.Rev.Number {
		return nil
	}
	out := map[string]string{}
	for _, c := range job.Diff(f.shown, o.Rec) {
		side := job.Side{There: true, Reading: c.After}
		out[c.Path] = c.Label + ": " + cmp.Or(c.After.By, o.Rev.Author) + " saved meanwhile: " + said(side) + "."
	}
	return out
}

// clash is one place that two people changed, as a page asks about it.
type clash struct {
	Label, Before string
	Name          string // of the answer
	Theirs, Mine  choice
	Two           bool // both may stand: they are two things
}

// choice is one of two values, and whose it is.
type choice struct{ Says, By string }

type bothPage struct {
	page.Base
	Action string
	Number int // the newest revision
	Author string
	At     string
	Both   []clash
	Others int // what else was typed and goes with it
	Kept   []keptField
}

// askBoth is the page that shows both values and asks. All that was typed goes
// with the answer, on the record that it was typed into.
func (s *server) askBoth(w http.ResponseWriter, r *http.Request, o *opened, f *filled, both []job.Clash) error {
	p := &bothPage{Base: s.jobBase(r, o, "", "two values"), Action: r.URL.RequestURI(), Number: o.Rev.Number,
		Author: o.Rev.Author, At: page.Moment(o.Rev.At)}
	view := form.NewView(o.Rec, nil)
	asked := map[string]bool{}
	for _, c := range both {
		asked[c.Path] = true
		x := clash{Label: c.Label, Name: form.Stands(c.Path), Two: c.Added, Theirs: choice{Says: said(c.Theirs)}, Mine: choice{Says: said(c.Mine)}}
		if c.Base.There {
			x.Before = said(c.Base)
		}
		mine := c.Mine.Reading
		mine.By, mine.At = f.by.Who, f.by.At
		x.Mine.By = view.Signed(mine)
		if x.Theirs.By = view.Signed(c.Theirs.Reading); x.Theirs.By == "" {
			x.Theirs.By = s.savedBy(r, o, f, c.Path)
		}
		p.Both = append(p.Both, x)
	}
	for _, c := range f.changes {
		if !slices.ContainsFunc(both, func(b job.Clash) bool { return inside(c.Path, b.Path) }) {
			p.Others++
		}
	}
	for name, vals := range r.PostForm {
		for _, v := range vals {
			if !form.Answers(name) {
				p.Kept = append(p.Kept, keptField{name, v})
			}
		}
	}
	if f.At == "" { // the answer comes later than the value
		p.Kept = append(p.Kept, keptField{form.At, f.by.At})
	}
	slices.SortStableFunc(p.Kept, func(a, b keptField) int { return strings.Compare(a.Name, b.Name) })
	return s.render(w, r, http.StatusConflict, "both", p)
}

// mostBack is how many revisions are looked through for the one that changed a place.
const mostBack = 20

// savedBy says who saved what stands at a place now, and when.
func (s *server) savedBy(r *http.Request, o *opened, f *filled, path string) string {
	rev := o.Rev
	for n := rev.Number - 1; n > max(f.Base, o.Rev.Number-mostBack); n-- {
		before, err := s.revisionOf(r.Context(), o.ID, n)
		if err != nil || slices.ContainsFunc(job.Diff(before.rec, o.Rec), func(c job.Change) bool { return c.Touches(path) }) {
			break
		}
		rev = before.Revision
	}
	return rev.Author + ", " + page.Moment(rev.At)
}
