package job

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func encoded(t interface{ Fatal(...any) }, j *Job) string {
	b, err := j.Encode()
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// mergePlaces are places that the random edits touch: texts, readings, items and
// items in items, so that edits of two sides often meet.
var mergePlaces = []string{"name", "car.form", "survey.sill", "corners.FL.weight", "axles.front.spring", "wishes[w1].words", "wishes[w2].words", "wishes[w2].target",
	"instruments[i1].name", "springs[s1].name", "springs[s1].points[p1].load", "springs[s1].points[p2].load", "springs[s1].points[p2].height",
	"springs[s2].points[p1].load", "loads.seats[driver].mass", "loads.seats[driver].name", "outline.stations[scuttle].x"}

var mergeItems = []string{"wishes[w1]", "wishes[w2]", "springs[s1]", "springs[s1].points[p1]", "springs[s1].points[p2]", "loads.seats[driver]", "instruments[i1]"}

// edited is a record after a few random edits. places nil takes all.
func edited(t *rapid.T, from *Job, places []string, name string) *Job {
	j := from.Clone()
	for range rapid.IntRange(0, 6).Draw(t, name+" edits") {
		switch k := rapid.IntRange(0, 9).Draw(t, "kind"); {
		case k == 0 && places == nil:
			_ = j.Remove(rapid.SampledFrom(mergeItems).Draw(t, "item")) // it may not be there
		case k == 1 && places == nil:
			slices.Reverse(j.Wishes)
		default:
			from := places
			if from == nil {
				from = mergePlaces
			}
			f, err := j.Field(rapid.SampledFrom(from).Draw(t, "place"), true)
			if err != nil {
				t.Fatal(err)
			}
			text := rapid.SampledFrom([]string{"", "1 mm", "2 mm", "2 mm ", "3 mm ± 1 mm"}).Draw(t, "text")
			if f.Text != nil {
				*f.Text = text
				continue
			}
			if text == "" {
				*f.Reading = Reading{}
				continue
			}
			*f.Reading = Reading{Value: text, With: rapid.SampledFrom([]string{"", "i1"}).Draw(t, "with"),
				By: rapid.SampledFrom([]string{"T. Marrow", "H. Orme"}).Draw(t, "by"), At: rapid.SampledFrom([]string{"2026-03-14T10:42:00Z", "2026-03-14T10:50:00Z"}).Draw(t, "at")}
		}
	}
	return j
}

func same(t *rapid.T, what string, got, want *Job) {
	if g, w := encoded(t, got.Clone()), encoded(t, want.Clone()); g != w { // an empty list is like none
		t.Fatalf("%s:\n%s\nexpected\n%s", what, g, w)
	}
}

// TestConservesMerge: the laws of a merge, on random triples.
func TestConservesMerge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := edited(t, &Job{Schema: 1, ID: "0412"}, nil, "base")
		x, y := edited(t, b, nil, "mine"), edited(t, b, nil, "theirs")
		before := [3]string{encoded(t, b), encoded(t, x), encoded(t, y)}
		for _, l := range []struct {
			what          string
			b, x, y, want *Job
		}{{"only theirs changed", b, b, y, y}, {"only mine changed", b, x, b, x}, {"both the same", b, x, x, x}} {
			got, clashes := Merge(l.b, l.x, l.y)
			if len(clashes) > 0 {
				t.Fatalf("%s: %+v", l.what, clashes)
			}
			same(t, l.what, got, l.want)
		}
		m, clashes := Merge(b, x, y)
		n, turned := Merge(b, y, x)
		same(t, "exchanged sides", n, m)
		for i := range turned {
			turned[i].Mine, turned[i].Theirs = turned[i].Theirs, turned[i].Mine
		}
		if !reflect.DeepEqual(clashes, turned) {
			t.Fatalf("clashes %+v\nexchanged %+v", clashes, turned)
		}
		if len(clashes) == 0 {
			again, more := Merge(b, x, m)
			if len(more) > 0 {
				t.Fatalf("merged a second time: %+v", more)
			}
			same(t, "merged a second time", again, m)
		}
		answers := map[string]Stand{}
		for _, c := range clashes {
			answers[c.Path] = Mine
			if rapid.Bool().Draw(t, "theirs") {
				answers[c.Path] = Theirs
			}
			if c.Added && rapid.Bool().Draw(t, "both") {
				answers[c.Path] = Both
			}
		}
		if _, left := MergeWith(b, x, y, answers); len(left) > 0 {
			t.Fatalf("every clash is answered, and %+v is left", left)
		}
		if after := [3]string{encoded(t, b), encoded(t, x), encoded(t, y)}; after != before {
			t.Fatal("a merge changed what it was given")
		}
	})
}

