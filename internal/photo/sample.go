package photo

import (
	"image"
	"math"
)

// The sample is a photograph of an invented saloon in an invented yard, painted
// by this package: no car, place or picture was traced. It is what tests and the
// first run redraw.
const (
	SampleWidth      = 1600                // [px]
	SampleHeight     = 1000                // [px]
	SampleWheelbase  = 2.540               // [m]
	SampleTyreRadius = 0.2946              // [m] free, 185/70 R 13: 13 × 25.4/2 + 0.70 × 185 mm
	SampleHubHeight  = 0.2813              // [m] 0.955 × free radius
	SampleArch       = 0.360               // [m] hub to the arch's edge
	sampleScale      = 300.0               // [px/m]
	sampleTilt       = 0.4 * math.Pi / 180 // [rad] as a hand holds a telephone
)

// SampleMarks is what somebody would point at in the sample, to a tenth of a
// pixel, with the lengths that were measured.
func SampleMarks() Marks {
	front := Point{387, 790 - SampleHubHeight*sampleScale}
	sin, cos := math.Sincos(sampleTilt)
	along := func(x, z float64) *Point {
		x, z = x*sampleScale, (z-SampleHubHeight)*sampleScale
		return &Point{math.Round((front.X+x*cos+z*sin)*10) / 10, math.Round((front.Y+x*sin-z*cos)*10) / 10}
	}
	return Marks{
		FrontHub: along(0, SampleHubHeight), RearHub: along(SampleWheelbase, SampleHubHeight),
		FrontGround: along(0, 0), RearGround: along(SampleWheelbase, 0),
		Wheelbase: SampleWheelbase, FrontHeight: SampleHubHeight, RearHeight: SampleHubHeight,
		Camera: Camera{Distance: 7.5, Height: 1.5},
	}
}

// SampleShape is the outline of the sample's body: 690 mm before the front hub,
// 900 mm behind the rear one, roof at 1,340 mm, sill at 138 mm.
func SampleShape() Shape {
	return Shape{Top: sampleTop(), Bottom: sampleBottom(), TyreFront: SampleTyreRadius, TyreRear: SampleTyreRadius, Inset: 0.25}
}

// bend is a corner and how much of its shorter side is rounded off [1].
type bend struct{ x, z, r float64 }

func sampleTop() []Spot {
	return rounded([]bend{
		{-0.690, 0.440, 0}, {-0.684, 0.575, 0.5}, {-0.650, 0.690, 0.6}, {-0.540, 0.752, 0.7}, {-0.100, 0.812, 0.8}, {0.400, 0.852, 0.8}, {0.640, 0.868, 0.5},
		{1.075, 1.276, 0.45}, {1.300, 1.328, 0.8}, {1.580, 1.340, 0.8}, {1.880, 1.330, 0.8}, {2.130, 1.278, 0.6}, {2.520, 0.936, 0.4},
		{2.660, 0.908, 0.7}, {3.120, 0.880, 0.8}, {3.360, 0.842, 0.5}, {3.418, 0.760, 0.5}, {3.440, 0.600, 0.5}, {3.440, 0.460, 0},
	})
}

func sampleBottom() []Spot {
	out := rounded([]bend{{-0.690, 0.440, 0}, {-0.680, 0.340, 0.5}, {-0.600, 0.235, 0.6}, {-0.360, 0.195, 0}})
	arch := func(x float64) {
		for i := range 91 {
			sin, cos := math.Sincos(math.Pi * (1 - float64(i)/90))
			out = append(out, Spot{x + SampleArch*cos, SampleHubHeight + SampleArch*sin})
		}
	}
	arch(0)
	out = append(out, rounded([]bend{{0.360, 0.142, 0}, {0.430, 0.138, 0.5}, {2.110, 0.138, 0.5}, {2.180, 0.142, 0}})...)
	arch(SampleWheelbase)
	return append(out, rounded([]bend{{2.900, 0.210, 0}, {3.280, 0.262, 0.6}, {3.400, 0.330, 0.6}, {3.440, 0.460, 0}})...)
}

// rounded is the run through the bends, each cut by a parabola; x never falls
// where it does not fall in the bends.
func rounded(b []bend) []Spot {
	out := []Spot{{b[0].x, b[0].z}}
	for i := 1; i < len(b)-1; i++ {
		p, a, c := b[i], b[i-1], b[i+1]
		cut := p.r / 2 * math.Min(math.Hypot(a.x-p.x, a.z-p.z), math.Hypot(c.x-p.x, c.z-p.z))
		to := func(q bend) Spot {
			s := cut / math.Hypot(q.x-p.x, q.z-p.z)
			return Spot{p.x + (q.x-p.x)*s, p.z + (q.z-p.z)*s}
		}
		s, e := to(a), to(c)
		for k := range 13 {
			t := float64(k) / 12
			out = append(out, Spot{
				(1-t)*(1-t)*s.X + 2*t*(1-t)*p.x + t*t*e.X,
				(1-t)*(1-t)*s.Z + 2*t*(1-t)*p.z + t*t*e.Z,
			})
		}
	}
	last := b[len(b)-1]
	return append(out, Spot{last.x, last.z})
}

// Sample paints the picture, the same one each time. It takes about a second.
func Sample() *image.RGBA {
	s, err := ScaleOf(SampleMarks())
	if err != nil {
		return image.NewRGBA(image.Rect(0, 0, SampleWidth, SampleHeight)) // the marks above are complete
	}
	c := newCanvas(SampleWidth, SampleHeight, s)
	c.yard()
	c.car(SampleShape())
	return c.developed()
}
