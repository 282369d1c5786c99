package web

import (
	"bufio"
	"context"
	"net/http"
	"strings"
	"testing"
	"time"

	"jounce/internal/job"
)

// stream reads the events of a job, one line of data each.
func (s *shop) stream(ctx context.Context) <-chan string {
	s.t.Helper()
	r, err := http.NewRequestWithContext(ctx, "GET", s.srv.URL+"/jobs/0412/events", nil)
	if err != nil {
		s.t.Fatal(err)
	}
	r.Header.Set("Accept-Encoding", "gzip")
	a, err := s.c.Do(r)
	if err != nil {
		s.t.Fatal(err)
	}
	if a.StatusCode != http.StatusOK || a.Header.Get("Content-Type") != "text/event-stream" || a.Header.Get("Content-Encoding") != "" {
		s.t.Fatalf("status %d, %v", a.StatusCode, a.Header)
	}
	out := make(chan string)
	go func() {
		defer close(out)
		defer a.Body.Close()
		for l := bufio.NewScanner(a.Body); l.Scan(); {
			if data, ok := strings.CutPrefix(l.Text(), "data: "); ok {
				out <- data
			}
		}
	}()
	return out
}

func next(t *testing.T, c <-chan string) string {
	t.Helper()
	select {
	case data := <-c:
		return data
	case <-time.After(3 * time.Second):
		t.Fatal("no event in 3 s")
		return ""
	}
}

func TestASaveIsToldToThePagesOfItsJob(t *testing.T) {
	s := newShop(t)
	s.sign()
	c := s.stream(t.Context())
	if got := next(t, c); got != `{"revision":1,"author":"T. Marrow"}` {
		t.Errorf("the stream begins with %s", got)
	}
	if a := s.post("/jobs/0412/record/body", ":base", "1", "survey.rearOverhang", "900"); a.Status != http.StatusOK {
		t.Fatalf("status %d", a.Status)
	}
	if got := next(t, c); got != `{"revision":2,"author":"T. Marrow"}` {
		t.Errorf("told %s", got)
	}
	for _, path := range []string{"/jobs/9999/events", "/jobs/shop/events"} {
		if a := s.get(path); a.Status != http.StatusNotFound {
			t.Errorf("%s: status %d, expected 404", path, a.Status)
		}
	}
}

func TestOnlyTheNewestWaitsForASlowPage(t *testing.T) {
	var h hub
	told, end := h.listen("0412")
	for _, n := range []int{2, 5, 4} {
		h.tell(job.Revision{Job: "0412", Number: n, Author: "H. Orme"})
	}
	h.tell(job.Revision{Job: "0388", Number: 9})
	if n := <-told; n.Revision != 5 {
		t.Errorf("told %d, expected 5", n.Revision)
	}
	end()
	if h.tell(job.Revision{Job: "0412", Number: 6}); len(told) != 0 || len(h.open) != 0 {
		t.Error("a page that is gone is still told")
	}
}

func TestAModuleNamesOthersByTheirHashes(t *testing.T) {
	a := newAssets()
	body := string(a.served[a.names["events.mjs"]].body)
	if !strings.Contains(body, `from "./`+a.names["live.mjs"]+`"`) {
		t.Error("events.mjs does not import live.mjs by its hashed name")
	}
	n := 0
	for _, name := range []string{"live.mjs", "events.mjs", "outbox.mjs"} {
		n += len(a.served[a.names[name]].body)
	}
	if n > 9000 {
		t.Errorf("the scripts of two people are %d bytes, expected at most 9000", n)
	}
}
