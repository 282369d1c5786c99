package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"jounce/internal/job"
)

// Limits of what a save may carry.
const (
	maxID      = 64      // [bytes]
	maxLine    = 200     // author, name, state, names of attachments [bytes]
	maxNote    = 4000    // [bytes]
	maxSummary = 1 << 16 // [bytes]
)

// noDue stands in the database for "nothing promised", so that it sorts last.
const noDue = "9999-12-31"

// head is what the job table knows about the newest revision.
type head struct {
	number int
	anchor int
	digest string
}

// Save keeps a document as the next revision of a job and returns it once it is
// on the disk.
//
// Errors: *job.Unfit for a value that is not kept; *job.Conflict when Base is not
// the newest revision (or, with Base 0, when the job is there already); an error
// that wraps job.ErrNotFound when Base is not 0 and there is no such job; anything
// else when it could not be made durable. After any error nothing was saved.
func (s *Store) Save(ctx context.Context, save job.Save) (job.Revision, error) {
	ctx, cancel := s.within(ctx)
	defer cancel()
	doc, err := fit(save)
	if err != nil {
		return job.Revision{}, err
	}
	doing := "job " + save.Job
	h, err := s.head(ctx, save.Job)
	switch {
	case errors.Is(err, job.ErrNotFound) && save.Base == 0:
	case err != nil:
		return job.Revision{}, err
	case h.number != save.Base:
		return job.Revision{}, s.conflict(ctx, save)
	}
	r := job.Revision{
		Job: save.Job, Number: save.Base + 1, Document: doc, Author: save.Author,
		At: s.now().UTC().Truncate(time.Microsecond), Note: save.Note, Previous: h.digest,
	}
	r.Digest = r.Seal()
	content, anchor, err := s.packNext(ctx, h, r)
	if err != nil {
		return job.Revision{}, err
	}
	won, err := s.insert(ctx, save, r, content, anchor)
	if err != nil {
		return job.Revision{}, s.fail(doing, err)
	}
	if !won {
		return job.Revision{}, s.conflict(ctx, save)
	}
	return r, nil
}

// packNext packs the revision that follows h: against the anchor, or as the next
// anchor when the old one has served 32 revisions or is not half as long.
func (s *Store) packNext(ctx context.Context, h head, r job.Revision) (content []byte, anchor int, err error) {
	var dict []byte
	anchor = r.Number
	if h.number > 0 && r.Number-h.anchor < anchorEvery {
		base, err := s.LoadRevision(ctx, r.Job, h.anchor)
		if altered, ok := errors.AsType[*Altered](err); ok && altered.Job == r.Job {
			base.Document = nil // do not build on it
		} else if err != nil {
			return nil, 0, err
		}
		if 2*len(base.Document) > len(r.Document) {
			dict, anchor = base.Document, h.anchor
		}
	}
	content, err = pack(r.Document, dict, anchor)
	if err != nil {
		return nil, 0, fmt.Errorf("job %s: packing: %w", r.Job, err)
	}
	return content, anchor, nil
}

// conflict is the error of a save that lost.
func (s *Store) conflict(ctx context.Context, save job.Save) error {
	current, err := s.Load(ctx, save.Job)
	if err != nil {
		return err
	}
	return &job.Conflict{Base: save.Base, Current: current}
}

// insert writes a revision in one transaction. It reports false when another
// save came first.
func (s *Store) insert(ctx context.Context, save job.Save, r job.Revision, content []byte, anchor int) (bool, error) {
	tx, err := s.write.BeginTx(ctx, nil)
	if err != nil {
		return false, err
	}
	defer tx.Rollback()
	won, err := writeHead(ctx, tx, save, r, anchor)
	if err != nil || !won {
		return false, err
	}
	_, err = tx.ExecContext(ctx, `INSERT INTO revision (job, number, author, at, note, previous, digest) VALUES ($1, $2, $3, $4, $5, $6, $7)`,
		r.Job, r.Number, r.Author, r.At.UnixMicro(), r.Note, r.Previous, r.Digest)
	if err != nil {
		return false, err
	}
	_, err = tx.ExecContext(ctx, `INSERT INTO body (job, number, anchor, size, content) VALUES ($1, $2, $3, $4, $5)`,
		r.Job, r.Number, anchor, len(r.Document), content)
	if err != nil {
		return false, err
	}
	if err := writeWords(ctx, tx, save); err != nil {
		return false, err
	}
	return true, tx.Commit()
}

