package press

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"jounce/internal/catalog"
	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/study"
)

// run runs an outside tool. A missing tool fails the test: what was not checked is not sound.
func run(t *testing.T, name string, args ...string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		pkg := "poppler-utils"
		if name == "qpdf" {
			pkg = "qpdf"
		}
		t.Fatalf("%s is not installed, so the paper cannot be checked. Install it with: apt-get install %s", name, pkg)
	}
	out, err := exec.Command(path, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s %s: %v\n%s", name, strings.Join(args, " "), err, out)
	}
	return string(out)
}

// sheet is one printed paper.
type sheet struct {
	name  string
	bytes []byte
	list  []finding.Finding // what it must say
	rev   job.Revision
}

// papers are the design page and the certificates of a record.
func papers(t *testing.T, name string, rec *job.Job, rev job.Revision, s *catalog.Shop) []sheet {
	t.Helper()
	r := study.Of(rec, s)
	b, err := Design(rec, rev, s, nil)
	if err != nil {
		t.Fatalf("%s, design page: %v", name, err)
	}
	out := []sheet{{name + " design", b, r.Findings, rev}}
	for i, l := range rec.LeakTests {
		b, err := Certificate(rec, rev, s, l.ID)
		if err != nil {
			t.Fatalf("%s, certificate: %v", name, err)
		}
		out = append(out, sheet{name + " certificate " + l.ID, b, r.Leaks[i].Findings, rev})
	}
	return out
}

// printed keeps the papers of all for the tests that only read them.
var printed []sheet

// all are the papers of the three examples and of a job that says nothing.
func all(t *testing.T) []sheet {
	t.Helper()
	if printed == nil {
		printed = anew(t)
	}
	return printed
}

// anew prints the papers of all.
func anew(t *testing.T) []sheet {
	t.Helper()
	var out []sheet
	for _, n := range names {
		rec, rev := example(t, n)
		out = append(out, papers(t, n, rec, rev, shop)...)
	}
	rec := empty()
	return append(out, papers(t, "empty", rec, revision(t, rec), catalog.NewShop(""))...)
}

// empty is a job with a test of which nothing is recorded.
func empty() *job.Job {
	return &job.Job{Schema: job.Schema, LeakTests: []job.LeakTest{{ID: "t1"}}}
}

func written(t *testing.T, b []byte) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "paper.pdf")
	if err := os.WriteFile(file, b, 0o644); err != nil {
		t.Fatal(err)
	}
	return file
}

// one is a text with every run of spaces as one.
func one(s string) string {
	return strings.Join(strings.Fields(strings.Map(func(r rune) rune {
		if r == '\u00a0' || r == '\u202f' || r == '\f' {
			return ' '
		}
		return r
	}, s)), " ")
}

func textOf(t *testing.T, b []byte) string {
	t.Helper()
	return one(run(t, "pdftotext", "-raw", written(t, b), "-"))
}

// Readers from outside find nothing wrong with any paper; faces are embedded, and both dates are the revision's.
func TestAgreesReaders(t *testing.T) {
	for _, p := range all(t) {
		file := written(t, p.bytes)
		if out := run(t, "qpdf", "--check", file); !strings.Contains(out, "No syntax or stream encoding errors") || strings.Contains(out, "WARNING") {
			t.Errorf("%s: qpdf: %s", p.name, out)
		}
		for _, l := range strings.Split(strings.TrimSpace(run(t, "pdffonts", file)), "\n")[2:] {
			if !regexp.MustCompile(`^[A-Z]{6}\+Barlow.*CID TrueType +Identity-H +yes yes yes`).MatchString(l) {
				t.Errorf("%s: pdffonts: %q, expected an embedded subset with a table back to text", p.name, l)
			}
		}
		info := run(t, "pdfinfo", "-isodates", file)
		for _, want := range []string{"CreationDate:    2026-04-03T10:42:00Z", "ModDate:         2026-04-03T10:42:00Z", "revision 31", "Tagged:          yes", "Creator:         Jounce"} {
			if !strings.Contains(info, want) {
				t.Errorf("%s: pdfinfo has no %q:\n%s", p.name, want, info)
			}
		}
		if !bytes.Contains(p.bytes, []byte("/Outlines")) {
			t.Errorf("%s: no bookmarks", p.name)
		}
	}
}

