package jounce

import (
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// pages are the documents that are written by hand.
func pages(t *testing.T) map[string]string {
	t.Helper()
	names := []string{"README.md", "CHANGELOG.md"}
	for _, pattern := range []string{"docs/*.md", "docs/decisions/*.md"} {
		more, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		names = append(names, more...)
	}
	out := map[string]string{}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		out[filepath.ToSlash(name)] = string(text)
	}
	return out
}

// TestDocumentLinks follows every link of the documents that leads to a file.
func TestDocumentLinks(t *testing.T) {
	link := regexp.MustCompile(`\]\(([^)#]+)`)
	seen := 0
	for name, text := range pages(t) {
		for _, m := range link.FindAllStringSubmatch(text, -1) {
			if strings.Contains(m[1], "://") {
				continue
			}
			seen++
			if _, err := os.Stat(path.Join(path.Dir(name), m[1])); err != nil {
				t.Errorf("%s: the link %s leads nowhere", name, m[1])
			}
		}
	}
	if seen < 10 {
		t.Errorf("only %d links found", seen)
	}
}

// TestDocumentPlaces finds every file and room that the map and the look name.
func TestDocumentPlaces(t *testing.T) {
	place := regexp.MustCompile("`((?:internal|docs|bench|cmd|fonts|examples|gas|spring|leak|tyre|stance|num)/[a-z0-9_/.*-]+)`")
	seen := 0
	for _, name := range []string{"docs/ARCHITECTURE.md", "docs/LOOK.md", "README.md"} {
		for _, m := range place.FindAllStringSubmatch(pages(t)[name], -1) {
			seen++
			if found, err := filepath.Glob(m[1]); err != nil || len(found) == 0 {
				t.Errorf("%s names %s, which is not there", name, m[1])
			}
		}
	}
	if seen < 30 {
		t.Errorf("only %d places found", seen)
	}
}

// TestDocumentRooms finds a line for every room in the map.
func TestDocumentRooms(t *testing.T) {
	files, err := filesOf(os.DirFS("."))
	if err != nil {
		t.Fatal(err)
	}
	text := pages(t)["docs/ARCHITECTURE.md"]
	for _, f := range files {
		if f.test || f.room == "." || strings.Count(f.room, "/") > 1 || f.room == "cmd/jounce" || strings.HasPrefix(f.room, "num/") {
			continue
		}
		if !strings.Contains(text, "`"+f.room+"`") {
			t.Errorf("docs/ARCHITECTURE.md has no line for %s", f.room)
		}
	}
}
