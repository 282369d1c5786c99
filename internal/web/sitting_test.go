package web

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"jounce/internal/catalog"
	"jounce/internal/job"
)

// sitting is one car from the first word to the paper, on two tablets: T. Marrow's
// and H. Orme's. What each step leaves is what the next begins with.
type sitting struct {
	*shop
	files   *shelf
	marrow  context.Context
	orme    context.Context
	id      string
	printed []printed
}

// printed is what came to the printer.
type printed struct {
	rec     *job.Job
	number  int
	picture []byte
}

// paper is what the printer of this test answers; the papers themselves are tested
// where they are set.
const paper = "%PDF-1.7 design of "

func newSitting(t *testing.T) *sitting {
	t.Helper()
	s := &sitting{shop: newShop(t), files: &shelf{files: map[string][]byte{}}}
	quit := make(chan struct{})
	t.Cleanup(func() { close(quit) })
	s.srv.Config.Handler = New(Options{Records: s.m, Files: s.files, Shop: catalog.NewShop("Thornhythe Coachworks"), Clock: clock, Version: "test", Quit: quit, Papers: Papers{
		Design: func(rec *job.Job, rev job.Revision, _ *catalog.Shop, pictures func(string) ([]byte, error)) ([]byte, error) {
			p := printed{rec: rec, number: rev.Number}
			for _, ph := range rec.Photos {
				b, err := pictures(ph.File)
				if err != nil {
					return nil, err
				}
				p.picture = b
			}
			s.printed = append(s.printed, p)
			return []byte(paper + rec.Name), nil
		}}})
	s.marrow, s.orme = tablet(t, s.shop), tablet(t, s.shop)
	cookie(t, s.orme, s.shop, signerCookie, "H.%20Orme")
	return s
}

// expected are what the browser itself says of requests that cannot leave, and of
// answers that ask something. Every other message fails the test.
var expected = []string{"net::ERR_INTERNET_DISCONNECTED", "status of 409", "status of 422"}

// tablet is a screen of 820 × 1180 px that is touched.
func tablet(t *testing.T, s *shop) context.Context {
	t.Helper()
	ctx := profile(t, s, 8*time.Minute)
	messages := chromedp.Console(ctx)
	go func() {
		for m, err := range messages {
			if err != nil {
				return
			}
			its := m.Source == "network" && slices.ContainsFunc(expected, func(e string) bool { return strings.Contains(m.String(), e) })
			if m.Type != chromedp.ConsoleDebug && !its {
				t.Errorf("console: %s", m)
			}
		}
	}()
	do(t, ctx, chromedp.EmulateViewport(820, 1180, chromedp.EmulateTouch))
	return ctx
}

// once waits for an expression to be true, over pages that come and go.
func once(t *testing.T, ctx context.Context, expression string) {
	t.Helper()
	var last error
	for end := time.Now().Add(time.Minute); time.Now().Before(end); time.Sleep(15 * time.Millisecond) {
		var is bool
		if is, last = chromedp.Run(ctx, chromedp.Evaluate[bool]("Boolean("+expression+")")); is && last == nil {
			return
		}
	}
	says, _ := chromedp.Run(ctx, chromedp.Evaluate[string](`location.href + ", in the box " + document.activeElement?.name + ": " + document.querySelector("main")?.innerText.slice(0, 800)`))
	t.Fatalf("%s does not come true (%v); the page: %s", expression, last, says)
}

// hearing notes on a page when somebody typed last and when an answer was shown.
const hearing = `(window.heard ??= (() => { const h = { typed: 0, shown: 0 };
 addEventListener("input", () => h.typed = performance.now(), true); document.addEventListener("swapped", () => h.shown = performance.now()); return h })(), true)`

// answered waits until what was typed last is worked out: what is shown before the
// pause of 120 ms is over answers an earlier key.
func answered(t *testing.T, ctx context.Context) {
	t.Helper()
	once(t, ctx, `heard.typed === 0 || heard.shown > heard.typed + 119`)
}

