package study

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"jounce/gas"
	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/leak"
	"jounce/num/doubt"
	"jounce/num/interp"
	q "jounce/quantity"
	"jounce/source"
)

// leaks judges every pressure-decay test of the record.
func (v *view) leaks() {
	for i := range v.rec.LeakTests {
		v.leak(&v.rec.LeakTests[i])
	}
}

// test is one test on its way through the questions.
type test struct {
	*view
	rec  *job.LeakTest
	path string
	out  *Leak
	when []time.Time
	read []leak.Reading   // those with a time and a pressure
	from []int            // their places in rec.Readings
	sunk [4]func() *trail // how far each corner sank
}

func (v *view) leak(rec *job.LeakTest) {
	v.out.Leaks = append(v.out.Leaks, Leak{ID: rec.ID, Title: rec.Title, State: "not begun"})
	t := &test{view: v, rec: rec, path: "leakTests[" + rec.ID + "]", out: &v.out.Leaks[len(v.out.Leaks)-1]}
	t.readings()
	t.cautions()
	t.mayRun()
	t.tank()
	t.corners()
	t.relief()
	t.joints()
	t.isolation()
	for i := range t.out.Findings {
		f := &t.out.Findings[i]
		v.sign(f)
		t.out.Holds = t.out.Holds || f.Holds()
	}
	v.out.Findings = append(v.out.Findings, t.out.Findings...)
}

func (t *test) add(f finding.Finding) {
	f.Topic, f.ID = "leak", t.rec.ID+"."+f.ID
	t.out.Findings = append(t.out.Findings, f)
}

// cautions says what the air in the tank can do, where the person stands.
func (t *test) cautions() {
	vol, p := t.view.read(t.path+".volume", "V", volume), t.view.read(t.path+".pressure", "p", exact)
	energy := "Stored pressure."
	if vol.OK && p.OK {
		if e, err := gas.StoredEnergy(q.GaugePressure(p.Value).Absolute(q.StandardAtmosphere), vol.Value, q.StandardAtmosphere); err == nil {
			t.out.Energy = finding.Of(q.KindEnergy, "kJ", e, 0)
			holds := "holds"
			if len(t.read) == 0 {
				holds = "will hold"
			}
			energy = fmt.Sprintf("The tank %s %s beside you, %s if it bursts.", holds, p.Number, t.out.Energy)
		}
	}
	t.out.Cautions = []string{
		"Where you stand. " + energy + " Eyes and ears covered, the barrier up, everybody knows the dump valve.",
		"Hands. No spanner on any fitting under pressure. Nobody under the car or between wheel and arch: air does not hold a car, rated stands do.",
	}
}

// mayRun refuses a test above the relief valve's setting.
func (t *test) mayRun() {
	want := t.view.read(t.path+".pressure", "p", exact)
	for _, r := range t.read { // what was read counts as much as what was wanted
		if !want.OK || float64(r.Gauge.Value) > want.Value {
			want.OK, want.Number = true, t.pressure(float64(r.Gauge.Value), 0)
		}
	}
	if !want.OK {
		return
	}
	set := t.view.read("air.relief", "", exact)
	if lift := t.view.read(t.path+".relief.lift", "", exact); lift.OK && (!set.OK || lift.Value < set.Value) {
		set = lift
	}
	if !set.OK {
		return
	}
	err := leak.Allowed(q.GaugePressure(want.Value), q.GaugePressure(set.Value))
	if !errors.Is(err, leak.ErrAboveRelief) {
		return
	}
	t.out.Refused = fmt.Sprintf("A test at %s is refused: the relief valve lifts at %s. No pneumatic over-pressure test in this shop.", want.Number, set.Number)
	t.add(finding.Finding{ID: "refused", Claim: "The test is refused: it goes above the relief valve.", Verdict: finding.Fail, Grade: finding.Stops, Value: want.Number, Source: source.CP,
		Why: t.out.Refused, Least: "Test at cut-out, below " + set.Number.String() + "."})
}

func (t *test) readings() {
	for i, r := range t.rec.Readings {
		at := t.path + ".readings[" + r.ID + "]"
		when, err := job.ParseTime(r.At)
		if err != nil {
			continue // the record's check says so
		}
		g := t.view.read(at+".pressure", "p", width{abs: 0.19e5})
		if !g.OK {
			continue
		}
		one := leak.Reading{Gauge: leak.Gauge{Value: q.GaugePressure(g.Value), Half: g.Half, Instrument: r.Pressure.With}}
		if c := t.view.read(at+".temperature", "T", thermometer); c.OK {
			one.Temperature = leak.Temperature{Value: q.Temperature(c.Value), Half: c.Half, Instrument: r.Temperature.With}
		}
		if b := t.view.read(at+".barometer", "b", width{abs: 100}); b.OK {
			one.Barometer = leak.Barometer{Value: q.AbsPressure(b.Value), Half: b.Half, Instrument: r.Barometer.With}
		}
		if n := len(t.when); n > 0 {
			if !when.After(t.when[n-1]) {
				t.view.ask(at+".at", r.At, "This reading is not later than the one before it, "+t.when[n-1].Format(job.TimeLayout)+".")
				continue
			}
			one.At = when.Sub(t.when[0]).Seconds()
		}
		t.when, t.read, t.from = append(t.when, when), append(t.read, one), append(t.from, i)
	}
	switch n := len(t.read); {
	case n == 1:
		t.out.State = "running"
	case n > 1:
		t.out.State = "read"
	}
}

