package web

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"

	"jounce/internal/web/page"
)

var shots = flag.String("shots", "", "folder that the browser tests write a picture of each page to")

// browser is the one browser of this package's tests.
var browser context.Context

func TestMain(m *testing.M) {
	flag.Parse()
	home, err := os.MkdirTemp("", "home")
	if err != nil {
		panic(err)
	}
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.Flag("no-sandbox", true), chromedp.Flag("disable-gpu", true),
		chromedp.Flag("hide-scrollbars", true), chromedp.Flag("font-render-hinting", "none"), chromedp.Flag("disable-component-update", true),
		chromedp.Env("HOME="+home))
	alloc, stop := chromedp.NewExecAllocator(context.Background(), opts...)
	ctx, cancel := chromedp.NewContext(alloc)
	browser = ctx
	code := m.Run()
	cancel()
	stop()
	_ = os.RemoveAll(home)
	os.Exit(code)
}

// tab is one isolated profile; every console message fails the test.
func tab(t *testing.T, s *shop) context.Context {
	t.Helper()
	ctx := profile(t, s, 2*time.Minute)
	messages := chromedp.Console(ctx)
	go func() {
		for m, err := range messages {
			if err != nil {
				return
			}
			if m.Type != chromedp.ConsoleDebug {
				t.Errorf("console: %s", m)
			}
		}
	}()
	return ctx
}

// profile is one isolated profile that signs as T. Marrow.
func profile(t *testing.T, s *shop, atMost time.Duration) context.Context {
	t.Helper()
	if err := chromedp.Do(browser); err != nil {
		t.Fatalf("these tests need chromium on the path: %v", err)
	}
	limit, cancel := context.WithTimeout(browser, atMost)
	t.Cleanup(cancel)
	ctx, done := chromedp.NewContext(limit, chromedp.WithNewBrowserContext())
	t.Cleanup(done)
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	cookie(t, ctx, s, signerCookie, url.QueryEscape("T. Marrow"))
	return ctx
}

func cookie(t *testing.T, ctx context.Context, s *shop, name, value string) {
	t.Helper()
	err := chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, tg *chromedp.Target) error {
		_, err := cdp.Call(ctx, tg, network.SetCookie, network.SetCookieParams{Name: name, Value: value, URL: s.srv.URL})
		return err
	}))
	if err != nil {
		t.Fatal(err)
	}
}

// probe lists what is wrong with a page as it stands on the screen.
const probe = `(() => {
 const out = [], W = document.documentElement.clientWidth;
 if (document.documentElement.scrollWidth > W) {
  const wide = [...document.querySelectorAll("body *")].filter(e => { const r = e.getBoundingClientRect(); return r.right > W + 1 && r.width > 0 && !e.closest(".skip,.default,.sr") });
  out.push("scrolls sideways by " + (document.documentElement.scrollWidth - W) + " px: " + wide.slice(-3).map(e => e.tagName + "." + (e.getAttribute("class") || "") + " " + e.textContent.trim().slice(0, 30)).join(" | "));
 }
 const shown = e => { const r = e.getBoundingClientRect(); return r.width > 0 && r.height > 0 && getComputedStyle(e).visibility !== "hidden" };
 for (const e of document.querySelectorAll("a[href],button,input:not([type=hidden]),select,textarea,summary")) {
  if (!shown(e) || e.matches(".skip,.default")) continue;
  const b = (e.type === "radio" ? e.closest("label") : e).getBoundingClientRect();
  if (b.width < 47.5 || b.height < 47.5) out.push("target " + b.width.toFixed(0) + " × " + b.height.toFixed(0) + ": " + e.tagName + " " + (e.textContent.trim() || e.name || e.outerHTML).slice(0, 60));
 }
 const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
 while (walk.nextNode()) {
  const p = walk.currentNode.parentElement;
  if (!walk.currentNode.data.trim() || !shown(p) || p.closest("title,desc,script,style,option,.sr,.skip,.default")) continue;
  let px = parseFloat(getComputedStyle(p).fontSize);
  const svg = p.closest("svg");
  if (svg && svg.viewBox.baseVal.width) px *= svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
  if (px < 13.95) out.push("lettering " + px.toFixed(1) + " px: " + walk.currentNode.data.trim().slice(0, 40));
 }
 return JSON.stringify([...new Set(out)].slice(0, 12));
})()`

