package web

import (
	"net/http"
	"net/url"
	"slices"
	"strings"

	"jounce/internal/finding"
	"jounce/internal/study"
	"jounce/internal/web/form"
	"jounce/internal/web/page"
)

// round is what is read at all four corners, one after the other.
type round struct {
	Key, Leaf string // in the address; in the record
	Title     string
	Section   string   // of the record, where the same boxes stand
	Say       string   // the unit as it is said aloud
	Caution   string   // where somebody reads it
	State     []string // places that say how the car stood
	Topics    []string // of the findings that stand on it
}

var rounds = []round{
	{"weight", "weight", "Weight", "weights", "kilograms", cautions["Weights"],
		[]string{"survey.driver", "survey.driverSide", "survey.driverMass", "survey.fuel", "survey.luggage"}, []string{"weights"}},
	{"hub-to-arch", "hubToArch", "Hub to arch", "body", "millimetres",
		handsOff,
		[]string{"survey.heightsRead", "survey.fuel"}, []string{"heights", "travel", "tyres"}},
	{"ground-to-body", "groundToBody", "Ground to body", "body", "millimetres",
		armsOut,
		[]string{"survey.heightsRead", "survey.fuel"}, []string{"weights", "heights"}},
	{"pressure", "pressure", "Spring pressure", "body", "bar",
		"Read at the valve block's own port. No line is opened under pressure; face and hands stay aside of fittings.",
		nil, []string{"springs"}},
}

// roundOf finds a round by what it reads in the record.
func roundOf(leaf string) (round, bool) {
	i := slices.IndexFunc(rounds, func(q round) bool { return q.Leaf == leaf })
	if i < 0 {
		return round{}, false
	}
	return rounds[i], true
}

type quadPage struct {
	page.Base
	formState
	ID, Action string
	Which      []presetLink
	Back       string
	Caution    string
	Quad       quad
	State      []form.Field
	Found      findingsPart
	Block      []page.Cell
}

// quad is the page on which four readings are typed as they lie on the car, with
// keys for gloves. What is typed is kept, what is empty stays empty.
func (s *server) quad(w http.ResponseWriter, r *http.Request) error {
	i := slices.IndexFunc(rounds, func(q round) bool { return q.Key == r.PathValue("what") })
	if i < 0 {
		return errNoPage
	}
	what := rounds[i]
	here := "/jobs/" + r.PathValue("id") + "/quad/" + what.Key
	if r.Method == http.MethodPost {
		if err := r.ParseForm(); err != nil {
			return err
		}
		oneTool(r.PostForm, what.Leaf)
	}
	return s.edit(w, r, func(status int, e *edit) error {
		p := &quadPage{Base: s.jobBase(r, e.opened, "record", what.Title), formState: e.state(), ID: e.ID, Action: here,
			Back: "/jobs/" + e.ID + "/record/" + what.Section, Caution: what.Caution, Block: s.titleBlock(e.opened, what.Title)}
		p.Live = true
		for k, q := range rounds {
			p.Which = append(p.Which, presetLink{Name: q.Title, Href: "/jobs/" + e.ID + "/quad/" + q.Key, Here: k == i})
		}
		p.Quad = quadOf(e.View, what.Leaf)
		p.Quad.Big, p.Quad.Href = true, ""
		p.Quad.Tools = commonTool(p.Quad, r.PostForm.Get(toolName))
		for _, path := range what.State {
			p.State = append(p.State, e.View.Field(path))
		}
		p.Found = findingsPart{Live: "found", Title: "What stands on these four", opened: *e.opened}
		p.Found.Res = onTopics(e.Res, what.Topics)
		return s.render(w, r, status, "quad", p)
	}, func(*edit) string { return here })
}

// toolName is the box of the one instrument that all four were read with.
const toolName = ":tool"

// oneTool takes one instrument for each of the four that a form fills in.
func oneTool(v url.Values, leaf string) {
	tool := v.Get(toolName)
	if tool == "" {
		return
	}
	for _, c := range study.CornerNames {
		if place := "corners." + c + "." + leaf; strings.TrimSpace(v.Get(place)) != "" {
			v.Set(place+":with", tool)
		}
	}
}

// commonTool is the choice of the one instrument: the one just chosen, else the
// one that all that are filled in were read with.
func commonTool(q quad, chosen string) []form.Option {
	var out []form.Option
	for i, o := range q.FL.Tools {
		o.Chosen = o.Value == chosen
		if chosen == "" {
			all, some := true, false
			for _, f := range q.four() {
				if f.Value != "" {
					all, some = all && f.Tools[i].Chosen, true
				}
			}
			o.Chosen = all && some
		}
		out = append(out, o)
	}
	return out
}

// onTopics is a result with the findings of some topics only.
func onTopics(res *study.Result, topics []string) *study.Result {
	short := *res
	short.Findings = slices.DeleteFunc(slices.Clone(res.Findings), func(f finding.Finding) bool { return !slices.Contains(topics, f.Topic) })
	return &short
}

// quad is four readings of one kind, laid out as the car stands, front up.
type quad struct {
	Title, Where   string
	FL, FR, RL, RR form.Field
	Big            bool          // for gloves: large boxes, one instrument for all
	Tools          []form.Option // the one instrument, where Big
	Say            string        // the unit as it is said aloud
	Href           string        // where the same is typed with large keys
}

// quadOf is the round of four of a place of a corner.
func quadOf(v *form.View, leaf string) quad {
	at := func(c string) form.Field { return v.Field("corners." + c + "." + leaf) }
	q := quad{FL: at("FL"), FR: at("FR"), RL: at("RL"), RR: at("RR")}
	q.Title, q.Where = q.FL.Label, q.FL.Where
	if x, ok := roundOf(leaf); ok {
		q.Say = x.Say
		if v.Rec.ID != "" {
			q.Href = "/jobs/" + v.Rec.ID + "/quad/" + x.Key
		}
	}
	return q
}

func (q quad) four() []form.Field { return []form.Field{q.FL, q.FR, q.RL, q.RR} }

// Read says who read the four, where it was the same for all that are filled in.
func (q quad) Read() string {
	by, n := "", 0
	for _, f := range q.four() {
		if f.Value == "" {
			continue
		}
		if n++; n > 1 && f.By != by || f.By == "" {
			return ""
		}
		by = f.By
	}
	return by
}
