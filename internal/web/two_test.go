package web

import (
	"context"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"jounce/internal/job"
)

// answer sends the page that asks which value stands, as a browser does.
func (s *shop) answer(a answer, path string, stands ...string) answer {
	s.t.Helper()
	var pairs []string
	a.Find("form[data-both] input[type=hidden]").Each(func(_ int, b *sel) {
		name, _ := b.Attr("name")
		v, _ := b.Attr("value")
		pairs = append(pairs, name, v)
	})
	for i := 0; i < len(stands); i += 2 {
		pairs = append(pairs, stands[i]+":stands", stands[i+1])
	}
	return s.post(path, pairs...)
}

// saves changes the record as somebody else, as the next revision.
func (s *shop) saves(who string, change func(*job.Job)) {
	s.t.Helper()
	rec := s.record("0412")
	change(rec)
	doc, err := rec.Encode()
	if err != nil {
		s.t.Fatal(err)
	}
	if _, err := s.m.Save(s.t.Context(), job.Save{Job: "0412", Base: len(s.m.revs["0412"]), Document: doc, Author: who}); err != nil {
		s.t.Fatal(err)
	}
}

func weighed(text, who, at string) func(*job.Job) {
	return func(j *job.Job) { j.Corners.FL.Weight = job.Reading{Value: text, By: who, At: at} }
}

const weights = "/jobs/0412/record/weights"

func TestScenario12TwoTabletsReadOneCorner(t *testing.T) {
	for stand, want := range map[string]string{"mine": "286 kg", "theirs": "280 kg"} {
		t.Run(stand, func(t *testing.T) {
			s := newShop(t)
			s.sign()
			s.saves("H. Orme", weighed("280 kg", "H. Orme", "2026-03-14T09:12:00Z"))
			// B was offline since revision 1, typed at 09:30, and sends at 10:42
			a := s.post(weights, ":base", "1", "corners.FL.weight", "286", "corners.FR.weight", "281", ":at", "2026-03-14T09:30:00Z", ":sent", "f00d")
			if a.Status != http.StatusConflict || len(s.m.revs["0412"]) != 2 {
				t.Fatalf("status %d, %d revisions, expected a question and nothing saved", a.Status, len(s.m.revs["0412"]))
			}
			text := a.Find(".both").Text()
			for _, w := range []string{"FL weight", "before: 276 kg", "280 kg", "H. Orme, 2026-03-14 09:12", "286 kg", "T. Marrow, 2026-03-14 09:30"} {
				if !strings.Contains(text, w) {
					t.Errorf("the question does not say %q: %s", w, text)
				}
			}
			if a = s.answer(a, weights, "corners.FL.weight", stand); a.Status != http.StatusOK {
				t.Fatalf("status %d", a.Status)
			}
			rec, rev := s.record("0412"), s.m.revs["0412"][2]
			if rec.Corners.FL.Weight.Value != want || rec.Corners.FR.Weight.Value != "281 kg" || rec.Corners.FR.Weight.At != "2026-03-14T09:30:00Z" {
				t.Errorf("FL %+v, FR %+v", rec.Corners.FL.Weight, rec.Corners.FR.Weight)
			}
			for _, w := range []string{"280 kg", "286 kg", "put aside", "09:"} {
				if !strings.Contains(rev.Note, w) {
					t.Errorf("the history says %q, expected %q in it", rev.Note, w)
				}
			}
		})
	}
}

func TestAnAnswerToWhatWasSavedSinceIsAskedAgain(t *testing.T) {
	s := newShop(t)
	s.sign()
	s.saves("H. Orme", weighed("280 kg", "H. Orme", ""))
	a := s.post(weights, ":base", "1", "corners.FL.weight", "286")
	s.saves("H. Orme", weighed("279 kg", "H. Orme", ""))
	if a = s.answer(a, weights, "corners.FL.weight", "mine"); a.Status != http.StatusConflict {
		t.Fatalf("status %d, expected the question again: 279 kg was never seen", a.Status)
	}
	s.want(a, ".both", "279 kg")
	if a = s.answer(a, weights, "corners.FL.weight", "mine"); a.Status != http.StatusOK || s.record("0412").Corners.FL.Weight.Value != "286 kg" {
		t.Errorf("status %d, FL %+v", a.Status, s.record("0412").Corners.FL.Weight)
	}
}

