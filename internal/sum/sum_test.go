package sum

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"jounce/internal/catalog"
	"jounce/internal/finding"
	"jounce/num/doubt"
	"jounce/quantity"
	"jounce/source"
	"jounce/spring"
)

// with is an example with some values changed; an empty text takes one away.
func with(name string, change ...string) (Answer, []Problem) {
	s, ok := Find(name)
	if !ok {
		panic("no sum " + name)
	}
	return s.Ask(changed(s.Example, change...), false)
}

func changed(base map[string]string, change ...string) map[string]string {
	values := map[string]string{}
	for k, v := range base {
		values[k] = v
	}
	for i := 0; i+1 < len(change); i += 2 {
		values[change[i]] = change[i+1]
	}
	return values
}

func answer(t *testing.T, name string, change ...string) Answer {
	t.Helper()
	a, problems := with(name, change...)
	if len(problems) > 0 {
		t.Fatalf("%s: %v", name, problems)
	}
	return a
}

// output is a number by its name.
func (a Answer) output(t *testing.T, name string) finding.Number {
	t.Helper()
	for _, o := range a.Outputs {
		if o.Name == name {
			return o.Value
		}
	}
	t.Fatalf("%s: no output %q", a.Name, name)
	return finding.Number{}
}

func in3(t *testing.T, what string, n finding.Number, want, tolerance float64) {
	t.Helper()
	if got := n.Unit.FromSI(n.Value); !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %g %s, want %g ± %g", what, got, n.Unit, want, tolerance)
	}
}

func verdict(t *testing.T, a Answer, v finding.Verdict, g finding.Grade) {
	t.Helper()
	if a.Verdict == nil || *a.Verdict != v || v != finding.Pass && a.Limit.Grade != g {
		t.Errorf("%s: verdict %v against %v, want %v, %v; %s", a.Name, a.Verdict, a.Limit, v, g, a.Big())
	}
	if a.Verdict != nil && v == finding.Fail && (a.Limit.Source == "" || a.Least == "" && len(a.Says) == 0) {
		t.Errorf("%s: a fail without its source or its way out", a.Name)
	}
}

func TestEverySumDescribesItself(t *testing.T) {
	names := map[string]bool{}
	for _, s := range All() {
		if names[s.Name] {
			t.Errorf("%s is there twice", s.Name)
		}
		names[s.Name] = true
		if s.Question == "" || !strings.HasSuffix(s.Question, "?") || len(s.Words) < 3 || len(s.Source) == 0 || len(s.Outputs) == 0 || len(s.Example) == 0 {
			t.Errorf("%s does not describe itself", s.Name)
		}
		for _, m := range s.Source {
			if !m.Known() {
				t.Errorf("%s: source %q is not known", s.Name, m)
			}
		}
		keys := map[string]bool{}
		for _, in := range s.Inputs {
			if keys[in.Key] || in.Key != strings.ToLower(in.Key) || in.Label == "" || in.Where == "" && len(in.Choices) == 0 {
				t.Errorf("%s, %s: a key twice, or no label, or no place", s.Name, in.Key)
			}
			keys[in.Key] = true
			if in.Default != "" && !in.Mark.Known() {
				t.Errorf("%s, %s: a default without a mark", s.Name, in.Key)
			}
		}
	}
	if len(All()) != len(list) {
		t.Errorf("%d of %d sums are in a group", len(All()), len(list))
	}
}

func TestEverySumAnswersItsExample(t *testing.T) {
	for _, s := range All() {
		a, problems := s.Ask(s.Example, false)
		if len(problems) > 0 {
			t.Errorf("%s: %v", s.Name, problems)
			continue
		}
		text := a.Text(80)
		for _, l := range strings.Split(text, "\n") {
			if n := len([]rune(l)); n > 80 && strings.Count(strings.TrimSpace(l), " ") > 0 {
				t.Errorf("%s: a line of %d characters: %s", s.Name, n, l)
			}
		}
		if strings.ContainsAny(text, "!{}") || strings.Contains(text, "not known") || strings.Contains(text, "NaN") {
			t.Errorf("%s:\n%s", s.Name, text)
		}
		b, err := json.Marshal(a)
		if err != nil || !json.Valid(b) || !strings.Contains(string(b), `"question"`) {
			t.Errorf("%s: %v", s.Name, err)
		}
		if b, err := json.Marshal(s); err != nil || !strings.Contains(string(b), `"inputs"`) {
			t.Errorf("%s: %v", s.Name, err)
		}
		if a.Working == nil || len(a.Working.Lines) == 0 {
			t.Errorf("%s: no working", s.Name)
		}
	}
}

