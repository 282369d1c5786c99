package figure

import (
	"strings"
	"testing"

	"jounce/body"
	"jounce/internal/draw"
	"jounce/internal/draw/svg"
)

func TestSmallCarOfEveryFormStandsOnTheSheet(t *testing.T) {
	seen := map[string]string{}
	for _, form := range body.Forms {
		for _, stands := range []bool{false, true} {
			c := CarShape{Body: body.New(body.Measures{Form: form}), Seen: true, Stands: stands}
			s := SmallCar(c, SmallFloor(nil), draw.PX(236), draw.Tablet())
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
		h, err := svg.Inline(SmallCar(c, SmallFloor(nil), draw.PX(236), draw.Tablet()))
		if err != nil {
			t.Fatal(err)
		}
		return string(h)
	}
	van := body.New(body.Measures{Form: "van"})
	if a := draws(CarShape{Body: van}); !strings.Contains(a, "dash") || strings.Contains(a, "f-tyre") {
		t.Error("a car that the shop has not seen is drawn firm")
	}
	if a := draws(CarShape{Body: van, Seen: true}); strings.Contains(a, " dash") {
		t.Error("a car that the shop has seen is dashed")
	}
	if lines := strings.Count(draws(CarShape{Body: van, Seen: true}), "<path"); lines > 14 {
		t.Errorf("a small car of %d paths", lines)
	}
}

func TestSmallCarIsTheBodyThatWasRead(t *testing.T) {
	at := func(m body.Measures) draw.Scene {
		return SmallCar(CarShape{Body: body.New(m), Seen: true}, SmallFloor(nil), 60, draw.Tablet())
	}
	low, high := at(sampleBody("saloon")), at(body.Measures{Form: "saloon", Roof: body.Known(1.5)})
	if low.H >= high.H {
		t.Errorf("a taller car takes %.1f mm, the lower one %.1f", high.H, low.H)
	}
	m := sampleBody("saloon")
	was, err := svg.Inline(at(m))
	if err != nil {
		t.Fatal(err)
	}
	m.Stations = map[string]body.Spot{"boot-edge": {Z: body.Known(0.95)}}
	if now, err := svg.Inline(at(m)); err != nil || was == now {
		t.Errorf("a control point that was put elsewhere changes nothing, %v", err)
	}
}

func TestLimitSmallCarsHaveOneScaleAndTheLongestFits(t *testing.T) {
	long := body.Measures{Form: "van", Wheelbase: body.Known(4.2), FrontOverhang: body.Known(1.1), RearOverhang: body.Known(1.6)}
	list := []CarShape{{Body: body.New(sampleBody("saloon"))}, {Body: body.New(long)}}
	floor := SmallFloor(list)
	if floor < 6900 || SmallFloor(list[:1]) != 5000 {
		t.Fatalf("floors of %.0f and %.0f mm", floor, SmallFloor(list[:1]))
	}
	for _, c := range list {
		s := SmallCar(c, floor, 60, draw.Tablet())
		s.Walk(func(it draw.Item, m draw.Matrix) {
			if p, ok := it.(draw.Path); ok {
				if b, ok := p.Outline.Bounds(); ok && (b.X0 < -0.5 || b.X1 > s.W+0.5) {
					t.Errorf("%s: a line from %.1f to %.1f leaves the sheet of %.1f mm", c.Body.Form, b.X0, b.X1, s.W)
				}
			}
		})
	}
}
