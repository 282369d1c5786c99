package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"

	"jounce/internal/job"
)

// Altered is the error of a revision that is not as it was saved.
type Altered struct {
	File   string // the database
	Job    string
	Number int
	Reason string
}

// Error names the revision and says what to do.
func (a *Altered) Error() string {
	return fmt.Sprintf("job %s, revision %d: not as it was saved: %s. Look at the other revisions and at the last backup of %s", a.Job, a.Number, a.Reason, a.File)
}

// head reads what the store says about a job's newest revision.
func (s *Store) head(ctx context.Context, id string) (head, error) {
	var h head
	err := s.read.QueryRowContext(ctx, `SELECT revision, anchor, digest FROM job WHERE id = $1`, id).Scan(&h.number, &h.anchor, &h.digest)
	if errors.Is(err, sql.ErrNoRows) {
		return h, fmt.Errorf("job %s: %w", short(id), job.ErrNotFound)
	}
	return h, s.fail("job "+short(id), err)
}

// Load returns a job's newest revision. Errors wrap job.ErrNotFound, or are
// *Altered when what stands there is not what was saved.
func (s *Store) Load(ctx context.Context, id string) (job.Revision, error) {
	ctx, cancel := s.within(ctx)
	defer cancel()
	h, err := s.head(ctx, id)
	if err != nil {
		return job.Revision{}, err
	}
	r, err := s.LoadRevision(ctx, id, h.number)
	if errors.Is(err, job.ErrNotFound) {
		return job.Revision{}, s.altered(id, h.number, "it is gone")
	}
	if err == nil && r.Digest != h.digest {
		return job.Revision{}, s.altered(id, h.number, "its digest is not the one the list of jobs has")
	}
	return r, err
}

// LoadRevision returns one revision of a job; errors as for Load.
func (s *Store) LoadRevision(ctx context.Context, id string, number int) (job.Revision, error) {
	ctx, cancel := s.within(ctx)
	defer cancel()
	doing := fmt.Sprintf("job %s, revision %d", short(id), number)
	p, err := s.packed(ctx, id, number)
	if errors.Is(err, sql.ErrNoRows) {
		return job.Revision{}, fmt.Errorf("%s: %w", doing, job.ErrNotFound)
	}
	if err != nil {
		return job.Revision{}, s.fail(doing, err)
	}
	var dict []byte
	if p.anchor != number {
		a, err := s.packed(ctx, id, p.anchor)
		if errors.Is(err, sql.ErrNoRows) {
			return job.Revision{}, s.altered(id, number, fmt.Sprintf("revision %d, which it is packed against, is gone", p.anchor))
		}
		if err != nil {
			return job.Revision{}, s.fail(doing, err)
		}
		if dict, err = unpackOne(a, nil); err != nil {
			return job.Revision{}, s.altered(id, number, fmt.Sprintf("revision %d, which it is packed against, does not unpack: %v", p.anchor, err))
		}
	}
	if p.Document, err = unpackOne(p, dict); err != nil {
		return job.Revision{}, s.altered(id, number, fmt.Sprintf("its document does not unpack: %v", err))
	}
	if p.Seal() != p.Digest {
		return job.Revision{}, s.altered(id, number, "its digest does not match what it says")
	}
	return p.Revision, nil
}

// packed is a revision with its document as it lies in the database.
type packed struct {
	job.Revision
	anchor  int
	size    int
	content []byte
}

// selectPacked begins the queries whose rows scanPacked reads.
const selectPacked = `SELECT r.job, r.number, r.author, r.at, r.note, r.previous, r.digest, b.anchor, b.size, b.content
	FROM revision r JOIN body b ON b.job = r.job AND b.number = r.number `

// scanPacked reads one row of selectPacked.
func scanPacked(scan func(...any) error) (packed, error) {
	var p packed
	var at int64
	err := scan(&p.Job, &p.Number, &p.Author, &at, &p.Note, &p.Previous, &p.Digest, &p.anchor, &p.size, &p.content)
	p.At = time.UnixMicro(at).UTC()
	return p, err
}

// packed reads one revision.
func (s *Store) packed(ctx context.Context, id string, number int) (packed, error) {
	row := s.read.QueryRowContext(ctx, selectPacked+`WHERE r.job = $1 AND r.number = $2`, id, number)
	return scanPacked(row.Scan)
}

// unpackOne unpacks a revision's document; dict is its anchor's document, nil
// when it was packed alone.
func unpackOne(p packed, dict []byte) ([]byte, error) {
	u, err := newUnpacker(dict, p.anchor)
	if err != nil {
		return nil, err
	}
	defer u.close()
	return u.unpack(p.content, p.size)
}

