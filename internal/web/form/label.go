package form

import (
	"reflect"
	"strings"

	"jounce/internal/job"
)

// ownLabel is the label of a place without the words of what it lies in.
func ownLabel(path string) string {
	t, label := reflect.TypeFor[job.Job](), ""
	for _, part := range strings.Split(path, ".") {
		name, _, _ := strings.Cut(part, "[")
		if t.Kind() == reflect.Slice {
			t = t.Elem()
		}
		if t.Kind() != reflect.Struct {
			return path
		}
		found := false
		for i := range t.NumField() {
			f := t.Field(i)
			if tag, _, _ := strings.Cut(f.Tag.Get("json"), ","); tag == name {
				t, label, found = f.Type, f.Tag.Get("label"), true
				break
			}
		}
		if !found {
			return path
		}
	}
	if label == "" {
		return path
	}
	return label
}

// Label is the label of a place, group or list by itself.
func Label(path string) string { return ownLabel(path) }
