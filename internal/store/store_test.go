package store_test

import (
	"database/sql"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"jounce/internal/job"
	"jounce/internal/store"
	"jounce/internal/store/storetest"
)

// crashEnv tells a child process of the tests what to do, in which folder.
const crashEnv = "STORE_TEST_CHILD"

// child is what a child process does; set where the system can kill one.
var child func(what, dir string)

func TestMain(m *testing.M) {
	if what, dir, ok := strings.Cut(os.Getenv(crashEnv), " "); ok && child != nil {
		child(what, dir)
		return
	}
	code := m.Run()
	if benchDir != "" {
		os.RemoveAll(benchDir)
	}
	os.Exit(code)
}

// open opens the store in a folder and closes it with the test.
func open(t testing.TB, dir string) *store.Store {
	t.Helper()
	s, err := store.Open(t.Context(), dir, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	})
	return s
}

// save saves and fails the test when that fails.
func save(t testing.TB, s *store.Store, v job.Save) job.Revision {
	t.Helper()
	if v.Author == "" {
		v.Author = "T. Marrow"
	}
	if v.Document == nil {
		v.Document = []byte(`{}`)
	}
	r, err := s.Save(t.Context(), v)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestExactConformance(t *testing.T) {
	storetest.Run(t, func(t *testing.T) *store.Store { return open(t, t.TempDir()) })
}

func TestExactDriver(t *testing.T) {
	write, read := open(t, t.TempDir()).Pools()
	storetest.Driver(t, write)
	var first, second string
	if err := read.QueryRow(`SELECT CAST($2 AS TEXT), CAST($1 AS TEXT)`, "one", "two").Scan(&first, &second); err != nil || first != "two" || second != "one" {
		t.Errorf("reading: $2, $1 gave %q, %q, %v", first, second, err)
	}
}

// TestExactPools asks each kind of connection how it is set.
func TestExactPools(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	write, read := s.Pools()
	backup, err := sql.Open("sqlite", store.BackupDSN(filepath.Join(dir, "jounce.db")))
	if err != nil {
		t.Fatal(err)
	}
	defer backup.Close()
	for _, pool := range []struct {
		name      string
		db        *sql.DB
		queryOnly string
	}{{"write", write, "0"}, {"read", read, "1"}, {"backup", backup, "0"}} {
		for pragma, want := range map[string]string{
			"journal_mode": "wal", "synchronous": "2", "foreign_keys": "1", "busy_timeout": "10000", "query_only": pool.queryOnly, "application_id": "1246643013",
		} {
			var got string
			if err := pool.db.QueryRow("PRAGMA " + pragma).Scan(&got); err != nil || got != want {
				t.Errorf("%s pool: %s is %q, %v; want %q", pool.name, pragma, got, err, want)
			}
		}
		if _, err := pool.db.Exec(`SELECT "no such column"`); err == nil {
			t.Errorf("%s pool: a name in double quotes passed as text", pool.name)
		}
	}
	if _, err := read.Exec(`DELETE FROM job`); err == nil {
		t.Error("the reading pool can write")
	}
	if n := write.Stats().MaxOpenConnections; n != 1 {
		t.Errorf("%d connections write", n)
	}
}

// TestExactOddFolder opens a store in a folder whose name means something in an address.
func TestExactOddFolder(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new", "a #b%20 ?mode=ro&x;ä")
	s := open(t, dir)
	want := save(t, s, job.Save{Job: "j"})
	if err := s.Backup(t.Context(), filepath.Join(dir, "b #%41?.zip")); err != nil {
		t.Error(err)
	}
	if _, err := os.Stat(filepath.Join(dir, "jounce.db")); err != nil {
		t.Error(err)
	}
	if s.Dir() != dir {
		t.Errorf("folder %s", s.Dir())
	}
	s.Close()
	if got, err := open(t, dir).Load(t.Context(), "j"); err != nil || got.Digest != want.Digest {
		t.Errorf("%+v, %v", got, err)
	}
}
