package quantity_test

import (
	"testing"

	. "jounce/quantity"
)

// TestConservesFlowMass shows that the same flow has one mass, at whichever
// state it is counted.
func TestConservesFlowMass(t *testing.T) {
	for _, from := range References() {
		q := FreeAirFlow{Volume: 0.004, Ref: from}
		for _, to := range References() {
			r := q.At(to)
			if r.Ref != to || !nearly(float64(r.Mass()), float64(q.Mass())) {
				t.Errorf("%s at %s: %v kg/s, expected %v", from.Name, to.Name, r.Mass(), q.Mass())
			}
		}
		if q.At(from) != q {
			t.Errorf("%s at itself is not the same", from.Name)
		}
	}
}

func TestExactFlow(t *testing.T) {
	for _, c := range []struct {
		text   string
		ref    Reference
		volume float64 // [m³/s]
	}{
		{"24 L/min ANR", ANR, 0.0004},
		{"24 NL/min", DIN1343, 0.0004},
		{"24 L/min DIN 1343", DIN1343, 0.0004},
		{"24 L/min at 1.013 bar, 20 °C", Workshop, 0.0004},
		{"24 L/min at 1.013 bar, 0 °C", DIN1343, 0.0004},
		{"18 to 30 L/min ANR", ANR, 0.0004},
		{"60 sccm", DIN1343, 1e-6},
		{"3.6 Nm³/h", DIN1343, 1e-3},
		{"1 m³/min ISO 2787", ISO2787, 1.0 / 60},
	} {
		v, err := Parse(KindFreeAirFlow, c.text)
		if err != nil {
			t.Error(err)
			continue
		}
		q, ok := v.Flow()
		if !ok || q.Ref != c.ref || !nearly(q.Volume, c.volume) {
			t.Errorf("%q: %+v, expected %v at %s", c.text, q, c.volume, c.ref.Name)
		}
		if !nearly(v.SI()*ANR.Density, float64(q.Mass())) {
			t.Errorf("%q: SI is %v m³/s ANR, its mass %v kg/s", c.text, v.SI(), q.Mass())
		}
		if ref, ok := v.Unit().Reference(); !ok || ref != c.ref {
			t.Errorf("%q: the unit's state is %q", c.text, ref.Name)
		}
	}
	if _, ok := MustParse(KindLength, "3 mm").Flow(); ok {
		t.Error("a length is a flow")
	}
	if _, ok := MustParse(KindLength, "3 mm").Unit().Reference(); ok {
		t.Error("a millimetre has a state")
	}
	// A throughput has no state of its own: it is given at ANR.
	v := MustParse(KindFreeAirFlow, "1 Pa·m³/s at 20 °C")
	q, ok := v.Flow()
	if want := 1 / (AirGasConstant * 293.15); !ok || q.Ref != ANR || !nearly(float64(q.Mass()), want) {
		t.Errorf("1 Pa·m³/s at 20 °C: %+v, expected %v kg/s", q, want)
	}
}

// TestAgreesFlowStates holds 25,000 sccm against 25 NL/min: one state, two
// ways to write it.
func TestAgreesFlowStates(t *testing.T) {
	a, b := MustParse(KindFreeAirFlow, "25000 sccm"), MustParse(KindFreeAirFlow, "25 NL/min")
	if !nearly(a.SI(), b.SI()) {
		t.Errorf("%v and %v", a.SI(), b.SI())
	}
}

func TestExactGauge(t *testing.T) {
	if got := GaugePressure(3.5e5).Absolute(StandardAtmosphere); got != 451325 {
		t.Errorf("3.5 bar is %v Pa absolute", got)
	}
	if got := AbsPressure(451325).Gauge(StandardAtmosphere); got != 3.5e5 {
		t.Errorf("4.51325 bar a is %v Pa gauge", got)
	}
	if got := FromCelsius(20).Celsius(); !nearly(got, 20) {
		t.Errorf("20 °C comes back as %v", got)
	}
	if got := FromCelsius(25).Sub(FromCelsius(20)); !nearly(float64(got), 5) {
		t.Errorf("25 °C less 20 °C is %v K", got)
	}
}
