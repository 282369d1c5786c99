package study_test

import (
	"testing"

	"jounce/examples"
	"jounce/internal/catalog"
	"jounce/internal/job"
	"jounce/internal/study"
)

// quill is the worked car with other lines in the table of its front spring.
func quill(t *testing.T, points ...job.SpringPoint) *study.Result {
	t.Helper()
	b, err := examples.Files.ReadFile("0412-quill-saloon.json")
	if err != nil {
		t.Fatal(err)
	}
	rec, err := job.Decode(b)
	if err != nil {
		t.Fatal(err)
	}
	if len(points) > 0 {
		rec.Springs[0].Points = points
	} else {
		rec.Springs[0].Points[4].Load = job.Reading{}
	}
	return study.Of(rec, catalog.NewShop("x"))
}

func point(id, pressure, height, load string) job.SpringPoint {
	return job.SpringPoint{ID: id, Pressure: job.Reading{Value: pressure}, Height: job.Reading{Value: height}, Load: job.Reading{Value: load}}
}

// A table that ends below the height at ROAD gives no pressure and no fault.
func TestLimitTableThatDoesNotReachRoad(t *testing.T) {
	r := quill(t, point("p1", "2 bar", "70 mm", "1705 N"), point("p2", "2 bar", "90 mm", "1500 N"))
	if r.Corners[study.FL].Pressure[1].Known() {
		t.Error("a pressure outside the table")
	}
	if r.Corners[study.FL].Gap == "" {
		t.Error("no word why there is no pressure")
	}
}

// A line without a load is not printed by the maker; the others count.
func TestLimitLineWithoutLoad(t *testing.T) {
	r := quill(t)
	if !r.Corners[study.FL].Pressure[1].Known() || r.Axles[0].Chart == nil {
		t.Errorf("no pressure with one load not printed: %s", r.Corners[study.FL].Gap)
	}
}
