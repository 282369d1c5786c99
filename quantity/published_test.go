package quantity_test

import (
	"testing"

	"jounce/internal/evidence"
	. "jounce/quantity"
)

func TestPublishedFactors(t *testing.T) {
	book := evidence.Open(t)
	for _, row := range book.Rows("NIST811") {
		kind, ok := KindOf(row.Text("quantity"))
		from, okFrom := UnitOf(kind, row.Text("from"))
		to, okTo := UnitOf(kind, row.Text("to"))
		if !ok || !okFrom || !okTo {
			t.Errorf("%s: no such kind or unit", row.ID)
			continue
		}
		book.Check(row, to.FromSI(from.ToSI(1)))
	}
}

func TestPublishedFlowUnits(t *testing.T) {
	book := evidence.Open(t)
	for _, key := range []string{"LIWO", "TQC", "WEBCONV", "COURSE-V", "CALC"} {
		for _, row := range book.Rows(key) {
			v, err := Parse(KindFreeAirFlow, row.Text("value")+" "+row.Text("from"))
			if err != nil {
				t.Errorf("%s %s: %v", key, row.ID, err)
				continue
			}
			if row.Text("to") == "mol/s" {
				q, _ := v.Flow()
				book.Check(row, float64(q.Mass())*AirGasConstant/8.314463)
				continue
			}
			to, ok := UnitOf(KindFreeAirFlow, row.Text("to"))
			if !ok {
				t.Errorf("%s %s: no unit %q", key, row.ID, row.Text("to"))
				continue
			}
			book.Check(row, v.In(to))
		}
	}
}

func TestPublishedStates(t *testing.T) {
	book := evidence.Open(t)
	states := map[string]Reference{}
	for _, ref := range References() {
		states[ref.Name] = ref
	}
	for _, key := range []string{"ISO8778", "DIN1343", "ISO2533"} {
		for _, row := range book.Rows(key) {
			ref, ok := states[row.Text("state")]
			if !ok {
				t.Errorf("no state %q", row.Text("state"))
				continue
			}
			switch row.Text("property") {
			case "p":
				book.Check(row, float64(ref.Pressure)/1000)
			case "t":
				book.Check(row, ref.Temperature.Celsius())
			case "rho":
				book.Check(row, ref.Density)
			}
		}
	}
}
