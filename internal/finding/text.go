package finding

import (
	"strings"
	"unicode/utf8"
)

// Paragraph is a text for a terminal, broken at spaces that may break so that no
// line is wider than width where a word allows it. The first line stands indent
// characters in, the others two more.
func Paragraph(indent, width int, s string) string {
	var b strings.Builder
	pad, n := strings.Repeat(" ", indent), 0
	for _, w := range strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == '\n' }) {
		k := utf8.RuneCountInString(w)
		switch {
		case n == 0:
			b.WriteString(pad + w)
			n = indent + k
		case n+1+k > width:
			b.WriteString("\n" + pad + "  " + w)
			n = indent + 2 + k
		default:
			b.WriteString(" " + w)
			n += 1 + k
		}
	}
	b.WriteString("\n")
	return b.String()
}