// TestConservesWhatTwoChangedInDifferentPlaces: both changes stand, without a
// question.
func TestConservesWhatTwoChangedInDifferentPlaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := edited(t, &Job{Schema: 1, ID: "0412"}, mergePlaces, "base")
		shuffled := rapid.Permutation(mergePlaces).Draw(t, "places")
		cut := rapid.IntRange(1, len(shuffled)-1).Draw(t, "cut")
		x, y := edited(t, b, shuffled[:cut], "mine"), edited(t, b, shuffled[cut:], "theirs")
		m, clashes := Merge(b, x, y)
		if len(clashes) > 0 {
			t.Fatalf("%+v", clashes)
		}
		for i, side := range []*Job{x, y} {
			for _, path := range [][]string{shuffled[:cut], shuffled[cut:]}[i] {
				if got, want := contentAt(m, path), contentAt(side, path); got != want {
					t.Fatalf("%s is %q, expected %q", path, got, want)
				}
			}
		}
	})
}

func contentAt(j *Job, path string) string {
	f, err := j.Field(path, false)
	if err != nil {
		return ""
	}
	if f.Reading != nil && !f.Reading.IsZero() {
		return fmt.Sprint(*f.Reading)
	}
	return f.Content()
}

func mergeBase(t *testing.T) (b, x, y *Job) {
	t.Helper()
	b = &Job{Schema: 1, ID: "0412"}
	set(t, b, "corners.FL.weight", "270 kg", "springs[s1].name", "bellows 110", "springs[s1].points[p1].load", "2795 N", "axles.front.spring", "s1")
	return b, b.Clone(), b.Clone()
}

func TestScenario12BothReadingsAreKeptWithNamesAndTimes(t *testing.T) {
	b, x, y := mergeBase(t)
	x.Corners.FL.Weight = Reading{Value: "276 kg", By: "T. Marrow", At: "2026-03-14T10:42:00Z"}
	y.Corners.FL.Weight = Reading{Value: "286 kg", By: "H. Orme", At: "2026-03-14T10:50:00Z", With: "i1"}
	m, clashes := Merge(b, x, y)
	if len(clashes) != 1 {
		t.Fatalf("%+v, expected one clash", clashes)
	}
	c := clashes[0]
	if c.Path != "corners.FL.weight" || c.Label != "FL weight" || c.Base.Value != "270 kg" || c.Mine.Reading != x.Corners.FL.Weight || c.Theirs.Reading != y.Corners.FL.Weight {
		t.Errorf("%+v", c)
	}
	if m.Corners.FL.Weight.Value != "270 kg" {
		t.Errorf("unanswered, the weight is %q: somebody's value won", m.Corners.FL.Weight.Value)
	}
	for stand, want := range map[Stand]Reading{Mine: x.Corners.FL.Weight, Theirs: y.Corners.FL.Weight} {
		if m, left := MergeWith(b, x, y, map[string]Stand{c.Path: stand}); len(left) > 0 || m.Corners.FL.Weight != want {
			t.Errorf("answered %d: %+v, left %+v", stand, m.Corners.FL.Weight, left)
		}
	}
}

