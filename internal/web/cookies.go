package web

import (
	"net/http"
	"net/url"
	"slices"
	"strings"

	"jounce/internal/web/page"
)

// Names of the two cookies: who signs, and how the pages look.
const (
	signerCookie = "jounce_name"
	lookCookie   = "jounce_look"
)

// mostName is the longest name that is taken [signs].
const mostName = 60

func themeOf(r *http.Request) string {
	if c, err := r.Cookie(lookCookie); err == nil && slices.Contains(page.Themes, c.Value) {
		return c.Value
	}
	return ""
}

// signerOf is the name that this browser signs with; empty when it was not asked.
func signerOf(r *http.Request) string {
	c, err := r.Cookie(signerCookie)
	if err != nil {
		return ""
	}
	name, err := url.QueryUnescape(c.Value)
	if err != nil {
		return ""
	}
	return cleanName(name)
}

func cleanName(s string) string {
	s = strings.Join(strings.Fields(strings.ToValidUTF8(s, "")), " ")
	if r := []rune(s); len(r) > mostName {
		s = string(r[:mostName])
	}
	return s
}

func keepCookie(w http.ResponseWriter, name, value string) {
	http.SetCookie(w, &http.Cookie{Name: name, Value: value, Path: "/", MaxAge: 400 * 24 * 3600, HttpOnly: true, SameSite: http.SameSiteLaxMode})
}

// look is the act of the switch: light, dark, bright bay or as the device says.
func (s *server) look(w http.ResponseWriter, r *http.Request) error {
	want := r.FormValue(":look")
	if !slices.Contains(page.Themes, want) {
		want = ""
	}
	keepCookie(w, lookCookie, want)
	http.Redirect(w, r, local(r.FormValue(":back")), http.StatusSeeOther)
	return nil
}

// local is an address on this server, or the first page.
func local(to string) string {
	u, err := url.Parse(to)
	if err != nil || u.Scheme != "" || u.Host != "" || !strings.HasPrefix(to, "/") || strings.HasPrefix(to, "//") || strings.Contains(to, `\`) {
		return "/"
	}
	return to
}

type namePage struct {
	page.Base
	Action string      // where the form goes
	Next   string      // where to go after it
	Kept   []keptField // what was posted before a name was known; it goes on with the name
	Name   string
	Wrong  string
}

type keptField struct{ Name, Value string }

// askName is the page that asks for a name.
func (s *server) askName(w http.ResponseWriter, r *http.Request) error {
	p := &namePage{Action: "/name", Next: local(r.FormValue("next")), Name: signerOf(r)}
	p.Title, p.Heading = "Your name", "Who signs here?"
	return s.render(w, r, http.StatusOK, "name", p)
}

// takeName keeps the name.
func (s *server) takeName(w http.ResponseWriter, r *http.Request) error {
	name := cleanName(r.FormValue(":signer"))
	next := local(r.FormValue("next"))
	if name == "" {
		p := &namePage{Action: "/name", Next: next, Wrong: "Name, empty. A name was expected, as the others in the shop know it: T. Marrow."}
		p.Title, p.Heading = "Your name", "Who signs here?"
		return s.render(w, r, http.StatusUnprocessableEntity, "name", p)
	}
	keepCookie(w, signerCookie, url.QueryEscape(name))
	http.Redirect(w, r, next, http.StatusSeeOther)
	return nil
}

// nameFirst sends somebody without a name to the page that asks for one, and on to this page from there.
func nameFirst(w http.ResponseWriter, r *http.Request) bool {
	if signerOf(r) != "" {
		return false
	}
	http.Redirect(w, r, "/name?next="+url.QueryEscape(r.URL.RequestURI()), http.StatusSeeOther)
	return true
}

// signer is the name for a save. When there is none it asks for one, with all
// that was posted, and reports false.
func (s *server) signer(w http.ResponseWriter, r *http.Request) (string, bool, error) {
	if name := cleanName(r.PostFormValue(":signer")); name != "" {
		if r.PostFormValue(":sent") == "" { // what is sent later was signed when it was typed
			keepCookie(w, signerCookie, url.QueryEscape(name))
		}
		return name, true, nil
	}
	if name := signerOf(r); name != "" {
		return name, true, nil
	}
	p := &namePage{Action: r.URL.RequestURI()}
	p.Title, p.Heading = "Your name", "Who signs here?"
	for k, vs := range r.PostForm {
		if k == ":signer" {
			continue
		}
		for _, v := range vs {
			p.Kept = append(p.Kept, keptField{k, v})
		}
	}
	slices.SortFunc(p.Kept, func(a, b keptField) int { return strings.Compare(a.Name, b.Name) })
	return "", false, s.render(w, r, http.StatusUnprocessableEntity, "name", p)
}
