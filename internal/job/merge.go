package job

import (
	"cmp"
	"reflect"
	"slices"
	"strings"
)

// Side is what one of three records holds at a place that is merged.
type Side struct {
	There   bool // false: this record does not have the item
	Reading      // what stands there; of a text only Value, of an item or a list its content in words
}

// Clash is one place that two people changed, each to something else.
type Clash struct {
	Path, Label string
	Item        bool // Path is an item of a list, or a list, and not one place
	Added       bool // both added an item under the same id: it may be two things
	Base        Side // what both began with
	Mine        Side
	Theirs      Side
}

// Stand is the answer to a clash.
type Stand int

// Answers to a clash.
const (
	Unanswered Stand = iota
	Mine             // what I typed stands
	Theirs           // what was saved meanwhile stands
	Both             // an item that both added is two: mine gets an id of its own
)

// Merge brings together two records that were made from the same one.
//
// Groups are merged place by place, lists item by item, by the id that never
// changes. A place that one side left as it was takes what the other made of it;
// two sides that say the same agree. A reading is one value with its doubt, its
// instrument, its name and its time: two people who read the same with the same
// instrument agree, and the earlier reading stands. Everything else that both
// changed is a clash, as is an item that one took out and the other changed. At
// a clash the merged record holds what base holds, so that it favours nobody; it
// is not one to be saved.
//
// An item that both added under one id is merged where the two do not contradict
// each other, and one clash where they do. (An id that is a name and no number,
// such as that of a point of the outline, stands for one thing.) Items keep the order of base, or that
// of the one side that changed it; added ones come last, in the order of their
// ids. A list in which an id is empty or stands twice is one value.
//
// Exchanging mine and theirs exchanges the sides of the clashes and nothing
// else. None of the three is changed, and the result shares nothing with them.
func Merge(base, mine, theirs *Job) (*Job, []Clash) {
	return MergeWith(base, mine, theirs, nil)
}

// MergeWith is Merge with answers to clashes, by their paths. An answer at a
// place where nothing clashes, and Both where there are not two things, is no
// answer.
func MergeWith(base, mine, theirs *Job, answers map[string]Stand) (*Job, []Clash) {
	out, clashes := merged(base, mine, theirs, answers)
	apart := mine
	for _, c := range clashes {
		if c.Added && answers[c.Path] == Both {
			if apart == mine {
				apart = mine.Clone()
			}
			apart.renumber(c.Path, base, theirs)
		}
	}
	if apart != mine {
		out, clashes = merged(base, apart, theirs, answers)
	}
	return out.Clone(), clashes
}

func merged(base, mine, theirs *Job, answers map[string]Stand) (*Job, []Clash) {
	m, out := &merging{answers: answers}, new(Job)
	of := func(j *Job) reflect.Value { return reflect.ValueOf(j).Elem() }
	m.group(of(out), of(base), of(mine), of(theirs), "", "")
	return out, m.clashes
}

// merging is one merge: b is what stood in base, x is mine, y is theirs.
type merging struct {
	answers map[string]Stand
	clashes []Clash
}

// three is the value of a place that at most one side changed. ok is false where
// both did.
func three[T comparable](b, x, y T) (v T, ok bool) {
	switch {
	case x == y, y == b:
		return x, true
	case x == b:
		return y, true
	}
	return b, false
}

func (m *merging) group(out, b, x, y reflect.Value, path, label string) {
	for i, at := range placesOf(out.Type()) {
		p, l := at.name, inGroup(label, at.label)
		if path != "" {
			p = path + "." + at.name
		}
		to, fb, fx, fy := out.Field(i), b.Field(i), x.Field(i), y.Field(i)
		switch {
		case at.reading:
			m.reading(to, fb.Interface().(Reading), fx.Interface().(Reading), fy.Interface().(Reading), p, l)
		case at.text:
			m.text(to, fb.String(), fx.String(), fy.String(), p, l)
		case to.Kind() == reflect.Struct:
			m.group(to, fb, fx, fy, p, l)
		case to.Kind() == reflect.Slice:
			m.list(to, fb, fx, fy, p, at, label)
		default: // the number of the schema
			v, ok := three(fb.Int(), fx.Int(), fy.Int())
			if !ok {
				v = max(fx.Int(), fy.Int())
			}
			to.SetInt(v)
		}
	}
}

