package web

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"fmt"
	"html/template"
	"net/http"
	"path"
	"strings"

	"jounce/internal/web/page"
)

//go:embed templates
var templateFiles embed.FS

// view is one page's template with all components, and the same without what
// surrounds the live parts.
type view struct{ t, live *template.Template }

// unseen are the components that nobody reads in the answer to a post with
// X-Live: static/live.mjs takes the elements with data-live out of it, and in none
// of them stands one of these. They make most of the boxes of a form.
const unseen = `{{define "symbols"}}{{""}}{{end}}{{define "rooms"}}{{""}}{{end}}{{define "foot"}}{{""}}{{end}}
{{define "box"}}{{""}}{{end}}{{define "tool"}}{{""}}{{end}}{{define "cell"}}{{""}}{{end}}`

// shared are the template files that every page is made with.
var shared = []string{"templates/base.html", "templates/parts.html", "templates/fields.html", "templates/height.html"}

// newViews parses every template. A fault stops the program at its start.
func (s *server) newViews() map[string]*view {
	funcs := page.Funcs()
	funcs["asset"] = s.assets.url
	base := template.New("base").Funcs(funcs)
	template.Must(base.ParseFS(templateFiles, shared...))
	list, err := templateFiles.ReadDir("templates")
	if err != nil {
		panic("web: " + err.Error())
	}
	views := map[string]*view{}
	for _, e := range list {
		name := "templates/" + e.Name()
		if contains(shared, name) || path.Ext(name) != ".html" {
			continue
		}
		t := template.Must(template.Must(base.Clone()).ParseFS(templateFiles, name))
		views[strings.TrimSuffix(e.Name(), ".html")] = &view{t, template.Must(template.Must(t.Clone()).Parse(unseen))}
	}
	return views
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

// based is a page's data: a struct that embeds page.Base.
type based interface{ Common() *page.Base }

// render writes a page. data is a pointer to a struct that embeds page.Base.
func (s *server) render(w http.ResponseWriter, r *http.Request, status int, name string, data based) error {
	v, ok := s.views[name]
	if !ok {
		return fmt.Errorf("there is no template %s", name)
	}
	s.dress(data.Common(), r)
	t := v.t
	if r.Method == http.MethodPost && r.Header.Get("X-Live") != "" {
		t = v.live
	}
	var b bytes.Buffer
	if err := t.ExecuteTemplate(&b, "page", data); err != nil {
		return fmt.Errorf("template %s: %w", name, err)
	}
	h := w.Header()
	h.Set("Content-Type", "text/html; charset=utf-8")
	h.Set("Cache-Control", "private, no-cache")
	h.Set("Vary", "Cookie, X-Live")
	if status == http.StatusOK && r.Method == http.MethodGet {
		sum := sha256.Sum256(b.Bytes())
		tag := `W/"` + hex.EncodeToString(sum[:8]) + `"`
		h.Set("ETag", tag)
		if r.Header.Get("If-None-Match") == tag {
			w.WriteHeader(http.StatusNotModified)
			return nil
		}
	}
	w.WriteHeader(status)
	_, _ = w.Write(b.Bytes()) // the reader may be gone
	return nil
}

// dress fills in what every page has.
func (s *server) dress(b *page.Base, r *http.Request) {
	b.Theme = themeOf(r)
	b.Signer = signerOf(r)
	b.Shop = s.Shop.Name
	b.Program = strings.TrimSpace(s.Name + " " + s.Version)
	b.Here = r.URL.RequestURI()
	if r.Method == http.MethodPost {
		b.Here = r.URL.Path
	}
	if b.Rooms == nil {
		b.Rooms = shopRooms(b.Room)
	}
}

// failPage is the page of an error.
func (s *server) failPage(w http.ResponseWriter, r *http.Request, status int, heading, says string) {
	p := &failPage{Says: says}
	p.Title, p.Heading = heading, heading
	if err := s.render(w, r, status, "fail", p); err != nil {
		s.Logger.Error("page of an error", "error", err)
		http.Error(w, says, status)
	}
}

type failPage struct {
	page.Base
	Says string
}
