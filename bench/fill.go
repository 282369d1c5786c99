package main

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"math/rand/v2"
	"net/url"
	"path/filepath"
	"strings"
	"time"

	"jounce/internal/demo"
	"jounce/internal/job"
	"jounce/internal/store"
	"jounce/internal/web"
)

// vocabulary is what notes are made of; all invented or common.
var vocabulary = strings.Fields(`saloon estate pickup van coach spring sleeve bellows damper strut arm link bush seat cup tank valve line joint drip soap
	gauge tape scale hub arch sill floor road hump high down locked camber toe track liner rust weld bracket plate bolt torque relay fuse cable battery
	compressor drier cooler silencer panel leather walnut brass bench keeper wishes lower boot luggage rear front left right measured read again tomorrow`)

// template is a job that has grown to 40 kB: a demo job with notes at its
// readings.
type template struct{ rec *job.Job }

const templateSize = 40_000 // [bytes]

func newTemplate() *template {
	jobs, err := demo.Jobs()
	if err != nil {
		panic(err) // they are part of the program
	}
	rec := jobs[len(jobs)-1]
	rng := rand.New(rand.NewPCG(1, 2))
	for {
		for _, f := range rec.Fields() {
			if f.Reading == nil || f.Reading.Empty() {
				continue
			}
			f.Reading.Note = strings.TrimSpace(f.Reading.Note + " " + yearsWords(rng, 4))
			if doc, err := rec.Encode(); err != nil || len(doc) >= templateSize {
				return &template{rec}
			}
		}
	}
}

// save makes the next save of a record. The list shows the template's summary.
func (t *template) save(rec *job.Job, base int) (job.Save, error) {
	return web.Keep(rec, demo.Shop(), base, demo.Author, "")
}

// filler fills a store with ten years.
type filler struct {
	s      *store.Store
	db     *sql.DB
	chain  []job.Save     // of the first job, one for each revision
	revs   []job.Revision // what became of them
	rng    *rand.Rand
	states []string
}

// fillYears makes a store of ten years. The first and the last revision of each
// job are saved as always, so that the list and the words come as they do; of
// the first job all are. The revisions between are the first job's: their packed
// documents are copied from row to row, and sealed for the job they are in.
// Saving all half million as always would take over an hour.
func fillYears(ctx context.Context, data string) error {
	s, err := store.Open(ctx, data, store.Options{})
	if err != nil {
		return err
	}
	defer s.Close()
	db, err := sql.Open("sqlite", address(data, "_pragma=busy_timeout(10000)&_pragma=synchronous(OFF)&_txlock=immediate"))
	if err != nil {
		return err
	}
	defer db.Close()
	db.SetMaxOpenConns(1)
	f := &filler{s: s, db: db, rng: rand.New(rand.NewPCG(5, 6)), states: []string{"open", "handed over", "handed over", "handed over", "refused", "put back"}}
	if err := f.first(ctx); err != nil {
		return err
	}
	for n := 2; n <= yearsJobs; n += 100 {
		if err := f.some(ctx, n, min(n+99, yearsJobs)); err != nil {
			return err
		}
	}
	if err := db.Close(); err != nil {
		return err
	}
	return s.Close()
}

// first saves every revision of job 0001.
func (f *filler) first(ctx context.Context) error {
	t := newTemplate()
	fields := t.rec.Fields()
	for n := range yearsRevisions {
		for read := false; !read; { // one reading is taken again
			if r := fields[f.rng.IntN(len(fields))].Reading; r != nil && !r.Empty() {
				r.Note, read = r.Note[:len(r.Note)*9/10]+yearsWords(f.rng, 2), true
			}
		}
		save, err := t.save(t.rec, n)
		if err != nil {
			return err
		}
		f.chain = append(f.chain, save)
		rev, err := f.s.Save(ctx, f.as(save, 1))
		if err != nil {
			return err
		}
		f.revs = append(f.revs, rev)
	}
	return nil
}

