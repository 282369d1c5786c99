package study_test

import (
	"strings"
	"testing"

	"jounce/internal/catalog"
	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/study"
)

func typed(s string) job.Reading {
	if s == "" {
		return job.Reading{}
	}
	return job.Typed(s)
}

// touched is the worked car with touch points of its own and nothing on its way.
func touched(t *testing.T, points []job.Touch, changes ...string) *study.Result {
	t.Helper()
	j := document(t, "0412-quill-saloon.json")
	j.Touch, j.Ways = points, job.Ways{}
	for i := 0; i < len(changes); i += 2 {
		if err := j.Set(changes[i], changes[i+1], false); err != nil {
			t.Fatal(err)
		}
	}
	return study.Of(j, catalog.NewShop("Thornhythe Coachworks"))
}

// The points of the handbook's scenario 31; the sill and the bump stop are the
// worked car's own.
var handbook31 = []job.Touch{
	{ID: "sump", Name: "sump", Moves: "with the body", Meets: "hard part and floor", Room: typed("121 mm ± 2 mm"), X: typed("120 mm")},
	{ID: "joint", Name: "exhaust joint", Moves: "with the body", Meets: "hard part and floor", Room: typed("104 mm ± 2 mm"), X: typed("1450 mm")},
	{ID: "liner", Name: "inner liner", Moves: "with the wheel", Meets: "tyre and liner", Wheel: "FL", Room: typed("89 mm ± 2 mm"), Ratio: typed("1")},
}

func TestScenario31WhatTouchesFirst(t *testing.T) {
	r := touched(t, handbook31)
	var order []string
	for _, x := range r.Path.Touches {
		if x.At.Known() {
			order = append(order, x.Name)
		}
	}
	want := "front bump stop, rear bump stop, front bump stop, solid, rear bump stop, solid, inner liner, exhaust joint, sump, sill"
	if got := strings.Join(order, ", "); got != want {
		t.Errorf("in the order %s; want %s", got, want)
	}
	for k, x := range r.Path.Touches {
		if x.At.Known() && x.Rank != k+1 {
			t.Errorf("%s has rank %d", x.Name, x.Rank)
		}
	}
	near(t, "first, mm", r.Path.Touches[0].At.Value*1000, -68, 0.1)
	near(t, "it rests, mm", r.Path.Stop.Value*1000, -84, 0.1)
	f := find(t, r, "wish.w1")
	verdict(t, f, finding.Fail, finding.OwnerSigns)
	says(t, f.Why, "first is the front bump stop at 68.0 ± 2.2 mm", "80 mm is not possible without changing it",
		"the inner liner: 9 ± 2 mm left against a rule of 8 mm", "the exhaust joint would stand 24 ± 2 mm over the floor against 25 mm", "both too close to call, read them again with a fixed pointer")
	if last := r.Path.Steps[len(r.Path.Steps)-1].Height; last != -0.158 {
		t.Errorf("the way ends at %g, expected 20 mm past the sill", last)
	}
	if strings.Contains(f.Why, "sump") {
		t.Errorf("41 mm under the sump is no trouble: %s", f.Why)
	}
	if len(r.Path.Wishes) == 0 || r.Path.Wishes[0].Height.Value != -0.080 {
		t.Errorf("wishes on the path: %+v", r.Path.Wishes)
	}
}

func TestScenario32Clearance(t *testing.T) {
	for text, want := range map[string]finding.Verdict{"12 mm ± 4 mm": finding.TooClose, "12 mm ± 1 mm": finding.Pass, "8 mm ± 1 mm": finding.Fail} {
		r := touched(t, []job.Touch{{ID: "rack", Name: "steering rack", Moves: "with the body", Meets: "metal and metal", Room: typed(text)}},
			"presets.down.front", "0 mm", "presets.down.rear", "0 mm")
		f := find(t, r, "touch.rack")
		verdict(t, f, want, finding.Stops)
		if want == finding.TooClose {
			says(t, f.Settle, "Read the room at the steering rack again with a fixed pointer, ± 1 mm")
			says(t, f.Claim, "Whether")
		}
		if want != finding.Pass && f.Least == "" || f.Working == nil {
			t.Errorf("%s: least %q, working %v", text, f.Least, f.Working)
		}
	}
}

func TestScenario33BagToTyreAtFullLock(t *testing.T) {
	r := touched(t, []job.Touch{{ID: "bag", Name: "bag to tyre", Moves: "with the wheel", Meets: "bag and anything", Wheel: "FL", Room: typed("8 mm"), Ratio: typed("0.1"), Lock: "left lock"}},
		"presets.down.front", "", "presets.down.rear", "", "presets.hump.front", "", "presets.hump.rear", "", "presets.high.front", "", "presets.high.rear", "")
	f := find(t, r, "touch.bag")
	verdict(t, f, finding.Fail, finding.Stops)
	if f.Limits[0].Value != 0.012 {
		t.Errorf("held against %s", f.Limits[0].Rule())
	}
	says(t, f.Claim, "too little room between bag and tyre, FL, at ROAD")
	says(t, f.Why, "left lock")
}