// altered makes the error of a revision that does not hold.
func (s *Store) altered(id string, number int, reason string) error {
	return &Altered{File: s.file, Job: id, Number: number, Reason: reason}
}

// pageLimit is the number of rows of a page: 50 when nothing was asked, 500 at most.
func pageLimit(asked int) int {
	if asked <= 0 {
		return 50
	}
	return min(asked, 500)
}

// History lists a job's revisions without their documents, newest first. An
// error wraps job.ErrNotFound when there is no such job.
func (s *Store) History(ctx context.Context, id string, page job.HistoryPage) ([]job.HistoryLine, error) {
	ctx, cancel := s.within(ctx)
	defer cancel()
	h, err := s.head(ctx, id)
	if err != nil {
		return nil, err
	}
	before := page.Before
	if before <= 0 {
		before = h.number + 1
	}
	doing := fmt.Sprintf("job %s, history", id)
	rows, err := s.read.QueryContext(ctx, `SELECT number, author, at, note, digest FROM revision WHERE job = $1 AND number < $2 ORDER BY number DESC LIMIT $3`,
		id, before, pageLimit(page.Limit))
	if err != nil {
		return nil, s.fail(doing, err)
	}
	defer rows.Close()
	var lines []job.HistoryLine
	for rows.Next() {
		var l job.HistoryLine
		var at int64
		if err := rows.Scan(&l.Number, &l.Author, &at, &l.Note, &l.Digest); err != nil {
			return nil, s.fail(doing, err)
		}
		l.At = time.UnixMicro(at).UTC()
		lines = append(lines, l)
	}
	return lines, s.fail(doing, rows.Err())
}

// Verify walks a job's revisions from the first to the newest and holds each
// against its digest and the one before. A chain that does not hold is no error:
// the Chain says where it breaks.
func (s *Store) Verify(ctx context.Context, id string) (job.Chain, error) {
	h, err := s.head(ctx, id)
	if err != nil {
		return job.Chain{}, err
	}
	c := job.Chain{Job: id, Revisions: h.number, Digest: h.digest}
	rows, err := s.read.QueryContext(ctx, selectPacked+`WHERE r.job = $1 AND r.number <= $2 ORDER BY r.number`, id, h.number)
	if err != nil {
		return c, s.fail("job "+id, err)
	}
	defer rows.Close()
	w := walk{}
	defer func() { w.unpacker.close() }()
	for rows.Next() && c.Whole() {
		p, err := scanPacked(rows.Scan)
		if err != nil {
			return c, s.fail("job "+id, err)
		}
		c.Broken, c.Reason = w.step(p)
	}
	if err := rows.Err(); err != nil {
		return c, s.fail("job "+id, err)
	}
	switch {
	case !c.Whole():
	case w.number != h.number:
		c.Broken, c.Reason = w.number+1, "the revision is gone"
	case w.digest != h.digest:
		c.Broken, c.Reason = w.number, "its digest is not the one the list of jobs has"
	}
	return c, nil
}

// walk is how far a chain was found to hold.
type walk struct {
	number   int
	digest   string
	anchor   int // what unpacker is for
	unpacker *unpacker
}

// step holds the next revision against the walk so far. It returns the number of
// the revision that does not hold, and why; 0 when it holds.
func (w *walk) step(p packed) (int, string) {
	if p.Number != w.number+1 {
		return w.number + 1, "the revision is gone"
	}
	if p.Previous != w.digest {
		return p.Number, fmt.Sprintf("it names another digest for revision %d than that one has", w.number)
	}
	var err error
	if p.anchor == p.Number {
		if p.Document, err = unpackOne(p, nil); err != nil {
			return p.Number, fmt.Sprintf("its document does not unpack: %v", err)
		}
		w.unpacker.close()
		w.anchor = p.Number
		if w.unpacker, err = newUnpacker(p.Document, p.Number); err != nil {
			return p.Number, err.Error()
		}
	} else {
		if p.anchor != w.anchor {
			return p.Number, fmt.Sprintf("it is packed against revision %d, which is not the last anchor", p.anchor)
		}
		if p.Document, err = w.unpacker.unpack(p.content, p.size); err != nil {
			return p.Number, fmt.Sprintf("its document does not unpack: %v", err)
		}
	}
	if p.Seal() != p.Digest {
		return p.Number, "its digest does not match what it says"
	}
	w.number, w.digest = p.Number, p.Digest
	return 0, ""
}
