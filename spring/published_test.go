package spring

import (
	"math"
	"testing"

	"jounce/gas"
	"jounce/internal/evidence"
	"jounce/quantity"
)

const (
	inch  = 0.0254
	lbf   = 4.4482216152605
	psi   = lbf / (inch * inch)
	lb    = 0.45359237
	lbIn  = lbf / inch
	atm   = quantity.AbsPressure(101300)
	psia0 = quantity.AbsPressure(14.7 * psi)
)

func must[T any](t testing.TB) func(v T, err error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// style22 is the bellows of source FS: three loads on one line of pressure.
func style22(t testing.TB) *Spring {
	t.Helper()
	var d Data
	d.Kind = Bellows
	for _, p := range [][2]float64{{9.0, 4670}, {9.5, 4280}, {10.0, 3810}} {
		d.Points = append(d.Points, Point{Pressure: 80 * psi, Height: p[0] * inch, Load: p[1] * lbf})
	}
	for _, v := range [][2]float64{{9.0, 752}, {9.5, 782}, {10.0, 809}} {
		d.Volumes = append(d.Volumes, VolumePoint{Height: v[0] * inch, Volume: v[1] * inch * inch * inch})
	}
	return must[*Spring](t)(New(d))
}

func TestPublishedSpringMaker(t *testing.T) {
	book := evidence.Open(t)
	s := style22(t)
	area := func(h float64) float64 { return must[Area](t)(s.Area(80*psi, h*inch)).Value }
	const in3 = inch * inch * inch
	rate := func(p quantity.GaugePressure) float64 {
		return must[float64](t)(FiniteDifferenceRate(p, 782*in3, 752*in3, 809*in3, area(9), area(10), inch/2, Moving, psia0))
	}
	book.Check(book.Row("FS", "3.1"), 60*Frequency(rate(80*psi), 4280*lb))
	book.Check(book.Row("FS", "3.2a"), area(9.0)/(inch*inch))
	book.Check(book.Row("FS", "3.2b"), area(10.0)/(inch*inch))
	need := must[Need](t)(s.Pressure(4100*lbf, 0, 9.5*inch))
	book.Check(book.Row("FS", "3.2c"), float64(need.Value)/psi)
}

func TestPublishedRecomputed(t *testing.T) {
	book := evidence.Open(t)
	const in2, in3 = inch * inch, inch * inch * inch
	k := must[float64](t)(FiniteDifferenceRate(76.6*psi, 782*in3, 752*in3, 809*in3, 58.4*in2, 47.6*in2, inch/2, 1.38, psia0))
	book.Check(book.Row("CALC", "3.1a"), k/lbIn)
	book.Check(book.Row("CALC", "3.1b"), 60*Frequency(k, 4100*lb))

	// Areas and volumes on straight lines, so that the slopes are 10.8 in²/in
	// and 57 in².
	d := Data{Kind: Bellows, Volumes: []VolumePoint{{9.5 * inch, 782 * in3}}}
	for _, p := range [][2]float64{{9.0, 58.9}, {9.5, 53.5}, {10.0, 48.1}} {
		d.Points = append(d.Points, Point{Pressure: 76.6 * psi, Height: p[0] * inch, Load: 76.6 * psi * p[1] * in2})
	}
	r := must[Rate](t)(must[*Spring](t)(New(d)).Rate(76.6*psi, 9.5*inch, 1.38, psia0))
	book.Check(book.Row("CALC", "3.3b"), r.Value/lbIn)
	d.Volumes = []VolumePoint{{9.0 * inch, 753.5 * in3}, {9.5 * inch, 782 * in3}, {10.0 * inch, 810.5 * in3}}
	r = must[Rate](t)(must[*Spring](t)(New(d)).Rate(76.6*psi, 9.5*inch, 1.38, psia0))
	book.Check(book.Row("CALC", "3.3a"), r.Value/lbIn)
	if r.Form != FormVolume {
		t.Errorf("form %v", r.Form)
	}

	bus := busSpring(t)
	book.Check(book.Row("CALC", "3.4a"), must[Rate](t)(bus.Rate(3*bar, 0.2, 1.3, atm)).Value/1000)
	book.Check(book.Row("CALC", "3.4b"), must[Rate](t)(bus.Rate(7*bar, 0.2, 1.3, atm)).Value/1000)
	for _, row := range book.Rows("CALC") {
		if row.Has("hz") {
			book.Check(row, StaticDeflection(row.Num("hz"))*1000)
		}
	}
}

// busSpring is the spring of COURSE-A: 300 cm², 10 L, area constant.
func busSpring(t testing.TB) *Spring {
	return must[*Spring](t)(New(Data{Kind: Sleeve, Points: []Point{{Pressure: 3 * bar, Height: 0.2, Load: 9000}},
		Volumes: []VolumePoint{{0.2, 0.010}}}))
}

func TestPublishedCourses(t *testing.T) {
	book := evidence.Open(t)
	bus := busSpring(t)
	for _, row := range book.Rows("COURSE-A") {
		p := quantity.GaugePressure(row.Num("bar") * bar)
		switch row.Unit {
		case "kN":
			book.Check(row, must[Force](t)(bus.Force(p, 0.2)).Value/1000)
		case "Hz":
			c := Corner{Mass: row.Num("kn") * 1000 / quantity.StandardGravity, Ratio: 1}
			book.Check(row, must[Ride](t)(bus.Ride(c, 0.2, 1.3, atm)).Frequency)
		case "bar":
			cold := gas.Heated(p.Absolute(atm), quantity.FromCelsius(20), quantity.FromCelsius(-10))
			book.Check(row, float64(cold.Gauge(atm))/bar)
		}
	}
	piston := math.Pi / 4 * 0.032 * 0.032
	rod := piston - math.Pi/4*0.012*0.012
	k1 := AirRate(7.013*bar, piston, piston*0.1+5e-6, 1.4)
	k2 := AirRate(7.013*bar, rod, rod*0.1+5e-6, 1.4)
	book.Check(book.Row("COURSE-S", "3.5a"), k1)
	book.Check(book.Row("COURSE-S", "3.5b"), k2)
	book.Check(book.Row("COURSE-S", "3.5c"), (k1+k2)/1000)
	book.Check(book.Row("COURSE-S", "3.5d"), 50/(k1+k2)*1000)
}

func TestPublishedRide(t *testing.T) {
	book := evidence.Open(t)
	m := must[Modes](t)(QuarterCar(317.5, 45.4, 22e3, 192e3))
	book.Check(book.Row("BARTON", "3.6a"), m.Body)
	book.Check(book.Row("BARTON", "3.6b"), m.BodyHz)
	book.Check(book.Row("BARTON", "3.6c"), m.Hop)
	book.Check(book.Row("BARTON", "3.6d"), m.HopHz)
	book.Check(book.Row("BARTON", "3.6e"), m.BodyRatio)
	coils := func(mean, k float64) float64 {
		one := must[float64](t)(Coil{Wire: 0.0127, Mean: mean, Active: 1, Modulus: 79.3e9}.Rate())
		return one / k
	}
	book.Check(book.Row("BARTON", "3.11a"), coils(0.120, 19.3e3))
	book.Check(book.Row("BARTON", "3.11b"), coils(0.100, 42.3e3))
	for _, row := range book.Rows("GILLESPIE") {
		k := RideRate(row.Num("ks_lbin")*lbIn, 1198*lbIn)
		if row.Unit == "Hz" {
			book.Check(row, Frequency(k, row.Num("lb")*lb))
		} else {
			book.Check(row, k/lbIn)
		}
	}
	wheel := WheelRate(140101, 0.7334)
	ride := RideRate(wheel, 318030)
	book.Check(book.Row("ENGT", "3.8a"), wheel)
	book.Check(book.Row("ENGT", "3.8b"), ride)
	book.Check(book.Row("ENGT", "3.8c"), Frequency(ride, 312))
	soft := quantity.StandardGravity / 0.001 // 1 kgf/mm [N/m]
	book.Check(book.Row("AUTOSPEED", "3.9a"), 1000*StaticDeflection(Frequency(soft, 250)))
	book.Check(book.Row("AUTOSPEED", "3.9b"), Frequency(soft, 250))
	sagging := func(sag float64) float64 { return Frequency(quantity.StandardGravity/sag, 1) }
	book.Check(book.Row("VIBM", "constant a"), sagging(inch))
	book.Check(book.Row("VIBM", "constant b"), 60*sagging(inch))
	book.Check(book.Row("VIBM", "constant c"), sagging(0.01))
	book.Check(book.Row("ORTIZ", "constant"), Frequency(1, 1))
}
