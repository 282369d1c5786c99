// Package proof holds what was measured on the car against what was predicted
// on paper.
package proof

import (
	"math"

	"jounce/internal/finding"
)

// Agreement is a reading held against its prediction. The doubts of the two are
// independent.
type Agreement struct {
	Measured, Predicted finding.Number
	Apart               finding.Number // measured less predicted, with the doubt of both
	Verdict             finding.Verdict
	Decides             string // "the reading" or "the prediction": whose doubt must shrink where it is too close to call; empty otherwise
}

// Agree tells whether a reading agrees with a prediction to within an allowed
// difference [SI of the two]: pass where even the worst likely difference is
// allowed, fail where even the best likely one is not. Where one of them is not
// known, or they are of two kinds, not enough is known.
func Agree(measured, predicted finding.Number, allowed float64) Agreement {
	a := Agreement{Measured: measured, Predicted: predicted, Verdict: finding.NotKnown}
	if !measured.Known() || !predicted.Known() || measured.Kind != predicted.Kind || !(allowed >= 0) {
		return a
	}
	a.Apart = measured
	a.Apart.Value = measured.Value - predicted.Value
	a.Apart.Half = math.Hypot(measured.Half, predicted.Half)
	off := math.Abs(a.Apart.Value)
	switch {
	case off+a.Apart.Half <= allowed:
		a.Verdict = finding.Pass
	case off-a.Apart.Half > allowed:
		a.Verdict = finding.Fail
	default:
		a.Verdict = finding.TooClose
		a.Decides = "the reading"
		if predicted.Half > measured.Half {
			a.Decides = "the prediction"
		}
	}
	return a
}
