package spring

import (
	"fmt"
	"math"
	"sort"

	"jounce/num/interp"
	"jounce/quantity"
)

// Kind is how the rubber is shaped.
type Kind int

// The kinds of air spring.
const (
	UnknownKind Kind = iota
	Bellows          // one or more convolutions
	Sleeve           // rolling lobe over a piston
)

func (k Kind) String() string {
	return [...]string{"kind not known", "bellows", "sleeve"}[k]
}

// Point is one line of a maker's table: the load the spring carries.
type Point struct {
	Pressure quantity.GaugePressure // [Pa]
	Height   float64                // [m]
	Load     float64                // [N]
}

// VolumePoint is the air in the spring at a height.
type VolumePoint struct {
	Height float64 // [m]
	Volume float64 // inner volume, dead volume included [m³]
}

// Default doubts where nothing better is known, as shares of the value.
const (
	DefaultAreaShare   = 0.04 // area from a maker's line [1]
	DefaultVolumeShare = 0.05 // volume [1]
)

// Data is what is known of a spring. Zero is not known.
type Data struct {
	Name        string                 // as the shop calls it
	Kind        Kind                   // bellows or sleeve
	Points      []Point                // one or more
	Volumes     []VolumePoint          // none, one or more
	MaxWorking  quantity.GaugePressure // highest standing pressure [Pa]
	MaxDynamic  quantity.GaugePressure // highest pressure in a bump [Pa]
	MinHeight   float64                // the rubber carries on itself below [m]
	MaxHeight   float64                // end of the stroke [m]
	AreaShare   float64                // doubt of the area [1]; 0 is ± 4 %
	VolumeShare float64                // doubt of the volume [1]; 0 is ± 5 %
	Estimate    bool                   // the points are a geometric estimate, not a maker's
}

// Spring is checked data, ready to be asked. Make one with New; it does not
// change afterwards.
type Spring struct {
	data    Data
	rows    []row         // one for each height, rising
	fixed   *interp.Curve // area over height where no height knows two pressures
	heights []float64     // heights of rows [m]
	volume  *interp.Curve // volume over height, two points or more
}

// row is what is known at one height.
type row struct {
	height   float64   // [m]
	pressure []float64 // gauge, rising [Pa]
	load     []float64 // [N]
}

// sameHeight is how near two heights are taken as one [m].
const sameHeight = 0.5 * mm

// New checks a spring's data.
//
// Refused: no point; a load, pressure, height or volume that is not above zero;
// two loads for one pressure at one height; a load that does not grow with the
// pressure, or a volume that does not grow with the height; points outside the
// spring's own height limits. The error names the point.
func New(d Data) (*Spring, error) {
	if len(d.Points) == 0 {
		return nil, &Missing{For: "the force of a spring", What: []string{"one point of load, pressure and height from its maker"}}
	}
	if d.AreaShare == 0 {
		d.AreaShare = DefaultAreaShare
	}
	if d.VolumeShare == 0 {
		d.VolumeShare = DefaultVolumeShare
	}
	if err := checkLimits(d); err != nil {
		return nil, err
	}
	s := &Spring{data: d}
	if err := s.setRows(); err != nil {
		return nil, err
	}
	if err := s.setVolumes(); err != nil {
		return nil, err
	}
	return s, nil
}

func checkLimits(d Data) error {
	for _, c := range []struct {
		what string
		v    float64
	}{{"maximum working pressure", float64(d.MaxWorking)}, {"maximum dynamic pressure", float64(d.MaxDynamic)},
		{"least height", d.MinHeight}, {"greatest height", d.MaxHeight}} {
		if !(c.v >= 0) || math.IsInf(c.v, 0) {
			return badNumber(c.what, c.v, "a figure above zero, or none")
		}
	}
	if !(d.AreaShare > 0 && d.AreaShare < 1) || !(d.VolumeShare > 0 && d.VolumeShare < 1) {
		return badNumber("doubt of area or volume", d.AreaShare, "a share between 0 and 1")
	}
	if d.MaxHeight > 0 && d.MaxHeight <= d.MinHeight {
		return badNumber("greatest height [mm]", d.MaxHeight/mm, "more than the least height")
	}
	if d.MaxDynamic > 0 && d.MaxDynamic < d.MaxWorking {
		return badNumber("maximum dynamic pressure [bar]", float64(d.MaxDynamic)/bar, "not less than the maximum working pressure")
	}
	return nil
}

