package study

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/proof"
	q "jounce/quantity"
	"jounce/source"
	"jounce/spring"
)

// air is one axle's spring, ready to be asked, or why it is not.
type air struct {
	name    string
	part    *spring.Spring
	rec     *job.Spring
	height  given
	ratio   given
	volume  given
	bump    given
	maxWork given
	maxDyn  given
	points  []finding.Gap
	guess   bool
}

// springs asks of each axle on air what its springs carry and how they ride.
func (v *view) springs() {
	var set [2]*air
	for i := range AxleNames {
		if v.works(i) {
			set[i] = v.springOf(i)
			for k := 2 * i; k < 2*i+2; k++ {
				v.corner(k, set[i])
			}
			v.pressureFindings(i, set[i])
			v.share(i, set[i])
			v.peak(i, set[i])
			v.mount(i)
			v.chart(i, set[i])
		}
	}
	v.air = set
	v.frequencies(set)
}

// springOf makes an axle's spring from the record.
func (v *view) springOf(i int) *air {
	axle, base := v.axle(i), "axles."+AxleNames[i]
	a := &air{name: AxleNames[i], height: v.read(base+".springHeight", "h", tape), ratio: v.read(base+".springRatio", "r", ratio),
		volume: v.read(base+".airVolume", "V", volume), bump: v.read(base+".bumpVolume", "V_{b}", volume)}
	a.rec = v.springRec(axle.Spring)
	if a.rec == nil {
		a.points = []finding.Gap{{Path: base + ".spring", Label: upper(a.name) + ", spring", Why: "gives the force at a pressure"}}
		return a
	}
	path := "springs[" + a.rec.ID + "]"
	a.maxWork = v.read(path+".maxWorking", "p_{max}", exact)
	a.maxDyn = v.read(path+".maxDynamic", "p_{dyn}", exact)
	data := spring.Data{Name: a.rec.Name, Kind: map[string]spring.Kind{"bellows": spring.Bellows, "sleeve": spring.Sleeve}[a.rec.Behaviour],
		MaxWorking: q.GaugePressure(a.maxWork.Value), MaxDynamic: q.GaugePressure(a.maxDyn.Value),
		MinHeight: v.read(path+".closed", "", exact).Value, MaxHeight: v.read(path+".open", "", exact).Value}
	for _, p := range a.rec.Points {
		at := path + ".points[" + p.ID + "]"
		pr, h, l := v.read(at+".pressure", "", exact), v.read(at+".height", "", exact), v.read(at+".load", "", exact)
		if pr.OK && h.OK && l.OK {
			data.Points = append(data.Points, spring.Point{Pressure: q.GaugePressure(pr.Value), Height: h.Value, Load: l.Value})
		} else if len(a.rec.Points) == 1 || v.text(at+".load") != "" { // an empty load is not printed by the maker
			a.points = append(a.points, gaps("gives the force at a pressure", pr, h, l)...)
		}
	}
	if !a.height.OK && v.text(a.height.Path) == "" && len(data.Points) == 1 {
		h := data.Points[0].Height // one point is good at its own height
		a.height = given{Number: finding.Number{Value: h, Half: 0, Kind: q.KindLength, Unit: v.shop.Unit(q.KindLength)}, Symbol: "h", Label: a.height.Label, Path: a.height.Path, Mark: source.Derived, OK: true}
	}
	data.Volumes = v.volumes(path, a)
	v.build(a, data, path)
	return a
}

func (v *view) springRec(id string) *job.Spring {
	for k := range v.rec.Springs {
		if v.rec.Springs[k].ID == id && id != "" {
			return &v.rec.Springs[k]
		}
	}
	return nil
}

// volumes are the maker's, or the one volume measured at ROAD.
func (v *view) volumes(path string, a *air) []spring.VolumePoint {
	var out []spring.VolumePoint
	for _, p := range a.rec.Volumes {
		h, vol := v.read(path+".volumes["+p.ID+"].height", "", exact), v.read(path+".volumes["+p.ID+"].volume", "", exact)
		if h.OK && vol.OK {
			out = append(out, spring.VolumePoint{Height: h.Value, Volume: vol.Value})
		}
	}
	if len(out) == 0 && a.volume.OK && a.height.OK {
		out = []spring.VolumePoint{{Height: a.height.Value, Volume: a.volume.Value}}
	}
	return out
}

