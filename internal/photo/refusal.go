package photo

import (
	"fmt"
	"strings"
	"unicode"
)

// Why tells refusals apart, so that a page can choose its words and its status.
type Why string

// The reasons.
const (
	Empty       Why = "empty"         // nothing in the file
	NotPicture  Why = "not a picture" // something else than a picture
	WrongFormat Why = "wrong format"  // a picture of a kind that is not read
	TooHeavy    Why = "too heavy"     // too many bytes
	TooLarge    Why = "too large"     // too many pixels, or too much memory for them
	TooSmall    Why = "too small"     // too few pixels to point at
	BrokenOff   Why = "broken off"    // the file ends too early
	Damaged     Why = "damaged"       // the file contradicts itself
	NoScale     Why = "no scale"      // points or lengths are missing
	WrongScale  Why = "wrong scale"   // points or lengths that cannot be
	WrongShape  Why = "wrong shape"   // an outline that cannot be
	WrongChange Why = "wrong change"  // a movement that cannot be
)

// Refusal is the only error of this package besides a cancelled context.
type Refusal struct {
	Why  Why
	Name string // the file or the thing; empty for "The picture"
	What string // what was found and what was expected, without a full stop
	Fix  string // what would help, a sentence without a full stop
	Err  error  // what the reader or decoder said; may be nil
}

// Error is two sentences: what it is, and what would fix it.
func (r *Refusal) Error() string {
	name := r.Name
	if name == "" {
		name = "The picture"
	}
	s := name + ": " + r.What + "."
	if r.Fix != "" {
		s += " " + r.Fix + "."
	}
	return s
}

// Unwrap gives the reader's or decoder's own error.
func (r *Refusal) Unwrap() error { return r.Err }

// refuse is a refusal of something that has no file name of its own.
func refuse(why Why, fix, format string, args ...any) *Refusal {
	return &Refusal{Why: why, What: fmt.Sprintf(format, args...), Fix: fix}
}

// shownName is a file's name as it may stand in a sentence: the last part, no
// control characters, at most 60 characters.
func shownName(name string) string {
	if i := strings.LastIndexAny(name, `/\`); i >= 0 {
		name = name[i+1:]
	}
	name = strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) {
			return -1
		}
		return r
	}, name)
	if r := []rune(name); len(r) > 60 {
		name = string(r[:40]) + "…" + string(r[len(r)-19:])
	}
	return strings.TrimSpace(name)
}

// grouped is a whole number with a comma between thousands.
func grouped(n int) string {
	s := fmt.Sprint(n)
	for i := len(s) - 3; i > 0 && s[i-1] != '-'; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}