// tap brings an element to the middle of the screen and touches it there. Something
// that lies over it fails the test.
func tap(t *testing.T, ctx context.Context, css string) {
	t.Helper()
	once(t, ctx, fmt.Sprintf(`document.querySelector(%q)`, css))
	at := eval[[]float64](t, ctx, fmt.Sprintf(`(() => { const e = document.querySelector(%q); e.scrollIntoView({ block: "center", behavior: "instant" });
 const r = e.getBoundingClientRect(), x = r.left + r.width / 2, y = r.top + r.height / 2, on = document.elementFromPoint(x, y);
 return on && (e.contains(on) || on.contains(e) && on.matches("label")) ? [x, y] : [] })()`, css))
	if len(at) == 0 {
		t.Fatalf("%s cannot be touched: something lies over its middle", css)
	}
	do(t, ctx, chromedp.TapXY(at[0], at[1]))
}

// follow taps and waits for the page that comes.
func follow(t *testing.T, ctx context.Context, css string) {
	t.Helper()
	tap := chromedp.Func(func(context.Context, *chromedp.Target) error { tap(t, ctx, css); return nil })
	if _, err := chromedp.RunResponse(ctx, tap); err != nil {
		t.Fatalf("%s: %v", css, err)
	}
}

// fill types into boxes by name, pair by pair; a choice is chosen.
func fill(t *testing.T, ctx context.Context, pairs ...string) {
	t.Helper()
	eval[bool](t, ctx, hearing)
	for i := 0; i < len(pairs); i += 2 {
		css := fmt.Sprintf(`main [name="%s"]`, pairs[i])
		if eval[bool](t, ctx, fmt.Sprintf(`document.querySelector('%s')?.tagName === "SELECT"`, css)) {
			got := eval[string](t, ctx, fmt.Sprintf(`(() => { const e = document.querySelector('%s'); e.value = %q; for (const k of ["input", "change"]) e.dispatchEvent(new Event(k, { bubbles: true })); return e.value })()`, css, pairs[i+1]))
			if got != pairs[i+1] {
				t.Fatalf("%s has no choice %q", pairs[i], pairs[i+1])
			}
			continue
		}
		eval[bool](t, ctx, `(window.touched = false, addEventListener("click", () => setTimeout(() => { touched = true }), { once: true, capture: true }), true)`)
		tap(t, ctx, css)
		once(t, ctx, fmt.Sprintf(`touched && document.activeElement.name === %q`, pairs[i])) // a click that comes late puts the caret where it likes
		eval[bool](t, ctx, `(document.activeElement.select(), true)`)                        // a tablet has no Ctrl+A
		do(t, ctx, chromedp.KeyEvent(pairs[i+1]))
		if got := eval[string](t, ctx, inBox(pairs[i])); got != pairs[i+1] {
			t.Fatalf("%s holds %q, typed was %q", pairs[i], got, pairs[i+1])
		}
	}
}

// inBox is what a box holds.
func inBox(name string) string {
	return fmt.Sprintf(`document.querySelector('main [name="%s"]').value`, name)
}

// enter keeps a form by the key Enter in the box that is typed in.
func enter(t *testing.T, ctx context.Context) {
	t.Helper()
	if _, err := chromedp.RunResponse(ctx, chromedp.KeyEvent("\r")); err != nil {
		t.Fatal(err)
	}
}

// finger draws a finger from one place to another in small steps, and calls after
// each. It is lifted at the end.
func finger(t *testing.T, ctx context.Context, x0, y0, x1, y1 float64, steps int, after func()) {
	t.Helper()
	touch := func(kind input.DispatchTouchEventType, at ...*input.TouchPoint) {
		t.Helper()
		do(t, ctx, chromedp.Func(func(ctx context.Context, tg *chromedp.Target) error {
			_, err := cdp.Call(ctx, tg, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: append([]*input.TouchPoint{}, at...)})
			return err
		}))
	}
	touch(input.DispatchTouchEventTypeTouchStart, &input.TouchPoint{X: x0, Y: y0})
	for i := 1; i <= steps; i++ {
		f := float64(i) / float64(steps)
		touch(input.DispatchTouchEventTypeTouchMove, &input.TouchPoint{X: x0 + f*(x1-x0), Y: y0 + f*(y1-y0)})
		if after != nil {
			after()
		}
	}
	touch(input.DispatchTouchEventTypeTouchEnd)
}

func (s *sitting) at(path string) string { return "/jobs/" + s.id + path }

