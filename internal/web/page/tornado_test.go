package page

import (
	"math"
	"testing"

	"jounce/internal/finding"
	"jounce/quantity"
)

// A result of nothing has no per cent: its bars are as long as its changes in
// millimetres.
func TestExactTornadoOfNothing(t *testing.T) {
	mm := func(v float64) finding.Number { return finding.Of(quantity.KindLength, "mm", v/1000, 0) }
	bars := tornado([]finding.Effect{{Name: "preset", Change: mm(-1), Half: mm(0)}, {Name: "damper", Change: mm(24), Half: mm(2)}})
	if len(bars) != 2 || bars[0].Name != "damper" || math.Abs(bars[0].Width-48) > 1e-9 || bars[0].Left || bars[0].Text != "+24\u00a0mm" || bars[0].Doubt != "±\u00a02\u00a0mm" {
		t.Errorf("%+v", bars)
	}
	if !bars[1].Left || math.Abs(bars[1].Width-2) > 1e-9 || bars[1].Doubt != "" {
		t.Errorf("%+v", bars[1])
	}
	bars = tornado([]finding.Effect{{Name: "volume", Percent: -2.4, Doubt: 1.2, Change: mm(-1), Half: mm(0.5)}})
	if math.Abs(bars[0].Width-48) > 1e-9 || math.Abs(bars[0].Half-24) > 1e-9 || bars[0].Text != "−2.4\u00a0%" {
		t.Errorf("%+v", bars)
	}
}
