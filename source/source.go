// Package source is the bibliography: from a key to the citation behind it,
// and the mark that stands beside a number on a page.
//
// A key is short and never changes: "S31" is the source S31 of the trade's
// handbook, "COURSE-V" a worked-example text. A published figure names the key
// and the page or equation; whoever doubts it looks here for who printed it and
// how far it may be trusted.
package source

import (
	"sort"
	"strings"
)

// Trust is how much weight a source carries.
type Trust string

// Kinds of trust, the strongest first.
const (
	High       Trust = "high"       // law, standard, authority, reviewed work
	Good       Trust = "good"       // text book, maker's data, careful secondary text
	Fair       Trust = "fair"       // open course, trade text, page without an author
	Worked     Trust = "worked"     // worked example only: its figures are recomputed, never believed
	Practice   Trust = "practice"   // common practice of the trade, no source
	FromMemory Trust = "memory"     // from memory, to be verified before it is printed
	Calculated Trust = "calculated" // worked from physics and stated inputs
)

// Citation says where a figure comes from.
type Citation struct {
	Key       string // never changes
	Author    string // person or body, empty if unknown
	Title     string
	Year      string // as printed, empty if unknown
	Publisher string
	Where     string // chapter, table, edition: what the key covers
	Trust     Trust
	Note      string // what a reader must know before using it
}

// String is the citation in one line.
func (c Citation) String() string {
	var parts []string
	for _, s := range []string{c.Author, c.Title, c.Publisher, c.Year, c.Where} {
		if s != "" {
			parts = append(parts, s)
		}
	}
	line := strings.Join(parts, ", ") + ". Trust: " + string(c.Trust) + "."
	if c.Note != "" {
		line += " " + c.Note
	}
	return line
}

// Published says whether the figure was printed by somebody.
func (c Citation) Published() bool {
	switch c.Trust {
	case Practice, FromMemory, Calculated:
		return false
	}
	return true
}

var byKey = index(handbook, air, car, general)

func index(lists ...[]Citation) map[string]Citation {
	m := map[string]Citation{}
	for _, list := range lists {
		for _, c := range list {
			if _, twice := m[c.Key]; twice {
				panic("source: key " + c.Key + " stands twice")
			}
			m[c.Key] = c
		}
	}
	return m
}

// Of is the citation of a key.
func Of(key string) (Citation, bool) {
	c, ok := byKey[key]
	return c, ok
}

// All is the whole bibliography, by key.
func All() []Citation {
	all := make([]Citation, 0, len(byKey))
	for _, c := range byKey {
		all = append(all, c)
	}
	sort.Slice(all, func(i, j int) bool { return less(all[i].Key, all[j].Key) })
	return all
}

// less puts S9 before S10.
func less(a, b string) bool {
	pa, na := split(a)
	pb, nb := split(b)
	if pa != pb {
		return pa < pb
	}
	if len(na) != len(nb) {
		return len(na) < len(nb)
	}
	return na < nb
}

func split(key string) (letters, digits string) {
	i := len(key)
	for i > 0 && key[i-1] >= '0' && key[i-1] <= '9' {
		i--
	}
	return key[:i], key[i:]
}
