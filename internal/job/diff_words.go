package job

import (
	"strconv"
	"strings"
)

// longestText is how much of a text stands in a line of changes [signs].
const longestText = 40

// String is the change in words: "FL weight 286 kg → 276 kg".
func (c Change) String() string {
	label := c.Label
	switch was, is := short(c.Before), short(c.After); {
	case c.Order:
		return label + " in another order"
	case was == is && c.Before.With != c.After.With:
		return label + " " + is + ", read with " + orNothing(c.Before.With) + " → " + orNothing(c.After.With)
	case was == is && c.Before.Note != c.After.Note:
		return label + " " + is + ", its note"
	case was == is && c.Text && is != "":
		return label + ", " + is + ", written anew" // they differ behind what a line has room for
	case was == is && !c.After.Empty() && !c.Text:
		return label + " " + is + ", read again"
	case is == "":
		return label + " " + was + " taken out"
	case was == "":
		return label + " " + is
	default:
		return label + " " + was + " → " + is
	}
}

// inLine is the change as one of several on a line: of words that name their item
// the item alone is said.
func (c Change) inLine() string {
	if c.Text && strings.HasPrefix(c.Path, "wishes[") && strings.HasSuffix(c.Path, ".words") && !c.Before.Empty() && !c.After.Empty() {
		item, _, _ := strings.Cut(c.Label, "”, ")
		return item + "” in other words"
	}
	return c.String()
}

// short is what stands in a place, on one line.
func short(r Reading) string {
	if r.Empty() && r.NotRead != "" {
		return "not read (" + Short(r.NotRead, longestText) + ")"
	}
	return Short(r.Value, longestText)
}

func orNothing(s string) string {
	if s == "" {
		return "nothing named"
	}
	return s
}

// Words says changes in one sentence without its full stop, the first few of
// them: "FL weight 286 kg → 276 kg; spring bellows 110 put in; and 3 more".
// Places of an item that was put in or taken out are said as that item. It begins
// with a small letter, as it would behind a colon.
func Words(changes []Change, most int) string {
	var out []string
	said := map[string]bool{}
	more := 0
	for _, c := range changes {
		text := c.inLine()
		if c.Item != "" {
			if said[c.Item] {
				continue
			}
			said[c.Item] = true
			text = c.Named + map[bool]string{true: " taken out", false: " put in"}[c.Gone]
		}
		if len(out) == most {
			more++
			continue
		}
		out = append(out, midSentence(text))
	}
	switch {
	case len(out) == 0:
		return "nothing"
	case more > 0:
		out = append(out, "and "+strconv.Itoa(more)+" more")
	}
	return strings.Join(out, "; ")
}
