package web

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"net/http"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"jounce/examples"
	"jounce/internal/catalog"
	"jounce/internal/study"
	"jounce/internal/web/page"
)

// visit is one address as tests open it.
type visit struct {
	Path string // "{signable}" stands for a finding that the owner may sign for
	Main bool   // looked at on a phone and in the dark too
}

// pages are the addresses that tests open, by the route that answers them. A
// route of a new page gets a line here; TestEveryRouteIsVisited says so.
var pages = map[string][]visit{
	"GET /{$}":                           {{Path: "/", Main: true}, {Path: "/?q=quill"}, {Path: "/?all=1"}},
	"GET /name":                          {{Path: "/name"}},
	"GET /new":                           {{Path: "/new", Main: true}},
	"GET /jobs/{id}":                     {{Path: "/jobs/0412", Main: true}, {Path: "/jobs/0398"}, {Path: "/jobs/0412?below=60"}},
	"GET /jobs/{id}/outline":             {{Path: "/jobs/0412/outline", Main: true}, {Path: "/jobs/0412/outline?photo=h1"}},
	"GET /jobs/{id}/survey":              {{Path: "/jobs/0412/survey?way=walk", Main: true}, {Path: "/jobs/0398/survey?way=axle"}, {Path: "/jobs/0412/survey?way=walk&at=corners.FL.weight"}},
	"GET /jobs/{id}/record":              {{Path: "/jobs/0412/record"}},
	"GET /jobs/{id}/record/{section}":    nil, // every section, see visits
	"GET /jobs/{id}/sign/{finding}":      {{Path: "/jobs/{signable}"}},
	"GET /jobs/{id}/quad/{what}":         {{Path: "/jobs/0412/quad/weight", Main: true}, {Path: "/jobs/0412/quad/pressure"}},
	"GET /jobs/{id}/history":             {{Path: "/jobs/0412/history"}, {Path: "/jobs/0412/history?place=corners.FL.weight"}, {Path: "/jobs/0412/history?section=weights"}},
	"GET /jobs/{id}/history/{n}":         {{Path: "/jobs/0412/history/1"}},
	"GET /jobs/{id}/history/compare":     {{Path: "/jobs/0412/history/compare?from=1&to=2"}},
	"GET /jobs/{id}/copy":                {{Path: "/jobs/0412/copy"}},
	"GET /jobs/{id}/copied":              {{Path: "/jobs/{copy}/copied"}},
	"GET /jobs/{id}/leak":                {{Path: "/jobs/0412/leak"}},
	"GET /jobs/{id}/leak/{test}":         {{Path: "/jobs/0412/leak/t1"}},
	"GET /jobs/{id}/leak/{test}/{step}":  nil, // every step, see visits
	"GET /shop":                          {{Path: "/shop"}},
	"GET /catalogue":                     {{Path: "/catalogue", Main: true}},
	"GET /sums":                          {{Path: "/sums"}},
	"GET /sums/{name}":                   {{Path: leakSum, Main: true}, {Path: "/sums/corners"}, {Path: "/sums/tyre"}, {Path: "/sums/sure"}, {Path: "/sums/leak?start=banana"}},
	"GET /jobs/{id}/photos":              {{Path: "/jobs/0412/photos", Main: true}, {Path: "/jobs/0398/photos"}},
	"GET /jobs/{id}/photos/{photo}":      {{Path: "/jobs/0412/photos/h1", Main: true}},
	"GET /jobs/{id}/photos/{photo}/look": {{Path: "/jobs/0412/photos/h1/look", Main: true}, {Path: "/jobs/0412/photos/h1/look?preset=HIGH"}},
	"GET /jobs/{id}/springs":             {{Path: "/jobs/0412/springs", Main: true}, {Path: "/jobs/0398/springs"}},
	"GET /jobs/{id}/papers":              {{Path: "/jobs/0412/papers"}},
}

// noPages are GET routes that answer something else than a page, with what it is.
var noPages = map[string]string{
	"GET /static/{file}":                        "a file",
	"GET /jobs/{id}/events":                     "a stream of what is saved",
	"GET /jobs/{id}/springs/{act}":              "sent on to the springs",
	"GET /favicon.ico":                          "sent on to a file",
	"GET /jobs/{id}/photos/{photo}/picture.jpg": "a picture",
	"GET /jobs/{id}/photos/{photo}/at/{preset}": "a picture",
	"GET /jobs/{id}/papers/design.pdf":          "a paper",
	"GET /jobs/{id}/papers/leak/{test}":         "a paper",
}

