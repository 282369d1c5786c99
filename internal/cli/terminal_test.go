package cli

import (
	"strings"
	"testing"
	"unicode/utf8"

	"jounce/internal/catalog"
	"jounce/internal/demo"
	"jounce/internal/finding"
	"jounce/internal/study"
)

// TestExactWidth finds no line of any demo job's findings wider than its paper,
// but for a single word that is longer.
func TestExactWidth(t *testing.T) {
	jobs, err := demo.Jobs()
	if err != nil {
		t.Fatal(err)
	}
	for _, rec := range jobs {
		for _, width := range []int{40, 80} {
			p := &paper{width: width}
			p.study(rec, study.Of(rec, catalog.NewShop("")))
			for _, line := range strings.Split(p.String(), "\n") {
				if utf8.RuneCountInString(line) > width && strings.Contains(strings.TrimSpace(line), " ") {
					t.Errorf("job %s at %d: %q", rec.ID, width, line)
				}
			}
		}
	}
}

// TestExactColour colours the verdict on a terminal and nothing else.
func TestExactColour(t *testing.T) {
	f := finding.Finding{ID: "a", Claim: "It is.", Verdict: finding.Fail}
	plain, coloured := &paper{width: 80}, &paper{width: 80, colour: true}
	plain.finding(f)
	coloured.finding(f)
	if strings.Contains(plain.String(), "\x1b") {
		t.Errorf("%q", plain.String())
	}
	if want := "\x1b[1;31mFail, note [a]\n\x1b[0m  It is.\n"; coloured.String() != want {
		t.Errorf("%q, want %q", coloured.String(), want)
	}
}
