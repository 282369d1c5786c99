package web

import (
	"net/http"
	"strings"
	"testing"
)

// TestUndoIsOneTap walks a sitting: a reading, its undo from the status line of
// the page reached, and the undo of the undo.
func TestUndoIsOneTap(t *testing.T) {
	s := newShop(t)
	s.sign()
	if a := s.get("/jobs/0412"); a.Find("#kept").Length() != 1 || a.Find("#kept button").Length() != 0 {
		t.Error("the first revision is not said on the car, or has an undo")
	}
	a := s.post("/jobs/0412/record/weights", ":base", "1", "corners.FL.weight", "286")
	s.want(a, `#kept [role=status]`, "Kept as revision 2: FL weight 276 kg → 286 kg.")
	undo := func(a answer) answer {
		t.Helper()
		f := a.Find("#kept form")
		if f.Length() != 1 || f.Find("button").Text() != "Undo" {
			t.Fatalf("%s has no undo: %s", a.URL, a.Find("#kept").Text())
		}
		var pairs []string
		f.Find("input").Each(func(_ int, e *sel) {
			n, _ := e.Attr("name")
			v, _ := e.Attr("value")
			pairs = append(pairs, n, v)
		})
		to, _ := f.Attr("action")
		return s.post(to, pairs...)
	}
	a = undo(a)
	if a.Status != http.StatusOK || a.URL.Path != "/jobs/0412/record/weights" || s.record("0412").Corners.FL.Weight.Value != "276 kg" || len(s.m.revs["0412"]) != 3 {
		t.Fatalf("%s: status %d, FL %q, %d revisions", a.URL, a.Status, s.record("0412").Corners.FL.Weight.Value, len(s.m.revs["0412"]))
	}
	s.want(a, "#kept", "Kept as revision 3: undid revision 2: FL weight 286 kg → 276 kg.")
	if string(s.m.revs["0412"][2].Document) != string(s.m.revs["0412"][0].Document) {
		t.Error("the undo is not the state before, byte for byte")
	}
	undo(s.get("/jobs/0412"))
	if w := s.record("0412").Corners.FL.Weight; w.Value != "286 kg" || w.By != "T. Marrow" {
		t.Errorf("the undo undone: %+v", w)
	}
	a = undo(s.get("/jobs/0412/history"))
	if s.record("0412").Corners.FL.Weight.Value != "276 kg" || a.URL.Path != "/jobs/0412/history" || len(s.m.revs["0412"]) != 5 {
		t.Errorf("from the history: %s, FL %q, %d revisions", a.URL, s.record("0412").Corners.FL.Weight.Value, len(s.m.revs["0412"]))
	}
}

func TestUndoTakesNobodyElsesWorkBack(t *testing.T) {
	s := newShop(t)
	s.sign()
	a := s.post("/jobs/0412/record/weights", ":base", "1", "corners.FL.weight", "286")
	other := s.record("0412")
	other.Survey.Roof.Value = "1350 mm"
	s.keep(other)
	b := s.post("/jobs/0412/undo", ":base", "2", ":back", "/jobs/0412")
	if b.Status != http.StatusBadRequest || !strings.Contains(b.Text, "saved revision 3 since") || len(s.m.revs["0412"]) != 3 {
		t.Errorf("status %d, %d revisions: %s", b.Status, len(s.m.revs["0412"]), b.Find(".err").Text())
	}
	b = s.get(a.URL.RequestURI())
	s.want(b, "#kept", "Kept as revision 2. T. Marrow saved revision 3 since")
	if b.Find("#kept form").Length() != 0 || b.Find(`#kept a[href*="from=2&to=3"]`).Length() != 1 {
		t.Errorf("a page whose revision is no longer the newest: %s", b.Find("#kept").Text())
	}
	for _, base := range []string{"", "x", "0", "99", "-1"} {
		if b := s.post("/jobs/0412/undo", ":base", base); b.Status != http.StatusBadRequest || len(s.m.revs["0412"]) != 3 {
			t.Errorf("base %q: status %d", base, b.Status)
		}
	}
	s.keepNew("0500")
	if b := s.post("/jobs/0500/undo", ":base", "1"); b.Status != http.StatusBadRequest {
		t.Errorf("the first revision was undone: status %d", b.Status)
	}
	if b := s.post("/jobs/9999/undo", ":base", "1"); b.Status != http.StatusNotFound {
		t.Errorf("no such job: status %d", b.Status)
	}
}

// keepNew makes a job that has nothing but a number and a name.
func (s *shop) keepNew(id string) {
	j := demo()
	j.ID = id
	s.keep(j)
}

// TestEverySaveSaysWhatItKept posts each kind of save.
func TestEverySaveSaysWhatItKept(t *testing.T) {
	s := newShop(t)
	s.sign()
	for n, post := range [][]string{
		{"/jobs/0412/survey?way=walk", ":base", "1", "survey.sill", "140"},
		{"/jobs/0412/record/wishes", ":base", "2", "wishes[w1].target", "90 mm"},
		{"/jobs/0412/leak"},
		{"/jobs/0412/history/1", ":base", "4"},
	} {
		a := s.post(post[0], post[1:]...)
		if want := "Kept as revision " + itoa(n+2); !strings.Contains(a.Find("#kept").Text(), want) || a.Find("#kept form").Length() != 1 {
			t.Errorf("%s: %q, expected %s and an undo", post[0], a.Find("#kept").Text(), want)
		}
	}
	if a := s.post("/jobs/0412/record/body", ":base", "5"); a.Find("#kept").Length() != 0 {
		t.Errorf("nothing was saved, and the page says %q", a.Find("#kept").Text())
	}
	if a := s.get("/jobs/0412/record/body?kept=99"); a.Find("#kept").Length() != 0 {
		t.Errorf("a revision that is not there: %q", a.Find("#kept").Text())
	}
	a := s.post("/new", "name", "Wyke saloon")
	if a.URL.Query().Get("way") != "walk" || a.Find("#kept").Length() != 1 {
		t.Errorf("a new job led to %s", a.URL)
	}
}

func TestExactKeptAt(t *testing.T) {
	for _, c := range [][2]string{
		{"/jobs/0412/springs#t-s1", "/jobs/0412/springs?kept=15#t-s1"}, {"/jobs/0412", "/jobs/0412?kept=15"}, {"/jobs/0412?kept=3&way=walk", "/jobs/0412?kept=15&way=walk"},
		{"/jobs/04123", "/jobs/04123"}, {"/", "/"}, {"https://elsewhere.test/jobs/0412", "https://elsewhere.test/jobs/0412"}, {"%zz", "%zz"},
	} {
		if got := keptAt(c[0], noted{"0412", 15}); got != c[1] {
			t.Errorf("%s became %s, expected %s", c[0], got, c[1])
		}
	}
}
