package web

import (
	"context"
	"fmt"
	"net/url"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"
	"github.com/chromedp/chromedp"

	examples "jounce/examples"
	"jounce/internal/job"
	"jounce/internal/web/page"
)

// bay is a shop with an invented job that has been to the leak test.
func bay(t testing.TB, set ...string) *shop {
	t.Helper()
	s := newShop(t)
	s.sign()
	body, err := examples.Files.ReadFile("0412-quill-saloon.json")
	if err != nil {
		t.Fatal(err)
	}
	rec, err := job.Decode(body)
	if err != nil {
		t.Fatal(err)
	}
	for i := 0; i+1 < len(set); i += 2 {
		if err := rec.Set(set[i], set[i+1], true); err != nil {
			t.Fatal(err)
		}
	}
	s.keep(rec)
	return s
}

// decayed is the job with one test of two readings: gauge and temperature at
// 18:00 and at 06:00.
func decayed(t testing.TB, first, firstT, last, lastT string, set ...string) *shop {
	t.Helper()
	s := bay(t)
	rec := s.record("0412")
	rec.LeakTests[0].Readings = nil
	all := append([]string{
		"leakTests[t1].readings[r1].at", "2026-03-12T18:00", "leakTests[t1].readings[r1].pressure", first, "leakTests[t1].readings[r1].temperature", firstT,
		"leakTests[t1].readings[r2].at", "2026-03-13T06:00", "leakTests[t1].readings[r2].pressure", last, "leakTests[t1].readings[r2].temperature", lastT,
	}, set...)
	for i := 0; i+1 < len(all); i += 2 {
		if err := rec.Set(all[i], all[i+1], true); err != nil {
			t.Fatal(err)
		}
	}
	for i := range rec.LeakTests[0].Readings {
		r := &rec.LeakTests[0].Readings[i]
		r.Pressure.With, r.Temperature.With, r.Pressure.At = "gauge7", "therm2", r.At
		for _, h := range []*job.Reading{&r.FL, &r.FR, &r.RL, &r.RR} {
			h.With = "rule4"
		}
	}
	s.keep(rec)
	return s
}

const leakAt = "/jobs/0412/leak/t1/"

// line is one finding on the verdict screen.
func line(t *testing.T, a answer, id string) (verdict, text string) {
	t.Helper()
	li := a.Find(`[id="v-` + id + `"]`)
	if li.Length() != 1 {
		t.Fatalf("%d lines of %s on the verdict screen, expected 1", li.Length(), id)
	}
	return li.Find("span.v").First().Text(), li.Text()
}

func TestEveryLeakScreenStands(t *testing.T) {
	s := bay(t)
	for _, x := range leakSteps {
		a := s.get(leakAt + x.key)
		if a.Status != 200 {
			t.Errorf("%s: status %d", x.key, a.Status)
		}
		if here := a.Find(".lk-st li[aria-current]").Text(); here != x.name {
			t.Errorf("%s: the line of steps says %q is here", x.key, here)
		}
		a.Find("form.lk input[name],form.lk select[name],form.lk textarea[name]").Each(func(_ int, q *goquery.Selection) {
			name, _ := q.Attr("name")
			if strings.HasPrefix(name, ":") || strings.HasSuffix(name, ":with") {
				return
			}
			if _, err := s.record("0412").Clone().Field(name, true); err != nil {
				t.Errorf("%s: the box %q is no place of the record: %v", x.key, name, err)
			}
		})
	}
	for path, want := range map[string]int{"/jobs/0412/leak/t9/stand": 404, "/jobs/0412/leak/t1/nothing": 404, "/jobs/0412/leak/t9": 404, "/jobs/9999/leak": 404} {
		if a := s.get(path); a.Status != want {
			t.Errorf("%s: status %d, expected %d", path, a.Status, want)
		}
	}
	if a := s.post("/jobs/0412/leak/t9/start", "leakTests[t9].readings[r1].pressure", "10"); a.Status != 404 || len(s.record("0412").LeakTests) != 1 {
		t.Errorf("a test that is not there was answered with %d, and the record has %d tests", a.Status, len(s.record("0412").LeakTests))
	}
}

