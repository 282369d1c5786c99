package study_test

import (
	"strings"
	"testing"

	"jounce/internal/finding"
	"jounce/internal/job"
)

// A wish is not met while a part that is not read may end it sooner.
func TestWishWaitsForWhatIsNotRead(t *testing.T) {
	_, r := worked(t, "wishes[w1].target", "40 mm")
	verdict(t, find(t, r, "wish.w1"), finding.Pass, finding.OwnerSigns)
	for path, id := range map[string]string{"springs[front].closed": "wish.w1", "springs[front].open": "wish.w2"} {
		_, r := worked(t, "wishes[w1].target", "40 mm", "wishes[w2].target", "60 mm", path, "")
		f := find(t, r, id)
		if f.Verdict != finding.NotKnown || len(f.Needs) == 0 || f.Needs[0].Path != path {
			t.Errorf("without %s: %v, needs %v", path, f.Verdict, f.Needs)
		}
	}
	half := append(append([]job.Touch(nil), handbook31...), job.Touch{ID: "shield", Name: "splash shield", Moves: "with the wheel", Meets: "tyre and liner"})
	f := find(t, touched(t, half, "wishes[w1].target", "40 mm"), "wish.w1")
	if f.Verdict != finding.NotKnown || len(f.Needs) == 0 {
		t.Errorf("with a touch point by halves: %v", f.Verdict)
	}
}

// What cannot be had is never offered: no drop below nothing, no sill over ROAD.
func TestWishOffersWhatCanBeHad(t *testing.T) {
	near := []job.Touch{{ID: "bag", Name: "bag to tyre", Moves: "with the wheel", Meets: "bag and anything", Wheel: "RL", Room: typed("14 mm ± 2 mm"), Ratio: typed("0.1")}}
	for _, measure := range []string{"drop from ROAD", "sill height at DOWN"} {
		f := find(t, touched(t, near, "wishes[w1].measure", measure, "wishes[w1].target", "80 mm"), "wish.w1")
		verdict(t, f, finding.Fail, finding.OwnerSigns)
		says(t, f.Least, "Nothing can be agreed for sure")
		if strings.Contains(f.Least, "Agree") {
			t.Error(f.Least)
		}
	}
}

// A hump is judged with everybody aboard.
func TestWishedHumpLaden(t *testing.T) {
	_, r := worked(t, "survey.lowest", "105 mm", "survey.lowestLaden", "95 mm")
	f := find(t, r, "wish.w2")
	near(t, "hump that can be had, mm", f.Value.Value*1000, 95+20-25, 0.1)
}

// A drop says what stands in its way after what comes first; a sill is wanted
// low.
func TestWishSaysWhatComesAfterTheFirst(t *testing.T) {
	r := touched(t, handbook31, "wishes[w2].measure", "sill height at DOWN", "wishes[w2].target", "60 mm")
	says(t, find(t, r, "wish.w1").Why, "first is the front bump stop at 68.0 ± 2.2 mm", "In the way after it: the rear stop at 71.3 ± 2.6 mm")
	says(t, find(t, r, "wish.w2").Why, "the lowest that can be had is 70 ± 3 mm")
}

// Without one touch point that the wheel closes, no drop is promised: a tyre may
// meet before the stop.
func TestNoDropIsPromisedWithoutATouchPoint(t *testing.T) {
	f := find(t, touched(t, handbook31[:2], "wishes[w1].target", "40 mm"), "wish.w1")
	if f.Verdict != finding.NotKnown || len(f.Needs) != 1 || f.Needs[0].Path != "touch" {
		t.Errorf("%v, needs %v", f.Verdict, f.Needs)
	}
	verdict(t, find(t, touched(t, handbook31, "wishes[w1].target", "40 mm"), "wish.w1"), finding.Pass, finding.OwnerSigns)
}
