package web

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"sync"
	"time"

	"jounce/internal/job"
)

// A page of a job keeps a stream open on which it is told that the job was
// saved: which revision, and by whom. What changed it fetches itself.

const (
	toWrite    = 10 * time.Second // what a write to a page may take before it is given up
	stillThere = 20 * time.Second // between two lines that find out whether the page is still there
)

// news is what a page is told.
type news struct {
	Revision int    `json:"revision"`
	Author   string `json:"author"`
}

// hub is the pages that listen, by job.
type hub struct {
	mu   sync.Mutex
	open map[string]map[chan news]bool
}

// listen opens a channel on which a job's saves are told; only the newest waits
// in it. end closes it.
func (h *hub) listen(id string) (told <-chan news, end func()) {
	c := make(chan news, 1)
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.open == nil {
		h.open = map[string]map[chan news]bool{}
	}
	if h.open[id] == nil {
		h.open[id] = map[chan news]bool{}
	}
	h.open[id][c] = true
	return c, func() {
		h.mu.Lock()
		defer h.mu.Unlock()
		if delete(h.open[id], c); len(h.open[id]) == 0 {
			delete(h.open, id)
		}
	}
}

// tell tells every page of a job of a revision. It waits for none of them.
func (h *hub) tell(rev job.Revision) {
	h.mu.Lock()
	defer h.mu.Unlock()
	for c := range h.open[rev.Job] {
		n := news{rev.Number, rev.Author}
		select {
		case old := <-c: // not fetched yet: only the newer is of use
			if old.Revision > n.Revision {
				n = old
			}
		default:
		}
		c <- n
	}
}

// telling are records that tell the open pages what was saved.
type telling struct {
	Records
	hub *hub
}

// Save saves and tells.
func (t telling) Save(ctx context.Context, save job.Save) (job.Revision, error) {
	rev, err := t.Records.Save(ctx, save)
	if err == nil {
		t.hub.tell(rev)
	}
	return rev, err
}

// events is the stream of a job. It begins with the newest revision, so that a
// page that was away learns what it missed, and ends when the page goes or the
// server stops.
func (s *server) events(w http.ResponseWriter, r *http.Request) error {
	id := r.PathValue("id")
	told, end := s.hub.listen(id)
	defer end()
	newest, err := s.Records.History(r.Context(), id, job.HistoryPage{Limit: 1})
	if err != nil {
		return err
	}
	if id == job.Shop || len(newest) == 0 {
		return errNoPage
	}
	w.Header().Set("Content-Type", "text/event-stream")
	w.Header().Set("Cache-Control", "no-store")
	out := http.NewResponseController(w)
	defer func() { _ = out.SetWriteDeadline(time.Time{}) }() // the connection may serve another page
	send := func(text string) bool {
		_ = out.SetWriteDeadline(time.Now().Add(toWrite)) // a writer without deadlines waits as long as it likes
		if _, err := fmt.Fprint(w, text); err != nil {
			return false
		}
		return out.Flush() == nil
	}
	tick := time.NewTicker(stillThere)
	defer tick.Stop()
	for ok := send("retry: 2000\n" + eventLine(news{newest[0].Number, newest[0].Author})); ok; {
		select {
		case n := <-told:
			ok = send(eventLine(n))
		case <-tick.C:
			ok = send(": still here\n\n")
		case <-r.Context().Done():
			return nil
		case <-s.Quit:
			return nil
		}
	}
	return nil
}

// eventLine is one event as it is sent.
func eventLine(n news) string {
	data, err := json.Marshal(n)
	if err != nil {
		panic("web: " + err.Error()) // a number and a text
	}
	return fmt.Sprintf("id: %d\ndata: %s\n\n", n.Revision, data)
}
