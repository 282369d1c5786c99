package spring

import (
	"math"

	"jounce/num/doubt"
	"jounce/quantity"
)

// Volume is the air in the spring at a height.
type Volume struct {
	Height     float64 // asked for [m]
	Value      float64 // [m³]
	Half       float64 // ± of Value [m³]
	Slope      float64 // change of volume with height [m³/m]
	SlopeKnown bool    // from two volume points or more
	FromArea   bool    // one volume point, carried to this height by the area: an estimate
}

// carriedShare is the doubt of a volume's change that was taken from the area
// [1]. On a bellows the volume grows by more than the effective area says (57
// against 53.5 in² in case 3.3, 7 %).
const carriedShare = 0.10

// Volume is the air in the spring at a height.
//
// With two volume points or more it is a monotone cubic through them and is
// refused outside them. With one it holds at that point's height; elsewhere it
// is carried along by the effective area, V = V₀ + ∫ A dh (trapezium rule in 64
// steps; its error is far below the ± 10 % of the change that is taken for the
// idea itself), and marked FromArea. p is the pressure the area is taken at.
// With none it is missing.
func (s *Spring) Volume(p quantity.GaugePressure, height float64) (Volume, error) {
	v := Volume{Height: height}
	points := s.data.Volumes
	switch {
	case len(points) == 0:
		return v, &Missing{For: "the volume of the spring", What: []string{"its volume at the height of ROAD"}}
	case len(points) == 1:
		return s.carriedVolume(p, height)
	}
	lo, hi := points[0].Height, points[len(points)-1].Height
	if height < lo-sameHeight || height > hi+sameHeight {
		return v, &Outside{What: "spring height", Value: height / mm, Low: lo / mm, High: hi / mm, Unit: "mm", Why: "the volume points"}
	}
	h := math.Min(math.Max(height, lo), hi)
	var err error
	if v.Value, err = s.volume.At(h); err != nil {
		return v, err
	}
	if v.Slope, err = s.volume.Slope(h); err != nil {
		return v, err
	}
	v.SlopeKnown = true
	v.Half = s.data.VolumeShare * v.Value
	return v, nil
}

func (s *Spring) carriedVolume(p quantity.GaugePressure, height float64) (Volume, error) {
	point := s.data.Volumes[0]
	v := Volume{Height: height, Value: point.Volume, Half: s.data.VolumeShare * point.Volume}
	if math.Abs(height-point.Height) <= sameHeight {
		return v, nil
	}
	lo, hi := s.Heights()
	if len(s.rows) < 2 || point.Height < lo-sameHeight || point.Height > hi+sameHeight {
		return v, &Missing{For: "the volume at this height", What: []string{"a volume read there, or loads at two heights that reach from one to the other"}}
	}
	if err := s.inData(height); err != nil {
		return v, err
	}
	c, err := s.areaCurve(float64(p))
	if err != nil {
		return v, err
	}
	const steps = 64
	step := (height - point.Height) / steps
	var sum float64
	for i := 0; i <= steps; i++ {
		a, err := c.At(clamp(point.Height+float64(i)*step, s.heights))
		if err != nil {
			return v, err
		}
		if i == 0 || i == steps {
			a /= 2
		}
		sum += a
	}
	v.FromArea = true
	v.Value = point.Volume + sum*step
	v.Half = doubt.Combine(s.data.VolumeShare*point.Volume, carriedShare*sum*step)
	v.Slope, err = c.At(clamp(height, s.heights))
	return v, err
}