func TestALeakTestFromTheFirstScreenToTheVerdict(t *testing.T) {
	s := bay(t)
	a := s.post("/jobs/0412/leak")
	if a.URL.Path != "/jobs/0412/leak/t2/stand" {
		t.Fatalf("a new test leads to %s", a.URL.Path)
	}
	base := func(a answer) []string {
		v, _ := a.Find(`input[name=":base"]`).Attr("value")
		return []string{":base", v}
	}
	p := "leakTests[t2]."
	a = s.post(a.URL.Path, append(base(a), p+"volume", "10", p+"pressure", "10", p+"isolation", "lines disconnected", p+"relief.lift", "11.3", p+"relief.reseat", "10.1")...)
	if a.URL.Path != "/jobs/0412/leak/t2/gauge" {
		t.Fatalf("after Stand: %s %s", a.URL.Path, a.Find(".err").Text())
	}
	a = s.post(a.URL.Path, append(base(a), ":pressure", "gauge7", ":temperature", "therm2", ":length", "rule4")...)
	if a.URL.Path != "/jobs/0412/leak/t2/start" || a.URL.Query().Get("pressure") != "gauge7" {
		t.Fatalf("after Gauge: %s", a.URL)
	}
	r := p + "readings[r1]."
	if v, _ := a.Find(`[name="` + r + `at"]`).Attr("value"); v != "2026-03-14T10:42" {
		t.Errorf("the time box holds %q, expected the server's clock", v)
	}
	if v, _ := a.Find(`[name="` + r + `pressure:with"] option[selected]`).Attr("value"); v != "gauge7" {
		t.Errorf("the reading's gauge is %q, expected the one chosen before", v)
	}
	a = s.post(a.URL.Path, append(base(a), r+"at", "2026-03-13T18:00", r+"pressure", "10.00", r+"pressure:with", "gauge7", r+"temperature", "20", r+"temperature:with", "therm2")...)
	if a.URL.Path != "/jobs/0412/leak/t2/wait" {
		t.Fatalf("after Start: %s %s", a.URL.Path, a.Find(".err").Text())
	}
	a = s.get("/jobs/0412/leak/t2/read")
	r = p + "readings[r2]."
	a = s.post(a.URL.Path, append(base(a), r+"at", "2026-03-14T06:00", r+"pressure", "9.2", r+"pressure:with", "gauge7", r+"temperature", "8", r+"temperature:with", "therm2")...)
	if a.URL.Path != "/jobs/0412/leak/t2/wait" || !strings.Contains(a.Find(".lk-h").Text(), "it leaks") {
		t.Fatalf("after Read: %s %q", a.URL.Path, a.Find(".lk-h").Text())
	}
	if a.Find(".lk-fig svg").Length() == 0 {
		t.Error("two readings and no chart")
	}
	a = s.get("/jobs/0412/leak/t2/soap")
	a = s.post(a.URL.Path, append(base(a), p+"joints.soaped", "12", p+"joints.bubbles", "1", p+"joints.where", "elbow at valve RL")...)
	if a.URL.Path != "/jobs/0412/leak/t2/verdict" {
		t.Fatalf("after Soap: %s", a.URL.Path)
	}
	if v, text := line(t, a, "t2.tank"); v != "Fail. Stops the work." || !strings.Contains(text, "4.8\u00a0mL/min") {
		t.Errorf("tank: %q %q", v, text)
	}
	if v, text := line(t, a, "t2.joints"); !strings.HasPrefix(v, "Fail") || !strings.Contains(text, "elbow at valve RL") {
		t.Errorf("joints: %q %q", v, text)
	}
	got := s.record("0412").LeakTests[1].Readings
	if len(got) != 2 || got[0].Pressure.With != "gauge7" || got[0].Pressure.Value != "10.00 bar" || got[0].Pressure.By != "T. Marrow" {
		t.Errorf("the readings are %+v", got)
	}
}

func TestATimeAloneMakesNoReading(t *testing.T) {
	s := bay(t)
	n := len(s.record("0412").LeakTests[0].Readings)
	s.post(leakAt+"read", "leakTests[t1].readings[r6].at", "2026-04-03T08:00", "leakTests[t1].readings[r6].pressure", "  ")
	if got := len(s.record("0412").LeakTests[0].Readings); got != n {
		t.Errorf("%d readings, expected %d", got, n)
	}
}

