package store

import (
	"context"
	"fmt"

	"jounce/internal/job"
)

// Report is what Check found.
type Report struct {
	Jobs        int // the shop's own document counts as one
	Revisions   int
	Attachments int
	Problems    []string // a sentence each; empty when everything holds
}

// Check reads the whole store: the database's own integrity check, every
// revision's digest, every attachment's content. It changes nothing, takes its
// time (about 20 s for each gigabyte) and may run while others work.
func (s *Store) Check(ctx context.Context) (Report, error) {
	var r Report
	problems, err := integrity(ctx, s.read)
	if err != nil {
		return r, s.fail("check", err)
	}
	for _, p := range problems {
		r.Problems = append(r.Problems, fmt.Sprintf("%s: %s", s.file, p))
	}
	ids, err := texts(ctx, s.read, `SELECT id FROM job ORDER BY id`)
	if err != nil {
		return r, s.fail("check", err)
	}
	for _, id := range ids {
		c, err := s.Verify(ctx, id)
		if err != nil {
			return r, err
		}
		r.Jobs++
		r.Revisions += c.Revisions
		if !c.Whole() {
			r.Problems = append(r.Problems, fmt.Sprintf("job %s, revision %d: %s", id, c.Broken, c.Reason))
		}
	}
	all, err := attachments(ctx, s.read, `ORDER BY sha256, job`)
	if err != nil {
		return r, s.fail("check", err)
	}
	r.Attachments = len(all)
	missing, err := s.checkAttachments(ctx, all)
	r.Problems = append(r.Problems, missing...)
	return r, err
}

// checkAttachments reads each attachment and says which are not as they were put.
func (s *Store) checkAttachments(ctx context.Context, all []job.Attachment) ([]string, error) {
	var problems []string
	for _, a := range all {
		if err := ctx.Err(); err != nil {
			return problems, err
		}
		f, err := s.openAttachment(a)
		if err != nil {
			problems = append(problems, err.Error())
			continue
		}
		f.Close()
	}
	return problems, nil
}
