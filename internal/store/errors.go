package store

import (
	"context"
	"errors"
	"fmt"

	"modernc.org/sqlite"
)

// Damaged is the error of a file that does not hold what was written to it.
type Damaged struct {
	File   string
	Reason string
}

// Error names the file and says what to do.
func (d *Damaged) Error() string {
	return fmt.Sprintf("%s: damaged (%s). Nothing was changed. Put this folder aside as it is, and restore the last backup into a new one", d.File, d.Reason)
}

// NewerSchema is the error of a store that a newer program wrote.
type NewerSchema struct {
	File        string
	Have, Known int // steps in the file; steps this program has
}

// Error names the file and says what to do.
func (n *NewerSchema) Error() string {
	return fmt.Sprintf("%s: written by a newer Jounce (schema %d; this one knows %d). Nothing was changed. Start the newer program", n.File, n.Have, n.Known)
}

// ChangedStep is the error of a store whose schema was made by other steps than
// this program has under the same numbers.
type ChangedStep struct {
	File    string
	Version int
	Name    string // as the file has it
}

// Error names the file and says what to do.
func (c *ChangedStep) Error() string {
	return fmt.Sprintf("%s: its schema step %d (%s) is not the one this program has. Nothing was changed. Start the program that made the store", c.File, c.Version, c.Name)
}

// Foreign is the error of a database that is not a store.
type Foreign struct {
	File string
}

// Error names the file and says what to do.
func (f *Foreign) Error() string {
	return fmt.Sprintf("%s: a database of another program, not a Jounce store. Nothing was changed. Name another folder", f.File)
}

// Primary result codes of SQLite that need their own sentence.
const (
	codeBusy    = 5
	codeIO      = 10
	codeCorrupt = 11
	codeFull    = 13
	codeNotADB  = 26
)

// sqliteCode is the primary result code in an error, or 0.
func sqliteCode(err error) int {
	if e, ok := errors.AsType[*sqlite.Error](err); ok {
		return e.Code() & 0xff
	}
	return 0
}

// fail turns an error of the database into one that says what was being done
// and, where it is known, what would help. nil stays nil.
func (s *Store) fail(doing string, err error) error {
	if err == nil {
		return nil
	}
	switch sqliteCode(err) {
	case codeCorrupt, codeNotADB:
		return &Damaged{File: s.file, Reason: err.Error()}
	case codeFull:
		return fmt.Errorf("%s: not done: the disk is full; free some space and try again: %w", doing, err)
	case codeIO:
		return fmt.Errorf("%s: not done: the disk did not take or give the data; look at the disk, then try again: %w", doing, err)
	case codeBusy:
		return fmt.Errorf("%s: not done: another program holds %s; close it and try again: %w", doing, s.file, err)
	}
	if errors.Is(err, context.DeadlineExceeded) {
		return fmt.Errorf("%s: not done: no answer within %s; try again: %w", doing, s.limit, err)
	}
	return fmt.Errorf("%s: %w", doing, err)
}