func (s *sitting) open(t *testing.T, ctx context.Context, path string) {
	t.Helper()
	do(t, ctx, chromedp.Navigate(s.srv.URL+s.at(path)), chromedp.WaitReady(chromedp.CSS("#said")))
}

// rec is the record as it is kept, with the number of its revision.
func (s *sitting) rec(t *testing.T) (*job.Job, int) {
	t.Helper()
	rev, err := s.m.Load(t.Context(), s.id)
	if err != nil {
		t.Fatal(err)
	}
	rec, err := job.Decode(rev.Document)
	if err != nil {
		t.Fatal(err)
	}
	return rec, rev.Number
}

// kept fails the test where the record holds something else at a place.
func (s *sitting) kept(t *testing.T, pairs ...string) {
	t.Helper()
	rec, n := s.rec(t)
	for i := 0; i < len(pairs); i += 2 {
		if f, err := rec.Field(pairs[i], false); err != nil || f.Content() != pairs[i+1] {
			t.Errorf("revision %d, %s: %q (%v), expected %q", n, pairs[i], f.Content(), err, pairs[i+1])
		}
	}
}

// TestAWholeSitting follows one car on tablets through the whole sheet.
func TestAWholeSitting(t *testing.T) {
	begun := time.Now()
	s := newSitting(t)
	for _, step := range []struct {
		name string
		do   func(*testing.T, *sitting)
	}{
		{"a new job", sitNew}, {"the outline", sitOutline}, {"an outline that crosses itself", sitCrossed}, {"heights, presets and touch points", sitHeights},
		{"the body by finger and by keys", sitMove}, {"two tablets, different places", sitMerge}, {"two tablets, one place", sitClash},
		{"the network goes away", sitOffline}, {"undo", sitUndo}, {"a picture", sitPicture}, {"print", sitPrint},
	} {
		from := time.Now()
		if !t.Run(step.name, func(t *testing.T) { step.do(t, s) }) {
			t.FailNow() // the next step has nothing to begin with
		}
		t.Logf("%s: %.1f s", step.name, time.Since(from).Seconds())
	}
	t.Logf("the whole sitting: %.1f s", time.Since(begun).Seconds())
}

// sitNew begins a job from the board.
func sitNew(t *testing.T, s *sitting) {
	do(t, s.marrow, chromedp.Navigate(s.srv.URL+"/"))
	follow(t, s.marrow, `a.act.do[href="/new"]`)
	fill(t, s.marrow, "name", "Wren coupé", "car.description", "small coupé, two doors", "car.form", "coupé", "car.year", "1969",
		"axles.front.springing", "air", "axles.rear.springing", "air", "place.promised", "2026-06-12", "keeper.name", "B. Wren")
	follow(t, s.marrow, `button[name=":way"][value="walk"]`)
	path := eval[string](t, s.marrow, `location.pathname`)
	if _, err := fmt.Sscanf(path, "/jobs/%4s/survey", &s.id); err != nil {
		t.Fatalf("the new job leads to %s", path)
	}
	s.kept(t, "name", "Wren coupé", "car.form", "coupé", "keeper.name", "B. Wren", "axles.rear.springing", "air", "place.promised", "2026-06-12")
	inspect(t, s.marrow, "the first page of a new job")
}

const bootX, bootZ = "outline.stations[boot-edge].x", "outline.stations[boot-edge].z"

// grip is the middle of a control point on the screen, with pixels for a millimetre.
func grip(t *testing.T, ctx context.Context, id string) (x, y, k float64) {
	t.Helper()
	at := eval[[]float64](t, ctx, fmt.Sprintf(`(() => { const g = [...document.querySelectorAll('#olview [data-point="%s"][data-x]')].find(e => e.checkVisibility()); g.scrollIntoView({ block: "center", behavior: "instant" });
 const r = g.getBoundingClientRect(), s = g.ownerSVGElement; return [r.left + r.width / 2, r.top + r.height / 2, s.getBoundingClientRect().width / s.viewBox.baseVal.width * g.parentNode.dataset.mm] })()`, id))
	return at[0], at[1], at[2]
}

