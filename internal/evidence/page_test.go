package evidence

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"jounce/source"
)

// TestPage fails when docs/VALIDATION.md is not what the records make.
func TestPage(t *testing.T) {
	root, _, err := place()
	if err != nil {
		t.Fatal(err)
	}
	all, err := records(root)
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range all {
		if _, ok := source.Of(l.source); !ok {
			t.Errorf("%s, %s %s: the source is not in the bibliography", l.pkg, l.source, l.id)
		}
	}
	name := filepath.Join(root, pageName)
	if writing() {
		if err := os.WriteFile(name, page(all), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	old, _ := os.ReadFile(name)
	if !bytes.Equal(old, page(all)) {
		t.Errorf("%s is stale: run VALIDATION=write go test ./internal/evidence -run TestPage -count=1", pageName)
	}
	if _, _, off := count(all); off > 0 {
		t.Errorf("%d printed figures are off", off)
	}
}

// TestEveryRowIsChecked finds rows that no test looks at, and records of rows
// that no longer exist.
func TestEveryRowIsChecked(t *testing.T) {
	root, _, err := place()
	if err != nil {
		t.Fatal(err)
	}
	all, err := records(root)
	if err != nil {
		t.Fatal(err)
	}
	checked := map[string]bool{}
	for _, l := range all {
		checked[l.pkg+" "+l.source+" "+l.id] = true
	}
	for _, row := range allRows(t, root) {
		if !checked[row] {
			t.Errorf("%s: no test has checked this row", row)
		}
		delete(checked, row)
	}
	for row := range checked {
		t.Errorf("%s: recorded, but there is no such row", row)
	}
}

func allRows(t *testing.T, root string) []string {
	t.Helper()
	var rows []string
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (d.Name() == ".git" || d.Name() == "node_modules") {
			return fs.SkipDir
		}
		dir := filepath.ToSlash(filepath.Dir(path))
		pkg, ok := strings.CutSuffix(dir, "/testdata/published")
		if !ok || filepath.Ext(path) != ".csv" {
			return nil
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		key := strings.TrimSuffix(filepath.Base(path), ".csv")
		list, err := readRows(key, bytes.NewReader(data))
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, pkg)
		if err != nil {
			return err
		}
		for _, r := range list {
			rows = append(rows, filepath.ToSlash(rel)+" "+key+" "+r.ID)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return rows
}
