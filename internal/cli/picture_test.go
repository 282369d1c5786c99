package cli

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/png"
	"os"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

const (
	pictureFile   = "../../docs/picture.png"
	pictureWidth  = 1280 // [CSS px]
	pictureHeight = 1000 // [CSS px]
)

// TestPicture takes the picture of the running program that the README shows:
// the page of an invented job in a browser. PICTURE=write keeps it.
func TestPicture(t *testing.T) {
	r := serveIn(t, nil, "demo", "--no-open", "--listen", "127.0.0.1:0")
	text := photographed(t, r.address+"jobs/0412")
	drawn(t, text)
	if os.Getenv("PICTURE") == "write" {
		if err := os.WriteFile(pictureFile, text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	kept, err := os.ReadFile(pictureFile)
	if err != nil {
		t.Fatalf("%v: run PICTURE=write go test ./internal/cli -run TestPicture -count=1", err)
	}
	drawn(t, kept)
}

// photographed is a page as a browser shows it.
func photographed(t *testing.T, address string) []byte {
	t.Helper()
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.Flag("no-sandbox", true), chromedp.Flag("disable-gpu", true),
		chromedp.Flag("hide-scrollbars", true), chromedp.Flag("font-render-hinting", "none"), chromedp.Flag("disable-component-update", true),
		chromedp.Env("HOME="+t.TempDir()))
	limit, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	alloc, stop := chromedp.NewExecAllocator(limit, opts...)
	defer stop()
	ctx, done := chromedp.NewContext(alloc)
	defer done()
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(pictureWidth, pictureHeight), chromedp.Navigate(address)); err != nil {
		t.Fatalf("this test needs chromium on the path: %v", err)
	}
	if _, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`document.fonts.ready.then(() => true)`, chromedp.EvalAwaitPromise)); err != nil {
		t.Fatal(err)
	}
	text, err := chromedp.Run(ctx, chromedp.CaptureScreenshot())
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// drawn tells that a picture has its size and something on it.
func drawn(t *testing.T, text []byte) {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	if img.Bounds() != image.Rect(0, 0, pictureWidth, pictureHeight) {
		t.Errorf("%v, want %d by %d", img.Bounds(), pictureWidth, pictureHeight)
	}
	seen := map[color.Color]int{}
	for y := 0; y < img.Bounds().Dy(); y += 2 {
		for x := 0; x < img.Bounds().Dx(); x += 2 {
			seen[img.At(x, y)]++
		}
	}
	most := 0
	for _, n := range seen {
		most = max(most, n)
	}
	if all := pictureWidth * pictureHeight / 4; len(seen) < 50 || most > all*95/100 {
		t.Errorf("%d colours, one of them on %d of %d points: the page is blank", len(seen), most, all)
	}
}
