package web

import (
	"net/http"
	"testing"

	"jounce/internal/catalog"
	"jounce/internal/finding"
	"jounce/internal/study"
)

func TestTheOwnerSignsForWhatMayBeSigned(t *testing.T) {
	s := newShop(t)
	s.sign()
	rec := s.record("0412")
	for path, text := range map[string]string{"corners.FL.weight": "330 kg", "corners.FR.weight": "230 kg"} {
		if err := rec.Set(path, text, true); err != nil {
			t.Fatal(err)
		}
	}
	s.keep(rec)
	var signs, other finding.Finding
	for _, f := range study.Of(rec, catalog.NewShop("x")).Findings {
		if f.Grade == finding.OwnerSigns && f.Verdict == finding.Fail {
			signs = f
		}
		if f.Grade == finding.Stops {
			other = f
		}
	}
	if signs.ID == "" || other.ID == "" {
		t.Fatal("the car that is 100 kg heavier on one side gives no finding that the owner signs for")
	}
	if n := s.get("/jobs/0412").Find(`a[href="/jobs/0412/sign/` + signs.ID + `"]`).Length(); n != 1 {
		t.Errorf("%d ways to sign for %s, expected one", n, signs.ID)
	}
	if a := s.get("/jobs/0412/sign/" + other.ID); a.Status != http.StatusBadRequest {
		t.Errorf("what stops the work: status %d, expected 400", a.Status)
	}
	to := "/jobs/0412/sign/" + signs.ID
	if a := s.post(to, ":base", "2", "who", "A. Quill", "reason", " "); a.Status != http.StatusUnprocessableEntity {
		t.Errorf("without a reason: status %d, expected 422", a.Status)
	}
	if a := s.post(to, ":base", "1", "who", "A. Quill", "reason", "show car"); a.Status != http.StatusConflict {
		t.Errorf("over a revision not seen: status %d, expected 409", a.Status)
	}
	a := s.post(to, ":base", "2", "who", "A. Quill", "reason", "show car")
	if a.Status != http.StatusOK {
		t.Fatalf("status %d", a.Status)
	}
	s.want(a, `[id="f-`+signs.ID+`"]`, "Signed by A. Quill: show car.")
	if a.Find(`a[href="`+to+`"]`).Length() != 0 {
		t.Error("it can be signed for twice")
	}
}
