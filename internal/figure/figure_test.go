package figure

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"jounce/internal/draw"
	"jounce/internal/draw/svg"
)

// cut is one figure at one width.
type cut struct {
	name  string
	scene draw.Scene
}

// widths are the screens' column widths [CSS px] and two widths on paper [mm].
func cuts() []cut {
	var out []cut
	add := func(name string, width float64, st draw.Style, draws func(width float64, st draw.Style) draw.Scene) {
		out = append(out, cut{name + "-" + st.Name + "-" + plain(width/draw.Px, 0), draws(width, st)})
	}
	all := func(name string, paper float64, draws func(width float64, st draw.Style) draw.Scene) {
		for _, px := range []float64{292, 344, 474, 730, 1060} {
			add(name, draw.PX(px), StyleFor(px), draws)
		}
		add(name, paper, draw.ForPaperChart(), draws)
	}
	all("decay", 118, func(w float64, st draw.Style) draw.Scene { return DecayChart(sampleDecay(), w, st) })
	all("load", 90, func(w float64, st draw.Style) draw.Scene { return LoadChart(sampleLoad(), w, st) })
	all("travel", 120, func(w float64, st draw.Style) draw.Scene {
		t := sampleTravel()
		if w < TravelWidth(t, st) {
			t = t[:1]
		}
		return TravelBars(t, w, st)
	})
	all("ride", 100, func(w float64, st draw.Style) draw.Scene { return RideLine(sampleRide(), w, st) })
	for name, p := range map[string]Plan{"plan": samplePlan(), "walk": sampleWalk(), "caution": sampleCaution()} {
		add(name, draw.PX(240), draw.Tablet(), func(w float64, st draw.Style) draw.Scene { return PlanView(p, w, draw.PX(400), st) })
	}
	add("corners", draw.PX(440), draw.Tablet(), func(w float64, st draw.Style) draw.Scene { return PlanView(sampleCorners(), w, draw.PX(420), st) })
	add("corners", 90, draw.ForPaperChart(), func(w float64, st draw.Style) draw.Scene { return PlanView(sampleCorners(), w, 75, st) })
	return out
}

// TestExactLettering asks of every figure at every width what a draughtsman would send back.
func TestExactLettering(t *testing.T) {
	for _, c := range cuts() {
		for _, f := range c.scene.Faults() {
			t.Errorf("%s: %s", c.name, f)
		}
	}
}

// TestExactSpecimens writes every figure in both themes as a file; JOUNCE_FIGURES names a directory that outlives the test.
func TestExactSpecimens(t *testing.T) {
	dir := os.Getenv("JOUNCE_FIGURES")
	if dir == "" {
		dir = t.TempDir()
	}
	for _, c := range cuts() {
		themes := map[string]svg.Theme{"light": svg.Light, "dark": svg.Dark}
		if c.scene.Style.Medium == draw.Print {
			themes = map[string]svg.Theme{"print": svg.PrintOnly}
		}
		for name, th := range themes {
			b, err := svg.Standalone(c.scene, th)
			if err != nil {
				t.Errorf("%s: %v", c.name, err)
				continue
			}
			if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%s-%s.svg", c.name, name)), b, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}
