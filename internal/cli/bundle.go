package cli

import (
	"archive/zip"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"strings"

	"jounce/internal/job"
	"jounce/internal/photo"
	"jounce/internal/store"
)

// A job's file with its pictures is a zip archive: the document as job.json and
// each picture's file as pictures/SHA256.jpg. The same job gives the same bytes.
const (
	bundleEnd      = ".zip"
	bundleDocument = "job.json"
	bundlePictures = "pictures/"
)

// The most that is taken out of an archive [B]: a document, and one picture.
const (
	mostDocument = 16 << 20
	mostPicture  = 8 << 20
)

// bundle is a record with the files of its pictures by SHA-256.
type bundle struct {
	rec   *job.Job
	files map[string][]byte
	notes []string // pictures whose files did not come along
}

// pack makes the archive.
func (b bundle) pack() ([]byte, error) {
	text, err := b.rec.Encode()
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	put := func(name string, method uint16, content []byte) error {
		w, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: method})
		if err != nil {
			return err
		}
		_, err = w.Write(content)
		return err
	}
	if err := put(bundleDocument, zip.Deflate, text); err != nil {
		return nil, err
	}
	done := map[string]bool{}
	for _, ph := range b.rec.Photos {
		if f, ok := b.files[ph.File]; ok && !done[ph.File] {
			done[ph.File] = true
			if err := put(bundlePictures+ph.File+".jpg", zip.Store, f); err != nil {
				return nil, err
			}
		}
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// bundleOf is a record with the files that a store has for its pictures. One
// that the store has not is named in the notes.
func bundleOf(ctx context.Context, s *store.Store, rec *job.Job) (bundle, error) {
	b := bundle{rec: rec, files: map[string][]byte{}}
	for _, ph := range rec.Photos {
		if ph.File == "" || b.files[ph.File] != nil {
			continue
		}
		_, f, err := s.Get(ctx, rec.ID, ph.File)
		if errors.Is(err, job.ErrNotFound) {
			b.notes = append(b.notes, "the file of the picture "+pictureName(ph)+" is not in the record; the document goes without it")
			continue
		}
		if err != nil {
			return b, err
		}
		text, err := io.ReadAll(f)
		f.Close()
		if err != nil {
			return b, fmt.Errorf("job %s, picture %s: %w", rec.ID, pictureName(ph), err)
		}
		b.files[ph.File] = text
	}
	return b, nil
}

func pictureName(ph job.Photo) string {
	if strings.TrimSpace(ph.Name) != "" {
		return fmt.Sprintf("%q", ph.Name)
	}
	return ph.ID
}

// isBundle tells an archive from a document.
func isBundle(text []byte) bool { return bytes.HasPrefix(text, []byte("PK\x03\x04")) }

// openBundle reads an archive. A picture whose content is not what its name says,
// or no picture, is refused with all.
func openBundle(name string, text []byte) (bundle, error) {
	b := bundle{files: map[string][]byte{}}
	z, err := zip.NewReader(bytes.NewReader(text), int64(len(text)))
	if err != nil {
		return b, faulty(fmt.Errorf("%s: it is no whole archive: %w", name, err))
	}
	doc, err := member(z, bundleDocument, mostDocument)
	if err != nil {
		return b, faulty(fmt.Errorf("%s: %w", name, err))
	}
	if b.rec, err = job.Decode(doc); err != nil {
		return b, faulty(prefixed(name+", "+bundleDocument, err))
	}
	for _, ph := range b.rec.Photos {
		if ph.File == "" || b.files[ph.File] != nil {
			continue
		}
		at := bundlePictures + ph.File + ".jpg"
		f, err := member(z, at, mostPicture)
		if errors.Is(err, errNoMember) {
			b.notes = append(b.notes, "the file of the picture "+pictureName(ph)+" is not in "+name+"; its entry stays without it")
			continue
		}
		if err == nil {
			if sum := sha256.Sum256(f); hex.EncodeToString(sum[:]) != ph.File {
				err = fmt.Errorf("%s is not what its name says: it was changed on the way", at)
			} else if _, no := photo.Open(f); no != nil {
				err = fmt.Errorf("%s: %w", at, no)
			}
		}
		if err != nil {
			return b, faulty(fmt.Errorf("%s: %w", name, err))
		}
		b.files[ph.File] = f
	}
	return b, nil
}

var errNoMember = errors.New("it is not in the archive")

// member is one file of an archive, of at most so many bytes.
func member(z *zip.Reader, name string, most int64) ([]byte, error) {
	for _, f := range z.File {
		if f.Name != name {
			continue
		}
		r, err := f.Open()
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		defer r.Close()
		text, err := io.ReadAll(io.LimitReader(r, most+1))
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		if int64(len(text)) > most {
			return nil, fmt.Errorf("%s has more than %d MB, the most that is taken", name, most>>20)
		}
		return text, nil
	}
	return nil, fmt.Errorf("%s: %w", name, errNoMember)
}

// bundle reads a document, or an archive with its pictures.
func (p *program) bundle(name string) (bundle, error) {
	text, err := p.read(name)
	if err != nil {
		return bundle{}, err
	}
	if isBundle(text) {
		return openBundle(name, text)
	}
	rec, err := job.Decode(text)
	if err != nil {
		return bundle{}, faulty(prefixed(name, err))
	}
	return bundle{rec: rec}, nil
}

// file gives the file of a picture for a paper.
func (b bundle) file(sum string) ([]byte, error) {
	if f, ok := b.files[sum]; ok {
		return f, nil
	}
	return nil, errNoMember
}

// keep puts the files of a bundle's pictures with a job that is saved.
func (b bundle) keep(ctx context.Context, s *store.Store, id string) error {
	for _, ph := range b.rec.Photos {
		f, ok := b.files[ph.File]
		if !ok {
			continue
		}
		name := ph.Name
		if strings.TrimSpace(name) == "" {
			name = "picture"
		}
		if _, err := s.Put(ctx, id, name, "image/jpeg", bytes.NewReader(f), mostPicture); err != nil {
			return fmt.Errorf("job %s is taken, and the picture %s is not: %w", id, pictureName(ph), err)
		}
	}
	return nil
}

// note writes what somebody should know beside the answer.
func (p *program) note(notes []string) {
	for _, n := range notes {
		fmt.Fprintf(p.Err, "jounce: %s\n", n)
	}
}
