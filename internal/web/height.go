package web

import (
	"encoding/json"
	"fmt"
	"html/template"
	"math"
	"net/http"
	"strconv"
	"strings"

	"jounce/internal/finding"
	"jounce/internal/study"
	"jounce/quantity"
)

// heightPart is the height rule with the order in which parts touch and the
// numbers at one height. Down is right on the rule and plus in its input, so
// that touch points read from left to right in their order.
type heightPart struct {
	Href      string // the job's page
	Now       int    // below ROAD [mm]
	Min, Max  int    // of Now
	Head      string // "− 60"
	Sill      bool
	Presets   []presetLink
	Steps     []stepLink
	Ticks     []ruleTick
	Touches   []touchRow
	Wishes    []ruleWish
	Shut      string // share of the rule at which the hatch begins; empty for none
	Rows      []heightRow
	Table     template.JS // the steps as the script reads them
	TouchHref string      // where touch points are typed
	Says      string      // the doubt of the readings, in words
	Gap       string      // why there is no rule
	long      bool        // the wheelbase is known
}

// presetLink is one of the joined buttons.
type presetLink struct {
	Name, Href, Sill string
	Below            int // [mm]
	Set, Here        bool
}

// stepLink moves the body by a few millimetres without a script.
type stepLink struct {
	Words, Href string
}

type ruleTick struct {
	F     string // share of the rule, 0 to 1
	Major bool
	Label string
}

type ruleWish struct {
	F, Words string
	Row      int // flags too near each other stand one under the other
}

// touchRow is one part in the order of touching.
type touchRow struct {
	study.Touch
	F, W     string // balloon and its ± on the rule; empty when it never meets
	Up, UpS  int    // row of its balloon, 0 the lowest, on a wide screen and on a phone
	Left     int    // column of the table
	LeftText string
	Mark     finding.Verdict
	Bar, Bow string // room left and its ± as shares of the longest
	On       bool
	Place    string
	Picture  string // address of its picture
}

// heightRow is one quantity at the present height: front and rear, or one for
// the car.
type heightRow struct {
	Name  string
	Cells []heightCell
}

type heightCell struct {
	Key, Text, Unit string
	Wide            bool
}

// column is a quantity over the steps as the script shows it: value in the
// unit of the page and digits behind the point.
type column struct {
	Values []*float64 `json:"v"`
	Digits int        `json:"d"`
	Signed bool       `json:"s,omitempty"`
}

// steps is what the script reads.
type steps struct {
	From  int               `json:"from"` // below ROAD at the first step [mm]
	Front []float64         `json:"f"`    // change of the body over the front axle [mm]
	Rear  []float64         `json:"r"`
	Cols  map[string]column `json:"c"`
	Marks map[string][]span `json:"m"` // of each touch: verdict from which step on
	Room  float64           `json:"b"` // longest bar [mm]
	Unit  string            `json:"u"` // of the sill
}

type span struct {
	At   int    `json:"at"` // first step
	Mark string `json:"k"`
}

// below is a height's place on the rule [mm below ROAD].
func below(s study.Step) int { return -int(math.Round(s.Height * 1000)) }

