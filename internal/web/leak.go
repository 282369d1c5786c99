package web

import (
	"net/http"
	"net/url"
	"slices"
	"strings"
	"time"

	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/study"
	"jounce/internal/web/form"
	"jounce/internal/web/page"
)

// leakSteps are the screens of a leak test in the order of the work, each with
// the act that its heading says.
var leakSteps = []struct{ key, name, act string }{
	{"stand", "Stand", "Clear the bay, then say what is tested."},
	{"gauge", "Gauge", "Take the instruments to the tank."},
	{"start", "Start", "Read the tank gauge, then the thermometer."},
	{"wait", "Wait", ""},
	{"read", "Read", "Read the tank gauge, then the thermometer."},
	{"soap", "Soap", "Soap every joint and look for 60 seconds."},
	{"verdict", "Verdict", ""},
	{"tomorrow", "Tomorrow", "What should the gauge read tomorrow?"},
}

type leakListPage struct {
	page.Base
	ID    string
	Tests []leakLine
	Block []page.Cell
}

type leakLine struct {
	Title, Href string
	State       string
	Tank        *finding.Finding
	Refused     string
	Holds       bool
}

// leakList lists the leak tests of a job.
func (s *server) leakList(w http.ResponseWriter, r *http.Request) error {
	o, err := s.open(r)
	if err != nil {
		return err
	}
	p := &leakListPage{Base: s.jobBase(r, o, "leak", "Leak tests"), ID: o.ID, Block: s.titleBlock(o, "Leak tests")}
	for _, l := range o.Res.Leaks {
		x := leakLine{Title: leakTitle(l), Href: leakHref(o.ID, l.ID, firstStep(l)), State: l.State, Refused: l.Refused, Holds: l.Holds}
		if f, ok := findingOf(l, "tank"); ok {
			x.Tank = &f
		}
		p.Tests = append(p.Tests, x)
	}
	return s.render(w, r, http.StatusOK, "leak", p)
}

func leakTitle(l study.Leak) string {
	if strings.TrimSpace(l.Title) != "" {
		return l.Title
	}
	return "Leak test " + l.ID
}

func leakHref(id, test, step string) string {
	return "/jobs/" + id + "/leak/" + url.PathEscape(test) + "/" + step
}

// firstStep is the screen on which a test is met again.
func firstStep(l study.Leak) string {
	switch l.State {
	case "running":
		return "wait"
	case "read":
		return "verdict"
	}
	return "stand"
}

// newLeak begins a leak test.
func (s *server) newLeak(w http.ResponseWriter, r *http.Request) error {
	o, signer, ok, err := s.posted(w, r)
	if !ok || err != nil {
		return err
	}
	rec := o.Rec.Clone()
	var taken []string
	for _, t := range rec.LeakTests {
		taken = append(taken, t.ID)
	}
	id := job.NextID("t", taken)
	if err := rec.Set("leakTests["+id+"].title", "Leak test "+itoa(len(taken)+1)+", tank", true); err != nil {
		return err
	}
	if _, err := s.keep(r, rec, o.Rev.Number, signer, ""); err != nil {
		return err
	}
	http.Redirect(w, r, leakHref(o.ID, id, "stand"), http.StatusSeeOther)
	return nil
}

// leakTest goes to the screen on which a test stands.
func (s *server) leakTest(w http.ResponseWriter, r *http.Request) error {
	o, err := s.open(r)
	if err != nil {
		return err
	}
	l, ok := findLeak(o.Res, r.PathValue("test"))
	if !ok {
		return errNoPage
	}
	http.Redirect(w, r, leakHref(o.ID, l.ID, firstStep(l)), http.StatusSeeOther)
	return nil
}

func findLeak(res *study.Result, id string) (study.Leak, bool) {
	for _, l := range res.Leaks {
		if l.ID == id {
			return l, true
		}
	}
	return study.Leak{}, false
}

