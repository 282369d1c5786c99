package web

import (
	"bytes"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"sync"
	"testing"

	"github.com/PuerkitoBio/goquery"

	"jounce/internal/catalog"
	"jounce/internal/job"
)

// TestStudiedOnce studies a saved revision once for a shop, anew for another
// shop or revision, and forgets the oldest.
func TestStudiedOnce(t *testing.T) {
	var k studied
	doc, err := (&job.Job{Schema: job.Schema, ID: "0001"}).Encode()
	if err != nil {
		t.Fatal(err)
	}
	shop := catalog.NewShop("")
	of := func(rev job.Revision, shop *catalog.Shop) found {
		rev.Document = doc
		rec, res, err := k.of(rev, shop)
		if err != nil || rec.ID != "0001" {
			t.Errorf("%+v, %v", rec, err)
		}
		return found{rec, res}
	}
	one := job.Revision{Job: "0001", Number: 1, Digest: "a"}
	first := of(one, shop)
	if of(one, shop) != first {
		t.Error("the same revision was studied twice")
	}
	if of(one, catalog.NewShop("")).res == first.res {
		t.Error("another shop got the findings of the first")
	}
	if unsaved := (job.Revision{Job: "0001"}); of(unsaved, shop) == of(unsaved, shop) {
		t.Error("what is not saved was kept")
	}
	var wait sync.WaitGroup
	for n := range 4 * mostStudied {
		wait.Go(func() { of(job.Revision{Digest: fmt.Sprint(n)}, shop) })
	}
	wait.Wait()
	if len(k.found) != mostStudied || len(k.order) != mostStudied {
		t.Errorf("%d kept in an order of %d, want %d", len(k.found), len(k.order), mostStudied)
	}
	if of(one, shop) == first {
		t.Error("the oldest was not forgotten")
	}
}

// typedPages are pages on which is typed, with what is typed there.
var typedPages = []struct{ path, box, text string }{
	{"/jobs/0412/record/weights", "corners.FL.weight", "301 kg"}, {"/jobs/0412/record/weights", "corners.FL.weight", "30x"},
	{"/jobs/0412/record/springs", "springs[s1].points[p1].load", "2900 N"}, {"/jobs/0412/record/wishes", "wishes[w1].target", "70 mm"},
	{"/jobs/0412/survey?way=walk&at=survey.sill", "survey.sill", "150 mm"}, {"/jobs/0412/survey?way=axle", "corners.FL.weight", "heavy"},
	{"/jobs/0412/springs", "springs[s1].points[p2].load", "2200 N"},
}

// boxesOf are the boxes of a page's first form that keeps readings, as a browser
// posts them.
func boxesOf(a answer) url.Values {
	v := url.Values{}
	f := a.Find("form[data-live-form]").First()
	f.Find("input[name],textarea[name],select[name]").Each(func(_ int, e *goquery.Selection) {
		switch kind := e.AttrOr("type", ""); {
		case goquery.NodeName(e) == "select":
			v.Add(e.AttrOr("name", ""), e.Find("option[selected]").AttrOr("value", ""))
		case kind != "radio" && kind != "checkbox":
			v.Add(e.AttrOr("name", ""), e.AttrOr("value", e.Text()))
		}
	})
	return v
}

// TestAgreesLive holds the short answer to a keystroke to the whole page: every
// live part that the page has stands in it, letter for letter.
func TestAgreesLive(t *testing.T) {
	s := newShop(t)
	s.sign()
	whole := newShopOf(t, s.m, func(srv *server) {
		for _, v := range srv.views {
			v.live = v.t
		}
	})
	for _, c := range typedPages {
		v := boxesOf(s.get(c.path))
		if !v.Has(c.box) {
			t.Errorf("%s has no box %s", c.path, c.box)
			continue
		}
		v.Set(c.box, c.text)
		short, long := s.live(s.srv.URL+c.path, v), s.live(whole+c.path, v)
		if short.Status != http.StatusOK || long.Status != http.StatusOK {
			t.Errorf("%s: %d, %d", c.path, short.Status, long.Status)
		}
		n := 0
		long.Find("[data-live][id]").Each(func(_ int, e *goquery.Selection) {
			id := e.AttrOr("id", "")
			want, _ := e.Html()
			got, err := short.Find(`[id="` + id + `"]`).First().Html()
			if err != nil || got != want {
				t.Errorf("%s: the live part %s is not the page's: %d letters instead of %d, %v", c.path, id, len(got), len(want), err)
			}
			n++
		})
		if n < 3 || !strings.Contains(short.Text, "data-live") {
			t.Errorf("%s: %d live parts", c.path, n)
		}
		if len(short.Text) >= len(long.Text) {
			t.Errorf("%s: %d letters are no fewer than %d", c.path, len(short.Text), len(long.Text))
		}
	}
}

// newShopOf is the address of another server on the same records, changed.
func newShopOf(t *testing.T, m *memory, change func(*server)) string {
	t.Helper()
	quit := make(chan struct{})
	s := newServer(Options{Records: m, Shop: catalog.NewShop("Thornhythe Coachworks"), Clock: clock, Version: "test", Quit: quit})
	change(s)
	srv := httptest.NewServer(stand(s))
	t.Cleanup(srv.Close)
	t.Cleanup(func() { close(quit) }) // before that: streams end
	return srv.URL
}

// live posts a form as static/live.mjs does.
func (s *shop) live(to string, v url.Values) answer {
	s.t.Helper()
	r, err := http.NewRequest(http.MethodPost, to, strings.NewReader(v.Encode()))
	if err != nil {
		s.t.Fatal(err)
	}
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("X-Live", "1")
	return s.read(s.c.Do(r))
}

// TestStudiedUnaltered opens every page, types and saves, and finds each record
// that was kept as its revision has it.
func TestStudiedUnaltered(t *testing.T) {
	s := newShop(t)
	var kept *studied
	base := newShopOf(t, s.m, func(srv *server) { kept = srv.studied })
	s.srv.URL, base = base, s.srv.URL
	defer func() { s.srv.URL = base }()
	s.sign()
	for _, p := range []string{"", "/survey?way=walk", "/record", "/history", "/papers", "/springs", "/sign/weights", "/leak", "/outline", "/copy"} {
		s.get("/jobs/0412" + p)
	}
	for _, sec := range sections {
		s.get("/jobs/0412/record/" + sec.Key)
	}
	saved := 0
	for _, c := range typedPages {
		v := boxesOf(s.get(c.path))
		v.Set(c.box, c.text)
		s.live(s.srv.URL+c.path, v)
		before := len(s.m.revs["0412"])
		s.read(s.c.PostForm(s.srv.URL+c.path, v))
		saved += len(s.m.revs["0412"]) - before
	}
	if saved < 3 || len(kept.found) < saved {
		t.Fatalf("%d saved, %d kept: the test says too little", saved, len(kept.found))
	}
	for _, rev := range s.m.revs["0412"] {
		for key, f := range kept.found {
			if key.digest != rev.Digest {
				continue
			}
			fresh, err := job.Decode(rev.Document)
			if err != nil {
				t.Fatal(err)
			}
			want, _ := fresh.Encode()
			if got, err := f.rec.Encode(); err != nil || !bytes.Equal(got, want) {
				t.Errorf("the record of revision %d was altered, %v", rev.Number, err)
			}
		}
	}
}
