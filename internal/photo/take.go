package photo

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"image/draw"
	"image/jpeg"
	"io"
	"time"
)

// Limit is what a picture may be and what it becomes. A zero takes the value of
// Limits.
type Limit struct {
	Bytes   int // [B] of the file
	Pixels  int // [px] width × height
	Memory  int // [B] that its decoder may need at once
	Least   int // [px] the shorter side, as sent and as kept
	Long    int // [px] the longer side as kept
	Quality int // of the JPEG as kept, 1 to 100
}

// Limits are the values that a zero stands for (common practice): 25 MB and 50 million
// pixels are what telephones make; 1,600 px is some 3 mm of a car for each pixel.
func Limits() Limit {
	return Limit{Bytes: 25 << 20, Pixels: 50_000_000, Memory: 400_000_000, Least: 200, Long: 1600, Quality: 82}
}

func (l Limit) orDefault() Limit {
	d := Limits()
	for _, v := range []struct {
		p *int
		d int
	}{{&l.Bytes, d.Bytes}, {&l.Pixels, d.Pixels}, {&l.Memory, d.Memory}, {&l.Least, d.Least}, {&l.Long, d.Long}, {&l.Quality, d.Quality}} {
		if *v.p <= 0 {
			*v.p = v.d
		}
	}
	return l
}

// Picture is a photograph as it is kept: upright, small, and silent about where
// it was taken and with what.
type Picture struct {
	JPEG          []byte    // the picture itself, without any metadata
	Width, Height int       // [px] of JPEG
	FullWidth     int       // [px] as sent, upright
	FullHeight    int       // [px] as sent, upright
	Format        string    // what was sent: JPEG, PNG, GIF, WebP
	Turn          int       // EXIF orientation by which it was turned, 1 for none
	Taken         time.Time // what the camera's clock showed; zero when the file does not say
	TakenZone     bool      // Taken knows its offset from UTC; otherwise it is the clock's reading written as UTC
}

// bench is the room for one picture at a time.
var bench = make(chan struct{}, 1)

// Take reads a picture, looks at what it is, turns it upright, shrinks it and
// writes it anew. The name is only for sentences.
//
// Only one picture is decoded at a time; others wait until ctx ends. Memory is the
// file (limit.Bytes for each caller that waits), once limit.Memory for the decoder,
// which is worked out from the header before anything is decoded, and 15 MB for the
// small picture: 440 MB at the most with Limits, 45 MB for the usual 12 million
// pixels. A colour profile is dropped with the rest: colours of a wide gamut become
// slightly duller.
//
// The error is a *Refusal, or ctx.Err().
func Take(ctx context.Context, name string, r io.Reader, limit Limit) (Picture, error) {
	limit = limit.orDefault()
	name = shownName(name)
	named := func(no *Refusal) error { no.Name = name; return no }

	b, no := readAll(r, limit)
	if no != nil {
		return Picture{}, named(no)
	}
	f, no := formatOf(b)
	if no != nil {
		return Picture{}, named(no)
	}
	said := readSaid(f.exif(b))
	w, h, no := measure(f, b, limit)
	if no != nil {
		return Picture{}, named(no)
	}
	select {
	case bench <- struct{}{}:
		defer func() { <-bench }()
	case <-ctx.Done():
		return Picture{}, ctx.Err()
	}
	small, no := decode(f, b, w, h)
	if no != nil {
		return Picture{}, named(no)
	}
	small = upright(small, said.turn)
	p := Picture{
		Width: small.Rect.Dx(), Height: small.Rect.Dy(), Format: f.name,
		Turn: said.turn, Taken: said.taken, TakenZone: said.zone,
	}
	c, _ := f.config(bytes.NewReader(b))
	p.FullWidth, p.FullHeight = c.Width, c.Height
	if said.turn > 4 {
		p.FullWidth, p.FullHeight = c.Height, c.Width
	}
	var err error
	p.JPEG, err = write(small, limit.Quality)
	return p, err
}

// readAll reads no more than one byte beyond the limit.
func readAll(r io.Reader, limit Limit) ([]byte, *Refusal) {
	b, err := io.ReadAll(io.LimitReader(r, int64(limit.Bytes)+1))
	if err != nil {
		no := refuse(BrokenOff, sendAgain, "it did not arrive whole: reading stopped after %s bytes", grouped(len(b)))
		no.Err = err
		return nil, no
	}
	if len(b) > limit.Bytes {
		return nil, refuse(TooHeavy, "Send it in a smaller size; 2,000 pixels along its longer side are enough",
			"it has more than %s MB, the most that is taken", grouped(limit.Bytes>>20))
	}
	return b, nil
}