// heightOf makes the part for what the request asks: ?preset=DOWN or ?below=60.
func heightOf(r *http.Request, o *opened) *heightPart {
	path := o.Res.Path
	h := &heightPart{Href: "/jobs/" + o.ID, TouchHref: "/jobs/" + o.ID + "/record/touch"}
	if !path.Known || len(path.Steps) < 2 {
		h.Gap = "The height rule waits for the heights at ROAD and the wheelbase."
		return h
	}
	h.long = o.Res.Heights.Wheelbase.Known()
	h.Min, h.Max = below(path.Steps[0]), below(path.Steps[len(path.Steps)-1])
	if n, err := strconv.ParseFloat(strings.ReplaceAll(strings.TrimSpace(r.FormValue("below")), "−", "-"), 64); err == nil {
		h.Now = min(max(int(math.Round(n)), h.Min), h.Max)
	}
	for _, p := range []int{3, 2, 1, 0} {
		l := presetLink{Name: study.PresetNames[p], Href: h.Href}
		if s := path.Presets[p]; s != nil {
			l.Below, l.Set, l.Sill = below(*s), true, signed(-float64(below(*s)))
			l.Href += "?below=" + itoa(l.Below)
			if r.FormValue("preset") == l.Name {
				h.Now = l.Below
			}
		} else {
			l.Sill, l.Href = "not set", h.Href+"/record/presets"
		}
		h.Presets = append(h.Presets, l)
	}
	for i := range h.Presets {
		h.Presets[i].Here = h.Presets[i].Set && h.Presets[i].Below == h.Now
	}
	step := h.step(path)
	h.Head, h.Sill = signed(-float64(h.Now)), step.Sill.Known()
	for _, d := range []int{-10, -1, 1, 10} {
		if n := h.Now + d; n >= h.Min && n <= h.Max {
			h.Steps = append(h.Steps, stepLink{map[bool]string{true: "Down ", false: "Up "}[d > 0] + itoa(max(d, -d)) + " mm", h.Href + "?below=" + itoa(n)})
		}
	}
	h.scale()
	h.touches(path)
	for i := range h.Touches {
		h.Touches[i].Picture = o.picture(h.Touches[i].Photo)
	}
	h.wishes(path)
	h.rows(step)
	h.table(path)
	return h
}

// step is the step at the present height.
func (h *heightPart) step(p study.Path) study.Step { return p.Steps[h.Now-h.Min] }

// share is where a height stands on the rule.
func (h *heightPart) share(below float64) string {
	return strconv.FormatFloat((below-float64(h.Min))/float64(h.Max-h.Min), 'f', 4, 64)
}

// scale is the ticks: every 10 mm, words at every 40, at 0 always.
func (h *heightPart) scale() {
	for b := int(math.Ceil(float64(h.Min)/10)) * 10; b <= h.Max; b += 10 {
		t := ruleTick{F: h.share(float64(b)), Major: b%20 == 0}
		if b%40 == 0 {
			t.Label = signed(-float64(b))
		}
		h.Ticks = append(h.Ticks, t)
	}
}

// touches lists the parts. Balloons nearer than a balloon's width stand in rows, one
// over the other.
func (h *heightPart) touches(p study.Path) {
	step := h.step(p)
	longest := longestRoom(p)
	wide, phone := newRows(0.05), newRows(0.1)
	for i, t := range p.Touches {
		row := touchRow{Touch: t, Left: i, Place: t.Place}
		if i < len(step.Left) && step.Left[i].Known() {
			n := step.Left[i]
			row.LeftText = figureText(n.Value*1000, 0, false)
			row.Mark = roomVerdict(n)
			row.On = row.Mark != finding.Pass
			row.Bar = strconv.FormatFloat(math.Max(0, math.Min(1, n.Value*1000/longest)), 'f', 4, 64)
			row.Bow = strconv.FormatFloat(n.Half*1000/longest, 'f', 4, 64)
		} else {
			row.Mark = finding.NotKnown
		}
		if t.At.Known() {
			at := -t.At.Value * 1000
			row.F = h.share(at)
			row.W = strconv.FormatFloat(2*t.At.Half*1000/float64(h.Max-h.Min), 'f', 4, 64)
			share := at / float64(h.Max-h.Min)
			row.Up, row.UpS = wide.row(share), phone.row(share)
			if t.Ends && h.Shut == "" {
				h.Shut = row.F
			}
		}
		h.Touches = append(h.Touches, row)
	}
}

// balloonRows gives balloons, from left to right, the lowest row in which the one
// before is far enough away.
type balloonRows struct {
	apart float64 // share of the rule
	last  [3]float64
}

func newRows(apart float64) *balloonRows {
	return &balloonRows{apart, [3]float64{math.Inf(-1), math.Inf(-1), math.Inf(-1)}}
}

