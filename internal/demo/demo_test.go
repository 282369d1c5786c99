package demo

import (
	"regexp"
	"testing"
)

// TestExactJobs finds the three jobs, each with a number, a name and no entry
// that cannot be read.
func TestExactJobs(t *testing.T) {
	jobs, err := Jobs()
	if err != nil {
		t.Fatal(err)
	}
	if len(jobs) != 3 {
		t.Fatalf("%d jobs, want 3", len(jobs))
	}
	for _, j := range jobs {
		if !regexp.MustCompile(`^[0-9]{4}$`).MatchString(j.ID) || j.Name == "" {
			t.Errorf("job %q has the name %q", j.ID, j.Name)
		}
		for _, p := range j.Check() {
			t.Errorf("job %s: %v", j.ID, p)
		}
	}
	if err := Shop().Check(); err != nil {
		t.Error(err)
	}
}