// build makes the engine's spring; where only an outside diameter is known, an
// estimate that decides nothing which stops the work.
func (v *view) build(a *air, data spring.Data, path string) {
	if len(data.Points) == 0 {
		d := v.read(path+".estimate", "", tape)
		if d.OK && a.height.OK {
			if g, err := spring.GuessSleeve(d.Value, 0.6*d.Value); err == nil && data.Kind == spring.Sleeve {
				data, a.guess = g.Data(a.height.Value), true
			} else if g, err := spring.GuessBellows(d.Value, 0.6*d.Value); err == nil && data.Kind == spring.Bellows {
				data, a.guess = g.Data(a.height.Value), true
			}
		}
		if !a.guess {
			if len(a.points) == 0 {
				a.points = append(a.points, finding.Gap{Path: path + ".points[p1].load", Label: a.rec.Name + ", one point of load, pressure and height", Why: "gives the force at a pressure"})
			}
			return
		}
	}
	s, err := spring.New(data)
	if err != nil {
		var ask *spring.Question
		if errors.As(err, &ask) {
			v.ask(path+".points", "", err.Error(), ask.Answers...)
		} else {
			v.ask(path+".points", "", err.Error())
		}
		a.points = append(a.points, finding.Gap{Path: path + ".points", Label: a.rec.Name + ", the maker's table", Why: err.Error()})
		return
	}
	a.part = s
}

// missing is what a corner's pressure waits for.
func (v *view) missing(k int, a *air) []finding.Gap {
	c := v.out.Corners[k]
	name := CornerNames[k]
	var out []finding.Gap
	if !c.Weight.Known() {
		out = append(out, finding.Gap{Path: "corners." + name + ".weight", Label: name + ", weight", Why: "gives the spring's load"})
	}
	if !v.unsprungOf(k).OK {
		out = append(out, finding.Gap{Path: "axles." + a.name + ".unsprung" + map[int]string{0: "Left", 1: "Right"}[k%2], Label: upper(a.name) + ", unsprung", Why: "what the spring does not carry"})
	}
	out = append(out, gaps("turns the wheel's load into the spring's", a.ratio)...)
	out = append(out, gaps("the area changes with height", a.height)...)
	return append(out, a.points...)
}

// corner works out one corner's pressures and ride.
func (v *view) corner(k int, a *air) {
	c := &v.out.Corners[k]
	need := v.missing(k, a)
	id := c.Name + ".pressure"
	claim := "What pressure " + c.Name + " needs at ROAD."
	if len(need) > 0 || a.part == nil {
		c.Gap = need[0].Label
		v.unknown(id, "springs", claim, finding.Stops, c.Name, need)
		return
	}
	for n := range c.Case {
		if c.Case[n].Known() {
			c.Pressure[n], v.how.pressure[k][n], _ = v.pressureFor(v.sprung(k, n), a)
		}
	}
	n, w, err := c.Pressure[1], v.how.pressure[k][1], error(nil)
	if w == nil {
		n, w, err = v.pressureFor(v.sprung(k, 1), a)
	}
	if err != nil {
		v.ask("axles."+a.name+".springHeight", v.text("axles."+a.name+".springHeight"), err.Error())
		c.Gap = err.Error()
		v.unknown(id, "springs", claim, finding.Stops, c.Name, []finding.Gap{{Path: "springs[" + a.rec.ID + "].points", Label: a.rec.Name + ", the maker's table", Why: err.Error()}})
		return
	}
	c.Pressure[1], c.Working, v.how.pressure[k][1] = n, w.finding(), w
	c.Force = finding.Of(q.KindForce, "N", c.Sprung.Value*q.StandardGravity/a.ratio.Value, 0)
	v.ride(k, a)
	v.pressureRead(k, c)
}

// sprung is the mass on a spring in one of the cases, or as weighed where the
// case is not known.
func (v *view) sprung(k, n int) given {
	c := v.out.Corners[k]
	if c.Case[n].Known() && (n == 0 || v.how.load[k][n] != nil) {
		return v.worked("m", c.Name+", sprung mass, "+Cases[n], c.Case[n], v.how.load[k][n])
	}
	return v.sprungMass(k)
}

