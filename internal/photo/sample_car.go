package photo

import (
	"math"
	"slices"
)

// coat is the car's colour.
var coat = tint{0.15, 0.36, 0.41}

// car paints shadow, wheels and body.
func (c *canvas) car(h Shape) {
	c.shadow()
	dark := flat(tint{0.045, 0.045, 0.05})
	for _, x := range []float64{0, SampleWheelbase} {
		c.fill(dark, slices.DeleteFunc(ellipse(x, SampleHubHeight, SampleArch+0.02, SampleArch+0.02), func(p Spot) bool { return p.Z < 0.175 }))
	}
	c.fill(dark, []Spot{{-0.55, 0.26}, {3.15, 0.30}, {3.05, 0.20}, {2.85, 0.165}, {-0.3, 0.165}, {-0.5, 0.21}})
	c.fill(flat(tint{0.30, 0.28, 0.26}), []Spot{{3.10, 0.222}, {3.34, 0.230}, {3.34, 0.256}, {3.10, 0.246}}) // tail pipe
	for _, x := range []float64{0, SampleWheelbase} {
		c.wheel(x, SampleHubHeight)
	}
	outline := slices.Concat(h.Top, reversed(h.Bottom))
	top, bottom := line(h.Top), line(h.Bottom)
	c.fill(func(p Spot) (tint, float64) { return bodywork(p, top, bottom), 1 }, outline)
	c.sills()
	c.bumpers()
	c.seams()
	c.glass()
	c.lamps()
	c.trim()
}

func reversed(s []Spot) []Spot {
	out := slices.Clone(s)
	slices.Reverse(out)
	return out
}

// shadow is the soft one of an overcast day.
func (c *canvas) shadow() {
	c.across(-0.2, 0.4, func(p Spot) (tint, float64) {
		along := ramp(p.X, -0.95, -0.35) * ramp(p.X, 3.75, 3.1)
		deep := ramp(p.Z, -0.13, 0.05) * ramp(p.Z, 0.36, 0.22)
		a := 0.80 * along * deep
		for _, x := range []float64{0, SampleWheelbase} {
			d := math.Hypot((p.X-x)/0.26, (p.Z+0.004)/0.034)
			a = math.Max(a, 0.85*ramp(d, 1.25, 0.45))
		}
		return tint{0.07, 0.07, 0.08}, a
	})
}

// bodywork is light on painted sheet: by height the sky over the shoulder, the
// yard's far edge along the middle, tarmac below.
func bodywork(p Spot, top, bottom line) tint {
	profile := line{{0.13, 0.26}, {0.20, 0.42}, {0.30, 0.58}, {0.44, 0.74}, {0.50, 0.70}, {0.55, 0.80}, {0.64, 0.90}, {0.694, 0.97}, {0.703, 1.42},
		{0.722, 1.16}, {0.78, 1.10}, {0.83, 1.22}, {0.865, 1.55}, {0.90, 1.30}, {1.20, 1.18}, {1.30, 1.40}, {1.34, 1.75}}
	crease := 0.703 + 0.012*p.X // the crease rises towards the tail
	z := p.Z - (crease-0.703)*ramp(p.Z, 0.3, 0.7)*ramp(p.Z, 1.1, 0.9)
	z += 0.006 * (cloud(p.X*1.6, 5, 2) - 0.5) * ramp(p.Z, 0.35, 0.5)
	light := profile.at(z)
	// Fenders swell over the wheels.
	for _, x := range []float64{0, SampleWheelbase} {
		r := math.Hypot(p.X-x, p.Z-SampleHubHeight)
		light += 0.16 * ramp(r, SampleArch+0.10, SampleArch+0.035) * ramp(p.Z, 0.35, 0.60)
		light -= 0.45 * ramp(r, SampleArch+0.012, SampleArch+0.002)
		light += 0.10 * ramp(math.Abs(r-SampleArch-0.022), 0.010, 0.002) * ramp(p.Z, 0.3, 0.6)
	}
	// The ends turn away from the light.
	light *= 1 - 0.30*ramp(p.X, -0.45, -0.69) - 0.30*ramp(p.X, 3.2, 3.44)
	// Seen from above their edges, bonnet, roof and boot show the sky.
	over := top.at(p.X) - p.Z
	if p.Z > 0.6 {
		light += 0.75 * ramp(over, 0.040, 0.012)
		light -= 0.30 * ramp(math.Abs(over-0.046), 0.010, 0.002)
	}
	if under := p.Z - bottom.at(p.X); under < 0.02 {
		light *= 0.72 + 0.28*ramp(under, 0.004, 0.02)
	}
	t := coat.times(math.Min(light, 1.2))
	return t.to(tint{0.86, 0.90, 0.93}, 0.62*ramp(light, 0.98, 2.2))
}

