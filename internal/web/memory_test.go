package web

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"

	"jounce/internal/job"
)

// memory keeps records in memory, for tests of pages.
type memory struct {
	mu   sync.Mutex
	revs map[string][]job.Revision
	rows map[string]job.Row
	text map[string][]job.Passage
	next int
	now  func() time.Time
}

func newMemory(now func() time.Time) *memory {
	return &memory{revs: map[string][]job.Revision{}, rows: map[string]job.Row{}, text: map[string][]job.Passage{}, now: now, next: 400}
}

func (m *memory) Load(ctx context.Context, id string) (job.Revision, error) {
	return m.LoadRevision(ctx, id, 0)
}

func (m *memory) LoadRevision(_ context.Context, id string, n int) (job.Revision, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	list := m.revs[id]
	if n == 0 {
		n = len(list)
	}
	if n < 1 || n > len(list) {
		return job.Revision{}, fmt.Errorf("job %s, revision %d: %w", id, n, job.ErrNotFound)
	}
	return list[n-1], nil
}

func (m *memory) Save(_ context.Context, s job.Save) (job.Revision, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	list := m.revs[s.Job]
	if s.Author == "" {
		return job.Revision{}, &job.Unfit{Field: "author", Want: "a name"}
	}
	if s.Base != len(list) {
		return job.Revision{}, &job.Conflict{Base: s.Base, Current: list[len(list)-1]}
	}
	r := job.Revision{Job: s.Job, Number: len(list) + 1, Document: s.Document, Author: s.Author, At: m.now().UTC(), Note: s.Note}
	if len(list) > 0 {
		r.Previous = list[len(list)-1].Digest
	}
	r.Digest = r.Seal()
	m.revs[s.Job] = append(list, r)
	m.rows[s.Job] = job.Row{Job: s.Job, Name: s.Name, State: s.State, Due: s.Due, Revision: r.Number, Author: r.Author, At: r.At, Summary: s.Summary}
	m.text[s.Job] = s.Text
	return r, nil
}

func (m *memory) meets(id, text string) (found []job.Found, ok bool) {
	for _, w := range strings.Fields(strings.ToLower(text)) {
		hit := false
		for _, p := range m.text[id] {
			if i := strings.Index(strings.ToLower(p.Text), w); i >= 0 && !hit {
				found = append(found, job.Found{Place: p.Place, Before: p.Text[:i], Match: p.Text[i : i+len(w)], After: p.Text[i+len(w):]})
				hit = true
			}
		}
		if !hit {
			return nil, false
		}
	}
	return found, true
}

func (m *memory) List(_ context.Context, q job.ListQuery) (job.Listing, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	var l job.Listing
	for id, r := range m.rows {
		found, ok := m.meets(id, q.Text)
		if !ok || q.State != "" && r.State != q.State {
			continue
		}
		r.Found = found
		l.Rows = append(l.Rows, r)
	}
	slices.SortFunc(l.Rows, func(a, b job.Row) int { return strings.Compare(b.Job, a.Job) })
	if q.After != "" {
		for len(l.Rows) > 0 && l.Rows[0].Job >= q.After {
			l.Rows = l.Rows[1:]
		}
	}
	if q.Limit > 0 && len(l.Rows) > q.Limit {
		l.Rows = l.Rows[:q.Limit]
		l.Next = l.Rows[q.Limit-1].Job
	}
	return l, nil
}

func (m *memory) Counts(_ context.Context, text string) (job.Counts, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	c := job.Counts{All: len(m.rows), ByState: map[string]int{}}
	for id, r := range m.rows {
		if _, ok := m.meets(id, text); ok {
			c.Found++
			c.ByState[r.State]++
		}
	}
	return c, nil
}

func (m *memory) History(_ context.Context, id string, p job.HistoryPage) ([]job.HistoryLine, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	var out []job.HistoryLine
	for _, r := range m.revs[id] {
		if p.Before == 0 || r.Number < p.Before {
			out = append(out, job.HistoryLine{Number: r.Number, Author: r.Author, At: r.At, Note: r.Note, Digest: r.Digest})
		}
	}
	slices.Reverse(out)
	if p.Limit > 0 && len(out) > p.Limit {
		out = out[:p.Limit]
	}
	return out, nil
}

func (m *memory) NextJobNumber(context.Context) (string, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.next++
	return fmt.Sprintf("%04d", m.next), nil
}
