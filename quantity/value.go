package quantity

import (
	"math"
	"strconv"
	"strings"
)

// form is how a value was typed.
type form uint8

const (
	plain form = iota // one number
	pm                // a number and its doubt
	span              // a range from a lower to an upper number
)

// Value is a quantity as typed and what it means. It is immutable and compares
// with ==: two values are equal when the same text was read as the same kind.
// The zero Value is nothing typed.
type Value struct {
	text string
	kind Kind
	unit Unit
	form form
	a    float64 // the number, or the lower end [unit]
	b    float64 // its doubt, or the upper end [unit]
	si   float64 // [SI]
	half float64 // [SI]
}

// Text is what was typed, byte for byte. Where the unit, or the state of a flow
// of free air, was taken from the box, it is written into the text behind the
// number, so that Parse reads the same value from it.
func (v Value) Text() string { return v.text }

// Kind is the kind the text was read as.
func (v Value) Kind() Kind { return v.kind }

// SI is the value in the SI unit of its kind; the middle of a range. A
// free-air flow is the flow of air at ANR that has the same mass.
func (v Value) SI() float64 { return v.si }

// In is the value in a unit of its kind; the SI value for a unit of another.
func (v Value) In(u Unit) float64 {
	if u.Kind() != v.kind {
		return v.si
	}
	return u.FromSI(v.si)
}

// Unit is the unit that was typed.
func (v Value) Unit() Unit { return v.unit }

// Half is the half-width of the doubt in SI, if one was typed.
func (v Value) Half() (float64, bool) { return v.half, v.form != plain }

// Range is from the lower to the upper end of the doubt in SI, if one was
// typed: a range as typed, or the value less and plus its doubt.
func (v Value) Range() (lo, hi float64, ok bool) {
	switch v.form {
	case pm:
		return v.si - v.half, v.si + v.half, true
	case span:
		return v.unit.ToSI(v.a), v.unit.ToSI(v.b), true
	}
	return v.si, v.si, false
}

// IsZero tells that nothing was typed. A typed nought is not zero.
func (v Value) IsZero() bool { return v == Value{} }

// String is the same as Echo.
func (v Value) String() string { return v.Echo() }

// Flow is a free-air flow at the state it was typed at. A leak typed as
// pressure times volume is given at ANR. The second result is false for other
// kinds.
func (v Value) Flow() (FreeAirFlow, bool) {
	if v.kind != KindFreeAirFlow {
		return FreeAirFlow{}, false
	}
	if d := v.unit.d; d.ref != nil && v.form != span {
		return FreeAirFlow{v.a * d.vol, *d.ref}, true
	} else if d.ref != nil {
		return FreeAirFlow{(v.a + v.b) / 2 * d.vol, *d.ref}, true
	}
	return FreeAirFlow{v.si, ANR}, true
}

// Echo is the value in a clean form for reading back: decimal point, U+2212
// for minus, no-break spaces between number and unit and around ±. Parse reads
// the same value from it.
func (v Value) Echo() string {
	switch v.form {
	case pm:
		return v.echoed(v.a) + nbsp + "±" + nbsp + v.echoed(v.b)
	case span:
		return v.echoed(v.a) + " to " + v.echoed(v.b)
	}
	if v.kind == KindNone {
		return ""
	}
	return v.echoed(v.a)
}

func (v Value) echoed(x float64) string {
	return joined(strings.ReplaceAll(shortest(v.kind, v.unit, x), "-", minus), unitLabel(v.unit))
}

// shortest is the shortest number that reads as x again, with a fourth decimal
// where three could be taken for thousands.
func shortest(kind Kind, unit Unit, x float64) string {
	if a := math.Abs(x); a != 0 && (a < 1e-6 || a >= 1e15) {
		return strconv.FormatFloat(x, 'e', -1, 64)
	}
	s := strconv.FormatFloat(x, 'f', -1, 64)
	if i := strings.IndexByte(s, '.'); i > 0 && len(s)-i == 4 {
		if f, _, _ := scanFigure(s); twin(kind, unit, f) {
			s += "0"
		}
	}
	return s
}

// twin tells whether a number could as well be one with thousands: see the
// package comment for the rule.
func twin(kind Kind, unit Unit, f figure) bool {
	return f.twin && math.Abs(unit.ToSI(f.parted)) <= kind.row().most
}
