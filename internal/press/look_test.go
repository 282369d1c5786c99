package press

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"jounce/internal/demo"
)

// TestLookSheet prints the customer's picture at the four presets: a sheet of its
// own with four pictures, their numbers and what they cannot show.
func TestLookSheet(t *testing.T) {
	rec, _ := example(t, "0412-quill-saloon")
	pics, err := demo.Hang(rec)
	if err != nil || len(pics) == 0 {
		t.Fatalf("%d pictures, %v", len(pics), err)
	}
	rev := revision(t, rec)
	files := func(sum string) ([]byte, error) {
		if sum != pics[0].Photo.File {
			return nil, errors.New("another file")
		}
		return pics[0].JPEG, nil
	}
	with, err := Design(rec, rev, shop, files)
	if err != nil {
		t.Fatal(err)
	}
	if again, err := Design(rec, rev, shop, files); err != nil || !bytes.Equal(with, again) {
		t.Errorf("printed twice: %v, the same bytes: %t", err, bytes.Equal(with, again))
	}
	without, err := Design(rec, rev, shop, nil)
	if err != nil {
		t.Fatal(err)
	}
	lost, err := Design(rec, rev, shop, func(string) ([]byte, error) { return nil, errors.New("gone") })
	if err != nil || !bytes.Equal(lost, without) {
		t.Errorf("without the file: %v, expected the paper without a picture", err)
	}
	name := written(t, with)
	sheets := strings.Split(strings.TrimRight(run(t, "pdftotext", "-layout", name, "-"), "\f\n"), "\f")
	last := one(sheets[len(sheets)-1])
	for _, s := range []string{"How it will look", "DOWN", "ROAD", "HUMP", "HIGH", "Sill 78", "60 mm down", "20 mm up", "45 mm up", "the far side is not", "assumed at"} {
		if !strings.Contains(last, s) {
			t.Errorf("the last sheet does not say %q:\n%s", s, last)
		}
	}
	list := run(t, "pdfimages", "-list", name)
	if n := strings.Count(list, "jpeg"); n != 4 {
		t.Errorf("%d pictures in the paper, expected 4:\n%s", n, list)
	}
	if out := run(t, "qpdf", "--check", name); strings.Contains(out, "WARNING") {
		t.Errorf("qpdf: %s", out)
	}
}