// wheel is a tyre on a pressed steel wheel with ten slots and a cap.
func (c *canvas) wheel(x, z float64) {
	polar := func(p Spot) (r, a float64) { return math.Hypot(p.X-x, p.Z-z), math.Atan2(p.Z-z, p.X-x) }
	// Light comes from above and a little from the left.
	lit := func(a float64) float64 { return 0.5 + 0.5*math.Sin(a+0.35) }
	var tyre []Spot
	for _, p := range ellipse(x, z, SampleTyreRadius, SampleTyreRadius) {
		tyre = append(tyre, Spot{p.X + 0.006*ramp(p.Z, 0.06, 0)*math.Copysign(1, p.X-x), math.Max(p.Z, 0)})
	}
	c.fill(func(p Spot) (tint, float64) {
		r, a := polar(p)
		k := 0.095 + 0.035*lit(a)*ramp(math.Abs(r-0.245), 0.045, 0.01)
		k += 0.030 * ramp(math.Abs(r-0.268), 0.004, 0.001) * lit(a)
		k -= 0.04 * ramp(math.Abs(r-0.207), 0.006, 0.002)
		k += 0.02 * ramp(r, 0.282, SampleTyreRadius) * lit(a)
		k += 0.016 * (cloud(p.X*45, p.Z*45, 2) - 0.5)
		k *= 1 - 0.45*ramp(p.Z, 0.44, 0.58) // in the arch's shade
		return tint{k, k, k * 1.03}, 1
	}, tyre)
	c.fill(flat(tint{0.05, 0.05, 0.055}), ellipse(x, z, 0.185, 0.185))
	c.fill(func(p Spot) (tint, float64) {
		r, a := polar(p)
		k := 0.40 + 0.22*lit(a)
		switch {
		case r > 0.165:
			k = 0.62 + 0.28*lit(a) - 0.25*ramp(r, 0.178, 0.184)
		case r > 0.150:
			k = 0.20 + 0.24*lit(a+math.Pi) // the well turns the light round
		case r > 0.075:
			k = 0.50 + 0.20*lit(a) + 0.10*ramp(r, 0.150, 0.09)
		}
		return tint{k, k * 1.005, k * 1.01}, 1
	}, ellipse(x, z, 0.1825, 0.1825))
	for i := range 10 {
		a := (float64(i) + 0.5) * math.Pi / 5
		sin, cos := math.Sincos(a)
		hole := ellipse(0, 0, 0.021, 0.013)
		for j, p := range hole {
			hole[j] = Spot{x + 0.121*cos + p.X*cos - p.Z*sin, z + 0.121*sin + p.X*sin + p.Z*cos}
		}
		c.fill(func(p Spot) (tint, float64) {
			r, _ := polar(p)
			k := 0.06 + 0.10*ramp(r, 0.112, 0.140)*lit(a+math.Pi)
			return tint{k, k, k}, 1
		}, hole)
	}
	c.fill(func(p Spot) (tint, float64) {
		r, a := polar(p)
		k := 0.55 + 0.30*lit(a)*ramp(r, 0, 0.06) - 0.30*ramp(r, 0.060, 0.066) + 0.12*ramp(math.Hypot(p.X-x+0.018, p.Z-z-0.02), 0.03, 0)
		return tint{k, k, k * 1.01}, 1
	}, ellipse(x, z, 0.066, 0.066))
	// The body's shade falls on the upper part.
	c.fill(func(p Spot) (tint, float64) { return tint{0.03, 0.03, 0.04}, 0.42 * ramp(p.Z, 0.36, 0.52) }, ellipse(x, z, 0.20, 0.20))
}