// measure reads the header, judges it and says how large the picture will be
// kept, before its upright turn.
func measure(f format, b []byte, limit Limit) (w, h int, no *Refusal) {
	c, err := f.config(bytes.NewReader(b))
	if err != nil {
		return 0, 0, broken(f, b, err)
	}
	const smaller = "Send it in a smaller size; 2,000 pixels along its longer side are enough"
	long, short := max(c.Width, c.Height), min(c.Width, c.Height)
	switch {
	case short < limit.Least:
		return 0, 0, refuse(TooSmall, "Send the photograph itself and not its small preview",
			"it is %s × %s pixels; each side needs at least %d", grouped(c.Width), grouped(c.Height), limit.Least)
	case int64(c.Width)*int64(c.Height) > int64(limit.Pixels):
		return 0, 0, refuse(TooLarge, smaller, "it is %s × %s pixels, that is %d million; %d million are the most that is taken",
			grouped(c.Width), grouped(c.Height), (int64(c.Width)*int64(c.Height)+999_999)/1_000_000, limit.Pixels/1_000_000)
	case f.cost(b, c) > limit.Memory:
		return 0, 0, refuse(TooLarge, "Send it in a smaller size, or as a plain JPEG",
			"it is %s × %s pixels of a kind that takes %d MB to open; %d MB are the most that is given",
			grouped(c.Width), grouped(c.Height), f.cost(b, c)/1_000_000, limit.Memory/1_000_000)
	}
	w, h = c.Width, c.Height
	if long > limit.Long {
		w = max(1, (c.Width*limit.Long+long/2)/long)
		h = max(1, (c.Height*limit.Long+long/2)/long)
	}
	if min(w, h) < limit.Least {
		return 0, 0, refuse(TooSmall, "Cut it to the car, with some room above and beside it",
			"it is %s × %s pixels, so long that its short side would be kept as %d; it needs at least %d",
			grouped(c.Width), grouped(c.Height), min(w, h), limit.Least)
	}
	return w, h, nil
}

// decode decodes and shrinks. A decoder that panics has met a damaged file.
func decode(f format, b []byte, w, h int) (m *image.RGBA, no *Refusal) {
	defer func() {
		if r := recover(); r != nil {
			m, no = nil, broken(f, b, fmt.Errorf("decoder: %v", r))
		}
	}()
	full, err := f.decode(bytes.NewReader(b))
	if err != nil {
		return nil, broken(f, b, err)
	}
	if d := full.Bounds(); d.Dx() < w || d.Dy() < h {
		return nil, broken(f, b, errors.New("the first frame is smaller than the picture"))
	}
	return shrink(full, w, h), nil
}

// broken tells a file that ends too early from one that contradicts itself.
func broken(f format, b []byte, err error) *Refusal {
	no := refuse(Damaged, sendAgain+"; if it is refused again, open it in another program and save it as JPEG",
		"it begins like a %s but is damaged", f.name)
	if !f.ended(b) {
		no = refuse(BrokenOff, sendAgain, "it is a %s that ends before the picture does", f.name)
	}
	no.Err = err
	return no
}

// write encodes at the quality.
func write(m image.Image, quality int) ([]byte, error) {
	var out bytes.Buffer
	if err := jpeg.Encode(&out, m, &jpeg.Options{Quality: quality}); err != nil {
		return nil, &Refusal{Why: TooLarge, What: "it cannot be written as JPEG", Err: err}
	}
	return out.Bytes(), nil
}

// Write encodes a redrawn picture as JPEG, without metadata, at the quality at
// which pictures are kept. It fails only where a side has more than 65,535 pixels.
func Write(m image.Image) ([]byte, error) { return write(m, Limits().Quality) }

// Open decodes a picture that Take has written. The error is a *Refusal.
func Open(kept []byte) (*image.RGBA, error) {
	f, no := formatOf(kept)
	if no != nil {
		return nil, no
	}
	limit := Limits()
	limit.Least = 1
	if _, _, no := measure(f, kept, limit); no != nil {
		return nil, no
	}
	full, err := f.decode(bytes.NewReader(kept))
	if err != nil {
		return nil, broken(f, kept, err)
	}
	return rgba(full), nil
}

// rgba is the picture with its corner at 0, 0; a picture that is so already is
// not copied.
func rgba(m image.Image) *image.RGBA {
	b := m.Bounds()
	if p, ok := m.(*image.RGBA); ok && b.Min == (image.Point{}) {
		return p
	}
	out := image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	draw.Draw(out, out.Rect, m, b.Min, draw.Src)
	return out
}
