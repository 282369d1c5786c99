package web

import (
	"fmt"
	"net/url"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"
	"github.com/chromedp/chromedp"

	"jounce/internal/catalog"
	"jounce/internal/sum"
	"jounce/internal/web/page"
)

func TestEverySumStandsAndAnswersItsExample(t *testing.T) {
	s := newShop(t)
	list := s.get("/sums")
	for _, x := range sum.All() {
		t.Run(x.Name, func(t *testing.T) {
			if n := list.Find(`.sl-g a[href="/sums/` + x.Name + `"]`).Length(); n != 1 {
				t.Errorf("the list has %d links to it", n)
			}
			empty := s.get("/sums/" + x.Name)
			if h := empty.Find("h2.qh").Text(); empty.Status != 200 || h != x.Question {
				t.Errorf("status %d, title %q, expected the question %q", empty.Status, h, x.Question)
			}
			if empty.Find(".err").Length() != 0 {
				t.Errorf("an empty page complains: %q", empty.Find(".err").Text())
			}
			for _, in := range x.Inputs {
				if empty.Find(`[name="`+in.Key+`"]`).Length() != 1 {
					t.Errorf("no box for %s", in.Key)
				}
			}
			want, problems := x.AskIn(catalog.NewShop(""), x.Example, true)
			if len(problems) > 0 {
				t.Fatal(problems)
			}
			a := s.get(sumHref(x, x.Example))
			big, _ := split(want.Headline)
			if want.Shown != "" {
				big = want.Shown
			}
			if got := a.Find(".ans a").Text(); got != big {
				t.Errorf("the answer is %q, expected %q", got, big)
			}
			if a.Find(".errs .err").Length() != 0 {
				t.Errorf("the example complains: %q", a.Find(".errs .err").Text())
			}
			for _, c := range want.Cautions {
				if !strings.Contains(a.Find(".caut").Text(), c) {
					t.Errorf("the caution is missing: %s", c)
				}
			}
		})
	}
}

func TestSumsAreFoundByUnitsAndSlang(t *testing.T) {
	s := newShop(t)
	for words, want := range map[string]string{"psi": "/sums/leak", "overnight": "/sums/leak", "soap": "/sums/leak", "tyre": "/sums/tyre", "bump": "/sums/bump-peak"} {
		a := s.get("/sums?q=" + url.QueryEscape(words))
		found := ""
		a.Find(".sl-g a").Each(func(_ int, q *goquery.Selection) { found += q.AttrOr("href", "") + " " })
		if !strings.Contains(found, want) {
			t.Errorf("%q finds %q, expected %s among them", words, found, want)
		}
	}
	a := s.get("/sums?q=zzzz+%3Cb%3E")
	if !strings.Contains(a.Find(".sl-none").Text(), "zzzz <b>") {
		t.Errorf("no word is said about words that find nothing: %q", a.Find("main").Text())
	}
}

const leakSum = "/sums/leak?start=10.00+bar&start-temperature=20&end=9.20&end-temperature=8&time=12&volume=10&barometer=1013&barometer-end=1013"

func TestScenario49InASum(t *testing.T) {
	s := newShop(t)
	a := s.get(leakSum)
	if got := a.Find(".ans a").Text() + " " + a.Find(".ans .nb").First().Text(); !strings.HasPrefix(got, "0.35 ±") {
		t.Errorf("lost %q, expected 0.35 bar", got)
	}
	if pre := a.Find(".pre1").Text(); pre != "lost" {
		t.Errorf("the word before the number is %q", pre)
	}
	if v := a.Find(".q-v .v").Text(); v != "Fail. Stops the work." || a.Find(".q-v svg.fail").Length() != 1 {
		t.Errorf("verdict %q", v)
	}
	if !strings.Contains(a.Find(".anst").Text(), "4.8 mL a minute") {
		t.Errorf("it says %q", a.Find(".anst").Text())
	}
	a = s.get("/sums/leak?start=10.00+bar&end=9.55&time=12&volume=10")
	if a.Find(".ans").Length() != 0 || !strings.Contains(a.Find(".errs .err").Text()+a.Find(".q-wait").Text(), "emperature") {
		t.Errorf("without temperatures it answers %q", a.Find(".q2").Text())
	}
}

func TestScenario53InASum(t *testing.T) {
	s := newShop(t)
	a := s.get(leakSum + "&relief=9")
	if a.Find(".ans").Length() != 0 || !strings.Contains(a.Find("#e-start .err").Text(), "over-pressure") {
		t.Errorf("%q %q", a.Find(".q2").Text(), a.Find("#e-start").Text())
	}
}

func TestScenario01And13InASum(t *testing.T) {
	s := newShop(t)
	a := s.get("/sums/leak?start=100")
	b := a.Find(`#e-start button[name=":answer"]`)
	offered := ""
	b.Each(func(_ int, q *goquery.Selection) { offered += q.AttrOr("value", "") + "; " })
	if !strings.Contains(offered, "psi") {
		t.Fatalf("100 in the bar box offers %q, expected psi", offered)
	}
	if v := a.Find("#start").AttrOr("value", ""); v != "100" {
		t.Errorf("the box holds %q, expected what was typed", v)
	}
	a = s.get("/sums/leak?start=100&time=12&%3Aanswer=" + url.QueryEscape("start=100 psi"))
	if q := a.URL.Query(); q.Get("start") != "100 psi" || q.Get("time") != "12" || q.Has(":answer") {
		t.Errorf("the answer leads to %s", a.URL)
	}
	a = s.get("/sums/leak?start=10,00+bar&start-temperature=20&end=9,20&end-temperature=8&time=12&volume=10")
	if got := a.Find(".ans a").Text(); got != "0.35" {
		t.Errorf("with decimal commas lost %q, expected 0.35", got)
	}
}

