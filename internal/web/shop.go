package web

import (
	"encoding/json"
	"errors"
	"math"
	"net/http"
	"strconv"
	"strings"
	"time"

	"jounce/internal/catalog"
	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/web/form"
	"jounce/internal/web/page"
	"jounce/quantity"
)

// shopHistory is the number of revisions that the shop's page lists at once.
const shopHistory = 10

type shopPage struct {
	page.Base
	Rev     int // revision that the boxes are based on
	Saved   string
	Asked   []asking
	Unsaved bool
	Fields  []shopBox
	Topics  []shopTopic
	Changed int // limits that are not as they started, as saved
	All     int
	History []job.HistoryLine
	Before  int
}

// shopBox is one box.
type shopBox struct {
	Name, Label, Where string
	Value, Unit        string
	Options            []form.Option
	Long               bool
	Problem            *shopProblem
}

type shopTopic struct {
	Title  string
	Limits []shopLimit
}

// shopLimit is one limit, as saved and as typed.
type shopLimit struct {
	finding.Limit
	Bound   string // the rule as typed
	Began   string // the rule and grade that the list starts with: "at least 60 mm, owner signs"
	Also    string // the bound in the shop's unit, where it was typed in another
	Start   finding.Limit
	Changed bool // its value or grade, as saved
	By      string
	Boxes   []shopBox
	Open    bool
}

// shop is the page of the shop's own document.
func (s *server) shop(w http.ResponseWriter, r *http.Request) error {
	rev, shop, err := s.shopNow(r.Context())
	if err != nil {
		return err
	}
	return s.shopForm(w, r, http.StatusOK, rev, shop, &shopEdit{shown: shop, boxes: shopBoxesOf(shop)})
}

// takeShopForm saves what was typed as the next revision, and makes every page
// from then on with it.
func (s *server) takeShopForm(w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return err
	}
	signer, ok, err := s.signer(w, r)
	if !ok || err != nil {
		return err
	}
	for {
		again, err := s.keepShop(w, r, signer)
		if err != nil || !again {
			return err
		}
	}
}

// keepShop is one try of a save; it reports true when somebody else was faster.
func (s *server) keepShop(w http.ResponseWriter, r *http.Request, signer string) (again bool, err error) {
	rev, now, err := s.shopNow(r.Context())
	if err != nil {
		return false, err
	}
	shown := now
	if base, err := strconv.Atoi(r.PostForm.Get(":base")); err == nil && base != rev.Number {
		if shown, err = s.shopAt(r.Context(), base); err != nil {
			return false, err
		}
	}
	e := &shopEdit{now: now, shown: shown, boxes: shopBoxesOf(now), signer: signer, at: s.Clock().Format(time.RFC3339)}
	was, is := shopBoxesOf(shown), shopBoxesOf(now)
	typed := was.typedOver(r.PostForm)
	var both []string
	for _, box := range was.changed(typed) {
		e.boxes[box] = typed[box]
		if is[box] != was[box] && is[box] != typed[box] {
			both = append(both, box)
		}
	}
	next := e.document()
	for _, box := range both {
		theirs := is[box]
		e.ask(box, "Saved meanwhile by "+rev.Author+": "+orElse(theirs, "empty")+".", "What was typed here stands in the box. Keep it again, or take theirs.", theirs)
	}
	switch {
	case len(both) > 0:
		return false, s.shopForm(w, r, http.StatusConflict, rev, now, e)
	case len(e.problems) > 0:
		return false, s.shopForm(w, r, http.StatusUnprocessableEntity, rev, now, e)
	}
	to := "/shop"
	if at := r.PostForm.Get(":keep") + r.PostForm.Get(":back"); at != "" {
		if _, ok := catalog.Start(at); ok {
			to += "#l-" + at
		}
	}
	if note := shopNote(now, next); note != "" || rev.Number == 0 {
		if err := s.saveShop(r, rev.Number, next, signer, note); err != nil {
			var lost *job.Conflict
			return errors.As(err, &lost), unless[*job.Conflict](err)
		}
	}
	http.Redirect(w, r, to, http.StatusSeeOther)
	return false, nil
}

// unless is the error, or nil when it is of a kind.
func unless[E error](err error) error {
	if typed[E](err) {
		return nil
	}
	return err
}

func orElse(a, b string) string {
	if a == "" {
		return b
	}
	return a
}

func (s *server) saveShop(r *http.Request, base int, shop *catalog.Shop, signer, note string) error {
	if err := shop.Check(); err != nil {
		return asked{err.Error()}
	}
	doc, err := json.Marshal(shop)
	if err != nil {
		return err
	}
	rev, err := s.Records.Save(r.Context(), job.Save{Job: job.Shop, Base: base, Document: doc, Author: signer, Note: note, Name: short(shop.Name)})
	if err != nil {
		return err
	}
	s.takeShop(rev.Number, shop)
	return nil
}

// short is a name as the store's row of it can hold.
func short(name string) string {
	if r := []rune(name); len(r) > 50 {
		return string(r[:50])
	}
	return name
}

