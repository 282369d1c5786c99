package store

import (
	"strings"
	"testing"
	"unicode/utf8"
)

func TestExactFold(t *testing.T) {
	for in, want := range map[string]string{
		"": "", "Fenn ESTATE": "fenn estate", "Größe": "grosse", "GRÖSSE": "grosse", "café": "cafe", "cafe\u0301": "cafe", "½": "1⁄2", "m³": "m3",
		"− 55": "- 55", "a–b": "a-b", "it’s": "it's", "a\u00a0b\tc\nd\x00e": "a b c d e", "ΣΊΣΥΦΟΣ": "σισυφοσ", "İ": "i", "ﬁt": "fit", "５": "5",
	} {
		if got := fold(in); got != want {
			t.Errorf("fold(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestExactNumberKey(t *testing.T) {
	sorted := []string{"0", "2", "0009", "10", "0412", "9999", "10000", "a2", "a010", "a11b9", "a11b10", "b"}
	for i := 1; i < len(sorted); i++ {
		if a, b := numberKey(sorted[i-1]), numberKey(sorted[i]); a >= b {
			t.Errorf("%s gives %q, %s gives %q: not in order", sorted[i-1], a, sorted[i], b)
		}
	}
}

// FuzzFold holds folding and snippets to: folding twice changes nothing, folded
// text is one line, and what a search finds is a piece of the text that folds to
// something with the word in it.
func FuzzFold(f *testing.F) {
	for _, s := range [][2]string{{"Fenn estate", "est"}, {"Größe cafe\u0301 ½", "grosse"}, {"½", "⁄2"}, {"\xff\x00", " "}, {"ﬃx", "f"}, {"aͅ", "a"}} {
		f.Add(s[0], s[1])
	}
	f.Fuzz(func(t *testing.T, text, word string) {
		folded := fold(text)
		if again := fold(folded); again != folded || strings.Contains(folded, "\n") || !utf8.ValidString(folded) {
			t.Fatalf("fold(%q) = %q, and again %q", text, folded, again)
		}
		word = fold(word)
		found, ok := findIn(text, word)
		if ok != (word != "" && strings.Contains(folded, word)) {
			t.Fatalf("%q in %q: found %v", word, text, ok)
		}
		if !ok {
			return
		}
		whole := strings.TrimPrefix(found.Before, "…") + found.Match + strings.TrimSuffix(found.After, "…")
		if !strings.Contains(fold(found.Match), word) || !strings.Contains(string([]rune(text)), strings.TrimSuffix(whole, "…")) {
			t.Fatalf("%q in %q: found %+v", word, text, found)
		}
	})
}
