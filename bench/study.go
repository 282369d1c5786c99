package main

import (
	"context"
	"fmt"
	"time"

	"jounce/internal/demo"
	"jounce/internal/study"
)

// studies times the study of each demo job and takes the slowest.
func studies(context.Context, string) ([]row, error) {
	jobs, err := demo.Jobs()
	if err != nil {
		return nil, err
	}
	const runs = 300
	var slowest float64
	var which string
	for _, rec := range jobs {
		var took []float64
		for range runs {
			start := time.Now()
			res := study.Of(rec, demo.Shop())
			took = append(took, ms(time.Since(start)))
			if len(res.Findings) == 0 {
				return nil, fmt.Errorf("job %s: no findings", rec.ID)
			}
		}
		if m := at(took, 0.5); m > slowest {
			slowest, which = m, rec.ID
		}
	}
	return []row{{what: "study of one job", how: fmt.Sprintf("median of %d, demo job %s, the slowest of the three", runs, which), value: slowest, aim: 2, unit: "ms", digits: 2}}, nil
}
