package catalog

// TouchName is a place that is looked at on every car, with how its room closes
// and what meets what in most of them.
type TouchName struct {
	Name, Moves, Meets string
}

// TouchNames are the thirty places of step B13 of the trade's handbook, those
// that come in two sorts as two lines. Common practice.
var TouchNames = []TouchName{
	{"sill seam", body, floor},
	{"floor chassis leg", body, floor},
	{"sump", body, floor},
	{"bell-housing", body, floor},
	{"engine cross-member", body, floor},
	{"steering rack", body, floor},
	{"track rod to chassis leg", wheel, metal},
	{"gearbox mount", body, floor},
	{"exhaust manifold flange", body, floor},
	{"exhaust front pipe", body, floor},
	{"exhaust joint", body, floor},
	{"silencer", body, floor},
	{"tailpipe hanger", body, floor},
	{"fuel tank and drain", body, floor},
	{"fuel pipe clip", body, floor},
	{"handbrake cable and guide", body, floor},
	{"prop shaft to tunnel", wheel, metal},
	{"brake pipe on the arm", wheel, metal},
	{"front valance or lip", body, floor},
	{"tow eye", body, floor},
	{"rear valance", body, floor},
	{"arch lip, front", wheel, tyre},
	{"arch lip, rear", wheel, tyre},
	{"inner liner", wheel, liner},
	{"splash shield", wheel, liner},
	{"strut tower", wheel, tyre},
	{"bonnet hinge leg", wheel, tyre},
	{"anti-roll bar to arm", wheel, metal},
	{"anti-roll bar to shaft", wheel, metal},
	{"bar link", droop, ""},
	{"brake hose", droop, ""},
	{"sensor lead", droop, ""},
	{"driveshaft joint and gaiter", droop, ""},
	{"spare-wheel well", body, floor},
	{"tow bracket", body, floor},
	{"damper body to arm", wheel, metal},
	{"bag to tyre", wheel, bag},
	{"bag to exhaust", wheel, bag},
	{"bag to brake hose", wheel, bag},
	{"bag sleeve to bracket edge", wheel, bag},
}

// The words are those of the record.
const (
	body  = "with the body"
	wheel = "with the wheel"
	droop = "limits droop"
	floor = "hard part and floor"
	metal = "metal and metal"
	tyre  = "tyre and anything"
	liner = "tyre and liner"
	bag   = "bag and anything"
)
