// Package form brings what was typed on a page into a record and shows a record
// in the boxes of a page. The name of every input is the place in the record that
// it holds ("corners.FL.weight"); names with a colon are acts and never places.
// Nothing typed is lost: a text that cannot be used stays in its box, as typed.
package form

import (
	"net/url"
	"sort"
	"strconv"
	"strings"

	"jounce/internal/job"
	"jounce/quantity"
)

// Names of acts.
const (
	Base    = ":base"    // revision that the page was made from
	Answer  = ":answer"  // "path=text": the answer to a question
	Open    = ":open"    // path whose text is kept although it cannot be used
	NotRead = ":notread" // path that cannot be read today
	Add     = ":add"     // path of a list that gets a new item
	Remove  = ":remove"  // path of an item that goes
	Signer  = ":signer"
	Sent    = ":sent"   // what the browser calls this form, so that it is taken once only
	At      = ":at"     // when it was typed, where it is sent later; RFC 3339
	Seen    = ":seen"   // revision whose values the answers to clashes were given to
	stands  = ":stands" // ends a name: the answer to a clash at the place before it
	with    = ":with"   // ends a name: the instrument of the place before it
)

// stand is what an answer to a clash is called in a form.
var stand = map[string]job.Stand{"mine": job.Mine, "theirs": job.Theirs, "both": job.Both}

// Stands is the name of the answer to a clash at a place.
func Stands(path string) string { return path + stands }

// Answers tells that a name belongs to the page that asks which value stands.
func Answers(name string) bool { return name == Seen || strings.HasSuffix(name, stands) }

// Typed is what a form brought.
type Typed struct {
	Base    int
	Texts   map[string]string // place → text as typed
	With    map[string]string // place → id of the instrument
	Open    map[string]bool   // places kept although they cannot be used
	NotRead string            // place that cannot be read today
	Add     string            // list that gets an item
	Remove  string            // item that goes
	Sent    string            // what the browser calls it
	At      string            // when it was typed; empty for now
	Seen    int               // revision that Stands answers to
	Stands  map[string]job.Stand
	Swaps   [][2]string // places whose texts were written in each other's place
}

// Read takes a posted form apart.
func Read(v url.Values) Typed {
	t := Typed{Texts: map[string]string{}, With: map[string]string{}, Open: map[string]bool{}, Stands: map[string]job.Stand{},
		NotRead: v.Get(NotRead), Add: v.Get(Add), Remove: v.Get(Remove), Sent: v.Get(Sent), At: v.Get(At)}
	t.Base, _ = strconv.Atoi(v.Get(Base))
	t.Swaps = swapsOf(v[Swap])
	t.Seen, _ = strconv.Atoi(v.Get(Seen))
	for name, vals := range v {
		text := strings.ReplaceAll(vals[len(vals)-1], "\r\n", "\n")
		switch place, isWith := strings.CutSuffix(name, with); {
		case isWith:
			t.With[place] = text
		case strings.HasSuffix(name, stands):
			t.Stands[strings.TrimSuffix(name, stands)] = stand[text]
		case !strings.Contains(name, ":"):
			t.Texts[name] = text
		}
	}
	for _, path := range v[Open] {
		t.Open[path] = true
	}
	for _, a := range v[Answer] {
		if path, text, ok := strings.Cut(a, "="); ok {
			t.Texts[path] = text
		}
	}
	return t
}

// Change is one place that a form changes.
type Change struct {
	Path    string
	Text    string // as typed
	Before  string // what the page showed
	With    string // id of the instrument, where the form names one
	HasWith bool
	NotRead bool
}

// Changes lists the places where the form differs from the record that its page
// showed, in order of their paths.
func (t Typed) Changes(shown *job.Job) []Change {
	t = t.swapped(shown)
	var out []Change
	paths := map[string]bool{}
	for p := range t.Texts {
		paths[p] = true
	}
	for p := range t.With {
		paths[p] = true
	}
	if t.NotRead != "" {
		paths[t.NotRead] = true
	}
	for p := range paths {
		c, changed := t.change(shown, p)
		if changed {
			out = append(out, c)
		}
	}
	sort.Slice(out, func(i, k int) bool { return out[i].Path < out[k].Path })
	return out
}

