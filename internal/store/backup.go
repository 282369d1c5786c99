package store

import (
	"archive/zip"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"jounce/internal/job"
)

// A backup is a zip file:
//
//	backup.json         manifest, below
//	jounce.db           copy of the database
//	attachments/ab…     each attachment once, by its SHA-256

const (
	manifestName     = "backup.json"
	manifestKind     = "jounce backup"
	attachmentPrefix = "attachments/"
)

// manifest says what a backup holds, so that it can be checked alone.
type manifest struct {
	Kind           string    `json:"kind"` // manifestKind
	Format         int       `json:"format"`
	Made           time.Time `json:"made"`
	Schema         int       `json:"schema"` // steps taken
	Database       string    `json:"databaseSHA256"`
	DatabaseSize   int64     `json:"databaseSize"`   // [bytes]
	Attachments    []string  `json:"attachments"`    // SHA-256 of each
	AttachmentSize int64     `json:"attachmentSize"` // of all together [bytes]
}

// Incomplete is the error of a backup that was made but lacks attachments, since
// they are gone from the store or are not what was put there.
type Incomplete struct {
	File    string
	Missing []string // a sentence each
}

// Error names the backup and the first of what is missing.
func (i *Incomplete) Error() string {
	return fmt.Sprintf("%s: the backup was made without %d attachments: %s", i.File, len(i.Missing), strings.Join(i.Missing, "; "))
}

// Backup writes the whole store into one zip file that does not exist yet, while
// others work. The copy is of one moment; it was checked by the database's
// integrity check, every attachment against its digest, and the finished file was
// read back. *Incomplete when the file was made but attachments are missing; after
// any other error there is no file.
func (s *Store) Backup(ctx context.Context, file string) (err error) {
	file, err = filepath.Abs(file)
	if err != nil {
		return fmt.Errorf("backup: %w", err)
	}
	if _, err := os.Lstat(file); !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("backup: %s is there already; name a file that is not", file)
	}
	work, err := os.MkdirTemp(s.partDir(), "backup-*")
	if err != nil {
		return fmt.Errorf("backup: %w", err)
	}
	defer os.RemoveAll(work)
	copied := filepath.Join(work, databaseName)
	if err := vacuumInto(ctx, s.file, copied); err != nil {
		return s.fail("backup", err)
	}
	all, m, err := s.describe(ctx, copied)
	if err != nil {
		return s.fail("backup", err)
	}
	part := file + ".part"
	missing, err := s.writeBackup(ctx, part, copied, all, m)
	if err == nil {
		_, err = readBackup(ctx, part, func(string, int64, io.Reader) error { return nil })
	}
	if err == nil {
		err = os.Rename(part, file)
	}
	if err != nil {
		os.Remove(part)
		return fmt.Errorf("backup: not made: %w", err)
	}
	if err := syncDirs(filepath.Dir(file)); err != nil {
		return fmt.Errorf("backup: %w", err)
	}
	if len(missing) > 0 {
		return &Incomplete{File: file, Missing: missing}
	}
	return nil
}

// describe lists the attachments that a copy of the database names, each content
// once, and begins the manifest.
func (s *Store) describe(ctx context.Context, copied string) ([]job.Attachment, manifest, error) {
	m := manifest{Kind: manifestKind, Format: 1, Made: s.now().UTC().Truncate(time.Second)}
	db, err := openPool(ctx, restDSN(copied), 1)
	if err != nil {
		return nil, m, err
	}
	defer db.Close()
	if err := db.QueryRowContext(ctx, `SELECT MAX(version) FROM schema_step`).Scan(&m.Schema); err != nil {
		return nil, m, err
	}
	all, err := attachments(ctx, db, `ORDER BY sha256, job`)
	if err != nil {
		return nil, m, err
	}
	var once []job.Attachment
	for _, a := range all {
		if len(once) == 0 || once[len(once)-1].SHA256 != a.SHA256 {
			once = append(once, a)
		}
	}
	m.Database, m.DatabaseSize, err = sumFile(copied)
	return once, m, err
}

// sumFile is the SHA-256 and size of a file.
func sumFile(name string) (string, int64, error) {
	f, err := os.Open(name)
	if err != nil {
		return "", 0, err
	}
	defer f.Close()
	h := sha256.New()
	n, err := io.Copy(h, f)
	return hex.EncodeToString(h.Sum(nil)), n, err
}

// writeBackup writes the zip file and makes it durable. It returns a sentence for
// each attachment that could not be taken along.
func (s *Store) writeBackup(ctx context.Context, part, copied string, all []job.Attachment, m manifest) ([]string, error) {
	var missing []string
	sound := all[:0:0]
	for _, a := range all {
		f, err := s.openAttachment(a)
		if err != nil {
			missing = append(missing, err.Error())
			continue
		}
		f.Close()
		sound = append(sound, a)
		m.Attachments = append(m.Attachments, a.SHA256)
		m.AttachmentSize += a.Size
	}
	out, err := os.OpenFile(part, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o600)
	if err != nil {
		return nil, err
	}
	defer out.Close()
	z := zip.NewWriter(out)
	text, err := json.MarshalIndent(m, "", "  ")
	if err != nil {
		return nil, err
	}
	if err := addEntry(ctx, z, manifestName, zip.Deflate, m.Made, strings.NewReader(string(text)+"\n")); err != nil {
		return nil, err
	}
	if err := addFile(ctx, z, databaseName, zip.Deflate, m.Made, copied); err != nil {
		return nil, err
	}
	for _, a := range sound {
		if err := addFile(ctx, z, attachmentPrefix+a.SHA256, zip.Store, m.Made, s.attachmentFile(a.SHA256)); err != nil {
			return nil, err
		}
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	if err := out.Sync(); err != nil {
		return nil, err
	}
	return missing, out.Close()
}

// addFile adds a file to a zip.
func addFile(ctx context.Context, z *zip.Writer, name string, method uint16, at time.Time, file string) error {
	f, err := os.Open(file)
	if err != nil {
		return err
	}
	defer f.Close()
	return addEntry(ctx, z, name, method, at, f)
}

// addEntry adds an entry to a zip.
func addEntry(ctx context.Context, z *zip.Writer, name string, method uint16, at time.Time, content io.Reader) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	w, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: method, Modified: at})
	if err != nil {
		return err
	}
	_, err = io.Copy(w, content)
	return err
}

