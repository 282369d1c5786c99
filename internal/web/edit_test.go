package web

import (
	"net/http"
	"strings"
	"testing"

	"jounce/internal/job"
)

func TestABrowserIsAskedForANameOnceAndLosesNothing(t *testing.T) {
	s := newShop(t)
	if a := s.get("/new"); a.URL.Path != "/name" {
		t.Errorf("/new without a name led to %s, expected /name", a.URL)
	}
	a := s.post("/jobs/0412/record/body", ":base", "1", "survey.rearOverhang", "900")
	if a.Status != http.StatusUnprocessableEntity {
		t.Errorf("status %d, expected 422", a.Status)
	}
	if v, _ := a.Find(`input[name="survey.rearOverhang"]`).Attr("value"); v != "900" {
		t.Errorf("the typed value is %q on the page that asks for a name, expected 900", v)
	}
	a = s.post("/jobs/0412/record/body", ":base", "1", "survey.rearOverhang", "900", ":signer", "  H.   Orme ")
	if a.Status != http.StatusOK || s.record("0412").Survey.RearOverhang.By != "H. Orme" {
		t.Errorf("status %d, read by %q, expected H. Orme", a.Status, s.record("0412").Survey.RearOverhang.By)
	}
	if a = s.get("/new"); a.URL.Path != "/new" {
		t.Errorf("asked again: %s", a.URL)
	}
	if a = s.post("/name", ":signer", " "); a.Status != http.StatusUnprocessableEntity {
		t.Errorf("an empty name: status %d, expected 422", a.Status)
	}
}

func TestABadEntryStaysInItsBoxAndMayBeLeftOpen(t *testing.T) {
	s := newShop(t)
	s.sign()
	const page = "/jobs/0412/survey?way=walk"
	a := s.post(page, ":base", "1", "survey.sill", "13.8")
	if a.Status != http.StatusUnprocessableEntity {
		t.Fatalf("status %d, expected 422", a.Status)
	}
	s.want(a, `[id="e-survey.sill"] .err`, "13.8 mm is out of range")
	s.want(a, "#asked", "Sill above the floor")
	if v, _ := a.Find(`input[name="survey.sill"]`).Attr("value"); v != "13.8 mm" {
		t.Errorf("the box holds %q, expected 13.8 mm", v)
	}
	var answers []string
	a.Find(`[id="e-survey.sill"] button[name=":answer"]`).Each(func(_ int, b *sel) { v, _ := b.Attr("value"); answers = append(answers, v) })
	if len(answers) == 0 || answers[0] != "survey.sill=13.8 cm" {
		t.Errorf("answers %q, expected survey.sill=13.8 cm first", answers)
	}
	if len(s.m.revs["0412"]) != 1 {
		t.Error("a bad entry was saved")
	}
	if a = s.post(page, ":base", "1", "survey.sill", "13.8 mm", ":answer", "survey.sill=13.8 cm"); a.Status != http.StatusOK || s.record("0412").Survey.Sill.Value != "13.8 cm" {
		t.Errorf("status %d, sill %q, expected the answer 13.8 cm", a.Status, s.record("0412").Survey.Sill.Value)
	}
	if a = s.post(page, ":base", "2", "survey.sill", "about knee high", ":open", "survey.sill"); a.Status != http.StatusOK {
		t.Errorf("left open: status %d", a.Status)
	}
	if got := s.record("0412").Survey.Sill.Value; got != "about knee high" {
		t.Errorf("the sill is %q, expected the text as typed", got)
	}
	a = s.get(page)
	s.want(a, ".n-li.er", "about knee high")
	s.want(a, ".tally", "1 to settle")
	s.want(s.get("/jobs/0412"), ".probs-s", "about knee high")
}

func TestTwoBadEntriesAreLeftOpenOneAfterTheOther(t *testing.T) {
	s := newShop(t)
	s.sign()
	a := s.post("/jobs/0412/record/body", ":base", "1", "survey.sill", "x", "survey.roof", "y", ":open", "survey.sill")
	if a.Status != http.StatusUnprocessableEntity || a.Find(`input[type=hidden][name=":open"][value="survey.sill"]`).Length() != 1 {
		t.Fatalf("status %d; the first entry left open is not remembered", a.Status)
	}
	s.post("/jobs/0412/record/body", ":base", "1", "survey.sill", "x", "survey.roof", "y", ":open", "survey.sill", ":open", "survey.roof")
	if v := s.record("0412").Survey; v.Sill.Value != "x" || v.Roof.Value != "y" {
		t.Errorf("sill %q, roof %q, expected x and y as typed", v.Sill.Value, v.Roof.Value)
	}
}

