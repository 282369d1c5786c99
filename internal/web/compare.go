package web

import (
	"context"
	"fmt"
	"net/http"
	"strconv"

	"jounce/internal/job"
	"jounce/internal/plate"
	"jounce/internal/study"
	"jounce/internal/web/page"
)

// mostCompared is how many revisions the choice of two offers.
const mostCompared = 500

// compareForm is the choice of two revisions.
type compareForm struct {
	ID       string
	From, To int
	Lines    []job.HistoryLine // the newest first
}

// compareForm offers the revisions of a job; without a choice the newest and the
// one before it are chosen.
func (s *server) compareForm(ctx context.Context, o *opened, from, to int) (compareForm, error) {
	f := compareForm{ID: o.ID, From: from, To: to}
	if to == 0 {
		f.To = o.Rev.Number
	}
	if from == 0 {
		f.From = max(1, f.To-1)
	}
	var err error
	f.Lines, err = s.Records.History(ctx, o.ID, job.HistoryPage{Limit: mostCompared})
	if n := len(f.Lines); n > 0 {
		for _, want := range []int{f.From, f.To} { // the old ones of a very long history
			if want < f.Lines[n-1].Number && want > 0 {
				f.Lines = append(f.Lines, job.HistoryLine{Number: want})
			}
		}
	}
	return f, err
}

type comparePage struct {
	page.Base
	ID       string
	Choice   compareForm
	Was, Is  job.HistoryLine
	Parts    []changePart
	Turns    turnsPart
	Ghosts   ghosts
	Backward bool
	Block    []page.Cell
}

// compare shows two revisions side by side: what differs in the record, what that
// did to the verdicts, and both outlines.
func (s *server) compare(w http.ResponseWriter, r *http.Request) error {
	now, err := s.open(r)
	if err != nil {
		return err
	}
	from, err1 := numberOf(r, "from")
	to, err2 := numberOf(r, "to")
	if err1 != nil || err2 != nil {
		return asked{"two revisions are compared by their numbers, such as from=3 and to=9; one of the two is not a number"}
	}
	choice, err := s.compareForm(r.Context(), now, from, to)
	if err != nil {
		return err
	}
	was, err := s.openAt(r.Context(), now, choice.From)
	if err != nil {
		return err
	}
	is, err := s.openAt(r.Context(), now, choice.To)
	if err != nil {
		return err
	}
	p := &comparePage{Base: s.jobBase(r, now, "history", "revisions "+itoa(choice.From)+" and "+itoa(choice.To)), ID: now.ID, Choice: choice,
		Was: lineOf(was.Rev), Is: lineOf(is.Rev), Parts: partsOf(now.ID, job.Diff(was.Rec, is.Rec)), Turns: turnsOf(was, is, now),
		Ghosts: ghostsOf(was, is), Backward: choice.From > choice.To, Block: s.titleBlock(is, "Revisions compared")}
	return s.render(w, r, http.StatusOK, "compare", p)
}

// numberOf is a number of the address; 0 where it is not there.
func numberOf(r *http.Request, name string) (int, error) {
	text := r.URL.Query().Get(name)
	if text == "" {
		return 0, nil
	}
	n, err := strconv.Atoi(text)
	if err == nil && n < 1 {
		err = strconv.ErrRange
	}
	return n, err
}

// openAt is a revision of an opened job, studied.
func (s *server) openAt(ctx context.Context, now *opened, number int) (*opened, error) {
	if number == now.Rev.Number {
		return now, nil
	}
	rev, err := s.Records.LoadRevision(ctx, now.ID, number)
	if err != nil {
		return nil, err
	}
	return s.study(rev)
}

func lineOf(r job.Revision) job.HistoryLine {
	return job.HistoryLine{Number: r.Number, Author: r.Author, At: r.At, Note: r.Note, Digest: r.Digest}
}

// ghosts is the drawing of both outlines.
type ghosts struct {
	Same     bool // nothing of the drawing differs
	From, To int
	Car      sizes
}

// ghostsOf draws the car of one revision firm, and behind it, at the same hubs and
// to the same scale, its outline in the other as a double-dot chain.
func ghostsOf(was, is *opened) ghosts {
	g := ghosts{From: was.Rev.Number, To: is.Rev.Number}
	if g.Same = fmt.Sprint(plate.Side(was.Res)) == fmt.Sprint(plate.Side(is.Res)); g.Same {
		g.Car = side(is.Res, 1, false, "both")
	} else {
		g.Car = sideSizes(plate.Ghost(is.Res, was.Res, plate.Revision(g.From)), "both")
	}
	return g
}

type revisionPage struct {
	page.Base
	ID      string
	Line    job.HistoryLine
	Newest  int
	Against int
	Parts   []changePart
	Turns   turnsPart
	Left    string // address of what was left out, where the job began as a copy
	Found   findingsPart
}

// revision shows one revision: what it changed, what that did to the verdicts,
// and what was found in it.
func (s *server) revision(w http.ResponseWriter, r *http.Request) error {
	now, old, err := s.two(r)
	if err != nil {
		return err
	}
	p := &revisionPage{Base: s.jobBase(r, old, "history", "revision "+itoa(old.Rev.Number)), ID: old.ID, Newest: now.Rev.Number, Line: lineOf(old.Rev),
		Found: findingsPart{Title: "Findings of this revision", opened: *old}}
	p.Status = s.kept(r, now, "history")
	before := &opened{ID: old.ID, Rec: new(job.Job), Res: new(study.Result)}
	if old.Rev.Number > 1 {
		if before, err = s.openAt(r.Context(), now, old.Rev.Number-1); err != nil {
			return err
		}
		p.Against = before.Rev.Number
		p.Turns = turnsOf(before, old, now)
	}
	if _, _, ok := job.CopiedFrom(old.Rev.Note); ok && old.Rev.Number == 1 {
		p.Left = "/jobs/" + old.ID + "/copied"
	}
	p.Parts = partsOf(old.ID, job.Diff(before.Rec, old.Rec))
	return s.render(w, r, http.StatusOK, "revision", p)
}

// two are the newest revision and the one that the address names.
func (s *server) two(r *http.Request) (now, old *opened, err error) {
	if now, err = s.open(r); err != nil {
		return nil, nil, err
	}
	n, err := strconv.Atoi(r.PathValue("n"))
	if err != nil || n < 1 {
		return nil, nil, errNoPage
	}
	old, err = s.openAt(r.Context(), now, n)
	return now, old, err
}
