package job

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"
)

// What becomes of a place when a job is begun as a copy of an earlier one stands
// in its tag copy, or in that of the nearest group around it that has one:
//
//	out    left out: measured on the one car, or belonging to it
//	owner  left out: what this keeper wants and where this keeper drives
//	keep   carried over; of a group it speaks for the texts and choices in it
//	all    of a group: carried over with its quantities, which are a maker's or chosen
//	sheet  a quantity, carried over where it says neither by whom, nor with what, nor
//	       when it was read: then it is from a data sheet
//
// A quantity that is not marked itself and does not lie in "all" is taken as
// measured and left out, so that a new one never travels to another car in
// silence. A text or a choice must be decided; a test finds those that are not.
const (
	copyOut   = "out"
	copyOwner = "owner"
	copyKeep  = "keep"
	copyAll   = "all"
	copySheet = "sheet"
)

// Copy begins another job of the same kind of car: what is the kind's carries
// over, with who typed it; what was measured on the one car, its keeper, its
// place and its papers are left out. The copy has no number and no name yet. What
// was left out is LeftOut of the two.
func (j *Job) Copy() *Job {
	out := &Job{Schema: Schema}
	carry(reflect.ValueOf(j.Clone()).Elem(), reflect.ValueOf(out).Elem(), "")
	return out
}

// carry brings from one value into another what carries over; around is the word
// of the group they lie in.
func carry(from, to reflect.Value, around string) {
	for i, at := range placesOf(from.Type()) {
		x, y := from.Field(i), to.Field(i)
		word := at.field.Tag.Get("copy")
		switch {
		case at.name == "schema" || at.name == "id":
		case at.reading:
			if word == "" && around == copyAll {
				word = copyAll
			}
			r := x.Interface().(Reading)
			if word == copyAll || word == copyKeep || word == copySheet && r.By == "" && r.With == "" && r.At == "" {
				y.Set(x)
			}
		case word == "":
			carryInto(x, y, at, around)
		default:
			carryInto(x, y, at, word)
		}
	}
}

// carryInto carries a text, a group or a list whose word is known.
func carryInto(x, y reflect.Value, at place, word string) {
	switch {
	case at.text:
		if word == copyKeep || word == copyAll {
			y.Set(x)
		}
	case x.Kind() == reflect.Struct:
		carry(x, y, word)
	case x.Kind() == reflect.Slice:
		for i := range x.Len() {
			item := reflect.New(x.Type().Elem()).Elem()
			carry(x.Index(i), item, word)
			if item.IsZero() {
				continue // nothing in it carries over
			}
			item.FieldByName("ID").Set(x.Index(i).FieldByName("ID"))
			y.Set(reflect.Append(y, item))
		}
	}
}

// LeftOut lists what a copy does not have of its source: the quantities that have
// to be measured on the new car, and the rest, with the quantities that are the
// keeper's.
func LeftOut(source, copied *Job) (measured, rest []Change) {
	for _, c := range Diff(source, copied) {
		list, _, _ := cutItem(strings.Split(c.Path, ".")[0])
		at, _ := memberOf(reflect.TypeFor[Job](), list)
		switch {
		case c.Before.Empty() || !c.After.Empty():
		case c.Text || at.Tag.Get("copy") == copyOwner:
			rest = append(rest, c)
		default:
			measured = append(measured, c)
		}
	}
	return measured, rest
}

// CopyNote is the note of the first revision of a copy: whose copy it is.
func CopyNote(source string, revision, left int) string {
	return fmt.Sprintf("copied from job %s, revision %d; %d readings left out", source, revision, left)
}

// CopiedFrom reads the note of a first revision; ok is false where it is none of
// a copy.
func CopiedFrom(note string) (source string, revision int, ok bool) {
	rest, ok := strings.CutPrefix(note, "copied from job ")
	if !ok {
		return "", 0, false
	}
	source, rest, _ = strings.Cut(rest, ", revision ")
	number, _, found := strings.Cut(rest, ";")
	revision, err := strconv.Atoi(number)
	return source, revision, found && err == nil && source != "" && revision > 0
}