func TestScenario40HumpOverTheDroop(t *testing.T) {
	r := touched(t, nil, "survey.lowest", "95 mm")
	f := find(t, r, "wish.w2")
	verdict(t, f, finding.Fail, finding.OwnerSigns)
	near(t, "hump that can be had, mm", f.Value.Value*1000, 90, 0.1)
	says(t, f.Why, "It needs 125 mm", "30 ± 2 mm above ROAD", "front droop ends it")
}

func TestScenario45RoadSavedAtHumpHeight(t *testing.T) {
	_, r := worked(t, "presets.road.front", "40 mm", "presets.road.rear", "40 mm")
	p := problem(t, r, "presets.road.front")
	says(t, p.Says, "ROAD is set 40 mm above", "that is your HUMP height", "Confirm")
	if !r.Heights.SillAt[1].Known() {
		t.Error("a question took the heights away")
	}
	j, _ := worked(t, "presets.road.front", "40 mm", "presets.road.rear", "40 mm")
	j.Presets.Road.Front.Note = "raised on purpose"
	for _, p := range study.Of(j, catalog.NewShop("x")).Problems {
		if strings.Contains(p.Says, "HUMP height") {
			t.Errorf("asked though confirmed: %s", p.Says)
		}
	}
	_, r = worked(t, "presets.road.front", "-25 mm", "presets.road.rear", "-25 mm")
	for _, p := range r.Problems {
		if strings.Contains(p.Says, "HUMP height") {
			t.Errorf("asked about a lower ROAD: %s", p.Says)
		}
	}
}

// A preset order turned round is asked about, axle by axle.
func TestPresetsTurnedRound(t *testing.T) {
	for path, words := range map[string]string{"presets.down.rear": "DOWN lies below ROAD", "presets.hump.front": "HUMP lies above ROAD", "presets.high.front": "HIGH lies above ROAD"} {
		text := "-20 mm"
		if path == "presets.down.rear" {
			text = "60 mm"
		}
		_, r := worked(t, path, text)
		says(t, problem(t, r, path).Says, words)
		if !r.Path.Known || len(r.Path.Steps) < 100 {
			t.Error("the way of the body is lost")
		}
	}
	_, r := worked(t, "presets.high.rear", "10 mm")
	says(t, problem(t, r, "presets.high.rear").Says, "HIGH", "under HUMP")
}

func TestTyreAtFullBump(t *testing.T) {
	r := touched(t, handbook31)
	f := find(t, r, "touch.liner")
	verdict(t, f, finding.Fail, finding.Stops)
	near(t, "left at full bump, mm", f.Value.Value*1000, 89-84, 0.1)
	says(t, f.Claim, "at full bump")
	says(t, f.Why, "29 ± 2 mm at DOWN", "5 ± 3 mm at full bump", "only stands, 8 mm is enough", "keeps 15 mm from anything")
	says(t, f.Least, "sooner")
	// A part that is not read may end the bump sooner: then nothing is sure.
	r = touched(t, handbook31, "springs[front].closed", "")
	if f := find(t, r, "touch.liner"); f.Verdict != finding.NotKnown || len(f.Needs) == 0 {
		t.Errorf("%v, needs %v", f.Verdict, f.Needs)
	}
}

func TestHoseSlackInFullDroop(t *testing.T) {
	hose := func(room string) []job.Touch {
		return []job.Touch{{ID: "hose", Name: "brake hose", Moves: "limits droop", Wheel: "FL", Room: typed(room)}}
	}
	r := touched(t, hose("63 mm ± 1 mm"))
	verdict(t, find(t, r, "touch.hose"), finding.Pass, finding.Stops)
	for _, x := range r.Path.Touches { // the damper ends the droop before
		if x.ID == "hose" && (x.At.Known() || x.Rank != 0) {
			t.Errorf("the hose meets at %s", x.At)
		}
	}
	f := find(t, touched(t, hose("55 mm ± 1 mm")), "touch.hose")
	verdict(t, f, finding.Fail, finding.Stops)
	says(t, f.Claim, "brake hose, FL, at full droop")
	says(t, f.Least, "slack", "strap")
}