func TestScenario01BareHundredIsTakenInTheShownUnitOrAsked(t *testing.T) {
	s := bay(t)
	a := s.post(leakAt+"read", "leakTests[t1].readings[r9].at", "2026-04-03T08:00", "leakTests[t1].readings[r9].pressure", "100")
	if a.Status != 422 {
		t.Fatalf("status %d, expected a question", a.Status)
	}
	if n := a.Find(`button[name=":answer"][value^="leakTests[t1].readings[r9].pressure=100"][value$="psi"]`).Length(); n != 1 {
		t.Errorf("the answer 100 psi is not offered: %q", a.Find(".errs").Text())
	}
	if v, _ := a.Find(`[name="leakTests[t1].readings[r9].pressure"]`).Attr("value"); !strings.HasPrefix(v, "100") {
		t.Errorf("the box holds %q, expected what was typed", v)
	}
	if v, _ := a.Find(`[name="leakTests[t1].readings[r9].at"]`).Attr("value"); v != "2026-04-03T08:00" {
		t.Errorf("the time was lost: %q", v)
	}
}

func TestScenario09SixtyEightDegrees(t *testing.T) {
	s := bay(t)
	a := s.post(leakAt+"read", "leakTests[t1].readings[r9].at", "2026-04-03T08:00", "leakTests[t1].readings[r9].pressure", "9.5", "leakTests[t1].readings[r9].temperature", "68")
	if a.Status != 422 || !strings.Contains(a.Find(`[id="e-leakTests[t1].readings[r9].temperature"]`).Text(), "68 °F") {
		t.Errorf("status %d, %q", a.Status, a.Find(".errs").Text())
	}
}

func TestScenario10GaugeTooCoarseOnThePage(t *testing.T) {
	s := decayed(t, "10.0 bar ± 0.19 bar", "20 °C", "9.9 bar ± 0.19 bar", "20 °C")
	v, text := line(t, s.get(leakAt+"verdict"), "t1.tank")
	if !strings.HasPrefix(v, "Too close to call") || !strings.Contains(text, "cannot prove pass or fail with this gauge") || !strings.Contains(text, "Read again at") {
		t.Errorf("%q %q", v, text)
	}
}

func TestScenario13DecimalComma(t *testing.T) {
	s := bay(t)
	a := s.post(leakAt+"read", "leakTests[t1].readings[r9].at", "2026-04-03T08:00", "leakTests[t1].readings[r9].pressure", "9,5 bar", "leakTests[t1].readings[r9].temperature", "8,0 °C")
	if a.URL.Path != leakAt+"wait" {
		t.Fatalf("status %d at %s: %q", a.Status, a.URL.Path, a.Find(".err").Text())
	}
	rows := s.get(leakAt + "wait").Find(".lk-rows tbody tr").Last().Text()
	if !strings.Contains(rows, "9.5\u00a0±") {
		t.Errorf("the reading is echoed as %q, expected 9.5", rows)
	}
}

func TestScenario49ColdIsNoLeakOnThePage(t *testing.T) {
	for _, c := range []struct{ last, firstT, lastT, verdict, says string }{
		{"9.55 bar", "20 °C", "8 °C", "Pass.", "The tank holds."},
		{"9.55 bar", "", "", "Not enough known.", "annot judge"},
		{"9.20 bar", "20 °C", "8 °C", "Fail. Stops the work.", "4.8\u00a0mL/min"},
	} {
		s := decayed(t, "10.00 bar", c.firstT, c.last, c.lastT)
		v, text := line(t, s.get(leakAt+"verdict"), "t1.tank")
		if !strings.HasPrefix(v, c.verdict) || !strings.Contains(text, c.says) {
			t.Errorf("%s with %q and %q: %q %q", c.last, c.firstT, c.lastT, v, text)
		}
	}
}

func TestScenario50HeightTellsOnThePage(t *testing.T) {
	s := decayed(t, "10.00 bar", "20 °C", "10.00 bar", "20 °C", heightsAt("r1", "360", "360", "359", "359", "r2", "342", "360", "359", "359")...)
	v, text := line(t, s.get(leakAt+"verdict"), "t1.corners")
	if !strings.HasPrefix(v, "Fail") || !strings.Contains(text, "FL leaks: pressure is set by weight, height tells") {
		t.Errorf("%q %q", v, text)
	}
}

func heightsAt(list ...string) []string {
	var out []string
	for i := 0; i < len(list); i += 5 {
		for k, c := range []string{"FL", "FR", "RL", "RR"} {
			out = append(out, "leakTests[t1].readings["+list[i]+"]."+c, list[i+1+k]+" mm")
		}
	}
	return out
}