func TestScenario09InASum(t *testing.T) {
	s := newShop(t)
	a := s.get("/sums/leak?start=10&start-temperature=200&end=9.2&end-temperature=8&time=12&volume=10")
	if a.Find(".ans").Length() != 0 || a.Find("#e-start-temperature .err").Length() != 1 {
		t.Errorf("200 °C at the tank is taken: %q", a.Find(".q2").Text())
	}
	a = s.get("/sums/leak?start=10&start-temperature=68+%C2%B0F&end=9.2&end-temperature=8&time=12&volume=10")
	if got := a.Find(".ans a").Text(); got != "0.35" {
		t.Errorf("68 °F is 20 °C; lost %q, expected 0.35", got)
	}
}

func TestSumsSayWhatCannotBeUsed(t *testing.T) {
	s := newShop(t)
	for _, c := range []struct{ at, where, says string }{
		{"/sums/leak?start=banana", "#e-start .err", "banana"},
		{"/sums/leak?volume=3+kg", "#e-volume .err", "3 kg"},
		{"/sums/leak?colour=red", "#answer .err", "does not ask for it"},
		{"/sums/leak?start=10", "#answer .q-wait", "Still wanted: Gauge at the end"},
	} {
		a := s.get(c.at)
		if text := strings.ReplaceAll(a.Find(c.where).Text(), "\u00a0", " "); a.Status != 200 || !strings.Contains(text, c.says) {
			t.Errorf("%s: status %d, %s says %q, expected %q", c.at, a.Status, c.where, text, c.says)
		}
	}
	if a := s.get("/sums/nothing"); a.Status != 404 {
		t.Errorf("a sum that is not there: %d", a.Status)
	}
}

func TestKeepASumWithAJob(t *testing.T) {
	s := newShop(t)
	s.sign()
	rec := s.record("0412")
	rec.Note = "First line."
	s.keep(rec)
	q, err := url.Parse(leakSum)
	if err != nil {
		t.Fatal(err)
	}
	pairs := []string{":act", "keep"}
	for k, v := range q.Query() {
		pairs = append(pairs, k, v[0])
	}
	a := s.post("/sums/leak", pairs...)
	if n := a.Find(`button[name=":job"][value="0412"]`).Length(); n != 1 {
		t.Fatalf("the job is not offered: %q", a.Find("main").Text())
	}
	if len(s.m.revs["0412"]) != 2 {
		t.Error("asking which job has saved something")
	}
	a = s.post("/sums/leak", append(pairs, ":job", "0412")...)
	note := s.record("0412").Note
	for _, want := range []string{"First line.\n\nIs this a leak, or the cold? lost 0.35", "T. Marrow, 2026-03-14 10:42", "Gauge at the end: 9.20 bar", "/sums/leak?", "Fail: "} {
		if !strings.Contains(note, want) {
			t.Errorf("the note lacks %q:\n%s", want, note)
		}
	}
	if a.URL.Path != "/jobs/0412/record/job" {
		t.Errorf("it leads to %s", a.URL)
	}
	if a := s.post("/sums/leak", append(pairs, ":job", "9999")...); a.Status != 404 {
		t.Errorf("a job that is not there: %d", a.Status)
	}
	if a := s.post("/sums/leak", ":act", "keep", ":job", "0412", "start", "banana"); a.Status != 422 || a.Find("#e-start .err").Length() != 1 {
		t.Errorf("what cannot be used was kept: %d", a.Status)
	}
}

func TestSumsFitAndRecalculate(t *testing.T) {
	s := newShop(t)
	for _, w := range []int64{320, 360, 820, 1600} {
		t.Run(fmt.Sprint(w), func(t *testing.T) {
			ctx := tab(t, s)
			for k, p := range [][2]string{{"sums", "/sums"}, {"found", "/sums?q=psi"}, {"leak", leakSum}, {"empty", "/sums/leak"}, {"asked", "/sums/leak?start=100&end=banana"}} {
				theme := page.Themes[(k+int(w)/20)%3]
				cookie(t, ctx, s, lookCookie, theme)
				look(t, ctx, s, p[1], w, "sum-"+p[0]+"-"+theme)
			}
		})
	}
	ctx := tab(t, s)
	box := chromedp.CSS(`[name="end"]`)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(820, 900), chromedp.Navigate(s.srv.URL+leakSum), chromedp.Click(box),
		chromedp.KeyEvent("a", chromedp.KeyModifiers(chromedp.ModifierCtrl)), chromedp.KeyEvent("9.55"), chromedp.WaitVisible(chromedp.CSS(`.q-v svg.pass`))); err != nil {
		t.Fatal(err)
	}
	if got, err := chromedp.Run(ctx, chromedp.Text(chromedp.CSS(".ans a"))); err != nil || got != "0.00" {
		t.Errorf("typing 9.55 gives %q (%v), expected 0.00", got, err)
	}
}

func TestEverySumFitsAPhone(t *testing.T) {
	s := newShop(t)
	ctx := tab(t, s)
	for _, x := range sum.All() {
		look(t, ctx, s, sumHref(x, x.Example), 360, "sum-"+x.Name)
	}
}
