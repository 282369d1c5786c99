package study_test

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"jounce/examples"
	"jounce/internal/catalog"
	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/study"
	"jounce/quantity"
)

// The scenarios carry the numbers of the trade's handbook. They run on the
// worked car, with the places changed that the scenario names.

func document(t *testing.T, name string) *job.Job {
	t.Helper()
	data, err := examples.Files.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	j, err := job.Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func worked(t *testing.T, changes ...string) (*job.Job, *study.Result) {
	t.Helper()
	j := document(t, "0412-quill-saloon.json")
	for i := 0; i < len(changes); i += 2 {
		if err := j.Set(changes[i], changes[i+1], false); err != nil {
			t.Fatal(err)
		}
	}
	return j, study.Of(j, catalog.NewShop("Thornhythe Coachworks"))
}

func find(t *testing.T, r *study.Result, id string) finding.Finding {
	t.Helper()
	for _, f := range r.Findings {
		if f.ID == id {
			return f
		}
	}
	var have []string
	for _, f := range r.Findings {
		have = append(have, f.ID)
	}
	t.Fatalf("no finding %s among %s", id, strings.Join(have, " "))
	return finding.Finding{}
}

func problem(t *testing.T, r *study.Result, path string) job.Problem {
	t.Helper()
	for _, p := range r.Problems {
		if p.Path == path {
			return p
		}
	}
	t.Fatalf("nothing is asked about %s; asked: %v", path, r.Problems)
	return job.Problem{}
}

func says(t *testing.T, text string, parts ...string) {
	t.Helper()
	flat := strings.ReplaceAll(text, "\u00a0", " ")
	for _, p := range parts {
		if !strings.Contains(flat, p) {
			t.Errorf("%q does not say %q", flat, p)
		}
	}
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tolerance {
		t.Errorf("%s: %g, want %g ± %g", what, got, want, tolerance)
	}
}

func verdict(t *testing.T, f finding.Finding, v finding.Verdict, g finding.Grade) {
	t.Helper()
	if f.Verdict != v || f.Grade != g {
		t.Errorf("%s is %v, %v; want %v, %v (%s)", f.ID, f.Verdict, f.Grade, v, g, f.Value)
	}
}

func TestScenario1PressureWithoutUnit(t *testing.T) {
	_, r := worked(t, "springs[front].maxWorking", "100")
	p := problem(t, r, "springs[front].maxWorking")
	says(t, p.Says, "100 psi (6.9 bar) or 100 bar?")
	if len(p.Answers) != 2 {
		t.Errorf("answers %q", p.Answers)
	}
	if f := find(t, r, "front.laden"); f.Verdict != finding.NotKnown {
		t.Errorf("a pressure without a unit was used: %v", f.Verdict)
	}
}

func TestScenario2BarTypedInAPsiBox(t *testing.T) {
	_, r := worked(t, "corners.FL.pressure", "3.5 psi")
	says(t, problem(t, r, "corners.FL.pressure").Says, "0.24 bar cannot carry 244 kg", "needs about 3.5 bar", "Did you mean 3.5 bar?")
}

func TestScenario3MissingCornerFromTheTotal(t *testing.T) {
	_, r := worked(t, "corners.RR.weight", "", "survey.total", "1020 kg")
	c := r.Corners[study.RR]
	near(t, "RR", c.Weight.Value, 234, 1e-9)
	if !c.Derived {
		t.Error("the weight is not marked as derived")
	}
	_, r = worked(t, "corners.RR.weight", "")
	if r.Corners[study.RR].Pressure[1].Known() {
		t.Error("a pressure for a corner that was not weighed")
	}
	for _, k := range []int{study.FL, study.FR, study.RL} {
		if !r.Corners[k].Pressure[1].Known() {
			t.Errorf("%s has no pressure", study.CornerNames[k])
		}
	}
	if f := find(t, r, "RR.pressure"); f.Verdict != finding.NotKnown || f.Needs[0].Path != "corners.RR.weight" {
		t.Errorf("RR: %v, needs %v", f.Verdict, f.Needs)
	}
}

func TestScenario4CornersAgainstTheWeighbridge(t *testing.T) {
	_, r := worked(t, "survey.ticketFront", "", "survey.ticketRear", "", "survey.total", "1065 kg")
	f := find(t, r, "weight.ticket.total")
	verdict(t, f, finding.Fail, finding.OwnerSigns)
	near(t, "apart", f.Value.Value, 0.0423, 0.002)
	says(t, f.Least, "fuel", "driver", "level")
	if !f.Holds() {
		t.Error("nothing is held until somebody signs")
	}
}

func TestScenario5WeightOfNothing(t *testing.T) {
	for _, text := range []string{"-12 kg", "0 kg"} {
		_, r := worked(t, "corners.FL.weight", text)
		p := problem(t, r, "corners.FL.weight")
		if text == "0 kg" {
			says(t, p.Says, "not read?")
		}
		if r.Corners[study.FL].Pressure[1].Known() {
			t.Errorf("%s gave a pressure", text)
		}
	}
}

func TestScenario7GroundToArchInTheHubBox(t *testing.T) {
	_, r := worked(t, "corners.RL.hubToArch", "640 mm")
	p := problem(t, r, "corners.RL.hubToArch")
	says(t, p.Says, "RL", "640", "281", "359 mm", "ground to arch")
}

func TestScenario8FlatPlane(t *testing.T) {
	_, r := worked(t, "corners.FL.groundToBody", "640 mm", "corners.FR.groundToBody", "641 mm", "corners.RL.groundToBody", "632 mm", "corners.RR.groundToBody", "645 mm")
	f := find(t, r, "plane.residual")
	near(t, "residual", f.Value.Value*1000, 12, 1e-6)
	verdict(t, f, finding.Fail, finding.Stops)
	says(t, f.Why+f.Least, "RL and RR", "13", "cannot say which corner")
}

func TestScenario14WeightInTonnes(t *testing.T) {
	_, r := worked(t, "survey.total", "6.4 t")
	says(t, problem(t, r, "survey.total").Says, "6.4 t", "out of range", "400", "3500")
}

func TestScenario15InchesAmongMillimetres(t *testing.T) {
	j, _ := worked(t)
	j.Springs[0].Points = []job.SpringPoint{{ID: "a", Pressure: job.Typed("3 bar"), Height: job.Typed("350 mm"), Load: job.Typed("2100 N")},
		{ID: "b", Pressure: job.Typed("4 bar"), Height: job.Typed("345 mm"), Load: job.Typed("2800 N")},
		{ID: "c", Pressure: job.Typed("5 bar"), Height: job.Typed("14 mm"), Load: job.Typed("3500 N")}}
	r := study.Of(j, catalog.NewShop("Thornhythe Coachworks"))
	var all []string
	for _, p := range r.Problems {
		all = append(all, p.Says)
	}
	says(t, strings.Join(all, " "), "14 in (356 mm) or 14 mm?")
}

func TestScenario23FrontPressure(t *testing.T) {
	_, r := worked(t)
	for _, k := range []int{study.FL, study.FR} {
		p := r.Corners[k].Pressure[1]
		near(t, "bar", p.Value/1e5, 3.52, 0.05)
		near(t, "psi", p.Value/6894.757, 51, 0.5)
		near(t, "least likely", (p.Value-p.Half)/1e5, 3.3, 0.05)
		near(t, "most likely", (p.Value+p.Half)/1e5, 3.7, 0.05)
	}
}

func TestScenario24RearPressure(t *testing.T) {
	_, r := worked(t)
	near(t, "bar", r.Corners[study.RL].Pressure[1].Value/1e5, 3.43, 0.05)
	near(t, "psi", r.Corners[study.RL].Pressure[1].Value/6894.757, 50, 0.5)
	_, r = worked(t, "corners.RL.weight", "309 kg", "corners.RR.weight", "309 kg")
	near(t, "bar with 75 kg more", r.Corners[study.RL].Pressure[1].Value/1e5, 4.7, 0.05)
}

func TestScenario25RatioTurnedOver(t *testing.T) {
	_, r := worked(t, "axles.rear.springRatio", "1.62")
	p := problem(t, r, "axles.rear.springRatio")
	says(t, p.Says, "turned over", "0.62")
	if r.Corners[study.RL].Pressure[1].Known() {
		t.Error("a turned ratio gave a pressure")
	}
}

func TestScenario27SpringTooLarge(t *testing.T) {
	_, r := worked(t, "corners.FL.weight", "108 kg", "corners.FR.weight", "108 kg")
	f := find(t, r, "FL.pressure")
	near(t, "bar", f.Value.Value/1e5, 1.1, 0.05)
	verdict(t, f, finding.Fail, finding.Stops)
	says(t, f.Claim, "too large", "folds on rebound")
}

func TestScenario28SpringTooSmall(t *testing.T) {
	_, r := worked(t, "springs[rear].maxWorking", "7 bar", "corners.RL.weight", "330 kg", "corners.RR.weight", "330 kg", "survey.driver", "in")
	if r.Corners[study.RL].Pressure[2].Value < 7e5 {
		t.Fatalf("pressure %v", r.Corners[study.RL].Pressure[1])
	}
	f := find(t, r, "rear.laden")
	verdict(t, f, finding.Fail, finding.Stops)
	says(t, f.Least, "cm²", "4.9 bar", "ratio")
}

func TestScenario29BumpPeak(t *testing.T) {
	_, r := worked(t, "springs[front].maxDynamic", "8 bar", "springs[front].maxWorking", "7 bar")
	f := find(t, r, "front.peak")
	near(t, "bar", f.Value.Value/1e5, 9.3, 0.1)
	says(t, f.Least, "more air", "stop")
	_, r = worked(t, "springs[front].maxDynamic", "7 bar", "springs[front].maxWorking", "7 bar")
	verdict(t, find(t, r, "front.peak"), finding.Fail, finding.Stops)
}

func TestScenario43HalfStage(t *testing.T) {
	r := study.Of(document(t, "0398-fenn-estate.json"), catalog.NewShop("Thornhythe Coachworks"))
	f := find(t, r, "half.stage")
	says(t, f.Claim, "pitches")
	says(t, f.Why, "not shown")
	if r.Corners[study.FL].Pressure[1].Known() || !r.Corners[study.RL].Pressure[1].Known() {
		t.Error("the axles are not apart")
	}
}

func TestScenario74LeafPickup(t *testing.T) {
	r := study.Of(document(t, "0405-hale-pickup.json"), catalog.NewShop("Thornhythe Coachworks"))
	f := find(t, r, "rear.layout")
	says(t, f.Why, "leaf spring also locates the axle")
	says(t, f.Least, "load assist only", "engineer")
	if r.Corners[study.RL].Pressure[1].Known() {
		t.Error("a pressure for a leaf-sprung axle")
	}
	if !r.Corners[study.FL].Pressure[1].Known() {
		t.Error("the front does not work")
	}
}

func TestScenario78ThreeWheeler(t *testing.T) {
	_, r := worked(t, "car.wheels", "3")
	says(t, find(t, r, "car.wheels").Why, "Two tracks", "roll stability")
	for _, c := range r.Corners {
		if c.Pressure[1].Known() || c.Weight.Known() {
			t.Error("numbers for a three-wheeler")
		}
	}
}

func TestScenario79RefusedLayouts(t *testing.T) {
	for _, layout := range []string{"swing axle", "torsion bar", "rubber cone", "fluid", "transverse leaf"} {
		_, r := worked(t, "axles.rear.layout", layout)
		f := find(t, r, "rear.layout")
		says(t, f.Least, "survey", "engineered scheme", "records still work")
		if f.Why == "" || r.Corners[study.RL].Pressure[1].Known() {
			t.Errorf("%s: %q, pressure %v", layout, f.Why, r.Corners[study.RL].Pressure[1])
		}
	}
}

func TestScenario80TooHeavy(t *testing.T) {
	_, r := worked(t, "car.platedMass", "3600 kg")
	find(t, r, "car.mass")
	if r.Corners[study.FL].Pressure[1].Known() {
		t.Error("numbers for a vehicle over 3,500 kg")
	}
}

func TestScenario91RearSofterThanFront(t *testing.T) {
	_, r := worked(t)
	near(t, "front", r.Corners[study.FL].Ride.Value, 1.73, 0.005)
	near(t, "rear", r.Corners[study.RL].Ride.Value, 1.48, 0.005)
	near(t, "front rate, N/mm", r.Corners[study.FL].Rate.Value/1000, 30.7, 0.1)
	near(t, "front wheel rate, N/mm", r.Corners[study.FL].Wheel.Value/1000, 28.9, 0.1)
	near(t, "rear rate, N/mm", r.Corners[study.RL].Rate.Value/1000, 46.1, 0.2)
	near(t, "rear wheel rate, N/mm", r.Corners[study.RL].Wheel.Value/1000, 17.7, 0.1)
	f := find(t, r, "ride.rear")
	verdict(t, f, finding.Fail, finding.OwnerSigns)
	says(t, f.Claim, "15 % softer", "pitch")
	says(t, f.Why, "1.82 to 2.08", "cannot both be met")
	says(t, f.Least, "First soften the front to 1.71 Hz")
	if strings.Contains(f.Least, "more pressure") {
		t.Error("it advises more pressure")
	}
}

func TestScenario92SpringOnTheDampersMounting(t *testing.T) {
	_, r := worked(t, "axles.rear.seat", "on the damper's mounting")
	f := find(t, r, "rear.mount")
	verdict(t, f, finding.Fail, finding.Stops)
	says(t, f.Claim, "3.26 kN standing", "9.7", "3 g")
	says(t, f.Why, "licensed engineer")
	_, r = worked(t, "axles.rear.seat", "on the damper's mounting", "axles.rear.mountScheme", "frame by J. Orme, drawing 14")
	verdict(t, find(t, r, "rear.mount"), finding.Pass, finding.Stops)
}

func TestScenario93EveryFailShowsItsRule(t *testing.T) {
	for _, changes := range [][]string{nil, {"axles.rear.seat", "on the damper's mounting", "springs[rear].maxWorking", "5 bar", "presets.hump.front", "40 mm", "survey.lowest", "60 mm"},
		{"corners.FL.weight", "108 kg", "corners.FR.weight", "130 kg", "survey.lampAim", "-0.2 %"}} {
		_, r := worked(t, changes...)
		for _, f := range r.Findings {
			if f.Verdict != finding.Fail {
				continue
			}
			if f.Source == "" || !f.Source.Known() {
				t.Errorf("%s: source mark %q", f.ID, f.Source)
			}
			if f.Least == "" {
				t.Errorf("%s: no least change (%s)", f.ID, f.Claim)
			}
			if len(f.Limits) == 0 && f.Why == "" {
				t.Errorf("%s: no rule", f.ID)
			}
		}
	}
}

// TestScenario95OtherUnits types the worked car in inches, pounds and psi. The
// verdicts must not change, and neither must any printed number.
func TestScenario95OtherUnits(t *testing.T) {
	j, want := worked(t)
	for _, f := range j.Fields() {
		if f.Reading == nil || f.Reading.Empty() {
			continue
		}
		unit, ok := map[quantity.Kind]string{quantity.KindLength: "in", quantity.KindMass: "lb", quantity.KindPressure: "psi", quantity.KindForce: "lbf"}[f.Kind]
		if !ok {
			continue
		}
		v, err := quantity.Parse(f.Kind, f.Reading.Value)
		if err != nil {
			t.Fatal(err)
		}
		u, _ := quantity.UnitOf(f.Kind, unit)
		f.Reading.Value = fmt.Sprintf("%.9f %s", u.FromSI(v.SI()), unit)
		if half, typed := v.Half(); typed {
			f.Reading.Value += fmt.Sprintf(" ± %.9f %s", u.FromSI(half), unit)
		}
	}
	got := study.Of(j, catalog.NewShop("Thornhythe Coachworks"))
	a, _ := json.Marshal(flat(want))
	b, _ := json.Marshal(flat(got))
	if string(a) != string(b) {
		t.Errorf("other units, other answers:\n%s\n%s", a, b)
	}
}

func flat(r *study.Result) [][]string {
	var out [][]string
	for _, f := range r.Findings {
		out = append(out, []string{f.ID, f.Verdict.Key(), f.Value.String(), f.Claim})
	}
	return out
}

func TestSpringThatEndsTheDroop(t *testing.T) {
	_, r := worked(t, "axles.front.damper.open", "500 mm")
	verdict(t, find(t, r, "front.stretch"), finding.Fail, finding.OwnerSigns)
	_, r = worked(t, "axles.front.damper.open", "")
	for _, f := range r.Findings {
		if f.ID == "front.stretch" {
			t.Error("it fails while the damper is not read")
		}
	}
	if f := find(t, r, "front.droop"); f.Verdict != finding.NotKnown || len(f.Needs) == 0 {
		t.Errorf("droop without the damper's open length: %v, needs %v", f.Verdict, f.Needs)
	}
}
