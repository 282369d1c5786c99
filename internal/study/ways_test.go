package study_test

import (
	"strings"
	"testing"

	"jounce/internal/catalog"
	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/study"
)

// floorPoint is a touch point over the floor, behind the front axle.
func floorPoint(id, name, room, x string) job.Touch {
	return job.Touch{ID: id, Name: name, Moves: "with the body", Meets: "hard part and floor", Room: typed(room), X: typed(x)}
}

// Where the lowest part hangs under the nose nothing is known of the belly, and
// a hump or a driveway is not passed on the nose alone.
func TestBellyNotReadIsNoPass(t *testing.T) {
	sump := floorPoint("sump", "sump", "105 mm ± 2 mm", "-100 mm")
	lip, tail := floorPoint("lip", "front lip", "190 mm ± 2 mm", "-600 mm"), floorPoint("tail", "tailpipe", "230 mm ± 2 mm", "3100 mm")
	set := []string{"survey.lowest", "105 mm", "survey.lowestName", "sump", "wishes[w2].target", "60 mm",
		"ways.hump", "100 mm", "ways.humpLength", "900 mm", "ways.rampLength", "3 m", "ways.rampRise", "600 mm"}
	r := touched(t, []job.Touch{sump, lip, tail}, set...)
	for _, id := range []string{"ways.hump", "ways.ramp"} {
		f := find(t, r, id)
		if f.Verdict != finding.NotKnown || len(f.Needs) != 1 || !strings.Contains(f.Needs[0].Label, "between the axles") {
			t.Errorf("%s: %v, needs %v", id, f.Verdict, f.Needs)
		}
		says(t, f.Why, "not enough known at ")
	}
	r = touched(t, []job.Touch{sump, lip, tail, floorPoint("joint", "exhaust joint", "140 mm ± 2 mm", "1300 mm")}, set...)
	verdict(t, find(t, r, "ways.hump"), finding.Pass, finding.OwnerSigns)
	// A hump so low that nothing can meet it, wherever it hangs, is passed.
	r = touched(t, []job.Touch{sump}, append(set, "ways.hump", "60 mm", "wishes[w2].target", "90 mm")...)
	verdict(t, find(t, r, "ways.hump"), finding.Pass, finding.OwnerSigns)
}

// On a hump longer than the car the nose comes down where the belly does not.
func TestLongHumpAsksForTheOverhangs(t *testing.T) {
	set := []string{"survey.lowest", "118 mm", "ways.hump", "100 mm", "ways.humpLength", "3.7 m"}
	f := find(t, touched(t, nil, set...), "ways.hump")
	if f.Verdict != finding.NotKnown || len(f.Needs) != 2 {
		t.Errorf("%v, needs %v", f.Verdict, f.Needs)
	}
	lip, tail := floorPoint("lip", "front lip", "160 mm ± 2 mm", "-690 mm"), floorPoint("tail", "tailpipe", "230 mm ± 2 mm", "3400 mm")
	f = find(t, touched(t, []job.Touch{lip, tail}, set...), "ways.hump")
	verdict(t, f, finding.Pass, finding.OwnerSigns)
}

// A driveway steeper than a wall is asked about in plain words.
func TestDrivewaySteeperThanAWall(t *testing.T) {
	p := problem(t, touched(t, nil, "ways.rampLength", "3 m", "ways.rampRise", "2900 mm"), "ways.rampRise")
	says(t, p.Says, "steeper than a car climbs", "exchanged?")
	if strings.Contains(p.Says, "[mm]") {
		t.Error(p.Says)
	}
}