func TestSearchTakesSlangAndUnits(t *testing.T) {
	for words, want := range map[string]string{"psi bag": "spring-pressure", "speedo": "tyre-swap", "turret": "mount-load", "tire": "tyre", "overnight leak": "leak",
		"blow-down": "empty-time", "warp": "flat-plane", "guard band": "sure", "passengers": "people", "wedge": "corners", "altitude": "air-at-height"} {
		found := false
		for _, s := range Search(words) {
			found = found || s.Name == want
		}
		if !found {
			t.Errorf("%q does not find %s", words, want)
		}
	}
	if len(Search("")) != len(All()) || len(Search("zeppelin")) != 0 {
		t.Error("no words list all, unknown words none")
	}
}

func TestNothingIsAssumed(t *testing.T) {
	for _, c := range []struct{ sum, key, text, says string }{
		{"leak", "volume", "", "Air in the tank"},
		{"leak", "start", "100", "100 psi"},
		{"leak", "colour", "red", "does not ask for it"},
		{"leak", "end-temperature", "", "cannot judge"},
		{"leak", "end-temperature", "68", "°"},
		{"leak", "volume", "10 kg", "mass"},
		{"spring-pressure", "ratio", "", "Spring travel over wheel travel"},
		{"spring-pressure", "area", "", "effective area"},
		{"spring-pressure", "weight", "6.4 t", "outside"},
		{"spring-rate", "kind", "cushion", "sleeve, bellows"},
		{"people", "rear-place", "", "without its place"},
		{"corners", "rr", "-12 kg", ""},
		{"tyre", "size", "640-13", "6.40-13"},
		{"flow", "after", "12 bar", "Exchange"},
		{"convert", "to", "furlong", "furlong"},
		{"convert", "value", "3", "unit"},
		{"sure", "limit", "10 kg", "length"},
		{"bump-peak", "after", "1.2 L", "Exchange"},
	} {
		_, problems := with(c.sum, c.key, c.text)
		if len(problems) == 0 {
			t.Errorf("%s %s=%q is answered", c.sum, c.key, c.text)
			continue
		}
		if !strings.Contains(problems[0].Error(), c.says) {
			t.Errorf("%s %s=%q: %q does not speak of %q", c.sum, c.key, c.text, problems[0].Error(), c.says)
		}
	}
}

func TestBoxThatShowsItsUnitTakesABareNumber(t *testing.T) {
	s, _ := Find("spring-pressure")
	bare := map[string]string{"weight": "276", "unsprung": "32", "ratio": "0.97", "area": "70"}
	if _, p := s.Ask(bare, false); len(p) != 3 {
		t.Errorf("bare numbers without a box: %v", p)
	}
	a, p := s.Ask(bare, true)
	if len(p) > 0 {
		t.Fatal(p)
	}
	b, _ := s.Ask(s.Example, false)
	if a.Text(80) != b.Text(80) {
		t.Error("a bare number in its box is not the same reading")
	}
	pounds := catalog.NewShop("")
	pounds.Pressure, pounds.Mass = "psi", "lb"
	bare["weight"], bare["unsprung"] = "608.48", "70.55"
	a, p = s.AskIn(pounds, bare, true)
	if len(p) > 0 || a.Headline.Unit.Name() != "psi" || a.Also.Unit.Name() != "bar" {
		t.Fatalf("%v %v", p, a.Headline)
	}
	in3(t, "pressure", a.Headline, 51.1, 0.1)
}

func TestScenario16To18TyreSizes(t *testing.T) {
	in3(t, "185/70R14", answer(t, "tyre", "size", "185/70R14", "axle", "").Headline, 614.6, 0.05)
	full := answer(t, "tyre", "size", "185R14", "axle", "")
	in3(t, "185R14", full.Headline, 655.5, 3.6) // 652 to 659
	inch := answer(t, "tyre", "size", "6.40-13", "axle", "")
	in3(t, "6.40-13", inch.Headline, 639, 0.5)
	if !strings.Contains(inch.Text(200), "measure it") || !strings.Contains(inch.Text(200), "radial") {
		t.Errorf("6.40-13:\n%s", inch.Text(200))
	}
	swap := answer(t, "tyre-swap", "was", "185/70R14", "now", "185R14", "part", "")
	in3(t, "growth", swap.output(t, "Diameter, change"), 7.2, 0.05)
	verdict(t, swap, finding.Fail, finding.OwnerSigns)
}

