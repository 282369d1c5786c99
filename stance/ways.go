package stance

import "math"

// Spot is a corner of a way in the plane.
type Spot struct {
	X float64 // along the way [m]
	Z float64 // over the flat road before it [m]
}

// Way is a road seen from the side, a line of straight pieces: flat before its
// first spot and after its last.
type Way []Spot

// humpPieces is how many straight pieces make a round hump; its height is then
// low by less than height/humpPieces².
const humpPieces = 32

// RoundHump is a hump whose top is an arc of a circle over its length.
//
//	R = c²/8h + h/2
//
// h height and c length along the road [m].
func RoundHump(height, length float64) (Way, error) {
	if !above(height) || !above(length) || height > 0.5 || length > 30 || height > length/2 {
		return nil, bad("hump, height [mm]", height/mm, "a height up to 500 mm and less than half of its length")
	}
	r := HumpRadius(height, length)
	w := make(Way, humpPieces+1)
	for i := range w {
		x := length * (float64(i)/humpPieces - 0.5)
		w[i] = Spot{x + length/2, math.Max(0, math.Sqrt(r*r-x*x)-(r-height))}
	}
	return w, nil
}

// HumpRadius is the radius of a round top of some height over some length [m].
func HumpRadius(height, length float64) float64 {
	return length*length/(8*height) + height/2
}

// HumpNeed is the height over the road that the belly between the axles needs
// to cross a round hump without touching it [m].
//
//	short, c ≤ L:  h
//	long,  c > L:  R − √(R² − L²/4), near L²/8R
//
// h height and c length of the hump, L wheelbase, R radius of its top, all [m].
// Handbook calculation 15: while the hump is no longer than the wheelbase the
// car stands astride it; on a longer one both axles stand on its round top, and
// what is left between them is the sagitta. Rigid tyres that touch at a point; a
// real wheel rides a little higher over the foot, so the need is on the high
// side there.
func HumpNeed(height, length, wheelbase float64) (float64, error) {
	if _, err := RoundHump(height, length); err != nil {
		return 0, err
	}
	if !above(wheelbase) || wheelbase > 6 {
		return 0, bad("wheelbase [m]", wheelbase, "a length above zero and up to 6 m")
	}
	if length <= wheelbase {
		return height, nil
	}
	r := HumpRadius(height, length)
	return r - math.Sqrt(r*r-wheelbase*wheelbase/4), nil
}

// Driveway is a step, a slope and a flat after it.
//
//	run = √(length² − rise²)
//
// step at its foot, length of the slope as a tape lies on it, rise over that
// length, all [m].
func Driveway(step, length, rise float64) (Way, error) {
	if !(step >= 0 && step <= 0.3) || !above(length) || length > 60 {
		return nil, bad("driveway, step [mm]", step/mm, "a step up to 300 mm and a slope up to 60 m long")
	}
	if !above(rise) || rise > 0.5*length {
		return nil, bad("driveway, rise [mm]", rise/mm, "a rise above zero and up to half of the length of the slope")
	}
	run := math.Sqrt(length*length - rise*rise)
	w := Way{{0, 0}, {0, step}, {run, step + rise}}
	if step == 0 {
		w = w[1:]
	}
	return w, nil
}

// RampAngle is the angle of a slope of some length and rise [rad].
func RampAngle(length, rise float64) float64 { return math.Asin(rise / length) }

// NoseAngle is the angle under an overhang: from the tyre's foot to the lip
// [rad].
//
//	α = atan(lip height ÷ overhang)
//
// Both [m], handbook calculation 15. The wheel's radius is left out: a tyre
// meets a slope before its foot does, so the nose clears a little more.
func NoseAngle(lip, overhang float64) (float64, error) {
	if !(lip >= 0) || !above(overhang) || lip > 2 {
		return 0, bad("overhang [mm]", overhang/mm, "a lip height of zero or more and an overhang above zero")
	}
	return math.Atan(lip / overhang), nil
}

// Over is what a car on level ground must keep under its body to get over a way.
type Over struct {
	At      []float64 // at each place asked for, over the line of the tyres' feet [m]
	Between float64   // the most between the axles [m]
}

// Over works out how far the way reaches up under a car that rolls over it, as
// seen from the car: a part that stands higher over level ground never touches.
//
// The wheels are circles that roll on the way, centres a wheelbase L apart; at
// each place of the car every corner of the way is turned into the frame of the
// line under both wheels. back are places behind the front axle, radius that of
// the wheels [m]; radius 0 touches at a point and errs to the high side. Exact
// plane geometry; the place of the car is stepped by 25 mm and the highest found
// refined to 5e-6 m. The suspension does not move and the tyres do not give,
// which errs to the low side when it is driven fast: it holds at a walking pace.
func (w Way) Over(wheelbase, radius float64, back ...float64) (Over, error) {
	o := Over{At: make([]float64, len(back)), Between: 0}
	if !above(wheelbase) || wheelbase > 6 || !(radius >= 0 && radius <= 1) || len(w) == 0 {
		return o, bad("wheelbase [m]", wheelbase, "a wheelbase up to 6 m, wheels up to 1 m and a way")
	}
	reach := 0.0
	for _, b := range back {
		if !(math.Abs(b) <= 10) {
			return o, bad("behind the front axle [m]", b, "a place within 10 m")
		}
		reach = math.Max(reach, math.Max(-b, b-wheelbase))
	}
	reach += 2*radius + 0.1
	best := make([]float64, len(back)+1) // places of the front axle
	at := make([]float64, len(back)+1)
	seen := make([]float64, len(back)+1)
	const step = 0.025
	last := math.Inf(-1)
	for _, s := range w {
		for x := math.Max(s.X-reach, last+step); x <= s.X+wheelbase+reach; x += step {
			last = x
			if err := w.under(x, wheelbase, radius, back, at); err != nil {
				return o, err
			}
			for k, n := range at {
				if n > seen[k] {
					seen[k], best[k] = n, x
				}
			}
		}
	}
	for k := range seen {
		if seen[k] > 0 {
			seen[k] = math.Max(seen[k], w.refine(best[k]-step, best[k]+step, func(x float64) float64 {
				if w.under(x, wheelbase, radius, back, at) != nil {
					return 0
				}
				return at[k]
			}))
		}
	}
	o.Between = seen[len(back)]
	copy(o.At, seen)
	return o, nil
}

