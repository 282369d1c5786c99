package press

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"jounce/internal/catalog"
	"jounce/internal/job"
)

var shop = catalog.NewShop("Thornhythe Coachworks")

// example is an example of the repository as revision 31.
func example(t testing.TB, name string) (*job.Job, job.Revision) {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "examples", name+".json"))
	if err != nil {
		t.Fatal(err)
	}
	rec, err := job.Decode(b)
	if err != nil {
		t.Fatal(err)
	}
	return rec, revision(t, rec)
}

func revision(t testing.TB, rec *job.Job) job.Revision {
	t.Helper()
	b, err := rec.Encode()
	if err != nil {
		t.Fatal(err)
	}
	rev := job.Revision{Job: rec.ID, Number: 31, Document: b, Author: "T. Marrow", At: time.Date(2026, 4, 3, 10, 42, 0, 0, time.UTC)}
	rev.Digest = rev.Seal()
	return rev
}

var names = []string{"0398-fenn-estate", "0405-hale-pickup", "0412-quill-saloon"}
