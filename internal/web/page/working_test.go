package page

import (
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"

	"jounce/internal/finding"
	"jounce/quantity"
	"jounce/source"
)

// Whatever is typed stands in a drawer as text, never as markup, and everything
// of a working stands there once.
func TestWorkingShowsAllAndEscapes(t *testing.T) {
	const bad = `<b onclick="x">&"'`
	kg := finding.Of(quantity.KindMass, "kg", 276, 1)
	w := &finding.Working{
		Lines:   []finding.Line{{Symbols: "p = {" + bad + "}/{A}", Numbers: bad, Result: bad}},
		Terms:   []finding.Term{{Symbol: "W_{FL}", Name: bad, Value: kg, Mark: source.Read, Who: bad}},
		Steps:   []finding.Term{{Symbol: bad, Name: "sprung", Value: kg, Mark: source.Calc}},
		Effects: []finding.Effect{{Name: bad, Percent: 5, Doubt: 2, Change: kg}, {Name: "area", Percent: -8, Change: kg}},
		Notes:   []string{bad}, Doubt: bad}
	doc, err := goquery.NewDocumentFromReader(strings.NewReader("<div id=w>" + string(workingHTML(w)) + "</div>"))
	if err != nil {
		t.Fatal(err)
	}
	if n := doc.Find("[onclick]").Length(); n != 0 {
		t.Errorf("%d elements came out of typed text", n)
	}
	for sel, want := range map[string]int{"h3": 4, ".formula": 1, ".frac": 1, "table": 2, "tbody tr": 2, ".src": 2, ".eff .axis": 2, ".eff b": 1, ".note": 2, ".terms sub": 1} {
		if n := doc.Find(sel).Length(); n != want {
			t.Errorf("%d of %s, expected %d", n, sel, want)
		}
	}
	// in the formula, its numbers and result; a term's name and who; a symbol; an effect; a note; the doubt
	if n := strings.Count(doc.Find("#w").Text(), bad); n != 9 {
		t.Errorf("the typed text stands %d times, expected 9", n)
	}
	if first := doc.Find(".eff > span").First().Text(); first != "area" {
		t.Errorf("the longest effect is %q, expected the area's", first)
	}
	if workingHTML(nil) != "" {
		t.Error("no working makes something")
	}
}
