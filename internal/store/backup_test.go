package store_test

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"jounce/internal/job"
	"jounce/internal/store"
)

// TestExactBackup makes a backup while others save, restores it and holds it
// against the store it came from.
func TestExactBackup(t *testing.T) {
	dir := made(t, 40)
	s := open(t, dir)
	photo := bytes.Repeat([]byte("photo "), 50000)
	a, err := s.Put(t.Context(), "j", "left.jpg", "image/jpeg", bytes.NewReader(photo), 1<<20)
	if err != nil {
		t.Fatal(err)
	}
	save(t, s, job.Save{Job: "k"})
	if _, err := s.Put(t.Context(), "k", "same.jpg", "image/jpeg", bytes.NewReader(photo), 1<<20); err != nil {
		t.Fatal(err)
	}
	stop, busy := make(chan struct{}), sync.WaitGroup{}
	saved := make(chan struct{}, 1)
	busy.Go(func() {
		for base := 0; ; base++ {
			select {
			case <-stop:
				return
			default:
				save(t, s, job.Save{Job: "busy", Base: base, Document: fmt.Appendf(nil, `{"n":%d}`, base)})
				if base == 3 {
					saved <- struct{}{}
				}
			}
		}
	})
	<-saved
	file := filepath.Join(t.TempDir(), "b.zip")
	err = s.Backup(t.Context(), file)
	close(stop)
	busy.Wait()
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Backup(t.Context(), file); err == nil {
		t.Error("a backup was made over another")
	}
	left, _ := filepath.Glob(filepath.Join(dir, "attachments", "part", "*"))
	if rest, _ := filepath.Glob(file + "?*"); len(left)+len(rest) > 0 {
		t.Errorf("left behind: %v %v", left, rest)
	}

	to := filepath.Join(t.TempDir(), "new", "store")
	if err := store.Restore(t.Context(), file, to); err != nil {
		t.Fatal(err)
	}
	if err := store.Restore(t.Context(), file, to); err == nil {
		t.Error("restored over a store")
	}
	r := open(t, to)
	report, err := r.Check(t.Context())
	if err != nil || len(report.Problems) > 0 || report.Jobs != 3 || report.Attachments != 2 || report.Revisions < 45 {
		t.Errorf("check: %+v, %v", report, err)
	}
	for n := 1; n <= 40; n++ {
		want, err := s.LoadRevision(t.Context(), "j", n)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := r.LoadRevision(t.Context(), "j", n); err != nil || got.Digest != want.Digest {
			t.Errorf("revision %d: %v", n, err)
		}
	}
	got, f, err := r.Get(t.Context(), "j", a.SHA256)
	if err != nil || got != a {
		t.Fatalf("%+v, %v", got, err)
	}
	defer f.Close()
	if content, err := io.ReadAll(f); err != nil || !bytes.Equal(content, photo) {
		t.Errorf("%d bytes, %v", len(content), err)
	}
	save(t, r, job.Save{Job: "j", Base: 40})
}

