package sum

import (
	"fmt"

	"jounce/internal/finding"
	"jounce/quantity"
	"jounce/source"
)

// Inputs that several sums ask for in the same way.

var barometer = of(quantity.KindAbsPressure, "mbar a", 600, 1100, Input{
	Key: "barometer", Symbol: "p_{b}", Label: "Barometer", Where: "barometer in the bay, not reduced to sea level",
	Default: "1013 mbar", Mark: "ISO2533", Width: glass,
})

var roomAir = of(quantity.KindTemperature, "°C", -40, 80, Input{
	Key: "temperature", Symbol: "T", Label: "Temperature of the air", Where: "thermometer beside the part, in the shade",
	Default: "20 °C", Mark: source.CP, Width: Width{Fixed: 5},
})

// conductance, criticalRatio ask for a part as ISO 6358 describes it.
func conductance(key, label string, optional bool) Input {
	return of(quantity.KindConductance, "dm³/(s·bar)", 1e-6, 50, Input{
		Key: key, Symbol: "C", Label: label, Where: "the maker's sheet, sonic conductance C of ISO 6358", Optional: optional, Width: catalogue,
	})
}

func criticalRatio(key, label string) Input {
	return of(quantity.KindRatio, "", 0, 0.6, Input{
		Key: key, Symbol: "b", Label: label, Where: "the maker's sheet, critical ratio b of ISO 6358",
		Default: "0.3", Mark: source.CP, Width: Width{Fixed: 0.1},
	})
}

// gauge asks for a gauge pressure.
func gauge(key, symbol, label, where string) Input {
	return of(quantity.KindPressure, "bar", 0, 20, Input{Key: key, Symbol: symbol, Label: label, Where: where, Width: digital})
}

// num is a number of a term without its unit, for a line of working.
func num(g Given, digits int) string {
	s, _ := quantity.FormatNumber(g.Kind, g.Value, g.Number.Unit, digits)
	return s
}

// in is a bare SI value in a unit without its name, for a line of working.
func in(kind quantity.Kind, name string, si float64, digits int) string {
	s, _ := quantity.FormatNumber(kind, si, unit(kind, name), digits)
	return s
}

// at is a number shown in the named unit.
func at(kind quantity.Kind, name string, value, half float64) finding.Number {
	return finding.Of(kind, name, value, half)
}

// formula adds a line to a working.
func formula(w *finding.Working, symbols, numbers, result string) {
	w.Lines = append(w.Lines, finding.Line{Symbols: symbols, Numbers: numbers, Result: result})
}

// step adds a number on the way.
func step(w *finding.Working, symbol, name string, n finding.Number, mark source.Mark) {
	w.Steps = append(w.Steps, finding.Term{Symbol: symbol, Name: name, Value: n, Mark: mark})
}

func note(w *finding.Working, format string, args ...any) {
	w.Notes = append(w.Notes, fmt.Sprintf(format, args...))
}

const (
	kPressure = quantity.KindPressure
	kAbs      = quantity.KindAbsPressure
	kLength   = quantity.KindLength
	kMass     = quantity.KindMass
	kForce    = quantity.KindForce
	kTemp     = quantity.KindTemperature
	kVolume   = quantity.KindVolume
	kRatio    = quantity.KindRatio
	kTime     = quantity.KindTime
	kArea     = quantity.KindArea
)
