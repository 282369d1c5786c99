package web

import (
	"io/fs"
	"net/http"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"

	"jounce/examples"
	"jounce/internal/catalog"
	"jounce/internal/job"
)

// exampleShop is a shop with the three example jobs, and a printer whose papers
// say what they were asked for.
func exampleShop(t *testing.T) *shop {
	t.Helper()
	s := newShop(t)
	names, err := fs.Glob(examples.Files, "*.json")
	if err != nil {
		t.Fatal(err)
	}
	files := &shelf{files: map[string][]byte{}}
	for _, name := range names {
		b, err := examples.Files.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		rec, err := job.Decode(b)
		if err != nil {
			t.Fatal(err)
		}
		files.hang(t, rec)
		s.keep(rec)
	}
	s.srv.Config.Handler = New(Options{Records: s.m, Files: files, Shop: catalog.NewShop(examples.Shop), Clock: clock, Version: "test", Papers: Papers{
		Design: func(rec *job.Job, rev job.Revision, shop *catalog.Shop, _ func(string) ([]byte, error)) ([]byte, error) {
			return []byte("design of " + rec.ID + " for " + shop.Name), nil
		},
		Certificate: func(rec *job.Job, rev job.Revision, shop *catalog.Shop, test string) ([]byte, error) {
			return []byte("test " + test + " of " + rec.ID), nil
		},
	}})
	s.sign()
	return s
}

var exampleIDs = []string{"0398", "0405", "0412"}

func TestSpringsPageOfEveryExample(t *testing.T) {
	s := exampleShop(t)
	for _, id := range exampleIDs {
		a := s.get("/jobs/" + id + "/springs")
		if a.Status != http.StatusOK {
			t.Fatalf("%s: status %d: %s", id, a.Status, a.Text)
		}
		if n := a.Find(".s-cor .corner").Length(); n != 4 {
			t.Errorf("%s: %d corners, expected 4", id, n)
		}
		ids := map[string]bool{}
		for _, n := range a.Find("[id]").Nodes {
			for _, x := range n.Attr {
				if x.Key == "id" && ids[x.Val] {
					t.Errorf("%s: id %q stands twice", id, x.Val)
				} else if x.Key == "id" {
					ids[x.Val] = true
				}
			}
		}
		for _, n := range a.Find("a[href^='#']").Nodes {
			for _, x := range n.Attr {
				if x.Key == "href" && x.Val != "#main" && !ids[x.Val[1:]] {
					t.Errorf("%s: %s leads nowhere", id, x.Val)
				}
			}
		}
		if strings.Contains(a.Text, "ZgotmplZ") {
			t.Errorf("%s: the template refused a value", id)
		}
	}
}

func TestSpringsOfTheWorkedCar(t *testing.T) {
	s := exampleShop(t)
	a := s.get("/jobs/0412/springs")
	for _, sel := range []string{".s-ch .figs svg", ".s-ch2 .figs svg", ".s-bud .m svg", ".s-fq .l svg", ".s-cor svg"} {
		if a.Find(sel).Length() == 0 {
			t.Errorf("no %s", sel)
		}
	}
	s.want(a, ".s-cor .corner.l.fr1", "bar")
	s.want(a, ".s-cor .corner.l.fr1", "psi")
	s.want(a, ".s-cor .corner.l.fr1", "empty")
	s.want(a, ".s-cor .corner.l.fr1", "full")
	for _, n := range a.Find(".s-find .say").Nodes {
		if n.FirstChild == nil {
			t.Error("a finding without words")
		}
	}
	if n := a.Find("#t-front .sp-tab td input[type=text]").Length(); n != 35 {
		t.Errorf("the front table has %d boxes, expected 7 heights at 5 pressures", n)
	}
	box := a.Find(`[id="springs[front].points[p1].load"]`)
	if v, _ := box.Attr("value"); v != "1705" {
		t.Errorf("the first box holds %q, expected 1705 as typed in N", v)
	}
}

func TestSteelAndUnsaidAxlesSayWhy(t *testing.T) {
	s := exampleShop(t)
	a := s.get("/jobs/0398/springs")
	s.want(a, ".s-ch", "stays on its steel springs")
	s.want(a, ".s-cor .corner.l.fr1", "not on air")
	rec := s.record("0412")
	rec.Axles.Rear.Layout = "leaf springs"
	s.keep(rec)
	a = s.get("/jobs/0412/springs")
	s.want(a, ".s-ch2", "No spring numbers for the rear axle, leaf springs")
	rec = s.record("0412")
	rec.Car.Wheels = "3"
	s.keep(rec)
	a = s.get("/jobs/0412/springs")
	s.want(a, ".s-find .err", "No numbers for this car.")
	s.want(a, ".s-cor .corner", "refused")
}

