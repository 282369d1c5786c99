package catalog

import (
	"slices"
	"testing"

	"jounce/internal/job"
)

// The words of every place are ones that the record takes.
func TestTouchNamesInTheWordsOfTheRecord(t *testing.T) {
	var rec job.Job
	choices := func(member string) []string {
		f, err := rec.Field("touch[t1]."+member, true)
		if err != nil {
			t.Fatal(err)
		}
		return f.Choices
	}
	moves, meets := choices("moves"), choices("meets")
	seen := map[string]bool{}
	for _, n := range TouchNames {
		if seen[n.Name] || n.Name == "" {
			t.Errorf("%q stands twice or has no name", n.Name)
		}
		seen[n.Name] = true
		if !slices.Contains(moves, n.Moves) || n.Meets != "" && !slices.Contains(meets, n.Meets) {
			t.Errorf("%s: %q and %q are not words of the record", n.Name, n.Moves, n.Meets)
		}
	}
	if len(TouchNames) < 30 {
		t.Errorf("%d places, expected the thirty of the handbook", len(TouchNames))
	}
}
