package figure

import (
	"math"

	"jounce/internal/draw"
)

// CarShape is what is known of a car from the side. A length of 0 is not read and
// is taken from the body form.
type CarShape struct {
	Form      string  // as the record names it; an unknown one is drawn as a saloon
	Wheelbase float64 // [mm]
	Front     float64 // [mm] front overhang
	Rear      float64 // [mm] rear overhang
	Roof      float64 // [mm] above the floor
	Sill      float64 // [mm] above the floor
	Tyre      float64 // [mm] across
	Seen      bool    // the shop has seen it; otherwise it is dashed
	Stands    bool    // it is on stands, the wheels hang
}

// smallBody is an invented outline: no real car was traced. Points go from the nose's
// foot over the roof to the tail's foot, x rearwards from the front axle, z above
// the floor [mm], for its own wheelbase, overhangs and roof.
type smallBody struct {
	wheelbase, front, rear, roof, sill, tyre float64
	top                                      [][2]float64
	glass                                    [][][2]float64
	lines                                    [][2][2]float64
}

var bodies = map[string]smallBody{
	"saloon": {2540, 690, 900, 1345, 190, 590,
		[][2]float64{{-600, 215}, {-640, 240}, {-690, 560}, {-675, 690}, {-590, 738}, {640, 852}, {1070, 1275}, {1420, 1338}, {1780, 1330}, {2110, 1280}, {2560, 914}, {3370, 842}, {3438, 790}, {3400, 500}, {3330, 240}, {3280, 215}},
		[][][2]float64{{{800, 874}, {1130, 1235}, {1470, 1283}, {1500, 874}}, {{1560, 874}, {1545, 1284}, {1950, 1262}, {2270, 874}}},
		[][2][2]float64{{{640, 850}, {600, 460}}, {{600, 460}, {680, 230}}, {{1535, 874}, {1522, 230}}, {{-660, 565}, {3390, 605}}}},
	"coupé": {2400, 700, 860, 1265, 175, 590,
		[][2]float64{{-600, 205}, {-650, 235}, {-700, 520}, {-680, 640}, {-600, 690}, {700, 815}, {1190, 1195}, {1540, 1262}, {1820, 1252}, {2140, 1180}, {2820, 870}, {3180, 810}, {3258, 750}, {3225, 470}, {3160, 230}, {3110, 205}},
		[][][2]float64{{{870, 838}, {1250, 1165}, {1640, 1212}, {1690, 838}}, {{1745, 838}, {1715, 1210}, {1960, 1180}, {2360, 880}, {2330, 838}}},
		[][2][2]float64{{{760, 815}, {720, 440}}, {{720, 440}, {790, 215}}, {{1725, 838}, {1740, 215}}, {{-670, 530}, {3220, 570}}}},
	"estate": {2680, 740, 990, 1400, 195, 610,
		[][2]float64{{-650, 225}, {-690, 250}, {-738, 570}, {-725, 700}, {-640, 752}, {640, 868}, {1060, 1330}, {1420, 1392}, {2100, 1390}, {3300, 1366}, {3450, 1300}, {3630, 924}, {3690, 790}, {3665, 500}, {3610, 255}, {3560, 225}},
		[][][2]float64{{{790, 896}, {1090, 1290}, {1455, 1336}, {1485, 896}}, {{1541, 896}, {1527, 1337}, {2215, 1330}, {2275, 896}}, {{2345, 896}, {2295, 1330}, {3330, 1316}, {3530, 896}}},
		[][2][2]float64{{{630, 854}, {576, 476}}, {{576, 476}, {670, 235}}, {{1514, 896}, {1500, 235}}, {{-715, 574}, {3650, 616}}}},
	"hatch": {2380, 660, 640, 1400, 190, 570,
		[][2]float64{{-570, 215}, {-610, 245}, {-660, 560}, {-640, 690}, {-560, 745}, {520, 880}, {960, 1330}, {1290, 1393}, {2000, 1392}, {2480, 1340}, {2870, 960}, {2990, 800}, {3015, 690}, {2990, 440}, {2950, 240}, {2900, 215}},
		[][][2]float64{{{690, 900}, {1000, 1295}, {1390, 1340}, {1425, 900}}, {{1480, 900}, {1460, 1341}, {2020, 1330}, {2330, 1280}, {2560, 900}}},
		[][2][2]float64{{{560, 880}, {520, 470}}, {{520, 470}, {600, 230}}, {{1452, 900}, {1440, 230}}, {{-640, 570}, {2990, 610}}}},
	"pickup": {2740, 695, 1080, 1500, 300, 640,
		[][2]float64{{-590, 345}, {-650, 370}, {-696, 600}, {-700, 790}, {-610, 842}, {545, 915}, {900, 1420}, {1100, 1492}, {1420, 1487}, {1575, 1420}, {1671, 930}, {3800, 900}, {3819, 850}, {3811, 410}, {3780, 380}, {3600, 375}},
		[][][2]float64{{{700, 945}, {945, 1375}, {1040, 1404}, {1470, 1415}, {1540, 945}}},
		[][2][2]float64{{{548, 900}, {520, 340}}, {{1603, 930}, {1589, 330}}, {{1699, 840}, {3810, 825}}, {{1699, 915}, {1699, 340}}}},
	"van": {2300, 640, 760, 1760, 270, 590,
		[][2]float64{{-540, 315}, {-600, 340}, {-640, 560}, {-634, 740}, {-430, 880}, {-250, 985}, {230, 1600}, {480, 1710}, {800, 1758}, {2850, 1735}, {2975, 1690}, {3056, 1085}, {3060, 900}, {3052, 370}, {3010, 340}, {2900, 330}},
		[][][2]float64{{{-100, 985}, {270, 1525}, {680, 1556}, {712, 985}}},
		[][2][2]float64{{{793, 1640}, {793, 310}}, {{1518, 1640}, {1518, 310}}, {{-630, 616}, {3050, 651}}}},
	"open two-seater": {2250, 680, 780, 1130, 180, 570,
		[][2]float64{{-590, 210}, {-630, 235}, {-680, 500}, {-660, 620}, {-580, 668}, {760, 790}, {880, 830}, {1085, 1120}, {1125, 1120}, {985, 835}, {1900, 830}, {2080, 860}, {2480, 830}, {2970, 740}, {3030, 690}, {3000, 450}, {2940, 235}, {2890, 210}},
		nil,
		[][2][2]float64{{{880, 815}, {860, 450}}, {{860, 450}, {920, 220}}, {{1720, 825}, {1735, 220}}, {{-650, 520}, {3000, 560}}}},
}

