package study

import (
	"strconv"

	"jounce/internal/job"
	"jounce/tyre"
)

// questions asks everything that the program can ask, in the order in which the
// answers stand on each other.
func (v *view) questions() {
	if len(v.out.Refusal) > 0 {
		v.leaks()
		return
	}
	v.entries()
	v.presets()
	v.weights()
	v.tyres()
	v.springs()
	v.travel()
	v.heights()
	v.leaks()
	v.wishes()
}

// question is what a tyre's marking leaves open.
func (v *view) question(path, text string, q tyre.Question) job.Problem {
	p := job.Problem{Path: path, Label: path, Read: text, Says: q.Error(), Answers: q.Answers}
	if f, ok := v.place(path); ok {
		p.Label = f.Label
	}
	return p
}

func itoa(n int) string { return strconv.Itoa(n) }