type leakPage struct {
	page.Base
	formState
	ID, Test, Path string // of the job and of the test; the test's place in the record
	Action         string
	Step, Act      string
	Steps          []leakStep
	Leak           study.Leak
	Cautions       []leakCaution
	Refused        []finding.Finding // what forbids the test as it is to be done
	Fields         []form.Field
	Big            []form.Field // boxes that the number pad fills
	Quad           *quad
	Tools          []leakTools
	Added          []form.Field // of an instrument that was just added
	NotRead        string       // place that cannot be read
	Now            leakNow
	Decided        bool // there is nothing to wait for
	HasChart       bool
	Chart          sizes
	Disturbed      string
	Answer         [2]string // what the gauge should read tomorrow: value, ± with unit
	Rows           []leakReading
	Lines          []leakFinding
	HasCorners     bool
	Holds          []string // claims that keep the hold point shut
}

// leakCaution is a caution with its first words apart.
type leakCaution struct{ Lead, Says string }

type leakStep struct {
	Name, Href, State string
}

// leakStep is one screen of a test.
func (s *server) leakStep(w http.ResponseWriter, r *http.Request) error {
	at := slices.IndexFunc(leakSteps, func(x struct{ key, name, act string }) bool { return x.key == r.PathValue("step") })
	if at < 0 {
		return errNoPage
	}
	if err := r.ParseForm(); err != nil {
		return err
	}
	if err := s.knownLeak(r); err != nil {
		return err
	}
	test := r.PathValue("test")
	if r.Method == http.MethodPost {
		dropEmptyReading(r.PostForm, "leakTests["+test+"]")
	}
	return s.edit(w, r, func(status int, e *edit) error {
		p, err := s.leakPage(r, e, at)
		if err != nil {
			return err
		}
		return s.render(w, r, status, "leak-step", p)
	}, func(e *edit) string { return afterLeak(r, e, at) })
}

// knownLeak refuses a test that the record does not have, before a form could
// make it.
func (s *server) knownLeak(r *http.Request) error {
	rev, err := s.Records.Load(r.Context(), r.PathValue("id"))
	if err != nil {
		return err
	}
	rec, err := job.Decode(rev.Document)
	if err != nil {
		return err
	}
	if !slices.ContainsFunc(rec.LeakTests, func(t job.LeakTest) bool { return t.ID == r.PathValue("test") }) {
		return errNoPage
	}
	return nil
}

// dropEmptyReading takes the clock out of a form whose reading has nothing else,
// so that a time alone makes no reading.
func dropEmptyReading(v url.Values, path string) {
	prefix := path + ".readings["
	var times []string
	filled := v.Get(form.NotRead) != ""
	for name := range v {
		if !strings.HasPrefix(name, prefix) || strings.Contains(name, ":") {
			continue
		}
		if strings.HasSuffix(name, ".at") {
			times = append(times, name)
		} else if strings.TrimSpace(v.Get(name)) != "" {
			filled = true
		}
	}
	if !filled && v.Get(form.Answer) == "" {
		for _, t := range times {
			v.Del(t)
		}
	}
}

// afterLeak is where a screen leads once it is kept.
func afterLeak(r *http.Request, e *edit, at int) string {
	test := r.PathValue("test")
	href := func(step string) string { return leakHref(e.ID, test, step) }
	key := leakSteps[at].key
	if l, ok := findLeak(e.Res, test); ok && key == "stand" && len(forbids(l)) > 0 {
		return href("stand")
	}
	switch {
	case r.PostForm.Get(":stay") != "":
		return href(key)
	case key == "gauge":
		q := url.Values{}
		for _, k := range leakKinds {
			if v := r.PostForm.Get(":" + k.kind); v != "" {
				q.Set(k.kind, v)
			}
		}
		if len(q) > 0 {
			return href("start") + "?" + q.Encode()
		}
		return href("start")
	case key == "start" || key == "read":
		if t, ok := testOf(e.Rec, test); ok && len(t.Readings) == 0 {
			return href(key)
		}
		return href("wait")
	case key == "wait" || key == "verdict" || key == "tomorrow":
		return href(key)
	}
	return href(leakSteps[at+1].key)
}

// forbids are the findings that forbid a test as it is to be done.
func forbids(l study.Leak) []finding.Finding {
	var out []finding.Finding
	for _, f := range l.Findings {
		if f.Verdict == finding.Fail && (f.ID == l.ID+".refused" || f.ID == l.ID+".isolation") {
			out = append(out, f)
		}
	}
	return out
}

func testOf(rec *job.Job, id string) (job.LeakTest, bool) {
	for _, t := range rec.LeakTests {
		if t.ID == id {
			return t, true
		}
	}
	return job.LeakTest{}, false
}