// standing is how far stands lift a car [mm].
const standing = 250.0

// fitted is a body with a car's own measures.
type fitted struct {
	b          smallBody
	wb, dia    float64 // [mm]
	arch, sill float64 // [mm] radius of the wheel openings; sill above the floor
	sx0, sx1   float64 // [1] of the overhangs
	sx, sz     float64 // [1] of the wheelbase and the height
}

func fit(c CarShape) fitted {
	b, ok := bodies[c.Form]
	if !ok {
		b = bodies["saloon"]
	}
	or := func(v, own float64) float64 {
		if v > 0 {
			return v
		}
		return own
	}
	f := fitted{b: b, wb: or(c.Wheelbase, b.wheelbase), dia: or(c.Tyre, b.tyre), sill: or(c.Sill, b.sill)}
	f.arch = f.dia*0.5 + 68
	f.sx0, f.sx1, f.sx = or(c.Front, b.front)/b.front, or(c.Rear, b.rear)/b.rear, f.wb/b.wheelbase
	f.sz = or(c.Roof, b.roof) / b.roof
	return f
}

// pt brings a point of the body to the car's own measures [mm].
func (f fitted) pt(p [2]float64) draw.Point {
	x := p[0] * f.sx
	switch {
	case p[0] < 0:
		x = p[0] * f.sx0
	case p[0] > f.b.wheelbase:
		x = f.wb + (p[0]-f.b.wheelbase)*f.sx1
	}
	return draw.Pt(x, p[1]*f.sz)
}

// rounded is the run of points with its corners rounded off.
func rounded(pts []draw.Point, closed bool) draw.Outline {
	n := len(pts)
	at := func(i int) draw.Point { return pts[(i+n)%n] }
	var o draw.Outline
	for i := range n {
		p := at(i)
		if !closed && (i == 0 || i == n-1) {
			if i == 0 {
				o = draw.Begin(p.X, p.Y)
			} else {
				o = o.LineTo(p.X, p.Y)
			}
			continue
		}
		a, b := at(i-1), at(i+1)
		r := math.Min(90, 0.5*math.Min(p.Dist(a), p.Dist(b)))
		in, out := p.To(a, r/p.Dist(a)), p.To(b, r/p.Dist(b))
		if o == nil {
			o = draw.Begin(in.X, in.Y)
		} else {
			o = o.LineTo(in.X, in.Y)
		}
		c1, c2 := in.To(p, 2.0/3), out.To(p, 2.0/3)
		o = o.CurveTo(c1.X, c1.Y, c2.X, c2.Y, out.X, out.Y)
	}
	if closed {
		return o.Close()
	}
	return o
}

