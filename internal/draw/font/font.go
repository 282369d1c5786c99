// Package font carries the four faces of the look and measures lettering with them.
//
// The files are one cut of Barlow and Barlow Semi Condensed (SIL Open Font License 1.1, see OFL.txt), made by
// fonts/cut.py: the same outlines as TrueType for paper and as WOFF2 for screens. Figures are tabular without any
// feature being asked for, kerning is the only feature left, so a width is the sum of advances and kerns.
package font

import (
	_ "embed" // the faces
	"fmt"
	"sync"

	xfont "golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Face names one of the four faces.
type Face uint8

// The faces. Lettering on drawings, captions and paper is condensed; reading is not. The zero value is the lettering.
const (
	Cond500 Face = iota // Barlow Semi Condensed Medium
	Cond600             // Barlow Semi Condensed SemiBold
	Norm500             // Barlow Medium
	Norm600             // Barlow SemiBold
)

// Faces lists the four faces in their order.
var Faces = [4]Face{Cond500, Cond600, Norm500, Norm600}

var (
	//go:embed barlow-semi-condensed-500.ttf
	cond500 []byte
	//go:embed barlow-semi-condensed-600.ttf
	cond600 []byte
	//go:embed barlow-500.ttf
	norm500 []byte
	//go:embed barlow-600.ttf
	norm600 []byte
	//go:embed barlow-semi-condensed-500.woff2
	cond500w []byte
	//go:embed barlow-semi-condensed-600.woff2
	cond600w []byte
	//go:embed barlow-500.woff2
	norm500w []byte
	//go:embed barlow-600.woff2
	norm600w []byte
	//go:embed OFL.txt
	licence string
)

// Licence is the text of the licence under which the faces are passed on.
func Licence() string { return licence }

// TTF is the TrueType file of the face, for paper. The caller does not change the bytes.
func (f Face) TTF() []byte { return [4][]byte{cond500, cond600, norm500, norm600}[f&3] }

// WOFF2 is the file of the face for screens, same outlines. The caller does not change the bytes.
func (f Face) WOFF2() []byte { return [4][]byte{cond500w, cond600w, norm500w, norm600w}[f&3] }

// Family is the CSS family name, "Barlow" or "Barlow Semi Condensed".
func (f Face) Family() string {
	if f.Condensed() {
		return "Barlow Semi Condensed"
	}
	return "Barlow"
}

// Weight is the CSS weight, 500 or 600.
func (f Face) Weight() int { return 500 + 100*int(f&1) }

// Condensed reports whether the face is the lettering face.
func (f Face) Condensed() bool { return f&3 < Norm500 }

// Bold is the face of the same family with weight 600.
func (f Face) Bold() Face { return f&3 | 1 }

// File is the name of the face's file with the extension given, "barlow-500.woff2" for ".woff2".
func (f Face) File(ext string) string {
	return [4]string{"barlow-semi-condensed-500", "barlow-semi-condensed-600", "barlow-500", "barlow-600"}[f&3] + ext
}

// String names the face as a person would.
func (f Face) String() string { return fmt.Sprintf("%s %d", f.Family(), f.Weight()) }

// Heights shared by the four faces, as parts of the lettering size (the em). From the OS/2 and hhea tables; a test compares.
const (
	CapHeight = 0.700 // [1] height of capitals and figures
	XHeight   = 0.509 // [1] height of small letters, weight 500
	Ascent    = 1.000 // [1] above the base line
	Descent   = 0.200 // [1] below the base line
)

// table is one parsed face.
type table struct {
	once  sync.Once
	font  *sfnt.Font
	upem  fixed.Int26_6
	adv   map[rune]float64 // [em]
	glyph map[rune]sfnt.GlyphIndex
	mu    sync.Mutex // guards buf and kern
	buf   sfnt.Buffer
	kern  map[[2]rune]float64 // [em]
}

var tables [4]table

// get parses the face at its first use. The files are embedded and tested, so a fault here is a broken build.
func (f Face) get() *table {
	t := &tables[f&3]
	t.once.Do(func() {
		var err error
		if t.font, err = sfnt.Parse(f.TTF()); err != nil {
			panic("font: the embedded face " + f.String() + " is broken: " + err.Error())
		}
		t.upem = fixed.I(int(t.font.UnitsPerEm()))
		t.adv, t.glyph, t.kern = map[rune]float64{}, map[rune]sfnt.GlyphIndex{}, map[[2]rune]float64{}
		for r := rune(0x20); r < 0x2700; r++ {
			g, err := t.font.GlyphIndex(&t.buf, r)
			if err != nil || g == 0 {
				continue
			}
			a, err := t.font.GlyphAdvance(&t.buf, g, t.upem, xfont.HintingNone)
			if err != nil {
				panic("font: the embedded face " + f.String() + " is broken: " + err.Error())
			}
			t.adv[r], t.glyph[r] = float64(a)/float64(t.upem), g
		}
	})
	return t
}

// Has reports whether the face has the sign.
func (f Face) Has(r rune) bool { _, ok := f.get().glyph[r]; return ok }

// Missing lists the signs of s that the face lacks, in order, each once. Empty means that s can be lettered.
func (f Face) Missing(s string) []rune {
	var out []rune
	seen := map[rune]bool{}
	t := f.get()
	for _, r := range s {
		if _, ok := t.glyph[r]; !ok && !seen[r] {
			seen[r] = true
			out = append(out, r)
		}
	}
	return out
}

// Advance is the width of one sign at size 1 [em]; a missing sign counts 0.5.
func (f Face) Advance(r rune) float64 {
	if a, ok := f.get().adv[r]; ok {
		return a
	}
	return 0.5
}

// Kern is what is added between two neighbouring signs at size 1 [em], mostly negative.
func (f Face) Kern(a, b rune) float64 {
	t := f.get()
	ga, oka := t.glyph[a]
	gb, okb := t.glyph[b]
	if !oka || !okb {
		return 0
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	k, ok := t.kern[[2]rune{a, b}]
	if !ok {
		if v, err := t.font.Kern(&t.buf, ga, gb, t.upem, xfont.HintingNone); err == nil {
			k = float64(v) / float64(t.upem)
		}
		t.kern[[2]rune{a, b}] = k
	}
	return k
}

// Width is the length of the line s set in the face at the size given, in the unit of size, kerned.
func (f Face) Width(s string, size float64) float64 {
	w, last := 0.0, rune(-1)
	for _, r := range s {
		if last >= 0 {
			w += f.Kern(last, r)
		}
		w += f.Advance(r)
		last = r
	}
	return w * size
}
