package figure

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"jounce/body"
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
	for name, p := range map[string]Plan{"plan": samplePlan(), "plan-touched": sampleTouchedPlan(), "walk": sampleWalk(), "caution": sampleCaution()} {
		add(name, draw.PX(240), draw.Tablet(), func(w float64, st draw.Style) draw.Scene { return PlanView(p, w, draw.PX(400), st) })
	}
	add("corners", draw.PX(440), draw.Tablet(), func(w float64, st draw.Style) draw.Scene { return PlanView(sampleCorners(), w, draw.PX(420), st) })
	add("corners", 90, draw.ForPaperChart(), func(w float64, st draw.Style) draw.Scene { return PlanView(sampleCorners(), w, 75, st) })
	for _, form := range body.Forms {
		all("side-"+form, 240, func(w float64, st draw.Style) draw.Scene {
			if st.Medium == draw.Print {
				st = draw.ForPaper()
			}
			return SideView(sampleSide(form), w, st)
		})
	}
	paper := func(st draw.Style) draw.Style {
		if st.Medium == draw.Print {
			return draw.ForPaper()
		}
		return st
	}
	all("touched", 240, func(w float64, st draw.Style) draw.Scene { return SideView(sampleTouched("saloon"), w, paper(st)) })
	all("low", 240, func(w float64, st draw.Style) draw.Scene {
		s := sampleTouched("estate")
		s.Preset = 0
		return SideView(s, w, paper(st))
	})
	all("outline", 240, func(w float64, st draw.Style) draw.Scene { return OutlineView(sampleGrowing(), w, paper(st)) })
	all("arches", 240, func(w float64, st draw.Style) draw.Scene {
		s, m := sampleSide("saloon"), sampleBody("saloon")
		m.ArchShape = [2]string{"flat", "covered"}
		s.Body = body.New(m)
		return SideView(s, w, paper(st))
	})
	all("ramp", 160, func(w float64, st draw.Style) draw.Scene {
		sc, _ := RampView(sampleTouched("saloon"), w, paper(st))
		return sc
	})
	for _, form := range body.Forms {
		all("ends-"+form, 200, func(w float64, st draw.Style) draw.Scene { return EndViews(sampleEnd(form), w, paper(st)) })
	}
	all("ends-unread", 200, func(w float64, st draw.Style) draw.Scene { return EndViews(End{}, w, paper(st)) })
	all("ghost", 240, func(w float64, st draw.Style) draw.Scene { return SideView(sampleGhost(), w, paper(st)) })
	all("growing", 240, func(w float64, st draw.Style) draw.Scene { return SideView(sampleGrowing(), w, st) })
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

// TestLimitNothingKnown draws every figure from nothing: no panic, no fault, and no coordinate that is no number.
func TestLimitNothingKnown(t *testing.T) {
	for _, px := range []float64{292, 474, 730, 1060} {
		w, st := draw.PX(px), StyleFor(px)
		scenes := map[string]draw.Scene{
			"decay": DecayChart(Decay{}, w, st), "load": LoadChart(LoadHeight{}, w, st), "travel": TravelBars(nil, w, st),
			"travel of unknowns": TravelBars([]Travel{{Name: "front", Gap: "No bump stop is read at the front."}}, w, st),
			"ride":               RideLine(Ride{}, w, st), "plan": PlanView(Plan{}, w, w, st), "side": SideView(Side{}, w, st),
			"growing": SideView(Side{Growing: true}, w, st),
		}
		for name, s := range scenes {
			for _, f := range s.Faults() {
				t.Errorf("%s at %v px: %s", name, px, f)
			}
			if _, err := svg.Inline(s); err != nil {
				t.Errorf("%s at %v px: %v", name, px, err)
			}
		}
	}
}

// TestExactScale checks the design page: at 1 : 20 a wheelbase of 2,540 mm is 127 mm long on the paper (ISO 5455).
func TestExactScale(t *testing.T) {
	s := sampleSide("saloon")
	if n := SideScale(s, 240, draw.ForPaper()); n != 20 {
		t.Fatalf("scale 1 : %d, expected 1 : 20", n)
	}
	// The tyres are the closed outlines with the tone of rubber.
	var at []float64
	SideView(s, 240, draw.ForPaper()).Walk(func(it draw.Item, m draw.Matrix) {
		if p, ok := it.(draw.Path); ok && p.Tone == draw.Tyre {
			b, _ := p.Outline.Bounds()
			at = append(at, (b.X0+b.X1)/2)
		}
	})
	if len(at) != 2 || at[1]-at[0] < 126.99 || at[1]-at[0] > 127.01 {
		t.Errorf("the wheels stand at %v, expected them 127 mm apart", at)
	}
}

// TestExactSamePlaces checks that one figure drawn twice is the same text.
func TestExactSamePlaces(t *testing.T) {
	a, b := cuts(), cuts()
	seen := map[string]string{}
	for _, c := range a {
		h, err := svg.Inline(c.scene)
		if err != nil {
			t.Fatal(err)
		}
		seen[c.name] = string(h)
	}
	for _, c := range b {
		if h, _ := svg.Inline(c.scene); seen[c.name] != string(h) {
			t.Errorf("%s is drawn differently the second time", c.name)
		}
	}
}

var update = flag.Bool("update", false, "write the pinned figures anew")

// TestPinnedSVG holds two small figures against what a person has looked at.
func TestPinnedSVG(t *testing.T) {
	w, st := draw.PX(292), draw.Phone()
	for name, s := range map[string]draw.Scene{"ride": RideLine(sampleRide(), w, st), "travel": TravelBars(sampleTravel()[:1], w, st)} {
		h, err := svg.Inline(s)
		if err != nil {
			t.Fatal(err)
		}
		got := strings.ReplaceAll(string(h), "><", ">\n<") + "\n"
		file := filepath.Join("testdata", name+".svg")
		if *update {
			if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if got != string(want) {
			t.Errorf("%s differs from %s; look at it, and pin it with -update if it is right", name, file)
		}
	}
}

func ExampleRideLine() {
	s := RideLine(Ride{Front: hertz(1.73, 0.06), Rear: hertz(1.48, 0.05), Least: 1.2, Most: 1.8}, 100, draw.Tablet())
	fmt.Println(s.Title)
	fmt.Println(strings.ReplaceAll(s.Desc, nbsp, " "))
	// Output:
	// Ride frequency, front against rear
	// Front 1.73 ± 0.06 Hz, rear 1.48 ± 0.05 Hz.
}
