package web

import (
	"errors"
	"fmt"
	"maps"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"jounce/internal/catalog"
	"jounce/internal/finding"
	"jounce/quantity"
)

// mostShopText is the longest note or name that the shop's page takes [signs].
const mostShopText = 400

// shopBoxes are the boxes of the shop's page by their names, as typed.
type shopBoxes map[string]string

// limitBox names a box of a limit; part is "value", "grade" or "note".
func limitBox(key, part string) string { return "limits[" + key + "]." + part }

// shopBoxesOf shows the shop's document in boxes.
func shopBoxesOf(shop *catalog.Shop) shopBoxes {
	first := func(is string, of []string) string {
		if is == "" {
			return of[0]
		}
		return is
	}
	full := shop.FullWidth
	if full == 0 {
		full = catalog.UsualFullWidth
	}
	b := shopBoxes{"name": shop.Name, "pressure": first(shop.Pressure, catalog.PressureUnits), "length": first(shop.Length, catalog.LengthUnits),
		"mass": first(shop.Mass, catalog.MassUnits), "fullWidth": strconv.FormatFloat(full, 'f', -1, 64) + " %"}
	for _, l := range shop.Limits() {
		c, _ := shop.Change(l.Key)
		value := c.Value
		if value == "" {
			value = catalog.StartText(l.Key)
		}
		b[limitBox(l.Key, "value")], b[limitBox(l.Key, "grade")], b[limitBox(l.Key, "note")] = value, l.Grade.Key(), c.Note
	}
	return b
}

// typedOver is boxes with what a form brought over them. Names that are no boxes
// are left out.
func (b shopBoxes) typedOver(form url.Values) shopBoxes {
	out := maps.Clone(b)
	for name := range b {
		if v, ok := form[name]; ok {
			out[name] = strings.TrimSpace(strings.ReplaceAll(v[len(v)-1], "\r\n", "\n"))
		}
	}
	for _, a := range form[":answer"] {
		if name, text, ok := strings.Cut(a, "="); ok {
			if _, is := b[name]; is {
				out[name] = text
			}
		}
	}
	if key := form.Get(":back"); key != "" {
		if l, ok := catalog.Start(key); ok {
			out[limitBox(key, "value")], out[limitBox(key, "grade")], out[limitBox(key, "note")] = catalog.StartText(key), l.Grade.Key(), ""
		}
	}
	return out
}

// changed lists the boxes in which typed differs, in order.
func (b shopBoxes) changed(typed shopBoxes) []string {
	var out []string
	for name, text := range typed {
		if text != b[name] {
			out = append(out, name)
		}
	}
	slices.Sort(out)
	return out
}

// shopProblem is what cannot be used in a box.
type shopProblem struct {
	Lead    string
	Says    string
	Answers []string
}

// shopEdit makes a document of what was typed.
type shopEdit struct {
	now      *catalog.Shop // the newest document
	shown    *catalog.Shop // the one whose units the boxes showed
	boxes    shopBoxes
	signer   string
	at       string // RFC 3339
	problems map[string]*shopProblem
}

// document is the document that the boxes ask for; what cannot be used is in
// problems, by the names of the boxes.
func (e *shopEdit) document() *catalog.Shop {
	e.problems = map[string]*shopProblem{}
	out := *e.now
	out.Schema = 1
	out.Name = e.boxes["name"]
	switch {
	case out.Name == "":
		e.ask("name", "Name of the shop, empty.", "A name was expected, as it is to stand on the papers.")
	case len([]rune(out.Name)) > mostShopText:
		e.ask("name", "Name of the shop, too long.", fmt.Sprintf("%d signs at most were expected.", mostShopText))
	}
	out.Pressure = e.choice("pressure", "Pressure", catalog.PressureUnits)
	out.Length = e.choice("length", "Length", catalog.LengthUnits)
	out.Mass = e.choice("mass", "Mass", catalog.MassUnits)
	out.FullWidth = e.aspect()
	out.Changes = nil
	for _, l := range e.now.Limits() {
		if c, ok := e.change(l.Key); ok {
			out.Changes = append(out.Changes, c)
		}
	}
	if len(e.problems) == 0 {
		for _, x := range out.Crossed() {
			e.ask(limitBox(x.Key, "value"), e.boxes[limitBox(x.Key, "value")]+".", x.Says+".")
		}
	}
	return &out
}

func (e *shopEdit) ask(box, lead, says string, answers ...string) {
	e.problems[box] = &shopProblem{lead, says, answers}
}

func (e *shopEdit) choice(box, label string, of []string) string {
	text := e.boxes[box]
	if !contains(of, text) {
		e.ask(box, label+", "+text+".", "One of these was expected: "+strings.Join(of, ", ")+".")
	}
	return text
}