// Everything that a finding says is on the paper, word for word.
func TestConservesWords(t *testing.T) {
	for _, p := range all(t) {
		text := textOf(t, p.bytes)
		for _, f := range p.list {
			claim := f.Claim
			if f.Topic == "wishes" {
				claim = claim[strings.Index(claim, "“"):]
			}
			said := []string{claim, f.Why, f.Settle, f.Verdict.String()}
			if f.Verdict != finding.Pass {
				said = append(said, f.Least, f.Grade.String())
			}
			for _, s := range said {
				if !strings.Contains(text, one(s)) {
					t.Errorf("%s, %s: %q is not on the paper", p.name, f.ID, one(s))
				}
			}
			for _, g := range f.Needs {
				if !strings.Contains(text, one(strings.TrimLeft(g.Label, ", "))) {
					t.Errorf("%s, %s: what is missing, %q, is not on the paper", p.name, f.ID, g.Label)
				}
			}
		}
	}
}

// The same revision gives the same bytes.
func TestExactReplay(t *testing.T) {
	first := all(t)
	for range 2 {
		for i, p := range anew(t) {
			if !bytes.Equal(first[i].bytes, p.bytes) {
				t.Errorf("%s: the same revision gave other bytes", p.name)
			}
		}
	}
}

// The finished test of the worked car is one sheet, as is the one that leaks.
func TestExactOneSheet(t *testing.T) {
	for _, p := range all(t) {
		if strings.Contains(p.name, "certificate") {
			if out := run(t, "pdfinfo", written(t, p.bytes)); !regexp.MustCompile(`Pages: +1\n`).MatchString(out) {
				t.Errorf("%s: %s", p.name, out)
			}
		}
	}
}

// word is a word with its box on a page [pt].
type word struct {
	s              string
	x0, y0, x1, y1 float64
}

var wordLine = regexp.MustCompile(`<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*)</word>`)

// pagesOf are the words of each page.
func pagesOf(t *testing.T, b []byte) (pages [][]word, sizes [][2]float64) {
	t.Helper()
	file := written(t, b)
	for _, l := range strings.Split(run(t, "pdftotext", "-bbox", file, "-"), "\n") {
		if m := regexp.MustCompile(`<page width="([\d.]+)" height="([\d.]+)">`).FindStringSubmatch(l); m != nil {
			w, _ := strconv.ParseFloat(m[1], 64)
			h, _ := strconv.ParseFloat(m[2], 64)
			pages, sizes = append(pages, nil), append(sizes, [2]float64{w, h})
		}
		if m := wordLine.FindStringSubmatch(l); m != nil {
			var v [4]float64
			for i := range v {
				v[i], _ = strconv.ParseFloat(m[i+1], 64)
			}
			n := len(pages) - 1
			pages[n] = append(pages[n], word{m[5], v[0], v[1], v[2], v[3]})
		}
	}
	return pages, sizes
}

// faults are words that leave the sheet's border or lie on other words.
func faults(t *testing.T, b []byte) []string {
	t.Helper()
	const mm = 72 / 25.4
	var out []string
	pages, sizes := pagesOf(t, b)
	for n, ws := range pages {
		w, h := sizes[n][0], sizes[n][1]
		for i, a := range ws {
			middle := (a.y0 + a.y1) / 2
			if a.x0 < 15*mm || a.x1 > w-5*mm+0.5 || middle < 5*mm || middle > h-5*mm {
				out = append(out, fmt.Sprintf("page %d: %q leaves the sheet", n+1, a.s))
			}
			for _, c := range ws[i+1:] {
				wide := min(a.x1, c.x1) - max(a.x0, c.x0)
				tall := min(a.y1, c.y1) - max(a.y0, c.y0)
				if wide > 0.4*mm && tall > 0.5*min(a.y1-a.y0, c.y1-c.y0) {
					out = append(out, fmt.Sprintf("page %d: %q lies on %q at %.0f, %.0f mm", n+1, a.s, c.s, a.x0/mm, a.y0/mm))
				}
			}
		}
	}
	return out
}

