package pdf

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	ffont "github.com/carlos7ags/folio/font"
	"github.com/pdfcpu/pdfcpu/pkg/api"

	"jounce/internal/draw"
	"jounce/internal/draw/font"
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

// written is the document as a file.
func written(t *testing.T, d *Document) string {
	t.Helper()
	b, err := d.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "paper.pdf")
	if err := os.WriteFile(file, b, 0o644); err != nil {
		t.Fatal(err)
	}
	return file
}

// Four readers from outside find nothing wrong with the specimen.
func TestAgreesReaders(t *testing.T) {
	file := written(t, specimenDoc(t))
	if out := run(t, "qpdf", "--check", file); !strings.Contains(out, "No syntax or stream encoding errors") || strings.Contains(out, "WARNING") {
		t.Errorf("qpdf: %s", out)
	}
	api.DisableConfigDir()
	if err := api.ValidateFile(file, nil); err != nil {
		t.Errorf("pdfcpu: %v", err)
	}
	fonts := strings.Split(strings.TrimSpace(run(t, "pdffonts", file)), "\n")[2:]
	if len(fonts) != 3 {
		t.Errorf("%d faces, the specimen uses 3: %q", len(fonts), fonts)
	}
	for _, l := range fonts {
		if !regexp.MustCompile(`^[A-Z]{6}\+Barlow.*CID TrueType +Identity-H +yes yes yes`).MatchString(l) {
			t.Errorf("pdffonts: %q, expected an embedded subset with a table back to text", l)
		}
	}
	info := run(t, "pdfinfo", "-isodates", file)
	for _, want := range []string{"Leak and relief", "Thornhythe Coachworks", "0412 / 21", "revision 31, digest 7c1e", "2026-04-03T10:42:00Z", "Tagged:          yes", "Pages:           2", "595.276 x 841.89"} {
		if !strings.Contains(info, want) {
			t.Errorf("pdfinfo has no %q:\n%s", want, info)
		}
	}
	if out := run(t, "pdfinfo", "-f", "2", "-l", "2", file); !strings.Contains(out, "841.89 x 595.276") {
		t.Errorf("the second sheet is not landscape:\n%s", out)
	}
	for _, arg := range []string{"-layout", "-raw"} {
		if out := run(t, "pdftotext", arg, file, "-"); strings.Contains(out, "Error") {
			t.Errorf("pdftotext %s: %s", arg, out)
		}
	}
	if out := run(t, "pdfinfo", "-struct-text", file); !strings.Contains(out, "H1") || !strings.Contains(out, "Table") || !strings.Contains(out, "TH") || strings.Contains(out, "Error") {
		t.Errorf("tags: %s", out)
	}
	if out := run(t, "pdfinfo", "-dests", file); strings.Contains(out, "Error") {
		t.Errorf("bookmarks: %s", out)
	}
}

// Every part's last words are in the paper, with plain spaces between words, so nothing was cut off silently.
func TestConservesWords(t *testing.T) {
	file := written(t, specimenDoc(t))
	text := run(t, "pdftotext", "-layout", file, "-")
	for _, w := range lastWords {
		if !strings.Contains(text, w) {
			t.Errorf("%q is not in the paper", w)
		}
	}
	raw := run(t, "pdftotext", "-raw", file, "-")
	for _, w := range []string{"Fail. 0.4 psi lost in 12 h past the cold. Worst likely 0.07; pass ends at 0.1.", "0412 / 21 Leak and relief", "≥ ≤ √ Δ Ω ½ ⌀ → ₂", "wheelbase 2540"} {
		if !strings.Contains(raw, w) {
			t.Errorf("%q is not in the paper:\n%s", w, raw)
		}
	}
	b, _ := os.ReadFile(file)
	for _, w := range []string{"Certificate", "Claims", "Specimen"} {
		if !bytes.Contains(b, []byte("("+w+")")) {
			t.Errorf("no bookmark %q", w)
		}
	}
}