func TestScenario20LoadIndex(t *testing.T) {
	a := answer(t, "tyre", "size", "185/70R13 75S", "axle", "820 kg")
	verdict(t, a, finding.Fail, finding.Stops)
	in3(t, "two tyres", a.output(t, "Load that two may carry"), 774, 0)
}

func TestScenario21TyreSwap(t *testing.T) {
	a := answer(t, "tyre-swap")
	in3(t, "body", a.output(t, "Body rises by"), -6.3, 0.05)
	in3(t, "line was", a.output(t, "Rim-to-rim line was"), 99, 0.5)
	in3(t, "line is", a.output(t, "Rim-to-rim line is"), 67, 0.5)
	in3(t, "speedometer", a.output(t, "Speedometer reads higher by"), 2.3, 0.05)
	if !strings.Contains(a.Text(200), "between 67\u00a0mm and 99\u00a0mm") {
		t.Errorf("no list of parts:\n%s", a.Text(200))
	}
}

func TestScenario23FrontPressure(t *testing.T) {
	a := answer(t, "spring-pressure")
	in3(t, "front", a.Headline, 3.5, 0.05)
	in3(t, "psi", a.Also, 51, 0.5)
	lo, hi := (a.Headline.Value-a.Headline.Half)/1e5, (a.Headline.Value+a.Headline.Half)/1e5
	if math.Abs(lo-3.3) > 0.05 || math.Abs(hi-3.7) > 0.05 {
		t.Errorf("95 %%: %.3f to %.3f bar, want about 3.3 to 3.7", lo, hi)
	}
	verdict(t, a, finding.Pass, 0)
}

func TestScenario24RearPressure(t *testing.T) {
	rear := []string{"weight", "234 kg", "unsprung", "28 kg", "ratio", "0.62", "area", "95 cm²"}
	in3(t, "rear", answer(t, "spring-pressure", rear...).Headline, 3.4, 0.05)
	rear[1] = "309 kg"
	in3(t, "laden", answer(t, "spring-pressure", rear...).Headline, 4.7, 0.05)
}

func TestScenario25RatioTurnedOver(t *testing.T) {
	_, problems := with("spring-pressure", "ratio", "1.62")
	if len(problems) != 1 || !strings.Contains(problems[0].Error(), "0.62") {
		t.Errorf("%v", problems)
	}
}

func TestScenario27And28TooLargeAndTooSmall(t *testing.T) {
	verdict(t, answer(t, "spring-pressure", "weight", "110 kg ± 1 kg", "unsprung", "32 kg ± 1 kg"), finding.Fail, finding.Stops)
	// 7.4 bar on 95 cm² is 7,030 N.
	a := answer(t, "spring-pressure", "weight", "472.46 kg", "unsprung", "28 kg ± 1 kg", "ratio", "0.62", "area", "95 cm²", "maximum", "7 bar")
	in3(t, "needed", a.Headline, 7.4, 0.05)
	verdict(t, a, finding.Fail, finding.Stops)
	if !strings.Contains(a.Least, "143\u00a0cm²") && !strings.Contains(a.Least, "144\u00a0cm²") || !strings.Contains(a.Least, "4.9\u00a0bar") {
		t.Errorf("way out: %s", a.Least)
	}
}

func TestScenario29BumpPeak(t *testing.T) {
	a := answer(t, "bump-peak")
	in3(t, "peak", a.Headline, 9.3, 0.05)
	verdict(t, a, finding.Fail, finding.Stops)
	if !strings.Contains(a.Least, "earlier stop") || !strings.Contains(a.Least, "volume") {
		t.Errorf("way out: %s", a.Least)
	}
}

func TestScenario49LeakOrCold(t *testing.T) {
	pass := answer(t, "leak", "end", "9.55 bar")
	verdict(t, pass, finding.Pass, 0)
	in3(t, "cold alone", pass.output(t, "What the cold alone would leave"), 9.55, 0.005)
	fail := answer(t, "leak")
	verdict(t, fail, finding.Fail, finding.Stops)
	in3(t, "lost", fail.Headline, 0.35, 0.005)
	in3(t, "doubt", finding.Number{Value: fail.Headline.Half, Unit: fail.Headline.Unit}, 0.04, 0.005)
	if !strings.Contains(fail.Text(200), "4.8 mL") {
		t.Errorf("no 4.8 mL a minute:\n%s", fail.Text(200))
	}
}