// No word leaves its sheet or lies on another.
func TestExactPlace(t *testing.T) {
	for _, p := range all(t) {
		for _, f := range faults(t, p.bytes) {
			t.Errorf("%s: %s", p.name, f)
		}
	}
}

const filler = "the word that came before stands here again and "

// Texts of thousands of signs, with signs that no face has, stand in full on further sheets.
func TestLimitLongTexts(t *testing.T) {
	rec, _ := example(t, "0412-quill-saloon")
	long := func(end string) string { return strings.Repeat(filler, 60) + end }
	rec.Car.Description = long("carend")
	rec.Keeper.Name = long("keeperend")
	rec.Wishes[0].Words = long("wishend")
	rec.Wishes[1].Words = strings.Repeat("W", 3000) + " wideend"
	rec.Survey.LowestName = long("lowestend")
	rec.Survey.Fuel = long("fuelend")
	rec.Instruments[0].Name = long("gaugeend")
	rec.Instruments[1].Accuracy.Value = long("accuracyend")
	rec.Axles.Front.Limiters = append(rec.Axles.Front.Limiters, job.Limiter{ID: "x9", Name: long("limiterend")})
	l := &rec.LeakTests[0]
	l.Disturbed = long("disturbedend")
	l.TestedBy = "\U0001F697 T. Marrow \u05d0\u200f"
	l.Joints.Bubbles = "2"
	l.Joints.Where = long("whereend")
	for _, p := range papers(t, "long", rec, revision(t, rec), shop) {
		text := textOf(t, p.bytes)
		want := []string{"carend", "keeperend", "whereend"}
		if strings.Contains(p.name, "certificate") {
			want = append(want, "gaugeend", "accuracyend", "disturbedend", "[U+1F697] T. Marrow [U+05D0]")
		} else {
			want = append(want, "wishend", "wideend", "lowestend", "fuelend")
		}
		for _, w := range want {
			if !strings.Contains(text, w) {
				t.Errorf("%s: %q is cut off", p.name, w)
			}
		}
		for _, f := range faults(t, p.bytes) {
			t.Errorf("%s: %s", p.name, f)
		}
	}
}

// Sixty readings and thirty instruments go on to a second sheet, each on it once.
func TestLimitManyReadings(t *testing.T) {
	rec, _ := example(t, "0412-quill-saloon")
	l := &rec.LeakTests[0]
	from := time.Date(2026, 4, 2, 18, 0, 0, 0, time.UTC)
	var rs []job.LeakReading
	for i := range 60 {
		r := l.Readings[0]
		r.ID = "m" + strconv.Itoa(i)
		r.At = from.Add(time.Duration(i) * 11 * time.Minute).Format(job.TimeLayout)
		tool := "many" + strconv.Itoa(i%30)
		r.Pressure.With, r.Pressure.At = tool, r.At
		rs = append(rs, r)
	}
	for i := range 30 {
		rec.Instruments = append(rec.Instruments, job.Instrument{ID: "many" + strconv.Itoa(i), Name: fmt.Sprintf("gauge number %d of many", i), Accuracy: job.Typed("0.04 bar"), Checked: "2026-02-09"})
	}
	l.Readings = rs
	for _, p := range papers(t, "many", rec, revision(t, rec), shop) {
		if !strings.Contains(p.name, "certificate") {
			continue
		}
		text := textOf(t, p.bytes)
		for i := range 60 {
			if at := from.Add(time.Duration(i)*11*time.Minute).Format("15:04") + " 20.0 10.00"; strings.Count(text, at) != 1 {
				t.Errorf("the reading %q stands %d times on the paper", at, strings.Count(text, at))
			}
		}
		for i := range 30 {
			if at := fmt.Sprintf("gauge number %d of many", i); !strings.Contains(text, at) {
				t.Errorf("%q is not on the paper", at)
			}
		}
		for _, f := range faults(t, p.bytes) {
			t.Error(f)
		}
	}
}

