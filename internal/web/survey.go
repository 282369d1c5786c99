package web

import (
	"net/http"
	"net/url"
	"slices"
	"strings"

	"jounce/internal/draw"
	"jounce/internal/figure"
	"jounce/internal/finding"
	"jounce/internal/study"
	"jounce/internal/web/form"
	"jounce/internal/web/page"
	"jounce/source"
)

// stop is one place where somebody stops on the way round the car.
type stop struct {
	Title, Where string
	Paths        []string
	Gives        string // what the number is for, before it is typed
	Spot         int    // where on the plan, see spots; −1 for none
	Axle         string // asked only of an axle that is to have air: "front", "rear"
}

// walk is the order of the body: once round the car, then under it, then on the
// pads, then at the bench.
var walk = []stop{
	{"Tyre, as written on it", "front left, sidewall", []string{"axles.front.tyreLeft"}, "gives the diameter, the loaded radius and the scrub line", 0, ""},
	{"Hub to arch, FL", "hub centre to arch edge", []string{"corners.FL.hubToArch"}, "every height starts from it", 1, ""},
	{"Wheelbase", "hub to hub, left side", []string{"survey.wheelbase"}, "gives the hump, the slope of the lamps", 2, ""},
	{"Sill above the floor", "left, lowest edge, mid-door", []string{"survey.sill"}, "gives the heights at the presets", 3, ""},
	{"Tyre and hub to arch, RL", "rear left", []string{"axles.rear.tyreLeft", "corners.RL.hubToArch"}, "gives the slope front to rear", 4, ""},
	{"Rear overhang", "rear hub to the rearmost part", []string{"survey.rearOverhang"}, "draws the tail", 5, ""},
	{"Hub to arch, RR", "hub centre to arch edge", []string{"corners.RR.hubToArch", "axles.rear.tyreRight"}, "gives the lean at the rear", 6, ""},
	{"Hub to arch, FR", "hub centre to arch edge", []string{"corners.FR.hubToArch", "axles.front.tyreRight"}, "gives the twist of the shell, FL − FR − RL + RR", 7, ""},
	{"Front overhang", "front hub to the foremost part", []string{"survey.frontOverhang"}, "draws the nose", 8, ""},
	{"Roof above the floor", "highest point", []string{"survey.roof"}, "draws the roof", -1, ""},
	{"Lowest hard part, and which", "from below, with a lamp", []string{"survey.lowest", "survey.lowestName"}, "gives the clearance at every preset", -1, ""},
	{"Weights", "four pads", []string{"corners.FL.weight", "corners.FR.weight", "corners.RL.weight", "corners.RR.weight"}, "gives pressure, rate and frequency", -1, ""},
	{"Unsprung, front", "wheel, hub, brake, half the links", []string{"axles.front.unsprungLeft", "axles.front.unsprungRight"}, "what the spring does not carry", -1, "front"},
	{"Unsprung, rear", "the whole axle where it is one piece", []string{"axles.rear.unsprungLeft", "axles.rear.unsprungRight", "axles.rear.unsprungAxle"}, "what the spring does not carry", -1, "rear"},
	{"Spring and damper travel, front", "over wheel travel", []string{"axles.front.springRatio", "axles.front.damperRatio"}, "brings force and travel to the wheel", -1, "front"},
	{"Spring and damper travel, rear", "over wheel travel", []string{"axles.rear.springRatio", "axles.rear.damperRatio"}, "brings force and travel to the wheel", -1, "rear"},
	{"Spring, front", "seat to seat at ROAD", []string{"axles.front.spring", "axles.front.springHeight", "axles.front.airVolume"}, "gives the pressure", -1, "front"},
	{"Spring, rear", "seat to seat at ROAD", []string{"axles.rear.spring", "axles.rear.springHeight", "axles.rear.airVolume"}, "gives the pressure", -1, "rear"},
	{"Lengths, front", "damper and bump stop", []string{"axles.front.damper.road", "axles.front.damper.open", "axles.front.damper.closed", "axles.front.stop.free", "axles.front.stop.solid"}, "gives what travel is left", -1, ""},
	{"Lengths, rear", "damper and bump stop", []string{"axles.rear.damper.road", "axles.rear.damper.open", "axles.rear.damper.closed", "axles.rear.stop.free", "axles.rear.stop.solid"}, "gives what travel is left", -1, ""},
}

