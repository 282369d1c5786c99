package cli

import (
	"io"
	"os"
	"strings"

	"golang.org/x/term"

	"jounce/internal/finding"
)

// paper is where findings are written: how wide it is and whether it shows
// colour.
type paper struct {
	strings.Builder
	width  int // [characters]
	colour bool
}

// paper takes the measure of the standard output: 80 columns and no colour when
// it is no terminal.
func (p *program) paper() *paper {
	width, terminal := measure(p.Out)
	return &paper{width: width, colour: terminal && p.Getenv("NO_COLOR") == "" && p.Getenv("TERM") != "dumb"}
}

func measure(w io.Writer) (width int, terminal bool) {
	f, ok := w.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		return 80, false
	}
	if n, _, err := term.GetSize(int(f.Fd())); err == nil && n > 0 {
		return min(max(n, 40), 100), true
	}
	return 80, true
}

// line writes a paragraph broken at spaces; what follows its first line stands
// two characters further in.
func (t *paper) line(indent int, s string) {
	t.WriteString(finding.Paragraph(indent, t.width, s))
}

// hues are the colours of the four verdicts on a terminal.
var hues = [4]string{"31", "33", "36", "32"}

// verdict writes a heading line in the colour of its verdict.
func (t *paper) verdict(v finding.Verdict, s string) {
	if !t.colour {
		t.line(0, s)
		return
	}
	t.WriteString("\x1b[1;" + hues[v] + "m")
	t.line(0, s)
	t.WriteString("\x1b[0m")
}
