package quantity_test

import (
	"testing"

	. "jounce/quantity"
)

func BenchmarkParse(b *testing.B) {
	for _, c := range []struct {
		name string
		kind Kind
		text string
	}{
		{"plain", KindLength, "350 mm"},
		{"doubt", KindPressure, "3.5 bar ± 0.1 bar"},
		{"range", KindPressure, "range 3.3..3.7 bar"},
		{"fraction", KindLength, "3 1/2 in"},
		{"compound", KindLength, "5 ft 10 1/2 in"},
		{"flow", KindFreeAirFlow, "25 L/min ANR"},
		{"question", KindPressure, "100"},
		{"problem", KindLength, "3 kg"},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, _ = Parse(c.kind, c.text)
			}
		})
	}
}

func BenchmarkFormatWith(b *testing.B) {
	bar := KindPressure.Main()
	b.ReportAllocs()
	for b.Loop() {
		_ = FormatWith(KindPressure, 352430, 19600, bar)
	}
}
