package form

import (
	"maps"
	"strings"

	"jounce/internal/job"
)

// Swap is the answer that readings were written in each other's place:
// "corners.FL.weight=corners.RL.weight corners.FR.weight=corners.RR.weight".
const Swap = ":swap"

// swapAnswer is a swap as a form sends it.
func swapAnswer(s job.Swap) string {
	parts := make([]string, len(s.Pairs))
	for i, p := range s.Pairs {
		parts[i] = p[0] + "=" + p[1]
	}
	return strings.Join(parts, " ")
}

// swapsOf reads the swaps of a form.
func swapsOf(answers []string) [][2]string {
	var out [][2]string
	for _, a := range answers {
		for _, pair := range strings.Fields(a) {
			if x, y, ok := strings.Cut(pair, "="); ok {
				out = append(out, [2]string{x, y})
			}
		}
	}
	return out
}

// swapped puts the texts of the swaps in each other's place. A place that the
// form does not hold has the text of the record that its page showed.
func (t Typed) swapped(shown *job.Job) Typed {
	if len(t.Swaps) == 0 {
		return t
	}
	t.Texts = maps.Clone(t.Texts)
	text := func(path string) string {
		if s, ok := t.Texts[path]; ok {
			return s
		}
		if f, err := shown.Field(path, false); err == nil {
			return f.Content()
		}
		return ""
	}
	for _, p := range t.Swaps {
		t.Texts[p[0]], t.Texts[p[1]] = text(p[1]), text(p[0])
	}
	return t
}
