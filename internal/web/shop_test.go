package web

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"
	"github.com/chromedp/chromedp"

	"jounce/internal/catalog"
	"jounce/internal/job"
	"jounce/internal/web/page"
)

// at selects the element with an id that has dots and brackets.
func at(id string) string { return `[id="` + id + `"]` }

// form is everything that a browser would post from the shop's page.
func (a answer) form() url.Values {
	v := url.Values{}
	a.Find("form.shop input, form.shop textarea").Each(func(_ int, e *goquery.Selection) {
		name, _ := e.Attr("name")
		if e.Is("textarea") {
			v.Set(name, e.Text())
		} else {
			v.Set(name, e.AttrOr("value", ""))
		}
	})
	a.Find("form.shop select").Each(func(_ int, e *goquery.Selection) {
		name, _ := e.Attr("name")
		v.Set(name, e.Find("option[selected]").AttrOr("value", ""))
	})
	return v
}

// fill posts the page's form with some boxes filled in.
func (s *shop) fill(a answer, pairs ...string) answer {
	s.t.Helper()
	v := a.form()
	for i := 0; i < len(pairs); i += 2 {
		if _, ok := v[pairs[i]]; !ok && !strings.HasPrefix(pairs[i], ":") {
			s.t.Fatalf("the page has no box %q", pairs[i])
		}
		v.Set(pairs[i], pairs[i+1])
	}
	return s.read(s.c.PostForm(s.srv.URL+"/shop", v))
}

func (s *shop) document() *catalog.Shop {
	s.t.Helper()
	rev, err := s.m.Load(s.t.Context(), job.Shop)
	if err != nil {
		s.t.Fatal(err)
	}
	out := new(catalog.Shop)
	if err := json.Unmarshal(rev.Document, out); err != nil {
		s.t.Fatal(err)
	}
	return out
}

const bump = "travel.bump.want"

func TestShopPageShowsEveryLimit(t *testing.T) {
	s := newShop(t)
	s.sign()
	a := s.get("/shop")
	if a.Status != http.StatusOK {
		t.Fatalf("status %d:\n%s", a.Status, a.Text)
	}
	all := catalog.NewShop("x").Limits()
	if n := a.Find("details.sh-l").Length(); n != len(all) {
		t.Errorf("%d limits on the page, %d in the list", n, len(all))
	}
	for _, l := range all {
		s.want(a, at("l-"+l.Key)+" .say", l.Name)
		s.want(a, at("l-"+l.Key)+" .n", catalog.StartText(l.Key))
		s.want(a, at("l-"+l.Key)+" .src", string(l.Source))
	}
	s.want(a, "nav.rooms [aria-current]", "The shop")
	a.Find("input[type=text],select,textarea").Each(func(_ int, e *goquery.Selection) {
		id, _ := e.Attr("id")
		if a.Find(`label[for="`+id+`"]`).Length() != 1 {
			t.Errorf("the box %q has no label of its own", id)
		}
	})
}

func TestAJobIsJudgedByTheLimitThatWasJustSaved(t *testing.T) {
	s := newShop(t)
	s.sign()
	const finding = "#f-FL\\.pressure"
	s.want(s.get("/jobs/0412"), finding+" .why", "Pass")
	a := s.fill(s.get("/shop"), limitBox("spring.pressure.least", "value"), "4.2", limitBox("spring.pressure.least", "note"), "softer bags leak at the fold")
	if a.Status != http.StatusOK {
		t.Fatalf("status %d:\n%s", a.Status, a.Find(".err").Text())
	}
	j := s.get("/jobs/0412")
	s.want(j, finding+" .why", "Fail")
	s.want(j, finding+" .limits", "at least 4.2")
	s.want(j, finding+" .limits", "softer bags leak at the fold")
	a = s.fill(s.get("/shop"), ":back", "spring.pressure.least")
	s.want(a, at("l-spring.pressure.least")+" .n", "at least 2.5")
	s.want(s.get("/jobs/0412"), finding+" .why", "Pass")
	if got := s.document(); len(got.Changes) != 0 {
		t.Errorf("after it was put back the document changes %+v", got.Changes)
	}
}