func (t Typed) change(shown *job.Job, path string) (Change, bool) {
	c := Change{Path: path}
	instrument := ""
	if f, err := shown.Field(path, false); err == nil {
		c.Before = f.Content()
		if f.Reading != nil {
			instrument = f.Reading.With
		}
	}
	text, typed := t.Texts[path]
	if !typed {
		text = c.Before
	}
	c.Text = text
	c.With, c.HasWith = t.With[path]
	if c.HasWith && c.With == instrument {
		c.HasWith = false
	}
	if path == t.NotRead {
		c.NotRead, c.Text = true, ""
		return c, true
	}
	return c, same(c.Text) != same(c.Before) || c.HasWith && strings.TrimSpace(c.Text) != ""
}

// same makes two texts equal that a browser may change on its way.
func same(s string) string { return strings.TrimSpace(strings.ReplaceAll(s, "\u00a0", " ")) }

// Signature is who types, and when.
type Signature struct {
	Who string
	At  string // RFC 3339
}

// Apply brings changes into a record. The first place that the record does not
// have is an error.
func Apply(rec *job.Job, changes []Change, by Signature) error {
	for _, c := range changes {
		if c.Path == "id" || c.Path == "schema" {
			continue
		}
		if err := rec.Set(c.Path, c.Text, true); err != nil {
			return err
		}
		f, err := rec.Field(c.Path, false)
		if err != nil || f.Reading == nil {
			continue
		}
		r := f.Reading
		if c.NotRead {
			*r = job.Reading{NotRead: "cannot be read today", By: by.Who, At: by.At}
			continue
		}
		if r.Empty() {
			continue
		}
		r.By, r.At = by.Who, by.At
		if c.HasWith {
			r.With = c.With
		}
	}
	return nil
}

// Append adds an empty item to a list and returns its path: "springs[s2]".
func Append(rec *job.Job, list string) (string, error) {
	first, ok := firstPlace[member(list)]
	if !ok {
		return "", &job.Unfit{Field: "list", Read: list, Want: "a list of the record"}
	}
	prefix := first.prefix
	var taken []string
	for _, f := range rec.Fields() {
		if rest, ok := strings.CutPrefix(f.Path, list+"["); ok {
			id, _, _ := strings.Cut(rest, "]")
			taken = append(taken, id)
		}
	}
	path := list + "[" + job.NextID(prefix, taken) + "]"
	_, err := rec.Field(path+"."+first.place, true)
	return path, err
}

// firstPlace names for each list the letter of its ids and one place of an item.
var firstPlace = map[string]struct{ prefix, place string }{
	"wishes": {"w", "words"}, "instruments": {"i", "name"}, "springs": {"s", "name"}, "points": {"p", "load"},
	"volumes": {"v", "volume"}, "limiters": {"l", "name"}, "seats": {"e", "name"}, "leakTests": {"t", "title"},
	"readings": {"r", "at"}, "signatures": {"g", "finding"}, "touch": {"c", "name"},
}

func member(list string) string { return list[strings.LastIndexByte(list, '.')+1:] }

// Option is one value of a choice.
type Option struct {
	Value, Label string
	Chosen       bool
}

// Field is one box of a page.
type Field struct {
	Path     string
	ID       string // of the input
	Label    string // without the words of its group
	Full     string // with them
	Where    string
	Value    string // as typed
	Unit     string // that a bare number is taken in
	Options  []Option
	Words    string   // id of a list of words to pick from; others may be typed
	Long     bool     // wants more than one line
	Date     bool     // a date or a time
	Quantity bool     // a quantity
	Tools    []Option // instruments that read this kind, where there are any
	By       string   // who, when, with what
	NotRead  string   // why it is not read
	Since    string   // what somebody saved here since the form was opened
	Past     string   // address of what happened to it; empty while there is no job
	Problem  *Problem
}

// Shown is what stands in the field, a choice in its words.
func (f Field) Shown() string {
	for _, o := range f.Options {
		if o.Chosen {
			return o.Label
		}
	}
	return f.Value
}

// Problem is what cannot be used, at its field.
type Problem struct {
	Lead    string // "Sill above the floor, 13.8."
	Says    string
	Answers []string
	Swaps   []Option // answers that put readings in each other's place
	Open    bool     // it was left open
}

// View shows places of a record in boxes.
type View struct {
	Rec      *job.Job
	Problems map[string]job.Problem
	Open     map[string]bool
	Since    map[string]string // what was saved meanwhile, by place
}

// NewView takes a record and what is wrong in it.
func NewView(rec *job.Job, problems []job.Problem) *View {
	v := &View{Rec: rec, Problems: map[string]job.Problem{}, Open: map[string]bool{}}
	for _, p := range problems {
		if _, ok := v.Problems[p.Path]; !ok {
			v.Problems[p.Path] = p
		}
	}
	return v
}

