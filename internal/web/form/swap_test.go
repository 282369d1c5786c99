package form

import (
	"maps"
	"net/url"
	"testing"

	"jounce/internal/job"
)

func TestReadingsChangePlaces(t *testing.T) {
	shown := &job.Job{Schema: 1, ID: "0412"}
	for path, text := range map[string]string{"corners.FL.weight": "276 kg", "corners.RL.weight": "234 kg"} {
		if err := shown.Set(path, text, true); err != nil {
			t.Fatal(err)
		}
	}
	v := url.Values{"corners.FL.weight": {"234"}, "corners.FR.weight": {"235"}, "corners.RR.weight": {""},
		Swap: {"corners.FL.weight=corners.RL.weight corners.FR.weight=corners.RR.weight"}}
	got := map[string]string{}
	for _, c := range Read(v).Changes(shown) {
		got[c.Path] = c.Text
	}
	// RL is not in the form: what its page showed there goes to FL
	want := map[string]string{"corners.FL.weight": "234 kg", "corners.RL.weight": "234", "corners.RR.weight": "235"}
	if !maps.Equal(got, want) {
		t.Errorf("changes %q, expected %q", got, want)
	}
	for _, bad := range []string{"", "=", "x", "corners.FL.weight", "corners.FL.weight=no.such.place"} {
		rec := shown.Clone()
		v.Set(Swap, bad)
		err := Apply(rec, Read(v).Changes(shown), Signature{Who: "T. Marrow"})
		if (err != nil) != (bad == "corners.FL.weight=no.such.place") {
			t.Errorf("%q: %v", bad, err)
		}
	}
}