// opening is where a wheel opening meets the underside: half its width [mm].
func (f fitted) opening(under float64) float64 {
	h := under - f.dia/2
	return math.Sqrt(math.Max(0, f.arch*f.arch-h*h))
}

// outline is the whole side of the body, x rearwards, z up [mm].
func (f fitted) outline() draw.Outline {
	var pts []draw.Point
	for _, p := range f.b.top {
		pts = append(pts, f.pt(p))
	}
	first, last := pts[0], pts[len(pts)-1]
	o := rounded(pts, false)
	rear, mid, front := f.opening(last.Y), f.opening(f.sill), f.opening(first.Y)
	// over a wheel the outline goes round its opening, front to back and back again
	arc := func(o draw.Outline, x, from, to, zFrom, zTo float64) draw.Outline {
		a0 := math.Atan2(zFrom-f.dia/2, from)
		a1 := math.Atan2(zTo-f.dia/2, -to)
		if a1 < a0 {
			a1 += 2 * math.Pi
		}
		return o.LineTo(x+from, zFrom).ArcTo(x-to, zTo, math.Tan((a0-a1)/4))
	}
	o = arc(o, f.wb, rear, mid, last.Y, f.sill)
	o = arc(o, 0, mid, front, f.sill, first.Y)
	return o.Close()
}

// SmallCar draws a car from the left as it stands, front to the left, at one scale
// for all: 5 m of floor are as wide as the drawing.
func SmallCar(c CarShape, width float64, st draw.Style) draw.Scene {
	f := fit(c)
	lift, drop := 0.0, 0.0
	if c.Stands {
		lift, drop = standing, 60
	}
	k := width / 5000
	high := f.b.roof*f.sz + lift + 60
	ground := 10 * draw.Px
	s := draw.NewScene(st, width, high*k+ground)
	floor := high * k
	fr := draw.Frame{X0: 1000 * k, Y0: floor, SX: k, SY: -k}
	up := draw.Frame{X0: 1000 * k, Y0: floor - lift*k, SX: k, SY: -k}
	s.Add(draw.FloorLine(st, 0, width, floor))
	if c.Stands {
		for _, x := range []float64{0.26, 0.82} {
			s.Add(stand(fr, x*f.wb, f.sill+lift))
		}
	}
	body, thin, wide := f.outline().Map(up), draw.W1.Pen(), draw.W3.Pen()
	if c.Seen {
		s.Add(body.Fill(draw.Skin))
	} else {
		wide, thin = draw.W2.Pen().Dashed(), thin.Dashed()
	}
	for _, g := range f.b.glass {
		var pts []draw.Point
		for _, p := range g {
			pts = append(pts, f.pt(p))
		}
		pane := rounded(pts, true).Map(up)
		if c.Seen {
			s.Add(pane.FillStroke(draw.Paper, thin))
		} else {
			s.Add(pane.Stroke(thin))
		}
	}
	for _, l := range f.b.lines {
		a, b := f.pt(l[0]), f.pt(l[1])
		s.Add(draw.Line(a.X, a.Y, b.X, b.Y).Map(up).Stroke(thin))
	}
	s.Add(body.Stroke(wide))
	for _, x := range []float64{0, f.wb} {
		s.Add(wheel(fr, x, f.dia/2+lift-drop, f.dia/2, c.Seen)...)
	}
	return s
}

func wheel(fr draw.Frame, x, z, r float64, seen bool) []draw.Item {
	pen, thin, tone := draw.W2.Pen(), draw.W1.Pen(), draw.Tyre
	if !seen {
		pen, thin, tone = draw.W2.Pen().Dashed(), thin.Dashed(), draw.Paper
	}
	return []draw.Item{draw.Circle(x, z, r).Map(fr).FillStroke(tone, pen),
		draw.Circle(x, z, r*0.62).Map(fr).FillStroke(draw.Skin, thin), draw.Circle(x, z, r*0.2).Map(fr).Stroke(thin)}
}

func stand(fr draw.Frame, x, z float64) draw.Path {
	return draw.Polyline(draw.Pt(x-110, 0), draw.Pt(x-40, z), draw.Pt(x+40, z), draw.Pt(x+110, 0)).
		MoveTo(x-80, z*0.45).LineTo(x+80, z*0.45).Map(fr).Stroke(draw.W2.Pen())
}
