package photo

import "math"

// Where the camera stood and how far behind the car the wall is.
const (
	yardDistance = 7.5 // [m] of the camera from the tyres
	yardEye      = 1.5 // [m] of the camera above the floor
	yardWall     = 3.6 // [m] of the wall behind the tyres
	yardMiddle   = 1.4 // [m] the camera's x
)

// behind is where a spot of the picture lies that stands t metres behind the
// tyres: its own x and height.
func behind(p Spot, t float64) Spot {
	k := (yardDistance + t) / yardDistance
	return Spot{yardMiddle + (p.X-yardMiddle)*k, yardEye + (p.Z-yardEye)*k}
}

// shown is the other way round.
func shown(x, z, t float64) Spot {
	k := yardDistance / (yardDistance + t)
	return Spot{yardMiddle + (x-yardMiddle)*k, yardEye + (z-yardEye)*k}
}

// yard paints sky, hills, wall, gate and tarmac.
func (c *canvas) yard() {
	c.across(1.9, 9, func(p Spot) (tint, float64) {
		sky := tint{0.66, 0.77, 0.88}.to(tint{0.90, 0.92, 0.93}, ramp(p.Z, 2.75, 1.9))
		n := cloud(p.X*0.55+9, p.Z*1.7, 4)
		return sky.to(tint{0.95, 0.95, 0.95}, 0.75*ramp(n, 0.42, 0.75)), 1
	})
	c.across(1.9, 2.6, func(p Spot) (tint, float64) {
		edge := 2.05 + 0.42*cloud(p.X*0.9+40, 3, 3)*ramp(math.Abs(p.X-2.9), 0.3, 2.4) + 0.06*cloud(p.X*9, p.Z*9, 2)
		leaf := cloud(p.X*13, p.Z*13, 3)
		t := tint{0.30, 0.37, 0.28}.to(tint{0.50, 0.55, 0.42}, ramp(leaf, 0.3, 0.75)*ramp(p.Z, 1.9, 2.5))
		return t.to(tint{0.78, 0.82, 0.84}, 0.42), ramp(p.Z, edge, edge-0.035)
	})
	const tall = 2.25
	wall := []Spot{shown(-9, 0, yardWall), shown(-9, tall, yardWall), shown(12, tall, yardWall), shown(12, 0, yardWall)}
	c.fill(plaster, wall)
	// The coping: a lit upper face, a shadow under its drip.
	c.fill(flat(tint{0.80, 0.79, 0.76}), []Spot{shown(-9, tall, yardWall), shown(-9, tall+0.07, yardWall), shown(12, tall+0.07, yardWall), shown(12, tall, yardWall)})
	c.fill(func(p Spot) (tint, float64) {
		return tint{0.35, 0.34, 0.33}, 0.5 * ramp(behind(p, yardWall).Z, tall-0.09, tall)
	},
		[]Spot{shown(-9, tall-0.09, yardWall), shown(-9, tall, yardWall), shown(12, tall, yardWall), shown(12, tall-0.09, yardWall)})
	for _, x := range []float64{-3.9, -0.75, 6.6} {
		c.pilaster(x, tall)
	}
	c.gate(3.05, 5.75, 2.02)
	c.across(-9, 0.6, tarmac)
	// Grass in the joint between wall and tarmac.
	foot := shown(0, 0, yardWall).Z
	c.across(foot-0.01, foot+0.06, func(p Spot) (tint, float64) {
		grows := ramp(cloud(p.X*4, 2, 3), 0.45, 0.7)
		high := foot + 0.035*grows*(0.3+cloud(p.X*70, 1, 2))
		if grows == 0 || p.X > 3 && p.X < 5.2 {
			return tint{}, 0
		}
		return tint{0.42, 0.45, 0.30}.to(tint{0.27, 0.30, 0.20}, cloud(p.X*90, p.Z*40, 2)), 0.75 * ramp(p.Z, high, high-0.012)
	})
	for _, x := range []float64{-2.05, 4.75} {
		c.fill(paint, groundLine(x, 0.10, -1.7, yardWall-0.35))
	}
}

func plaster(p Spot) (tint, float64) {
	q := behind(p, yardWall)
	t := tint{0.735, 0.715, 0.675}
	t = t.times(0.93 + 0.14*cloud(q.X*0.8, q.Z*1.1, 4))
	// Rain runs, and the damp foot.
	t = t.times(1 - 0.07*ramp(cloud(q.X*5, q.Z*0.35+7, 3), 0.5, 0.8)*ramp(q.Z, 0.6, 2.2))
	foot := 0.32 + 0.22*cloud(q.X*1.4, 4, 3)
	t = t.to(tint{0.47, 0.46, 0.42}, 0.6*ramp(q.Z, foot, 0))
	return t.times(0.985 + 0.03*cloud(q.X*40, q.Z*40, 2)), 1
}

