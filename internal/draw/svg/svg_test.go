package svg

import (
	"bytes"
	"encoding/xml"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"jounce/internal/draw"
	"jounce/internal/draw/specimen"
)

var update = flag.Bool("update", false, "write the golden files anew; look at the picture first")

var styles = []draw.Style{draw.Phone(), draw.Desktop(), draw.ForPaper()}

// TestPinnedSpecimen compares the specimen with the golden files, which were looked at in a browser.
func TestPinnedSpecimen(t *testing.T) {
	for _, st := range styles {
		s := specimen.Scene(st, 200)
		if f := s.Faults(); len(f) > 0 {
			t.Errorf("%s: %v", st.Name, f)
		}
		got, err := Inline(s)
		if err != nil {
			t.Fatal(err)
		}
		file := filepath.Join("testdata", "specimen-"+st.Name+".svg")
		lines := strings.ReplaceAll(string(got), "><", ">\n<") + "\n"
		if *update {
			if err := os.WriteFile(file, []byte(lines), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if lines != string(want) {
			t.Errorf("%s: the specimen has changed; look at it and run the test with -update", st.Name)
		}
		if m := regexp.MustCompile(`-0[ ",)LMCAZ]`).FindString(lines); m != "" {
			t.Errorf("%s: %q is written", st.Name, m)
		}
		if m := regexp.MustCompile(`\d\.\d{4}`).FindString(lines); m != "" {
			t.Errorf("%s: %q has more than two places", st.Name, m)
		}
	}
}

// parse reads the text as XML and gives all character data and every attribute by name.
func parse(t testing.TB, s string) (text string, attrs map[string][]string) {
	t.Helper()
	attrs = map[string][]string{}
	dec := xml.NewDecoder(strings.NewReader(s))
	dec.Strict = true
	var b strings.Builder
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			return b.String(), attrs
		}
		if err != nil {
			t.Fatalf("no XML: %v\n%s", err, s)
		}
		switch v := tok.(type) {
		case xml.CharData:
			b.Write(v)
		case xml.StartElement:
			for _, a := range v.Attr {
				attrs[a.Name.Local] = append(attrs[a.Name.Local], a.Value)
			}
		}
	}
}

func TestExactNamesAndIDs(t *testing.T) {
	s := specimen.Scene(draw.Desktop(), 200)
	got, err := Inline(s)
	if err != nil {
		t.Fatal(err)
	}
	_, attrs := parse(t, string(got))
	seen := map[string]bool{}
	for _, id := range attrs["id"] {
		if seen[id] {
			t.Errorf("the id %q stands twice", id)
		}
		seen[id] = true
	}
	for _, want := range []string{"specimen", "specimen-t", "specimen-d", "specimen-body", "specimen-c1"} {
		if !seen[want] {
			t.Errorf("no id %q", want)
		}
	}
	if attrs["href"][0] != "/job/1/finding/3" || attrs["data-rank"][0] != "1" || attrs["data-move"][0] != "y" {
		t.Errorf("link or data lost: %v %v", attrs["href"], attrs["data-rank"])
	}
	if attrs["role"][0] != "group" {
		t.Error("a scene with a link is an image, so its link would be hidden from a screen reader")
	}
	plain := draw.NewScene(draw.Desktop(), 10, 10)
	plain.Title = "empty"
	if got, _ := Inline(plain); !strings.Contains(string(got), `role="img" aria-label="empty"`) {
		t.Errorf("got %s", got)
	}
}

// Every class the specimen uses has a rule.
func TestExactClasses(t *testing.T) {
	css := CSS()
	for _, st := range styles {
		got, _ := Inline(specimen.Scene(st, 200))
		_, attrs := parse(t, string(got))
		for _, list := range attrs["class"] {
			for _, c := range strings.Fields(list) {
				switch c {
				case "dr", "dr-desktop", "balloon", "limit", "dim", "vm": // hooks for pages, without a rule of ours
					continue
				}
				if !strings.Contains(css, "."+c+"{") && !strings.Contains(css, "."+c+" ") {
					t.Errorf("no rule for the class %q", c)
				}
			}
		}
	}
	for _, r := range draw.Roles {
		if !strings.Contains(Tokens(), "--"+r.String()+":light-dark(") || !strings.Contains(css, "var(--"+r.String()+")") {
			t.Errorf("the role %s has no token or no rule", r)
		}
	}
}

func TestExactArcFlags(t *testing.T) {
	s := draw.NewScene(draw.Desktop(), 100, 100)
	px := draw.Px
	s.Add(draw.Arc(50*px, 50*px, 10*px, 0, 90).Stroke(draw.W1.Pen()))
	got, _ := Inline(s)
	if want := `d="M60 50A10 10 0 0 0 50 40"`; !strings.Contains(string(got), want) {
		t.Errorf("got %s, expected %s", got, want)
	}
	s.Items = nil
	s.Add(draw.Begin(0, 0).ArcTo(10*px, 0, -3).Stroke(draw.W1.Pen()))
	got, _ = Inline(s)
	if want := ` 0 1 1 10 0"`; !strings.Contains(string(got), want) {
		t.Errorf("got %s, expected a long clockwise arc", got)
	}
}