func TestTwoWhoReadTheSameAgree(t *testing.T) {
	b, x, y := mergeBase(t)
	x.Corners.FL.Weight = Reading{Value: "276 kg", By: "T. Marrow", At: "2026-03-14T10:42:00Z"}
	y.Corners.FL.Weight = Reading{Value: "276 kg", By: "H. Orme", At: "2026-03-14T10:40:00Z"}
	if m, clashes := Merge(b, x, y); len(clashes) > 0 || m.Corners.FL.Weight != y.Corners.FL.Weight {
		t.Errorf("%+v, %+v, expected the earlier reading", m.Corners.FL.Weight, clashes)
	}
	y.Corners.FL.Weight.With = "i1"
	if _, clashes := Merge(b, x, y); len(clashes) != 1 {
		t.Errorf("%+v, expected a clash: a reading with an instrument is another reading", clashes)
	}
}

func TestTakenOutHereAndChangedThereIsAClash(t *testing.T) {
	b, x, y := mergeBase(t)
	if err := x.Remove("springs[s1].points[p1]"); err != nil {
		t.Fatal(err)
	}
	set(t, y, "springs[s1].points[p1].load", "2800 N")
	_, clashes := Merge(b, x, y)
	if len(clashes) != 1 || clashes[0].Path != "springs[s1].points[p1]" || clashes[0].Mine.There || clashes[0].Theirs.Value != "Load 2800 N" || !clashes[0].Item {
		t.Fatalf("%+v", clashes)
	}
	if m, _ := MergeWith(b, x, y, map[string]Stand{clashes[0].Path: Mine}); len(m.Springs[0].Points) != 0 {
		t.Errorf("taken out, and %+v is left", m.Springs[0].Points)
	}
	if m, _ := MergeWith(b, x, y, map[string]Stand{clashes[0].Path: Theirs}); m.Springs[0].Points[0].Load.Value != "2800 N" {
		t.Errorf("%+v", m.Springs[0].Points)
	}
}

func TestTwoAddedUnderOneNumber(t *testing.T) {
	b, x, y := mergeBase(t)
	set(t, x, "springs[s2].name", "sleeve 90", "axles.front.spring", "s2", "wishes[w1].words", "low")
	set(t, y, "springs[s2].name", "bellows 130", "axles.rear.spring", "s2", "wishes[w1].target", "80 mm")
	m, clashes := Merge(b, x, y)
	if len(clashes) != 1 || clashes[0].Path != "springs[s2]" || !clashes[0].Added || clashes[0].Base.There {
		t.Fatalf("%+v, expected a clash of the two springs and none of the wish", clashes)
	}
	if w := m.Wishes[0]; w.Words != "low" || w.Target.Value != "80 mm" {
		t.Errorf("the wish is %+v", w)
	}
	m, clashes = MergeWith(b, x, y, map[string]Stand{"springs[s2]": Both})
	if len(clashes) != 0 || len(m.Springs) != 3 || m.Springs[1].Name != "bellows 130" || m.Springs[2].Name != "sleeve 90" {
		t.Fatalf("%+v, %+v", clashes, m.Springs)
	}
	if m.Axles.Front.Spring != m.Springs[2].ID || m.Axles.Rear.Spring != m.Springs[1].ID {
		t.Errorf("front %s, rear %s: an axle lost its spring", m.Axles.Front.Spring, m.Axles.Rear.Spring)
	}
	if _, err := Decode([]byte(encoded(t, m))); err != nil {
		t.Error(err)
	}
}

func TestAListWhoseIDsStandTwiceIsOneValue(t *testing.T) {
	b, x, y := mergeBase(t)
	x.Wishes = []Wish{{ID: "w1", Words: "low"}, {ID: "w1", Words: "lower"}}
	y.Wishes = []Wish{{Words: "high"}}
	_, clashes := Merge(b, x, y)
	if len(clashes) != 1 || clashes[0].Path != "wishes" || !strings.Contains(clashes[0].Mine.Value, "lower") {
		t.Errorf("%+v", clashes)
	}
}
