package store

import (
	"bytes"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"jounce/internal/job"
)

// snippetSide is how much text a snippet shows on each side [characters].
const snippetSide = 36

// foldRune is what one character becomes for searching: lower case, without
// accents, compatible forms made plain, every kind of dash, apostrophe and space
// made one. It may be empty (a combining accent) or several letters (ß).
func foldRune(r rune) string {
	if r < utf8.RuneSelf {
		return string(rune(foldByte(byte(r))))
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

// foldByte is foldRune for a byte that is a character.
func foldByte(b byte) byte {
	switch {
	case b <= ' ' || b == 0x7f:
		return ' '
	case b >= 'A' && b <= 'Z':
		return b + 'a' - 'A'
	}
	return b
}

// fold is the form of a text that is stored for searching and asked with.
func fold(s string) string { return string(appendFold(make([]byte, 0, len(s)), s)) }

// appendFold appends the folded form of a text.
func appendFold(to []byte, s string) []byte {
	for i := 0; i < len(s); {
		if s[i] < utf8.RuneSelf {
			to = append(to, foldByte(s[i]))
			i++
			continue
		}
		r, n := utf8.DecodeRuneInString(s[i:])
		to = append(to, foldRune(r)...)
		i += n
	}
	return to
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

// findAll looks for folded words in the passages of a job, as they are kept.
// Words that stand nowhere are left out.
func findAll(kept string, words []string) ([]job.Found, error) {
	met := make([]job.Found, len(words))
	done := make([]bool, len(words))
	left := len(words)
	var folded []byte
	err := eachPassage(kept, func(p job.Passage) bool {
		folded = appendFold(folded[:0], p.Text)
		for i, w := range words {
			if done[i] || !bytes.Contains(folded, []byte(w)) {
				continue
			}
			if met[i], done[i] = findIn(p.Text, w); done[i] {
				met[i].Place = p.Place
				left--
			}
		}
		return left > 0
	})
	var found []job.Found
	for i, f := range met {
		if done[i] {
			found = append(found, f)
		}
	}
	return found, err
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
