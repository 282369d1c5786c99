package quantity_test

import (
	"errors"
	"fmt"

	"jounce/quantity"
)

func ExampleParse() {
	v, _ := quantity.Parse(quantity.KindPressure, "3,5 bar ± 0.1")
	half, _ := v.Half()
	fmt.Println(v.Text())
	fmt.Println(v.SI(), half)
	_, err := quantity.Parse(quantity.KindPressure, "100")
	fmt.Println(err)
	_, err = quantity.Parse(quantity.KindLength, "3 kg")
	fmt.Println(err)
	// Output:
	// 3,5 bar ± 0.1
	// 350000 10000
	// "100" has no unit. 100 psi (6.9 bar) or 100 bar?
	// "3 kg": kg is a mass. Type a length such as 350 mm.
}

func ExampleParseIn() {
	mm, _ := quantity.UnitOf(quantity.KindLength, "mm")
	v, _ := quantity.ParseIn(quantity.KindLength, "118 ± 2", mm)
	fmt.Println(v.Text())
	v, _ = quantity.ParseIn(quantity.KindLength, `5' 10"`, mm)
	fmt.Println(v.Text(), "is", v.SI(), "m")
	// Output:
	// 118 ± 2 mm
	// 5' 10" is 1.778 m
}

func ExampleQuestion() {
	_, err := quantity.Parse(quantity.KindMass, "1.250 kg")
	var q *quantity.Question
	if errors.As(err, &q) {
		for _, a := range q.Answers {
			fmt.Println(a, quantity.MustParse(quantity.KindMass, a).SI())
		}
	}
	// Output:
	// 1.25 kg 1.25
	// 1250 kg 1250
}

func ExampleValue_Flow() {
	v := quantity.MustParse(quantity.KindFreeAirFlow, "25 NL/min")
	q, _ := v.Flow()
	fmt.Printf("%.4f g/s, %.2f L/min at %s\n", q.Mass()*1e3, q.At(quantity.ANR).Volume*6e4, quantity.ANR.Name)
	// Output: 0.5385 g/s, 27.26 L/min at ANR
}

func ExampleFormatNumberWith() {
	bar, _ := quantity.UnitOf(quantity.KindPressure, "bar")
	number, doubt, unit := quantity.FormatNumberWith(quantity.KindPressure, 352430, 19600, bar)
	fmt.Printf("%q %q %q\n", number, doubt, unit)
	// Output: "3.5" "±\u00a00.2" "bar"
}
