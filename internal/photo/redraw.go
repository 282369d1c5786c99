package photo

import (
	"image"
	"math"
)

// Redrawn is a picture with the body at another height.
type Redrawn struct {
	Image  *image.RGBA // of the same size; the scale of the old one holds
	Unseen []Unseen    // what the picture cannot show, to be printed under it
}

// Redraw moves the body in the picture over its wheels by true millimetres; the
// wheels and the floor stay where they are. Nothing is drawn into the picture: a
// hump, a kerb or a ramp goes over it by Scale.Pixel.
//
// Each pixel takes its colour from another height z of the same upright line
// through the car. With d(x) the movement, b(x) the body's lower and t(x) its
// upper edge, the height looked up for the height z of the new picture is
//
//	z                                   above t + band (the background)
//	t + (z − t − d)·band/(band − d)     from t + d up: the background, stretched
//	z − d                               from b + d to t + d: the body, rigid
//	l + (z − l)·(b − l)/(b + d − l)     from l to b + d: what was seen beneath the body, stretched
//	z                                   beneath l: tyres, floor
//
// with l the top of the tyre where there is one, else a little beneath the body,
// and never the floor itself. Where the body goes beneath l it covers what is
// there. Each is monotone, so nothing is seen twice. A tyre's top that the arch hid is
// taken from the same tyre at the same radius, further round. If no inside of the
// arch was seen, the gap takes the darkest tone of the tyre.
//
// Sampling is bilinear; a movement of whole pixels in a level picture copies them,
// no movement copies the picture. The arches' edges are blended over one pixel. d
// is linear in x; by turning the body with its pitch φ instead of shearing it the
// roof would move along by φ·z, which is reported and not drawn.
//
// The error is a *Refusal.
func Redraw(img image.Image, s Scale, h Shape, c Change) (Redrawn, error) {
	if s.PixelsPerMetre <= 0 || s.Wheelbase <= 0 {
		return Redrawn{}, refuse(NoScale, "Point at both wheels in the picture and give the wheelbase", "its scale is not known yet")
	}
	if err := h.check(s); err != nil {
		return Redrawn{}, err
	}
	if err := c.check(); err != nil {
		return Redrawn{}, err
	}
	src := rgba(img)
	out := image.NewRGBA(src.Rect)
	for y := range src.Rect.Dy() { // rows of a part of a larger picture lie apart
		copy(out.Pix[y*out.Stride:], src.Pix[y*src.Stride:y*src.Stride+4*src.Rect.Dx()])
	}
	m := mover{src: src, dst: out, scale: s}
	if c != (Change{}) {
		m.lay(h, c)
		m.paint()
	}
	return Redrawn{Image: out, Unseen: unseen(s, h, c, m.hidden)}, nil
}

const (
	bandOver  = 0.35 // [m] of background over the body that is stretched
	bandUnder = 0.12 // [m] of floor and shadow beneath the body that is stretched, at least
	fade      = 0.02 // [m] before and behind the body over which the movement fades out
	perPixel  = 2    // columns laid out for each pixel
	leastGap  = 3.0  // [px] of the inside of an arch that must have been seen to be stretched
)

// column is how one upright line through the car moves, all in pixels above the
// floor.
type column struct {
	d         float64 // movement of the body
	top, hi   float64 // upper edge as it was; where the background rests again
	bot, lo   float64 // lower edge as it was; what is beneath lo rests
	over      float64 // height looked up for each pixel of the stretched background [1]
	under     float64 // the same beneath the body [1]
	soft      float64 // half of the height in which the lower edge covers a pixel partly
	wheel     *disc   // the tyre in this column, nil for none
	blindArch bool    // no inside of the arch was seen here
}

// disc is a tyre.
type disc struct {
	u, v, r float64 // [px] rearwards, up, radius with the rim of pixels that stays with it
	tyre    float64 // [px] radius
	dark    [3]float64
}

// mover holds one redrawing.
type mover struct {
	src, dst *image.RGBA
	scale    Scale
	cols     []column
	u0       float64 // [px] of the first column
	wheels   [2]disc
	highest  float64 // [px] above which nothing moves
	hidden   float64 // [m] of tyre that was drawn without having been seen
}

