package web

import (
	"net/http"
	"testing"
)

// TestAnOutlineThatCrossesItselfIsAskedAbout: at the place that was typed, at a
// point that was typed earlier when another makes it cross, and not again for what
// was left open.
func TestAnOutlineThatCrossesItselfIsAskedAbout(t *testing.T) {
	s := newShop(t)
	s.sign()
	const page, x, z, nose = "/jobs/0412/outline", "outline.stations[tail].x", "outline.stations[tail].z", "outline.stations[nose].x"
	a := s.post(page, ":base", "1", x, "2000", "survey.roof", "1350")
	if a.Status != http.StatusUnprocessableEntity || len(s.m.revs["0412"]) != 1 {
		t.Fatalf("status %d, %d revisions, expected a question and nothing saved", a.Status, len(s.m.revs["0412"]))
	}
	s.want(a, `[id="e-`+x+`"] .err`, "The outline crosses itself")
	for name, text := range map[string]string{x: "2000 mm", "survey.roof": "1350 mm"} {
		if v := a.Find(`[name="`+name+`"]`).AttrOr("value", ""); v != text {
			t.Errorf("%s holds %q, expected what was typed, %s", name, v, text)
		}
	}
	// both places typed: it is asked at one, whichever was typed last
	s.post(page, ":base", "1", z, "520")
	if a = s.post(page, ":base", "2", x, "2000"); a.Status != http.StatusUnprocessableEntity {
		t.Fatalf("along the car, after the height was typed: status %d", a.Status)
	}
	s.want(a, `[id="e-`+z+`"] .err`, "The outline crosses itself")
	// left open it is saved, and does not stand in the way of other points
	if a = s.post(page, ":base", "2", x, "2000", ":open", z); a.Status != http.StatusOK || len(s.m.revs["0412"]) != 3 {
		t.Fatalf("left open: status %d, %d revisions", a.Status, len(s.m.revs["0412"]))
	}
	if a = s.post(page, ":base", "3", "outline.stations[crown].x", "1570"); a.Status != http.StatusOK || len(s.m.revs["0412"]) != 4 {
		t.Errorf("another point: status %d, %d revisions", a.Status, len(s.m.revs["0412"]))
	}
	if a = s.post(page, ":base", "4", nose, "300"); a.Status != http.StatusUnprocessableEntity {
		t.Errorf("a second crossing: status %d", a.Status)
	}
	s.want(a, `[id="e-`+nose+`"] .err`, "The outline crosses itself")
}
