package body

import "math"

// Forms are the body forms in the order in which a page offers them.
var Forms = []string{"saloon", "coupé", "estate", "hatch", "pickup", "van", "open two-seater"}

// formOf is the form that is drawn; one that is not known is a saloon.
func formOf(form string) string {
	if _, ok := proportions[form]; ok {
		return form
	}
	return "saloon"
}

// unitBase is the wheelbase for which the forms' stations are written [mm].
const unitBase = 2540.0

// proportion is a form's size where the car is not measured, in millimetres for
// a wheelbase of 2,540 mm (common practice).
type proportion struct{ front, rear, roof, width float64 }

var proportions = map[string]proportion{
	"saloon":          {690, 900, 1370, 1610},
	"coupé":           {700, 860, 1290, 1600},
	"estate":          {700, 980, 1420, 1610},
	"hatch":           {680, 620, 1400, 1600},
	"pickup":          {720, 1080, 1640, 1680},
	"van":             {760, 1020, 1980, 1760},
	"open two-seater": {640, 780, 1190, 1500},
}

// layout is a form on its way to stations; all in millimetres.
type layout struct {
	k       float64 // wheelbase in units of the form's
	r       float64 // roof over the floor
	n, t    float64 // x of the foremost and of the rearmost point
	over    float64 // least height over the arches: the body must close over them
	lip     float64 // lower edge of nose and tail
	scuttle float64 // its height; 0 is not read
	boot    float64 // height of the boot's edge; 0 is not read
	form    string
	list    []Station
}

// put appends a station: place and softness in millimetres.
func (l *layout) put(id string, x, z, soft float64) {
	l.list = append(l.list, Station{ID: id, Label: label(l.form, id), X: x / 1000, Z: z / 1000, soft: soft / 1000})
}

// deck is a share of the roof's height, but not under the arches.
func (l *layout) deck(share float64) float64 { return math.Max(share*l.r, l.over) }

// front is the height of the bonnet's rear edge, as read or as the form has it.
func (l *layout) front(share float64) float64 {
	if l.scuttle > 0 {
		return l.scuttle
	}
	return l.deck(share)
}

// rear is the height of the boot's edge, as read or as the form has it.
func (l *layout) rear(share float64) float64 {
	if l.boot > 0 {
		return l.boot
	}
	return l.deck(share)
}

// nose lays out the front end, its heights in shares of the roof's; they go with
// the scuttle where that is read.
func (l *layout) nose(scuttle, low, top, edge float64) {
	s := l.front(scuttle)
	q := 1.0
	if l.scuttle > 0 {
		q = math.Min(1.15, l.scuttle/l.deck(scuttle))
	}
	z := math.Min(math.Max(edge*l.r*q, l.over-60), s-0.02*l.r)
	if s < l.over { // the wings stand higher than the bonnet's rear edge
		z = l.over
	}
	l.put("nose-lip", l.n+62, l.lip, 45)
	l.put("nose", l.n+8, math.Min(low*l.r, z-0.14*l.r), 90)
	l.put("nose-top", l.n, math.Min(math.Max(top*l.r*q, l.over-150), z-0.035*l.r), 60)
	l.put("bonnet-edge", l.n+58, z, 60)
}

// tail lays out the rear end below its upper edge.
func (l *layout) tail(edge, top, low, in, foot float64) {
	l.put("tail-top", l.t, math.Min(top*l.r, edge-0.03*l.r), 60)
	l.put("tail", l.t-in, math.Min(low*l.r, edge-0.16*l.r), 90)
	l.put("rear-lip", l.t-foot, l.lip+40, 40)
}

// stations lays out a form. The stations are invented, a run for each form; no
// car was traced.
func (l *layout) stations() {
	switch l.form {
	case "coupé":
		l.coupé()
	case "estate":
		l.estate()
	case "hatch":
		l.hatch()
	case "pickup":
		l.pickup()
	case "van":
		l.van()
	case "open two-seater":
		l.open()
	default:
		l.saloon()
	}
}