func TestScenario10CoarseGauge(t *testing.T) {
	a := answer(t, "leak", "end-temperature", "20 °C", "end", "9.90 bar", "gauge", "0.19 bar")
	verdict(t, a, finding.TooClose, finding.OwnerSigns)
	if !strings.Contains(a.Least, "Cannot prove pass or fail with this gauge") {
		t.Errorf("says %s", a.Least)
	}
}

func TestScenario50HeightTells(t *testing.T) {
	a := answer(t, "cold-drop", "now", "20 °C", "is", "342 mm")
	verdict(t, a, finding.Fail, finding.Stops)
	in3(t, "unexplained", a.Headline, 18, 1e-6)
	if !strings.Contains(strings.Join(a.Says, " "), "only the height tells") {
		t.Errorf("%v", a.Says)
	}
	if _, p := with("leak", "vessel", "spring"); len(p) != 1 || !strings.Contains(p[0].Says, "height") {
		t.Errorf("a spring by its pressure: %v", p)
	}
}

func TestScenario51SinkByCold(t *testing.T) {
	a := answer(t, "cold-drop")
	verdict(t, a, finding.TooClose, finding.Note)
	in3(t, "front by cold", a.output(t, "By the cold alone"), 6, 0.5)
	in3(t, "left", a.Headline, 3, 0.5)
	if !strings.Contains(a.Least, "fixed pointer") {
		t.Errorf("says %s", a.Least)
	}
	fail := answer(t, "cold-drop", "is", "340 mm")
	verdict(t, fail, finding.Fail, finding.Stops)
	in3(t, "left", fail.Headline, 14, 0.5)
	rear := answer(t, "cold-drop", "volume", "1.2 L", "area", "95 cm²", "ratio", "0.62")
	verdict(t, rear, finding.Pass, 0)
	in3(t, "rear by cold", rear.output(t, "By the cold alone"), 8, 0.5)
}

func TestScenario53AboveRelief(t *testing.T) {
	_, problems := with("leak", "relief", "9 bar")
	if len(problems) != 1 || !strings.Contains(problems[0].Says, "no pneumatic over-pressure test") {
		t.Errorf("%v", problems)
	}
}

func TestScenario8FlatPlane(t *testing.T) {
	a := answer(t, "flat-plane")
	in3(t, "residual", a.Headline, 12, 1e-9)
	verdict(t, a, finding.Fail, finding.Stops)
	if !strings.Contains(a.Text(300), "RL and RR again first: they differ by 13\u00a0mm, the others by 1\u00a0mm") {
		t.Errorf("says\n%s", a.Text(300))
	}
}

func TestScenario3And4Corners(t *testing.T) {
	derived := answer(t, "corners", "rr", "")
	if o := derived.Outputs[len(derived.Outputs)-1]; o.Mark != source.Derived {
		t.Errorf("not derived: %v", o)
	} else {
		in3(t, "derived", o.Value, 234, 1e-9)
	}
	if _, problems := with("corners", "rr", "", "total", ""); len(problems) == 0 {
		t.Error("a missing corner without a total is answered")
	}
	apart := answer(t, "corners", "total", "1065 kg")
	in3(t, "apart", apart.output(t, "Corners against the ticket"), 4.4, 0.05)
	verdict(t, apart, finding.TooClose, finding.Stops) // 4.4 ± 1.0 % against 5 %
	if !strings.Contains(apart.Text(300), "fuel, driver") {
		t.Errorf("says\n%s", apart.Text(300))
	}
}

func TestScenario32ReadingQuality(t *testing.T) {
	for _, c := range []struct {
		reading, half string
		want          finding.Verdict
	}{{"12 mm", "4 mm", finding.TooClose}, {"12 mm", "1 mm", finding.Pass}, {"8 mm", "1 mm", finding.Fail}} {
		verdict(t, answer(t, "sure", "reading", c.reading, "instrument", c.half), c.want, finding.Note)
	}
	in3(t, "to be sure", answer(t, "sure").output(t, "Read this to be sure"), 14, 1e-9)
	both := answer(t, "sure", "instrument", "3 mm", "placing", "4 mm")
	in3(t, "together", finding.Number{Value: both.Headline.Half, Unit: both.Headline.Unit}, 5, 1e-9)
}

