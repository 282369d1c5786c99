package job

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
	"time"
)

// Shop is the id under which the shop's own document is kept. It is versioned
// like a job and never stands in the list of jobs.
const Shop = "shop"

// Revision is one saved state of a document. It is never changed after it was
// saved: the next state is the next revision.
type Revision struct {
	Job      string    // id of the job, or Shop
	Number   int       // 1, 2, 3, …
	Document []byte    // canonical JSON, see Canonical
	Author   string    // the name that signed the save
	At       time.Time // UTC, whole microseconds
	Note     string    // why, in the author's words; may be empty
	Previous string    // Digest of revision Number − 1; empty for the first
	Digest   string    // see Seal
}

// Seal computes the digest of a revision: SHA-256, in lower-case hexadecimal,
// over everything the revision says and the digest of the one before, so that
// no saved revision can be altered without breaking the chain after it.
//
// What is hashed, in this order: the line "jounce revision 1\n"; the number and
// the time as big-endian 64-bit integers (the time in microseconds since
// 1970-01-01 UTC); then job, author, note, previous and document, each preceded
// by its length in bytes as a big-endian 64-bit integer. The lengths keep two
// different revisions from ever giving the same bytes.
//
// The chain proves alteration only to somebody who kept a later digest, on
// paper or in a backup: who can rewrite the whole store can seal it afresh.
func (r Revision) Seal() string {
	h := sha256.New()
	h.Write([]byte("jounce revision 1\n"))
	var n [8]byte
	number := func(v int64) {
		binary.BigEndian.PutUint64(n[:], uint64(v))
		h.Write(n[:])
	}
	number(int64(r.Number))
	number(r.At.UnixMicro())
	for _, field := range [][]byte{
		[]byte(r.Job), []byte(r.Author), []byte(r.Note), []byte(r.Previous), r.Document,
	} {
		number(int64(len(field)))
		h.Write(field)
	}
	return hex.EncodeToString(h.Sum(nil))
}

// Save is a document on its way into the store, with what the list of jobs
// shows and searches. Name, State, Due, Summary and Text always belong to this
// revision: they replace what the one before gave.
type Save struct {
	Job      string // id; letters, digits, "-", "_" and ".", 64 bytes at most
	Base     int    // the revision this one was based on; 0 makes the job
	Document []byte // JSON; kept in its canonical form
	Author   string // must not be empty
	Note     string

	Name    string    // as people call the car; may be empty
	State   string    // one word the list is narrowed by, such as "open"
	Due     string    // promised date, "2006-01-02", or empty
	Summary []byte    // JSON that the list hands back unread; empty is allowed
	Text    []Passage // every word somebody may look for
}

// Passage is a piece of searchable text and the place where it stands.
type Passage struct {
	Place string `json:"place"` // "wish 2", "rear springs", "note of 3 May"
	Text  string `json:"text"`
}

// Places of the two passages that every job has without being given them.
const (
	PlaceNumber = "number" // its id
	PlaceName   = "name"   // Save.Name
)

// Order is how the list of jobs is sorted.
type Order int

const (
	ByChange Order = iota // last saved first
	ByJob                 // job number, highest first
	ByName                // name, a to z
	ByDue                 // promised date, earliest first, none last
)

// ListQuery asks for one page of the list of jobs.
type ListQuery struct {
	Text  string // words that must all be found; case and accents do not count
	State string // only jobs in this state; empty for all
	Order Order
	Limit int    // rows wanted; 0 gives 50, 500 at most
	After string // Listing.Next of the page before; empty for the first page
}

// Row is one job in the list: no document.
type Row struct {
	Job      string
	Name     string
	State    string
	Due      string // "2006-01-02" or empty
	Revision int
	Author   string
	At       time.Time // of the newest revision
	Summary  []byte    // as given at the save
	Found    []Found   // where the words of the query stand, one for each word; nil without a query
}

// Found says where one word of a query was met: Before + Match + After is a
// piece of the text as typed.
type Found struct {
	Place  string
	Before string // begins with "…" when text was left out
	Match  string
	After  string // ends with "…" when text was left out
}

// Listing is one page of the list.
type Listing struct {
	Rows []Row
	Next string // ListQuery.After of the next page; empty when this is the last
}

// Counts says how many jobs a query meets.
type Counts struct {
	All     int            // jobs in the store
	Found   int            // jobs that meet the words, in whatever state
	ByState map[string]int // the same, for each state
}

// HistoryPage asks for a part of a job's history, newest first.
type HistoryPage struct {
	Before int // only revisions with a smaller number; 0 begins at the newest
	Limit  int // 0 gives 50, 500 at most
}

// HistoryLine is one revision without its document.
type HistoryLine struct {
	Number int
	Author string
	At     time.Time
	Note   string
	Digest string
}

// Chain is the result of walking a job's revisions from the first to the newest.
type Chain struct {
	Job       string
	Revisions int    // how many should be there
	Digest    string // of the newest revision that the store names
	Broken    int    // number of the first revision that does not hold; 0 when all do
	Reason    string // what is wrong with it; empty when all hold
}

// Whole reports whether every revision is there and unaltered.
func (c Chain) Whole() bool { return c.Broken == 0 }

// Attachment is a file that belongs to a job: a photo, a drawing, a data sheet.
type Attachment struct {
	Job    string
	Name   string // as people call it
	Media  string // media type, "image/jpeg"
	SHA256 string // of the content, lower-case hexadecimal; its name in the store
	Size   int64  // [bytes]
	At     time.Time
}

// ErrNotFound is wrapped by every error about a job, revision or attachment
// that is not there. Ask with errors.Is.
var ErrNotFound = errors.New("not found")

// Conflict is the error of a save that lost the race: somebody saved after the
// revision it was based on. Nothing of the lost save was kept. Ask with errors.As.
type Conflict struct {
	Base    int      // the revision the lost save was based on
	Current Revision // the newest one, with its document
}

// Error says who saved, and what to do.
func (c *Conflict) Error() string {
	if c.Base == 0 {
		return fmt.Sprintf("job %s: not saved: a job with this number is there already, saved by %s; take another number",
			c.Current.Job, c.Current.Author)
	}
	if c.Base > c.Current.Number {
		return fmt.Sprintf("job %s: not saved: it was based on revision %d, which is not here; the newest is %d; look at that one and save again",
			c.Current.Job, c.Base, c.Current.Number)
	}
	return fmt.Sprintf("job %s: not saved: it was based on revision %d, and %s has saved revision %d since; look at that one and save again",
		c.Current.Job, c.Base, c.Current.Author, c.Current.Number)
}

// Unfit is the error of a value that the store does not keep. Ask with errors.As.
type Unfit struct {
	Field string // "author", "document", …
	Read  string // the value as read, shortened
	Want  string // what was expected
}

// Error names the field, the value read and what was expected.
func (u *Unfit) Error() string {
	if u.Read == "" {
		return fmt.Sprintf("%s: %s", u.Field, u.Want)
	}
	return fmt.Sprintf("%s: read %q, expected %s", u.Field, u.Read, u.Want)
}

// TooLarge is the error of an attachment over its limit. Ask with errors.As.
type TooLarge struct {
	Name  string
	Limit int64 // [bytes]
}

// Error names the file and the limit.
func (t *TooLarge) Error() string {
	return fmt.Sprintf("%s: larger than %d bytes; nothing of it was kept", t.Name, t.Limit)
}
