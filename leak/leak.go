// Package leak judges nothing; it works out what a pressure-decay test and a
// standing car's heights say about a leak, and with how much doubt.
//
// Three things fool people. Air that cools loses pressure without losing air:
// 12 K take 0.45 bar from a tank at 10 bar. A gauge can be too coarse for the
// limit: then no test of that length decides. And a spring under load keeps its
// pressure while it leaks: only its height tells, so pressure is refused as
// evidence for a deformable vessel and Sink reads the heights instead.
//
// ± is a 95 % half-width. Two readings with one instrument, subtracted, carry
// its figure once, because its calibration cancels; with two instruments both
// figures count. Equal Instrument names mean one instrument, also when empty.
package leak

import (
	"errors"
	"fmt"
	"math"

	"jounce/quantity"
)

// The lengths of time that readings are scaled to and asked for.
const (
	Night   = 12 * 3600.0 // a loss is stated as lost in so long [s] (handbook B26, CP)
	Settled = 20 * 60.0   // after pumping the air cools; read no sooner [s] (handbook B26, CP)
)

// Doubts that stand where nothing was typed (CP).
const (
	BarometerChange  = 2000.0 // of an unread barometer over a test [Pa]
	TemperatureDoubt = 0.5    // of a thermometer in air [K]
	VolumeDoubt      = 0.05   // of a volume, over the volume [1]
	AreaDoubt        = 0.04   // of an area from a maker's line, over the area [1]
	RatioDoubt       = 0.01   // of a spring ratio, over the ratio [1]
)

// Gauge is a reading of a pressure gauge.
type Gauge struct {
	Value      quantity.GaugePressure // [Pa]
	Half       float64                // 95 % half-width [Pa]
	Instrument string                 // equal names are one instrument
}

// Temperature is a reading of a thermometer; a Value of zero is one not read.
type Temperature struct {
	Value      quantity.Temperature // [K]
	Half       float64              // 95 % half-width [K]
	Instrument string               // equal names are one instrument
}

// Barometer is a reading of a barometer; a Value of zero is one not read.
type Barometer struct {
	Value      quantity.AbsPressure // [Pa]
	Half       float64              // 95 % half-width [Pa]
	Instrument string               // equal names are one instrument
}

// Height is a reading of a height.
type Height struct {
	Value      float64 // [m]
	Half       float64 // 95 % half-width [m]
	Instrument string  // equal names are one instrument
}

// Reading is one look at the instruments of a pressure-decay test.
type Reading struct {
	At          float64 // seconds from any instant that all readings share [s]
	Gauge       Gauge
	Temperature Temperature
	Barometer   Barometer
}

// Errors that a caller tells apart.
var (
	ErrReadings      = errors.New("a decay test needs two readings, the second later than the first")
	ErrNoTemperature = errors.New("cannot judge: the temperature was not read, and the cold alone can explain a loss or hide one")
	ErrDeformable    = errors.New("a spring under load keeps its pressure while it leaks: judge it by its height")
	ErrAboveRelief   = errors.New("refused: no pneumatic over-pressure test in this shop")
	ErrNumber        = errors.New("not usable")
)

func refuse(what string, v float64, unit, expected string) error {
	return fmt.Errorf("%s reads %g %s, expected %s: %w", what, v, unit, expected, ErrNumber)
}

func (g Gauge) check() error {
	switch {
	case !(g.Value >= 0 && g.Value < 1e8):
		return refuse("the gauge", float64(g.Value), "Pa", "0 to 1000 bar")
	case !(g.Half >= 0) || math.IsInf(g.Half, 0):
		return refuse("the gauge's doubt", g.Half, "Pa", "0 or more")
	}
	return nil
}

// Read says whether the thermometer was read.
func (t Temperature) Read() bool { return t.Value != 0 }

func (t Temperature) check() error {
	switch {
	case t.Read() && !(t.Value > 150 && t.Value < 500):
		return refuse("the thermometer", float64(t.Value), "K", "150 to 500 K")
	case !(t.Half >= 0) || math.IsInf(t.Half, 0):
		return refuse("the thermometer's doubt", t.Half, "K", "0 or more")
	}
	return nil
}

// Read says whether the barometer was read.
func (b Barometer) Read() bool { return b.Value != 0 }

func (b Barometer) check() error {
	switch {
	case b.Read() && !(b.Value > 40e3 && b.Value < 120e3):
		return refuse("the barometer", float64(b.Value), "Pa", "400 to 1200 mbar")
	case !(b.Half >= 0) || math.IsInf(b.Half, 0):
		return refuse("the barometer's doubt", b.Half, "Pa", "0 or more")
	}
	return nil
}

func (r Reading) check() error {
	if math.IsNaN(r.At) || math.IsInf(r.At, 0) {
		return refuse("the time", r.At, "s", "a number of seconds")
	}
	return errors.Join(r.Gauge.check(), r.Temperature.check(), r.Barometer.check())
}

// once shares out the doubts of two readings that are subtracted: one
// instrument carries its larger figure once, on the second reading; two carry
// both.
func once(a, b float64, one bool) (first, second float64) {
	if one {
		return 0, math.Max(a, b)
	}
	return a, b
}

// Allowed refuses a test pressure above the relief valve's setting. A relief
// valve that is not known refuses too.
func Allowed(test, relief quantity.GaugePressure) error {
	switch {
	case !(relief > 0):
		return fmt.Errorf("the relief valve's setting is not known: %w", ErrAboveRelief)
	case !(test <= relief):
		return fmt.Errorf("%.2f bar lies above the relief valve's %.2f bar: %w", float64(test)/1e5, float64(relief)/1e5, ErrAboveRelief)
	}
	return nil
}