// rewrite copies a zip, changing what change says: new content, or nil to leave an entry out.
func rewrite(t *testing.T, from, to string, change func(name string, content []byte) []byte, more ...string) {
	t.Helper()
	in, err := zip.OpenReader(from)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	var b bytes.Buffer
	out := zip.NewWriter(&b)
	add := func(name string, content []byte) {
		w, err := out.Create(name)
		if err == nil {
			_, err = w.Write(content)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	for _, e := range in.File {
		r, err := e.Open()
		if err != nil {
			t.Fatal(err)
		}
		content, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		if content = change(e.Name, content); content != nil {
			add(e.Name, content)
		}
	}
	for _, name := range more {
		add(name, []byte("x"))
	}
	if err := out.Close(); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(to, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
}

// TestLimitRestore restores backups that are not as they were made: each must be
// refused with a sentence, and the folder must not open as a store with content.
func TestLimitRestore(t *testing.T) {
	s := open(t, t.TempDir())
	fill(t, s, 3)
	if _, err := s.Put(t.Context(), "j", "n", "text/plain", strings.NewReader("hello"), 9); err != nil {
		t.Fatal(err)
	}
	good := filepath.Join(t.TempDir(), "good.zip")
	if err := s.Backup(t.Context(), good); err != nil {
		t.Fatal(err)
	}
	keep := func(_ string, content []byte) []byte { return content }
	edit := func(which string, how func([]byte) []byte) func(string, []byte) []byte {
		return func(name string, content []byte) []byte {
			if strings.HasPrefix(name, which) {
				return how(content)
			}
			return content
		}
	}
	drop := func([]byte) []byte { return nil }
	flip := func(c []byte) []byte { c[len(c)/2] ^= 1; return c }
	for name, make := range map[string]func(to string){
		"no such file":       func(to string) {},
		"not a zip":          func(to string) { os.WriteFile(to, []byte("hello"), 0o600) },
		"database altered":   func(to string) { rewrite(t, good, to, edit("jounce.db", flip)) },
		"database gone":      func(to string) { rewrite(t, good, to, edit("jounce.db", drop)) },
		"attachment altered": func(to string) { rewrite(t, good, to, edit("attachments/", flip)) },
		"attachment gone":    func(to string) { rewrite(t, good, to, edit("attachments/", drop)) },
		"manifest gone":      func(to string) { rewrite(t, good, to, edit("backup.json", drop)) },
		"manifest of another format": func(to string) {
			rewrite(t, good, to, edit("backup.json", func(c []byte) []byte { return bytes.Replace(c, []byte(`"format": 1`), []byte(`"format": 2`), 1) }))
		},
		"one file more":         func(to string) { rewrite(t, good, to, keep, "attachments/../../evil") },
		"one file twice":        func(to string) { rewrite(t, good, to, keep, "jounce.db") },
		"manifest names a path": func(to string) { rewrite(t, good, to, edit("backup.json", pathIn), "attachments/../../evil") },
		"cut off": func(to string) {
			c, _ := os.ReadFile(good)
			os.WriteFile(to, c[:len(c)/2], 0o600)
		},
	} {
		t.Run(name, func(t *testing.T) {
			above := t.TempDir()
			file, to := filepath.Join(above, "b.zip"), filepath.Join(above, "in", "store")
			make(file)
			err := store.Restore(t.Context(), file, to)
			if d, ok := errors.AsType[*store.Damaged](err); !ok || d.File != file {
				t.Errorf("got %T: %v", err, err)
			}
			if _, err := os.Stat(filepath.Join(to, "jounce.db")); err == nil {
				t.Error("the folder has a database")
			}
			if found, _ := filepath.Glob(filepath.Join(above, "*", "evil")); len(found) > 0 {
				t.Errorf("written outside: %v", found)
			}
		})
	}
	rewrite(t, good, good+"2", keep)
	if err := store.Restore(t.Context(), good+"2", filepath.Join(t.TempDir(), "s")); err != nil {
		t.Errorf("a backup that was only packed anew: %v", err)
	}
}

// pathIn puts a path among the attachments of a manifest.
func pathIn(c []byte) []byte {
	return bytes.Replace(c, []byte(`"attachments": [`), []byte(`"attachments": ["../../evil",`), 1)
}

// TestLimitBackupIncomplete takes an attachment away: the backup is made and says so.
func TestLimitBackupIncomplete(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	fill(t, s, 1)
	var sums []string
	for _, content := range []string{"one", "two", "three"} {
		a, err := s.Put(t.Context(), "j", content, "text/plain", strings.NewReader(content), 9)
		if err != nil {
			t.Fatal(err)
		}
		sums = append(sums, a.SHA256)
	}
	path := func(sum string) string { return filepath.Join(dir, "attachments", sum[:2], sum) }
	if err := os.Remove(path(sums[0])); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path(sums[1]), []byte("owt"), 0o600); err != nil {
		t.Fatal(err)
	}
	for i, sum := range sums {
		_, f, err := s.Get(t.Context(), "j", sum)
		if i == 2 {
			if err != nil {
				t.Error(err)
			} else {
				f.Close()
			}
			continue
		}
		if _, ok := errors.AsType[*store.Damaged](err); !ok {
			t.Errorf("get %d: %v; want damaged", i, err)
		}
	}
	if r, err := s.Check(t.Context()); err != nil || len(r.Problems) != 2 {
		t.Errorf("check: %+v, %v; want two problems", r, err)
	}
	file := filepath.Join(t.TempDir(), "b.zip")
	err := s.Backup(t.Context(), file)
	if i, ok := errors.AsType[*store.Incomplete](err); !ok || len(i.Missing) != 2 || !strings.Contains(err.Error(), "without 2") {
		t.Fatalf("%v", err)
	}
	to := filepath.Join(t.TempDir(), "s")
	if err := store.Restore(t.Context(), file, to); err != nil {
		t.Fatal(err)
	}
	if r, err := open(t, to).Check(t.Context()); err != nil || len(r.Problems) != 2 || r.Attachments != 3 {
		t.Errorf("check of the restored: %+v, %v", r, err)
	}
	// Putting the same content again heals the store.
	if _, err := s.Put(t.Context(), "j", "two", "text/plain", strings.NewReader("two"), 9); err != nil {
		t.Error(err)
	}
	if r, err := s.Check(t.Context()); err != nil || len(r.Problems) != 1 {
		t.Errorf("check: %+v, %v; want one problem", r, err)
	}
}
