package web

import (
	"net/http"

	"jounce/internal/draw"
	"jounce/internal/figure"
	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/plate"
	"jounce/internal/study"
	"jounce/internal/web/form"
	"jounce/internal/web/page"
	"jounce/quantity"
	"jounce/source"
)

// component is one part of the pages with its states.
type component struct {
	Key, Name, Says string
	Samples         []sample
}

// sample is a component in one state. Part names what is drawn with Data, see
// "sample" in templates/catalogue.html.
type sample struct {
	State string
	Part  string
	Data  any
}

type cataloguePage struct {
	page.Base
	Parts []component
}

// catalogue shows every part that pages are made of, in its states: what a page
// may use, and what tests look at.
func (s *server) catalogue(w http.ResponseWriter, r *http.Request) error {
	o := s.specimen()
	p := &cataloguePage{Base: page.Base{Title: "Parts of the pages", Heading: "Parts of the pages", Who: "an invented car", Room: "shop",
		Tally: &finding.Tally{2, 1, 3, 5}}, Parts: s.components(r, o)}
	return s.render(w, r, http.StatusOK, "catalogue", p)
}

// specimen is an invented car with enough read to draw every part.
func (s *server) specimen() *opened {
	rec := &job.Job{Schema: job.Schema, ID: "0000", Name: "Specimen"}
	for _, x := range [][2]string{{"car.form", "saloon"}, {"car.year", "1966"}, {"place.stage", "strip and fit"},
		{"instruments[i1].name", "Tape 3"}, {"instruments[i1].measures", "length"}, {"instruments[i1].checked", "2026-01-02"},
		{"survey.wheelbase", "2540 mm"}, {"survey.sill", "138 mm"}, {"survey.roof", "1345 mm"}, {"survey.frontOverhang", "690 mm"}, {"survey.rearOverhang", "900 mm"},
		{"survey.lowest", "118 mm"}, {"survey.lowestName", "exhaust joint"}, {"survey.heightsRead", "ROAD"},
		{"corners.FL.weight", "276 kg"}, {"corners.FR.weight", "276 kg"}, {"corners.RL.weight", "234 kg"}, {"corners.RR.weight", "234 kg"},
		{"corners.FL.hubToArch", "360 mm"}, {"corners.FR.hubToArch", "361 mm"}, {"corners.RL.hubToArch", "359 mm"}, {"corners.RR.hubToArch", "359 mm"},
		{"axles.front.layout", "strut"}, {"axles.front.springing", "air"}, {"axles.front.tyreLeft", "185/70R13"}, {"axles.front.tyreRight", "185/70R13"},
		{"axles.front.unsprungLeft", "30 kg"}, {"axles.front.unsprungRight", "30 kg"}, {"axles.front.springRatio", "1"}, {"axles.front.spring", "s1"},
		{"axles.front.springHeight", "150 mm"}, {"axles.front.airVolume", "1.4 L"},
		{"axles.rear.layout", "live axle on links"}, {"axles.rear.springing", "air"}, {"axles.rear.tyreLeft", "185/70R13"}, {"axles.rear.tyreRight", "185/70R13"},
		{"presets.road.front", "0 mm"}, {"presets.road.rear", "0 mm"}, {"presets.down.front", "-60 mm"}, {"presets.down.rear", "-60 mm"},
		{"presets.hump.front", "20 mm"}, {"presets.hump.rear", "20 mm"}, {"presets.high.front", "45 mm"}, {"presets.high.rear", "45 mm"},
		{"springs[s1].name", "bellows 110"}, {"springs[s1].points[p1].load", "2795 N"}, {"springs[s1].points[p1].pressure", "4 bar"}, {"springs[s1].points[p1].height", "150 mm"},
		{"springs[s1].points[p2].load", "2100 N"}, {"springs[s1].points[p2].pressure", "3 bar"}, {"springs[s1].points[p2].height", "150 mm"},
		{"springs[s1].points[p3].load", "2480 N"}, {"springs[s1].points[p3].pressure", "4 bar"}, {"springs[s1].points[p3].height", "200 mm"},
		{"springs[s1].points[p4].load", "1860 N"}, {"springs[s1].points[p4].pressure", "3 bar"}, {"springs[s1].points[p4].height", "200 mm"},
		{"springs[s1].points[p5].load", "3110 N"}, {"springs[s1].points[p5].pressure", "4 bar"}, {"springs[s1].points[p5].height", "100 mm"},
		{"springs[s1].points[p6].load", "2330 N"}, {"springs[s1].points[p6].pressure", "3 bar"}, {"springs[s1].points[p6].height", "100 mm"},
		{"loads.seats[driver].name", "driver"}, {"loads.seats[driver].mass", "75 kg"}, {"loads.seats[driver].x", "1400 mm"}} {
		if err := rec.Set(x[0], x[1], true); err != nil {
			panic("web: the specimen: " + err.Error()) // a broken build
		}
	}
	rec.Survey.Sill.By, rec.Survey.Sill.At, rec.Survey.Sill.With = "T. Marrow", "2026-03-14T10:42:00Z", "i1"
	return &opened{ID: rec.ID, Rec: rec, Res: study.Of(rec, s.Shop)}
}