// as is a save as the nth job's: with a keeper, a state, a date and notes of its own.
func (f *filler) as(save job.Save, n int) job.Save {
	save.Job = yearsID(n)
	save.Name = fmt.Sprintf("Keeper%d %s", n, vocabulary[n%5])
	save.State = f.states[n%len(f.states)]
	save.Due = fmt.Sprintf("20%02d-%02d-%02d", 16+n*10/yearsJobs, 1+n%12, 1+n%28)
	text := make([]job.Passage, len(save.Text))
	copy(text, save.Text)
	for i := range text {
		if strings.HasPrefix(text[i].Place, "note at ") {
			text[i].Text = yearsWords(f.rng, len(strings.Fields(text[i].Text)))
		}
	}
	save.Text = text
	return save
}

// some makes the jobs from one number to another.
func (f *filler) some(ctx context.Context, from, to int) error {
	last := yearsRevisions - 1
	var heads []job.Revision
	for n := from; n <= to; n++ {
		rev, err := f.s.Save(ctx, f.as(f.chain[0], n))
		if err != nil {
			return err
		}
		heads = append(heads, rev)
	}
	tx, err := f.db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	for _, rev := range heads {
		if err := f.between(ctx, tx, rev); err != nil {
			return err
		}
	}
	if err := tx.Commit(); err != nil {
		return err
	}
	for n := from; n <= to; n++ {
		if _, err := f.s.Save(ctx, f.as(f.chain[last], n)); err != nil {
			return err
		}
	}
	return nil
}

// between gives a job the revisions between its first and its last.
func (f *filler) between(ctx context.Context, tx *sql.Tx, rev job.Revision) error {
	var rows []string
	var args []any
	for _, like := range f.revs[1 : yearsRevisions-1] {
		rev.Number, rev.Previous, rev.Document, rev.At = like.Number, rev.Digest, like.Document, rev.At.Add(20*time.Minute)
		rev.Digest = rev.Seal()
		rows = append(rows, "(?, ?, ?, ?, ?, ?, ?)")
		args = append(args, rev.Job, rev.Number, rev.Author, rev.At.UnixMicro(), rev.Note, rev.Previous, rev.Digest)
	}
	_, err := tx.ExecContext(ctx, `INSERT INTO revision (job, number, author, at, note, previous, digest) VALUES `+strings.Join(rows, ", "), args...)
	if err != nil {
		return err
	}
	_, err = tx.ExecContext(ctx, `INSERT INTO body SELECT ?, number, anchor, size, content FROM body WHERE job = ? AND number BETWEEN 2 AND ? ORDER BY number`,
		rev.Job, f.revs[0].Job, rev.Number)
	if err != nil {
		return err
	}
	_, err = tx.ExecContext(ctx, `UPDATE job SET revision = ?, digest = ?, at = ?, anchor = (SELECT anchor FROM body WHERE job = ? AND number = ?) WHERE id = ?`,
		rev.Number, rev.Digest, rev.At.UnixMicro(), rev.Job, rev.Number, rev.Job)
	return err
}

// weigh is the size of a closed store's folder and of what is in use in its
// database [bytes].
func weigh(ctx context.Context, data string) (size, used float64, err error) {
	if size, err = folder(data); err != nil {
		return 0, 0, err
	}
	db, err := sql.Open("sqlite", address(data, "mode=ro&immutable=1"))
	if err != nil {
		return 0, 0, err
	}
	defer db.Close()
	err = db.QueryRowContext(ctx, `SELECT (p.page_count - f.freelist_count) * s.page_size FROM pragma_page_count p, pragma_freelist_count f, pragma_page_size s`).Scan(&used)
	return size, used, err
}

// settle makes the index of words in a closed store as small as it gets.
func settle(ctx context.Context, data string) error {
	db, err := sql.Open("sqlite", address(data, ""))
	if err != nil {
		return err
	}
	_, err = db.ExecContext(ctx, `INSERT INTO word_index (word_index) VALUES ('optimize')`)
	return errors.Join(err, db.Close())
}

// address is the address of a store's database.
func address(data, how string) string {
	file := url.URL{Scheme: "file", OmitHost: true, Path: filepath.ToSlash(filepath.Join(data, "jounce.db")), RawQuery: how}
	return file.String()
}
