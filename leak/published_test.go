package leak

import (
	"testing"

	"jounce/gas"
	"jounce/internal/evidence"
	"jounce/quantity"
)

const (
	bar  = 1e5  // [Pa]
	mbar = 1e2  // [Pa]
	hour = 3600 // [s]
)

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func celsius(c float64) Temperature {
	return Temperature{Value: quantity.FromCelsius(c), Half: TemperatureDoubt, Instrument: "thermometer"}
}

// case41 is the open case 4.1 of the check values.
func case41() Test {
	return Test{Volume: 31e-3, Readings: []Reading{
		{0, Gauge{9.000 * bar, 0, "g"}, celsius(23.0), Barometer{1013 * mbar, 0, "b"}},
		{hour, Gauge{8.830 * bar, 0, "g"}, celsius(20.5), Barometer{1010 * mbar, 0, "b"}},
	}}
}

func TestPublished(t *testing.T) {
	book := evidence.Open(t)
	r := must(Decay(case41()))
	k := 31e-3 / hour
	expect := must(Expect(Reading{Gauge: Gauge{Value: 9 * bar}, Temperature: celsius(19.85), Barometer: Barometer{Value: 1 * bar}},
		Temperature{Value: 294}, Barometer{Value: 1 * bar}))
	computed := map[string]float64{
		"4.1 plain": k * r.AbsoluteDrop, "4.1 gauge": k * r.GaugeDrop, "4.1": r.Rate.Throughput,
		"4.1 sccm": r.Rate.FreeAir.At(quantity.DIN1343).Volume * 6e7,
		"4.1 dry":  r.Rate.FreeAir.At(quantity.ISO2787).Volume * 6e7,
		"4.1 mol":  r.Rate.Molar, "4.1 p2": float64(r.LastAtStart) / bar,
		"4.s": expect.PerKelvin / mbar,
	}
	for _, row := range book.Rows("CALC") {
		v, ok := computed[row.ID]
		if !ok {
			t.Errorf("CALC %s: nothing computed", row.ID)
			continue
		}
		book.Check(row, v)
	}
	hot := gas.Heated(350*bar, 293.15, 293.25)
	book.Check(book.Row("DEVTO", "4.2"), float64(hot-350*bar)/bar)
	book.Check(book.Row("SONOTEC", "9.10"), RateOf(0.1).FreeAir.Volume*1e6)
	tyre := must(Expect(Reading{Gauge: Gauge{Value: 2.3 * bar}, Temperature: celsius(20), Barometer: Barometer{Value: 1.013 * bar}},
		celsius(-10), Barometer{Value: 1.013 * bar}))
	book.Check(book.Row("COURSE-A", "3.10"), float64(tyre.Gauge)/bar)
}
