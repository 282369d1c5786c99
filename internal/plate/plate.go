// Package plate turns what the studies found into what the figures draw, for
// pages and papers alike. It computes nothing.
package plate

import (
	"math"
	"strings"

	"jounce/internal/catalog"
	"jounce/internal/figure"
	"jounce/internal/finding"
	"jounce/internal/study"
	"jounce/quantity"
)

// Decay is the chart of one leak test; false where it has no curves yet.
func Decay(l study.Leak, shop *catalog.Shop) (figure.Decay, bool) {
	c := l.Chart
	if c == nil {
		return figure.Decay{}, false
	}
	return figure.Decay{Time: c.Time, Cold: c.Cold, PassEnds: c.PassEnds, Stops: c.Stops, Band: c.Band, ReadTime: c.ReadTime, Read: c.Read, ReadHalf: c.ReadHalf,
		Labels: c.Labels, PassText: "pass ends, " + bare(c.PassText), StopText: "stops the work: " + c.StopText + " in 12 h", Decide: c.Decide, DecideAt: l.DecideAt,
		Unit: shop.Unit(quantity.KindPressure)}, true
}

// bare is a limit without its unit: "0.1".
func bare(s string) string {
	number, _, _ := strings.Cut(s, "\u00a0")
	return number
}

// Load is load over height of an axle's spring; false where the maker's table
// does not allow it.
func Load(a study.Axle, shop *catalog.Shop) (figure.LoadHeight, bool) {
	c := a.Chart
	if c == nil {
		return figure.LoadHeight{}, false
	}
	out := figure.LoadHeight{Name: title(a.Name) + " spring", Least: c.Least, Most: c.Most, Road: c.Road, Low: c.Low, High: c.High, Loads: c.Loads, LoadText: c.LoadText,
		TooSmall: limit(c.TooSmall, shop.Limit("spring.pressure.most"), "too small above"), TooBig: limit(c.TooBig, shop.Limit("spring.pressure.least"), "owner signs below")}
	for _, b := range c.Isobars {
		line := figure.Isobar(b)
		line.Label = short(quantity.KindPressure, b.Pressure, shop.Unit(quantity.KindPressure))
		out.Isobars = append(out.Isobars, line)
	}
	return out, true
}

func limit(b *study.Isobar, l finding.Limit, words string) *figure.Isobar {
	if b == nil {
		return nil
	}
	out := figure.Isobar(*b)
	out.Label = short(l.Kind, l.Value, l.Unit) + ": " + words
	return &out
}

// short is a round value without noughts behind its point: "5.5 bar", "4 bar".
func short(kind quantity.Kind, si float64, unit quantity.Unit) string {
	for digits := range 3 {
		text := quantity.Format(kind, si, unit, digits)
		if v, err := quantity.Parse(kind, strings.ReplaceAll(text, "\u00a0", " ")); err == nil && math.Abs(v.SI()-si) <= 1e-6*math.Abs(si) {
			return text
		}
	}
	return quantity.Format(kind, si, unit, -1)
}

// Travel is the travel of the axles that have a budget.
func Travel(r *study.Result) []figure.Travel {
	var out []figure.Travel
	for _, a := range r.Axles {
		t := a.Travel
		if !a.Air || a.Refusal != "" {
			continue
		}
		out = append(out, figure.Travel{Name: a.Name, Bump: t.Bump, Droop: t.Droop, StopMeets: negative(t.StopMeets), BumpParts: endings(t.BumpParts, -1), DroopParts: endings(t.DroopParts, 1),
			Known: t.Known, Down: t.Down, Hump: t.Hump, High: t.High, Gap: t.Gap})
	}
	return out
}

func endings(list []study.Ending, sign float64) []figure.Ending {
	out := make([]figure.Ending, len(list))
	for i, e := range list {
		out[i] = figure.Ending{Name: e.Name, At: e.At, Ends: e.Ends}
		out[i].At.Value *= sign
	}
	return out
}

func negative(n finding.Number) finding.Number {
	n.Value = -n.Value
	return n
}

// Ride is front against rear; false where neither is known.
func Ride(r *study.Result, shop *catalog.Shop) (figure.Ride, bool) {
	out := figure.Ride{Front: mean(r.Corners[study.FL].Ride, r.Corners[study.FR].Ride), Rear: mean(r.Corners[study.RL].Ride, r.Corners[study.RR].Ride),
		Least: shop.Limit("ride.frequency.least").Value, Most: shop.Limit("ride.frequency.most").Value}
	if out.Front.Known() {
		lo, hi := shop.Limit("ride.rear.least"), shop.Limit("ride.rear.most")
		out.WantLo, out.WantHi = out.Front.Value*(1+lo.Value), out.Front.Value*(1+hi.Value)
		out.WantText = "rear wanted, " + bare(short(lo.Kind, lo.Value, lo.Unit)) + " to " + short(hi.Kind, hi.Value, hi.Unit) + " above"
	}
	return out, out.Front.Known() || out.Rear.Known()
}

// mean is the middle of left and right, with the doubt of one: both rest on the
// same spring data.
func mean(a, b finding.Number) finding.Number {
	if !a.Known() || !b.Known() {
		return finding.Number{}
	}
	a.Value = (a.Value + b.Value) / 2
	return a
}

// Plan is the car from above, its corners lettered with the pressures at ROAD
// where lettered is true.
func Plan(r *study.Result, lettered bool) figure.Plan {
	h := r.Heights
	out := figure.Plan{Wheelbase: h.Wheelbase, FrontOverhang: h.FrontOverhang, RearOverhang: h.RearOverhang, Diameter: h.Wheel[0].Diameter, TyreWidth: r.Across.TyreWidth[0], Touches: touches(r)}
	if w := r.Body.Width; w.Known {
		out.Width = finding.Of(quantity.KindLength, "mm", w.V, 0)
	}
	if !lettered {
		return out
	}
	for i, c := range r.Corners {
		p := figure.PlanCorner{Head: study.CornerNames[i] + " " + study.CornerWords[i], Value: c.Pressure[1]}
		for n, words := range study.Cases {
			if n != 1 && c.Pressure[n].Known() {
				one := c.Pressure[n]
				one.Half = 0
				p.Lines = append(p.Lines, one.String()+" "+words)
			}
		}
		out.Corners = append(out.Corners, p)
	}
	return out
}

func title(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