func TestAChangedLimitNeedsANote(t *testing.T) {
	s := newShop(t)
	s.sign()
	a := s.fill(s.get("/shop"), limitBox(bump, "value"), "65", limitBox("ride.frequency.least", "note"), "typed beside it")
	if a.Status != http.StatusUnprocessableEntity {
		t.Fatalf("a limit without a note was taken: status %d", a.Status)
	}
	s.want(a, at("e-"+limitBox(bump, "note"))+" .err", "needs a note that says why")
	if v := a.Find(at(limitBox(bump, "value"))).AttrOr("value", ""); v != "65" {
		t.Errorf("the box holds %q, typed was 65", v)
	}
	s.want(a, at(limitBox("ride.frequency.least", "note")), "typed beside it")
	if _, open := a.Find(at("l-" + bump)).Attr("open"); !open {
		t.Error("the limit that asks is shut")
	}
	if _, err := s.m.Load(t.Context(), job.Shop); err == nil {
		t.Error("something was saved")
	}
	a = s.fill(a, limitBox(bump, "note"), "  our lanes are rough  ")
	if a.Status != http.StatusOK {
		t.Fatalf("status %d: %s", a.Status, a.Find(".err").Text())
	}
	got, _ := s.document().Change(bump)
	want := catalog.LimitChange{ID: bump, Value: "65 mm", Note: "our lanes are rough", By: "T. Marrow", At: "2026-03-14T10:42:00Z"}
	if got != want {
		t.Errorf("saved is %+v, expected %+v", got, want)
	}
	s.want(a, at("l-"+bump)+" .sh-was", "it started with at least 60")
	s.want(a, at("l-"+bump)+" .src", "shop")
	s.want(a, ".sh-his li", "at least 65")
	s.want(a, ".sh-his li", "T. Marrow")
}

func TestValuesThatCannotBeUsedAreAskedAtTheirBox(t *testing.T) {
	s := newShop(t)
	s.sign()
	for typed, says := range map[string]string{"65 in": "more than 10 times off 60 mm", "-5": "below nothing", "": "starts with 60 mm", "60 ± 5 mm": "one value", "3 bar": "gauge pressure", "a lot": "Type a length"} {
		a := s.fill(s.get("/shop"), limitBox(bump, "value"), typed, limitBox(bump, "note"), "why")
		if a.Status != http.StatusUnprocessableEntity {
			t.Errorf("%q was taken: status %d", typed, a.Status)
			continue
		}
		s.want(a, at("e-"+limitBox(bump, "value"))+" .err", says)
		if v := a.Find(at(limitBox(bump, "value"))).AttrOr("value", "none"); v != typed {
			t.Errorf("typed %q, the box holds %q", typed, v)
		}
		s.want(a, "#asked a", "Bump left at ROAD, to solid, value")
	}
	a := s.fill(s.get("/shop"), "name", "", "fullWidth", "8", "mass", "st")
	s.want(a, at("e-name")+" .err", "A name was expected")
	s.want(a, at("e-fullWidth")+" .err", "from 50 % to 100 %")
	s.want(a, at("e-mass")+" .err", "kg, lb")
	a = s.fill(s.get("/shop"), limitBox("ride.frequency.least", "value"), "1.9 Hz", limitBox("ride.frequency.least", "note"), "stiff")
	s.want(a, at("e-"+limitBox("ride.frequency.least", "value"))+" .err", "nothing passes both")
	if _, err := s.m.Load(t.Context(), job.Shop); err == nil {
		t.Error("something was saved")
	}
}

func TestUnitsAndNameOfTheShopAreKept(t *testing.T) {
	s := newShop(t)
	s.sign()
	a := s.fill(s.get("/shop"), "name", "Marrow & Daughter", "pressure", "psi", "length", "in", "mass", "lb", "fullWidth", "80")
	s.want(a, "h1", "Marrow & Daughter")
	got := s.document()
	if got.Name != "Marrow & Daughter" || got.Pressure != "psi" || got.Length != "in" || got.Mass != "lb" || got.FullWidth != 80 || len(got.Changes) != 0 {
		t.Errorf("saved is %+v", got)
	}
	s.want(a, at("l-"+bump)+" .why", "2.36 in")
	s.want(s.get("/"), ".who", "Marrow & Daughter")
	s.fill(a, limitBox(bump, "value"), "2.5", limitBox(bump, "note"), "inches here")
	if c, _ := s.document().Change(bump); c.Value != "2.5 in" {
		t.Errorf("a number in a box that shows in was kept as %q", c.Value)
	}
	n := len(s.m.revs[job.Shop])
	s.fill(s.get("/shop"))
	if got := len(s.m.revs[job.Shop]); got != n {
		t.Errorf("a form in which nothing changed made revision %d", got)
	}
}