// row is where the next balloon stands; where no row has room, the one whose last
// balloon is the farthest.
func (b *balloonRows) row(at float64) int {
	best := 0
	for i, last := range b.last {
		if at-last >= b.apart {
			best = i
			break
		}
		if last < b.last[best] {
			best = i
		}
	}
	b.last[best] = at
	return best
}

// longestRoom is the longest room at ROAD and above that a bar must show [mm].
func longestRoom(p study.Path) float64 {
	longest := 100.0
	for _, n := range p.Steps[0].Left {
		if n.Known() {
			longest = math.Max(longest, n.Value*1000)
		}
	}
	return longest
}

// roomVerdict is whether there is room at all: the mark beside what is left. A
// shop's own distance is a finding, not this mark.
func roomVerdict(n finding.Number) finding.Verdict {
	switch {
	case n.Value-n.Half > 0:
		return finding.Pass
	case n.Value+n.Half < 0:
		return finding.Fail
	}
	return finding.TooClose
}

// wishes are flags under the rule.
func (h *heightPart) wishes(p study.Path) {
	var taken []float64
	for _, w := range p.Wishes {
		if !w.Height.Known() {
			continue
		}
		at := -w.Height.Value * 1000
		if at < float64(h.Min) || at > float64(h.Max) {
			continue
		}
		f := ruleWish{F: h.share(at), Words: fmt.Sprintf("wish %d: %s", w.No, signed(-at))}
		for _, x := range taken {
			if math.Abs(x-at) < 0.16*float64(h.Max-h.Min) {
				f.Row++
			}
		}
		taken = append(taken, at)
		h.Wishes = append(h.Wishes, f)
	}
}

// rows are the numbers at the present height.
func (h *heightPart) rows(s study.Step) {
	one := func(name, key string, n finding.Number) {
		if n.Known() {
			h.Rows = append(h.Rows, heightRow{name, []heightCell{cellOf(key, n, true)}})
		}
	}
	two := func(name, key string, n [2]finding.Number) {
		if !n[0].Known() && !n[1].Known() {
			return
		}
		h.Rows = append(h.Rows, heightRow{name, []heightCell{cellOf(key+"0", n[0], false), cellOf(key+"1", n[1], false)}})
	}
	one("Sill above the floor", "sill", s.Sill)
	one("Lowest hard part above the floor", "low", s.Lowest)
	one("Nose up from ROAD", "pitch", h.pitchOf(s))
	one("Dipped beam", "aim", s.Aim)
	two("Spring height", "spring", s.Spring)
	two("Pressure", "press", s.Pressure)
	two("Room up, to solid", "bump", s.Bump)
	two("Room down", "droop", s.Droop)
}

// pitchOf is how far the nose stands up against ROAD.
func (h *heightPart) pitchOf(s study.Step) finding.Number {
	if !h.long {
		return finding.Number{}
	}
	return finding.Of(quantity.KindAngle, "°", s.NoseUp, 0)
}

func cellOf(key string, n finding.Number, wide bool) heightCell {
	if !n.Known() {
		return heightCell{Key: key, Text: "not known", Wide: wide}
	}
	d, plus := digitsOf(n)
	return heightCell{key, figureText(n.Unit.FromSI(n.Value), d, plus), n.Unit.String(), wide}
}

// digitsOf is how many digits a quantity shows behind the point here.
func digitsOf(n finding.Number) (digits int, signed bool) {
	switch n.Kind {
	case quantity.KindLength:
		if n.Unit.String() == "mm" {
			return 0, false
		}
		return 2, false
	case quantity.KindPressure:
		if n.Unit.String() == "bar" {
			return 1, false
		}
		return 0, false
	case quantity.KindRatio, quantity.KindAngle:
		return 1, true
	}
	return n.Unit.Digits(), false
}