func TestAFormSentTwiceIsTakenOnce(t *testing.T) {
	s := newShop(t)
	s.sign()
	form := []string{":base", "1", "survey.rearOverhang", "900", ":sent", "f00d"}
	s.post("/jobs/0412/record/body", form...)
	s.saves("H. Orme", func(j *job.Job) { j.Survey.RearOverhang = job.Reading{Value: "905 mm"} })
	if a := s.post("/jobs/0412/record/body", form...); a.Status != http.StatusOK || len(s.m.revs["0412"]) != 3 || s.record("0412").Survey.RearOverhang.Value != "905 mm" {
		t.Errorf("sent again: status %d, %d revisions, %+v", a.Status, len(s.m.revs["0412"]), s.record("0412").Survey.RearOverhang)
	}
	// after a restart nobody remembers the name: the merge finds nothing to change
	again := []string{":base", "1", "survey.frontOverhang", "705 mm"}
	s.post("/jobs/0412/record/body", again...)
	n := len(s.m.revs["0412"])
	if a := s.post("/jobs/0412/record/body", again...); a.Status != http.StatusOK || len(s.m.revs["0412"]) != n {
		t.Errorf("sent again: status %d, %d revisions, expected %d", a.Status, len(s.m.revs["0412"]), n)
	}
}

func TestTakenOutHereAndChangedThereAsks(t *testing.T) {
	s := newShop(t)
	s.sign()
	s.saves("H. Orme", func(j *job.Job) { j.Springs[0].Points[1].Load.Value = "2150 N" })
	const page = "/jobs/0412/record/springs"
	a := s.post(page, ":base", "1", ":remove", "springs[s1].points[p2]")
	if a.Status != http.StatusConflict {
		t.Fatalf("status %d, expected 409", a.Status)
	}
	s.want(a, ".both", "Load 2150 N")
	s.want(a, ".both", "taken out")
	if a = s.answer(a, page, "springs[s1].points[p2]", "mine"); a.Status != http.StatusOK || len(s.record("0412").Springs[0].Points) != 1 {
		t.Errorf("status %d, %+v", a.Status, s.record("0412").Springs[0].Points)
	}
}

func TestTwoLinesUnderOneNumberMayBothStand(t *testing.T) {
	s := newShop(t)
	s.sign()
	s.saves("H. Orme", func(j *job.Job) {
		j.Springs[0].Points = append(j.Springs[0].Points, job.SpringPoint{ID: "p3", Load: job.Typed("1400 N"), Pressure: job.Typed("2 bar"), Height: job.Typed("150 mm")})
	})
	const page = "/jobs/0412/record/springs"
	a := s.post(page, ":base", "1", "springs[s1].points[p3].load", "3490", "springs[s1].points[p3].pressure", "5", "springs[s1].points[p3].height", "150")
	if a.Status != http.StatusConflict {
		t.Fatalf("status %d, expected 409", a.Status)
	}
	if a = s.answer(a, page, "springs[s1].points[p3]", "both"); a.Status != http.StatusOK {
		t.Fatalf("status %d", a.Status)
	}
	p := s.record("0412").Springs[0].Points
	if len(p) != 4 || p[2].Load.Value != "1400 N" || p[3].Load.Value != "3490 N" || p[3].ID != "p4" {
		t.Errorf("%+v", p)
	}
}

// TestATypingPageSaysWhatOthersSaved: an open form is told at the box, and its
// box is left alone.
func TestATypingPageSaysWhatOthersSaved(t *testing.T) {
	s := newShop(t)
	s.sign()
	s.saves("H. Orme", weighed("280 kg", "H. Orme", ""))
	r, err := http.NewRequest("POST", s.srv.URL+weights, strings.NewReader(url.Values{":base": {"1"}, "corners.FL.weight": {"276 kg"}, "corners.FR.weight": {"281"}}.Encode()))
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("X-Live", "1")
	a := s.read(s.c.Do(r))
	s.want(a, `[id="e-corners.FL.weight"]`, "FL weight: H. Orme saved meanwhile: 280 kg.")
	s.want(a, "#found", "281")
}

// racing records are saved by somebody else just before they are saved.
type racing struct {
	Records
	before func()
}

func (r *racing) Save(ctx context.Context, save job.Save) (job.Revision, error) {
	if f := r.before; f != nil {
		r.before = nil
		f()
	}
	return r.Records.Save(ctx, save)
}

func TestASaveInTheSameMomentIsMerged(t *testing.T) {
	s := newShop(t)
	r := &racing{Records: s.m}
	s.srv.Config.Handler = New(Options{Records: r, Clock: clock})
	s.sign()
	r.before = func() { s.saves("H. Orme", weighed("280 kg", "H. Orme", "")) }
	if a := s.post(weights, ":base", "1", "corners.FR.weight", "281"); a.Status != http.StatusOK {
		t.Fatalf("status %d", a.Status)
	}
	if c := s.record("0412").Corners; c.FL.Weight.Value != "280 kg" || c.FR.Weight.Value != "281 kg" {
		t.Errorf("FL %+v, FR %+v", c.FL.Weight, c.FR.Weight)
	}
	r.before = func() { s.saves("H. Orme", weighed("279 kg", "H. Orme", "")) }
	if a := s.post(weights, ":base", "3", "corners.FL.weight", "286"); a.Status != http.StatusConflict {
		t.Errorf("status %d, expected the question", a.Status)
	}
}
