package job

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"jounce/quantity"
)

// DocumentSchema is the JSON Schema (draft 2020-12) of the document, made from
// the types of the record: labels are titles, choices are enumerations, a
// quantity is a text with its unit or an object that adds how it was read, every
// item of a list has an id, and no key is allowed that the record does not know.
func DocumentSchema() []byte {
	defs := ordered{}
	defineType(reflect.TypeFor[Reading](), &defs)
	defineType(reflect.TypeFor[Job](), &defs)
	root := ordered{
		{"$schema", "https://json-schema.org/draft/2020-12/schema"},
		{"$id", "urn:jounce:job:" + strconv.Itoa(Schema)},
		{"title", "Jounce job document"},
		{"description", "The record of one conversion. Quantities are texts with units, kept as typed."},
		{"$ref", "#/$defs/Job"},
		{"$defs", defs},
	}
	text, err := json.Marshal(root)
	if err != nil {
		panic("job: " + err.Error()) // it holds only texts and lists
	}
	var out bytes.Buffer
	if err := json.Indent(&out, text, "", "  "); err != nil {
		panic("job: " + err.Error())
	}
	out.WriteByte('\n')
	return out.Bytes()
}

// ordered is a JSON object whose members keep their order.
type ordered []entry

type entry struct {
	name  string
	value any
}

// MarshalJSON writes the members in their order.
func (m ordered) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, e := range m {
		if i > 0 {
			b.WriteByte(',')
		}
		name, err := plainJSON(e.name)
		if err != nil {
			return nil, err
		}
		value, err := plainJSON(e.value)
		if err != nil {
			return nil, err
		}
		b.Write(name)
		b.WriteByte(':')
		b.Write(value)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

func (m *ordered) add(name string, value any) { *m = append(*m, entry{name, value}) }

func (m ordered) has(name string) bool {
	for _, e := range m {
		if e.name == name {
			return true
		}
	}
	return false
}

// defineType adds the definition of a type and of all it holds.
func defineType(t reflect.Type, defs *ordered) {
	if defs.has(t.Name()) {
		return
	}
	defs.add(t.Name(), nil)
	at := len(*defs) - 1
	props, required := ordered{}, []string{}
	for i := range t.NumField() {
		f := t.Field(i)
		name := jsonName(f)
		if name == "" {
			continue
		}
		props.add(name, property(f, name, defs))
		if name == "schema" || name == "id" && t != reflect.TypeFor[Job]() {
			required = append(required, name)
		}
	}
	object := ordered{{"type", "object"}, {"properties", props}}
	if len(required) > 0 {
		object.add("required", required)
	}
	object.add("additionalProperties", false)
	if t == readingType {
		(*defs)[at].value = ordered{
			{"title", "Quantity"},
			{"description", "A value with its unit as typed, or an object that adds with what, by whom and when it was read."},
			{"anyOf", []any{ordered{{"type", "string"}}, object}},
		}
		return
	}
	(*defs)[at].value = object
}

// property is the schema of one member of a type.
func property(f reflect.StructField, name string, defs *ordered) ordered {
	p := ordered{}
	if label := f.Tag.Get("label"); label != "" {
		p.add("title", label)
	}
	switch {
	case name == "schema":
		p.add("const", Schema)
	case name == "id":
		p.add("type", "string")
		p.add("minLength", 1)
	case f.Type == readingType:
		p.add("description", describe(parseTag(f.Tag.Get("q")), f.Tag.Get("where")))
		p.add("$ref", "#/$defs/Reading")
	case f.Type.Kind() == reflect.String:
		if of := f.Tag.Get("of"); of != "" {
			p.add("enum", strings.Split(of, "|"))
		} else {
			p.add("type", "string")
		}
	case f.Type.Kind() == reflect.Slice:
		defineType(f.Type.Elem(), defs)
		p.add("type", "array")
		p.add("items", ordered{{"$ref", "#/$defs/" + f.Type.Elem().Name()}})
	case f.Type.Kind() == reflect.Struct:
		defineType(f.Type, defs)
		p.add("$ref", "#/$defs/"+f.Type.Name())
	default:
		panic("job: the schema has no words for " + f.Name + " of " + f.Type.String())
	}
	return p
}

// describe says what a quantity is, what is usual and where it is read.
func describe(m meaning, where string) string {
	if m.any {
		return "A quantity of any kind, with its unit."
	}
	s := fmt.Sprintf("A value such as %s. Questioned outside %s to %s", m.kind.Example(), usual(m, m.least), usual(m, m.most))
	if where != "" {
		s += ". Read: " + where
	}
	return strings.ReplaceAll(s, "\u00a0", " ") + "."
}

func usual(m meaning, x float64) string {
	return quantity.Format(m.kind, m.unit.ToSI(x), m.unit, -1)
}
