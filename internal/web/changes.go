package web

import (
	"time"

	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/study"
)

// changePart is what changed on one page of the record.
type changePart struct {
	Title, Href string
	Lines       []changeLine
}

// changeLine is one place that changed: before and after, with who read it.
type changeLine struct {
	Label, Past   string // in words, and the address of its history
	Before, After stood
	Head          string // of the first place of an item: "spring bellows 110 put in"
	Order         bool   // only the order of a list changed
}

// stood is what stood in a place.
type stood struct{ Text, Who string }

// partsOf groups changes by the pages of the record.
func partsOf(id string, changes []job.Change) []changePart {
	byKey := map[string][]job.Change{}
	for _, c := range changes {
		byKey[sectionOf(c.Path)] = append(byKey[sectionOf(c.Path)], c)
	}
	var out []changePart
	for _, sec := range sections {
		if list := byKey[sec.Key]; len(list) > 0 {
			out = append(out, changePart{sec.Title, "/jobs/" + id + "/record/" + sec.Key, linesOf(id, list)})
		}
	}
	return out
}

func linesOf(id string, changes []job.Change) []changeLine {
	out := make([]changeLine, len(changes))
	item := ""
	for i, c := range changes {
		l := changeLine{Label: c.Label, Past: pastOf(id, c.Path), Before: stoodOf(c.Before), After: stoodOf(c.After), Order: c.Order}
		if c.Item != "" && c.Item != item {
			l.Head = c.Named + map[bool]string{true: " taken out", false: " put in"}[c.Gone]
		}
		item = c.Item
		out[i] = l
	}
	return out
}

func stoodOf(r job.Reading) stood {
	s := stood{Text: r.Value}
	if r.Empty() && r.NotRead != "" {
		s.Text = "not read: " + r.NotRead
	}
	add := func(text string) {
		switch {
		case text == "":
		case s.Who == "":
			s.Who = text
		default:
			s.Who += ", " + text
		}
	}
	add(r.By)
	add(whenRead(r.At))
	add(r.With)
	add(r.Note)
	return s
}

// whenRead is the time of a reading as a page says it.
func whenRead(at string) string {
	if t, err := job.ParseTime(at); err == nil {
		return t.Format("2 January 2006 15:04")
	}
	if t, err := time.Parse(job.DateLayout, at); err == nil {
		return t.Format("2 January 2006")
	}
	return at
}

// turnLine is one finding that the change turned.
type turnLine struct {
	study.Turn
	Href string // the finding on the car's page; empty where it is not there now
}

// turnsPart is what a change did to the verdicts.
type turnsPart struct {
	Turns    []turnLine // verdicts that turned, findings new or gone
	Moved    []turnLine // numbers that moved, the verdict the same
	Was, Is  finding.Tally
	From, To int
	WasAny   bool // there was a revision before
}

// turnsOf compares the findings of two states; now are the findings of the newest
// revision, which the car's page shows.
func turnsOf(was, is, now *opened) turnsPart {
	p := turnsPart{Was: was.Res.Tally, Is: is.Res.Tally, From: was.Rev.Number, To: is.Rev.Number, WasAny: was.Rev.Number > 0}
	for _, t := range study.Turned(was.Res.Findings, is.Res.Findings) {
		l := turnLine{Turn: t}
		if _, ok := findingIn(now.Res, t.Now().ID); ok {
			l.Href = "/jobs/" + now.ID + "#f-" + t.Now().ID
		}
		if t.Before != nil && t.After != nil && t.Before.Verdict == t.After.Verdict && t.Said() == "" {
			p.Moved = append(p.Moved, l)
		} else {
			p.Turns = append(p.Turns, l)
		}
	}
	return p
}
