package cli

import (
	"archive/zip"
	"bytes"
	"io"
	"strings"
	"testing"
	"time"

	"jounce/internal/demo"
	"jounce/internal/job"
	"jounce/internal/store"
	"jounce/internal/web"
)

// shelved is a store with the invented jobs and their pictures.
func shelved(t *testing.T, full bool) *store.Store {
	t.Helper()
	s, err := store.Open(t.Context(), t.TempDir(), store.Options{Now: time.Now})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	if full {
		if err := fill(t.Context(), s); err != nil {
			t.Fatal(err)
		}
	}
	return s
}

func recordOf(t *testing.T, s *store.Store, id string) *job.Job {
	t.Helper()
	rev, err := s.Load(t.Context(), id)
	if err != nil {
		t.Fatal(err)
	}
	rec, err := job.Decode(rev.Document)
	if err != nil {
		t.Fatal(err)
	}
	return rec
}

// TestConservesPictures takes a job with its pictures out of one store and into
// another: the same record, the same bytes of every picture.
func TestConservesPictures(t *testing.T) {
	from := shelved(t, true)
	rec := recordOf(t, from, "0412")
	b, err := bundleOf(t.Context(), from, rec)
	if err != nil || len(b.files) == 0 || len(b.notes) != 0 {
		t.Fatalf("%d files, %v, %v", len(b.files), b.notes, err)
	}
	text, err := b.pack()
	if err != nil {
		t.Fatal(err)
	}
	if again, err := b.pack(); err != nil || !bytes.Equal(text, again) {
		t.Errorf("packed twice: %v, not the same bytes", err)
	}
	in, err := openBundle("0412.zip", text)
	if err != nil {
		t.Fatal(err)
	}
	to := shelved(t, false)
	rev, err := take(t.Context(), to, in.rec, "A. Fenn", "", false)
	if err != nil {
		t.Fatal(err)
	}
	if err := in.keep(t.Context(), to, rev.Job); err != nil {
		t.Fatal(err)
	}
	got := recordOf(t, to, "0412")
	if d := job.Diff(rec, got); len(d) != 0 {
		t.Errorf("the record came back changed: %v", d)
	}
	for _, ph := range rec.Photos {
		_, f, err := to.Get(t.Context(), "0412", ph.File)
		if err != nil {
			t.Fatal(err)
		}
		have, _ := io.ReadAll(f)
		f.Close()
		if !bytes.Equal(have, b.files[ph.File]) {
			t.Errorf("picture %s: %d bytes came back, %d were sent", ph.ID, len(have), len(b.files[ph.File]))
		}
	}
}

// rezip makes the archive anew, each member changed.
func rezip(t *testing.T, text []byte, change func(name string, content []byte) (string, []byte)) []byte {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(text), int64(len(text)))
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		b, _ := io.ReadAll(r)
		r.Close()
		name, content := change(f.Name, b)
		if name == "" {
			continue
		}
		m, err := w.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		_, _ = m.Write(content)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// TestBundleRefused: archives that were changed on the way.
func TestBundleRefused(t *testing.T) {
	jobs, err := demo.Jobs()
	if err != nil {
		t.Fatal(err)
	}
	var b bundle
	for _, rec := range jobs {
		if pics, err := demo.Hang(rec); err != nil {
			t.Fatal(err)
		} else if len(pics) > 0 {
			b = bundle{rec: rec, files: map[string][]byte{pics[0].Photo.File: pics[0].JPEG}}
		}
	}
	good, err := b.pack()
	if err != nil {
		t.Fatal(err)
	}
	isPicture := func(name string) bool { return strings.HasPrefix(name, bundlePictures) }
	for _, c := range []struct {
		name string
		text []byte
		says string
	}{
		{"cut", good[:len(good)/2], "no whole archive"},
		{"without its document", rezip(t, good, func(n string, c []byte) (string, []byte) {
			if n == bundleDocument {
				return "", nil
			}
			return n, c
		}), "job.json: it is not in the archive"},
		{"another picture under the name", rezip(t, good, func(n string, c []byte) (string, []byte) {
			if isPicture(n) {
				c = append(bytes.Clone(c), 0)
			}
			return n, c
		}), "changed on the way"},
		{"a document that is none", rezip(t, good, func(n string, c []byte) (string, []byte) {
			if n == bundleDocument {
				c = []byte("{")
			}
			return n, c
		}), "job.json"},
		{"a picture without end", rezip(t, good, func(n string, c []byte) (string, []byte) {
			if isPicture(n) {
				c = make([]byte, mostPicture+1)
			}
			return n, c
		}), "more than 8 MB"},
	} {
		if _, err := openBundle("0412.zip", c.text); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want %q", c.name, err, c.says)
		}
	}
	left, err := openBundle("0412.zip", rezip(t, good, func(n string, c []byte) (string, []byte) {
		if isPicture(n) {
			return "", nil
		}
		return n, c
	}))
	if err != nil || len(left.notes) != 1 || len(left.files) != 0 {
		t.Errorf("without the picture's file: %v, notes %q; expected that it is taken and said", err, left.notes)
	}
}

// TestDemoShowsItsPicture: what the demo's pages need is in its store.
func TestDemoShowsItsPicture(t *testing.T) {
	s := shelved(t, true)
	var files web.Attachments = s
	rec := recordOf(t, s, "0412")
	if len(rec.Photos) == 0 {
		t.Fatal("job 0412 has no picture")
	}
	if _, f, err := files.Get(t.Context(), "0412", rec.Photos[0].File); err != nil {
		t.Error(err)
	} else {
		f.Close()
	}
}