// readBackup reads a backup through: manifest, database and attachments, each
// held against its digest, nothing missing and nothing more. Each file but the
// manifest is handed to take (name in the zip, size, content), which may read it
// or not; it is held against its digest after take has returned.
func readBackup(ctx context.Context, file string, take func(name string, size int64, content io.Reader) error) (manifest, error) {
	var m manifest
	z, err := zip.OpenReader(file)
	if err != nil {
		return m, &Damaged{File: file, Reason: fmt.Sprintf("not a backup: %v", err)}
	}
	defer z.Close()
	if len(z.File) == 0 || z.File[0].Name != manifestName {
		return m, &Damaged{File: file, Reason: "not a backup: it does not begin with " + manifestName}
	}
	if m, err = readManifest(z.File[0]); err != nil {
		return m, &Damaged{File: file, Reason: err.Error()}
	}
	want := map[string]string{databaseName: m.Database}
	for _, sum := range m.Attachments {
		if !isSum(sum) {
			return m, &Damaged{File: file, Reason: "the manifest names an attachment without a digest"}
		}
		want[attachmentPrefix+sum] = sum
	}
	for _, entry := range z.File[1:] {
		if err := ctx.Err(); err != nil {
			return m, err
		}
		sum, ok := want[entry.Name]
		if !ok {
			return m, &Damaged{File: file, Reason: fmt.Sprintf("%s is not in the manifest, or is there twice", short(entry.Name))}
		}
		delete(want, entry.Name)
		if err := readEntry(file, entry, sum, take); err != nil {
			return m, err
		}
	}
	for name := range want {
		return m, &Damaged{File: file, Reason: name + " is missing"}
	}
	return m, nil
}

// readManifest reads the manifest of a backup.
func readManifest(entry *zip.File) (manifest, error) {
	var m manifest
	r, err := entry.Open()
	if err != nil {
		return m, err
	}
	defer r.Close()
	if err := json.NewDecoder(io.LimitReader(r, 1<<28)).Decode(&m); err != nil {
		return m, fmt.Errorf("its manifest: %w", err)
	}
	if m.Kind != manifestKind || m.Format != 1 {
		return m, fmt.Errorf("its manifest says %q, format %d; expected %q, format 1", short(m.Kind), m.Format, manifestKind)
	}
	return m, nil
}

// readEntry hands one file of a backup to take and holds it against its digest.
func readEntry(file string, entry *zip.File, sum string, take func(string, int64, io.Reader) error) error {
	r, err := entry.Open()
	if err != nil {
		return &Damaged{File: file, Reason: fmt.Sprintf("%s: %v", entry.Name, err)}
	}
	defer r.Close()
	h := sha256.New()
	content := io.TeeReader(io.LimitReader(r, int64(entry.UncompressedSize64)), h)
	err = take(entry.Name, int64(entry.UncompressedSize64), content)
	if err == nil {
		_, err = io.Copy(io.Discard, content)
	}
	if errors.Is(err, zip.ErrChecksum) || errors.Is(err, zip.ErrFormat) || errors.Is(err, io.ErrUnexpectedEOF) {
		return &Damaged{File: file, Reason: fmt.Sprintf("%s: %v", entry.Name, err)}
	}
	if err != nil {
		return err
	}
	if hex.EncodeToString(h.Sum(nil)) != sum {
		return &Damaged{File: file, Reason: entry.Name + " is not what was backed up"}
	}
	return nil
}

// Restore makes a store from a backup in a folder that is empty or not there.
// Everything is checked before the folder gets its database, so that a restore
// that was broken off cannot be opened as a store. Open it afterwards as usual.
func Restore(ctx context.Context, file, dir string) error {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return fmt.Errorf("restore: %w", err)
	}
	if entries, err := os.ReadDir(dir); err == nil && len(entries) > 0 {
		return fmt.Errorf("restore: %s is not empty; name a folder that is not there yet", dir)
	}
	if err := makeDir(dir); err != nil {
		return fmt.Errorf("restore: %w", err)
	}
	s := &Store{dir: dir, file: filepath.Join(dir, databaseName), now: time.Now}
	part := s.file + ".part"
	_, err = readBackup(ctx, file, func(name string, _ int64, content io.Reader) error {
		target := part
		if sum, ok := strings.CutPrefix(name, attachmentPrefix); ok {
			target = s.attachmentFile(sum)
		}
		return writeNew(target, content)
	})
	if err == nil {
		err = checkFile(ctx, part)
	}
	if err == nil {
		err = os.Rename(part, s.file)
	}
	if err == nil {
		err = syncDirs(dir)
	}
	if err != nil {
		return fmt.Errorf("restore: not done, remove %s: %w", dir, err)
	}
	return nil
}

// writeNew writes a file that is not there yet and makes it durable.
func writeNew(target string, content io.Reader) error {
	if err := makeDir(filepath.Dir(target)); err != nil {
		return err
	}
	f, err := os.OpenFile(target, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	_, err = io.Copy(f, content)
	if err == nil {
		err = f.Sync()
	}
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err == nil {
		err = syncDirs(filepath.Dir(target))
	}
	return err
}