// leakPage makes what a screen shows.
func (s *server) leakPage(r *http.Request, e *edit, at int) (*leakPage, error) {
	test := r.PathValue("test")
	l, ok := findLeak(e.Res, test)
	t, has := testOf(e.Rec, test)
	if !ok || !has {
		return nil, errNoPage
	}
	step := leakSteps[at]
	p := &leakPage{Base: s.jobBase(r, e.opened, "leak", leakTitle(l)), formState: e.state(), ID: e.ID, Test: test, Path: "leakTests[" + test + "]", Action: leakHref(e.ID, test, step.key),
		Step: step.key, Act: step.act, Leak: l, Refused: forbids(l), Disturbed: t.Disturbed}
	p.Heading, p.Who, p.Tally, p.Live = e.ID+" "+leakTitle(l), leakWho(t, l), nil, true
	p.Rooms = []page.Room{} // one step a screen: the keys lead on
	for i, x := range leakSteps {
		st := leakStep{Name: x.name, Href: leakHref(e.ID, test, x.key)}
		switch {
		case i == at:
			st.State = "here"
		case i < at:
			st.State = "done"
		}
		p.Steps = append(p.Steps, st)
	}
	for _, c := range l.Cautions {
		lead, says, _ := strings.Cut(c, ". ")
		p.Cautions = append(p.Cautions, leakCaution{lead + ".", says})
	}
	now := s.Clock()
	p.readings(t, l, e.ID)
	switch step.key {
	case "stand":
		p.boxes(e.View, "volume", "pressure", "isolation", "relief.lift", "relief.reseat")
		p.Fields[3].Label, p.Fields[4].Label = "Relief valve lifts at", "Relief valve seats again at"
		p.Fields = slices.Insert(p.Fields, 3, e.View.Field("air.cutOut"), e.View.Field("air.relief"))
	case "gauge":
		p.tools(r, e, t, now)
	case "start", "read":
		p.reading(r, e, t, now)
	case "wait":
		p.wait(s, t, l, now)
		p.boxes(e.View, "disturbed")
	case "soap":
		p.boxes(e.View, "joints.soaped", "joints.bubbles", "joints.where", "joints.steps", "joints.by")
	case "verdict":
		p.verdict(s, t, l)
		p.boxes(e.View, "testedBy")
	case "tomorrow":
		p.boxes(e.View, "tomorrow")
		p.Big, p.Fields = p.Fields, nil
		p.Answer = both(l.Tomorrow)
	}
	p.short()
	return p, nil
}

// short takes the words that all boxes of a test share out of their questions.
func (p *leakPage) short() {
	at := func(f *form.Field) {
		if f.Problem != nil {
			f.Problem.Lead = f.Label + ", " + f.Value + "."
		}
	}
	for i := range p.Fields {
		at(&p.Fields[i])
	}
	for i := range p.Big {
		at(&p.Big[i])
	}
	if p.Quad != nil {
		at(&p.Quad.FL)
		at(&p.Quad.FR)
		at(&p.Quad.RL)
		at(&p.Quad.RR)
	}
}

// boxes adds places of the test.
func (p *leakPage) boxes(v *form.View, names ...string) {
	for _, n := range names {
		p.Fields = append(p.Fields, v.Field(p.Path+"."+n))
	}
}

// leakWho is the test in a few words: "10 L, shut at 18:00, 2 April, T. Marrow".
func leakWho(t job.LeakTest, l study.Leak) string {
	var parts []string
	if t.Volume.Value != "" {
		parts = append(parts, t.Volume.Value)
	}
	if len(l.Rows) > 0 {
		if at, err := job.ParseTime(l.Rows[0].At); err == nil {
			parts = append(parts, "shut at "+at.Format("15:04, 2 January"))
		}
	} else {
		parts = append(parts, l.State)
	}
	if t.TestedBy != "" {
		parts = append(parts, t.TestedBy)
	}
	return strings.Join(parts, ", ")
}

// wall is the server's clock as the record writes times: the shop's own, without
// a zone.
func wall(now time.Time) time.Time {
	t, err := job.ParseTime(now.Format(job.TimeLayout))
	if err != nil {
		return now
	}
	return t
}
