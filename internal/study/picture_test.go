package study

import (
	"math"
	"testing"

	"jounce/internal/catalog"
	"jounce/internal/job"
)

// TestExactStoodAt turns the change to ROAD round: a body raised by 20 mm to
// ROAD stood 20 mm under it.
func TestExactStoodAt(t *testing.T) {
	rec := &job.Job{Schema: job.Schema, ID: "1"}
	for path, text := range map[string]string{"presets.road.front": "20 mm", "presets.road.rear": "-5 mm", "presets.down.front": "-60 mm", "presets.down.rear": "-55 mm", "presets.high.front": "40 mm"} {
		if err := rec.Set(path, text, true); err != nil {
			t.Fatal(err)
		}
	}
	r := Of(rec, catalog.NewShop("x"))
	for stands, want := range map[string][2]float64{"as received": {-0.020, 0.005}, "ROAD": {0, 0}, "DOWN": {-0.060, -0.055}} {
		over, gap := StoodAt(rec, r, stands)
		if gap != nil || math.Abs(over[0].Value-want[0]) > 1e-12 || math.Abs(over[1].Value-want[1]) > 1e-12 {
			t.Errorf("%s: %v, %v, want %v", stands, over, gap, want)
		}
	}
	for stands, path := range map[string]string{"HIGH": "presets.high.rear", "HUMP": "presets.hump.front", "": ""} {
		if _, gap := StoodAt(rec, r, stands); gap == nil || gap.Path != path {
			t.Errorf("%q: the gap is %v, want %q", stands, gap, path)
		}
	}
}
