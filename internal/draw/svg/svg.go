// Package svg writes a draw.Scene as SVG: inline for a page whose style sheet gives roles and widths their meaning (CSS), or
// standing alone with its own style and faces.
//
// One millimetre is 96/25.4 px; numbers are rounded to 0.01 px, never "-0", so that the same scene gives the same text.
package svg

import (
	"fmt"
	"html/template"
	"math"
	"strconv"
	"strings"

	"jounce/internal/draw"
)

// Inline is the scene for an HTML page. The page needs CSS() once. A scene with links is a group, any other an image; both
// have the scene's title as name and its description as description. An error names what cannot be drawn: a coordinate that
// is no number, a link that is neither http nor a place on this server, a data key with other signs than a-z, 0-9, hyphen.
func Inline(s draw.Scene) (template.HTML, error) {
	w := writer{scene: s}
	w.open("")
	w.items(s.Items)
	w.b.WriteString("</svg>")
	if w.err != nil {
		return "", fmt.Errorf("figure %q: %w", s.Title, w.err)
	}
	return template.HTML(w.b.String()), nil
}

type writer struct {
	b     strings.Builder
	scene draw.Scene
	clips int
	err   error
}

func (w *writer) fail(format string, args ...any) {
	if w.err == nil {
		w.err = fmt.Errorf(format, args...)
	}
}

// px is a length in px as text.
func (w *writer) px(mm float64) string {
	v := math.Round(mm/draw.Px*100) / 100
	if math.IsNaN(v) || math.Abs(v) > 1e7 {
		w.fail("a coordinate is %v mm, expected a number under 2.6 km", mm)
		return "0"
	}
	return num(v)
}

