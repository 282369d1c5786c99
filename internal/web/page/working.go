package page

import (
	"html/template"
	"strconv"
	"strings"

	"jounce/internal/finding"
	"jounce/source"
)

// workingHTML is the inside of a drawer: formulas, what went in, what came out on
// the way, the tornado, the notes. It is written here and not in a template, since
// a page carries some fifty drawers and is made anew for every number typed:
// through templates they took half of its time.
func workingHTML(w *finding.Working) template.HTML {
	if w == nil {
		return ""
	}
	var b markup
	b.lines(w.Lines)
	b.terms("What went in", w.Terms)
	b.terms("On the way", w.Steps)
	b.effects(w.Effects)
	for _, n := range w.Notes {
		b.put(`<p class="note">`).text(n).put("</p>")
	}
	if w.Doubt != "" {
		b.put(`<p class="note">± worked out: `).text(w.Doubt).put(".</p>")
	}
	return template.HTML(b.String())
}

// markup is HTML under work. text escapes what it writes; put does not.
type markup struct{ strings.Builder }

func (b *markup) put(parts ...string) *markup {
	for _, p := range parts {
		b.WriteString(p)
	}
	return b
}

func (b *markup) text(s string) *markup {
	template.HTMLEscape(b, []byte(s))
	return b
}

func (b *markup) lines(list []finding.Line) {
	if len(list) == 0 {
		return
	}
	b.put("<h3>Working</h3>")
	for _, l := range list {
		b.put(`<p class="formula">`, string(formulaHTML(l.Symbols)))
		if l.Numbers != "" {
			b.put(" = ", string(formulaHTML(l.Numbers)))
		}
		if l.Result != "" {
			b.put(" = <b>").text(l.Result).put("</b>")
		}
		b.put("</p>")
	}
}

// termsHTML is a table of symbols with their values.
func termsHTML(list []finding.Term) template.HTML {
	var b markup
	b.table(list)
	return template.HTML(b.String())
}

func (b *markup) terms(head string, list []finding.Term) {
	if len(list) == 0 {
		return
	}
	b.put("<h3>").text(head).put("</h3>")
	b.table(list)
}

func (b *markup) table(list []finding.Term) {
	b.put(`<table class="terms"><thead><tr><th>symbol</th><th>what</th><th class="r">value</th><th>source</th></tr></thead><tbody>`)
	for _, t := range list {
		b.put(`<tr><td class="sym">`, string(formulaHTML(t.Symbol)), "</td><td>").text(t.Name)
		if t.Who != "" {
			b.put(` <span class="s">`).text(t.Who).put("</span>")
		}
		b.put(`</td><td class="r">`, string(numberHTML(t.Value)), "</td><td>")
		b.source(t.Mark)
		b.put("</td></tr>")
	}
	b.put("</tbody></table>")
}

func (b *markup) source(m source.Mark) {
	if m == "" {
		return
	}
	b.put(`<span class="src" title="`).text(m.Explain()).put(`">`).text(string(m)).put("</span>")
}

func (b *markup) effects(list []finding.Effect) {
	if len(list) == 0 {
		return
	}
	tenth := func(v float64) string { return strconv.FormatFloat(v, 'f', 1, 64) }
	b.put(`<h3>What each input does to the result: its own ±, and 5 % more of it</h3><div class="eff">`)
	for _, e := range tornado(list) {
		b.put("<span>").text(e.Name).put(`</span><span class="axis">`)
		if e.Half > 0 {
			b.put(`<b style="left:`, tenth(50-e.Half), "%;width:", tenth(2*e.Half), `%"></b>`)
		}
		side := "left"
		if e.Left {
			side = "right"
		}
		b.put(`<i style="`, side, ":50%;width:", tenth(e.Width), `%"></i></span><span class="r">`).text(e.Text)
		if e.Doubt != "" {
			b.put(`<span class="s">`).text(e.Doubt).put("</span>")
		}
		b.put("</span>")
	}
	b.put("</div>")
}