// writeHead makes the job's row, or moves it on from the base revision. It
// reports false when the row was not as the save expects it.
func writeHead(ctx context.Context, tx *sql.Tx, save job.Save, r job.Revision, anchor int) (bool, error) {
	query := `INSERT INTO job (id, listed, revision, anchor, digest, author, at, name, state, due, summary, job_key, name_key)
		VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13) ON CONFLICT DO NOTHING`
	listed := 1
	if save.Job == job.Shop {
		listed = 0
	}
	due := save.Due
	if due == "" {
		due = noDue
	}
	args := []any{save.Job, listed, r.Number, anchor, r.Digest, r.Author, r.At.UnixMicro(),
		save.Name, save.State, due, string(save.Summary), numberKey(save.Job), fold(save.Name)}
	if save.Base > 0 {
		query = `UPDATE job SET listed = $2, revision = $3, anchor = $4, digest = $5, author = $6, at = $7, name = $8, state = $9,
			due = $10, summary = $11, job_key = $12, name_key = $13 WHERE id = $1 AND revision = $14`
		args = append(args, save.Base)
	}
	done, err := tx.ExecContext(ctx, query, args...)
	if err != nil {
		return false, err
	}
	if n, err := done.RowsAffected(); err != nil || n == 0 {
		return false, err
	}
	if n, ok := jobNumber(save.Job); ok && save.Base == 0 {
		_, err = tx.ExecContext(ctx, `UPDATE counter SET value = $1 WHERE name = 'job' AND value < $1`, n)
	}
	return true, err
}

// writeWords replaces what a search looks through, where the save changed it.
func writeWords(ctx context.Context, tx *sql.Tx, save job.Save) error {
	all := passages(save)
	text, err := keepPassages(all)
	if err != nil {
		return err
	}
	_, err = tx.ExecContext(ctx, `INSERT INTO word (job, folded) VALUES ($1, $2) ON CONFLICT (job) DO UPDATE SET folded = excluded.folded WHERE word.folded <> excluded.folded`,
		save.Job, searched(all))
	if err != nil {
		return err
	}
	_, err = tx.ExecContext(ctx, `INSERT INTO passage (job, content) VALUES ($1, $2) ON CONFLICT (job) DO UPDATE SET content = excluded.content WHERE passage.content <> excluded.content`,
		save.Job, text)
	return err
}

// fit checks a save and returns its document in canonical form.
func fit(save job.Save) ([]byte, error) {
	if err := fitID(save.Job); err != nil {
		return nil, err
	}
	if save.Base < 0 {
		return nil, &job.Unfit{Field: "base", Read: strconv.Itoa(save.Base), Want: "a revision number, or 0 for a new job"}
	}
	if strings.TrimSpace(save.Author) == "" {
		return nil, &job.Unfit{Field: "author", Want: "a name is needed to sign the save"}
	}
	for _, f := range []struct {
		name, value string
		most        int
	}{
		{"author", save.Author, maxLine}, {"note", save.Note, maxNote}, {"name", save.Name, maxLine}, {"state", save.State, maxLine},
	} {
		if err := fitText(f.name, f.value, f.most); err != nil {
			return nil, err
		}
	}
	if _, err := time.Parse(time.DateOnly, save.Due); save.Due != "" && err != nil {
		return nil, &job.Unfit{Field: "promised date", Read: short(save.Due), Want: "year-month-day, such as 2026-03-20"}
	}
	if len(save.Summary) > maxSummary || len(save.Summary) > 0 && !json.Valid(save.Summary) {
		return nil, &job.Unfit{Field: "summary", Read: short(string(save.Summary)), Want: fmt.Sprintf("JSON of %d bytes at most", maxSummary)}
	}
	if len(save.Document) > maxDocument {
		return nil, &job.Unfit{Field: "document", Read: fmt.Sprintf("%d bytes", len(save.Document)), Want: fmt.Sprintf("%d bytes at most", maxDocument)}
	}
	doc, err := job.Canonical(save.Document)
	if err != nil {
		return nil, &job.Unfit{Field: "document", Want: err.Error()}
	}
	return doc, nil
}

