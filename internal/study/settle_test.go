package study_test

import (
	"testing"

	"jounce/internal/catalog"
	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/study"
)

// Whatever is judged can come so near its limit that it is too close to call:
// with each limit put onto the number that it judges, every such finding names
// the reading that would settle it and where it is typed.
func TestTooCloseAlwaysNamesWhatSettles(t *testing.T) {
	seen, known := map[string]bool{}, map[string]bool{}
	for _, l := range catalog.NewShop("x").Limits() {
		known[l.Key] = true
	}
	lip, tail := floorPoint("lip", "front lip", "150 mm ± 1 mm", "-690 mm"), floorPoint("tail", "tailpipe", "230 mm ± 1 mm", "3400 mm")
	for _, name := range []string{"0398-fenn-estate.json", "0412-quill-saloon.json"} {
		j := document(t, name)
		if name == "0412-quill-saloon.json" {
			j.Touch = append(j.Touch, lip, tail,
				job.Touch{ID: "bag", Name: "bag to tyre", Moves: "with the wheel", Meets: "bag and anything", Wheel: "RL", Room: typed("30 mm ± 2 mm"), Ratio: typed("0.1 ± 0.02")},
				job.Touch{ID: "rack", Name: "steering rack", Moves: "with the wheel", Meets: "metal and metal", Wheel: "FL", Room: typed("95 mm ± 2 mm")})
			for path, text := range map[string]string{"ways.hump": "60 mm", "ways.humpLength": "900 mm", "ways.kerb": "30 mm", "ways.rampLength": "6 m", "ways.rampRise": "300 mm"} {
				if err := j.Set(path, text, false); err != nil {
					t.Fatal(err)
				}
			}
		}
		for _, f := range study.Of(j, catalog.NewShop("x")).Findings {
			for _, l := range f.Limits {
				if !f.Value.Known() || f.Value.Half == 0 || f.Value.Kind != l.Kind {
					continue
				}
				shop := catalog.NewShop("x")
				if _, ok := known[l.Key]; !ok { // a wish's own, or a maker's
					continue
				}
				on := finding.Number{Value: f.Value.Value, Kind: l.Kind, Unit: l.Unit}
				shop.Changes = []catalog.LimitChange{{ID: l.Key, Value: on.String(), Note: "for this test"}}
				for _, g := range study.Of(j, shop).Findings {
					if g.Verdict != finding.TooClose || seen[g.ID+l.Key] {
						continue
					}
					seen[g.ID+l.Key] = true
					if _, err := j.Field(g.SettleAt, false); g.Settle == "" || err != nil {
						t.Errorf("%s, %s at %s: settled by %q at %q", name, g.ID, l.Rule(), g.Settle, g.SettleAt)
					}
				}
			}
		}
	}
	if len(seen) < 40 {
		t.Errorf("only %d findings came too close", len(seen))
	}
}
