package plate

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"jounce/examples"
	"jounce/internal/catalog"
	"jounce/internal/draw"
	"jounce/internal/draw/svg"
	"jounce/internal/figure"
	"jounce/internal/job"
	"jounce/internal/study"
)

// TestEveryExampleDraws draws every figure of every example at every width and
// asks the scene for what a draughtsman would not leave.
func TestEveryExampleDraws(t *testing.T) {
	names, _ := fs.Glob(examples.Files, "*.json")
	shop := catalog.NewShop(examples.Shop)
	for _, name := range names {
		data, _ := examples.Files.ReadFile(name)
		rec, err := job.Decode(data)
		if err != nil {
			t.Fatal(err)
		}
		r := study.Of(rec, shop)
		for _, px := range []float64{292, 344, 474, 730, 1060} {
			w, st := draw.PX(px), figure.StyleFor(px)
			scenes := map[string]draw.Scene{"side": figure.SideView(Side(r), w, st), "ends": figure.EndViews(Ends(r), w, st)}
			if sc, ok := figure.RampView(Side(r), w, st); ok {
				scenes["ramp"] = sc
			}
			scenes["plan"] = figure.PlanView(Plan(r, false), draw.PX(200), draw.PX(430), draw.Tablet())
			if tr := Travel(r); len(tr) > 0 {
				scenes["travel"] = figure.TravelBars(tr[:1], w, st)
			}
			if ride, ok := Ride(r, shop); ok {
				scenes["ride"] = figure.RideLine(ride, w, st)
			}
			for i := range r.Axles {
				if l, ok := Load(r.Axles[i], shop); ok {
					scenes["load "+r.Axles[i].Name] = figure.LoadChart(l, w, st)
				}
			}
			for _, l := range r.Leaks {
				if d, ok := Decay(l, shop); ok {
					scenes["decay "+l.ID] = figure.DecayChart(d, w, st)
				}
			}
			for what, s := range scenes {
				for _, f := range s.Faults() {
					t.Errorf("%s, %s, %g px: %v", name, what, px, f)
				}
				specimen(t, fmt.Sprintf("%s-%s-%g", strings.TrimSuffix(name, ".json"), what, px), s)
			}
		}
	}
}

// specimen writes a figure in both themes where JOUNCE_FIGURES names a directory.
func specimen(t *testing.T, name string, s draw.Scene) {
	dir := os.Getenv("JOUNCE_FIGURES")
	if dir == "" {
		return
	}
	for theme, th := range map[string]svg.Theme{"light": svg.Light, "dark": svg.Dark} {
		b, err := svg.Standalone(s, th)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if err := os.WriteFile(filepath.Join(dir, strings.ReplaceAll(name, " ", "-")+"-"+theme+".svg"), b, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// A touch point lies across the car where it was read; else at its wheel.
func TestTouchPointsLieWhereTheyWereRead(t *testing.T) {
	data, err := examples.Files.ReadFile("0412-quill-saloon.json")
	if err != nil {
		t.Fatal(err)
	}
	rec, err := job.Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	at := func(id string) float64 {
		for _, x := range Plan(study.Of(rec, catalog.NewShop(examples.Shop)), false).Touches {
			if x.ID == id {
				return x.Y
			}
		}
		t.Fatalf("no touch point %s", id)
		return 0
	}
	if y := at("joint"); y != -0.18 {
		t.Errorf("the joint was read 180 mm right of the middle and is drawn at %g m", y)
	}
	for id, want := range map[string][2]float64{"joint": {0, 0}, "liner": {0.3, 1}} {
		if err := rec.Set("touch["+id+"].y", "", true); err != nil {
			t.Fatal(err)
		}
		if y := at(id); y < want[0] || y > want[1] {
			t.Errorf("%s without a reading is drawn at %g m", id, y)
		}
	}
}
