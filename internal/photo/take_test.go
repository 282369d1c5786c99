package photo

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"io"
	"math"
	"os"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"github.com/bep/imagemeta"
)

func take(t testing.TB, name string, b []byte, l Limit) (Picture, error) {
	t.Helper()
	return Take(context.Background(), name, bytes.NewReader(b), l)
}

// sees checks the colours in the middles of the four quarters.
func sees(t *testing.T, name string, kept []byte, want [4]color.RGBA) {
	t.Helper()
	m, err := Open(kept)
	if err != nil {
		t.Fatal(err)
	}
	w, h := m.Rect.Dx(), m.Rect.Dy()
	for i, p := range []image.Point{{w / 4, h / 4}, {3 * w / 4, h / 4}, {w / 4, 3 * h / 4}, {3 * w / 4, 3 * h / 4}} {
		got := m.RGBAAt(p.X, p.Y)
		for _, d := range []float64{float64(got.R) - float64(want[i].R), float64(got.G) - float64(want[i].G), float64(got.B) - float64(want[i].B)} {
			// Two lossy encodings; the four colours are 100 and more apart.
			if math.Abs(d) > 12 {
				t.Errorf("%s: quarter %d is %v, want %v", name, i, got, want[i])
				break
			}
		}
	}
}

// TestExactOrientation stores one picture in each of the eight ways and wants it
// back upright. The table says where the first row and the first column of the
// stored picture lie in the upright one.
func TestExactOrientation(t *testing.T) {
	const w, h = 320, 240
	up := quarterPicture(w, h)
	for i, side := range []string{"top left", "top right", "bottom right", "bottom left", "left top", "right top", "right bottom", "left bottom"} {
		row, col, _ := strings.Cut(side, " ")
		sw, sh := w, h
		if i >= 4 {
			sw, sh = h, w
		}
		stored := image.NewRGBA(image.Rect(0, 0, sw, sh))
		for y := range sh {
			for x := range sw {
				var p image.Point
				for _, along := range []struct {
					edge string
					n    int
				}{{row, y}, {col, x}} {
					switch along.edge {
					case "top":
						p.Y = along.n
					case "bottom":
						p.Y = h - 1 - along.n
					case "left":
						p.X = along.n
					case "right":
						p.X = w - 1 - along.n
					}
				}
				stored.SetRGBA(x, y, up.RGBAAt(p.X, p.Y))
			}
		}
		for _, file := range [][]byte{
			tagged(asJPEG(t, stored), exifBlock(binary.BigEndian, i+1, "", "")),
			taggedPNG(asPNG(t, stored), exifBlock(binary.LittleEndian, i+1, "", "")),
		} {
			p, err := take(t, side, file, Limit{})
			if err != nil {
				t.Fatal(err)
			}
			if p.Turn != i+1 || p.Width != w || p.Height != h || p.FullWidth != w || p.FullHeight != h {
				t.Errorf("%s: turn %d, %d × %d of %d × %d", side, p.Turn, p.Width, p.Height, p.FullWidth, p.FullHeight)
			}
			sees(t, p.Format+" "+side, p.JPEG, quarters)
		}
	}
}

// TestStripped looks for what the file said about its place and its maker.
func TestStripped(t *testing.T) {
	plain := quarterPicture(320, 240)
	block := exifBlock(binary.LittleEndian, 1, "2026:03:14 09:26:53", "+01:00")
	for name, b := range map[string][]byte{
		"jpeg": tagged(asJPEG(t, plain), block),
		"png":  taggedPNG(asPNG(t, plain), block),
		"webp": riff([]byte("VP8X"), vp8x(320, 240), []byte("VP8L"), solidVP8L(320, 240, quarters[0]), []byte("EXIF"), block),
	} {
		if !bytes.Contains(b, []byte(secrets[1])) {
			t.Fatalf("%s: the test file says nothing of its place", name)
		}
		p, err := take(t, name, b, Limit{})
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range append(secrets, "Exif", "http", "Adobe") {
			if bytes.Contains(p.JPEG, []byte(s)) {
				t.Errorf("%s: %q is still in it", name, s)
			}
		}
		segments(p.JPEG, func(m byte, _ []byte) bool {
			if m != 0xdb && m != 0xc0 && m != 0xc4 {
				t.Errorf("%s: segment %x in what is kept", name, m)
			}
			return true
		})
		if want := time.Date(2026, 3, 14, 8, 26, 53, 0, time.UTC); !p.Taken.Equal(want) || !p.TakenZone {
			t.Errorf("%s: taken %v, want %v", name, p.Taken, want)
		}
	}
}