func TestAReadingCarriesWhoWhenAndWithWhat(t *testing.T) {
	s := newShop(t)
	s.sign()
	before := s.record("0412").Survey.Wheelbase
	s.post("/jobs/0412/record/body", ":base", "1", "survey.sill", "142", "survey.sill:with", "i1", "survey.wheelbase", "2540 mm", "survey.wheelbase:with", "")
	r := s.record("0412").Survey.Sill
	if r.Value != "142 mm" || r.With != "i1" || r.By != "T. Marrow" || r.At != "2026-03-14T10:42:00Z" {
		t.Errorf("the sill is %+v", r)
	}
	if w := s.record("0412").Survey.Wheelbase; w != before {
		t.Errorf("a reading that nobody touched became %+v", w)
	}
	s.post("/jobs/0412/survey?way=walk", ":base", "2", "survey.lowest", "", ":notread", "survey.lowest")
	if r := s.record("0412").Survey.Lowest; r.NotRead == "" || r.By != "T. Marrow" {
		t.Errorf("what cannot be read today is %+v", r)
	}
	s.want(s.get("/jobs/0412/survey?way=walk"), ".n-li.done:has(a[href*='survey.lowest'])", "not read")
}

func TestLiveAnswersSaveNothing(t *testing.T) {
	s := newShop(t)
	s.sign()
	r, err := http.NewRequest("POST", s.srv.URL+"/jobs/0412/record/weights", strings.NewReader(":base=1&corners.FL.weight=400"))
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("X-Live", "1")
	a := s.read(s.c.Do(r))
	if a.Status != http.StatusOK || a.Find("#found[data-live]").Length() != 1 {
		t.Errorf("status %d, %d live regions named found", a.Status, a.Find("#found[data-live]").Length())
	}
	if !strings.Contains(a.Find("#found").Text(), "400") {
		t.Error("the findings do not know the weight of 400 kg that was typed")
	}
	if len(s.m.revs["0412"]) != 1 {
		t.Error("a live answer was saved")
	}
}

func TestTwoPeopleKeepBothValues(t *testing.T) {
	s := newShop(t)
	s.sign()
	other := s.record("0412")
	if err := other.Set("survey.sill", "140 mm", true); err != nil {
		t.Fatal(err)
	}
	if err := other.Set("survey.roof", "1350 mm", true); err != nil {
		t.Fatal(err)
	}
	s.keep(other)
	// different places: both stand, without a question
	a := s.post("/jobs/0412/record/body", ":base", "1", "survey.rearOverhang", "900", "survey.roof", "1345 mm")
	if a.Status != http.StatusOK {
		t.Fatalf("status %d, expected the merge of different places", a.Status)
	}
	if v := s.record("0412").Survey; v.RearOverhang.Value != "900 mm" || v.Roof.Value != "1350 mm" || v.Sill.Value != "140 mm" {
		t.Errorf("after both: %q, %q, %q", v.RearOverhang.Value, v.Roof.Value, v.Sill.Value)
	}
	// the same place: both are shown, nothing is saved, nothing typed is lost
	a = s.post("/jobs/0412/record/body", ":base", "1", "survey.sill", "136 mm", "survey.trackFront", "1300")
	if a.Status != http.StatusConflict {
		t.Fatalf("status %d, expected 409", a.Status)
	}
	var values []string
	a.Find(".both .pick").Each(func(_ int, b *sel) { values = append(values, b.Find("b").Text()) })
	if strings.Join(values, "|") != "140 mm|136 mm" {
		t.Errorf("the two values are %q", values)
	}
	s.want(a, ".note", "1 other entry goes with it")
	if a = s.answer(a, "/jobs/0412/record/body", "survey.sill", "mine"); a.Status != http.StatusOK {
		t.Errorf("status %d", a.Status)
	}
	if v := s.record("0412").Survey; v.Sill.Value != "136 mm" || v.TrackFront.Value != "1300 mm" {
		t.Errorf("after the answer: %q, %q", v.Sill.Value, v.TrackFront.Value)
	}
}

func TestListsGrowAndShrink(t *testing.T) {
	s := newShop(t)
	s.sign()
	a := s.post("/jobs/0412/record/springs", ":base", "1", ":add", "springs[s1].points")
	if a.Find(`input[name="springs[s1].points[p3].load"]`).Length() != 1 || len(s.m.revs["0412"]) != 1 {
		t.Error("a new line of the table is not there, or was saved while it is empty")
	}
	s.post("/jobs/0412/record/springs", ":base", "1", "springs[s1].points[p3].load", "1400", "springs[s1].points[p3].pressure", "2", "springs[s1].points[p3].height", "150")
	if p := s.record("0412").Springs[0].Points; len(p) != 3 || p[2].Load.Value != "1400 N" {
		t.Errorf("the table is %+v", p)
	}
	s.post("/jobs/0412/record/springs", ":base", "2", ":remove", "springs[s1].points[p3]")
	if p := s.record("0412").Springs[0].Points; len(p) != 2 {
		t.Errorf("the table has %d lines, expected 2", len(p))
	}
	if a = s.post("/jobs/0412/record/springs", ":base", "3", ":add", "car"); a.Status != http.StatusUnprocessableEntity && a.Status != http.StatusBadRequest {
		t.Errorf("adding to what is no list: status %d", a.Status)
	}
	if a = s.post("/jobs/0412/record/springs", ":base", "3", "springs[a b].name", "x"); a.Status != http.StatusBadRequest || s.get("/jobs/0412").Status != http.StatusOK {
		t.Errorf("an id that no item can have: status %d, expected 400 and a job that still opens", a.Status)
	}
	if a = s.post("/jobs/0412/record/springs", ":base", "3", "no.such.place", "1"); a.Status != http.StatusBadRequest {
		t.Errorf("a place that the record does not have: status %d, expected 400", a.Status)
	}
}