func look(t *testing.T, ctx context.Context, s *shop, path string, width int64, name string) {
	t.Helper()
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900), chromedp.Navigate(s.srv.URL+path)); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`document.fonts.ready.then(() => true)`, chromedp.EvalAwaitPromise)); err != nil {
		t.Fatal(err)
	}
	inspect(t, ctx, fmt.Sprintf("%s at %d px", path, width))
	if *shots != "" {
		png, err := chromedp.Run(ctx, chromedp.FullScreenshot(100))
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(*shots, fmt.Sprintf("%s-%d.png", name, width)), png, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

func inspect(t *testing.T, ctx context.Context, where string) {
	t.Helper()
	text, err := chromedp.Run(ctx, chromedp.Evaluate[string](probe))
	if err != nil {
		t.Fatal(err)
	}
	var faults []string
	if err := json.Unmarshal([]byte(text), &faults); err != nil {
		t.Fatal(err)
	}
	for _, f := range faults {
		t.Errorf("%s: %s", where, f)
	}
}

// screens are the pages that are looked at, by name.
var screens = [][2]string{{"jobs", "/"}, {"list", "/?q=quill"}, {"name", "/name"}, {"new", "/new"}, {"walk", "/jobs/0412/survey?way=walk"},
	{"axle", "/jobs/0412/survey?way=axle"}, {"car", "/jobs/0412"}, {"record", "/jobs/0412/record"}, {"history", "/jobs/0412/history"},
	{"revision", "/jobs/0412/history/1"}, {"weights", "/jobs/0412/record/weights"}, {"body", "/jobs/0412/record/body"}, {"axles", "/jobs/0412/record/axles"},
	{"springs", "/jobs/0412/record/springs"}, {"leak", "/jobs/0412/record/leak"}, {"loads", "/jobs/0412/record/loads"}}

func TestEveryPageFitsTheScreen(t *testing.T) {
	s := newShop(t)
	rec := s.record("0412")
	for path, text := range map[string]string{"survey.lowest": "13.8 mm", "place.promised": "2026-03-11"} {
		if err := rec.Set(path, text, true); err != nil {
			t.Fatal(err)
		}
	}
	s.keep(rec)
	for _, w := range []int64{320, 360, 820, 1280, 1600} {
		t.Run(fmt.Sprint(w), func(t *testing.T) {
			ctx := tab(t, s)
			for k, p := range screens { // looks differ in colours and lines only: a different one on each page and width
				theme := page.Themes[(k+int(w)/20)%3]
				cookie(t, ctx, s, lookCookie, theme)
				look(t, ctx, s, p[1], w, p[0]+"-"+theme)
			}
		})
	}
}

func TestTypingRecalculatesWithoutSaving(t *testing.T) {
	s := newShop(t)
	ctx := tab(t, s)
	box := chromedp.CSS(`[name="survey.sill"]`)
	err := chromedp.Do(ctx, chromedp.EmulateViewport(820, 900), chromedp.Navigate(s.srv.URL+"/jobs/0412/record/body"),
		chromedp.Click(box), chromedp.KeyEvent("a", chromedp.KeyModifiers(chromedp.ModifierCtrl)), chromedp.KeyEvent("13.8"), chromedp.WaitVisible(chromedp.CSS(`[id="e-survey.sill"] .err`)))
	if err != nil {
		t.Fatal(err)
	}
	// on a busy machine "13." is asked about before the last key has come
	if _, err := chromedp.Run(ctx, chromedp.Poll[bool](`document.getElementById("e-survey.sill").textContent.includes("13.8 cm")`)); err != nil {
		says, _ := chromedp.Run(ctx, chromedp.Text(chromedp.CSS(`[id="e-survey.sill"]`)))
		t.Errorf("the question is %q, expected 13.8 cm among its answers", says)
	}
	if v, err := chromedp.Run(ctx, chromedp.Value(box)); err != nil || v != "13.8" {
		t.Errorf("the box holds %q (%v), expected what was typed, 13.8", v, err)
	}
	if n := len(s.m.revs["0412"]); n != 1 {
		t.Errorf("%d revisions, expected 1: recalculating saves nothing", n)
	}
	inspect(t, ctx, "a question at a field")
	if _, err := chromedp.RunResponse(ctx, chromedp.Click(chromedp.CSS(`[id="e-survey.sill"] button[value="survey.sill=13.8 cm"]`))); err != nil {
		t.Fatal(err)
	}
	if got := s.record("0412").Survey.Sill.Value; got != "13.8 cm" {
		t.Errorf("the sill is %q, expected the answer 13.8 cm", got)
	}
}

func TestKeysAloneKeepAReading(t *testing.T) {
	s := newShop(t)
	ctx := tab(t, s)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(820, 900), chromedp.Navigate(s.srv.URL+"/jobs/0412/survey?way=walk")); err != nil {
		t.Fatal(err)
	}
	for i := 0; ; i++ {
		name, err := chromedp.Run(ctx, chromedp.Evaluate[string](`document.activeElement.name || ""`))
		if err != nil {
			t.Fatal(err)
		}
		if name == "survey.rearOverhang" {
			break
		}
		if i == 60 {
			t.Fatal("60 presses of Tab did not reach the first open box, survey.rearOverhang")
		}
		if err := chromedp.Do(ctx, chromedp.KeyEvent("\t")); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := chromedp.RunResponse(ctx, chromedp.KeyEvent("900\r")); err != nil {
		t.Fatal(err)
	}
	r := s.record("0412").Survey.RearOverhang
	if r.Value != "900 mm" || r.By != "T. Marrow" {
		t.Errorf("the rear overhang is %+v, expected 900 mm by T. Marrow", r)
	}
}
