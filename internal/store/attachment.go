package store

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"mime"
	"os"
	"path/filepath"
	"strings"
	"time"

	"jounce/internal/job"
)

// partAge is how old a file on its way in must be to be taken for left over.
const partAge = 24 * time.Hour

// attachmentDir is the folder of the attachments.
func (s *Store) attachmentDir() string { return filepath.Join(s.dir, "attachments") }

// partDir is where attachments are written before they have their name.
func (s *Store) partDir() string { return filepath.Join(s.attachmentDir(), "part") }

// attachmentFile is the file of an attachment by its SHA-256.
func (s *Store) attachmentFile(sum string) string {
	return filepath.Join(s.attachmentDir(), sum[:2], sum)
}

// isSum reports whether a text is a SHA-256 in lower-case hexadecimal.
func isSum(sum string) bool {
	return len(sum) == 2*sha256.Size && strings.Trim(sum, "0123456789abcdef") == ""
}

// sweepParts removes what was left on its way in by a crash. What cannot be
// removed stays: it does no harm.
func (s *Store) sweepParts() {
	entries, err := os.ReadDir(s.partDir())
	if err != nil {
		return
	}
	for _, e := range entries {
		if info, err := e.Info(); err == nil && s.now().Sub(info.ModTime()) > partAge {
			os.RemoveAll(filepath.Join(s.partDir(), e.Name()))
		}
	}
}

// Put keeps a file with a job and returns once it is on the disk. The same
// content twice with one job is kept once, under the name it had first. The job
// must have been saved before.
//
// Errors: *job.Unfit, *job.TooLarge for more than limit bytes; one that wraps
// job.ErrNotFound; that of the reader; anything else when it could not be made
// durable. After any error the job has no new attachment.
func (s *Store) Put(ctx context.Context, id, name, media string, content io.Reader, limit int64) (job.Attachment, error) {
	a := job.Attachment{Job: id, Name: name, Media: media, At: s.now().UTC().Truncate(time.Microsecond)}
	if err := fitAttachment(a); err != nil {
		return job.Attachment{}, err
	}
	look, cancel := s.within(ctx)
	_, err := s.head(look, id)
	cancel()
	if err != nil {
		return job.Attachment{}, err
	}
	if err := s.putFile(&a, content, limit); err != nil {
		if large, ok := errors.AsType[*job.TooLarge](err); ok {
			return job.Attachment{}, large
		}
		return job.Attachment{}, fmt.Errorf("job %s, %s: not kept: %w", id, name, err)
	}
	ctx, cancel = s.within(ctx)
	defer cancel()
	_, err = s.write.ExecContext(ctx, `INSERT INTO attachment (job, sha256, name, media, size, at) VALUES ($1, $2, $3, $4, $5, $6) ON CONFLICT DO NOTHING`,
		a.Job, a.SHA256, a.Name, a.Media, a.Size, a.At.UnixMicro())
	if err != nil {
		return job.Attachment{}, s.fail(fmt.Sprintf("job %s, %s", id, name), err)
	}
	return s.attachment(ctx, id, a.SHA256)
}

// fitAttachment checks what is said about a file.
func fitAttachment(a job.Attachment) error {
	if strings.TrimSpace(a.Name) == "" {
		return &job.Unfit{Field: "attachment", Want: "a name is needed"}
	}
	if err := fitText("name of the attachment", a.Name, maxLine); err != nil {
		return err
	}
	if kind, _, err := mime.ParseMediaType(a.Media); err != nil || !strings.Contains(kind, "/") || len(a.Media) > maxLine {
		return &job.Unfit{Field: "media type", Read: short(a.Media), Want: "a media type such as image/jpeg"}
	}
	return nil
}

// putFile writes the content, hashing it on the way: temporary file, sync, name,
// sync of both folders. It fills in SHA256 and Size.
func (s *Store) putFile(a *job.Attachment, content io.Reader, limit int64) (err error) {
	f, err := os.CreateTemp(s.partDir(), "part-*")
	if err != nil {
		return err
	}
	defer func() {
		f.Close()
		if err != nil {
			os.Remove(f.Name())
		}
	}()
	h := sha256.New()
	if a.Size, err = io.Copy(io.MultiWriter(f, h), io.LimitReader(content, limit+1)); err != nil {
		return err
	}
	if a.Size > limit {
		return &job.TooLarge{Name: a.Name, Limit: limit}
	}
	if err = f.Sync(); err != nil {
		return err
	}
	if err = f.Close(); err != nil {
		return err
	}
	a.SHA256 = hex.EncodeToString(h.Sum(nil))
	target := s.attachmentFile(a.SHA256)
	if err = makeDir(filepath.Dir(target)); err != nil {
		return err
	}
	// A file of this name has the same content, so that replacing it is right
	// even when somebody is reading it.
	if err = os.Rename(f.Name(), target); err != nil {
		return err
	}
	return syncDirs(filepath.Dir(target), s.attachmentDir())
}

