package svg

import (
	"encoding/base64"
	"fmt"
	"sort"
	"strings"

	"jounce/internal/draw"
	"jounce/internal/draw/font"
)

// colour is a token with its values on paper, on the blueprint and in print.
type colour struct {
	role               draw.Role
	light, dark, print string
}

// palette is the look's one list of colours.
var palette = []colour{
	{draw.Paper, "#f4efe3", "#0b1d2e", "#fff"},
	{draw.Field, "#fdfbf5", "#071523", "#fff"},
	{draw.Skin, "#fbf8ef", "#10273b", "#fff"},
	{draw.Tyre, "#d9d4c6", "#1d3a52", "#e4e4e4"},
	{draw.Ink, "#14202a", "#eef3f6", "#000"},
	{draw.Ink2, "#47535c", "#b3c4d1", "#333"},
	{draw.Rule, "#7c827f", "#6d8599", "#777"},
	{draw.Faint, "#cfc8b6", "#2b4358", "#c8c8c8"},
	{draw.Move, "#00569a", "#ffd94f", "#000"},
	{draw.OnMove, "#ffffff", "#0b1d2e", "#fff"},
	{draw.Pass, "#17604a", "#86e3bc", "#000"},
	{draw.Fail, "#a8132e", "#ff9aa4", "#000"},
	{draw.Close, "#75287e", "#dcbcff", "#000"},
	{draw.Unknown, "#47535c", "#b3c4d1", "#000"},
}

// Tokens is the palette as declarations for :root, each a light-dark() pair. A page has it once.
func Tokens() string {
	var b strings.Builder
	for _, c := range palette {
		fmt.Fprintf(&b, "--%s:light-dark(%s,%s);", c.role, c.light, c.dark)
	}
	return b.String()
}

var dashClass = map[draw.Dash]string{draw.Dashed: "dash", draw.Chain: "chain", draw.ChainTwo: "chain2", draw.Dotted: "dots"}

// CSS is the style sheet for the classes inside figures. All of it lies under the class "dr". It uses the variables --ink and so
// on (see Tokens) and the faces of font.CSS. Line widths follow the style the figure was drawn for; a page that sets --d1 to --d4
// (a bright bay wants thin lines wider) overrides them. The page must have no rule for bare "svg path" or "svg text" that is
// stronger than one class and one element.
func CSS() string {
	var b strings.Builder
	b.WriteString(`.dr{display:block;max-width:100%;height:auto;overflow:hidden;font-kerning:normal;font-variant-numeric:tabular-nums lining-nums}
.dr path,.dr rect{fill:none;fill-rule:evenodd;stroke:none;stroke-linecap:butt;stroke-linejoin:round;vector-effect:non-scaling-stroke}
.dr .rnd{stroke-linecap:round}.dr .mit{stroke-linejoin:miter;stroke-miterlimit:8}
.dr text{stroke:none}
.dr .c5{font-family:"Barlow Semi Condensed","Barlow Semi Condensed fallback",sans-serif;font-weight:500}
.dr .c6{font-family:"Barlow Semi Condensed","Barlow Semi Condensed fallback",sans-serif;font-weight:600}
.dr .n5{font-family:Barlow,"Barlow fallback",sans-serif;font-weight:500}
.dr .n6{font-family:Barlow,"Barlow fallback",sans-serif;font-weight:600}
`)
	for _, st := range []draw.Style{draw.Desktop(), draw.Tablet(), draw.Phone(), draw.ForPaper(), draw.ForPaperChart()} {
		sel := ".dr-" + st.Name
		if st.Name == "desktop" {
			sel = ".dr"
		}
		if st.Medium == draw.Print && st.Tick != draw.ForPaper().Tick {
			continue
		}
		for i := draw.W1; i <= draw.W4; i++ {
			fmt.Fprintf(&b, "%s .w%d{stroke-width:var(--d%d,%spx)}", sel, i, i, num(st.W[i]/draw.Px))
		}
		b.WriteString("\n")
	}
	for _, d := range []draw.Dash{draw.Dashed, draw.Chain, draw.ChainTwo, draw.Dotted} {
		var p []string
		for _, l := range d.Pattern() {
			p = append(p, num(l/draw.Px))
		}
		fmt.Fprintf(&b, ".dr .%s{stroke-dasharray:%s}", dashClass[d], strings.Join(p, " "))
	}
	b.WriteString("\n")
	for _, r := range draw.Roles {
		fmt.Fprintf(&b, ".dr .s-%[1]s{stroke:var(--%[1]s)}.dr .f-%[1]s{fill:var(--%[1]s)}", r)
		fmt.Fprintf(&b, ".dr .h-%[1]s{paint-order:stroke;stroke:var(--%[1]s);stroke-width:5px;stroke-linejoin:round}\n", r)
	}
	b.WriteString(".dr .on .balloon .f-paper{fill:var(--ink)}.dr .on .balloon text{fill:var(--paper)}\n") // a part that touches
	b.WriteString(".dr a{cursor:pointer}.dr a:focus-visible{outline:3px solid var(--move);outline-offset:2px}\n")
	return b.String()
}

// Theme is how a scene that stands alone is coloured.
type Theme uint8

// The themes.
const (
	Light     Theme = iota // paper and blue pencil
	Dark                   // blueprint and yellow chalk
	Auto                   // as the reader's device asks
	PrintOnly              // black on white
)

// Standalone is the scene as a file of its own, with its style, its ground and the faces it uses inside.
func Standalone(s draw.Scene, th Theme) ([]byte, error) {
	w := writer{scene: s}
	w.open(` xmlns="http://www.w3.org/2000/svg"`)
	w.b.WriteString("<style>" + tokens(th) + faces(s) + CSS() + ".dr .ground{fill:var(--paper)}</style>")
	fmt.Fprintf(&w.b, `<rect class="ground" width="%s" height="%s"/>`, w.px(s.W), w.px(s.H))
	w.items(s.Items)
	w.b.WriteString("</svg>\n")
	if w.err != nil {
		return nil, fmt.Errorf("figure %q: %w", s.Title, w.err)
	}
	return []byte(w.b.String()), nil
}

func tokens(th Theme) string {
	list := func(f func(colour) string) string {
		var b strings.Builder
		for _, c := range palette {
			fmt.Fprintf(&b, "--%s:%s;", c.role, f(c))
		}
		return ".dr{" + b.String() + "}"
	}
	light := list(func(c colour) string { return c.light })
	dark := list(func(c colour) string { return c.dark })
	switch th {
	case Dark:
		return dark
	case Auto:
		return light + "@media (prefers-color-scheme:dark){" + dark + "}"
	case PrintOnly:
		return list(func(c colour) string { return c.print })
	}
	return light
}

// faces is the @font-face rules of the faces the scene uses, with the files inside.
func faces(s draw.Scene) string {
	used := map[font.Face]bool{}
	s.Walk(func(it draw.Item, _ draw.Matrix) {
		if t, ok := it.(draw.Text); ok {
			for _, p := range t.Pieces() {
				used[p.Face] = true
			}
		}
	})
	var list []font.Face
	for f := range used {
		list = append(list, f)
	}
	sort.Slice(list, func(i, j int) bool { return list[i] < list[j] })
	var b strings.Builder
	for _, f := range list {
		fmt.Fprintf(&b, "@font-face{font-family:%q;font-weight:%d;src:url(data:font/woff2;base64,%s) format(\"woff2\")}\n",
			f.Family(), f.Weight(), base64.StdEncoding.EncodeToString(f.WOFF2()))
	}
	return b.String()
}
