package web

import (
	"context"
	_ "embed"
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// axe is the rules that pages are held against: testdata/axe/README.md.
//
//go:embed testdata/axe/axe.min.js
var axe string

// broken is one rule that a page breaks, or that the rules could not decide.
type broken struct {
	Rule, Help string
	Places     []string // selector and what was seen there
}

// runAxe holds the page against WCAG 2.2 A and AA, with every fold open. A list of
// findings is looked at whole once, on the sheet; elsewhere its first two stand for the
// rest, which are the same template. The rule of targets is off in the set and switched
// on by hand. Lettering in figures is coloured by the palette alone, on grounds
// that the rules cannot see: TestExactContrastOfThePalette has it. A photograph
// under an outline goes: the rules take its clipped edges for a cover of the page.
//
// Colours and targets cost most of the time. With a name in known they are tried on
// each kind of element once: on the first page of that name on which stands a tag with
// its classes and states, in those of its parents, in that colour on that ground, of
// that size of letters. A target less than 30 px long or wide is always tried.
const runAxe = `(async (every, known) => {
 if (!every) for (const e of document.querySelectorAll(".find > li:nth-child(n+3)")) e.remove();
 for (const d of document.querySelectorAll("details")) d.open = true;
 for (const e of document.querySelectorAll(".trace .pic")) e.remove();
 const kinds = new Set(known ? JSON.parse(sessionStorage.getItem("kinds " + known) ?? "[]") : []), had = new Set(kinds);
 let fresh = 0;
 const one = (e) => e ? e.tagName + "." + (e.getAttribute("class") ?? "") : "";
 for (const e of document.querySelectorAll("body *:not(svg *), svg a")) {
  const s = getComputedStyle(e), r = e.getBoundingClientRect();
  let kind = [e.ariaCurrent, e.ariaPressed, e.ariaInvalid, e.type, s.color, s.fontSize, s.fontWeight, s.opacity].join();
  for (let up = e, i = 0; up && i < 3; up = up.parentElement, i++) kind += " < " + one(up) + getComputedStyle(up).backgroundColor;
  if (had.has(kind) && !(e.tabIndex >= 0 && Math.min(r.width, r.height) < 30)) continue;
  kinds.add(kind);
  e.setAttribute("data-fresh", "");
  fresh++;
 }
 if (known) sessionStorage.setItem("kinds " + known, JSON.stringify([...kinds]));
 axe.configure({ rules: [{ id: "color-contrast", selector: "[data-fresh]:not(svg *)" }, { id: "target-size", selector: "[data-fresh]" }] });
 const r = await axe.run(document, { elementRef: false, resultTypes: ["violations", "incomplete"], rules: { "target-size": { enabled: true } },
  runOnly: { type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] } });
 const short = list => list.map(v => ({ Rule: v.id, Help: v.help, Places: v.nodes.map(n => n.target.flat().join(" ") + ": " + [...n.any, ...n.all, ...n.none].map(c => c.message).join("; ")) }));
 return JSON.stringify([short(r.violations), short(r.incomplete), r.passes.map(p => ({ Rule: p.id })), fresh ? [{ Rule: String(fresh) }] : []]);
})(%t, %q)`

// axed are what a page breaks, what could not be decided, what it keeps, and how
// many elements colours and targets were tried on.
func axed(t *testing.T, ctx context.Context, every bool, known string) (violations, undecided, kept []broken, fresh int) {
	t.Helper()
	if _, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`document.fonts.ready.then(() => true)`, chromedp.EvalAwaitPromise)); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Run(ctx, chromedp.Evaluate[bool](axe+"\n;true")); err != nil {
		t.Fatal(err)
	}
	text, err := chromedp.Run(ctx, chromedp.Evaluate[string](fmt.Sprintf(runAxe, every, known), chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatal(err)
	}
	var all [4][]broken
	if err := json.Unmarshal([]byte(text), &all); err != nil {
		t.Fatal(err)
	}
	for _, f := range all[3] {
		fresh, _ = strconv.Atoi(f.Rule)
	}
	return all[0], all[1], all[2], fresh
}

// byEye are what the rules leave undecided and somebody has looked at: where,
// and the words with which they leave it.
var byEye = []struct{ place, words string }{
	{"", "non-text characters"},                     // "−" on the number pad
	{"", "too short to determine"},                  // one letter, one figure
	{".num", "it is overlapped by another element"}, // the range input lies over the figures of the height rule, and shows them
}

// looked tells that every place of a rule is left to the eye and was looked at.
func looked(b broken) bool {
	return !slices.ContainsFunc(b.Places, func(place string) bool {
		return !slices.ContainsFunc(byEye, func(e struct{ place, words string }) bool {
			return strings.Contains(place, e.place) && strings.Contains(place, e.words)
		})
	})
}

// hold fails the test for each rule that the page breaks, and tells how many
// elements colours and targets were tried on.
func hold(t *testing.T, ctx context.Context, where string, every bool, known string) int {
	t.Helper()
	violations, undecided, kept, fresh := axed(t, ctx, every, known)
	for _, b := range violations {
		t.Errorf("%s: %s (%s) at %d places, the first %s", where, b.Rule, b.Help, len(b.Places), strings.Join(b.Places[:min(3, len(b.Places))], "\n  "))
	}
	for _, b := range undecided {
		if !looked(b) {
			t.Errorf("%s: %s (%s) is left to the eye at %d places, the first %s", where, b.Rule, b.Help, len(b.Places), strings.Join(b.Places[:min(3, len(b.Places))], "\n  "))
		}
	}
	must := []string{"document-title", "html-has-lang"}
	if known == "" {
		must = append(must, "color-contrast", "target-size")
	}
	for _, rule := range must {
		if !slices.ContainsFunc(kept, func(b broken) bool { return b.Rule == rule }) {
			t.Errorf("%s: the rule %s was not tried", where, rule)
		}
	}
	return fresh
}