// sitOutline sets the outline up and moves one of its points by finger.
func sitOutline(t *testing.T, s *sitting) {
	ctx := s.marrow
	s.open(t, ctx, "")
	follow(t, ctx, `a.act[href$="/outline"]`)
	firm := `document.getElementById("olcount").innerText`
	before := eval[string](t, ctx, firm)
	fill(t, ctx, "car.form", "saloon", "survey.wheelbase", "2500", "survey.frontOverhang", "700", "survey.rearOverhang", "880", "survey.roof", "1340", "survey.sill", "140",
		"axles.front.tyreLeft", "185/70R13", "axles.rear.tyreLeft", "185/70R13", "outline.boot", "840")
	answered(t, ctx)
	if after := eval[string](t, ctx, firm); after == before {
		t.Errorf("after five measures it says what it said before: %s", after)
	}
	x, y, k := grip(t, ctx, "boot-edge")
	was := eval[[]int](t, ctx, `(() => { const d = document.querySelector('#olview [data-point="boot-edge"][data-x]').dataset; return [+d.x, +d.z] })()`)
	finger(t, ctx, x, y, x-60*k, y-45*k, 12, nil)
	once(t, ctx, inBox(bootZ)+` !== ""`)
	answered(t, ctx)
	for name, want := range map[string]int{bootX: was[0] - 60, bootZ: was[1] + 45} {
		text := eval[string](t, ctx, inBox(name))
		var got int
		if _, err := fmt.Sscanf(text, "%d mm", &got); err != nil || got < want-2 || got > want+2 {
			t.Errorf("%s holds %q after the finger, expected %d mm within 2", name, text, want)
		}
	}
	inspect(t, ctx, "the outline while it is set up")
	x, z := 0.0, eval[string](t, ctx, inBox(bootZ))
	if x = eval[float64](t, ctx, `Number(document.querySelector('#olview [data-point="boot-edge"][data-z]').dataset.z)`); fmt.Sprintf("%.0f mm", x) != z {
		t.Errorf("the point is drawn at %.0f mm, its box holds %s", x, z)
	}
	follow(t, ctx, `.keepbar .act.do`)
	s.kept(t, "car.form", "saloon", "survey.wheelbase", "2500 mm", "survey.frontOverhang", "700 mm", "survey.rearOverhang", "880 mm", "survey.roof", "1340 mm", "survey.sill", "140 mm", bootZ, z)
}

// sitCrossed types an outline that cannot be, is asked, and loses nothing.
func sitCrossed(t *testing.T, s *sitting) {
	ctx := s.marrow
	const tail = "outline.stations[tail].x"
	_, was := s.rec(t)
	fill(t, ctx, "survey.roof", "1350", tail, "2000")
	once(t, ctx, `document.getElementById("e-`+tail+`").innerText.includes("The outline crosses itself")`) // said while it is typed
	answered(t, ctx)
	follow(t, ctx, `.keepbar .act.do`)
	if _, n := s.rec(t); n != was {
		t.Fatalf("revision %d, expected still %d", n, was)
	}
	if asks := eval[string](t, ctx, `document.getElementById("e-`+tail+`").innerText`); !strings.Contains(asks, "The outline crosses itself") || !strings.Contains(asks, "Leave it open") {
		t.Errorf("at the field stands %q", asks)
	}
	if got := eval[string](t, ctx, inBox(tail)+`+"|"+`+inBox("survey.roof")+`+"|"+document.querySelector('main [name="`+tail+`"]').ariaInvalid`); got != "2000 mm|1350 mm|true" {
		t.Errorf("the boxes hold %q, expected what was typed", got)
	}
	inspect(t, ctx, "an outline that crosses itself")
	fill(t, ctx, tail, "3370")
	once(t, ctx, `document.getElementById("e-`+tail+`").innerText === ""`)
	answered(t, ctx)
	follow(t, ctx, `.keepbar .act.do`)
	s.kept(t, tail, "3370 mm", "survey.roof", "1350 mm")
}

