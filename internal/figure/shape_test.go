package figure

import (
	"encoding/json"
	"math"
	"testing"

	"jounce/body"
)

func TestShapeKeepsTheBodyThatWasRead(t *testing.T) {
	m := body.Measures{Form: "estate", Wheelbase: body.Known(2.68), Roof: body.Known(1.402), Bonnet: body.Known(0.871), Waist: body.Known(0.905), Boot: body.Known(0.92), Sill: body.Known(0.195),
		FrontOverhang: body.Known(0.74), RearOverhang: body.Known(0.99), TyreRadius: [2]body.Length{body.Known(0.305), body.Known(0.31)}, Hub: [2]body.Length{body.Known(0.29), body.Known(0.295)},
		Arch: [2]body.Length{body.Known(0.37), body.Known(0.375)}, ArchShape: [2]string{"", "covered"},
		Stations: map[string]body.Spot{"crown": {X: body.Known(1.6), Z: body.Known(1.41)}, "scuttle": {X: body.Known(0)}, "no such place": {Z: body.Known(1)}}}
	was := body.New(m)
	doc, err := json.Marshal(ShapeOf(was))
	if err != nil {
		t.Fatal(err)
	}
	if len(doc) > 600 {
		t.Errorf("a shape of %d bytes: %s", len(doc), doc)
	}
	var kept Shape
	if err := json.Unmarshal(doc, &kept); err != nil {
		t.Fatal(err)
	}
	now := kept.Outline(m.Form)
	if len(now.Stations) != len(was.Stations) || now.ArchShape != was.ArchShape {
		t.Fatalf("kept as %s: %d stations, arches %v", doc, len(now.Stations), now.ArchShape)
	}
	for i, s := range was.Stations {
		if n := now.Stations[i]; n.ID != s.ID || math.Hypot(n.X-s.X, n.Z-s.Z) > 0.0001 || n.KnownX != s.KnownX || n.KnownZ != s.KnownZ {
			t.Errorf("%s at %.4f, %.4f is kept as %s at %.4f, %.4f", s.ID, s.X, s.Z, n.ID, n.X, n.Z)
		}
	}
}

// A shape kept before arches and edges were read still gives the car.
func TestShapeOfAnOlderRecord(t *testing.T) {
	var kept Shape
	if err := json.Unmarshal([]byte(`{"wheelbase":2680,"front":740,"rear":990,"roof":1402,"sill":195,"tyre":610}`), &kept); err != nil {
		t.Fatal(err)
	}
	o := kept.Outline("estate")
	if o.Form != "estate" || math.Abs(o.Wheelbase.V-2.68) > 1e-9 || math.Abs(o.Roof.V-1.402) > 1e-9 || math.Abs(o.Tail.V-3.67) > 1e-9 || math.Abs(o.Tyre[1].V-0.305) > 1e-9 {
		t.Errorf("the outline of an older shape: %+v", o)
	}
}