// tank judges the decay past the cold.
func (t *test) tank() {
	f := finding.Finding{ID: "tank", Place: "tank", Claim: "The tank holds.", Grade: finding.Stops, Verdict: finding.NotKnown, Shown: "not read", Source: source.CP}
	vol := t.view.read(t.path+".volume", "V", volume)
	if t.out.Refused != "" {
		f.Claim, f.Why, f.Shown = "Whether the tank holds.", "A refused test has no verdict.", "refused"
		t.rows(nil)
		t.add(f)
		return
	}
	f.Needs = append(f.Needs, gaps("turns the loss into a leak", vol)...)
	if len(t.read) < 2 {
		t.rows(nil)
		f.Claim = "Whether the tank holds."
		f.Needs = append(f.Needs, finding.Gap{Path: t.path + ".readings", Label: t.rec.Title + ", two readings of gauge and temperature", Why: "gives the loss past the cold"})
		t.running(&f)
		t.add(f)
		return
	}
	r, err := leak.Decay(t.engine(vol))
	if err != nil {
		t.cannot(f, err)
		return
	}
	t.shown(r)
	f.Shown, f.Needs, f.Value = "", nil, t.out.Lost
	f.Judge(t.view.limits("leak.tank.most", "leak.tank.want")...)
	f.Working = t.working(r, vol)
	t.words(&f, r)
	f.NotEvidence = t.stale()
	t.running(&f)
	t.add(f)
}

func (t *test) engine(vol given) leak.Test {
	return leak.Test{Volume: vol.Value, VolumeHalf: vol.Half, Readings: t.read, Pumped: t.sinceFilling()}
}

// sinceFilling is how long the air had cooled at the first reading [s]; 0 is not
// known.
func (t *test) sinceFilling() float64 {
	if when, err := job.ParseTime(t.rec.Filled); err == nil && len(t.when) > 0 && when.Before(t.when[0]) {
		return t.when[0].Sub(when).Seconds()
	}
	return 0
}

func (t *test) cannot(f finding.Finding, err error) {
	f.Claim, f.Why = "Whether the tank holds.", upper(err.Error())+"."
	if errors.Is(err, leak.ErrNoTemperature) {
		for _, k := range []int{0, len(t.from) - 1} {
			r := t.rec.Readings[t.from[k]]
			if r.Temperature.Empty() {
				f.Needs = append(f.Needs, finding.Gap{Path: t.path + ".readings[" + r.ID + "].temperature", Label: t.rec.Title + ", temperature at " + t.when[k].Format("15:04"), Why: "tells the cold from a leak"})
			}
		}
	}
	t.rows(nil)
	t.add(f)
}

func (t *test) pressure(pa, half float64) finding.Number {
	return finding.Number{Value: pa, Half: half, Kind: q.KindPressure, Unit: t.view.shop.Unit(q.KindPressure)}
}

// shown fills what page and certificate show of the tank.
func (t *test) shown(r leak.Result) {
	o := t.out
	o.Lost, o.LostNow = t.pressure(r.Lost12, r.Half12), t.pressure(r.Lost, r.Half)
	o.ColdAlone = t.pressure(float64(r.ColdAlone), r.Half)
	o.Rate = flow(r.Rate.AtTank, r.Rate.AtTankHalf)
	o.Rate20 = flow(r.Rate.FreeAir.Volume, r.Rate.FreeHalf)
	t.rows(r.Points)
	t.tomorrow()
	t.chart(r)
}

// flow is a leak of free air at 1.013 bar. The unit's name is shown without a
// reference state, which the words beside it give.
func flow(m3s, half float64) finding.Number {
	return finding.Of(q.KindFreeAirFlow, "mL/min ANR", m3s, half)
}