// oneAxle is the short way: seven entries to the first pressure.
func oneAxle(axle string) []stop {
	a, c := "axles."+axle, "corners."+map[string]string{"front": "FL", "rear": "RL"}[axle]
	return []stop{
		{"Layout, " + axle, "how the wheel is led", []string{a + ".layout"}, "says what the ratio means", -1, ""},
		{"Weight on one " + axle + " wheel", "left, on its pad, driver aboard", []string{c + ".weight"}, "what the tyre carries", -1, ""},
		{"Unsprung, one wheel", "wheel, hub, brake, half the links", []string{a + ".unsprungLeft"}, "what the spring does not carry", -1, ""},
		{"Spring travel over wheel travel", "measured, or from the maker's drawing", []string{a + ".springRatio"}, "brings the load to the spring", -1, ""},
		{"One line of the spring maker's table: load", "at a pressure and a height", []string{"springs[s1].points[p1].load"}, "gives the spring's area", -1, ""},
		{"Pressure of that line", "gauge", []string{"springs[s1].points[p1].pressure"}, "gives the spring's area", -1, ""},
		{"Height of that line", "seat to seat", []string{"springs[s1].points[p1].height"}, "taken as the height at ROAD too, until that is read", -1, ""},
	}
}

type surveyPage struct {
	page.Base
	formState
	ID, Action string
	Way        string
	Steps      []step
	Hidden     []keptField
	Car        sizes
	Plan       draw.Scene
	HasCar     bool
	Gaps       []page.Missing
	Found      findingsPart
	Pressures  []pressureLine
	Axle       string
	Rest       string
}

// step is a stop as the page shows it.
type step struct {
	No           int
	Title, Where string
	Gives        string
	State        string // "done", "er", "here", ""
	Quad         *quad  // four readings of one kind, round the plan
	Fields       []form.Field
	Kept         []keptValue
	Gave         []gave
	Href         string
	Caution      string
}

// cautions stand where somebody reads the number, by the title of the stop.
var cautions = map[string]string{
	"Hub to arch, FL":                 handsOff,
	"Tyre and hub to arch, RL":        handsOff,
	"Hub to arch, RR":                 handsOff,
	"Hub to arch, FR":                 handsOff,
	"Sill above the floor":            armsOut,
	"Lowest hard part, and which":     "Under a car only on stands or a locked lift; never on a jack, never on air alone. It falls without a sound.",
	"Weights":                         "Ramps and pads chocked, handbrake off only while somebody holds the car; nobody between the car and a wall.",
	"Spring and damper travel, front": wheelMoved,
	"Spring and damper travel, rear":  wheelMoved,
	"Spring, front":                   "A spring that is still loaded is let down by its own mounting; hands stay out of the coils. Air out before a line is opened.",
	"Spring, rear":                    "A spring that is still loaded is let down by its own mounting; hands stay out of the coils. Air out before a line is opened.",
	"Lengths, front":                  wheelMoved,
	"Lengths, rear":                   wheelMoved,
}

// What is said in more than one place.
const (
	handsOff   = "The car may settle while it is read: no hand between tyre and arch, nobody in it, nothing leaning on it."
	armsOut    = "Read from the side with a straight edge: no head and no arm under the sill. On air alone it falls without a sound."
	wheelMoved = "Body on rated stands, the other wheels chocked, air let out and its line off. Move the wheel with a jack under the hub, never with hands near spring or arch; a coil spring stays held."
)

type keptValue struct{ Label, Text, Href string }

// gave is what a kept number gave at once.
type gave struct {
	Text string
	Mark source.Mark
}

type pressureLine struct {
	Name, Words string
	Pressure    finding.Number
	Ride        finding.Number
	Working     *finding.Working
	Gap         string
}

