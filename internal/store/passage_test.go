package store

import (
	"encoding/json"
	"slices"
	"testing"

	"jounce/internal/job"
)

// FuzzPassages holds the short way to read kept passages to the long one, for
// passages as kept and for whatever else stands there.
func FuzzPassages(f *testing.F) {
	for _, s := range []string{`[]`, `null`, `[{"place":"a","text":"b"}]`, `[{"place":"a","text":"b\"\\"},{"place":"\u003c","text":"é"}]`,
		`[{"text":"b","place":"a"}]`, `[{"place":"a","text":"b"}`, `[{"place":"a","text":"b"},]`, `[{"place":"a","text":"b"} ]`, `[{"place":"a\`, `{}`, ``} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, kept string) {
		read := func(kept string) (all []job.Passage, err error) {
			err = eachPassage(kept, func(p job.Passage) bool { all = append(all, p); return true })
			return all, err
		}
		var want []job.Passage
		if err := json.Unmarshal([]byte(kept), &want); err != nil {
			return // what stands there is not what was kept; nothing may panic
		}
		got, err := read(kept)
		if err != nil || len(got) < len(want) {
			t.Fatalf("%q: %+v, %v; want %+v", kept, got, err, want)
		}
		again, err := keepPassages(want)
		if err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal([]byte(again), &want); err != nil { // bytes that are no text are replaced
			t.Fatal(err)
		}
		if got, err := read(again); err != nil || !slices.Equal(got, want) {
			t.Fatalf("%q: %+v, %v; want %+v", again, got, err, want)
		}
	})
}
