package jounce

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"
)

// policy says which of our own packages each room may import. "a/*" is every
// room below a; a name in capitals is one of the sets below. A room without a
// line is refused, so that a new one is thought about once. Lines of rooms that
// are planned and not built yet stand here already.
//
// It differs from a plain layering in five places, each with its reason:
//
//   - catalog imports finding: a shop's limits are finding.Limit, and a second
//     type for the same thing would have to be kept equal to it.
//   - sum and study import num/doubt, as engines do: doubts are carried through
//     several engines at once there.
//   - demo reads examples, which are documents and no code.
//   - web prints papers through functions that it is handed, as it reaches the
//     store through an interface: press is no line of its own.
//   - cli imports web's Keep beside its pages, so that an imported job shows on
//     the board like a typed one.
const policy = `
quantity                 -
source                   -
num/root                 -
num/interp               -
num/doubt                -
num/ode                  num/root
num/r3                   -
num/problem              num/root

gas                      FOUNDATIONS
spring                   FOUNDATIONS gas
leak                     FOUNDATIONS gas
pneumatic                FOUNDATIONS gas
pneumatic/sizing         FOUNDATIONS gas pneumatic
tyre                     FOUNDATIONS
linkage                  FOUNDATIONS
wiring                   FOUNDATIONS
sound                    FOUNDATIONS
stance                   FOUNDATIONS gas spring linkage tyre
body                     FOUNDATIONS

internal/job             quantity
internal/catalog         quantity source internal/finding
internal/finding         quantity source
internal/proof           quantity internal/finding internal/job
internal/study           FOUNDATIONS ENGINES internal/job internal/catalog internal/finding internal/proof
internal/sum             FOUNDATIONS ENGINES internal/catalog internal/finding

internal/draw            internal/draw/font
internal/draw/font       -
internal/draw/specimen   internal/draw
internal/draw/svg        internal/draw internal/draw/font
internal/draw/pdf        internal/draw internal/draw/font
internal/draw/dxf        internal/draw
internal/figure          quantity internal/finding internal/draw internal/draw/font ENGINES
internal/trim            quantity internal/draw internal/job
internal/plate           quantity internal/catalog internal/draw internal/figure internal/finding internal/job internal/photo internal/study
internal/report          quantity source internal/finding internal/figure internal/trim internal/draw internal/draw/* internal/job

internal/press           quantity internal/catalog internal/draw internal/figure internal/plate internal/finding internal/job internal/photo internal/report internal/study

internal/photo           -
internal/store           internal/job internal/catalog
internal/store/storetest internal/job internal/store
internal/web/form        quantity internal/job
internal/web/page        quantity source internal/job internal/finding internal/study internal/draw internal/draw/svg
internal/web             quantity source internal/job internal/study internal/sum internal/photo internal/finding internal/figure internal/trim internal/plate internal/report internal/draw internal/draw/font internal/draw/svg internal/catalog internal/web/*
internal/demo            internal/job internal/catalog internal/photo examples
internal/cli             quantity source internal/*
cmd/jounce               internal/cli
examples                 -

internal/evidence        source
bench                    FOUNDATIONS ENGINES internal/*
.                        -
`

// sets are groups of rooms that several lines name.
var sets = map[string][]string{
	"FOUNDATIONS": {"quantity", "source", "num/*"},
	"ENGINES":     {"gas", "spring", "leak", "tyre", "stance", "body", "linkage", "wiring", "sound", "pneumatic", "pneumatic/*"},
}

// testsMay is what test files of any room may import besides: the record of
// published figures, invented jobs, and rooms that exist for tests. Tests of a
// room may look at what its results are good for: the catalog's hold the springs
// on the shelf against the engine that reads them. Nothing imports cli.
var testsMay = []string{"internal/evidence", "examples", "internal/demo", "internal/store/storetest", "internal/draw", "internal/draw/*",
	"internal/job", "internal/catalog", "internal/study", "internal/sum", "internal/finding", "spring", "source", "quantity", "num/*"}

// onlyTests are rooms that no code but tests imports.
var onlyTests = []string{"internal/evidence", "internal/store/storetest", "internal/draw/specimen"}

// world is what reaches outside the program, and worldly the rooms that may
// name it: everywhere else the same input gives the same output.
// internal/evidence writes the page of published figures and is for tests only;
// storetest and bench measure and time what the others do.
var (
	world   = []string{"net", "net/http", "database/sql", "os", "os/exec", "os/signal", "os/user", "log", "log/slog", "syscall"}
	worldly = []string{"internal/store", "internal/web", "internal/cli", "cmd/jounce", "internal/evidence", "internal/store/storetest", "bench"}
	clocks  = []string{"Now", "Since", "Until", "After", "AfterFunc", "Sleep", "Tick", "NewTimer", "NewTicker"}
)

const module = "jounce"

// file is what one Go file says that the policy asks about.
type file struct {
	name, room string
	test       bool
	imports    []string // import paths
	clock      []string // calls that read the clock
}

// TestRooms holds every import of every package against the policy.
func TestRooms(t *testing.T) {
	files, err := filesOf(os.DirFS("."))
	if err != nil {
		t.Fatal(err)
	}
	if len(files) < 100 {
		t.Fatalf("only %d Go files found", len(files))
	}
	rooms, err := parsePolicy(policy)
	if err != nil {
		t.Fatal(err)
	}
	for _, fault := range faults(files, rooms) {
		t.Error(fault)
	}
}

