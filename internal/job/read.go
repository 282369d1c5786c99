package job

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"strings"
	"time"

	"jounce/quantity"
)

// Problem is one thing in the record that cannot be used as it stands. What was
// typed stays where it is.
type Problem struct {
	Path    string   `json:"path"`              // the place
	Label   string   `json:"label"`             // its words
	Read    string   `json:"read"`              // what stands there
	Says    string   `json:"says"`              // what is wrong and what would fix it
	Answers []string `json:"answers,omitempty"` // texts that would settle a question
	Swaps   []Swap   `json:"swaps,omitempty"`   // answers that put readings in each other's place
}

// Swap is an answer to a question: these readings were written in each other's
// place.
type Swap struct {
	Words string      `json:"words"` // "Front and rear were exchanged"
	Pairs [][2]string `json:"pairs"` // places whose texts change places
}

// Error is the problem in a sentence.
func (p Problem) Error() string {
	if p.Label == "" {
		return p.Path + ": " + p.Says
	}
	return p.Label + " (" + p.Path + "): " + p.Says
}

// Decode reads a document. Keys that the record does not know are named and the
// document is refused: nothing is dropped.
func Decode(data []byte) (*Job, error) {
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.UseNumber()
	var loose any
	if err := dec.Decode(&loose); err != nil {
		return nil, jsonFault(data, err)
	}
	if _, err := dec.Token(); !errors.Is(err, io.EOF) {
		return nil, errors.New("the document has something behind its last brace; one file holds one job")
	}
	top, ok := loose.(map[string]any)
	if !ok {
		return nil, errors.New("the document is not a JSON object; a job begins with { and has a key \"schema\"")
	}
	if n, ok := top["schema"].(json.Number); !ok {
		return nil, errors.New("schema: not there; a job document says \"schema\": 1")
	} else if v, err := n.Int64(); err != nil || v < 1 {
		return nil, fmt.Errorf("schema: %s is not a version", n)
	} else if v > Schema {
		return nil, fmt.Errorf("schema: %d is newer than this program, which reads up to %d; a newer jounce is needed", v, Schema)
	}
	var faults []error
	if _, err := Canonical(data); err != nil {
		return nil, err // a key that stands twice, text that is no text
	}
	strange(reflect.TypeFor[Job](), top, "", &faults)
	if len(faults) > 0 {
		return nil, errors.Join(faults...)
	}
	j := new(Job)
	if err := json.Unmarshal(data, j); err != nil {
		return nil, jsonFault(data, err)
	}
	return j, nil
}

// Encode writes the document, indented, in the order of the record.
func (j *Job) Encode() ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(j); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// Clone is a copy that shares nothing with j.
func (j *Job) Clone() *Job {
	c := new(Job)
	*c = *j
	unshare(reflect.ValueOf(c).Elem())
	return c
}

// unshare gives a value lists of its own, down to the last. The record is texts,
// numbers, groups and lists.
func unshare(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			unshare(v.Field(i))
		}
	case reflect.Array:
		for i := range v.Len() {
			unshare(v.Index(i))
		}
	case reflect.Slice:
		if v.Len() == 0 {
			v.SetZero() // an empty list is like none
			return
		}
		own := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		reflect.Copy(own, v)
		v.Set(own)
		for i := range v.Len() {
			unshare(v.Index(i))
		}
	case reflect.Pointer, reflect.Map, reflect.Interface:
		panic("job: a record does not hold a " + v.Kind().String())
	}
}

func jsonFault(data []byte, err error) error {
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	switch {
	case errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF):
		return errors.New("the document ends too early: a bracket or a brace is not closed")
	case errors.As(err, &syntax):
		line := 1 + bytes.Count(data[:min(int(syntax.Offset), len(data))], []byte("\n"))
		return fmt.Errorf("line %d: not JSON: %w", line, err)
	case errors.As(err, &kind):
		want := "a text"
		switch kind.Type.Kind() {
		case reflect.Slice:
			want = "a list, [ ... ]"
		case reflect.Struct:
			want = "a group, { ... }"
		}
		return fmt.Errorf("%s: %s was expected here, not %s", kind.Field, want, map[string]string{"array": "a list", "object": "a group"}[kind.Value]+map[bool]string{true: "a " + kind.Value}[kind.Value != "array" && kind.Value != "object"])
	}
	return err
}

// strange names the keys of a document that its type does not have, and items
// without an id or with one that stands twice.
func strange(t reflect.Type, m map[string]any, path string, faults *[]error) {
	for key, val := range m {
		p := key
		if path != "" {
			p = path + "." + key
		}
		sf, ok := memberOf(t, key)
		if !ok {
			*faults = append(*faults, fmt.Errorf("%s: the record has no such key; it was not read, so the document is not taken", p))
			continue
		}
		switch inner := val.(type) {
		case map[string]any:
			if sf.Type == readingType {
				for k := range inner {
					if _, ok := memberOf(readingType, k); !ok {
						*faults = append(*faults, fmt.Errorf("%s.%s: a reading has no such key", p, k))
					}
				}
			} else if sf.Type.Kind() == reflect.Struct {
				strange(sf.Type, inner, p, faults)
			}
		case []any:
			if sf.Type.Kind() == reflect.Slice {
				strangeItems(sf.Type.Elem(), inner, p, faults)
			}
		}
	}
	sortErrors(*faults)
}

