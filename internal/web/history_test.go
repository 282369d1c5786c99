package web

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"jounce/internal/job"
)

// sat is a shop in whose job somebody sat four times: a weight, a spring put in,
// the damper that decides the travel, the same weight again by somebody else.
func sat(t testing.TB) *shop {
	s := newShop(t)
	s.sign()
	s.post("/jobs/0412/record/weights", ":base", "1", "corners.FL.weight", "286")
	s.post("/jobs/0412/record/springs", ":base", "2", "springs[s2].name", "sleeve 90", "springs[s2].closed", "60 mm")
	s.post("/jobs/0412/record/axles", ":base", "3", "axles.rear.limiters[l1].droop", "68 mm", "axles.front.spring", "s2")
	s.post("/name", ":signer", "H. Orme")
	s.post("/jobs/0412/record/weights", ":base", "4", "corners.FL.weight", "279", "survey.ticketFront", "560", "survey.fuel", "half", "survey.driver", "out")
	return s
}

func text(a answer, selector string) string {
	return strings.Join(strings.Fields(a.Find(selector).Text()), " ")
}

func TestHistorySaysWhatChanged(t *testing.T) {
	s := sat(t)
	a := s.get("/jobs/0412/history")
	var got []string
	a.Find("ol.past > li").Each(func(_ int, e *sel) { got = append(got, strings.Join(strings.Fields(e.Text()), " ")) })
	want := []string{
		"5Axle ticket, front 560 kg; fuel when weighed half; driver when weighed out; and 1 moreH. Orme, 14 March 2026 10:42",
		"4Front spring bellows 110 → sleeve 90; rear limit of travel strap, droop from ROAD, at the wheel 48 mm → 68 mmT. Marrow, 14 March 2026 10:42",
		"3Spring sleeve 90 put inT. Marrow, 14 March 2026 10:42",
		"2FL weight 276 kg → 286 kgT. Marrow, 14 March 2026 10:42",
	}
	if len(got) != 5 || strings.Join(got[:4], "\n") != strings.Join(want, "\n") || !strings.Contains(got[4], "The first, with") {
		t.Errorf("the history says\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if n := a.Find("select[name=from] option").Length(); n != 5 {
		t.Errorf("%d revisions to choose from, expected 5", n)
	}
}

func TestHistoryOfAPlace(t *testing.T) {
	s := sat(t)
	a := s.get("/jobs/0412/history?place=corners.FL.weight")
	s.want(a, "h2", "What happened to FL weight")
	var numbers []string
	a.Find("ol.past > li .past-a > b").Each(func(_ int, e *sel) { numbers = append(numbers, e.Text()) })
	if strings.Join(numbers, " ") != "5 2 1" {
		t.Errorf("revisions %q changed FL weight, expected 5 2 1", numbers)
	}
	s.want(a, "ol.past > li", "5286 kg T. Marrow, 14 March 2026 10:42 → 279 kg H. Orme, 14 March 2026 10:42H. Orme")
	// an item, a group, a page of the record, a place that nothing is known of
	for query, want := range map[string]string{"place=springs[s2]": "3", "place=axles": "4 1", "section=weights": "5 2 1", "place=no.such": "", "place=" + url.QueryEscape(`"><script>`): ""} {
		numbers = nil
		a := s.get("/jobs/0412/history?" + query)
		a.Find("ol.past > li .past-a > b").Each(func(_ int, e *sel) { numbers = append(numbers, e.Text()) })
		if a.Status != http.StatusOK || strings.Join(numbers, " ") != want {
			t.Errorf("%s: status %d, revisions %q, expected %q", query, a.Status, numbers, want)
		}
	}
	if a := s.get("/jobs/0412/history?section=none"); a.Status != http.StatusNotFound {
		t.Errorf("a page that the record does not have: status %d", a.Status)
	}
	// the way there
	a = s.get("/jobs/0412/record/weights")
	if a.Find(`a[href="/jobs/0412/history?place=corners.FL.weight"]`).Length() != 1 || a.Find(`a[href="/jobs/0412/history?section=weights"]`).Length() != 1 {
		t.Error("the weights do not lead to their history")
	}
}

func TestHistoryGoesFurtherBack(t *testing.T) {
	s := newShop(t)
	s.sign()
	for n := range 60 {
		rec := s.record("0412")
		rec.Note = "visit " + itoa(n)
		s.keep(rec)
	}
	seen, pages := 0, 0
	for to := "/jobs/0412/history"; to != ""; pages++ {
		a := s.get(to)
		seen += a.Find("ol.past > li").Length()
		to = a.Find(`.block a.act:contains("Older ones")`).AttrOr("href", "")
	}
	if seen != 61 || pages != 3 {
		t.Errorf("%d revisions on %d pages, expected 61 on 3", seen, pages)
	}
}

func TestTwoRevisionsAreComparedInWords(t *testing.T) {
	s := sat(t)
	a := s.get("/jobs/0412/history/compare?from=1&to=5")
	if a.Status != http.StatusOK {
		t.Fatalf("status %d: %s", a.Status, a.Find(".err").Text())
	}
	var parts []string
	a.Find(".chg-h").Each(func(_ int, e *sel) { parts = append(parts, e.Text()) })
	if strings.Join(parts, "|") != "Weights and state|Axles|Springs" {
		t.Errorf("parts %q", parts)
	}
	s.want(a, `.chg div:has(a[href*="corners.FL.weight"]) dd`, "276 kg → 279 kg H. Orme, 14 March 2026 10:42")
	s.want(a, `.chg div:has(a[href*="fuel"]) dd`, "empty → half")
	s.want(a, `.chg div:has(.chg-i)`, "Spring sleeve 90 put in")
	s.want(a, ".cmp-t", "Before: revision 1T. Marrow")
	if n := a.Find(".turns li").Length(); n == 0 {
		t.Error("the front has another spring, and no finding turned or moved")
	}
	s.want(a, ".turns li:first-child .why", "→")
	if a.Find(".cmp-n .tally").Length() != 2 || text(a, ".cmp-n div:first-child .tally") == text(a, ".cmp-n div:last-child .tally") {
		t.Errorf("the tallies are %q", text(a, ".cmp-n"))
	}
	if a.Find("select[name=from] option[selected]").AttrOr("value", "") != "1" || a.Find("select[name=to] option[selected]").AttrOr("value", "") != "5" {
		t.Error("the choice does not show what is compared")
	}
	// without a choice: the newest and the one before
	a = s.get("/jobs/0412/history/compare")
	s.want(a, ".cmp-t", "Before: revision 4")
	// turned round, the same, none such, no numbers
	a = s.get("/jobs/0412/history/compare?from=5&to=1")
	s.want(a, `.chg div:has(a[href*="fuel"]) dd`, "half H. Orme"[:4])
	s.want(a, ".cmp-c .note", "backwards")
	a = s.get("/jobs/0412/history/compare?from=2&to=2")
	if a.Find(".chg").Length() != 0 || !strings.Contains(text(a, "main"), "No verdict turned") {
		t.Error("a revision differs from itself")
	}
	for query, status := range map[string]int{"from=1&to=99": 404, "from=x&to=2": 400, "from=-1&to=2": 400, "from=1&to=99999999999999999999": 400} {
		if a := s.get("/jobs/0412/history/compare?" + query); a.Status != status {
			t.Errorf("%s: status %d, expected %d", query, a.Status, status)
		}
	}
}

// TestBothOutlinesAreDrawn draws the other revision behind the car where the two
// differ, and the car alone where they do not.
func TestBothOutlinesAreDrawn(t *testing.T) {
	s := newShop(t)
	s.sign()
	s.post("/jobs/0412/record/body", ":base", "1", "survey.roof", "1260")
	s.post("/jobs/0412/record/body", ":base", "2", "survey.wheelbase", "2700")
	s.post("/jobs/0412/record/job", ":base", "3", "note", "x")
	for query, want := range map[string]struct {
		drawn bool
		words string
	}{"from=1&to=2": {true, "Firm: revision 2. Double-dot chain: revision 1."}, "from=3&to=1": {true, "Firm: revision 1. Double-dot chain: revision 3."}, "from=3&to=4": {false, "the same in both"}} {
		a := s.get("/jobs/0412/history/compare?" + query)
		svg, err := a.Find(".cmp-g .fig.m svg").Html()
		if err != nil || svg == "" {
			t.Fatalf("%s: no drawing: %v", query, err)
		}
		named := strings.Contains(a.Find(".cmp-g .fig.m svg").Text(), "revision ")
		if named != want.drawn || !strings.Contains(text(a, ".cmp-g"), want.words) {
			t.Errorf("%s: the other revision named in the drawing: %v; %q", query, named, text(a, ".cmp-g > p"))
		}
	}
}

func TestARevisionThatCannotBeReadSaysSo(t *testing.T) {
	s := sat(t)
	s.m.revs["0412"][2].Document = []byte(`{"schema":1,"no such":1}`)
	a := s.get("/jobs/0412/history")
	if a.Status != http.StatusOK || a.Find("ol.past > li").Length() != 5 || !strings.Contains(text(a, "ol.past"), "cannot be said") {
		t.Errorf("status %d: %s", a.Status, text(a, "ol.past"))
	}
}

func TestCopyBeginsAJobWithoutWhatWasMeasured(t *testing.T) {
	s := newShop(t)
	s.sign()
	rec := s.record("0412")
	rec.Corners.FL.Weight.With, rec.Note = "i1", "see the sum"
	s.keep(rec)
	a := s.get("/jobs/0412/copy")
	s.want(a, "main section:nth-of-type(2) h2", "left out")
	if a.Find(`input[name="keeper.name"]`).AttrOr("value", "?") != "" || a.Find(`input[name="car.description"]`).AttrOr("value", "") != "compact saloon" {
		t.Error("the form proposes the old keeper, or not the kind of car")
	}
	base := a.Find(`input[name=":base"]`).AttrOr("value", "")
	a = s.post("/jobs/0412/copy", ":base", base, "name", "Wyke saloon", "keeper.name", "P. Wyke", "car.description", "compact saloon")
	if a.Status != http.StatusOK || a.URL.Path != "/jobs/0401/copied" {
		t.Fatalf("led to %s, status %d", a.URL, a.Status)
	}
	c := s.record("0401")
	if c.Name != "Wyke saloon" || c.Keeper.Name != "P. Wyke" || c.Axles.Front.TyreLeft != "185/70R13" || c.Axles.Front.Spring != "s1" || len(c.Springs) != 1 || c.Place.Stage != "enquiry" {
		t.Errorf("the copy is %+v", c)
	}
	if !c.Corners.FL.Weight.IsZero() || !c.Survey.Wheelbase.IsZero() || c.Place.Bay != "" || c.Place.Promised != "" || c.Note != "" || len(c.Wishes)+len(c.LeakTests)+len(c.Signatures) != 0 {
		t.Errorf("measured values or the keeper's things travelled: %+v", c)
	}
	rev := s.m.revs["0401"][0]
	if _, number, ok := job.CopiedFrom(rev.Note); !ok || number != 2 {
		t.Errorf("the note is %q", rev.Note)
	}
	s.want(a, ".left:contains(weight)", "FL weight")
	s.want(a, "main", "None of them stands in this job yet.")
	list := text(a, "main")
	for _, name := range []string{"Sill above the floor", "Wheelbase", "RR hub to arch", "Leak test 1"} {
		if !strings.Contains(list, name) {
			t.Errorf("%s is not listed as left out", name)
		}
	}
	if strings.Contains(list, "276 kg") {
		t.Error("the list shows a value of the other car")
	}
	s.post("/jobs/0401/record/weights", ":base", "1", "corners.FL.weight", "301")
	a = s.get("/jobs/0401/copied")
	s.want(a, ".left .done", "FL weight now 301 kg")
	s.want(a, "main", "1 of them stands in this job by now.")
	s.want(s.get("/jobs/0401/history"), "ol.past li:last-child", "Copied from job 0412, revision 2")
	if a := s.get("/jobs/0412/copied"); a.Status != http.StatusBadRequest {
		t.Errorf("a job that is no copy: status %d", a.Status)
	}
	// what a copy does not ask for, no name, a revision that is not there
	n := len(s.m.revs)
	for _, c := range []struct {
		status int
		pairs  []string
	}{{400, []string{"name", "x", "corners.FL.weight", "276 kg"}}, {422, []string{"name", "", "car.description", " "}}, {404, []string{"name", "x", ":base", "77"}}, {400, []string{"name", "x", "id", "0001"}}} {
		if a := s.post("/jobs/0412/copy", c.pairs...); a.Status != c.status || len(s.m.revs) != n {
			t.Errorf("%q: status %d, expected %d", c.pairs, a.Status, c.status)
		}
	}
}
