package web

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"jounce/internal/catalog"
	"jounce/internal/job"
	"jounce/internal/study"
	"jounce/internal/web/form"
	"jounce/internal/web/page"
)

// pasteForm is the box that a maker's table is pasted into.
type pasteForm struct {
	Targets []form.Option // springs of the job, then a new one for an axle
	Text    string
	Wrong   string         // why nothing was taken
	Refused []job.RowFault // lines that were not
	Good    int            // lines that can be
	Ignored []string
	Open    bool
}

// newFor begins the name of a target that is a new spring: "new:front".
const newFor = "new:"

// toSprings leads from the address of an act back to the page.
func (s *server) toSprings(w http.ResponseWriter, r *http.Request) error {
	http.Redirect(w, r, "/jobs/"+r.PathValue("id")+"/springs", http.StatusSeeOther)
	return nil
}

// pasteTargets are the springs that a table can go to.
func pasteTargets(p *springsPage, e *edit) []form.Option {
	var out []form.Option
	for _, s := range e.Rec.Springs {
		name := s.Name
		if name == "" {
			name = "spring " + s.ID
		}
		out = append(out, form.Option{Value: s.ID, Label: name + ": in place of its " + page.Plural(len(s.Points), "line", "lines")})
	}
	for _, a := range p.Airy {
		out = append(out, form.Option{Value: newFor + a, Label: "a new spring for the " + a + " axle"})
	}
	return out
}

// pasteTable takes a pasted table into a spring. Lines that cannot be taken are
// shown, and the rest is taken only when asked for a second time.
func (s *server) pasteTable(w http.ResponseWriter, r *http.Request) error {
	o, signer, ok, err := s.posted(w, r)
	if !ok || err != nil {
		return err
	}
	again := func(status int, f pasteForm) error {
		p, err := s.springsPage(r, s.asSaved(o))
		if err != nil {
			return err
		}
		f.Targets, f.Text, f.Open = p.Paste.Targets, r.PostForm.Get(":text"), true
		for i := range f.Targets {
			f.Targets[i].Chosen = f.Targets[i].Value == r.PostForm.Get(":spring")
		}
		p.Paste = f
		return s.render(w, r, status, "springs", p)
	}
	got, err := job.ReadPoints(r.PostForm.Get(":text"))
	if err != nil {
		return again(http.StatusUnprocessableEntity, pasteForm{Wrong: sentence(err.Error())})
	}
	switch {
	case len(got.Points) == 0 && len(got.Refused) == 0:
		return again(http.StatusUnprocessableEntity, pasteForm{Wrong: "Under the header stands no line."})
	case len(got.Points) == 0, len(got.Refused) > 0 && r.PostForm.Get(":partly") == "":
		return again(http.StatusUnprocessableEntity, pasteForm{Refused: got.Refused, Good: len(got.Points), Ignored: got.Ignored})
	}
	rec := o.Rec.Clone()
	target, err := springFor(rec, r.PostForm.Get(":spring"))
	if err != nil {
		return again(http.StatusUnprocessableEntity, pasteForm{Wrong: sentence(err.Error()), Good: len(got.Points)})
	}
	if base, err := strconv.Atoi(r.PostForm.Get(":base")); err == nil && base != o.Rev.Number {
		if says, err := s.tableMoved(r, o, base, target.ID); err != nil {
			return err
		} else if says != "" {
			return again(http.StatusConflict, pasteForm{Wrong: says, Good: len(got.Points)})
		}
	}
	by := s.Clock().Format(job.TimeLayout)
	for i := range got.Points {
		for _, x := range []*job.Reading{&got.Points[i].Pressure, &got.Points[i].Height, &got.Points[i].Load} {
			x.By, x.At = signer, by
		}
	}
	target.Points = got.Points
	note := fmt.Sprintf("table of %s pasted, %s", orID(target), page.Plural(len(got.Points), "line", "lines"))
	if _, err := s.keep(r, rec, o.Rev.Number, signer, note); err != nil {
		var lost *job.Conflict
		if errors.As(err, &lost) {
			return again(http.StatusConflict, pasteForm{Wrong: "Somebody saved this job in the same moment. Look at the table and send it again.", Good: len(got.Points)})
		}
		return err
	}
	http.Redirect(w, r, "/jobs/"+o.ID+"/springs#t-"+target.ID, http.StatusSeeOther)
	return nil
}

// asSaved is the page's edit where nothing was typed into its boxes.
func (s *server) asSaved(o *opened) *edit {
	return &edit{opened: o, View: form.NewView(o.Rec, o.Res.Problems), Base: o.Rev.Number}
}

// tableMoved tells that somebody changed a spring's table since a revision.
func (s *server) tableMoved(r *http.Request, o *opened, base int, id string) (string, error) {
	rev, err := s.Records.LoadRevision(r.Context(), o.ID, base)
	if err != nil {
		return "", err
	}
	old, err := job.Decode(rev.Document)
	if err != nil {
		return "", err
	}
	was, is := springOf(old, id), springOf(o.Rec, id)
	if is == nil || was != nil && slices.Equal(was.Points, is.Points) {
		return "", nil
	}
	return fmt.Sprintf("%s changed this table meanwhile, in revision %d. What stands there now is shown; send yours again to put it in its place.", o.Rev.Author, o.Rev.Number), nil
}

func springOf(rec *job.Job, id string) *job.Spring {
	for i := range rec.Springs {
		if rec.Springs[i].ID == id {
			return &rec.Springs[i]
		}
	}
	return nil
}

func orID(s *job.Spring) string {
	if s.Name != "" {
		return s.Name
	}
	return "spring " + s.ID
}

