package web

import (
	"net/http"
	"strings"
	"testing"
)

func TestATouchPointIsAddedOnItsPage(t *testing.T) {
	s := newShop(t)
	s.sign()
	const page = "/jobs/0412/record/touch"
	a := s.get(page)
	s.want(a, `button[name=":add"][value="touch"]`, "Add a touch point")
	if a = s.post(page, ":base", "1", ":add", "touch"); a.Status != http.StatusOK || len(s.m.revs["0412"]) != 1 {
		t.Fatalf("status %d, or it was saved while it is empty", a.Status)
	}
	const at = "touch[c1]."
	box := a.Find(`input[name="` + at + `name"]`)
	if v, _ := box.Attr("list"); v != "touch-names" {
		t.Errorf("its name is picked from %q", v)
	}
	if n := a.Find("datalist#touch-names option").Length(); n < 30 {
		t.Errorf("%d names to pick from, expected the thirty of the trade", n)
	}
	s.want(a, `datalist#touch-names option[value="bag to tyre"]`, "with the wheel, bag and anything")
	a = s.post(page, ":base", "1", at+"name", "steering rack", at+"moves", "with the body", at+"meets", "metal and metal", at+"room", "64")
	if a.Status != http.StatusOK {
		t.Fatalf("status %d", a.Status)
	}
	if got := s.record("0412").Touch[0]; got.Name != "steering rack" || got.Room.Value != "64 mm" || got.Room.By == "" {
		t.Errorf("kept as %+v", got)
	}
	if text := a.Find("#found").Text(); !strings.Contains(text, "at the steering rack") {
		t.Errorf("nothing is said of it: %s", text)
	}
	// What cannot be is asked, not lost.
	if a = s.post(page, ":base", "2", at+"ratio", "40"); a.Status != http.StatusUnprocessableEntity {
		t.Errorf("a ratio of 40: status %d", a.Status)
	}
	s.want(a, `[id="e-`+at+`ratio"] .err`, "40")
}