// survey is the way into a job: round the car, or one axle first.
func (s *server) survey(w http.ResponseWriter, r *http.Request) error {
	way, axle := "walk", ""
	if r.URL.Query().Get("way") == "axle" {
		way, axle = "axle", "front"
		if r.URL.Query().Get("axle") == "rear" {
			axle = "rear"
		}
	}
	here := "/jobs/" + r.PathValue("id") + "/survey?way=" + way
	if axle == "rear" {
		here += "&axle=rear"
	}
	if way == "axle" && r.Method == http.MethodPost {
		if err := s.heightToo(r, axle); err != nil {
			return err
		}
	}
	return s.edit(w, r, func(status int, e *edit) error {
		p := &surveyPage{Base: s.jobBase(r, e.opened, "survey", "Survey"), formState: e.state(), ID: e.ID, Way: way, Axle: axle,
			Found: findingsPart{Title: "What can be said already", opened: *e.opened}}
		p.Live = true
		stops := walk
		if way == "axle" {
			stops = oneAxle(axle)
			if f, err := e.Rec.Field("axles."+axle+".spring", false); err == nil && f.Content() == "" {
				p.Hidden = []keptField{{"axles." + axle + ".spring", "s1"}}
			}
		}
		s.steps(p, e, stops, here, r)
		p.Action = r.URL.RequestURI()
		p.Gaps = page.Gaps(e.Res.Gaps, e.Res.Findings, func(path string) string { return stepHref(stops, here, e.ID, path) })
		p.figures(e, way)
		p.pressures(e, axle)
		return s.render(w, r, status, "survey", p)
	}, func(*edit) string { return here })
}

// heightToo takes the height of the table's line for the spring's height at ROAD as
// well, as the page says, while that is not read.
func (s *server) heightToo(r *http.Request, axle string) error {
	o, err := s.open(r)
	if err != nil {
		return err
	}
	if err := r.ParseForm(); err != nil {
		return err
	}
	at := "axles." + axle + ".springHeight"
	line := r.PostForm.Get("springs[s1].points[p1].height")
	if f, err := o.Rec.Field(at, false); err == nil && strings.TrimSpace(f.Content()) == "" && strings.TrimSpace(line) != "" && !r.PostForm.Has(at) {
		r.PostForm.Set(at, line)
	}
	return nil
}

// steps fills in the stops: kept, asked about, here, and to come.
func (s *server) steps(p *surveyPage, e *edit, stops []stop, here string, r *http.Request) {
	at := r.URL.Query().Get("at")
	typed, wrong := 0, 0
	hereSet := false
	for _, st := range stops {
		if st.Axle != "" && !airAxle(e, st.Axle) {
			continue
		}
		x := step{No: len(p.Steps) + 1, Title: st.Title, Where: st.Where, Gives: st.Gives}
		if len(st.Paths) == 4 {
			q := quadOf(e.View, leaf(st.Paths[0]))
			q.Title, q.Where = st.Title, st.Where
			x.Quad = &q
		}
		x.Href = here + "&at=" + url.QueryEscape(st.Paths[0]) + "#" + st.Paths[0]
		filled, asked, skipped := 0, false, false
		for _, path := range st.Paths {
			f := e.View.Field(path)
			x.Fields = append(x.Fields, f)
			asked = asked || f.Problem != nil
			skipped = skipped || f.NotRead != ""
			if strings.TrimSpace(f.Value) != "" {
				filled++
				x.Kept = append(x.Kept, keptValue{f.Label, f.Shown(), here + "&at=" + url.QueryEscape(path) + "#" + path})
				x.Gave = append(x.Gave, gaveBy(e, path)...)
			} else if f.NotRead != "" {
				x.Kept = append(x.Kept, keptValue{f.Label, "not read", here + "&at=" + url.QueryEscape(path) + "#" + path})
			}
		}
		if len(x.Gave) == 0 && filled > 0 {
			x.Gave = []gave{{Text: st.Gives}}
		}
		x.Caution = cautions[st.Title]
		switch {
		case slices.Contains(st.Paths, at) || p.Unsaved && postedIn(r, st.Paths):
			x.State = "here"
			hereSet = true
		case asked:
			x.State = "er"
		case filled > 0 || skipped:
			x.State = "done"
		}
		if asked {
			wrong++
		} else if filled > 0 {
			typed++
		}
		p.Steps = append(p.Steps, x)
	}
	if !hereSet && at == "" {
		for i := range p.Steps {
			if p.Steps[i].State == "" {
				p.Steps[i].State = "here"
				break
			}
		}
	}
	if p.Way == "axle" {
		for i := range p.Steps { // the short way is one form
			if p.Steps[i].State != "er" {
				p.Steps[i].State = "here"
			}
		}
	}
	p.Counts = []string{itoa(typed) + " of " + itoa(len(p.Steps)) + " typed", itoa(wrong) + " to settle", itoa(len(p.Steps)-typed-wrong) + " to go"}
}

