package catalog

import (
	"testing"

	"jounce/internal/finding"
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
