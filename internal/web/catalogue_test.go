package web

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"
	"github.com/chromedp/chromedp"
)

func TestTheCatalogueShowsEveryPartInItsStates(t *testing.T) {
	s := newShop(t)
	s.sign()
	a := s.get("/catalogue")
	if a.Status != http.StatusOK {
		t.Fatalf("status %d: %s", a.Status, a.Text)
	}
	for _, key := range []string{"head", "rooms", "field", "error", "quad", "clash", "unsent", "finding", "working", "source", "corners", "height", "order", "gaps", "wishes", "stage", "table", "chart", "figure", "caution", "buttons", "focus", "titleblock"} {
		sec := a.Find(".cat-p" + at("part-"+key))
		if sec.Length() != 1 || a.Find(`.cat-n a[href="#part-`+key+`"]`).Length() != 1 {
			t.Errorf("%s: %d sections", key, sec.Length())
		}
		if key == "rooms" { // the page's own
			continue
		}
		sec.Find(".cat-x").Each(func(_ int, x *goquery.Selection) {
			state := x.Find(".cap2").First().Text()
			if x.Children().Length() < 2 || strings.TrimSpace(x.Children().Not(".cap2").Text()) == "" && x.Find("input,svg").Length() == 0 {
				t.Errorf("%s, %s: nothing is drawn", key, state)
			}
		})
		if sec.Find(".cat-x").Length() == 0 {
			t.Errorf("%s: no state is shown", key)
		}
	}
	states := map[string]bool{}
	a.Find(".cat-x>.cap2").Each(func(_ int, x *goquery.Selection) { states[x.Text()] = true })
	for _, want := range []string{"empty", "typed", "wrong", "conflicting", "too close to call", "not known", "fail, locked", "not sent yet", "known, derived, waiting, on steel"} {
		if !states[want] {
			t.Errorf("no part is shown %q", want)
		}
	}
	ids := map[string]bool{}
	a.Find("[id]").Each(func(_ int, e *goquery.Selection) {
		id := e.AttrOr("id", "")
		if ids[id] {
			t.Errorf("the id %q stands twice", id)
		}
		ids[id] = true
	})
	if a.Find(".height .rule").Length() != 1 || a.Find("#part-chart svg").Length() != 3 {
		t.Errorf("%d rules, %d charts: the specimen does not carry them", a.Find(".height .rule").Length(), a.Find("#part-chart svg").Length())
	}
	s.want(s.get("/shop"), `a[href="/catalogue"]`, "Parts of the pages")
}

func TestTheCatalogueFitsEveryScreen(t *testing.T) {
	s := newShop(t)
	ctx := tab(t, s)
	for _, w := range []int64{360, 820, 1600} {
		for _, theme := range []string{"light", "dark"} {
			cookie(t, ctx, s, lookCookie, theme)
			look(t, ctx, s, "/catalogue", w, "catalogue-"+theme)
		}
	}
	// a page that is broken on purpose is found out
	text, err := chromedp.Run(ctx, chromedp.Evaluate[string](`(() => { document.querySelector("main").insertAdjacentHTML("beforeend",
 '<a href="/" style="font-size:9px">x</a><i style="display:inline-block;width:3000px">far</i>'); return 0 })(), `+probe))
	if err != nil {
		t.Fatal(err)
	}
	var faults []string
	if err := json.Unmarshal([]byte(text), &faults); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"scrolls sideways", "target ", "lettering 9.0 px"} {
		if !strings.Contains(strings.Join(faults, "\n"), want) {
			t.Errorf("%q was not found: %v", want, faults)
		}
	}
}
