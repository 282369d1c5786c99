package study

import (
	"math"
	"strings"
	"testing"

	"jounce/examples"
	"jounce/internal/catalog"
	"jounce/internal/job"
)

// outlined is the sample saloon with some places typed anew.
func outlined(t *testing.T, set map[string]string) *Result {
	t.Helper()
	data, err := examples.Files.ReadFile("0412-quill-saloon.json")
	if err != nil {
		t.Fatal(err)
	}
	rec, err := job.Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	rec.Outline.Stations = nil // those of the sample
	for path, text := range set {
		if err := rec.Set(path, text, false); err != nil {
			t.Fatalf("%s: %v", path, err)
		}
	}
	return Of(rec, catalog.NewShop(examples.Shop))
}

// TestExactBody takes the record's measures and control points to the outline.
func TestExactBody(t *testing.T) {
	r := outlined(t, map[string]string{"survey.roof": "1345 mm", "outline.bonnet": "850 mm", "outline.archRear": "covered", "outline.stations[boot-edge].z": "880 mm"})
	o := r.Body
	if s, _ := o.Station("crown"); math.Abs(s.Z-1.345) > 1e-9 || !s.KnownZ {
		t.Errorf("roof %+v", s)
	}
	if s, _ := o.Station("boot-edge"); math.Abs(s.Z-0.880) > 1e-9 || !s.KnownZ || s.KnownX {
		t.Errorf("boot edge %+v", s)
	}
	if o.ArchShape[1] != "covered" || !o.Arch[0].Known || !o.Tyre[0].Known {
		t.Errorf("arches %v %v, tyre %v", o.ArchShape, o.Arch, o.Tyre)
	}
	for _, p := range r.Problems {
		if strings.HasPrefix(p.Path, "outline") {
			t.Error(p)
		}
	}
}

// TestExactBodyAtRoad lifts what was read elsewhere to ROAD: half a change at one
// axle is a half at mid-door.
func TestExactBodyAtRoad(t *testing.T) {
	a := outlined(t, map[string]string{"survey.heightsRead": "ROAD"}).Body
	b := outlined(t, map[string]string{"survey.heightsRead": "as received", "presets.road.front": "20 mm", "presets.road.rear": "0 mm"}).Body
	if d := b.Sills[1].Z - a.Sills[1].Z; math.Abs(d-0.010) > 1e-9 {
		t.Errorf("the sill is lifted %v m, expected 0.010", d)
	}
	if d := b.Arch[0].V - a.Arch[0].V; math.Abs(d-0.020) > 1e-9 {
		t.Errorf("the front arch is lifted %v m, expected 0.020", d)
	}
}

// TestLimitBodyFaults asks about an outline that cannot be, at the place where it
// was typed.
func TestLimitBodyFaults(t *testing.T) {
	for path, set := range map[string]map[string]string{
		"survey.roof":                  {"survey.roof": "950 mm", "outline.waist": "1000 mm"},
		"corners.RL.hubToArch":         {"corners.RL.hubToArch": "250 mm", "corners.RR.hubToArch": "250 mm"},
		"survey.frontOverhang":         {"survey.frontOverhang": "210 mm"},
		"outline.stations[rear-lip].z": {"outline.stations[rear-lip].x": "3000 mm", "outline.stations[rear-lip].z": "1200 mm"},
		"outline.stations[fin].z":      {"outline.stations[fin].z": "900 mm"},
	} {
		found := false
		for _, p := range outlined(t, set).Problems {
			if p.Path == path {
				found = true
				if p.Says == "" || p.Label == "" {
					t.Errorf("%s: %+v", path, p)
				}
			}
		}
		if !found {
			t.Errorf("%s: nobody asks about %v", path, set)
		}
	}
}
