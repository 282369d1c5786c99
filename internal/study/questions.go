package study

import "strconv"

// questions asks everything that the program can ask, in the order in which the
// answers stand on each other.
func (v *view) questions() {
	if len(v.out.Refusal) > 0 {
		v.body()
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
	v.body()
	v.path()
	v.touches()
	v.ways()
	v.leaks()
	v.wishes()
	v.wishMarks()
}

func itoa(n int) string { return strconv.Itoa(n) }
