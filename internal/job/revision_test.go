package job_test

import (
	"testing"
	"time"

	"jounce/internal/job"
)

// TestPinnedSeal keeps the digest from changing: an old store must stay provable.
// The value was computed apart, with a few lines of Python's hashlib and struct.
func TestPinnedSeal(t *testing.T) {
	r := job.Revision{
		Job: "0412", Number: 2, Document: []byte(`{"a":1}`), Author: "T. Marrow",
		At: time.UnixMicro(1_741_942_800_123_456).UTC(), Note: "baseline read", Previous: "00ff",
	}
	const want = "15a9fb176b9ce6fadcebd94c83da72d24ea656d6d41979aeae922ee20d122e60"
	if got := r.Seal(); got != want {
		t.Errorf("digest %s, want %s", got, want)
	}
	r.Digest = "anything"
	if r.Seal() != want {
		t.Error("the digest depends on the digest field itself")
	}
}

// TestLimitSealCoversEverything changes one field after another, and moves a
// letter from one field to its neighbour: each must give another digest.
func TestLimitSealCoversEverything(t *testing.T) {
	base := job.Revision{Job: "j", Number: 1, Document: []byte(`{}`), Author: "ab", At: time.UnixMicro(1), Note: "cd", Previous: "ef"}
	seen := map[string]string{base.Seal(): "the revision itself"}
	for name, change := range map[string]func(*job.Revision){
		"job":               func(r *job.Revision) { r.Job = "k" },
		"number":            func(r *job.Revision) { r.Number = 2 },
		"document":          func(r *job.Revision) { r.Document = []byte(`[]`) },
		"author":            func(r *job.Revision) { r.Author = "ax" },
		"time":              func(r *job.Revision) { r.At = time.UnixMicro(2) },
		"note":              func(r *job.Revision) { r.Note = "cx" },
		"previous":          func(r *job.Revision) { r.Previous = "ex" },
		"author and note":   func(r *job.Revision) { r.Author, r.Note = "abc", "d" },
		"note and previous": func(r *job.Revision) { r.Note, r.Previous = "cde", "f" },
	} {
		r := base
		change(&r)
		if other, ok := seen[r.Seal()]; ok {
			t.Errorf("changed %s: same digest as %s", name, other)
		}
		seen[r.Seal()] = name
	}
}