func (l *layout) saloon() {
	k, r := l.k, l.r
	l.nose(0.628, 0.375, 0.49, 0.535)
	boot := l.rear(0.625)
	l.put("scuttle", 640*k, l.front(0.628), 70)
	l.put("screen-top", 1092*k, r-62, 150)
	l.put("crown", 1560*k, r, 240)
	l.put("roof-rear", 2110*k, r-52, 220)
	l.put("back-light-foot", math.Min(2560*k, l.t-300), math.Min(math.Max(boot+62, l.over), r-120), 120)
	l.put("boot-edge", l.t-90, boot, 80)
	l.tail(boot, 0.57, 0.38, 44, 112)
}

func (l *layout) coupé() {
	k, r := l.k, l.r
	l.nose(0.66, 0.375, 0.49, 0.535)
	boot := l.rear(0.64)
	l.put("scuttle", 720*k, l.front(0.66), 70)
	l.put("screen-top", 1180*k, r-52, 150)
	l.put("crown", 1560*k, r, 260)
	l.put("roof-rear", 1940*k, r-40, 300)
	l.put("back-light-foot", l.t-420*k, math.Min(boot+0.06*r, r-120), 200)
	l.put("boot-edge", l.t-80, boot, 60)
	l.tail(boot, 0.56, 0.38, 44, 112)
}

func (l *layout) estate() {
	k, r := l.k, l.r
	l.nose(0.628, 0.375, 0.49, 0.535)
	edge := l.rear(0.66)
	l.put("scuttle", 640*k, l.front(0.628), 70)
	l.put("screen-top", 1062*k, r-58, 150)
	l.put("crown", 1500*k, r, 260)
	l.put("roof-rear", l.t-300*k, r-34, 140)
	l.put("boot-edge", l.t-66, edge, 90)
	l.tail(edge, 0.56, 0.38, 44, 112)
}

func (l *layout) hatch() {
	k, r := l.k, l.r
	l.nose(0.628, 0.375, 0.49, 0.535)
	edge := l.rear(0.65)
	l.put("scuttle", 640*k, l.front(0.628), 70)
	l.put("screen-top", 1092*k, r-58, 150)
	l.put("crown", 1500*k, r, 260)
	l.put("roof-rear", l.t-560*k, r-44, 190)
	l.put("boot-edge", l.t-70, edge, 80)
	l.tail(edge, 0.55, 0.38, 44, 112)
}

func (l *layout) pickup() {
	k, r := l.k, l.r
	l.nose(0.62, 0.375, 0.49, 0.535)
	bed := l.rear(0.585)
	l.put("scuttle", 560*k, l.front(0.62), 60)
	l.put("screen-top", 900*k, r-60, 120)
	l.put("crown", 1180*k, r, 150)
	l.put("roof-rear", 1500*k, r-24, 60)
	l.put("back-light-foot", 1590*k, bed, 12)
	l.put("boot-edge", l.t, bed, 12)
	l.put("tail", l.t-4, 0.28*r, 30)
	l.put("rear-lip", l.t-60, l.lip+60, 30)
}

func (l *layout) van() {
	k, r := l.k, l.r
	l.nose(0.53, 0.30, 0.40, 0.44)
	l.put("scuttle", 150*k, l.front(0.53), 70)
	l.put("screen-top", 620*k, r-120, 180)
	l.put("crown", 980*k, r, 240)
	l.put("roof-rear", l.t-40, r-26, 60)
	l.put("tail-top", l.t, 0.62*r, 60)
	l.put("tail", l.t-6, 0.3*r, 40)
	l.put("rear-lip", l.t-70, l.lip+40, 30)
}

// The screen of an open car is no part of its outline; Shuts has it.
func (l *layout) open() {
	k := l.k
	l.nose(0.68, 0.375, 0.49, 0.535)
	d := l.front(0.68)
	edge := d - 50
	if l.boot > 0 {
		edge = l.boot
	}
	edge = math.Max(edge, l.over-20)
	l.put("scuttle", 860*k, d, 40)
	l.put("screen-top", 1080*k, d-70, 90)
	l.put("crown", 1360*k, d-82, 120)
	l.put("roof-rear", 1640*k, d-72, 90)
	l.put("back-light-foot", 1800*k, d+6, 70)
	l.put("boot-edge", l.t-110, edge, 90)
	l.tail(edge, 0.56, 0.38, 44, 112)
}