// aspect is the aspect of a tyre with none marked [%]; 0 for the usual one.
func (e *shopEdit) aspect() float64 {
	text := e.boxes["fullWidth"]
	percent, _ := quantity.UnitOf(quantity.KindRatio, "%")
	v, err := quantity.ParseIn(quantity.KindRatio, text, percent)
	lead := "Aspect, " + text + "."
	if err != nil {
		e.askOf("fullWidth", lead, err)
		return 0
	}
	full := percent.FromSI(v.SI())
	_, doubt := v.Half()
	if doubt || !(full >= catalog.LeastFullWidth && full <= catalog.MostFullWidth) {
		e.ask("fullWidth", lead, fmt.Sprintf("One value from %g %% to %g %% was expected; the usual one is %g %%.",
			catalog.LeastFullWidth, catalog.MostFullWidth, catalog.UsualFullWidth))
		return 0
	}
	full, _ = strconv.ParseFloat(strconv.FormatFloat(full, 'f', 6, 64), 64)
	if full == catalog.UsualFullWidth {
		return 0
	}
	return full
}

// askOf asks what an error of reading a quantity asks.
func (e *shopEdit) askOf(box, lead string, err error) {
	var q *quantity.Question
	if errors.As(err, &q) {
		e.ask(box, lead, sentence(q.Looks)+" "+q.Ask, q.Answers...)
		return
	}
	var p *quantity.Problem
	if errors.As(err, &p) {
		e.ask(box, lead, sentence(p.Fault)+" "+p.Fix)
		return
	}
	e.ask(box, lead, sentence(err.Error()))
}

// change is what the boxes change in one limit; false for nothing.
func (e *shopEdit) change(key string) (catalog.LimitChange, bool) {
	start, _ := catalog.Start(key)
	value, grade, note := limitBox(key, "value"), limitBox(key, "grade"), limitBox(key, "note")
	c := catalog.LimitChange{ID: key, Note: e.boxes[note]}
	if text := e.boxes[value]; text == "" {
		e.ask(value, "Value, empty.", "A value was expected; the list starts with "+catalog.StartText(key)+".", catalog.StartText(key))
	} else if v, clean, err := catalog.ReadLimit(key, text, limitUnit(e.shown, start)); err != nil {
		e.askOf(value, "Value, "+text+".", err)
	} else if v.SI() != start.Value {
		c.Value = clean
	}
	if g, ok := finding.GradeOf(e.boxes[grade]); !ok {
		e.ask(grade, "If not passed, "+e.boxes[grade]+".", "One of the three grades was expected.")
	} else if g != start.Grade {
		c.Grade = g.Key()
	}
	if c.Value == "" && c.Grade == "" && c.Note == "" {
		return c, false
	}
	if c.Note == "" {
		e.ask(note, "Note, empty.", "A changed limit needs a note that says why: whose figure it is, or what was seen.")
	}
	if len([]rune(c.Note)) > mostShopText {
		e.ask(note, "Note, too long.", fmt.Sprintf("%d signs at most were expected, these are %d.", mostShopText, len([]rune(c.Note))))
	}
	c.By, c.At = e.signer, e.at
	if was, ok := e.now.Change(key); ok && was.Value == c.Value && was.Grade == c.Grade && was.Note == c.Note {
		c.By, c.At = was.By, was.At
	}
	return c, true
}

// limitUnit is the unit that the box of a limit shows: the shop's, or the
// limit's own where the shop chooses none.
func limitUnit(shop *catalog.Shop, l finding.Limit) quantity.Unit {
	switch l.Kind {
	case quantity.KindPressure, quantity.KindLength, quantity.KindMass:
		return shop.Unit(l.Kind)
	}
	return l.Unit
}

// shopNote says what a revision of the shop's document changes, for its history.
func shopNote(was, is *catalog.Shop) string {
	var out []string
	a, b := shopBoxesOf(was), shopBoxesOf(is)
	for _, x := range [][2]string{{"name", "name"}, {"pressure", "pressure shown in"}, {"length", "length shown in"}, {"mass", "mass shown in"}, {"fullWidth", "aspect of tyres with none marked"}} {
		if a[x[0]] != b[x[0]] {
			out = append(out, fmt.Sprintf("%s %s, was %s", x[1], b[x[0]], a[x[0]]))
		}
	}
	now := is.Limits()
	for i, l := range was.Limits() {
		n := now[i]
		line := n.Name + ", " + is.Bound(n.Key) + ", " + strings.ToLower(n.Grade.String())
		switch {
		case was.Bound(l.Key) != is.Bound(l.Key) || l.Grade != n.Grade:
			line += ", was " + was.Bound(l.Key) + ", " + strings.ToLower(l.Grade.String())
		case l.Note == n.Note:
			continue
		}
		if n.Note != "" {
			line += ": “" + n.Note + "”"
		} else if l.Note != "" {
			line += ": put back; the note was “" + l.Note + "”"
		}
		out = append(out, line)
	}
	text := strings.Join(out, ". ")
	const most = 1200 // signs, so that any script fits the store's line
	if r := []rune(text); len(r) > most {
		text = string(r[:most]) + "…"
	}
	return text
}