func (t *test) rows(points []leak.Point) {
	for k, r := range t.read {
		row := LeakRow{At: t.rec.Readings[t.from[k]].At, Clock: t.when[k].Format("15:04"), Gauge: t.pressure(float64(r.Gauge.Value), r.Gauge.Half)}
		if r.Temperature.Value > 0 {
			row.Temperature = finding.Of(q.KindTemperature, "°C", float64(r.Temperature.Value), r.Temperature.Half)
		}
		if k < len(points) && points[k].Known {
			row.ColdAlone, row.Lost = t.pressure(float64(points[k].Cold), 0), t.pressure(points[k].Lost, points[k].Doubt)
		}
		t.out.Rows = append(t.out.Rows, row)
	}
}

// tomorrow is what the gauge should read at the temperature typed.
func (t *test) tomorrow() {
	c := t.view.read(t.path+".tomorrow", "T", thermometer)
	if !c.OK || len(t.read) == 0 {
		return
	}
	last := t.read[len(t.read)-1]
	e, err := leak.Expect(last, leak.Temperature{Value: q.Temperature(c.Value), Half: c.Half, Instrument: last.Temperature.Instrument}, leak.Barometer{})
	if err == nil {
		t.out.TomorrowT, t.out.Tomorrow = c.Number, t.pressure(float64(e.Gauge), e.Half)
	}
}

// running says when a test can be decided, with this gauge and with better ones.
func (t *test) running(f *finding.Finding) {
	if len(t.read) == 0 {
		return
	}
	want := t.view.shop.Limit("leak.tank.want").Value
	first := t.read[0]
	d, err := leak.Decide(first, want, -1)
	if err != nil || !d.Possible {
		return
	}
	t.out.Decide, t.out.DecideAt = d.After, clock(t.when[0], d.After)
	for _, half := range []float64{0.02e5, 0.01e5} {
		if half >= first.Gauge.Half {
			continue
		}
		if b, err := leak.Decide(first, want, half); err == nil && b.Possible {
			t.out.Better = append(t.out.Better, Better{Name: "a gauge of ± " + strconv.FormatFloat(half/1e5, 'g', -1, 64) + " bar", Half: half, At: clock(t.when[0], b.After)})
		}
	}
	if f.Verdict == finding.TooClose || f.Verdict == finding.NotKnown {
		if t.out.State == "read" && t.read[len(t.read)-1].At < d.After {
			t.out.State = "running"
		}
		if f.Verdict == finding.TooClose {
			f.SettleAt = t.path + ".readings[" + t.rec.Readings[t.from[len(t.from)-1]].ID + "].pressure"
			f.Settle = fmt.Sprintf("Read again at %s%s, if nothing is lost this gauge can decide then.", t.out.DecideAt, laterDay(t.when[0], d.After))
			if len(t.out.Better) > 0 {
				f.Settle += fmt.Sprintf(" With %s: %s.", t.out.Better[0].Name, t.out.Better[0].At)
			}
		}
	}
}

// laterDay says how many days after the start a time is, for words beside a
// clock.
func laterDay(from time.Time, after float64) string {
	at := from.Add(time.Duration(math.Ceil(after/60)) * time.Minute)
	if after > 86400 || at.YearDay() == from.YearDay() {
		return "" // the clock says the date itself, or there is none to say
	}
	return " the next day"
}

func clock(from time.Time, after float64) string {
	at := from.Add(time.Duration(math.Ceil(after/60)) * time.Minute)
	if at.YearDay() != from.YearDay() && after > 86400 {
		return at.Format("2 January, 15:04")
	}
	return at.Format("15:04")
}

// words says what the decay means.
func (t *test) words(f *finding.Finding, r leak.Result) {
	f.Why = fmt.Sprintf("%s lost in 12 h past the cold, %s. Worst likely %s; pass ends at %s.", t.out.Lost, otherDoubt(t.out.Lost),
		t.exactly(r.High12), t.view.limit("leak.tank.want").Text())
	rate := "the leak is " + t.out.Rate.String()
	switch {
	case r.Gained:
		f.Verdict, f.Claim = finding.NotKnown, "More air at the end than at the start."
		f.Why = "Somebody pumped, or one of the readings is wrong."
	case f.Verdict == finding.Fail:
		if t.out.Chart != nil {
			t.out.Chart.Decide = 0 // it is decided
		}
		f.Claim = "The tank leaks: " + milli(t.out.Rate) + "."
		f.Least = "Find the leak with soap, mend it, test again."
		f.Why += fmt.Sprintf(" Best likely %s.", t.exactly(r.Low12))
	case f.Verdict == finding.TooClose:
		f.Claim = "Too close to call: the tank's test cannot prove pass or fail with this gauge."
		f.Why += " " + upper(rate) + "."
	}
	if d := strings.TrimSpace(t.rec.Disturbed); d != "" {
		f.Why += " Recorded during the test: " + strings.TrimSuffix(d, ".") + "."
	}
	if r.Straying > 0 {
		f.Why += " A reading between strays from a steady leak: something happened then."
	}
	if r.Unsettled {
		f.Why += " The first reading came less than 20 minutes after pumping; the air was still cooling."
	}
}

