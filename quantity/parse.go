package quantity

import (
	"math"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Parse reads a value of a kind as it stands in a file, in a sum or in a box
// that shows no unit: a bare number is a question. The error is a *Question
// when the text has several meanings and a *Problem when it has none.
func Parse(kind Kind, text string) (Value, error) { return ParseIn(kind, text, Unit{}) }

// ParseIn reads a value typed into a box that shows its unit: a bare number
// has that unit, and a flow without its state has the state of that unit. A
// shown unit that is zero or of another kind counts as none shown.
func ParseIn(kind Kind, text string, shown Unit) (Value, error) {
	p := parser{kind: kind, text: text}
	if shown.Kind() == kind {
		p.shown = shown
	}
	return p.parse()
}

// MustParse is Parse for texts that are part of the program. It panics when
// the text cannot be read.
func MustParse(kind Kind, text string) Value {
	v, err := Parse(kind, text)
	if err != nil {
		panic("quantity: " + err.Error())
	}
	return v
}

// parser reads one text.
type parser struct {
	kind  Kind
	text  string
	read  string // the text before anything was taken from the box
	shown Unit
	depth int // of answers tried out
}

// typed is the text without what was taken from the box.
func (p *parser) typed() string {
	if p.read != "" {
		return p.read
	}
	return p.text
}

// reading is a text taken apart.
type reading struct {
	form form
	a, b term
}

// term is one number with its unit.
type term struct {
	fig      figure
	units    []Unit // meanings of the typed unit; none when no unit was typed
	typed    string // the unit as typed
	flow     string // name of a flow typed without its state
	states   []string
	percent  bool // "%" behind a doubt
	ofValue  bool // "% of value" behind a doubt
	from, to int  // where it stands in the text, without spaces around it
}

func (p *parser) parse() (Value, error) {
	if err := p.guard(); err != nil {
		return Value{}, err
	}
	r, err := p.takeApart()
	if err != nil {
		return Value{}, err
	}
	if err := p.settleUnits(&r); err != nil {
		return Value{}, err
	}
	if err := p.settleThousands(r); err != nil {
		return Value{}, err
	}
	return p.value(r)
}

// guard refuses what is not even a short line of text.
func (p *parser) guard() error {
	switch {
	case p.kind <= KindNone || p.kind >= kindCount:
		return p.bad("the kind of quantity is not known", "Say what is measured.")
	case len(p.text) > longest:
		return p.bad("the text is longer than 200 bytes", "")
	case !utf8.ValidString(p.text):
		return p.bad("the text is not UTF-8", "")
	}
	blank := true
	for _, r := range p.text {
		if !shown(r) {
			return p.bad("the text holds a character that cannot be seen", "Type it again by hand.")
		}
		blank = blank && unicode.Is(unicode.Zs, r)
	}
	if blank {
		return p.bad("nothing is typed", "")
	}
	return nil
}

func (p *parser) bad(fault, fix string) error { return problem(p.kind, p.typed(), fault, fix) }

var doubtMarks = []string{"±", "+/-", "+/\u2212", "+-", "+\u2212"}

// takeApart finds the form of the text and reads its one or two terms.
func (p *parser) takeApart() (r reading, err error) {
	from := 0
	at, size := -1, 0
	for _, mark := range doubtMarks {
		if i := strings.Index(p.text, mark); i >= 0 && (at < 0 || i < at) {
			at, size = i, len(mark)
		}
	}
	if at >= 0 {
		r.form = pm
	} else {
		from = rangeWord(p.text)
		if at, size = rangeMark(p.text, from); at >= 0 {
			r.form = span
		} else if from > 0 {
			return r, p.bad("a range has two ends", "Type it as 3.3 to 3.7 with its unit.")
		}
	}
	if r.form == plain {
		r.a, err = p.term(from, len(p.text), false)
		return r, err
	}
	if r.a, err = p.term(from, at, false); err != nil {
		return r, err
	}
	r.b, err = p.term(at+size, len(p.text), r.form == pm)
	return r, err
}

// rangeWord is where the text goes on behind a leading "range".
func rangeWord(s string) int {
	const word = "range"
	i := 0
	for i < len(s) && s[i] == ' ' {
		i++
	}
	if len(s)-i > len(word) && strings.EqualFold(s[i:i+len(word)], word) && !isLetter(s[i+len(word):]) {
		return i + len(word)
	}
	return 0
}

func isLetter(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return unicode.IsLetter(r)
}

// rangeMark finds what parts the ends of a range: "..", "…", "to" between
// spaces, or a dash (U+2013) with a number on each side.
func rangeMark(s string, from int) (at, size int) {
	for _, mark := range []string{"...", "..", "…"} {
		if i := strings.Index(s[from:], mark); i >= 0 {
			return from + i, len(mark)
		}
	}
	started := false // something stands before the mark
	for i := from; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		if r == '–' && started {
			return i, n
		}
		if unicode.Is(unicode.Zs, r) && started && len(s) > i+n+2 && strings.EqualFold(s[i+n:i+n+2], "to") {
			if next, _ := utf8.DecodeRuneInString(s[i+n+2:]); unicode.Is(unicode.Zs, next) {
				return i + n, 2
			}
		}
		started = started || !unicode.Is(unicode.Zs, r)
		i += n
	}
	return -1, 0
}

