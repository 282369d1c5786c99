package svg

import (
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"jounce/internal/draw"
	"jounce/internal/draw/font"
)

// chromium is the browser the look is judged in.
func chromium(t *testing.T, page string) string {
	t.Helper()
	path, err := exec.LookPath("chromium")
	if err != nil {
		t.Fatal("chromium is not installed, so lettering cannot be compared with a browser. Install it with: apt-get install chromium")
	}
	home := t.TempDir()
	file := filepath.Join(home, "page.html")
	if err := os.WriteFile(file, []byte(page), 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(path, "--headless", "--no-sandbox", "--disable-gpu", "--font-render-hinting=none", "--disable-component-update",
		"--user-data-dir="+filepath.Join(home, "profile"), "--virtual-time-budget=5000", "--timeout=40000", "--dump-dom", "file://"+file)
	cmd.Env = append(os.Environ(), "HOME="+home)
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("chromium: %v", err)
	}
	return string(out)
}

// The browser's shaping gives every line the width that was measured, to half a unit of the em (a thousandth) a sign: every pair
// of letters both ways round in every face, and lines with signs.
func TestAgreesBrowser(t *testing.T) {
	const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789.,;:−±×“”’–ÅÖéßłŻ⌀₂→"
	var lines []string
	for _, a := range letters {
		var b strings.Builder
		for _, c := range letters {
			b.WriteRune(a)
			b.WriteRune(c)
		}
		lines = append(lines, b.String())
	}
	lines = append(lines, "“Right down on its belly when I park it at a show.”", "68\u00a0±\u00a02 − 1.5° ⌀\u202f8 ½ p₁ → ΔT ÷ √3 ≥ 9.5\u2009bar", "Żółć Ångström Čeština L’Été")
	s := draw.NewScene(draw.Desktop(), 400, 100)
	s.Title = "widths"
	var texts []draw.Text
	for _, f := range font.Faces {
		for _, l := range lines {
			x := draw.Text{X: 5, Y: 50, S: l, Size: 100 * draw.Px, Face: f, Role: draw.Ink}
			texts = append(texts, x)
			s.Add(x)
		}
	}
	b, err := Standalone(s, Light)
	if err != nil {
		t.Fatal(err)
	}
	dom := chromium(t, `<!doctype html><meta charset="utf-8">`+string(b)+`<p id="out"></p><script>document.fonts.ready.then(()=>{
document.getElementById("out").textContent="widths:"+[...document.querySelectorAll("text")].map(t=>t.getComputedTextLength().toFixed(4)).join(" ")})</script>`)
	m := regexp.MustCompile(`widths:([0-9. ]+)`).FindStringSubmatch(dom)
	if m == nil {
		t.Fatal("the browser answered no widths")
	}
	got := strings.Fields(m[1])
	if len(got) != len(texts) {
		t.Fatalf("%d widths for %d lines", len(got), len(texts))
	}
	worst := 0.0
	for i, x := range texts {
		w, err := strconv.ParseFloat(got[i], 64)
		if err != nil {
			t.Fatal(err)
		}
		signs := float64(len([]rune(x.S)))
		off := math.Abs(w-x.Width()/draw.Px) / signs // px of a size of 100: 0.05 is half a thousandth of the em
		worst = math.Max(worst, off)
		if off > 0.05 {
			t.Errorf("%s %.12q...: the browser says %v px, measured %v", x.Face, x.S, w, x.Width()/draw.Px)
		}
	}
	t.Logf("%d lines, worst %.4f px a sign at 100 px", len(texts), worst)
}
