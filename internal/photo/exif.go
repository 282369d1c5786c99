package photo

import (
	"bytes"
	"encoding/binary"
	"strings"
	"time"
)

// said is the little that is read of a picture's metadata. Nothing else is
// looked at, the place where it was taken least of all.
type said struct {
	turn  int       // EXIF orientation 1 to 8; 1 when it is not said
	taken time.Time // zero when it is not said
	zone  bool      // taken carries its offset from UTC
}

// Tags of Exif 2.32 (CIPA DC-008): table 4 and table 8 (M; the test holds them
// against an independent reader).
const (
	tagOrientation = 0x0112
	tagDateTime    = 0x0132
	tagExifIFD     = 0x8769
	tagOriginal    = 0x9003
	tagOffsetOrig  = 0x9011
)

// readSaid reads a TIFF block: its first directory and the one for the
// exposure, each once. What is out of place is left out; it never fails.
func readSaid(b []byte) said {
	out := said{turn: 1}
	var order binary.ByteOrder
	switch {
	case len(b) < 8:
		return out
	case string(b[:4]) == "II*\x00":
		order = binary.LittleEndian
	case string(b[:4]) == "MM\x00*":
		order = binary.BigEndian
	default:
		return out
	}
	first := directory(b, order, order.Uint32(b[4:]))
	if v, ok := first.number(tagOrientation); ok && v >= 1 && v <= 8 {
		out.turn = int(v)
	}
	text, zone := "", ""
	if at, ok := first.number(tagExifIFD); ok {
		exposure := directory(b, order, at)
		text, zone = exposure.text(tagOriginal), exposure.text(tagOffsetOrig)
	}
	if text == "" {
		text, zone = first.text(tagDateTime), ""
	}
	out.taken, out.zone = readTaken(text, zone)
	return out
}

// readTaken reads "2006:01:02 15:04:05" and "+01:00". Without an offset the time
// is that of the camera's clock, held as if it were UTC.
func readTaken(text, zone string) (time.Time, bool) {
	if t, err := time.Parse("2006:01:02 15:04:05-07:00", text+zone); zone != "" && err == nil {
		return t, true
	}
	t, err := time.Parse("2006:01:02 15:04:05", text)
	if err != nil || t.Year() < 1990 {
		return time.Time{}, false // a camera whose clock was never set
	}
	return t, false
}

// entries is one directory of a TIFF block.
type entries struct {
	block []byte
	order binary.ByteOrder
	rows  []byte // 12 bytes each: tag, type, count, value or place
}

func directory(b []byte, order binary.ByteOrder, at uint32) entries {
	e := entries{block: b, order: order}
	if int64(at)+2 > int64(len(b)) {
		return e
	}
	rows := b[at+2:]
	n := min(int(order.Uint16(b[at:])), len(rows)/12)
	e.rows = rows[:12*n]
	return e
}

func (e entries) find(tag uint16) []byte {
	for r := e.rows; len(r) >= 12; r = r[12:] {
		if e.order.Uint16(r) == tag {
			return r[:12]
		}
	}
	return nil
}

// number is a single SHORT or LONG.
func (e entries) number(tag uint16) (uint32, bool) {
	r := e.find(tag)
	if r == nil || e.order.Uint32(r[4:]) != 1 {
		return 0, false
	}
	switch e.order.Uint16(r[2:]) {
	case 3:
		return uint32(e.order.Uint16(r[8:])), true
	case 4:
		return e.order.Uint32(r[8:]), true
	}
	return 0, false
}

// text is ASCII of at most 64 characters, without its closing zero.
func (e entries) text(tag uint16) string {
	r := e.find(tag)
	if r == nil || e.order.Uint16(r[2:]) != 2 {
		return ""
	}
	n, at := e.order.Uint32(r[4:]), e.order.Uint32(r[8:])
	if n < 5 || n > 64 || int64(at)+int64(n) > int64(len(e.block)) {
		return ""
	}
	return strings.TrimSpace(strings.TrimRight(string(e.block[at:at+n]), "\x00"))
}

// jpegExif is the TIFF block of the first Exif segment.
func jpegExif(b []byte) (block []byte) {
	segments(b, func(m byte, body []byte) bool {
		if m == 0xe1 && bytes.HasPrefix(body, []byte("Exif\x00\x00")) {
			block = body[6:]
			return false
		}
		return true
	})
	return block
}

// pngExif is the chunk eXIf, wherever it stands.
func pngExif(b []byte) []byte {
	for at := 8; at+12 <= len(b); {
		n := int64(binary.BigEndian.Uint32(b[at:]))
		if int64(at)+12+n > int64(len(b)) {
			return nil
		}
		if string(b[at+4:at+8]) == "eXIf" {
			return b[at+8 : at+8+int(n)]
		}
		at += 12 + int(n)
	}
	return nil
}

// webpExif is the chunk EXIF; some writers put the JPEG's prefix before it.
func webpExif(b []byte) []byte {
	for at := 12; at+8 <= len(b); {
		n := int64(binary.LittleEndian.Uint32(b[at+4:]))
		if int64(at)+8+n > int64(len(b)) {
			return nil
		}
		if string(b[at:at+4]) == "EXIF" {
			return bytes.TrimPrefix(b[at+8:at+8+int(n)], []byte("Exif\x00\x00"))
		}
		at += 8 + int(n+n&1)
	}
	return nil
}
