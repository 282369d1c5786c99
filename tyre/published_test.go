package tyre

import (
	"testing"

	"jounce/internal/evidence"
)

func mustParse(t testing.TB, text string) Size {
	t.Helper()
	s, err := Parse(text, DefaultSettings())
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return s
}

func dims(t testing.TB, text string) Dimensions {
	t.Helper()
	return mustParse(t, text).Dimensions(DefaultSettings(), Measured{})
}

func TestPublishedSizes(t *testing.T) {
	book := evidence.Open(t)
	for _, r := range book.Rows("T2") {
		d := dims(t, r.Text("size"))
		if r.What == "section height" {
			book.Check(r, d.SectionHeight*1000)
		} else {
			book.Check(r, d.Diameter*1000)
		}
	}
	for _, r := range book.Rows("T4") {
		d := dims(t, r.Text("size"))
		switch r.ID {
		case "TY-03c":
			book.Check(r, d.Size.Width/inch)
		case "TY-03d":
			book.Check(r, d.Size.Aspect*100)
		default:
			book.Check(r, d.Diameter/inch)
		}
	}
	wheel := Wheel{Width: 7 * inch, Offset: 0.045}.Change(Wheel{Width: 8 * inch, Offset: 0.045})
	book.Check(book.Row("T11", "TY-07"), -wheel.InnerEdge*1000)
}

func TestPublishedLoadAndSpeed(t *testing.T) {
	book := evidence.Open(t)
	for _, r := range book.Rows("T7") {
		kg, ok := LoadOf(int(r.Num("index")))
		if !ok {
			t.Errorf("%s: no load", r.ID)
		}
		book.Check(r, kg)
	}
	for _, r := range book.Rows("T8") {
		v, _ := SpeedOf(r.Text("symbol"))
		book.Check(r, v*3.6)
	}
	for _, r := range book.Rows("T9") {
		share, ok := SpeedLoadShare(r.Text("symbol"), r.Num("kmh")/3.6)
		if !ok {
			t.Errorf("%s: no share", r.ID)
		}
		book.Check(r, share*100)
	}
}

func TestPublishedRecomputed(t *testing.T) {
	book := evidence.Open(t)
	was, now := Wheel{Width: 7.5 * inch, Offset: 0.038}, Wheel{Width: 8 * inch, Offset: 0.025}
	change := was.Change(now)
	for _, r := range book.Rows("CALC") {
		var d Dimensions
		if r.Has("size") {
			set := DefaultSettings()
			if r.Text("ask") == "d80" {
				set.FullSectionAspect = 0.80
			}
			s, err := Parse(r.Text("size"), set)
			if err != nil {
				t.Fatal(err)
			}
			d = s.Dimensions(set, Measured{LoadedRadius: 0.295})
		}
		switch r.Text("ask") {
		case "h":
			book.Check(r, d.SectionHeight*1000)
		case "d", "d80", "d82":
			book.Check(r, d.Diameter*1000)
		case "i":
			book.Check(r, d.Diameter/inch)
		case "c":
			book.Check(r, d.Circumference*1000)
		case "roll":
			book.Check(r, 1.854/d.Circumference)
		case "load":
			book.Check(r, d.LoadedRadius/d.FreeRadius)
		case "in":
			book.Check(r, change.InnerEdge*1000)
		case "out":
			book.Check(r, change.OuterEdge*1000)
		case "mid":
			book.Check(r, change.CentreLine*1000)
		case "track":
			book.Check(r, change.Track*1000)
		}
	}
}
