package web

import (
	"context"
	"errors"
	"log/slog"
	"net"
	"net/http"
	"slices"
	"strings"
	"time"

	"github.com/klauspost/compress/gzhttp"

	"jounce/internal/catalog"
	"jounce/internal/job"
)

// Records is what the pages need of the store. Errors wrap job.ErrNotFound, or
// are *job.Conflict, *job.Unfit or *job.TooLarge where those say what happened.
type Records interface {
	Load(ctx context.Context, id string) (job.Revision, error)
	LoadRevision(ctx context.Context, id string, number int) (job.Revision, error)
	Save(ctx context.Context, save job.Save) (job.Revision, error)
	List(ctx context.Context, q job.ListQuery) (job.Listing, error)
	Counts(ctx context.Context, text string) (job.Counts, error)
	History(ctx context.Context, id string, page job.HistoryPage) ([]job.HistoryLine, error)
	NextJobNumber(ctx context.Context) (string, error)
}

// Options is what a server is made of.
type Options struct {
	Records Records
	Papers  Papers           // prints papers; empty prints none
	Files   Attachments      // keeps pictures; nil keeps none
	Shop    *catalog.Shop    // limits and units; nil is a shop that has changed nothing
	Clock   func() time.Time // nil is time.Now
	Logger  *slog.Logger     // nil says nothing
	Name    string           // name of the program
	Version string           // its version
	Quit    <-chan struct{}  // closed when the server stops, so that streams end; nil is never
	Hosts   []string         // names the server answers to, without port; empty takes local names and addresses
}

// server holds what every handler needs.
type server struct {
	Options
	assets   *assets
	views    map[string]*view
	standing *standing
	studied  *studied
	sent     *sent
	hub      *hub
	redrawn  *redrawn
}

// New makes the handler of all pages. It panics when a template or an asset is
// at fault: that is a broken build.
func New(o Options) http.Handler { return stand(newServer(o)) }

// newServer is the server whose pages New makes.
func newServer(o Options) *server {
	if o.Shop == nil {
		o.Shop = catalog.NewShop("The shop")
	}
	if o.Clock == nil {
		o.Clock = time.Now
	}
	if o.Logger == nil {
		o.Logger = slog.New(slog.DiscardHandler)
	}
	if o.Name == "" {
		o.Name = "Jounce"
	}
	s := &server{Options: o, assets: newAssets(), studied: new(studied), sent: new(sent), hub: new(hub), redrawn: newRedrawn()}
	s.Records = telling{o.Records, s.hub}
	s.views = s.newViews()
	return s
}

// handler is all pages, as the shop's document is now.
func (s *server) handler() http.Handler {
	mux := http.NewServeMux()
	s.routes(mux)
	mux.Handle("GET /static/{file}", s.assets)
	mux.HandleFunc("GET /favicon.ico", func(w http.ResponseWriter, r *http.Request) {
		http.Redirect(w, r, s.assets.url("icon.svg"), http.StatusFound)
	})
	mux.Handle("/", s.page(func(http.ResponseWriter, *http.Request) error { return errNoPage }))
	wrap, err := gzhttp.NewWrapper(gzhttp.ContentTypes([]string{"text/html", "application/json"}), gzhttp.MinSize(1024))
	if err != nil {
		panic("web: " + err.Error())
	}
	guard := http.NewCrossOriginProtection()
	guard.SetDenyHandler(s.page(func(http.ResponseWriter, *http.Request) error { return errForeign }))
	all := http.NewServeMux()
	all.Handle("GET /jobs/{id}/events", s.page(s.events)) // a stream is not packed
	all.Handle("/", wrap(mux))
	return s.hosts(headers(guard.Handler(all)))
}

// headers sets what holds for every answer.
func headers(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; frame-ancestors 'none'; base-uri 'none'; form-action 'self'")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "same-origin")
		next.ServeHTTP(w, r)
	})
}