func (m *merging) reading(to reflect.Value, b, x, y Reading, path, label string) {
	v, ok := three(b, x, y)
	switch {
	case ok:
	case alike(x, y):
		v = slices.MinFunc([]Reading{x, y}, func(p, q Reading) int {
			return cmp.Or(strings.Compare(p.At, q.At), strings.Compare(p.By, q.By), strings.Compare(p.Value, q.Value))
		})
	default:
		switch m.ask(Clash{Path: path, Label: label, Base: Side{true, b}, Mine: Side{true, x}, Theirs: Side{true, y}}) {
		case Mine:
			v = x
		case Theirs:
			v = y
		}
	}
	to.Set(reflect.ValueOf(v))
}

// alike tells that two readings say the same, whoever read it, and when.
func alike(a, b Reading) bool {
	return strings.TrimSpace(a.Value) == strings.TrimSpace(b.Value) && a.With == b.With && a.NotRead == b.NotRead && a.Note == b.Note
}

func (m *merging) text(to reflect.Value, b, x, y string, path, label string) {
	v, ok := three(b, x, y)
	switch {
	case ok:
	case strings.TrimSpace(x) == strings.TrimSpace(y):
		v = min(x, y)
	default:
		switch m.ask(Clash{Path: path, Label: label, Base: Side{true, Typed(b)}, Mine: Side{true, Typed(x)}, Theirs: Side{true, Typed(y)}}) {
		case Mine:
			v = x
		case Theirs:
			v = y
		}
	}
	to.SetString(v)
}

// ask gives the answer to a clash, or notes that there is none.
func (m *merging) ask(c Clash) Stand {
	if a := m.answers[c.Path]; a == Mine || a == Theirs {
		return a
	}
	m.clashes = append(m.clashes, c)
	return Unanswered
}

func (m *merging) list(out, b, x, y reflect.Value, path string, at place, label string) {
	switch {
	case equal(x, y), equal(y, b):
		out.Set(x)
		return
	case equal(x, b):
		out.Set(y)
		return
	case !numbered(b) || !numbered(x) || !numbered(y):
		out.Set(m.whole(Clash{Path: path, Label: inGroup(label, at.label)}, b, x, y))
		return
	}
	for n, id := range order(b, x, y) {
		ib, _ := item(b, id, false)
		ix, _ := item(x, id, false)
		iy, _ := item(y, id, false)
		called, in := "", []reflect.Value{ix, iy}
		if ib.IsValid() {
			in = []reflect.Value{ib}
		}
		for _, v := range in {
			if v.IsValid() {
				called = max(called, itemWords(v, at, n))
			}
		}
		if v := m.item(ib, ix, iy, path+"["+id+"]", inGroup(label, called), id); v.IsValid() {
			out.Set(reflect.Append(out, v))
		}
	}
}

// item is what becomes of an item of a list; a value that is not valid stands
// for none.
func (m *merging) item(b, x, y reflect.Value, path, label, id string) reflect.Value {
	one := x
	if !x.IsValid() {
		one = y
	}
	switch {
	case !one.IsValid():
		return one // taken out by both
	case x.IsValid() && y.IsValid():
		v := reflect.New(x.Type()).Elem()
		if b.IsValid() {
			m.group(v, b, x, y, path, label)
			return v
		}
		from := len(m.clashes)
		m.group(v, reflect.Zero(x.Type()), x, y, path, label)
		for _, c := range m.clashes[from:] {
			if isNumber(id) && !strings.Contains(c.Path[len(path):], "[") {
				m.clashes = m.clashes[:from]
				return m.whole(Clash{Path: path, Label: label, Added: true}, b, x, y)
			}
		}
		return v
	case !b.IsValid():
		return one
	case equal(one, b):
		return reflect.Value{} // taken out by the other
	}
	return m.whole(Clash{Path: path, Label: label}, b, x, y)
}

// isNumber tells that an id counts ("p3") and does not name ("scuttle"): two
// things may come under the same number, and not under the same name.
func isNumber(id string) bool {
	return id != "" && id[len(id)-1] >= '0' && id[len(id)-1] <= '9'
}