// An unchanged form changes nothing; one box changed is one change; an empty box
// filled gets its height and pressure.
func TestTableIsKeptAsTyped(t *testing.T) {
	s := exampleShop(t)
	before := len(s.m.revs["0412"])
	pairs := formOf(s.get("/jobs/0412/springs"), "form[data-live-form]")
	s.post("/jobs/0412/springs", pairs...)
	if n := len(s.m.revs["0412"]); n != before {
		t.Errorf("an unchanged form made %d revisions", n-before)
	}
	s.post("/jobs/0412/springs", put(pairs, "springs[front].points[p1].load", "1710")...)
	rec := s.record("0412")
	if got := rec.Springs[0].Points[0].Load; got.Value != "1710 N" || got.By != "T. Marrow" {
		t.Errorf("the load is %+v", got)
	}
	if got := rec.Springs[0].Points[1].Load.By; got == "T. Marrow" {
		t.Error("a load that was not typed is signed")
	}
	a := s.get("/jobs/0412/springs")
	empty := ""
	a.Find("#t-front .sp-tab td input[type=text]").Each(func(_ int, x *goquery.Selection) {
		if v, _ := x.Attr("value"); v == "" {
			empty, _ = x.Attr("name")
		}
	})
	if empty == "" {
		t.Fatal("no box is empty")
	}
	n := len(rec.Springs[0].Points)
	s.post("/jobs/0412/springs", put(formOf(a, "form[data-live-form]"), empty, "3300")...)
	rec = s.record("0412")
	if len(rec.Springs[0].Points) != n+1 {
		t.Fatalf("%d lines, expected %d", len(rec.Springs[0].Points), n+1)
	}
	last := rec.Springs[0].Points[n]
	if last.Load.Value != "3300 N" || last.Height.Value == "" || last.Pressure.Value == "" {
		t.Errorf("the new line is %+v", last)
	}
}

// A load taken out of its box is not printed by the maker: the rest still counts.
func TestEmptiedBoxIsNotPrinted(t *testing.T) {
	s := exampleShop(t)
	pairs := formOf(s.get("/jobs/0412/springs"), "form[data-live-form]")
	a := s.post("/jobs/0412/springs", put(pairs, "springs[front].points[p5].load", "")...)
	if a.Find(".s-ch .figs svg").Length() == 0 {
		t.Errorf("the chart is gone with one load: %s", a.Find(".s-ch").Text())
	}
	s.want(a, ".s-cor .corner.l.fr1", "bar")
}

func TestPasteTakesATable(t *testing.T) {
	s := exampleShop(t)
	a := s.post("/jobs/0412/springs/paste", ":base", "2", ":spring", "front", ":text", "height mm;load N;pressure bar\n70;1705;2,0\n90;1500;2,0\nx;1;1\n")
	if a.Status != http.StatusUnprocessableEntity {
		t.Errorf("status %d", a.Status)
	}
	s.want(a, ".refused li", "Line 4")
	s.want(a, ".s-paste textarea", "70;1705;2,0")
	if n := len(s.record("0412").Springs[0].Points); n != 32 {
		t.Errorf("%d lines are kept although one was refused", n)
	}
	a = s.post("/jobs/0412/springs/paste", ":base", "2", ":spring", "front", ":partly", "1", ":text", "height mm;load N;pressure bar\n70;1705;2,0\n90;1500;2,0\nx;1;1\n")
	if a.Status != http.StatusOK || a.URL.Path != "/jobs/0412/springs" {
		t.Errorf("status %d at %s", a.Status, a.URL)
	}
	pts := s.record("0412").Springs[0].Points
	if len(pts) != 2 || pts[0].Pressure.Value != "2.0 bar" || pts[0].Load.By != "T. Marrow" {
		t.Errorf("kept %+v", pts)
	}
	a = s.post("/jobs/0412/springs/paste", ":base", "2", ":spring", "front", ":text", "load N, height mm, pressure bar\n1705,70,2\n")
	if a.Status != http.StatusConflict {
		t.Errorf("a table changed meanwhile: status %d", a.Status)
	}
	a = s.post("/jobs/0412/springs/paste", ":spring", "new:rear", ":text", "no header here")
	s.want(a, ".s-paste .err", "expected a header row")
}