// table is the steps for the script.
func (h *heightPart) table(p study.Path) {
	t := steps{From: h.Min, Cols: map[string]column{}, Marks: map[string][]span{}, Room: longestRoom(p)}
	add := func(key string, of func(s study.Step) finding.Number) {
		c := column{Values: make([]*float64, len(p.Steps))}
		any := false
		for i, s := range p.Steps {
			if n := of(s); n.Known() {
				c.Digits, c.Signed = digitsOf(n)
				fine := math.Pow10(c.Digits + 2)
				v := math.Round(n.Unit.FromSI(n.Value)*fine) / fine
				c.Values[i], any = &v, true
			}
		}
		if any {
			t.Cols[key] = c
		}
	}
	for _, s := range p.Steps {
		t.Front = append(t.Front, math.Round(s.Front*1e5)/100)
		t.Rear = append(t.Rear, math.Round(s.Rear*1e5)/100)
	}
	t.Unit = p.Steps[0].Sill.Unit.String()
	add("sill", func(s study.Step) finding.Number { return s.Sill })
	add("low", func(s study.Step) finding.Number { return s.Lowest })
	add("pitch", h.pitchOf)
	add("aim", func(s study.Step) finding.Number { return s.Aim })
	for i := range 2 {
		add("spring"+itoa(i), func(s study.Step) finding.Number { return s.Spring[i] })
		add("press"+itoa(i), func(s study.Step) finding.Number { return s.Pressure[i] })
		add("bump"+itoa(i), func(s study.Step) finding.Number { return s.Bump[i] })
		add("droop"+itoa(i), func(s study.Step) finding.Number { return s.Droop[i] })
	}
	for k := range p.Touches {
		key := "t" + itoa(k)
		add(key, func(s study.Step) finding.Number {
			if k < len(s.Left) {
				n := s.Left[k]
				return n
			}
			return finding.Number{}
		})
		for i, s := range p.Steps {
			if k >= len(s.Left) || !s.Left[k].Known() {
				continue
			}
			m := roomVerdict(s.Left[k]).Key()
			if list := t.Marks[key]; len(list) == 0 || list[len(list)-1].Mark != m {
				t.Marks[key] = append(list, span{i, m})
			}
		}
	}
	body, err := json.Marshal(t)
	if err != nil { // only numbers and keys
		panic("web: " + err.Error())
	}
	h.Table = template.JS(body)
}

// signed is a change [mm] with its sign and a thin space: "+ 20", "− 60", "0".
func signed(mm float64) string { return figureText(mm, 0, true) }

// figureText is a number with a proper minus; the script writes the same.
func figureText(v float64, digits int, plus bool) string {
	text := strconv.FormatFloat(math.Abs(v), 'f', digits, 64)
	zero, _ := strconv.ParseFloat(text, 64)
	switch {
	case zero == 0:
		return text
	case v < 0:
		return "−\u202f" + text
	case plus:
		return "+\u202f" + text
	}
	return text
}

// SillWords say where the sill is at the present height.
func (h *heightPart) SillWords() string {
	for _, r := range h.Rows {
		if c := r.Cells[0]; c.Key == "sill" {
			return "sill " + c.Text + "\u00a0" + c.Unit + " above the floor"
		}
	}
	return "sill not known here"
}

// Go is where a touch point is typed.
func (h *heightPart) Go(path string) string {
	id := strings.TrimPrefix(h.Href, "/jobs/")
	if path == "" {
		return h.TouchHref
	}
	return hrefOf(id, path)
}

// Name is a part with the place that its name does not say.
func (h *heightPart) Name(t study.Touch) string {
	name := upperFirst(t.Name)
	if t.Place == "" || strings.Contains(strings.ToLower(name), strings.ToLower(t.Place)) {
		return name
	}
	return name + ", " + t.Place
}

// Others is how many places do not meet on the way.
func (h *heightPart) Others() int {
	n := 0
	for _, t := range h.Touches {
		if t.Rank == 0 {
			n++
		}
	}
	return n
}

// At says where a part meets: "touches 68 ± 2 down".
func (h *heightPart) At(t study.Touch) string {
	if !t.At.Known() {
		return "does not meet on this way"
	}
	n := t.At
	way := " down"
	if n.Value > 0 {
		way = " up"
	} else {
		n.Value = -n.Value
	}
	return "meets " + strings.TrimSuffix(n.String(), "\u00a0"+n.Unit.String()) + way
}