// pressureRead doubts a pressure read at ROAD that cannot carry the corner and
// would fit in another unit.
func (v *view) pressureRead(k int, c *Corner) {
	path := "corners." + c.Name + ".pressure"
	text := v.text(path)
	val, err := job.Parse(q.KindPressure, text)
	if err != nil || val.SI() <= 0 {
		return
	}
	need := c.Pressure[1].Value
	if r := val.SI() / need; r > 0.5 && r < 2 {
		v.asRead(k, path)
		return
	}
	for _, name := range []string{"bar", "psi"} {
		u, _ := q.UnitOf(q.KindPressure, name)
		meant := u.ToSI(val.In(val.Unit()))
		if r := meant / need; r > 0.8 && r < 1.25 && u != val.Unit() {
			answer := strings.ReplaceAll(q.Format(q.KindPressure, meant, u, -1), "\u00a0", " ")
			if number := strings.Fields(text); len(number) == 2 {
				answer = number[0] + " " + name
			}
			v.ask(path, text, fmt.Sprintf("%s cannot carry %s; this spring needs about %s. Did you mean %s?",
				q.Format(q.KindPressure, val.SI(), v.shop.Unit(q.KindPressure), 2), q.Format(q.KindMass, c.Sprung.Value, v.shop.Unit(q.KindMass), 0),
				q.Format(q.KindPressure, need, v.shop.Unit(q.KindPressure), 1), answer), answer)
			return
		}
	}
}

// asRead holds the pressure read on the car against the one worked out: 10 %
// apart is allowed (handbook B27, common practice).
func (v *view) asRead(k int, path string) {
	c := &v.out.Corners[k]
	read := v.read(path, "p", width{abs: 0.19e5})
	a := proof.Agree(read.Number, c.Pressure[1], 0.10*c.Pressure[1].Value)
	f := finding.Finding{ID: c.Name + ".read", Topic: "springs", Place: c.Name, Value: read.Number, Verdict: a.Verdict, Grade: finding.Note, Source: source.CP,
		Claim: "The pressure read at " + c.Name + " is the one worked out.", Why: fmt.Sprintf("Read %s, worked out %s; 10 %% apart is allowed.", read.Number, c.Pressure[1]), NotEvidence: read.Stale}
	f.Working = v.offRead(k, read)
	switch a.Verdict {
	case finding.Fail:
		f.Claim = "The pressure read at " + c.Name + " is not the one worked out."
		f.Least = "Vent and level again from DOWN in one go; if it stays, weigh this corner again and read its spring height."
	case finding.TooClose:
		f.Settle = "Make " + a.Decides + " surer."
	}
	v.add(f)
}

// offRead is how far a pressure as read lies from the one worked out.
func (v *view) offRead(k int, read given) *finding.Working {
	c := v.out.Corners[k]
	read = read.called("p_{read}", c.Name+", pressure as read")
	p := v.worked("p", c.Name+", pressure worked out", c.Pressure[1], v.how.pressure[k][1])
	n, t, err := v.compute(q.KindPressure, c.Pressure[1].Unit, func(x []float64) (float64, error) { return x[0] - x[1], nil }, read, p)
	if err != nil {
		return nil
	}
	t.lead(finding.Line{Symbols: "Δ = p_{read} − p", Numbers: read.String() + " − " + p.String(), Result: n.String()})
	t.note("Judged, and shown below, is the difference.")
	return t.finding()
}

// pressureFor is the pressure that carries a sprung mass at ROAD, with its
// working. One calculation serves every load case.
func (v *view) pressureFor(m given, a *air) (finding.Number, *trail, error) {
	mass := m.Number
	first, err := a.part.Pressure(mass.Value*q.StandardGravity/a.ratio.Value, 0, a.height.Value)
	if err != nil {
		return finding.Number{}, nil, err
	}
	ar := v.area(a, first.Area)
	unit := v.shop.Unit(q.KindPressure)
	over := func(x []float64) (float64, error) { return x[0] * q.StandardGravity / x[1] / x[2], nil }
	if m.from == nil { // no finding rests on it
		n, err := v.number(q.KindPressure, unit, over, m, a.ratio, ar)
		return n, nil, err
	}
	n, w, err := v.compute(q.KindPressure, unit, over, m, a.ratio, ar)
	if err != nil {
		return n, w, err
	}
	w.lead([]finding.Line{
		{Symbols: "F = {" + m.Symbol + " g}/{r}", Numbers: fmt.Sprintf("%s × 9.807 ÷ %s", mass, plainNumber(a.ratio.Number)), Result: finding.Show(q.KindForce, "N", first.Load, 0)},
		{Symbols: "p = {F}/{A}", Numbers: fmt.Sprintf("%s ÷ %s", finding.Show(q.KindForce, "N", first.Load, 0), finding.Show(q.KindArea, "cm²", first.Area.Value, 1)), Result: n.String()},
	}...)
	if a.guess {
		w.note("The area is a geometric estimate: it decides nothing that stops the work.")
	} else {
		w.note("The area comes from the maker's loads at this height, never from a diameter. The ratio counts once for the force.")
	}
	return n, w, nil
}