func TestEveryPlaceOfTheRecordHasABox(t *testing.T) {
	s := newShop(t)
	s.sign()
	boxes := map[string]bool{}
	for _, sec := range sections {
		s.get("/jobs/0412/record/" + sec.Key).Find("input[type=text],select,textarea").Each(func(_ int, b *sel) {
			name, _ := b.Attr("name")
			if boxes[name] && !strings.Contains(name, ":") {
				t.Errorf("%s has two boxes in the record", name)
			}
			boxes[name] = true
		})
	}
	for _, f := range s.record("0412").Fields() {
		if f.Path != "id" && !boxes[f.Path] {
			t.Errorf("%s has no box", f.Path)
		}
	}
}

func TestANewJobBeginsWithWhatIsKnown(t *testing.T) {
	s := newShop(t)
	s.sign()
	if a := s.post("/new", "name", "", ":way", "walk"); a.Status != http.StatusUnprocessableEntity {
		t.Errorf("a job without a name: status %d, expected 422", a.Status)
	}
	a := s.post("/new", "name", "Wyke saloon", "car.form", "saloon", "keeper.name", "P. Wyke", "axles.front.layout", "strut", "axles.front.springing", "air", ":way", "axle")
	if a.URL.Path != "/jobs/0401/survey" || a.URL.Query().Get("way") != "axle" {
		t.Fatalf("led to %s, expected the survey of 0401, one axle first", a.URL)
	}
	if n := a.Find(".n-li").Length(); n != 7 {
		t.Errorf("%d entries, expected seven", n)
	}
	base, _ := a.Find(`input[name=":base"]`).Attr("value")
	pairs := []string{":base", base, "axles.front.layout", "strut", "corners.FL.weight", "276", "axles.front.unsprungLeft", "30", "axles.front.springRatio", "1",
		"springs[s1].points[p1].load", "2795", "springs[s1].points[p1].pressure", "4", "springs[s1].points[p1].height", "150"}
	a.Find("input[type=hidden]").Each(func(_ int, b *sel) {
		if name, _ := b.Attr("name"); !strings.HasPrefix(name, ":") {
			v, _ := b.Attr("value")
			pairs = append(pairs, name, v)
		}
	})
	a = s.post("/jobs/0401/survey?way=axle", pairs...)
	if a.Status != http.StatusOK {
		t.Fatalf("status %d: %s", a.Status, a.Find(".err").Text())
	}
	s.want(a, "#pressures", "bar")
	s.want(s.get("/?q=wyke"), ".l-row", "0401 Wyke saloon")
}

func TestHistoryRestoresByAddingARevision(t *testing.T) {
	s := newShop(t)
	s.sign()
	s.post("/jobs/0412/record/body", ":base", "1", "survey.sill", "150")
	a := s.get("/jobs/0412/history/2")
	s.want(a, ".chg", "138 mm → 150 mm")
	a = s.get("/jobs/0412/history/1")
	base, _ := a.Find(`form[method=post] input[name=":base"]`).Attr("value")
	if a = s.post("/jobs/0412/history/1", ":base", "1"); a.Status != http.StatusBadRequest {
		t.Errorf("restoring over a revision not seen: status %d, expected 400", a.Status)
	}
	a = s.post("/jobs/0412/history/1", ":base", base)
	if a.Status != http.StatusOK || s.record("0412").Survey.Sill.Value != "138 mm" || len(s.m.revs["0412"]) != 3 {
		t.Errorf("status %d, sill %q, %d revisions", a.Status, s.record("0412").Survey.Sill.Value, len(s.m.revs["0412"]))
	}
	s.want(a, "ol.past li", "Restored from revision 1, by T. Marrow, 14 March 2026 10:42")
}

