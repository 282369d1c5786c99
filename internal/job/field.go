package job

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"jounce/quantity"
)

// Field is one place of the record: what stands beside it, what it may hold and
// what stands in it. Path names it everywhere: in forms, problems, gaps.
type Field struct {
	Path    string        // "corners.FL.weight", "springs[s1].points[p2].load"
	Label   string        // "FL, weight"
	Where   string        // where on the car it is read
	Kind    quantity.Kind // KindNone for a text, a choice, or a target of any kind
	Any     bool          // a quantity of any kind
	Unit    quantity.Unit // shown in its box
	Least   float64       // below is questioned [unit]
	Most    float64       // above is questioned [unit]
	Choices []string      // of a choice
	Reading *Reading      // of a quantity
	Text    *string       // of a text or a choice
}

// Content is what stands in the field, as typed.
func (f Field) Content() string {
	if f.Reading != nil {
		return f.Reading.Value
	}
	return *f.Text
}

// Quantity tells that the field holds a quantity.
func (f Field) Quantity() bool { return f.Reading != nil }

// usualFields is how many places a record of a whole car has.
const usualFields = 800

// Fields lists every place of the record in the order of the document.
func (j *Job) Fields() []Field {
	out := make([]Field, 0, usualFields)
	walk(reflect.ValueOf(j).Elem(), "", "", func(f Field) { out = append(out, f) })
	return out
}

// Field finds one place. An item of a list that is named but not there yet is
// made when make is true.
func (j *Job) Field(path string, make bool) (Field, error) {
	v, label := reflect.ValueOf(j).Elem(), ""
	parts := strings.Split(path, ".")
	for n, part := range parts {
		name, id, listed := cutItem(part)
		at, ok := placeOf(v.Type(), name)
		if !ok {
			return Field{}, fmt.Errorf("%s: the record has no place of this name", path)
		}
		v = v.FieldByIndex(at.field.Index)
		label = joinLabel(label, at.label)
		if listed {
			if v.Kind() != reflect.Slice {
				return Field{}, fmt.Errorf("%s: %s is not a list", path, name)
			}
			if v, ok = item(v, id, make); !ok {
				return Field{}, fmt.Errorf("%s: there is no item %q in %s", path, id, name)
			}
			label = joinLabel(label, itemLabel(v, id))
		}
		if n == len(parts)-1 {
			if f, ok := fieldOf(v, &at, path, label); ok {
				return f, nil
			}
			return Field{}, fmt.Errorf("%s: this is a group, not one place", path)
		}
		if v.Kind() != reflect.Struct {
			return Field{}, fmt.Errorf("%s: %s has no parts", path, name)
		}
	}
	return Field{}, fmt.Errorf("a place needs a name")
}

// Set writes what was typed into a place, byte for byte. The unit that the box
// shows is added to a bare number where shown is true.
func (j *Job) Set(path, text string, shown bool) error {
	f, err := j.Field(path, strings.TrimSpace(text) != "")
	if err != nil {
		if strings.TrimSpace(text) == "" {
			return nil // emptying what is not there
		}
		return err
	}
	if f.Text != nil {
		*f.Text = text
		return nil
	}
	if strings.TrimSpace(text) == "" {
		*f.Reading = Reading{NotRead: f.Reading.NotRead}
		return nil
	}
	if shown && f.Unit.Kind() != quantity.KindNone {
		if v, err := quantity.ParseIn(f.Kind, text, f.Unit); err == nil {
			text = v.Text()
		}
	}
	f.Reading.Value = text
	f.Reading.NotRead = ""
	return nil
}

// Remove takes an item out of a list: "springs[s1].points[p2]".
func (j *Job) Remove(path string) error {
	list, at, ok := j.itemAt(path)
	if !ok {
		return fmt.Errorf("%s: the record has no such item in a list", path)
	}
	list.Set(reflect.AppendSlice(list.Slice(0, at), list.Slice(at+1, list.Len())))
	return nil
}

