package catalog_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"jounce/internal/catalog"
	"jounce/internal/job"
	"jounce/quantity"
	"jounce/spring"
)

func TestExampleSpringsSaySoAndWork(t *testing.T) {
	shop := catalog.NewShop("Harrow Lane Motors")
	rows := shop.Shelf()
	if len(rows) == 0 {
		t.Fatal("the shelf is empty")
	}
	for _, row := range rows {
		if !strings.Contains(row.Source, "invented") {
			t.Errorf("%s: source %q does not say that it is invented", row.ID, row.Source)
		}
		var s job.Spring
		d := json.NewDecoder(bytes.NewReader(row.Document))
		d.DisallowUnknownFields()
		if err := d.Decode(&s); err != nil {
			t.Errorf("%s: %v", row.ID, err)
			continue
		}
		rec := &job.Job{Schema: job.Schema, ID: "1", Springs: []job.Spring{s}}
		if p := rec.Check(); len(p) > 0 {
			t.Errorf("%s: the record asks %v", row.ID, p)
		}
		data := spring.Data{Name: s.Name, Kind: map[string]spring.Kind{"bellows": spring.Bellows, "sleeve": spring.Sleeve}[s.Behaviour]}
		for _, p := range s.Points {
			data.Points = append(data.Points, spring.Point{Pressure: quantity.GaugePressure(quantity.MustParse(quantity.KindPressure, p.Pressure.Value).SI()),
				Height: quantity.MustParse(quantity.KindLength, p.Height.Value).SI(), Load: quantity.MustParse(quantity.KindForce, p.Load.Value).SI()})
		}
		if _, err := spring.New(data); err != nil {
			t.Errorf("%s: the engine refuses it: %v", row.ID, err)
		}
	}
}

func TestShopsOwnSpringsComeFirst(t *testing.T) {
	shop := catalog.NewShop("Harrow Lane Motors")
	shop.Springs = []catalog.Row{{ID: "r1", Source: "typed by T. Marrow", Document: json.RawMessage(`{"id":"s1"}`)}}
	if got := shop.Shelf(); got[0].ID != "r1" {
		t.Errorf("first on the shelf is %s", got[0].ID)
	}
	if row, ok := shop.OnShelf("r1"); !ok || row.Source != "typed by T. Marrow" {
		t.Errorf("r1 is %+v, %v", row, ok)
	}
	if _, ok := shop.OnShelf("none"); ok {
		t.Error("a row that is not there was found")
	}
}
