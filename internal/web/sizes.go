package web

import (
	"jounce/internal/draw"
	"jounce/internal/figure"
	"jounce/internal/plate"
	"jounce/internal/study"
)

// sizes is one figure drawn for the widths that pages give it: lettering is never
// scaled down. The template "sized" shows the one that fits.
// X is for the wide column of a desk screen, where a figure gains by it.
type sizes struct {
	S, M, L draw.Scene
	X       *draw.Scene
}

// Widths of a figure that takes a column: on a phone, on a small tablet or in the
// wide column of a small desk screen, and on larger ones [CSS px].
const (
	widthS = 292
	widthM = 540
	widthL = 740
	widthX = 920
)

// sized draws a figure for the three widths; fig takes its width in mm.
func sized(fig func(width float64) draw.Scene, id string) sizes {
	z := sizes{S: fig(draw.PX(widthS)), M: fig(draw.PX(widthM)), L: fig(draw.PX(widthL))}
	z.S.ID, z.M.ID, z.L.ID = id+"-s", id+"-m", id+"-l"
	return z
}

// wider draws a figure also for the wide column.
func wider(fig func(width float64, st draw.Style) draw.Scene, id string) sizes {
	z := sized(func(width float64) draw.Scene { return fig(width, figure.StyleFor(width/draw.Px)) }, id)
	x := fig(draw.PX(widthX), draw.Desktop())
	x.ID = id + "-x"
	z.X = &x
	return z
}

// side is the heights picture at three widths. growing draws it with three pens,
// while the car is being measured; preset is the one in force.
func side(r *study.Result, preset int, growing bool, id string) sizes {
	s := plate.Side(r)
	s.Preset, s.Growing = preset, growing
	if growing {
		s.Touches, s.Zones = nil, false
	}
	return sideSizes(s, id)
}

// sideSizes draws a heights picture at three widths; the sheet's, with its fields,
// also for the wide column.
func sideSizes(s figure.Side, id string) sizes {
	fig := func(width float64, st draw.Style) draw.Scene { return figure.SideView(s, width, st) }
	if s.Zones {
		return wider(fig, id)
	}
	return sized(func(width float64) draw.Scene { return fig(width, figure.StyleFor(width/draw.Px)) }, id)
}
