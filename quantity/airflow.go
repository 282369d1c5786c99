package quantity

import "strings"

// AirGasConstant is the specific gas constant of dry air [J/(kg·K)] that the
// densities of the dry reference states are made with.
const AirGasConstant = 287.05

// The states that flows of free air are counted at. The density at ANR is the
// constant of ISO 8778 and ISO 6358 (1.185 kg/m³ with 65 % humidity), which no
// gas law gives exactly. All others are dry air as an ideal gas, p/(R·T) with
// [AirGasConstant]; at DIN 1343 this is 1.2923 kg/m³, where tables of the real
// gas print 1.293, which is 0.06 % more.
var (
	ANR     = Reference{"ANR", 100e3, 293.15, 1.185}
	DIN1343 = dry("DIN 1343", 101325, 273.15)
	ISO2533 = dry("ISO 2533", 101325, 288.15)
	ISO2787 = dry("ISO 2787", 100e3, 293.15)
	// Workshop is the state at which a leak in mL/min is counted here.
	Workshop = dry("at 1.013 bar, 20 °C", 101325, 293.15)
	// The three states behind the American standard cubic foot.
	StandardFoot68    = dry("at 14.696 psi a, 68 °F", 101325, 293.15)
	StandardFoot60    = dry("at 14.696 psi a, 60 °F", 101325, (60+459.67)*5/9)
	StandardFootTools = dry("at 14.5 psi a, 68 °F", 14.5*poundForce/(inch*inch), 293.15)
)

func dry(name string, p, t float64) Reference {
	return Reference{name, AbsPressure(p), Temperature(t), p / (AirGasConstant * t)}
}

// References lists the states that a flow of free air may be counted at.
func References() []Reference {
	return []Reference{ANR, DIN1343, Workshop, ISO2533, ISO2787, StandardFoot68, StandardFoot60, StandardFootTools}
}

// other spellings of the states, behind a unit
var referenceSpellings = map[string]string{
	"ANR":                    "·ANR|(ANR)",
	"DIN 1343":               "·DIN·1343|·DIN1343|(DIN·1343)|(DIN1343)|·(DIN·1343)|·at·1.013·bar, 0 °C",
	"ISO 2533":               "·ISO·2533|·ISO2533|(ISO·2533)|(ISO2533)|·at·1.013·bar, 15 °C",
	"ISO 2787":               "·ISO·2787|·ISO2787|(ISO·2787)|(ISO2787)",
	"at 1.013 bar, 20 °C":    "·at·1.013·bar, 20 °C|·at·1.013·bar and 20 °C|(1.013·bar, 20 °C)",
	"at 14.696 psi a, 68 °F": "·at·14.696·psi·a, 68 °F|·at·14.696·psia, 68 °F|(14.696·psia, 68 °F)",
	"at 14.696 psi a, 60 °F": "·at·14.696·psi·a, 60 °F|·at·14.696·psia, 60 °F|(14.696·psia, 60 °F)",
	"at 14.5 psi a, 68 °F":   "·at·14.5·psi·a, 68 °F|·at·14.5·psia, 68 °F|(14.5·psia, 68 °F)",
}

// bareFlows are the units of volume flow without a state: to be asked about.
var bareFlows = []unitRow{
	{name: "L/min", mul: 1, div: 6e4, digits: 1, also: "lpm|dm³/min|ltr/min|litre/min|litres/min"},
	{name: "mL/min", mul: 1, div: 6e7, digits: 1, also: "cm³/min|cc/min|ccm"},
	{name: "L/s", mul: 1, div: 1e3, digits: 2, also: "dm³/s|litre/s|litres/s"},
	{name: "L/h", mul: 1, div: 3.6e6, digits: 1, also: "L/hr|litre/h|litres/h"},
	{name: "cm³/s", mul: 1, div: 1e6, digits: 2, also: "mL/s|cc/s"},
	{name: "m³/h", mul: 1, div: 3600, digits: 2, also: "m³/hr"},
	{name: "m³/min", mul: 1, div: 60, digits: 3},
	{name: "m³/s", mul: 1, div: 1, digits: 5},
	{name: "ft³/min", mul: cubicFoot, div: 60, digits: 2, also: "cfm|cu·ft/min"},
}

