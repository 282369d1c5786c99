package store

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"jounce/internal/job"
)

// snippetSide is how much text a snippet shows on each side [characters].
const snippetSide = 36

// foldRune is what one character becomes for searching: lower case, without
// accents, compatible forms made plain, every kind of dash, apostrophe and space
// made one. It may be empty (a combining accent) or several letters (ß).
func foldRune(r rune) string {
	if r < 0x80 {
		switch {
		case r <= ' ' || r == 0x7f:
			return " "
		case r >= 'A' && r <= 'Z':
			r += 'a' - 'A'
		}
		return string(r)
	}
	var b strings.Builder
	for _, d := range norm.NFKD.String(string(r)) {
		switch d = unicode.ToLower(d); {
		case unicode.Is(unicode.Mn, d):
		case d == 'ß':
			b.WriteString("ss")
		case d == 'ς':
			b.WriteRune('σ')
		case d == '−' || unicode.Is(unicode.Pd, d):
			b.WriteByte('-')
		case d == '’' || d == '‘':
			b.WriteByte('\'')
		case unicode.IsSpace(d) || unicode.IsControl(d):
			b.WriteByte(' ')
		default:
			b.WriteRune(d)
		}
	}
	return b.String()
}

// fold is the form of a text that is stored for searching and asked with.
func fold(s string) string {
	var b strings.Builder
	b.Grow(len(s))
	for _, r := range s {
		b.WriteString(foldRune(r))
	}
	return b.String()
}

// passages are the texts of a save that a search looks through: its number and
// name, then what it brought.
func passages(save job.Save) []job.Passage {
	all := []job.Passage{{Place: job.PlaceNumber, Text: save.Job}, {Place: job.PlaceName, Text: save.Name}}
	for _, p := range save.Text {
		if strings.TrimSpace(p.Text) != "" {
			all = append(all, p)
		}
	}
	return all
}

// find looks for a folded word in the passages as typed.
func find(all []job.Passage, word string) (job.Found, bool) {
	for _, p := range all {
		if f, ok := findIn(p.Text, word); ok {
			f.Place = p.Place
			return f, true
		}
	}
	return job.Found{}, false
}

// findIn looks for a folded word in one text and cuts the snippet around it.
func findIn(text, word string) (job.Found, bool) {
	at := strings.Index(fold(text), word)
	if at < 0 || word == "" {
		return job.Found{}, false
	}
	// Walk the text again to the characters whose folded forms the word covers.
	runes := []rune(text)
	begin, end, folded := len(runes), len(runes), 0
	for i, r := range runes {
		folded += len(foldRune(r))
		if begin == len(runes) && folded > at {
			begin = i
		}
		if folded >= at+len(word) {
			end = i + 1
			break
		}
	}
	for end < len(runes) && foldRune(runes[end]) == "" {
		end++ // an accent written as its own character belongs to the letter before
	}
	from, to := max(begin-snippetSide, 0), min(end+snippetSide, len(runes))
	f := job.Found{Before: string(runes[from:begin]), Match: string(runes[begin:end]), After: string(runes[end:to])}
	if from > 0 {
		f.Before = "…" + f.Before
	}
	if to < len(runes) {
		f.After += "…"
	}
	return f, true
}
