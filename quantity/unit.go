package quantity

import (
	"slices"
	"strings"
	"sync"
	"unicode"
)

// Unit is a unit of one kind. Units compare with ==; the zero Unit is none.
type Unit struct{ d *unitRow }

// unitRow is one line of the table of units. A value v in the unit is
// (v + pre) × mul / div in SI. Two exact factors instead of one keep the
// result correctly rounded: 412 mm is exactly the float64 nearest to 0.412.
type unitRow struct {
	kind   Kind
	name   string
	mul    float64
	div    float64
	pre    float64 // shift of zero, in the unit; temperatures only
	digits int
	also   string     // other spellings, "|" between; "·" where a space may stand
	ref    *Reference // free-air flow: the state it is counted at
	vol    float64    // free-air flow: [m³/s] at ref for one unit
}

// Name is the unit as written behind a number: "mm", "bar a", "L/min ANR".
// The unit of a bare ratio has the empty name.
func (u Unit) Name() string {
	if u.d == nil {
		return ""
	}
	return u.d.name
}

// String is the same as Name.
func (u Unit) String() string { return u.Name() }

// Kind is the kind that the unit measures; KindNone for the zero Unit.
func (u Unit) Kind() Kind {
	if u.d == nil {
		return KindNone
	}
	return u.d.kind
}

// IsZero tells whether this is no unit at all.
func (u Unit) IsZero() bool { return u.d == nil }

// Digits is a hint for showing: decimals that make sense in the workshop.
func (u Unit) Digits() int {
	if u.d == nil {
		return 0
	}
	return u.d.digits
}

// ToSI is a number in this unit as SI of its kind.
func (u Unit) ToSI(v float64) float64 {
	if u.d == nil {
		return v
	}
	return (v + u.d.pre) * u.d.mul / u.d.div
}

// FromSI is an SI value of the unit's kind as a number in this unit.
func (u Unit) FromSI(si float64) float64 {
	if u.d == nil {
		return si
	}
	return si*u.d.div/u.d.mul - u.d.pre
}

// WidthToSI is a difference in this unit as SI: 9 °F is 5 K.
func (u Unit) WidthToSI(v float64) float64 {
	if u.d == nil {
		return v
	}
	return v * u.d.mul / u.d.div
}

// WidthFromSI is a difference in SI as a number in this unit.
func (u Unit) WidthFromSI(si float64) float64 {
	if u.d == nil {
		return si
	}
	return si * u.d.div / u.d.mul
}

// Reference is the state that a unit of free-air flow is counted at.
func (u Unit) Reference() (Reference, bool) {
	if u.d == nil || u.d.ref == nil {
		return Reference{}, false
	}
	return *u.d.ref, true
}

// UnitOf finds a unit of a kind by its name or one of its other spellings.
// A spelling that fits two units finds none.
func UnitOf(kind Kind, name string) (Unit, bool) {
	if name == "" && kind != KindRatio {
		return Unit{}, false
	}
	if kind > KindNone && kind < kindCount {
		for _, u := range unitsOfKind[kind] { // by its own name, the usual case
			if u.Name() == name {
				return u, true
			}
		}
	}
	if !cleanText(name) {
		return Unit{}, false
	}
	hits := findUnits(kind, unitText(name))
	if len(hits) != 1 {
		return Unit{}, false
	}
	return hits[0], true
}

// spelling is one way to write a unit.
type spelling struct {
	form string // with "·" where a space or a dot may stand
	unit Unit
}

// unitIndex finds the units of one kind. It is built on first use: the flows
// of free air alone have some thousand spellings.
type unitIndex struct {
	once   sync.Once
	exact  map[string][]spelling // by key
	folded map[string][]spelling // by lower-case key
}

var (
	unitsOfKind [kindCount][]Unit
	unitIndexes [kindCount]unitIndex
)

func indexOf(kind Kind) *unitIndex {
	ix := &unitIndexes[kind]
	ix.once.Do(func() {
		n := 8 * len(unitsOfKind[kind])
		ix.exact, ix.folded = make(map[string][]spelling, n), make(map[string][]spelling, n)
		for _, u := range unitsOfKind[kind] {
			ix.add(strings.ReplaceAll(u.d.name, " ", "·"), u)
			for form := range strings.SplitSeq(u.d.also, "|") {
				ix.add(form, u)
			}
		}
		for _, a := range manyMeanings {
			if a.kind != kind {
				continue
			}
			for form := range strings.SplitSeq(a.also, "|") {
				for name := range strings.SplitSeq(a.units, "|") {
					ix.add(form, mustUnit(kind, name))
				}
			}
		}
	})
	return ix
}

