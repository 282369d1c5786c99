package photo

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/draw"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"
	"strings"

	"golang.org/x/image/webp"
)

// format is a kind of picture that is read.
type format struct {
	name   string
	config func(io.Reader) (image.Config, error)
	decode func(io.Reader) (image.Image, error)
	exif   func([]byte) []byte            // the TIFF block of its metadata, nil when there is none
	cost   func([]byte, image.Config) int // [B] what the decoder allocates at most
	ended  func([]byte) bool              // the file's own closing mark is there
}

var formats = []struct {
	format
	magic func([]byte) bool
}{
	{format{"JPEG", jpeg.DecodeConfig, jpeg.Decode, jpegExif, jpegCost, jpegEnded}, begins("\xff\xd8\xff")},
	{format{"PNG", png.DecodeConfig, png.Decode, pngExif, pngCost, pngEnded}, begins("\x89PNG\r\n\x1a\n")},
	{format{"GIF", gif.DecodeConfig, firstFrame, nothing, gifCost, gifEnded}, func(b []byte) bool {
		return begins("GIF87a")(b) || begins("GIF89a")(b)
	}},
	{format{"WebP", webp.DecodeConfig, decodeWebP, webpExif, webpCost, webpEnded}, func(b []byte) bool {
		return begins("RIFF")(b) && len(b) >= 12 && string(b[8:12]) == "WEBP"
	}},
}

func begins(s string) func([]byte) bool {
	return func(b []byte) bool { return bytes.HasPrefix(b, []byte(s)) }
}

func nothing([]byte) []byte { return nil }

// Words for the person who holds the telephone.
const (
	sendJPEG = "Set the telephone's camera to save as JPEG (in its settings under formats, often called most compatible) and take it again, " +
		"or let the telephone convert it when sending"
	sendPicture = "Send a photograph as JPEG, PNG, GIF or WebP"
	sendAgain   = "Send it again from where it was taken"
)

// formatOf looks at the first bytes; a name's ending is never believed.
func formatOf(b []byte) (format, *Refusal) {
	if len(b) == 0 {
		return format{}, refuse(Empty, sendAgain, "there is nothing in it")
	}
	for _, f := range formats {
		if f.magic(b) {
			return f.format, nil
		}
	}
	for _, o := range others {
		if o.magic(b) {
			return format{}, refuse(o.why, o.fix, "this is %s", o.what)
		}
	}
	if readable(b) {
		return format{}, refuse(NotPicture, sendPicture, "this is text and not a picture")
	}
	return format{}, refuse(NotPicture, sendPicture, "this is not a picture, or not of a kind that is known here")
}

// others are known by name only, so that the sentence can say what the file is.
var others = []struct {
	magic     func([]byte) bool
	why       Why
	what, fix string
}{
	{brand("heic", "heix", "hevc", "hevx", "heim", "heis", "mif1", "msf1"), WrongFormat, "a HEIC picture, which is not read here", sendJPEG},
	{brand("avif", "avis"), WrongFormat, "an AVIF picture, which is not read here", sendJPEG},
	{brand("crx "), WrongFormat, "a camera's raw file, which is not read here", sendJPEG},
	{brand(), NotPicture, "a film and not a picture", "Take a photograph, or a still from the film"},
	{begins("II*\x00"), WrongFormat, "a TIFF or a camera's raw file, which is not read here", sendJPEG},
	{begins("MM\x00*"), WrongFormat, "a TIFF or a camera's raw file, which is not read here", sendJPEG},
	{begins("\xff\x0a"), WrongFormat, "a JPEG XL picture, which is not read here", sendJPEG},
	{begins("\x00\x00\x00\x0cJXL "), WrongFormat, "a JPEG XL picture, which is not read here", sendJPEG},
	{begins("BM"), WrongFormat, "a BMP picture, which is not read here", sendPicture},
	{begins("%PDF-"), NotPicture, "a PDF and not a picture", sendPicture},
	{begins("PK\x03\x04"), NotPicture, "a packed folder or a document and not a picture", "Unpack it and send the photograph itself"},
	{begins("\x1aE\xdf\xa3"), NotPicture, "a film and not a picture", "Take a photograph, or a still from the film"},
	{func(b []byte) bool {
		head := strings.ToLower(string(b[:min(len(b), 512)]))
		return strings.Contains(head, "<svg")
	}, NotPicture, "a drawing (SVG) and not a photograph", sendPicture},
}

// brand tells an ISO base media file whose major brand, or one of whose
// compatible brands, is among the names; without names any such file.
//
// ISO/IEC 14496-12, 4.3: size [4], "ftyp", major brand [4], version [4],
// compatible brands [4 each] (M).
func brand(names ...string) func([]byte) bool {
	return func(b []byte) bool {
		if len(b) < 12 || string(b[4:8]) != "ftyp" {
			return false
		}
		if len(names) == 0 {
			return true
		}
		end := min(int(binary.BigEndian.Uint32(b)), len(b), 256)
		for at := 8; at+4 <= max(end, 12); at += 4 {
			if at == 12 {
				continue // the version
			}
			for _, n := range names {
				if string(b[at:at+4]) == n {
					return true
				}
			}
		}
		return false
	}
}

// readable tells text from other bytes by its first 512.
func readable(b []byte) bool {
	for _, c := range b[:min(len(b), 512)] {
		if c < ' ' && c != '\n' && c != '\r' && c != '\t' {
			return false
		}
	}
	return true
}

// sof is what a JPEG's frame header says.
type sof struct {
	progressive, adobe bool
	samples            float64 // samples for each pixel, all components
	components         int
}

