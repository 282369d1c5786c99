package web

import (
	"context"
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

var _ = job.Typed