// postedIn tells that the form brought one of the places.
func postedIn(r *http.Request, paths []string) bool {
	return slices.ContainsFunc(paths, func(p string) bool { return r.PostForm.Has(p) })
}

func airAxle(e *edit, axle string) bool {
	f, err := e.Rec.Field("axles."+axle+".springing", false)
	return err != nil || f.Content() != "steel"
}

// gaveBy says what a number gave: the findings and numbers that stand on it.
func gaveBy(e *edit, path string) []gave {
	var out []gave
	if i := slices.Index([]string{"axles.front.tyreLeft", "axles.rear.tyreLeft"}, path); i >= 0 && e.Res.Heights.Wheel[i].Known {
		w := e.Res.Heights.Wheel[i]
		text := page.Shown(w.Diameter) + " across, loaded radius " + page.Shown(w.Loaded)
		if w.Scrub.Known() {
			text += ", scrub line " + page.Shown(w.Scrub)
		}
		return []gave{{text, source.Derived}}
	}
	for _, f := range e.Res.Findings {
		if f.Working == nil || len(out) == 2 || !f.Value.Known() {
			continue
		}
		for _, t := range f.Working.Terms {
			if t.Path == path {
				out = append(out, gave{strings.TrimSuffix(f.Claim, ".") + ": " + f.Value.String(), f.Source})
				break
			}
		}
	}
	return out
}

// stepHref is where a missing place is typed: at its stop, or on its own page.
func stepHref(stops []stop, here, id, path string) string {
	for _, st := range stops {
		if slices.Contains(st.Paths, path) {
			return here + "&at=" + url.QueryEscape(path) + "#" + path
		}
	}
	return hrefOf(id, path)
}

// figures draws the car so far and the way round it.
func (p *surveyPage) figures(e *edit, way string) {
	if way == "axle" {
		return
	}
	p.HasCar = true
	p.Car = side(e.Res, 1, true, "car")
	plan := figure.Plan{Wheelbase: e.Res.Heights.Wheelbase, FrontOverhang: e.Res.Heights.FrontOverhang, RearOverhang: e.Res.Heights.RearOverhang}
	for _, x := range p.Steps {
		for _, st := range walk {
			if st.Title != x.Title || st.Spot < 0 {
				continue
			}
			spot := spots[st.Spot]
			plan.Stops = append(plan.Stops, figure.PlanStop{Label: itoa(x.No), Side: spot.side, X: spot.x, Title: x.Title,
				State: map[string]figure.StopState{"done": figure.Done, "here": figure.Here, "er": figure.Here}[x.State]})
		}
	}
	p.Plan = figure.PlanView(plan, draw.PX(230), draw.PX(430), draw.Tablet())
	p.Plan.ID, p.Plan.Title = "walk", "The walk round the car"
}

// spots are the places of the stops on the plan, in the order of the walk.
var spots = []struct {
	side figure.PlanSide
	x    float64 // in wheelbases from the front axle
}{{figure.AtLeft, -0.04}, {figure.AtLeft, 0.17}, {figure.AtLeft, 0.42}, {figure.AtLeft, 0.67}, {figure.AtLeft, 1},
	{figure.AtTail, 0}, {figure.AtRight, 1}, {figure.AtRight, 0}, {figure.AtNose, 0}}

// pressures lists what the short way is for.
func (p *surveyPage) pressures(e *edit, axle string) {
	for i, c := range e.Res.Corners {
		if axle != "" && (i >= study.RL) != (axle == "rear") {
			continue
		}
		if axle != "" && i%2 == 1 {
			continue // the short way weighs the left wheel
		}
		l := pressureLine{Name: study.CornerNames[i], Words: study.CornerWords[i], Pressure: c.Pressure[1], Ride: c.Ride, Working: c.Working, Gap: c.Gap}
		if !l.Pressure.Known() {
			l.Pressure = c.Pressure[0]
		}
		p.Pressures = append(p.Pressures, l)
	}
}
