package study

import (
	"slices"
	"testing"

	"jounce/examples"
	"jounce/internal/catalog"
	"jounce/internal/job"
)

// quill is the example saloon with some places typed anew.
func quill(t *testing.T, pairs ...string) *job.Job {
	t.Helper()
	data, err := examples.Files.ReadFile("0412-quill-saloon.json")
	if err != nil {
		t.Fatal(err)
	}
	j, err := job.Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	for i := 0; i < len(pairs); i += 2 {
		if err := j.Set(pairs[i], pairs[i+1], true); err != nil {
			t.Fatal(err)
		}
	}
	return j
}

// round is four readings of one kind as pairs for quill.
func round(leaf, fl, fr, rl, rr string) []string {
	return []string{"corners.FL." + leaf, fl, "corners.FR." + leaf, fr, "corners.RL." + leaf, rl, "corners.RR." + leaf, rr}
}

func TestFourReadingsInEachOthersPlace(t *testing.T) {
	for _, c := range []struct {
		name        string
		before, now []string
		says        string
		swap        [2]string // the first pair of the first answer
		answers     int
	}{
		{"weights, front and rear", nil, round("weight", "234", "234", "276", "276"), "front and rear look exchanged", [2]string{"corners.FL.weight", "corners.RL.weight"}, 1},
		{"heights against before, left and right", round("hubToArch", "360", "350", "380", "368"), round("hubToArch", "350", "360", "368", "380"), "left and right look exchanged", [2]string{"corners.FL.hubToArch", "corners.FR.hubToArch"}, 1},
		{"pressures against before, diagonals", round("pressure", "3.5", "3.4", "2.9", "2.5"), round("pressure", "2.5", "2.9", "3.4", "3.5"), "diagonals look exchanged", [2]string{"corners.FL.pressure", "corners.RR.pressure"}, 1},
		{"weights by themselves", round("weight", "", "", "", ""), round("weight", "276", "300", "246", "221"), "the right reads 24 more, behind the left reads 25 more", [2]string{"corners.FL.weight", "corners.FR.weight"}, 2},
		{"heights by themselves", round("groundToBody", "", "", "", ""), round("groundToBody", "231", "240", "246", "236"), "the right reads 9 more, behind the left reads 10 more", [2]string{"corners.FL.groundToBody", "corners.FR.groundToBody"}, 2},
		{"the driver's side at both ends", round("weight", "", "", "", ""), round("weight", "276", "300", "221", "246"), "", [2]string{}, 0},
		{"lower by 40 all round", round("hubToArch", "360", "350", "380", "368"), round("hubToArch", "320", "310", "340", "328"), "", [2]string{}, 0},
		{"three of four", round("weight", "", "", "", ""), round("weight", "276", "300", "246", ""), "", [2]string{}, 0},
		{"no number among them", nil, round("weight", "276", "300", "246", "heavy"), "", [2]string{}, 0},
		{"nothing typed", nil, nil, "", [2]string{}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			list := Exchanged(quill(t, c.before...), quill(t, c.now...))
			if c.says == "" {
				if len(list) > 0 {
					t.Errorf("asked: %v", list)
				}
				return
			}
			if len(list) != 1 || !contains(list[0].Says, c.says) {
				t.Fatalf("%v, expected a question with %q", list, c.says)
			}
			if s := list[0].Swaps; len(s) != c.answers || s[0].Pairs[0] != c.swap {
				t.Errorf("answers %v, expected %d, the first with %v", s, c.answers, c.swap)
			}
		})
	}
}

func TestExchangedAsksAtAPlaceThatChanged(t *testing.T) {
	before := quill(t, round("weight", "276", "300", "221", "246")...)
	list := Exchanged(before, quill(t, round("weight", "276", "300", "246", "221")...))
	if len(list) != 1 || list[0].Path != "corners.RL.weight" {
		t.Errorf("%v, expected the question at RL, which changed", list)
	}
}

func TestScenario8AskedWhenTheHeightsAreTyped(t *testing.T) {
	before, now := quill(t), quill(t, round("groundToBody", "640", "641", "632", "645")...)
	list := Warped(before, now, Of(now, catalog.NewShop("x")))
	if len(list) != 1 {
		t.Fatalf("%v, expected one question", list)
	}
	for _, w := range []string{"12", "no more than 6", "RL and RR differ by 13, FL and FR by 1", "Read RL and RR again first.", "Which was misread?"} {
		if !contains(list[0].Says, w) {
			t.Errorf("%q lacks %q", list[0].Says, w)
		}
	}
	if list := Warped(now, now.Clone(), Of(now, catalog.NewShop("x"))); list != nil {
		t.Errorf("nothing changed, yet: %v", list)
	}
	if list := Warped(now, before, Of(before, catalog.NewShop("x"))); list != nil {
		t.Errorf("heights in one plane, yet: %v", list)
	}
	if slices.ContainsFunc(Exchanged(before, now), func(p job.Problem) bool { return true }) {
		t.Error("a warped set is asked about as exchanged")
	}
}
