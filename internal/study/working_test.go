package study

import (
	"fmt"
	"io/fs"
	"math"
	"testing"

	"jounce/examples"
	"jounce/internal/catalog"
	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/source"
)

// exactNumbers are findings whose number needs no working, by the end of their
// id, and why. What has no number at all, such as a choice or a count, is not
// asked for one.
var exactNumbers = map[string]string{
	"refused": "the pressure that somebody set, held against the relief valve's setting",
}

// everyFinding studies all examples.
func everyFinding(t *testing.T, see func(name string, rec *job.Job, f finding.Finding)) {
	t.Helper()
	names, _ := fs.Glob(examples.Files, "*.json")
	if len(names) < 3 {
		t.Fatalf("%d examples", len(names))
	}
	for _, name := range names {
		data, _ := examples.Files.ReadFile(name)
		rec, err := job.Decode(data)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range Of(rec, catalog.NewShop("Thornhythe Coachworks")).Findings {
			see(name, rec, f)
		}
	}
}

func TestEveryNumberOpensItsWorking(t *testing.T) {
	seen, close := 0, 0
	everyFinding(t, func(name string, rec *job.Job, f finding.Finding) {
		at := name + ", " + f.ID
		if f.Verdict == finding.TooClose {
			close++
			if _, err := rec.Field(f.SettleAt, false); f.Settle == "" || err != nil {
				t.Errorf("%s: settled by %q at %q: %v", at, f.Settle, f.SettleAt, err)
			}
		}
		if !f.Value.Known() || exactNumbers[last(f.ID)] != "" {
			return
		}
		seen++
		w := f.Working
		if w == nil || len(w.Lines) == 0 || len(w.Terms) == 0 {
			t.Errorf("%s: %s has no working", at, f.Value)
			return
		}
		if len(f.Limits) == 0 {
			t.Errorf("%s: held against nothing", at)
		}
		for _, l := range w.Lines {
			if l.Symbols == "" || l.Result == "" {
				t.Errorf("%s: a line without symbols or result: %+v", at, l)
			}
		}
		doubtful := false
		for _, term := range w.Terms {
			doubtful = doubtful || term.Value.Half > 0
			if !term.Mark.Known() || term.Mark == source.Derived && term.Path == "" || term.Symbol == "" || term.Name == "" || !term.Value.Known() {
				t.Errorf("%s: %+v", at, term)
			}
			if term.Path != "" {
				if _, err := rec.Field(term.Path, false); err != nil {
					t.Errorf("%s: %s: %v", at, term.Name, err)
				}
			}
			if r := readAt(rec, term.Path); r != nil && r.By != "" && term.Who == "" {
				t.Errorf("%s: %s was read by %s, which the working does not say", at, term.Path, r.By)
			}
		}
		if doubtful && len(w.Effects) == 0 {
			t.Errorf("%s: what its inputs do is not said", at)
		}
	})
	if seen < 70 || close < 7 {
		t.Errorf("only %d numbers, %d too close to call", seen, close)
	}
}

func last(id string) string {
	for i := len(id) - 1; i >= 0; i-- {
		if id[i] == '.' {
			return id[i+1:]
		}
	}
	return id
}

func readAt(rec *job.Job, path string) *job.Reading {
	if f, err := rec.Field(path, false); err == nil {
		return f.Reading
	}
	return nil
}

// TestAgreesTornadoAndDoubt adds up what the doubt of each reading does: it is
// the ± that stands beside the number. Where a reading comes in on two ways the
// two are added as independent, as the number has them. 1 % is for what is left
// out below a thousandth of the longest bar and for the engines' own steps.
func TestAgreesTornadoAndDoubt(t *testing.T) {
	seen := 0
	everyFinding(t, func(name string, _ *job.Job, f finding.Finding) {
		if f.Working == nil || f.Value.Half == 0 {
			return
		}
		sum, shares := 0.0, 0.0
		for _, e := range f.Working.Effects {
			sum = math.Hypot(sum, e.Half.Value)
		}
		for _, term := range f.Working.Terms {
			shares += term.Share
		}
		if math.Abs(sum-f.Value.Half) > 0.01*f.Value.Half {
			t.Errorf("%s, %s: %s, yet its readings give ± %g of %g", name, f.ID, f.Value, sum, f.Value.Half)
		}
		if math.Abs(shares-1) > 1e-6 {
			t.Errorf("%s, %s: the shares add up to %g", name, f.ID, shares)
		}
		seen++
	})
	if seen < 60 {
		t.Errorf("only %d findings with a ±", seen)
	}
}