// A certificate whose gauge was out of date says so at the claim and at the instrument, and keeps the hold shut.
func TestScenario11NotEvidence(t *testing.T) {
	rec, _ := example(t, "0412-quill-saloon")
	rec.Instruments[0].Due = "2026-03-01"
	b, err := Certificate(rec, revision(t, rec), shop, "t1")
	if err != nil {
		t.Fatal(err)
	}
	text := textOf(t, b)
	for _, w := range []string{"Not evidence: gauge 7, digital, 0 to 16 bar was due for its check on 2026-03-01.", "Not evidence: the check was due on 1 March 2026.", "Hold point 2 stays shut:"} {
		if !strings.Contains(text, w) {
			t.Errorf("%q is not on the paper:\n%s", w, text)
		}
	}
}

// A test above the relief valve prints its refusal; one without readings says what is not read; both keep the hold shut.
func TestExactRefusalAndGaps(t *testing.T) {
	rec, _ := example(t, "0412-quill-saloon")
	rec.LeakTests[0].Pressure = job.Typed("14 bar")
	b, err := Certificate(rec, revision(t, rec), shop, "t1")
	if err != nil {
		t.Fatal(err)
	}
	r := study.Of(rec, shop)
	text := textOf(t, b)
	for _, w := range []string{one(r.Leaks[0].Refused), "Hold point 2 stays shut: the test is refused"} {
		if w == "" || !strings.Contains(text, w) {
			t.Errorf("%q is not on the paper", w)
		}
	}
	rec, _ = example(t, "0412-quill-saloon")
	rec.LeakTests[0].Readings, rec.LeakTests[0].Joints = nil, job.Joints{}
	if b, err = Certificate(rec, revision(t, rec), shop, "t1"); err != nil {
		t.Fatal(err)
	}
	text = textOf(t, b)
	for _, w := range []string{"Not read:", "Hold point 2 stays shut: tank not read; corners not read; joints not read.", "No reading yet"} {
		if !strings.Contains(text, w) {
			t.Errorf("%q is not on the paper", w)
		}
	}
}

// What the owner signs for prints with its reason.
func TestExactSignedReason(t *testing.T) {
	rec, _ := example(t, "0412-quill-saloon")
	rec.Signatures = append(rec.Signatures, job.Signature{ID: "g1", Finding: "ground.road", Who: "P. Thorn", Reason: "Shown to the keeper on the ramp", At: "2026-03-20"})
	b, err := Design(rec, revision(t, rec), shop, nil)
	if err != nil {
		t.Fatal(err)
	}
	if text := textOf(t, b); !strings.Contains(text, "Signed: P. Thorn, 2026-03-20. Reason: Shown to the keeper on the ramp.") {
		t.Error("the signed reason is not on the paper")
	}
}

// A test that the record does not have is not found.
func TestExactNotFound(t *testing.T) {
	rec, rev := example(t, "0412-quill-saloon")
	if _, err := Certificate(rec, rev, shop, "t9"); !errors.Is(err, job.ErrNotFound) {
		t.Errorf("%v, expected not found", err)
	}
}

// The scale that the page says is the scale it is drawn at: the wheelbase's dimension is 2540 mm at 1 : 20.
func TestExactScale(t *testing.T) {
	rec, rev := example(t, "0412-quill-saloon")
	b, err := Design(rec, rev, shop, nil)
	if err != nil {
		t.Fatal(err)
	}
	const mm = 72 / 25.4
	pages, _ := pagesOf(t, b)
	at := map[string]float64{}
	for _, w := range pages[0] {
		if w.y0 < 105*mm && (w.s == "690" || w.s == "900") { // the overhangs' lettering stands in their middle
			at[w.s] = (w.x0 + w.x1) / 2 / mm
		}
	}
	want := (690.0/2 + 2540 + 900.0/2) / 20
	if got := at["900"] - at["690"]; got < want-0.5 || got > want+0.5 {
		t.Errorf("from the middle of one overhang to that of the other %.2f mm on the paper, %.2f expected at 1 : 20", got, want)
	}
	if !strings.Contains(textOf(t, b), "1 : 20") {
		t.Error("the scale is not said")
	}
}

// BenchmarkDesignPage is to stay under 150 ms.
func BenchmarkDesignPage(b *testing.B) {
	rec, rev := example(b, "0412-quill-saloon")
	for b.Loop() {
		if _, err := Design(rec, rev, shop, nil); err != nil {
			b.Fatal(err)
		}
	}
}