// whole settles an item or a list as one value.
func (m *merging) whole(c Clash, b, x, y reflect.Value) reflect.Value {
	c.Item = true
	c.Base, c.Mine, c.Theirs = sideOf(b), sideOf(x), sideOf(y)
	switch m.ask(c) {
	case Mine:
		return x
	case Theirs:
		return y
	}
	return b
}

// sideOf says in words what an item or a list holds.
func sideOf(v reflect.Value) Side {
	if !v.IsValid() {
		return Side{}
	}
	var words []string
	say := func(f Field) {
		if text := f.Content(); strings.TrimSpace(text) != "" {
			words = append(words, f.Label+" "+text)
		}
	}
	if v.Kind() == reflect.Slice {
		for i := range v.Len() {
			walk(addressable(v.Index(i)), "item", "", say)
		}
	} else {
		walk(addressable(v), "item", "", say)
	}
	return Side{true, Typed(strings.Join(words, "; "))}
}

func addressable(v reflect.Value) reflect.Value {
	c := reflect.New(v.Type()).Elem()
	c.Set(v)
	return c
}

// equal tells that two parts of records hold the same. An empty list is like none.
func equal(a, b reflect.Value) bool {
	switch {
	case a.Type() == readingType || a.Kind() != reflect.Struct && a.Kind() != reflect.Slice:
		return a.Equal(b)
	case a.Kind() == reflect.Slice:
		if a.Len() != b.Len() {
			return false
		}
		for i := range a.Len() {
			if !equal(a.Index(i), b.Index(i)) {
				return false
			}
		}
		return true
	}
	for i := range a.NumField() {
		if !equal(a.Field(i), b.Field(i)) {
			return false
		}
	}
	return true
}

// numbered tells that every item of a list has an id and no two the same.
func numbered(list reflect.Value) bool {
	ids := idsOf(list)
	slices.Sort(ids)
	return len(ids) == 0 || ids[0] != "" && len(slices.Compact(ids)) == list.Len()
}

// order is the ids of a merged list: those of base first.
func order(b, x, y reflect.Value) []string {
	base, mine, theirs := idsOf(b), idsOf(x), idsOf(y)
	old := base
	switch mx, my := moved(base, mine), moved(base, theirs); {
	case mx && !my:
		old = mine
	case my && !mx, mx && slices.Equal(among(mine, theirs), among(theirs, mine)):
		old = theirs
	}
	out := among(old, base)
	for _, id := range base { // what that side took out may clash
		if !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	added := slices.Concat(mine, theirs)
	slices.SortFunc(added, func(p, q string) int { return cmp.Or(cmp.Compare(len(p), len(q)), strings.Compare(p, q)) })
	for _, id := range added {
		if !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	return out
}

// among is the part of a list that stands in another too.
func among(list, other []string) []string {
	var out []string
	for _, id := range list {
		if slices.Contains(other, id) {
			out = append(out, id)
		}
	}
	return out
}

// moved tells that the items of base stand in another order.
func moved(base, ids []string) bool { return !slices.Equal(among(base, ids), among(ids, base)) }

// renumber gives an item an id that none of the records has, and what names it
// names it by the new one.
func (j *Job) renumber(path string, others ...*Job) {
	list, at, ok := j.itemAt(path)
	if !ok {
		return
	}
	taken := idsOf(list)
	for _, o := range others {
		if l, _, ok := o.itemAt(path); ok {
			taken = append(taken, idsOf(l)...)
		}
	}
	id := list.Index(at).FieldByName("ID")
	old := id.String()
	fresh := NextID(strings.TrimRight(old, "0123456789"), taken)
	id.SetString(fresh)
	named, _, _ := strings.Cut(path, "[")
	if strings.Contains(path, "].") {
		return // what lies in an item is named by nothing
	}
	for _, f := range j.Fields() {
		switch {
		case f.Text != nil && refers(f.Path) == named && *f.Text == old:
			*f.Text = fresh
		case f.Reading != nil && named == "instruments" && f.Reading.With == old:
			f.Reading.With = fresh
		}
	}
}
