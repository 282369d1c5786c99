//go:build unix

package store_test

import (
	"bufio"
	"bytes"
	"context"
	"crypto/rand"
	"encoding/hex"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"jounce/internal/job"
	"jounce/internal/store"
)

func init() { child = saveUntil }

// saveUntil saves until it is killed or a save fails. It acknowledges each save on
// its standard output, after Save or Put returned.
func saveUntil(what, dir string) {
	ctx := context.Background()
	s, err := store.Open(ctx, dir, store.Options{})
	if err != nil {
		fmt.Println("failed", err)
		return
	}
	if what == "full" {
		signal.Ignore(syscall.SIGXFSZ)
		limit := uint64(1_200_000) // no file may grow past this [bytes]
		if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: limit, Max: limit}); err != nil {
			fmt.Println("failed", err)
			return
		}
	}
	writers := 3
	if what == "full" {
		writers = 1
	}
	done := make(chan struct{})
	for w := range writers {
		go func() {
			defer func() { done <- struct{}{} }()
			for base := 0; ; base++ {
				noise := make([]byte, 2000)
				rand.Read(noise)
				id := fmt.Sprint("w", w)
				r, err := s.Save(ctx, job.Save{Job: id, Base: base, Author: "child", Document: fmt.Appendf(nil, `{"noise":"%x"}`, noise)})
				if err != nil {
					fmt.Println("failed", strings.ReplaceAll(err.Error(), "\n", " "))
					return
				}
				fmt.Println("saved", id, r.Number, r.Digest)
				a, err := s.Put(ctx, id, "noise", "application/octet-stream", bytes.NewReader(noise), 1<<20)
				if err != nil {
					fmt.Println("failed", strings.ReplaceAll(err.Error(), "\n", " "))
					return
				}
				fmt.Println("put", id, a.SHA256)
			}
		}()
	}
	<-done
}

// start starts a child process and hands its lines to each until it ends.
func start(t *testing.T, what, dir string, each func(p *os.Process, line string)) {
	t.Helper()
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), crashEnv+"="+what+" "+dir)
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	c.Stderr = os.Stderr
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	overdue := time.AfterFunc(30*time.Second, func() { c.Process.Kill() })
	defer overdue.Stop()
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		each(c.Process, lines.Text())
	}
	c.Wait()
}

// acknowledged is what a child was told had been kept.
type acknowledged struct {
	saves map[string]map[int]string // job, revision: digest
	puts  map[string][]string       // job: SHA-256
}

// note reads one line of a child; it returns the error of a line that says so.
func (a *acknowledged) note(line string) string {
	f := strings.Fields(line)
	switch {
	case len(f) == 4 && f[0] == "saved" && len(f[3]) == hex.EncodedLen(32):
		if a.saves[f[1]] == nil {
			a.saves[f[1]] = map[int]string{}
		}
		var n int
		fmt.Sscan(f[2], &n)
		a.saves[f[1]][n] = f[3]
	case len(f) == 3 && f[0] == "put" && len(f[2]) == hex.EncodedLen(32):
		a.puts[f[1]] = append(a.puts[f[1]], f[2])
	case len(f) > 0 && f[0] == "failed":
		return line
	}
	return ""
}