// refined is how near the place of the highest is found [m]: a way rises by no
// more than its own steepness over it.
const refined = 5e-6

// refine is the highest value between two places, by the golden section.
func (w Way) refine(a, b float64, f func(float64) float64) float64 {
	const part = 0.6180339887498949
	c, d := b-part*(b-a), a+part*(b-a)
	fc, fd := f(c), f(d)
	top := math.Max(math.Max(f(a), f(b)), math.Max(fc, fd))
	for b-a > refined {
		if fc < fd {
			a, c, fc = c, d, fd
			d = a + part*(b-a)
			fd = f(d)
			top = math.Max(top, fd)
		} else {
			b, d, fd = d, c, fc
			c = b - part*(b-a)
			fc = f(c)
			top = math.Max(top, fc)
		}
	}
	return top
}

// under is how high the way reaches under the car at each place and, last, the
// most between the axles, with the front axle at x.
func (w Way) under(x, wheelbase, radius float64, back, at []float64) error {
	fz := w.hub(x, radius)
	rx, rz, err := w.rear(x, fz, wheelbase, radius)
	if err != nil {
		return err
	}
	ux, uz := (x-rx)/wheelbase, (fz-rz)/wheelbase
	frame := func(s Spot) (b, h float64) { // behind the front axle, over the line under the wheels
		dx, dz := x-s.X, fz-s.Z
		return dx*ux + dz*uz, -(dz*ux - dx*uz) + radius
	}
	for k := range at {
		at[k] = math.Inf(-1)
	}
	between := len(back)
	far := 12.0
	pb, ph := frame(Spot{w[0].X - far, 0})
	for i := 0; i <= len(w); i++ {
		s := Spot{w[len(w)-1].X + far, w[len(w)-1].Z}
		if i < len(w) {
			s = w[i]
		}
		b, h := frame(s)
		if i < len(w) && b >= 0 && b <= wheelbase {
			at[between] = math.Max(at[between], h)
		}
		for k, want := range back {
			if (pb-want)*(b-want) <= 0 && pb != b {
				at[k] = math.Max(at[k], ph+(h-ph)*(want-pb)/(b-pb))
			} else if pb == b && b == want {
				at[k] = math.Max(at[k], math.Max(h, ph))
			}
		}
		pb, ph = b, h
	}
	return nil
}

// rear is the place of the rear hub, a wheelbase from the front one.
func (w Way) rear(x, fz, wheelbase, radius float64) (rx, rz float64, err error) {
	rx = x - wheelbase
	for range 60 {
		rz = w.hub(rx, radius)
		d := fz - rz
		if math.Abs(d) >= wheelbase {
			break
		}
		next := x - math.Sqrt(wheelbase*wheelbase-d*d)
		if math.Abs(next-rx) < 1e-7 {
			return next, rz, nil
		}
		rx = next
	}
	// A step under a point makes the hub jump: the place between is found by halves.
	lo, hi := x-wheelbase, x
	for range 60 {
		mid := (lo + hi) / 2
		if math.Hypot(x-mid, fz-w.hub(mid, radius)) > wheelbase {
			lo = mid
		} else {
			hi = mid
		}
	}
	rz = w.hub(hi, radius)
	if math.Abs(math.Hypot(x-hi, fz-rz)-wheelbase) > 0.05 {
		return hi, rz, bad("wheelbase [m]", wheelbase, "a wheelbase that is longer than the way is high")
	}
	return hi, rz, nil
}

// hub is the height of the centre of a wheel that rolls on the way.
func (w Way) hub(x, r float64) float64 {
	top := math.Inf(-1)
	first, last := w[0], w[len(w)-1]
	if x <= first.X {
		top = r
	}
	if x >= last.X {
		top = math.Max(top, last.Z+r)
	}
	for i, s := range w {
		if d := x - s.X; math.Abs(d) <= r {
			top = math.Max(top, s.Z+math.Sqrt(r*r-d*d))
		}
		if i == 0 {
			continue
		}
		a := w[i-1]
		run := s.X - a.X
		if run <= 0 || x < a.X-r || x > s.X+r {
			continue
		}
		m := (s.Z - a.Z) / run
		q := math.Sqrt(1 + m*m)
		if foot := x + r*m/q; foot >= a.X && foot <= s.X {
			top = math.Max(top, a.Z+m*(x-a.X)+r*q)
		}
	}
	return top
}
