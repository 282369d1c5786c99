package job

import (
	"errors"
	"strings"
	"testing"
)

func TestExactPointsFromText(t *testing.T) {
	for name, text := range map[string]string{
		"comma":     "load N, pressure bar, height mm\n1705, 2, 70\n2555, 3, 70\n",
		"semicolon": "Height (mm);Pressure (bar);Load (N)\r\n70;2,0;1705\r\n70;3,0;2555,0\r\n",
		"tab":       "part no\tpressure bar\tload N\theight mm\nA\t2\t1705\t70\nA\t3\t2555\t70\n",
		"own units": "load,pressure,height\n1.705 kN,2 bar,70 mm\n2.555 kN,3 bar,7 cm\n",
		"inches":    "load N,pressure bar,height in\n1705,2,2.756\n2555,3,2.756\n",
	} {
		got, err := ReadPoints(text)
		if err != nil || len(got.Refused) > 0 || len(got.Points) != 2 {
			t.Errorf("%s: %v, refused %v, %d points", name, err, got.Refused, len(got.Points))
			continue
		}
		rec := &Job{Schema: Schema, ID: "1", Springs: []Spring{{ID: "s1", Points: got.Points}}}
		if p := rec.Check(); len(p) > 0 {
			t.Errorf("%s: the record asks %v", name, p)
		}
		if got.Points[0].ID != "p1" || got.Points[1].ID != "p2" {
			t.Errorf("%s: ids %s, %s", name, got.Points[0].ID, got.Points[1].ID)
		}
	}
}

func TestExactCommaDecimals(t *testing.T) {
	got, err := ReadPoints("load N;pressure bar;height mm\n1705;2,5;70,5\n")
	if err != nil || len(got.Points) != 1 {
		t.Fatal(err, got)
	}
	if p := got.Points[0]; p.Pressure.Value != "2.5 bar" || p.Height.Value != "70.5 mm" || p.Load.Value != "1705 N" {
		t.Errorf("read %+v", p)
	}
}

func TestEveryRefusedRowHasItsLine(t *testing.T) {
	text := strings.Join([]string{
		"load N, pressure bar, height mm", // 1
		"1705, 2, 70",                     // 2
		"",                                // 3
		", 3, 70",                         // 4 no load
		"abc, 3, 70",                      // 5
		"1705, 2, 70",                     // 6 twice
		"1705, 200, 70",                   // 7 out of range
		"1705, 2",                         // 8 no height
		`"1705, 2, 70`,                    // 9 quotation mark
		"2555, 3, 70",                     // 10
	}, "\n")
	got, err := ReadPoints(text)
	if err != nil {
		t.Fatal(err)
	}
	var lines []int
	for _, r := range got.Refused {
		lines = append(lines, r.Line)
		if r.Says == "" {
			t.Errorf("line %d is refused without a word", r.Line)
		}
	}
	want := []int{4, 5, 6, 7, 8, 9}
	if len(lines) != len(want) {
		t.Fatalf("refused lines %v, expected %v: %v", lines, want, got.Refused)
	}
	for i := range want {
		if lines[i] != want[i] {
			t.Errorf("refused lines %v, expected %v", lines, want)
		}
	}
	if len(got.Points) != 2 {
		t.Errorf("%d points, expected 2", len(got.Points))
	}
}

func TestThousandsAreNotGuessed(t *testing.T) {
	got, err := ReadPoints("load N\tpressure bar\theight mm\n1,705\t2\t70\n")
	if err != nil || len(got.Points) != 0 || len(got.Refused) != 1 || !strings.Contains(got.Refused[0].Says, "two ways") {
		t.Errorf("%v %+v", err, got)
	}
}

func TestHeaderThatCannotBeUsed(t *testing.T) {
	for _, text := range []string{"", "\n\n", "1705, 2, 70", "load N, pressure bar", "load bar, pressure bar, height mm", "load N, load N, pressure bar, height mm", strings.Repeat("\n", MostRows+1)} {
		_, err := ReadPoints(text)
		var f *TableFault
		if !errors.As(err, &f) || f.Says == "" || f.Line < 1 {
			t.Errorf("%.20q: %v", text, err)
		}
	}
	got, err := ReadPoints("load,pressure bar,height mm\n1705,2,70")
	if err != nil || len(got.Refused) != 1 || !strings.Contains(got.Refused[0].Says, "no unit") {
		t.Errorf("a load without a unit: %v %+v", err, got)
	}
}

func FuzzReadPoints(f *testing.F) {
	f.Add("load N, pressure bar, height mm\n1705, 2, 70\n")
	f.Add("Height (mm);Pressure (bar);Load (N)\r\n70;2,0;1.705,5\r\n")
	f.Add("load N\tpressure bar\theight mm\n\"1,705\t2\t70\n")
	f.Fuzz(func(t *testing.T, text string) {
		got, err := ReadPoints(text)
		if err != nil {
			if len(got.Points) > 0 {
				t.Error("points beside an error")
			}
			return
		}
		rec := &Job{Schema: Schema, ID: "1", Springs: []Spring{{ID: "s1", Points: got.Points}}}
		for _, p := range rec.Check() {
			if strings.Contains(p.Path, "points") {
				t.Errorf("taken, and the record asks: %v", p)
			}
		}
		for i, r := range got.Refused {
			if r.Says == "" || i > 0 && r.Line <= got.Refused[i-1].Line {
				t.Errorf("refused %+v", r)
			}
		}
	})
}