func (s *server) shopForm(w http.ResponseWriter, r *http.Request, status int, rev job.Revision, shop *catalog.Shop, e *shopEdit) error {
	p := &shopPage{Rev: rev.Number, Saved: "Nothing changed yet: this is the list that every shop starts with.", Unsaved: status != http.StatusOK}
	p.Title, p.Heading, p.Room = "The shop", orElse(shop.Name, "The shop"), "shop"
	p.Who = "units and limits"
	if rev.Number > 0 {
		p.Saved = "Revision " + itoa(rev.Number) + ", saved by " + rev.Author + " on " + page.Moment(rev.At) + "."
		before, _ := strconv.Atoi(r.FormValue("before"))
		lines, err := s.Records.History(r.Context(), job.Shop, job.HistoryPage{Before: before, Limit: shopHistory})
		if err != nil {
			return err
		}
		p.History = lines
		if n := len(lines); n == shopHistory && lines[n-1].Number > 1 {
			p.Before = lines[n-1].Number
		}
	}
	p.Fields = e.settings()
	for _, t := range shop.ByTopic() {
		topic := shopTopic{Title: t.Title}
		for _, l := range t.Limits {
			topic.Limits = append(topic.Limits, e.limit(shop, l))
		}
		p.Topics = append(p.Topics, topic)
	}
	for _, x := range p.Fields {
		if x.Problem != nil {
			p.Asked = append(p.Asked, asking{x.Name, x.Label})
		}
	}
	for _, t := range p.Topics {
		for _, l := range t.Limits {
			p.All++
			if l.Changed {
				p.Changed++
			}
			for _, x := range l.Boxes {
				if x.Problem != nil {
					p.Asked = append(p.Asked, asking{x.Name, l.Name + ", " + strings.ToLower(x.Label)})
				}
			}
		}
	}
	return s.render(w, r, status, "shop", p)
}

// settings are the boxes of the name, the units and the aspect.
func (e *shopEdit) settings() []shopBox {
	list := []shopBox{
		{Name: "name", Label: "Name of the shop", Where: "as it stands on every paper"},
		{Name: "pressure", Label: "Pressure", Where: "shown first in", Options: unitOptions(catalog.PressureUnits)},
		{Name: "length", Label: "Length", Where: "shown in", Options: unitOptions(catalog.LengthUnits)},
		{Name: "mass", Label: "Mass", Where: "shown in", Options: unitOptions(catalog.MassUnits)},
		{Name: "fullWidth", Label: "Aspect of a tyre with none marked", Where: "usual: 82\u00a0%", Unit: "%"},
	}
	for i := range list {
		e.fill(&list[i])
	}
	return list
}

func unitOptions(of []string) []form.Option {
	var out []form.Option
	for _, u := range of {
		out = append(out, form.Option{Value: u, Label: u})
	}
	return out
}

func (e *shopEdit) fill(b *shopBox) {
	b.Value, b.Problem = e.boxes[b.Name], e.problems[b.Name]
	for i, o := range b.Options {
		b.Options[i].Chosen = o.Value == b.Value
	}
}

// limit is one limit as saved, with what its boxes hold.
func (e *shopEdit) limit(shop *catalog.Shop, l finding.Limit) shopLimit {
	start, _ := catalog.Start(l.Key)
	out := shopLimit{Limit: l, Bound: shop.Bound(l.Key), Began: catalog.StartBound(l.Key) + ", " + strings.ToLower(start.Grade.String()), Start: start, Changed: l.Value != start.Value || l.Grade != start.Grade}
	unit := limitUnit(shop, l)
	if unit != l.Unit {
		out.Also = quantity.Format(l.Kind, l.Value, unit, -1)
	}
	if years := l.Value / (365 * 86400); l.Kind == quantity.KindTime && years >= 1 {
		out.Also = strconv.FormatFloat(math.Round(10*years)/10, 'f', -1, 64) + " years"
	}
	if c, ok := shop.Change(l.Key); ok {
		out.By = c.By
		if at, err := time.Parse(time.RFC3339, c.At); err == nil {
			out.By = strings.TrimPrefix(out.By+", "+page.Moment(at), ", ")
		}
	}
	grades := make([]form.Option, 0, 3)
	for _, g := range []finding.Grade{finding.Stops, finding.OwnerSigns, finding.Note} {
		grades = append(grades, form.Option{Value: g.Key(), Label: g.String()})
	}
	rule := "no more than"
	if l.Below {
		rule = "at least"
	}
	out.Boxes = []shopBox{
		{Name: limitBox(l.Key, "value"), Label: "Value", Where: rule, Unit: unit.String()},
		{Name: limitBox(l.Key, "grade"), Label: "If not passed", Options: grades},
		{Name: limitBox(l.Key, "note"), Label: "Note", Where: "why the shop holds it so", Long: true},
	}
	saved := shopBoxesOf(shop)
	for i := range out.Boxes {
		b := &out.Boxes[i]
		e.fill(b)
		out.Open = out.Open || b.Problem != nil || b.Value != saved[b.Name]
	}
	return out
}
