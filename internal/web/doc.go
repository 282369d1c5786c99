// Package web is the pages of the program: server-rendered HTML that works
// without a script, over records that it reaches through Records.
//
// # A page
//
// A page is one handler file, one template file and one line in routes (routes.go):
//
//	func (s *server) springs(w http.ResponseWriter, r *http.Request) error {
//		v, err := s.open(r)                       // the job, studied; an error goes back as it is
//		if err != nil {
//			return err
//		}
//		base := s.jobBase(r, v, "springs", "Springs") // head, tally, rooms
//		return s.render(w, r, http.StatusOK, "springs", springsPage{base, ...})
//	}
//
// Its data are a struct that embeds page.Base; its template is
// templates/springs.html and defines "content". Components are the templates of
// templates/parts.html, described at the top of that file. A room that exists is
// added to roomsOf. pages_test.go gets a line with its address: tests open it in a
// browser, hold it against WCAG 2.2 AA and look at it without scripts. A component
// that is new stands in the catalogue too (catalogue.go). CSS goes into a file of
// its own in static/, all files there ending in .css are served as one in the order
// of their names; a script into static/NAME.mjs, named by {{asset "NAME.mjs"}}.
//
// # A form
//
// Every input's name is the place in the record that it holds
// ("corners.FL.weight"); names with a colon are acts (":answer", ":notread").
// server.edit does the rest: it applies what was typed to the record, asks at the
// field about what cannot be used, merges it with what was saved since the page
// was made, shows both values where both changed one place, and saves. With the
// header X-Live the same post answers the page as it would be, without saving;
// live.mjs takes the elements with data-live out of it by their id, never the
// inputs, and tells others by the event "swapped". With the header X-Sent the
// answer to what was saved is the address to go to, in X-Next.
//
// A module imports another by its plain name, from "./live.mjs"; it is served
// with the hashed one. Lines of comment are not served.
package web
