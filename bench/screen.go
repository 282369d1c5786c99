package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	cdpage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/tracing"
	"github.com/chromedp/chromedp"
)

// screen measures the sheet of a demo job in a browser: how soon the car is seen
// over a phone connection, what it weighs, whether anything shifts, and how many
// frames a second the height rule draws on a processor four times slower.
func screen(ctx context.Context, dir string) ([]row, error) {
	program, err := build(ctx, dir)
	if err != nil {
		return nil, err
	}
	data := filepath.Join(dir, "screen")
	s, err := filled(ctx, data)
	if err != nil {
		return nil, err
	}
	if err := s.Close(); err != nil {
		return nil, err
	}
	_, stop, address, err := start(ctx, program, data)
	if err != nil {
		return nil, err
	}
	defer stop()
	home, err := os.MkdirTemp(dir, "home")
	if err != nil {
		return nil, err
	}
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.Flag("no-sandbox", true), chromedp.Flag("disable-gpu", true),
		chromedp.Flag("disable-component-update", true), chromedp.Env("HOME="+home))
	alloc, quit := chromedp.NewExecAllocator(ctx, opts...)
	defer quit()
	browser, closed := chromedp.NewContext(alloc)
	defer closed()
	if err := chromedp.Do(browser); err != nil {
		return nil, fmt.Errorf("chromium: %w", err)
	}
	first, err := firstView(browser, address+"jobs/0412")
	if err != nil {
		return nil, err
	}
	frames, err := slider(browser, address+"jobs/0412")
	if err != nil {
		return nil, err
	}
	return append(first, frames...), nil
}

// seen waits for the first frame in which the car's drawing has a place on the
// screen, and adds up what shifted.
const seen = `(() => { window.shifted = 0;
 new PerformanceObserver(l => { for (const e of l.getEntries()) window.shifted += e.value }).observe({ type: "layout-shift", buffered: true });
 const look = () => { const c = [...document.querySelectorAll("#draw svg")].some(e => e.getBoundingClientRect().width > 0);
  if (c && document.styleSheets.length && performance.getEntriesByName("first-contentful-paint").length) window.carSeen = performance.now(); else requestAnimationFrame(look) };
 requestAnimationFrame(look) })()`

// firstView opens the sheet in a fresh profile over 400 ms and 400 kbit/s.
func firstView(browser context.Context, address string) ([]row, error) {
	const times = 3
	var took []float64
	var weight, shift float64
	for range times {
		one, bytes, moved, err := viewOnce(browser, address)
		if err != nil {
			return nil, err
		}
		took, weight, shift = append(took, one), bytes, max(shift, moved)
	}
	how := "360 px, fresh profile, 400 ms round trip and 400 kbit/s emulated"
	return []row{
		{what: "first view of the sheet: the car is seen", how: fmt.Sprintf("median of %d, %s", times, how), value: at(took, 0.5) / 1000, aim: 3, unit: "s", digits: 2},
		{what: "first view, all that is sent with fonts", how: how, value: weight / 1000, aim: 250, unit: "kB", digits: 0},
		{what: "first view, what shifts", how: "the browser's own layout-shift score, summed", value: shift, aim: 0.001, unit: "", digits: 4},
	}, nil
}

