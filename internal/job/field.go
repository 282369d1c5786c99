package job

import (
	"fmt"
	"reflect"
	"sort"
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

// Fields lists every place of the record in the order of the document.
func (j *Job) Fields() []Field {
	var out []Field
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
		sf, ok := memberOf(v.Type(), name)
		if !ok {
			return Field{}, fmt.Errorf("%s: the record has no place of this name", path)
		}
		v = v.FieldByIndex(sf.Index)
		label = joinLabel(label, sf.Tag.Get("label"))
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
			if f, ok := fieldOf(v, sf, path, label); ok {
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
	v := reflect.ValueOf(j).Elem()
	parts := strings.Split(path, ".")
	for n, part := range parts {
		name, id, listed := cutItem(part)
		sf, ok := memberOf(v.Type(), name)
		if !ok {
			return fmt.Errorf("%s: the record has no place of this name", path)
		}
		v = v.FieldByIndex(sf.Index)
		if !listed {
			continue
		}
		for i := 0; i < v.Len(); i++ {
			if v.Index(i).FieldByName("ID").String() != id {
				continue
			}
			if n == len(parts)-1 {
				v.Set(reflect.AppendSlice(v.Slice(0, i), v.Slice(i+1, v.Len())))
				return nil
			}
			v = v.Index(i)
			break
		}
		if v.Kind() == reflect.Slice {
			return fmt.Errorf("%s: there is no item %q in %s", path, id, name)
		}
	}
	return fmt.Errorf("%s: not an item of a list", path)
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

func memberOf(t reflect.Type, name string) (reflect.StructField, bool) {
	if t.Kind() != reflect.Struct {
		return reflect.StructField{}, false
	}
	for i := 0; i < t.NumField(); i++ {
		if jsonName(t.Field(i)) == name {
			return t.Field(i), true
		}
	}
	return reflect.StructField{}, false
}

func jsonName(f reflect.StructField) string {
	name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
	return name
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
	return id
}

func joinLabel(a, b string) string {
	switch {
	case b == "":
		return a
	case a == "":
		return b
	}
	if r := []rune(b); len(r) > 1 && r[0] >= 'A' && r[0] <= 'Z' && r[1] >= 'a' && r[1] <= 'z' {
		b = strings.ToLower(string(r[0])) + string(r[1:])
	}
	return a + ", " + b
}

var readingType = reflect.TypeFor[Reading]()

func walk(v reflect.Value, path, label string, visit func(Field)) {
	t := v.Type()
	for i := 0; i < t.NumField(); i++ {
		sf := t.Field(i)
		name := jsonName(sf)
		if name == "" || name == "schema" || name == "id" && path != "" {
			continue
		}
		p, l := name, joinLabel(label, sf.Tag.Get("label"))
		if path != "" {
			p = path + "." + name
		}
		fv := v.Field(i)
		if f, ok := fieldOf(fv, sf, p, l); ok {
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

func fieldOf(v reflect.Value, sf reflect.StructField, path, label string) (Field, bool) {
	f := Field{Path: path, Label: label, Where: sf.Tag.Get("where")}
	switch {
	case v.Type() == readingType:
		f.Reading = v.Addr().Interface().(*Reading)
		m := meaningOf(sf.Tag.Get("q"))
		f.Kind, f.Any, f.Unit, f.Least, f.Most = m.kind, m.any, m.unit, m.least, m.most
	case v.Kind() == reflect.String:
		f.Text = v.Addr().Interface().(*string)
		if of := sf.Tag.Get("of"); of != "" {
			f.Choices = strings.Split(of, "|")
		}
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

var meanings = map[string]meaning{}

func init() {
	for _, tag := range tags(reflect.TypeFor[Job](), nil) {
		meanings[tag] = parseTag(tag)
	}
}

func meaningOf(tag string) meaning { return meanings[tag] }

// tags collects the q tags of a type and all it holds.
func tags(t reflect.Type, found []string) []string {
	for i := 0; i < t.NumField(); i++ {
		ft := t.Field(i).Type
		if ft == readingType {
			found = append(found, t.Field(i).Tag.Get("q"))
			continue
		}
		if ft.Kind() == reflect.Slice {
			ft = ft.Elem()
		}
		if ft.Kind() == reflect.Struct {
			found = tags(ft, found)
		}
	}
	sort.Strings(found)
	return found
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