func (c *canvas) sills() {
	c.fill(func(p Spot) (tint, float64) {
		k := 0.10 + 0.06*ramp(p.Z, 0.15, 0.2)
		return tint{k, k, k * 1.03}, 1
	}, rounded([]bend{{0.362, 0.205, 0}, {0.46, 0.196, 0.5}, {2.08, 0.196, 0.5}, {2.178, 0.205, 0}, {2.180, 0.142, 0.2}, {2.110, 0.138, 0.5}, {0.430, 0.138, 0.5}, {0.360, 0.142, 0}}))
}

// bumpers are pressed, bright, with a dark rubber.
func (c *canvas) bumpers() {
	metal := func(low, high float64) shade {
		return func(p Spot) (tint, float64) {
			v := (p.Z - low) / (high - low)
			k := line{{0, 0.22}, {0.25, 0.38}, {0.42, 0.30}, {0.5, 0.62}, {0.72, 0.80}, {0.9, 0.92}, {1, 0.60}}.at(v)
			k += 0.05 * (cloud(p.X*6, p.Z*3, 2) - 0.5)
			return tint{k, k * 1.01, k * 1.02}, 1
		}
	}
	rubber := flat(tint{0.11, 0.11, 0.115})
	c.fill(metal(0.345, 0.445), rounded([]bend{{-0.430, 0.352, 0}, {-0.660, 0.345, 0.7}, {-0.690, 0.400, 0.8}, {-0.672, 0.445, 0.7}, {-0.430, 0.440, 0}}))
	c.fill(rubber, rounded([]bend{{-0.430, 0.383, 0}, {-0.688, 0.383, 0}, {-0.688, 0.408, 0}, {-0.430, 0.408, 0}}))
	c.fill(metal(0.365, 0.465), rounded([]bend{{2.965, 0.372, 0}, {3.405, 0.365, 0.7}, {3.440, 0.420, 0.8}, {3.424, 0.465, 0.7}, {2.965, 0.460, 0}}))
	c.fill(rubber, rounded([]bend{{2.965, 0.403, 0}, {3.438, 0.403, 0}, {3.438, 0.428, 0}, {2.965, 0.428, 0}}))
}

// seams are the gaps round doors, bonnet, boot and flap.
func (c *canvas) seams() {
	gap := func(p Spot) (tint, float64) { return tint{0.03, 0.06, 0.07}, 0.85 }
	lip := func(p Spot) (tint, float64) { return tint{0.80, 0.86, 0.88}, 0.22 }
	for _, run := range [][]Spot{
		rounded([]bend{{0.700, 0.868, 0}, {0.560, 0.80, 0.5}, {0.500, 0.60, 0.6}, {0.485, 0.30, 0.6}, {0.510, 0.204, 0.6}, {0.60, 0.199, 0}}),
		rounded([]bend{{1.646, 0.885, 0}, {1.640, 0.60, 0.5}, {1.632, 0.30, 0.5}, {1.640, 0.199, 0}}),
		rounded([]bend{{2.352, 0.905, 0}, {2.330, 0.790, 0.6}, {2.235, 0.640, 0.8}, {2.140, 0.460, 0.8}, {2.105, 0.28, 0.7}, {2.085, 0.199, 0}}),
		rounded([]bend{{-0.610, 0.688, 0}, {-0.20, 0.742, 0.5}, {0.30, 0.794, 0.5}, {0.590, 0.828, 0}}),
		rounded([]bend{{2.640, 0.892, 0}, {2.700, 0.866, 0.6}, {3.100, 0.838, 0.5}, {3.372, 0.792, 0}}),
		rounded([]bend{{2.735, 0.655, 0}, {2.735, 0.765, 0.3}, {2.865, 0.765, 0.3}, {2.865, 0.655, 0.3}, {2.735, 0.655, 0.3}, {2.735, 0.665, 0}}),
	} {
		c.stroke(gap, 0.006, run)
		light := slices.Clone(run)
		for i := range light {
			light[i].X += 0.006
			light[i].Z -= 0.002
		}
		c.stroke(lip, 0.005, light)
	}
}