func TestScenario51ColdExplainsTheSink(t *testing.T) {
	s := decayed(t, "10.00 bar", "20 °C", "9.55 bar", "8 °C", heightsAt("r1", "360", "360", "359", "359", "r2", "340", "354", "350", "351")...)
	a := s.get(leakAt + "verdict")
	var cells []string
	a.Find("table.lk-rows").First().Find("tbody tr").First().Find("td").Each(func(_ int, q *goquery.Selection) { cells = append(cells, strings.TrimSpace(q.Text())) })
	if len(cells) != 7 || cells[3] != "20\u00a0mm" || cells[4] != "6\u00a0mm" || !strings.HasPrefix(cells[5], "14") || !strings.Contains(cells[6], "Fail") {
		t.Errorf("front left is told as %q", cells)
	}
}

func TestScenario53AboveReliefIsRefused(t *testing.T) {
	s := bay(t)
	a := s.post(leakAt+"stand", "leakTests[t1].pressure", "12 bar")
	if a.URL.Path != leakAt+"stand" || !strings.Contains(a.Find(".lk-ref").Text(), "No pneumatic over-pressure test in this shop") {
		t.Errorf("%s: %q", a.URL.Path, a.Find(".lk-ref").Text())
	}
	for _, step := range []string{"start", "read"} {
		if a := s.get(leakAt + step); a.Find(".lk-big input").Length() != 0 || !strings.Contains(a.Find("form.lk").Text(), "No reading is taken") {
			t.Errorf("%s takes a reading for a refused test", step)
		}
	}
}

func TestScenario54ClampedTubeOnThePage(t *testing.T) {
	s := bay(t)
	a := s.post(leakAt+"stand", "leakTests[t1].isolation", "tube clamped")
	if a.URL.Path != leakAt+"stand" || !strings.Contains(a.Find(".lk-ref").Text(), "A clamped tube is no isolation") || a.Find(".lk-ref .src").Text() != "S1" {
		t.Errorf("%s: %q", a.URL.Path, a.Find(".lk-ref").Text())
	}
}

func TestScenario90TheCautionStandsWhereThePersonStands(t *testing.T) {
	s := bay(t)
	for _, step := range []string{"stand", "wait"} {
		if text := s.get(leakAt + step).Find(".caut").Text(); !strings.Contains(text, "Nobody under the car") || !strings.Contains(text, "air does not hold a car, rated stands do") {
			t.Errorf("%s: %q", step, text)
		}
	}
}

func TestWaitSaysWhenItCanBeDecided(t *testing.T) {
	s := bay(t)
	rec := s.record("0412")
	rec.LeakTests[0].Readings = rec.LeakTests[0].Readings[:1]
	rec.LeakTests[0].Readings[0].At = "2026-03-14T10:00"
	s.keep(rec)
	a := s.get(leakAt + "wait") // the clock says 10:42
	if h := a.Find(".lk-h").Text(); !strings.HasPrefix(h, "Leave it shut. Nothing to do until 15:") {
		t.Errorf("heading %q", h)
	}
	if b := a.Find(".lk-t b").Text(); !strings.HasPrefix(b, "4 h ") {
		t.Errorf("it can be decided in %q, expected four hours and some minutes", b)
	}
	if n := a.Find(".lk-n").Text(); !strings.Contains(n, "± 0.02 bar could decide at") {
		t.Errorf("no better gauge is named: %q", n)
	}
}

func TestOverdueInstrumentIsNotEvidence(t *testing.T) {
	s := decayed(t, "10.00 bar", "20 °C", "9.55 bar", "8 °C", "instruments[gauge7].due", "2026-03-01")
	if text := s.get(leakAt + "gauge").Find(".lk-tool strong").Text(); !strings.Contains(text, "not evidence") {
		t.Errorf("gauge screen: %q", text)
	}
	if _, text := line(t, s.get(leakAt+"verdict"), "t1.tank"); !strings.Contains(text, "Not evidence: gauge 7") {
		t.Errorf("verdict: %q", text)
	}
}

func TestAddAnInstrument(t *testing.T) {
	s := bay(t)
	a := s.post(leakAt+"gauge", ":add", "instruments")
	name := a.Find(`input[name^="instruments["][name$="].name"]`)
	if name.Length() != 1 {
		t.Fatalf("%d boxes for the name of the added instrument", name.Length())
	}
	at := strings.TrimSuffix(name.AttrOr("name", ""), "name")
	a = s.post(leakAt+"gauge", ":stay", "1", at+"name", "barometer 1", at+"measures", "absolute-pressure", at+"accuracy", "1 mbar", at+"checked", "2026-01-05", at+"due", "2027-01-05")
	if a.URL.Path != leakAt+"gauge" || !strings.Contains(a.Find(".lk-tool").Text(), "barometer 1") {
		t.Errorf("%s: %q", a.URL.Path, a.Find(".lk-tool").Text())
	}
}