// hosts refuses names that the server does not go by, so that a page of
// somebody else cannot reach it under a name of its own.
func (s *server) hosts(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !s.known(r.Host) {
			s.fail(w, r, errHost)
			return
		}
		next.ServeHTTP(w, r)
	})
}

func (s *server) known(hostport string) bool {
	host := hostport
	if h, _, err := net.SplitHostPort(hostport); err == nil {
		host = h
	}
	host = strings.ToLower(strings.Trim(host, "[]"))
	if len(s.Hosts) > 0 {
		return slices.Contains(s.Hosts, host)
	}
	if net.ParseIP(host) != nil || host == "localhost" {
		return true
	}
	return !strings.Contains(host, ".") || strings.HasSuffix(host, ".local") || strings.HasSuffix(host, ".lan") || strings.HasSuffix(host, ".test")
}

// action is what a handler does: it writes its answer or returns an error.
type action func(w http.ResponseWriter, r *http.Request) error

// page makes a handler of an action.
func (s *server) page(do action) http.Handler { return s.pageOf(mostForm, do) }

// pageOf is page for forms of at most so many bytes.
func (s *server) pageOf(most int64, do action) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method == http.MethodPost {
			r.Body = http.MaxBytesReader(w, r.Body, most)
			w, r = noting(w, r)
		}
		if err := do(w, r); err != nil {
			s.fail(w, r, err)
		}
	})
}

// mostForm is the longest form that is read [bytes].
const mostForm = 4 << 20

var (
	errNoPage  = errors.New("there is no page at this address")
	errForeign = errors.New("this was sent from a page of another site, so it was not taken; open the page here and send it again")
	errHost    = errors.New("the server does not go by this name; start it with the name, or use its address")
)

// asked is an error of the one who asks: the sentence is shown as it is.
type asked struct{ says string }

func (a asked) Error() string { return a.says }

// kinds maps kinds of errors to statuses and words. The first that fits counts.
var kinds = []struct {
	is      func(error) bool
	status  int
	heading string
}{
	{kind(errNoPage), http.StatusNotFound, "Nothing here"},
	{kind(job.ErrNotFound), http.StatusNotFound, "Not found"},
	{kind(errForeign), http.StatusForbidden, "Not taken"},
	{kind(errHost), http.StatusMisdirectedRequest, "Not this name"},
	{typed[*job.Conflict], http.StatusConflict, "Saved meanwhile"},
	{typed[*job.Unfit], http.StatusUnprocessableEntity, "Cannot be kept"},
	{typed[*job.TooLarge], http.StatusRequestEntityTooLarge, "Too large"},
	{typed[*http.MaxBytesError], http.StatusRequestEntityTooLarge, "Too large"},
	{typed[asked], http.StatusBadRequest, "Cannot be done"},
}

func kind(target error) func(error) bool {
	return func(err error) bool { return errors.Is(err, target) }
}

func typed[E error](err error) bool {
	var e E
	return errors.As(err, &e)
}

// fail answers an error: its status and a page that says what to do.
func (s *server) fail(w http.ResponseWriter, r *http.Request, err error) {
	if errors.Is(err, context.Canceled) && r.Context().Err() != nil {
		return
	}
	for _, k := range kinds {
		if k.is(err) {
			s.failPage(w, r, k.status, k.heading, sentence(err.Error()))
			return
		}
	}
	s.Logger.Error("page", "method", r.Method, "path", r.URL.Path, "error", err)
	s.failPage(w, r, http.StatusInternalServerError, "Not done",
		"Something failed on the server; nothing was changed. What it was stands in the server's log: "+sentence(err.Error()))
}

// sentence makes a sentence of an error's text.
func sentence(text string) string {
	text = strings.TrimSpace(text)
	if text == "" {
		return ""
	}
	r := []rune(text)
	out := strings.ToUpper(string(r[0])) + string(r[1:])
	if !strings.ContainsAny(out[len(out)-1:], ".?:") {
		out += "."
	}
	return out
}
