package web

import (
	"context"
	"encoding/json"
	"fmt"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// stepped is where the focus is after one press of Tab.
type stepped struct {
	Name    string // what stands there, for messages
	Key     string // which element of the page it is
	Visible bool   // it is on the screen, and not under anything
	Ring    bool   // the ring is drawn
	Order   int    // of the element in the document
	Body    bool   // the focus has left the page
}

// whereFocus tells where the focus is. An element of no size (a radio button that its
// label draws) is judged by its label.
const whereFocus = `(() => {
 const e = document.activeElement;
 if (!e || e === document.body || e === document.documentElement) return JSON.stringify({ Body: true });
 const all = [...document.querySelectorAll("*")];
 let at = e.type === "radio" || e.type === "checkbox" ? e.closest("label") ?? e : e;
 const r = at.getClientRects()[0] ?? at.getBoundingClientRect();
 const ring = x => { const s = getComputedStyle(x); return s.outlineStyle !== "none" && parseFloat(s.outlineWidth) >= 2 };
 const x = Math.min(Math.max(r.left + r.width / 2, 1), innerWidth - 2), y = Math.min(Math.max(r.top + Math.min(r.height / 2, 30), 1), innerHeight - 2);
 const top = document.elementFromPoint(x, y);
 return JSON.stringify({ Name: (e.tagName + " " + (e.name || e.getAttribute("aria-label") || e.textContent.trim())).slice(0, 50), Key: String(all.indexOf(e)), Order: all.indexOf(e),
  Visible: r.width > 0 && r.height > 0 && r.bottom > 0 && r.top < innerHeight && r.right > 0 && r.left < innerWidth && Boolean(top) && at.contains(top),
  Ring: ring(e) || ring(at) || Boolean(at.querySelector("*") && [...at.querySelectorAll("*")].some(ring)) || Boolean(e.closest("svg") && ring(e)) });
})()`

// focusable counts the places that Tab has to reach: one of each group of radio
// buttons, nothing that is hidden or taken out of the order.
const focusable = `(() => {
 const seen = new Set(), out = [];
 for (const e of document.querySelectorAll("a[href],button,input:not([type=hidden]),select,textarea,summary,[tabindex]")) {
  if (e.tabIndex < 0 || e.disabled || !e.checkVisibility({ visibilityProperty: true }) || e.closest("details:not([open])") && e.tagName !== "SUMMARY") continue;
  if (e.tagName === "SUMMARY" && e.parentElement.parentElement.closest("details:not([open])")) continue;
  if (e.type === "radio") { if (seen.has(e.name)) continue; seen.add(e.name); }
  out.push(e);
 }
 return out.length;
})()`

// walkBy presses Tab through a page and says what is wrong on the way.
func walkBy(t *testing.T, ctx context.Context, where string) {
	t.Helper()
	n, err := chromedp.Run(ctx, chromedp.Evaluate[int](focusable))
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	last := -1
	for i := 0; i <= n+5; i++ {
		if err := chromedp.Do(ctx, chromedp.KeyEvent("\t")); err != nil {
			t.Fatal(err)
		}
		text, err := chromedp.Run(ctx, chromedp.Evaluate[string](whereFocus))
		if err != nil {
			t.Fatal(err)
		}
		var at stepped
		if err := json.Unmarshal([]byte(text), &at); err != nil {
			t.Fatal(err)
		}
		if at.Body || seen[at.Key] { // out of the page, or round once
			break
		}
		seen[at.Key] = true
		if !at.Visible {
			t.Errorf("%s: the focus is on %s, which cannot be seen", where, at.Name)
		}
		if !at.Ring {
			t.Errorf("%s: the focus on %s has no ring", where, at.Name)
		}
		if at.Order < last {
			t.Errorf("%s: Tab goes back to %s", where, at.Name)
		}
		last = at.Order
	}
	if len(seen) < n {
		t.Errorf("%s: Tab reaches %d places of %d", where, len(seen), n)
	}
}

func TestTheMainPagesAreWalkedByTab(t *testing.T) {
	s := exampleShop(t)
	ctx := profile(t, s, 3*time.Minute)
	seen(t, ctx, s, screen{width: 820, theme: "light"})
	for _, p := range []string{"/", "/new", "/jobs/0412", "/jobs/0412/survey?way=walk", quadAt + "weight", leakAt + "read", leakSum, s.filled("/jobs/{signable}"), "/catalogue"} {
		if err := chromedp.Do(ctx, chromedp.Navigate(s.srv.URL+p)); err != nil {
			t.Fatal(err)
		}
		walkBy(t, ctx, p)
	}
}

// TestAWalkFindsWhatIsBroken breaks a page on purpose.
func TestAWalkFindsWhatIsBroken(t *testing.T) {
	s := exampleShop(t)
	ctx := profile(t, s, time.Minute)
	seen(t, ctx, s, screen{width: 820, theme: "light"})
	for _, c := range []struct{ js, want string }{
		{`document.querySelector("#who").style.outline = "none"`, "ring"},
		{`document.querySelector("#reason").style.cssText = "position:absolute;left:-4000px"`, "visible"},
		{`document.querySelector("#reason").tabIndex = 5`, "order"},
	} {
		if err := chromedp.Do(ctx, chromedp.Navigate(s.srv.URL+s.filled("/jobs/{signable}"))); err != nil {
			t.Fatal(err)
		}
		if _, err := chromedp.Run(ctx, chromedp.Evaluate[any]("void ("+c.js+")")); err != nil {
			t.Fatal(err)
		}
		found, last := false, -1
		for range 60 {
			if err := chromedp.Do(ctx, chromedp.KeyEvent("\t")); err != nil {
				t.Fatal(err)
			}
			text, err := chromedp.Run(ctx, chromedp.Evaluate[string](whereFocus))
			if err != nil {
				t.Fatal(err)
			}
			var at stepped
			if err := json.Unmarshal([]byte(text), &at); err != nil {
				t.Fatal(err)
			}
			if at.Body {
				break
			}
			found = found || map[string]bool{"ring": !at.Ring, "visible": !at.Visible, "order": at.Order < last}[c.want]
			last = at.Order
		}
		if !found {
			t.Errorf("%s: the walk does not find it", c.js)
		}
	}
}

// withoutScripts is a tab in which no page runs a script.
func withoutScripts(t *testing.T, ctx context.Context) {
	t.Helper()
	err := chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, tg *chromedp.Target) error {
		_, err := cdp.Call(ctx, tg, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
		return err
	}))
	if err != nil {
		t.Fatal(err)
	}
}

