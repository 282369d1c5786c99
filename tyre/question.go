package tyre

import (
	"strings"
)

// Question says that something on the tyre is not known well enough to go on,
// and what would settle it. It is an error where no answer can be given
// without it.
type Question struct {
	Read     string   // what was read
	Expected string   // what was expected in its place
	Ask      string   // the question, one short sentence
	Answers  []string // answers that can be offered, most likely first
}

// Error is the question in one line.
func (q *Question) Error() string {
	s := "tyre size " + quoted(q.Read) + ": expected " + q.Expected + ". " + q.Ask
	if len(q.Answers) > 0 {
		s += " (" + strings.Join(q.Answers, "; ") + ")"
	}
	return s
}

func quoted(s string) string { return "“" + s + "”" }
