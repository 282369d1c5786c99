package photo

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"image"
	"math"
	"os"
	"sync"
	"testing"
)

var update = flag.Bool("update", false, "write the sample's file anew; look at the picture first")

var sample = sync.OnceValue(Sample)

// TestPinnedSample: the committed photograph is the one that Sample paints. It
// allows for the last bit of floating point on other machines.
func TestPinnedSample(t *testing.T) {
	const name = "testdata/saloon.jpg"
	b, err := Write(sample())
	if err != nil {
		t.Fatal(err)
	}
	if len(b) > 120_000 {
		t.Errorf("the sample has %d bytes, over 120 kB", len(b))
	}
	if *update {
		if err := os.WriteFile(name, b, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	kept, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	was, err := Open(kept)
	if err != nil {
		t.Fatal(err)
	}
	now, err := Open(b)
	if err != nil || now.Rect != was.Rect {
		t.Fatal(err, now.Rect, was.Rect)
	}
	sum := 0.0
	for i := range now.Pix {
		sum += math.Abs(float64(now.Pix[i]) - float64(was.Pix[i]))
	}
	if mean := sum / float64(len(now.Pix)); mean > 0.05 {
		t.Errorf("the sample differs from %s by %.3f grey levels in the mean: look at it, then run with -update", name, mean)
	}
}

// TestSampleTaken: the committed photograph passes the guard as it is.
func TestSampleTaken(t *testing.T) {
	b, err := os.ReadFile("testdata/saloon.jpg")
	if err != nil {
		t.Fatal(err)
	}
	p, err := Take(context.Background(), "saloon.jpg", bytes.NewReader(b), Limit{})
	if err != nil || p.Width != SampleWidth || p.Height != SampleHeight {
		t.Error(err, p.Width, p.Height)
	}
}

// TestSampleScale: four points that agree, and the measures of the outline.
func TestSampleScale(t *testing.T) {
	s, err := ScaleOf(SampleMarks())
	if err != nil {
		t.Fatal(err)
	}
	// The marks are rounded to a tenth of a pixel: 762 px of wheelbase, 84 of height.
	if math.Abs(s.PixelsPerMetre-sampleScale) > 0.1 || math.Abs(s.Misfit) > 0.003 || len(s.Notes) != 0 || s.FacesRight {
		t.Errorf("%+v", s)
	}
	h := SampleShape()
	if err := h.check(s); err != nil {
		t.Fatal(err)
	}
	x0, x1 := h.span()
	roof := 0.0
	for _, p := range h.Top {
		roof = math.Max(roof, p.Z)
	}
	for _, v := range [][3]float64{{x0, -0.690, 1e-9}, {x1, SampleWheelbase + 0.900, 1e-9}, {line(h.Bottom).at(1.2), 0.138, 1e-9},
		{line(h.Bottom).at(0), SampleHubHeight + SampleArch, 1e-9}, {roof, 1.340, 0.003}} {
		if math.Abs(v[0]-v[1]) > v[2] {
			t.Errorf("%.4f, want %.4f", v[0], v[1])
		}
	}
}

// TestSampleMoves finds the same pieces of the body n px further in the redrawn
// sample, by looking for the best match over 40 rows, and the wheels where they were.
func TestSampleMoves(t *testing.T) {
	src := sample()
	s, err := ScaleOf(SampleMarks())
	if err != nil {
		t.Fatal(err)
	}
	for _, move := range []float64{-0.060, 0.045, 0.020} {
		r, err := Redraw(src, s, SampleShape(), Change{move, move})
		if err != nil {
			t.Fatal(err)
		}
		want := -move * s.PixelsPerMetre
		for name, at := range map[string]Spot{"lamp": {-0.60, 0.60}, "mirror": {0.82, 0.94}, "handle": {1.52, 0.80}, "flap": {2.80, 0.74}, "tail lamp": {3.40, 0.64}} {
			if got := shift(src, r.Image, s.Pixel(at), 12, 20); math.Abs(float64(got)-want) > 1 {
				t.Errorf("%.0f mm: the %s moved by %d px, want %.1f", move*1000, name, got, want)
			}
		}
		for name, at := range map[string]Spot{"front cap": {0, SampleHubHeight}, "rear slots": {SampleWheelbase + 0.1, 0.2}, "front contact": {0, 0.01}, "gate": s.Spot(Point{1135, 230})} {
			if got := shift(src, r.Image, s.Pixel(at), 12, 20); got != 0 {
				t.Errorf("%.0f mm: the %s moved by %d px", move*1000, name, got)
			}
		}
	}
}

// shift is how many rows further down the piece round p is found best.
func shift(a, b *image.RGBA, p Point, half, reach int) int {
	best, least := 0, math.Inf(1)
	for n := -reach; n <= reach; n++ {
		sum := 0.0
		for y := -half; y <= half; y++ {
			for x := -half; x <= half; x++ {
				q, r := a.RGBAAt(int(p.X)+x, int(p.Y)+y), b.RGBAAt(int(p.X)+x, int(p.Y)+y+n)
				for _, d := range []int{int(q.R) - int(r.R), int(q.G) - int(r.G), int(q.B) - int(r.B)} {
					sum += float64(d * d)
				}
			}
		}
		if sum < least {
			best, least = n, sum
		}
	}
	return best
}

func ExampleRedraw() {
	scale, err := ScaleOf(SampleMarks())
	if err != nil {
		fmt.Println(err)
		return
	}
	down, err := Redraw(sample(), scale, SampleShape(), Change{Front: -0.060, Rear: -0.060})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f mm in each pixel, %d × %d\n", scale.MMPerPixel, down.Image.Rect.Dx(), down.Image.Rect.Dy())
	for _, u := range down.Unseen {
		fmt.Println(u.Text)
	}
	// Output:
	// 3.33 mm in each pixel, 1600 × 1000
	// Seen from 7.5 m at a height of 1.5 m, with the roof's edge 250 mm further away than the tyres: the roof stands up to 5 mm elsewhere than the scale says, and would seem to move by 2 mm less than is drawn.
	// What the body uncovers is stretched from beside it, up to 60 mm. Shadows and the wheels of the other side stay; what is seen through the glass goes along.
}
