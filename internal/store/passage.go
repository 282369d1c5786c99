package store

import (
	"encoding/json"
	"strings"

	"jounce/internal/job"
)

// keepPassages is the form in which passages are kept: a JSON array of objects.
func keepPassages(all []job.Passage) (string, error) {
	text, err := json.Marshal(all)
	return string(text), err
}

// eachPassage hands out passages as keepPassages wrote them, in order, until take
// says that it has enough. A page of a search looks through some thousand; those
// written as usual are cut out where they stand, the rest goes the long way.
func eachPassage(kept string, take func(job.Passage) bool) error {
	rest, ok := strings.CutPrefix(kept, "[")
	for ok {
		var p job.Passage
		if rest, ok = strings.CutPrefix(rest, `{"place":"`); !ok {
			break
		}
		if p.Place, rest, ok = cutText(rest); !ok {
			break
		}
		if rest, ok = strings.CutPrefix(rest, `,"text":"`); !ok {
			break
		}
		if p.Text, rest, ok = cutText(rest); !ok {
			break
		}
		if rest, ok = strings.CutPrefix(rest, "}"); !ok {
			break
		}
		if !take(p) || rest == "]" {
			return nil
		}
		rest, ok = strings.CutPrefix(rest, ",")
	}
	var all []job.Passage
	if err := json.Unmarshal([]byte(kept), &all); err != nil {
		return err
	}
	for _, p := range all { // some for the second time, which finds nothing else
		if !take(p) {
			break
		}
	}
	return nil
}

// cutText cuts a JSON string, whose first quotation mark is gone, off a text.
func cutText(s string) (text, rest string, ok bool) {
	end := strings.IndexByte(s, '"')
	if end < 0 {
		return "", "", false
	}
	if strings.IndexByte(s[:end], '\\') < 0 {
		return s[:end], s[end+1:], true
	}
	for end = 0; end < len(s) && s[end] != '"'; end++ {
		if s[end] == '\\' {
			end++
		}
	}
	if end >= len(s) || json.Unmarshal([]byte(`"`+s[:end+1]), &text) != nil {
		return "", "", false
	}
	return text, s[end+1:], true
}