// exactly writes a likely value beside a limit with a figure more than the
// limit has.
func (t *test) exactly(pa float64) string {
	u := t.view.shop.Unit(q.KindPressure)
	digits := 3
	if u.Name() == "psi" {
		digits = 2
	}
	return q.Format(q.KindPressure, pa, u, digits)
}

func milli(n finding.Number) string {
	return strings.TrimSuffix(q.Format(n.Kind, n.Value, n.Unit, 1), "\u00a0ANR")
}

func (t *test) stale() string {
	for _, k := range []int{0, len(t.from) - 1} {
		r := t.rec.Readings[t.from[k]]
		at := t.path + ".readings[" + r.ID + "]"
		if s := staleOf(t.view.read(at+".pressure", "", exact), t.view.read(at+".temperature", "", exact)); s != "" {
			return s
		}
	}
	return ""
}

// working is the decay in symbols and numbers.
func (t *test) working(r leak.Result, vol given) *finding.Working {
	w := &finding.Working{Doubt: "linear", Lines: []finding.Line{
		{Symbols: "p_{cold} = (p_{1} + b_{1}) T_{2} ÷ T_{1} − b_{2}", Numbers: fmt.Sprintf("%.3f × %.2f ÷ %.2f − %.3f", float64(r.P1)/1e5, float64(r.Last.Temperature.Value), float64(r.First.Temperature.Value), float64(r.B2)/1e5), Result: plainNumber(t.pressure(float64(r.ColdAlone), 0))},
		{Symbols: "lost = p_{cold} − p_{2}", Numbers: fmt.Sprintf("%.2f − %.2f", float64(r.ColdAlone)/1e5, float64(r.Last.Gauge.Value)/1e5), Result: t.out.LostNow.String()},
		{Symbols: "lost_{12} = lost × 12 h ÷ t", Numbers: fmt.Sprintf("%s × 12 ÷ %.1f h", t.out.LostNow, r.Time/3600), Result: t.out.Lost.String()},
		{Symbols: "Q = {V lost}/{p_{0} t}", Numbers: fmt.Sprintf("%s × %s ÷ (1.013 bar × %.1f h)", vol.Number, t.out.LostNow, r.Time/3600), Result: t.out.Rate.String() + " at the tank's temperature, " + t.out.Rate20.String() + " at 20 °C"},
	}}
	tr := t.view.engine(t.out.Lost, scaled(r.Doubt, leak.Night/r.Time), t.pair(t.from[0], t.from[len(t.from)-1], r)...)
	volume := vol.called("V", "volume of the tank and its lines")
	tr.also(volume.term(0))
	tr.lead(w.Lines...)
	t.view.how.tank, w = tr, tr.finding()
	w.Notes = []string{"Two readings with one instrument, subtracted, carry its figure once."}
	if first := t.rec.Readings[t.from[0]]; first.Pressure.With == "" {
		w.Notes = []string{fmt.Sprintf("No gauge is named: both readings are taken as one gauge's, %s.", t.doubtOf(r.First.Gauge.Half))}
	}
	if !r.BarometerRead {
		w.Notes = append(w.Notes, "The barometer was not read: unchanged ± 0.02 bar.")
	}
	for _, p := range r.Parts {
		w.Steps = append(w.Steps, finding.Term{Symbol: "±", Name: p.Name, Value: t.pressure(p.Half, 0), Mark: source.Calc, Share: p.Share})
	}
	return w
}

// scaled is what inputs do to a result that is so many times as large.
func scaled(d doubt.Result, by float64) doubt.Result {
	d.Effects, d.PlusFive = slices.Clone(d.Effects), slices.Clone(d.PlusFive)
	for i := range d.Effects {
		d.Effects[i] *= by
		d.PlusFive[i] *= by
	}
	return d
}

// pair are the two readings that are judged: gauges, temperatures, barometers.
func (t *test) pair(first, last int, r leak.Result) []given {
	at := [2]string{t.path + ".readings[" + t.rec.Readings[first].ID + "]", t.path + ".readings[" + t.rec.Readings[last].ID + "]"}
	var gauge, thermo, baro []given
	for k, one := range []leak.Reading{r.First, r.Last} {
		n, words := strconv.Itoa(k+1), []string{"first", "last"}[k]
		g := t.view.read(at[k]+".pressure", "p_{"+n+"}", exact).called("p_{"+n+"}", words+" gauge reading")
		g.Number = t.pressure(float64(one.Gauge.Value), one.Gauge.Half)
		gauge = append(gauge, g)
		thermo = append(thermo, t.thermometer(at[k], n, words, one.Temperature))
		baro = append(baro, t.barometer(at[k], n, words, one.Barometer, []q.AbsPressure{r.B1, r.B2}[k], k == 1 && !r.BarometerRead))
	}
	return append(append(gauge, thermo...), baro...)
}

