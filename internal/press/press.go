// Package press prints papers: it studies a revision of a record and hands what
// was found to the pages of package report.
package press

import (
	"fmt"
	"strings"

	"jounce/internal/catalog"
	"jounce/internal/figure"
	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/report"
	"jounce/internal/study"
	"jounce/quantity"
)

// Program names the program in the properties of every paper.
const Program = "Jounce"

// Certificate is the leak and relief certificate of one test as PDF. The same
// record, revision and shop give the same bytes. A test that the record does
// not have is an error that wraps job.ErrNotFound.
func Certificate(rec *job.Job, rev job.Revision, shop *catalog.Shop, testID string) ([]byte, error) {
	r := study.Of(rec, shop)
	for i := range rec.LeakTests {
		if rec.LeakTests[i].ID != testID {
			continue
		}
		for k := range r.Leaks {
			if r.Leaks[k].ID == testID {
				return certificate(rec, rev, shop, r, &rec.LeakTests[i], &r.Leaks[k]).PDF()
			}
		}
	}
	return nil, fmt.Errorf("leak test %q of job %q: %w", testID, rec.ID, job.ErrNotFound)
}

// Pictures gives the file of a picture by its SHA-256; nil gives none.
type Pictures = func(sum string) ([]byte, error)

// Design is the design page as PDF, with the customer's picture at the presets
// where the record has one that can be redrawn. The same record, revision, shop
// and files give the same bytes.
func Design(rec *job.Job, rev job.Revision, shop *catalog.Shop, files Pictures) ([]byte, error) {
	r := study.Of(rec, shop)
	d := design(rec, rev, shop, r)
	d.Look = look(rec, r, files)
	return d.PDF()
}

// block is what every title block says.
func block(rec *job.Job, rev job.Revision, shop *catalog.Shop) report.Block {
	car := strings.TrimSpace(rec.Car.Description)
	if y := strings.TrimSpace(rec.Car.Year); y != "" {
		if car != "" {
			car += ", "
		}
		car += y
	}
	if p := strings.TrimSpace(rec.Car.Plate); p != "" {
		car = strings.TrimPrefix(car+", "+p, ", ")
	}
	return report.Block{Job: rec.ID, Car: car, Keeper: rec.Keeper.Name, Shop: shop.Name, Revision: rev.Number, Author: rev.Author, Saved: rev.At, Digest: rev.Digest, Program: Program}
}

func certificate(rec *job.Job, rev job.Revision, shop *catalog.Shop, r *study.Result, t *job.LeakTest, l *study.Leak) report.Certificate {
	c := report.Certificate{Block: block(rec, rev, shop), Test: l.Title, Refused: l.Refused, Findings: l.Findings, Holds: l.Holds}
	for _, row := range l.Rows {
		c.Rows = append(c.Rows, report.Reading{Clock: row.Clock, Temperature: row.Temperature, Gauge: row.Gauge, ColdAlone: row.ColdAlone, Lost: row.Lost})
	}
	if l.Chart != nil {
		c.Decay = decay(l, shop)
	}
	for _, f := range l.Findings {
		if strings.HasSuffix(f.ID, ".tank") {
			c.Working = f.Working
		}
	}
	c.ChartTitle = chartTitle(t, l)
	c.Conditions = conditions(t)
	c.Span = span(l)
	c.Plan = plan(r)
	for k := range c.Corners {
		c.Corners[k] = corner(rec, t, l, k)
	}
	c.Instruments = instruments(rec, t)
	return c
}

func decay(l *study.Leak, shop *catalog.Shop) figure.Decay {
	c := l.Chart
	d := figure.Decay{Time: c.Time, Cold: c.Cold, PassEnds: c.PassEnds, Stops: c.Stops, Band: c.Band, ReadTime: c.ReadTime, Read: c.Read, ReadHalf: c.ReadHalf,
		Labels: c.Labels, Unit: shop.Unit(quantity.KindPressure)}
	if c.PassText != "" {
		d.PassText = "pass ends"
	}
	if c.StopText != "" {
		d.StopText = "stops the work: " + c.StopText + " in 12 h"
	}
	if l.State == "running" {
		d.Decide, d.DecideAt = c.Decide, l.DecideAt
	}
	return d
}

// plan is the car from above.
func plan(r *study.Result) figure.Plan {
	h := r.Heights
	return figure.Plan{Wheelbase: h.Wheelbase, FrontOverhang: h.FrontOverhang, RearOverhang: h.RearOverhang, Diameter: h.Wheel[0].Diameter}
}

func chartTitle(t *job.LeakTest, l *study.Leak) string {
	out := "Tank"
	if v := strings.TrimSpace(t.Volume.Value); v != "" && len(v) < 40 {
		out += ", " + v
	}
	if n := len(l.Rows); n > 1 {
		out += ", shut from " + l.Rows[0].Clock + " to " + l.Rows[n-1].Clock
	}
	if t.Title != "" && len(t.Title) < 60 {
		return t.Title + ": " + strings.ToLower(out[:1]) + out[1:]
	}
	return out
}

// conditions are the sentences on how the test was made, as recorded.
func conditions(t *job.LeakTest) []string {
	var out []string
	if len(t.Title) >= 60 {
		out = append(out, t.Title)
	}
	when, err := job.ParseTime(t.Filled)
	switch {
	case err == nil:
		s := "Filled " + when.Format("15:04")
		for _, r := range t.Readings {
			if first, e := job.ParseTime(r.At); e == nil && first.After(when) {
				s += fmt.Sprintf(", settled %.0f"+"\u00a0"+"min", first.Sub(when).Minutes())
				break
			}
		}
		out = append(out, s)
	default:
		out = append(out, "When it was filled is not recorded")
	}
	out = append(out, sentence("Isolated: ", t.Isolation, "How it was isolated is not recorded"))
	out = append(out, sentence("Doors opened, valves moved: ", t.Disturbed, "Doors opened, valves moved: nothing recorded"))
	if t.TestedBy != "" {
		out = append(out, "Recorded as tested by "+t.TestedBy)
	}
	return out
}