// panes are the side windows, front and rear door and the one behind it.
func panes() [][]Spot {
	return [][]Spot{
		rounded([]bend{{0.745, 0.882, 0}, {0.745, 0.886, 0.2}, {1.112, 1.238, 0.35}, {1.300, 1.283, 0.6}, {1.598, 1.293, 0.2}, {1.610, 0.892, 0.15}, {0.745, 0.882, 0}}),
		rounded([]bend{{1.690, 0.894, 0}, {1.680, 1.293, 0.15}, {1.900, 1.282, 0.6}, {2.070, 1.242, 0.5}, {2.360, 0.925, 0.35}, {2.352, 0.905, 0.4}, {1.690, 0.894, 0}}),
	}
}

func (c *canvas) glass() {
	all := panes()
	screens := [][]Spot{
		rounded([]bend{{0.662, 0.872, 0}, {1.072, 1.262, 0.2}, {1.092, 1.250, 0.2}, {0.706, 0.872, 0}}),
		rounded([]bend{{2.138, 1.258, 0}, {2.505, 0.935, 0.2}, {2.468, 0.928, 0.2}, {2.112, 1.250, 0}}),
	}
	for _, p := range all {
		c.stroke(flat(tint{0.05, 0.05, 0.055}), 0.030, p)
		c.stroke(func(p Spot) (tint, float64) { k := 0.55 + 0.3*ramp(p.Z, 0.9, 1.2); return tint{k, k, k}, 0.9 }, 0.010, p)
	}
	pane := func(p Spot) (tint, float64) {
		t := tint{0.20, 0.235, 0.24}.to(tint{0.36, 0.39, 0.385}, ramp(p.Z, 1.25, 0.98))
		// The far windows let the wall through.
		t = t.to(tint{0.50, 0.50, 0.47}, 0.55*ramp(p.Z, 0.93, 0.97)*ramp(p.Z, 1.24, 1.19)*ramp(p.X, 0.85, 1.0+0.25*(p.Z-0.9))*ramp(p.X, 2.28, 2.1))
		return t, 1
	}
	c.fill(pane, all...)
	c.inside()
	c.fill(func(p Spot) (tint, float64) {
		// The sky's reflection, broken by the trees' edge.
		s := p.X - 0.55*p.Z
		a := 0.20*ramp(p.Z, 0.90, 1.28) + 0.10*ramp(math.Abs(s-0.82), 0.10, 0.06) + 0.08*ramp(math.Abs(s-1.42), 0.07, 0.04)
		a += 0.10 * ramp(cloud(p.X*2.3, p.Z*1.5+3, 3), 0.45, 0.6)
		return tint{0.78, 0.84, 0.88}, a
	}, all...)
	for _, p := range screens {
		c.fill(func(p Spot) (tint, float64) {
			return tint{0.22, 0.27, 0.29}.to(tint{0.66, 0.72, 0.75}, 0.55*ramp(p.Z, 0.9, 1.25)), 0.95
		}, p)
	}
	// The post between the doors.
	c.fill(flat(tint{0.06, 0.065, 0.07}), []Spot{{1.612, 0.893}, {1.604, 1.290}, {1.676, 1.291}, {1.686, 0.894}})
}

// inside are the seats' backs, head rests and the steering wheel, cut to the panes by
// what is painted over their edges afterwards.
func (c *canvas) inside() {
	dark := func(p Spot) (tint, float64) {
		return tint{0.09, 0.09, 0.095}, 0.88 * ramp(p.Z, 0.889, 0.893)
	}
	seat := func(x float64) {
		c.fill(dark, rounded([]bend{{x - 0.055, 0.89, 0}, {x + 0.012, 1.045, 0.5}, {x + 0.055, 1.062, 0.6}, {x + 0.090, 1.040, 0.6}, {x + 0.115, 0.89, 0}}))
		c.fill(dark, rounded([]bend{{x + 0.045, 1.090, 0}, {x + 0.060, 1.162, 0.5}, {x + 0.112, 1.166, 0.5}, {x + 0.118, 1.088, 0.5}, {x + 0.045, 1.090, 0}}))
		c.fill(dark, []Spot{{x + 0.066, 1.05}, {x + 0.074, 1.10}, {x + 0.088, 1.10}, {x + 0.082, 1.05}})
	}
	seat(1.40)
	seat(1.955)
	c.stroke(dark, 0.016, rounded([]bend{{0.965, 0.893, 0}, {0.985, 0.955, 0.5}, {1.035, 0.985, 0.5}, {1.060, 0.955, 0.5}, {1.050, 0.893, 0}}))
	c.fill(dark, rounded([]bend{{0.77, 0.889, 0}, {0.82, 0.918, 0.6}, {0.97, 0.912, 0.6}, {1.0, 0.889, 0}}))
}