// sitHeights types heights, presets and touch points on the pages of the record.
func sitHeights(t *testing.T, s *sitting) {
	ctx := s.marrow
	s.open(t, ctx, "/record/body")
	fill(t, ctx, "corners.FL.hubToArch", "360", "corners.FR.hubToArch", "361", "corners.RL.hubToArch", "359", "corners.RR.hubToArch", "359", "survey.heightsRead", "ROAD")
	answered(t, ctx)
	follow(t, ctx, `.keepbar .act.do`)
	s.open(t, ctx, "/record/presets")
	fill(t, ctx, "presets.road.front", "0", "presets.road.rear", "0", "presets.down.front", "-60", "presets.down.rear", "-60", "presets.hump.front", "20", "presets.hump.rear", "20", "presets.high.front", "45", "presets.high.rear", "45")
	enter(t, ctx)
	s.open(t, ctx, "/record/touch")
	for i, p := range [][]string{{"exhaust joint", "with the body", "hard part and floor", "104"}, {"sump", "with the body", "hard part and floor", "121"}, {"inner liner", "with the wheel", "tyre and liner", "74"}} {
		follow(t, ctx, `button[name=":add"][value="touch"]`)
		at := fmt.Sprintf("touch[c%d].", i+1)
		fill(t, ctx, at+"name", p[0], at+"moves", p[1], at+"meets", p[2], at+"room", p[3])
		if p[1] == "with the wheel" {
			fill(t, ctx, at+"wheel", "FL", at+"ratio", "1")
		}
		answered(t, ctx)
	}
	follow(t, ctx, `.keepbar .act.do`)
	s.kept(t, "corners.RL.hubToArch", "359 mm", "presets.down.front", "-60 mm", "presets.high.rear", "45 mm", "touch[c1].name", "exhaust joint", "touch[c2].room", "121 mm", "touch[c3].wheel", "FL")
}

// lit are the parts in the order of touching as the page lists them, and whether
// each is lit.
type lit struct {
	Name string
	On   bool
}

const litNow = `JSON.stringify([...document.querySelectorAll("#order > ol > li")].map(li => ({ Name: li.querySelector(".nm").firstChild.data.trim(), On: li.classList.contains("on") })))`

// headIs waits for the height that the page shows [mm from ROAD].
func headIs(t *testing.T, ctx context.Context, mm string) {
	t.Helper()
	once(t, ctx, fmt.Sprintf(`document.querySelector('[data-o="head"]').textContent === %q`, mm))
}

// sitMove moves the body; parts light up in the order in which they touch.
func sitMove(t *testing.T, s *sitting) {
	ctx := s.marrow
	s.open(t, ctx, "")
	once(t, ctx, `document.documentElement.classList.contains("moves")`)
	for _, k := range []struct{ keys, want string }{{kb.ArrowDown, "−\u202f1"}, {kb.ArrowDown, "−\u202f2"}, {kb.ArrowUp, "−\u202f1"}, {kb.PageDown, "−\u202f60"}, {kb.PageUp, "0"}, {kb.PageUp, "+\u202f20"}, {kb.PageDown, "0"}} {
		do(t, ctx, chromedp.Focus(chromedp.CSS("#below")), chromedp.KeyEvent(k.keys))
		headIs(t, ctx, k.want)
	}
	tap(t, ctx, `.presets a[data-below="60"]`)
	headIs(t, ctx, "−\u202f60")
	tap(t, ctx, `.presets a[data-below="0"]`)
	headIs(t, ctx, "0")
	// the body itself by finger, to the bottom of the way
	at := eval[[]float64](t, ctx, `(() => { document.querySelector("#draw").scrollIntoView({ block: "start", behavior: "instant" }); const g = [...document.querySelectorAll("#draw .fig [data-mm]")].find(e => e.checkVisibility()), s = g.ownerSVGElement, b = s.getBoundingClientRect();
 return [b.left + b.width * .5, b.top + b.height * .45, b.height / s.viewBox.baseVal.height * g.dataset.mm * document.getElementById("below").max] })()`)
	var came []string
	finger(t, ctx, at[0], at[1], at[0], at[1]+at[2]+2, 40, func() {
		now := parts(t, ctx)
		for i, p := range now {
			if p.On && i > 0 && !now[i-1].On {
				t.Errorf("%s is lit and %s, which touches before it, is not", p.Name, now[i-1].Name)
			}
			if p.On && !slices.Contains(came, p.Name) {
				came = append(came, p.Name)
			}
		}
	})
	low := eval[string](t, ctx, `"−\u202f" + document.getElementById("below").max`)
	headIs(t, ctx, low)
	once(t, ctx, `document.querySelectorAll("#order > ol > li.on").length === 4`)
	for _, p := range parts(t, ctx) {
		if p.On && !slices.Contains(came, p.Name) {
			came = append(came, p.Name)
		}
	}
	if got := strings.Join(came, "; "); got != "Inner liner, FL; Exhaust joint; Sump; Sill" {
		t.Errorf("lit in the order %s, expected the inner liner at 74 mm, the exhaust joint at 104, the sump at 121, the sill at 140", got)
	}
	rule(t, ctx)
	if _, n := s.rec(t); n < 1 {
		t.Error("nothing is kept")
	}
	inspect(t, ctx, "the body moved")
}

