package spring

import "testing"

func BenchmarkPressure(b *testing.B) {
	s := sleeveSpring(b)
	for b.Loop() {
		if _, err := s.Pressure(4200, 100, 0.153); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRide(b *testing.B) {
	s := sleeveSpring(b)
	for b.Loop() {
		if _, err := s.Ride(rearCorner, 0.153, Moving, atm); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRespondShut(b *testing.B) {
	s := sleeveSpring(b)
	start := State{Height: 0.15, Temperature: 293.15, Pressure: 3.4 * bar, Load: 3300}
	for b.Loop() {
		if _, err := s.Respond(start, ValvesShut, 3700, 293.15, Stops{}, atm); err != nil {
			b.Fatal(err)
		}
	}
}