func strangeItems(t reflect.Type, list []any, path string, faults *[]error) {
	seen := map[string]bool{}
	for n, it := range list {
		m, ok := it.(map[string]any)
		if !ok {
			continue // the decoder says what is wrong
		}
		id, _ := m["id"].(string)
		switch {
		case id == "" || strings.ContainsAny(id, "[]. \t\n"):
			*faults = append(*faults, fmt.Errorf("%s, item %d: the id is missing or has a blank, a dot or a bracket in it", path, n+1))
		case seen[id]:
			*faults = append(*faults, fmt.Errorf("%s: the id %q stands twice", path, id))
		}
		seen[id] = true
		strange(t, m, path+"["+id+"]", faults)
	}
}

func sortErrors(list []error) {
	for i := 1; i < len(list); i++ {
		for k := i; k > 0 && list[k].Error() < list[k-1].Error(); k-- {
			list[k], list[k-1] = list[k-1], list[k]
		}
	}
}

// Check names every place whose text cannot be read, every choice that is none
// of its values and every value that lies outside what a car can have.
func (j *Job) Check() []Problem { return j.CheckFields(j.Fields()) }

// CheckFields is Check where the places are listed already.
func (j *Job) CheckFields(list []Field) []Problem {
	var out []Problem
	for _, f := range list {
		if p, bad := f.check(); bad {
			out = append(out, p)
		}
	}
	return append(out, j.dates()...)
}

func (f Field) check() (Problem, bool) {
	text := f.Content()
	if strings.TrimSpace(text) == "" {
		return Problem{}, false
	}
	p := Problem{Path: f.Path, Label: f.Label, Read: text}
	if f.Text != nil {
		if f.Choices == nil || contains(f.Choices, text) {
			return p, false
		}
		p.Says = fmt.Sprintf("%q is none of %s.", text, strings.Join(f.Choices, ", "))
		p.Answers = f.Choices
		return p, true
	}
	if f.Any {
		return p, false
	}
	v, err := Parse(f.Kind, text)
	if err != nil {
		p.Says = err.Error()
		var q *quantity.Question
		if errors.As(err, &q) {
			p.Answers = q.Answers
		}
		return p, true
	}
	return f.magnitude(v, p)
}

// magnitude questions a value that lies outside what a car can have.
func (f Field) magnitude(v quantity.Value, p Problem) (Problem, bool) {
	x := v.In(f.Unit)
	const slack = 1e-9
	if f.Least == f.Most || x >= f.Least-slack && x <= f.Most+slack {
		return p, false
	}
	p.Says = fmt.Sprintf("%s is out of range; %s to %s was expected.", v.Echo(),
		quantity.Format(f.Kind, f.Unit.ToSI(f.Least), f.Unit, -1), quantity.Format(f.Kind, f.Unit.ToSI(f.Most), f.Unit, -1))
	if f.Kind == quantity.KindMass && x <= 0 {
		p.Says = fmt.Sprintf("%s cannot be a weight.", v.Echo())
		if x == 0 {
			p.Says += " Was it not read? Then leave the place empty."
		}
		return p, true
	}
	for _, u := range f.Kind.Units() {
		if u == v.Unit() {
			continue
		}
		si := u.ToSI(v.In(v.Unit()))
		if y := f.Unit.FromSI(si); y >= f.Least && y <= f.Most {
			text := quantity.Format(f.Kind, si, u, -1)
			p.Answers = append(p.Answers, strings.ReplaceAll(text, "\u00a0", " "))
		}
	}
	if len(p.Answers) > 0 {
		p.Says += " Was it " + strings.Join(p.Answers, " or ") + "?"
	}
	return p, true
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

// Layout of the times and dates of the record. A time may carry its zone.
const (
	DateLayout = "2006-01-02"
	TimeLayout = "2006-01-02T15:04"
)

// ParseTime reads a time of the record, with or without seconds and zone.
func ParseTime(s string) (time.Time, error) {
	for _, l := range []string{TimeLayout, time.RFC3339, "2006-01-02T15:04:05", "2006-01-02 15:04", "2006-01-02T15:04Z07:00"} {
		if t, err := time.Parse(l, strings.TrimSpace(s)); err == nil {
			return t, nil
		}
	}
	return time.Time{}, fmt.Errorf("%q is not a time; write it as 2026-04-02T18:00", s)
}

func (j *Job) dates() []Problem {
	var out []Problem
	date := func(path, label, s string) {
		if s == "" {
			return
		}
		if _, err := time.Parse(DateLayout, s); err != nil {
			out = append(out, Problem{Path: path, Label: label, Read: s, Says: fmt.Sprintf("%q is not a date; write it as 2026-04-02.", s)})
		}
	}
	date("place.promised", "Promised for", j.Place.Promised)
	for _, in := range j.Instruments {
		date("instruments["+in.ID+"].checked", in.Name+", last checked", in.Checked)
		date("instruments["+in.ID+"].due", in.Name+", check due", in.Due)
	}
	for _, t := range j.LeakTests {
		for _, r := range t.Readings {
			if r.At == "" {
				continue
			}
			if _, err := ParseTime(r.At); err != nil {
				out = append(out, Problem{Path: "leakTests[" + t.ID + "].readings[" + r.ID + "].at", Label: t.Title + ", time", Read: r.At, Says: err.Error() + "."})
			}
		}
	}
	return out
}
