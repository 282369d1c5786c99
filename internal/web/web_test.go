package web

import (
	"io"
	"maps"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/url"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/PuerkitoBio/goquery"

	"jounce/internal/catalog"
	"jounce/internal/job"
	"jounce/internal/study"
)

// clock is when the tests happen: a Saturday in March.
func clock() time.Time { return time.Date(2026, 3, 14, 10, 42, 0, 0, time.UTC) }

// shop is a server with records and a browser that signs as T. Marrow.
type shop struct {
	t   testing.TB
	m   *memory
	srv *httptest.Server
	c   *http.Client
}

func newShop(t testing.TB) *shop {
	t.Helper()
	m, quit := newMemory(clock), make(chan struct{})
	s := &shop{t: t, m: m, srv: httptest.NewServer(New(Options{Records: m, Shop: catalog.NewShop("Thornhythe Coachworks"), Clock: clock, Version: "test", Quit: quit}))}
	t.Cleanup(s.srv.Close)
	t.Cleanup(func() { close(quit) }) // before that: streams end
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	s.c = &http.Client{Jar: jar}
	s.keep(demo())
	return s
}

// keep saves a record as T. Marrow, as the next revision.
func (s *shop) keep(rec *job.Job) {
	s.t.Helper()
	save, err := saveOf(rec, study.Of(rec, catalog.NewShop("x")), len(s.m.revs[rec.ID]), "T. Marrow", "")
	if err != nil {
		s.t.Fatal(err)
	}
	if _, err := s.m.Save(s.t.Context(), save); err != nil {
		s.t.Fatal(err)
	}
}

func (s *shop) sign() { s.post("/name", ":signer", "T. Marrow") }

// demo is an invented car with most of what a record can hold.
func demo() *job.Job {
	j := &job.Job{Schema: 1, ID: "0412", Name: "Quill saloon"}
	places := map[string]string{
		"car.description": "compact saloon", "car.form": "saloon", "car.year": "1966", "keeper.name": "A. Quill",
		"place.where": "in a bay", "place.bay": "2", "place.stands": "own steel springs", "place.stage": "paper", "place.promised": "2026-05-29",
		"wishes[w1].words": "Right down on its belly when I park it at a show.", "wishes[w1].measure": "drop from ROAD", "wishes[w1].target": "80 mm",
		"instruments[i1].name": "Tape 3", "instruments[i1].measures": "length", "instruments[i1].accuracy": "2 mm", "instruments[i1].checked": "2026-01-02", "instruments[i1].due": "2027-01-02",
		"survey.wheelbase": "2540 mm", "survey.sill": "138 mm", "survey.roof": "1345 mm", "survey.frontOverhang": "690 mm",
		"corners.FL.weight": "276 kg", "corners.FR.weight": "276 kg", "corners.RL.weight": "234 kg", "corners.RR.weight": "234 kg",
		"corners.FL.hubToArch": "360 mm", "corners.FR.hubToArch": "361 mm", "corners.RL.hubToArch": "359 mm", "corners.RR.hubToArch": "359 mm",
		"axles.front.layout": "strut", "axles.front.springing": "air", "axles.front.tyreLeft": "185/70R13", "axles.front.unsprungLeft": "30 kg",
		"axles.front.unsprungRight": "30 kg", "axles.front.springRatio": "1", "axles.front.spring": "s1", "axles.front.springHeight": "150 mm", "axles.front.airVolume": "1.4 L",
		"axles.rear.layout": "live axle on links", "axles.rear.springing": "air", "axles.rear.tyreLeft": "185/70R13",
		"springs[s1].name": "bellows 110", "springs[s1].points[p1].load": "2795 N", "springs[s1].points[p1].pressure": "4 bar", "springs[s1].points[p1].height": "150 mm",
		"springs[s1].points[p2].load": "2100 N", "springs[s1].points[p2].pressure": "3 bar", "springs[s1].points[p2].height": "150 mm",
		"loads.seats[driver].name": "driver", "loads.seats[driver].mass": "75 kg", "leakTests[t1].title": "Leak test 1", "leakTests[t1].volume": "10 L",
		"leakTests[t1].readings[r1].at": "2026-03-13T18:00", "leakTests[t1].readings[r1].pressure": "9.5 bar", "signatures[g1].finding": "x", "axles.rear.limiters[l1].name": "strap", "axles.rear.limiters[l1].droop": "48 mm",
	}
	for _, path := range slices.Sorted(maps.Keys(places)) { // items of a list come in one order
		if err := j.Set(path, places[path], true); err != nil {
			panic(err)
		}
	}
	return j
}