func viewOnce(browser context.Context, address string) (ms, bytes, shift float64, err error) {
	limit, cancel := context.WithTimeout(browser, 60*time.Second)
	defer cancel()
	ctx, done := chromedp.NewContext(limit, chromedp.WithNewBrowserContext())
	defer done()
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(360, 740), chromedp.Func(func(ctx context.Context, tg *chromedp.Target) error {
		if _, err := cdp.Call(ctx, tg, network.Enable, network.EnableParams{}); err != nil {
			return err
		}
		_, err := cdp.Call(ctx, tg, network.EmulateNetworkConditionsByRule, network.EmulateNetworkConditionsByRuleParams{
			MatchedNetworkConditions: []*network.Conditions{{Latency: 400, DownloadThroughput: 50_000, UploadThroughput: 50_000}}})
		return err
	})); err != nil {
		return 0, 0, 0, err
	}
	ended := chromedp.Events(ctx, network.LoadingFinished)
	if err := chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, tg *chromedp.Target) error {
		_, err := cdp.Call(ctx, tg, cdpage.AddScriptToEvaluateOnNewDocument, cdpage.AddScriptToEvaluateOnNewDocumentParams{Source: seen})
		return err
	}), chromedp.Navigate(address)); err != nil {
		return 0, 0, 0, err
	}
	if _, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`document.fonts.ready.then(() => true)`, chromedp.EvalAwaitPromise)); err != nil {
		return 0, 0, 0, err
	}
	time.Sleep(500 * time.Millisecond)
	answer, err := chromedp.Run(ctx, chromedp.Evaluate[[]float64](`[window.carSeen || -1, window.shifted]`))
	if err != nil {
		return 0, 0, 0, err
	}
	if answer[0] < 0 {
		return 0, 0, 0, errors.New("the car was never seen on the sheet")
	}
	quiet := time.AfterFunc(200*time.Millisecond, done)
	defer quiet.Stop()
	for e, err := range ended {
		if err != nil {
			break
		}
		bytes += e.EncodedDataLength
	}
	return answer[0], bytes, answer[1], nil
}

// move drives the rule's input for three seconds, one step a frame, there and
// back, as a finger does.
const move = `new Promise(done => { const r = document.getElementById("below"), lo = +r.min, hi = +r.max; let v = 0, d = 2, n = 0; const t0 = performance.now();
 const tick = t => { if (t - t0 > 3000) return done(n / (t - t0) * 1000); n++; v += d; if (v > hi || v < lo) { d = -d; v += 2 * d }
  r.value = v; r.dispatchEvent(new Event("input", { bubbles: true })); requestAnimationFrame(tick) };
 requestAnimationFrame(tick) })`

// slider counts the frames that the browser's tracing says were drawn while the
// body moves.
func slider(browser context.Context, address string) ([]row, error) {
	limit, cancel := context.WithTimeout(browser, 60*time.Second)
	defer cancel()
	ctx, done := chromedp.NewContext(limit, chromedp.WithNewBrowserContext())
	defer done()
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(1280, 900), chromedp.Navigate(address), chromedp.WaitReady("#below")); err != nil {
		return nil, err
	}
	buckets, complete := chromedp.Events(ctx, tracing.DataCollected), chromedp.Events(ctx, tracing.TracingComplete)
	call := func(f func(ctx context.Context, tg *chromedp.Target) error) error {
		return chromedp.Do(ctx, chromedp.Func(f))
	}
	if err := call(func(ctx context.Context, tg *chromedp.Target) error {
		if _, err := cdp.Call(ctx, tg, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: 4}); err != nil {
			return err
		}
		_, err := cdp.Call(ctx, tg, tracing.Start, tracing.StartParams{TraceConfig: &tracing.TraceConfig{IncludedCategories: []string{"disabled-by-default-devtools.timeline.frame", "devtools.timeline.frame"}}})
		return err
	}); err != nil {
		return nil, err
	}
	asked, err := chromedp.Run(ctx, chromedp.Evaluate[float64](move, chromedp.EvalAwaitPromise))
	if err != nil {
		return nil, err
	}
	if err := call(func(ctx context.Context, tg *chromedp.Target) error {
		_, err := cdp.Call(ctx, tg, tracing.End, cdp.Empty{})
		return err
	}); err != nil {
		return nil, err
	}
	for _, err := range complete {
		if err != nil {
			return nil, err
		}
		break
	}
	quiet := time.AfterFunc(300*time.Millisecond, done)
	defer quiet.Stop()
	drawn := 0
	for b, err := range buckets {
		if err != nil {
			break
		}
		for _, raw := range b.Value {
			var e struct {
				Name string `json:"name"`
			}
			if json.Unmarshal(raw, &e) == nil && e.Name == "DrawFrame" {
				drawn++
			}
		}
	}
	// the page's own frames last 3 s; the trace a little longer, so the lower of both counts
	fps := min(asked, float64(drawn)/3)
	return []row{{what: "height rule, time of a frame while the body moves", how: fmt.Sprintf("4 times slower processor; %d frames drawn in 3 s by the browser's tracing, %.1f a second asked for; 60 a second are 16.7 ms", drawn, asked),
		value: 1000 / fps, aim: 17, unit: "ms", digits: 1}}, nil
}
