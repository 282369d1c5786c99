package web

import (
	"jounce/internal/draw"
	"jounce/internal/figure"
	"jounce/internal/finding"
	"jounce/internal/web/form"
	"jounce/quantity"
	"jounce/source"
)

// fieldSamples are a box in its states.
func fieldSamples() []sample {
	with := func(f form.Field, do func(*form.Field)) form.Field { do(&f); return f }
	tools := []form.Option{{Value: "i1", Label: "Tape 3", Chosen: true}, {Value: "i2", Label: "Rule 4"}}
	return []sample{
		{"empty", "field", with(typedField("cat-empty", "Sill above the floor", "", "mm"), func(f *form.Field) { f.Where = "left, lowest edge, mid-door" })},
		{"typed", "field", with(typedField("cat-typed", "Sill above the floor", "138 mm ± 2 mm", "mm"), func(f *form.Field) {
			f.Where, f.By, f.Tools = "left, lowest edge, mid-door", "T. Marrow, 2026-03-14 10:42, Tape 3, checked 2026-01-02", tools
		})},
		{"wrong", "field", with(typedField("cat-wrong", "Sill above the floor", "13.8", "mm"), func(f *form.Field) {
			f.Problem = &form.Problem{Lead: "Sill above the floor, 13.8.", Says: "Expected 40 to 700 mm. It looks like centimetres. Was it?", Answers: []string{"13.8 cm", "138 mm"}}
		})},
		{"left open", "field", with(typedField("cat-open", "Roof above the floor", "about head high", "mm"), func(f *form.Field) {
			f.Problem = &form.Problem{Lead: "Roof above the floor, about head high.", Says: "A length with its unit was expected.", Open: true}
		})},
		{"not known", "field", with(typedField("cat-notread", "Lowest hard part above the floor", "", "mm"), func(f *form.Field) { f.NotRead = "cannot be read today" })},
		{"one of a few", "field", form.Field{Path: "cat-choice", ID: "cat-choice", Label: "Heights read at", Full: "Heights read at", Options: []form.Option{{Value: "as received", Label: "as received"}, {Value: "ROAD", Label: "ROAD", Chosen: true}}}},
		{"words", "field", form.Field{Path: "cat-long", ID: "cat-long", Label: "In the customer's words", Full: "In the customer's words", Long: true, Value: "Right down on its belly when I park it."}},
	}
}

func errorSamples() []sample {
	f := typedField("cat-error", "RL, hub to arch", "640 mm", "mm")
	f.Problem = &form.Problem{Lead: "RL, 640 mm.", Says: "The others are near 360. 640 less the loaded radius, 281, is 359: this looks like ground to arch. Which was it?", Answers: []string{"359 mm", "640 mm"}}
	return []sample{{"a question", "error", f}, {"above the form", "asked", []asking{{"cat-wrong", "Sill above the floor"}, {"cat-error", "RL, hub to arch"}}}}
}

func quadSamples() []sample {
	four := func(id, title, unit string, v ...string) quad {
		f := func(i int, c string) form.Field { return typedField("cat-"+id+"-"+c, c+", "+title, v[i], unit) }
		return quad{Title: title, FL: f(0, "FL"), FR: f(1, "FR"), RL: f(2, "RL"), RR: f(3, "RR")}
	}
	swapped := four("swapped", "Weight", "kg", "234", "235", "276", "277")
	swapped.FL.Problem = &form.Problem{Lead: "Corner weights, FL 234, FR 235, RL 276, RR 277 kg.", Says: "It was FL 276, FR 276, RL 234, RR 234 kg before: front and rear look exchanged. Were they?",
		Swaps: []form.Option{{Value: "cat-swapped-FL=cat-swapped-RL cat-swapped-FR=cat-swapped-RR", Label: "Front and rear were exchanged"}}}
	half := four("half", "Hub to arch", "mm", "360 mm", "361 mm", "", "")
	half.Where, half.Big = "hub centre to arch edge", true
	return []sample{{"empty", "quad", four("none", "Spring pressure", "bar", "", "", "", "")}, {"wrong", "quad", swapped}, {"half typed, for gloves", "quad", half}}
}

// findingSamples are the four verdicts with what may stand beside them.
func findingSamples() []sample {
	least := finding.Limit{Name: "Spring pressure at ROAD", Below: true, Kind: quantity.KindPressure, Value: 2.5e5, Unit: bar(0, 0).Unit, Grade: finding.OwnerSigns, Source: source.CP}
	stops := least
	stops.Value, stops.Grade = 1.5e5, finding.Stops
	list := []finding.Finding{
		{ID: "cat-locked", Claim: "The spring is too large for this corner; the work behind it is locked.", Value: bar(1.1, 0.1), Verdict: finding.Fail, Grade: finding.Stops, Limits: []finding.Limit{stops},
			Why: "A spring this empty folds on rebound.", Least: "A spring of about 60 cm² would carry it at 3 bar.", Source: source.CP},
		{ID: "cat-signed", Claim: "The front left is softer than it rides well.", Value: bar(2.2, 0.1), Verdict: finding.Fail, Grade: finding.OwnerSigns, Limits: []finding.Limit{least},
			Why: "Below 2.5 bar.", Source: source.CP, Signed: &finding.Signed{Who: "A. Quill", Reason: "it is driven alone"}},
		{ID: "cat-close", Claim: "The rear left may be too soft.", Value: bar(2.4, 0.2), Verdict: finding.TooClose, Grade: finding.OwnerSigns, Limits: []finding.Limit{least},
			Settle: "read the area from the maker's table at the height at ROAD", Source: source.CP},
		{ID: "cat-unknown", Claim: "Whether the rear right carries its load.", Shown: "2 to read", Verdict: finding.NotKnown, Grade: finding.Stops, Limits: []finding.Limit{stops},
			Needs: []finding.Gap{{Label: "RR, weight", Why: "gives pressure, rate and frequency"}, {Label: "Unsprung, right wheel"}}, Source: source.CP},
		{ID: "cat-pass", Claim: "The front right carries its load.", Value: bar(3.5, 0.2), Verdict: finding.Pass, Limits: []finding.Limit{least}, Why: "Wanted at least 2.5 bar.", Source: source.CP, Working: workingOf()},
		{ID: "cat-stale", Claim: "The tank keeps its air.", Value: bar(0.04, 0.02), Verdict: finding.Pass, Grade: finding.Stops, NotEvidence: "gauge 7 was due on 1 March 2026", Source: "S1"},
	}
	states := []string{"fail, locked", "fail, signed", "too close to call", "not enough known", "pass, with its working", "pass, not evidence"}
	var out []sample
	for i, f := range list {
		out = append(out, sample{states[i], "finding", f})
	}
	return out
}

