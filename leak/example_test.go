package leak_test

import (
	"fmt"
	"testing"

	"jounce/leak"
	"jounce/quantity"
)

const bar = 1e5

func reading(at, gauge, celsius float64) leak.Reading {
	return leak.Reading{
		At:          at,
		Gauge:       leak.Gauge{Value: quantity.GaugePressure(gauge * bar), Half: 0.04 * bar, Instrument: "digital gauge"},
		Temperature: leak.Temperature{Value: quantity.FromCelsius(celsius), Half: leak.TemperatureDoubt, Instrument: "thermometer"},
		Barometer:   leak.Barometer{Value: 1.013 * bar, Instrument: "barometer"},
	}
}

func ExampleDecay() {
	r, err := leak.Decay(leak.Test{
		Volume: 10e-3, VolumeHalf: 0.5e-3,
		Readings: []leak.Reading{reading(0, 10.00, 20), reading(leak.Night, 9.20, 8)},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("the cold alone leaves %.2f bar\n", float64(r.ColdAlone)/bar)
	fmt.Printf("lost past it in 12 h: %.2f ± %.2f bar\n", r.Lost12/bar, r.Half12/bar)
	fmt.Printf("%.1f mL/min at 1.013 bar and 8 °C, %.1f ± %.1f at 20 °C\n", r.Rate.AtTank*6e7, r.Rate.FreeAir.Volume*6e7, r.Rate.FreeHalf*6e7)
	// Output:
	// the cold alone leaves 9.55 bar
	// lost past it in 12 h: 0.35 ± 0.04 bar
	// 4.8 mL/min at 1.013 bar and 8 °C, 5.0 ± 0.7 at 20 °C
}

func ExampleExpect() {
	e, err := leak.Expect(reading(0, 10.00, 20), reading(0, 0, 8).Temperature, leak.Barometer{})
	fmt.Printf("%.2f ± %.2f bar, %v\n", float64(e.Gauge)/bar, e.Half/bar, err)
	// Output: 9.55 ± 0.05 bar, <nil>
}

func ExampleDecide() {
	for _, half := range []float64{0.19, 0.04, 0.01} {
		d, err := leak.Decide(reading(0, 10.00, 20), 0.1*bar, half*bar)
		fmt.Printf("a gauge of ± %.2f bar: after %.1f h, %v\n", half, d.After/3600, err)
	}
	// Output:
	// a gauge of ± 0.19 bar: after 22.9 h, <nil>
	// a gauge of ± 0.04 bar: after 5.3 h, <nil>
	// a gauge of ± 0.01 bar: after 2.6 h, <nil>
}

func ExampleSink() {
	s := leak.Spring{Volume: 1e-3, VolumeHalf: 0.05e-3, Area: 70e-4, AreaHalf: 2.8e-4, Ratio: 0.97, RatioHalf: 0.0097}
	r, err := leak.Sink(s, leak.Stand{
		Time:       leak.Night,
		Before:     leak.Height{Value: 0.362, Half: 2e-3, Instrument: "tape"},
		After:      leak.Height{Value: 0.353, Half: 2e-3, Instrument: "tape"},
		TempBefore: reading(0, 0, 20).Temperature, TempAfter: reading(0, 0, 8).Temperature,
	})
	fmt.Printf("%.0f mm down, %.0f by cold, %.0f ± %.0f mm unexplained, %v\n", r.Sank*1e3, r.ByCold*1e3, r.Unexplained12*1e3, r.Half12*1e3, err)
	// Output: 9 mm down, 6 by cold, 3 ± 2 mm unexplained, <nil>
}

func ExampleReliefOf() {
	g := func(p float64) leak.Gauge {
		return leak.Gauge{Value: quantity.GaugePressure(p * bar), Half: 0.04 * bar, Instrument: "digital gauge"}
	}
	r, err := leak.ReliefOf(g(10), g(11.3), g(9.4))
	fmt.Printf("lifts at %.3f ± %.3f of the cut-out, seats at %.2f, %v\n", r.Lift, r.LiftHalf, r.Reseat, err)
	// Output: lifts at 1.130 ± 0.004 of the cut-out, seats at 0.94, <nil>
}

func ExampleAllowed() {
	fmt.Println(leak.Allowed(12*bar, 11.5*bar))
	// Output: 12.00 bar lies above the relief valve's 11.50 bar: refused: no pneumatic over-pressure test in this shop
}

func BenchmarkDecay(b *testing.B) {
	t := leak.Test{Volume: 10e-3, VolumeHalf: 0.5e-3, Readings: []leak.Reading{reading(0, 10, 20), reading(3600, 9.9, 18), reading(leak.Night, 9.2, 8)}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := leak.Decay(t); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSink(b *testing.B) {
	s := leak.Spring{Volume: 1e-3, VolumeHalf: 0.05e-3, Area: 70e-4, AreaHalf: 2.8e-4, Ratio: 0.97, RatioHalf: 0.0097}
	st := leak.Stand{Time: leak.Night, Before: leak.Height{Value: 0.362, Half: 2e-3}, After: leak.Height{Value: 0.353, Half: 2e-3},
		TempBefore: reading(0, 0, 20).Temperature, TempAfter: reading(0, 0, 8).Temperature}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := leak.Sink(s, st); err != nil {
			b.Fatal(err)
		}
	}
}
