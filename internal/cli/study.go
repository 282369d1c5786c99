package cli

import (
	"encoding/json"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"jounce/internal/catalog"
	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/study"
)

func (p *program) study() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "study FILE",
		Short: "Say what can be said of a job",
		Long: `Studies the job document FILE ("-" is the standard input) against the limits
that the program starts with, and prints the findings: first what stops the
work, then what an owner signs for, what is too close to call and what is not
known enough. Each has its number with its doubt, the rule, the mark of its
source, the least change that would turn it and what is still to be read.

With --json the same as one JSON object, with the working of each number.`,
		Example: "  jounce study examples/0412-quill-saloon.json",
		Args:    names("FILE"),
		RunE: func(_ *cobra.Command, args []string) error {
			rec, err := p.document(args[0])
			if err != nil {
				return err
			}
			res := study.Of(rec, catalog.NewShop("The shop"))
			if asJSON {
				err = p.writeJSON(studyJSON(rec, res))
			} else {
				t := p.paper()
				t.study(rec, res)
				err = p.write("", []byte(t.String()))
			}
			if err != nil {
				return err
			}
			for _, f := range res.Findings {
				if f.Holds() {
					return exit{exitStops, nil}
				}
			}
			return nil
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	return c
}

// document reads a job document, or that of an archive.
func (p *program) document(name string) (*job.Job, error) {
	b, err := p.bundle(name)
	return b.rec, err
}

// prefixed puts the name of a file before each line of an error.
func prefixed(name string, err error) error {
	lines := strings.Split(err.Error(), "\n")
	for i := range lines {
		lines[i] = name + ": " + lines[i]
	}
	return fmt.Errorf("%s", strings.Join(lines, "\n"))
}

func (p *program) writeJSON(v any) error {
	e := json.NewEncoder(p.Out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

func (t *paper) study(rec *job.Job, res *study.Result) {
	t.line(0, title(rec))
	t.line(0, tally(res.Tally))
	for _, s := range res.Refusal {
		t.WriteString("\n")
		t.line(0, s)
	}
	if len(res.Problems) > 0 {
		t.WriteString("\n")
		t.line(0, "Entries that cannot be used")
		for _, x := range res.Problems {
			t.line(2, x.Error())
		}
	}
	for _, f := range res.Findings {
		t.WriteString("\n")
		t.finding(f)
	}
	if len(res.Gaps) > 0 {
		t.WriteString("\n")
		t.line(0, "Not read yet, what settles most first")
		for _, g := range res.Gaps {
			t.line(2, g.Label+" ("+g.Path+")"+why(g))
		}
	}
}

func title(rec *job.Job) string {
	s := strings.TrimSpace(rec.ID + " " + rec.Name)
	if rec.Car.Description != "" {
		s += ", " + rec.Car.Description
	}
	if s == "" {
		return "A job without number or name"
	}
	return s
}

func tally(t finding.Tally) string {
	parts := make([]string, len(t))
	for i, n := range t {
		parts[i] = fmt.Sprintf("%d %s", n, strings.ToLower(finding.Verdict(i).String()))
	}
	return strings.Join(parts, ", ")
}

func why(g finding.Gap) string {
	if g.Why == "" {
		return ""
	}
	return ": " + g.Why
}

// finding writes one finding: verdict and grade, claim, number and rule, why,
// what would turn it and what it waits for.
func (t *paper) finding(f finding.Finding) {
	head := f.Verdict.String()
	if f.Verdict != finding.Pass {
		head += ", " + strings.ToLower(f.Grade.String())
	}
	t.verdict(f.Verdict, head+" ["+f.ID+"]")
	t.line(2, f.Claim)
	number := f.Shown
	if number == "" && f.Value.Known() {
		number = f.Value.String()
	}
	if rule := rules(f); rule != "" {
		if number != "" {
			number += "; "
		}
		number += "wanted " + rule
	}
	if f.Source != "" {
		number = strings.TrimSpace(number + " [" + string(f.Source) + "]")
	}
	if number != "" {
		t.line(2, number)
	}
	for _, s := range []struct{ name, text string }{
		{"", f.Why}, {"Least change: ", f.Least}, {"To settle it: ", f.Settle}, {"No evidence: ", f.NotEvidence},
	} {
		if s.text != "" {
			t.line(2, s.name+s.text)
		}
	}
	for _, g := range f.Needs {
		t.line(2, "Needs: "+g.Label+" ("+g.Path+")")
	}
	if s := f.Signed; s != nil {
		t.line(2, "Signed by "+s.Who+": "+s.Reason)
	}
}

// rules is what a finding is held against: the limit that decided, or all.
func rules(f finding.Finding) string {
	if l, ok := f.Decided(); ok && f.Verdict != finding.Pass {
		return l.Rule()
	}
	var all []string
	for _, l := range f.Limits {
		all = append(all, l.Rule()+" ("+strings.ToLower(l.Grade.String())+")")
	}
	return strings.Join(all, ", ")
}

// figure is a number as JSON: its text, and its value in the unit shown and in
// SI.
type figure struct {
	Text string  `json:"text"`
	In   float64 `json:"value"`
	Half float64 `json:"half,omitempty"`
	Unit string  `json:"unit"`
	SI   float64 `json:"si"`
}

func figureOf(n finding.Number) *figure {
	if !n.Known() {
		return nil
	}
	return &figure{n.String(), n.Unit.FromSI(n.Value), n.Unit.WidthFromSI(n.Half), n.Unit.Name(), n.Value}
}

type findingJSON struct {
	finding.Finding
	Value *figure `json:"value,omitempty"`
	Holds bool    `json:"holds"`
}

type resultJSON struct {
	Job      string         `json:"job"`
	Name     string         `json:"name,omitempty"`
	Tally    map[string]int `json:"tally"`
	Holds    bool           `json:"holds"`
	Refusal  []string       `json:"refusal,omitempty"`
	Findings []findingJSON  `json:"findings"`
	Gaps     []finding.Gap  `json:"gaps"`
	Problems []job.Problem  `json:"problems"`
}

func studyJSON(rec *job.Job, res *study.Result) resultJSON {
	out := resultJSON{Job: rec.ID, Name: rec.Name, Tally: map[string]int{}, Refusal: res.Refusal,
		Findings: []findingJSON{}, Gaps: res.Gaps, Problems: res.Problems}
	if out.Gaps == nil {
		out.Gaps = []finding.Gap{}
	}
	if out.Problems == nil {
		out.Problems = []job.Problem{}
	}
	for i, n := range res.Tally {
		out.Tally[finding.Verdict(i).Key()] = n
	}
	for _, f := range res.Findings {
		x := findingJSON{Finding: f, Value: figureOf(f.Value), Holds: f.Holds()}
		out.Holds = out.Holds || x.Holds
		out.Findings = append(out.Findings, x)
	}
	return out
}