// term reads text[from:to].
func (p *parser) term(from, to int, doubt bool) (t term, err error) {
	raw := p.text[from:to]
	t.from = to - len(strings.TrimLeftFunc(raw, unicode.IsSpace))
	t.to = max(t.from, from+len(strings.TrimRightFunc(raw, unicode.IsSpace)))
	s := squeeze(raw)
	fig, rest, fault := scanFigure(s)
	if fault != "" {
		return t, p.bad(fault, "")
	}
	t.fig, t.typed = fig, rest
	if err := p.hyphen(rest); err != nil {
		return t, err
	}
	if strings.IndexFunc(rest, isDigitOrVulgar) > 0 && compounds(p.kind) {
		return t, p.compound(&t, s)
	}
	if rest == "" {
		return t, nil
	}
	return t, p.unit(&t, doubt)
}

func isDigitOrVulgar(r rune) bool { return isDigit(r) || vulgar[r][1] != 0 }

// hyphen asks about "3-4 bar" and "3 bar - 4 bar", which may be a range.
func (p *parser) hyphen(rest string) error {
	i := strings.IndexByte(rest, '-')
	if i < 0 {
		return nil
	}
	after := strings.TrimPrefix(rest[i+1:], " ")
	if after == "" || !isDigit(rune(after[0])) {
		return nil
	}
	s := squeeze(p.text)
	j := len(s) - len(rest) + i
	if j <= 0 || !strings.HasSuffix(s, rest) {
		return p.bad("a hyphen stands between two numbers", "")
	}
	return p.ask("has a hyphen between two numbers", []string{strings.TrimSpace(s[:j]) + " to " + after})
}

// unit finds the meanings of a typed unit.
func (p *parser) unit(t *term, doubt bool) error {
	typed := unitText(t.typed)
	if doubt {
		switch unitKey(typed) {
		case "%", "percent":
			t.percent = true
		case "%ofvalue", "%ofreading", "percentofvalue", "percentofreading":
			t.percent, t.ofValue = true, true
			return nil
		}
	}
	if t.units = findUnits(p.kind, typed); t.units != nil || t.percent {
		return nil
	}
	if p.kind == KindFreeAirFlow {
		if name, states, ok := bareFlow(typed); ok {
			t.flow, t.states = name, states
			return nil
		}
	}
	return p.unknownUnit(*t, typed)
}

// unknownUnit says what a unit measures if not what was wanted.
func (p *parser) unknownUnit(t term, typed string) error {
	var words []string
	for _, k := range Kinds() {
		if len(words) < 2 && len(findUnits(k, typed)) > 0 {
			words = append(words, k.Words())
		}
	}
	label := t.typed
	if utf8.RuneCountInString(label) > 20 {
		label = string([]rune(label)[:20]) + "…"
	}
	if _, _, ok := bareFlow(typed); ok {
		words = append(words, KindFreeAirFlow.Words())
	}
	if hint := wrongKindHint[p.kind][strings.ToLower(unitKey(typed))]; hint != "" && len(words) > 0 {
		return p.bad(label+" is "+words[0], "Type "+hint+" if that is meant.")
	}
	if len(words) == 0 {
		if strings.ContainsFunc(typed, isDigitOrVulgar) && !isLetter(typed) {
			return p.bad("there is more than one number", "")
		}
		return p.bad("the unit "+label+" is not known here", "")
	}
	what := strings.Join(words, " or ")
	switch {
	case p.kind == KindPressure && words[0] == KindAbsPressure.Words():
		return p.bad(label+" is an absolute pressure", "Type the gauge pressure, which is the absolute one less the barometer.")
	case p.kind == KindAbsPressure && words[0] == KindPressure.Words():
		return p.bad(label+" is a gauge pressure", "Type the absolute pressure, which is the gauge one plus the barometer.")
	}
	return p.bad(label+" is "+what, "")
}

// value computes the value once every unit is settled.
func (p *parser) value(r reading) (Value, error) {
	if len(p.text) > longest {
		return Value{}, p.bad("the text with its unit is longer than 200 bytes", "")
	}
	u := r.a.units[0]
	v := Value{text: p.text, kind: p.kind, unit: u, form: r.form, a: r.a.fig.val}
	switch r.form {
	case plain:
		v.si = u.ToSI(v.a)
	case pm:
		v.si = u.ToSI(v.a)
		switch {
		case r.b.fig.val <= 0:
			return Value{}, p.bad("a ± must be more than nought", "")
		case r.b.percent && u.d.pre != 0:
			return Value{}, p.bad("a share of a temperature says nothing", "Type the ± in degrees.")
		case r.b.percent:
			v.b = math.Abs(v.a) * r.b.fig.val / 100
		case r.b.units[0] == u:
			v.b = r.b.fig.val
		default:
			v.b = u.WidthFromSI(r.b.units[0].WidthToSI(r.b.fig.val))
		}
		if v.b < 1e-15 || v.b > 1e15 {
			return Value{}, p.bad("the ± is nought or out of all reach", "")
		}
		v.half = u.WidthToSI(v.b)
	case span:
		v.b = r.b.fig.val
		switch {
		case r.b.units[0] != u:
			return Value{}, p.bad("the ends of the range have two units", "Type both in one unit.")
		case v.a > v.b:
			return Value{}, p.bad("the range runs backwards", "Type the smaller end first.")
		case v.a == v.b:
			return Value{}, p.bad("the range has no width", "Type one number, or two different ones.")
		}
		lo, hi := u.ToSI(v.a), u.ToSI(v.b)
		v.si, v.half = (lo+hi)/2, (hi-lo)/2
	}
	row := p.kind.row()
	if u.ToSI(v.a) < row.least || p.kind == KindHumidity && max(v.si, u.ToSI(r.top())) > 1 {
		return Value{}, p.bad(row.floor, "")
	}
	return v, nil
}

// top is the largest number of the reading that is no doubt.
func (r reading) top() float64 {
	if r.form == span {
		return r.b.fig.val
	}
	return r.a.fig.val
}
