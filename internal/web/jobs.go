package web

import (
	"encoding/json"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"time"

	"jounce/internal/draw"
	"jounce/internal/figure"
	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/web/page"
)

// mostBoard is the most jobs that the board shows; the list has all.
const mostBoard = 60

// listPage is the number of jobs on a page of the list.
const listPage = 10

type jobsPage struct {
	page.Base
	Query   string
	List    bool
	Open    int
	All     int
	Groups  []boardGroup
	Rows    []boardRow
	Found   int
	States  []stateButton
	Next    string // address of the next page
	Ordered string
}

type boardGroup struct {
	Title, Says string
	Rows        []boardRow
}

type boardRow struct {
	ID, Name, Href string
	Summary
	Car       draw.Scene
	CarWords  string
	shape     figure.CarShape
	words     string // what the drawing shows, for those who cannot see it
	Stands    string
	Place     string
	Stage     page.Stage
	Due, Left string
	Late      bool
	State     string
	Found     []job.Found
}

type stateButton struct {
	Label, Href string
	Here        bool
}

// jobs is the board of open jobs, or the list of all.
func (s *server) jobs(w http.ResponseWriter, r *http.Request) error {
	q := strings.TrimSpace(r.FormValue("q"))
	p := &jobsPage{Query: q, List: q != "" || r.FormValue("all") != ""}
	p.Title, p.Heading, p.Room = "Jobs", "Jobs", "jobs"
	now := s.Clock()
	p.Who = s.Shop.Name + ", " + now.Format("Mon 2 January")
	if name := signerOf(r); name != "" {
		p.Who += ", " + name
	}
	counts, err := s.Records.Counts(r.Context(), q)
	if err != nil {
		return err
	}
	p.All = counts.All
	if p.List {
		err = s.list(r, p, counts, now)
	} else {
		err = s.board(r, p, counts, now)
	}
	if err != nil {
		return err
	}
	return s.render(w, r, http.StatusOK, "jobs", p)
}

var wheres = []struct{ key, title, says string }{
	{"in a bay", "In a bay", ""},
	{"in the yard", "In the yard", ""},
	{"not here yet", "Not here yet", "dashed: not seen by the shop"},
	{"", "Not said where", ""},
	{"gone home", "Gone home", ""},
}

// board fills in the open jobs by where they stand.
func (s *server) board(r *http.Request, p *jobsPage, counts job.Counts, now time.Time) error {
	l, err := s.Records.List(r.Context(), job.ListQuery{State: stateOpen, Order: job.ByDue, Limit: mostBoard})
	if err != nil {
		return err
	}
	p.Open = counts.ByState[stateOpen]
	var total finding.Tally
	rows := make([]boardRow, len(l.Rows))
	for i, row := range l.Rows {
		rows[i] = s.boardRow(row, now)
	}
	drawCars(rows, draw.PX(236))
	by := map[string][]boardRow{}
	for _, b := range rows {
		for i, n := range b.Tally {
			total[i] += n
		}
		where := b.Where
		if !slices.ContainsFunc(wheres, func(x struct{ key, title, says string }) bool { return x.key == where }) {
			where = ""
		}
		by[where] = append(by[where], b)
	}
	p.Tally = &total
	for _, x := range wheres {
		if rows := by[x.key]; len(rows) > 0 {
			says := itoa(len(rows))
			if x.says != "" {
				says += ", " + x.says
			}
			p.Groups = append(p.Groups, boardGroup{x.title, says, rows})
		}
	}
	if l.Next != "" {
		p.Ordered = "The first " + itoa(len(l.Rows)) + " of " + itoa(p.Open) + " open jobs. "
	}
	p.Ordered += "Ordered by where the car stands, then by the promised date."
	return nil
}

// list fills in a page of the list.
func (s *server) list(r *http.Request, p *jobsPage, counts job.Counts, now time.Time) error {
	state := r.FormValue("state")
	l, err := s.Records.List(r.Context(), job.ListQuery{Text: p.Query, State: state, Order: job.ByJob, Limit: listPage, After: r.FormValue("after")})
	if err != nil {
		return err
	}
	for _, row := range l.Rows {
		p.Rows = append(p.Rows, s.boardRow(row, now))
	}
	drawCars(p.Rows, draw.PX(112))
	p.Found = counts.Found
	to := func(state, after string) string {
		v := url.Values{"all": {"1"}}
		if p.Query != "" {
			v.Set("q", p.Query)
		}
		if state != "" {
			v.Set("state", state)
		}
		if after != "" {
			v.Set("after", after)
		}
		return "/?" + v.Encode()
	}
	p.States = []stateButton{{"all, " + itoa(counts.Found), to("", ""), state == ""}}
	var names []string
	for name := range counts.ByState {
		if name != "" {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	for _, name := range names {
		p.States = append(p.States, stateButton{name + ", " + itoa(counts.ByState[name]), to(name, ""), state == name})
	}
	if l.Next != "" {
		p.Next = to(state, l.Next)
	}
	p.Ordered = "Highest number first. Every word must be found; where it stood is said when it was not the name or the car."
	return nil
}

// boardRow makes a row of the board or the list; drawCars draws its car.
func (s *server) boardRow(row job.Row, now time.Time) boardRow {
	b := boardRow{ID: row.Job, Name: row.Name, Href: "/jobs/" + row.Job, State: row.State}
	if err := json.Unmarshal(row.Summary, &b.Summary); err != nil && len(row.Summary) > 0 {
		s.Logger.Warn("summary", "job", row.Job, "error", err)
	}
	for _, f := range row.Found {
		if f.Place != "" {
			b.Found = append(b.Found, f)
		}
	}
	seen := b.Where != "" && b.Where != "not here yet"
	b.CarWords = b.Summary.Car
	b.Stands = b.Summary.Stands
	b.Place = b.Bay
	if b.Place != "" {
		b.Place = "bay " + strings.TrimPrefix(b.Bay, "bay ")
	} else if b.Where != "in a bay" {
		b.Place = b.Where
	}
	words := []string{}
	for _, w := range []string{b.CarWords, b.Stands, b.Place} {
		if w != "" {
			words = append(words, w)
		}
	}
	b.shape = figure.CarShape{Body: b.Shape.Outline(b.Form), Seen: seen, Stands: b.Stands == "on stands"}
	b.words = strings.Join(words, ", ")
	b.Stage = page.StageOf(b.Summary.Stage)
	b.Due, b.Left, b.Late = promised(row.Due, now)
	return b
}

// drawCars draws the cars of some rows at one scale.
func drawCars(rows []boardRow, width float64) {
	shapes := make([]figure.CarShape, len(rows))
	for i := range rows {
		shapes[i] = rows[i].shape
	}
	floor := figure.SmallFloor(shapes)
	for i := range rows {
		rows[i].Car = figure.SmallCar(shapes[i], floor, width, draw.Tablet())
		rows[i].Car.Title = rows[i].words
	}
}

// promised says when, how long it is till then, and whether that is past.
func promised(due string, now time.Time) (when, left string, late bool) {
	t, err := time.Parse(job.DateLayout, due)
	if err != nil {
		return "none", "not agreed", false
	}
	today := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, time.UTC)
	days := int(t.Sub(today).Hours() / 24)
	when = t.Format("Mon 2 January")
	if t.Year() != now.Year() {
		when = t.Format("2 January 2006")
	}
	switch {
	case days < 0:
		return when, page.Plural(-days, "day", "days") + " late", true
	case days == 0:
		return when, "today", false
	case days < 21:
		return when, "in " + page.Plural(days, "day", "days"), false
	}
	return when, "in " + itoa(days/7) + " weeks", false
}
