package store_test

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"jounce/internal/job"
	"jounce/internal/store"
)

// filled are the databases of closed stores whose job j has so many revisions:
// made once, copied for each test.
var filled = map[int][]byte{}

// made makes a closed store with n revisions of job j and returns its folder.
func made(t *testing.T, n int) string {
	t.Helper()
	if filled[n] == nil {
		first := t.TempDir()
		s := open(t, first)
		fill(t, s, n)
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
		content, err := os.ReadFile(filepath.Join(first, "jounce.db"))
		if err != nil {
			t.Fatal(err)
		}
		filled[n] = content
	}
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "jounce.db"), filled[n], 0o600); err != nil {
		t.Fatal(err)
	}
	return dir
}

// snapshot is the content of every file in a folder.
func snapshot(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err == nil && !e.IsDir() {
			content, err := os.ReadFile(path)
			all[path] = string(content)
			return err
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// refuses wants Open to fail with an error of type E whose text names the file
// and all words, and to leave every file as it was.
func refuses[E error](t *testing.T, dir string, o store.Options, words ...string) {
	t.Helper()
	before := snapshot(t, dir)
	s, err := store.Open(t.Context(), dir, o)
	if err == nil {
		s.Close()
		t.Fatal("opened")
	}
	if _, ok := errors.AsType[E](err); !ok {
		t.Errorf("got %T: %v", err, err)
	}
	for _, w := range append(words, "Nothing was changed", dir) {
		if !strings.Contains(err.Error(), w) {
			t.Errorf("%q does not say %q", err, w)
		}
	}
	after := snapshot(t, dir)
	for name, content := range before {
		if after[name] != content {
			t.Errorf("%s was changed", name)
		}
	}
	for name := range after {
		if _, ok := before[name]; !ok {
			t.Errorf("%s was made", name)
		}
	}
}

// raw runs statements on a closed store.
func raw(t *testing.T, dir string, statements ...string) {
	t.Helper()
	db, err := sql.Open("sqlite", filepath.Join(dir, "jounce.db"))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	for _, s := range statements {
		if _, err := db.Exec(s); err != nil {
			t.Fatalf("%s: %v", s, err)
		}
	}
}

func TestLimitNewerSchema(t *testing.T) {
	dir := made(t, 40)
	raw(t, dir, `INSERT INTO schema_step VALUES (3, 'later', 'x', 0)`)
	refuses[*store.NewerSchema](t, dir, store.Options{}, "newer", "schema 3")
	raw(t, dir, `UPDATE schema_step SET version = 9 WHERE version = 3`)
	refuses[*store.NewerSchema](t, dir, store.Options{}, "newer", "schema 9")
}

func TestLimitChangedStep(t *testing.T) {
	dir := made(t, 40)
	raw(t, dir, `UPDATE schema_step SET digest = 'x' WHERE version = 1`)
	refuses[*store.ChangedStep](t, dir, store.Options{}, "step 1", "start")
}

func TestLimitForeign(t *testing.T) {
	dir := t.TempDir()
	raw(t, dir, `CREATE TABLE something (a)`)
	refuses[*store.Foreign](t, dir, store.Options{}, "another program")
}

func TestLimitDamaged(t *testing.T) {
	for name, damage := range map[string]func(t *testing.T, dir, file string){
		"not a database": func(t *testing.T, dir, file string) { overwrite(t, file, 0, "PK\x03\x04 something else") },
		"short file":     func(t *testing.T, dir, file string) { truncate(t, file, 10) },
		"header":         func(t *testing.T, dir, file string) { overwrite(t, file, 16, strings.Repeat("\xff", 84)) },
		"first page":     func(t *testing.T, dir, file string) { overwrite(t, file, 100, strings.Repeat("\xaa", 3000)) },
		"cut in half":    func(t *testing.T, dir, file string) { truncate(t, file, 20000) },
		"steps gone":     func(t *testing.T, dir, file string) { raw(t, dir, `DROP TABLE schema_step`) },
		"step missing": func(t *testing.T, dir, file string) {
			raw(t, dir, `UPDATE schema_step SET version = 0 WHERE version = 1`)
		},
		"emptied, attachments left": func(t *testing.T, dir, file string) {
			withAttachment(t, dir)
			truncate(t, file, 0)
		},
		"database gone, attachments left": func(t *testing.T, dir, file string) {
			withAttachment(t, dir)
			if err := os.Remove(file); err != nil {
				t.Fatal(err)
			}
		},
	} {
		t.Run(name, func(t *testing.T) {
			dir := made(t, 40)
			damage(t, dir, filepath.Join(dir, "jounce.db"))
			refuses[*store.Damaged](t, dir, store.Options{}, "restore the last backup")
		})
	}
}

// withAttachment puts one attachment into a closed store.
func withAttachment(t *testing.T, dir string) {
	t.Helper()
	s := open(t, dir)
	if _, err := s.Put(t.Context(), "j", "n", "text/plain", strings.NewReader("x"), 1); err != nil {
		t.Fatal(err)
	}
	s.Close()
}

func overwrite(t *testing.T, file string, at int64, content string) {
	t.Helper()
	f, err := os.OpenFile(file, os.O_RDWR, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if _, err := f.WriteAt([]byte(content), at); err != nil {
		t.Fatal(err)
	}
}

func truncate(t *testing.T, file string, size int64) {
	t.Helper()
	if err := os.Truncate(file, size); err != nil {
		t.Fatal(err)
	}
}

// TestLimitDamageInside overwrites pages behind the schema. Opening does not read
// them; whatever is read then must be right or refused, and Check must see it.
func TestLimitDamageInside(t *testing.T) {
	dir := made(t, 40)
	file := filepath.Join(dir, "jounce.db")
	info, err := os.Stat(file)
	if err != nil {
		t.Fatal(err)
	}
	overwrite(t, file, info.Size()-8192, strings.Repeat("\xaa", 8192))
	s := open(t, dir)
	refused := 0
	for n := 1; n <= 40; n++ {
		r, err := s.LoadRevision(t.Context(), "j", n)
		if err != nil {
			refused++
		} else if want := fmt.Sprintf(`{"n":%d,`, n-1); !bytes.HasPrefix(r.Document, []byte(want)) {
			t.Errorf("revision %d came back as %s", n, r.Document)
		}
	}
	r, err := s.Check(t.Context())
	if _, ok := errors.AsType[*store.Damaged](err); !ok && len(r.Problems) == 0 {
		t.Errorf("check: %+v, %v; %d loads were refused", r, err, refused)
	}
	if err := s.Backup(t.Context(), filepath.Join(dir, "b.zip")); err == nil {
		t.Error("a damaged database was backed up without a word")
	}
	if _, err := os.Stat(filepath.Join(dir, "b.zip")); err == nil {
		t.Error("the backup of a damaged database was kept")
	}
}

// later are the program's schema steps and one more.
func later(t *testing.T, text string) fstest.MapFS {
	t.Helper()
	steps := fstest.MapFS{"0001_start.postgres.sql": {Data: []byte("not for this engine")}}
	names, err := fs.Glob(store.Migrations(), "*.sqlite.sql")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		step, err := fs.ReadFile(store.Migrations(), name)
		if err != nil {
			t.Fatal(err)
		}
		steps[name] = &fstest.MapFile{Data: []byte(strings.ReplaceAll(string(step), "\n", "\r\n"))} // as some checkouts have it
	}
	steps[fmt.Sprintf("%04d_later.sql", len(names)+1)] = &fstest.MapFile{Data: []byte(text)}
	return steps
}

func TestExactMigration(t *testing.T) {
	dir := made(t, 40)
	o := store.WithMigrations(store.Options{}, later(t, `CREATE TABLE more (a TEXT); INSERT INTO more VALUES ('b');`))
	for range 2 {
		s, err := store.Open(t.Context(), dir, o)
		if err != nil {
			t.Fatal(err)
		}
		_, read := s.Pools()
		var a string
		if err := read.QueryRow(`SELECT a FROM more`).Scan(&a); err != nil || a != "b" {
			t.Errorf("%q, %v", a, err)
		}
		if c, err := s.Verify(t.Context(), "j"); err != nil || !c.Whole() || c.Revisions != 40 {
			t.Errorf("%+v, %v", c, err)
		}
		s.Close()
	}
	refuses[*store.NewerSchema](t, dir, store.Options{})
	copies, err := filepath.Glob(filepath.Join(dir, "copies", "jounce-schema-2-*.db"))
	if err != nil || len(copies) != 1 {
		t.Fatalf("copies %v, %v; want one", copies, err)
	}
	before := t.TempDir()
	if err := os.Rename(copies[0], filepath.Join(before, "jounce.db")); err != nil {
		t.Fatal(err)
	}
	if c, err := open(t, before).Verify(t.Context(), "j"); err != nil || !c.Whole() || c.Revisions != 40 {
		t.Errorf("the copy: %+v, %v", c, err)
	}
}

// TestLimitMigrationFails breaks a step off in the middle: nothing of it may stay.
func TestLimitMigrationFails(t *testing.T) {
	dir := made(t, 40)
	o := store.WithMigrations(store.Options{}, later(t, `CREATE TABLE more (a TEXT); DELETE FROM word; DELETE FROM nothing;`))
	if _, err := store.Open(t.Context(), dir, o); err == nil || !strings.Contains(err.Error(), "schema step 3 (later)") {
		t.Errorf("%v", err)
	}
	s := open(t, dir)
	if list, err := s.List(t.Context(), job.ListQuery{Text: "j"}); err != nil || len(list.Rows) != 1 {
		t.Errorf("%+v, %v", list, err)
	}
}

func TestLimitStepNames(t *testing.T) {
	for _, steps := range []fstest.MapFS{{}, {"0002_a.sql": {}}, {"0001_a.sql": {}, "0001_b.sql": {}}, {"0001_a.sql": {}, "0003_b.sql": {}}} {
		if s, err := store.Open(t.Context(), t.TempDir(), store.WithMigrations(store.Options{}, steps)); err == nil {
			s.Close()
			t.Errorf("%v: opened", steps)
		}
	}
}

// TestExactOpenTogether opens one new store from several sides at a time.
func TestExactOpenTogether(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new")
	var wg sync.WaitGroup
	stores, errs := make([]*store.Store, 4), make([]error, 4)
	for i := range stores {
		wg.Go(func() { stores[i], errs[i] = store.Open(context.Background(), dir, store.Options{}) })
	}
	wg.Wait()
	for i, err := range errs {
		if err != nil {
			t.Fatalf("opening %d: %v", i, err)
		}
		defer stores[i].Close()
	}
	for i, s := range stores {
		save(t, s, job.Save{Job: "j", Base: i})
	}
	if c, err := stores[0].Verify(t.Context(), "j"); err != nil || !c.Whole() || c.Revisions != 4 {
		t.Errorf("%+v, %v", c, err)
	}
}

// TestExactClock dates a revision by the clock given, to the microsecond, and
// sweeps what a crash left of attachments a day ago.
func TestExactClock(t *testing.T) {
	dir := t.TempDir()
	part := filepath.Join(dir, "attachments", "part")
	if err := os.MkdirAll(part, 0o700); err != nil {
		t.Fatal(err)
	}
	now := time.Date(2026, 3, 14, 9, 26, 53, 589_793_238, time.FixedZone("", 3600))
	for name, age := range map[string]time.Duration{"part-old": 25 * time.Hour, "part-new": time.Hour} {
		file := filepath.Join(part, name)
		if err := os.WriteFile(file, nil, 0o600); err != nil {
			t.Fatal(err)
		}
		if err := os.Chtimes(file, now, now.Add(-age)); err != nil {
			t.Fatal(err)
		}
	}
	s, err := store.Open(t.Context(), dir, store.Options{Now: func() time.Time { return now }})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	r := save(t, s, job.Save{Job: "j"})
	if want := time.Date(2026, 3, 14, 8, 26, 53, 589_793_000, time.UTC); r.At != want {
		t.Errorf("dated %v, want %v", r.At, want)
	}
	left, _ := filepath.Glob(filepath.Join(part, "*"))
	if len(left) != 1 || filepath.Base(left[0]) != "part-new" {
		t.Errorf("left on the way in: %v", left)
	}
}