// lay works out the columns.
func (m *mover) lay(h Shape, c Change) {
	k := m.scale.PixelsPerMetre
	// A rim of the tyre's own pixels stays with it.
	rim := func(r float64) float64 { return r*k + math.Max(1.5, 0.01*r*k) }
	m.wheels = [2]disc{
		{u: 0, v: m.scale.FrontHeight * k, r: rim(h.TyreFront), tyre: h.TyreFront * k},
		{u: m.scale.Wheelbase * k, v: m.scale.RearHeight * k, r: rim(h.TyreRear), tyre: h.TyreRear * k},
	}
	x0, x1 := h.span()
	m.u0 = (x0 - fade) * k
	n := int(math.Ceil((x1-x0+2*fade)*k*perPixel)) + 1
	m.cols = make([]column, n)
	top, bottom := line(h.Top), line(h.Bottom)
	for i := range m.cols {
		u := m.u0 + float64(i)/perPixel
		x := u / k
		inside := math.Min(math.Max(x, x0), x1)
		share := 1 - math.Min(math.Abs(x-inside)/fade, 1)
		col := column{
			d:   c.At(inside, m.scale.Wheelbase) * k * share,
			top: top.at(inside) * k, bot: bottom.at(inside) * k,
		}
		col.finish(m.near(u), u, k)
		m.cols[i] = col
		m.highest = math.Max(m.highest, col.hi)
	}
	for i := range m.cols {
		before, after := m.cols[max(i-1, 0)], m.cols[min(i+1, n-1)]
		slope := math.Min(math.Abs(after.bot-before.bot)*perPixel/2, 20)
		m.cols[i].soft = 0.5 * math.Hypot(1, slope)
	}
	for i := range m.wheels {
		m.wheels[i].dark = m.darkOf(&m.wheels[i])
	}
}

// near is the wheel whose arch the column is likely to belong to, nil for none.
func (m *mover) near(u float64) *disc {
	for i := range m.wheels {
		if math.Abs(u-m.wheels[i].u) < 1.4*m.wheels[i].r {
			return &m.wheels[i]
		}
	}
	return nil
}

// finish lays out what is stretched over and beneath the body.
func (c *column) finish(w *disc, u, k float64) {
	band := math.Max(bandOver*k, 2*math.Abs(c.d))
	c.hi = c.top + band
	c.over = band / (band - c.d)
	under := math.Min(0.75*c.bot, math.Max(bandUnder*k, 2.5*math.Abs(c.d)))
	c.lo = c.bot - under
	if w != nil {
		if off := math.Abs(u - w.u); off < w.r {
			c.wheel = w
			tyre := w.v + math.Sqrt(w.r*w.r-off*off)
			c.blindArch = c.bot-tyre < leastGap
			c.lo = math.Max(c.lo, tyre)
		} else {
			// Beside the tyre what rests sinks from the hub's height to the floor, so that
			// nothing tears at the tyre's side.
			rests := w.v * (1 - (off-w.r)/(0.4*w.r))
			c.lo = math.Max(c.lo, math.Min(rests, c.bot-0.4*under))
		}
	}
	if room := c.bot + c.d - c.lo; room > 0 {
		c.under = (c.bot - c.lo) / room
	}
}

// at is the column of u [px], or nil beyond the body.
func (m *mover) at(u float64) *column {
	i := int(math.Round((u - m.u0) * perPixel))
	if i < 0 || i >= len(m.cols) {
		return nil
	}
	return &m.cols[i]
}

// paint visits the pixels in the box round everything that moves.
func (m *mover) paint() {
	s := m.scale
	box := m.box()
	// u and v of a pixel's middle are linear in its place.
	for y := box.Min.Y; y < box.Max.Y; y++ {
		dx, dy := float64(box.Min.X)+0.5-s.origin.X, float64(y)+0.5-s.origin.Y
		u, v := dx*s.ex[0]+dy*s.ex[1], dx*s.ez[0]+dy*s.ez[1]
		for x := box.Min.X; x < box.Max.X; x, u, v = x+1, u+s.ex[0], v+s.ez[0] {
			if col := m.at(u); col != nil && v < col.hi && v > 0 {
				m.pixel(x, y, u, v, col)
			}
		}
	}
}

// box is the part of the picture in which something moves.
func (m *mover) box() image.Rectangle {
	u1 := m.u0 + float64(len(m.cols))/perPixel
	var r image.Rectangle
	for i, c := range [][2]float64{{m.u0, 0}, {u1, 0}, {m.u0, m.highest}, {u1, m.highest}} {
		s := m.scale
		x, y := s.origin.X+c[0]*s.ex[0]+c[1]*s.ez[0], s.origin.Y+c[0]*s.ex[1]+c[1]*s.ez[1]
		p := image.Rect(int(math.Floor(x))-1, int(math.Floor(y))-1, int(math.Ceil(x))+1, int(math.Ceil(y))+1)
		if i == 0 {
			r = p
		} else {
			r = r.Union(p)
		}
	}
	return r.Intersect(m.src.Rect)
}

