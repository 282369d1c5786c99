package gas_test

import (
	"fmt"
	"testing"

	"jounce/gas"
	"jounce/quantity"
)

const (
	bar  = 1e5
	dmsb = 1e-8
)

func ExampleElement_Flow() {
	valve := gas.Element{C: 2 * dmsb, B: 0.3}
	f, err := valve.Flow(7.013*bar, quantity.FromCelsius(20), 5.013*bar)
	fmt.Printf("%.0f L/min ANR, %s, %v\n", f.FreeAir.Volume*6e4, f.Regime, err)
	// Output: 678 L/min ANR, subsonic, <nil>
}

func ExampleSeriesPair() {
	pair, err := gas.SeriesPair(gas.Element{C: 3 * dmsb, B: 0.4}, gas.Element{C: 1.3 * dmsb, B: 0.2})
	fmt.Printf("C = %.3f dm³/(s·bar), %v\n", pair.Element.C/dmsb, err)
	// Output: C = 1.231 dm³/(s·bar), <nil>
}

func ExampleExchange() {
	start := gas.Point{Pressure: 1.013 * bar, Temperature: quantity.FromCelsius(20)}
	supply := gas.Side{Pressure: 7.013 * bar, Temperature: start.Temperature}
	run, err := gas.Exchange(1e-3, start, gas.Element{C: 1 * dmsb, B: 0.3}, supply, 6.893*bar, gas.Adiabatic)
	fmt.Printf("%.2f s, %.0f °C, %v\n", run.End.T, run.End.Temperature.Celsius(), err)
	// Output: 0.79 s, 114 °C, <nil>
}

func ExampleWaterPerFill() {
	const barometer = quantity.StandardAtmosphere
	w, err := gas.WaterPerFill(10e-3, barometer, barometer+10*bar, barometer, quantity.FromCelsius(20), 0.7)
	fmt.Printf("%.1f g, %v\n", w.Liquid*1e3, err)
	// Output: 1.1 g, <nil>
}

func ExampleStoredEnergy() {
	w, err := gas.StoredEnergy(quantity.GaugePressure(10*bar).Absolute(quantity.StandardAtmosphere), 10e-3, quantity.StandardAtmosphere)
	fmt.Printf("%.0f kJ, %v\n", w/1e3, err)
	// Output: 14 kJ, <nil>
}

func ExampleAtGeometric() {
	a, err := gas.AtGeometric(2000)
	fmt.Printf("%.0f Pa, %v\n", float64(a.Pressure), err)
	// Output: 79501 Pa, <nil>
}

func BenchmarkFlow(b *testing.B) {
	e := gas.Element{C: 2 * dmsb, B: 0.3}
	for b.Loop() {
		if _, err := e.Flow(7.013*bar, 293.15, 5.013*bar); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkBetween(b *testing.B) {
	e := gas.Element{C: 2 * dmsb, B: 0.3}
	var sum quantity.MassFlow
	for b.Loop() {
		sum += e.Between(7.013*bar, 293.15, 5.013*bar, 293.15)
	}
	_ = sum
}

func BenchmarkExchange(b *testing.B) {
	start := gas.Point{Pressure: 1.013 * bar, Temperature: 293.15}
	for b.Loop() {
		_, err := gas.Exchange(1e-3, start, gas.Element{C: 1 * dmsb, B: 0.3}, gas.Side{Pressure: 7.013 * bar, Temperature: 293.15}, 6.893*bar, gas.Adiabatic)
		if err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSaturation(b *testing.B) {
	for b.Loop() {
		if _, err := gas.Saturation(293.15); err != nil {
			b.Fatal(err)
		}
	}
}
