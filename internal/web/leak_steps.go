package web

import (
	"fmt"
	"math"
	"net/http"
	"strings"
	"time"

	"jounce/internal/draw"
	"jounce/internal/figure"
	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/plate"
	"jounce/internal/study"
	"jounce/internal/web/form"
	"jounce/internal/web/page"
	"jounce/quantity"
)

// leakKinds are what a leak test is read with.
var leakKinds = []struct {
	kind, title, says string
}{
	{"pressure", "The tank gauge", "A gauge good to ± 0.04 bar needs more than five hours to see 0.1 bar in 12 h; the better the gauge, the shorter the wait."},
	{"temperature", "The thermometer at the tank", "Without it no test can be judged: cold and leak look the same on the gauge."},
	{"absolute-pressure", "The barometer", "Not read counts as unchanged ± 20 mbar."},
	{"length", "The rule for the corners", "A loaded spring keeps its pressure while it leaks; only its height tells."},
}

// leakTools are the instruments of one kind.
type leakTools struct {
	Kind, Title, Says string
	List              []leakTool
}

type leakTool struct {
	ID, Name, Half, Checked, Due string
	Stale                        bool
	Chosen                       bool
}

// tools lists the job's instruments; the one that was used before, or else the
// first whose check is not overdue, is chosen.
func (p *leakPage) tools(r *http.Request, e *edit, t job.LeakTest, now time.Time) {
	today := now.Format(job.DateLayout)
	for _, k := range leakKinds {
		group := leakTools{Kind: k.kind, Title: k.title, Says: k.says}
		chosen := r.PostForm.Get(":" + k.kind)
		if chosen == "" {
			chosen = lastTool(t, k.kind)
		}
		for _, x := range e.Rec.Instruments {
			if x.Measures != k.kind || "instruments["+x.ID+"]" == e.Added {
				continue
			}
			tool := leakTool{ID: x.ID, Name: x.Name, Half: x.Accuracy.Value, Checked: x.Checked, Due: x.Due, Stale: x.Due != "" && x.Due < today}
			if tool.Name == "" {
				tool.Name = x.ID
			}
			group.List = append(group.List, tool)
		}
		choose(group.List, chosen)
		p.Tools = append(p.Tools, group)
	}
	for _, added := range p.addedTools(r, e) {
		for _, n := range []string{"name", "measures", "accuracy", "checked", "due"} {
			p.Added = append(p.Added, e.View.Field(added+"."+n))
		}
	}
}

// addedTools are the instruments that the form under work holds the boxes of.
func (p *leakPage) addedTools(r *http.Request, e *edit) []string {
	if e.Added != "" {
		return []string{e.Added}
	}
	seen := map[string]bool{}
	var out []string
	for name := range r.PostForm {
		if i := strings.IndexByte(name, ']'); strings.HasPrefix(name, "instruments[") && i > 0 && !seen[name[:i+1]] {
			seen[name[:i+1]] = true
			out = append(out, name[:i+1])
		}
	}
	return out
}

func choose(list []leakTool, id string) {
	for i := range list {
		if list[i].ID == id {
			list[i].Chosen = true
			return
		}
	}
	for i := range list {
		if !list[i].Stale {
			list[i].Chosen = true
			return
		}
	}
}

// lastTool is the instrument that the test's last reading of a kind was taken
// with.
func lastTool(t job.LeakTest, kind string) string {
	for i := len(t.Readings) - 1; i >= 0; i-- {
		r := t.Readings[i]
		with := map[string]string{"pressure": r.Pressure.With, "temperature": r.Temperature.With, "absolute-pressure": r.Barometer.With, "length": r.FL.With}[kind]
		if with != "" {
			return with
		}
	}
	return ""
}