// The same content gives the same bytes, a day later too.
func TestExactReplay(t *testing.T) {
	first, err := specimenDoc(t).Bytes()
	if err != nil {
		t.Fatal(err)
	}
	for range 5 {
		again, err := specimenDoc(t).Bytes()
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(first, again) {
			t.Fatal("the same content gave other bytes")
		}
	}
}

// Lines lie where they were placed: a sheet is drawn at 10 pixels a millimetre and the ink is looked for.
func TestExactPlace(t *testing.T) {
	d := New(Info{Title: "place"})
	s := d.Sheet(Landscape)
	sc := draw.NewScene(draw.ForPaper(), 60, 40)
	sc.Add(draw.Rect(10, 5, 20, 10).Fill(draw.Ink), draw.Circle(45, 20, 8).Fill(draw.Ink))
	sc.Add(draw.G(draw.Rect(0, 0, 4, 2).Fill(draw.Ink)).Turn(draw.Pt(0, 0), 90).Shift(20, 35))
	s.Scene(100, 50, sc)
	s.Line(200, 100, 200, 150, 0.7, draw.Ink)
	s.Text(draw.Text{X: 50, Y: 120, S: "H", Size: 20, Role: draw.Ink})
	pix := raster(t, written(t, d))
	for _, c := range []struct {
		what           string
		x0, y0, x1, y1 float64 // where to look [mm]
		want           draw.Box
	}{
		{"rectangle", 105, 50, 133, 69.5, draw.Box{X0: 110, Y0: 55, X1: 130, Y1: 65}},
		{"circle", 135, 50, 160, 85, draw.Box{X0: 137, Y0: 62, X1: 153, Y1: 78}},
		{"turned by 90°", 115, 78, 130, 90, draw.Box{X0: 120, Y0: 81, X1: 122, Y1: 85}},
		{"line of 0.7 mm", 190, 90, 210, 160, draw.Box{X0: 199.65, Y0: 100, X1: 200.35, Y1: 150}},
	} {
		got := inked(pix, c.x0, c.y0, c.x1, c.y1)
		for i, d := range []float64{got.X0 - c.want.X0, got.Y0 - c.want.Y0, got.X1 - c.want.X1, got.Y1 - c.want.Y1} {
			if math.Abs(d) > 0.11 { // a pixel and the rounding of the page to whole pixels
				t.Errorf("%s: side %d lies at %v, expected %v", c.what, i, got, c.want)
			}
		}
	}
	// A capital of 20 mm lettering is 14 mm high and stands on its base line.
	h := inked(pix, 40, 95, 70, 130)
	if math.Abs(h.Y1-120) > 0.11 || math.Abs(h.Y0-106) > 0.11 {
		t.Errorf("H reaches from %v to %v, expected 106 to 120", h.Y0, h.Y1)
	}
}

// raster draws the first sheet at 10 pixels a millimetre.
func raster(t *testing.T, file string) image.Image {
	t.Helper()
	out := filepath.Join(t.TempDir(), "p")
	run(t, "pdftoppm", "-r", "254", "-f", "1", "-l", "1", "-singlefile", "-png", file, out)
	f, err := os.Open(out + ".png")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	im, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return im
}

// inked is the box round everything more than half dark within the window [mm].
func inked(im image.Image, x0, y0, x1, y1 float64) draw.Box {
	b := draw.Box{X0: 1e9, Y0: 1e9, X1: -1e9, Y1: -1e9}
	for y := int(y0 * 10); y < int(y1*10); y++ {
		for x := int(x0 * 10); x < int(x1*10); x++ {
			if r, _, _, _ := im.At(x, y).RGBA(); r < 0x8000 {
				b = draw.Box{X0: min(b.X0, float64(x)/10), Y0: min(b.Y0, float64(y)/10), X1: max(b.X1, float64(x+1)/10), Y1: max(b.Y1, float64(y+1)/10)}
			}
		}
	}
	return b
}