func TestEveryPageWorksWithoutAScript(t *testing.T) {
	s := exampleShop(t)
	ctx := profile(t, s, 3*time.Minute)
	seen(t, ctx, s, screen{width: 820, theme: "light"})
	withoutScripts(t, ctx)
	for _, v := range visits(t, s) {
		if err := chromedp.Do(ctx, chromedp.Navigate(s.srv.URL+v.Path)); err != nil {
			t.Fatal(err)
		}
		// what a script would show or hide stands as it is for everybody
		text, err := chromedp.Run(ctx, chromedp.Evaluate[string](`(() => { const out = [];
 if (document.querySelectorAll("main").length !== 1 || !document.querySelector("main").innerText.trim()) out.push("nothing stands in main");
 for (const f of document.querySelectorAll("form")) if (f.querySelector("input:not([type=hidden]),select,textarea") && ![...f.elements].some(e => e.type === "submit" && !e.matches(".default") && (e.checkVisibility({ visibilityProperty: true }) || e.closest("details")))) out.push("the form to " + f.getAttribute("action") + " has no button");
 for (const e of document.querySelectorAll("button[type=button]")) if (e.checkVisibility() && location.pathname !== "/catalogue") out.push("a button that does nothing: " + e.textContent.trim());
 return JSON.stringify(out); })()`))
		if err != nil {
			t.Fatal(err)
		}
		var faults []string
		if err := json.Unmarshal([]byte(text), &faults); err != nil {
			t.Fatal(err)
		}
		for _, f := range faults {
			t.Errorf("%s: %s", v.Path, f)
		}
	}
}

func TestReadingsAreKeptWithoutAScript(t *testing.T) {
	s := exampleShop(t)
	ctx := profile(t, s, time.Minute)
	seen(t, ctx, s, screen{width: 820, theme: "light"})
	withoutScripts(t, ctx)
	save := func(path, box, text string) {
		t.Helper()
		css := chromedp.CSS(fmt.Sprintf(`[name=%q]`, box))
		if err := chromedp.Do(ctx, chromedp.Navigate(s.srv.URL+path), chromedp.Click(css), chromedp.KeyEvent("a", chromedp.KeyModifiers(chromedp.ModifierCtrl)), chromedp.KeyEvent(text)); err != nil {
			t.Fatal(err)
		}
		if _, err := chromedp.RunResponse(ctx, chromedp.KeyEvent("\r")); err != nil {
			t.Fatal(err)
		}
	}
	save("/jobs/0412/quad/weight", "corners.FL.weight", "281")
	if got := s.record("0412").Corners.FL.Weight; got.Value != "281 kg" || got.By != "T. Marrow" {
		t.Errorf("FL is %+v, expected 281 kg by T. Marrow", got)
	}
	save("/jobs/0412/record/body", "survey.roof", "1350")
	if got := s.record("0412").Survey.Roof.Value; got != "1350 mm" {
		t.Errorf("the roof is %q, expected 1350 mm", got)
	}
	// a question is asked and answered without a script too
	save("/jobs/0412/record/body", "survey.sill", "13.8")
	if _, err := chromedp.RunResponse(ctx, chromedp.Click(chromedp.CSS(`[id="e-survey.sill"] button[value="survey.sill=13.8 cm"]`))); err != nil {
		t.Fatal(err)
	}
	if got := s.record("0412").Survey.Sill.Value; got != "13.8 cm" {
		t.Errorf("the sill is %q, expected the answer 13.8 cm", got)
	}
}
