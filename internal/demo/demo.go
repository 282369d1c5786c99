// Package demo is the invented workshop: jobs that the program shows on a first
// run, and that tests and pictures are made with.
package demo

import (
	"fmt"
	"io/fs"

	"jounce/examples"
	"jounce/internal/catalog"
	"jounce/internal/job"
)

// Author signs the entries of the demo jobs.
const Author = "T. Marrow"

// Shop is the invented shop's own document.
func Shop() *catalog.Shop { return catalog.NewShop(examples.Shop) }

// Jobs are the invented jobs, by their numbers.
func Jobs() ([]*job.Job, error) {
	names, err := fs.Glob(examples.Files, "*.json")
	if err != nil {
		return nil, err
	}
	var jobs []*job.Job
	for _, name := range names {
		text, err := examples.Files.ReadFile(name)
		if err != nil {
			return nil, err
		}
		j, err := job.Decode(text)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		jobs = append(jobs, j)
	}
	return jobs, nil
}
