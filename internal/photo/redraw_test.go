package photo

import (
	"errors"
	"image"
	"image/color"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// drawn is a picture of a car whose colours say where they come from: blue tells
// what it is, red and green tell the place along and up on the car.
type drawn struct {
	scale Scale
	shape Shape
	img   *image.RGBA
}

// What a pixel is, by its blue.
const (
	isTyre  = 0
	isGap   = 40
	isFloor = 80
	isBack  = 160
	isBody  = 240
)

// drawing paints a car of 2.5 m wheelbase at k pixels to the metre, tilted, facing
// either way, with arches of the radius.
func drawing(t testing.TB, k, tilt float64, right bool, arch float64) drawn {
	t.Helper()
	const l, hub, tyre = 2.5, 0.28, 0.3
	w, h := 1280*k/250, 640*k/250
	side := 1.0
	front := Point{0.26 * w, 0.75 * h}
	if right {
		side = -1
		front.X = w - front.X
	}
	front.X, front.Y = math.Round(front.X), math.Round(front.Y)
	sin, cos := math.Sincos(tilt)
	s, err := ScaleOf(Marks{FrontHub: &front, RearHub: at(front.X+side*k*l*cos, front.Y+side*k*l*sin), Wheelbase: l, FrontHeight: hub, RearHeight: hub})
	if err != nil {
		t.Fatal(err)
	}
	d := drawn{scale: s, shape: Shape{TyreFront: tyre, TyreRear: tyre}}
	d.shape.Top = []Spot{{-0.7, 0.6}, {-0.6, 0.7}, {0.5, 0.8}, {1, 1.3}, {1.9, 1.3}, {2.4, 0.85}, {3.3, 0.8}, {3.4, 0.6}}
	d.shape.Bottom = []Spot{{-0.7, 0.4}, {-0.5, 0.2}}
	for _, x := range []float64{0, l} {
		for i := range 181 {
			sin, cos := math.Sincos(float64(i) * math.Pi / 180)
			if z := hub + arch*sin; i > 0 && i < 180 {
				d.shape.Bottom = append(d.shape.Bottom, Spot{x - arch*cos, z})
			} else {
				d.shape.Bottom = append(d.shape.Bottom, Spot{x - arch*cos, 0.2})
			}
		}
	}
	d.shape.Bottom = append(d.shape.Bottom, Spot{3.3, 0.25}, Spot{3.4, 0.4})
	d.img = image.NewRGBA(image.Rect(0, 0, int(w), int(h)))
	for y := range d.img.Rect.Dy() {
		for x := range d.img.Rect.Dx() {
			d.img.SetRGBA(x, y, d.colour(s.Spot(Point{float64(x) + 0.5, float64(y) + 0.5})))
		}
	}
	return d
}

// up is the green of a height: linear, 200 to the 1.5 m.
func up(z float64) float64 { return 20 + z*130 }

func (d drawn) colour(p Spot) color.RGBA {
	c := color.RGBA{uint8(60 + 40*p.X + 0.5), uint8(math.Min(math.Max(up(p.Z), 0), 255) + 0.5), isBack, 255}
	x0, x1 := d.shape.span()
	switch {
	case p.Z < 0:
		c.B = isFloor
		c.R = uint8(int(p.X*37+100) & 255)
	case p.X >= x0 && p.X <= x1 && p.Z >= line(d.shape.Bottom).at(p.X) && p.Z <= line(d.shape.Top).at(p.X):
		c.B = isBody
	case d.tyre(p) < 0:
		c.B = isTyre
	case math.Min(math.Hypot(p.X, p.Z-0.28), math.Hypot(p.X-2.5, p.Z-0.28)) < 0.42 && p.Z > 0.1:
		c.B = isGap
	}
	return c
}

// tyre is how far outside the nearest tyre a spot lies [m].
func (d drawn) tyre(p Spot) float64 {
	return math.Min(math.Hypot(p.X, p.Z-0.28), math.Hypot(p.X-2.5, p.Z-0.28)) - 0.3
}

// what is the colour expected of a spot, and whether it lies clear of any edge
// by the margin [m].
func (d drawn) clear(p Spot, margin float64) bool {
	want := d.colour(p).B
	for _, a := range []Spot{{margin, 0}, {-margin, 0}, {0, margin}, {0, -margin}, {margin, margin}, {-margin, margin}, {margin, -margin}, {-margin, -margin}} {
		if d.colour(Spot{p.X + a.X, p.Z + a.Z}).B != want {
			return false
		}
	}
	return true
}

func redraw(t testing.TB, d drawn, c Change) *image.RGBA {
	t.Helper()
	r, err := Redraw(d.img, d.scale, d.shape, c)
	if err != nil {
		t.Fatal(err)
	}
	return r.Image
}

// TestExactNoChange: no movement is the same picture.
func TestExactNoChange(t *testing.T) {
	for _, d := range []drawn{drawing(t, 250, 0, false, 0.36), drawing(t, 250, 0.07, true, 0.36)} {
		if got := redraw(t, d, Change{}); !sameRows(got, d.img) || &got.Pix[0] == &d.img.Pix[0] {
			t.Error("the picture has changed")
		}
	}
}

func sameRows(a, b *image.RGBA) bool {
	return a.Rect == b.Rect && string(a.Pix) == string(b.Pix)
}

// TestExactWholePixels: at 250 px/m 12 px are 48 mm. Every pixel of the body is
// found 12 rows further, untouched; the tyres that the body does not cover and
// the floor are where they were.
func TestExactWholePixels(t *testing.T) {
	d := drawing(t, 250, 0, false, 0.36)
	for _, n := range []int{12, -12, 5, -25, -3} {
		move := float64(n) / 250
		got := redraw(t, d, Change{move, move})
		body, rest := 0, 0
		for y := range d.img.Rect.Dy() {
			for x := range d.img.Rect.Dx() {
				p := d.scale.Spot(Point{float64(x) + 0.5, float64(y) + 0.5})
				was := d.img.RGBAAt(x, y)
				if was.B == isBody && d.clear(p, 2/250.0) && y-n >= 0 {
					body++
					if now := got.RGBAAt(x, y-n); now != was && p.Z+move > 0.005 {
						t.Fatalf("%d px: body at %v is %v and was %v", n, p, now, was)
					}
				}
				covered := line(d.shape.Bottom).at(p.X)+move-2/250.0 < p.Z
				if was.B == isFloor || was.B == isTyre && !covered {
					rest++
					if now := got.RGBAAt(x, y); now != was {
						t.Fatalf("%d px: at %v it is %v and was %v", n, p, now, was)
					}
				}
			}
		}
		if body < 100_000 || rest < 100_000 {
			t.Fatalf("only %d and %d pixels looked at", body, rest)
		}
	}
}

// TestExactAnywhere: tilted, mirrored, pitching and by parts of a pixel, each
// pixel of the new picture is what stands there: the body at z − d, told by
// its linear green; tyres and floor as they were; the background and the inside of
// the arches where nothing else is. So nothing tears open and nothing is lost.
func TestExactAnywhere(t *testing.T) {
	for _, c := range []struct {
		tilt  float64
		right bool
		move  Change
	}{
		{0.05, false, Change{-0.06, -0.06}}, {-0.06, true, Change{0.045, 0.045}}, {0, false, Change{-0.0613, -0.02}},
		{0.04, true, Change{0.02, -0.055}}, {0, true, Change{0.1, 0.1}}, {0, false, Change{-0.15, -0.15}},
	} {
		d := drawing(t, 250, c.tilt, c.right, 0.36)
		got := redraw(t, d, c.move)
		seen := map[uint8]int{}
		for y := range got.Rect.Dy() {
			for x := range got.Rect.Dx() {
				p := d.scale.Spot(Point{float64(x) + 0.5, float64(y) + 0.5})
				want, ok := d.expected(p, c.move)
				if !ok {
					continue
				}
				seen[want]++
				now := got.RGBAAt(x, y)
				if now.B != want {
					t.Fatalf("%+v: at %v it is %d, want %d", c, p, now.B, want)
				}
				// Green is rounded in the old picture and in the new one, and the sampling
				// counts in 1/256 px: one step.
				if g := up(p.Z - c.move.At(p.X, 2.5)); want == isBody && math.Abs(float64(now.G)-g) > 1.1 {
					t.Fatalf("%+v: the body at %v has green %d, want %.1f", c, p, now.G, g)
				}
			}
		}
		for _, what := range []uint8{isBody, isTyre, isFloor, isBack} {
			if seen[what] < 5000 {
				t.Errorf("%+v: only %d pixels of %d looked at", c, seen[what], what)
			}
		}
		if c.move.Front > 0 && seen[isGap] < 1000 {
			t.Errorf("%+v: only %d pixels of the arches' inside", c, seen[isGap])
		}
	}
}

// expected is what a spot shows after the movement; not ok within a pixel and a
// half of an edge and where the test does not say what is right, which is before,
// behind and beneath the body.
func (d drawn) expected(p Spot, c Change) (uint8, bool) {
	const edge = 1.5 / 250
	x0, x1 := d.shape.span()
	if p.Z < -edge {
		return isFloor, true
	}
	if p.X < x0+edge || p.X > x1-edge || p.Z < edge {
		return isBack, p.Z > 0.4+edge && (p.X < x0-fade-edge || p.X > x1+fade+edge)
	}
	move := c.At(p.X, 2.5)
	top, least, most := line(d.shape.Top).at(p.X)+move, math.Inf(1), math.Inf(-1)
	for _, dx := range []float64{-edge, -edge / 2, 0, edge / 2, edge} {
		z := line(d.shape.Bottom).at(p.X+dx) + move
		least, most = math.Min(least, z), math.Max(most, z)
	}
	near := math.Min(math.Abs(p.X), math.Abs(p.X-2.5))
	switch {
	case p.Z > top+3*edge:
		return isBack, true
	case p.Z > top-3*edge:
		return 0, false
	case p.Z > most+edge:
		return isBody, true
	case p.Z > least-edge:
		return 0, false
	case d.tyre(p) < -edge:
		return isTyre, true
	case d.tyre(p) > 2*edge && near < 0.28 && p.Z > 0.28:
		return isGap, true
	}
	return 0, false
}

// TestAgreesSizes: the same movement in a picture of half the size.
func TestAgreesSizes(t *testing.T) {
	big, small := drawing(t, 250, 0, false, 0.36), drawing(t, 125, 0, false, 0.36)
	a, b := redraw(t, big, Change{-0.06, -0.03}), redraw(t, small, Change{-0.06, -0.03})
	off, n := 0, 0
	for y := range b.Rect.Dy() {
		for x := range b.Rect.Dx() {
			p, q := b.RGBAAt(x, y), a.RGBAAt(2*x, 2*y)
			n++
			if p.B != q.B {
				off++
			}
		}
	}
	// Only pixels on an edge may differ; all edges together are 12,000 px long at the most.
	if off > 6000 || off*20 > n {
		t.Errorf("%d of %d pixels show another part", off, n)
	}
}

// TestHiddenTyre: an arch that hid 20 mm of the tyre goes up by 60 mm. The tyre
// shows whole, and above it the dark of the tyre, as no inside was seen.
func TestHiddenTyre(t *testing.T) {
	d := drawing(t, 250, 0, false, 0.28)
	r, err := Redraw(d.img, d.scale, d.shape, Change{0.06, 0.06})
	if err != nil {
		t.Fatal(err)
	}
	tyres, dark := 0, 0
	for y := range r.Image.Rect.Dy() {
		for x := range r.Image.Rect.Dx() {
			p := d.scale.Spot(Point{float64(x) + 0.5, float64(y) + 0.5})
			bottom := line(d.shape.Bottom).at(p.X) + 0.06
			if math.Min(math.Abs(p.X), math.Abs(p.X-2.5)) > 0.26 || p.Z < 0.3 || p.Z > bottom-0.012 {
				continue
			}
			now := r.Image.RGBAAt(x, y)
			switch off := d.tyre(p); {
			case off < -0.006:
				tyres++
				if now.B != isTyre {
					t.Fatalf("the tyre at %v is %v", p, now)
				}
			case off > 0.012 && p.Z > line(d.shape.Bottom).at(p.X):
				dark++
				if now.B > isGap {
					t.Fatalf("the inside of the arch at %v is %v", p, now)
				}
			}
		}
	}
	if tyres < 10_000 || dark < 20 {
		t.Fatalf("%d pixels of tyre, %d of the arch", tyres, dark)
	}
	// 20 mm are 5 px, told to the pixel.
	said := regexp.MustCompile(`The upper (\d+) mm of a tyre were hidden`)
	for _, u := range r.Unseen {
		if f := said.FindStringSubmatch(u.Text); f != nil {
			if mm, _ := strconv.Atoi(f[1]); mm < 16 || mm > 24 {
				t.Errorf("%s", u.Text)
			}
			return
		}
	}
	t.Errorf("%+v", r.Unseen)
}

type notes []Unseen

func (u notes) has(s string) bool {
	for _, x := range u {
		if strings.Contains(x.Text, s) {
			return true
		}
	}
	return false
}

// TestExactUnseen: by hand. From 4.75 m with the roof 0.25 m further away,
// 0.25/5 = 5 %: a roof at 1.3 m seen from 1.5 m is 10 mm elsewhere, 60 mm seem 57.
func TestExactUnseen(t *testing.T) {
	d := drawing(t, 250, 0, false, 0.36)
	d.scale.Camera = Camera{Distance: 4.75, Height: 1.5}
	d.shape.Inset = 0.25
	r, err := Redraw(d.img, d.scale, d.shape, Change{-0.06, -0.06})
	if err != nil {
		t.Fatal(err)
	}
	u := r.Unseen
	if len(u) != 2 || u[0].Assumed || math.Abs(u[0].By-0.013) > 1e-12 || !notes(u).has("10 mm elsewhere") || !notes(u).has("3 mm less") || !notes(u).has("up to 60 mm") {
		t.Errorf("%+v", u)
	}
	// 50 mm over 2.5 m are 1.1°; (1.3 − 0.28)·0.02 = 20 mm.
	d.scale.Camera = Camera{}
	r, err = Redraw(d.img, d.scale, d.shape, Change{0, 0.05})
	if err != nil {
		t.Fatal(err)
	}
	if u = r.Unseen; !notes(u).has("pitches by 1.1°") || !notes(u).has("forwards by some 20 mm") || !notes(u).has("assumed") || !u[0].Assumed {
		t.Errorf("%+v", u)
	}
	// The lowest edge stands at 200 mm.
	r, err = Redraw(d.img, d.scale, d.shape, Change{-0.24, -0.24})
	if err != nil {
		t.Fatal(err)
	}
	if u = r.Unseen; !notes(u).has("40 mm beneath the floor") {
		t.Errorf("%+v", u)
	}
}

// TestRedrawRefuses outlines and movements that cannot be.
func TestRedrawRefuses(t *testing.T) {
	ok := drawing(t, 250, 0, false, 0.36)
	for _, c := range []struct {
		spoil func(*drawn, *Change)
		why   Why
		say   string
	}{
		{func(d *drawn, _ *Change) { d.scale = Scale{} }, NoScale, "scale is not known"},
		{func(d *drawn, _ *Change) { d.shape = Shape{} }, WrongShape, "top line has fewer"},
		{func(d *drawn, _ *Change) { d.shape.Top = []Spot{{-0.5, 1}, {2, 1}, {1, 1}, {3, 1}} }, WrongShape, "turns back at spot 3, 1,000 mm"},
		{func(d *drawn, _ *Change) { d.shape.Top = []Spot{{0.2, 1}, {3, 1}} }, WrongShape, "both hubs"},
		{func(d *drawn, _ *Change) { d.shape.Top = []Spot{{-0.7, 0.3}, {3.4, 0.3}} }, WrongShape, "lines cross"},
		{func(d *drawn, _ *Change) { d.shape.Top = []Spot{{-0.7, math.NaN()}, {3.4, 1}} }, WrongShape, "none of a car"},
		{func(d *drawn, _ *Change) { d.shape.TyreRear = 0 }, WrongShape, "radius"},
		{func(_ *drawn, c *Change) { c.Rear = -60 }, WrongChange, "−60,000 mm"},
		{func(_ *drawn, c *Change) { c.Front = math.NaN() }, WrongChange, "at the front"},
	} {
		d, change := ok, Change{0.02, 0.02}
		c.spoil(&d, &change)
		_, err := Redraw(d.img, d.scale, d.shape, change)
		var no *Refusal
		if !errors.As(err, &no) || no.Why != c.why || !strings.Contains(err.Error(), c.say) {
			t.Errorf("%v; want %s, %q", err, c.why, c.say)
		}
	}
}

// TestOutOfPicture: a car larger than its picture, an empty picture and a part of a
// larger picture are no reason to fail.
func TestOutOfPicture(t *testing.T) {
	d := drawing(t, 250, 0.03, false, 0.36)
	for _, r := range []image.Rectangle{image.Rect(0, 0, 400, 300), image.Rect(0, 0, 3, 3), {}} {
		part := image.NewRGBA(r)
		if _, err := Redraw(part, d.scale, d.shape, Change{-0.2, 0.2}); err != nil {
			t.Error(err)
		}
	}
	sub := d.img.SubImage(image.Rect(0, 0, 640, 640)).(*image.RGBA)
	got, err := Redraw(sub, d.scale, d.shape, Change{-0.05, -0.05})
	whole := redraw(t, d, Change{-0.05, -0.05})
	if err != nil || got.Image.Rect != sub.Rect || got.Image.RGBAAt(300, 300) != whole.RGBAAt(300, 300) {
		t.Errorf("%v", err)
	}
}

func BenchmarkRedraw1600(b *testing.B) {
	for _, c := range []struct {
		name string
		tilt float64
	}{{"level", 0}, {"tilted", 0.02}} {
		d := drawing(b, 250*1600/1280, c.tilt, false, 0.36)
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Redraw(d.img, d.scale, d.shape, Change{-0.0613, -0.04}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