// TestAgreesMetadata reads the same files with an independent reader.
func TestAgreesMetadata(t *testing.T) {
	plain := asJPEG(t, quarterPicture(320, 240))
	for _, order := range []binary.ByteOrder{binary.LittleEndian, binary.BigEndian} {
		for turn := 1; turn <= 8; turn++ {
			b := tagged(plain, exifBlock(order, turn, "2025:12:31 23:59:58", ""))
			var tags imagemeta.Tags
			_, err := imagemeta.Decode(imagemeta.Options{
				R: bytes.NewReader(b), ImageFormat: imagemeta.JPEG, Sources: imagemeta.EXIF,
				ShouldHandleTag: func(imagemeta.TagInfo) bool { return true },
				HandleTag:       func(i imagemeta.TagInfo) error { tags.Add(i); return nil },
			})
			if err != nil {
				t.Fatal(err)
			}
			theirs, err := tags.GetDateTime()
			if err != nil {
				t.Fatal(err)
			}
			ours := readSaid(jpegExif(b))
			if o := tags.EXIF()["Orientation"].Value; o != uint16(ours.turn) || ours.turn != turn {
				t.Errorf("orientation %v, ours %d, written %d", o, ours.turn, turn)
			}
			if got := theirs.Format(time.DateTime); got != ours.taken.Format(time.DateTime) || got != "2025-12-31 23:59:58" {
				t.Errorf("taken %v, ours %v", theirs, ours.taken)
			}
		}
	}
}

