package study

import (
	"fmt"
	"strings"

	"jounce/internal/catalog"
	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/num/doubt"
	"jounce/quantity"
	"jounce/source"
)

// view is a record on its way through the questions.
type view struct {
	rec      *job.Job
	shop     *catalog.Shop
	out      *Result
	problems []job.Problem
	tools    map[string]job.Instrument
	list     []job.Field               // every place of the record
	fields   map[string]int            // where in list a path is
	parsed   map[string]quantity.Value // what was read from it
	bad      map[string]bool           // places whose text cannot be used
	air      [2]*air                   // springs, once they are made
	way      way                       // the way of the body, once it is laid
	open     [2][2][]finding.Gap       // what each axle's travel waits for, up and down

	watch func(doubt.Func, []doubt.Input, doubt.Result) // sees every calculation; for tests

	weighed   [4]given             // what each tyre presses on the floor
	how       kept                 // how numbers came about that others rest on
	change    [4][2]finding.Number // the presets of each axle, DOWN ROAD HUMP HIGH, from ROAD
	added     *[4]float64          // what a full car adds at each corner to the weights [kg]; nil is not known
	asked     map[string]bool      // tyres whose markings were asked about
	ladenNeed []finding.Gap        // what the load cases wait for
}

func newView(rec *job.Job, shop *catalog.Shop) *view {
	v := &view{rec: rec, shop: shop, out: &Result{}, tools: map[string]job.Instrument{}, bad: map[string]bool{}, asked: map[string]bool{}, parsed: map[string]quantity.Value{}}
	list := rec.Fields()
	v.list = list
	v.fields = make(map[string]int, len(list))
	for i, f := range list {
		v.fields[f.Path] = i
	}
	for _, t := range rec.Instruments {
		v.tools[t.ID] = t
	}
	for _, f := range list {
		if f.Reading == nil || f.Reading.With == "" {
			continue
		}
		if _, ok := v.tools[f.Reading.With]; !ok {
			v.problems = append(v.problems, job.Problem{Path: f.Path, Label: f.Label, Read: f.Reading.With, Says: fmt.Sprintf("It was read with %q, which is none of this job's instruments.", f.Reading.With)})
		}
	}
	return v
}

// place finds a place of the record; one in an item that is not there yet has
// no field.
func (v *view) place(path string) (job.Field, bool) {
	i, ok := v.fields[path]
	if !ok {
		return job.Field{}, false
	}
	return v.list[i], true
}

// value is the quantity at a place, read once.
func (v *view) value(f job.Field) (quantity.Value, bool) {
	if val, ok := v.parsed[f.Path]; ok {
		return val, !val.IsZero()
	}
	val, err := job.Parse(f.Kind, f.Reading.Value)
	if err != nil {
		val = quantity.Value{}
	}
	v.parsed[f.Path] = val
	return val, !val.IsZero()
}

// ask is a problem that only the study sees: one that needs more than one place
// of the record. The place counts as not read.
func (v *view) ask(path, read, says string, answers ...string) {
	label := path
	if f, ok := v.place(path); ok {
		label = f.Label
	}
	v.problems = append(v.problems, job.Problem{Path: path, Label: label, Read: read, Says: says, Answers: answers})
	v.bad[path] = true
}

// wonder is a question about a place whose value is still used.
func (v *view) wonder(path, read, says string, answers ...string) {
	was := v.bad[path]
	v.ask(path, read, says, answers...)
	v.bad[path] = was
}

// given is a value out of the record, ready for an engine.
type given struct {
	finding.Number
	Symbol string
	Label  string
	Path   string
	Mark   source.Mark
	Who    string // who, when, with what
	Stale  string // why a reading with this instrument is no evidence
	Why    string // what it is needed for, for the gap
	OK     bool
	from   *trail  // how it was worked out; nil for a reading or a fact
	own    bool    // counts stands in place of its ±
	counts float64 // the ± that enters a calculation [SI]
}

// width is a default doubt: absolute in SI, or relative to the value.
type width struct{ abs, rel float64 }

// The doubts of readings for which nothing better is typed (settled).
var (
	tape        = width{abs: 0.002} // [m]
	pads        = width{abs: 1}     // [kg]
	unsprung    = width{abs: 8}     // [kg]
	ratio       = width{rel: 0.01}
	volume      = width{rel: 0.05}
	thermometer = width{abs: 0.5} // [K]
	weighbridge = width{abs: 10}  // [kg]
	exact       = width{}
)

