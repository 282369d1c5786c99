package web

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// shownHeights is what stands on a sheet at one height, by its keys.
func shownHeights(t *testing.T, s *shop, below int) map[string]string {
	t.Helper()
	doc := s.get(fmt.Sprintf("/jobs/0412?below=%d", below))
	out := map[string]string{"head": doc.Find(`[data-o="head"]`).Text(), "where": doc.Find(`[data-o="where"]`).Text()}
	doc.Find("[data-c]").Each(func(_ int, e *goquery.Selection) { out[e.AttrOr("data-c", "")] = e.Text() })
	doc.Find("#order li[data-t]").Each(func(_ int, e *goquery.Selection) {
		out["t"+e.AttrOr("data-t", "")] = e.Find("b").Text() + " " + e.Find(".ov").AttrOr("data-k", "") + fmt.Sprint(e.HasClass("on"))
	})
	doc.Find("#draw [data-mm]").Each(func(i int, e *goquery.Selection) { out[fmt.Sprint("g", i)] = e.AttrOr("transform", "") })
	return out
}

// onScreen is the same off the page in the browser.
const onScreen = `(() => { const o = {}, q = (s) => [...document.querySelectorAll(s)];
 o.head = q('[data-o="head"]')[0].textContent; o.where = q('[data-o="where"]')[0].textContent;
 for (const e of q("[data-c]")) o[e.dataset.c] = e.textContent;
 for (const e of q("#order li[data-t]")) o["t" + e.dataset.t] = e.querySelector("b").textContent + " " + e.querySelector(".ov").dataset.k + e.classList.contains("on");
 q("#draw [data-mm]").forEach((e, i) => o["g" + i] = e.getAttribute("transform"));
 return JSON.stringify(o); })()`

// The script has no formula: at every height it must show what the server works
// out for that height.
func TestAgreesScriptAndServerAtEachHeight(t *testing.T) {
	s := exampleShop(t)
	ctx := tab(t, s)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(820, 1180), chromedp.Navigate(s.srv.URL+"/jobs/0412")); err != nil {
		t.Fatal(err)
	}
	for _, b := range []int{-45, -20, -1, 0, 1, 37, 60, 66, 70, 88, 121, 140} {
		text, err := chromedp.Run(ctx, chromedp.Evaluate[string](fmt.Sprintf(`(() => { const r = document.getElementById("below"); r.value = %d; r.dispatchEvent(new Event("input", { bubbles: true })); return new Promise(d => setTimeout(d, 300)).then(() => %s) })()`, b, onScreen), chromedp.EvalAwaitPromise))
		if err != nil {
			t.Fatal(err)
		}
		var got map[string]string
		if err := json.Unmarshal([]byte(text), &got); err != nil {
			t.Fatal(err)
		}
		for k, want := range shownHeights(t, s, b) {
			if strings.HasPrefix(k, "g") {
				continue // the drawing is compared by where it lies, below
			}
			if got[k] != want {
				t.Errorf("%d mm below ROAD, %s: the script shows %q, the server %q", b, k, got[k], want)
			}
		}
	}
}

