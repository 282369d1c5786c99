package photo

import (
	"cmp"
	"math"
	"slices"
)

func sortBy[T any](s []T, key func(T) float64) {
	slices.SortFunc(s, func(a, b T) int { return cmp.Compare(key(a), key(b)) })
}

// copy gives the pixel the colour that lies dv above it [px]; whole pixels in a
// level picture are copied as they are.
func (m *mover) copy(x, y int, dv float64) {
	s := m.scale
	fx, fy := float64(x)+dv*s.ez[0], float64(y)+dv*s.ez[1]
	x0, y0 := math.Floor(fx), math.Floor(fy)
	ax, ay := int32((fx-x0)*256+0.5), int32((fy-y0)*256+0.5)
	xa, ya := int(x0), int(y0)
	w, h, stride := m.src.Rect.Dx(), m.src.Rect.Dy(), m.src.Stride
	xb, yb := min(max(xa+1, 0), w-1), min(max(ya+1, 0), h-1)
	xa, ya = min(max(xa, 0), w-1), min(max(ya, 0), h-1)
	pix := m.src.Pix
	d := m.dst.Pix[y*m.dst.Stride+4*x:][:4:4]
	p := pix[ya*stride+4*xa:][:4:4]
	if ax == 0 && ay == 0 {
		d[0], d[1], d[2] = p[0], p[1], p[2]
		return
	}
	r := pix[yb*stride+4*xa:][:4:4]
	if ax == 0 {
		for i := range 3 {
			a := int32(p[i])
			d[i] = uint8((a<<8 + (int32(r[i])-a)*ay + 128) >> 8)
		}
		return
	}
	q, t := pix[ya*stride+4*xb:][:4:4], pix[yb*stride+4*xb:][:4:4]
	for i := range 3 {
		a := int32(p[i])<<8 + (int32(q[i])-int32(p[i]))*ax
		b := int32(r[i])<<8 + (int32(t[i])-int32(r[i]))*ax
		d[i] = uint8((a<<8 + (b-a)*ay + 1<<15) >> 16)
	}
}

// sample is the colour that lies dv above the pixel [px].
func (m *mover) sample(x, y int, dv float64) [3]float64 { return m.sampleAt(x, y, 0, dv) }

// sampleAt is the colour that lies du rearwards of and dv above the pixel [px],
// between the four pixels round it; beyond the picture its edge goes on.
func (m *mover) sampleAt(x, y int, du, dv float64) [3]float64 {
	s := m.scale
	fx, fy := float64(x)+du*s.ex[0]+dv*s.ez[0], float64(y)+du*s.ex[1]+dv*s.ez[1]
	x0, y0 := math.Floor(fx), math.Floor(fy)
	ax, ay := fx-x0, fy-y0
	w, h := m.src.Rect.Dx(), m.src.Rect.Dy()
	at := func(px, py int) []uint8 {
		return m.src.Pix[min(max(py, 0), h-1)*m.src.Stride+4*min(max(px, 0), w-1):][:3:3]
	}
	ix, iy := int(x0), int(y0)
	p, q, r, t := at(ix, iy), at(ix+1, iy), at(ix, iy+1), at(ix+1, iy+1)
	var out [3]float64
	for i := range out {
		a := float64(p[i]) + (float64(q[i])-float64(p[i]))*ax
		b := float64(r[i]) + (float64(t[i])-float64(r[i]))*ax
		out[i] = a + (b-a)*ay
	}
	return out
}

func (m *mover) put(x, y int, c [3]float64) {
	d := m.dst.Pix[y*m.dst.Stride+4*x:][:3:3]
	for i := range d {
		d[i] = uint8(c[i] + 0.5)
	}
}
