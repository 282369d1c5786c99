package font

import (
	"bytes"
	"math"
	"strings"
	"sync"
	"testing"

	"golang.org/x/image/font/sfnt"
)

// What a workshop's papers need, beside the letters.
const signs = "−±×÷≈≠≤≥√ΔΩµμ½¼¾′″°¹²³·–—“”‘’…€£π⌀←→↑↓₀₁₂₃₄₅₆₇₈₉\u00a0\u2009\u202f\u2011"

// Letters of European names.
const names = "ÀÁÂÃÄÅÆÇÈÉÊËÌÍÎÏÐÑÒÓÔÕÖØÙÚÛÜÝÞßàáâãäåæçèéêëìíîïðñòóôõöøùúûüýþÿĀāĂăĄąĆćČčĎďĐđĒēĖėĘęĚěĞğĢģĪīĮįİıĶķĹĺĻļĽľŁłŃńŅņŇňŌōŐőŒœŔŕŘřŚśŞşŠšŢţŤťŪūŮůŰűŲųŴŵŶŷŸŹźŻżŽžȘșȚț"

func TestExactSigns(t *testing.T) {
	for _, f := range Faces {
		for r := rune(0x20); r < 0x7f; r++ {
			if !f.Has(r) {
				t.Errorf("%s lacks %q", f, r)
			}
		}
		if m := f.Missing(signs + names); len(m) > 0 {
			t.Errorf("%s lacks %q", f, string(m))
		}
		if m := f.Missing("Москва Ж"); string(m) != "Москва Ж"[:len("Москва")]+"Ж" {
			t.Errorf("%s: missing is %q, expected the Cyrillic letters once each", f, string(m))
		}
	}
}

// Figures are tabular without a feature: all ten have one width and no kern among them.
func TestExactTabular(t *testing.T) {
	for _, f := range Faces {
		for a := '0'; a <= '9'; a++ {
			if f.Advance(a) != f.Advance('0') {
				t.Errorf("%s: %c is %v wide, 0 is %v", f, a, f.Advance(a), f.Advance('0'))
			}
			for b := '0'; b <= '9'; b++ {
				if k := f.Kern(a, b); k != 0 {
					t.Errorf("%s: %c%c is kerned by %v", f, a, b, k)
				}
			}
		}
		if f.Width("111.1", 2) != f.Width("888.8", 2) {
			t.Errorf("%s: 111.1 and 888.8 have two widths", f)
		}
	}
}

func TestExactMetrics(t *testing.T) {
	for _, f := range Faces {
		tab := f.get()
		m, err := tab.font.Metrics(&sfnt.Buffer{}, tab.upem, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range []struct {
			what      string
			got, want float64
		}{{"capitals", float64(m.CapHeight), CapHeight}, {"ascent", float64(m.Ascent), Ascent}, {"descent", float64(m.Descent), Descent}} {
			if got := c.got / float64(tab.upem); math.Abs(got-c.want) > 0.0005 {
				t.Errorf("%s: %s %v, the constant says %v", f, c.what, got, c.want)
			}
		}
		if x := float64(m.XHeight) / float64(tab.upem); math.Abs(x-XHeight) > 0.0025 {
			t.Errorf("%s: small letters %v, the constant says %v", f, x, XHeight)
		}
	}
}

func TestExactFiles(t *testing.T) {
	total := 0
	for _, f := range Faces {
		if !bytes.HasPrefix(f.WOFF2(), []byte("wOF2")) {
			t.Errorf("%s: no WOFF2", f)
		}
		total += len(f.WOFF2())
		tab := f.get()
		name, err := tab.font.Name(&sfnt.Buffer{}, sfnt.NameIDFull)
		if err != nil || !strings.HasPrefix(name, f.Family()) {
			t.Errorf("%s is named %q, %v", f, name, err)
		}
		if condensed := strings.Contains(name, "Condensed"); condensed != f.Condensed() {
			t.Errorf("%s is named %q", f, name)
		}
	}
	if total > 100_000 {
		t.Errorf("the four WOFF2 files are %d bytes, the goal is 100,000", total)
	}
	if !strings.Contains(Licence(), "SIL OPEN FONT LICENSE Version 1.1") {
		t.Error("the licence is not there")
	}
}

func TestExactKerning(t *testing.T) {
	for _, f := range Faces {
		if k := f.Kern('A', 'V'); k >= 0 {
			t.Errorf("%s: AV is kerned by %v, expected closer", f, k)
		}
		if w := f.Width("AV", 1); math.Abs(w-(f.Advance('A')+f.Kern('A', 'V')+f.Advance('V'))) > 1e-12 {
			t.Errorf("%s: AV is %v wide", f, w)
		}
	}
}

// Measuring is safe from several goroutines.
func TestAgreesWhenShared(t *testing.T) {
	want := Norm600.Width("AVATAR To. 68 ± 2", 3)
	var wg sync.WaitGroup
	for range 8 {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for range 200 {
				if w := Norm600.Width("AVATAR To. 68 ± 2", 3); w != want {
					t.Errorf("%v, alone it was %v", w, want)
					return
				}
			}
		}()
	}
	wg.Wait()
}

func TestExactCSS(t *testing.T) {
	css := CSS(func(f string) string { return "/static/" + f })
	for _, f := range Faces {
		if !strings.Contains(css, `url("/static/`+f.File(".woff2")+`")`) {
			t.Errorf("no rule for %s", f)
		}
	}
	if n := strings.Count(css, "size-adjust:"); n != 4 {
		t.Errorf("%d fallbacks, expected 4", n)
	}
	for _, o := range Overrides {
		// Undoing the adjustment must give the face's own ascent and descent.
		if a := o.Ascent * o.SizeAdjust / 1e4; math.Abs(a-Ascent) > 1e-3 {
			t.Errorf("ascent %v after the adjustment, expected %v", a, Ascent)
		}
		if d := o.Descent * o.SizeAdjust / 1e4; math.Abs(d-Descent) > 1e-3 {
			t.Errorf("descent %v after the adjustment, expected %v", d, Descent)
		}
	}
}

func FuzzWidth(f *testing.F) {
	f.Add("68 ± 2", 3.5)
	f.Add("\xff\x00", -1.0)
	f.Fuzz(func(t *testing.T, s string, size float64) {
		w := Cond500.Width(s, 1)
		if math.IsNaN(w) || w < -1 {
			t.Fatalf("%q is %v wide", s, w)
		}
		Cond500.Width(s, size)
	})
}
