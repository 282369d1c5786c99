package job

import (
	"reflect"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Change is one place in which two records differ.
type Change struct {
	Path   string  // the place; an item of a list where nothing stands in it
	Label  string  // in words, items by their names: "Front damper, length open"
	Before Reading // as it was; of a text its Value only
	After  Reading // as it is
	Text   bool    // the place holds a text or a choice
	Item   string  // the outermost item that is there in only one of the two: "springs[s2]"
	Named  string  // that item in words: "spring bellows 110"
	Gone   bool    // that item is there before and not after
	Order  bool    // the items of the list Path stand in another order, and nothing else is said here
}

// Diff lists the places in which two records differ, in the order of the
// record. Items of a list are matched by their ids. What refers to an item, an
// instrument or a spring, is given by its name. The number of the job and the
// version of the document are no places of it.
func Diff(before, after *Job) []Change {
	d := differ{was: namesOf(before), is: namesOf(after)}
	d.group(reflect.ValueOf(before).Elem(), reflect.ValueOf(after).Elem(), "", "")
	return d.out
}

// Touches tells that the change lies in the place, which may be a group or an
// item, or that the place lies in what changed.
func (c Change) Touches(place string) bool { return within(c.Path, place) || within(place, c.Path) }

// within tells that a path is a place or lies in it.
func within(path, place string) bool {
	rest, ok := strings.CutPrefix(path, place)
	return ok && (rest == "" || rest[0] == '.' || rest[0] == '[')
}

type differ struct {
	out     []Change
	was, is names
	item    string // the item under which everything is new or gone
	named   string
	gone    bool
}

// group compares two values of the same type.
func (d *differ) group(a, b reflect.Value, path, label string) {
	for i, at := range placesOf(b.Type()) {
		if at.name == "" || at.name == "id" || path == "" && at.name == "schema" {
			continue
		}
		p := at.name
		if path != "" {
			p = path + "." + at.name
		}
		x, y := a.Field(i), b.Field(i)
		switch {
		case at.reading:
			was, is := x.Interface().(Reading), y.Interface().(Reading)
			if was != is {
				was.With, is.With = d.was.of("instruments", was.With), d.is.of("instruments", is.With)
				d.add(Change{Path: p, Label: inGroup(label, at.label), Before: was, After: is})
			}
		case at.text:
			if x.String() != y.String() {
				list := refers(p)
				d.add(Change{Path: p, Label: inGroup(label, at.label), Text: true,
					Before: Reading{Value: d.was.of(list, x.String())}, After: Reading{Value: d.is.of(list, y.String())}})
			}
		case y.Kind() == reflect.Struct:
			d.group(x, y, p, inGroup(label, at.label))
		case y.Kind() == reflect.Slice:
			d.list(x, y, p, at, label)
		}
	}
}

func (d *differ) add(c Change) {
	c.Item, c.Named, c.Gone = d.item, d.named, d.gone
	d.out = append(d.out, c)
}

// list compares the items of two lists by their ids: those that are there now in
// their order, then those that are gone.
func (d *differ) list(a, b reflect.Value, path string, at place, label string) {
	was, is := idsOf(a), idsOf(b)
	empty := reflect.Zero(b.Type().Elem())
	for n, id := range is {
		x, fresh := empty, true
		if i := indexOf(was, id); i >= 0 {
			x, fresh = a.Index(i), false
		}
		d.oneItem(x, b.Index(n), path+"["+id+"]", itemWords(b.Index(n), at, n), label, fresh, false)
	}
	var stay, stood []string
	for _, id := range is {
		if indexOf(was, id) >= 0 {
			stay = append(stay, id)
		}
	}
	for n, id := range was {
		if indexOf(is, id) >= 0 {
			stood = append(stood, id)
			continue
		}
		d.oneItem(a.Index(n), empty, path+"["+id+"]", itemWords(a.Index(n), at, n), label, false, true)
	}
	if strings.Join(stay, " ") != strings.Join(stood, " ") {
		d.add(Change{Path: path, Label: inGroup(label, at.label), Order: true})
	}
}

func (d *differ) oneItem(x, y reflect.Value, path, words, label string, fresh, gone bool) {
	outer := *d
	label = inGroup(label, words)
	if (fresh || gone) && d.item == "" {
		d.item, d.named, d.gone = path, label, gone
	}
	n := len(d.out)
	d.group(x, y, path, label)
	if len(d.out) == n && (fresh || gone) {
		d.add(Change{Path: path, Label: label, Text: true}) // an item in which nothing stands
	}
	d.item, d.named, d.gone = outer.item, outer.named, outer.gone
}

func idsOf(list reflect.Value) []string {
	out := make([]string, list.Len())
	for i := range out {
		out[i] = list.Index(i).FieldByName("ID").String()
	}
	return out
}

func indexOf(list []string, s string) int {
	for i, x := range list {
		if x == s {
			return i
		}
	}
	return -1
}

// one is what a single item of a list is called.
var one = map[string]string{"wishes": "wish", "instruments": "instrument", "springs": "spring", "points": "line", "volumes": "volume, line",
	"limiters": "limit of travel", "seats": "seat", "leakTests": "leak test", "readings": "reading", "signatures": "signature",
	"stations": "point of the outline", "touch": "touch point", "photos": "picture"}

// longestWords is how much of a sentence names an item [signs].
const longestWords = 36

// itemWords is an item in words: "spring bellows 110", "wish “Right down”",
// "line 2". One without a name is called by its number in the list.
func itemWords(v reflect.Value, at place, n int) string {
	kind := one[at.name]
	if kind == "" {
		kind = midSentence(at.label)
	}
	for _, f := range []string{"Name", "Title"} {
		if s := v.FieldByName(f); s.IsValid() && s.Kind() == reflect.String && strings.TrimSpace(s.String()) != "" {
			name := Short(s.String(), longestWords)
			if strings.HasPrefix(strings.ToLower(name), kind) {
				return name
			}
			return kind + " " + name
		}
	}
	if s := v.FieldByName("Words"); s.IsValid() && strings.TrimSpace(s.String()) != "" {
		return kind + " “" + Short(s.String(), longestWords) + "”"
	}
	if id := v.FieldByName("ID").String(); at.name == "stations" {
		return kind + " " + id // its id is its name
	}
	return kind + " " + strconv.Itoa(n+1)
}

// Short is the beginning of a text on one line, with "…" where more follows.
func Short(s string, most int) string {
	s = strings.Join(strings.Fields(s), " ")
	if utf8.RuneCountInString(s) <= most {
		return s
	}
	r := []rune(s)[:most-1]
	for i := len(r) - 1; i > most/2; i-- {
		if r[i] == ' ' {
			r = r[:i]
			break
		}
	}
	return strings.TrimRight(string(r), " ,.;:") + "…"
}

// inGroup joins the words of a group and of what lies in it: "FL weight", "Front
// damper, length open".
func inGroup(group, label string) string {
	if group == "" {
		return label
	}
	joined := joinLabel(group, label)
	if !strings.ContainsAny(group, " ,") {
		joined = strings.Replace(joined, ", ", " ", 1)
	}
	return joined
}

// names are the items that others refer to, by list and id.
type names map[string]string

func namesOf(j *Job) names {
	n := names{}
	for _, x := range j.Instruments {
		n["instruments "+x.ID] = x.Name
	}
	for _, x := range j.Springs {
		n["springs "+x.ID] = x.Name
	}
	for _, x := range j.Photos {
		n["photos "+x.ID] = x.Name
	}
	return n
}

// of is the name of an item, its id where it has none.
func (n names) of(list, id string) string {
	if name := strings.TrimSpace(n[list+" "+id]); list != "" && name != "" {
		return name
	}
	return id
}

// refers is the list that a text refers to by an id; empty for other texts.
func refers(path string) string {
	switch {
	case strings.HasPrefix(path, "axles.") && strings.HasSuffix(path, ".spring"):
		return "springs"
	case path == "outline.tracedPhoto", strings.HasPrefix(path, "touch[") && strings.HasSuffix(path, ".photo"):
		return "photos"
	}
	return ""
}
