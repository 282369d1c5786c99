package web

import (
	"fmt"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/sum"
	"jounce/internal/web/page"
	"jounce/quantity"
)

type sumsPage struct {
	page.Base
	Query  string
	Groups []sumGroup
	Found  int
}

type sumGroup struct {
	Title string
	Sums  []sumLine
}

type sumLine struct{ Question, Href string }

// sums lists every question, or those that the typed words fit.
func (s *server) sums(w http.ResponseWriter, r *http.Request) error {
	p := &sumsPage{Query: strings.TrimSpace(r.FormValue("q"))}
	p.Title, p.Heading, p.Who, p.Room = "Sums", "Sums", "one question, one page", "sums"
	found := sum.Search(p.Query)
	p.Found = len(found)
	if p.Query != "" {
		p.Groups = []sumGroup{{Title: page.Plural(len(found), "question fits", "questions fit") + ", the best first", Sums: sumLines(found)}}
	} else {
		p.Groups = sumGroups(found)
	}
	return s.render(w, r, http.StatusOK, "sums", p)
}

func sumLines(list []sum.Sum) []sumLine {
	out := make([]sumLine, len(list))
	for i, x := range list {
		out[i] = sumLine{x.Question, "/sums/" + x.Name}
	}
	return out
}

// sumGroups sorts questions into the trade's groups; a group without a question
// is left out.
func sumGroups(list []sum.Sum) []sumGroup {
	var out []sumGroup
	for _, g := range sum.Groups {
		var in []sum.Sum
		for _, x := range list {
			if x.Group == g {
				in = append(in, x)
			}
		}
		if len(in) > 0 {
			out = append(out, sumGroup{g, sumLines(in)})
		}
	}
	return out
}

type sumPage struct {
	page.Base
	Action, Question string
	Boxes            []sumBox
	Wrong            []sum.Problem // not of one box
	Missing          []string      // labels of boxes that must be filled
	Answered         bool
	Answer           sum.Answer
	Direction        string
	Big, Rest        string // "0.35", "± 0.04 bar"
	Example          string // address with the example
	Empty            bool   // nothing is typed
	Groups           []sumGroup
}

// sumBox is one input of a sum as its box shows it.
type sumBox struct {
	sum.Input
	Value   string
	Shown   string // unit that a bare number is taken in
	Options []string
	Problem *sum.Problem
}

// Path is the name of the box; the label of its error is made of it.
func (b sumBox) Path() string { return b.Key }

// sum is the page of one question. Its values stand in the address, so that it
// can be sent on; the same values posted are worked out anew while typing, or
// kept with a job.
func (s *server) sum(w http.ResponseWriter, r *http.Request) error {
	x, ok := sum.Find(r.PathValue("name"))
	if !ok {
		return errNoPage
	}
	if err := r.ParseForm(); err != nil {
		return asked{"the values in this address cannot be read: " + err.Error()}
	}
	form := r.Form
	if r.Method == http.MethodPost {
		form = r.PostForm
	}
	values := sumValues(form)
	if to, ok := settled(x, values, form); ok {
		http.Redirect(w, r, to, http.StatusSeeOther)
		return nil
	}
	if r.Method == http.MethodPost && r.Header.Get("X-Live") == "" {
		return s.keepSum(w, r, x, values)
	}
	return s.render(w, r, http.StatusOK, "sums-one", s.sumPage(x, values))
}

// sumValues takes the values out of a form; acts have a colon.
func sumValues(form url.Values) map[string]string {
	out := map[string]string{}
	for k, v := range form {
		if text := strings.TrimSpace(v[len(v)-1]); text != "" && !strings.Contains(k, ":") {
			out[k] = text
		}
	}
	return out
}

// settled puts an answer to a question in its box: the address of the page then.
func settled(x sum.Sum, values map[string]string, form url.Values) (string, bool) {
	key, text, ok := strings.Cut(form.Get(":answer"), "=")
	if !ok {
		return "", false
	}
	values[key] = text
	return sumHref(x, values), true
}

// sumHref is the address of a sum with its values.
func sumHref(x sum.Sum, values map[string]string) string {
	q := url.Values{}
	for k, v := range values {
		q.Set(k, v)
	}
	if len(q) == 0 {
		return "/sums/" + x.Name
	}
	return "/sums/" + x.Name + "?" + q.Encode()
}

func (s *server) sumPage(x sum.Sum, values map[string]string) *sumPage {
	p := &sumPage{Action: "/sums/" + x.Name, Question: x.Question, Example: sumHref(x, x.Example), Empty: len(values) == 0, Groups: sumGroups(sum.All())}
	p.Title, p.Heading, p.Who, p.Room, p.Live = x.Question, "Sums", "one question, one page", "sums", true
	answer, problems := x.AskIn(s.Shop, values, true)
	at := map[string]*sum.Problem{}
	for i, q := range problems {
		_, known := x.Input(q.Key)
		switch {
		case known && values[q.Key] == "" && q.Read == "":
			p.Missing = append(p.Missing, q.Label)
		case known:
			if len(q.Answers) == 0 {
				problems[i].Answers = s.otherUnits(x, values, q.Key)
			}
			at[q.Key] = &problems[i]
		default:
			p.Wrong = append(p.Wrong, q)
		}
	}
	for _, in := range x.Inputs {
		b := sumBox{Input: in, Value: values[in.Key], Options: in.Choices, Problem: at[in.Key]}
		if in.Quantity() && !in.Any {
			b.Shown = sum.Box(s.Shop, in).String()
		}
		if len(in.Choices) > 0 && b.Value != "" && !slices.Contains(in.Choices, b.Value) {
			b.Options = append(slices.Clone(in.Choices), b.Value)
		}
		p.Boxes = append(p.Boxes, b)
	}
	if len(problems) == 0 {
		p.Answered, p.Answer, p.Direction = true, answer, answer.Direction
		p.Big, p.Rest = split(answer.Headline)
		if answer.Shown != "" {
			p.Big, p.Rest = answer.Shown, ""
		}
	}
	return p
}

