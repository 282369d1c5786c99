package quantity

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// Question is the error for a text that has more than one sensible meaning.
// Nothing is assumed; one of the answers, typed instead, settles it.
type Question struct {
	Read     string   // what was typed
	Expected string   // what the place wants: "a gauge pressure such as 3.5 bar"
	Looks    string   // what the text looks like: "no unit"
	Ask      string   // "100 psi (6.9 bar) or 100 bar?"
	Answers  []string // texts that Parse accepts, one for each meaning
}

// Error is the question in one or two sentences.
func (q *Question) Error() string { return quoted(q.Read) + " " + q.Looks + ". " + q.Ask }

// Problem is the error for a text that cannot be read at all.
type Problem struct {
	Read     string // what was typed
	Expected string // what the place wants: "a length such as 350 mm"
	Fault    string // what is wrong: "kg is a mass"
	Fix      string // what would fix it: "Type a length such as 350 mm."
}

// Error says what was read, what is wrong with it and what would fix it.
func (p *Problem) Error() string { return quoted(p.Read) + ": " + p.Fault + ". " + p.Fix }

// quoted is a typed text made safe for a message: short, on one line.
func quoted(s string) string {
	const most = 40 // runes shown of a long text
	s = strings.ToValidUTF8(s, "\uFFFD")
	if utf8.RuneCountInString(s) > most {
		s = string([]rune(s)[:most]) + "…"
	}
	plain := true
	for _, r := range s {
		if !shown(r) {
			plain = false
			break
		}
	}
	if plain {
		return `"` + s + `"`
	}
	return strconv.Quote(s)
}

func expected(k Kind) string { return k.Words() + " such as " + k.Example() }

func problem(k Kind, read, fault, fix string) *Problem {
	if fix == "" {
		fix = "Type " + expected(k) + "."
	}
	return &Problem{Read: read, Expected: expected(k), Fault: fault, Fix: fix}
}
