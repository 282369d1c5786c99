package store

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// step is one change of the schema. Steps are only ever added.
type step struct {
	version int // 1, 2, 3, …
	name    string
	digest  string // SHA-256 of the text, line ends as "\n"
	text    string
}

// readSteps reads the files NNNN_name.sql and NNNN_name.ENGINE.sql of one engine
// in their order. A number missing or taken twice is an error.
func readSteps(files fs.FS, engine string) ([]step, error) {
	names, err := fs.Glob(files, "*.sql") // sorted
	if err != nil {
		return nil, err
	}
	var steps []step
	for _, file := range names {
		base := strings.TrimSuffix(file, ".sql")
		if stem, suffix, found := strings.Cut(base, "."); found {
			if suffix != engine {
				continue
			}
			base = stem
		}
		number, name, _ := strings.Cut(base, "_")
		if want := fmt.Sprintf("%04d", len(steps)+1); number != want {
			return nil, fmt.Errorf("schema step %s: expected number %s", file, want)
		}
		raw, err := fs.ReadFile(files, file)
		if err != nil {
			return nil, err
		}
		text := strings.ReplaceAll(string(raw), "\r\n", "\n")
		sum := sha256.Sum256([]byte(text))
		steps = append(steps, step{len(steps) + 1, name, hex.EncodeToString(sum[:]), text})
	}
	return steps, nil
}

// compareSteps holds the steps that a database has taken against ours, and
// returns their number. More than ours is *NewerSchema, others *ChangedStep.
func (s *Store) compareSteps(ctx context.Context, db *sql.DB, steps []step) (int, error) {
	rows, err := db.QueryContext(ctx, `SELECT version, name, digest FROM schema_step ORDER BY version`)
	if err != nil {
		return 0, s.fail("opening", err)
	}
	defer rows.Close()
	var taken []step
	for rows.Next() {
		var t step
		if err := rows.Scan(&t.version, &t.name, &t.digest); err != nil {
			return 0, s.fail("opening", err)
		}
		taken = append(taken, t)
	}
	if err := rows.Err(); err != nil {
		return 0, s.fail("opening", err)
	}
	if n := len(taken); n > 0 && taken[n-1].version > len(steps) {
		return 0, &NewerSchema{File: s.file, Have: taken[n-1].version, Known: len(steps)}
	}
	for i, t := range taken {
		if t.version != i+1 {
			return 0, &Damaged{File: s.file, Reason: fmt.Sprintf("schema step %d is missing", i+1)}
		}
		if t.digest != steps[i].digest {
			return 0, &ChangedStep{File: s.file, Version: t.version, Name: t.name}
		}
	}
	return len(taken), nil
}

// copyBefore keeps a copy of the database before its schema is changed.
func (s *Store) copyBefore(ctx context.Context, have int) error {
	dir := filepath.Join(s.dir, "copies")
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return fmt.Errorf("copy before the change of schema: %w", err)
	}
	stamp := s.now().UTC().Format("20060102T150405.000000Z")
	target := filepath.Join(dir, fmt.Sprintf("jounce-schema-%d-%s.db", have, stamp))
	if err := vacuumInto(ctx, s.file, target); err != nil {
		return s.fail("copy before the change of schema", err)
	}
	return syncDirs(dir, s.dir)
}

// migrate takes the steps that are missing, each in one transaction.
func (s *Store) migrate(ctx context.Context, steps []step) error {
	if len(steps) == 0 {
		return errors.New("this program has no schema")
	}
	_, err := s.write.ExecContext(ctx, `CREATE TABLE IF NOT EXISTS schema_step (version BIGINT NOT NULL PRIMARY KEY, name TEXT NOT NULL, digest TEXT NOT NULL, at BIGINT NOT NULL)`)
	if err != nil {
		return s.fail("making the schema", err)
	}
	for _, st := range steps {
		if err := s.take(ctx, st); err != nil {
			return s.fail(fmt.Sprintf("schema step %d (%s)", st.version, st.name), err)
		}
	}
	_, err = s.compareSteps(ctx, s.write, steps)
	return err
}

// take takes one step, unless it has been taken. Its version row is written
// first: whoever writes it holds the lock on both engines, the other one waits
// and then finds nothing to do.
func (s *Store) take(ctx context.Context, st step) error {
	tx, err := s.write.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	done, err := tx.ExecContext(ctx, `INSERT INTO schema_step (version, name, digest, at) VALUES ($1, $2, $3, $4) ON CONFLICT DO NOTHING`,
		st.version, st.name, st.digest, s.now().UTC().UnixMicro())
	if err != nil {
		return err
	}
	if n, err := done.RowsAffected(); err != nil || n == 0 {
		return err
	}
	if _, err := tx.ExecContext(ctx, st.text); err != nil {
		return err
	}
	return tx.Commit()
}
