package stance

import (
	"fmt"
	"math"
	"strings"
)

// Missing says which readings an answer waits for.
type Missing struct {
	For  string   // what was asked
	What []string // what is not known, first to be read first
}

func (e *Missing) Error() string { return e.For + " waits for " + strings.Join(e.What, " and ") }

// Question says that a figure makes no sense in its place.
type Question struct {
	Read     string   // what was read
	Expected string   // what was expected
	Ask      string   // the question
	Answers  []string // answers that can be offered
}

func (e *Question) Error() string {
	s := e.Read + ": expected " + e.Expected + ". " + e.Ask
	if len(e.Answers) > 0 {
		s += " (" + strings.Join(e.Answers, "; ") + ")"
	}
	return s
}

func bad(what string, v float64, expected string) error {
	return &Question{Read: fmt.Sprintf("%s %.6g", what, v), Expected: expected, Ask: "What is right?"}
}

func above(v float64) bool  { return v > 0 && !math.IsInf(v, 0) }
func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

const mm = 1e-3 // [m]
