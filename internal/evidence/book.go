package evidence

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"jounce/source"
)

// Book is what one test holds against its sources.
type Book struct {
	tb   testing.TB
	root string // directory of go.mod
	pkg  string // directory of the package under test, from root
	read map[string][]Row
	done []line
}

// line is one checked row as it is recorded.
type line struct {
	pkg, test, source, id, what, unit, printed string
	computed, deviation, tolerance, verdict    string
	where, mark, note                          string
}

// Open starts the record of the test that calls it. At the end of the test the
// record is compared with docs/validation, or written there when the
// environment says VALIDATION=write.
func Open(tb testing.TB) *Book {
	tb.Helper()
	if !strings.HasPrefix(tb.Name(), "TestPublished") || strings.Contains(tb.Name(), "/") {
		tb.Fatalf("published figures are checked in a test named TestPublished..., not in %s", tb.Name())
	}
	root, pkg, err := place()
	if err != nil {
		tb.Fatal(err)
	}
	b := &Book{tb: tb, root: root, pkg: pkg, read: map[string][]Row{}}
	tb.Cleanup(b.close)
	return b
}

// Rows are all rows of testdata/published/<key>.csv.
func (b *Book) Rows(key string) []Row {
	b.tb.Helper()
	if rows, ok := b.read[key]; ok {
		return rows
	}
	if _, ok := source.Of(key); !ok {
		b.tb.Fatalf("source %q is not in the bibliography", key)
	}
	data, err := os.ReadFile(filepath.Join("testdata", "published", key+".csv"))
	if err != nil {
		b.tb.Fatal(err)
	}
	rows, err := readRows(key, bytes.NewReader(data))
	if err != nil {
		b.tb.Fatal(err)
	}
	for i := range rows {
		rows[i].tb = b.tb
	}
	b.read[key] = rows
	return rows
}

// Row is the row with that id.
func (b *Book) Row(key, id string) Row {
	b.tb.Helper()
	for _, r := range b.Rows(key) {
		if r.ID == id {
			return r
		}
	}
	b.tb.Fatalf("%s: there is no row %q", key, id)
	return Row{}
}

// Check holds a computed figure [in the row's unit] against the printed one.
// A row marked as slip must not be reproduced.
func (b *Book) Check(r Row, computed float64) {
	b.tb.Helper()
	dev := computed - r.expected
	agrees := math.Abs(dev) <= r.tolerance*(1+1e-9)
	verdict := "agrees"
	switch {
	case r.Kind == "slip" && !agrees && !math.IsNaN(dev):
		verdict = "slip not reproduced"
	case r.Kind == "slip":
		verdict = "SLIP REPRODUCED"
		b.tb.Errorf("%s %s, %s: %v %s reproduces the source's slip %s; right is: %s",
			r.Source, r.ID, r.What, computed, r.Unit, r.Printed, r.Note)
	case !agrees:
		verdict = "OFF"
		b.tb.Errorf("%s %s, %s: computed %v %s, printed %s, off by %.3g, may be %.3g",
			r.Source, r.ID, r.What, computed, r.Unit, r.Printed, dev, r.tolerance)
	}
	shown := showLike(r.Printed, computed)
	b.done = append(b.done, line{
		pkg: b.pkg, test: b.tb.Name(), source: r.Source, id: r.ID, what: r.What, unit: r.Unit,
		printed: r.Printed, computed: shown, deviation: showDeviation(r.Printed, shown),
		tolerance: showTolerance(r), verdict: verdict,
		where: r.Where, mark: r.Mark, note: r.Note,
	})
}

// showLike writes a number with two digits more than the printed one.
func showLike(printed string, v float64) string {
	_, half, err := parseNumber(printed)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return fmt.Sprint(v)
	}
	last := int(math.Round(math.Log10(half * 2)))
	if strings.ContainsAny(printed, "eE") && v != 0 {
		top := int(math.Floor(math.Log10(math.Abs(v))))
		return minus(fmt.Sprintf("%.*e", max(top-last+2, 0), v))
	}
	return minus(fmt.Sprintf("%.*f", max(2-last, 0), v))
}

// showDeviation is the difference of the two figures as shown, so that the
// last bits of a machine's arithmetic never reach the page.
func showDeviation(printed, shown string) string {
	p, half, err := parseNumber(printed)
	c, _, err2 := parseNumber(shown)
	if err != nil || err2 != nil {
		return "?"
	}
	steps := math.Round((c - p) / (half / 50))
	if steps == 0 {
		return "0"
	}
	return minus(fmt.Sprintf("%+.3g", steps*half/50))
}

func showTolerance(r Row) string {
	if r.Tol != "" {
		return r.Tol
	}
	return fmt.Sprintf("±%.3g", r.tolerance)
}

func minus(s string) string { return strings.ReplaceAll(s, "-", "−") }

// close compares or writes the record.
func (b *Book) close() {
	if len(b.done) == 0 {
		b.tb.Errorf("%s checked no published figure", b.tb.Name())
		return
	}
	var text bytes.Buffer
	for _, l := range b.done {
		text.WriteString(l.encode())
	}
	name := filepath.Join(b.root, recordDir, strings.ReplaceAll(b.pkg, "/", ".")+"."+b.tb.Name()+".tsv")
	if writing() {
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			b.tb.Fatal(err)
		}
		if err := os.WriteFile(name, text.Bytes(), 0o644); err != nil {
			b.tb.Fatal(err)
		}
		return
	}
	old, _ := os.ReadFile(name)
	if !bytes.Equal(old, text.Bytes()) {
		b.tb.Errorf("the record %s is stale: run VALIDATION=write go test ./%s -run TestPublished -count=1",
			filepath.Base(name), b.pkg)
	}
}