// fitID refuses ids that could not stand in an address or a file name.
func fitID(id string) error {
	ok := id != "" && len(id) <= maxID && id[0] != '.'
	for i := 0; i < len(id) && ok; i++ {
		b := id[i]
		ok = b >= '0' && b <= '9' || b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z' || b == '-' || b == '_' || b == '.'
	}
	if !ok {
		return &job.Unfit{Field: "job", Read: short(id), Want: fmt.Sprintf("letters, digits, \"-\", \"_\" or \".\", not first a full stop, %d at most", maxID)}
	}
	return nil
}

// fitText refuses text that one of the engines could not keep.
func fitText(field, value string, most int) error {
	if len(value) > most || !utf8.ValidString(value) || strings.ContainsRune(value, 0) {
		return &job.Unfit{Field: field, Read: short(value), Want: fmt.Sprintf("text in UTF-8 without zero bytes, %d bytes at most", most)}
	}
	return nil
}

// short cuts a value that is to stand in a message.
func short(s string) string {
	if r := []rune(strings.ToValidUTF8(s, "\ufffd")); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return strings.ToValidUTF8(s, "\ufffd")
}

// numberKey makes text sort by the numbers in it: each run of digits, without
// leading zeros, is preceded by a letter for its length. "9" before "0412".
func numberKey(s string) string {
	var key strings.Builder
	for i := 0; i < len(s); {
		j := i
		for j < len(s) && s[j] >= '0' && s[j] <= '9' {
			j++
		}
		if j == i {
			key.WriteByte(s[i])
			i++
			continue
		}
		digits := strings.TrimLeft(s[i:j], "0")
		key.WriteByte(byte('0' + min(len(digits), 9)))
		key.WriteString(digits)
		i = j
	}
	return key.String()
}

// jobNumber reads an id of four to six digits as a number.
func jobNumber(id string) (int, bool) {
	if len(id) < 4 || len(id) > 6 || strings.Trim(id, "0123456789") != "" {
		return 0, false
	}
	n, err := strconv.Atoi(id)
	return n, err == nil
}

// NextJobNumber gives out the next free job number, "0001" and so on. A number
// is given out once, whether or not a job is made with it; jobs that came with a
// number of their own (four to six digits) move the count on.
func (s *Store) NextJobNumber(ctx context.Context) (string, error) {
	ctx, cancel := s.within(ctx)
	defer cancel()
	tx, err := s.write.BeginTx(ctx, nil)
	if err != nil {
		return "", s.fail("next job number", err)
	}
	defer tx.Rollback()
	for {
		var n, taken int
		err := tx.QueryRowContext(ctx, `UPDATE counter SET value = value + 1 WHERE name = 'job' RETURNING value`).Scan(&n)
		if err != nil {
			return "", s.fail("next job number", err)
		}
		id := fmt.Sprintf("%04d", n)
		if err := tx.QueryRowContext(ctx, `SELECT COUNT(*) FROM job WHERE id = $1`, id).Scan(&taken); err != nil {
			return "", s.fail("next job number", err)
		}
		if taken == 0 {
			return id, s.fail("next job number", tx.Commit())
		}
	}
}