type sel = goquery.Selection

// answer is a page as it came.
type answer struct {
	*goquery.Document
	Status int
	URL    *url.URL
	Text   string
}

func (s *shop) read(r *http.Response, err error) answer {
	s.t.Helper()
	if err != nil {
		s.t.Fatal(err)
	}
	defer r.Body.Close()
	b, err := io.ReadAll(r.Body)
	if err != nil {
		s.t.Fatal(err)
	}
	d, err := goquery.NewDocumentFromReader(strings.NewReader(string(b)))
	if err != nil {
		s.t.Fatal(err)
	}
	return answer{d, r.StatusCode, r.Request.URL, string(b)}
}

func (s *shop) get(path string) answer { return s.read(s.c.Get(s.srv.URL + path)) }

func (s *shop) post(path string, pairs ...string) answer {
	v := url.Values{}
	for i := 0; i < len(pairs); i += 2 {
		v.Add(pairs[i], pairs[i+1])
	}
	return s.read(s.c.PostForm(s.srv.URL+path, v))
}

func (s *shop) record(id string) *job.Job {
	s.t.Helper()
	r, err := s.m.Load(s.t.Context(), id)
	if err != nil {
		s.t.Fatal(err)
	}
	j, err := job.Decode(r.Document)
	if err != nil {
		s.t.Fatal(err)
	}
	return j
}

// want fails the test when the selector's first text is not as expected.
func (s *shop) want(a answer, selector, text string) {
	s.t.Helper()
	got := strings.Join(strings.Fields(a.Find(selector).First().Text()), " ")
	if !strings.Contains(got, text) || a.Find(selector).Length() == 0 {
		s.t.Errorf("%s: %s is %q, expected %q in it", a.URL, selector, got, text)
	}
}

func TestEveryPageStands(t *testing.T) {
	s := newShop(t)
	s.sign()
	paths := []string{"/", "/?q=quill", "/?all=1", "/new", "/name", "/jobs/0412", "/jobs/0412/survey?way=walk", "/jobs/0412/survey?way=axle",
		"/jobs/0412/survey?way=axle&axle=rear", "/jobs/0412/record", "/jobs/0412/history", "/jobs/0412/history/1"}
	for _, sec := range sections {
		paths = append(paths, "/jobs/0412/record/"+sec.Key)
	}
	for _, p := range paths {
		a := s.get(p)
		if a.Status != http.StatusOK || a.Find("main").Length() != 1 || a.Find("h1").Length() != 1 {
			t.Errorf("%s: status %d, %d main, %d h1:\n%s", p, a.Status, a.Find("main").Length(), a.Find("h1").Length(), a.Text[:min(400, len(a.Text))])
		}
		seen := map[string]bool{}
		a.Find("[id]").Each(func(_ int, e *goquery.Selection) {
			id, _ := e.Attr("id")
			if seen[id] {
				t.Errorf("%s: the id %q stands twice", p, id)
			}
			seen[id] = true
		})
		a.Find("input[type=text],select,textarea").Each(func(_ int, e *goquery.Selection) {
			id, _ := e.Attr("id")
			_, named := e.Attr("aria-label")
			if !named && a.Find(`label[for="`+id+`"]`).Length() == 0 {
				t.Errorf("%s: the box %q has no label", p, id)
			}
		})
	}
}
