package study

import (
	"io/fs"
	"math"
	"testing"

	"jounce/examples"
	"jounce/internal/catalog"
	"jounce/internal/job"
	"jounce/stance"
)

// Between the nodes of its grid the pressure is drawn straight: on every demo
// spring that stays within half of the last digit of 0.01 bar.
func TestLimitPressureGrid(t *testing.T) {
	names, _ := fs.Glob(examples.Files, "*.json")
	seen := 0
	for _, name := range names {
		data, _ := examples.Files.ReadFile(name)
		rec, err := job.Decode(data)
		if err != nil {
			t.Fatal(err)
		}
		v := newView(rec, catalog.NewShop("Thornhythe Coachworks"))
		v.run()
		worst := 0.0
		for d := -0.0695; d < 0.05; d += 0.0005 {
			s := v.step(stance.Pose{Front: d, Rear: d})
			for i, a := range v.air {
				if a == nil || !s.Pressure[i].Known() {
					continue
				}
				seen++
				want := v.pressureAt(i, a, a.height.Value+a.ratio.Value*d)
				worst = math.Max(worst, math.Abs(want.Value-s.Pressure[i].Value))
			}
		}
		if worst > 0.005e5 {
			t.Errorf("%s: the pressure is off by %g bar", name, worst/1e5)
		}
		t.Logf("%s: %.4f bar", name, worst/1e5)
	}
	if seen < 100 {
		t.Errorf("only %d pressures were seen", seen)
	}
}

// At ROAD the path says what the corners say.
func TestAgreesPathAndCorners(t *testing.T) {
	data, _ := examples.Files.ReadFile("0412-quill-saloon.json")
	rec, err := job.Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	r := Of(rec, catalog.NewShop("Thornhythe Coachworks"))
	road := r.Path.Presets[1]
	for i, k := range []int{FL, RL} {
		a, b := road.Pressure[i], r.Corners[k].Pressure[1]
		if a.String() != b.String() || math.Abs(a.Half-b.Half) > 0.01*b.Half {
			t.Errorf("%s: %s on the path, %s at the corner (± %g, ± %g)", AxleNames[i], a, b, a.Half, b.Half)
		}
	}
	for k := range PresetNames {
		s := r.Path.Presets[k]
		if s.Sill.String() != r.Heights.SillAt[k].String() || s.Lowest.String() != r.Heights.LowestAt[k].String() {
			t.Errorf("%s: sill %s and %s, lowest %s and %s", PresetNames[k], s.Sill, r.Heights.SillAt[k], s.Lowest, r.Heights.LowestAt[k])
		}
	}
	for n, s := range r.Path.Steps {
		if want := r.Path.Steps[0].Height - float64(n)/1000; math.Abs(s.Height-want) > 1e-9 {
			t.Fatalf("step %d stands at %g, expected %g", n, s.Height, want)
		}
	}
}