func TestErrorsHaveTheirStatusAndAPage(t *testing.T) {
	s := newShop(t)
	s.sign()
	for path, status := range map[string]int{"/nothing": 404, "/jobs/9999": 404, "/jobs/0412/history/99": 404, "/jobs/0412/record/nothing": 404, "/jobs/shop": 404} {
		if a := s.get(path); a.Status != status || a.Find("main .err").Length() == 0 {
			t.Errorf("%s: status %d, expected %d and a sentence", path, a.Status, status)
		}
	}
	r, _ := http.NewRequest("GET", s.srv.URL+"/", nil)
	r.Host = "evil.example.com"
	if a := s.read(s.c.Do(r)); a.Status != http.StatusMisdirectedRequest {
		t.Errorf("a foreign name: status %d, expected 421", a.Status)
	}
	r, _ = http.NewRequest("POST", s.srv.URL+"/name", strings.NewReader(":signer=X"))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("Origin", "http://other.test")
	if a := s.read(s.c.Do(r)); a.Status != http.StatusForbidden {
		t.Errorf("a post from another site: status %d, expected 403", a.Status)
	}
	if a := s.post("/look", ":look", "dark", ":back", "//evil.example.com/"); a.URL.Host != strings.TrimPrefix(s.srv.URL, "http://") {
		t.Errorf("led away to %s", a.URL)
	}
	if a := s.get("/"); a.Find(`html[data-theme="dark"]`).Length() != 1 {
		t.Error("the look that was chosen is not kept")
	}
}

func TestTheBoardSaysWhereWhatAndWhen(t *testing.T) {
	s := newShop(t)
	late := demo()
	late.ID, late.Name = "0401", "Sorrel saloon"
	for path, text := range map[string]string{"place.where": "in the yard", "place.promised": "2026-03-11", "place.stage": "sound, panels"} {
		if err := late.Set(path, text, true); err != nil {
			t.Fatal(err)
		}
	}
	s.keep(late)
	gone := demo()
	gone.ID, gone.Name, gone.Place = "0390", "Pell saloon", job.Place{Stage: "handed over", Where: "gone home"}
	s.keep(gone)
	a := s.get("/")
	if n := a.Find(".j-row").Length(); n != 2 {
		t.Errorf("%d cars on the board, expected the two open ones", n)
	}
	s.want(a, ".j-g", "In a bay 1")
	s.want(a, ".j-row:contains('0401')", "3 days late")
	if a.Find(".j-row:contains('0401') .late").Length() != 1 || a.Find(".j-row:contains('0412') .late").Length() != 0 {
		t.Error("the late date, and only it, is underlined")
	}
	if n := a.Find(".j-row svg.dr").Length(); n != 2 {
		t.Errorf("%d cars drawn, expected 2", n)
	}
	if got := a.Find(".j-row").First().Find(".j-tal > span").Length(); got != 4 {
		t.Errorf("%d columns of the tally, expected 4", got)
	}
	a = s.get("/?q=belly")
	s.want(a, ".l-n", "3 of 3")
	s.want(a, "mark", "belly")
	if a = s.get("/?q=belly&all=1&state=handed+over"); a.Find(".l-row").Length() != 1 {
		t.Errorf("%d handed over, expected 1", a.Find(".l-row").Length())
	}
	s.want(s.get("/?q=nothing+of+this"), ".j-none", "No job has all of these words")
}

func TestACornerLeadsToItsFinding(t *testing.T) {
	s := newShop(t)
	a := s.get("/jobs/0412")
	n := 0
	a.Find(".corner a[href^='#']").Each(func(_ int, l *sel) {
		n++
		to, _ := l.Attr("href")
		if a.Find(`[id="`+strings.TrimPrefix(to, "#")+`"]`).Length() != 1 {
			t.Errorf("a pressure leads to %s, which is not on the page", to)
		}
	})
	if n < 2 {
		t.Errorf("%d corners lead to a finding, expected at least the two front ones", n)
	}
}

func TestScenario6ExchangedWeightsAreAskedAboutAtTheSave(t *testing.T) {
	s := newShop(t)
	s.sign()
	form := []string{":base", "1", "corners.FL.weight", "234", "corners.FR.weight", "234", "corners.RL.weight", "276", "corners.RR.weight", "276"}
	a := s.post("/jobs/0412/record/weights", form...)
	if a.Status != http.StatusUnprocessableEntity {
		t.Fatalf("status %d, expected 422", a.Status)
	}
	s.want(a, `[id="e-corners.FL.weight"] .err`, "front and rear look exchanged")
	if len(s.m.revs["0412"]) != 1 {
		t.Error("it was saved without an answer")
	}
	a = s.post("/jobs/0412/record/weights", append(form, ":open", "corners.FL.weight")...)
	if got := s.record("0412").Corners.FL.Weight.Value; a.Status != http.StatusOK || got != "234 kg" {
		t.Errorf("status %d, FL %q: they were really so", a.Status, got)
	}
}