// scanAttachment reads one row of the attachment table.
func scanAttachment(scan func(...any) error) (job.Attachment, error) {
	var a job.Attachment
	var at int64
	err := scan(&a.Job, &a.SHA256, &a.Name, &a.Media, &a.Size, &at)
	a.At = time.UnixMicro(at).UTC()
	return a, err
}

// attachment reads what the store says about one attachment.
func (s *Store) attachment(ctx context.Context, id, sum string) (job.Attachment, error) {
	doing := fmt.Sprintf("job %s, attachment %s", short(id), short(sum))
	row := s.read.QueryRowContext(ctx, `SELECT job, sha256, name, media, size, at FROM attachment WHERE job = $1 AND sha256 = $2`, id, sum)
	a, err := scanAttachment(row.Scan)
	if errors.Is(err, sql.ErrNoRows) {
		return job.Attachment{}, fmt.Errorf("%s: %w", doing, job.ErrNotFound)
	}
	return a, s.fail(doing, err)
}

// Get opens an attachment by its job and SHA-256; the caller closes it. Its
// content was read through once and is as it was put. Errors wrap
// job.ErrNotFound, or are *Damaged when the file is not what was put.
func (s *Store) Get(ctx context.Context, id, sum string) (job.Attachment, io.ReadSeekCloser, error) {
	ctx, cancel := s.within(ctx)
	defer cancel()
	a, err := s.attachment(ctx, id, sum)
	if err != nil {
		return a, nil, err
	}
	f, err := s.openAttachment(a)
	if err != nil {
		return job.Attachment{}, nil, err
	}
	return a, f, nil
}

// openAttachment opens the file of an attachment, checked.
func (s *Store) openAttachment(a job.Attachment) (*os.File, error) {
	if !isSum(a.SHA256) {
		return nil, &Damaged{File: s.file, Reason: fmt.Sprintf("an attachment of job %s has no digest", a.Job)}
	}
	name := s.attachmentFile(a.SHA256)
	f, err := os.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, &Damaged{File: name, Reason: fmt.Sprintf("%s of job %s is gone", a.Name, a.Job)}
	}
	if err != nil {
		return nil, fmt.Errorf("job %s, %s: %w", a.Job, a.Name, err)
	}
	h := sha256.New()
	size, err := io.Copy(h, f)
	if err == nil && (size != a.Size || hex.EncodeToString(h.Sum(nil)) != a.SHA256) {
		err = &Damaged{File: name, Reason: fmt.Sprintf("%s of job %s is not what was put there", a.Name, a.Job)}
	}
	if err == nil {
		_, err = f.Seek(0, io.SeekStart)
	}
	if err != nil {
		f.Close()
		return nil, err
	}
	return f, nil
}

// ListAttachments lists a job's attachments in the order they came. An error
// wraps job.ErrNotFound when there is no such job.
func (s *Store) ListAttachments(ctx context.Context, id string) ([]job.Attachment, error) {
	ctx, cancel := s.within(ctx)
	defer cancel()
	if _, err := s.head(ctx, id); err != nil {
		return nil, err
	}
	all, err := attachments(ctx, s.read, `WHERE job = $1 ORDER BY at, sha256`, id)
	return all, s.fail(fmt.Sprintf("job %s, attachments", id), err)
}

// attachments reads rows of the attachment table.
func attachments(ctx context.Context, db *sql.DB, where string, args ...any) ([]job.Attachment, error) {
	rows, err := db.QueryContext(ctx, `SELECT job, sha256, name, media, size, at FROM attachment `+where, args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var all []job.Attachment
	for rows.Next() {
		a, err := scanAttachment(rows.Scan)
		if err != nil {
			return nil, err
		}
		all = append(all, a)
	}
	return all, rows.Err()
}