// segments hands over each marker segment of a JPEG before its first scan.
// ITU-T T.81, B.1.1.3 and B.1.1.4 (M).
func segments(b []byte, each func(marker byte, body []byte) (more bool)) {
	for at := 2; at+4 <= len(b); {
		if b[at] != 0xff {
			return
		}
		m := b[at+1]
		if m == 0xff { // fill byte
			at++
			continue
		}
		n := int(binary.BigEndian.Uint16(b[at+2:]))
		if m == 0xda || m == 0xd9 || n < 2 || at+2+n > len(b) {
			return
		}
		if !each(m, b[at+4:at+2+n]) {
			return
		}
		at += 2 + n
	}
}

func frameOf(b []byte) sof {
	f := sof{samples: 3, components: 3}
	segments(b, func(m byte, body []byte) bool {
		switch {
		case m == 0xee && bytes.HasPrefix(body, []byte("Adobe")):
			f.adobe = true
		case (m == 0xc0 || m == 0xc1 || m == 0xc2) && len(body) >= 6:
			f.progressive = m == 0xc2
			f.components = int(body[5])
			if len(body) < 6+3*f.components {
				return false
			}
			var sum, most int
			for i := range f.components {
				hv := body[6+3*i+1]
				s := int(hv>>4) * int(hv&15)
				sum, most = sum+s, max(most, s)
			}
			if most > 0 {
				f.samples = float64(sum) / float64(most)
			}
			return true
		}
		return true
	})
	return f
}

// jpegCost: one byte for a sample, four more for its coefficient when the file
// is progressive, and four bytes for a pixel when colours are converted.
func jpegCost(b []byte, c image.Config) int {
	f := frameOf(b)
	each := f.samples
	if f.progressive {
		each *= 5
	}
	if f.adobe || f.components == 4 {
		each += 4
	}
	return int(each * float64(c.Width) * float64(c.Height))
}

// pngCost: up to eight bytes for a pixel of 16 bits, half as much again when
// interlaced. PNG specification, 11.2.2 IHDR (M).
func pngCost(b []byte, c image.Config) int {
	each := 4.0
	if len(b) > 28 {
		if b[24] == 16 {
			each = 8
		}
		if b[28] != 0 {
			each *= 1.5
		}
	}
	return int(each * float64(c.Width) * float64(c.Height))
}

// gifCost: one byte for a pixel, four more where the first frame is but a part.
func gifCost(_ []byte, c image.Config) int { return 5 * c.Width * c.Height }

// webpCost: a lossless picture is held twice at four bytes, a lossy one at one
// and a half, its transparency as a lossless picture of its own.
func webpCost(b []byte, c image.Config) int {
	each := 2.0
	lossless := len(b) >= 16 && string(b[12:16]) == "VP8L"
	if len(b) > 20 && string(b[12:16]) == "VP8X" {
		if b[20]&(1<<4) != 0 {
			each += 10
		}
		lossless = bytes.Contains(b[:min(len(b), 4096)], []byte("VP8L"))
	}
	if lossless {
		each = 10
	}
	return int(each * float64(c.Width) * float64(c.Height))
}

// firstFrame is the first frame of a GIF on its whole canvas.
func firstFrame(r io.Reader) (image.Image, error) {
	var head bytes.Buffer
	c, err := gif.DecodeConfig(io.TeeReader(r, &head))
	if err != nil {
		return nil, err
	}
	m, err := gif.Decode(io.MultiReader(&head, r))
	if err != nil || m.Bounds() == image.Rect(0, 0, c.Width, c.Height) {
		return m, err
	}
	whole := image.NewRGBA(image.Rect(0, 0, c.Width, c.Height))
	draw.Draw(whole, m.Bounds(), m, m.Bounds().Min, draw.Src)
	return whole, nil
}

// decodeWebP widens a lossy picture's values. VP8 codes luma in 16 to 235 and
// chroma in 16 to 240, while image.YCbCr means 0 to 255; without this, black is
// grey and white is dull. ITU-R BT.601, 2.5.3; RFC 6386, 9.2 (M).
func decodeWebP(r io.Reader) (image.Image, error) {
	m, err := webp.Decode(r)
	if err != nil {
		return nil, err
	}
	var p *image.YCbCr
	switch v := m.(type) {
	case *image.YCbCr:
		p = v
	case *image.NYCbCrA:
		p = &v.YCbCr
	default:
		return m, nil
	}
	var luma, chroma [256]uint8
	for i := range 256 {
		luma[i] = uint8(min(max((i-16)*255+109, 0)/219, 255))
		chroma[i] = uint8(min(max((i-16)*255+112, 0)/224, 255))
	}
	for i, v := range p.Y {
		p.Y[i] = luma[v]
	}
	for i := range p.Cb {
		p.Cb[i], p.Cr[i] = chroma[p.Cb[i]], chroma[p.Cr[i]]
	}
	return m, nil
}

// The closing marks: end of image after the first scan; IEND; the trailer; the
// length that RIFF promises.

func jpegEnded(b []byte) bool {
	scan := 2
	segments(b, func(_ byte, body []byte) bool { scan += 4 + len(body); return true })
	return scan < len(b) && bytes.Contains(b[scan-2:], []byte("\xff\xd9"))
}

func pngEnded(b []byte) bool { return bytes.Contains(b, []byte("IEND\xaeB`\x82")) }

func gifEnded(b []byte) bool { return bytes.HasSuffix(bytes.TrimRight(b, "\x00"), []byte(";")) }

func webpEnded(b []byte) bool {
	return len(b) >= 8 && int64(binary.LittleEndian.Uint32(b[4:]))+8 <= int64(len(b))
}
