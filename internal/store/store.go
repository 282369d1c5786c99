package store

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"
)

//go:embed migrations
var migrationFiles embed.FS

// databaseName is the name of the database in a store's folder.
const databaseName = "jounce.db"

// Options of Open. The zero value is good.
type Options struct {
	// Now is the clock that dates revisions; time.Now when nil.
	Now func() time.Time
	// Timeout is the longest one ordinary call may take; 30 s when zero. Verify,
	// Check and Backup take as long as their context allows.
	Timeout time.Duration

	migrations fs.FS // for tests; the embedded ones when nil
}

// Store is an open store. Its methods may be called from many goroutines.
type Store struct {
	dir   string // absolute
	file  string // the database
	write *sql.DB
	read  *sql.DB
	now   func() time.Time
	limit time.Duration
}

// Open opens the store in a folder, making both when they are not there, and
// brings its schema up to date, after a copy of the database into copies/.
//
// Errors, all before anything was changed: *NewerSchema, *ChangedStep, *Damaged,
// *Foreign, or one of the file system.
func Open(ctx context.Context, dir string, o Options) (*Store, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, fmt.Errorf("store folder: %w", err)
	}
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.Timeout == 0 {
		o.Timeout = 30 * time.Second
	}
	if o.migrations == nil {
		o.migrations, _ = fs.Sub(migrationFiles, "migrations") // the name is a constant
	}
	s := &Store{dir: dir, file: filepath.Join(dir, databaseName), now: o.Now, limit: o.Timeout}
	steps, err := readSteps(o.migrations, "sqlite")
	if err != nil {
		return nil, err
	}
	if err := makeDir(dir); err != nil {
		return nil, fmt.Errorf("store folder: %w", err)
	}
	have, err := s.inspect(ctx, steps)
	if err != nil {
		return nil, err
	}
	if err := s.open(ctx, steps, have); err != nil {
		s.Close()
		return nil, err
	}
	return s, nil
}

// open opens the pools of a file that inspect has accepted with have steps, the
// writing one first, and takes the steps that are missing.
func (s *Store) open(ctx context.Context, steps []step, have int) error {
	var err error
	if s.write, err = openPool(ctx, writeDSN(s.file), 1); err != nil {
		return s.fail("opening", err)
	}
	if have > 0 && have < len(steps) {
		if err := s.copyBefore(ctx, have); err != nil {
			return err
		}
	}
	if err := s.migrate(ctx, steps); err != nil {
		return err
	}
	if s.read, err = openPool(ctx, readDSN(s.file), 4); err != nil {
		return s.fail("opening", err)
	}
	if err := os.MkdirAll(s.partDir(), 0o700); err != nil {
		return fmt.Errorf("store folder: %w", err)
	}
	s.sweepParts()
	return syncDirs(s.attachmentDir(), s.dir)
}

// Close closes the store. Calls under way end with an error.
func (s *Store) Close() error {
	var first error
	for _, db := range []*sql.DB{s.read, s.write} {
		if db == nil {
			continue
		}
		if err := db.Close(); err != nil && first == nil {
			first = s.fail("closing", err)
		}
	}
	return first
}

// Dir is the store's folder, as an absolute path.
func (s *Store) Dir() string { return s.dir }

// within gives an ordinary call its deadline.
func (s *Store) within(ctx context.Context) (context.Context, context.CancelFunc) {
	return context.WithTimeout(ctx, s.limit)
}

// openPool opens a pool of n connections at the most, and tries one.
func openPool(ctx context.Context, dsn string, n int) (*sql.DB, error) {
	db, err := sql.Open("sqlite", dsn)
	if err != nil {
		return nil, err
	}
	db.SetMaxOpenConns(n)
	db.SetMaxIdleConns(n)
	if err := db.PingContext(ctx); err != nil {
		db.Close()
		return nil, err
	}
	return db, nil
}