// components is the table of all parts.
func (s *server) components(r *http.Request, o *opened) []component {
	return []component{
		{"head", "Head with tally", "The head of this page is one: number and name, the car, the four verdicts counted. On a phone the words go and the counts stay.",
			[]sample{{"counted", "tally", finding.Tally{2, 1, 3, 5}}, {"nothing known", "tally", finding.Tally{}}}},
		{"rooms", "Rooms", "The line under the head. You are here is a thick line in ink; on a phone it folds.", nil},
		{"field", "Measured value", "Part and place, the value as typed with its unit, what it was read with, who read it.", fieldSamples()},
		{"error", "Error", "Place and value; what was expected; what it looks like; a question with its answers as buttons.", errorSamples()},
		{"quad", "Corner quad", "Four readings as they lie on the car, front up; from box to box FL, FR, RL, RR.", quadSamples()},
		{"clash", "Conflicting", "Two people typed at one place: both values, names and times.", []sample{{"conflicting", "clash", clash{Name: "cat-clash", Label: "Sill above the floor", Before: "138 mm",
			Theirs: choice{"140 mm", "H. Orme, 2026-03-14 10:40"}, Mine: choice{"136 mm", "T. Marrow, 2026-03-14 10:42"}}}}},
		{"unsent", "Waiting to send", "A reading that has not left this tablet yet.", []sample{{"not sent yet", "unsent", typedField("cat-unsent", "Roof above the floor", "1345 mm", "mm")}}},
		{"finding", "Finding line", "Mark, claim, number; verdict and grade, why, the least change, the source. The whole line opens its working.", findingSamples()},
		{"working", "Working drawer", "Formula in symbols and with numbers, what went in, what came out, what 5 % more of each input would do.", []sample{{"worked out", "working", workingOf()}}},
		{"source", "Source marks", "Where a number is from.", []sample{{"all", "sources", []source.Mark{"S31", source.CP, source.M, source.Calc, source.Maker, source.Read, source.Derived, source.Typed, source.Shop}}}},
		{"corners", "Corners from above", "What each corner carries, where it belongs on the car, front up.", []sample{{"known, derived, waiting, on steel", "corners", cornerSample(o)}}},
		{"height", "Height rule", "Millimetres below ROAD, lower to the right; touch points in the order in which they touch, ± to scale.", []sample{{"at ROAD", "height", heightOf(r, o)}}},
		{"order", "Order list", "What touches first, with the room left.", []sample{{"in order", "order", heightOf(r, o)}}},
		{"gaps", "What is missing", "By how many findings each would settle.", []sample{
			{"not known", "gaps", page.Gaps(o.Res.Gaps, o.Res.Findings, func(string) string { return "#part-gaps" })}, {"nothing missing", "gaps", []page.Missing(nil)}}},
		{"wishes", "Wishes", "The customer's own words, never tidied; the verdict, the target as a measure.", wishSamples()},
		{"stage", "Stage line", "Done is thick, here is half filled, a hold point is a gate.", []sample{
			{"strip and fit", "stage", page.StageOf("strip and fit")}, {"not said", "stage", page.StageOf("")}, {"small", "smallstage", page.StageOf("proof")}}},
		{"table", "Table", "Thin rules, cells as typed; empty is not printed by the maker, never 0.", []sample{{"typed, empty, wrong", "table", tableSample()}}},
		{"chart", "Chart", "Lines named on the line, limits hatched on the forbidden side, readings with their ±.", s.chartSample(o)},
		{"figure", "Drawing of the car", "Firm where it was measured, faint where it was assumed.", []sample{{"measured in part", "sized", side(o.Res, 1, false, "cat-car")}}},
		{"caution", "Caution", "Where somebody stands. Never a verdict.", []sample{{"where you stand", "caution", "Stand aside of end caps and fittings; nobody under the car on air alone."}}},
		{"buttons", "Buttons", "Verb and object. One is filled in a form. Nothing is greyed out without a reason.", []sample{
			{"plain", "button", "act"}, {"filled", "button", "act do"}, {"for gloves", "button", "key"}, {"joined", "joined", nil}, {"a link", "link", nil}}},
		{"focus", "Focus", "Three pixels of the accent, two away, on whatever the keys have reached.", []sample{{"on a button", "button", "act cat-focus"}, {"in a box", "focusbox", nil}}},
		{"titleblock", "Title block", "After ISO 7200. Empty is “not yet”, never blank.", []sample{{"in part not yet", "titleblock", []page.Cell{
			{Caption: "job and sheet", Value: "0000 / Specimen", Wide: 4, Big: true}, {Caption: "revision", Value: "14", Wide: 2, Big: true},
			{Caption: "car", Value: "compact saloon, 1966", Wide: 3}, {Caption: "keeper", Value: "not yet", Wide: 3}, {Caption: "drawn from", Value: "42 readings", Wide: 2},
			{Caption: "saved", Value: "14 March 2026 10:42", Wide: 2}, {Caption: "by", Value: "T. Marrow", Wide: 2}, {Caption: "checked", Value: "not yet", Wide: 3}, {Caption: "approved", Value: "2 fails open", Wide: 3}}}}},
	}
}

// chartSample is load over height of the specimen's front spring.
func (s *server) chartSample(o *opened) []sample {
	load, ok := plate.Load(o.Res.Axles[0], s.Shop)
	if !ok {
		return nil
	}
	fig := sized(func(width float64) draw.Scene { return figure.LoadChart(load, width, figure.StyleFor(width/draw.Px)) }, "cat-load")
	return []sample{{"load over height", "sized", fig}}
}

func bar(v, half float64) finding.Number {
	return finding.Of(quantity.KindPressure, "bar", v*1e5, half*1e5)
}

// typedField is a box of its own, of no record.
func typedField(id, label, value, unit string) form.Field {
	return form.Field{Path: id, ID: id, Label: label, Full: label, Value: value, Unit: unit, Quantity: unit != ""}
}
