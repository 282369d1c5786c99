package evidence

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

func TestExactNumber(t *testing.T) {
	for _, c := range []struct {
		in      string
		v, half float64
	}{
		{"842", 842, 0.5}, {"0.71", 0.71, 0.005}, {"−105", -105, 0.5},
		{"12 352", 12352, 0.5}, {"1.333e-3", 1.333e-3, 0.5e-6}, {"100.0", 100, 0.05},
	} {
		v, half, err := parseNumber(c.in)
		if err != nil || v != c.v || math.Abs(half-c.half) > 1e-15*c.half {
			t.Errorf("%q: %v, half a unit %v, %v", c.in, v, half, err)
		}
	}
	for _, in := range []string{"", "1,5", "0x10", "NaN", "inf", "1e", "1e999", "1_000", "about 5"} {
		if v, _, err := parseNumber(in); err == nil {
			t.Errorf("%q was read as %v", in, v)
		}
	}
}

func TestExactTolerance(t *testing.T) {
	rows, err := readRows("X", strings.NewReader(`id,what,unit,printed,tol,note,c
# a comment
1,flow,L/min,842,,,2
2,flow,L/min,200,0.5%,section 10,2
3,flow,L/min,200,±0.02,section 10,2
`))
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{0.5, 1, 0.02} {
		if got := rows[i].Tolerance(); math.Abs(got-want) > 1e-12 {
			t.Errorf("row %d: tolerance %v, expected %v", i+1, got, want)
		}
	}
}

func TestLimitRefusedFiles(t *testing.T) {
	const head = "id,what,unit,printed,tol,note,kind\n"
	for name, in := range map[string]string{
		"no header":          "",
		"column missing":     "id,what,unit\n1,a,b\n",
		"no number":          head + "1,a,bar,x,,,\n",
		"id twice":           head + "1,a,bar,1,,,\n1,a,bar,2,,,\n",
		"tolerance unasked":  head + "1,a,bar,1,5%,,\n",
		"tolerance unclear":  head + "1,a,bar,1,5,why,\n",
		"kind unknown":       head + "1,a,bar,1,,,maybe\n",
		"slip without right": head + "1,a,bar,1,,,slip\n",
		"fields missing":     head + "1,a\n",
	} {
		if _, err := readRows("X", strings.NewReader(in)); err == nil {
			t.Errorf("%s: was read without an error", name)
		}
	}
}

// watcher stands for a test that is expected to fail.
type watcher struct {
	testing.TB
	name   string
	failed []string
}

func (w *watcher) Helper()        {}
func (w *watcher) Name() string   { return w.name }
func (w *watcher) Cleanup(func()) {}
func (w *watcher) Errorf(f string, a ...any) {
	w.failed = append(w.failed, fmt.Sprintf(f, a...))
}

// TestExactVerdicts shows that the check itself can fail.
func TestExactVerdicts(t *testing.T) {
	rows, err := readRows("X", strings.NewReader("id,what,unit,printed,note,kind\n1,a,bar,1.20,,\n2,b,bar,3,right is 4,slip\n"))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		row     int
		got     float64
		verdict string
		fails   bool
	}{
		{0, 1.2049, "agrees", false}, {0, 1.206, "OFF", true}, {0, math.NaN(), "OFF", true},
		{1, 4, "slip not reproduced", false}, {1, 3.2, "SLIP REPRODUCED", true}, {1, math.NaN(), "SLIP REPRODUCED", true},
	} {
		w := &watcher{TB: t, name: "TestPublishedX"}
		b := Book{tb: w, pkg: "x"}
		b.Check(rows[c.row], c.got)
		if b.done[0].verdict != c.verdict || (len(w.failed) > 0) != c.fails {
			t.Errorf("row %d, %v: verdict %q, failed %v", c.row, c.got, b.done[0].verdict, w.failed)
		}
	}
}

func TestExactShown(t *testing.T) {
	for _, c := range []struct {
		printed string
		v       float64
		shown   string
		dev     string
	}{
		{"842", 841.5612, "841.56", "−0.44"}, {"1.333e-3", 1.688754e-3, "1.68875e−03", "+0.000356"},
		{"−105", -105.02, "−105.02", "−0.02"}, {"0.71", 0.71, "0.7100", "0"},
	} {
		shown := showLike(c.printed, c.v)
		if shown != c.shown || showDeviation(c.printed, shown) != c.dev {
			t.Errorf("%s: shown %s, deviation %s", c.printed, shown, showDeviation(c.printed, shown))
		}
	}
}

func TestExactRecord(t *testing.T) {
	l := line{pkg: "gas", test: "TestPublished", source: "CP", id: "1", what: "a\tb", printed: "1", verdict: "agrees"}
	back, err := decode(strings.TrimSuffix(l.encode(), "\n"))
	if err != nil || back.what != "a b" || back.verdict != "agrees" {
		t.Errorf("came back as %+v, %v", back, err)
	}
	if !strings.Contains(string(page([]line{l})), "| 1 | a\tb |") {
		t.Errorf("the row is not on the page:\n%s", page([]line{l}))
	}
}

func FuzzReadRows(f *testing.F) {
	f.Add("id,what,unit,printed,tol,note,c\n1,flow,L/min,842,,,2\n")
	f.Add("id,what,unit,printed,kind,note\n1,x,,1e-3,slip,why\n")
	f.Fuzz(func(t *testing.T, in string) {
		rows, err := readRows("X", strings.NewReader(in))
		if err != nil {
			return
		}
		for _, r := range rows {
			if !(r.Tolerance() >= 0) || math.IsNaN(r.Expected()) {
				t.Errorf("row %q: expected %v, tolerance %v", r.ID, r.Expected(), r.Tolerance())
			}
		}
	})
}
