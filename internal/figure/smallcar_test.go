package figure

import (
	"strings"
	"testing"

	"jounce/internal/draw"
	"jounce/internal/draw/svg"
)

func TestSmallCarOfEveryFormStandsOnTheSheet(t *testing.T) {
	seen := map[string]string{}
	for form := range bodies {
		for _, stands := range []bool{false, true} {
			s := SmallCar(CarShape{Form: form, Seen: true, Stands: stands}, draw.PX(236), draw.Tablet())
			for _, f := range s.Faults() {
				t.Errorf("%s: %s", form, f)
			}
			s.Walk(func(it draw.Item, m draw.Matrix) {
				if p, ok := it.(draw.Path); ok {
					if b, ok := p.Outline.Bounds(); ok && (b.X0 < -0.5 || b.X1 > s.W+0.5 || b.Y0 < -0.5 || b.Y1 > s.H+0.5) {
						t.Errorf("%s: a line from %.1f, %.1f to %.1f, %.1f leaves the sheet of %.1f by %.1f mm", form, b.X0, b.Y0, b.X1, b.Y1, s.W, s.H)
					}
				}
			})
			if stands {
				continue
			}
			html, err := svg.Inline(s)
			if err != nil {
				t.Fatal(err)
			}
			for other, h := range seen {
				if h == string(html) {
					t.Errorf("%s is drawn like %s", form, other)
				}
			}
			seen[form] = string(html)
		}
	}
}

func TestSmallCarNotSeenIsDashed(t *testing.T) {
	draws := func(c CarShape) string {
		h, err := svg.Inline(SmallCar(c, draw.PX(236), draw.Tablet()))
		if err != nil {
			t.Fatal(err)
		}
		return string(h)
	}
	if a := draws(CarShape{Form: "van"}); !strings.Contains(a, "dash") || strings.Contains(a, "f-tyre") {
		t.Error("a car that the shop has not seen is drawn firm")
	}
	if a := draws(CarShape{Form: "van", Seen: true}); strings.Contains(a, " dash") {
		t.Error("a car that the shop has seen is dashed")
	}
	low, high := SmallCar(CarShape{Form: "saloon", Seen: true}, 60, draw.Tablet()), SmallCar(CarShape{Form: "saloon", Seen: true, Roof: 1500}, 60, draw.Tablet())
	if low.H >= high.H {
		t.Errorf("a taller car takes %.1f mm, the lower one %.1f", high.H, low.H)
	}
}