// itemAt finds an item: the list it stands in, and where.
func (j *Job) itemAt(path string) (list reflect.Value, at int, ok bool) {
	v := reflect.ValueOf(j).Elem()
	parts := strings.Split(path, ".")
	for n, part := range parts {
		name, id, listed := cutItem(part)
		sf, ok := memberOf(v.Type(), name)
		if !ok {
			return list, 0, false
		}
		v = v.FieldByIndex(sf.Index)
		if listed {
			if v.Kind() != reflect.Slice {
				return list, 0, false
			}
			if at = slices.Index(idsOf(v), id); at < 0 {
				return list, 0, false
			}
			list, v = v, v.Index(at)
			if n == len(parts)-1 {
				return list, at, true
			}
		}
		if v.Kind() != reflect.Struct {
			return list, 0, false
		}
	}
	return list, 0, false
}

// NextID is an id that no item of the list has: "p3".
func NextID(prefix string, taken []string) string {
	most := 0
	for _, t := range taken {
		if n, err := strconv.Atoi(strings.TrimPrefix(t, prefix)); err == nil && n > most {
			most = n
		}
	}
	return prefix + strconv.Itoa(most+1)
}

func cutItem(part string) (name, id string, listed bool) {
	if i := strings.IndexByte(part, '['); i > 0 && strings.HasSuffix(part, "]") {
		return part[:i], part[i+1 : len(part)-1], true
	}
	return part, "", false
}

// place is one field of a type of the record, its tags read once.
type place struct {
	field   reflect.StructField
	name    string // in JSON
	label   string
	mid     string // the label in the middle of a sentence
	where   string
	means   meaning
	choices []string
	reading bool
	text    bool
}

// places are the fields of every type that the record is made of.
var places = map[reflect.Type][]place{}

func placesOf(t reflect.Type) []place {
	if list, ok := places[t]; ok || t.Kind() != reflect.Struct {
		return list
	}
	return readPlaces(t)
}

func readPlaces(t reflect.Type) []place {
	list := make([]place, t.NumField())
	for i := range list {
		f := t.Field(i)
		p := place{field: f, label: f.Tag.Get("label"), where: f.Tag.Get("where"), reading: f.Type == readingType, text: f.Type.Kind() == reflect.String}
		p.name, p.mid = jsonName(f), midSentence(p.label)
		if p.reading {
			p.means = parseTag(f.Tag.Get("q"))
		}
		if of := f.Tag.Get("of"); of != "" {
			p.choices = strings.Split(of, "|")
		}
		list[i] = p
	}
	return list
}

// learn reads the tags of a type and of all it holds.
func learn(t reflect.Type) {
	if t.Kind() == reflect.Slice {
		t = t.Elem()
	}
	if _, ok := places[t]; ok || t.Kind() != reflect.Struct {
		return
	}
	places[t] = readPlaces(t)
	for i := 0; i < t.NumField(); i++ {
		learn(t.Field(i).Type)
	}
}

func init() { learn(reflect.TypeFor[Job]()) }

func memberOf(t reflect.Type, name string) (reflect.StructField, bool) {
	p, ok := placeOf(t, name)
	return p.field, ok
}

func placeOf(t reflect.Type, name string) (place, bool) {
	for _, p := range placesOf(t) {
		if p.name == name {
			return p, true
		}
	}
	return place{}, false
}

func item(list reflect.Value, id string, make bool) (reflect.Value, bool) {
	for i := 0; i < list.Len(); i++ {
		if list.Index(i).FieldByName("ID").String() == id {
			return list.Index(i), true
		}
	}
	if !make || id == "" {
		return reflect.Value{}, false
	}
	fresh := reflect.New(list.Type().Elem()).Elem()
	fresh.FieldByName("ID").SetString(id)
	list.Set(reflect.Append(list, fresh))
	return list.Index(list.Len() - 1), true
}

