// Package storetest holds every storage engine to the same promises.
package storetest

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strings"
	"sync"
	"testing"
	"time"

	"jounce/internal/job"
	"jounce/internal/store"
)

// Run runs the suite. open gives a new empty store and closes it with the test.
func Run(t *testing.T, open func(t *testing.T) *store.Store) {
	for _, c := range []struct {
		name string
		test func(*testing.T, *store.Store)
	}{
		{"save and load", saveAndLoad},
		{"long history", longHistory},
		{"stale base", staleBase},
		{"race of savers", race},
		{"race of makers", raceNew},
		{"not found", notFound},
		{"unfit", unfit},
		{"abandoned call", abandoned},
		{"shop document", shop},
		{"orders and pages", orders},
		{"search", search},
		{"search takes text as it stands", searchLiteral},
		{"counts", counts},
		{"job numbers", numbers},
		{"attachments", attachments},
		{"attachments refused", attachmentsRefused},
	} {
		t.Run(c.name, func(t *testing.T) { c.test(t, open(t)) })
	}
}

// Driver holds a driver to what the one SQL text of the store needs. The pool
// must be able to write and hold no table named driver_test.
func Driver(t *testing.T, db *sql.DB) {
	ctx := t.Context()
	var first, second string
	// A driver that binds by position instead of number hands them back swapped.
	if err := db.QueryRowContext(ctx, `SELECT CAST($2 AS TEXT), CAST($1 AS TEXT)`, "one", "two").Scan(&first, &second); err != nil || first != "two" || second != "one" {
		t.Errorf("$2, $1 gave %q, %q, %v; want two, one", first, second, err)
	}
	if err := db.QueryRowContext(ctx, `SELECT CAST($1 AS TEXT), CAST($1 AS TEXT)`, "one").Scan(&first, &second); err != nil || first != "one" || second != "one" {
		t.Errorf("$1, $1 gave %q, %q, %v; want one, one", first, second, err)
	}
	exec := func(want int64, query string, args ...any) {
		t.Helper()
		r, err := db.ExecContext(ctx, query, args...)
		if err != nil {
			t.Fatalf("%s: %v", query, err)
		}
		if n, err := r.RowsAffected(); want >= 0 && (n != want || err != nil) {
			t.Errorf("%s: %d rows affected, %v; want %d", query, n, err, want)
		}
	}
	exec(-1, `CREATE TABLE driver_test (id TEXT NOT NULL PRIMARY KEY, n BIGINT NOT NULL)`)
	defer exec(-1, `DROP TABLE driver_test`)
	exec(1, `INSERT INTO driver_test (id, n) VALUES ($1, $2) ON CONFLICT DO NOTHING`, "a", int64(1)<<60)
	exec(0, `INSERT INTO driver_test (id, n) VALUES ($1, $2) ON CONFLICT DO NOTHING`, "a", 2)
	exec(0, `UPDATE driver_test SET n = $1 WHERE id = $2 AND n = $3`, 2, "a", 7)
	var n int64
	if err := db.QueryRowContext(ctx, `UPDATE driver_test SET n = n + 1 WHERE id = $1 RETURNING n`, "a").Scan(&n); err != nil || n != int64(1)<<60+1 {
		t.Errorf("RETURNING gave %d, %v", n, err)
	}
	exec(1, `INSERT INTO driver_test (id, n) VALUES ($1, $2) ON CONFLICT (id) DO UPDATE SET n = excluded.n`, "a", 3)
	exec(1, `INSERT INTO driver_test (id, n) VALUES ($1, $2)`, "b", 3)
	if err := db.QueryRowContext(ctx, `SELECT COUNT(*) FROM driver_test WHERE (n, id) > ($1, $2)`, 3, "a").Scan(&n); err != nil || n != 1 {
		t.Errorf("row comparison met %d rows, %v; want 1", n, err)
	}
}

// save saves and fails the test when that fails.
func save(t *testing.T, s *store.Store, v job.Save) job.Revision {
	t.Helper()
	if v.Author == "" {
		v.Author = "T. Marrow"
	}
	if v.Document == nil {
		v.Document = []byte(`{}`)
	}
	r, err := s.Save(t.Context(), v)
	if err != nil {
		t.Fatalf("saving %s on %d: %v", v.Job, v.Base, err)
	}
	return r
}

