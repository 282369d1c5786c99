package photo

import (
	"image"
	"image/color"
	"image/draw"
)

// shrink averages the picture over white to w × h pixels, neither larger than
// the picture's own.
//
// Each new pixel is the mean of the old ones under it, those at its edge counted
// by the share under it. The picture is read a row at a time, so that besides the
// result only three rows are held, whatever the picture's size and kind. Means
// are taken of the values as they are coded.
func shrink(src image.Image, w, h int) *image.RGBA {
	b := src.Bounds()
	dst := image.NewRGBA(image.Rect(0, 0, w, h))
	if b.Dx() == w && b.Dy() == h {
		draw.Draw(dst, dst.Bounds(), image.NewUniform(color.White), image.Point{}, draw.Src)
		draw.Draw(dst, dst.Bounds(), src, b.Min, draw.Over)
		return dst
	}
	row := image.NewRGBA(image.Rect(0, 0, b.Dx(), 1))
	now, next := make([]float32, 3*w), make([]float32, 3*w)
	flat := make([]float32, 3*w)
	fx := newFold(b.Dx(), w)
	fy := newFold(b.Dy(), h)
	white := image.NewUniform(color.White)
	for y := range b.Dy() {
		draw.Draw(row, row.Bounds(), white, image.Point{}, draw.Src)
		draw.Draw(row, row.Bounds(), src, image.Pt(b.Min.X, b.Min.Y+y), draw.Over)
		fx.row(flat, row.Pix)
		share := fy.share[y]
		for i, v := range flat {
			now[i] += share * v
			next[i] += (1 - share) * v
		}
		if y+1 == b.Dy() || fy.into[y+1] > fy.into[y] {
			fy.write(dst, fy.into[y], fx, now)
			now, next = next, now
			clear(next)
		}
	}
	return dst
}

// fold says into which of the new pixels each old one goes and which share of it
// goes there; the rest goes into the one after.
type fold struct {
	into  []int
	share []float32 // [1]
	size  float32   // old pixels for each new one [1]
}

func newFold(from, to int) fold {
	f := fold{into: make([]int, from), share: make([]float32, from), size: float32(from) / float32(to)}
	for i := range from {
		// Old pixel i is [i, i+1) of from, that is [i·to, (i+1)·to) in units in which
		// a new pixel is from long.
		lo, hi := i*to, (i+1)*to
		k := lo / from
		f.into[i], f.share[i] = k, 1
		if edge := (k + 1) * from; hi > edge {
			f.share[i] = float32(edge-lo) / float32(to)
		}
	}
	return f
}

// row folds one row of RGBA into sums of red, green and blue.
func (f fold) row(out []float32, pix []uint8) {
	clear(out)
	last := len(out) - 3
	for i, k := range f.into {
		p := pix[4*i : 4*i+3 : 4*i+3]
		r, g, b := float32(p[0]), float32(p[1]), float32(p[2])
		o := out[3*k : 3*k+3 : 3*k+3]
		s := f.share[i]
		o[0] += s * r
		o[1] += s * g
		o[2] += s * b
		if s < 1 && 3*k < last {
			o = out[3*k+3 : 3*k+6 : 3*k+6]
			o[0] += (1 - s) * r
			o[1] += (1 - s) * g
			o[2] += (1 - s) * b
		}
	}
}

// write divides the sums of a finished row.
func (f fold) write(dst *image.RGBA, y int, fx fold, sum []float32) {
	area := 1 / (f.size * fx.size)
	pix := dst.Pix[y*dst.Stride:]
	for x := range len(sum) / 3 {
		for c := range 3 {
			pix[4*x+c] = uint8(min(sum[3*x+c]*area+0.5, 255))
		}
		pix[4*x+3] = 255
	}
}

// upright turns and mirrors a picture by its EXIF orientation: 2 mirrored, 3 half
// a turn, 4 upside down in the mirror, 5 mirrored and turned, 6 to be turned a
// quarter clockwise, 7 mirrored and turned the other way, 8 a quarter anticlockwise.
func upright(m *image.RGBA, turn int) *image.RGBA {
	if turn < 2 || turn > 8 {
		return m
	}
	w, h := m.Rect.Dx(), m.Rect.Dy()
	if turn > 4 {
		w, h = h, w
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			sx, sy := x, y
			switch turn {
			case 2:
				sx = w - 1 - x
			case 3:
				sx, sy = w-1-x, h-1-y
			case 4:
				sy = h - 1 - y
			case 5:
				sx, sy = y, x
			case 6:
				sx, sy = y, w-1-x
			case 7:
				sx, sy = h-1-y, w-1-x
			case 8:
				sx, sy = h-1-y, x
			}
			copy(out.Pix[y*out.Stride+4*x:][:4], m.Pix[sy*m.Stride+4*sx:][:4])
		}
	}
	return out
}