// TestTaken: clocks that were never set and dates that are none.
func TestTaken(t *testing.T) {
	plain := asJPEG(t, quarterPicture(320, 240))
	for text, want := range map[string]string{
		"2026:03:14 09:26:53": "2026-03-14 09:26:53", "0000:00:00 00:00:00": "", "1980:01:01 00:00:00": "", "yesterday at noon": "", "": "",
	} {
		p, err := take(t, "a", tagged(plain, exifBlock(binary.BigEndian, 1, text, "")), Limit{})
		if err != nil {
			t.Fatal(err)
		}
		got := ""
		if !p.Taken.IsZero() {
			got = p.Taken.Format(time.DateTime)
		}
		if got != want || p.TakenZone {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// TestFormats takes each kind once.
func TestFormats(t *testing.T) {
	webp, err := os.ReadFile("testdata/quarters.webp")
	if err != nil {
		t.Fatal(err)
	}
	var g bytes.Buffer
	pal := image.NewPaletted(image.Rect(0, 0, 240, 210), color.Palette{quarters[0], quarters[1], quarters[2], quarters[3]})
	other := image.NewPaletted(pal.Rect, pal.Palette)
	for i := range pal.Pix {
		pal.Pix[i] = uint8(2*(2*(i/240)/210) + 2*(i%240)/240)
	}
	if err := gif.EncodeAll(&g, &gif.GIF{Image: []*image.Paletted{pal, other}, Delay: []int{5, 5}}); err != nil {
		t.Fatal(err)
	}
	one := [4]color.RGBA{quarters[3], quarters[3], quarters[3], quarters[3]}
	for _, c := range []struct {
		format string
		b      []byte
		want   [4]color.RGBA
	}{
		{"JPEG", asJPEG(t, quarterPicture(240, 210)), quarters},
		{"PNG", asPNG(t, quarterPicture(240, 210)), quarters},
		{"GIF", g.Bytes(), quarters},
		{"WebP", webp, quarters},
		{"WebP", riff([]byte("VP8L"), solidVP8L(240, 210, quarters[3])), one},
	} {
		p, err := take(t, "a", c.b, Limit{})
		if err != nil {
			t.Errorf("%s: %v", c.format, err)
			continue
		}
		if p.Format != c.format || p.Width != 240 || p.Height != 210 {
			t.Errorf("%s: %s, %d × %d", c.format, p.Format, p.Width, p.Height)
		}
		sees(t, c.format, p.JPEG, c.want)
	}
}

// TestTransparent: what can be seen through is white.
func TestTransparent(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 300, 300))
	p, err := take(t, "a.png", asPNG(t, m), Limit{})
	if err != nil {
		t.Fatal(err)
	}
	white := color.RGBA{255, 255, 255, 255}
	sees(t, "transparent", p.JPEG, [4]color.RGBA{white, white, white, white})
}

// TestShrunk: 1,600 px along the longer side, and no larger than it was.
func TestShrunk(t *testing.T) {
	for _, c := range [][4]int{{3200, 2000, 1600, 1000}, {900, 1999, 720, 1600}, {640, 480, 640, 480}} {
		p, err := take(t, "a", asJPEG(t, quarterPicture(c[0], c[1])), Limit{})
		if err != nil {
			t.Fatal(err)
		}
		if p.Width != c[2] || p.Height != c[3] || p.FullWidth != c[0] || p.FullHeight != c[1] {
			t.Errorf("%v: %d × %d of %d × %d", c, p.Width, p.Height, p.FullWidth, p.FullHeight)
		}
		sees(t, "shrunk", p.JPEG, quarters)
	}
}

// TestConservesMean: averaging keeps the mean of the picture.
func TestConservesMean(t *testing.T) {
	src := image.NewGray(image.Rect(0, 0, 997, 613))
	for i := range src.Pix {
		src.Pix[i] = uint8((i*i + 7*i) % 251)
	}
	mean := func(m image.Image) float64 {
		b, sum := m.Bounds(), 0.0
		for y := b.Min.Y; y < b.Max.Y; y++ {
			for x := b.Min.X; x < b.Max.X; x++ {
				r, _, _, _ := m.At(x, y).RGBA()
				sum += float64(r >> 8)
			}
		}
		return sum / float64(b.Dx()*b.Dy())
	}
	for _, s := range []image.Point{{997, 613}, {996, 612}, {500, 307}, {333, 200}, {1, 1}} {
		// Rounding of each pixel is unbiased; half a grey is its bound.
		if got, want := mean(shrink(src, s.X, s.Y)), mean(src); math.Abs(got-want) > 0.5 {
			t.Errorf("%v: mean %.3f, was %.3f", s, got, want)
		}
	}
}

// TestRefused: everything that people send, and the words that they get.
func TestRefused(t *testing.T) {
	good := asJPEG(t, quarterPicture(640, 480))
	ftyp := func(major string, more ...string) []byte {
		b := "\x00\x00\x00" + string(rune(16+4*len(more))) + "ftyp" + major + "\x00\x00\x00\x00" + strings.Join(more, "")
		return []byte(b + strings.Repeat("\x00", 64))
	}
	damaged := bytes.Clone(good)
	for i := len(damaged) / 2; i < len(damaged)-2; i += 3 {
		damaged[i] = 0xff
	}
	for _, c := range []struct {
		name string
		b    []byte
		l    Limit
		why  Why
		say  []string
	}{
		{"leer.jpg", nil, Limit{}, Empty, []string{"leer.jpg: there is nothing in it", "Send it again"}},
		{"IMG_1.HEIC", ftyp("heic", "mif1"), Limit{}, WrongFormat, []string{"HEIC", "camera", "JPEG"}},
		{"IMG_2.jpg", ftyp("mif1", "mif1", "heic"), Limit{}, WrongFormat, []string{"HEIC"}},
		{"a.avif", ftyp("avif"), Limit{}, WrongFormat, []string{"AVIF"}},
		{"film.mp4", ftyp("isom", "mp42"), Limit{}, NotPicture, []string{"film"}},
		{"film.mkv", []byte("\x1aE\xdf\xa3\x00"), Limit{}, NotPicture, []string{"film"}},
		{"raw.tif", []byte("II*\x00\x08\x00\x00\x00"), Limit{}, WrongFormat, []string{"TIFF"}},
		{"a.bmp", []byte("BM\x00\x00\x00\x00"), Limit{}, WrongFormat, []string{"BMP"}},
		{"offer.pdf", []byte("%PDF-1.7\n"), Limit{}, NotPicture, []string{"PDF", "Send a photograph"}},
		{"all.zip", []byte("PK\x03\x04\x00"), Limit{}, NotPicture, []string{"Unpack"}},
		{"car.svg", []byte("<?xml version='1.0'?><SVG xmlns='x'/>"), Limit{}, NotPicture, []string{"drawing"}},
		{"notes.jpg", []byte("Dear all, the car is blue."), Limit{}, NotPicture, []string{"text and not a picture"}},
		{"x", []byte{1, 2, 3, 4, 0xfe}, Limit{}, NotPicture, []string{"not a picture"}},
		{"small.jpg", asJPEG(t, quarterPicture(640, 180)), Limit{}, TooSmall, []string{"640 × 180 pixels", "at least 200", "preview"}},
		{"long.jpg", asJPEG(t, quarterPicture(4000, 300)), Limit{}, TooSmall, []string{"4,000 × 300", "kept as 120", "Cut it"}},
		{"huge.png", hugePNG(60000, 50000, 8), Limit{}, TooLarge, []string{"60,000 × 50,000 pixels", "3000 million", "50 million"}},
		{"deep.png", hugePNG(7500, 6600, 16), Limit{Memory: 300_000_000}, TooLarge, []string{"396 MB", "300 MB", "plain JPEG"}},
		{"heavy.jpg", good, Limit{Bytes: 1 << 10}, TooHeavy, []string{"more than 0 MB"}},
		{"half.jpg", good[:len(good)/2], Limit{}, BrokenOff, []string{"half.jpg: it is a JPEG that ends before the picture does", "Send it again"}},
		{"head.jpg", good[:20], Limit{}, BrokenOff, []string{"ends before"}},
		{"half.png", asPNG(t, quarterPicture(640, 480))[:600], Limit{}, BrokenOff, []string{"PNG"}},
		{"bad.jpg", damaged, Limit{}, Damaged, []string{"damaged", "save it as JPEG"}},
		{`C:\Users\me\..\` + strings.Repeat("n", 90) + "\x07.jpg", nil, Limit{}, Empty, []string{"n…n"}},
	} {
		_, err := take(t, c.name, c.b, c.l)
		var no *Refusal
		if !errors.As(err, &no) {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if no.Why != c.why {
			t.Errorf("%s: %s, want %s", c.name, no.Why, c.why)
		}
		for _, s := range c.say {
			if !strings.Contains(err.Error(), s) {
				t.Errorf("%s: %q does not say %q", c.name, err, s)
			}
		}
		if strings.ContainsAny(err.Error(), "!\x07\\") || !strings.HasSuffix(err.Error(), ".") {
			t.Errorf("%s: %q", c.name, err)
		}
	}
}

// TestBroken: the reader itself fails.
func TestBroken(t *testing.T) {
	stop := errors.New("radio gone")
	_, err := Take(context.Background(), "a.jpg", io.MultiReader(strings.NewReader("\xff\xd8\xff"), iotest.ErrReader(stop)), Limit{})
	var no *Refusal
	if !errors.As(err, &no) || no.Why != BrokenOff || !errors.Is(err, stop) {
		t.Errorf("%v", err)
	}
}

// TestOneAtATime: while one picture is decoded, the next waits until its context ends.
func TestOneAtATime(t *testing.T) {
	bench <- struct{}{}
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Millisecond)
	defer cancel()
	good := asJPEG(t, quarterPicture(320, 240))
	_, err := Take(ctx, "a.jpg", bytes.NewReader(good), Limit{})
	<-bench
	if !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("%v", err)
	}
	if _, err := take(t, "a.jpg", good, Limit{}); err != nil {
		t.Error(err)
	}
}

// TestTwice: the same file gives the same bytes.
func TestTwice(t *testing.T) {
	b := asJPEG(t, quarterPicture(1900, 1100))
	one, err1 := take(t, "a", b, Limit{})
	two, err2 := take(t, "a", b, Limit{})
	if err1 != nil || err2 != nil || !bytes.Equal(one.JPEG, two.JPEG) {
		t.Error(err1, err2)
	}
}

func FuzzTake(f *testing.F) {
	small := quarterPicture(40, 30)
	block := exifBlock(binary.BigEndian, 6, "2026:03:14 09:26:53", "+01:00")
	f.Add(tagged(asJPEG(f, small), block))
	f.Add(taggedPNG(asPNG(f, small), block))
	f.Add(riff([]byte("VP8X"), vp8x(40, 30), []byte("VP8L"), solidVP8L(40, 30, quarters[0]), []byte("EXIF"), block))
	f.Add([]byte("GIF89a\x28\x00\x1e\x00\x80\x00\x00\x00\x00\x00\xff\xff\xff,\x00\x00\x00\x00\x28\x00\x1e\x00\x00\x02\x02D\x01\x00;"))
	f.Add([]byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"))
	limit := Limit{Bytes: 1 << 16, Pixels: 40_000, Memory: 400_000, Least: 8, Long: 32}
	f.Fuzz(func(t *testing.T, b []byte) {
		p, err := take(t, "f", b, limit)
		if err != nil {
			var no *Refusal
			if !errors.As(err, &no) || no.What == "" {
				t.Fatalf("%v is no refusal", err)
			}
			return
		}
		m, err := jpeg.Decode(bytes.NewReader(p.JPEG))
		if err != nil {
			t.Fatal(err)
		}
		if d := m.Bounds().Size(); d.X != p.Width || d.Y != p.Height || max(d.X, d.Y) > 32 || min(d.X, d.Y) < 8 {
			t.Fatalf("%v of %+v", d, p)
		}
		if readable := jpegExif(p.JPEG); readable != nil {
			t.Fatal("metadata in what is kept")
		}
	})
}

func BenchmarkTake12MP(b *testing.B) {
	m := image.NewRGBA(image.Rect(0, 0, 4000, 3000))
	for i := range m.Pix {
		m.Pix[i] = uint8(i/16000 + i%37)
	}
	file := asJPEG(b, m)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := take(b, "a", file, Limit{}); err != nil {
			b.Fatal(err)
		}
	}
}