// Field is the box of one place. A place that is not there yet is shown empty.
func (v *View) Field(path string) Field {
	f, err := v.Rec.Field(path, false)
	if err != nil {
		if f, err = v.Rec.Clone().Field(path, true); err != nil {
			return Field{Path: path, ID: path, Label: path, Full: path}
		}
	}
	return v.of(f)
}

func (v *View) of(f job.Field) Field {
	out := Field{Path: f.Path, ID: f.Path, Full: f.Label, Label: ownLabel(f.Path), Where: f.Where, Value: f.Content(), Quantity: f.Quantity()}
	if v.Rec.ID != "" {
		out.Past = "/jobs/" + v.Rec.ID + "/history?place=" + url.QueryEscape(f.Path)
	}
	if f.Quantity() {
		if f.Unit.Kind() != quantity.KindNone {
			out.Unit = f.Unit.String()
		}
		out.By, out.NotRead = v.Signed(*f.Reading), f.Reading.NotRead
		out.Tools = v.tools(f)
	}
	for _, c := range v.choices(f) {
		c.Chosen = c.Value == out.Value
		out.Options = append(out.Options, c)
	}
	m := member(f.Path)
	out.Since = v.Since[f.Path]
	out.Long = m == "note" || m == "words" || m == "reason" || m == "holds"
	if strings.HasPrefix(f.Path, "touch[") && m == "name" {
		out.Words = "touch-names"
	}
	out.Date = m == "promised" || m == "checked" || m == "due" || m == "at"
	if p, ok := v.Problems[f.Path]; ok {
		out.Problem = &Problem{Lead: p.Label + ", " + p.Read + ".", Says: p.Says, Answers: p.Answers, Open: v.Open[f.Path]}
		for _, s := range p.Swaps {
			out.Problem.Swaps = append(out.Problem.Swaps, Option{Value: swapAnswer(s), Label: s.Words})
		}
	}
	return out
}

// choices are the values of a choice; the spring of an axle and the picture of a touch point are of the job's.
func (v *View) choices(f job.Field) []Option {
	var out []Option
	switch {
	case strings.HasPrefix(f.Path, "axles.") && strings.HasSuffix(f.Path, ".spring"):
		for _, s := range v.Rec.Springs {
			out = append(out, Option{Value: s.ID, Label: orElse(s.Name, "spring "+s.ID)})
		}
		return offered(out, f.Content())
	case strings.HasPrefix(f.Path, "touch[") && member(f.Path) == "photo":
		for _, p := range v.Rec.Photos {
			out = append(out, Option{Value: p.ID, Label: orElse(p.Name, "picture "+p.ID)})
		}
		return offered(out, f.Content())
	}
	if f.Choices == nil {
		return nil
	}
	for _, c := range f.Choices {
		out = append(out, Option{Value: c, Label: c})
	}
	return withPresent(out, f.Content())
}

// offered is what the job has; nothing to choose from where it has none and nothing is typed.
func offered(list []Option, text string) []Option {
	if len(list) == 0 && text == "" {
		return nil
	}
	return withPresent(list, text)
}

// withPresent keeps a text that is none of the choices among them.
func withPresent(list []Option, text string) []Option {
	if text == "" {
		return list
	}
	for _, o := range list {
		if o.Value == text {
			return list
		}
	}
	return append(list, Option{Value: text, Label: text})
}

// tools are the instruments of the job that measure the field's kind.
func (v *View) tools(f job.Field) []Option {
	var out []Option
	for _, t := range v.Rec.Instruments {
		if t.Measures == f.Kind.String() {
			out = append(out, Option{Value: t.ID, Label: orElse(t.Name, t.ID), Chosen: t.ID == f.Reading.With})
		}
	}
	return out
}

// Signed says who took a reading, when and with what.
func (v *View) Signed(r job.Reading) string {
	var parts []string
	if r.By != "" {
		parts = append(parts, r.By)
	}
	if at := r.At; len(at) >= len(job.TimeLayout) {
		parts = append(parts, at[:10]+" "+at[11:16])
	} else if at != "" {
		parts = append(parts, at)
	}
	for _, t := range v.Rec.Instruments {
		if t.ID == r.With {
			name := t.Name
			if t.Checked != "" {
				name += ", checked " + t.Checked
			}
			parts = append(parts, name)
		}
	}
	return strings.Join(parts, ", ")
}

func orElse(a, b string) string {
	if a != "" {
		return a
	}
	return b
}
