package store

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"jounce/internal/job"
)

// maxWords and maxQuery are what a search takes: words, and bytes in all.
const (
	maxWords = 8
	maxQuery = 200
)

// mark stands around each character behind the words of a job. No folded text
// holds it.
const mark = "\x1f"

// words splits a query into its folded words.
func words(text string) ([]string, error) {
	if len(text) > maxQuery || !utf8.ValidString(text) {
		return nil, &job.Unfit{Field: "search", Read: short(text), Want: fmt.Sprintf("text of %d bytes at most", maxQuery)}
	}
	all := strings.Fields(fold(text))
	if len(all) > maxWords {
		return nil, &job.Unfit{Field: "search", Read: short(text), Want: fmt.Sprintf("%d words at most", maxWords)}
	}
	return all, nil
}

// searched is the text that is kept for searching a save: the folded words of all
// passages, each once (a query is split into words, so that nothing else can be
// asked for), then every character in them, each once between marks.
func searched(all []job.Passage) string {
	var each []string
	for _, p := range all {
		each = append(each, strings.Fields(fold(p.Text))...)
	}
	slices.Sort(each)
	text := strings.Join(slices.Compact(each), " ")
	letters := []rune(strings.ReplaceAll(text, " ", ""))
	slices.Sort(letters)
	var b strings.Builder
	b.WriteString(text + " " + mark)
	for _, c := range slices.Compact(letters) {
		b.WriteString(string(c) + mark)
	}
	return b.String()
}

// addWords adds the condition that the texts of job j hold each of the words,
// anywhere. It is the one query that an engine may ask in its own way, over the
// index that its own step of the schema makes; what it finds is the same as
//
//	j.id IN (SELECT job FROM word WHERE folded LIKE '%word%' AND …)
//
// The index knows every three characters in a row. A longer word is several of
// them in a row; one of two characters is any three that begin with it, and after
// every word comes a blank; one of one character stands between marks.
func (f *filter) addWords(all []string) {
	if len(all) == 0 {
		return
	}
	var match []string
	var args []any
	for _, w := range all {
		switch utf8.RuneCountInString(w) {
		case 2:
			match = append(match, `'(' || (SELECT coalesce(group_concat('"' || replace(term, '"', '""') || '"', ' OR '), '""') FROM word_gram WHERE term >= ? AND term < ?) || ')'`)
			args = append(args, w, w+"\xff") // no text holds that byte
		case 1:
			w = mark + w + mark
			fallthrough
		default:
			match = append(match, `?`)
			args = append(args, `"`+strings.ReplaceAll(w, `"`, `""`)+`"`)
		}
	}
	// The index first, then from its numbers to the jobs without reading their
	// texts. The plus keeps the order of the list: it is walked until the page is
	// full, rather than every job found being read and sorted.
	f.add(`+j.id IN (SELECT w.job FROM word_index i CROSS JOIN word w INDEXED BY word_by_number ON w.number = i.rowid WHERE i.word_index MATCH `+
		strings.Join(match, ` || ' AND ' || `)+`)`, args...)
}
