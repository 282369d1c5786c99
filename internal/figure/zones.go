package figure

import (
	"strconv"

	"jounce/internal/draw"
)

// The fields of a drawing on a wide screen (ISO 5457 gives a sheet's): numbers along, letters down.
const (
	zonesAlong = 6
	zonesDown  = 3
)

// zoneWide is the least width of a picture that has fields [CSS px].
const zoneWide = 700

// zoned tells that the picture has fields. On paper the sheet has its own.
func (f *sideFigure) zoned() bool {
	return f.s.Zones && f.st.Medium == draw.Screen && f.W >= draw.PX(zoneWide)
}

// zones draws the fields' edges and names.
func (f *sideFigure) zones() {
	if !f.zoned() {
		return
	}
	thin, cap := draw.W1.Pen(), f.st.Size[draw.Cap]
	o := draw.Line(f.left, f.top, f.W, f.top).MoveTo(f.left, f.top).LineTo(f.left, f.floor)
	for i := range zonesAlong {
		x := f.left + (f.W-f.left)*float64(i)/zonesAlong
		o = o.MoveTo(x, 0).LineTo(x, f.top)
		f.put(f.st.Text(draw.Cap, x+(f.W-f.left)/zonesAlong/2, f.top/2, strconv.Itoa(i+1), draw.Middle).At(draw.Mid))
	}
	for i := range zonesDown {
		y := f.top + (f.floor-f.top)*float64(i)/zonesDown
		if i > 0 {
			o = o.MoveTo(0, y).LineTo(f.left, y)
		}
		f.put(f.st.Text(draw.Cap, f.left/2-0.05*cap, y+(f.floor-f.top)/zonesDown/2, string(rune('A'+i)), draw.Middle).At(draw.Mid))
	}
	f.Add(o.MoveTo(0, f.floor).LineTo(f.left, f.floor).Stroke(thin))
}

// SideZones tells in which field of the picture a place of the car lies, x behind the front hub and z over the floor at
// ROAD [m]: "C3". It is that of the widest picture.
func SideZones(s Side) func(x, z float64) string {
	s.Zones = true
	f := newSide(s, draw.PX(1060), draw.Desktop())
	return func(x, z float64) string { return f.zone(f.f.Pt(1000*x, 1000*z)) }
}

func (f *sideFigure) zone(p draw.Point) string {
	at := func(v, lo, hi float64, n int) int { return min(max(int((v-lo)/(hi-lo)*float64(n)), 0), n-1) }
	return string(rune('A'+at(p.Y, f.top, f.floor, zonesDown))) + strconv.Itoa(1+at(p.X, f.left, f.W, zonesAlong))
}

// SidePoint is where a place of the car lies in the picture of that width and style [mm]; x behind the front hub and z over
// the floor at ROAD [m].
func SidePoint(s Side, width float64, st draw.Style, x, z float64) draw.Point {
	f := newSide(s, width, st)
	return f.f.Pt(1000*x, 1000*z)
}
