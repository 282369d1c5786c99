package plate

import (
	"jounce/internal/figure"
	"jounce/internal/study"
)

// Ends is the car from in front and from behind, at ROAD.
func Ends(r *study.Result) figure.End {
	h, a := r.Heights, r.Across
	return figure.End{Body: r.Body, Wheel: wheels(r), Track: a.Track, GroundToBody: a.GroundToBody, Scrub: h.Scrub, Lamp: a.Lamp, Kerb: r.Path.Road.Kerb, Change: h.Change, Preset: 1}
}

// wheels are the tyres as the drawings have them.
func wheels(r *study.Result) [2]figure.Wheel {
	var out [2]figure.Wheel
	for i, w := range r.Heights.Wheel {
		out[i] = figure.Wheel{Known: w.Known, Diameter: w.Diameter, Loaded: w.Loaded, Flange: w.Flange, Width: r.Across.TyreWidth[i], Measured: w.Measured}
	}
	return out
}