// read takes a place of the record. A place that is empty or cannot be used
// gives a gap.
func (v *view) read(path, symbol string, w width) given {
	f, ok := v.place(path)
	if !ok {
		return given{Symbol: symbol, Path: path, Label: path}
	}
	g := given{Symbol: symbol, Path: path, Label: f.Label}
	if f.Reading == nil || f.Reading.Empty() || v.bad[path] {
		return g
	}
	val, ok := v.value(f)
	if !ok {
		return g
	}
	if x := val.In(f.Unit); f.Least != f.Most && (x < f.Least-1e-9 || x > f.Most+1e-9) {
		return g // Check asks about it
	}
	half, typed := val.Half()
	if !typed {
		half = w.abs + w.rel*abs(val.SI())
	}
	g.OK, g.Mark = true, source.Typed
	if f.Reading.With != "" || f.Reading.By != "" {
		g.Mark = source.Read
	}
	if t, ok := v.tools[f.Reading.With]; ok {
		if acc, err := job.Parse(widthKind(f.Kind), t.Accuracy.Value); err == nil && !typed {
			half = abs(acc.SI())
		}
		g.Stale = stale(t, f.Reading.At)
	}
	g.Who = who(*f.Reading, v.tools)
	unit := val.Unit()
	if f.Kind == quantity.KindPressure || f.Kind == quantity.KindLength || f.Kind == quantity.KindMass {
		unit = v.shop.Unit(f.Kind)
		if f.Kind == quantity.KindLength && f.Unit != f.Kind.Main() {
			unit = f.Unit
		}
	}
	g.Number = finding.Number{Value: val.SI(), Half: half, Kind: f.Kind, Unit: unit}
	return g
}

// widthKind is the kind that a give-or-take of a kind is typed as.
func widthKind(k quantity.Kind) quantity.Kind {
	switch k {
	case quantity.KindTemperature:
		return quantity.KindTemperatureDifference
	case quantity.KindAbsPressure:
		return quantity.KindPressure
	}
	return k
}

// stale tells why a reading at a time is no evidence: the instrument's check was
// due before. Dates of the record compare as texts.
func stale(t job.Instrument, at string) string {
	if t.Due == "" || at == "" || len(at) < len(job.DateLayout) || at[:len(job.DateLayout)] <= t.Due {
		return ""
	}
	return t.Name + " was due for its check on " + t.Due
}

func who(r job.Reading, tools map[string]job.Instrument) string {
	var parts []string
	if r.By != "" {
		parts = append(parts, r.By)
	}
	if len(r.At) >= len(job.DateLayout) {
		parts = append(parts, r.At[:len(job.DateLayout)])
	}
	if t, ok := tools[r.With]; ok {
		parts = append(parts, t.Name)
	} else if r.With != "" {
		parts = append(parts, r.With)
	}
	return strings.Join(parts, ", ")
}

// fact is a value that is not in the record: a default, a constant, an engine's
// intermediate.
func (v *view) fact(symbol, label string, n finding.Number, mark source.Mark) given {
	return given{Number: n, Symbol: symbol, Label: label, Mark: mark, OK: true}
}

// gaps lists what is missing among the inputs of a question.
func gaps(why string, in ...given) []finding.Gap {
	var out []finding.Gap
	for _, g := range in {
		if g.OK {
			continue
		}
		reason := g.Why
		if reason == "" {
			reason = why
		}
		out = append(out, finding.Gap{Path: g.Path, Label: g.Label, Why: reason})
	}
	return out
}

// staleOf is the first reason why one of the inputs is no evidence.
func staleOf(in ...given) string {
	for _, g := range in {
		if g.Stale != "" {
			return g.Stale
		}
	}
	return ""
}

// add keeps a finding. What is too close to call or not known makes no claim.
func (v *view) add(f finding.Finding) {
	f.Claim = unsure(f)
	v.out.Findings = append(v.out.Findings, f)
}

// unsure turns the claim of a pass into the question that is open.
func unsure(f finding.Finding) string {
	if f.Verdict != finding.TooClose && f.Verdict != finding.NotKnown || strings.Contains(f.Claim, " may ") {
		return f.Claim
	}
	for _, open := range []string{"Whether ", "What ", "How ", "Wish ", "Too close", "More air", "The relief valve's readings", "Which "} {
		if strings.HasPrefix(f.Claim, open) {
			return f.Claim
		}
	}
	first, _, _ := strings.Cut(f.Claim, " ")
	if first != strings.ToUpper(first) {
		return "Whether " + lower(f.Claim)
	}
	return "Whether " + f.Claim
}

// unknown keeps a finding that waits for readings.
func (v *view) unknown(id, topic, claim string, grade finding.Grade, place string, needs []finding.Gap) {
	v.add(finding.Finding{ID: id, Topic: topic, Claim: claim, Verdict: finding.NotKnown, Grade: grade, Place: place,
		Shown: countWords(len(needs)), Needs: needs, Source: source.CP})
}

func countWords(n int) string {
	if n == 0 {
		return "not read"
	}
	return itoa(n) + " to read"
}

// limits takes limits of the shop by key, the gravest first.
func (v *view) limits(keys ...string) []finding.Limit {
	out := make([]finding.Limit, len(keys))
	for i, k := range keys {
		out[i] = v.limit(k)
	}
	return out
}

// limit is a limit of the shop, written in the unit that the shop shows.
func (v *view) limit(key string) finding.Limit {
	l := v.shop.Limit(key)
	switch l.Kind {
	case quantity.KindPressure, quantity.KindLength, quantity.KindMass:
		l.Unit = v.shop.Unit(l.Kind)
	}
	return l
}

// between writes two limits as a range: "2.5 to 5.5 bar".
func (v *view) between(least, most string) string {
	lo, hi := v.limit(least).Text(), v.limit(most).Text()
	number, _, _ := strings.Cut(lo, "\u00a0")
	return number + " to " + hi
}

func abs(x float64) float64 {
	if x < 0 {
		return -x
	}
	return x
}
