package form

import (
	"net/url"
	"testing"

	"jounce/internal/job"
)

func record(t testing.TB) *job.Job {
	j := &job.Job{Schema: 1, ID: "0412"}
	for path, text := range map[string]string{"name": "Quill saloon", "survey.sill": "138 mm ± 2 mm", "survey.roof": "knee high", "car.form": "saloon",
		"instruments[i1].name": "Tape 3", "instruments[i1].measures": "length", "springs[s1].points[p2].load": "2795 N", "wishes[w1].words": "low,\nlower"} {
		if err := j.Set(path, text, true); err != nil {
			t.Fatal(err)
		}
	}
	j.Survey.Sill.With, j.Survey.Sill.By = "i1", "H. Orme"
	return j
}

// posted is the form of a page that shows every place, as a browser sends it.
func posted(j *job.Job) url.Values {
	v := url.Values{Base: {"3"}}
	for _, f := range j.Fields() {
		v.Set(f.Path, f.Content())
		if f.Reading != nil {
			v.Set(f.Path+":with", f.Reading.With)
		}
	}
	return v
}

func TestConservesWhatNobodyTouched(t *testing.T) {
	j := record(t)
	if c := Read(posted(j)).Changes(j); len(c) != 0 {
		t.Errorf("a form sent back as it was changes %+v", c)
	}
	v := posted(j)
	v.Set("survey.roof", "1345")
	c := Read(v).Changes(j)
	if len(c) != 1 || c[0].Path != "survey.roof" || c[0].Before != "knee high" {
		t.Fatalf("one box was typed in, the changes are %+v", c)
	}
	k := j.Clone()
	if err := Apply(k, c, Signature{"T. Marrow", "2026-03-14T10:42:00Z"}); err != nil {
		t.Fatal(err)
	}
	if k.Survey.Sill != j.Survey.Sill || k.Survey.Roof.Value != "1345 mm" || k.Survey.Roof.By != "T. Marrow" {
		t.Errorf("sill %+v, roof %+v", k.Survey.Sill, k.Survey.Roof)
	}
}

func TestAnAnswerStandsForWhatWasTyped(t *testing.T) {
	j := record(t)
	r := Read(url.Values{"survey.sill": {"13.8"}, Answer: {"survey.sill=13.8 cm"}, Open: {"survey.roof"}})
	if c := r.Changes(j); len(c) != 1 || c[0].Text != "13.8 cm" || !r.Open["survey.roof"] {
		t.Errorf("changes %+v, open %v", c, r.Open)
	}
}

func TestNewItemsTakeFreeIDs(t *testing.T) {
	j := record(t)
	for list, want := range map[string]string{"springs": "springs[s2]", "springs[s1].points": "springs[s1].points[p3]", "axles.front.limiters": "axles.front.limiters[l1]"} {
		if got, err := Append(j, list); err != nil || got != want {
			t.Errorf("Append(%s) = %s, %v, want %s", list, got, err, want)
		}
	}
	if _, err := Append(j, "survey"); err == nil {
		t.Error("survey is no list, and took an item")
	}
}

func TestLabels(t *testing.T) {
	for path, want := range map[string]string{"survey.trackFront": "Track, front", "springs[s1].points[p1].load": "Load", "axles.front.tyreLeft": "Tyre, left, as written on it", "no.such": "no.such"} {
		if got := Label(path); got != want {
			t.Errorf("Label(%s) = %q, want %q", path, got, want)
		}
	}
}

// FuzzRead: whatever a form brings, reading it, comparing it and applying it
// neither stops the program nor changes a place that it does not name.
func FuzzRead(f *testing.F) {
	f.Add("survey.sill=13.8&:answer=survey.sill%3D13.8+cm&:base=3")
	f.Add("springs[].x=1&:with=2&[=&.=&id=9&schema=2")
	f.Fuzz(func(t *testing.T, body string) {
		v, err := url.ParseQuery(body)
		if err != nil {
			return
		}
		j := record(t)
		k := j.Clone()
		typed := Read(v)
		_ = Apply(k, typed.Changes(j), Signature{"X", "2026-03-14T10:42:00Z"}) // a place that is not there is an error
		if _, named := typed.Texts["survey.sill"]; !named && typed.NotRead != "survey.sill" && typed.With["survey.sill"] == "" && k.Survey.Sill != j.Survey.Sill {
			if _, w := typed.With["survey.sill"]; !w {
				t.Errorf("%q changed the sill to %+v", body, k.Survey.Sill)
			}
		}
		if k.ID != j.ID {
			t.Errorf("%q changed the job's number to %q", body, k.ID)
		}
	})
}

func TestPictureOfATouchPointIsOneOfTheJobs(t *testing.T) {
	rec := &job.Job{ID: "0412", Touch: []job.Touch{{ID: "t1", Photo: "h2"}}}
	v := NewView(rec, nil)
	if f := v.Field("touch[t1].photo"); len(f.Options) != 1 || f.Shown() != "h2" {
		t.Errorf("without pictures what stands there is kept: %+v", f.Options)
	}
	rec.Photos = []job.Photo{{ID: "h1", Name: "In the yard"}, {ID: "h2"}}
	f := v.Field("touch[t1].photo")
	if len(f.Options) != 2 || f.Options[0].Label != "In the yard" || f.Shown() != "picture h2" {
		t.Errorf("the pictures to choose from: %+v", f.Options)
	}
	rec.Photos, rec.Touch[0].Photo = nil, ""
	if f := v.Field("touch[t1].photo"); f.Options != nil {
		t.Errorf("nothing to choose from, yet %+v", f.Options)
	}
}