func parts(t *testing.T, ctx context.Context) []lit {
	t.Helper()
	var out []lit
	if err := json.Unmarshal([]byte(eval[string](t, ctx, litNow)), &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// rule draws a finger along the height rule: from where its balloon stands to ROAD.
func rule(t *testing.T, ctx context.Context) {
	t.Helper()
	at := eval[[]float64](t, ctx, `(() => { const e = document.getElementById("below"); e.scrollIntoView({ block: "center", behavior: "instant" }); const r = e.getBoundingClientRect(), f = v => r.left + 24 + (r.width - 48) * (v - e.min) / (e.max - e.min); return [f(e.value), f(0), r.top + r.height / 2] })()`)
	finger(t, ctx, at[0], at[2], at[1], at[2], 12, nil)
	once(t, ctx, `Math.abs(document.getElementById("below").value) <= 8`)
	headIs(t, ctx, eval[string](t, ctx, `(v => v > 0 ? "−\u202f" + v : v < 0 ? "+\u202f" + -v : "0")(Number(document.getElementById("below").value))`))
}

// caret is where somebody types, with what stands there.
const caret = `[document.activeElement.name, document.activeElement.selectionStart, document.activeElement.value].join(" ")`

// sitMerge types on two tablets in different places.
func sitMerge(t *testing.T, s *sitting) {
	a, b := s.marrow, s.orme
	for _, ctx := range []context.Context{a, b} {
		s.open(t, ctx, "/record/weights")
	}
	_, n := s.rec(t)
	fill(t, a, "corners.FR.weight", "271")
	do(t, a, chromedp.KeyEvent(kb.ArrowLeft))
	answered(t, a)
	before := eval[string](t, a, caret)
	// when the words of the other's save stand on the page, by the page's own clock
	eval[bool](t, a, `(new MutationObserver(() => { if (document.getElementById("e-corners.FL.weight").innerText.includes("H. Orme saved meanwhile: 270 kg")) window.toldAt ??= Date.now() }).observe(document.body, { subtree: true, childList: true, characterData: true }), true)`)
	fill(t, b, "corners.FL.weight", "270")
	enter(t, b)
	kept := eval[float64](t, b, `performance.timeOrigin`) // the page after the save begins
	once(t, a, saidLine+fmt.Sprintf(`.includes("H. Orme saved revision %d")`, n+1))
	once(t, a, `window.toldAt`)
	if took := eval[float64](t, a, `window.toldAt`) - kept; took > 1000 {
		t.Errorf("T. Marrow saw it %.0f ms after it was saved, expected a second at most", took)
	}
	if after := eval[string](t, a, caret); after != before {
		t.Errorf("the caret was %q and is %q", before, after)
	}
	inspect(t, a, "the other's save")
	enter(t, a)
	s.kept(t, "corners.FL.weight", "270 kg", "corners.FR.weight", "271 kg")
	if rec, now := s.rec(t); now != n+2 || rec.Corners.FL.Weight.By != "H. Orme" || rec.Corners.FR.Weight.By != "T. Marrow" {
		t.Errorf("revision %d, FL by %s, FR by %s", now, rec.Corners.FL.Weight.By, rec.Corners.FR.Weight.By)
	}
	once(t, b, saidLine+fmt.Sprintf(`.includes("T. Marrow saved revision %d")`, n+2))
}

// sitClash types on two tablets in one place: both values stand there with names,
// and somebody says which stands.
func sitClash(t *testing.T, s *sitting) {
	a, b := s.marrow, s.orme
	for _, ctx := range []context.Context{a, b} {
		s.open(t, ctx, "/record/weights")
	}
	fill(t, a, "corners.RL.weight", "236")
	fill(t, b, "corners.RL.weight", "230")
	enter(t, b)
	once(t, a, `document.getElementById("e-corners.RL.weight").innerText.includes("H. Orme saved meanwhile: 230 kg")`)
	_, n := s.rec(t)
	enter(t, a)
	asks := eval[string](t, a, `document.querySelector(".both")?.innerText ?? ""`)
	for _, w := range []string{"RL weight", "230 kg", "H. Orme, 2026-03-14", "236 kg", "T. Marrow, 2026-03-14"} {
		if !strings.Contains(asks, w) {
			t.Errorf("the question says %q, expected %q in it", asks, w)
		}
	}
	if _, now := s.rec(t); now != n {
		t.Errorf("revision %d, expected nothing saved before the answer", now)
	}
	inspect(t, a, "two values of one place")
	tap(t, a, `.both input[value=mine]`)
	once(t, a, `document.querySelector(".both input[value=mine]").checked`)
	follow(t, a, `[data-both] .act.do`)
	s.kept(t, "corners.RL.weight", "236 kg", "corners.FL.weight", "270 kg")
}

// sitOffline types while the network is gone.
func sitOffline(t *testing.T, s *sitting) {
	ctx := s.marrow
	s.open(t, ctx, "/record/weights")
	_, n := s.rec(t)
	fill(t, ctx, "corners.RR.weight", "23")
	offline(t, ctx, true)
	do(t, ctx, chromedp.KeyEvent("7"), chromedp.KeyEvent("\r"))
	once(t, ctx, saidLine+`.includes("Not sent yet, on this tablet: 1.")`)
	if got := eval[string](t, ctx, unsent); got != "not sent yet, on this tablet" {
		t.Errorf("beside the box stands %q", got)
	}
	fill(t, ctx, "corners.FR.weight", "272")
	do(t, ctx, chromedp.KeyEvent("\r"))
	once(t, ctx, saidLine+`.includes("Not sent yet, on this tablet: 2.")`)
	inspect(t, ctx, "two readings not sent")
	if _, now := s.rec(t); now != n {
		t.Fatalf("revision %d, expected %d while the network is gone", now, n)
	}
	// meanwhile the other tablet keeps something else
	s.open(t, s.orme, "/record/body")
	fill(t, s.orme, "survey.lampHeight", "640")
	enter(t, s.orme)
	offline(t, ctx, false)
	once(t, ctx, `document.querySelector("#said") && !`+saidLine+`.includes("Not sent yet")`)
	once(t, ctx, `!document.querySelector(".unsent") && Object.keys(localStorage).length === 0`)
	s.kept(t, "corners.RR.weight", "237 kg", "corners.FR.weight", "272 kg", "survey.lampHeight", "640 mm")
	if _, now := s.rec(t); now != n+2 {
		t.Errorf("revision %d, expected %d: what was typed offline is one", now, n+2)
	}
}

// sitUndo takes the newest revision back by one tap.
func sitUndo(t *testing.T, s *sitting) {
	ctx := s.marrow
	s.open(t, ctx, "/record/weights")
	fill(t, ctx, "corners.RR.weight", "999")
	enter(t, ctx)
	s.kept(t, "corners.RR.weight", "999 kg")
	_, n := s.rec(t)
	s.open(t, ctx, "")
	follow(t, ctx, `#kept form button`)
	s.kept(t, "corners.RR.weight", "237 kg", "corners.FR.weight", "272 kg")
	if _, now := s.rec(t); now != n+1 {
		t.Errorf("revision %d, expected %d: undoing is one more", now, n+1)
	}
	if says := eval[string](t, ctx, `document.getElementById("kept").innerText`); !strings.Contains(says, fmt.Sprintf("undid revision %d", n)) {
		t.Errorf("the line of what was kept says %q", says)
	}
}

// sitPicture takes a picture in, sets its marks by tapping and looks at the presets.
func sitPicture(t *testing.T, s *sitting) {
	ctx := s.marrow
	file := filepath.Join(t.TempDir(), "From the bay.jpg")
	if err := os.WriteFile(file, jpegOf(t, sidePicture(1600, 900)), 0o600); err != nil {
		t.Fatal(err)
	}
	follow(t, ctx, `#pics a[href$="/photos"]`)
	fill(t, ctx, "view", "left side", "stands", "ROAD")
	do(t, ctx, chromedp.SetUploadFiles(chromedp.CSS("#ph-file"), []string{file}))
	follow(t, ctx, ".phs-n .act.do")
	once(t, ctx, `document.querySelector(".ph[data-taps] img").complete`)
	marks := [][2]int{{300, 588}, {1316, 588}, {300, 700}, {1316, 700}}
	eval[bool](t, ctx, hearing)
	for i, m := range marks {
		at := eval[[]float64](t, ctx, fmt.Sprintf(`(() => { const i = document.querySelector(".ph img"); i.scrollIntoView({ block: "center", behavior: "instant" }); const r = i.getBoundingClientRect(); return [r.left + r.width * %d / 1600, r.top + r.height * %d / 900] })()`, m[0], m[1]))
		do(t, ctx, chromedp.TapXY(at[0], at[1]))
		once(t, ctx, fmt.Sprintf(`document.querySelector('[data-mark="%d"]').value !== ""`, i+1))
		answered(t, ctx)
		var x, y int
		text := eval[string](t, ctx, fmt.Sprintf(`document.querySelector('[data-mark="%d"]').value`, i+1))
		if _, err := fmt.Sscanf(text, "%d, %d", &x, &y); err != nil || x < m[0]-2 || x > m[0]+2 || y < m[1]-2 || y > m[1]+2 {
			t.Errorf("mark %d is at %q, expected %d, %d within 2 px", i+1, text, m[0], m[1])
		}
	}
	inspect(t, ctx, "four marks")
	follow(t, ctx, ".keepbar .act.do")
	follow(t, ctx, "#scale-says .act.do")
	follow(t, ctx, `.presets a[href$="DOWN"]`)
	wide, err := chromedp.Run(ctx, chromedp.Evaluate[float64](`(async () => { const i = document.querySelector(".ph img"); await i.decode(); return i.naturalWidth })()`, chromedp.EvalAwaitPromise))
	if err != nil || wide != 1600 {
		t.Errorf("the picture at DOWN is %v px wide, %v", wide, err)
	}
	if says := eval[string](t, ctx, `document.querySelector("figcaption").innerText`); !strings.Contains(says, "60\u00a0mm down") {
		t.Errorf("under the picture stands %q", says)
	}
	if h := eval[string](t, ctx, `document.querySelector(".look-h").innerText`); !strings.Contains(h, "How it will look at DOWN") {
		t.Errorf("the page is headed %q", h)
	}
	inspect(t, ctx, "how it will look")
}

// sitPrint opens the design page, and prints the sheet as the browser does.
func sitPrint(t *testing.T, s *sitting) {
	ctx := s.marrow
	s.open(t, ctx, "/papers")
	got, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](`(async () => { const r = await fetch(document.querySelector('#papers a.act.do[href$="design.pdf"]').href); return [String(r.status), r.headers.get("Content-Type"), r.headers.get("Content-Disposition"), await r.text()] })()`, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatal(err)
	}
	rec, n := s.rec(t)
	if want := []string{"200", "application/pdf", fmt.Sprintf(`inline; filename="%s-design-rev%d.pdf"`, s.id, n), paper + "Wren coupé"}; !slices.Equal(got, want) {
		t.Errorf("the design page comes as %q, expected %q", got, want)
	}
	if len(s.printed) != 1 || len(rec.Photos) != 1 {
		t.Fatalf("%d papers printed, %d pictures in the record, expected one of each", len(s.printed), len(rec.Photos))
	}
	if p := s.printed[0]; p.number != n || p.rec.Survey.Wheelbase.Value != "2500 mm" || p.rec.Photos[0].RearGround == "" || len(p.picture) == 0 || !bytes.Equal(p.picture, s.files.files[s.id+"/"+rec.Photos[0].File]) {
		t.Errorf("revision %d came to the printer, wheelbase %s, marks %+v, %d bytes of the picture", p.number, p.rec.Survey.Wheelbase.Value, p.rec.Photos[0], len(p.picture))
	}
	s.open(t, ctx, "")
	pdf, err := chromedp.Run(ctx, chromedp.PrintToPDF())
	if err != nil {
		t.Fatal(err)
	}
	if sheets := bytes.Count(pdf, []byte("/Type /Page\n")); !bytes.HasPrefix(pdf, []byte("%PDF-")) || sheets < 1 || sheets > 6 {
		t.Errorf("the sheet prints on %d pages, %d bytes", sheets, len(pdf))
	}
}