// area is a spring's effective area at its height at ROAD. Its place is the
// maker's load nearest that height, or the diameter that it is estimated from.
func (v *view) area(a *air, ar spring.Area) given {
	mark, path := source.Maker, ""
	if a.guess {
		mark, path = source.CP, "springs["+a.rec.ID+"].estimate"
	}
	near := math.Inf(1)
	for _, p := range a.rec.Points {
		at := "springs[" + a.rec.ID + "].points[" + p.ID + "]"
		if h := v.read(at+".height", "", exact); h.OK && abs(h.Value-a.height.Value) < near && !a.guess {
			near, path = abs(h.Value-a.height.Value), at+".load"
		}
	}
	g := v.fact("A", a.name+" spring, effective area at "+a.height.Number.String(), finding.Of(q.KindArea, "cm²", ar.Value, ar.Half), mark)
	g.Path, g.Who = path, v.read(path, "", exact).Who
	return g
}

func plainNumber(n finding.Number) string {
	n.Half = 0
	return q.Format(n.Kind, n.Value, n.Unit, -1)
}

// pressureFindings judges an axle's pressures at ROAD, the corner nearest a
// limit first.
func (v *view) pressureFindings(i int, a *air) {
	for k := 2 * i; k < 2*i+2; k++ {
		c := &v.out.Corners[k]
		if !c.Pressure[1].Known() {
			continue
		}
		f := finding.Finding{ID: c.Name + ".pressure", Topic: "springs", Place: c.Name, Value: c.Pressure[1], Working: c.Working,
			Claim: fmt.Sprintf("The %s spring carries its corner in mid-range.", CornerWords[k])}
		f.Judge(v.limits("spring.pressure.fold", "spring.pressure.least", "spring.pressure.most")...)
		f.Why = fmt.Sprintf("%s; limits %s at ROAD.", other(f.Value), v.between("spring.pressure.least", "spring.pressure.most"))
		v.pressureWay(&f, c, a)
		v.estimated(&f, a)
		f.NotEvidence = staleOf(v.read("corners."+c.Name+".weight", "", pads), a.ratio)
		v.add(f)
	}
}

// estimated takes back a verdict that rests on a geometric estimate: it decides
// nothing (settled).
func (v *view) estimated(f *finding.Finding, a *air) {
	if !a.guess {
		return
	}
	f.Verdict, f.Why, f.Least = finding.NotKnown, "The area is an estimate. "+f.Why, ""
	f.Needs = []finding.Gap{{Path: "springs[" + a.rec.ID + "].points[p1].load", Label: a.rec.Name + ", one point of load, pressure and height", Why: "in place of the estimate"}}
}

func (v *view) pressureWay(f *finding.Finding, c *Corner, a *air) {
	l, ok := f.Decided()
	if !ok || f.Verdict == finding.Pass {
		return
	}
	// The doubt stays in proportion: the area that is named turns the verdict.
	rel := f.Value.Half / f.Value.Value
	less := finding.Show(q.KindArea, "cm²", math.Floor(1e4*c.Force.Value*(1-rel)/l.Value+1e-6)/1e4, 0)
	more := finding.Show(q.KindArea, "cm²", math.Ceil(1e4*c.Force.Value*(1+rel)/l.Value-1e-6)/1e4, 0)
	switch l.Key {
	case "spring.pressure.fold":
		f.Claim = fmt.Sprintf("The %s spring is too large: below %s it folds on rebound.", CornerWords[cornerIndex(c.Name)], l.Text())
		f.Least = "A spring of " + less + " or less at this height."
	case "spring.pressure.least":
		f.Claim = fmt.Sprintf("The %s spring is large for its load.", CornerWords[cornerIndex(c.Name)])
		f.Least = "A spring of " + less + " or less at this height."
	case "spring.pressure.most":
		f.Claim = fmt.Sprintf("The %s spring is small for its load.", CornerWords[cornerIndex(c.Name)])
		f.Least = "A spring of " + more + " or more at this height."
	}
}

