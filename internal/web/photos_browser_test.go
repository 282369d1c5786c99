package web

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

func TestPicturesFitTheScreen(t *testing.T) {
	s := exampleShop(t)
	for _, w := range []int64{320, 360, 820, 1600} {
		t.Run(fmt.Sprint(w), func(t *testing.T) {
			ctx := tab(t, s)
			for k, p := range [][2]string{{"photos", "/jobs/0412/photos"}, {"photo", "/jobs/0412/photos/h1"}, {"look-down", "/jobs/0412/photos/h1/look?preset=DOWN"},
				{"look-high", "/jobs/0412/photos/h1/look?preset=HIGH"}, {"photos-none", "/jobs/0398/photos"}} {
				theme := []string{"light", "dark"}[(k+int(w)/20)%2]
				cookie(t, ctx, s, lookCookie, theme)
				look(t, ctx, s, p[1], w, p[0]+"-"+theme)
			}
		})
	}
}

// TestAPictureFromTheBayToTheCustomer uploads a picture as a browser does, taps
// the wheels, moves one mark by a key, keeps it and opens how it will look.
func TestAPictureFromTheBayToTheCustomer(t *testing.T) {
	s, _ := photoShop(t)
	file := filepath.Join(t.TempDir(), "From the bay.jpg")
	if err := os.WriteFile(file, jpegOf(t, sidePicture(1600, 900)), 0o600); err != nil {
		t.Fatal(err)
	}
	ctx := tab(t, s)
	err := chromedp.Do(ctx, chromedp.EmulateViewport(820, 1180), chromedp.Navigate(s.srv.URL+"/jobs/0412/photos"),
		chromedp.SetValue(chromedp.CSS("#ph-view"), "left side"), chromedp.SetValue(chromedp.CSS("#ph-stands"), "as received"),
		chromedp.SetUploadFiles(chromedp.CSS("#ph-file"), []string{file}))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.RunResponse(ctx, chromedp.Click(chromedp.CSS(".phs-n .act.do"))); err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Do(ctx, chromedp.WaitVisible(chromedp.CSS(".ph[data-taps]"))); err != nil {
		t.Fatal(err)
	}
	tap := func(x, y float64) {
		t.Helper()
		at, err := chromedp.Run(ctx, chromedp.Evaluate[[]float64](fmt.Sprintf(
			`(() => { const i = document.querySelector(".ph img"); i.scrollIntoView({ block: "center" }); const r = i.getBoundingClientRect(); return [r.left + r.width * %g / 1600, r.top + r.height * %g / 900]; })()`, x, y)))
		if err != nil {
			t.Fatal(err)
		}
		if err := chromedp.Do(ctx, chromedp.MouseClickXY(at[0], at[1])); err != nil {
			t.Fatal(err)
		}
	}
	tap(300, 588)
	tap(1316, 588)
	box := func(n int) string {
		t.Helper()
		v, err := chromedp.Run(ctx, chromedp.Value(chromedp.CSS(fmt.Sprintf(`[data-mark="%d"]`, n))))
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	if got := box(1) + " and " + box(2); !nearly(t, got, 300, 588, 1316, 588) {
		t.Fatalf("the boxes hold %q, expected near 300, 588 and 1316, 588", got)
	}
	before := box(1)
	if err := chromedp.Do(ctx, chromedp.Click(chromedp.CSS(`[name=":mark"][value="1"]`)), chromedp.Focus(chromedp.CSS("#ph")), chromedp.KeyEvent("\u0303")); err != nil { // arrow right
		t.Fatal(err)
	}
	var x0, x1, y int
	_, _ = fmt.Sscanf(before, "%d, %d", &x0, &y)
	if _, err := fmt.Sscanf(box(1), "%d, %d", &x1, &y); err != nil || x1 != x0+1 {
		t.Errorf("after the key to the right the box holds %q, before %q", box(1), before)
	}
	if err := chromedp.Do(ctx, chromedp.WaitVisible(chromedp.CSS("#scale-says li"))); err != nil { // said while it is typed
		t.Fatal(err)
	}
	if n := len(s.m.revs["0412"]); n != 3 {
		t.Errorf("%d revisions, expected 3: marks are not kept before they are kept", n)
	}
	inspect(t, ctx, "marks while they are set")
	if _, err := chromedp.RunResponse(ctx, chromedp.Click(chromedp.CSS(".keepbar .act.do"))); err != nil {
		t.Fatal(err)
	}
	if ph := s.record("0412").Photos[0]; ph.FrontHub == "" || ph.RearHub == "" || ph.Name != "From the bay" {
		t.Errorf("kept: %+v", ph)
	}
	if _, err := chromedp.RunResponse(ctx, chromedp.Click(chromedp.CSS("#scale-says .act.do"))); err != nil {
		t.Fatal(err)
	}
	for _, preset := range []string{"HIGH", "DOWN"} {
		if _, err := chromedp.RunResponse(ctx, chromedp.Click(chromedp.CSS(`.presets a[href$="`+preset+`"]`))); err != nil {
			t.Fatal(err)
		}
		wide, err := chromedp.Run(ctx, chromedp.Evaluate[float64](`(async () => { const i = document.querySelector(".ph img"); await i.decode(); return i.naturalWidth; })()`, chromedp.EvalAwaitPromise))
		if err != nil || wide != 1600 {
			t.Errorf("%s: the picture is %v px wide, %v", preset, wide, err)
		}
	}
	says, err := chromedp.Run(ctx, chromedp.Text(chromedp.CSS("figcaption")))
	if err != nil || !strings.Contains(says, "60\u00a0mm down") {
		t.Errorf("under the picture: %q, %v", says, err)
	}
}

// nearly tells that two marks in a text lie within two pixels of four numbers.
func nearly(t *testing.T, text string, want ...int) bool {
	var got [4]int
	if _, err := fmt.Sscanf(text, "%d, %d and %d, %d", &got[0], &got[1], &got[2], &got[3]); err != nil {
		t.Error(err)
		return false
	}
	for i := range got {
		if d := got[i] - want[i]; d < -2 || d > 2 {
			return false
		}
	}
	return true
}