// springFor is the spring that a target names; a new one is put on its axle.
func springFor(rec *job.Job, target string) (*job.Spring, error) {
	if axle, ok := strings.CutPrefix(target, newFor); ok {
		return addSpring(rec, axle, job.Spring{})
	}
	if s := springOf(rec, target); s != nil {
		return s, nil
	}
	return nil, fmt.Errorf("no spring was chosen for the table")
}

// addSpring puts a spring into the record and on an axle.
func addSpring(rec *job.Job, axle string, s job.Spring) (*job.Spring, error) {
	i := slices.Index(study.AxleNames[:], axle)
	if i < 0 {
		return nil, fmt.Errorf("%q is no axle; expected front or rear", axle)
	}
	var taken []string
	for _, x := range rec.Springs {
		taken = append(taken, x.ID)
	}
	s.ID = job.NextID("s", taken)
	rec.Springs = append(rec.Springs, s)
	if i == 0 {
		rec.Axles.Front.Spring = s.ID
	} else {
		rec.Axles.Rear.Spring = s.ID
	}
	return &rec.Springs[len(rec.Springs)-1], nil
}

// shelfRow is a spring that can be taken from the shelf.
type shelfRow struct {
	ID, Name, Kind string
	Range          string // "2 bar to 6 bar, 80 mm to 215 mm, 40 lines"
	Source, Date   string
}

func shelfRows(shop *catalog.Shop) []shelfRow {
	var out []shelfRow
	for _, row := range shop.Shelf() {
		s, err := shelved(row)
		if err != nil {
			continue
		}
		out = append(out, shelfRow{ID: row.ID, Name: orID(&s), Kind: s.Behaviour, Range: rangeOf(&s), Source: row.Source, Date: row.Date})
	}
	return out
}

// shelved is the spring of a row.
func shelved(row catalog.Row) (job.Spring, error) {
	var s job.Spring
	d := json.NewDecoder(bytes.NewReader(row.Document))
	d.DisallowUnknownFields()
	if err := d.Decode(&s); err != nil {
		return s, fmt.Errorf("row %s of the shelf: %w", row.ID, err)
	}
	return s, nil
}

// rangeOf says what a table spans.
func rangeOf(s *job.Spring) string {
	g := gridOf(s)
	if len(g.heights) == 0 || len(g.pressures) == 0 {
		return "no table"
	}
	span := func(lines []gridLine) string {
		a, b := lines[0].text, lines[len(lines)-1].text
		if a == b {
			return a
		}
		return a + " to " + b
	}
	return span(g.pressures) + ", " + span(g.heights) + ", " + page.Plural(len(s.Points), "line", "lines")
}

// chooseSpring puts a spring of the shelf on an axle.
func (s *server) chooseSpring(w http.ResponseWriter, r *http.Request) error {
	o, signer, ok, err := s.posted(w, r)
	if !ok || err != nil {
		return err
	}
	_, shop, err := s.shopNow(r.Context())
	if err != nil {
		return err
	}
	row, ok := shop.OnShelf(r.PostForm.Get(":row"))
	if !ok {
		return asked{"this spring is not on the shelf"}
	}
	part, err := shelved(row)
	if err != nil {
		return err
	}
	rec := o.Rec.Clone()
	axle := r.PostForm.Get(":axle")
	added, err := addSpring(rec, axle, part)
	if err != nil {
		return asked{err.Error()}
	}
	note := fmt.Sprintf("%s taken from the shelf for the %s axle; %s", orID(added), axle, row.Source)
	if _, err := s.keep(r, rec, o.Rev.Number, signer, note); err != nil {
		return err
	}
	http.Redirect(w, r, "/jobs/"+o.ID+"/springs#t-"+added.ID, http.StatusSeeOther)
	return nil
}

// shelveSpring keeps a spring of a job on the shop's shelf.
func (s *server) shelveSpring(w http.ResponseWriter, r *http.Request) error {
	o, signer, ok, err := s.posted(w, r)
	if !ok || err != nil {
		return err
	}
	part := springOf(o.Rec, r.PostForm.Get(":spring"))
	if part == nil {
		return asked{"this job has no such spring"}
	}
	if len(part.Points) == 0 {
		return asked{"this spring has no line of its maker's table; there is nothing to keep yet"}
	}
	doc, err := json.Marshal(part)
	if err != nil {
		return err
	}
	rev, now, err := s.shopNow(r.Context())
	if err != nil {
		return err
	}
	shop := *now
	for _, row := range shop.Springs {
		if bytes.Equal(canonical(row.Document), canonical(doc)) {
			return asked{"this spring is on the shelf already, with the same figures"}
		}
	}
	var taken []string
	for _, row := range shop.Springs {
		taken = append(taken, row.ID)
	}
	shop.Springs = append(slices.Clip(shop.Springs), catalog.Row{ID: job.NextID("r", taken), Source: "typed by " + signer + " in job " + o.ID,
		Date: s.Clock().Format(job.DateLayout), Document: doc})
	whole, err := json.Marshal(&shop)
	if err != nil {
		return err
	}
	saved, err := s.Records.Save(r.Context(), job.Save{Job: job.Shop, Base: rev.Number, Document: whole, Author: signer, Note: orID(part) + " kept on the shelf"})
	if err != nil {
		return err
	}
	s.takeShop(saved.Number, &shop)
	http.Redirect(w, r, "/jobs/"+o.ID+"/springs#shelf", http.StatusSeeOther)
	return nil
}

// canonical is a document in the form in which two equal ones are the same.
func canonical(doc []byte) []byte {
	out, err := job.Canonical(doc)
	if err != nil {
		return doc
	}
	return out
}