func TestShelf(t *testing.T) {
	s := exampleShop(t)
	a := s.get("/jobs/0405/springs")
	if n := a.Find(".shelf li").Length(); n == 0 {
		t.Fatal("the shelf is empty")
	}
	s.want(a, ".shelf li", "Invented example")
	row, _ := a.Find(".shelf [name=':row']").First().Attr("value")
	s.post("/jobs/0405/springs/choose", ":row", row, ":axle", "front")
	rec := s.record("0405")
	got := springOf(rec, rec.Axles.Front.Spring)
	if got == nil || len(got.Points) < 10 {
		t.Fatalf("the front axle has %+v", got)
	}
	if note := s.m.revs["0405"][len(s.m.revs["0405"])-1].Note; !strings.Contains(note, "invented") {
		t.Errorf("the revision says %q, expected the row's source", note)
	}
	if a := s.post("/jobs/0405/springs/choose", ":row", "none", ":axle", "front"); a.Status != http.StatusBadRequest {
		t.Errorf("a row that is not there: %d", a.Status)
	}
	if a := s.post("/jobs/0405/springs/choose", ":row", row, ":axle", "middle"); a.Status != http.StatusBadRequest {
		t.Errorf("an axle that is not there: %d", a.Status)
	}
	a = s.post("/jobs/0412/springs/shelve", ":spring", "rear")
	s.want(a, ".shelf li", "Typed by T. Marrow in job 0412")
	if a := s.post("/jobs/0412/springs/shelve", ":spring", "rear"); a.Status != http.StatusBadRequest {
		t.Errorf("the same spring twice: %d", a.Status)
	}
}

func TestPapersOfEveryExample(t *testing.T) {
	s := exampleShop(t)
	for _, id := range exampleIDs {
		rec := s.record(id)
		a := s.get("/jobs/" + id + "/papers")
		if n := a.Find(".paps-l > li").Length(); n != 1+len(rec.LeakTests) {
			t.Errorf("%s: %d papers, expected the design and %d tests", id, n, len(rec.LeakTests))
		}
		if pdf := s.get("/jobs/" + id + "/papers/design.pdf"); pdf.Status != http.StatusOK || pdf.Text != "design of "+id+" for "+examples.Shop {
			t.Errorf("%s: design %d %q", id, pdf.Status, pdf.Text)
		}
		for _, k := range rec.LeakTests {
			if pdf := s.get("/jobs/" + id + "/papers/leak/" + k.ID + ".pdf"); pdf.Status != http.StatusOK || pdf.Text != "test "+k.ID+" of "+id {
				t.Errorf("%s: %s %d %q", id, k.ID, pdf.Status, pdf.Text)
			}
		}
		if a := s.get("/jobs/" + id + "/papers/leak/none.pdf"); a.Status != http.StatusNotFound {
			t.Errorf("%s: a test that is not there: %d", id, a.Status)
		}
	}
}

func TestPapersWithoutAPrinterSaySo(t *testing.T) {
	s := newShop(t)
	s.sign()
	a := s.get("/jobs/0412/papers")
	s.want(a, ".pap-a", "prints no papers")
	if a := s.get("/jobs/0412/papers/design.pdf"); a.Status != http.StatusBadRequest {
		t.Errorf("status %d", a.Status)
	}
}

// formOf is what a browser would send of a form that nobody touched.
func formOf(a answer, selector string) []string {
	var pairs []string
	a.Find(selector).First().Find("input[name], select[name], textarea[name]").Each(func(_ int, x *goquery.Selection) {
		name, _ := x.Attr("name")
		value, _ := x.Attr("value")
		if _, checked := x.Attr("checked"); x.AttrOr("type", "") == "radio" && !checked {
			return
		}
		if goquery.NodeName(x) == "select" {
			value = x.Find("option[selected]").AttrOr("value", "")
		}
		if goquery.NodeName(x) == "textarea" {
			value = x.Text()
		}
		pairs = append(pairs, name, value)
	})
	return pairs
}

// put changes one value of a form.
func put(pairs []string, name, value string) []string {
	out := append([]string(nil), pairs...)
	for i := 0; i < len(out); i += 2 {
		if out[i] == name {
			out[i+1] = value
		}
	}
	return out
}