func cornerIndex(name string) int {
	for i, n := range CornerNames {
		if n == name {
			return i
		}
	}
	return 0
}

// other is a pressure in the unit that the shop does not show first.
func other(n finding.Number) string {
	name := "psi"
	if n.Unit.Name() == "psi" {
		name = "bar"
	}
	return finding.Of(q.KindPressure, name, n.Value, 0).String()
}

// otherDoubt is other with its ±.
func otherDoubt(n finding.Number) string {
	name := "psi"
	if n.Unit.Name() == "psi" {
		name = "bar"
	}
	return finding.Of(q.KindPressure, name, n.Value, n.Half).String()
}

// share judges the laden pressure against the spring's maximum and names a way
// out where it is too high.
func (v *view) share(i int, a *air) {
	id, name := a.name+".laden", a.name
	claim := "The " + name + " springs, full load, stay in range."
	worst := -1
	for k := 2 * i; k < 2*i+2; k++ {
		if c := v.out.Corners[k]; c.Pressure[2].Known() && (worst < 0 || c.Pressure[2].Value > v.out.Corners[worst].Pressure[2].Value) {
			worst = k
		}
	}
	need := gaps("the spring's own limit", a.maxWork)
	if a.rec == nil || a.part == nil {
		return
	}
	for k := 2 * i; k < 2*i+2; k++ {
		if !v.out.Corners[k].Pressure[2].Known() {
			worst = -1
			need = append(need, v.missing(k, a)...)
		}
	}
	if worst < 0 {
		need = append(need, v.ladenNeed...)
		if len(need) == 0 {
			need = []finding.Gap{{Path: "springs[" + a.rec.ID + "].points", Label: a.rec.Name + ", the maker's table at the height at ROAD", Why: "the table does not reach this load and height"}}
		}
	}
	if len(need) > 0 {
		v.unknown(id, "springs", claim, finding.Stops, name, need)
		return
	}
	c := v.out.Corners[worst]
	p := v.worked("p", "pressure, full load, "+c.Name, c.Pressure[2], v.how.pressure[worst][2])
	unit, _ := q.UnitOf(q.KindRatio, "%")
	n, w, err := v.compute(q.KindRatio, unit, func(x []float64) (float64, error) { return x[0] / x[1], nil }, p, a.maxWork)
	if err != nil {
		return
	}
	w.lead(finding.Line{Symbols: "s = {p}/{p_{max}}", Numbers: fmt.Sprintf("%s ÷ %s", c.Pressure[2], a.maxWork.Number), Result: n.String()})
	f := finding.Finding{ID: id, Topic: "springs", Place: name, Value: n, Working: w.finding(), Claim: claim}
	f.Judge(v.limits("spring.share.most")...)
	f.Why = fmt.Sprintf("%s laden (%s) of the maker's %s.", c.Pressure[2], other(c.Pressure[2]), a.maxWork.Number)
	if f.Verdict != finding.Pass {
		f.Claim = "The " + name + " springs are too small for the full load."
		if f.Verdict == finding.TooClose {
			f.Claim = "The " + name + " springs may be too small for the full load."
		}
		f.Least = v.shareWay(c, a, n, f.Limits[0].Value)
	}
	v.estimated(&f, a)
	v.add(f)
}

// shareWay is the area, or the place of the same spring, that would carry the
// full load within its share of the maximum, doubt and all.
func (v *view) shareWay(c Corner, a *air, share finding.Number, most float64) string {
	load := c.Case[2].Value * q.StandardGravity / a.ratio.Value
	need, err := a.part.Pressure(load, 0, a.height.Value)
	if err != nil {
		return ""
	}
	sure := most / (1 + share.Half/share.Value)
	out, err := need.WaysOut(a.ratio.Value, sure)
	if err != nil {
		return ""
	}
	says := fmt.Sprintf("A spring of %s or more at this height would carry %s at no more than %s", finding.Show(q.KindArea, "cm²", math.Ceil(1e4*out.AreaNeeded-1e-6)/1e4, 0),
		finding.Show(q.KindForce, "N", load, 0), q.Format(q.KindPressure, most*a.maxWork.Value, v.shop.Unit(q.KindPressure), 1))
	if r := math.Ceil(100*out.RatioNeeded-1e-6) / 100; r <= 1 {
		return says + fmt.Sprintf("; or a place with a ratio of %.2f.", r)
	}
	return says + "."
}

