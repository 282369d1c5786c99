package stance

import "testing"

func BenchmarkAdd(b *testing.B) {
	before := NewCorners(276, 276, 234, 234, 1)
	items := []Item{{"driver", 80, 1.35, -0.36}, {"front", 75, 1.35, 0.36}, {"left", 75, 2.2, 0.33}, {"right", 75, 2.2, -0.33}, {"luggage", 50, 3.1, 0}}
	for b.Loop() {
		if _, err := Add(before, saloon, items); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkBestPlane(b *testing.B) {
	at := AtWheels(saloon)
	for b.Loop() {
		if _, err := BestPlane(Heights{0.640, 0.641, 0.632, 0.645}, at); err != nil {
			b.Fatal(err)
		}
	}
}
