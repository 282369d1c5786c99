package demo

import (
	"bytes"
	"image/jpeg"
	"testing"

	"jounce/internal/job"
)

// TestPictures: each picture belongs to a job that there is, opens, and has its
// four marks.
func TestPictures(t *testing.T) {
	all, err := Pictures()
	if err != nil || len(all) == 0 {
		t.Fatalf("%d pictures, %v", len(all), err)
	}
	jobs, err := Jobs()
	if err != nil {
		t.Fatal(err)
	}
	hung := 0
	for _, rec := range jobs {
		pics, err := Hang(rec)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range pics {
			hung++
			if m, err := jpeg.Decode(bytes.NewReader(p.JPEG)); err != nil || m.Bounds().Dx() < 1000 {
				t.Errorf("%s: %v", p.Photo.Name, err)
			}
			for _, mark := range []string{p.Photo.FrontHub, p.Photo.RearHub, p.Photo.FrontGround, p.Photo.RearGround} {
				if mark == "" {
					t.Errorf("%s: a mark is missing", p.Photo.Name)
				}
			}
		}
		doc, err := rec.Encode()
		if err != nil {
			t.Fatal(err)
		}
		if again, err := job.Decode(doc); err != nil || len(again.Photos) != len(rec.Photos) {
			t.Errorf("job %s: %v", rec.ID, err)
		}
	}
	if hung != len(all) {
		t.Errorf("%d of %d pictures belong to a job", hung, len(all))
	}
}