func TestScenario11OutOfDate(t *testing.T) {
	a := answer(t, "sure", "read-on", "2026-09-02", "due", "2026-09-01")
	if !strings.Contains(strings.Join(a.Says, " "), "Not evidence") {
		t.Errorf("%v", a.Says)
	}
}

func TestScenario91RearSofterThanFront(t *testing.T) {
	a := answer(t, "ride")
	in3(t, "rear", a.Headline, 1.48, 0.005)
	in3(t, "against the front", a.output(t, "Rear above the front"), -15, 0.6)
	verdict(t, a, finding.Fail, finding.OwnerSigns)
	front := answer(t, "ride", "weight", "276 kg", "unsprung", "32 kg", "ratio", "0.97", "area", "70 cm²", "volume", "1.0 L", "front", "")
	in3(t, "front", front.Headline, 1.73, 0.005)
	in3(t, "front rate", answer(t, "spring-rate", "pressure", "3.524 bar").Headline, 30.7, 0.05)
}

func TestScenario92MountLoad(t *testing.T) {
	a := answer(t, "mount-load")
	in3(t, "standing", a.output(t, "Standing, on the mounting"), 3.26, 0.005)
	in3(t, "bump", a.Headline, 9.8, 0.05)
	verdict(t, a, finding.NotKnown, finding.Stops)
	verdict(t, answer(t, "mount-load", "before", "4 kN"), finding.Fail, finding.Stops)
}

// foreign are the units in which the same readings are typed again.
var foreign = map[quantity.Kind]string{
	quantity.KindPressure: "psi", quantity.KindAbsPressure: "psi a", quantity.KindLength: "in", quantity.KindMass: "lb", quantity.KindForce: "lbf",
	quantity.KindTemperature: "°F", quantity.KindVolume: "in³", quantity.KindArea: "in²", quantity.KindTime: "min",
}

func TestScenario95SameReadingsInOtherUnits(t *testing.T) {
	tried := 0
	for _, s := range All() {
		if s.Name == "convert" || s.Name == "sure" { // answered in the unit typed
			continue
		}
		other := map[string]string{}
		for k, text := range s.Example {
			other[k] = text
			in, _ := s.Input(k)
			name, ok := foreign[in.Kind]
			if !ok {
				continue
			}
			u := unit(in.Kind, name)
			other[k] = strconv.FormatFloat(u.FromSI(quantity.MustParse(in.Kind, text).SI()), 'f', 13, 64) + " " + name
			tried++
		}
		a, p := s.Ask(s.Example, false)
		b, q := s.Ask(other, false)
		if len(p)+len(q) > 0 {
			t.Errorf("%s: %v %v", s.Name, p, q)
			continue
		}
		if x, y := a.Text(100), b.Text(100); x != y {
			t.Errorf("%s differs:\n%s\n---\n%s", s.Name, x, y)
		}
	}
	if tried < 50 {
		t.Errorf("only %d readings were typed again", tried)
	}
}

func TestPublishedHandbookAir(t *testing.T) {
	// Trade handbook, B15 and B26.
	in3(t, "10 L at 10 bar", answer(t, "tank-energy").Headline, 14, 0.5)
	in3(t, "19 L at 12 bar", answer(t, "tank-energy", "volume", "19 L", "pressure", "12 bar").Headline, 32, 0.5)
	in3(t, "10 bar from 20 to 8 °C", answer(t, "gauge-tomorrow").Headline, 9.55, 0.005)
	// Trade handbook, 1.3: bump 68, droop 45 mm at the wheel.
	in3(t, "bump", answer(t, "travel").output(t, "Bump left"), 68, 0.5)
	in3(t, "droop", answer(t, "travel").output(t, "Droop left"), 45, 0.5)
	// ISO 2533: 226.99 hPa at the tropopause, 11 000 m; 845.56 hPa at 1500 m, both geopotential.
	in3(t, "1500 m", answer(t, "air-at-height", "height", "1500.354 m").Headline, 845.56, 0.05)
}