// num is a number rounded to 0.01 as text, never "-0".
func num(v float64) string {
	v = math.Round(v*100) / 100
	if v == 0 {
		return "0"
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

func linked(items []draw.Item) bool {
	for _, it := range items {
		if g, ok := draw.Plain(it).(draw.Group); ok && (g.Href != "" || linked(g.Items)) {
			return true
		}
	}
	return false
}

// open writes the start of the svg element with name and description.
func (w *writer) open(extra string) {
	s, b := w.scene, &w.b
	role := "img"
	if linked(s.Items) {
		role = "group"
	}
	fmt.Fprintf(b, `<svg class="dr dr-%s" viewBox="0 0 %s %s" width="%s" height="%s" role="%s"`, esc(s.Style.Name), w.px(s.W), w.px(s.H), w.px(s.W), w.px(s.H), role)
	if s.ID != "" {
		fmt.Fprintf(b, ` id="%s"`, esc(s.ID))
		if s.Title != "" {
			fmt.Fprintf(b, ` aria-labelledby="%s-t"`, esc(s.ID))
		}
		if s.Desc != "" {
			fmt.Fprintf(b, ` aria-describedby="%s-d"`, esc(s.ID))
		}
	} else if s.Title != "" {
		fmt.Fprintf(b, ` aria-label="%s"`, esc(s.Title))
	}
	fmt.Fprintf(b, "%s>", extra)
	if s.ID == "" {
		return
	}
	if s.Title != "" {
		fmt.Fprintf(b, `<title id="%s-t">%s</title>`, esc(s.ID), esc(s.Title))
	}
	if s.Desc != "" {
		fmt.Fprintf(b, `<desc id="%s-d">%s</desc>`, esc(s.ID), esc(s.Desc))
	}
}

func (w *writer) items(items []draw.Item) {
	for _, it := range items {
		switch v := draw.Plain(it).(type) {
		case draw.Path:
			w.path(v)
		case draw.Text:
			w.text(v)
		case draw.Group:
			w.group(v)
		default:
			w.fail("an item of kind %T, expected a path, text or group", it)
		}
	}
}

// names writes id and class.
func (w *writer) names(id, class string) {
	if id != "" {
		if w.scene.ID != "" {
			id = w.scene.ID + "-" + id
		}
		fmt.Fprintf(&w.b, ` id="%s"`, esc(id))
	}
	if class != "" {
		fmt.Fprintf(&w.b, ` class="%s"`, esc(class))
	}
}

func (w *writer) group(g draw.Group) {
	tag := "g"
	if g.Clip != nil {
		w.clip(*g.Clip)
	}
	if g.Href != "" {
		tag = "a"
		if !safeLink(g.Href) {
			w.fail("a link to %q, expected http, https or a place on this server", g.Href)
		}
		fmt.Fprintf(&w.b, `<a href="%s"`, esc(g.Href))
		if g.Title != "" {
			fmt.Fprintf(&w.b, ` aria-label="%s"`, esc(g.Title))
		}
	} else {
		w.b.WriteString("<g")
	}
	w.names(g.ID, g.Class)
	for _, a := range g.Data {
		if !dataKey(a.Key) {
			w.fail("a data attribute named %q, expected small letters, figures and hyphens", a.Key)
			continue
		}
		fmt.Fprintf(&w.b, ` data-%s="%s"`, a.Key, esc(a.Value))
	}
	if t := w.transform(g); t != "" {
		fmt.Fprintf(&w.b, ` transform="%s"`, t)
	}
	if g.Clip != nil {
		fmt.Fprintf(&w.b, ` clip-path="url(#%s-c%d)"`, esc(w.scene.ID), w.clips)
	}
	w.b.WriteString(">")
	if g.Href == "" && g.Title != "" {
		fmt.Fprintf(&w.b, "<title>%s</title>", esc(g.Title))
	}
	w.items(g.Items)
	fmt.Fprintf(&w.b, "</%s>", tag)
}

func (w *writer) clip(b draw.Box) {
	if w.scene.ID == "" {
		w.fail("a group is clipped, expected the scene to have an ID")
	}
	w.clips++
	fmt.Fprintf(&w.b, `<clipPath id="%s-c%d"><rect x="%s" y="%s" width="%s" height="%s"/></clipPath>`,
		esc(w.scene.ID), w.clips, w.px(b.X0), w.px(b.Y0), w.px(b.X1-b.X0), w.px(b.Y1-b.Y0))
}

func (w *writer) transform(g draw.Group) string {
	var t []string
	if g.DX != 0 || g.DY != 0 {
		t = append(t, "translate("+w.px(g.DX)+" "+w.px(g.DY)+")")
	}
	if g.Angle != 0 {
		t = append(t, w.rotate(g.Angle, g.About.X, g.About.Y))
	}
	return strings.Join(t, " ")
}

func (w *writer) rotate(deg, x, y float64) string {
	if math.IsNaN(deg) || math.IsInf(deg, 0) {
		w.fail("an angle is %v°", deg)
		return ""
	}
	a := strconv.FormatFloat(math.Round(-deg*1000)/1000+0, 'f', -1, 64)
	return "rotate(" + a + " " + w.px(x) + " " + w.px(y) + ")"
}

func (w *writer) path(p draw.Path) {
	if len(p.Outline) == 0 {
		return
	}
	if !p.Hatch.Draws() {
		w.onePath(p.Outline, p.Tone, p.Pen, p)
		return
	}
	w.b.WriteString("<g")
	w.names(p.ID, p.Class)
	w.b.WriteString(">")
	if p.Title != "" {
		fmt.Fprintf(&w.b, "<title>%s</title>", esc(p.Title))
	}
	plain := draw.Path{Alpha: p.Alpha}
	if p.Tone != draw.None {
		w.onePath(p.Outline, p.Tone, draw.Pen{}, plain)
	}
	if lines := p.Hatch.Lines(p.Outline); len(lines) > 0 {
		w.onePath(lines, draw.None, p.Hatch.Pen, plain)
	}
	if p.Pen.Draws() {
		w.onePath(p.Outline, draw.None, p.Pen, plain)
	}
	w.b.WriteString("</g>")
}

func (w *writer) onePath(o draw.Outline, tone draw.Role, pen draw.Pen, p draw.Path) {
	var class []string
	if tone != draw.None {
		class = append(class, "f-"+tone.String())
	}
	extra := ""
	if pen.Draws() {
		class = append(class, "s-"+pen.Role.String())
		if pen.W != draw.WOwn {
			class = append(class, "w"+strconv.Itoa(int(pen.W)))
		} else {
			extra += ` stroke-width="` + w.px(pen.MM) + `"`
		}
		class, extra = w.dash(pen, class, extra)
		if pen.Round {
			class = append(class, "rnd")
		}
		if pen.Sharp {
			class = append(class, "mit")
		}
	}
	if p.Class != "" {
		class = append(class, p.Class)
	}
	if p.Alpha > 0 && p.Alpha < 1 {
		extra += ` opacity="` + num(p.Alpha) + `"`
	}
	w.b.WriteString("<path")
	w.names(p.ID, strings.Join(class, " "))
	fmt.Fprintf(&w.b, `%s d="`, extra)
	w.data(o)
	if p.Title != "" {
		fmt.Fprintf(&w.b, `"><title>%s</title></path>`, esc(p.Title))
		return
	}
	w.b.WriteString(`"/>`)
}

func (w *writer) dash(pen draw.Pen, class []string, extra string) ([]string, string) {
	switch pen.Dash {
	case draw.Dashed, draw.Chain, draw.ChainTwo, draw.Dotted:
		class = append(class, dashClass[pen.Dash])
	case draw.OwnDashes:
		var d []string
		for _, l := range pen.Dashes {
			d = append(d, w.px(l))
		}
		extra += ` stroke-dasharray="` + strings.Join(d, " ") + `"`
	}
	return class, extra
}

// data writes the path's steps, absolute.
func (w *writer) data(o draw.Outline) {
	var at, start draw.Point
	xy := func(p draw.Point) string { return w.px(p.X) + " " + w.px(p.Y) }
	for _, s := range o {
		switch s.Op {
		case draw.OpMove:
			w.b.WriteString("M" + xy(s.P))
			start = s.P
		case draw.OpLine:
			w.b.WriteString("L" + xy(s.P))
		case draw.OpCurve:
			w.b.WriteString("C" + xy(s.C1) + " " + xy(s.C2) + " " + xy(s.P))
		case draw.OpArc:
			_, r, _, sweep, ok := draw.ArcOf(at, s.P, s.Bulge)
			if !ok || r > 1e6 { // an arc of 1 km rises 5 µm over the width of a sheet
				w.b.WriteString("L" + xy(s.P))
				break
			}
			large, dir := "0", "0"
			if math.Abs(sweep) > 180 {
				large = "1"
			}
			if sweep < 0 {
				dir = "1"
			}
			w.b.WriteString("A" + w.px(r) + " " + w.px(r) + " 0 " + large + " " + dir + " " + xy(s.P))
		case draw.OpClose:
			w.b.WriteString("Z")
			s.P = start
		}
		at = s.P
	}
}

func (w *writer) text(t draw.Text) {
	if t.String() == "" {
		return
	}
	spans := t.Pieces()
	y := t.Y + (t.BaseLine().Y - t.Y)
	class := faceClass(spans[0]) + " f-" + t.Role.String()
	if len(spans) == 1 && spans[0].Role != draw.None {
		class = faceClass(spans[0]) + " f-" + spans[0].Role.String()
	}
	if t.Halo != draw.None {
		class += " h-" + t.Halo.String()
	}
	if t.Class != "" {
		class += " " + t.Class
	}
	w.b.WriteString("<text")
	w.names(t.ID, class)
	fmt.Fprintf(&w.b, ` x="%s" y="%s" font-size="%s"`, w.px(t.X), w.px(y), w.px(t.Size))
	if t.Anchor != draw.Start {
		fmt.Fprintf(&w.b, ` text-anchor="%s"`, [...]string{"start", "middle", "end"}[t.Anchor%3])
	}
	if t.Angle != 0 {
		fmt.Fprintf(&w.b, ` transform="%s"`, w.rotate(t.Angle, t.X, t.Y))
	}
	w.b.WriteString(">")
	if len(spans) == 1 {
		w.b.WriteString(esc(spans[0].S))
	} else {
		for _, s := range spans {
			fmt.Fprintf(&w.b, `<tspan class="%s f-%s">%s</tspan>`, faceClass(s), s.Role, esc(s.S))
		}
	}
	w.b.WriteString("</text>")
}

func faceClass(s draw.Span) string { return [...]string{"c5", "c6", "n5", "n6"}[s.Face&3] }

// esc makes a string safe inside an element and inside an attribute in double quotes. Signs that XML forbids become U+FFFD.
func esc(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '&':
			b.WriteString("&amp;")
		case r == '<':
			b.WriteString("&lt;")
		case r == '>':
			b.WriteString("&gt;")
		case r == '"':
			b.WriteString("&#34;")
		case r == '\'':
			b.WriteString("&#39;")
		case r == '\t' || r == '\n' || r == '\r':
			b.WriteByte(' ')
		case r < 0x20 || r == 0x7f || r == 0xFFFE || r == 0xFFFF:
			b.WriteRune('\uFFFD')
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

func dataKey(k string) bool {
	for _, r := range k {
		if !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-') {
			return false
		}
	}
	return k != ""
}

// safeLink accepts http, https and links without a scheme.
func safeLink(h string) bool {
	if strings.HasPrefix(h, "https://") || strings.HasPrefix(h, "http://") {
		return true
	}
	end := strings.IndexAny(h, "/?#")
	if end < 0 {
		end = len(h)
	}
	return !strings.Contains(h[:end], ":") && !strings.HasPrefix(h, "//") && !strings.HasPrefix(h, "/\\") && !strings.ContainsAny(h, "\x00\t\n\r")
}
