package web

import (
	"context"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"jounce/internal/job"
)

// typeIn types into a box after what is in it was chosen.
func typeIn(name, text string) []chromedp.Action[chromedp.Void] {
	return []chromedp.Action[chromedp.Void]{chromedp.Click(box(name)), chromedp.KeyEvent("a", chromedp.KeyModifiers(chromedp.ModifierCtrl)), chromedp.KeyEvent(text)}
}

func box(name string) chromedp.CSS { return chromedp.CSS(`[name="` + name + `"]`) }

func do(t *testing.T, ctx context.Context, steps ...chromedp.Action[chromedp.Void]) {
	t.Helper()
	if err := chromedp.Do(ctx, steps...); err != nil {
		t.Fatal(err)
	}
}

// eval is the value of an expression on a page.
func eval[T any](t *testing.T, ctx context.Context, expression string) T {
	t.Helper()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression))
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// until waits for an expression to be true, and says how long that took.
func until(t *testing.T, ctx context.Context, expression string) time.Duration {
	t.Helper()
	began := time.Now()
	if _, err := chromedp.Run(ctx, chromedp.Poll[bool](expression, chromedp.WithPollingInterval(20*time.Millisecond), chromedp.WithPollingTimeout(8*time.Second))); err != nil {
		t.Fatalf("%s: %v; the page says: %s", expression, err, eval[string](t, ctx, `document.body.innerText.slice(0, 1500)`))
	}
	return time.Since(began)
}

// saidLine is the words of the line at the foot of the sheet.
const saidLine = `document.querySelector("#said").innerText`

func TestTwoBrowsersOnOneJob(t *testing.T) {
	s := newShop(t)
	a, b := tab(t, s), tab(t, s)
	cookie(t, b, s, signerCookie, "H.%20Orme")
	for _, ctx := range []context.Context{a, b} {
		do(t, ctx, chromedp.EmulateViewport(820, 900), chromedp.Navigate(s.srv.URL+weights), chromedp.WaitReady(chromedp.CSS("#said")))
	}
	until(t, a, saidLine+` === ""`)
	// A stands in the middle of a word with a drawer open while B saves
	do(t, a, typeIn("corners.FR.weight", "281")...)
	do(t, a, chromedp.KeyEvent(kb.ArrowLeft))
	eval[bool](t, a, `(document.querySelector("#found details").open = true)`)
	caret := `[document.activeElement.name, document.activeElement.selectionStart, document.activeElement.value].join(" ")`
	before := eval[string](t, a, caret)
	do(t, b, typeIn("corners.FL.weight", "280")...)
	if _, err := chromedp.RunResponse(b, chromedp.KeyEvent("\r")); err != nil {
		t.Fatal(err)
	}
	took := until(t, a, saidLine+`.includes("H. Orme saved revision 2")`)
	took += until(t, a, `document.getElementById("e-corners.FL.weight").innerText.includes("H. Orme saved meanwhile: 280 kg")`)
	if took > time.Second {
		t.Errorf("A saw it after %v, expected a second at most", took)
	}
	if after := eval[string](t, a, caret); after != before {
		t.Errorf("the caret was %q and is %q", before, after)
	}
	if got := eval[string](t, a, `document.querySelector("[name=':base']").value`); got != "1" {
		t.Errorf("the form is based on revision %s, expected the one it began with", got)
	}
	if !eval[bool](t, a, `document.querySelector("#found details").open`) {
		t.Error("an open drawer was shut")
	}
	// different places: A keeps, and both stand
	if _, err := chromedp.RunResponse(a, chromedp.KeyEvent("\r")); err != nil {
		t.Fatal(err)
	}
	if c := s.record("0412").Corners; c.FL.Weight.Value != "280 kg" || c.FR.Weight.Value != "281 kg" || c.FL.Weight.By != "H. Orme" || c.FR.Weight.By != "T. Marrow" {
		t.Errorf("FL %+v, FR %+v", c.FL.Weight, c.FR.Weight)
	}
	until(t, b, saidLine+`.includes("T. Marrow saved revision 3")`)
}

func TestAPageWithoutAFormShowsWhatOthersSaved(t *testing.T) {
	s := newShop(t)
	a := tab(t, s)
	do(t, a, chromedp.EmulateViewport(820, 900), chromedp.Navigate(s.srv.URL+"/jobs/0412"), chromedp.WaitReady(chromedp.CSS("#said")))
	s.post("/name", ":signer", "H. Orme")
	s.post("/jobs/0412/record/job", ":base", "1", "name", "Quill saloon, grey")
	until(t, a, saidLine+`.includes("H. Orme saved revision 2")`)
	until(t, a, `document.querySelector("h1").innerText.includes("grey")`)
	inspect(t, a, "news of a save")
}

