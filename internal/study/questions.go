package study

import "strconv"

// questions asks everything that the program can ask, in the order in which the
// answers stand on each other.
func (v *view) questions() {
	v.leaks()
}

// refusals names what this car is refused for.
func (v *view) refusals() {}

func (v *view) leaks() {}

func itoa(n int) string { return strconv.Itoa(n) }