// bareThroughputs are pressure times volume in a time [Pa·m³/s]: they become a
// mass only with the temperature they were counted at.
var bareThroughputs = []unitRow{
	{name: "Pa·m³/s", mul: 1, div: 1, digits: 5},
	{name: "mbar·L/s", mul: 1, div: 10, digits: 4},
	{name: "Torr·L/s", mul: 101325, div: 760e3, digits: 4},
	{name: "atm·cm³/s", mul: 101325, div: 1e6, digits: 4, also: "atm·cc/s"},
}

var throughputTemperatures = []struct {
	name, also string
	t          float64 // [K]
}{
	{"at 20 °C", "·at·20 °C|(20 °C)", 293.15},
	{"at 0 °C", "·at·0 °C|(0 °C)", 273.15},
}

// normalSpellings are the units whose letters name their state.
var normalSpellings = map[string]string{
	"L/min DIN 1343":  "NL/min|Nl/min|nl/min|norm·L/min|normal·L/min",
	"mL/min DIN 1343": "NmL/min|Ncm³/min|sccm|std·cc/min",
	"L/s DIN 1343":    "NL/s|Nl/s",
	"L/h DIN 1343":    "NL/h|Nl/h",
	"cm³/s DIN 1343":  "sccs|std·cc/s",
	"m³/h DIN 1343":   "Nm³/h",
	"m³/min DIN 1343": "Nm³/min",
	"m³/s DIN 1343":   "Nm³/s",
}

// flowUnits makes the units of free-air flow: each volume flow at each state,
// and each throughput at two temperatures. In SI all become the volume flow of
// air at ANR that has the same mass.
func flowUnits() []*unitRow {
	var out []*unitRow
	for _, ref := range References() {
		for _, b := range bareFlows {
			u := b
			r := ref
			u.kind, u.name, u.ref = KindFreeAirFlow, b.name+" "+r.Name, &r
			u.vol = b.mul / b.div
			if r != ANR {
				u.mul, u.div = b.mul*r.Density, b.div*ANR.Density
			}
			u.also = crossed(b, referenceSpellings[r.Name])
			if more := normalSpellings[u.name]; more != "" {
				u.also += "|" + more
			}
			out = append(out, &u)
		}
	}
	for _, at := range throughputTemperatures {
		for _, b := range bareThroughputs {
			u := b
			u.kind, u.name = KindFreeAirFlow, b.name+" "+at.name
			u.div = b.div * AirGasConstant * at.t * ANR.Density
			u.also = crossed(b, at.also)
			out = append(out, &u)
		}
	}
	return out
}

// crossed puts each ending behind each spelling of a unit.
func crossed(b unitRow, endings string) string {
	var forms []string
	for form := range strings.SplitSeq(b.name+"|"+b.also, "|") {
		if form == "" {
			continue
		}
		for end := range strings.SplitSeq(endings, "|") {
			forms = append(forms, form+end)
		}
	}
	return strings.Join(forms, "|")
}

// bareFlow finds a volume flow or throughput typed without its state.
func bareFlow(typed string) (name string, endings []string, ok bool) {
	key := strings.ToLower(unitKey(typed))
	for _, b := range bareFlows {
		if spelt(b, key, typed) {
			return b.name, []string{"ANR", "DIN 1343", "at 1.013 bar, 20 °C"}, true
		}
	}
	for _, b := range bareThroughputs {
		if spelt(b, key, typed) {
			return b.name, []string{"at 20 °C", "at 0 °C"}, true
		}
	}
	return "", nil, false
}

func spelt(b unitRow, key, typed string) bool {
	for form := range strings.SplitSeq(b.name+"|"+b.also, "|") {
		form = unitText(form)
		if form != "" && strings.ToLower(unitKey(form)) == key && gapsFit(typed, form) {
			return true
		}
	}
	return false
}

// At is the same air, by mass, counted at another state.
func (q FreeAirFlow) At(ref Reference) FreeAirFlow {
	if q.Ref == ref {
		return q
	}
	return FreeAirFlow{q.Volume * q.Ref.Density / ref.Density, ref}
}