// same fails the test when two revisions differ in anything.
func same(t *testing.T, got, want job.Revision) {
	t.Helper()
	if got.Job != want.Job || got.Number != want.Number || string(got.Document) != string(want.Document) || got.Author != want.Author ||
		!got.At.Equal(want.At) || got.Note != want.Note || got.Previous != want.Previous || got.Digest != want.Digest {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
}

func saveAndLoad(t *testing.T, s *store.Store) {
	before := time.Now()
	first := save(t, s, job.Save{Job: "0412", Document: []byte(`{ "b": 1.0, "a": "ä\u0000\u003c" }`), Author: "T. Marrow", Note: "survey"})
	if got, want := string(first.Document), `{"a":"ä\u0000<","b":1.0}`; got != want {
		t.Errorf("document %s, want %s", got, want)
	}
	if first.Number != 1 || first.Previous != "" || first.Digest != first.Seal() || first.Author != "T. Marrow" || first.Note != "survey" {
		t.Errorf("first revision: %+v", first)
	}
	if first.At.Location() != time.UTC || first.At.Nanosecond()%1000 != 0 || first.At.Before(before.Truncate(time.Microsecond)) || first.At.After(time.Now()) {
		t.Errorf("time of the save: %v", first.At)
	}
	second := save(t, s, job.Save{Job: "0412", Base: 1, Document: []byte(`[]`), Author: "A. Fenn"})
	if second.Number != 2 || second.Previous != first.Digest || second.Digest != second.Seal() {
		t.Errorf("second revision: %+v", second)
	}
	got, err := s.Load(t.Context(), "0412")
	if err != nil {
		t.Fatal(err)
	}
	same(t, got, second)
	for _, want := range []job.Revision{first, second} {
		got, err := s.LoadRevision(t.Context(), "0412", want.Number)
		if err != nil {
			t.Fatal(err)
		}
		same(t, got, want)
	}
}

// document is a document that changes a little from one revision to the next.
func document(revision, items int) []byte {
	var b strings.Builder
	b.WriteString(`{"items":[`)
	for i := range items {
		if i > 0 {
			b.WriteByte(',')
		}
		value := i * 7919 % 1000
		if i%40 == revision%40 {
			value += revision
		}
		fmt.Fprintf(&b, `{"id":"i%d","value":"%d mm ± 2 mm"}`, i, value)
	}
	fmt.Fprintf(&b, `],"revision":%d}`, revision)
	return []byte(b.String())
}

func longHistory(t *testing.T, s *store.Store) {
	const n = 70 // past two anchors
	var all []job.Revision
	for i := range n {
		items := 200
		if i < 5 {
			items = i // begins small, as jobs do
		}
		all = append(all, save(t, s, job.Save{Job: "j", Base: i, Document: document(i, items), Note: fmt.Sprintf("note %d", i+1)}))
	}
	for _, want := range all {
		got, err := s.LoadRevision(t.Context(), "j", want.Number)
		if err != nil {
			t.Fatal(err)
		}
		same(t, got, want)
	}
	c, err := s.Verify(t.Context(), "j")
	if err != nil || !c.Whole() || c.Revisions != n || c.Digest != all[n-1].Digest || c.Job != "j" {
		t.Errorf("chain %+v, %v", c, err)
	}
	seen, before := n, 0
	for seen > 0 {
		page, err := s.History(t.Context(), "j", job.HistoryPage{Before: before, Limit: 30})
		if err != nil || len(page) != min(30, seen) {
			t.Fatalf("history before %d: %d lines, %v", before, len(page), err)
		}
		for _, l := range page {
			want := all[seen-1]
			if l.Number != want.Number || l.Author != want.Author || !l.At.Equal(want.At) || l.Note != want.Note || l.Digest != want.Digest {
				t.Errorf("history line %+v, want %+v", l, want)
			}
			seen--
		}
		before = page[len(page)-1].Number
	}
	if page, err := s.History(t.Context(), "j", job.HistoryPage{Before: before}); err != nil || len(page) != 0 {
		t.Errorf("before the first: %v, %v", page, err)
	}
	if page, err := s.History(t.Context(), "j", job.HistoryPage{}); err != nil || len(page) != 50 {
		t.Errorf("a page when nothing was asked: %d lines, %v", len(page), err)
	}
	if r, err := s.Check(t.Context()); err != nil || len(r.Problems) > 0 || r.Jobs != 1 || r.Revisions != n {
		t.Errorf("check: %+v, %v", r, err)
	}
}

// loses fails the test unless a save loses against current.
func loses(t *testing.T, s *store.Store, v job.Save, current job.Revision) {
	t.Helper()
	v.Author, v.Document = "A. Fenn", []byte(`{"lost":true}`)
	_, err := s.Save(t.Context(), v)
	c, ok := errors.AsType[*job.Conflict](err)
	if !ok {
		t.Fatalf("saving on %d: %v; want a conflict", v.Base, err)
	}
	if c.Base != v.Base {
		t.Errorf("the conflict names base %d, want %d", c.Base, v.Base)
	}
	same(t, c.Current, current)
	got, err := s.Load(t.Context(), v.Job)
	if err != nil {
		t.Fatal(err)
	}
	same(t, got, current)
}

func staleBase(t *testing.T, s *store.Store) {
	first := save(t, s, job.Save{Job: "j"})
	loses(t, s, job.Save{Job: "j", Base: 0}, first)
	loses(t, s, job.Save{Job: "j", Base: 2}, first)
	second := save(t, s, job.Save{Job: "j", Base: 1, Document: []byte(`{"a":1}`)})
	loses(t, s, job.Save{Job: "j", Base: 1}, second)
	if _, err := s.Save(t.Context(), job.Save{Job: "other", Base: 3, Author: "x", Document: []byte(`{}`)}); !errors.Is(err, job.ErrNotFound) {
		t.Errorf("a save on a job that is not there: %v", err)
	}
}

func race(t *testing.T, s *store.Store) {
	current := save(t, s, job.Save{Job: "j"})
	for range 5 {
		current = raceOnce(t, s, current.Number)
	}
	if c, err := s.Verify(t.Context(), "j"); err != nil || !c.Whole() || c.Revisions != 6 {
		t.Errorf("chain %+v, %v", c, err)
	}
}

func raceNew(t *testing.T, s *store.Store) { raceOnce(t, s, 0) }

// raceOnce lets eight savers go from one base; exactly one must win, and the
// others must be told who.
func raceOnce(t *testing.T, s *store.Store, base int) job.Revision {
	t.Helper()
	const savers = 8
	var wg sync.WaitGroup
	start := make(chan struct{})
	won, errs := make([]job.Revision, savers), make([]error, savers)
	for i := range savers {
		wg.Go(func() {
			<-start
			won[i], errs[i] = s.Save(t.Context(), job.Save{Job: "j", Base: base, Author: fmt.Sprint("saver ", i), Document: fmt.Appendf(nil, `{"by":%d}`, i)})
		})
	}
	close(start)
	wg.Wait()
	winner := -1
	for i, err := range errs {
		if err == nil {
			if winner >= 0 {
				t.Fatalf("savers %d and %d both won on base %d", winner, i, base)
			}
			winner = i
		}
	}
	if winner < 0 {
		t.Fatalf("nobody won on base %d: %v", base, errs)
	}
	for i, err := range errs {
		if i == winner {
			continue
		}
		c, ok := errors.AsType[*job.Conflict](err)
		if !ok {
			t.Fatalf("saver %d: %v; want a conflict", i, err)
		}
		same(t, c.Current, won[winner])
	}
	got, err := s.Load(t.Context(), "j")
	if err != nil {
		t.Fatal(err)
	}
	same(t, got, won[winner])
	return got
}

func notFound(t *testing.T, s *store.Store) {
	save(t, s, job.Save{Job: "j"})
	ctx := t.Context()
	sum := strings.Repeat("0", 64)
	for name, call := range map[string]func() error{
		"load":                   func() error { _, err := s.Load(ctx, "x"); return err },
		"revision of no job":     func() error { _, err := s.LoadRevision(ctx, "x", 1); return err },
		"revision 0":             func() error { _, err := s.LoadRevision(ctx, "j", 0); return err },
		"revision to come":       func() error { _, err := s.LoadRevision(ctx, "j", 2); return err },
		"history":                func() error { _, err := s.History(ctx, "x", job.HistoryPage{}); return err },
		"verify":                 func() error { _, err := s.Verify(ctx, "x"); return err },
		"attachments of no job":  func() error { _, err := s.ListAttachments(ctx, "x"); return err },
		"attachment":             func() error { _, _, err := s.Get(ctx, "j", sum); return err },
		"attachment, odd digest": func() error { _, _, err := s.Get(ctx, "j", "../jounce.db"); return err },
		"attachment for no job":  func() error { _, err := s.Put(ctx, "x", "n", "text/plain", strings.NewReader(""), 1); return err },
	} {
		if err := call(); !errors.Is(err, job.ErrNotFound) {
			t.Errorf("%s: %v; want not found", name, err)
		}
	}
}

func unfit(t *testing.T, s *store.Store) {
	for name, change := range map[string]func(*job.Save){
		"no id":                func(v *job.Save) { v.Job = "" },
		"id with a slash":      func(v *job.Save) { v.Job = "a/b" },
		"id of full stops":     func(v *job.Save) { v.Job = ".." },
		"long id":              func(v *job.Save) { v.Job = strings.Repeat("a", 65) },
		"base below 0":         func(v *job.Save) { v.Base = -1 },
		"no author":            func(v *job.Save) { v.Author = " " },
		"author not UTF-8":     func(v *job.Save) { v.Author = "a\xff" },
		"note with zero":       func(v *job.Save) { v.Note = "a\x00" },
		"long name":            func(v *job.Save) { v.Name = strings.Repeat("a", 201) },
		"due not a date":       func(v *job.Save) { v.Due = "20 March" },
		"due on no day":        func(v *job.Save) { v.Due = "2026-02-30" },
		"summary not JSON":     func(v *job.Save) { v.Summary = []byte("{") },
		"no document":          func(v *job.Save) { v.Document = nil },
		"document not JSON":    func(v *job.Save) { v.Document = []byte("{]") },
		"document names twice": func(v *job.Save) { v.Document = []byte(`{"a":1,"a":2}`) },
		"document too large":   func(v *job.Save) { v.Document = []byte(`"` + strings.Repeat("a", 16<<20) + `"`) },
	} {
		v := job.Save{Job: "j", Author: "T. Marrow", Document: []byte(`{}`)}
		change(&v)
		_, err := s.Save(t.Context(), v)
		if u, ok := errors.AsType[*job.Unfit](err); !ok || u.Error() == "" {
			t.Errorf("%s: %v; want unfit", name, err)
		}
	}
	if list, err := s.List(t.Context(), job.ListQuery{}); err != nil || len(list.Rows) != 0 {
		t.Errorf("after refused saves: %v, %v", list.Rows, err)
	}
	for _, q := range []job.ListQuery{
		{Order: 9}, {After: "x"}, {After: "bm90"}, {Text: "a b c d e f g h i"}, {Text: strings.Repeat("a", 201)}, {Text: "\xff"},
	} {
		if _, err := s.List(t.Context(), q); !isUnfit(err) {
			t.Errorf("list %+v: %v; want unfit", q, err)
		}
	}
}

func isUnfit(err error) bool {
	_, ok := errors.AsType[*job.Unfit](err)
	return ok
}

func abandoned(t *testing.T, s *store.Store) {
	first := save(t, s, job.Save{Job: "j"})
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := s.Save(ctx, job.Save{Job: "j", Base: 1, Author: "x", Document: []byte(`{"a":1}`)}); !errors.Is(err, context.Canceled) {
		t.Errorf("a save that was given up: %v", err)
	}
	got, err := s.Load(t.Context(), "j")
	if err != nil {
		t.Fatal(err)
	}
	same(t, got, first)
	save(t, s, job.Save{Job: "j", Base: 1})
}

func shop(t *testing.T, s *store.Store) {
	save(t, s, job.Save{Job: job.Shop, Name: "Thornhythe Coachworks", Text: []job.Passage{{Place: "limits", Text: "camber"}}})
	save(t, s, job.Save{Job: job.Shop, Base: 1, Document: []byte(`{"bays":4}`)})
	save(t, s, job.Save{Job: "0001", Text: []job.Passage{{Place: "wishes", Text: "camber"}}})
	if r, err := s.Load(t.Context(), job.Shop); err != nil || r.Number != 2 || string(r.Document) != `{"bays":4}` {
		t.Errorf("the shop: %+v, %v", r, err)
	}
	for _, text := range []string{"", "camber"} {
		list, err := s.List(t.Context(), job.ListQuery{Text: text})
		if err != nil || len(list.Rows) != 1 || list.Rows[0].Job != "0001" {
			t.Errorf("list for %q: %+v, %v; want only job 0001", text, list.Rows, err)
		}
		if c, err := s.Counts(t.Context(), text); err != nil || c.All != 1 || c.Found != 1 {
			t.Errorf("counts for %q: %+v, %v", text, c, err)
		}
	}
}
