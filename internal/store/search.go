package store

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"jounce/internal/job"
)

// maxWords and maxQuery are what a search takes: words, and bytes in all.
const (
	maxWords = 8
	maxQuery = 200
)

// indexed is the least length of a word that the index knows [characters].
const indexed = 3

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

// addWords adds the condition that the texts of job j hold each of the words,
// anywhere. It is the one query that an engine may ask in its own way, over the
// index that its own step of the schema makes; what it finds is the same as
//
//	j.id IN (SELECT job FROM word WHERE folded LIKE '%word%' AND …)
//
// which is how words too short for the index are looked for.
func (f *filter) addWords(all []string) {
	if len(all) == 0 {
		return
	}
	var long, where []string
	var args []any
	for _, w := range all {
		if utf8.RuneCountInString(w) >= indexed {
			long = append(long, `"`+strings.ReplaceAll(w, `"`, `""`)+`"`)
			continue
		}
		where = append(where, `w.folded LIKE ? ESCAPE '\'`)
		args = append(args, likePattern(w))
	}
	from := `word w`
	if len(long) > 0 {
		// The index first, then from its numbers to the jobs; the index over both
		// saves reading the texts when nothing in them is asked for.
		by := ""
		if len(where) == 0 {
			by = ` INDEXED BY word_by_number`
		}
		from = `word_index i CROSS JOIN word w` + by + ` ON w.number = i.rowid`
		where = append(where, `i.word_index MATCH ?`)
		args = append(args, strings.Join(long, " AND "))
	}
	// The plus keeps the order of the list: it is walked until the page is full,
	// rather than every job found being read and sorted.
	f.add(`+j.id IN (SELECT w.job FROM `+from+` WHERE `+strings.Join(where, " AND ")+`)`, args...)
}

// likePattern is the LIKE pattern, with \ as its escape, for texts that hold a word.
func likePattern(word string) string {
	return "%" + strings.NewReplacer(`\`, `\\`, `%`, `\%`, `_`, `\_`).Replace(word) + "%"
}