// peak judges the pressure at full bump.
func (v *view) peak(i int, a *air) {
	id, claim := a.name+".peak", "The "+a.name+" springs stand a full bump."
	top := -1
	for k := 2 * i; k < 2*i+2; k++ {
		if c := v.out.Corners[k]; c.Pressure[1].Known() && (top < 0 || c.Pressure[1].Value > v.out.Corners[top].Pressure[1].Value) {
			top = k
		}
	}
	if a.rec == nil || top < 0 {
		return
	}
	if need := gaps("the pressure at the end of a bump", a.volume, a.bump, a.maxDyn); len(need) > 0 {
		v.unknown(id, "springs", claim, finding.Stops, a.name, need)
		return
	}
	c := &v.out.Corners[top]
	p := v.worked("p_{1}", c.Name+", pressure at ROAD, driver aboard", c.Pressure[1], v.how.pressure[top][1])
	unit := v.shop.Unit(q.KindPressure)
	n, w, err := v.compute(q.KindPressure, unit, func(x []float64) (float64, error) {
		k, err := spring.BumpPeak(q.GaugePressure(x[0]), x[1], x[2], spring.Moving, q.StandardAtmosphere)
		return float64(k.Value), err
	}, p, a.volume, a.bump)
	if err != nil {
		v.ask("axles."+a.name+".bumpVolume", v.text("axles."+a.name+".bumpVolume"), fmt.Sprintf("Air left at full bump, %s: %v.", a.bump.Number, err))
		v.unknown(id, "springs", claim, finding.Stops, a.name, []finding.Gap{{Path: a.bump.Path, Label: a.bump.Label, Why: "the pressure at the end of a bump"}})
		return
	}
	v.out.Corners[2*i].Peak, v.out.Corners[2*i+1].Peak = n, n
	w.lead(finding.Line{Symbols: "p_{2} = (p_{1} + p_{0}) (V ÷ V_{b})^{1.38} − p_{0}", Numbers: fmt.Sprintf("(%s + 1.013 bar) × (%s ÷ %s)^{1.38} − 1.013 bar", p.Number, a.volume.Number, a.bump.Number), Result: n.String()})
	w.note("On the high side: heat flows, and air in the line helps.")
	f := finding.Finding{ID: id, Topic: "springs", Place: a.name, Value: n, Working: w.finding(), Claim: claim}
	limit := finding.Limit{Key: "spring.peak", Name: "Pressure at full bump", Kind: q.KindPressure, Value: a.maxDyn.Value, Unit: a.maxDyn.Unit, Grade: finding.Stops, Source: source.Maker}
	f.Judge(limit)
	f.Why = "The maker's most in a bump is " + a.maxDyn.Number.String() + "."
	if f.Verdict != finding.Pass {
		f.Claim = "A full bump takes the " + a.name + " springs past what they stand."
		if f.Verdict == finding.TooClose {
			f.Claim = "A full bump may take the " + a.name + " springs past what they stand."
		}
		if k, err := spring.BumpPeak(q.GaugePressure(p.Value), a.volume.Value, a.bump.Value, spring.Moving, q.StandardAtmosphere); err == nil {
			if way := k.WayOut(q.GaugePressure(a.maxDyn.Value)); way.Possible {
				f.Least = fmt.Sprintf("%s more air, or a stop that leaves %s at full bump.", finding.Show(q.KindVolume, "L", way.AddVolume, 2), finding.Show(q.KindVolume, "L", way.LeastLeft, 2))
			}
		}
	}
	v.estimated(&f, a)
	v.add(f)
}

