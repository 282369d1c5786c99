package finding

import (
	"strings"

	"jounce/quantity"
	"jounce/source"
)

// Working is how a number came about: it is what an engine returned, never
// computed again for display.
type Working struct {
	Lines   []Line   `json:"lines"`             // formulas, in symbols and with numbers
	Terms   []Term   `json:"terms,omitempty"`   // what went in
	Steps   []Term   `json:"steps,omitempty"`   // what came out on the way
	Effects []Effect `json:"effects,omitempty"` // what each input's own ± and +5 % of it do
	Doubt   string   `json:"doubt,omitempty"`   // how ± was worked out: "linear"
	Notes   []string `json:"notes,omitempty"`   // range, which way it errs, what is assumed
}

// Line is one formula. Both texts are in the small markup of [Markup].
type Line struct {
	Symbols string `json:"symbols"`           // k = {n p_{abs} A^{2}}/{V}
	Numbers string `json:"numbers,omitempty"` // the same with numbers
	Result  string `json:"result,omitempty"`  // 46.1 N/mm
}

// Term is one symbol with its value and where it is from.
type Term struct {
	Symbol string      `json:"symbol"`
	Name   string      `json:"name"`
	Value  Number      `json:"value"`
	Mark   source.Mark `json:"mark"`
	Path   string      `json:"path,omitempty"`  // place in the record
	Who    string      `json:"who,omitempty"`   // who, when, with what
	Share  float64     `json:"share,omitempty"` // of the doubt of the result, 0 to 1 [1]
}

// Effect is what one input does to the result: five per cent more of it, and its
// own doubt.
type Effect struct {
	Name    string  `json:"name"`
	Percent float64 `json:"percent"`         // change of the result with five per cent more [%]; 0 where the result is nothing
	Change  Number  `json:"change"`          // the same in units
	Doubt   float64 `json:"doubt,omitempty"` // ± of the result by the input's doubt alone [%]; 0 where the result is nothing
	Half    Number  `json:"half,omitzero"`   // the same in units
}

// Part is a piece of a formula: exactly one of its fields is used.
type Part struct {
	Text     string // plain
	Sub, Sup string // below, above
	Over     []Part // a fraction: over
	Under    []Part // and under the line
}

// Markup reads the markup of formulas: `{over}/{under}` is a fraction, `_{abs}`
// a subscript, `^{2}` a superscript; everything else stands for itself.
func Markup(s string) []Part {
	var out []Part
	text := func(t string) {
		if t != "" {
			out = append(out, Part{Text: t})
		}
	}
	for {
		i := strings.IndexAny(s, "{_^")
		if i < 0 {
			text(s)
			return out
		}
		kind := s[i]
		open := i
		if kind != '{' {
			open = i + 1
		}
		body, rest, ok := braced(s, open)
		if !ok {
			text(s[:i+1])
			s = s[i+1:]
			continue
		}
		text(s[:i])
		switch kind {
		case '_':
			out = append(out, Part{Sub: body})
		case '^':
			out = append(out, Part{Sup: body})
		default:
			if under, after, ok := braced(rest, 1); ok && rest[0] == '/' {
				out = append(out, Part{Over: Markup(body), Under: Markup(under)})
				rest = after
			} else {
				out = append(out, Markup(body)...)
			}
		}
		s = rest
	}
}

// braced cuts the text in the braces that open at i.
func braced(s string, i int) (body, rest string, ok bool) {
	if i >= len(s) || s[i] != '{' {
		return "", "", false
	}
	depth := 0
	for k := i; k < len(s); k++ {
		switch s[k] {
		case '{':
			depth++
		case '}':
			if depth--; depth == 0 {
				return s[i+1 : k], s[k+1:], true
			}
		}
	}
	return "", "", false
}

// Plain is a formula on one line, for a terminal or a narrow paper.
func Plain(s string) string {
	var b strings.Builder
	plainParts(&b, Markup(s))
	return b.String()
}

var superscripts = map[string]string{"2": "²", "3": "³"}

func plainParts(b *strings.Builder, parts []Part) {
	for _, p := range parts {
		switch {
		case p.Over != nil || p.Under != nil:
			grouped(b, p.Over)
			b.WriteString(" ÷ ")
			grouped(b, p.Under)
		case p.Sub != "":
			b.WriteString("_" + p.Sub)
		case p.Sup != "":
			if s, ok := superscripts[p.Sup]; ok {
				b.WriteString(s)
			} else {
				b.WriteString("^" + p.Sup)
			}
		default:
			b.WriteString(p.Text)
		}
	}
}

func grouped(b *strings.Builder, parts []Part) {
	var in strings.Builder
	plainParts(&in, parts)
	s := in.String()
	if strings.ContainsAny(s, "+−- ×÷") {
		s = "(" + s + ")"
	}
	b.WriteString(s)
}

// Show writes a bare SI value in the named unit, without doubt.
func Show(kind quantity.Kind, unit string, si float64, digits int) string {
	u, ok := quantity.UnitOf(kind, unit)
	if !ok {
		panic("finding: no unit " + unit + " of " + kind.String())
	}
	return quantity.Format(kind, si, u, digits)
}