func TestAHiddenPageHoldsNoConnection(t *testing.T) {
	s := newShop(t)
	a := tab(t, s)
	do(t, a, chromedp.Navigate(s.srv.URL+weights), chromedp.WaitReady(chromedp.CSS("#said")))
	hide := func(h string) {
		eval[bool](t, a, `Object.defineProperty(document, "hidden", {value: `+h+`, configurable: true}) && document.dispatchEvent(new Event("visibilitychange"))`)
	}
	hide("true")
	s.saves("H. Orme", weighed("280 kg", "H. Orme", ""))
	time.Sleep(200 * time.Millisecond)
	if got := eval[string](t, a, saidLine); got != "" {
		t.Errorf("hidden, the page says %q", got)
	}
	hide("false")
	until(t, a, saidLine+`.includes("H. Orme saved revision 2")`)
}

// cutTab is a tab that may lose the network: what the browser itself says of
// failed and refused requests is expected, everything else fails the test.
func cutTab(t *testing.T, s *shop) context.Context {
	t.Helper()
	ctx := profile(t, s, 40*time.Second)
	messages := chromedp.Console(ctx)
	go func() {
		for m, err := range messages {
			if err != nil {
				return
			}
			if m.Type != chromedp.ConsoleDebug && m.Source != "network" {
				t.Errorf("console: %s", m)
			}
		}
	}()
	return ctx
}

// offline cuts a tab off the network, or lets it back.
func offline(t *testing.T, ctx context.Context, off bool) {
	t.Helper()
	do(t, ctx, chromedp.Func(func(ctx context.Context, tg *chromedp.Target) error {
		if _, err := cdp.Call(ctx, tg, network.EmulateNetworkConditionsByRule, network.EmulateNetworkConditionsByRuleParams{
			MatchedNetworkConditions: []*network.Conditions{{Offline: off, DownloadThroughput: -1, UploadThroughput: -1}}}); err != nil {
			return err
		}
		_, err := cdp.Call(ctx, tg, network.OverrideNetworkState, network.OverrideNetworkStateParams{Offline: off, DownloadThroughput: -1, UploadThroughput: -1})
		return err
	}))
}

const (
	unsent = `[...document.querySelectorAll(".unsent")].map(e => e.innerText).join("|")`
	base   = `document.querySelector("[name=':base']").value`
)

func TestScenario12OfflineReadingsWaitAndAreAskedAbout(t *testing.T) {
	s := newShop(t)
	b := cutTab(t, s)
	cookie(t, b, s, signerCookie, "H.%20Orme")
	do(t, b, chromedp.EmulateViewport(820, 900), chromedp.Navigate(s.srv.URL+weights), chromedp.WaitReady(chromedp.CSS("#said")))
	offline(t, b, true)
	do(t, b, typeIn("corners.FL.weight", "286")...)
	do(t, b, chromedp.KeyEvent("\r"))
	until(t, b, saidLine+`.includes("Not sent yet, on this tablet: 1.")`)
	if got := eval[string](t, b, unsent); got != "not sent yet, on this tablet" {
		t.Errorf("beside the box stands %q", got)
	}
	do(t, b, typeIn("corners.RL.weight", "236")...)
	do(t, b, typeIn("corners.RR.weight", "237")...)
	do(t, b, chromedp.KeyEvent("\r"))
	until(t, b, saidLine+`.includes("Not sent yet, on this tablet: 3.")`)
	inspect(t, b, "three readings not sent")
	// meanwhile A reads the same corner
	s.saves("T. Marrow", weighed("280 kg", "T. Marrow", "2026-03-14T09:12:00Z"))
	offline(t, b, false)
	until(t, b, saidLine+`.includes("Typed here, and the server asks")`)
	inspect(t, b, "a reading that is asked about")
	if n := len(s.m.revs["0412"]); n != 2 {
		t.Fatalf("%d revisions, expected 2: nothing is saved before the answer", n)
	}
	if _, err := chromedp.RunResponse(b, chromedp.Click(chromedp.CSS(`#said button`))); err != nil {
		t.Fatal(err)
	}
	asks := eval[string](t, b, `document.querySelector(".both").innerText`)
	for _, w := range []string{"280 kg", "T. Marrow, 2026-03-14 09:12", "286 kg", "H. Orme"} {
		if !strings.Contains(asks, w) {
			t.Errorf("the question says %q, expected %q in it", asks, w)
		}
	}
	inspect(t, b, "the question")
	do(t, b, chromedp.Click(chromedp.CSS(`.both input[value=mine]`)))
	if _, err := chromedp.RunResponse(b, chromedp.Click(chromedp.CSS(`[data-both] button`))); err != nil {
		t.Fatal(err)
	}
	c := s.record("0412").Corners
	if c.FL.Weight.Value != "286 kg" || c.FL.Weight.By != "H. Orme" || c.RL.Weight.Value != "236 kg" || c.RR.Weight.Value != "237 kg" {
		t.Errorf("%+v", c)
	}
	until(t, b, saidLine+` === ""`)
	if n := eval[int](t, b, `Object.keys(localStorage).length`); n != 0 {
		t.Errorf("%d things are left in the browser", n)
	}
}

