// Package page is what pages show: typed data that templates read, made from
// records and findings without any computing of their own. The components and
// what they take are described at the top of templates/parts.html.
package page

import (
	"cmp"
	"fmt"
	"html/template"
	"math"
	"slices"
	"strings"
	"time"

	"jounce/internal/draw"
	"jounce/internal/draw/svg"
	"jounce/internal/finding"
	"jounce/quantity"
	"jounce/source"
)

// Themes are the looks that a browser may choose; none is as the device says.
var Themes = []string{"light", "dark", "bright"}

// Base is what every page has. A handler sets Title, Heading, and what else its
// head shows; the rest is filled in when the page is rendered.
type Base struct {
	Title    string         // of the window
	Heading  string         // of the sheet
	Who      string         // beside the heading
	Tally    *finding.Tally // of the findings; nil for none
	Counts   []string       // words in the place of the tally
	Room     string         // key of the room one is in
	Rooms    []Room
	Live     bool   // the page recalculates while typing
	Status   *Kept  // the newest revision, where the page says it
	Follows  string // number of the job whose saves the page is told of; empty for none
	Revision int    // that the page shows

	Theme, Signer, Shop, Program, Here string
}

// Kept is the status line of a job's page: the newest revision, and its undo.
type Kept struct {
	ID     string // of the job
	Number int    // of the revision
	Words  string // what it changed
	By, At string // who kept it, and when
	Fresh  bool   // this page was reached by keeping it
	Newest int    // number of the newest revision, where somebody kept one since
	Undo   bool   // it can be taken back
	Back   string // address that an undo comes back to
}

// Common is the base itself.
func (b *Base) Common() *Base { return b }

// RoomName is the name of the room one is in.
func (b *Base) RoomName() string {
	for _, r := range b.Rooms {
		if r.Here {
			return r.Name
		}
	}
	return "Rooms"
}

// Room is one word on the line of rooms.
type Room struct {
	Name, Href string
	Here       bool
}

// Count is one of the four numbers of a tally.
type Count struct {
	Verdict finding.Verdict
	N       int
}

// Counted is a tally in its four columns.
func Counted(t finding.Tally) []Count {
	out := make([]Count, len(t))
	for i, n := range t {
		out[i] = Count{finding.Verdict(i), n}
	}
	return out
}

// Cell is one field of a title block.
type Cell struct {
	Caption, Value string
	Wide           int // columns of six
	Big            bool
}

// Missing is one line of what is missing.
type Missing struct {
	finding.Gap
	Href  string
	Bar   float64 // of the most that any settles [%]
	Count string  // "4 findings"
	Names string  // what they are
}

// Gaps makes lines of gaps: href says where a place is typed in.
func Gaps(gaps []finding.Gap, findings []finding.Finding, href func(path string) string) []Missing {
	most := 1
	for _, g := range gaps {
		most = max(most, len(g.Settles))
	}
	claims := map[string]string{}
	for _, f := range findings {
		claims[f.ID] = f.Claim
	}
	out := make([]Missing, len(gaps))
	for i, g := range gaps {
		var names []string
		for _, id := range g.Settles {
			name := strings.TrimSuffix(claims[id], ".")
			if slices.Contains(names, name) {
				continue
			}
			if len(names) == 3 {
				names = append(names, "…")
				break
			}
			names = append(names, name)
		}
		out[i] = Missing{Gap: g, Href: href(g.Path), Bar: 100 * float64(len(g.Settles)) / float64(most),
			Count: Plural(len(g.Settles), "finding", "findings"), Names: strings.Join(names, "; ")}
	}
	return out
}

// FirstGaps is how many missing places a page shows before the fold.
const FirstGaps = 7

// Folded are the missing places before the fold and behind it.
func Folded(list []Missing) [2][]Missing {
	if len(list) <= FirstGaps+1 {
		return [2][]Missing{list, nil}
	}
	return [2][]Missing{list[:FirstGaps], list[FirstGaps:]}
}

