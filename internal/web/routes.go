package web

import (
	"net/http"

	"jounce/internal/web/page"
)

// routes is every address that is answered with a page.
func (s *server) routes(mux *http.ServeMux) {
	for pattern, do := range map[string]action{
		"GET /{$}":                           s.jobs,
		"GET /name":                          s.askName,
		"POST /name":                         s.takeName,
		"POST /look":                         s.look,
		"GET /new":                           s.newJob,
		"POST /new":                          s.makeJob,
		"GET /jobs/{id}":                     s.job,
		"GET /jobs/{id}/survey":              s.survey,
		"POST /jobs/{id}/survey":             s.survey,
		"GET /jobs/{id}/outline":             s.outline,
		"POST /jobs/{id}/outline":            s.outline,
		"GET /jobs/{id}/record":              s.record,
		"GET /jobs/{id}/record/{section}":    s.section,
		"POST /jobs/{id}/record/{section}":   s.section,
		"GET /jobs/{id}/quad/{what}":         s.quad,
		"POST /jobs/{id}/quad/{what}":        s.quad,
		"GET /jobs/{id}/sign/{finding}":      s.sign,
		"POST /jobs/{id}/sign/{finding}":     s.sign,
		"GET /jobs/{id}/history":             s.history,
		"POST /jobs/{id}/undo":               s.undo,
		"GET /jobs/{id}/copy":                s.copyJob,
		"POST /jobs/{id}/copy":               s.copyJob,
		"GET /jobs/{id}/copied":              s.copied,
		"GET /jobs/{id}/history/compare":     s.compare,
		"GET /jobs/{id}/history/{n}":         s.revision,
		"POST /jobs/{id}/history/{n}":        s.restore,
		"GET /jobs/{id}/leak":                s.leakList,
		"POST /jobs/{id}/leak":               s.newLeak,
		"GET /jobs/{id}/leak/{test}":         s.leakTest,
		"GET /jobs/{id}/leak/{test}/{step}":  s.leakStep,
		"POST /jobs/{id}/leak/{test}/{step}": s.leakStep,
		"GET /shop":                          s.shop,
		"POST /shop":                         s.takeShopForm,
		"GET /catalogue":                     s.catalogue,
		"GET /sums":                          s.sums,
		"GET /sums/{name}":                   s.sum,
		"POST /sums/{name}":                  s.sum,
		"GET /jobs/{id}/springs":             s.springs,
		"POST /jobs/{id}/springs":            s.springs,
		"GET /jobs/{id}/springs/{act}":       s.toSprings,
		"POST /jobs/{id}/springs/paste":      s.pasteTable,
		"POST /jobs/{id}/springs/choose":     s.chooseSpring,
		"POST /jobs/{id}/springs/shelve":     s.shelveSpring,
		"GET /jobs/{id}/papers":              s.papers,
		"GET /jobs/{id}/papers/design.pdf":   s.designPDF,
		"GET /jobs/{id}/papers/leak/{test}":  s.leakPDF,
	} {
		mux.Handle(pattern, s.page(do))
	}
	s.photoRoutes(mux)
}

// shopRooms are the rooms of the shop.
func shopRooms(here string) []page.Room {
	return []page.Room{{Name: "Jobs", Href: "/", Here: here == "jobs"}, {Name: "Sums", Href: "/sums", Here: here == "sums"}, {Name: "The shop", Href: "/shop", Here: here == "shop"}}
}

// jobRooms are the rooms of one job, in the order of the line.
var jobRooms = []struct{ key, name, path string }{
	{"car", "The car", ""},
	{"springs", "Springs", "/springs"},
	{"record", "Record", "/record"},
	{"leak", "Leak tests", "/leak"},
	{"photos", "Pictures", "/photos"},
	{"papers", "Papers", "/papers"},
	{"history", "History", "/history"},
}

// roomsOf is the line of rooms of a job.
func roomsOf(id, here string) []page.Room {
	out := []page.Room{{Name: "Jobs", Href: "/"}}
	for _, r := range jobRooms {
		out = append(out, page.Room{Name: r.name, Href: "/jobs/" + id + r.path, Here: r.key == here})
	}
	return out
}
