package plate

import (
	"strconv"
	"strings"

	"jounce/internal/figure"
	"jounce/internal/finding"
	"jounce/internal/study"
)

// Side is the heights picture at ROAD: the body from its measures, what touches first, and what must be got over.
func Side(r *study.Result) figure.Side {
	h := r.Heights
	out := figure.Side{Body: r.Body, Wheel: wheels(r), SillAt: h.SillAt, Lowest: h.Lowest, LowestName: h.LowestName, LowestAt: h.LowestAt, Scrub: h.Scrub, Change: h.Change, Preset: 1, Zones: true,
		Touches: touches(r), Road: figure.Road(r.Path.Road)}
	if t, ok := lowest(r); ok && !t.Assumed {
		out.LowestX = t.X
	}
	return out
}

// lowest is the touch point of the lowest part.
func lowest(r *study.Result) (study.Touch, bool) {
	for _, t := range r.Path.Touches {
		if t.ID == "lowest" || t.Moves == "with the body" && r.Heights.LowestName != "" && strings.EqualFold(strings.TrimSpace(t.Name), strings.TrimSpace(r.Heights.LowestName)) {
			return t, true
		}
	}
	return study.Touch{}, false
}

// touches are the places where something meets something, as the drawing has them.
func touches(r *study.Result) []figure.SideTouch {
	var out []figure.SideTouch
	for i, t := range r.Path.Touches {
		if t.Rank < 1 || !t.X.Known() || !t.Z.Known() {
			continue
		}
		out = append(out, figure.SideTouch{No: i, ID: t.ID, Rank: t.Rank, Name: t.Name, At: down(t.At), Half: t.At.Half, X: t.X.Value, Z: t.Z.Value, Y: across(r, t),
			Body: t.Moves == "with the body", Assumed: t.Assumed})
	}
	return out
}

// down is a change of height as a distance below ROAD, without its unit: "82 ± 2".
func down(n finding.Number) string {
	n.Value = -n.Value
	text := n.String()
	if u := n.Unit.Name(); u != "" {
		text = strings.TrimSuffix(text, "\u00a0"+u)
	}
	return strings.ReplaceAll(text, "\u00a0", " ")
}

// across is where a touch point lies across the car, left of the middle [m]: as it was read; else at its wheel, and in the
// middle for an axle and the body.
func across(r *study.Result, t study.Touch) float64 {
	half := 0.42 * r.Body.Width.V
	switch {
	case t.Y.Known():
		return t.Y.Value
	case strings.HasSuffix(t.Place, "L"):
		return half
	case strings.HasSuffix(t.Place, "R"):
		return -half
	}
	return 0
}

// Places are where findings lie on the car, by their id: behind the front hub and over the floor at ROAD [m]. A finding that
// has no place on the car has none.
func Places(r *study.Result) map[string][2]float64 {
	out := map[string][2]float64{}
	for _, f := range r.Findings {
		if x, z, ok := placeOf(r, f); ok {
			out[f.ID] = [2]float64{x, z}
		}
	}
	return out
}

// Zones are the fields of the wide drawing in which findings lie: "C3", by the finding's id.
func Zones(r *study.Result) map[string]string {
	out := map[string]string{}
	at := figure.SideZones(Side(r))
	for id, p := range Places(r) {
		out[id] = at(p[0], p[1])
	}
	return out
}

// placeOf is where a finding lies on the car: its touch point, the lowest part, the lamp, a wheel or an axle [m].
func placeOf(r *study.Result, f finding.Finding) (x, z float64, ok bool) {
	for _, t := range r.Path.Touches {
		if (f.ID == "touch."+t.ID || strings.HasSuffix(f.ID, "."+t.ID) && f.Topic == "touch") && t.X.Known() && t.Z.Known() {
			return t.X.Value, t.Z.Value, true
		}
	}
	o := r.Body
	switch {
	case strings.HasPrefix(f.ID, "ground.") || f.ID == "scrub.road" || f.Topic == "ways":
		if t, ok := lowest(r); ok && t.X.Known() {
			return t.X.Value, r.Heights.Lowest.Value, r.Heights.Lowest.Known()
		}
		return o.Wheelbase.V / 2, r.Heights.Lowest.Value, r.Heights.Lowest.Known()
	case strings.HasPrefix(f.ID, "lamp."):
		return o.Nose.V + 0.05, 0.46 * o.Roof.V, true
	case f.Place == "front" || f.Place == "FL" || f.Place == "FR":
		return 0, o.Hub[0].V, true
	case f.Place == "rear" || f.Place == "RL" || f.Place == "RR":
		return o.Wheelbase.V, o.Hub[1].V, true
	}
	return 0, 0, false
}

// Ghost is the picture with another state of the same car behind it.
func Ghost(now, then *study.Result, name string) figure.Side {
	s, g := Side(now), Side(then)
	g.Name = name
	s.Ghost = &g
	return s
}

// Revision names a revision beside its ghost.
func Revision(n int) string { return "revision " + strconv.Itoa(n) }
