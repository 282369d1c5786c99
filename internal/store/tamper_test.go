package store_test

import (
	"database/sql"
	"errors"
	"fmt"
	"strings"
	"testing"

	"jounce/internal/job"
	"jounce/internal/store"
)

// fill saves n revisions of job j.
func fill(t testing.TB, s *store.Store, n int) {
	t.Helper()
	for i := range n {
		save(t, s, job.Save{Job: "j", Base: i, Document: fmt.Appendf(nil, `{"text":%q,"n":%d}`, strings.Repeat("118 mm ± 2 mm ", 20), i)})
	}
}

// TestLimitTamper alters a store behind its back, one thing at a time: the walk
// must name the revision, the load of that revision must refuse, and all others
// must still load.
func TestLimitTamper(t *testing.T) {
	for _, c := range []struct {
		name   string
		change string // may use no parameters
		breaks int    // what Verify must name
		loads  int    // what LoadRevision must refuse; 0 when it cannot see it
	}{
		{"author", `UPDATE revision SET author = 'somebody else' WHERE number = 3`, 3, 3},
		{"note", `UPDATE revision SET note = 'signed' WHERE number = 3`, 3, 3},
		{"time", `UPDATE revision SET at = at + 1 WHERE number = 3`, 3, 3},
		{"digest", `UPDATE revision SET digest = previous WHERE number = 3`, 3, 3},
		{"previous", `UPDATE revision SET previous = digest WHERE number = 3`, 3, 3},
		{"document of another revision", `UPDATE body SET content = (SELECT content FROM body WHERE number = 4), size = (SELECT size FROM body WHERE number = 4) WHERE number = 3`, 3, 3},
		{"document not packed", `UPDATE body SET content = CAST('text' || content AS BLOB) WHERE number = 3`, 3, 3},
		{"revision from the middle gone", `DELETE FROM revision WHERE number = 3`, 3, 0},
		{"document from the middle gone", `DELETE FROM body WHERE number = 3`, 3, 0},
		{"newest gone", `DELETE FROM revision WHERE number = 5`, 5, 0},
		{"newest gone and denied", `DELETE FROM revision WHERE number = 5; UPDATE job SET revision = 4`, 4, 0},
		{"two exchanged", `UPDATE revision SET number = 9 WHERE number = 2; UPDATE revision SET number = 2 WHERE number = 3; UPDATE revision SET number = 3 WHERE number = 9`, 2, 2},
		{"list of jobs names another digest", `UPDATE job SET digest = (SELECT previous FROM revision WHERE number = 5)`, 5, 0},
		{"all gone", `DELETE FROM body; DELETE FROM revision`, 1, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := open(t, made(t, 5))
			tamper(t, s, c.change)
			chain, err := s.Verify(t.Context(), "j")
			if err != nil || chain.Broken != c.breaks || chain.Reason == "" || chain.Whole() {
				t.Errorf("walk: %+v, %v; want broken at %d", chain, err, c.breaks)
			}
			if c.loads > 0 {
				_, err := s.LoadRevision(t.Context(), "j", c.loads)
				if a, ok := errors.AsType[*store.Altered](err); !ok || a.Number != c.loads || a.Error() == "" {
					t.Errorf("load of revision %d: %v; want altered", c.loads, err)
				}
				if _, err := s.LoadRevision(t.Context(), "j", 4); err != nil {
					t.Errorf("load of revision 4: %v", err)
				}
			}
			if r, err := s.Check(t.Context()); err != nil || len(r.Problems) == 0 {
				t.Errorf("check: %+v, %v; want a problem", r, err)
			}
		})
	}
}

// tamper runs statements behind the store's back, foreign keys off.
func tamper(t *testing.T, s *store.Store, statements string) {
	t.Helper()
	write, _ := s.Pools()
	for _, statement := range append([]string{`PRAGMA foreign_keys = 0`}, append(strings.Split(statements, ";"), `PRAGMA foreign_keys = 1`)...) {
		if _, err := write.Exec(statement); err != nil {
			t.Fatalf("%s: %v", statement, err)
		}
	}
}

// TestLimitResealed alters one revision and gives it a fitting digest: it loads,
// but the next one gives it away.
func TestLimitResealed(t *testing.T) {
	s := open(t, made(t, 5))
	r, err := s.LoadRevision(t.Context(), "j", 3)
	if err != nil {
		t.Fatal(err)
	}
	r.Author = "somebody else"
	write, _ := s.Pools()
	if _, err := write.Exec(`UPDATE revision SET author = $1, digest = $2 WHERE number = 3`, r.Author, r.Seal()); err != nil {
		t.Fatal(err)
	}
	if _, err := s.LoadRevision(t.Context(), "j", 3); err != nil {
		t.Errorf("load: %v", err)
	}
	if c, err := s.Verify(t.Context(), "j"); err != nil || c.Broken != 4 {
		t.Errorf("walk: %+v, %v; want broken at 4", c, err)
	}
}

// TestLimitSaveAfterAltered goes on with a job whose newest revision, or whose
// anchor, was altered: work must not stop, and the new revision must load.
func TestLimitSaveAfterAltered(t *testing.T) {
	for _, number := range []int{1, 5} {
		s := open(t, made(t, 5))
		tamper(t, s, fmt.Sprintf(`UPDATE revision SET note = 'signed' WHERE number = %d`, number))
		want := save(t, s, job.Save{Job: "j", Base: 5, Document: []byte(`{"text":"118 mm ± 2 mm"}`)})
		got, err := s.Load(t.Context(), "j")
		if err != nil || got.Digest != want.Digest {
			t.Errorf("revision %d altered: %+v, %v", number, got, err)
		}
	}
}

// TestLimitBareTables makes sure that the list does not read documents: with the
// documents' table gone it still answers.
func TestLimitBareTables(t *testing.T) {
	s := open(t, t.TempDir())
	fill(t, s, 2)
	tamper(t, s, `DROP TABLE body`)
	if list, err := s.List(t.Context(), job.ListQuery{Text: "j"}); err != nil || len(list.Rows) != 1 {
		t.Errorf("list: %+v, %v", list, err)
	}
	if lines, err := s.History(t.Context(), "j", job.HistoryPage{}); err != nil || len(lines) != 2 {
		t.Errorf("history: %+v, %v", lines, err)
	}
	if _, err := s.Load(t.Context(), "j"); err == nil || errors.Is(err, sql.ErrNoRows) {
		t.Errorf("load: %v", err)
	}
}
