package store_test

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"jounce/internal/job"
	"jounce/internal/store"
)

// started opens a store with the first step of the schema alone.
func started(t *testing.T, dir string) *store.Store {
	t.Helper()
	const name = "0001_start.sqlite.sql"
	first, err := fs.ReadFile(store.Migrations(), name)
	if err != nil {
		t.Fatal(err)
	}
	s, err := store.Open(t.Context(), dir, store.WithMigrations(store.Options{}, fstest.MapFS{name: {Data: first}}))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// found are the jobs that a search finds, and counts, in the order of their ids.
func found(t *testing.T, s *store.Store, text string) []string {
	t.Helper()
	list, err := s.List(t.Context(), job.ListQuery{Text: text, Order: job.ByJob, Limit: 500})
	if err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	var ids []string
	for _, r := range list.Rows {
		ids = append(ids, r.Job)
		if text != "" && len(r.Found) != len(strings.Fields(text)) {
			t.Errorf("%q in job %s: found at %+v", text, r.Job, r.Found)
		}
	}
	slices.Sort(ids)
	c, err := s.Counts(t.Context(), text)
	if err != nil || c.Found != len(ids) {
		t.Errorf("%q: %d counted, %d listed, %v", text, c.Found, len(ids), err)
	}
	return ids
}

// TestExactWordsTakenOver finds what was saved before there was an index, keeps
// a copy of the store as it was, and follows every change afterwards.
func TestExactWordsTakenOver(t *testing.T) {
	dir := t.TempDir()
	s := started(t, dir)
	for i, name := range []string{"Fenn estate", "Quill saloon", "Hale pickup"} {
		save(t, s, job.Save{Job: fmt.Sprintf("000%d", i), Name: name})
	}
	save(t, s, job.Save{Job: job.Shop, Name: "estate of the shop"})
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	s = open(t, dir)
	want := func(text string, ids ...string) {
		t.Helper()
		if got := found(t, s, text); !slices.Equal(got, ids) {
			t.Errorf("%q found %v, want %v", text, got, ids)
		}
	}
	want("sta", "0000")
	want("l", "0001", "0002")
	want("al", "0001", "0002")
	want("e p", "0002")
	save(t, s, job.Save{Job: "0000", Base: 1, Name: "Fenn van"})
	save(t, s, job.Save{Job: "0003", Name: "Older estate"})
	want("estate", "0003")
	want("van", "0000")
	want("van n", "0000")
	want("es q")
	if r, err := s.Check(t.Context()); err != nil || len(r.Problems) > 0 {
		t.Errorf("%+v, %v", r, err)
	}
	copies, err := filepath.Glob(filepath.Join(dir, "copies", "jounce-schema-1-*.db"))
	if err != nil || len(copies) != 1 {
		t.Errorf("copies %v, %v; want one", copies, err)
	}
}

// TestExactWordsAfterRestore finds the same in a store that was made from a
// backup: copying a database may give its rows other numbers.
func TestExactWordsAfterRestore(t *testing.T) {
	s := open(t, t.TempDir())
	for i := range 20 {
		save(t, s, job.Save{Job: fmt.Sprintf("%04d", i), Name: fmt.Sprintf("Keeper%d estate", i%7)})
	}
	write, _ := s.Pools()
	if _, err := write.Exec(`DELETE FROM word WHERE job < '0009'`); err != nil { // leaves a hole in the numbers
		t.Fatal(err)
	}
	file, dir := filepath.Join(t.TempDir(), "b.zip"), filepath.Join(t.TempDir(), "again")
	if err := s.Backup(t.Context(), file); err != nil {
		t.Fatal(err)
	}
	if err := store.Restore(t.Context(), file, dir); err != nil {
		t.Fatal(err)
	}
	again := open(t, dir)
	for _, text := range []string{"estate", "keeper3", "r6 0013"} {
		one, two := found(t, s, text), found(t, again, text)
		if len(one) == 0 || !slices.Equal(one, two) {
			t.Errorf("%q found %v, restored %v", text, one, two)
		}
	}
}

// TestAgreesSearch holds searches against looking through every text in Go, with
// words of one character and more, cut from the texts and from elsewhere.
func TestAgreesSearch(t *testing.T) {
	rng := rand.New(rand.NewPCG(49, 1))
	alphabet := []rune("aab b\"'%_\\*-^():+ 1éß½Ωあ𝄞\u0301")
	some := func(n int) string {
		r := make([]rune, 1+rng.IntN(n))
		for i := range r {
			r[i] = alphabet[rng.IntN(len(alphabet))]
		}
		return string(r)
	}
	s := open(t, t.TempDir())
	texts := map[string]string{}
	for i := range 60 {
		id := fmt.Sprintf("j%02d", i)
		for base := range 1 + i%3 { // what an older revision said is not found
			texts[id] = some(40)
			save(t, s, job.Save{Job: id, Base: base, Text: []job.Passage{{Place: "p", Text: texts[id]}}})
		}
	}
	hits := 0
	for range 400 {
		text := some(7)
		if rng.IntN(2) == 0 {
			r := []rune(texts[fmt.Sprintf("j%02d", rng.IntN(60))])
			from := rng.IntN(len(r))
			text = string(r[from:min(len(r), from+1+rng.IntN(6))])
		}
		words := strings.Fields(store.Fold(text))
		if len(words) == 0 || len(words) > 8 {
			continue
		}
		var want []string
		for id, typed := range texts {
			in := append(strings.Fields(store.Fold(typed)), id)
			if !slices.ContainsFunc(words, func(w string) bool {
				return !slices.ContainsFunc(in, func(x string) bool { return strings.Contains(x, w) })
			}) {
				want = append(want, id)
			}
		}
		slices.Sort(want)
		if got := found(t, s, strings.Join(words, " ")); !slices.Equal(got, want) {
			t.Errorf("%q found %v, want %v", text, got, want)
		}
		hits += len(want)
	}
	if hits < 400 {
		t.Errorf("%d hits in all: the words say too little", hits)
	}
}
