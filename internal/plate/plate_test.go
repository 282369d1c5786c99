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
