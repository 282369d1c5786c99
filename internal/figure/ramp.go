package figure

import (
	"math"

	"jounce/internal/draw"
	"jounce/stance"
)

// ramp is a car on its driveway where the road comes nearest to it.
type ramp struct {
	way   stance.Way
	stand stance.Stand
	at    stance.Spot // on the road, where it comes nearest
	gap   float64     // there [m]; below 0 they meet
	top   bool        // at the top of the slope, not at its foot
}

// RampView draws the car where its driveway comes nearest to it, of all places from before its foot to behind its top, at the
// body's present height; width [mm]. ok is false where the driveway or the wheelbase is not known. The suspension does not
// move and the tyres do not give: it holds at a walking pace.
func RampView(s Side, width float64, st draw.Style) (sc draw.Scene, ok bool) {
	f := newSide(Side{Body: s.Body, Wheel: s.Wheel, Change: s.Change, Preset: s.Preset, At: s.At, Lowest: s.Lowest, LowestX: s.LowestX, LowestAt: s.LowestAt}, width, st)
	f.ID, f.Title = "ramp", "The car where its driveway comes nearest to it"
	r, ok := f.nearest(s.Road)
	if !ok {
		return draw.Scene{}, false
	}
	f.onRamp(r)
	return f.Scene, true
}

// nearest rolls the car over its driveway and finds where the road comes nearest to the body.
func (f *sideFigure) nearest(road Road) (ramp, bool) {
	step, _ := mm(road.RampStep)
	long, a := mm(road.RampLength)
	rise, b := mm(road.RampRise)
	w, err := stance.Driveway(step/1000, long/1000, rise/1000)
	if !a || !b || err != nil || !f.b.o.Wheelbase.Known {
		return ramp{}, false
	}
	best := ramp{way: w, gap: math.Inf(1)}
	under := f.underside()
	wb, r := f.b.wb/1000, f.wheel[0].loaded/1000
	front, rear := w[0].X-f.b.tail/1000+wb-0.5, w[len(w)-1].X+f.b.tail/1000+0.5
	for x := front; x <= rear; x += 0.02 {
		s, err := w.Stand(x, wb, r)
		if err != nil {
			continue
		}
		for _, p := range under {
			q := f.carried(s, p)
			if gap := q.Z - w.At(q.X); gap < best.gap {
				best.stand, best.gap, best.at = s, gap, stance.Spot{X: q.X, Z: w.At(q.X)}
			}
		}
	}
	best.top = best.at.X > (w[0].X+w[len(w)-1].X)/2
	return best, !math.IsInf(best.gap, 0)
}

// underside is the lower edge of the body without the arches, and the lowest part, at the present height [mm].
func (f *sideFigure) underside() []draw.Point {
	var out []draw.Point
	feet := f.b.feet()
	for x := f.b.nose; x <= f.b.tail; x += 25 {
		if x > feet[0] && x < feet[1] || x > feet[2] && x < feet[3] {
			continue
		}
		if z, ok := f.b.o.Bottom(x / 1000); ok {
			out = append(out, draw.Pt(x, 1000*z+f.lift(f.now, x)))
		}
	}
	if z, ok := f.lowZ(); ok {
		out = append(out, draw.Pt(f.lowX(), z+f.lift(f.now, f.lowX())))
	}
	return out
}

// carried is a place of the car, x behind the front hub and z over level ground [mm], where the car stands on the way [m].
func (f *sideFigure) carried(s stance.Stand, p draw.Point) stance.Spot {
	l := math.Hypot(s.Front.X-s.Rear.X, s.Front.Z-s.Rear.Z)
	ux, uz := (s.Front.X-s.Rear.X)/l, (s.Front.Z-s.Rear.Z)/l
	back, up := p.X/1000, (p.Y-f.wheel[0].loaded)/1000
	return stance.Spot{X: s.Front.X - back*ux - up*uz, Z: s.Front.Z - back*uz + up*ux}
}

