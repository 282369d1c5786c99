package press

import (
	"fmt"
	"strings"

	"jounce/internal/catalog"
	"jounce/internal/figure"
	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/plate"
	"jounce/internal/report"
	"jounce/internal/study"
	"jounce/quantity"
)

func design(rec *job.Job, rev job.Revision, shop *catalog.Shop, r *study.Result) report.Design {
	d := report.Design{Block: block(rec, rev, shop), Side: side(r), Places: plate.Places(r), Problems: r.Problems, Weighed: weighed(rec, r)}
	for i := range d.Axles {
		d.Axles[i] = axle(r.Axles[i], study.AxleNames[i], springing(rec, i))
	}
	for k := range d.Corners {
		d.Corners[k] = spring(r, k, springing(rec, k/2))
	}
	of := map[string]string{}
	for _, w := range rec.Wishes {
		of["wish."+w.ID] = w.Words
	}
	wishes := map[string]finding.Finding{}
	for _, f := range r.Findings {
		if _, ok := of[f.ID]; ok && f.Topic == "wishes" {
			wishes[f.ID] = f
			continue
		}
		d.Findings = append(d.Findings, f)
	}
	for _, w := range rec.Wishes {
		f, ok := wishes["wish."+w.ID]
		if !ok {
			f = finding.Finding{Verdict: finding.NotKnown}
		}
		d.Wishes = append(d.Wishes, report.Wish{Words: w.Words, Finding: f})
	}
	return d
}

// side is the heights picture's data.
func side(r *study.Result) figure.Side {
	s := plate.Side(r)
	s.Growing = !s.Body.Wheelbase.Known
	return s
}

func axle(a study.Axle, name, on string) report.Axle {
	t := a.Travel
	o := report.Axle{Name: name, StopMeets: t.StopMeets, Down: t.Down, Hump: t.Hump, High: t.High}
	switch {
	case a.Refusal != "":
		o.Why = "refused"
	case !a.Air && on != "":
		o.Why = "not on air"
	}
	for _, e := range t.BumpParts {
		o.Bump = append(o.Bump, report.End{Name: e.Name, At: e.At})
	}
	for _, e := range t.DroopParts {
		o.Droop = append(o.Droop, report.End{Name: e.Name, At: e.At})
	}
	return o
}

func spring(r *study.Result, k int, on string) report.Spring {
	c := r.Corners[k]
	s := report.Spring{Name: study.CornerNames[k], Pressure: c.Pressure, Ride: c.Ride, Why: c.Gap}
	if a := r.Axles[k/2]; a.Refusal != "" {
		s.Why = "refused"
	} else if !a.Air && on != "" {
		s.Why = "not on air"
	}
	if p := c.Pressure[1]; p.Known() {
		other := "psi"
		if p.Unit.Name() == "psi" {
			other = "bar"
		}
		s.Other = finding.Show(quantity.KindPressure, other, p.Value, map[string]int{"psi": 0, "bar": 1}[other])
	}
	return s
}

// weighed is what was weighed and how.
func weighed(rec *job.Job, r *study.Result) string {
	var w, how []string
	derived := false
	for _, c := range r.Corners {
		if c.Weight.Known() {
			w = append(w, c.Name+" "+c.Weight.String())
			derived = derived || c.Derived
		}
	}
	if len(w) == 0 {
		return "Weights: not read."
	}
	s := rec.Survey
	if s.Fuel != "" {
		how = append(how, "fuel "+strings.TrimSpace(s.Fuel))
	}
	if s.Driver != "" {
		d := "driver " + s.Driver
		if !s.DriverMass.Empty() && s.Driver == "in" {
			d += ", " + s.DriverMass.Value
		}
		how = append(how, d)
	}
	if s.Luggage != "" {
		how = append(how, "luggage "+strings.TrimSpace(s.Luggage))
	}
	out := fmt.Sprintf("Weights: %s", strings.Join(w, ", "))
	if len(how) > 0 {
		out += "; " + strings.Join(how, "; ")
	}
	if derived {
		out += ". One follows from the total"
	}
	return out + "."
}
