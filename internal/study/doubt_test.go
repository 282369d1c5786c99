package study

import (
	"fmt"
	"io/fs"
	"math"
	"testing"

	"jounce/examples"
	"jounce/internal/catalog"
	"jounce/internal/job"
	"jounce/num/doubt"
)

// TestAgreesMonteCarlo draws every calculation of every example and of the
// variants at random and
// holds the spread against the ± that the page shows. 4,000 draws know a 95 %
// half-width to about 3 %; a bend of the calculation within the doubt may add a
// little: 8 % and a hair are allowed.
func TestAgreesMonteCarlo(t *testing.T) {
	names, _ := fs.Glob(examples.Files, "*.json")
	seen, known := 0, map[string]bool{}
	for n := range len(names) + len(variants) {
		name, changes := "0412-quill-saloon.json", []string(nil)
		if n < len(names) {
			name = names[n]
		} else {
			changes = variants[n-len(names)]
		}
		data, _ := examples.Files.ReadFile(name)
		rec, err := job.Decode(data)
		if err != nil {
			t.Fatal(err)
		}
		for i := 0; i < len(changes); i += 2 {
			if err := rec.Set(changes[i], changes[i+1], false); err != nil {
				t.Fatal(err)
			}
		}
		v := newView(rec, catalog.NewShop("Thornhythe Coachworks"))
		v.watch = func(f doubt.Func, in []doubt.Input, r doubt.Result) {
			key := fmt.Sprint(in, r.Value)
			if r.Half == 0 || known[key] {
				return
			}
			known[key] = true
			s, err := doubt.MonteCarlo(f, in, 4000, uint64(1+seen))
			if err != nil {
				t.Errorf("%s %v, calculation %d: %v", name, changes, seen, err)
				return
			}
			seen++
			if math.Abs(s.Half-r.Half) > 0.08*r.Half {
				t.Errorf("%s %v, calculation %d of %d inputs: linear ± %g, drawn ± %g", name, changes, seen, len(in), r.Half, s.Half)
			}
		}
		v.run()
	}
	if seen < 200 {
		t.Errorf("only %d calculations were seen", seen)
	}
}

func BenchmarkStudy(b *testing.B) {
	data, _ := examples.Files.ReadFile("0412-quill-saloon.json")
	rec, err := job.Decode(data)
	if err != nil {
		b.Fatal(err)
	}
	shop := catalog.NewShop("Thornhythe Coachworks")
	for b.Loop() {
		if r := Of(rec, shop); r.Tally[3] == 0 {
			b.Fatal("nothing passes")
		}
	}
}

func TestScenario6FrontAndRearExchanged(t *testing.T) {
	data, _ := examples.Files.ReadFile("0412-quill-saloon.json")
	before, err := job.Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	now := before.Clone()
	for c, w := range map[string]string{"FL": "234 kg", "FR": "234 kg", "RL": "276 kg", "RR": "276 kg"} {
		if err := now.Set("corners."+c+".weight", w, false); err != nil {
			t.Fatal(err)
		}
	}
	p := Exchanged(before, now)
	if len(p) != 1 || !contains(p[0].Says, "front and rear look exchanged") {
		t.Errorf("%v", p)
	}
	if p := Exchanged(before, before.Clone()); p != nil {
		t.Errorf("nothing changed, yet: %v", p)
	}
	out, in := before.Clone(), before.Clone()
	out.Survey.Driver, in.Survey.Driver = "out", "in"
	for path, w := range map[string]string{"corners.FL.weight": "256 kg", "corners.FR.weight": "256 kg", "corners.RL.weight": "214 kg", "corners.RR.weight": "214 kg"} {
		_ = out.Set(path, w, false)
	}
	for path, w := range map[string]string{"corners.FL.weight": "286 kg", "corners.FR.weight": "262 kg", "corners.RL.weight": "240 kg", "corners.RR.weight": "232 kg"} {
		_ = in.Set(path, w, false)
	}
	if p := Exchanged(out, in); len(p) != 1 || !contains(p[0].Says, "driver's side went lighter") {
		t.Errorf("driver on the right, left side heavier: %v", p)
	}
}

func contains(s, part string) bool {
	for i := 0; i+len(part) <= len(s); i++ {
		if s[i:i+len(part)] == part {
			return true
		}
	}
	return false
}
