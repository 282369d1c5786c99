package catalog

import (
	"testing"

	"jounce/internal/finding"
	"jounce/quantity"
	"jounce/source"
)

func TestEveryLimitHasItsMark(t *testing.T) {
	s := NewShop("Harrow Lane Motors")
	seen := map[string]bool{}
	for _, l := range s.Limits() {
		if !l.Source.Known() {
			t.Errorf("%s: mark %q stands in no list", l.Key, l.Source)
		}
		if seen[l.Key] {
			t.Errorf("%s stands twice", l.Key)
		}
		seen[l.Key] = true
	}
}

func TestShopChangesALimitWithANote(t *testing.T) {
	s := NewShop("Harrow Lane Motors")
	s.Changes = []LimitChange{{ID: "travel.bump.want", Value: "2.5 in", Grade: "note"}}
	if s.Check() == nil {
		t.Error("a limit changed without a note was taken")
	}
	s.Changes[0].Note = "our roads"
	if err := s.Check(); err != nil {
		t.Error(err)
	}
	l := s.Limit("travel.bump.want")
	if l.Value < 0.06349 || l.Value > 0.06351 || l.Grade != finding.Note {
		t.Errorf("limit is %g m, %v", l.Value, l.Grade)
	}
	s.Changes[0].Value = "2.5 bar"
	if s.Check() == nil {
		t.Error("a pressure was taken for a length")
	}
}

func TestEveryTopicHasItsLimitsOnce(t *testing.T) {
	s := NewShop("Harrow Lane Motors")
	n := 0
	for _, topic := range s.ByTopic() {
		if topic.Title == "Everything else" {
			t.Errorf("no topic for %s", topic.Limits[0].Key)
		}
		n += len(topic.Limits)
	}
	if n != len(s.Limits()) {
		t.Errorf("%d limits in topics, %d in the list", n, len(s.Limits()))
	}
}

func TestLimitsThatNoLimitCanHave(t *testing.T) {
	mm, _ := quantity.UnitOf(quantity.KindLength, "mm")
	for text, want := range map[string]string{"55": "55 mm", "55 mm": "55 mm", "2.5 in": "2.5 in", "55 ± 5 mm": "", "-5 mm": "", "60 in": "", "5 mm": "", "60 bar": "", "wide": ""} {
		_, got, err := ReadLimit("travel.bump.want", text, mm)
		if got != want || (err == nil) != (want != "") {
			t.Errorf("%q reads as %q, %v; expected %q", text, got, err, want)
		}
	}
	if _, _, err := ReadLimit("travel.bump.want", "55", quantity.Unit{}); err == nil {
		t.Error("a number without a unit was taken where no unit is shown")
	}
}

func TestLimitsThatCrossAreNamed(t *testing.T) {
	s := NewShop("Harrow Lane Motors")
	if x := s.Crossed(); len(x) > 0 {
		t.Fatalf("the list starts with %v", x)
	}
	s.Changes = []LimitChange{{ID: "ride.frequency.least", Value: "1.9 Hz", Note: "stiff cars only"}}
	if x := s.Crossed(); len(x) != 1 || x[0].Key != "ride.frequency.least" {
		t.Errorf("crossed limits are %v", x)
	}
	if s.Check() == nil {
		t.Error("a list in which nothing passes was taken")
	}
}

func TestShopsOwnValueCarriesNoForeignMark(t *testing.T) {
	s := NewShop("Harrow Lane Motors")
	s.Changes = []LimitChange{{ID: "lamp.aim.most", Value: "2.5 %", Note: "our tester's wish"}}
	if m := s.Limit("lamp.aim.most").Source; m != source.Shop {
		t.Errorf("the mark of a changed value is %s", m)
	}
	s.Changes[0].Value, s.Changes[0].Grade = "", "owner signs"
	if m := s.Limit("lamp.aim.most").Source; m != "S6" {
		t.Errorf("the mark of a value that was not changed is %s", m)
	}
	s.Changes[0].Grade = "red"
	if s.Check() == nil {
		t.Error("a grade that is none was taken")
	}
	s.Changes, s.FullWidth = nil, 8.2
	if s.Check() == nil {
		t.Error("an aspect of 8.2 % was taken")
	}
	s.FullWidth, s.Mass = 0, "st"
	if s.Check() == nil {
		t.Error("stones were taken for the unit of mass")
	}
}

func TestEveryBoundIsWrittenWithoutRounding(t *testing.T) {
	for _, l := range NewShop("Harrow Lane Motors").Limits() {
		v, err := quantity.Parse(l.Kind, l.Text())
		if err != nil || v.SI() != l.Value {
			t.Errorf("%s: %q reads as %g, %v; the bound is %g", l.Key, l.Text(), v.SI(), err, l.Value)
		}
	}
}
