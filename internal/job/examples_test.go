package job_test

import (
	"io/fs"
	"testing"

	"jounce/examples"
	"jounce/internal/job"
)

func TestExamplesAreWholeDocuments(t *testing.T) {
	names, err := fs.Glob(examples.Files, "*.json")
	if err != nil || len(names) < 3 {
		t.Fatalf("%d documents, %v", len(names), err)
	}
	for _, n := range names {
		data, _ := examples.Files.ReadFile(n)
		j, err := job.Decode(data)
		if err != nil {
			t.Errorf("%s: %v", n, err)
			continue
		}
		for _, p := range j.Check() {
			t.Errorf("%s: %v", n, p)
		}
	}
}
