package web

import (
	"math"
	"regexp"
	"strconv"
	"testing"

	"jounce/internal/draw/svg"
)

// luminance is the relative luminance of "#rrggbb" or "#rgb", WCAG 2.2.
func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	if len(hex) == 4 {
		hex = "#" + hex[1:2] + hex[1:2] + hex[2:3] + hex[2:3] + hex[3:4] + hex[3:4]
	}
	n, err := strconv.ParseUint(hex[1:], 16, 32)
	if err != nil {
		t.Fatal(err)
	}
	part := func(shift uint) float64 {
		c := float64(n>>shift&255) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*part(16) + 0.7152*part(8) + 0.0722*part(0)
}

func contrast(t *testing.T, a, b string) float64 {
	t.Helper()
	x, y := luminance(t, a), luminance(t, b)
	return (math.Max(x, y) + 0.05) / (math.Min(x, y) + 0.05)
}

// TestExactContrastOfThePalette holds what is written and drawn against the
// grounds it stands on, in both themes: text 4.5 to 1, lines that say something
// 3 to 1 (WCAG 2.2, 1.4.3 and 1.4.11).
func TestExactContrastOfThePalette(t *testing.T) {
	tokens := map[string][2]string{}
	for _, m := range regexp.MustCompile(`--([a-z0-9]+):light-dark\((#[0-9a-f]+),(#[0-9a-f]+)\)`).FindAllStringSubmatch(svg.Tokens(), -1) {
		tokens[m[1]] = [2]string{m[2], m[3]}
	}
	for _, c := range []struct {
		what   string
		ground []string
		least  float64
	}{
		{"ink", []string{"paper", "field", "skin", "tyre"}, 4.5}, {"ink2", []string{"paper", "field", "skin"}, 4.5},
		{"move", []string{"paper", "field", "skin"}, 4.5}, {"onmove", []string{"move"}, 4.5},
		{"pass", []string{"paper", "field", "skin"}, 4.5}, {"fail", []string{"paper", "field", "skin"}, 4.5},
		{"close", []string{"paper", "field", "skin"}, 4.5}, {"unknown", []string{"paper", "field", "skin"}, 4.5},
		{"rule", []string{"paper"}, 3},
	} {
		for _, g := range c.ground {
			for i, theme := range []string{"paper", "blueprint"} {
				if tokens[c.what][i] == "" || tokens[g][i] == "" {
					t.Fatalf("%s or %s is no colour of the palette: %v", c.what, g, tokens)
				}
				if got := contrast(t, tokens[c.what][i], tokens[g][i]); got < c.least {
					t.Errorf("%s on %s, %s: %.2f to 1, expected %.1f at the least", c.what, g, theme, got, c.least)
				}
			}
		}
	}
	if got := contrast(t, "#000", "#fff"); math.Abs(got-21) > 1e-9 {
		t.Errorf("black on white is %.3f to 1, expected 21", got)
	}
}
