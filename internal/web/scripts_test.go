package web

import (
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// mostScript is what all own scripts together may weigh before they are packed [B].
const mostScript = 30_000

// ownScripts are the modules in static/, by name.
func ownScripts(t *testing.T) map[string][]byte {
	t.Helper()
	names, err := fs.Glob(staticFiles, "static/*")
	if err != nil {
		t.Fatal(err)
	}
	own := map[string][]byte{}
	for _, name := range names {
		switch path.Ext(name) {
		case ".mjs":
			own[path.Base(name)] = static(path.Base(name))
		case ".css", ".svg":
		default:
			t.Errorf("%s: a library or a file that nobody expects; modules end in .mjs", name)
		}
	}
	return own
}

// TestScriptsAreSmallAndOwn weighs all modules and looks for what was brought in.
func TestScriptsAreSmallAndOwn(t *testing.T) {
	own := ownScripts(t)
	if len(own) < 8 {
		t.Fatalf("%d modules found, expected eight at least", len(own))
	}
	total := 0
	for name, body := range own {
		total += len(body)
		for i, line := range strings.Split(string(body), "\n") {
			if len(line) > 600 {
				t.Errorf("%s, line %d: %d characters, as packed libraries have; a line that somebody can read was expected", name, i+1, len(line))
			}
		}
		for _, from := range regexp.MustCompile(`(?m)(?:\bfrom\s*|\bimport\s*\(?\s*)["']([^"']+)["']`).FindAllSubmatch(body, -1) {
			if _, ok := own[strings.TrimPrefix(string(from[1]), "./")]; !ok {
				t.Errorf("%s imports %s, which is no module of the program", name, from[1])
			}
		}
		for _, bad := range []string{"eval(", "new Function", "://"} {
			if strings.Contains(string(body), bad) {
				t.Errorf("%s has %q in it", name, bad)
			}
		}
	}
	t.Logf("%d modules, %d bytes before they are packed", len(own), total)
	if total >= mostScript {
		t.Errorf("own scripts weigh %d B, expected under %d", total, mostScript)
	}
}

// inlineHandler is an attribute that holds a script.
var inlineHandler = regexp.MustCompile(`(?i)\son[a-z]+\s*=|javascript:`)

// tag is a start tag as it is written.
var tag = regexp.MustCompile(`<[a-zA-Z][^>]*>`)

// TestNoPageHasAnInlineScript opens every page and counts what it loads: modules by
// their addresses only, data blocks that nobody runs, no handler in an attribute.
func TestNoPageHasAnInlineScript(t *testing.T) {
	s := exampleShop(t)
	assets := newAssets()
	plain := map[string]string{} // address to name
	for name := range ownScripts(t) {
		plain[assets.url(name)] = name
	}
	imports := map[string][]string{}
	for name, body := range ownScripts(t) {
		for _, m := range imported.FindAllSubmatch(body, -1) {
			imports[name] = append(imports[name], string(m[1]))
		}
	}
	totals := map[string][]string{} // what a page loads, with the pages that do
	sizes := map[string]int{}
	for _, v := range visits(t, s) {
		a := s.get(v.Path)
		var loads []string
		a.Find("script").Each(func(_ int, e *sel) {
			src, kind := e.AttrOr("src", ""), e.AttrOr("type", "")
			switch name, own := plain[src]; {
			case own && kind == "module" && strings.TrimSpace(e.Text()) == "":
				loads = append(loads, append([]string{name}, imports[name]...)...)
			case src == "" && kind == "application/json":
			default:
				t.Errorf("%s: a script of type %q from %q: %.60q; a module of the program was expected", v.Path, kind, src, e.Text())
			}
		})
		for _, written := range tag.FindAllString(a.Text, -1) {
			if inlineHandler.MatchString(withoutTexts(written)) {
				t.Errorf("%s: a handler in %s", v.Path, written)
			}
		}
		slices.Sort(loads)
		loads = slices.Compact(loads)
		key, sum := strings.Join(loads, " "), 0
		for _, name := range loads {
			sum += len(static(name))
		}
		totals[key], sizes[key] = append(totals[key], v.Path), sum
	}
	for key, pages := range totals {
		t.Logf("%6d B on %d pages (%s …): %s", sizes[key], len(pages), pages[0], key)
		if sizes[key] >= mostScript {
			t.Errorf("%s loads %d B of scripts, expected under %d", pages[0], sizes[key], mostScript)
		}
	}
	if len(totals) < 5 {
		t.Errorf("%d different sets of scripts on all pages, expected five at least", len(totals))
	}
}

// quoted is a text in a tag.
var quoted = regexp.MustCompile(`"[^"]*"`)

// withoutTexts is a tag with its texts taken out, but for addresses that begin with
// a scheme of scripts.
func withoutTexts(tag string) string {
	return quoted.ReplaceAllStringFunc(tag, func(text string) string {
		if strings.HasPrefix(strings.ToLower(text), `"javascript:`) {
			return text
		}
		return `""`
	})
}

// TestAnInlineScriptIsFound breaks tags on purpose.
func TestAnInlineScriptIsFound(t *testing.T) {
	for text, want := range map[string]bool{`<a onclick="x()">`: true, `<a href="javascript:x()">`: true, `<img src="a" ONLOAD = "x">`: true,
		`<p title="when onset = 3">`: false, `<button name=":on" value="x=1">`: false} {
		if got := inlineHandler.MatchString(withoutTexts(tag.FindString(text))); got != want {
			t.Errorf("%s: found %t, expected %t", text, got, want)
		}
	}
}