// hold opens the store and wants everything acknowledged, whole chains, and at
// most one revision a job more: the one whose acknowledgement was cut off.
func (a *acknowledged) hold(t *testing.T, dir string) {
	t.Helper()
	s, err := store.Open(t.Context(), dir, store.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	for id, saves := range a.saves {
		for n, digest := range saves {
			if r, err := s.LoadRevision(t.Context(), id, n); err != nil || r.Digest != digest {
				t.Errorf("job %s, revision %d was acknowledged, now: %v", id, n, err)
			}
		}
		c, err := s.Verify(t.Context(), id)
		if err != nil || !c.Whole() || c.Revisions > len(saves)+1 {
			t.Errorf("job %s: %+v, %v; %d saves were acknowledged", id, c, err, len(saves))
		}
		for _, sum := range a.puts[id] {
			if _, f, err := s.Get(t.Context(), id, sum); err != nil {
				t.Errorf("job %s: %v", id, err)
			} else {
				f.Close()
			}
		}
	}
	if r, err := s.Check(t.Context()); err != nil || len(r.Problems) > 0 {
		t.Errorf("check: %+v, %v", r, err)
	}
}

func newAcknowledged() acknowledged {
	return acknowledged{saves: map[string]map[int]string{}, puts: map[string][]string{}}
}

// TestConservesAcknowledged kills a program that saves and puts attachments from
// three sides: everything it acknowledged must be there.
func TestConservesAcknowledged(t *testing.T) {
	for _, lines := range []int{1, 20, 61} {
		dir, a, n := t.TempDir(), newAcknowledged(), 0
		start(t, "crash", dir, func(p *os.Process, line string) {
			if failed := a.note(line); failed != "" {
				t.Error(failed)
			}
			if n++; n == lines {
				p.Signal(syscall.SIGKILL)
			}
		})
		if n < lines {
			t.Fatalf("the child ended after %d lines", n)
		}
		a.hold(t, dir)
	}
}

// TestConservesFailedWrite lets a program save until the system refuses to let a
// file grow: that save must fail with a sentence, and all before must be there.
func TestConservesFailedWrite(t *testing.T) {
	dir, a, failed := t.TempDir(), newAcknowledged(), ""
	start(t, "full", dir, func(_ *os.Process, line string) {
		if f := a.note(line); f != "" {
			failed = f
		}
	})
	if !strings.Contains(failed, "not done: the disk") || len(a.saves["w0"]) < 10 {
		t.Errorf("after %d saves: %q", len(a.saves["w0"]), failed)
	}
	a.hold(t, dir)
}

// TestConservesFull fills a database to its limit of pages: the save that does not
// fit fails, says that the disk is full, and leaves the job as it was; with room
// again the same save is kept.
func TestConservesFull(t *testing.T) {
	s := open(t, t.TempDir())
	write, _ := s.Pools()
	if _, err := write.Exec(`PRAGMA max_page_count = 60`); err != nil {
		t.Fatal(err)
	}
	noise := make([]byte, 8000)
	var last job.Revision
	for base := 0; ; base++ {
		rand.Read(noise)
		next := job.Save{Job: "j", Base: base, Author: "x", Document: fmt.Appendf(nil, `{"noise":"%x"}`, noise), Text: []job.Passage{{Place: "p", Text: fmt.Sprint("word", base+1)}}}
		r, err := s.Save(t.Context(), next)
		if err == nil && base < 100 {
			last = r
			continue
		}
		if err == nil || !strings.Contains(err.Error(), "the disk is full") {
			t.Fatalf("save %d: %v", base+1, err)
		}
		if got, err := s.Load(t.Context(), "j"); err != nil || got.Digest != last.Digest {
			t.Errorf("after the failed save: revision %d, %v", got.Number, err)
		}
		if list, err := s.List(t.Context(), job.ListQuery{Text: fmt.Sprint("word", base)}); err != nil || len(list.Rows) != 1 || list.Rows[0].Revision != base {
			t.Errorf("list after the failed save: %+v, %v", list, err)
		}
		if _, err := write.Exec(`PRAGMA max_page_count = 6000`); err != nil {
			t.Fatal(err)
		}
		if r, err := s.Save(t.Context(), next); err != nil || r.Number != base+1 {
			t.Errorf("with room again: %+v, %v", r.Number, err)
		}
		return
	}
}

// TestConservesAttachmentFolderGone takes the folder for new files away: Put must
// fail, and no row may name what is not there.
func TestConservesAttachmentFolderGone(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	save(t, s, job.Save{Job: "j"})
	if err := os.RemoveAll(filepath.Join(dir, "attachments", "part")); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Put(t.Context(), "j", "n", "text/plain", strings.NewReader("x"), 1); err == nil {
		t.Error("kept")
	}
	if all, err := s.ListAttachments(t.Context(), "j"); err != nil || len(all) > 0 {
		t.Errorf("%v, %v", all, err)
	}
}