// workingOf is the working of a spring's pressure, as the study writes it.
func workingOf() *finding.Working {
	kg := func(v, half float64) finding.Number { return finding.Of(quantity.KindMass, "kg", v, half) }
	return &finding.Working{
		Lines:   []finding.Line{{Symbols: "p = {m g}/{A i}", Numbers: "{246 · 9.81}/{68.9 cm² · 1}", Result: "3.5 ± 0.2 bar"}},
		Terms:   []finding.Term{{Symbol: "m", Name: "sprung at FR", Value: kg(246, 8), Mark: source.Derived}, {Symbol: "A", Name: "area at 150 mm", Value: finding.Of(quantity.KindArea, "cm²", 0.00689, 0.00028), Mark: source.Maker, Who: "bellows 110"}},
		Steps:   []finding.Term{{Symbol: "F", Name: "load on the spring", Value: finding.Of(quantity.KindForce, "N", 2413, 78), Mark: source.Calc}},
		Effects: []finding.Effect{{Name: "sprung at FR", Percent: 5}, {Name: "area at 150 mm", Percent: -4.8}},
		Notes:   []string{"The area is taken as constant over the travel shown."}, Doubt: "linear"}
}

// cornerSample is the four corners with one of each kind: known, derived,
// waiting for something, on steel.
func cornerSample(o *opened) any {
	hz := finding.Of(quantity.KindFrequency, "Hz", 1.42, 0.04)
	kg := finding.Of(quantity.KindMass, "kg", 276, 1)
	h := o.Res.Heights
	plan := figure.PlanView(figure.Plan{Wheelbase: h.Wheelbase, FrontOverhang: h.FrontOverhang, RearOverhang: h.RearOverhang}, draw.PX(120), draw.PX(250), draw.Phone())
	plan.ID, plan.Title = "cat-above", "The car seen from above, front up"
	return struct {
		Corners  []cornerCell
		Plan     draw.Scene
		PlanWide *draw.Scene
	}{[]cornerCell{
		{Name: "FL", Words: "front left", Pressure: bar(3.5, 0.2), Ride: hz, Weight: kg, Href: "#part-corners"},
		{Name: "FR", Words: "front right", Pressure: bar(3.5, 0.2), Ride: hz, Weight: kg, Derived: true, Href: "#part-corners"},
		{Name: "RL", Words: "rear left", Gap: "RL, weight", Href: "#part-corners"},
		{Name: "RR", Words: "rear right", Steel: true, Weight: kg, Href: "#part-corners"}}, plan, nil}
}

func wishSamples() []sample {
	list := findingSamples()
	found := func(i int) *finding.Finding { f := list[i].Data.(finding.Finding); return &f }
	return []sample{{"fail, too close, pass, nothing that measures it", "wishes", []wishLine{
		{1, "Right down on its belly when I park it at a show.", "drop from ROAD: 80 mm", found(0)},
		{2, "Soft, but not a boat.", "ride frequency: 1.4 Hz", found(2)},
		{3, "Over the hump at the end of our lane.", "hump cleared: 60 mm", found(4)},
		{4, "It should look like it always has.", "", nil}}}, {"empty", "wishes", []wishLine(nil)}}
}

func tableSample() table {
	cell := func(row, at, label, value string) form.Field { return typedField("cat-"+row+"-"+at, label, value, "") }
	t := table{Heads: []string{"Pressure, bar", "Height, mm", "Load, N"}}
	for _, r := range [][4]string{{"p1", "4 bar", "150 mm", "2795 N"}, {"p2", "3 bar", "150 mm", ""}, {"p3", "5 bar", "14 mm", "3500 N"}} {
		t.Rows = append(t.Rows, tableRow{Item: "cat-" + r[0], Cells: []form.Field{cell(r[0], "p", "Pressure", r[1]), cell(r[0], "h", "Height", r[2]), cell(r[0], "l", "Load", r[3])}})
	}
	t.Rows[2].Cells[1].Problem = &form.Problem{Lead: "Height, 14 mm.", Says: "The other lines are at 150. 14 in (356 mm) or 14 mm?", Answers: []string{"356 mm", "14 mm"}}
	return t
}