func TestLimitMissingSign(t *testing.T) {
	for name, f := range map[string]func(*Sheet){
		"text":  func(s *Sheet) { s.Text(draw.Text{S: "Москва", Size: 3, Role: draw.Ink}) },
		"para":  func(s *Sheet) { s.Para(0, 0, 50, List, Plain("fine"), Plain(" 漢")) },
		"table": func(s *Sheet) { s.Table(0, 0, Table{Cols: []Col{{W: 30}}, Rows: []Row{Cells("☃")}}, 0, 1) },
		"block": func(s *Sheet) { s.TitleBlock(0, 50, 60, [][]Field{{{Caption: "a", Value: "∅"}}}) },
		"scene": func(s *Sheet) {
			sc := draw.NewScene(draw.ForPaper(), 10, 10)
			sc.Add(draw.G(draw.ForPaper().Text(draw.Body, 1, 1, "\u200b", draw.Start)))
			s.Scene(0, 0, sc)
		},
		"later":            func(s *Sheet) { s.Numbered(func(int, int) { s.Text(draw.Text{S: "Ж", Size: 3, Role: draw.Ink}) }) },
		"NaN":              func(s *Sheet) { s.Line(math.NaN(), 0, 1, 1, 1, draw.Ink) },
		"NaN in lettering": func(s *Sheet) { s.Text(draw.Text{X: math.Inf(1), S: "a", Size: 3, Role: draw.Ink}) },
	} {
		d := New(Info{Title: "x"})
		s := d.Sheet(Portrait)
		s.Text(draw.Text{X: 10, Y: 10, S: "sound", Size: 3, Role: draw.Ink})
		f(s)
		if _, err := d.Bytes(); err == nil || !(strings.Contains(err.Error(), "lacks") || strings.Contains(err.Error(), "no number")) {
			t.Errorf("%s: error %v, expected the sign or the number named", name, err)
		}
	}
	if _, err := New(Info{}).Bytes(); err == nil {
		t.Error("a document without a sheet was written")
	}
	d := specimenDoc(t)
	d.Bytes()
	if _, err := d.Bytes(); err == nil {
		t.Error("a document was finished twice")
	}
	if _, err := JPEG([]byte("no picture")); err == nil {
		t.Error("something else was taken for a JPEG")
	}
}

// The library that writes the widths into the paper reads the same advances from the faces as the measuring does. Kerns are
// ours alone: they are written into the lines, and package svg compares them with a browser.
func TestAgreesFaces(t *testing.T) {
	for _, f := range font.Faces {
		face, err := ffont.ParseTTF(f.TTF())
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		for r := rune(0x20); r < 0x2300; r++ {
			if !f.Has(r) {
				continue
			}
			n++
			if w := float64(face.GlyphAdvance(face.GlyphIndex(r))) / float64(face.UnitsPerEm()); math.Abs(w-f.Advance(r)) > 1e-9 {
				t.Errorf("%s: %c is %v wide, by the other parser %v", f, r, f.Advance(r), w)
			}
		}
		if n < 300 {
			t.Errorf("%s: %d signs compared, expected over 300", f, n)
		}
	}
}

func TestExactZones(t *testing.T) {
	d := New(Info{})
	l, p := d.Sheet(Landscape), d.Sheet(Portrait)
	for _, c := range []struct {
		s    *Sheet
		x, y float64
		want string
	}{{l, 21, 11, "A1"}, {l, 286, 199, "D8"}, {l, 100, 60, "B3"}, {p, 21, 11, "A1"}, {p, 199, 286, "F4"}, {p, 0, 400, "F1"}} {
		if got := c.s.Zone(c.x, c.y); got != c.want {
			t.Errorf("%v, %v lies in %s, expected %s", c.x, c.y, got, c.want)
		}
	}
}

