package photo

import (
	"image"
	"math"

	"golang.org/x/image/vector"
)

// tint is red, green and blue, 0 to 1.
type tint [3]float64

func (t tint) times(k float64) tint { return tint{t[0] * k, t[1] * k, t[2] * k} }

func (t tint) to(u tint, share float64) tint {
	share = math.Min(math.Max(share, 0), 1)
	return tint{t[0] + (u[0]-t[0])*share, t[1] + (u[1]-t[1])*share, t[2] + (u[2]-t[2])*share}
}

// shade gives a spot its tint and how much of it covers, 0 to 1.
type shade func(p Spot) (tint, float64)

func flat(t tint) shade { return func(Spot) (tint, float64) { return t, 1 } }

// canvas paints the sample in metres on the car.
type canvas struct {
	w, h  int
	scale Scale
	pix   []tint
}

func newCanvas(w, h int, s Scale) *canvas { return &canvas{w, h, s, make([]tint, w*h)} }

// across shades every pixel between two heights.
func (c *canvas) across(low, high float64, s shade) {
	for y := range c.h {
		for x := range c.w {
			p := c.scale.Spot(Point{float64(x) + 0.5, float64(y) + 0.5})
			if p.Z < low || p.Z > high {
				continue
			}
			t, a := s(p)
			if a > 0 {
				c.pix[y*c.w+x] = c.pix[y*c.w+x].to(t, a)
			}
		}
	}
}

// fill shades the inside of a path, its edge blended.
func (c *canvas) fill(s shade, paths ...[]Spot) {
	box := image.Rectangle{}
	for _, path := range paths {
		for _, p := range path {
			q := c.scale.Pixel(p)
			r := image.Rect(int(math.Floor(q.X))-1, int(math.Floor(q.Y))-1, int(math.Ceil(q.X))+1, int(math.Ceil(q.Y))+1)
			box = box.Union(r)
		}
	}
	box = box.Intersect(image.Rect(0, 0, c.w, c.h))
	if box.Empty() {
		return
	}
	z := vector.NewRasterizer(box.Dx(), box.Dy())
	for _, path := range paths {
		for i, p := range path {
			q := c.scale.Pixel(p)
			x, y := float32(q.X-float64(box.Min.X)), float32(q.Y-float64(box.Min.Y))
			if i == 0 {
				z.MoveTo(x, y)
			} else {
				z.LineTo(x, y)
			}
		}
		z.ClosePath()
	}
	mask := image.NewAlpha(image.Rect(0, 0, box.Dx(), box.Dy()))
	z.Draw(mask, mask.Rect, image.Opaque, image.Point{})
	for y := range box.Dy() {
		for x := range box.Dx() {
			a := float64(mask.Pix[y*mask.Stride+x]) / 255
			if a == 0 {
				continue
			}
			px, py := x+box.Min.X, y+box.Min.Y
			t, b := s(c.scale.Spot(Point{float64(px) + 0.5, float64(py) + 0.5}))
			i := py*c.w + px
			c.pix[i] = c.pix[i].to(t, a*b)
		}
	}
}

// stroke draws a run of spots as a line of the width [m].
func (c *canvas) stroke(s shade, width float64, path []Spot) {
	for i := range len(path) - 1 {
		a, b := path[i], path[i+1]
		n := math.Hypot(b.X-a.X, b.Z-a.Z)
		if n == 0 {
			continue
		}
		dx, dz := -(b.Z-a.Z)/n*width/2, (b.X-a.X)/n*width/2
		c.fill(s, []Spot{{a.X + dx, a.Z + dz}, {b.X + dx, b.Z + dz}, {b.X - dx, b.Z - dz}, {a.X - dx, a.Z - dz}})
	}
}

// ellipse is a closed run.
func ellipse(x, z, rx, rz float64) []Spot {
	var out []Spot
	for i := range 96 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 48)
		out = append(out, Spot{x + rx*cos, z + rz*sin})
	}
	return out
}

// developed adds what a small sensor adds: a little grain, corners a little darker.
func (c *canvas) developed() *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, c.w, c.h))
	for y := range c.h {
		for x := range c.w {
			rx, ry := float64(x)/float64(c.w)-0.5, float64(y)/float64(c.h)-0.5
			k := 1 - 0.22*(rx*rx+ry*ry)
			grain := (speck(x, y) - 0.5) * 0.009
			t := c.pix[y*c.w+x]
			p := m.Pix[y*m.Stride+4*x:]
			for i := range 3 {
				p[i] = uint8(math.Min(math.Max(t[i]*k+grain, 0), 1)*255 + 0.5)
			}
			p[3] = 255
		}
	}
	return m
}

// speck is a fixed number from 0 to 1 for each pair of whole numbers.
func speck(x, y int) float64 {
	h := uint32(x)*0x9e3779b1 ^ uint32(y)*0x85ebca6b
	h ^= h >> 15
	h *= 0x2c1b3c6d
	h ^= h >> 12
	h *= 0x297a2d39
	h ^= h >> 15
	return float64(h) / math.MaxUint32
}

// cloud is smooth noise from 0 to 1 with octaves of half size and half strength.
func cloud(x, y float64, octaves int) float64 {
	sum, most, amp := 0.0, 0.0, 1.0
	for range octaves {
		ix, iy := math.Floor(x), math.Floor(y)
		fx, fy := x-ix, y-iy
		fx, fy = fx*fx*(3-2*fx), fy*fy*(3-2*fy)
		i, j := int(ix), int(iy)
		a := speck(i, j) + (speck(i+1, j)-speck(i, j))*fx
		b := speck(i, j+1) + (speck(i+1, j+1)-speck(i, j+1))*fx
		sum += amp * (a + (b-a)*fy)
		most += amp
		x, y, amp = 2*x+17.3, 2*y+5.1, amp/2
	}
	return sum / most
}

// ramp goes smoothly from 0 at a to 1 at b, which may lie below a.
func ramp(v, a, b float64) float64 {
	t := math.Min(math.Max((v-a)/(b-a), 0), 1)
	return t * t * (3 - 2*t)
}