// mount judges the load path where the new spring sits on the damper's
// mounting.
func (v *view) mount(i int) {
	axle, name := v.axle(i), AxleNames[i]
	id := name + ".mount"
	claim := "The " + name + " spring's load stays on metal that carried it before."
	path := "axles." + name
	if axle.Seat == "" {
		v.unknown(id, "springs", claim, finding.Stops, name, []finding.Gap{{Path: path + ".seat", Label: upper(name) + ", the new spring sits", Why: "says which metal carries it"}})
		return
	}
	if axle.Seat == "in the original seat" {
		v.add(finding.Finding{ID: id, Topic: "springs", Place: name, Claim: claim, Verdict: finding.Pass, Grade: finding.Stops, Shown: "same seat", Source: source.CP, Why: "It sits in the original spring's seat."})
		return
	}
	var force finding.Number
	most := 0
	for k := 2 * i; k < 2*i+2; k++ {
		if c := v.out.Corners[k].Force; c.Known() && (!force.Known() || c.Value > force.Value) {
			force, most = c, k
		}
	}
	if !force.Known() {
		return
	}
	before := v.read(path+".mountCarried", "F_{0}", width{rel: 0.05})
	m, err := spring.LoadPath(force.Value, spring.BumpFactor, before.Value)
	if err != nil {
		return
	}
	f := finding.Finding{ID: id, Topic: "springs", Place: name, Grade: finding.Stops, Source: source.CP,
		Claim: fmt.Sprintf("The %s damper's mounting carries the car now: %s standing, %s at 3 g.", name, kilonewton(m.Standing), kilonewton(m.Bump)),
		Value: finding.Of(q.KindForce, "kN", m.Standing, 0), Verdict: finding.Fail,
		Why: "Where only damper forces went before. Jounce does not say whether metal is strong enough; a licensed engineer does.", Least: "Record an engineer's scheme, or keep the spring in its original seat."}
	f.Working = v.mounted(most, force, m, before)
	switch {
	case axle.MountScheme != "":
		f.Verdict, f.Why = finding.Pass, "Scheme recorded: "+axle.MountScheme+". Who made it answers for it."
	case before.OK:
		f.Value = finding.Of(q.KindRatio, "", m.BumpBy, m.BumpBy*before.Half/before.Value)
		f.Judge(v.limits("mount.load.most")...)
		f.Why = fmt.Sprintf("At 3 g it is %s times the %s that it carried before. Jounce does not say whether metal is strong enough; a licensed engineer does.", f.Value, before.Number)
		if f.Verdict == finding.Pass {
			f.Claim, f.Least = fmt.Sprintf("The %s mounting carries no more than it did.", name), ""
		}
	}
	v.add(f)
}

// mounted is the working of the load on a mounting, standing or, where it is
// known what the mounting carried before, in a bump against that. The force is
// taken as it is, without its ±.
func (v *view) mounted(k int, force finding.Number, m spring.MountLoad, before given) *finding.Working {
	sprung, r := v.sprungMass(k), v.read("axles."+AxleNames[k/2]+".springRatio", "r", ratio)
	standing := finding.Of(q.KindForce, "kN", m.Standing, 0)
	_, t, err := v.compute(q.KindForce, standing.Unit, func(x []float64) (float64, error) { return x[0] * q.StandardGravity / x[1], nil }, sprung.counting(0), r.counting(0))
	if err != nil {
		return nil
	}
	t.lead(finding.Line{Symbols: "F = {" + sprung.Symbol + " g}/{r}", Numbers: fmt.Sprintf("%s × 9.807 ÷ %s", sprung.Number, plainNumber(r.Number)), Result: kilonewton(force.Value)},
		finding.Line{Symbols: "F_{bump} = 3 F", Numbers: "3 × " + kilonewton(m.Standing), Result: kilonewton(m.Bump)})
	t.note("The spring's force is taken without its ±.")
	if !before.OK {
		return t.finding()
	}
	f := v.worked("F", CornerNames[k]+", force along the spring", force, t)
	n, b, err := v.compute(q.KindRatio, finding.Of(q.KindRatio, "", 0, 0).Unit, func(x []float64) (float64, error) {
		m, err := spring.LoadPath(x[0], spring.BumpFactor, x[1])
		return m.BumpBy, err
	}, f.counting(0), before)
	if err != nil {
		return t.finding()
	}
	b.lead(finding.Line{Symbols: "b = {F_{bump}}/{F_{0}}", Numbers: fmt.Sprintf("%s ÷ %s", kilonewton(m.Bump), before.Number), Result: n.String()})
	return b.finding()
}

func kilonewton(n float64) string { return finding.Show(q.KindForce, "kN", n, 2) }
