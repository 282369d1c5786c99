package web

import (
	"net/http"
	"strings"

	"jounce/internal/catalog"
	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/web/form"
	"jounce/internal/web/page"
)

type recordPage struct {
	page.Base
	ID       string
	Sections []sectionLine
	Gaps     []page.Missing
	Block    []page.Cell
}

type sectionLine struct {
	Title, Href string
	Typed, Of   int
	Problems    int
}

// record lists the sections of the record.
func (s *server) record(w http.ResponseWriter, r *http.Request) error {
	o, err := s.open(r)
	if err != nil {
		return err
	}
	p := &recordPage{Base: s.jobBase(r, o, "record", "Record"), ID: o.ID, Block: s.titleBlock(o, "Record")}
	at := map[string]int{}
	for i, sec := range sections {
		at[sec.Key] = i
		p.Sections = append(p.Sections, sectionLine{Title: sec.Title, Href: "/jobs/" + o.ID + "/record/" + sec.Key})
	}
	for _, f := range o.Rec.Fields() {
		line := &p.Sections[at[sectionOf(f.Path)]]
		line.Of++
		if strings.TrimSpace(f.Content()) != "" {
			line.Typed++
		}
	}
	for _, q := range o.Res.Problems {
		p.Sections[at[sectionOf(q.Path)]].Problems++
	}
	p.Gaps = page.Gaps(o.Res.Gaps, o.Res.Findings, func(path string) string { return hrefOf(o.ID, path) })
	return s.render(w, r, http.StatusOK, "record", p)
}

type sectionPage struct {
	page.Base
	formState
	ID, Action string
	Past       string // address of what happened to the places of this page
	Says       string
	Care       bool // what it says keeps somebody alive
	Groups     []group
	Findings   findingsPart
	Problems   int
	Names      []catalog.TouchName // to pick touch points from
	Block      []page.Cell
}

type findingsPart struct {
	Live  string
	Title string
	Zones map[string]string // where on the page's drawing findings lie, by their ids
	opened
}

// Line is a finding with its place on the drawing and its way to the reading that
// would settle it.
func (p findingsPart) Line(f finding.Finding) page.Line {
	l := page.Line{Finding: f, Zone: p.Zones[f.ID]}
	if f.SettleAt != "" {
		l.Read = hrefOf(p.ID, f.SettleAt)
	}
	return l
}

// Picture is the address of the picture of the touch point that a finding is about; "" where it has none.
func (p findingsPart) Picture(f finding.Finding) string {
	if f.Topic != "touch" {
		return ""
	}
	for _, t := range p.Rec.Touch {
		if f.ID == "touch."+t.ID {
			return p.picture(t.Photo)
		}
	}
	return ""
}

// group is what is typed together: boxes, a round of four, or a table.
type group struct {
	Path, Title string
	Item        string       // path of the item, where it can be removed
	Folded      bool         // one of many alike, and nothing in it asks
	Holds       string       // what a folded one holds, in a line
	Fields      []form.Field // boxes
	Quads       []quad       // rounds of four
	Table       *table
	Add         string // path of the list that gets an item
	AddLabel    string
}

type table struct {
	Heads []string
	Rows  []tableRow
}

// headOf is what stands over a column of boxes.
func headOf(f form.Field) string {
	if f.Unit == "" {
		return f.Label
	}
	return f.Label + ", " + f.Unit
}

type tableRow struct {
	Item  string
	Cells []form.Field
}

// section is one page of the record: every place in it can be typed.
func (s *server) section(w http.ResponseWriter, r *http.Request) error {
	sec, ok := findSection(r.PathValue("section"))
	if !ok {
		return errNoPage
	}
	here := "/jobs/" + r.PathValue("id") + "/record/" + sec.Key
	return s.edit(w, r, func(status int, e *edit) error {
		p := &sectionPage{Base: s.jobBase(r, e.opened, "record", sec.Title), formState: e.state(), ID: e.ID, Action: here, Past: "/jobs/" + e.ID + "/history?section=" + sec.Key, Says: sec.Says, Care: careful[sec.Key],
			Block: s.titleBlock(e.opened, sec.Title)}
		p.Live = true
		p.Groups = groups(e.View, sec)
		fold(p.Groups, e.Added)
		if sec.Key == "touch" {
			p.Names = catalog.TouchNames
		}
		p.Problems = len(e.Res.Problems)
		p.Findings = findingsPart{Live: "found", Title: "What can be said", opened: *e.opened}
		return s.render(w, r, status, "section", p)
	}, func(*edit) string { return here })
}

// unfolded is how many items of one list stand open at once.
const unfolded = 2

// fold closes the items of long lists, but for the one just added and those in
// which something asks.
func fold(list []group, added string) {
	items := 0
	for _, g := range list {
		if g.Item != "" {
			items++
		}
	}
	if items <= unfolded {
		return
	}
	for i := range list {
		g := &list[i]
		if g.Item == "" || g.Item == added || g.Table != nil {
			continue
		}
		g.Folded = true
		var says []string
		for _, f := range g.Fields {
			if f.Problem != nil {
				g.Folded = false
			}
			if v := f.Shown(); v != "" && !strings.HasSuffix(g.Title, v) && len(says) < 4 {
				says = append(says, v)
			}
		}
		g.Holds = strings.Join(says, ", ")
	}
}

// groups lays out the places of a section.
func groups(v *form.View, sec section) []group {
	b := &builder{v: v, at: map[string]int{}}
	for _, f := range v.Rec.Fields() {
		if sec.holdsPlace(f.Path) && f.Path != "id" {
			b.place(f)
		}
	}
	for _, p := range sec.Paths {
		b.lists(v.Rec, p)
	}
	return b.out
}

type builder struct {
	v   *form.View
	out []group
	at  map[string]int // group path → index
}