// tradeUnits are the units that a bare number is mostly meant in, by kind.
var tradeUnits = map[quantity.Kind][]string{
	quantity.KindPressure: {"bar", "psi", "kPa"}, quantity.KindTemperature: {"°C", "°F"}, quantity.KindLength: {"mm", "cm", "in"},
	quantity.KindMass: {"kg", "lb"}, quantity.KindVolume: {"L", "cm³"}, quantity.KindTime: {"h", "min"}, quantity.KindForce: {"N", "kN"},
}

// otherUnits are the ways to mean a bare number that its box refuses: the same
// number in another unit of the trade, where the sum takes it.
func (s *server) otherUnits(x sum.Sum, values map[string]string, key string) []string {
	in, ok := x.Input(key)
	if !ok || strings.Trim(values[key], "0123456789.,-− ") != "" {
		return nil
	}
	var out []string
	for _, u := range tradeUnits[in.Kind] {
		try := maps.Clone(values)
		try[key] += " " + u
		_, problems := x.AskIn(s.Shop, try, true)
		if !slices.ContainsFunc(problems, func(p sum.Problem) bool { return p.Key == key }) {
			out = append(out, try[key])
		}
	}
	return out
}

// split parts a number's text: the value, and its ± with the unit.
func split(n finding.Number) (value, rest string) {
	text := n.String()
	if !n.Known() {
		return text, ""
	}
	if i := strings.Index(text, "±"); i >= 0 {
		return strings.TrimSpace(text[:i]), text[i:]
	}
	if unit := n.Unit.String(); unit != "" {
		if head, ok := strings.CutSuffix(text, unit); ok {
			return strings.TrimRight(head, " \u00a0\u202f"), unit
		}
	}
	return text, ""
}

type sumKeepPage struct {
	page.Base
	Action, Question, Back, Big string
	Kept                        []keptField
	Jobs                        []keepJob
}

type keepJob struct{ ID, Name string }

// keepSum writes an answer into the note of a job: with no job named it asks
// which.
func (s *server) keepSum(w http.ResponseWriter, r *http.Request, x sum.Sum, values map[string]string) error {
	answer, problems := x.AskIn(s.Shop, values, true)
	if len(problems) > 0 {
		p := s.sumPage(x, values)
		return s.render(w, r, http.StatusUnprocessableEntity, "sums-one", p)
	}
	signer, ok, err := s.signer(w, r)
	if !ok || err != nil {
		return err
	}
	id := strings.TrimSpace(r.PostForm.Get(":job"))
	if id == "" {
		return s.askJob(w, r, x, values, answer, http.StatusOK)
	}
	if id == job.Shop {
		return errNoPage
	}
	rev, err := s.Records.Load(r.Context(), id)
	if err != nil {
		return err
	}
	o, err := s.study(rev)
	if err != nil {
		return err
	}
	rec := o.Rec.Clone()
	rec.Note = strings.TrimLeft(rec.Note+"\n\n"+s.sumNote(x, values, answer, signer), "\n")
	if _, err := s.keep(r, rec, rev.Number, signer, "sum kept: "+x.Question); err != nil {
		return err
	}
	http.Redirect(w, r, "/jobs/"+id+"/record/job#note", http.StatusSeeOther)
	return nil
}

// sumNote is a sum as it stands in a job's note: who asked when, what was typed,
// what came out, where it can be worked out again.
func (s *server) sumNote(x sum.Sum, values map[string]string, a sum.Answer, signer string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s %s (%s, %s)", x.Question, a.Big(), signer, s.Clock().Format("2006-01-02 15:04"))
	for _, in := range x.Inputs {
		v := values[in.Key]
		if v == "" {
			continue
		}
		if in.Quantity() && !in.Any && strings.Trim(v, "0123456789.,-− ") == "" {
			v += " " + sum.Box(s.Shop, in).String()
		}
		fmt.Fprintf(&b, "\n%s: %s", in.Label, v)
	}
	if a.Verdict != nil {
		fmt.Fprintf(&b, "\n%s: %s %s.", strings.TrimSuffix(sentence(a.Verdict.String()), "."), a.Limit.Name, a.Limit.Rule())
	}
	for _, line := range a.Says {
		b.WriteString("\n" + line)
	}
	b.WriteString("\n" + sumHref(x, values))
	return b.String()
}

// askJob asks which job keeps a sum.
func (s *server) askJob(w http.ResponseWriter, r *http.Request, x sum.Sum, values map[string]string, a sum.Answer, status int) error {
	list, err := s.Records.List(r.Context(), job.ListQuery{State: stateOpen, Limit: mostBoard})
	if err != nil {
		return err
	}
	p := &sumKeepPage{Action: "/sums/" + x.Name, Question: x.Question, Back: sumHref(x, values), Big: a.Big()}
	p.Title, p.Heading, p.Who, p.Room = "Keep with a job", "Sums", "keep with a job", "sums"
	for k, v := range values {
		p.Kept = append(p.Kept, keptField{k, v})
	}
	slices.SortFunc(p.Kept, func(a, b keptField) int { return strings.Compare(a.Name, b.Name) })
	for _, row := range list.Rows {
		if row.Job != job.Shop {
			p.Jobs = append(p.Jobs, keepJob{row.Job, row.Name})
		}
	}
	return s.render(w, r, status, "sums-keep", p)
}