func (c *canvas) lamps() {
	lens := func(t tint, low, high float64) shade {
		return func(p Spot) (tint, float64) {
			v := (p.Z - low) / (high - low)
			return t.times(0.60+0.5*v).to(tint{1, 1, 1}, 0.40*ramp(math.Abs(v-0.78), 0.16, 0.02)), 1
		}
	}
	rim := flat(tint{0.07, 0.08, 0.085})
	for _, l := range []struct {
		t    tint
		low  float64
		high float64
		path []bend
	}{
		{tint{0.76, 0.80, 0.82}, 0.525, 0.645, []bend{{-0.684, 0.532, 0}, {-0.682, 0.600, 0.3}, {-0.664, 0.645, 0.3}, {-0.610, 0.655, 0.3}, {-0.604, 0.525, 0.3}, {-0.684, 0.532, 0}}},
		{tint{0.85, 0.52, 0.16}, 0.525, 0.655, []bend{{-0.598, 0.526, 0}, {-0.602, 0.656, 0.2}, {-0.545, 0.650, 0.4}, {-0.520, 0.530, 0.4}, {-0.598, 0.526, 0}}},
		{tint{0.66, 0.10, 0.10}, 0.555, 0.745, []bend{{3.436, 0.560, 0}, {3.418, 0.740, 0.2}, {3.350, 0.748, 0.3}, {3.330, 0.625, 0.2}, {3.436, 0.622, 0}}},
		{tint{0.85, 0.50, 0.15}, 0.520, 0.618, []bend{{3.437, 0.616, 0}, {3.329, 0.618, 0.2}, {3.335, 0.530, 0.3}, {3.439, 0.525, 0}}},
	} {
		p := rounded(l.path)
		c.stroke(rim, 0.014, append(p, p[0]))
		c.fill(lens(l.t, l.low, l.high), p)
	}
}

// trim is strip, handles and mirror.
func (c *canvas) trim() {
	for _, r := range [][2]float64{{0.378, 0.480}, {0.498, 1.628}, {1.646, 2.118}, {2.925, 3.310}} {
		c.fill(func(p Spot) (tint, float64) {
			v := (p.Z - 0.520) / 0.034
			k := line{{0, 0.06}, {0.55, 0.13}, {0.62, 0.70}, {0.85, 0.85}, {1, 0.40}}.at(v)
			return tint{k, k, k * 1.01}, 1
		}, []Spot{{r[0], 0.520}, {r[0], 0.554}, {r[1], 0.554}, {r[1], 0.520}})
	}
	for _, x := range []float64{1.445, 2.150} {
		c.fill(func(p Spot) (tint, float64) { return tint{0.02, 0.05, 0.06}, 0.55 },
			rounded([]bend{{x, 0.780, 0}, {x, 0.812, 0.5}, {x + 0.15, 0.814, 0.5}, {x + 0.15, 0.782, 0.5}, {x, 0.780, 0}}))
		c.fill(func(p Spot) (tint, float64) { k := 0.45 + 0.5*ramp(p.Z, 0.793, 0.812); return tint{k, k, k}, 1 },
			rounded([]bend{{x + 0.008, 0.794, 0}, {x + 0.008, 0.813, 0.5}, {x + 0.142, 0.815, 0.5}, {x + 0.142, 0.796, 0.5}, {x + 0.008, 0.794, 0}}))
	}
	c.fill(func(p Spot) (tint, float64) {
		return coat.times(0.75).to(tint{0.85, 0.90, 0.92}, 0.6*ramp(p.Z, 0.945, 0.985)), 1
	}, rounded([]bend{{0.775, 0.905, 0}, {0.772, 0.965, 0.5}, {0.800, 0.985, 0.6}, {0.868, 0.980, 0.5}, {0.872, 0.908, 0.5}, {0.775, 0.905, 0}}))
	c.fill(flat(tint{0.05, 0.06, 0.07}), []Spot{{0.800, 0.880}, {0.808, 0.910}, {0.850, 0.910}, {0.858, 0.880}})
}