// onRamp draws the car on the road.
func (f *sideFigure) onRamp(r ramp) {
	long := f.b.tail - f.b.nose
	k := f.W / (1.25 * long)
	mid := 1000 * (r.stand.Front.X - 0.5*f.b.wb/1000)
	lo, hi := math.Inf(1), math.Inf(-1)
	for x := mid - 0.62*long; x <= mid+0.62*long; x += 50 {
		z := 1000 * r.way.At(x/1000)
		lo, hi = math.Min(lo, z), math.Max(hi, z)
	}
	top := lettered(f.st, 8)
	f.floor = top + k*(f.b.roof+math.Max(f.now[0], f.now[1])+1.15*(hi-lo))
	f.H = f.floor + lettered(f.st, 14) + 2.2*f.st.Line(draw.Cap)
	// The road runs forward to the left; z counts from its lowest place in the picture.
	road := draw.Frame{X0: f.W/2 + k*mid, Y0: f.floor + k*lo, SX: -k, SY: -k}
	f.road(r.way, road, mid-0.65*long, mid+0.65*long)
	fx, fz := 1000*r.stand.Front.X, 1000*r.stand.Front.Z
	front := road.Pt(fx, fz)
	f.f = draw.Frame{X0: front.X, Y0: front.Y + k*f.wheel[0].loaded, SX: k, SY: -k}
	deg := math.Atan2(r.stand.Rear.Z-r.stand.Front.Z, r.stand.Front.X-r.stand.Rear.X) * 180 / math.Pi
	car := &sideFigure{sheet: newSheet(f.st, f.W, f.H, "", ""), s: f.s, b: f.b, f: f.f, floor: f.f.Y0, wheel: f.wheel, now: f.now, narrow: f.narrow}
	car.wheels()
	car.car()
	car.lowest()
	for i, it := range car.Items { // it stands here at one height: no script moves it
		if g, ok := it.(draw.Group); ok {
			g.Data, g.ID = nil, ""
			car.Items[i] = g
		}
	}
	f.Add(draw.Group{Items: car.Items}.Turn(front, deg))
	p := road.Pt(1000*r.at.X, 1000*r.at.Z)
	f.Add(draw.Dot(f.st, p.X, p.Y), draw.Circle(p.X, p.Y, f.st.Disc*0.8).Stroke(draw.W2.Pen()))
	f.rampSays(r)
}

// road draws the way from one place to another [mm], hatched below.
func (f *sideFigure) road(w stance.Way, fr draw.Frame, from, to float64) {
	pts := []draw.Point{fr.Pt(to, 1000*w.At(to/1000))}
	for i := len(w) - 1; i >= 0; i-- {
		if x := 1000 * w[i].X; x > from && x < to {
			pts = append(pts, fr.Pt(x, 1000*w[i].Z))
		}
	}
	pts = append(pts, fr.Pt(from, 1000*w.At(from/1000)))
	f.Add(draw.Group{Items: []draw.Item{draw.Ticks(f.st, pts, draw.OnRight, f.st.Tick*1.25).Stroke(draw.W1.Pen().In(draw.Rule)), draw.Polyline(pts...).Stroke(draw.W3.Pen())},
		Clip: &draw.Box{X0: 0, Y0: 0, X1: f.W, Y1: f.H}})
}

// rampSays is the sentence under the picture.
func (f *sideFigure) rampSays(r ramp) {
	where := map[bool]string{false: "foot", true: "top"}[r.top]
	says := "As drawn, the road comes nearest at the " + where + " of the driveway, in the ring."
	if r.gap < 0 {
		says = "As drawn, car and road meet at the " + where + " of the driveway, in the ring."
	}
	says += " What is faint is assumed; the findings have the numbers."
	f.Desc = says
	line := f.st.Line(draw.Cap)
	lines := draw.Wrap(f.st.Face(draw.Cap), says, f.st.Size[draw.Cap], f.W)
	y := f.floor + lettered(f.st, 14) + 0.8*line
	f.H = y + (float64(len(lines))-0.65)*line
	for i, l := range lines {
		f.put(f.st.Text(draw.Cap, 0, y+float64(i)*line, l, draw.Start))
	}
}