// TestAgreesDrawingOfScriptAndServer holds the place of the moved body on the
// screen against the server's drawing of the same height, one of them pitched.
// Lettering may stand elsewhere, since the server finds room for it anew.
func TestAgreesDrawingOfScriptAndServer(t *testing.T) {
	s := exampleShop(t)
	rec := s.record("0412")
	for path, text := range map[string]string{"presets.down.front": "-70 mm", "presets.down.rear": "-40 mm"} {
		if err := rec.Set(path, text, true); err != nil {
			t.Fatal(err)
		}
	}
	s.keep(rec)
	ctx := tab(t, s)
	boxes := func(below int, move bool) []float64 {
		t.Helper()
		to, act := fmt.Sprintf("/jobs/0412?below=%d", below), ""
		if move {
			to, act = "/jobs/0412", fmt.Sprintf(`const r = document.getElementById("below"); r.value = %d; r.dispatchEvent(new Event("input", { bubbles: true }));`, below)
		}
		if err := chromedp.Do(ctx, chromedp.EmulateViewport(820, 1180), chromedp.Navigate(s.srv.URL+to)); err != nil {
			t.Fatal(err)
		}
		out, err := chromedp.Run(ctx, chromedp.Evaluate[[]float64](`(async () => { `+act+` await new Promise(d => setTimeout(d, 300)); const o = [];
		 for (const e of document.querySelectorAll("#draw .fig.l [data-mm][id$=body]")) { const b = e.getBoundingClientRect(), f = e.ownerSVGElement.getBoundingClientRect().bottom; o.push(b.left, b.top - f, b.right, b.bottom - f) } return o })()`, chromedp.EvalAwaitPromise))
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	for _, below := range []int{-30, 25, 55} {
		server, script := boxes(below, false), boxes(below, true)
		if len(server) == 0 || len(server) != len(script) {
			t.Fatalf("%d numbers from the server's drawing, %d from the script's", len(server), len(script))
		}
		for i := range server {
			if d := server[i] - script[i]; d > 0.6 || d < -0.6 {
				t.Errorf("%d mm below ROAD: edge %d of a moved group lies at %.2f px by the script, %.2f by the server", below, i, script[i], server[i])
			}
		}
	}
}

func TestHeightRuleByKeysWheelAndFinger(t *testing.T) {
	s := exampleShop(t)
	ctx := tab(t, s)
	head := func() string {
		t.Helper()
		text, err := chromedp.Run(ctx, chromedp.Evaluate[string](`document.querySelector('[data-o="head"]').textContent`))
		if err != nil {
			t.Fatal(err)
		}
		return text
	}
	settled := func(want string) {
		t.Helper()
		if _, err := chromedp.Run(ctx, chromedp.Poll[bool](fmt.Sprintf(`document.querySelector('[data-o="head"]').textContent === %q`, want))); err != nil {
			t.Fatalf("the height is %q, expected %q: %v", head(), want, err)
		}
	}
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(820, 1180, chromedp.EmulateTouch), chromedp.Navigate(s.srv.URL+"/jobs/0412"), chromedp.Focus(chromedp.CSS("#below"))); err != nil {
		t.Fatal(err)
	}
	for _, k := range []struct{ keys, want string }{
		{kb.ArrowDown, "−\u202f1"}, {kb.ArrowDown, "−\u202f2"}, {kb.ArrowUp, "−\u202f1"}, {kb.PageDown, "−\u202f60"}, {kb.PageUp, "0"}, {kb.PageUp, "+\u202f20"}, {kb.PageUp, "+\u202f45"}, {kb.PageUp, "+\u202f45"},
	} {
		if err := chromedp.Do(ctx, chromedp.KeyEvent(k.keys)); err != nil {
			t.Fatal(err)
		}
		settled(k.want)
	}
	if err := chromedp.Do(ctx, chromedp.Click(chromedp.CSS(`.presets a[data-below="0"]`))); err != nil {
		t.Fatal(err)
	}
	settled("0")

	// a turn of the wheel over the rule
	x, y := middle(t, ctx, "#below")
	if err := chromedp.Do(ctx, chromedp.MouseEvent(input.DispatchMouseEventTypeMouseWheel, x, y, func(p *input.DispatchMouseEventParams) { p.DeltaX, p.DeltaY = 0.01, 40 })); err != nil {
		t.Fatal(err)
	}
	settled("−\u202f1")

	// the body itself by a finger: millimetre for millimetre of the drawing
	at, err := chromedp.Run(ctx, chromedp.Evaluate[[]float64](`(() => { scrollTo(0, 0); const g = document.querySelector("#draw .fig.l [data-mm]"), s = g.ownerSVGElement, b = s.getBoundingClientRect();
	 return [b.left + b.width * .5, b.top + b.height * .45, b.height / s.viewBox.baseVal.height * g.dataset.mm] })()`))
	if err != nil {
		t.Fatal(err)
	}
	touch := func(kind input.DispatchTouchEventType, y float64) {
		t.Helper()
		p := input.DispatchTouchEventParams{Type: kind, TouchPoints: []*input.TouchPoint{{X: at[0], Y: y}}}
		if kind == input.DispatchTouchEventTypeTouchEnd {
			p.TouchPoints = []*input.TouchPoint{}
		}
		if err := chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, tg *chromedp.Target) error {
			_, err := cdp.Call(ctx, tg, input.DispatchTouchEvent, p)
			return err
		})); err != nil {
			t.Fatal(err)
		}
	}
	touch(input.DispatchTouchEventTypeTouchStart, at[1])
	for i := 1.0; i <= 50*at[2]; i++ {
		touch(input.DispatchTouchEventTypeTouchMove, at[1]+i)
	}
	touch(input.DispatchTouchEventTypeTouchMove, at[1]+50*at[2])
	touch(input.DispatchTouchEventTypeTouchEnd, 0)
	settled("−\u202f51")
}

// middle is where an element stands on the screen.
func middle(t *testing.T, ctx context.Context, sel string) (x, y float64) {
	t.Helper()
	at, err := chromedp.Run(ctx, chromedp.Evaluate[[]float64](fmt.Sprintf(`(() => { const e = document.querySelector(%q); e.scrollIntoView({ block: "center" }); const b = e.getBoundingClientRect(); return [b.left + b.width / 2, b.top + b.height / 2] })()`, sel)))
	if err != nil {
		t.Fatal(err)
	}
	return at[0], at[1]
}

func TestHeightRuleWithoutScript(t *testing.T) {
	s := exampleShop(t)
	doc := s.get("/jobs/0412?below=70")
	if got := doc.Find(`[data-o="head"]`).Text(); got != "−\u202f70" {
		t.Errorf("the height is %q, expected − 70", got)
	}
	if got := doc.Find("#order li.on").Length(); got != 2 {
		t.Errorf("%d parts are lit 70 mm down, expected the two bump stops (68 ± 2 and 71 ± 3)", got)
	}
	down := s.get("/jobs/0412?preset=DOWN")
	if got := down.Find(`.presets a[aria-current="true"]`).Text(); !strings.HasPrefix(got, "DOWN") {
		t.Errorf("the preset in force is %q, expected DOWN", got)
	}
	for _, odd := range []string{"banana", "1e9", "-1e9", "NaN", "", "12,5"} {
		if a := s.get("/jobs/0412?below=" + odd); a.Status != http.StatusOK {
			t.Errorf("below=%q answers %d, expected the page", odd, a.Status)
		}
	}
}

func TestHeightRuleOrder(t *testing.T) {
	s := exampleShop(t)
	doc := s.get("/jobs/0412")
	var names []string
	doc.Find("#order > ol > li").Each(func(_ int, e *goquery.Selection) {
		names = append(names, strings.TrimSpace(e.Find(".nm").Contents().First().Text()))
	})
	want := "Front bump stop, Rear bump stop, Front bump stop, solid, Rear bump stop, solid, Inner liner, FL, Exhaust joint, Sump, Sill"
	if got := strings.Join(names, ", "); got != want {
		t.Errorf("the order is %s, expected %s", got, want)
	}
}