func (t *test) thermometer(at, n, words string, one leak.Temperature) given {
	g := t.view.read(at+".temperature", "", exact).called("T_{"+n+"}", words+" temperature, counted in kelvin")
	g.Number = finding.Of(q.KindTemperature, "°C", float64(one.Value), one.Half)
	return g
}

// barometer is the one that was counted: where it was not read, unchanged.
func (t *test) barometer(at, n, words string, one leak.Barometer, used q.AbsPressure, doubtful bool) given {
	g := t.view.read(at+".barometer", "", width{abs: 100})
	half := one.Half
	if !one.Read() {
		half = 0
		if doubtful {
			half = leak.BarometerChange
		}
		g = t.view.fact("", "", finding.Number{}, source.CP)
		g.Path = at + ".barometer"
		words += " barometer, not read"
	} else {
		words += " barometer"
	}
	g.Number = finding.Of(q.KindAbsPressure, "bar", float64(used), half)
	return g.called("b_{"+n+"}", words)
}

// doubtOf writes a half-width of the gauge: "± 0.19 bar".
func (t *test) doubtOf(half float64) string {
	return "± " + finding.Exact(q.KindPressure, half, t.view.shop.Unit(q.KindPressure))
}

// chart makes the decay chart's curves.
func (t *test) chart(r leak.Result) {
	c := &LeakChart{Band: r.First.Gauge.Half, Decide: t.out.Decide}
	var x, y []float64
	for k, p := range r.Points {
		c.ReadTime, c.Read, c.ReadHalf = append(c.ReadTime, p.At), append(c.Read, float64(p.Gauge)), append(c.ReadHalf, p.Half)
		c.Labels = append(c.Labels, t.when[k].Format("15:04"))
		if p.Known {
			x, y = append(x, p.At), append(y, float64(p.Cold))
		}
	}
	if d, err := leak.Decide(t.read[0], t.view.shop.Limit("leak.tank.want").Value, -1); err == nil && d.Possible {
		c.Decide = d.After
	}
	curve, err := interp.New(x, y)
	if err != nil {
		return
	}
	want, most := t.view.limit("leak.tank.want"), t.view.limit("leak.tank.most")
	c.PassText, c.StopText = want.Text(), most.Text()
	end := math.Max(x[len(x)-1], math.Min(c.Decide*1.1, 36*3600))
	const steps = 96
	for k := 0; k <= steps; k++ {
		at := end * float64(k) / steps
		cold := y[len(y)-1]
		if at < x[len(x)-1] {
			if cold, err = curve.At(at); err != nil {
				return
			}
		}
		c.Time, c.Cold = append(c.Time, at), append(c.Cold, cold)
		c.PassEnds = append(c.PassEnds, cold-want.Value*at/leak.Night)
		c.Stops = append(c.Stops, cold-most.Value*at/leak.Night)
	}
	t.out.Chart = c
}

// corners judges each corner by its height.
func (t *test) corners() {
	worst := -1
	var need []finding.Gap
	for k := range CornerNames {
		s := &t.out.Corners[k]
		s.Name = CornerNames[k]
		if !t.view.works(k / 2) {
			s.Gap = "not on air"
			continue
		}
		if g := t.sink(k, s); len(g) > 0 {
			need = append(need, g...)
			continue
		}
		if worst < 0 || s.Unexplained.Value > t.out.Corners[worst].Unexplained.Value {
			worst = k
		}
	}
	f := finding.Finding{ID: "corners", Claim: "The corners hold.", Grade: finding.Stops, Source: source.CP}
	switch {
	case worst < 0 && len(need) == 0:
		return // no corner stands on air
	case worst < 0 || len(need) > 0:
		f.Verdict, f.Shown, f.Needs = finding.NotKnown, countWords(len(need)), need
		f.Claim = "Whether the corners hold."
		f.Why = "A loaded spring keeps its pressure while it leaks; only its height tells."
	default:
		s := t.out.Corners[worst]
		f.Value, f.Place, f.Working = s.Unexplained, s.Name, t.sunk[worst]().finding()
		f.Judge(t.view.limits("leak.sink.most", "leak.sink.want")...)
		f.Why = fmt.Sprintf("Most sunk in 12 h past the cold: %s, %s; %s of it by cold as read. A loaded spring keeps its pressure while it leaks, so corners are judged by height.", s.Name, s.Unexplained, s.ByCold)
		if f.Verdict == finding.Fail {
			f.Claim = s.Name + " leaks: pressure is set by weight, height tells."
			f.Least = "Find the leak on the " + CornerWords[worst] + " corner with soap, mend it, test again."
		}
		f.NotEvidence = t.staleHeights()
		if f.Verdict == finding.TooClose {
			f.Settle = "Read the heights again with a fixed pointer, ± 1 mm, or wait longer."
		}
	}
	t.add(f)
}

