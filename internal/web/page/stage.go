package page

import (
	"reflect"
	"slices"
	"strings"

	"jounce/internal/job"
)

// Stage is the line of the work with its stations.
type Stage struct {
	Stations []Station
	Here     string
	At, Of   int     // number of the present one; 0 when none is said
	Done     float64 // how far the thick line reaches [px of 230]
}

// Station is one stage on the line.
type Station struct {
	Name       string
	Done, Here bool
	Gate       bool    // a hold point stands before it
	X          float64 // [px of 230]
}

// Stages are the stages of the work, as the record names them.
var Stages = func() []string {
	f, _ := reflect.TypeFor[job.Place]().FieldByName("Stage")
	return strings.Split(f.Tag.Get("of"), "|")
}()

// gates are the stages that a hold point stands before.
var gates = []string{"strip and fit", "proof", "handed over"}

// StageOf is the line with the present stage on it.
func StageOf(name string) Stage {
	s := Stage{Here: name, Of: len(Stages)}
	at := slices.Index(Stages, name)
	s.At = at + 1
	step := 222.0 / float64(len(Stages))
	for i, n := range Stages {
		s.Stations = append(s.Stations, Station{Name: n, Done: i < at, Here: i == at, Gate: slices.Contains(gates, n), X: 4 + float64(i)*step})
	}
	s.Done = 4
	if at >= 0 {
		s.Done = 4 + (float64(at)+0.6)*step
	}
	return s
}