func TestTomorrow(t *testing.T) {
	s := decayed(t, "10.00 bar", "20 °C", "10.00 bar", "20 °C")
	a := s.post(leakAt+"tomorrow", "leakTests[t1].tomorrow", "8")
	if got := a.Find(".ans-n").Text(); !strings.HasPrefix(got, "9.55") {
		t.Errorf("the gauge should read %q at 8 °C, expected 9.55", got)
	}
}

func TestCannotBeRead(t *testing.T) {
	s := bay(t)
	s.post(leakAt+"read", ":notread", "leakTests[t1].readings[r9].pressure", "leakTests[t1].readings[r9].at", "2026-04-03T08:00")
	list := s.record("0412").LeakTests[0].Readings
	if r := list[len(list)-1]; r.ID != "r9" || r.Pressure.NotRead == "" {
		t.Errorf("the last reading is %+v", r)
	}
}

func TestBayScreensFitAndTheKeysType(t *testing.T) {
	s := bay(t)
	for _, w := range []int64{320, 360, 820, 1600} {
		t.Run(fmt.Sprint(w), func(t *testing.T) {
			ctx := tab(t, s)
			for k, x := range append(leakSteps[:len(leakSteps):len(leakSteps)], struct{ key, name, act string }{"", "list", ""}) {
				theme := page.Themes[(k+int(w)/20)%3]
				cookie(t, ctx, s, lookCookie, theme)
				path := leakAt + x.key
				if x.key == "" {
					path = "/jobs/0412/leak"
				}
				look(t, ctx, s, path, w, "leak-"+x.name+"-"+theme)
			}
		})
	}
	ctx := tab(t, s)
	keys := func(ctx context.Context, words ...string) {
		t.Helper()
		for _, w := range words {
			js := fmt.Sprintf(`[...document.querySelectorAll(".lk-pad button")].find(b => b.textContent === %q).click()`, w)
			if _, err := chromedp.Run(ctx, chromedp.Evaluate[any](js)); err != nil {
				t.Fatal(w, err)
			}
		}
	}
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(820, 900), chromedp.Navigate(s.srv.URL+leakAt+"read")); err != nil {
		t.Fatal(err)
	}
	keys(ctx, "9", ".", "5", "6", "rub out", "next box", "−", "2")
	type typed struct{ Keep, Gauge, Cold string }
	got, err := chromedp.Run(ctx, chromedp.Evaluate[typed](`({Keep: document.querySelector("[data-says]").textContent, Gauge: document.querySelectorAll(".lk-big input")[0].value, Cold: document.querySelectorAll(".lk-big input")[1].value})`))
	if err != nil {
		t.Fatal(err)
	}
	if want := (typed{"Keep 9.5 bar", "9.5", "−2"}); got != want {
		t.Errorf("the keys typed %+v, expected %+v", got, want)
	}
	sizes, err := chromedp.Run(ctx, chromedp.Evaluate[[]float64](`[".lk-pad button", ".lk-k .key"].map(q => Math.min(...[...document.querySelectorAll(q)].map(e => e.getBoundingClientRect().height)))`))
	if err != nil {
		t.Fatal(err)
	}
	if sizes[0] < 92 || sizes[1] < 76 {
		t.Errorf("pad keys are %.0f px and keys %.0f px high, expected 92 and 76", sizes[0], sizes[1])
	}
}

func TestAnswersAreAddressesOfThisServer(t *testing.T) {
	s := bay(t)
	for _, x := range leakSteps {
		s.get(leakAt + x.key).Find("a[href]").Each(func(_ int, q *goquery.Selection) {
			href := q.AttrOr("href", "")
			if strings.HasPrefix(href, "#") {
				return
			}
			u, err := url.Parse(href)
			if err != nil || u.Host != "" {
				t.Errorf("%s leads to %q", x.key, href)
				return
			}
			if a := s.get(href); a.Status != 200 {
				t.Errorf("%s leads to %q: status %d", x.key, href, a.Status)
			}
		})
	}
}