// reading shows the boxes of one look at the gauge: the first of the test on
// Start, on Read the next, or the one that the address names.
func (p *leakPage) reading(r *http.Request, e *edit, t job.LeakTest, now time.Time) {
	id := p.readingID(r, e, t)
	at := p.Path + ".readings[" + id + "]"
	stamp := e.View.Field(at + ".at")
	if strings.TrimSpace(stamp.Value) == "" {
		stamp.Value = now.Format(job.TimeLayout)
	}
	stamp.Where = "year, month, day, T, clock"
	if p.Step == "start" {
		p.boxes(e.View, "filled")
		p.Fields[0].Where = "as 2026-04-02T17:40; the air cools for 20 minutes after pumping"
	}
	p.Fields = append(p.Fields, stamp)
	with := func(f form.Field, kind string) form.Field {
		want := r.Form.Get(kind)
		if want == "" {
			want = lastTool(t, kind)
		}
		for i := range f.Tools {
			if f.Tools[i].Chosen {
				return f
			}
		}
		for i := range f.Tools {
			f.Tools[i].Chosen = f.Tools[i].Value == want
		}
		return f
	}
	p.Big = []form.Field{with(e.View.Field(at+".pressure"), "pressure"), with(e.View.Field(at+".temperature"), "temperature"), with(e.View.Field(at+".barometer"), "absolute-pressure")}
	q := quad{Title: "Hub to arch at the four corners", Where: "by the same rule, at the same marks",
		FL: with(e.View.Field(at+".FL"), "length"), FR: with(e.View.Field(at+".FR"), "length"), RL: with(e.View.Field(at+".RL"), "length"), RR: with(e.View.Field(at+".RR"), "length")}
	q.FL.Full, q.FR.Full, q.RL.Full, q.RR.Full = "FL", "FR", "RL", "RR"
	p.Quad, p.NotRead = &q, at+".pressure"
}

func (p *leakPage) readingID(r *http.Request, e *edit, t job.LeakTest) string {
	prefix := p.Path + ".readings["
	for name := range r.PostForm {
		if rest, ok := strings.CutPrefix(name, prefix); ok {
			id, _, _ := strings.Cut(rest, "]")
			return id
		}
	}
	var taken []string
	for _, x := range t.Readings {
		taken = append(taken, x.ID)
		if x.ID == r.URL.Query().Get("reading") {
			return x.ID
		}
	}
	if p.Step == "start" && len(t.Readings) > 0 {
		return t.Readings[0].ID
	}
	return job.NextID("r", taken)
}

// leakNow is the test at this minute.
type leakNow struct {
	Caption, Large, Says string
	Tank, Bay            [2]string // value, ± with unit
	Cold, Lost           [2]string
	Better               string
}

// wait fills the screen that is looked at from three metres.
func (p *leakPage) wait(s *server, t job.LeakTest, l study.Leak, now time.Time) {
	p.chart(s, l, now)
	if len(l.Rows) == 0 {
		p.Act = "Take the first reading: nothing has been read yet."
		p.Now = leakNow{Caption: "can be decided in", Large: "not known", Says: "The first reading of gauge and thermometer gives the time."}
		return
	}
	last := l.Rows[len(l.Rows)-1]
	p.Now = leakNow{Caption: "can be decided in", Tank: both(last.Gauge), Bay: both(last.Temperature), Cold: both(l.ColdAlone), Lost: both(l.Lost)}
	first, err := job.ParseTime(l.Rows[0].At)
	tank, _ := findingOf(l, "tank")
	switch left := first.Add(time.Duration(l.Decide * float64(time.Second))).Sub(wall(now)); {
	case tank.Verdict == finding.Fail:
		p.Act, p.Decided = "No need to wait: it leaks.", true
		p.Now.Caption, p.Now.Large, p.Now.Says = "can be decided", "now", "the loss is larger than these instruments could hide. Go to the verdict."
		return
	case tank.Verdict == finding.Pass && len(l.Rows) > 1:
		p.Act, p.Decided = "No need to wait: the tank holds.", true
		p.Now.Caption, p.Now.Large, p.Now.Says = "can be decided", "now", "the last reading was enough. Go to the verdict."
		return
	case err != nil || l.Decide <= 0:
		p.Act = "Leave it shut. When it can be decided is not known."
		p.Now.Large, p.Now.Says = "not known", "With this gauge the limit cannot be seen, or a reading is missing. A better gauge decides sooner."
	case left <= 0:
		p.Act = "It can be decided. Read the gauge, then the thermometer."
		p.Now.Caption, p.Now.Large, p.Now.Says = "can be decided", "now", "since "+l.DecideAt+", if nothing is lost. The last reading was at "+last.Clock+"."
	default:
		p.Act = "Leave it shut. Nothing to do until " + l.DecideAt + "."
		p.Now.Large, p.Now.Says = minutes(left), "at "+l.DecideAt+", if nothing is lost. A big leak shows sooner."
	}
	if l.Decide > 0 {
		p.Now.Better = better(l)
	}
}

// findingOf is one of a test's findings.
func findingOf(l study.Leak, name string) (finding.Finding, bool) {
	for _, f := range l.Findings {
		if f.ID == l.ID+"."+name {
			return f, true
		}
	}
	return finding.Finding{}, false
}