// staleHeights is why the heights are no evidence.
func (t *test) staleHeights() string {
	for i := range t.read {
		for _, name := range CornerNames {
			if s := staleOf(t.view.read(t.height(i, name), "", tape)); s != "" {
				return s
			}
		}
	}
	return ""
}

// sink works out one corner; what is missing comes back.
func (t *test) sink(k int, s *Sink) []finding.Gap {
	a := t.view.air[k/2]
	name := CornerNames[k]
	first, last := -1, -1
	for i := range t.read {
		if h := t.view.read(t.height(i, name), "h", tape); h.OK {
			if first < 0 {
				first = i
			}
			last = i
		}
	}
	if first < 0 || last == first {
		return []finding.Gap{{Path: t.path + ".readings", Label: name + ", hub to arch at the start and at the end", Why: "a loaded spring tells a leak only by its height"}}
	}
	if a == nil || a.part == nil {
		return []finding.Gap{{Path: "axles." + AxleNames[k/2] + ".spring", Label: upper(AxleNames[k/2]) + ", spring", Why: "gives the cold's part of a sink"}}
	}
	if need := gaps("gives the cold's part of a sink", a.volume, a.ratio, a.height); len(need) > 0 {
		return need
	}
	r0, r1 := t.read[first], t.read[last]
	p := t.view.out.Corners[k].Pressure[1]
	if !p.Known() {
		return t.view.missing(k, a)
	}
	ar, err := a.part.Area(q.GaugePressure(p.Value), a.height.Value)
	if err != nil {
		return []finding.Gap{{Path: "axles." + AxleNames[k/2] + ".springHeight", Label: err.Error(), Why: "gives the spring's area at work"}}
	}
	h0, h1 := t.view.read(t.height(first, name), "h", tape), t.view.read(t.height(last, name), "h", tape)
	w := func(i int) string { return t.reading(i, name).With }
	sunk, err := leak.Sink(leak.Spring{Volume: a.volume.Value, VolumeHalf: a.volume.Half, Area: ar.Value, AreaHalf: ar.Half, Ratio: a.ratio.Value, RatioHalf: a.ratio.Half, Pressure: q.GaugePressure(p.Value)},
		leak.Stand{Time: r1.At - r0.At, Before: leak.Height{Value: h0.Value, Half: h0.Half, Instrument: w(first)}, After: leak.Height{Value: h1.Value, Half: h1.Half, Instrument: w(last)},
			TempBefore: r0.Temperature, TempAfter: r1.Temperature, BaroBefore: r0.Barometer, BaroAfter: r1.Barometer})
	if err != nil {
		if errors.Is(err, leak.ErrNoTemperature) {
			return []finding.Gap{{Path: t.path + ".readings[" + t.rec.Readings[t.from[first]].ID + "].temperature", Label: t.rec.Title + ", temperatures at start and end", Why: "tells the cold from a leak"}}
		}
		return []finding.Gap{{Path: t.height(last, name), Label: name + ", heights: " + err.Error(), Why: "tells the cold from a leak"}}
	}
	s.Known, s.Start, s.End = true, h0.Number, h1.Number
	s.Sank, s.ByCold, s.Unexplained = mm(sunk.Sank, 0), mm(sunk.ByCold+sunk.ByBarometer, 0), mm(sunk.Unexplained12, sunk.Half12)
	t.sunk[k] = func() *trail { return t.sinking(k, first, last, sunk, t.view.area(a, ar)) }
	f := finding.Finding{Value: s.Unexplained}
	f.Judge(t.view.limits("leak.sink.most", "leak.sink.want")...)
	s.Verdict, s.Grade = f.Verdict, f.Grade
	return nil
}

