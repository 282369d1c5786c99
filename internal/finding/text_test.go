package finding

import "testing"

func TestParagraph(t *testing.T) {
	if got, want := Paragraph(2, 14, "one two three 3.5\u00a0bar"), "  one two\n    three\n    3.5\u00a0bar\n"; got != want {
		t.Errorf("%q, expected %q", got, want)
	}
}
