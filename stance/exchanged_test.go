package stance

import (
	"fmt"
	"testing"
)

func TestLimitExchangedOfAnyKind(t *testing.T) {
	before := [4]float64{360, 352, 388, 380}
	for _, c := range []struct {
		name string
		now  [4]float64
		want Exchange
	}{
		{"as before", before, NoExchange},
		{"all lower by 40", [4]float64{320, 312, 348, 340}, NoExchange},
		{"front and rear", [4]float64{388, 380, 360, 352}, FrontRear},
		{"left and right", [4]float64{352, 360, 380, 388}, LeftRight},
		{"diagonals", [4]float64{380, 388, 352, 360}, Diagonals},
	} {
		if got := Exchanged(before, c.now, 6).Looks; got != c.want {
			t.Errorf("%s: %v, expected %v", c.name, got, c.want)
		}
	}
	if got := Exchanged(before, [4]float64{352, 360, 380, 388}, 9).Looks; got != NoExchange {
		t.Errorf("a change of 8 under a noise of 9: %v, expected nothing", got)
	}
}

func TestLimitLooksCrossed(t *testing.T) {
	for _, c := range []struct {
		name string
		v    [4]float64
		want bool
	}{
		{"the driver's side heavier at both ends", [4]float64{276, 300, 221, 246}, false},
		{"the rear two exchanged", [4]float64{276, 300, 246, 221}, true},
		{"the front two exchanged", [4]float64{300, 276, 221, 246}, true},
		{"alike in front", [4]float64{276, 276, 246, 221}, false},
		{"one wheel on a step", [4]float64{300, 276, 234, 234}, false},
	} {
		if got := LooksCrossed(c.v, 8, 31); got.Looks != c.want {
			t.Errorf("%s: %+v, expected %t", c.name, got, c.want)
		}
	}
}

func ExampleExchanged() {
	fmt.Println(Exchanged([4]float64{360, 361, 359, 359}, [4]float64{360, 361, 359, 359}, 6).Looks)
	// Output: nothing looks exchanged
}

func ExampleLooksCrossed() {
	c := LooksCrossed([4]float64{276, 300, 246, 221}, 8, 31)
	fmt.Printf("%.0f kg as written, %.0f kg with one pair exchanged\n", c.Residual, c.IfExchanged)
	// Output: -49 kg as written, 1 kg with one pair exchanged
}