func (s *Spring) setRows() error {
	points := append([]Point(nil), s.data.Points...)
	for i, p := range points {
		if !above(float64(p.Pressure)) || !above(p.Height) || !above(p.Load) {
			return &Question{Read: fmt.Sprintf("point %d: %g bar, %g mm, %g N", i+1, float64(p.Pressure)/bar, p.Height/mm, p.Load),
				Expected: "pressure, height and load above zero", Ask: "What does the maker's line say?"}
		}
		if err := s.insideLimits(fmt.Sprintf("height of point %d", i+1), p.Height); err != nil {
			return err
		}
	}
	sort.SliceStable(points, func(i, j int) bool { return points[i].Height < points[j].Height })
	for _, p := range points {
		if n := len(s.rows); n == 0 || p.Height-s.rows[n-1].height > sameHeight {
			s.rows = append(s.rows, row{height: p.Height})
			s.heights = append(s.heights, p.Height)
		}
		r := &s.rows[len(s.rows)-1]
		if err := r.add(float64(p.Pressure), p.Load); err != nil {
			return err
		}
	}
	return s.setFixed()
}

// setFixed keeps one curve of area over height where the area does not depend
// on the pressure.
func (s *Spring) setFixed() error {
	if len(s.rows) < 2 {
		return nil
	}
	area := make([]float64, len(s.rows))
	for i, r := range s.rows {
		if len(r.pressure) > 1 {
			return nil
		}
		area[i] = r.load[0] / r.pressure[0]
	}
	var err error
	s.fixed, err = interp.New(s.heights, area)
	return err
}

// add puts a pressure into a row, in order.
func (r *row) add(p, load float64) error {
	i := sort.SearchFloat64s(r.pressure, p)
	clash := func(k int) bool {
		return k >= 0 && k < len(r.pressure) && ((k < i && load <= r.load[k]) || (k >= i && load >= r.load[k]))
	}
	if i < len(r.pressure) && r.pressure[i] == p {
		if r.load[i] == load {
			return nil
		}
		return &Question{Read: fmt.Sprintf("%g N and %g N at %g bar and %g mm", r.load[i], load, p/bar, r.height/mm),
			Expected: "one load", Ask: "Which of the two does the maker's line say?"}
	}
	if clash(i-1) || clash(i) {
		return &Question{Read: fmt.Sprintf("%g N at %g bar and %g mm", load, p/bar, r.height/mm),
			Expected: "a load that grows with the pressure at one height", Ask: "Are two figures exchanged?"}
	}
	r.pressure = append(r.pressure[:i], append([]float64{p}, r.pressure[i:]...)...)
	r.load = append(r.load[:i], append([]float64{load}, r.load[i:]...)...)
	return nil
}

func (s *Spring) setVolumes() error {
	v := append([]VolumePoint(nil), s.data.Volumes...)
	sort.SliceStable(v, func(i, j int) bool { return v[i].Height < v[j].Height })
	h, vol := make([]float64, len(v)), make([]float64, len(v))
	for i, p := range v {
		if !above(p.Height) || !above(p.Volume) {
			return badNumber(fmt.Sprintf("volume point %d [L]", i+1), p.Volume*1000, "height and volume above zero")
		}
		if i > 0 && (p.Height-v[i-1].Height < sameHeight || p.Volume <= v[i-1].Volume) {
			return &Question{Read: fmt.Sprintf("%g L at %g mm after %g L at %g mm", p.Volume*1000, p.Height/mm, v[i-1].Volume*1000, v[i-1].Height/mm),
				Expected: "a volume that grows with the height", Ask: "Are two figures exchanged?"}
		}
		h[i], vol[i] = p.Height, p.Volume
	}
	s.data.Volumes = v
	if len(v) < 2 {
		return nil
	}
	var err error
	s.volume, err = interp.New(h, vol)
	return err
}

func above(v float64) bool { return v > 0 && !math.IsInf(v, 0) }

// insideLimits refuses heights beyond the spring's own.
func (s *Spring) insideLimits(what string, h float64) error {
	lo, hi := s.data.MinHeight, s.data.MaxHeight
	if (lo > 0 && h < lo-sameHeight) || (hi > 0 && h > hi+sameHeight) {
		return &Outside{What: what, Value: h / mm, Low: lo / mm, High: hi / mm, Unit: "mm", Why: "the spring's own limits"}
	}
	return nil
}

// Data is what the spring was made from, with the doubts in use.
func (s *Spring) Data() Data {
	d := s.data
	d.Points = append([]Point(nil), d.Points...)
	d.Volumes = append([]VolumePoint(nil), d.Volumes...)
	return d
}

// Heights is the range of heights with known load [m]. One point gives
// the same height twice.
func (s *Spring) Heights() (low, high float64) {
	return s.heights[0], s.heights[len(s.heights)-1]
}