// pixel gives one pixel its colour.
func (m *mover) pixel(x, y int, u, v float64, c *column) {
	edge := c.bot + c.d
	switch {
	case v >= c.top+c.d:
		m.copy(x, y, c.top+(v-c.top-c.d)*c.over-v)
	case v >= edge+c.soft:
		m.copy(x, y, -c.d)
	case v > edge-c.soft:
		share := (v - edge + c.soft) / (2 * c.soft)
		body := m.sample(x, y, math.Max(-c.d, c.bot-v))
		under := m.beneath(x, y, u, math.Min(v, edge), v, c)
		m.put(x, y, [3]float64{
			under[0] + share*(body[0]-under[0]), under[1] + share*(body[1]-under[1]), under[2] + share*(body[2]-under[2]),
		})
	case v <= c.lo && !(c.blindArch && v > c.bot-1):
		// rests
	default:
		m.put(x, y, m.beneath(x, y, u, v, v, c))
	}
}

// beneath is the colour under the body's lower edge at height v, for a pixel
// whose own height is at.
func (m *mover) beneath(x, y int, u, v, at float64, c *column) [3]float64 {
	if c.blindArch && v > c.bot-1 {
		w := c.wheel
		if du, dv := u-w.u, v-w.v; du*du+dv*dv < w.r*w.r {
			if math.Abs(du) < 0.3*w.r {
				top := w.v + math.Sqrt(w.tyre*w.tyre-du*du)
				m.hidden = math.Max(m.hidden, (math.Min(v, top)-c.bot)/m.scale.PixelsPerMetre)
			}
			return m.roundTyre(x, y, u, at, math.Hypot(du, dv), math.Atan2(dv, du), w)
		}
		return w.dark
	}
	if v <= c.lo || c.blindArch {
		return m.sample(x, y, v-at)
	}
	from := c.lo + (v-c.lo)*c.under
	if c.wheel != nil && c.d > 0 {
		from = math.Min(from, math.Max(c.bot-1, c.lo)) // the arch's own edge is not stretched with its inside
	}
	return m.sample(x, y, from-at)
}

// roundTyre looks for a part of the tyre that was seen, at the same radius and
// further down.
func (m *mover) roundTyre(x, y int, u, v, r, angle float64, w *disc) [3]float64 {
	step := math.Max(1/r, 0.005)
	if angle > math.Pi/2 {
		step = -step
	}
	for range 400 {
		angle -= step
		if angle < -1.2 || angle > math.Pi+1.2 {
			break
		}
		sin, cos := math.Sincos(angle)
		uu, vv := w.u+r*cos, w.v+r*sin
		if m.clear(uu, vv) {
			return m.sampleAt(x, y, uu-u, vv-v)
		}
	}
	return w.dark
}

// clear tells that nothing of the body was within 2 px of a place beneath it.
func (m *mover) clear(u, v float64) bool {
	for _, du := range []float64{0, -2, 2} {
		if c := m.at(u + du); c == nil || v > c.bot-2 {
			return false
		}
	}
	return true
}

// darkOf is the mean of the darkest quarter of what was seen of the tyre's
// outer part, above the hub.
func (m *mover) darkOf(w *disc) [3]float64 {
	type tone struct {
		sum float64
		c   [3]float64
	}
	var seen []tone
	for a := 0.0; a <= math.Pi; a += math.Pi / 90 {
		for _, share := range []float64{0.85, 0.9, 0.95} {
			sin, cos := math.Sincos(a)
			u, v := w.u+share*w.r*cos, w.v+share*w.r*sin
			if !m.clear(u, v) {
				continue
			}
			s := m.scale
			px := int(s.origin.X + u*s.ex[0] + v*s.ez[0])
			py := int(s.origin.Y + u*s.ex[1] + v*s.ez[1])
			if !(image.Pt(px, py).In(m.src.Rect)) {
				continue
			}
			p := m.src.Pix[py*m.src.Stride+4*px:]
			c := [3]float64{float64(p[0]), float64(p[1]), float64(p[2])}
			seen = append(seen, tone{c[0] + c[1] + c[2], c})
		}
	}
	if len(seen) < 4 {
		return [3]float64{22, 22, 24}
	}
	sortBy(seen, func(t tone) float64 { return t.sum })
	var out [3]float64
	seen = seen[:len(seen)/4]
	for _, t := range seen {
		for i := range out {
			out[i] += t.c[i] / float64(len(seen))
		}
	}
	return out
}
