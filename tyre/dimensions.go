package tyre

import (
	"math"

	"jounce/num/doubt"
)

// Doubts of the dimensions, as 95 % half-widths.
const (
	// heightDoubt is the relative doubt of a metric or flotation section
	// height [1]. Type approval lets a new tyre be from 3 % under to 4 % over
	// (from memory, UN Regulation 30); half of that span.
	heightDoubt = 0.035
	// inchDoubt is the doubt of an estimated diameter [m] for inch widths up to
	// 8 in on rims up to 15 in (common practice).
	inchDoubt = 0.010
	// largeInchDoubt is the same for larger inch sizes, whose aspect lies
	// anywhere from 95 to 105 % (from memory) [m].
	largeInchDoubt = 0.040
	// loadedDoubt is the doubt of the loaded share [1]. Radials stand at 0.95 to
	// 0.97 of the free radius (from memory); the 35 % tyre of T5 stands at
	// 0.978, so that the rule errs low there: scrub line and body stand higher.
	loadedDoubt = 0.020
	// flangeDoubt is the doubt of the flange height [m] (common practice).
	flangeDoubt = 0.0015
	// tapeDoubt is the doubt of a radius or diameter read by tape [m].
	tapeDoubt = 0.002
)

// Rolling circumference over free diameter (ETRTO figures, from memory). The
// tyre of source T5 has 3.07.
const (
	rollingRadial   = 3.05
	rollingCrossply = 2.99
)

// Measured are readings taken on the tyre and the rim. Zero is not read.
type Measured struct {
	Diameter     float64 // overall diameter, unloaded [m]
	LoadedRadius float64 // hub centre to floor under load [m]
	FlangeRadius float64 // wheel centre to the edge of the rim flange [m]
	Half         float64 // 95 % half-width of these readings [m]; 0 is ± 2 mm, a tape
}

// Dimensions are the lengths that follow from a size. Doubts are 95 %
// half-widths.
type Dimensions struct {
	Size             Size
	Settings         Settings
	SectionHeight    float64 // tread to bead [m]
	Diameter         float64 // overall diameter, unloaded [m]
	DiameterHalf     float64 // ± of Diameter [m]
	DiameterLow      float64 // at the least aspect the marking allows [m]; equals Diameter where one is marked
	DiameterHigh     float64 // at the greatest aspect the marking allows [m]
	DiameterMeasured bool    // Diameter was read, not worked out
	Estimate         bool    // Diameter is a rule of thumb: measure it
	FreeRadius       float64 // half of Diameter [m]
	LoadedRadius     float64 // hub centre to floor [m]
	LoadedHalf       float64 // ± of LoadedRadius [m]
	LoadedMeasured   bool    // LoadedRadius was read
	FlangeRadius     float64 // wheel centre to rim edge [m]
	FlangeHalf       float64 // ± of FlangeRadius [m]
	FlangeMeasured   bool    // FlangeRadius was read
	ScrubLine        float64 // height of the rim-to-rim line over the floor: LoadedRadius − FlangeRadius [m]
	ScrubHalf        float64 // ± of ScrubLine [m]
	Circumference    float64 // π × Diameter [m]
	Rolling          float64 // distance in one turn on the road [m]
	RevsPerKm        float64 // turns on the road in a kilometre [1/km]
}

// Dimensions works out the lengths of a tyre.
//
//	Diameter      = rim + 2 × width × aspect          (T2; ISO 4000-1 nominal)
//	LoadedRadius  = share × Diameter / 2              share 0.955 (common practice)
//	FlangeRadius  = rim / 2 + flange height           17.5 mm (common practice)
//	ScrubLine     = LoadedRadius − FlangeRadius
//	Rolling       = 3.05 × Diameter, crossply 2.99 ×  (from memory)
//
// A reading takes the place of what would be worked out. The nominal diameter
// is that of a new tyre: a worn one is up to 14 mm smaller. Marked diameters
// are taken ± 3.5 % of the section height, inch sizes ± 10 mm (larger ones
// ± 40 mm). A tyre with no aspect marked may have 80 to 82 %: DiameterLow and
// DiameterHigh are that span.
func (s Size) Dimensions(set Settings, read Measured) Dimensions {
	d := Dimensions{Size: s, Settings: set, SectionHeight: s.SectionHeight()}
	half := read.Half
	if half <= 0 {
		half = tapeDoubt
	}
	d.setDiameter(read.Diameter, half)
	d.FreeRadius = d.Diameter / 2
	if read.LoadedRadius > 0 {
		d.LoadedRadius, d.LoadedHalf, d.LoadedMeasured = read.LoadedRadius, half, true
	} else {
		d.LoadedRadius = set.LoadedShare * d.FreeRadius
		d.LoadedHalf = doubt.Combine(set.LoadedShare*d.DiameterHalf/2, loadedDoubt*d.FreeRadius)
	}
	if read.FlangeRadius > 0 {
		d.FlangeRadius, d.FlangeHalf, d.FlangeMeasured = read.FlangeRadius, half, true
	} else {
		d.FlangeRadius, d.FlangeHalf = s.Rim/2+set.FlangeHeight, flangeDoubt
	}
	d.ScrubLine = d.LoadedRadius - d.FlangeRadius
	d.ScrubHalf = doubt.Combine(d.LoadedHalf, d.FlangeHalf)
	if d.LoadedMeasured && d.FlangeMeasured {
		d.ScrubHalf = half // one instrument, subtracted: once
	}
	d.Circumference = math.Pi * d.Diameter
	d.Rolling = rollingRadial * d.Diameter
	if s.Construction == Crossply || s.Construction == BiasBelted {
		d.Rolling = rollingCrossply * d.Diameter
	}
	if d.Rolling > 0 {
		d.RevsPerKm = 1000 / d.Rolling
	}
	return d
}

func (d *Dimensions) setDiameter(read, readHalf float64) {
	s := d.Size
	d.Diameter = s.Rim + 2*d.SectionHeight
	d.DiameterLow, d.DiameterHigh = d.Diameter, d.Diameter
	d.DiameterHalf = heightDoubt * 2 * d.SectionHeight
	switch s.Kind {
	case Inch:
		d.Estimate, d.DiameterHalf = true, inchDoubt
		if s.Aspect == 1 {
			d.DiameterHalf = largeInchDoubt
		}
		d.DiameterLow, d.DiameterHigh = d.Diameter-d.DiameterHalf, d.Diameter+d.DiameterHalf
	case FullSection:
		lo, hi := math.Min(0.80, s.Aspect), math.Max(0.82, s.Aspect)
		d.DiameterLow, d.DiameterHigh = s.Rim+2*s.Width*lo, s.Rim+2*s.Width*hi
		d.DiameterHalf = doubt.Combine(d.DiameterHalf, d.DiameterHigh-d.DiameterLow)
	}
	if read > 0 {
		d.Diameter, d.DiameterHalf, d.DiameterMeasured, d.Estimate = read, readHalf, true, false
		d.DiameterLow, d.DiameterHigh = read, read
		d.SectionHeight = (read - s.Rim) / 2
	}
}
