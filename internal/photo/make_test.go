package photo

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"testing"
)

// The makers of files for the tests.

var quarters = [4]color.RGBA{{192, 32, 32, 255}, {32, 160, 32, 255}, {32, 48, 192, 255}, {224, 192, 32, 255}}

// quarterPicture is red, green over blue, yellow.
func quarterPicture(w, h int) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			m.SetRGBA(x, y, quarters[2*(2*y/h)+2*x/w])
		}
	}
	return m
}

func asJPEG(t testing.TB, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 90}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func asPNG(t testing.TB, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// secrets stand in the metadata of test files and must not survive.
var secrets = []string{"Harrow Camera Works", "N51.4921", "kitchen window"}

// exifBlock is a TIFF block with orientation, date, offset and a place.
func exifBlock(order binary.ByteOrder, turn int, taken, zone string) []byte {
	type row struct {
		tag, kind uint16
		data      []byte
		n         int
	}
	u16 := func(v int) []byte { b := make([]byte, 2); order.PutUint16(b, uint16(v)); return b }
	ascii := func(s string) []byte { return append([]byte(s), 0) }
	text := func(tag uint16, s string) row { return row{tag, 2, ascii(s), len(s) + 1} }
	var b []byte
	put := func(at int, v uint32) { order.PutUint32(b[at:], v) }
	dir := func(rows []row) (start int) {
		start = len(b)
		b = append(b, u16(len(rows))...)
		at := len(b)
		b = append(b, make([]byte, 12*len(rows)+4)...)
		for i, r := range rows {
			e := at + 12*i
			copy(b[e:], u16(int(r.tag)))
			copy(b[e+2:], u16(int(r.kind)))
			put(e+4, uint32(r.n))
			if len(r.data) <= 4 {
				copy(b[e+8:], r.data)
				continue
			}
			put(e+8, uint32(len(b)))
			b = append(b, r.data...)
		}
		return start
	}
	u32 := func(v int) []byte { x := make([]byte, 4); order.PutUint32(x, uint32(v)); return x }
	if order == binary.ByteOrder(binary.LittleEndian) {
		b = []byte("II*\x00\x00\x00\x00\x00")
	} else {
		b = []byte("MM\x00*\x00\x00\x00\x00")
	}
	gps := dir([]row{text(1, secrets[1])})
	exposure := []row{}
	if taken != "" {
		exposure = append(exposure, text(0x9003, taken))
	}
	if zone != "" {
		exposure = append(exposure, text(0x9011, zone))
	}
	exif := dir(exposure)
	first := dir([]row{
		text(0x010f, secrets[0]), {0x0112, 3, u16(turn), 1}, {0x8769, 4, u32(exif), 1}, {0x8825, 4, u32(gps), 1},
	})
	put(4, uint32(first))
	return b
}

func segment(marker byte, body []byte) []byte {
	out := []byte{0xff, marker, 0, 0}
	binary.BigEndian.PutUint16(out[2:], uint16(len(body)+2))
	return append(out, body...)
}

// tagged puts an Exif segment, an XMP segment and a comment into a JPEG.
func tagged(plain, block []byte) []byte {
	out := append([]byte{}, plain[:2]...)
	out = append(out, segment(0xe1, append([]byte("Exif\x00\x00"), block...))...)
	out = append(out, segment(0xe1, []byte("http://ns.adobe.com/xap/1.0/\x00<x>"+secrets[1]+"</x>"))...)
	out = append(out, segment(0xfe, []byte(secrets[2]))...)
	return append(out, plain[2:]...)
}

// taggedPNG puts the block into a chunk eXIf at the end.
func taggedPNG(plain, block []byte) []byte {
	chunk := append([]byte{0, 0, 0, 0}, append([]byte("eXIf"), block...)...)
	binary.BigEndian.PutUint32(chunk, uint32(len(block)))
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
	end := len(plain) - 12
	return append(append(append([]byte{}, plain[:end]...), chunk...), plain[end:]...)
}

// riff is a WebP of the chunks, each a name and a body.
func riff(chunks ...[]byte) []byte {
	body := []byte("WEBP")
	for i := 0; i < len(chunks); i += 2 {
		body = append(body, chunks[i]...)
		body = binary.LittleEndian.AppendUint32(body, uint32(len(chunks[i+1])))
		body = append(body, chunks[i+1]...)
		if len(chunks[i+1])%2 == 1 {
			body = append(body, 0)
		}
	}
	return append(binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(len(body))), body...)
}

// solidVP8L is a lossless picture of one colour: no transform, no cache, five
// codes of one symbol each, so that the pixels take no bits at all.
func solidVP8L(w, h int, c color.RGBA) []byte {
	var bits []byte
	n := 0
	put := func(v uint32, size int) {
		for i := range size {
			if n%8 == 0 {
				bits = append(bits, 0)
			}
			bits[n/8] |= byte(v>>i&1) << (n % 8)
			n++
		}
	}
	put(0x2f, 8)
	put(uint32(w-1), 14)
	put(uint32(h-1), 14)
	put(0, 1+3) // alpha, version
	put(0, 3)   // transform, cache, one group of codes
	for _, v := range []uint8{c.G, c.R, c.B, 255, 0} {
		put(1, 1) // simple code
		put(0, 1) // of one symbol
		put(1, 1) // of eight bits
		put(uint32(v), 8)
	}
	return append(bits, 0, 0, 0)
}

// vp8x is the extended header: flags for Exif only.
func vp8x(w, h int) []byte {
	return []byte{1 << 3, 0, 0, 0, byte(w - 1), byte((w - 1) >> 8), 0, byte(h - 1), byte((h - 1) >> 8), 0}
}

// hugePNG is a header that promises w × h pixels and holds none of them.
func hugePNG(w, h int, depth byte) []byte {
	b := []byte("\x89PNG\r\n\x1a\n")
	body := append([]byte("IHDR"), 0, 0, 0, 0, 0, 0, 0, 0, depth, 2, 0, 0, 0)
	binary.BigEndian.PutUint32(body[4:], uint32(w))
	binary.BigEndian.PutUint32(body[8:], uint32(h))
	b = binary.BigEndian.AppendUint32(b, 13)
	b = append(b, body...)
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(body))
}