func (c *canvas) pilaster(x, tall float64) {
	const w = 0.36
	face := []Spot{shown(x, 0, yardWall-0.1), shown(x, tall, yardWall-0.1), shown(x+w, tall, yardWall-0.1), shown(x+w, 0, yardWall-0.1)}
	c.fill(func(p Spot) (tint, float64) { t, _ := plaster(p); return t.times(1.035), 1 }, face)
	c.fill(func(p Spot) (tint, float64) {
		q := behind(p, yardWall)
		return tint{0.3, 0.3, 0.29}, 0.28 * ramp(q.X, x+w+0.10, x+w)
	}, []Spot{shown(x+w, 0, yardWall-0.1), shown(x+w, tall, yardWall-0.1), shown(x+w+0.12, tall, yardWall), shown(x+w+0.12, 0, yardWall)})
}

// gate is a sheet-metal gate with ribs.
func (c *canvas) gate(x0, x1, tall float64) {
	c.fill(func(p Spot) (tint, float64) {
		q := behind(p, yardWall)
		rib := math.Mod(q.X-x0, 0.16) / 0.16
		t := tint{0.47, 0.53, 0.54}.times(1 + 0.10*math.Sin(rib*2*math.Pi) - 0.12*ramp(math.Abs(rib-0.5), 0.42, 0.5))
		t = t.times(0.94 + 0.10*cloud(q.X*2, q.Z*2, 3))
		t = t.to(tint{0.36, 0.34, 0.30}, 0.45*ramp(q.Z, 0.4, 0))
		return t.times(1 - 0.35*ramp(q.Z, tall-0.10, tall)), 1
	}, []Spot{shown(x0, 0.03, yardWall), shown(x0, tall, yardWall), shown(x1, tall, yardWall), shown(x1, 0.03, yardWall)})
	for _, r := range [][4]float64{{x0 - 0.06, x0, 0, tall + 0.06}, {x1, x1 + 0.06, 0, tall + 0.06}, {x0 - 0.06, x1 + 0.06, tall, tall + 0.07}, {(x0+x1)/2 - 0.012, (x0+x1)/2 + 0.012, 0.03, tall}} {
		c.fill(flat(tint{0.40, 0.43, 0.43}), []Spot{shown(r[0], r[2], yardWall), shown(r[0], r[3], yardWall), shown(r[1], r[3], yardWall), shown(r[1], r[2], yardWall)})
	}
}

// tarmac covers the floor up to the wall's foot, with grain that grows smaller
// with the distance.
func tarmac(p Spot) (tint, float64) {
	foot := shown(0, 0, yardWall).Z
	if p.Z > foot {
		return tint{}, 0
	}
	depth := yardDistance * p.Z / (yardEye - p.Z)
	q := behind(p, depth)
	t := tint{0.425, 0.425, 0.43}.times(0.90 + 0.20*cloud(q.X*0.7, depth*0.7, 4))
	grain := 0.10 * ramp(p.Z, foot, -0.7)
	t = t.times(1 - grain/2 + grain*cloud(q.X*70, depth*45, 2))
	t = t.times(1.06 - 0.16*ramp(p.Z, 0.2, -0.75))
	// A seam and a patch that was mended.
	mended := ramp(math.Abs(q.X-5.0), 0.95, 0.9) * ramp(math.Abs(depth+1.15), 0.42, 0.39)
	t = t.times(1 - 0.13*mended)
	seam := math.Abs(depth - 1.9 - 0.05*cloud(q.X*2, 0, 3))
	t = t.times(1 - 0.25*ramp(seam, 0.03, 0.01))
	return t.times(1 - 0.22*ramp(p.Z, foot-0.06, foot)), 1
}

// paint is worn road paint.
func paint(p Spot) (tint, float64) {
	depth := yardDistance * p.Z / (yardEye - p.Z)
	q := behind(p, depth)
	return tint{0.78, 0.77, 0.73}, 0.62 - 0.5*ramp(cloud(q.X*16, depth*11, 3), 0.48, 0.7)
}

// groundLine is a stripe on the floor that runs away from the camera.
func groundLine(x, w, near, far float64) []Spot {
	return []Spot{shown(x, 0, near), shown(x, 0, far), shown(x+w, 0, far), shown(x+w, 0, near)}
}