// better says what the gauge cannot see yet, and which would see it sooner.
func better(l study.Leak) string {
	text := "Too close to call until the band’s lower edge is above the dashed line."
	for i, b := range l.Better {
		if i == 0 {
			text += " " + strings.TrimSuffix(sentence(b.Name), ".") + " could decide at " + b.At
			continue
		}
		text += ", " + b.Name + " at " + b.At
	}
	if len(l.Better) > 0 {
		text += "."
	}
	return text
}

// minutes is a time in hours and whole minutes.
func minutes(d time.Duration) string {
	m := int(math.Ceil(d.Minutes()))
	if m < 60 {
		return fmt.Sprintf("%d min", m)
	}
	return fmt.Sprintf("%d h %02d min", m/60, m%60)
}

// both is a number for a box of two sizes, a pressure with its other unit.
func both(n finding.Number) [2]string {
	if !n.Known() {
		return [2]string{"not read", ""}
	}
	value, rest := split(n)
	if n.Kind == quantity.KindPressure && math.Abs(n.Value) > 1e5 {
		other := map[string]string{"bar": "psi", "psi": "bar"}[n.Unit.Name()]
		if other != "" {
			digits := 0
			if other == "bar" {
				digits = 2
			}
			u, _ := quantity.UnitOf(n.Kind, other)
			rest += ", " + quantity.Format(n.Kind, n.Value, u, digits)
		}
	}
	return [2]string{value, rest}
}

// chart draws the decay, where it has curves.
func (p *leakPage) chart(s *server, l study.Leak, now time.Time) {
	d, ok := plate.Decay(l, s.Shop)
	if !ok {
		return
	}
	if first, err := job.ParseTime(l.Rows[0].At); err == nil && len(d.Time) > 0 {
		if since := wall(now).Sub(first).Seconds(); since > 0 && since <= d.Time[len(d.Time)-1] {
			d.Now, d.NowAt = since, now.Format("15:04")
		}
	}
	p.HasChart = true
	p.Chart = sized(func(width float64) draw.Scene { return figure.DecayChart(d, width, figure.StyleFor(width/draw.Px)) }, "decay")
}

// leakReading is one reading as the table shows it.
type leakReading struct {
	study.LeakRow
	Day, Href string
}

// readings lists what was read, each with the way to change it.
func (p *leakPage) readings(t job.LeakTest, l study.Leak, id string) {
	for _, row := range l.Rows {
		x := leakReading{LeakRow: row}
		for _, r := range t.Readings {
			if r.At == row.At {
				x.Href = leakHref(id, t.ID, "read") + "?reading=" + r.ID
			}
		}
		if at, err := job.ParseTime(row.At); err == nil {
			x.Day = at.Format("2 January")
		}
		p.Rows = append(p.Rows, x)
	}
}

// leakFinding is one finding as the verdict screen shows it.
type leakFinding struct {
	finding.Finding
	Big, Rest string
	Next      string
	Sign      string // where an owner signs for it; empty where nobody can
}

// verdict fills the screen that says what the test means.
func (p *leakPage) verdict(s *server, t job.LeakTest, l study.Leak) {
	p.chart(s, l, time.Time{})
	p.Act = "Nothing can be judged yet: two readings are wanted."
	if n := len(l.Rows); n > 1 {
		a, errA := job.ParseTime(l.Rows[0].At)
		b, errB := job.ParseTime(l.Rows[n-1].At)
		if errA == nil && errB == nil {
			p.Act = minutes(b.Sub(a)) + ", " + l.Rows[0].Clock + " to " + l.Rows[n-1].Clock + "."
		}
	}
	for _, f := range l.Findings {
		x := leakFinding{Finding: f, Big: f.Shown}
		if f.Value.Known() {
			x.Big, x.Rest = split(f.Value)
		}
		var missing []string
		for _, g := range f.Needs {
			missing = append(missing, g.Label)
		}
		switch {
		case len(missing) > 3:
			x.Next = "Missing: " + strings.Join(missing[:3], "; ") + " and " + page.Plural(len(missing)-3, "more", "more") + "."
		case len(missing) > 0:
			x.Next = "Missing: " + strings.Join(missing, "; ") + "."
		case f.Settle != "":
			x.Next = f.Settle
		case f.Least != "" && f.Verdict != finding.Pass:
			x.Next = f.Least
		}
		if page.Signable(f) {
			x.Sign = "/jobs/" + p.ID + "/sign/" + f.ID
		}
		p.Lines = append(p.Lines, x)
		if f.Holds() {
			p.Holds = append(p.Holds, f.Claim)
		}
	}
	for _, c := range l.Corners {
		p.HasCorners = p.HasCorners || c.Known || c.Gap != ""
	}
}
