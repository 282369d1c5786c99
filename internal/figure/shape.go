package figure

import (
	"math"

	"jounce/body"
)

// Shape is what was read of a body as it is kept for its small drawing: lengths in millimetres at ROAD; 0 is not read.
type Shape struct {
	Wheelbase float64         `json:"wheelbase,omitempty"` // [mm]
	Front     float64         `json:"front,omitempty"`     // [mm] front overhang
	Rear      float64         `json:"rear,omitempty"`      // [mm] rear overhang
	Roof      float64         `json:"roof,omitempty"`      // [mm] above the floor
	Bonnet    float64         `json:"bonnet,omitempty"`    // [mm] above the floor
	Waist     float64         `json:"waist,omitempty"`     // [mm] above the floor
	Boot      float64         `json:"boot,omitempty"`      // [mm] above the floor
	Sill      float64         `json:"sill,omitempty"`      // [mm] above the floor
	Tyre      float64         `json:"tyre,omitempty"`      // [mm] across, front
	RearTyre  float64         `json:"rearTyre,omitempty"`  // [mm] across
	Hub       [2]float64      `json:"hub,omitzero"`        // [mm] above the floor
	Arch      [2]float64      `json:"arch,omitzero"`       // [mm] hub to arch
	ArchShape [2]string       `json:"archShape,omitzero"`
	Put       map[string]Spot `json:"put,omitempty"` // control points that somebody put elsewhere
}

// Spot is where a control point was put; what is not typed is nil.
type Spot struct {
	X *float64 `json:"x,omitempty"` // [mm] behind the front hub
	Z *float64 `json:"z,omitempty"` // [mm] above the floor
}

// ShapeOf keeps what was read of a body.
func ShapeOf(o body.Outline) Shape {
	m := o.Measures
	mm := func(l body.Length) float64 {
		if !l.Known || !(math.Abs(l.V) < 1000) { // no number, or nothing that a body has
			return 0
		}
		return math.Round(1e4*l.V) / 10
	}
	s := Shape{Wheelbase: mm(m.Wheelbase), Front: mm(m.FrontOverhang), Rear: mm(m.RearOverhang), Roof: mm(m.Roof), Bonnet: mm(m.Bonnet), Waist: mm(m.Waist),
		Boot: mm(m.Boot), Sill: mm(m.Sill), Tyre: 2 * mm(m.TyreRadius[0]), RearTyre: 2 * mm(m.TyreRadius[1]), ArchShape: m.ArchShape}
	for i := range 2 {
		s.Hub[i], s.Arch[i] = mm(m.Hub[i]), mm(m.Arch[i])
	}
	for id, p := range m.Stations {
		if _, drawn := o.Station(id); !drawn {
			continue
		}
		var at Spot
		if x := mm(p.X); p.X.Known {
			at.X = &x
		}
		if z := mm(p.Z); p.Z.Known {
			at.Z = &z
		}
		if at != (Spot{}) {
			if s.Put == nil {
				s.Put = map[string]Spot{}
			}
			s.Put[id] = at
		}
	}
	return s
}

// Outline is the body of a form laid out from what was kept of it.
func (s Shape) Outline(form string) body.Outline {
	m := func(v float64) body.Length { return body.Length{V: v / 1000, Known: v != 0} }
	out := body.Measures{Form: form, Wheelbase: m(s.Wheelbase), FrontOverhang: m(s.Front), RearOverhang: m(s.Rear), Roof: m(s.Roof), Bonnet: m(s.Bonnet), Waist: m(s.Waist),
		Boot: m(s.Boot), Sill: m(s.Sill), TyreRadius: [2]body.Length{m(s.Tyre / 2), m(s.RearTyre / 2)}, ArchShape: s.ArchShape, Stations: map[string]body.Spot{}}
	for i := range 2 {
		out.Hub[i], out.Arch[i] = m(s.Hub[i]), m(s.Arch[i])
	}
	for id, p := range s.Put {
		var at body.Spot
		if p.X != nil {
			at.X = body.Known(*p.X / 1000)
		}
		if p.Z != nil {
			at.Z = body.Known(*p.Z / 1000)
		}
		out.Stations[id] = at
	}
	return body.New(out)
}
