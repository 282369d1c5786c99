package figure

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"jounce/internal/draw"
	"jounce/internal/draw/svg"
)

// TestExactMoving reads the moving groups as a script does and works their transform out again from the changes at the axles.
func TestExactMoving(t *testing.T) {
	s := sampleTouched("saloon")
	s.Preset, s.At = -1, [2]float64{-0.060, -0.020}
	w, st := draw.PX(1060), draw.Desktop()
	html, err := svg.Inline(SideView(s, w, st))
	if err != nil {
		t.Fatal(err)
	}
	group := regexp.MustCompile(`<g[^>]* data-mm="([0-9.]+)"[^>]*>`)
	attr := func(g, name string) float64 {
		m := regexp.MustCompile(` data-` + name + `="([-0-9.]+)"`).FindStringSubmatch(g)
		if m == nil {
			return math.NaN()
		}
		v, _ := strconv.ParseFloat(m[1], 64)
		return v
	}
	turned, lifted := 0, 0
	for _, g := range group.FindAllString(string(html), -1) {
		k := attr(g, "mm")
		var dy, deg, x, y float64
		if m := regexp.MustCompile(`translate\(0 ([-0-9.]+)\)`).FindStringSubmatch(g); m != nil {
			dy, _ = strconv.ParseFloat(m[1], 64)
		}
		if lift := attr(g, "lift"); !math.IsNaN(lift) {
			lifted++
			if want := 40 * k; math.Abs(dy-want) > 0.006 { // the mean of 60 and 20, down; svg rounds to 0.01 px
				t.Errorf("%s: moved %v px, expected %v", g, dy, want)
			}
			continue
		}
		turned++
		m := regexp.MustCompile(`rotate\(([-0-9.]+) ([-0-9.]+) ([-0-9.]+)\)`).FindStringSubmatch(g)
		if m == nil {
			t.Fatalf("%s is not turned", g)
		}
		deg, _ = strconv.ParseFloat(m[1], 64)
		x, _ = strconv.ParseFloat(m[2], 64)
		y, _ = strconv.ParseFloat(m[3], 64)
		want := -math.Atan2(40, (attr(g, "x1")-attr(g, "x0"))/k) * 180 / math.Pi
		if math.Abs(deg-want) > 0.002 || math.Abs(dy-60*k) > 0.006 || x != attr(g, "x0") || y != attr(g, "y") {
			t.Errorf("%s: expected a turn of %v° and %v px down", g, want, 60*k)
		}
		if wb := (attr(g, "x1") - attr(g, "x0")) / k; math.Abs(wb-2540) > 0.2 {
			t.Errorf("the hubs stand %v mm apart", wb)
		}
	}
	if turned < 2 || lifted != 1 {
		t.Errorf("%d groups turn and %d are lifted", turned, lifted)
	}
	if !strings.Contains(string(html), `id="side-body"`) || !strings.Contains(string(html), `id="side-t3"`) || !strings.Contains(string(html), `data-touch="2"`) {
		t.Error("the body or a balloon has no name for scripts")
	}
}

// TestExactBalloons finds a ring for every touch point, and no two on each other.
func TestExactBalloons(t *testing.T) {
	for _, form := range []string{"saloon", "van", "open two-seater"} {
		for _, px := range []float64{344, 780, 1060} {
			st := StyleFor(px)
			s := sampleTouched(form)
			rings := map[string]draw.Point{}
			SideView(s, draw.PX(px), st).Walk(func(it draw.Item, m draw.Matrix) {
				g, ok := it.(draw.Group)
				if !ok || g.Class != "balloon" {
					return
				}
				b, _ := g.Items[0].(draw.Path).Outline.Bounds()
				rings[g.Items[1].(draw.Text).S] = m.Pt(draw.Pt((b.X0+b.X1)/2, (b.Y0+b.Y1)/2))
			})
			if len(rings) != len(s.Touches) {
				t.Errorf("%s, %v px: %d rings for %d touch points", form, px, len(rings), len(s.Touches))
			}
			for a, p := range rings {
				for b, q := range rings {
					if a < b && p.Dist(q) < 2*st.Disc {
						t.Errorf("%s, %v px: rings %s and %s lie on each other", form, px, a, b)
					}
				}
			}
		}
	}
}

// TestExactZones finds the front hub under A to C at the left, the tail at the right, the roof at the top.
func TestExactZones(t *testing.T) {
	at := SideZones(sampleTouched("saloon"))
	for want, p := range map[string][2]float64{"C1": {0, 0.28}, "A3": {1.5, 1.34}, "C5": {2.54, 0.28}} {
		if got := at(p[0], p[1]); got != want {
			t.Errorf("%v lies in %s, expected %s", p, got, want)
		}
	}
}

// TestExactFirm draws firm only what was measured: without a measure no wide line of the outline's ink.
func TestExactFirm(t *testing.T) {
	firm := func(s Side) (n int) {
		SideView(s, draw.PX(1060), draw.Desktop()).Walk(func(it draw.Item, _ draw.Matrix) {
			if p, ok := it.(draw.Path); ok && p.Pen.W == draw.W4 && len(p.Outline) > 0 {
				n += len(p.Outline)
			}
		})
		return n
	}
	none, some := firm(Side{Preset: 1}), firm(sampleSide("saloon"))
	if none != 0 || some == 0 {
		t.Errorf("%d firm steps without a measure, %d with", none, some)
	}
}

// TestExactRampStands draws the car on its driveway for good: nothing of it is told to scripts, and it stands where the road
// is nearest, at the crest for a long car low in the middle.
func TestExactRampStands(t *testing.T) {
	sc, ok := RampView(sampleTouched("saloon"), draw.PX(780), draw.Tablet())
	if !ok {
		t.Fatal("no picture of the driveway")
	}
	html, err := svg.Inline(sc)
	if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(string(html), "data-mm") {
		t.Error("a script may move the car on its driveway")
	}
	if !strings.Contains(sc.Desc, "top of the driveway") {
		t.Errorf("%q, expected the top: the belly is lower than the nose's angle asks", sc.Desc)
	}
	if _, ok := RampView(sampleSide("saloon"), draw.PX(780), draw.Tablet()); ok {
		t.Error("a picture without a driveway")
	}
}
