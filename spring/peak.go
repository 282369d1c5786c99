package spring

import (
	"math"

	"jounce/gas"
	"jounce/quantity"
)

// Peak is the pressure at the end of a fast bump.
type Peak struct {
	Start     quantity.GaugePressure // before the bump [Pa]
	Barometer quantity.AbsPressure   // [Pa]
	StartAbs  quantity.AbsPressure   // before the bump [Pa]
	Before    float64                // volume before [m³]
	After     float64                // volume at full bump [m³]
	Exponent  float64                // n [1]
	PeakAbs   quantity.AbsPressure   // at full bump [Pa]
	Value     quantity.GaugePressure // at full bump [Pa]
}

// BumpPeak is the pressure after a fast change of volume with closed valves.
//
//	p₂ = p₁·(V₁/V₂)ⁿ, absolute
//
// V₁ before, V₂ after [m³]; n = 1.38 [1]. Handbook calculation 19, S31. It is
// on the high side: heat flows, air in long lines helps.
func BumpPeak(p quantity.GaugePressure, before, after, n float64, barometer quantity.AbsPressure) (Peak, error) {
	k := Peak{Start: p, Barometer: barometer, StartAbs: p.Absolute(barometer), Before: before, After: after, Exponent: n}
	if after > before {
		return k, badNumber("volume at full bump [L]", after*1000, "not more than the volume before")
	}
	var err error
	if k.PeakAbs, err = gas.Polytropic(k.StartAbs, before, after, n); err != nil {
		return k, err
	}
	k.Value = k.PeakAbs.Gauge(barometer)
	return k, nil
}

// Peak is the pressure when the spring is pushed from one height to a lower
// one.
func (s *Spring) Peak(p quantity.GaugePressure, from, to, n float64, barometer quantity.AbsPressure) (Peak, error) {
	v1, err := s.Volume(p, from)
	if err != nil {
		return Peak{}, err
	}
	v2, err := s.Volume(p, to)
	if err != nil {
		return Peak{}, err
	}
	return BumpPeak(p, v1.Value, v2.Value, n, barometer)
}

// PeakWay is what would bring a bump's peak down to a limit; either alone does.
type PeakWay struct {
	Limit     quantity.GaugePressure // dynamic maximum [Pa]
	Over      quantity.GaugePressure // peak above it [Pa]; not above zero is within it
	LeastLeft float64                // volume that must be left at full bump: an earlier stop [m³]
	AddVolume float64                // volume to be added, the stroke unchanged [m³]; zero where none is needed
	Possible  bool                   // the limit is above the standing pressure: a way exists
}

// WayOut turns the bump's formula round for a limit.
//
//	R = (p_limit/p₁)^(1/n), absolute;  V₂ = V₁/R;  added = (R·V₂ − V₁)/(1 − R)
func (k Peak) WayOut(limit quantity.GaugePressure) PeakWay {
	w := PeakWay{Limit: limit, Over: k.Value - limit, Possible: limit > k.Start && limit > 0}
	if !w.Possible {
		return w
	}
	r := math.Pow(float64(limit.Absolute(k.Barometer))/float64(k.StartAbs), 1/k.Exponent)
	w.LeastLeft = k.Before / r
	if w.Over > 0 {
		w.AddVolume = (k.Before - r*k.After) / (r - 1)
	}
	return w
}

// WaysOut are the ways to carry a load within a pressure.
type WaysOut struct {
	Need          quantity.GaugePressure // pressure as things stand [Pa]
	Maximum       quantity.GaugePressure // the spring's highest standing pressure [Pa]
	Share         float64                // share of it that is allowed, 0.7 [1]
	Allowed       quantity.GaugePressure // Maximum × Share [Pa]
	Over          bool                   // Need is above Allowed
	Load          float64                // on the spring [N]
	Area          float64                // of this spring [m²]
	AreaNeeded    float64                // a spring of this area carries Load at Allowed [m²]
	Ratio         float64                // as things stand [1]
	RatioNeeded   float64                // this spring carries the wheel's load at Allowed in a place of this ratio [1]
	RatioPossible bool                   // RatioNeeded is not above 1: a better place exists on the arm
}

// WaysOut says which area, or which place of the same spring, would carry a
// load at a share of the maximum pressure.
//
//	area = F / (share·p_max),  ratio = F·ratio₀ / (A·share·p_max)
//
// F load on the spring [N], A its area [m²]. The load limit of 70 % is the
// shop's (common practice).
func (n Need) WaysOut(ratio, share float64) (WaysOut, error) {
	w := WaysOut{Need: n.Value, Maximum: n.Maximum, Share: share, Load: n.Load, Area: n.Area.Value, Ratio: ratio}
	if n.Maximum <= 0 {
		return w, &Missing{For: "the way out", What: []string{"the spring's maximum working pressure"}}
	}
	if !(share > 0 && share <= 1) {
		return w, badNumber("share of the maximum", share, "a figure above 0 and up to 1")
	}
	if err := checkRatio(ratio); err != nil {
		return w, err
	}
	w.Allowed = quantity.GaugePressure(float64(n.Maximum) * share)
	w.Over = n.Value > w.Allowed
	w.AreaNeeded = n.Load / float64(w.Allowed)
	w.RatioNeeded = n.Load * ratio / (n.Area.Value * float64(w.Allowed))
	w.RatioPossible = w.RatioNeeded <= 1
	return w, nil
}

// MountLoad is the load of a spring on its mounting against what the mounting
// carried before.
type MountLoad struct {
	Standing    float64 // force of the spring [N]
	Factor      float64 // bump over standing [1]
	Bump        float64 // Standing × Factor [N]
	Before      float64 // what the mounting carried at its most before [N]; 0 is not known
	BeforeKnown bool    // Before is known
	StandingBy  float64 // Standing over Before [1]; 0 where Before is not known
	BumpBy      float64 // Bump over Before [1]; 0 where Before is not known
}

// BumpFactor is the bump over the standing load that a mounting is judged by
// (common practice, 3 g) [1].
const BumpFactor = 3.0

// LoadPath compares a spring's force, standing and in a bump, with what its
// mounting carried before (handbook calculation 6). before is the largest force
// of before: a damper's, or that of a spring in the same seat; 0 is not known,
// and then nothing is compared. Jounce does not say whether metal is strong
// enough: an engineer does.
func LoadPath(springForce, factor, before float64) (MountLoad, error) {
	m := MountLoad{Standing: springForce, Factor: factor, Bump: springForce * factor, Before: before}
	if !above(springForce) || !(factor >= 1 && factor <= 10) || !(before >= 0) || math.IsInf(before, 0) {
		return m, badNumber("force on the mounting [N]", springForce, "a force above zero, a factor from 1 to 10")
	}
	if before > 0 {
		m.BeforeKnown = true
		m.StandingBy, m.BumpBy = m.Standing/before, m.Bump/before
	}
	return m, nil
}