// sendForm sends a form from a page of the shop, as somebody would.
func sendForm(t *testing.T, ctx context.Context, s *shop, path string, pairs ...string) {
	t.Helper()
	list, err := json.Marshal(append([]string{s.srv.URL + path}, pairs...))
	if err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Do(ctx, chromedp.Navigate(s.srv.URL+"/name")); err != nil {
		t.Fatal(err)
	}
	js := `((p) => { const f = document.createElement("form"); f.method = "post"; f.action = p[0];
 for (let i = 1; i < p.length; i += 2) { const b = document.createElement("input"); b.type = "hidden"; b.name = p[i]; b.value = p[i + 1]; f.append(b); }
 document.body.append(f); f.submit(); })(` + string(list) + `)`
	send := chromedp.Func(func(ctx context.Context, tg *chromedp.Target) error {
		_, err := chromedp.Evaluate[any](js)(ctx, tg)
		return err
	})
	if _, err := chromedp.RunResponse(ctx, send); err != nil {
		t.Fatal(err)
	}
}

// screen is how a page is looked at.
type screen struct {
	width int64
	theme string
}

// seen sets the width and the theme of a tab.
func seen(t *testing.T, ctx context.Context, s *shop, as screen) {
	t.Helper()
	cookie(t, ctx, s, lookCookie, as.theme)
	err := chromedp.Do(ctx, chromedp.EmulateViewport(as.width, 900), chromedp.Func(func(ctx context.Context, tg *chromedp.Target) error {
		_, err := cdp.Call(ctx, tg, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-reduced-motion", Value: "reduce"}}})
		return err
	}))
	if err != nil {
		t.Fatal(err)
	}
}

func TestNoPageBreaksTheRulesOfAccess(t *testing.T) {
	s := exampleShop(t)
	for _, as := range []screen{{width: 820, theme: "light"}, {width: 360, theme: "dark"}} {
		t.Run(fmt.Sprintf("%d %s", as.width, as.theme), func(t *testing.T) {
			ctx := profile(t, s, 9*time.Minute)
			seen(t, ctx, s, as)
			begun := time.Now()
			tried := holdAll(t, ctx, s, as, as.width == 820)
			t.Logf("all pages in %.0f s, colours and targets of %d elements", time.Since(begun).Seconds(), tried)
			if tried < 2000 {
				t.Errorf("colours and targets were tried on %d elements, expected more than 2000", tried)
			}
		})
	}
}

// holdAll holds all pages against the rules, or the main ones, and those that
// answer a form. The page that everybody works from is tried whole.
func holdAll(t *testing.T, ctx context.Context, s *shop, as screen, all bool) (tried int) {
	t.Helper()
	for _, v := range visits(t, s) {
		if !all && !v.Main {
			continue
		}
		if err := chromedp.Do(ctx, chromedp.Navigate(s.srv.URL+v.Path)); err != nil {
			t.Fatal(err)
		}
		known, sheet := as.theme, v.Path == "/jobs/0412"
		if sheet {
			known = ""
		}
		tried += hold(t, ctx, fmt.Sprintf("%s at %d px, %s", v.Path, as.width, as.theme), all && sheet, known)
	}
	for i, p := range posts {
		if all || i < 2 {
			sendForm(t, ctx, s, s.filled(p.Path), p.Pairs...)
			tried += hold(t, ctx, fmt.Sprintf("%s at %d px, %s", p.Name, as.width, as.theme), false, as.theme)
		}
	}
	return tried
}

// TestTheRulesFindWhatIsBroken breaks a page on purpose: a check that finds
// nothing there proves nothing elsewhere.
func TestTheRulesFindWhatIsBroken(t *testing.T) {
	s := exampleShop(t)
	ctx := profile(t, s, 9*time.Minute)
	seen(t, ctx, s, screen{width: 820, theme: "light"})
	for rule, js := range map[string]string{
		"label":          `document.querySelector('label[for="corners.FL.weight"]').remove()`,
		"color-contrast": `document.querySelector("main").insertAdjacentHTML("beforeend", '<p style="color:#bbb">pale</p>')`,
		"target-size":    `document.querySelector("main").insertAdjacentHTML("beforeend", '<ul style="font-size:9px;line-height:9px"><li><a href="/a" style="display:inline-block;width:9px;height:9px">a</a></li><li><a href="/b" style="display:inline-block;width:9px;height:9px">b</a></li></ul>')`,
		"svg-img-alt":    `document.querySelector("main").insertAdjacentHTML("beforeend", '<svg role="img" viewBox="0 0 9 9"><path d="M0 0h9"/></svg>')`,
		"html-has-lang":  `document.documentElement.removeAttribute("lang")`,
	} {
		if err := chromedp.Do(ctx, chromedp.Navigate(s.srv.URL+"/jobs/0412/record/weights")); err != nil {
			t.Fatal(err)
		}
		if _, err := chromedp.Run(ctx, chromedp.Evaluate[any]("void "+js)); err != nil {
			t.Fatal(err)
		}
		violations, _, _, _ := axed(t, ctx, false, "")
		if !slices.ContainsFunc(violations, func(b broken) bool { return b.Rule == rule }) {
			t.Errorf("a page that breaks %s passes; found %v", rule, violations)
		}
	}
}
