package job

import (
	"slices"
	"strings"
	"testing"
)

func set(t testing.TB, j *Job, pairs ...string) *Job {
	t.Helper()
	for i := 0; i < len(pairs); i += 2 {
		if err := j.Set(pairs[i], pairs[i+1], true); err != nil {
			t.Fatal(err)
		}
	}
	return j
}

func quill(t testing.TB) *Job {
	j := set(t, &Job{Schema: 1, ID: "0412"}, "name", "Quill saloon", "corners.FL.weight", "286 kg", "axles.front.spring", "s1", "axles.front.damper.open", "420 mm",
		"springs[s1].name", "bellows 110", "springs[s1].points[p1].load", "2795 N", "springs[s1].points[p2].load", "2100 N", "springs[s2].name", "sleeve 90",
		"instruments[i1].name", "Tape 3", "instruments[i2].name", "Pads", "wishes[w1].words", "Right down on its belly when I park it at a show.", "wishes[w1].target", "80 mm")
	j.Corners.FL.Weight.With = "i2"
	return j
}

// TestExactDiff says what was done, place by place.
func TestExactDiff(t *testing.T) {
	for _, c := range []struct {
		name string
		do   func(j *Job)
		path string
		want string
	}{
		{"a value", func(j *Job) { j.Corners.FL.Weight.Value = "276 kg" }, "corners.FL.weight", "FL weight 286 kg → 276 kg"},
		{"a new value", func(j *Job) { j.Corners.FR.Weight.Value = "276 kg" }, "corners.FR.weight", "FR weight 276 kg"},
		{"emptied", func(j *Job) { j.Corners.FL.Weight = Reading{} }, "corners.FL.weight", "FL weight 286 kg taken out"},
		{"not read", func(j *Job) { j.Corners.FL.Weight = Reading{NotRead: "no pads"} }, "corners.FL.weight", "FL weight 286 kg → not read (no pads)"},
		{"instrument", func(j *Job) { j.Corners.FL.Weight.With = "i1" }, "corners.FL.weight", "FL weight 286 kg, read with Pads → Tape 3"},
		{"read again", func(j *Job) { j.Corners.FL.Weight.By = "H. Orme" }, "corners.FL.weight", "FL weight 286 kg, read again"},
		{"note", func(j *Job) { j.Corners.FL.Weight.Note = "on the slope" }, "corners.FL.weight", "FL weight 286 kg, its note"},
		{"a name in place of an id", func(j *Job) { j.Axles.Front.Spring = "s2" }, "axles.front.spring", "Front spring bellows 110 → sleeve 90"},
		{"deeper", func(j *Job) { j.Axles.Front.Damper.Open.Value = "430 mm" }, "axles.front.damper.open", "Front damper, length open 420 mm → 430 mm"},
		{"an item by its name", func(j *Job) { j.Springs[0].MaxWorking.Value = "7 bar" }, "springs[s1].maxWorking", "spring bellows 110, maximum working pressure 7 bar"},
		{"a line", func(j *Job) { j.Springs[0].Points[1].Load.Value = "2000 N" }, "springs[s1].points[p2].load", "spring bellows 110, line 2, load 2100 N → 2000 N"},
		{"a wish by its words", func(j *Job) { j.Wishes[0].Target.Value = "90 mm" }, "wishes[w1].target", "wish “Right down on its belly when I…”, target 80 mm → 90 mm"},
		{"order", func(j *Job) { slices.Reverse(j.Springs) }, "springs", "Springs in another order"},
	} {
		a, b := quill(t), quill(t)
		c.do(b)
		d := Diff(a, b)
		if len(d) != 1 || d[0].Path != c.path || d[0].String() != c.want {
			t.Errorf("%s: %+v, want %s: %q", c.name, d, c.path, c.want)
			continue
		}
		if Words(d, 3) != midSentence(c.want) {
			t.Errorf("%s: %q", c.name, Words(d, 3))
		}
	}
}

func TestExactWords(t *testing.T) {
	a, b := quill(t), quill(t)
	set(t, b, "corners.FR.weight", "1 kg", "corners.RL.weight", "2 kg", "corners.RR.weight", "3 kg", "springs[s3].name", "bellows 120", "springs[s3].closed", "60 mm", "springs[s3].points[p1].load", "900 N")
	if err := b.Remove("springs[s2]"); err != nil {
		t.Fatal(err)
	}
	d := Diff(a, b)
	if got, want := Words(d, 4), "FR weight 1 kg; RL weight 2 kg; RR weight 3 kg; spring bellows 120 put in; and 1 more"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := Words(d, 5); !strings.HasSuffix(got, "; spring sleeve 90 taken out") {
		t.Errorf("%q", got)
	}
	if got := Words(nil, 3); got != "nothing" {
		t.Errorf("%q", got)
	}
	long := quill(t)
	long.Wishes[0].Words += " No rubbing."
	long.Note = strings.Repeat("word ", 20)
	if got := Words(Diff(quill(t), long), 3); got != "wish “Right down on its belly when I…” in other words; note word word word word word word word…" {
		t.Errorf("%q", got)
	}
	more := long.Clone()
	more.Note += "more"
	if got := Words(Diff(long, more), 3); got != "note, word word word word word word word…, written anew" {
		t.Errorf("%q", got)
	}
	empty := quill(t)
	empty.Wishes = append(empty.Wishes, Wish{ID: "w2"})
	if got := Words(Diff(quill(t), empty), 3); got != "wish 2 put in" {
		t.Errorf("an empty item: %q", got)
	}
}

// TestConservesDiff finds no difference where there is none, and turned round
// the same places with before and after exchanged.
func TestConservesDiff(t *testing.T) {
	a, b := quill(t), set(t, &Job{Schema: 1, ID: "0413"}, "name", "Fenn estate", "corners.FL.weight", "300 kg", "springs[s1].name", "bellows 130", "leakTests[t1].readings[r1].pressure", "9 bar")
	if d := Diff(a, a.Clone()); len(d) != 0 {
		t.Errorf("a record and its copy differ in %+v", d)
	}
	there, back := Diff(a, b), Diff(b, a)
	if len(there) != len(back) || len(there) == 0 {
		t.Fatalf("%d and %d changes", len(there), len(back))
	}
	for _, c := range there {
		i := slices.IndexFunc(back, func(o Change) bool { return o.Path == c.Path })
		if i < 0 || back[i].Before != c.After || back[i].After != c.Before || c.Item != "" && back[i].Gone == c.Gone {
			t.Errorf("%s: %+v; turned round %+v", c.Path, c, back)
		}
	}
}

func TestExactTouches(t *testing.T) {
	c := Change{Path: "springs[s1].points[p2].load"}
	for place, want := range map[string]bool{"springs[s1].points[p2].load": true, "springs": true, "springs[s1]": true, "springs[s1].points": true, "springs[s1].points[p1]": false, "spring": false, "springs[s1].points[p2].load.x": true, "springs[s11]": false} {
		if c.Touches(place) != want {
			t.Errorf("%s: %v", place, !want)
		}
	}
}