// itemLabel names an item by its name where it has one, by its id otherwise.
func itemLabel(v reflect.Value, id string) string {
	for _, n := range []string{"Name", "Title"} {
		if f := v.FieldByName(n); f.IsValid() && f.Kind() == reflect.String && f.String() != "" {
			return f.String()
		}
	}
	if n := strings.TrimLeft(id, "abcdefghijklmnopqrstuvwxyz"); n != "" && len(n) < len(id) {
		if _, err := strconv.Atoi(n); err == nil {
			return n // the third reading is "3", not "r3"
		}
	}
	return id
}

func joinLabel(a, b string) string {
	switch {
	case b == "":
		return a
	case a == "":
		return b
	}
	return a + ", " + midSentence(b)
}

// midSentence is words in the middle of a sentence: "Weight" becomes "weight",
// names in capitals stay.
func midSentence(s string) string {
	if len(s) > 1 && s[0] >= 'A' && s[0] <= 'Z' && s[1] >= 'a' && s[1] <= 'z' {
		return string(s[0]+'a'-'A') + s[1:]
	}
	return s
}

var readingType = reflect.TypeFor[Reading]()

func walk(v reflect.Value, path, label string, visit func(Field)) {
	list := placesOf(v.Type())
	for i := range list {
		at := &list[i]
		if at.name == "" || at.name == "schema" || at.name == "id" && path != "" {
			continue
		}
		p, l := at.name, at.label
		switch {
		case l == "":
			l = label
		case label != "":
			l = label + ", " + at.mid
		}
		if path != "" {
			p = path + "." + at.name
		}
		fv := v.Field(i)
		if f, ok := fieldOf(fv, at, p, l); ok {
			visit(f)
			continue
		}
		switch fv.Kind() {
		case reflect.Struct:
			walk(fv, p, l, visit)
		case reflect.Slice:
			for k := 0; k < fv.Len(); k++ {
				id := fv.Index(k).FieldByName("ID").String()
				walk(fv.Index(k), p+"["+id+"]", joinLabel(l, itemLabel(fv.Index(k), id)), visit)
			}
		}
	}
}

func fieldOf(v reflect.Value, at *place, path, label string) (Field, bool) {
	f := Field{Path: path, Label: label, Where: at.where}
	switch {
	case at.reading:
		f.Reading = v.Addr().Interface().(*Reading)
		f.Kind, f.Any, f.Unit, f.Least, f.Most = at.means.kind, at.means.any, at.means.unit, at.means.least, at.means.most
	case at.text:
		f.Text, f.Choices = v.Addr().Interface().(*string), at.choices
	default:
		return Field{}, false
	}
	return f, true
}

type meaning struct {
	kind        quantity.Kind
	any         bool
	unit        quantity.Unit
	least, most float64
}

// parseTag reads `length mm 1500..4500`; a low line stands for a blank in the
// name of a unit. A wrong tag is a fault of the program
// and stops it at its start.
func parseTag(tag string) meaning {
	if tag == "any" {
		return meaning{any: true}
	}
	p := strings.Fields(tag)
	if len(p) != 3 {
		panic("job: tag " + tag)
	}
	kind, ok := quantity.KindOf(p[0])
	if !ok {
		panic("job: tag " + tag + ": kind")
	}
	unitName := strings.ReplaceAll(p[1], "_", " ")
	if kind == quantity.KindRatio && unitName == "1" {
		unitName = ""
	}
	unit, ok := quantity.UnitOf(kind, unitName)
	if !ok {
		if unitName != "" {
			panic("job: tag " + tag + ": unit")
		}
		unit = kind.Main()
	}
	lo, hi, _ := strings.Cut(p[2], "..")
	least, err1 := strconv.ParseFloat(lo, 64)
	most, err2 := strconv.ParseFloat(hi, 64)
	if err1 != nil || err2 != nil {
		panic("job: tag " + tag + ": range")
	}
	return meaning{kind: kind, unit: unit, least: least, most: most}
}

// jsonName is a field's name in the document.
func jsonName(f reflect.StructField) string {
	name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
	return name
}