// TestAgreesFivePerCent types each reading of a working five per cent larger and
// studies the record again: the number changes by what the tornado said. Left
// out are readings that decide more than one number (a choice of the greater, a
// tyre's size), and the tolerance is what a straight line misses in an engine's
// own frequency: 4 % of the change, and a rounding of the typed text.
func TestAgreesFivePerCent(t *testing.T) {
	data, _ := examples.Files.ReadFile("0412-quill-saloon.json")
	rec, err := job.Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	shop := catalog.NewShop("Thornhythe Coachworks")
	before := Of(rec, shop)
	for _, c := range []struct{ id, path string }{
		{"rear.laden", "corners.RL.weight"}, {"rear.laden", "axles.rear.springRatio"}, {"rear.laden", "loads.luggage"}, {"rear.laden", "axles.rear.unsprungLeft"},
		{"FL.pressure", "corners.FL.weight"}, {"front.peak", "axles.front.airVolume"}, {"front.hump", "presets.hump.front"}, {"front.bump", "axles.front.damper.solid"},
		{"front.down", "axles.front.damperRatio"}, {"touch.hose", "touch[hose].room"}, {"touch.hose", "axles.front.damperRatio"}, {"ground.road", "survey.lowest"},
		{"ways.nose", "survey.wheelbase"}, {"t1.corners", "axles.front.airVolume"}, {"wish.w2", "survey.lowest"}, {"ride.rear", "axles.rear.airVolume"},
	} {
		f := findIn(before.Findings, c.id)
		k := -1
		for i, term := range f.Working.Terms {
			if term.Path == c.path {
				k = i
			}
		}
		if k < 0 {
			continue
		}
		term := f.Working.Terms[k]
		now := rec.Clone()
		n := term.Value
		if err := now.Set(c.path, fmt.Sprintf("%.9g %s", n.Unit.FromSI(1.05*n.Value), n.Unit.Name()), false); err != nil {
			t.Fatal(err)
		}
		var said finding.Effect
		for _, e := range f.Working.Effects {
			if e.Name == term.Name {
				said = e
			}
		}
		g := findIn(Of(now, shop).Findings, c.id)
		got := g.Value.Value - f.Value.Value
		if math.Abs(got-said.Change.Value) > 0.04*math.Abs(said.Change.Value) {
			t.Errorf("%s: five per cent more of %s: %s → %s, %g; said %g", c.id, c.path, f.Value, g.Value, got, said.Change.Value)
		}
	}
}

func findIn(list []finding.Finding, id string) finding.Finding {
	for _, f := range list {
		if f.ID == id {
			return f
		}
	}
	return finding.Finding{Working: &finding.Working{}}
}

// TestOrderOfHurt: within a verdict and a grade what bursts comes before what
// crushes, tears, wears, grounds, breaks and annoys (common practice).
func TestOrderOfHurt(t *testing.T) {
	want := []string{"front.peak", "mount", "touch.hose", "touch.liner", "ground.road", "front.bump", "ways.ramp", "wish.w1"}
	keys := []string{"spring.peak", "mount.load.most", "room.slack.least", "room.liner.least", "ground.road.least", "travel.bump.least", "way.clear.least", "wish"}
	var list []finding.Finding
	for i := range want {
		k := len(want) - 1 - i
		list = append(list, finding.Finding{ID: want[k], Verdict: finding.Fail, Grade: finding.Stops, Limits: []finding.Limit{{Key: keys[k], Grade: finding.Stops}}})
	}
	list = append(list, finding.Finding{ID: "relief", Verdict: finding.Pass, Grade: finding.Stops}, finding.Finding{ID: "isolation", Verdict: finding.Fail, Grade: finding.Note})
	inOrder(list)
	for i, id := range append(want, "isolation", "relief") {
		if list[i].ID != id {
			t.Errorf("place %d: %s, want %s", i+1, list[i].ID, id)
		}
	}
	everyFinding(t, func(name string, _ *job.Job, f finding.Finding) {
		if _, named := hurt[f.Topic]; !named && f.Topic != "leak" {
			t.Errorf("%s, %s: the topic %s has no rank", name, f.ID, f.Topic)
		}
		for _, l := range f.Limits {
			if _, ok := ranked(l.Key); !ok {
				t.Errorf("%s, %s: the limit %s has no rank", name, f.ID, l.Key)
			}
		}
	})
}