// What is typed by halves waits for the rest and is named.
func TestTouchPointByHalves(t *testing.T) {
	r := touched(t, []job.Touch{{ID: "a", Name: "bar link"}, {ID: "b"}, {ID: "c", Name: "rubber pad", Meets: "rubber meant to rest", Moves: "with the body", Room: typed("60 mm")}})
	f := find(t, r, "touch.a")
	if f.Verdict != finding.NotKnown || len(f.Needs) != 3 {
		t.Errorf("%v, needs %v", f.Verdict, f.Needs)
	}
	for _, f := range r.Findings {
		if f.ID == "touch.b" || f.ID == "touch.c" {
			t.Errorf("a finding for %s", f.ID)
		}
	}
	for _, x := range r.Path.Touches {
		if x.ID == "c" && !x.Rests {
			t.Error("a rubber pad is not rested on")
		}
	}
}

// A ratio that cannot be used is never one in silence.
func TestTouchRatioOutOfRange(t *testing.T) {
	r := touched(t, []job.Touch{{ID: "arm", Name: "arm", Moves: "with the wheel", Meets: "metal and metal", Wheel: "FL", Room: typed("200 mm"), Ratio: typed("0.01")}})
	problem(t, r, "touch[arm].ratio")
	f := find(t, r, "touch.arm")
	if f.Verdict != finding.NotKnown || len(f.Needs) != 1 || f.Needs[0].Path != "touch[arm].ratio" {
		t.Errorf("%v, needs %v", f.Verdict, f.Needs)
	}
	for _, x := range r.Path.Touches {
		if x.ID == "arm" {
			t.Error("it is on the path")
		}
	}
}

// A floor point under the lowest hard part is asked about and still counts.
func TestPointUnderTheLowest(t *testing.T) {
	r := touched(t, []job.Touch{{ID: "sump", Name: "sump", Moves: "with the body", Meets: "hard part and floor", Room: typed("90 mm")}})
	says(t, problem(t, r, "touch[sump].room").Says, "under the lowest hard part", "exhaust joint", "104")
	find(t, r, "touch.sump")
	r = touched(t, []job.Touch{{ID: "j", Name: "Exhaust joint", Moves: "with the body", Meets: "hard part and floor", Room: typed("115 mm")}})
	says(t, problem(t, r, "touch[j].room").Says, "Which is right?")
}

func TestWays(t *testing.T) {
	lip := job.Touch{ID: "lip", Name: "front lip", Moves: "with the body", Meets: "hard part and floor", Room: typed("150 mm ± 1 mm"), X: typed("-690 mm")}
	tail := job.Touch{ID: "tail", Name: "tailpipe", Moves: "with the body", Meets: "hard part and floor", Room: typed("230 mm ± 1 mm"), X: typed("3400 mm")}
	r := touched(t, []job.Touch{lip, tail}, "ways.kerb", "100 mm", "ways.hump", "60 mm", "ways.humpLength", "900 mm", "ways.rampLength", "6 m", "ways.rampRise", "300 mm", "survey.lowest", "130 mm")
	k := find(t, r, "ways.kerb")
	verdict(t, k, finding.Fail, finding.OwnerSigns)
	near(t, "sill over the kerb, mm", k.Value.Value*1000, 138-60-100, 0.1)
	says(t, k.Least, "DOWN higher by 50 mm")
	h := find(t, r, "ways.hump")
	verdict(t, h, finding.Pass, finding.OwnerSigns)
	says(t, h.Claim, "at ROAD")
	says(t, h.Why, "not cleared at DOWN", "Cleared at ROAD, HUMP and HIGH")
	verdict(t, find(t, r, "ways.ramp"), finding.Pass, finding.OwnerSigns)
	n := find(t, r, "ways.nose")
	verdict(t, n, finding.Pass, finding.OwnerSigns)
	near(t, "nose, degrees", n.Value.Value*180/3.141592653589793, 12.26, 0.01)
	// Without a lip nothing is said of the nose.
	r = touched(t, []job.Touch{tail}, "ways.rampLength", "6 m", "ways.rampRise", "300 mm", "survey.lowest", "130 mm")
	if f := find(t, r, "ways.ramp"); f.Verdict != finding.NotKnown || len(f.Needs) != 1 {
		t.Errorf("%v, needs %v", f.Verdict, f.Needs)
	}
	// A steep one is refused by the belly alone.
	r = touched(t, nil, "ways.rampLength", "4 m", "ways.rampRise", "900 mm")
	f := find(t, r, "ways.ramp")
	verdict(t, f, finding.Fail, finding.OwnerSigns)
	says(t, f.Least, "the travel allows")
	// A driveway that cannot be.
	r = touched(t, nil, "ways.rampLength", "1 m", "ways.rampRise", "900 mm")
	says(t, problem(t, r, "ways.rampRise").Says, "driveway")
}
