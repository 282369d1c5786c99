package evidence

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strings"

	"jounce/source"
)

const (
	recordDir = "docs/validation"    // one record for each test
	pageName  = "docs/VALIDATION.md" // the page made of them
)

// writing says whether records and page are written instead of compared.
func writing() bool { return os.Getenv("VALIDATION") == "write" }

// place finds the module's root above the working directory, and the way from
// it to the package under test.
func place() (root, pkg string, err error) {
	wd, err := os.Getwd()
	if err != nil {
		return "", "", err
	}
	for dir := wd; ; dir = filepath.Dir(dir) {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			rel, err := filepath.Rel(dir, wd)
			return dir, filepath.ToSlash(rel), err
		}
		if dir == filepath.Dir(dir) {
			return "", "", errors.New("no go.mod above the working directory")
		}
	}
}

func (l line) fields() []string {
	return []string{l.pkg, l.test, l.source, l.id, l.what, l.unit, l.printed,
		l.computed, l.deviation, l.tolerance, l.verdict, l.where, l.mark, l.note}
}

func (l line) encode() string {
	f := l.fields()
	for i := range f {
		f[i] = strings.NewReplacer("\t", " ", "\n", " ", "\r", " ").Replace(f[i])
	}
	return strings.Join(f, "\t") + "\n"
}

func decode(s string) (line, error) {
	f := strings.Split(s, "\t")
	if len(f) != 14 {
		return line{}, fmt.Errorf("%d fields, expected 14", len(f))
	}
	return line{f[0], f[1], f[2], f[3], f[4], f[5], f[6], f[7], f[8], f[9], f[10], f[11], f[12], f[13]}, nil
}

// records reads all records below root in a fixed order.
func records(root string) ([]line, error) {
	names, err := filepath.Glob(filepath.Join(root, recordDir, "*.tsv"))
	if err != nil {
		return nil, err
	}
	sort.Strings(names)
	var all []line
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		for i, s := range strings.Split(strings.TrimSuffix(string(data), "\n"), "\n") {
			l, err := decode(s)
			if err != nil {
				return nil, fmt.Errorf("%s, line %d: %w", filepath.Base(name), i+1, err)
			}
			all = append(all, l)
		}
	}
	sort.SliceStable(all, func(i, j int) bool {
		if all[i].pkg != all[j].pkg {
			return all[i].pkg < all[j].pkg
		}
		return all[i].source < all[j].source
	})
	return all, nil
}

// page makes docs/VALIDATION.md.
func page(all []line) []byte {
	var b bytes.Buffer
	agree, slips, off := count(all)
	fmt.Fprintf(&b, "# Validation: computed against published\n\n")
	fmt.Fprintf(&b, "Written by the tests; do not edit. %d printed figures: %d agree, %d are known slips of their source\n"+
		"(the right figure is computed, the slip is not reproduced), %d are off.\n\n", len(all), agree, slips, off)
	fmt.Fprintf(&b, "The tolerance is half a unit of the last printed digit unless the row gives another, with the reason in its note.\n"+
		"Mark: S seen in the source, M from memory, R recomputed independently from its formula.\n")
	for i := 0; i < len(all); {
		j := i
		for j < len(all) && all[j].pkg == all[i].pkg {
			j++
		}
		writePackage(&b, all[i:j])
		i = j
	}
	return b.Bytes()
}

func count(all []line) (agree, slips, off int) {
	for _, l := range all {
		switch l.verdict {
		case "agrees":
			agree++
		case "slip not reproduced":
			slips++
		default:
			off++
		}
	}
	return agree, slips, off
}

func writePackage(b *bytes.Buffer, lines []line) {
	fmt.Fprintf(b, "\n## %s\n", lines[0].pkg)
	for i, l := range lines {
		if i == 0 || l.source != lines[i-1].source {
			fmt.Fprintf(b, "\n**%s** %s\n\n", l.source, cite(l.source))
			fmt.Fprintf(b, "| row | what | where | mark | printed | computed | deviation | tolerance | verdict | note |\n")
			fmt.Fprintf(b, "|---|---|---|---|---|---|---|---|---|---|\n")
		}
		fmt.Fprintf(b, "| %s | %s | %s | %s | %s | %s | %s | %s | %s | %s |\n", cell(l.id), cell(l.what), cell(l.where), cell(l.mark),
			cell(withUnit(l)), l.computed, l.deviation, cell(l.tolerance), l.verdict, cell(l.note))
	}
}

// withUnit is the printed figure with its unit; a plain number has none.
func withUnit(l line) string {
	if l.unit == "" || l.unit == "1" {
		return l.printed
	}
	return l.printed + " " + l.unit
}

func cite(key string) string {
	c, ok := source.Of(key)
	if !ok {
		return "(not in the bibliography)"
	}
	return c.String()
}

func cell(s string) string { return strings.ReplaceAll(s, "|", `\|`) }