func TestExactChokedFill(t *testing.T) {
	// While the flow is choked t = V (p2 − p1)/(C ps p0): 1 L by 1 bar at 10 bar
	// absolute through 1 dm³/(s·bar) is 0.1 s at 20 °C.
	a := answer(t, "fill-time", "volume", "1 L", "from", "0 bar", "to", "1 bar", "supply", "9 bar", "c", "1 dm³/(s·bar)", "b", "0.4", "barometer", "1000 mbar", "temperature", "20 °C")
	in3(t, "fill", a.Headline, 0.1, 1e-6)
	// And it empties as e^(−t/τ), τ = V/(C p0) = 1 s: from 10 to 5 bar absolute.
	a = answer(t, "empty-time", "volume", "1 L", "from", "9 bar", "to", "4 bar", "c", "1 dm³/(s·bar)", "b", "0.3", "barometer", "1000 mbar", "temperature", "20 °C")
	in3(t, "empty", a.Headline, math.Ln2, 1e-6)
	// Side by side two like valves pass twice as much.
	one := answer(t, "flow", "b", "0.35")
	two := answer(t, "flow-chain", "arrangement", sideBySide, "c1", "1.2 dm³/(s·bar)", "c2", "1.2 dm³/(s·bar)", "b1", "0.35", "b2", "0.35")
	if r := two.Headline.Value / one.Headline.Value; math.Abs(r-2) > 1e-9 {
		t.Errorf("two valves pass %g times one", r)
	}
}

func TestExactConversions(t *testing.T) {
	for _, c := range []struct{ value, to, want string }{
		{"3 bar", "psi", "43.511\u00a0psi"}, {"1 in", "mm", "25.400\u00a0mm"}, {"68 °F", "°C", "20.000\u00a0°C"}, {"1 st", "lb", "14.000\u00a0lb"},
		{"100 ft·lbf", "N·m", "135.58\u00a0N·m"}, {"1 gal UK", "L", "4.5461\u00a0L"}, {"90 min", "h", "1.5000\u00a0h"}, {"10 °C", "K", "283.15\u00a0K"},
	} {
		if got := answer(t, "convert", "value", c.value, "to", c.to).Big(); got != c.want {
			t.Errorf("%s in %s: %s, want %s", c.value, c.to, got, c.want)
		}
	}
	// Gauge and absolute pressures are the barometer apart.
	in3(t, "3 bar", answer(t, "convert", "to", "bar a", "barometer", "1000 mbar").Headline, 4, 1e-12)
	in3(t, "4 bar a", answer(t, "convert", "value", "4 bar a", "to", "bar g", "barometer", "1000 mbar").Headline, 3, 1e-12)
	if _, p := with("convert", "value", "25 L/min ANR", "to", "scfm"); len(p) != 1 || len(p[0].Answers) != 3 {
		t.Errorf("scfm: %v", p)
	}
	if a := answer(t, "convert", "to", ""); len(a.Outputs) < 5 {
		t.Errorf("without a unit it lists %d", len(a.Outputs))
	}
}

// The linear doubts of every sum are those of random draws.
func TestAgreesLinearWithRandomDraws(t *testing.T) {
	for _, s := range All() {
		s.ask(catalog.NewShop(""), s.Example, false, func(f doubt.Func, in []doubt.Input, r doubt.Result) {
			if r.Half == 0 {
				return
			}
			m, err := doubt.MonteCarlo(f, in, 1500, 7)
			if err != nil {
				t.Errorf("%s: %v", s.Name, err)
				return
			}
			// 1500 draws know a half-width to 2 % (one sigma); a curved or
			// kinked calculation differs by its curvature, told apart here.
			tolerance := 0.08
			switch s.Name {
			case "corners": // heavier over lighter has a kink where both are equal
				if r.Value == 0 {
					return
				}
			case "flow", "flow-chain": // at the edge of choking the share stays at 1
				tolerance = 0.15
			}
			if math.Abs(m.Half/r.Half-1) > tolerance {
				t.Errorf("%s: linear ± %g, drawn ± %g at %g", s.Name, r.Half, m.Half, r.Value)
			}
		})
	}
}

func TestAgreesWithTheLeakEngine(t *testing.T) {
	// The engine counts one instrument once; so must the sum.
	a := answer(t, "leak", "barometer", "", "barometer-end", "")
	half := doubt.Combine(0.04, 11.013*0.5/293.15, 0.02)
	if got := a.Headline.Half / 1e5; math.Abs(got-half) > 0.0005 {
		t.Errorf("± %.4f bar, want %.4f", got, half)
	}
}

