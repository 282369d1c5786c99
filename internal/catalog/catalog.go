// Package catalog is what a shop starts with and what it has made its own: its
// list of limits, its units, its springs. Each row carries where it is from.
package catalog

import (
	"encoding/json"
	"errors"
	"fmt"

	"jounce/internal/finding"
	"jounce/quantity"
	"jounce/source"
)

// Shop is the shop's own document, versioned in the store like a job.
type Shop struct {
	Schema    int           `json:"schema"`
	Name      string        `json:"name"`
	Pressure  string        `json:"pressure"`            // unit that pressures are shown in first: "bar" or "psi"
	Length    string        `json:"length"`              // "mm" or "in"
	Mass      string        `json:"mass"`                // "kg" or "lb"
	FullWidth float64       `json:"fullWidth,omitempty"` // aspect of a tyre with none marked [%]; 0 is 82
	Changes   []LimitChange `json:"limits,omitempty"`
	Springs   []Row         `json:"springs,omitempty"` // the shop's own rows, documents of job.Spring
}

// LimitChange is a limit that the shop has changed, with its note.
type LimitChange struct {
	ID    string `json:"id"` // key of the limit
	Value string `json:"value,omitempty"`
	Grade string `json:"grade,omitempty"`
	Note  string `json:"note"`
	By    string `json:"by,omitempty"` // who changed it
	At    string `json:"at,omitempty"` // when, RFC 3339
}

// Row is a part on the shop's shelf. Document is a spring of a job.
type Row struct {
	ID       string          `json:"id"`
	Source   string          `json:"source"`
	Date     string          `json:"date,omitempty"`
	Document json.RawMessage `json:"document"`
}

// NewShop is a shop that has changed nothing yet.
func NewShop(name string) *Shop {
	return &Shop{Schema: 1, Name: name, Pressure: "bar", Length: "mm", Mass: "kg"}
}

// Unit is the unit that the shop shows a kind in.
func (s *Shop) Unit(kind quantity.Kind) quantity.Unit {
	name := ""
	switch kind {
	case quantity.KindPressure:
		name = s.Pressure
	case quantity.KindLength:
		name = s.Length
	case quantity.KindMass:
		name = s.Mass
	}
	if name == "" {
		return kind.Main()
	}
	if u, ok := quantity.UnitOf(kind, name); ok {
		return u
	}
	return kind.Main()
}

// Limit is one limit as the shop has it. An unknown key is a fault of the
// program.
func (s *Shop) Limit(key string) finding.Limit {
	l, ok := byKey[key]
	if !ok {
		panic("catalog: no limit " + key)
	}
	for _, c := range s.Changes {
		if c.ID != key {
			continue
		}
		if v, err := quantity.Parse(l.Kind, c.Value); err == nil && c.Value != "" {
			l.Value, l.Unit, l.Source = v.SI(), v.Unit(), source.Shop
		}
		if g, ok := finding.GradeOf(c.Grade); ok {
			l.Grade = g
		}
		l.Note = c.Note
	}
	return l
}

// Limits is the whole list as the shop has it.
func (s *Shop) Limits() []finding.Limit {
	out := make([]finding.Limit, len(start))
	for i, l := range start {
		out[i] = s.Limit(l.Key)
	}
	return out
}

// Check names what is wrong in the shop's document.
func (s *Shop) Check() error {
	if err := s.checkDisplay(); err != nil {
		return err
	}
	for _, c := range s.Changes {
		l, ok := byKey[c.ID]
		if !ok {
			return fmt.Errorf("limits: there is no limit %q", c.ID)
		}
		if err := c.check(l); err != nil {
			return err
		}
	}
	if x := s.Crossed(); len(x) > 0 {
		return errors.New(x[0].Says)
	}
	return nil
}

// texts are the bounds that the list starts with, as they are typed.
var texts = map[string]string{}

var byKey = func() map[string]finding.Limit {
	m := map[string]finding.Limit{}
	for _, l := range start {
		m[l.Key] = l
	}
	return m
}()

func limit(key, name, rule string, kind quantity.Kind, text string, grade finding.Grade, mark source.Mark) finding.Limit {
	v := quantity.MustParse(kind, text)
	texts[key] = text
	return finding.Limit{Key: key, Name: name, Below: rule == "least", Kind: kind, Value: v.SI(), Unit: v.Unit(), Grade: grade, Source: mark}
}
