package cli

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

const (
	pictureFile   = "../../docs/picture.png"
	pictureWidth  = 1280 // [CSS px]
	pictureHeight = 1000 // [CSS px]
)

// TestPicture takes the picture of the running program that the README shows:
// the page of an invented job in a browser. PICTURE=write keeps it.
func TestPicture(t *testing.T) {
	browser, err := exec.LookPath("chromium")
	if err != nil {
		t.Fatal("the browser chromium is missing; make test installs it")
	}
	r := serveIn(t, nil, "demo", "--no-open", "--listen", "127.0.0.1:0")
	dir := t.TempDir()
	shot := filepath.Join(dir, "picture.png")
	c := exec.Command(browser, "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--font-render-hinting=none",
		"--disable-component-update", "--no-first-run", "--user-data-dir="+filepath.Join(dir, "profile"), "--virtual-time-budget=3000",
		"--force-device-scale-factor=1", "--window-size=1280,1000", "--screenshot="+shot, r.address+"jobs/0412")
	if out, err := c.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	text, err := os.ReadFile(shot)
	if err != nil {
		t.Fatal(err)
	}
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
