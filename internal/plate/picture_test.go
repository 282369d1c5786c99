package plate

import (
	"image/color"
	"math"
	"strings"
	"testing"

	"jounce/internal/catalog"
	"jounce/internal/demo"
	"jounce/internal/job"
	"jounce/internal/photo"
	"jounce/internal/study"
)

// saloon is the demo car with its invented picture.
func saloon(t *testing.T) (*job.Job, *study.Result, Picture, []byte) {
	t.Helper()
	jobs, err := demo.Jobs()
	if err != nil {
		t.Fatal(err)
	}
	for _, rec := range jobs {
		pics, err := demo.Hang(rec)
		if err != nil {
			t.Fatal(err)
		}
		if len(pics) > 0 {
			r := study.Of(rec, catalog.NewShop("x"))
			return rec, r, PictureOf(rec, r, rec.Photos[0], photo.SampleWidth, photo.SampleHeight), pics[0].JPEG
		}
	}
	t.Fatal("no demo job has a picture")
	return nil, nil, Picture{}, nil
}

// TestAgreesSample holds the scale that the record gives against that of the
// painter of the sample.
func TestAgreesSample(t *testing.T) {
	_, _, p, _ := saloon(t)
	want, err := photo.ScaleOf(photo.SampleMarks())
	if err != nil || !p.Scaled || p.Gap() != "" {
		t.Fatalf("%v, %q", err, p.Gap())
	}
	// The record's loaded radius is worked out from the tyre's marking, which is
	// rounded to 0.1 mm in the sample: 0.0001 of some 300 mm.
	if math.Abs(p.Scale.PixelsPerMetre/want.PixelsPerMetre-1) > 1e-4 {
		t.Errorf("%v px/m, the painter had %v", p.Scale.PixelsPerMetre, want.PixelsPerMetre)
	}
}

// TestExactMoved finds the roof of the sample where the preset puts it: the first
// row of the body over the middle of the car, by colour.
func TestExactMoved(t *testing.T) {
	rec, r, p, file := saloon(t)
	roof := func(preset int) float64 {
		out, err := p.At(rec, r, file, preset)
		if err != nil {
			t.Fatal(err)
		}
		at := p.Scale.Pixel(photo.Spot{X: 1.45, Z: 0})
		x := int(at.X)
		for y := range out.Image.Rect.Dy() {
			c := out.Image.RGBAAt(x, y)
			if teal(c) && teal(out.Image.RGBAAt(x, y+2)) {
				return (at.Y - float64(y)) / p.Scale.PixelsPerMetre
			}
		}
		t.Fatal("no roof")
		return 0
	}
	road := roof(1)
	for preset, want := range map[int]float64{0: -0.060, 2: 0.020, 3: 0.045} {
		// One row of pixels at either end.
		if got := roof(preset) - road; math.Abs(got-want) > 2/p.Scale.PixelsPerMetre {
			t.Errorf("%s: the roof lies %.1f mm from ROAD, want %.1f", study.PresetNames[preset], 1000*got, 1000*want)
		}
	}
}

// teal is the paint of the sample's car.
func teal(c color.RGBA) bool { return int(c.B) > int(c.R)+25 && int(c.G) > int(c.R)+25 && c.R < 110 }

// TestExactOvers finds what was typed at its place on the car, turned back from
// pixels.
func TestExactOvers(t *testing.T) {
	_, r, p, _ := saloon(t)
	seen := map[string]bool{}
	for _, o := range p.Overs(r) {
		seen[o.Key] = true
		top := math.Inf(-1)
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, at := range o.Line {
			s := p.Scale.Spot(at)
			top, lo, hi = math.Max(top, s.Z), math.Min(lo, s.X), math.Max(hi, s.X)
		}
		switch o.Key {
		case "floor":
			if math.Abs(top) > 1e-9 {
				t.Errorf("the floor lies at %v m", top)
			}
		case "hump":
			if math.Abs(top-0.100) > 1e-9 || math.Abs(hi-lo-0.900) > 1e-9 || math.Abs((hi+lo)/2-1.27) > 1e-9 {
				t.Errorf("the hump is %v m high, from %v to %v", top, lo, hi)
			}
		case "ramp":
			if math.Abs(top-0.365) > 1e-9 || hi >= 0 {
				t.Errorf("the driveway rises to %v m from %v", top, hi)
			}
		}
	}
	if !seen["floor"] || !seen["hump"] || !seen["ramp"] || seen["kerb"] {
		t.Errorf("over the picture: %v; the record types a hump and a driveway, and no kerb", seen)
	}
}

// TestPictureGaps: what keeps a picture from being redrawn is said, the first
// thing first.
func TestPictureGaps(t *testing.T) {
	rec, r, p, file := saloon(t)
	for _, c := range []struct {
		change func(ph *job.Photo)
		says   string
	}{
		{func(ph *job.Photo) { ph.FrontHub = "" }, "front wheel is missing"},
		{func(ph *job.Photo) { ph.FrontHub = "387" }, "Two numbers were expected"},
		{func(ph *job.Photo) { ph.FrontHub = "NaN, 5" }, "Two numbers were expected"},
		{func(ph *job.Photo) { ph.RearHub = "1e9, 5" }, "lies outside"},
		{func(ph *job.Photo) { ph.FrontHub, ph.RearHub = ph.RearHub, ph.FrontHub }, "Exchange the marks"},
		{func(ph *job.Photo) { ph.View = "right side" }, "the right side, where the front of the car is on the right"},
		{func(ph *job.Photo) { ph.Stands = "" }, "The car stands at"},
	} {
		ph := p.Photo
		c.change(&ph)
		q := PictureOf(rec, r, ph, p.W, p.H)
		if !strings.Contains(q.Gap(), c.says) {
			t.Errorf("%q, want %q", q.Gap(), c.says)
		}
		if _, err := q.At(rec, r, file, 0); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("redrawn: %v, want %q", err, c.says)
		}
	}
}
