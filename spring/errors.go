package spring

import (
	"fmt"
	"strings"
)

// Missing says which readings an answer waits for.
type Missing struct {
	For  string   // what was asked
	What []string // what is not known, first to be read first
}

func (e *Missing) Error() string {
	return e.For + " waits for " + strings.Join(e.What, " and ")
}

// Outside says that a value lies outside what the data or the method cover.
type Outside struct {
	What      string  // the value's name
	Value     float64 // as given [Unit]
	Low, High float64 // the limits [Unit]
	Unit      string  // unit of the three figures as shown
	Why       string  // whose limits they are, and what would help
}

func (e *Outside) Error() string {
	return fmt.Sprintf("%s %.4g %s is outside %.4g to %.4g %s, %s", e.What, e.Value, e.Unit, e.Low, e.High, e.Unit, e.Why)
}

// Question says that a figure was read that makes no sense in its place.
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

func badNumber(what string, v float64, expected string) error {
	return &Question{Read: fmt.Sprintf("%s %g", what, v), Expected: expected, Ask: "What is right?"}
}

const (
	bar = 1e5  // [Pa]
	mm  = 1e-3 // [m]
)