func TestReadingsThatNobodyElseTouchedAreSentByThemselves(t *testing.T) {
	s := newShop(t)
	b := cutTab(t, s)
	do(t, b, chromedp.EmulateViewport(820, 900), chromedp.Navigate(s.srv.URL+weights), chromedp.WaitReady(chromedp.CSS("#said")))
	offline(t, b, true)
	do(t, b, typeIn("corners.FL.weight", "286")...)
	do(t, b, chromedp.KeyEvent("\r"))
	until(t, b, saidLine+`.includes("Not sent yet, on this tablet: 1.")`)
	// another reading is half typed when the network comes back: it and its caret stay
	do(t, b, typeIn("corners.FR.weight", "28")...)
	s.saves("H. Orme", func(j *job.Job) { j.Corners.RL.Weight = job.Reading{Value: "236 kg", By: "H. Orme"} })
	offline(t, b, false)
	until(t, b, saidLine+`.includes("All is sent.")`)
	if got := eval[string](t, b, `[document.activeElement.name, document.activeElement.value, document.activeElement.selectionStart].join(" ")`); got != "corners.FR.weight 28 2" {
		t.Errorf("the caret is at %q", got)
	}
	until(t, b, base+` === "3" && document.querySelector("[name='corners.RL.weight']").value === "236 kg"`)
	do(t, b, chromedp.KeyEvent("1"))
	if _, err := chromedp.RunResponse(b, chromedp.KeyEvent("\r")); err != nil {
		t.Fatal(err)
	}
	c := s.record("0412").Corners
	if c.FL.Weight.Value != "286 kg" || c.FR.Weight.Value != "281 kg" || c.RL.Weight.Value != "236 kg" || len(s.m.revs["0412"]) != 4 {
		t.Errorf("%d revisions, %+v", len(s.m.revs["0412"]), c)
	}
}

func TestWhatWasTypedAndNotKeptIsOfferedAgain(t *testing.T) {
	s := newShop(t)
	b := cutTab(t, s)
	do(t, b, chromedp.EmulateViewport(360, 800), chromedp.Navigate(s.srv.URL+weights), chromedp.WaitReady(chromedp.CSS("#said")))
	do(t, b, typeIn("corners.FL.weight", "286")...)
	s.saves("H. Orme", weighed("280 kg", "H. Orme", ""))
	do(t, b, chromedp.Reload(), chromedp.WaitVisible(chromedp.CSS(".draft")))
	if says := eval[string](t, b, `document.querySelector(".draft").innerText`); !strings.Contains(says, "and not kept") || !strings.Contains(says, "Weight FL 286") {
		t.Errorf("offered: %s", says)
	}
	inspect(t, b, "a draft is offered")
	do(t, b, chromedp.Click(chromedp.CSS(".draft button")))
	until(t, b, `document.querySelector("[name='corners.FL.weight']").value === "286"`)
	if _, err := chromedp.RunResponse(b, chromedp.Click(chromedp.CSS(".keepbar button"))); err != nil {
		t.Fatal(err)
	}
	if asks := eval[string](t, b, `document.querySelector(".both")?.innerText ?? ""`); !strings.Contains(asks, "280 kg") || !strings.Contains(asks, "286 kg") {
		t.Errorf("typed on revision 1, and somebody saved since: the page asks %q", asks)
	}
}

// TestAWaitingReadingThatCannotBeUsedIsAskedAboutOnce: what the server asks about
// leaves the outbox once it is answered.
func TestAWaitingReadingThatCannotBeUsedIsAskedAboutOnce(t *testing.T) {
	s := newShop(t)
	b := cutTab(t, s)
	do(t, b, chromedp.EmulateViewport(360, 800), chromedp.Navigate(s.srv.URL+"/jobs/0412/record/body"), chromedp.WaitReady(chromedp.CSS("#said")))
	offline(t, b, true)
	do(t, b, typeIn("survey.sill", "13.8")...)
	do(t, b, chromedp.KeyEvent("\r"))
	until(t, b, saidLine+`.includes("Not sent yet, on this tablet: 1.")`)
	offline(t, b, false)
	until(t, b, saidLine+`.includes("Typed here, and the server asks: Sill above the floor")`)
	inspect(t, b, "what the server asks about")
	if _, err := chromedp.RunResponse(b, chromedp.Click(chromedp.CSS(`#said button`))); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.RunResponse(b, chromedp.Click(chromedp.CSS(`[id="e-survey.sill"] button[value="survey.sill=13.8 cm"]`))); err != nil {
		t.Fatal(err)
	}
	if got := s.record("0412").Survey.Sill.Value; got != "13.8 cm" {
		t.Errorf("the sill is %q", got)
	}
	until(t, b, `document.querySelector("#said") && `+saidLine+` === ""`)
	if n := eval[int](t, b, `Object.keys(localStorage).length`); n != 0 {
		t.Errorf("%d things are left in the browser", n)
	}
}
