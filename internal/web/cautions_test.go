package web

import (
	"strings"
	"testing"
)

// Whoever reads a number with hands or head near a wheel, or under the car, is
// told where the car must stand, at the very place where it is typed.
func TestTheCautionStandsWhereTheNumberIsRead(t *testing.T) {
	near := []string{"hubToArch", "survey.sill", "survey.lowest", "atio", "springHeight", "damper."}
	for _, st := range walk {
		for _, path := range st.Paths {
			for _, part := range near {
				if strings.Contains(path, part) && cautions[st.Title] == "" {
					t.Errorf("%s: no caution at %s", st.Title, path)
				}
			}
		}
	}
	for title := range cautions {
		found := false
		for _, st := range walk {
			found = found || st.Title == title
		}
		if !found {
			t.Errorf("a caution for %q, which is no stop", title)
		}
	}
	shop := bay(t)
	for _, key := range []string{"touch", "axles", "body"} {
		if text := shop.get("/jobs/0412/record/" + key).Find(".caut").Text(); !strings.Contains(text, "stands") {
			t.Errorf("%s: no caution on its page: %q", key, text)
		}
		for _, s := range sections {
			if s.Key == key && (!strings.Contains(s.Says, "stands") || !strings.Contains(s.Says, "air")) {
				t.Errorf("%s: %q", key, s.Says)
			}
		}
	}
}