// post is a page that only a form leads to.
type post struct {
	Name, Path string
	Pairs      []string
	Status     int
}

// posts are the pages that answer a form: what cannot be used, what two people
// changed, what is refused.
var posts = []post{
	{"two values", "/jobs/0412/record/body", []string{":base", "1", "survey.sill", "151 mm", "survey.trackFront", "1300"}, http.StatusConflict},
	{"an entry that asks", "/jobs/0412/record/body", []string{":base", "2", "survey.sill", "13.8", "corners.RL.hubToArch", "640"}, http.StatusUnprocessableEntity},
	{"a stop that asks", "/jobs/0412/survey?way=walk", []string{":base", "2", "survey.sill", "13.8"}, http.StatusUnprocessableEntity},
	{"a job without a name", "/new", []string{"name", "", ":way", "walk"}, http.StatusUnprocessableEntity},
	{"a signature without a reason", "/jobs/{signable}", []string{":base", "2", "who", "A. Quill"}, http.StatusUnprocessableEntity},
	{"nothing here", "/jobs/9999/leak", nil, http.StatusNotFound},
}

// visits are all addresses of the table, in order, with what stands for a place
// filled in.
func visits(t *testing.T, s *shop) []visit {
	t.Helper()
	var out []visit
	for _, route := range slices.Sorted(maps.Keys(pages)) {
		for _, v := range pages[route] {
			v.Path = s.filled(v.Path)
			out = append(out, v)
		}
	}
	for _, sec := range sections {
		out = append(out, visit{"/jobs/0412/record/" + sec.Key, sec.Key == "weights"})
	}
	for _, step := range leakSteps {
		out = append(out, visit{leakAt + step.key, step.key == "read"})
	}
	return out
}

// filled puts a finding that waits for a signature where "{signable}" stands, and
// a job begun as a copy where "{copy}" does.
func (s *shop) filled(path string) string {
	if strings.Contains(path, "{copy}") {
		a := s.post("/jobs/0412/copy", "name", "Wyke saloon")
		return strings.Replace(path, "{copy}", strings.Split(a.URL.Path, "/")[2], 1)
	}
	if !strings.Contains(path, "{signable}") {
		return path
	}
	for _, id := range exampleIDs {
		for _, f := range study.Of(s.record(id), catalog.NewShop(examples.Shop)).Findings {
			if page.Signable(f) {
				return strings.Replace(path, "{signable}", id+"/sign/"+f.ID, 1)
			}
		}
	}
	s.t.Fatal("no example has a finding that the owner may sign for")
	return ""
}

// routesOf reads the patterns of all routes out of the program's own text.
func routesOf(t *testing.T) []string {
	t.Helper()
	set := token.NewFileSet()
	found := map[string]bool{}
	files, err := fs.Glob(os.DirFS("."), "*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(set, name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, func(n ast.Node) bool {
			if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
				if text, err := strconv.Unquote(lit.Value); err == nil && strings.HasPrefix(text, "GET /") {
					found[text] = true
				}
			}
			return true
		})
	}
	return slices.Sorted(maps.Keys(found))
}

func TestEveryRouteIsVisited(t *testing.T) {
	routes := routesOf(t)
	if len(routes) < 20 {
		t.Fatalf("%d routes read out of the program's text, expected more than 20", len(routes))
	}
	for _, r := range routes {
		_, is := pages[r]
		if _, not := noPages[r]; is == not {
			t.Errorf("%s: stands in %t of pages and %t of noPages (pages_test.go), expected one of them", r, is, not)
		}
	}
	for r := range pages {
		if !slices.Contains(routes, r) {
			t.Errorf("%s: in the table of pages, and no route", r)
		}
	}
	s := exampleShop(t)
	for _, v := range visits(t, s) {
		if a := s.get(v.Path); a.Status != http.StatusOK || a.Find("h1").Length() != 1 {
			t.Errorf("%s: status %d, %d h1", v.Path, a.Status, a.Find("h1").Length())
		}
	}
	for _, p := range posts {
		if a := s.post(s.filled(p.Path), p.Pairs...); a.Status != p.Status {
			t.Errorf("%s: status %d, expected %d", p.Name, a.Status, p.Status)
		}
	}
}