func TestTwoWhoChangeTheShopAtOnceAreBothHeard(t *testing.T) {
	s := newShop(t)
	s.sign()
	first, second := s.get("/shop"), s.get("/shop")
	s.fill(first, limitBox(bump, "value"), "65 mm", limitBox(bump, "note"), "rough lanes")
	a := s.fill(second, "mass", "lb", limitBox(bump, "value"), "70 mm", limitBox(bump, "note"), "rough lanes")
	if a.Status != http.StatusConflict {
		t.Fatalf("status %d, expected the question which value stands", a.Status)
	}
	s.want(a, at("e-"+limitBox(bump, "value"))+" .err", "Saved meanwhile by T. Marrow: 65 mm")
	if got := a.form().Get(limitBox(bump, "value")); got != "70 mm" {
		t.Errorf("the box holds %q, typed was 70 mm", got)
	}
	a = s.fill(a)
	if c, _ := s.document().Change(bump); a.Status != http.StatusOK || c.Value != "70 mm" || s.document().Mass != "lb" {
		t.Errorf("kept again: status %d, %+v, mass in %s", a.Status, c, s.document().Mass)
	}
	s.fill(second, limitBox("ride.side.most", "value"), "4 %", limitBox("ride.side.most", "note"), "it can be felt")
	if c, _ := s.document().Change(bump); c.Value != "70 mm" {
		t.Errorf("an old page that did not touch the bump made it %q", c.Value)
	}
}

func TestTheShopIsNoJob(t *testing.T) {
	s := newShop(t)
	s.sign()
	s.fill(s.get("/shop"), "mass", "lb")
	if a := s.get("/jobs/shop"); a.Status != http.StatusNotFound {
		t.Errorf("/jobs/shop answers %d", a.Status)
	}
}

func TestTheShopFitsTheScreen(t *testing.T) {
	s := newShop(t)
	s.sign()
	s.fill(s.get("/shop"), limitBox(bump, "value"), "65", limitBox(bump, "note"), "our lanes are rough, and two cars came back with flattened bump stops", "pressure", "psi")
	s.fill(s.get("/shop"), limitBox("ride.side.most", "grade"), "note", limitBox("ride.side.most", "note"), "felt by nobody yet")
	body, err := s.fill(s.get("/shop"), limitBox(bump, "note"), "", limitBox("lamp.aim.most", "value"), "275", "name", "").Find("main").Html()
	if err != nil {
		t.Fatal(err)
	}
	asks, err := json.Marshal(body)
	if err != nil {
		t.Fatal(err)
	}
	for k, w := range []int64{320, 360, 820, 1280, 1600} {
		t.Run(fmt.Sprint(w), func(t *testing.T) {
			ctx := tab(t, s)
			themes := page.Themes[k%2 : k%2+1] // looks differ in colours only; pictures are wanted of both
			if *shots != "" {
				themes = page.Themes[:2]
			}
			for _, theme := range themes {
				cookie(t, ctx, s, lookCookie, theme)
				look(t, ctx, s, "/shop", w, "shop-"+theme)
				inside := func(key, css string) string { return at("l-"+key) + " " + css }
				if err := chromedp.Do(ctx, chromedp.Click(chromedp.CSS(inside(bump, "summary"))), chromedp.Click(chromedp.CSS(inside("lamp.aim.most", "summary")))); err != nil {
					t.Fatal(err)
				}
				inspect(t, ctx, "/shop, two limits open")
				if _, err := chromedp.Run(ctx, chromedp.Evaluate[string](`document.querySelector("main").innerHTML = `+string(asks))); err != nil {
					t.Fatal(err)
				}
				inspect(t, ctx, "/shop, two boxes that ask")
				if *shots != "" {
					png, err := chromedp.Run(ctx, chromedp.FullScreenshot(100))
					if err != nil {
						t.Fatal(err)
					}
					if err := os.WriteFile(filepath.Join(*shots, fmt.Sprintf("shop-asks-%s-%d.png", theme, w)), png, 0o644); err != nil {
						t.Fatal(err)
					}
				}
			}
		})
	}
}