// sinking is the working of a corner's sink past the cold, from what the engine
// found that each input does to it.
func (t *test) sinking(k, first, last int, r leak.Sunk, ar given) *trail {
	s, name, a := t.out.Corners[k], CornerNames[k], t.view.air[k/2]
	time := t.read[last].At - t.read[first].At
	at := [2]string{t.path + ".readings[" + t.rec.Readings[t.from[first]].ID + "]", t.path + ".readings[" + t.rec.Readings[t.from[last]].ID + "]"}
	both := t.read[first].Barometer.Read() && t.read[last].Barometer.Read()
	used := q.StandardAtmosphere
	for _, i := range []int{first, last} {
		if b := t.read[i].Barometer; b.Read() {
			used = b.Value
		}
	}
	var rule, thermo, baro []given
	for n, i := range []int{first, last} {
		no, words := strconv.Itoa(n+1), []string{"first", "last"}[n]
		rule = append(rule, t.view.read(t.height(i, name), "", tape).called("h_{"+no+"}", name+", hub to arch, "+words))
		thermo = append(thermo, t.thermometer(at[n], no, words, t.read[i].Temperature))
		value := used
		if both {
			value = t.read[i].Barometer.Value
		}
		baro = append(baro, t.barometer(at[n], no, words, t.read[i].Barometer, value, n == 1 && !both && r.Barometer))
	}
	in := append(append(append(rule, thermo...), baro...), a.volume.called("V", a.name+" spring, air at ROAD"), ar, a.ratio)
	tr := t.view.engine(s.Unexplained, scaled(r.Doubt, leak.Night/time), in...)
	tr.lead(
		finding.Line{Symbols: "e_{12} = (h_{1} − h_{2} − e_{cold}) × 12 h ÷ t", Numbers: fmt.Sprintf("(%s − %s − %s) × 12 ÷ %.1f h", s.Start, s.End, s.ByCold, time/3600), Result: s.Unexplained.String()},
		finding.Line{Symbols: "e_{cold} = {V (T_{1} − T_{2})}/{T_{1} A r} + {V (b_{2} − b_{1})}/{(p + b_{1}) A r}", Numbers: fmt.Sprintf("%s + %s", mm(r.ByCold, 0), mm(r.ByBarometer, 0)), Result: s.ByCold.String()})
	tr.step(finding.Term{Symbol: "p", Name: name + ", pressure in the spring", Value: t.view.out.Corners[k].Pressure[1], Mark: source.Derived})
	tr.note("Two heights with one rule, subtracted, carry its figure once.")
	return tr
}

func (t *test) height(i int, corner string) string {
	return t.path + ".readings[" + t.rec.Readings[t.from[i]].ID + "]." + corner
}

func (t *test) reading(i int, corner string) job.Reading {
	r := t.rec.Readings[t.from[i]]
	return map[string]job.Reading{"FL": r.FL, "FR": r.FR, "RL": r.RL, "RR": r.RR}[corner]
}

// relief judges the relief valve against the pressure at which the compressor
// stops.
func (t *test) relief() {
	f := finding.Finding{ID: "relief", Place: "tank", Claim: "The relief valve opens and shuts where it must.", Grade: finding.Stops, Source: source.CP}
	cut, lift, seat := t.view.read("air.cutOut", "", exact), t.view.read(t.path+".relief.lift", "", width{abs: 0.19e5}), t.view.read(t.path+".relief.reseat", "", width{abs: 0.19e5})
	if need := gaps("the tank's last guard", cut, lift, seat); len(need) > 0 {
		f.Verdict, f.Shown, f.Needs, f.Claim = finding.NotKnown, "not read", need, "Whether the relief valve opens and shuts where it must."
		t.add(f)
		return
	}
	gauge := func(g given, with string) leak.Gauge {
		return leak.Gauge{Value: q.GaugePressure(g.Value), Half: g.Half, Instrument: with}
	}
	r, err := leak.ReliefOf(leak.Gauge{Value: q.GaugePressure(cut.Value), Half: cut.Half, Instrument: "setting"}, gauge(lift, t.rec.Relief.Lift.With), gauge(seat, t.rec.Relief.Reseat.With))
	if err != nil {
		f.Verdict, f.Claim, f.Why, f.Shown = finding.NotKnown, "The relief valve's readings do not fit one valve.", upper(err.Error())+".", "read again"
		t.add(f)
		return
	}
	low, high, back := t.view.shop.Limit("relief.lift.least"), t.view.shop.Limit("relief.lift.most"), t.view.shop.Limit("relief.seat.least")
	for _, l := range []*finding.Limit{&low, &high} { // as pressures, as they are read on the gauge
		l.Kind, l.Unit, l.Value = q.KindPressure, t.view.shop.Unit(q.KindPressure), l.Value*cut.Value
	}
	f.Value, f.Working = lift.Number, t.relieved(r, cut, lift, seat)
	f.Judge(low, high)
	seats := finding.Compare(finding.Of(q.KindRatio, "", r.Reseat, r.ReseatHalf), back)
	if seats < f.Verdict {
		f.Verdict, f.Source = seats, back.Source
	}
	at := func(x float64) string { return plainNumber(t.pressure(x*cut.Value, 0)) }
	f.Why = fmt.Sprintf("Lifts at %s, wanted between %s and %s; seats again at %s, wanted above %s.", lift.Number, low.Text(), high.Text(), seat.Number, at(back.Value))
	if f.Verdict != finding.Pass {
		f.Claim, f.Least = "The relief valve does not open and shut where it must.", "Fit another relief valve, or set it, and read it again."
		if f.Verdict == finding.TooClose {
			f.Claim, f.Settle = "Whether the relief valve opens and shuts where it must.", "Read it again with a better gauge."
			if f.SettleAt = lift.Path; finding.Compare(lift.Number, low) != finding.TooClose && finding.Compare(lift.Number, high) != finding.TooClose {
				f.SettleAt = seat.Path
			}
		}
	}
	f.NotEvidence = staleOf(lift, seat)
	t.add(f)
}

