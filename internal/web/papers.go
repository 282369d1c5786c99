package web

import (
	"bytes"
	"errors"
	"net/http"
	"strings"
	"time"

	"jounce/internal/catalog"
	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/study"
	"jounce/internal/web/page"
)

// Papers prints a job's papers as PDF. A paper that cannot be made is an error
// that says why.
type Papers struct {
	Design      func(rec *job.Job, rev job.Revision, shop *catalog.Shop, pictures func(sum string) ([]byte, error)) ([]byte, error)
	Certificate func(rec *job.Job, rev job.Revision, shop *catalog.Shop, test string) ([]byte, error)
}

// errNoPapers is the answer of a server that was made without a printer.
var errNoPapers = errors.New("this server prints no papers")

type papersPage struct {
	page.Base
	ID     string
	Papers []paperLine
	Block  []page.Cell
}

// paperLine is one paper, with what keeps its work back.
type paperLine struct {
	Title, Says string
	Href        string // of the PDF; empty where there is nothing to print yet
	File        string
	Tally       finding.Tally
	Holds       []heldBy
	NotPrinted  string // why there is no PDF
	Where       string // page where what is missing is typed
}

type heldBy struct {
	finding.Finding
	Href string
}

// papers lists what can be printed, and what keeps each back.
func (s *server) papers(w http.ResponseWriter, r *http.Request) error {
	o, err := s.open(r)
	if err != nil {
		return err
	}
	p := &papersPage{Base: s.jobBase(r, o, "papers", "Papers"), ID: o.ID, Block: s.titleBlock(o, "Papers")}
	p.Papers = append(p.Papers, s.designLine(o))
	for _, l := range o.Res.Leaks {
		p.Papers = append(p.Papers, s.leakLine(o, l))
	}
	return s.render(w, r, http.StatusOK, "papers", p)
}

// designLine is the design page: it prints at any time and says itself what is
// open.
func (s *server) designLine(o *opened) paperLine {
	l := paperLine{Title: "Design page", Says: "What the car is to become, with the numbers, their limits and what is not known.",
		Href: "/jobs/" + o.ID + "/papers/design.pdf", File: o.ID + " design.pdf", Tally: o.Res.Tally, Where: "/jobs/" + o.ID + "/record"}
	if s.Papers.Design == nil {
		l.Href, l.NotPrinted = "", upperFirst(errNoPapers.Error())+"."
	}
	var list []finding.Finding
	for _, f := range o.Res.Findings {
		if f.Topic != "leak" {
			list = append(list, f)
		}
	}
	l.Tally, l.Holds = finding.Count(list), o.held(list)
	return l
}

// leakLine is the certificate of one leak test.
func (s *server) leakLine(o *opened, k study.Leak) paperLine {
	title := k.Title
	if title == "" {
		title = "leak test " + k.ID
	}
	l := paperLine{Title: "Leak certificate: " + title, Says: "What was read, what the cold alone explains, and what it proves.",
		Href: "/jobs/" + o.ID + "/papers/leak/" + k.ID + ".pdf", File: o.ID + " " + title + ".pdf", Where: "/jobs/" + o.ID + "/record/leak",
		Tally: finding.Count(k.Findings), Holds: o.held(k.Findings)}
	switch {
	case k.Refused != "":
		l.Href, l.NotPrinted = "", "The test is refused: "+lowerFirst(k.Refused)
	case k.State == "not begun":
		l.Href, l.NotPrinted = "", "The test is not begun: no reading stands in it."
	case s.Papers.Certificate == nil:
		l.Href, l.NotPrinted = "", upperFirst(errNoPapers.Error())+"."
	case k.State == "running":
		l.Says += " The test still runs: the paper says so."
	}
	if l.NotPrinted != "" && !strings.HasSuffix(l.NotPrinted, ".") {
		l.NotPrinted += "."
	}
	return l
}

// held are the findings that lock the work behind a paper.
func (o *opened) held(list []finding.Finding) []heldBy {
	var out []heldBy
	for _, f := range list {
		if !f.Holds() {
			continue
		}
		h := heldBy{Finding: f, Href: "/jobs/" + o.ID + "#f-" + f.ID}
		if len(f.Needs) > 0 {
			h.Href = hrefOf(o.ID, f.Needs[0].Path)
		}
		out = append(out, h)
	}
	return out
}

// designPDF is the design page.
func (s *server) designPDF(w http.ResponseWriter, r *http.Request) error {
	o, err := s.open(r)
	if err != nil {
		return err
	}
	if s.Papers.Design == nil {
		return asked{errNoPapers.Error()}
	}
	pdf, err := s.Papers.Design(o.Rec, o.Rev, s.Shop, func(sum string) ([]byte, error) { return s.photoBytes(r.Context(), o.ID, sum) })
	return sendPDF(w, r, o, "design", pdf, err)
}

// leakPDF is the certificate of one leak test: "t1.pdf".
func (s *server) leakPDF(w http.ResponseWriter, r *http.Request) error {
	o, err := s.open(r)
	if err != nil {
		return err
	}
	id, ok := strings.CutSuffix(r.PathValue("test"), ".pdf")
	if !ok {
		return errNoPage
	}
	for _, k := range o.Res.Leaks {
		if k.ID != id {
			continue
		}
		if l := s.leakLine(o, k); l.Href == "" {
			return asked{l.NotPrinted}
		}
		pdf, err := s.Papers.Certificate(o.Rec, o.Rev, s.Shop, id)
		return sendPDF(w, r, o, "leak-"+id, pdf, err)
	}
	return errNoPage
}

// sendPDF sends a paper under a name with the job and its revision.
func sendPDF(w http.ResponseWriter, r *http.Request, o *opened, what string, pdf []byte, err error) error {
	if err != nil {
		return asked{"the paper cannot be made: " + err.Error()}
	}
	h := w.Header()
	h.Set("Content-Type", "application/pdf")
	h.Set("Content-Disposition", `inline; filename="`+o.ID+"-"+what+"-rev"+itoa(o.Rev.Number)+`.pdf"`)
	h.Set("Cache-Control", "private, no-cache")
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(pdf))
	return nil
}
