package spring_test

import (
	"errors"
	"fmt"

	"jounce/quantity"
	"jounce/spring"
)

// front is the worked car's front spring: one point, and a volume.
func front() *spring.Spring {
	s, err := spring.New(spring.Data{
		Kind:       spring.Sleeve,
		Points:     []spring.Point{{Pressure: 3.5e5, Height: 0.25, Load: 2450}},
		Volumes:    []spring.VolumePoint{{Height: 0.25, Volume: 1.0e-3}},
		MaxWorking: 7e5,
	})
	if err != nil {
		panic(err)
	}
	return s
}

func ExampleSpring_CornerPressure() {
	load, need, err := front().CornerPressure(spring.NewCorner(276, 32, 0.97), 0.25)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f kg sprung, %.0f N on the spring, %.2f ± %.2f bar\n",
		load.Sprung, load.Spring, float64(need.Value)/1e5, need.Half/1e5)
	// Output: 244 kg sprung, 2467 N on the spring, 3.52 ± 0.19 bar
}

func ExampleSpring_Ride() {
	r, err := front().Ride(spring.NewCorner(276, 32, 0.97), 0.25, spring.Moving, quantity.StandardAtmosphere)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f N/mm, at the wheel %.1f N/mm, %.2f Hz by %s\n", r.Rate.Value/1e3, r.Wheel/1e3, r.Frequency, r.Rate.Form)
	// Output: 30.7 N/mm, at the wheel 28.9 N/mm, 1.73 Hz by n·p_abs·A²/V
}

func ExampleNew() {
	_, err := spring.New(spring.Data{})
	fmt.Println(err)
	s, _ := spring.New(spring.Data{Kind: spring.Bellows, Points: []spring.Point{{Pressure: 5e5, Height: 0.2, Load: 6000}}})
	_, err = s.Rate(5e5, 0.2, spring.Moving, quantity.StandardAtmosphere)
	var gap *spring.Missing
	if errors.As(err, &gap) {
		fmt.Println(gap)
	}
	// Output:
	// the force of a spring waits for one point of load, pressure and height from its maker
	// the rate of the spring waits for the spring's volume at the height of ROAD and a load at a second height (a bellows loses area as it grows taller)
}

func ExampleBumpPeak() {
	k, _ := spring.BumpPeak(3.5e5, 1.0e-3, 0.55e-3, spring.Moving, quantity.StandardAtmosphere)
	way := k.WayOut(7e5)
	fmt.Printf("%.1f bar; 7 bar needs %.2f L left or %.2f L more\n", float64(k.Value)/1e5, way.LeastLeft*1e3, way.AddVolume*1e3)
	// Output: 9.3 bar; 7 bar needs 0.66 L left or 0.32 L more
}

func ExampleNeed_WaysOut() {
	s, _ := spring.New(spring.Data{Points: []spring.Point{{Pressure: 4e5, Height: 0.2, Load: 3800}}, MaxWorking: 7e5})
	need, _ := s.Pressure(7030, 0, 0.2)
	w, _ := need.WaysOut(0.62, 0.7)
	fmt.Printf("%.1f bar is needed; %.1f bar are allowed: %.0f cm², or a ratio of %.2f\n",
		float64(w.Need)/1e5, float64(w.Allowed)/1e5, w.AreaNeeded*1e4, w.RatioNeeded)
	// Output: 7.4 bar is needed; 4.9 bar are allowed: 143 cm², or a ratio of 0.94
}

func ExampleColdSink() {
	k, _ := spring.ColdSink(1.0e-3, 70e-4, 0.97, quantity.FromCelsius(20), -12)
	fmt.Printf("%.1f mm at the wheel\n", k.Wheel*1e3)
	// Output: -6.0 mm at the wheel
}

func ExampleTravel() {
	b, _ := spring.Travel([]spring.Telescope{{Name: "damper", Length: 0.400, Closed: 0.309, Open: 0.444,
		StopFree: 0.055, StopSolid: 0.025, Half: 0.002, OneTape: true, Ratio: 0.97, RatioShare: 0.01}},
		[]spring.Limiter{{Name: "brake hose", Direction: spring.Droop, Travel: 0.060, Half: 0.002}})
	for _, l := range append(b.Bump, b.Droop...) {
		fmt.Printf("%s: %s %.0f ± %.0f mm\n", l.Direction, l.Name, l.Travel*1e3, l.Half*1e3)
	}
	// Output:
	// bump: damper 68 ± 2 mm
	// droop: damper 45 ± 2 mm
	// droop: brake hose 60 ± 2 mm
}

func ExampleLoadPath() {
	m, _ := spring.LoadPath(3258, spring.BumpFactor, 1500)
	fmt.Printf("%.2f kN standing, %.1f kN in a bump, %.1f times what it carried\n", m.Standing/1e3, m.Bump/1e3, m.BumpBy)
	// Output: 3.26 kN standing, 9.8 kN in a bump, 6.5 times what it carried
}

func ExampleSpring_Respond() {
	d := spring.Data{Kind: spring.Sleeve}
	for _, h := range []float64{0.10, 0.15, 0.20} {
		d.Points = append(d.Points, spring.Point{Pressure: 3e5, Height: h, Load: 2400})
		d.Volumes = append(d.Volumes, spring.VolumePoint{Height: h, Volume: 1.2e-3 + 0.008*(h-0.15)})
	}
	s, _ := spring.New(d)
	from := spring.State{Load: 3200, Height: 0.15, Pressure: 4e5, Temperature: 293.15}
	shut, _ := s.Respond(from, spring.ValvesShut, 3600, 293.15, spring.Stops{}, quantity.StandardAtmosphere)
	held, _ := s.Respond(from, spring.HeightHeld, 3600, 293.15, spring.Stops{}, quantity.StandardAtmosphere)
	fmt.Printf("valves shut: %.1f mm; height held: %+.2f bar\n", shut.Height*1e3, float64(held.Pressure)/1e5)
	// Output: valves shut: -13.6 mm; height held: +0.50 bar
}

func ExampleFiniteDifferenceRate() {
	const in, psi, lbIn = 0.0254, 6894.757, 175.1268
	k, _ := spring.FiniteDifferenceRate(76.6*psi, 782*in*in*in, 752*in*in*in, 809*in*in*in, 58.4*in*in, 47.6*in*in, in/2, 1.38, 14.7*psi)
	fmt.Printf("%.0f lb/in\n", k/lbIn)
	// Output: 1322 lb/in
}

func ExampleQuarterCar() {
	m, _ := spring.QuarterCar(317.5, 45.4, 22e3, 192e3)
	fmt.Printf("%.2f Hz and %.1f Hz\n", m.BodyHz, m.HopHz)
	// Output: 1.25 Hz and 10.9 Hz
}

func ExampleGuessSleeve() {
	g, _ := spring.GuessSleeve(0.130, 0.090)
	fmt.Printf("%.0f ± %.0f cm², an estimate\n", g.Area*1e4, g.Half*1e4)
	// Output: 95 ± 14 cm², an estimate
}