// Floor points and the nose are held against the floor with everybody aboard.
func TestFloorPointsLaden(t *testing.T) {
	lip := floorPoint("lip", "front lip", "150 mm ± 1 mm", "-690 mm")
	sunk := []string{"survey.lowest", "104 mm", "survey.lowestLaden", "94 mm", "ways.hump", "60 mm"}
	r := touched(t, []job.Touch{lip, floorPoint("tow", "tow eye", "105 mm ± 1 mm", "3200 mm")}, sunk...)
	f := find(t, r, "ground.down")
	near(t, "lowest at DOWN, mm", f.Value.Value*1000, 104-60-10, 0.1)
	says(t, f.Why, "Read laden")
	if f.Working == nil || len(f.Working.Lines) < 2 {
		t.Errorf("working %+v", f.Working)
	}
	near(t, "nose, degrees", find(t, r, "ways.nose").Value.Value*180/3.141592653589793, 11.47, 0.01) // atan(140/690)
	r = touched(t, []job.Touch{lip, floorPoint("tow", "tow eye", "75 mm ± 1 mm", "3200 mm")}, sunk...)
	f = find(t, r, "touch.tow")
	near(t, "tow eye at DOWN, mm", f.Value.Value*1000, 75-60-10, 0.1)
	says(t, f.Why, "5 ± 1 mm at DOWN, laden")
	// Where it is not said whether load makes it sink, nothing is passed.
	r = touched(t, []job.Touch{lip, floorPoint("tow", "tow eye", "102 mm ± 1 mm", "3200 mm")}, "axles.rear.control", "", "ways.hump", "60 mm")
	for _, id := range []string{"ground.down", "touch.tow", "ways.nose"} {
		if f := find(t, r, id); f.Verdict != finding.NotKnown || len(f.Needs) != 1 || f.Needs[0].Path != "axles.rear.control" {
			t.Errorf("%s: %v, needs %v", id, f.Verdict, f.Needs)
		}
	}
}

// Nobody is told to set DOWN above ROAD.
func TestDownIsNotRaisedAboveRoad(t *testing.T) {
	bag := job.Touch{ID: "bag", Name: "bag to tyre", Moves: "with the wheel", Meets: "bag and anything", Wheel: "RL", Room: typed("14 mm ± 3 mm"), Ratio: typed("0.1")}
	f := find(t, touched(t, []job.Touch{bag}), "touch.bag")
	if strings.Contains(f.Least, "higher") || !strings.Contains(f.Least, "more room there") {
		t.Error(f.Least)
	}
}

// A sill under the lowest hard part is asked about, wherever it was read.
func TestSillUnderTheLowest(t *testing.T) {
	for path, text := range map[string]string{"survey.sill": "90 mm", "outline.sillFront": "80 mm"} {
		_, r := worked(t, path, text)
		says(t, problem(t, r, path).Says, "under the lowest hard part", "exhaust joint")
	}
	_, r := worked(t)
	for _, p := range r.Problems {
		if strings.Contains(p.Says, "The sill stands") {
			t.Error(p.Says)
		}
	}
}

// A DOWN under the end of the travel is a height that the car never has.
func TestDownUnderTheEndOfTheTravel(t *testing.T) {
	_, r := worked(t, "presets.down.rear", "-200 mm")
	says(t, problem(t, r, "presets.down.rear").Says, "−200 mm at the rear", "solid 86.3 ± 2.6 mm below ROAD", "cannot go there")
	says(t, find(t, r, "rear.down").Claim, "lower than the rear can go")
	_, r = worked(t, "presets.down.rear", "-80 mm") // on the stop, not past it
	says(t, find(t, r, "rear.down").Claim, "sits on its stop")
}

// A tyre that moves with the body, or a floor that the wheel meets, is asked
// about.
func TestTouchKindsThatDisagree(t *testing.T) {
	for meets, moves := range map[string]string{"tyre and anything": "with the body", "tyre and liner": "with the body", "hard part and floor": "with the wheel"} {
		r := touched(t, []job.Touch{{ID: "a", Name: "arch", Moves: moves, Meets: meets, Wheel: "FL", Room: typed("120 mm")}})
		says(t, problem(t, r, "touch[a].moves").Says, "Which is right?")
	}
}

// A HIGH over the end of the travel is asked about in the same way.
func TestHighOverTheEndOfTheTravel(t *testing.T) {
	_, r := worked(t, "presets.high.front", "120 mm")
	says(t, problem(t, r, "presets.high.front").Says, "120 mm at the front", "cannot go there")
}

// Four hub-to-arch heights are held to the same plane as the heights over the
// floor; a note says that the arches truly differ.
func TestHubToArchNoStraightBodyHas(t *testing.T) {
	j, r := worked(t, "corners.FL.hubToArch", "390 mm")
	says(t, problem(t, r, "corners.FL.hubToArch").Says, "expected no more than 6 mm", "FL and FR differ by 29", "Read FL and FR again first")
	j.Corners.FR.HubToArch.Note = "arch mended"
	for _, p := range study.Of(j, catalog.NewShop("x")).Problems {
		if strings.Contains(p.Says, "Hub to arch, FL") {
			t.Errorf("asked though said: %s", p.Says)
		}
	}
}
