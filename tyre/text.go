package tyre

import (
	"math"
	"strconv"
	"strings"
	"unicode"
)

// canonical writes a size in one plain form.
func (s Size) canonical() string {
	var b strings.Builder
	switch s.Use {
	case PMetric:
		b.WriteString("P")
	case LightTruck:
		if s.Kind != Flotation {
			b.WriteString("LT")
		}
	case Temporary:
		b.WriteString("T")
	}
	letter := map[Construction]string{Radial: "R", Crossply: "-", BiasBelted: "B", UnknownConstruction: " "}[s.Construction]
	if s.Construction == Crossply && (s.Kind == Metric || s.Kind == FullSection) {
		letter = "D" // a dash in a metric size is asked about
	}
	switch s.Kind {
	case Metric:
		b.WriteString(whole(s.Width*1000) + "/" + whole(s.Aspect*100) + letter)
	case FullSection:
		b.WriteString(whole(s.Width*1000) + letter)
	case Inch:
		b.WriteString(strconv.FormatFloat(round(s.Width/inch, 2), 'f', 2, 64) + letter)
	case Flotation:
		b.WriteString(trim(round(s.Diameter/inch, 2)) + "x" +
			strconv.FormatFloat(round(s.Width/inch, 2), 'f', 2, 64) + letter)
	case AlphaNumeric:
		return s.Text
	default:
		return s.Text
	}
	if s.MetricRim {
		b.WriteString(whole(s.Rim * 1000))
	} else {
		b.WriteString(trim(round(s.Rim/inch, 1)))
	}
	if s.Use == Commercial {
		b.WriteString("C")
	}
	if s.Use == LightTruck && s.Kind == Flotation {
		b.WriteString("LT")
	}
	return b.String()
}

func whole(v float64) string { return strconv.Itoa(int(math.Round(v))) }

func trim(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

func round(v float64, digits int) float64 {
	p := math.Pow(10, float64(digits))
	return math.Round(v*p) / p
}

// normal brings what was typed into one alphabet: capitals, one kind of space,
// dash, stroke and times sign, a decimal comma between digits as a point.
func normal(text string) string {
	var b strings.Builder
	runes := []rune(text)
	for i, r := range runes {
		switch {
		case unicode.IsSpace(r):
			b.WriteRune(' ')
		case r == '×' || r == '*':
			b.WriteRune('X')
		case r == '‐' || r == '‑' || r == '–' || r == '—' || r == '−':
			b.WriteRune('-')
		case r == '\\' || r == '∕' || r == '⁄':
			b.WriteRune('/')
		case r == ',' && i > 0 && i+1 < len(runes) && unicode.IsDigit(runes[i-1]) && unicode.IsDigit(runes[i+1]):
			b.WriteRune('.')
		default:
			b.WriteRune(unicode.ToUpper(r))
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}