// TestRoomsRefuse shows that the policy can be broken: each file below breaks it
// once.
func TestRoomsRefuse(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"gas/a.go", `package gas; import _ "jounce/spring"`, "gas may not import spring"},
		{"spring/a.go", `package spring; import _ "os"`, "spring may not import os"},
		{"spring/a.go", `package spring; import "time"; var a = time.Now`, "reads the clock (time.Now)"},
		{"spring/a.go", `package spring; import clock "time"; var a = clock.Since`, "reads the clock (time.Since)"},
		{"internal/web/a.go", `package web; import _ "jounce/internal/store"`, "internal/web may not import internal/store"},
		{"internal/job/a.go", `package job; import _ "jounce/internal/evidence"`, "is for tests only"},
		{"internal/study/a_test.go", `package study; import _ "jounce/internal/cli"`, "internal/study may not import internal/cli"},
		{"internal/cli/a.go", `package cli; import _ "jounce/internal/evidence"`, "is for tests only"},
		{"attic/a.go", `package attic`, "attic has no line in the policy"},
	} {
		files, err := filesOf(fstest.MapFS{c.name: {Data: []byte(c.text)}})
		if err != nil {
			t.Fatal(err)
		}
		rooms, err := parsePolicy(policy)
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.Join(faults(files, rooms), "\n"); !strings.Contains(got, c.want) {
			t.Errorf("%s, %s: %q, want %q", c.name, c.text, got, c.want)
		}
	}
}

func parsePolicy(text string) (map[string][]string, error) {
	rooms := map[string][]string{}
	for _, line := range strings.Split(text, "\n") {
		words := strings.Fields(line)
		if len(words) == 0 {
			continue
		}
		var may []string
		for _, w := range words[1:] {
			if set, ok := sets[w]; ok {
				may = append(may, set...)
			} else if w != "-" {
				may = append(may, w)
			}
		}
		rooms[words[0]] = may
	}
	return rooms, nil
}

// faults are the sentences about what breaks the policy.
func faults(files []file, rooms map[string][]string) []string {
	var out []string
	for _, f := range files {
		may, ok := rooms[f.room]
		if !ok {
			out = append(out, f.name+": "+f.room+" has no line in the policy")
			continue
		}
		for _, imported := range f.imports {
			if fault := judge(f, may, imported); fault != "" {
				out = append(out, f.name+": "+fault)
			}
		}
		if !f.test && !slices.Contains(worldly, f.room) {
			for _, c := range f.clock {
				out = append(out, f.name+": "+f.room+" reads the clock (time."+c+"); the caller hands it in")
			}
		}
	}
	return out
}

func judge(f file, may []string, imported string) string {
	room, ours := strings.CutPrefix(imported, module+"/")
	switch {
	case !ours && f.test:
		return ""
	case !ours:
		if slices.Contains(world, imported) && !slices.Contains(worldly, f.room) {
			return f.room + " may not import " + imported
		}
		return ""
	case room == f.room:
		return "" // an external test of its own package
	case f.test && (allowed(testsMay, room) || f.room == "internal/evidence"):
		return ""
	case slices.Contains(onlyTests, room) && !f.test:
		return room + " is for tests only"
	case !allowed(may, room):
		return f.room + " may not import " + room
	}
	return ""
}

func allowed(may []string, room string) bool {
	for _, m := range may {
		if base, below := strings.CutSuffix(m, "/*"); m == room || below && strings.HasPrefix(room, base+"/") {
			return true
		}
	}
	return false
}

// filesOf reads the imports of every Go file.
func filesOf(dir fs.FS) ([]file, error) {
	var out []file
	err := fs.WalkDir(dir, ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && name != "." && (strings.HasPrefix(d.Name(), ".") || d.Name() == "testdata"):
			return fs.SkipDir
		case d.IsDir() || path.Ext(name) != ".go":
			return nil
		}
		text, err := fs.ReadFile(dir, name)
		if err != nil {
			return err
		}
		f, err := read(name, text)
		out = append(out, f)
		return err
	})
	return out, err
}

func read(name string, text []byte) (file, error) {
	f := file{name: name, room: path.Dir(name), test: strings.HasSuffix(name, "_test.go")}
	tree, err := parser.ParseFile(token.NewFileSet(), name, text, parser.SkipObjectResolution)
	if err != nil {
		return f, err
	}
	timeName := ""
	for _, i := range tree.Imports {
		p, err := strconv.Unquote(i.Path.Value)
		if err != nil {
			return f, err
		}
		f.imports = append(f.imports, p)
		if p == "time" {
			timeName = "time"
			if i.Name != nil {
				timeName = i.Name.Name
			}
		}
	}
	ast.Inspect(tree, func(n ast.Node) bool {
		s, ok := n.(*ast.SelectorExpr)
		if !ok || timeName == "" {
			return true
		}
		if x, ok := s.X.(*ast.Ident); ok && x.Name == timeName && slices.Contains(clocks, s.Sel.Name) {
			f.clock = append(f.clock, s.Sel.Name)
		}
		return true
	})
	return f, nil
}
