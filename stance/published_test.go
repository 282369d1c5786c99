package stance

import (
	"testing"

	"jounce/internal/evidence"
)

func must[T any](t testing.TB) func(v T, err error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func TestPublishedWeights(t *testing.T) {
	book := evidence.Open(t)
	const g98, g981 = 9.8, 9.81
	k := must[Centre](t)(CentreOf(NewCorners(2000/g981, 2000/g981, 1800/g981, 1800/g981, 0), Base{Wheelbase: 2.34}))
	book.Check(book.Row("G1", "CG-01a"), k.Back)
	book.Check(book.Row("G1", "CG-01b"), k.Ahead)
	front, rear, err := AxleLoads(1800, 1.05, 1.8)
	if err != nil {
		t.Fatal(err)
	}
	book.Check(book.Row("G2", "CG-02a"), front*g98/2)
	book.Check(book.Row("G2", "CG-02b"), rear*g98/2)
	k = must[Centre](t)(CentreOf(NewCorners(2250, 2250, 1750, 1750, 0), Base{Wheelbase: 2.4}))
	book.Check(book.Row("G3", "CG-03"), k.Back)
	level, _, err := AxleLoads(2000, 1.10, 2.30)
	if err != nil {
		t.Fatal(err)
	}
	h := must[float64](t)(CentreHeight(2000, level, 18000/g981, 2.30, 1.15, 0.30))
	book.Check(book.Row("G6", "G6"), h)
	near(t, "height of the slip's right answer", h, 1.876, 0.0005)
}

func TestPublishedRecomputed(t *testing.T) {
	book := evidence.Open(t)
	front, rear, err := AxleLoads(1360, 1.78, 3.05)
	if err != nil {
		t.Fatal(err)
	}
	book.Check(book.Row("CALC", "CG-04a"), front*9.8/2)
	book.Check(book.Row("CALC", "CG-04b"), rear*9.8/2)

	base := Base{Wheelbase: 2.5}
	before := NewCorners(345, 345, 280, 280, 0)
	added := must[Added](t)(Add(before, base, []Item{{Name: "tank", Mass: 25, Back: 3.10}, {Name: "compressors", Mass: 14, Back: 2.95}, {Name: "battery", Mass: 18, Back: 2.20}}))
	after := must[Shares](t)(added.After.Shares())
	book.Check(book.Row("CALC", "CG-05a"), added.FrontChange)
	book.Check(book.Row("CALC", "CG-05b"), added.RearChange)
	book.Check(book.Row("CALC", "CG-05c"), after.Front)
	book.Check(book.Row("CALC", "CG-05d"), after.Rear)
	book.Check(book.Row("CALC", "CG-05e"), must[Centre](t)(CentreOf(before, base)).Back)
	book.Check(book.Row("CALC", "CG-05f"), must[Centre](t)(CentreOf(added.After, base)).Back)

	book.Check(book.Row("CALC", "CG-06"), must[float64](t)(CentreHeight(1250, 560, 583.4743, 2.5, 0.5, 0.29)))
	book.Check(book.Row("CALC", "CG-07a"), must[float64](t)(Transfer(1250, 0.8, 0.52, 2.5)))
	book.Check(book.Row("CALC", "CG-07b"), must[float64](t)(Transfer(1250, 0.7, 0.52, 1.42)))
	s := must[Shares](t)(NewCorners(352, 338, 286, 274, 1).Shares())
	book.Check(book.Row("CALC", "CG-08a"), s.FrontShare*100)
	book.Check(book.Row("CALC", "CG-08b"), s.LeftShare*100)
	book.Check(book.Row("CALC", "CG-08c"), s.Cross*100)
}