func TestAgreesWithTheSpringEngine(t *testing.T) {
	// The ± of the ride frequency is the engine's own.
	s, err := spring.New(spring.Data{Kind: spring.Sleeve, Points: []spring.Point{{Pressure: 1e5, Height: 0.2, Load: 950}}, Volumes: []spring.VolumePoint{{Height: 0.2, Volume: 1.2e-3}}})
	if err != nil {
		t.Fatal(err)
	}
	r, err := s.Ride(spring.NewCorner(234, 28, 0.62), 0.2, spring.Moving, 101300)
	if err != nil {
		t.Fatal(err)
	}
	f := answer(t, "ride", "barometer", "1013 mbar ± 0.001 mbar").Headline
	if math.Abs(f.Value-r.Frequency) > 1e-9 || math.Abs(f.Half/r.FrequencyHalf-1) > 0.01 {
		t.Errorf("%g ± %g Hz, the engine says %g ± %g", f.Value, f.Half, r.Frequency, r.FrequencyHalf)
	}
}

// plausible is a random text for an input: mostly in range, sometimes absent,
// sometimes nonsense.
func plausible(r *rand.Rand, in Input) string {
	switch k := r.IntN(20); {
	case k == 0 || in.Optional && k < 8:
		return ""
	case k == 1:
		return []string{"nonsense", "-3", "0", "1e300 bar", "∞", "12 kg", "{", "±", "1.250 kg"}[r.IntN(9)]
	}
	switch {
	case len(in.Choices) > 0:
		return in.Choices[r.IntN(len(in.Choices))]
	case in.Any:
		return []string{"12 mm", "4 mm", "3 bar", "20 °C ± 1 K", "0.5 K", "10 mm", "6 kg"}[r.IntN(7)]
	case !in.Quantity():
		return []string{"185/70R13 75S", "6.40-13", "185R14", "31x10.50R15", "G78-15", "psi", "mm", "2026-01-31"}[r.IntN(8)]
	}
	x := in.Least + (in.Most-in.Least)*math.Pow(r.Float64(), 3)
	s := strconv.FormatFloat(x, 'f', 5, 64) + " " + in.Unit.Name()
	if r.IntN(4) == 0 {
		s += " ± " + strconv.FormatFloat((in.Most-in.Least)*0.01*r.Float64(), 'f', 6, 64) + " " + widthName(in)
	}
	return strings.TrimSpace(s)
}

func widthName(in Input) string {
	if in.Kind == quantity.KindTemperature {
		return "K"
	}
	return in.Unit.Name()
}

func TestNeverPanicsOnPlausibleInputs(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for _, s := range All() {
		answered := 0
		for range 400 {
			values := map[string]string{}
			for _, in := range s.Inputs {
				values[in.Key] = plausible(r, in)
			}
			a, problems := s.Ask(values, r.IntN(2) == 0)
			if len(problems) > 0 {
				for _, p := range problems {
					if strings.TrimSpace(p.Says) == "" {
						t.Fatalf("%s: an empty problem for %v", s.Name, values)
					}
				}
				continue
			}
			answered++
			if n := a.Headline; math.IsNaN(n.Value) || math.IsInf(n.Value, 0) || math.IsNaN(n.Half) {
				t.Fatalf("%s: %v for %v", s.Name, n, values)
			}
			if a.Text(60) == "" {
				t.Fatal("no text")
			}
			if _, err := json.Marshal(a); err != nil {
				t.Fatalf("%s: %v for %v", s.Name, err, values)
			}
		}
		if answered == 0 {
			t.Errorf("%s: none of the inputs was answered", s.Name)
		}
	}
}

func FuzzAsk(f *testing.F) {
	f.Add("leak", "start", "10 bar")
	f.Add("tyre", "size", "185/70R14")
	f.Add("convert", "value", "3 1/2 in ± 1/16 in")
	f.Fuzz(func(t *testing.T, name, key, text string) {
		s, ok := Find(name)
		if !ok {
			return
		}
		a, problems := s.Ask(changed(s.Example, key, text), len(text)%2 == 0)
		if len(problems) == 0 && (a.Text(80) == "" || math.IsNaN(a.Headline.Value)) {
			t.Errorf("%s %s=%q: %v", name, key, text, a.Headline)
		}
	})
}