// place puts one field where it belongs.
func (b *builder) place(f job.Field) {
	up := parent(f.Path)
	switch {
	case strings.HasPrefix(up, "corners."):
		b.corner(f)
	case tabled(up):
		b.cell(f, up)
	default:
		g := b.group(up)
		g.Fields = append(g.Fields, b.v.Field(f.Path))
	}
}

// group finds or makes the group of a path.
func (b *builder) group(path string) *group {
	if i, ok := b.at[path]; ok {
		return &b.out[i]
	}
	g := group{Path: path, Title: titleOf(b.v.Rec, path)}
	if strings.HasSuffix(path, "]") {
		g.Item = path
	}
	b.at[path] = len(b.out)
	b.out = append(b.out, g)
	return &b.out[len(b.out)-1]
}

// corner puts a place of a corner into the round of its four.
func (b *builder) corner(f job.Field) {
	name := leaf(f.Path)
	g := b.group("corners")
	i := -1
	for k := range g.Quads {
		if leaf(g.Quads[k].FL.Path) == name {
			i = k
		}
	}
	if i < 0 {
		g.Quads = append(g.Quads, quadOf(b.v, name))
	}
}

// tabled tells that the items of a list stand in a table.
func tabled(item string) bool {
	if !strings.HasSuffix(item, "]") {
		return false
	}
	switch leaf(item[:strings.LastIndexByte(item, '[')]) {
	case "points", "volumes", "limiters", "seats":
		return true
	}
	return false
}

// cell puts a place into the table of its list.
func (b *builder) cell(f job.Field, item string) {
	list := item[:strings.LastIndexByte(item, '[')]
	g := b.group(list)
	if g.Table == nil {
		g.Table = &table{}
		g.Add, g.AddLabel = list, "Add a line"
	}
	t := g.Table
	if n := len(t.Rows); n == 0 || t.Rows[n-1].Item != item {
		t.Rows = append(t.Rows, tableRow{Item: item})
	}
	row := &t.Rows[len(t.Rows)-1]
	cell := b.v.Field(f.Path)
	row.Cells = append(row.Cells, cell)
	if len(t.Rows) == 1 {
		t.Heads = append(t.Heads, headOf(cell))
	}
}

// lists gives every list under a path its way to get another item.
func (b *builder) lists(rec *job.Job, path string) {
	switch path {
	case "wishes", "instruments", "springs", "touch", "leakTests", "signatures":
		b.adder(path)
	case "loads":
		b.adder("loads.seats")
	case "axles":
		b.adder("axles.front.limiters")
		b.adder("axles.rear.limiters")
	}
	if path == "springs" {
		for _, s := range rec.Springs {
			b.adder("springs[" + s.ID + "].points")
			b.adder("springs[" + s.ID + "].volumes")
		}
	}
	if path == "leakTests" {
		for _, t := range rec.LeakTests {
			b.adder("leakTests[" + t.ID + "].readings")
		}
	}
}

var addLabels = map[string]string{"wishes": "Add a wish", "instruments": "Add an instrument", "springs": "Add a spring",
	"touch": "Add a touch point", "leakTests": "Add a leak test", "signatures": "Add a signature", "seats": "Add a seat", "limiters": "Add a limit of travel",
	"points": "Add a line", "volumes": "Add a line", "readings": "Add a reading"}

func (b *builder) adder(list string) {
	label := addLabels[leaf(list)]
	if i, ok := b.at[list]; ok {
		b.out[i].Add, b.out[i].AddLabel = list, label
		return
	}
	g := group{Path: list, Title: titleOf(b.v.Rec, list), Add: list, AddLabel: label}
	// behind the last group that lies in the same parent
	at := len(b.out)
	if up := parent(list); up != "" {
		for i := range b.out {
			if inside(b.out[i].Path, up) {
				at = i + 1
			}
		}
	}
	b.out = append(b.out[:at], append([]group{g}, b.out[at:]...)...)
	b.at = map[string]int{}
	for i := range b.out {
		b.at[b.out[i].Path] = i
	}
}

// titleOf is the heading of a group: its own words, with those of what it lies in.
func titleOf(rec *job.Job, path string) string {
	if path == "" {
		return "The job"
	}
	if path == "corners" {
		return "Front up, as on the car"
	}
	var words []string
	for i := range len(path) + 1 {
		if i != len(path) && path[i] != '.' {
			continue
		}
		part := path[:i]
		label := form.Label(strings.Split(part, "[")[0])
		if strings.Contains(part, "[") {
			label = form.Label(stripIDs(part))
		}
		if label == stripIDs(part) { // a group without words
			label = ""
		}
		if label == "" && i == len(path) && len(words) == 0 {
			label = map[string]string{"car": "The car", "place": "Where it stands", "keeper": "The keeper", "survey": "The whole car",
				"loads": "Luggage and what is added", "air": "Air supply", "presets": "Presets", "axles": "Axles"}[path]
		}
		if label != "" {
			words = append(words, label)
		}
		if strings.HasSuffix(part, "]") {
			words = append(words, itemName(rec, part))
		}
	}
	return page.Joined(words)
}

// stripIDs takes the ids out of a path.
func stripIDs(path string) string {
	var b strings.Builder
	in := false
	for _, r := range path {
		switch {
		case r == '[':
			in = true
		case r == ']':
			in = false
		case !in:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// itemName is what people call an item, its id where it has no name.
func itemName(rec *job.Job, path string) string {
	for _, n := range []string{"name", "title"} {
		if f, err := rec.Field(path+"."+n, false); err == nil && strings.TrimSpace(f.Content()) != "" {
			return f.Content()
		}
	}
	return strings.TrimSuffix(path[strings.LastIndexByte(path, '[')+1:], "]")
}
