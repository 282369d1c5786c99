package main

import (
	"bytes"
	"context"
	"fmt"
	"time"

	"jounce/internal/demo"
	"jounce/internal/job"
	"jounce/internal/press"
)

// papers times the design page of each demo job and takes the slowest.
func papers(context.Context, string) ([]row, error) {
	jobs, err := demo.Jobs()
	if err != nil {
		return nil, err
	}
	const runs = 20
	var slowest float64
	var which string
	for _, rec := range jobs {
		var took []float64
		for range runs {
			start := time.Now()
			pdf, err := press.Design(rec, job.Revision{Job: rec.ID}, demo.Shop(), nil)
			took = append(took, ms(time.Since(start)))
			if err != nil || !bytes.HasPrefix(pdf, []byte("%PDF-")) {
				return nil, fmt.Errorf("job %s: no design page: %w", rec.ID, err)
			}
		}
		if m := at(took, 0.5); m > slowest {
			slowest, which = m, rec.ID
		}
	}
	return []row{{what: "design page as PDF, its study included", how: fmt.Sprintf("median of %d, demo job %s, the slowest of the three", runs, which), value: slowest, aim: 150, unit: "ms", digits: 0}}, nil
}
