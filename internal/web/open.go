package web

import (
	"net/http"
	"strings"

	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/study"
	"jounce/internal/web/page"
)

// opened is a job that a page shows: the record of one revision and all that can
// be said of it. The record is not to be altered; see studied.
type opened struct {
	ID  string
	Rev job.Revision
	Rec *job.Job
	Res *study.Result
}

// picture is the address of a picture of the job; "" where it has none of this id.
func (o *opened) picture(id string) string {
	for _, ph := range o.Rec.Photos {
		if ph.ID == id {
			return "/jobs/" + o.ID + "/photos/" + id
		}
	}
	return ""
}

// posted opens the job that a form was sent about and says who signs for it; not ok where the page that asks for the name
// is the answer.
func (s *server) posted(w http.ResponseWriter, r *http.Request) (o *opened, signer string, ok bool, err error) {
	if err := r.ParseForm(); err != nil {
		return nil, "", false, err
	}
	if signer, ok, err = s.signer(w, r); !ok || err != nil {
		return nil, "", false, err
	}
	o, err = s.open(r)
	return o, signer, err == nil, err
}

// open loads the job that the address names and studies it.
func (s *server) open(r *http.Request) (*opened, error) {
	id := r.PathValue("id")
	if id == job.Shop {
		return nil, errNoPage
	}
	rev, err := s.Records.Load(r.Context(), id)
	if err != nil {
		return nil, err
	}
	return s.study(rev)
}

func (s *server) study(rev job.Revision) (*opened, error) {
	rec, res, err := s.studied.of(rev, s.Shop)
	if err != nil {
		return nil, err
	}
	return &opened{ID: rev.Job, Rev: rev, Rec: rec, Res: res}, nil
}

// Name is the name of the job, or of its car.
func (o *opened) Name() string { return jobName(o.Rec) }

func jobName(rec *job.Job) string {
	switch {
	case rec.Name != "":
		return rec.Name
	case rec.Car.Description != "":
		return rec.Car.Description
	}
	return "no name yet"
}

// carLine is the car in a few words: "long estate, 1972".
func carLine(rec *job.Job) string {
	var parts []string
	d := rec.Car.Description
	if d == "" {
		d = rec.Car.Form
	}
	for _, p := range []string{d, rec.Car.Year} {
		if p != "" {
			parts = append(parts, p)
		}
	}
	return strings.Join(parts, ", ")
}

// jobBase is the head of a page of a job.
func (s *server) jobBase(r *http.Request, o *opened, room, sheet string) page.Base {
	tally := o.Res.Tally
	follows := o.ID
	if r.PathValue("n") != "" {
		follows = "" // an old revision stays as it is
	}
	return page.Base{Follows: follows, Revision: o.Rev.Number, Title: o.ID + " " + o.Name() + ", " + sheet, Heading: o.ID + " " + o.Name(), Who: carLine(o.Rec),
		Tally: &tally, Room: room, Rooms: roomsOf(o.ID, room), Status: s.kept(r, o, room)}
}

// titleBlock is the block at the foot of a sheet.
func (s *server) titleBlock(o *opened, sheet string) []page.Cell {
	readings := 0
	for _, f := range o.Rec.Fields() {
		if f.Reading != nil && !f.Reading.Empty() {
			readings++
		}
	}
	yet := func(v string) string {
		if v == "" {
			return "not yet"
		}
		return v
	}
	open := o.Res.Tally[finding.Fail]
	approved := "not yet"
	if open > 0 {
		approved = page.Plural(open, "fail open", "fails open")
	}
	return []page.Cell{
		{Caption: "job and sheet", Value: o.ID + " / " + sheet, Wide: 4, Big: true},
		{Caption: "revision", Value: itoa(o.Rev.Number), Wide: 2, Big: true},
		{Caption: "car", Value: yet(carLine(o.Rec)), Wide: 3},
		{Caption: "keeper", Value: yet(o.Rec.Keeper.Name), Wide: 3},
		{Caption: "drawn from", Value: page.Plural(readings, "reading", "readings"), Wide: 2},
		{Caption: "saved", Value: page.Moment(o.Rev.At), Wide: 2},
		{Caption: "by", Value: yet(o.Rev.Author), Wide: 2},
		{Caption: "checked", Value: "not yet", Wide: 3},
		{Caption: "approved", Value: approved, Wide: 3},
		{Caption: "conventions", Value: "x forward, y left, z up (ISO 8855). Left and right as seated. Gauge pressure. mm.", Wide: 6},
	}
}
