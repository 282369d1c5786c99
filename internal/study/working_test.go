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

// ruledOtherwise are findings that no limit of a number decides, by the end of
// their id, and what does.
var ruledOtherwise = map[string]string{
	"read":    "10 % apart from what was worked out; the number is the reading",
	"mount":   "an engineer's scheme, where nobody knows what the mounting carried before",
	"stretch": "which part ends the droop first",
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
		opens(t, name+", "+f.ID, rec, f)
		if f.Verdict == finding.TooClose {
			close++
		}
		if f.Value.Known() {
			seen++
		}
	})
	if seen < 70 || close < 7 {
		t.Errorf("only %d numbers, %d too close to call", seen, close)
	}
}

// opens tells that a finding's number has a whole working, and that one too close
// to call names the reading that would settle it.
func opens(t *testing.T, at string, rec *job.Job, f finding.Finding) {
	t.Helper()
	if f.Verdict == finding.TooClose {
		if _, err := rec.Field(f.SettleAt, false); f.Settle == "" || err != nil {
			t.Errorf("%s: settled by %q at %q: %v", at, f.Settle, f.SettleAt, err)
		}
	}
	if !f.Value.Known() || exactNumbers[last(f.ID)] != "" {
		return
	}
	w := f.Working
	if w == nil || len(w.Lines) == 0 || len(w.Terms) == 0 {
		t.Errorf("%s: %s has no working", at, f.Value)
		return
	}
	if len(f.Limits) == 0 && ruledOtherwise[last(f.ID)] == "" {
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
		if term.Path == "" {
			continue
		}
		if _, err := rec.Field(term.Path, false); err != nil {
			t.Errorf("%s: %s: %v", at, term.Name, err)
		}
		if r := readAt(rec, term.Path); r != nil && r.By != "" && term.Who == "" {
			t.Errorf("%s: %s was read by %s, which the working does not say", at, term.Path, r.By)
		}
	}
	if doubtful && len(w.Effects) == 0 {
		t.Errorf("%s: what its inputs do is not said", at)
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
		if adds(t, name+", "+f.ID, f) {
			seen++
		}
	})
	if seen < 60 {
		t.Errorf("only %d findings with a ±", seen)
	}
}

// adds tells that a finding has a ± and that its readings add up to it.
func adds(t *testing.T, at string, f finding.Finding) bool {
	t.Helper()
	if f.Working == nil || f.Value.Half == 0 || last(f.ID) == "read" { // whose working is of the difference
		return false
	}
	sum, shares := 0.0, 0.0
	for _, e := range f.Working.Effects {
		sum = math.Hypot(sum, e.Half.Value)
	}
	for _, term := range f.Working.Terms {
		shares += term.Share
	}
	if math.Abs(sum-f.Value.Half) > 0.01*f.Value.Half {
		t.Errorf("%s: %s, yet its readings give ± %g of %g", at, f.Value, sum, f.Value.Half)
	}
	if math.Abs(shares-1) > 1e-6 {
		t.Errorf("%s: the shares add up to %g", at, shares)
	}
	return true
}

// TestAgreesFivePerCent types readings five per cent larger, one at a time, and
// studies the record again: the number changes by what the tornado said. 4 % of
// the change is allowed, for an engine's own effects are carried on in proportion
// and a weight shifts the share of the sideways moment that is assumed from it.
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
		{"FL.pressure", "corners.FL.weight"}, {"front.peak", "axles.front.airVolume"}, {"front.hump", "presets.hump.front"}, {"front.bump", "axles.front.stop.solid"},
		{"front.down", "axles.front.damperRatio"}, {"touch.hose", "touch[hose].room"}, {"touch.hose", "axles.front.damperRatio"}, {"ground.road", "survey.lowest"},
		{"lamp.hump", "survey.lampAim"}, {"weight.cross", "corners.FR.weight"}, {"t1.corners", "axles.front.airVolume"}, {"wish.w2", "survey.lowest"}, {"ride.rear", "axles.rear.airVolume"},
	} {
		f := findIn(before.Findings, c.id)
		k := -1
		for i, term := range f.Working.Terms {
			if term.Path == c.path {
				k = i
			}
		}
		if k < 0 {
			t.Errorf("%s does not name %s", c.id, c.path)
			continue
		}
		term := f.Working.Terms[k]
		now := rec.Clone()
		n := term.Value
		if err := now.Set(c.path, fmt.Sprintf("%.6f %s", n.Unit.FromSI(1.05*n.Value), n.Unit.Name()), false); err != nil {
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

// variants are the worked car with other readings, so that every kind of finding
// that makes a number makes it once.
var variants = [][]string{
	{"axles.front.seat", "on the damper's mounting", "axles.front.mountCarried", "9000 N", "axles.rear.seat", "on the damper's mounting"},
	{"corners.FL.pressure", "4.4 bar", "corners.RR.pressure", "3.4 bar"},
	{"corners.RR.weight", "", "survey.total", "1022 kg", "axles.front.unsprungLeft", "", "axles.front.unsprungRight", "", "axles.front.unsprungAxle", "62 kg"},
	{"survey.ticketFront", "", "survey.ticketRear", "", "survey.total", "1040 kg"},
	{"survey.lowestLaden", "98 mm", "ways.hump", "90 mm", "ways.humpLength", "3700 mm", "ways.kerb", "60 mm"},
	{"survey.heightsRead", "HUMP", "ways.hump", "80 mm", "ways.kerb", "140 mm", "wishes[w2].target", "100 mm"},
	{"survey.heightsRead", "ROAD", "axles.front.loadedRadius", "282 mm", "axles.rear.loadedRadius", "283 mm", "presets.hump.front", "30 mm ± 1 mm"},
	{"axles.rear.springing", "steel", "axles.rear.steelRate", "40 N/mm ± 1 N/mm"},
	{"wishes[w1].measure", "sill height at DOWN", "wishes[w1].target", "100 mm", "wishes[w2].measure", "lift from ROAD", "wishes[w2].target", "20 mm", "wishes[w3].measure", "ride frequency", "wishes[w3].target", "1.5 Hz"},
	{"axles.front.damper.open", "520 mm", "axles.rear.damper.open", "560 mm"},
	{"leakTests[t1].relief.lift", "11.55 bar ± 0.1 bar"},
	{"survey.driver", "out", "corners.FL.weight", "252 kg", "corners.FR.weight", "250 kg"},
}

// TestEveryKindOfNumberOpensItsWorking holds the variants to the same.
func TestEveryKindOfNumberOpensItsWorking(t *testing.T) {
	data, _ := examples.Files.ReadFile("0412-quill-saloon.json")
	kinds := map[string]bool{}
	for n, changes := range variants {
		rec, err := job.Decode(data)
		if err != nil {
			t.Fatal(err)
		}
		for i := 0; i < len(changes); i += 2 {
			if err := rec.Set(changes[i], changes[i+1], false); err != nil {
				t.Fatal(err)
			}
		}
		for _, f := range Of(rec, catalog.NewShop("Thornhythe Coachworks")).Findings {
			at := fmt.Sprintf("variant %d, %s", n+1, f.ID)
			opens(t, at, rec, f)
			adds(t, at, f)
			if f.Value.Known() {
				kinds[f.ID] = true
			}
		}
	}
	for _, id := range []string{"front.mount", "rear.mount", "FL.read", "weight.ticket.total", "ways.hump", "ways.kerb", "rear.ride", "wish.w1", "wish.w2", "wish.w3", "front.stretch", "weight.cross", "t1.relief"} {
		if !kinds[id] {
			t.Errorf("no variant has the number of %s", id)
		}
	}
}
