package quantity

import (
	"math"
	"strconv"
	"strings"
)

const (
	nbsp  = "\u00a0" // no-break space
	minus = "\u2212"
)

// tight tells that no space stands before the unit: the signs of angles.
func tight(unit string) bool { return unit == "°" || unit == "′" || unit == "″" }

func unitLabel(u Unit) string { return strings.ReplaceAll(u.Name(), " ", nbsp) }

func joined(number, unit string) string {
	switch {
	case unit == "":
		return number
	case tight(unit):
		return number + unit
	}
	return number + nbsp + unit
}

// Format writes an SI value of a kind in a unit with a number of decimals:
// "3.5 bar", with a no-break space and U+2212 for minus. Fewer than no digits
// means the hint of the unit. A unit that is zero or of another kind is
// replaced by the main unit of the kind. What is no number is written "not
// known".
func Format(kind Kind, si float64, unit Unit, digits int) string {
	return joined(FormatNumber(kind, si, unit, digits))
}

// FormatNumber is Format with the number and the unit apart.
func FormatNumber(kind Kind, si float64, unit Unit, digits int) (number, unitText string) {
	unit = fitted(kind, unit)
	x := unit.FromSI(si)
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "not known", ""
	}
	if digits < 0 {
		digits = unit.Digits()
	}
	return fixed(x, digits), unitLabel(unit)
}

// FormatWith writes an SI value with the half-width of its doubt in SI:
// "3.5 ± 0.2 bar", all its spaces no-break. The ± has one significant digit,
// or two where it is 10 or more, where one digit would change it by more
// than a tenth, or where that digit is a 1 and not exact: a figure of 9.3 with
// a doubt of 1.04 is 9.3 ± 1.0, not 9 ± 1. The number is rounded at the same
// place. A doubt of nought, or none that is a number, is left out.
func FormatWith(kind Kind, si, half float64, unit Unit) string {
	number, doubt, label := FormatNumberWith(kind, si, half, unit)
	if doubt == "" {
		return joined(number, label)
	}
	return joined(number+nbsp+doubt, label)
}

// FormatNumberWith is FormatWith with its parts apart: "3.5", "± 0.2", "bar".
func FormatNumberWith(kind Kind, si, half float64, unit Unit) (number, doubt, unitText string) {
	unit = fitted(kind, unit)
	x, h := unit.FromSI(si), math.Abs(unit.WidthFromSI(half))
	if math.IsNaN(x) || math.IsInf(x, 0) || math.IsNaN(h) || math.IsInf(h, 0) || h < 1e-14 {
		number, unitText = FormatNumber(kind, si, unit, -1)
		return number, "", unitText
	}
	place := int(math.Floor(math.Log10(h))) // of the first digit of the doubt
	off := math.Abs(roundAt(h, place) - h)
	if place > 0 || off > 0.1*h+1e-12*h || h < 1.5*math.Pow10(place) && off > 1e-3*h {
		place--
	}
	if place >= 0 {
		return fixed(roundAt(x, place), 0), "±" + nbsp + fixed(roundAt(h, place), 0), unitLabel(unit)
	}
	return fixed(x, -place), "±" + nbsp + fixed(h, -place), unitLabel(unit)
}

// fitted is the unit, or the main unit of the kind where it does not fit.
func fitted(kind Kind, unit Unit) Unit {
	if unit.Kind() != kind || unit.IsZero() {
		return kind.Main()
	}
	return unit
}

// roundAt rounds to a power of ten.
func roundAt(x float64, place int) float64 {
	p := math.Pow(10, math.Abs(float64(place)))
	if place >= 0 {
		return math.Round(x/p) * p
	}
	return math.Round(x*p) / p
}

// fixed writes a number with decimals, half away from nought, and no "−0".
// A float64 a hair under a half as typed (2.675) is rounded as it was typed.
func fixed(x float64, digits int) string {
	digits = min(max(digits, 0), 15)
	if a := math.Abs(x); a < 1e9 && digits <= 5 {
		p := math.Pow(10, float64(digits))
		x = math.Round(x*p*(1+4e-16)) / p
	}
	s := strconv.FormatFloat(x, 'f', digits, 64)
	if strings.Trim(s, "-0.") == "" {
		return strings.TrimPrefix(s, "-")
	}
	return strings.ReplaceAll(s, "-", minus)
}
