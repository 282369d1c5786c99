package job

import (
	"encoding/json"
	"reflect"
	"slices"
	"strings"
	"testing"

	"jounce/examples"
)

// TestEveryPlaceIsDecided finds the places of the record that nobody has decided
// about for a copy. A quantity has a safe decision without a word: it is left out.
func TestEveryPlaceIsDecided(t *testing.T) {
	for _, fault := range undecided(reflect.TypeFor[Job](), "", "") {
		t.Error(fault)
	}
	type inner struct {
		ID   string  `json:"id"`
		Free string  `json:"free"`
		Was  Reading `json:"was" q:"any"`
		Odd  string  `json:"odd" copy:"perhaps"`
	}
	type outer struct {
		Kept []inner `json:"kept" copy:"keep"`
		Open []inner `json:"open"`
	}
	got := strings.Join(undecided(reflect.TypeFor[outer](), "", ""), "\n")
	if !strings.Contains(got, "open.free") || strings.Contains(got, "kept.free") || strings.Contains(got, "was") || !strings.Contains(got, "kept.odd") {
		t.Errorf("of an undecided record it says\n%s", got)
	}
}

func undecided(t reflect.Type, path, around string) []string {
	var out []string
	for _, at := range placesOf(t) {
		if at.name == "schema" || at.name == "id" {
			continue
		}
		p := strings.TrimPrefix(path+"."+at.name, ".")
		word := at.field.Tag.Get("copy")
		if word != "" && !slices.Contains([]string{copyOut, copyOwner, copyKeep, copyAll, copySheet}, word) || word == copySheet && !at.reading || word == copyAll && (at.reading || at.text) {
			out = append(out, p+`: the tag copy says "`+word+`"`)
		}
		if word == "" {
			word = around
		}
		switch kind := at.field.Type; {
		case at.reading:
		case at.text && word == "":
			out = append(out, p+`: is it carried over into a copy of the job? Tag it copy:"keep" or copy:"out", or the group that it lies in (copy.go)`)
		case kind.Kind() == reflect.Slice:
			out = append(out, undecided(kind.Elem(), p, word)...)
		case kind.Kind() == reflect.Struct:
			out = append(out, undecided(kind, p, word)...)
		}
	}
	return out
}

func saloon(t testing.TB) *Job {
	text, err := examples.Files.ReadFile("0412-quill-saloon.json")
	if err != nil {
		t.Fatal(err)
	}
	j, err := Decode(text)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func TestExactCopy(t *testing.T) {
	j := set(t, saloon(t), "car.plate", "QUI 11", "axles.front.limiters[l1].name", "strap", "axles.front.limiters[l1].droop", "70 mm", "axles.front.damper.closed", "250 mm",
		"touch[c1].name", "sump", "touch[c1].room", "90 mm", "photos[h1].name", "side", "outline.stations[scuttle].x", "400 mm", "note", "see the sum")
	j.Axles.Front.Damper.Closed.By, j.Axles.Front.Damper.Closed.At, j.Springs[0].Points[0].Load.By = "", "", "T. Marrow"
	j.Axles.Front.Limiters[len(j.Axles.Front.Limiters)-1].Droop = Reading{Value: "70 mm", By: "T. Marrow", At: "2026-03-14"}
	c := j.Copy()
	for _, path := range []string{"car.description", "car.form", "car.year", "axles.front.layout", "axles.front.tyreLeft", "axles.front.spring", "axles.front.damper.closed", "axles.front.limiters[l1].name",
		"springs[" + j.Springs[0].ID + "].name", "presets.down.front", "touch[c1].name", "instruments[" + j.Instruments[0].ID + "].name"} {
		a, err1 := j.Field(path, false)
		b, err2 := c.Field(path, false)
		if err1 != nil || err2 != nil || a.Content() == "" || a.Content() != b.Content() {
			t.Errorf("%s is not carried over: %v, %v", path, err1, err2)
		}
	}
	if !reflect.DeepEqual(c.Springs, j.Springs) {
		t.Error("a spring is not carried over whole")
	}
	for _, path := range []string{"corners.FL.weight", "corners.FL.hubToArch", "survey.wheelbase", "car.plate", "keeper.name", "place.where", "place.promised", "axles.front.springRatio",
		"axles.front.springHeight", "axles.front.limiters[l1].droop", "axles.rear.tyreDate", "touch[c1].room", "name", "note"} {
		if f, err := c.Field(path, false); err == nil && f.Content() != "" {
			t.Errorf("%s, %q, is carried over", path, f.Content())
		}
	}
	if len(c.Wishes)+len(c.LeakTests)+len(c.Signatures)+len(c.Photos)+len(c.Outline.Stations) != 0 || c.ID != "" {
		t.Errorf("wishes, tests, signatures, pictures or points are carried over, or the number %q", c.ID)
	}
	doc, err := c.Encode()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Decode(doc); err != nil {
		t.Error(err)
	}
}

// TestConservesCopy finds every quantity of the source either in the copy or
// among those left out, and the source unaltered.
func TestConservesCopy(t *testing.T) {
	j := saloon(t)
	before, _ := json.Marshal(j)
	c := j.Copy()
	measured, rest := LeftOut(j, c)
	if after, _ := json.Marshal(j); string(after) != string(before) {
		t.Error("the source was altered")
	}
	left := map[string]bool{}
	for _, m := range append(measured, rest...) {
		left[m.Path] = true
	}
	n := 0
	for _, f := range j.Fields() {
		if f.Path == "id" || f.Content() == "" {
			continue
		}
		g, err := c.Field(f.Path, false)
		if there := err == nil && g.Content() == f.Content(); there == left[f.Path] {
			t.Errorf("%s: in the copy %v, said to be left out %v", f.Path, there, left[f.Path])
		}
		n++
	}
	for _, m := range measured {
		if strings.HasPrefix(m.Path, "wishes") {
			t.Errorf("%s is to be measured on the new car", m.Path)
		}
	}
	if len(measured) == 0 || len(rest) == 0 || n <= len(left) {
		t.Errorf("%d measured and %d others left out of %d", len(measured), len(rest), n)
	}
}

func TestExactCopyNote(t *testing.T) {
	source, revision, ok := CopiedFrom(CopyNote("0412", 7, 41))
	if source != "0412" || revision != 7 || !ok {
		t.Error(source, revision, ok)
	}
	for _, note := range []string{"", "copied from job 0412", "copied from job , revision 7; x", "copied from job 1, revision x; 3", "signed by A. Quill", "copied from job 1, revision 7"} {
		if _, _, ok := CopiedFrom(note); ok {
			t.Errorf("%q is taken for the note of a copy", note)
		}
	}
}