func sentence(head, s, other string) string {
	if strings.TrimSpace(s) == "" {
		return other
	}
	return head + strings.TrimSpace(s)
}

// span says when the test was read and how warm it was.
func span(l *study.Leak) string {
	n := len(l.Rows)
	if n == 0 {
		return ""
	}
	day := func(at string) string {
		if w, err := job.ParseTime(at); err == nil {
			return w.Format("2 January 2006, 15:04")
		}
		return at
	}
	out := "on " + day(l.Rows[0].At)
	if n > 1 {
		out = "from " + day(l.Rows[0].At) + " to " + day(l.Rows[n-1].At)
	}
	lo, hi := finding.Number{}, finding.Number{}
	for _, r := range l.Rows {
		if !r.Temperature.Known() {
			continue
		}
		if !lo.Known() || r.Temperature.Value < lo.Value {
			lo = r.Temperature
		}
		if !hi.Known() || r.Temperature.Value > hi.Value {
			hi = r.Temperature
		}
	}
	if !lo.Known() {
		return out
	}
	at := func(n finding.Number) string { return quantity.Format(n.Kind, n.Value, n.Unit, 0) }
	return out + ", at " + at(lo) + " to " + at(hi)
}

func corner(rec *job.Job, t *job.LeakTest, l *study.Leak, k int) report.Corner {
	s := l.Corners[k]
	c := report.Corner{Name: study.CornerNames[k], Known: s.Known, Start: s.Start, End: s.End, Sank: s.Sank, ByCold: s.ByCold, Unexplained: s.Unexplained,
		Verdict: s.Verdict, Gap: s.Gap, Steel: springing(rec, k/2) == "steel"}
	if !s.Known && springing(rec, k/2) == "" {
		c.Gap = "on what this corner stands is not recorded"
		return c
	}
	if !s.Known {
		c.Gap = cornerGap(l, study.CornerNames[k], s.Gap)
		return c
	}
	for _, r := range t.Readings {
		if when, err := job.ParseTime(r.At); err == nil && !height(r, k).Empty() {
			if c.From == "" {
				c.From = when.Format("15:04")
			}
			c.To = when.Format("15:04")
		}
	}
	return c
}

// springing is what an axle is to stand on: "air", "steel", or nothing recorded.
func springing(rec *job.Job, axle int) string {
	return [2]string{rec.Axles.Front.Springing, rec.Axles.Rear.Springing}[axle]
}

// cornerGap is what the corner's finding waits for at this corner.
func cornerGap(l *study.Leak, name, gap string) string {
	if gap != "" {
		return gap
	}
	for _, f := range l.Findings {
		if !strings.HasSuffix(f.ID, ".corners") {
			continue
		}
		for _, n := range f.Needs {
			if rest, ok := strings.CutPrefix(n.Label, name+", "); ok {
				return rest
			}
		}
		for _, n := range f.Needs {
			if len(n.Label) < 80 {
				return n.Label
			}
		}
	}
	return ""
}

func height(r job.LeakReading, k int) job.Reading { return [4]job.Reading{r.FL, r.FR, r.RL, r.RR}[k] }

// instruments are those that the test's readings name, in the order in which
// they are met.
func instruments(rec *job.Job, t *job.LeakTest) []report.Instrument {
	last := map[string]string{}
	var order []string
	use := func(r job.Reading, at string) {
		if r.With == "" || r.Empty() {
			return
		}
		if r.At != "" {
			at = r.At
		}
		if _, ok := last[r.With]; !ok {
			order = append(order, r.With)
		}
		last[r.With] = max(last[r.With], at)
	}
	use(t.Volume, "")
	for _, r := range t.Readings {
		for _, one := range []job.Reading{r.Pressure, r.Temperature, r.Barometer, r.FL, r.FR, r.RL, r.RR} {
			use(one, r.At)
		}
	}
	use(t.Relief.Lift, "")
	use(t.Relief.Reseat, "")
	var out []report.Instrument
	for _, id := range order {
		out = append(out, instrument(rec, id, last[id]))
	}
	return out
}

func instrument(rec *job.Job, id, last string) report.Instrument {
	for _, i := range rec.Instruments {
		if i.ID != id {
			continue
		}
		o := report.Instrument{Name: i.Name, Accuracy: "± not recorded", Checked: "check not recorded"}
		if i.Name == "" {
			o.Name = i.ID
		}
		if a := strings.TrimSpace(i.Accuracy.Value); a != "" {
			o.Accuracy = "± " + strings.ReplaceAll(strings.TrimSpace(strings.TrimPrefix(a, "±")), " ", "\u00a0")
		}
		if i.Checked != "" {
			o.Checked = "checked " + day(i.Checked)
		}
		if i.Due != "" && len(last) >= len(job.DateLayout) && last[:len(job.DateLayout)] > i.Due {
			o.NotEvidence = "the check was due on " + day(i.Due)
		}
		return o
	}
	return report.Instrument{Name: id, Accuracy: "± not recorded", Checked: "not among the record's instruments: no check known"}
}

func day(s string) string {
	if t, err := job.ParseTime(s); err == nil {
		return t.Format("2 January 2006")
	}
	if len(s) == len(job.DateLayout) {
		if t, err := job.ParseTime(s + "T00:00"); err == nil {
			return t.Format("2 January 2006")
		}
	}
	return s
}