// Plural is a number with its noun.
func Plural(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

// Funcs are the functions of all templates.
func Funcs() template.FuncMap {
	return template.FuncMap{
		"unsettled": unsettled, "passed": passed,
		"counted": Counted, "num": numberHTML, "formula": formulaHTML, "figure": figure,
		"explain": func(m source.Mark) string { return m.Explain() },
		"themes":  func() []Choice { return looks }, "dict": dict, "list": func(v ...any) []any { return v },
		"working": workingHTML, "terms": termsHTML, "line": lineOf, "upper": firstUpper, "moment": Moment, "add": func(a, b int) int { return a + b },
		"share": func(f float64) string { return fmt.Sprintf("%.0f %%", 100*f) },
		"percent": func(f float64) string {
			return strings.Replace(fmt.Sprintf("%+.1f %%", f), "-", "−", 1)
		},
		"box":  func(s draw.Scene) string { return fmt.Sprintf("0 0 %.2f %.2f", s.W/draw.Px, s.H/draw.Px) },
		"join": strings.Join, "folded": Folded, "signable": Signable, "plural": Plural,
	}
}

// Choice is one button of the switch of looks.
type Choice struct{ Value, Label string }

var looks = []Choice{{"", "as the device"}, {"light", "paper"}, {"dark", "blueprint"}, {"bright", "bright bay"}}

// dict makes the data of a component out of names and values.
func dict(pairs ...any) (map[string]any, error) {
	if len(pairs)%2 != 0 {
		return nil, fmt.Errorf("dict: %d values, expected pairs", len(pairs))
	}
	m := map[string]any{}
	for i := 0; i < len(pairs); i += 2 {
		k, ok := pairs[i].(string)
		if !ok {
			return nil, fmt.Errorf("dict: value %d is no name", i)
		}
		m[k] = pairs[i+1]
	}
	return m, nil
}

func firstUpper(s string) string {
	r := []rune(s)
	if len(r) == 0 {
		return s
	}
	return strings.ToUpper(string(r[0])) + string(r[1:])
}

// Moment is a time as a page says it: "14 March 2026 10:42".
func Moment(t time.Time) string {
	if t.IsZero() {
		return "not yet"
	}
	return t.Local().Format("2 January 2006 15:04")
}

// figure is a scene on the page.
func figure(s draw.Scene) (template.HTML, error) { return svg.Inline(s) }

// numberHTML is a number with its unit small, kept together.
func numberHTML(n finding.Number) template.HTML {
	text := template.HTMLEscapeString(n.String())
	unit := template.HTMLEscapeString(n.Unit.String())
	if n.Known() && unit != "" {
		if head, ok := strings.CutSuffix(text, unit); ok {
			return template.HTML(strings.TrimRight(head, " \u00a0\u202f") + "\u00a0<small>" + unit + "</small>")
		}
	}
	return template.HTML(text)
}

// formulaHTML is a formula's markup as HTML.
func formulaHTML(s string) template.HTML {
	var b strings.Builder
	parts(&b, finding.Markup(s))
	return template.HTML(b.String())
}

func parts(b *strings.Builder, list []finding.Part) {
	for _, p := range list {
		switch {
		case p.Over != nil || p.Under != nil:
			b.WriteString(`<span class="frac"><span>`)
			parts(b, p.Over)
			b.WriteString(`</span><span class="sr"> over </span><span>`)
			parts(b, p.Under)
			b.WriteString("</span></span>")
		case p.Sub != "":
			b.WriteString("<sub>" + template.HTMLEscapeString(p.Sub) + "</sub>")
		case p.Sup != "":
			b.WriteString("<sup>" + template.HTMLEscapeString(p.Sup) + "</sup>")
		default:
			b.WriteString(template.HTMLEscapeString(p.Text))
		}
	}
}

// Bar is one input of a tornado: what its own doubt does to the result on both
// sides, and what five per cent more of it does, to one scale.
type Bar struct {
	Name        string
	Left        bool
	Width       float64 // of the bar of five per cent [% of the axis]
	Half        float64 // of the doubt on either side [% of the axis]
	Text, Doubt string  // "+5.7 %", "± 4.1 %"
}

// tornado is the effects, the longest first. A result of nothing has no per
// cent: its effects are in its own unit.
func tornado(all []finding.Effect) []Bar {
	inUnit := !slices.ContainsFunc(all, func(e finding.Effect) bool { return e.Percent != 0 || e.Doubt != 0 })
	sizes := func(e finding.Effect) (five, half float64) {
		if inUnit {
			return math.Abs(e.Change.Value), e.Half.Value
		}
		return math.Abs(e.Percent), e.Doubt
	}
	size := func(e finding.Effect) float64 { return max(sizes(e)) }
	list := slices.Clone(all)
	slices.SortStableFunc(list, func(a, b finding.Effect) int { return cmp.Compare(size(b), size(a)) })
	out := make([]Bar, len(list))
	for i, e := range list {
		b := Bar{Name: e.Name, Left: e.Percent < 0 || inUnit && e.Change.Value < 0, Text: strings.Replace(fmt.Sprintf("%+.1f\u00a0%%", e.Percent), "-", "−", 1)}
		if e.Doubt >= 0.05 {
			b.Doubt = fmt.Sprintf("±\u00a0%.1f\u00a0%%", e.Doubt)
		}
		if inUnit && e.Change.Known() {
			if b.Text = e.Change.String(); e.Change.Value > 0 {
				b.Text = "+" + b.Text
			}
			if e.Half.Known() && e.Half.Value > 0 {
				b.Doubt = "±\u00a0" + e.Half.String()
			}
		}
		if most := size(list[0]); most > 0 {
			five, half := sizes(e)
			b.Width, b.Half = 48*five/most, 48*half/most
		}
		out[i] = b
	}
	return out
}

// Line is a finding on a page: where on the drawing it lies, and where the
// reading is typed that would settle it.
type Line struct {
	finding.Finding
	Zone, Read string
}

// lineOf is a finding as it stands, or a line as it is.
func lineOf(v any) (Line, error) {
	switch f := v.(type) {
	case finding.Finding:
		return Line{Finding: f}, nil
	case *finding.Finding:
		return Line{Finding: *f}, nil
	case Line:
		return f, nil
	}
	return Line{}, fmt.Errorf("%T is no finding", v)
}

// Shown is a number of SI units in a unit, without doubt.
func Shown(n finding.Number) string {
	if !n.Known() {
		return ""
	}
	return quantity.FormatWith(n.Kind, n.Value, n.Half, n.Unit)
}

// Joined joins words of a heading with commas, the later ones in small letters
// unless they are names in capitals.
func Joined(words []string) string {
	for i, w := range words {
		if r := []rune(w); i > 0 && len(r) > 1 && r[0] >= 'A' && r[0] <= 'Z' && r[1] >= 'a' && r[1] <= 'z' && i < len(words)-1 {
			words[i] = strings.ToLower(string(r[0])) + string(r[1:])
		}
	}
	return strings.Join(words, ", ")
}

// Signable tells that an owner's signature would count and is not there yet.
func Signable(f finding.Finding) bool {
	return f.Grade == finding.OwnerSigns && f.Signed == nil && (f.Verdict == finding.Fail || f.Verdict == finding.TooClose)
}

// unsettled are the findings that do not pass, or pass on what is no evidence.
func unsettled(list []finding.Finding) []finding.Finding {
	return pick(list, func(f finding.Finding) bool { return f.Verdict != finding.Pass || f.NotEvidence != "" })
}

// passed are the others: they are folded, so that the trouble is seen first.
func passed(list []finding.Finding) []finding.Finding {
	return pick(list, func(f finding.Finding) bool { return f.Verdict == finding.Pass && f.NotEvidence == "" })
}

func pick(list []finding.Finding, want func(finding.Finding) bool) []finding.Finding {
	var out []finding.Finding
	for _, f := range list {
		if want(f) {
			out = append(out, f)
		}
	}
	return out
}
