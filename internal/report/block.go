package report

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"jounce/internal/draw/pdf"
)

// Block is what every title block says of a page: where it belongs and which
// state of the record it prints.
type Block struct {
	Job      string    // "0412"
	Car      string    // "compact saloon, 1966"
	Keeper   string    // whose it is
	Shop     string    // whose paper it is
	Revision int       // of the record
	Author   string    // who saved that revision
	Saved    time.Time // when; both dates of the file
	Digest   string    // of that revision, hexadecimal
	Program  string    // "Jounce 0.1"
}

// dated is a day as papers write it.
const dated = "2 January 2006"

// notYet stands in a field that says nothing.
const notYet = "not yet"

// fieldRoom is how many signs a field of a title block takes; a longer text is
// printed in full elsewhere on the paper.
const fieldRoom = 90

// paper is a document under work.
type paper struct {
	b     Block
	doc   *pdf.Document
	sheet string   // "21"
	title string   // "Leak and relief"
	long  []string // texts that were too long for a field, in full
}

func newPaper(b Block, sheet, title, whole string) *paper {
	p := &paper{b: b, sheet: sheet, title: title}
	name := strings.TrimSpace(b.Job + " / " + sheet)
	p.doc = pdf.New(pdf.Info{
		Title: whole + ", " + or(b.Job, "a job without number"), Author: b.Shop, Subject: name,
		Keywords: []string{"revision " + strconv.Itoa(b.Revision), "digest " + b.digest()},
		Creator:  b.Program, Created: b.Saved,
	})
	return p
}

// digest is the beginning of the digest in groups of four.
func (b Block) digest() string {
	var parts []string
	d := b.Digest
	for len(d) >= 4 && len(parts) < 4 {
		parts, d = append(parts, d[:4]), d[4:]
	}
	return or(strings.Join(parts, " "), "none")
}

func (b Block) date() string {
	if b.Saved.IsZero() {
		return notYet
	}
	return b.Saved.UTC().Format(dated)
}

// short is the text for a field. One too long is cut with its sign, and kept in
// full for the end of the paper.
func (p *paper) short(caption, s string) string {
	s = strings.Join(strings.Fields(s), " ")
	if s == "" {
		return notYet
	}
	r := []rune(s)
	if len(r) <= fieldRoom {
		return letters(s)
	}
	p.keepLong(upper(caption) + ": " + s)
	return letters(strings.TrimSpace(string(r[:fieldRoom-24]))) + "… in full on this paper"
}

// brief is a name for a narrow place: one longer than n signs is cut with its
// sign, and kept in full for the end of the paper.
func (p *paper) brief(what, s string, n int) string {
	s = strings.Join(strings.Fields(s), " ")
	r := []rune(s)
	if len(r) <= n {
		return letters(s)
	}
	p.keepLong(upper(what) + ": " + s)
	return letters(strings.TrimSpace(string(r[:n-1]))) + "…"
}

// keepLong keeps a text for the end of the paper, once.
func (p *paper) keepLong(full string) {
	for _, l := range p.long {
		if l == full {
			return
		}
	}
	p.long = append(p.long, full)
}

func (p *paper) field(caption, value string, span int) pdf.Field {
	return pdf.Field{Caption: caption, Value: p.short(caption, value), Span: span}
}

// named are the rows of the title block that every sheet has.
func (p *paper) named() [][]pdf.Field {
	name := pdf.Field{Caption: "job, sheet, title", Value: p.short("job", or(p.b.Job, "no number")) + " / " + p.sheet + " " + p.title, Span: 4, Big: true}
	return [][]pdf.Field{{name, {Caption: "revision", Value: strconv.Itoa(p.b.Revision), Big: true}}}
}

// record proves the print.
func (p *paper) record() []pdf.Field {
	return []pdf.Field{{Caption: "record, to prove this print unaltered", Value: fmt.Sprintf("revision %d, %s", p.b.Revision, letters(p.b.digest())), Span: 6}}
}

// small is the title block of a sheet that goes on.
func (p *paper) small() [][]pdf.Field {
	return append(p.named(), []pdf.Field{p.field("shop", p.b.Shop, 3), {Caption: "date", Value: p.b.date()}, {Caption: "sheet", Sheet: true, Span: 1}}, p.record())
}

func or(s, other string) string {
	if strings.TrimSpace(s) == "" {
		return other
	}
	return s
}
