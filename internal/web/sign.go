package web

import (
	"net/http"
	"strings"
	"time"

	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/study"
	"jounce/internal/web/form"
	"jounce/internal/web/page"
)

type signPage struct {
	page.Base
	ID      string
	BaseRev int
	Finding finding.Finding
	Who     string
	Reason  string
	Wrong   string
}

// sign is the page on which an owner accepts a finding in writing. What stops the
// work is not signed away, and what is not known is read instead.
func (s *server) sign(w http.ResponseWriter, r *http.Request) error {
	o, err := s.open(r)
	if err != nil {
		return err
	}
	f, ok := findingIn(o.Res, r.PathValue("finding"))
	if !ok {
		return errNoPage
	}
	if !page.Signable(f) {
		return asked{f.Claim + " " + f.Verdict.String() + ", " + strings.ToLower(f.Grade.String()) + ": nobody can sign for it"}
	}
	p := &signPage{Base: s.jobBase(r, o, "", "signature"), ID: o.ID, BaseRev: o.Rev.Number, Finding: f}
	if r.Method != http.MethodPost {
		p.Who = o.Rec.Keeper.Name
		return s.render(w, r, http.StatusOK, "sign", p)
	}
	if err := r.ParseForm(); err != nil {
		return err
	}
	p.Who, p.Reason = strings.TrimSpace(r.PostFormValue("who")), strings.TrimSpace(r.PostFormValue("reason"))
	switch {
	case p.Who == "":
		p.Wrong = "Who signs, empty. The owner's name was expected, as it will stand on the paper."
	case p.Reason == "":
		p.Wrong = "Reason, empty. A sentence was expected; it prints on the paper beside the finding."
	}
	if p.Wrong != "" {
		return s.render(w, r, http.StatusUnprocessableEntity, "sign", p)
	}
	signer, ok, err := s.signer(w, r)
	if !ok || err != nil {
		return err
	}
	rec := o.Rec.Clone()
	path, err := form.Append(rec, "signatures")
	if err != nil {
		return err
	}
	for name, text := range map[string]string{"finding": f.ID, "who": p.Who, "reason": p.Reason, "at": s.Clock().Format(time.RFC3339)} {
		if err := rec.Set(path+"."+name, text, false); err != nil {
			return err
		}
	}
	if form.Read(r.PostForm).Base != o.Rev.Number {
		return &job.Conflict{Base: form.Read(r.PostForm).Base, Current: o.Rev}
	}
	if _, err := s.keep(r, rec, o.Rev.Number, signer, "signed by "+p.Who+": "+f.Claim); err != nil {
		return err
	}
	http.Redirect(w, r, "/jobs/"+o.ID+"#f-"+f.ID, http.StatusSeeOther)
	return nil
}

func findingIn(res *study.Result, id string) (finding.Finding, bool) {
	for _, f := range res.Findings {
		if f.ID == id {
			return f, true
		}
	}
	return finding.Finding{}, false
}
