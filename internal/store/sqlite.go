package store

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"io"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// applicationID marks a SQLite file as a store; migrations/0001 sets it.
const applicationID = 1246643013

// fileURI is the SQLite address of a file, escaped segment by segment: a "#" or
// "%" left as it is would silently name another file.
func fileURI(file string) string {
	segments := strings.Split(filepath.ToSlash(file), "/")
	for i, s := range segments {
		segments[i] = url.PathEscape(s)
	}
	path := strings.Join(segments, "/")
	if !strings.HasPrefix(path, "/") {
		path = "/" + path // a drive letter
	}
	return "file:" + path
}

// writeDSN is the address of the one connection that writes.
func writeDSN(file string) string {
	return fileURI(file) + "?_txlock=immediate&_dqs=0&_pragma=busy_timeout(10000)&_pragma=journal_mode(WAL)&_pragma=synchronous(FULL)&_pragma=foreign_keys(1)"
}

// readDSN is the address of the connections that read. The writing one must have
// been opened first.
func readDSN(file string) string {
	return backupDSN(file) + "&_pragma=query_only(1)"
}

// backupDSN is the address of the connection that a copy is made through.
func backupDSN(file string) string {
	return fileURI(file) + "?_txlock=deferred&_dqs=0&_pragma=busy_timeout(10000)&_pragma=synchronous(FULL)&_pragma=foreign_keys(1)"
}

// inspectDSN is the address of a connection that cannot write at all. While the
// log of a store in use, or of one that crashed, lies beside the file, it reads
// both; else it takes the file to be at rest, since SQLite would make a log even
// to read.
func inspectDSN(file string) string {
	if _, err := os.Stat(file + "-wal"); err != nil {
		return restDSN(file)
	}
	return fileURI(file) + "?mode=ro&_dqs=0&_pragma=busy_timeout(10000)&_pragma=query_only(1)"
}

// restDSN is the address of a file that nobody writes.
func restDSN(file string) string {
	return fileURI(file) + "?mode=ro&immutable=1&_dqs=0&_pragma=query_only(1)"
}

// inspect looks at the database before anything is written, and says how many
// schema steps it has: 0 for a store still to be made. What it would refuse it
// looks at again, lest it came while another program was just opening the file.
func (s *Store) inspect(ctx context.Context, steps []step) (have int, err error) {
	for range 3 {
		if have, err = s.inspectOnce(ctx, steps); err == nil {
			return have, nil
		}
		select {
		case <-time.After(50 * time.Millisecond):
		case <-ctx.Done():
			return 0, err
		}
	}
	return 0, err
}

// inspectOnce is one look of inspect.
func (s *Store) inspectOnce(ctx context.Context, steps []step) (int, error) {
	fresh, err := s.headerFresh()
	if err != nil || fresh {
		return 0, err
	}
	db, err := openPool(ctx, inspectDSN(s.file), 1)
	if err != nil {
		return 0, s.fail("opening", err)
	}
	defer db.Close()
	var id, tables, known int
	err = db.QueryRowContext(ctx, `SELECT (SELECT application_id FROM pragma_application_id), COUNT(*), COALESCE(SUM(name = 'schema_step'), 0) FROM sqlite_schema WHERE type = 'table'`).Scan(&id, &tables, &known)
	if err != nil {
		return 0, s.fail("opening", err)
	}
	if id == 0 && tables == known {
		return 0, nil // making it was broken off before the first step was whole
	}
	if id != applicationID {
		return 0, &Foreign{File: s.file}
	}
	if known == 0 {
		return 0, &Damaged{File: s.file, Reason: "the list of its schema steps is gone"}
	}
	return s.compareSteps(ctx, db, steps)
}

// headerFresh reports whether the database is still to be made; it refuses a
// file that does not begin as SQLite files do, and attachments without a
// database.
func (s *Store) headerFresh() (bool, error) {
	f, err := os.Open(s.file)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return false, err
	}
	head := make([]byte, 16)
	n := 0
	if err == nil {
		defer f.Close()
		if n, err = io.ReadFull(f, head); err != nil && !errors.Is(err, io.EOF) && !errors.Is(err, io.ErrUnexpectedEOF) {
			return false, err
		}
	}
	if n == 0 {
		_, errWAL := os.Stat(s.file + "-wal")
		if stored, _ := filepath.Glob(filepath.Join(s.attachmentDir(), "??", "*")); errWAL == nil || len(stored) > 0 {
			return false, &Damaged{File: s.file, Reason: "the database is gone or empty, yet other files of a store are here"}
		}
		return true, nil
	}
	if !bytes.Equal(head, []byte("SQLite format 3\x00")) {
		return false, &Damaged{File: s.file, Reason: "it does not begin as a database does"}
	}
	return false, nil
}

// vacuumInto writes a compact, consistent copy of the database, while others
// write, and checks it. The target must not exist.
func vacuumInto(ctx context.Context, file, target string) error {
	db, err := openPool(ctx, backupDSN(file), 1)
	if err != nil {
		return err
	}
	defer db.Close()
	if _, err := db.ExecContext(ctx, `VACUUM INTO $1`, target); err != nil {
		os.Remove(target)
		return err
	}
	if err := checkFile(ctx, target); err != nil {
		os.Remove(target)
		return err
	}
	return syncFile(target)
}

// checkFile runs SQLite's own checks over a database file that nobody writes.
func checkFile(ctx context.Context, file string) error {
	db, err := openPool(ctx, restDSN(file), 1)
	if err != nil {
		return err
	}
	defer db.Close()
	problems, err := integrity(ctx, db)
	if err != nil {
		return err
	}
	if len(problems) > 0 {
		return &Damaged{File: file, Reason: problems[0]}
	}
	return nil
}

// integrity lists what SQLite's integrity and foreign-key checks find.
func integrity(ctx context.Context, db *sql.DB) ([]string, error) {
	var problems []string
	for query, good := range map[string]string{
		`SELECT integrity_check FROM pragma_integrity_check`:                                                                    "ok",
		`SELECT 'a row of ' || "table" || ' belongs to a row of ' || "parent" || ' that is gone' FROM pragma_foreign_key_check`: "",
	} {
		found, err := texts(ctx, db, query)
		if err != nil {
			return nil, err
		}
		for _, p := range found {
			if p != good {
				problems = append(problems, p)
			}
		}
	}
	return problems, nil
}

// texts reads a query's one column of text.
func texts(ctx context.Context, db *sql.DB, query string, args ...any) ([]string, error) {
	rows, err := db.QueryContext(ctx, query, args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var all []string
	for rows.Next() {
		var t string
		if err := rows.Scan(&t); err != nil {
			return nil, err
		}
		all = append(all, t)
	}
	return all, rows.Err()
}