func (ix *unitIndex) add(form string, u Unit) {
	form = unitText(form)
	if form == "" && u.d.name != "" {
		return
	}
	key := unitKey(form)
	fold := strings.ToLower(key)
	s := spelling{form, u}
	if !slices.Contains(ix.exact[key], s) {
		ix.exact[key] = append(ix.exact[key], s)
	}
	if !slices.Contains(ix.folded[fold], s) {
		ix.folded[fold] = append(ix.folded[fold], s)
	}
}

func init() {
	for i := range unitTable {
		addUnit(&unitTable[i])
	}
	for _, d := range pressureUnits() {
		addUnit(d)
	}
	for _, d := range flowUnits() {
		addUnit(d)
	}
}

func addUnit(d *unitRow) { unitsOfKind[d.kind] = append(unitsOfKind[d.kind], Unit{d}) }

func mustUnit(kind Kind, name string) Unit {
	for _, u := range unitsOfKind[kind] {
		if u.d.name == name {
			return u
		}
	}
	panic("quantity: no unit " + name + " in the table of " + kind.String())
}

var unitLetters = strings.NewReplacer(
	"²", "2", "³", "3", "^", "",
	"⋅", "·", "∙", "·", "•", "·", "×", "·", "*", "·",
	"\u03bc", "u", "\u00b5", "u", "\u2126", "Ω", "\u212a", "K",
	"º", "°", "˚", "°", "℃", "°C", "℉", "°F",
	"''", "″", "′′", "″", "’’", "″", "\"", "″", "”", "″", "“", "″",
	"'", "′", "’", "′", "‘", "′",
)

// unitText brings the signs of a unit to one form. Letters keep their case.
func unitText(s string) string {
	if strings.ContainsFunc(s, func(r rune) bool { return r >= 0x80 || r == '^' || r == '*' || r == '\'' || r == '"' }) {
		s = unitLetters.Replace(s)
	}
	s = strings.TrimSpace(s)
	if len(s) > 1 && s[len(s)-1] == '.' {
		s = s[:len(s)-1]
	}
	if !strings.ContainsAny(s, ".-") {
		return s
	}
	r := []rune(s)
	for i := 1; i+1 < len(r); i++ {
		after := r[i] == '.' && !isDigit(r[i+1]) || r[i] == '-' && unicode.IsLetter(r[i+1])
		if after && unicode.IsLetter(r[i-1]) {
			r[i] = '·'
		}
	}
	return string(r)
}

// unitKey drops the marks that may part the letters of a unit.
func unitKey(s string) string {
	if !strings.ContainsAny(s, " ·") {
		return s
	}
	var b strings.Builder
	for _, r := range s {
		if !isGap(r) {
			b.WriteRune(r)
		}
	}
	return b.String()
}

func isGap(r rune) bool { return r == ' ' || r == '·' }

func isDigit(r rune) bool { return '0' <= r && r <= '9' }

// findUnits gives the units of a kind that a typed unit may mean: none, one,
// or several when the spelling has several meanings. A spelling in the case of
// the table comes before one in another case.
func findUnits(kind Kind, typed string) []Unit {
	if kind <= KindNone || kind >= kindCount {
		return nil
	}
	ix := indexOf(kind)
	key := unitKey(typed)
	if key == "" && typed != "" {
		return nil
	}
	if hits := fitting(ix.exact[key], typed); hits != nil {
		return hits
	}
	if key == "mPa" || key == "mPaa" || key == "mPag" { // a thousandth of a pascal, not a million
		return nil
	}
	return fitting(ix.folded[strings.ToLower(key)], typed)
}

func fitting(list []spelling, typed string) []Unit {
	var out []Unit
next:
	for _, s := range list {
		if !gapsFit(typed, s.form) {
			continue
		}
		for _, have := range out {
			if have == s.unit {
				continue next
			}
		}
		out = append(out, s.unit)
	}
	return out
}

// gapsFit tells whether the gaps in a typed unit stand where the spelling
// allows them: "N m" is N·m, and "m m" is not mm.
func gapsFit(typed, form string) bool {
	t, f := []rune(typed), []rune(form)
	j := 0
	var last rune // the letter or sign before the gap
	for i := 0; i < len(t); {
		if !isGap(t[i]) {
			for j < len(f) && isGap(f[j]) {
				j++
			}
			last = t[i]
			i, j = i+1, j+1
			continue
		}
		for i < len(t) && isGap(t[i]) {
			i++
		}
		open := j < len(f) && isGap(f[j])
		if i < len(t) && unicode.IsLetter(last) && unicode.IsLetter(t[i]) && !open {
			return false
		}
	}
	return true
}