// relieved is the working of the relief valve's two readings over cut-out.
func (t *test) relieved(r leak.Relief, cut, lift, seat given) *finding.Working {
	lift, cut, seat = lift.called("p_{lift}", "relief valve lifts"), cut.called("p_{cut}", "compressor's cut-out"), seat.called("p_{seat}", "relief valve seats again")
	tr := t.view.same(lift.Number, lift)
	if tr == nil {
		return nil
	}
	for _, g := range []given{cut, seat} {
		tr.also(g.term(0))
	}
	tr.lead(
		finding.Line{Symbols: "{p_{lift}}/{p_{cut}}", Numbers: fmt.Sprintf("%s ÷ %s", lift.Number, cut.Number), Result: finding.Of(q.KindRatio, "", r.Lift, r.LiftHalf).String()},
		finding.Line{Symbols: "{p_{seat}}/{p_{cut}}", Numbers: fmt.Sprintf("%s ÷ %s", seat.Number, cut.Number), Result: finding.Of(q.KindRatio, "", r.Reseat, r.ReseatHalf).String()})
	return tr.finding()
}

// joints judges the soap test.
func (t *test) joints() {
	f := finding.Finding{ID: "joints", Claim: "No bubble at any joint.", Grade: finding.Stops, Source: source.CP, Verdict: finding.NotKnown, Shown: "not read"}
	j := t.rec.Joints
	n, err1 := strconv.Atoi(strings.TrimSpace(j.Soaped))
	b, err2 := strconv.Atoi(strings.TrimSpace(j.Bubbles))
	for path, text := range map[string]string{".joints.soaped": j.Soaped, ".joints.bubbles": j.Bubbles} {
		if k, err := strconv.Atoi(strings.TrimSpace(text)); strings.TrimSpace(text) != "" && (err != nil || k < 0) {
			t.view.ask(t.path+path, text, fmt.Sprintf("%q is not a count; write the number of joints in figures, such as 26.", text))
		}
	}
	switch {
	case err1 != nil || n <= 0:
		f.Claim = "Whether the joints hold."
		f.Needs = append(f.Needs, finding.Gap{Path: t.path + ".joints.soaped", Label: t.rec.Title + ", joints soaped", Why: "shows where air goes"})
	case err2 != nil || b < 0:
		f.Claim = "Whether the joints hold."
		f.Needs = append(f.Needs, finding.Gap{Path: t.path + ".joints.bubbles", Label: t.rec.Title + ", joints with bubbles", Why: "shows where air goes"})
	case b > n:
		f.Claim, f.Why = "Whether the joints hold.", fmt.Sprintf("%d joints with bubbles of %d soaped cannot be.", b, n)
		f.Needs = append(f.Needs, finding.Gap{Path: t.path + ".joints.bubbles", Label: t.rec.Title + ", joints with bubbles", Why: "shows where air goes"})
	case b > 0:
		f.Verdict, f.Shown = finding.Fail, fmt.Sprintf("%d of %d", b, n)
		f.Claim = fmt.Sprintf("Bubbles at %d of %d joints.", b, n)
		f.Why, f.Least = strings.TrimSpace(j.Where), "Vent, mend the joint, soap it again for 60 seconds."
		if f.Why != "" {
			f.Why = "At " + f.Why + "."
		}
	default:
		f.Verdict, f.Shown = finding.Pass, fmt.Sprintf("0 of %d", n)
		f.Claim = fmt.Sprintf("No bubble at any of %d joints.", n)
		f.Why = "Soaped 60 s each"
		if j.Steps != "" {
			f.Why += " at " + j.Steps
		}
		if j.By != "" {
			f.Why += ", " + j.By
		}
		f.Why += "."
	}
	t.add(f)
}

// isolation refuses a clamped tube.
func (t *test) isolation() {
	if t.rec.Isolation != "tube clamped" {
		return
	}
	t.add(finding.Finding{ID: "isolation", Claim: "A clamped tube is no isolation.", Verdict: finding.Fail, Grade: finding.Stops, Shown: "refused", Source: "S1",
		Why: "The safety alert says so: isolate by disconnecting the line.", Least: "Vent, disconnect the line, cap both ends, test again."})
}