func TestLimitRefusals(t *testing.T) {
	pen := draw.W1.Pen()
	for name, it := range map[string]draw.Item{
		"NaN":       draw.Line(0, 0, math.NaN(), 1).Stroke(pen),
		"endless":   draw.Line(0, 0, math.Inf(1), 1).Stroke(pen),
		"text":      draw.Text{X: math.NaN(), S: "a", Size: 4, Role: draw.Ink},
		"turn":      draw.G().Turn(draw.Pt(0, 0), math.Inf(1)),
		"script":    draw.G().Link("javascript:alert(1)", "x"),
		"script2":   draw.G().Link("JavaScript:alert(1)", "x"),
		"script3":   draw.G().Link("java\nscript:alert(1)", "x"),
		"elsewhere": draw.G().Link("//host/path", "x"),
		"data":      draw.G().Link("data:text/html,x", "x"),
		"key":       draw.G().WithData("on click=", "x"),
		"clip":      draw.Group{Clip: &draw.Box{X1: 1, Y1: 1}},
	} {
		s := draw.NewScene(draw.Desktop(), 10, 10)
		s.Add(it)
		if got, err := Inline(s); err == nil {
			t.Errorf("%s was drawn: %s", name, got)
		}
	}
	for _, ok := range []string{"/job/1", "#finding-3", "?page=2", "https://example.org/a:b", "job/a?b=c:d"} {
		s := draw.NewScene(draw.Desktop(), 10, 10)
		s.Add(draw.G().Link(ok, "x"))
		if _, err := Inline(s); err != nil {
			t.Errorf("%s was refused: %v", ok, err)
		}
	}
}

func TestExactStandalone(t *testing.T) {
	for _, th := range []Theme{Light, Dark, Auto, PrintOnly} {
		b, err := Standalone(specimen.Scene(draw.Desktop(), 200), th)
		if err != nil {
			t.Fatal(err)
		}
		parse(t, string(b))
		if n := bytes.Count(b, []byte("data:font/woff2;base64,")); n != 3 {
			t.Errorf("%d faces inside, the specimen uses 3", n)
		}
		if got := bytes.Contains(b, []byte("prefers-color-scheme")); got != (th == Auto) {
			t.Errorf("theme %d: asks the device %v", th, got)
		}
		again, _ := Standalone(specimen.Scene(draw.Desktop(), 200), th)
		if !bytes.Equal(b, again) {
			t.Error("the same scene gave other bytes")
		}
	}
}

// FuzzText: whatever stands in a string, the result is well-formed and the string comes back.
func FuzzText(f *testing.F) {
	for _, s := range []string{"68 ± 2", `<script>"'&`, "]]>", "\x00\x1b\ufffe", "a\nb", "\xff", "&amp;"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, str string) {
		s := draw.NewScene(draw.Desktop(), 10, 10)
		s.ID, s.Title, s.Desc = "x"+str, str, str
		st := draw.Desktop()
		s.Add(draw.G(st.Text(draw.Body, 1, 1, str, draw.Start)).WithID(str).WithTitle(str).WithClass(str).WithData("v", str))
		s.Add(draw.Rect(0, 0, 1, 1).Fill(draw.Ink).WithTitle(str).WithClass(str), draw.G().Link("/"+strings.Map(func(r rune) rune {
			if r < 0x20 {
				return -1
			}
			return r
		}, str), str))
		got, err := Inline(s)
		if err != nil {
			return
		}
		text, attrs := parse(t, string(got))
		if !utf8.ValidString(str) || strings.ContainsFunc(str, func(r rune) bool { return r < 0x20 || r == 0x7f || r > 0xFFFD && r <= 0xFFFF }) {
			return
		}
		if str != "" && (!strings.Contains(text, str) || attrs["data-v"][0] != str) {
			t.Fatalf("%q came back as %q, %q", str, text, attrs["data-v"])
		}
	})
}

func FuzzPath(f *testing.F) {
	f.Add(1.0, 2.0, 0.5, 3.0)
	f.Fuzz(func(t *testing.T, x, y, bulge, alpha float64) {
		s := draw.NewScene(draw.Desktop(), 10, 10)
		s.Add(draw.Begin(0, 0).ArcTo(x, y, bulge).Close().Stroke(draw.W1.Pen()).WithHatch(draw.Desktop().Hatch()).WithAlpha(alpha))
		got, err := Inline(s)
		if err != nil {
			return
		}
		if strings.Contains(string(got), "NaN") || strings.Contains(string(got), "Inf") || strings.Contains(string(got), "e+") {
			t.Fatalf("no number: %s", got)
		}
		parse(t, string(got))
	})
}