func TestExactPara(t *testing.T) {
	words := func(ls [][]atom) (out []string) {
		for _, l := range ls {
			s := ""
			for j, a := range l {
				if j > 0 && !a.glued {
					s += "_"
				}
				s += a.s
			}
			out = append(out, s)
		}
		return out
	}
	for _, c := range []struct {
		runs []Run
		want string
	}{
		{[]Run{Claim("The tank holds. "), Plain("Pass.")}, "The_tank_holds._Pass."},
		{[]Run{Claim("stop"), Plain(".")}, "stop."},
		{[]Run{Plain("read"), Source("CP"), Plain("and"), Source("S31"), Plain(", more")}, "read_CP_and_S31,_more"},
		{[]Run{Plain("a"), Plain(""), Plain(" "), Plain("b")}, "a_b"},
		{[]Run{Plain("p"), {S: "cold", Dy: -0.2}, Plain(" = 9.55\u00a0bar")}, "pcold_=_9.55\u00a0bar"},
		{nil, ""},
	} {
		got := strings.Join(words(lines(List, 500, c.runs)), "|")
		if got != c.want {
			t.Errorf("%q, expected %q", got, c.want)
		}
	}
	long := []Run{Plain(strings.Repeat("word ", 40)), Claim("82\u00a0±\u00a02")}
	for _, l := range lines(List, 40, long) {
		w := 0.0
		for j, a := range l {
			if j > 0 {
				w += a.space
			}
			w += a.w
		}
		if w > 40+1e-9 {
			t.Errorf("a line of %v mm in a column of 40", w)
		}
	}
	name := strings.Repeat("Donaudampfschiff", 6)
	whole := ""
	for _, l := range lines(List, 30, []Run{Plain("the " + name + " end")}) {
		w := 0.0
		for j, a := range l {
			if j > 0 {
				w += a.space
			}
			w += a.w
			whole += a.s
		}
		if w > 30+1e-9 {
			t.Errorf("a line of %v mm in a column of 30", w)
		}
	}
	if whole != "the"+name+"end" {
		t.Errorf("a long word came out as %q", whole)
	}
	if h, n := Height(List, 40, long...), len(lines(List, 40, long)); math.Abs(h-float64(n)*List.Line()) > 1e-12 {
		t.Errorf("%d lines are %v mm", n, h)
	}
}

// A table breaks between rows and no row is lost; what Table says it took is what the rows say.
func TestConservesRows(t *testing.T) {
	tab := Table{Cols: []Col{{W: 40, Head: "part"}, {W: 20, Head: "at", Align: Right}}}
	for range 30 {
		tab.Rows = append(tab.Rows, Cells("exhaust joint, the lower flange of the rear pipe", "104 ± 2"))
	}
	d := New(Info{})
	from, sheets := 0, 0
	for from < len(tab.Rows) {
		s := d.Sheet(Portrait)
		to := tab.Fit(from, 60)
		if to == from {
			t.Fatal("not one row fits into 60 mm")
		}
		want := tab.HeadHeight()
		for i := from; i < to; i++ {
			want += tab.RowHeight(i)
		}
		if got := s.Table(20, 20, tab, from, to); math.Abs(got-want) > 1e-9 || got > 60 {
			t.Errorf("the table took %v mm, its rows say %v, there were 60", got, want)
		}
		from, sheets = to, sheets+1
	}
	text := run(t, "pdftotext", "-layout", written(t, d), "-")
	if n := strings.Count(text, "104 ± 2"); n != 30 {
		t.Errorf("%d rows on %d sheets, expected 30", n, sheets)
	}
	if got := tab.Fit(0, 1); got != 0 {
		t.Errorf("%d rows fit into 1 mm", got)
	}
}

func ExampleSheet_Zone() {
	s := New(Info{Title: "The car"}).Sheet(Landscape)
	fmt.Println(s.Zone(120, 90))
	// Output: B3
}
