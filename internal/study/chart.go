package study

import (
	"jounce/internal/finding"
	q "jounce/quantity"
	"jounce/spring"
)

// chart makes the load-over-height figure of an axle, where the maker's table
// has two heights or more.
func (v *view) chart(i int, a *air) {
	if a.part == nil || a.rec == nil || a.guess {
		return
	}
	low, high := a.part.Heights()
	if high-low < 0.005 {
		return
	}
	c := &SpringChart{Name: a.rec.Name, Least: low, Most: high, Road: a.height.Value}
	d := a.part.Data()
	if d.MinHeight > 0 {
		c.Least = d.MinHeight
	}
	if d.MaxHeight > 0 {
		c.Most = d.MaxHeight
	}
	if a.ratio.OK && a.height.OK {
		h := v.presetChange(i)
		if h[0].Known() {
			c.Low = a.height.Value + h[0].Value*a.ratio.Value
		}
		if h[1].Known() {
			c.High = a.height.Value + h[1].Value*a.ratio.Value
		}
	}
	seen := map[float64]bool{}
	for _, p := range d.Points {
		if bar := float64(p.Pressure); !seen[bar] {
			seen[bar] = true
			if line, ok := v.isobar(a.part, bar); ok {
				c.Isobars = append(c.Isobars, line)
			}
		}
	}
	if line, ok := v.isobar(a.part, v.shop.Limit("spring.pressure.most").Value); ok {
		c.TooSmall = &line
	}
	if line, ok := v.isobar(a.part, v.shop.Limit("spring.pressure.least").Value); ok {
		c.TooBig = &line
	}
	k := 2 * i
	for n := range c.Loads {
		if m := v.out.Corners[k].Case[n]; m.Known() && a.ratio.OK {
			c.Loads[n] = m.Value * q.StandardGravity / a.ratio.Value
		}
		if p := v.out.Corners[k].Pressure[n]; p.Known() {
			c.LoadText[n] = q.Format(q.KindPressure, p.Value, p.Unit, 1)
		}
	}
	v.out.Axles[i].Chart = c
}

func (v *view) isobar(s *spring.Spring, pressure float64) (Isobar, bool) {
	pts, err := s.Isobar(q.GaugePressure(pressure), 48)
	if err != nil || len(pts) < 2 {
		return Isobar{}, false
	}
	out := Isobar{Pressure: pressure, Label: finding.Exact(q.KindPressure, pressure, v.shop.Unit(q.KindPressure))}
	for _, p := range pts {
		out.Heights = append(out.Heights, p.Height)
		out.Loads = append(out.Loads, p.Load)
	}
	return out, true
}

// presetChange is an axle's DOWN and HIGH, as far as they are typed.
func (v *view) presetChange(i int) [2]finding.Number {
	var out [2]finding.Number
	for n, name := range []string{"down", "high"} {
		if g := v.read("presets."+name+"."+AxleNames[i], "", exact); g.OK {
			out[n] = g.Number
		}
	}
	return out
}
