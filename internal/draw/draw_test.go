package draw

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"jounce/internal/draw/font"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: %v, expected %v ± %v", what, got, want, tol)
	}
}

// A bulge of 1 from (1, 0) to (−1, 0), anticlockwise as seen, passes above the centre, which is y −1 with y down.
func TestExactArcOf(t *testing.T) {
	c, r, a0, sweep, ok := ArcOf(Pt(1, 0), Pt(-1, 0), 1)
	if !ok {
		t.Fatal("a half circle was refused")
	}
	near(t, "centre x", c.X, 0, 1e-12)
	near(t, "centre y", c.Y, 0, 1e-12)
	near(t, "radius", r, 1, 1e-12)
	near(t, "from", a0, 0, 1e-12)
	near(t, "through", sweep, 180, 1e-12)
	// A quarter: tan(90°/4).
	c, r, _, sweep, _ = ArcOf(Pt(1, 0), Pt(0, -1), math.Tan(math.Pi/8))
	near(t, "centre x of a quarter", c.X, 0, 1e-12)
	near(t, "centre y of a quarter", c.Y, 0, 1e-12)
	near(t, "radius of a quarter", r, 1, 1e-12)
	near(t, "quarter", sweep, 90, 1e-12)
	if _, _, _, _, ok := ArcOf(Pt(1, 1), Pt(1, 1), 1); ok {
		t.Error("an arc of no chord was taken")
	}
}

// The cubics of an arc stay within 5e-6 of the radius, whatever the arc.
func TestLimitCubicsOfArcs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.Float64Range(0.1, 500).Draw(t, "r")
		a0, sweep := rapid.Float64Range(-360, 360).Draw(t, "a0"), rapid.Float64Range(1, 720).Draw(t, "sweep")
		a1 := a0 + sweep
		if rapid.Bool().Draw(t, "clockwise") {
			a1 = a0 - sweep
		}
		for _, run := range Arc(3, 4, r, a0, a1).Flatten(1e-3) {
			for _, p := range run {
				if d := p.Dist(Pt(3, 4)); math.Abs(d-r) > 5e-6*r+1e-9 {
					t.Fatalf("%v from the centre, radius %v", d, r)
				}
			}
		}
	})
}

// A mirrored frame keeps the shape: the mapped arc passes through the mapped middle.
func TestExactFrameMirrors(t *testing.T) {
	for _, f := range []Frame{{1, 2, -0.05, -0.05}, {1, 2, 0.05, -0.05}, {1, 2, -0.05, 0.05}, {0, 0, 2, 3}} {
		o := Begin(10, 0).ArcTo(-10, 0, 0.4)
		want := f.Pt(0, -10*0.4) // the height of an arc is half the chord times the bulge, above as seen
		best := math.Inf(1)
		for _, run := range o.Map(f).Flatten(1e-5) {
			for _, p := range run {
				best = math.Min(best, p.Dist(want))
			}
		}
		near(t, "distance of the arc from its mapped top", best, 0, 0.02)
	}
}

func TestExactTurn(t *testing.T) {
	g := G().Turn(Pt(1, 1), 90).Shift(5, 0)
	p := g.Matrix().Pt(Pt(2, 1)) // right of the pivot turns to above it
	near(t, "x", p.X, 6, 1e-12)
	near(t, "y", p.Y, 0, 1e-12)
	q := Line(2, 1, 3, 1).Turn(Pt(1, 1), 90)[0].P
	near(t, "x of the outline", q.X, 1, 1e-12)
	near(t, "y of the outline", q.Y, 0, 1e-12)
	m := G().Turn(Pt(0, 0), 30).Matrix()
	n := m.Then(G().Turn(Pt(0, 0), 60).Matrix()).Pt(Pt(1, 0))
	near(t, "30° after 60°, x", n.X, 0, 1e-12)
	near(t, "30° after 60°, y", n.Y, -1, 1e-12)
}

// The hatch conserves area: length of lines times pitch is the area, to a pitch times the length of edge per line's end.
func TestConservesHatch(t *testing.T) {
	ring := Circle(50, 50, 20).And(Circle(50, 50, 12))
	for _, angle := range []float64{0, 45, 90, -45, 17} {
		lines := Hatch{Angle: angle, Pitch: 0.05, Pen: W1.Pen()}.Lines(ring)
		sum := 0.0
		for i := 0; i < len(lines); i += 2 {
			a, b := lines[i].P, lines[i+1].P
			sum += a.Dist(b)
			for _, p := range []Point{a, b, a.To(b, 0.5)} {
				if d := p.Dist(Pt(50, 50)); d > 20.001 || d < 11.98 {
					t.Fatalf("angle %v: %v lies %v from the centre, outside the ring", angle, p, d)
				}
			}
			if dir := math.Mod(heading(a, b)-angle+720+90, 180) - 90; math.Abs(dir) > 0.01 && a.Dist(b) > 1 {
				t.Fatalf("angle %v: a line runs at %v", angle, heading(a, b))
			}
		}
		// Riemann sum of a function of bounded variation V with step p: error at most p·V; the chords of the ring vary by
		// 2·40 for the outer and 2·24 for the inner circle.
		near(t, "area", sum*0.05, math.Pi*(20*20-12*12), 0.05*(2*40+2*24))
	}
}

func TestLimitHatchOfWrongData(t *testing.T) {
	h := Hatch{Angle: 45, Pitch: 1e-9, Pen: W1.Pen()}
	if n := len(h.Lines(Rect(0, 0, 100, 100))); n > 3*mostHatchLines {
		t.Errorf("%d steps", n)
	}
	if o := h.Lines(Rect(0, 0, math.Inf(1), 1)); o != nil {
		t.Errorf("an endless rectangle gave %d steps", len(o))
	}
	h.Lines(Rect(math.NaN(), 0, 1, 1))
}

// Spread: order kept, no overlap, within bounds when it fits, and no other feasible placing is nearer to the wishes.
func TestExactSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "n")
		want, size := make([]float64, n), make([]float64, n)
		total := 0.0
		for i := range want {
			want[i] = rapid.Float64Range(-20, 120).Draw(t, "want")
			size[i] = rapid.Float64Range(1, 12).Draw(t, "size")
			total += size[i]
		}
		at, ok := Spread(want, size, 1, 0, 100)
		if ok != (total+float64(n-1) <= 100+1e-9) {
			t.Fatalf("ok %v, the labels take %v of 100", ok, total+float64(n-1))
		}
		order := make([]int, n)
		for i := range order {
			order[i] = i
		}
		sort.SliceStable(order, func(a, b int) bool { return want[order[a]] < want[order[b]] })
		for i := 1; i < n; i++ {
			a, b := order[i-1], order[i]
			if at[b]-at[a] < (size[a]+size[b])/2+1-1e-9 {
				t.Fatalf("labels %d and %d overlap: %v", a, b, at)
			}
		}
		if !ok {
			return
		}
		first, last := order[0], order[n-1]
		if at[first]-size[first]/2 < -1e-9 || at[last]+size[last]/2 > 100+1e-9 {
			t.Fatalf("outside: %v", at)
		}
		cost := func(p []float64) (c float64) {
			for i := range p {
				c += (p[i] - want[i]) * (p[i] - want[i])
			}
			return c
		}
		// Any other feasible placing: free room shared out at random.
		free := 100 - total - float64(n-1)
		cuts := make([]float64, n)
		for i := range cuts {
			cuts[i] = rapid.Float64Range(0, free).Draw(t, "cut")
		}
		slices.Sort(cuts)
		other, x := make([]float64, n), 0.0
		for i, k := range order {
			other[k] = x + cuts[i] + size[k]/2
			x += size[k] + 1
		}
		// Also half way between, which is feasible because the set is convex.
		mid := make([]float64, n)
		for i := range mid {
			mid[i] = 0.999*at[i] + 0.001*other[i]
		}
		for _, p := range [][]float64{other, mid} {
			if cost(p) < cost(at)-1e-6 {
				t.Fatalf("%v costs %v, %v costs %v", at, cost(at), p, cost(p))
			}
		}
	})
}

func TestExactRoundTicks(t *testing.T) {
	for _, c := range []struct {
		lo, hi float64
		n      int
		want   []float64
	}{
		{9.2, 10, 5, []float64{9.2, 9.4, 9.6, 9.8, 10}},
		{-60, 45, 6, []float64{-60, -40, -20, 0, 20, 40}},
		{0, 12, 5, []float64{0, 2.5, 5, 7.5, 10}},
		{0, 1, 5, []float64{0, 0.25, 0.5, 0.75, 1}},
		{45, -60, 6, []float64{-60, -40, -20, 0, 20, 40}},
		{3, 3, 5, nil},
		{0, math.NaN(), 5, nil},
	} {
		got := RoundTicks(c.lo, c.hi, c.n)
		if !slices.EqualFunc(got, c.want, func(a, b float64) bool { return math.Abs(a-b) < 1e-9 }) {
			t.Errorf("%v to %v in %d: %v, expected %v", c.lo, c.hi, c.n, got, c.want)
		}
		for _, v := range got {
			if v == 0 && math.Signbit(v) {
				t.Error("a tick is −0")
			}
		}
	}
}

func TestLimitRoundTicks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lo, hi, n := rapid.Float64().Draw(t, "lo"), rapid.Float64().Draw(t, "hi"), rapid.IntRange(0, 12).Draw(t, "n")
		if len(RoundTicks(lo, hi, n)) > n {
			t.Fatal("too many")
		}
	})
}

func TestExactAxis(t *testing.T) {
	a := Axis{V0: -60, V1: 45, P0: 10, P1: 115}
	near(t, "ROAD", a.At(0), 70, 1e-12)
	near(t, "back", a.Value(a.At(13.5)), 13.5, 1e-12)
	near(t, "no length", Axis{V0: 1, V1: 1, P0: 0, P1: 10}.At(1), 5, 0)
}

// The measures of look.md §4 and §6: classes in px on screens, mm on paper; the four marks in their box.
func TestPinnedStyle(t *testing.T) {
	near(t, "outline on a desktop", Desktop().W[W4]/Px, 3.2, 1e-9)
	near(t, "outline on a tablet", Tablet().W[W4]/Px, 2.7, 1e-9)
	near(t, "thin on a phone", Phone().W[W1]/Px, 1, 1e-9)
	near(t, "outline on paper", ForPaper().W[W4], 0.7, 0)
	near(t, "capitals on paper", ForPaper().Size[Body]*font.CapHeight, 2.5, 1e-12)
	near(t, "lettering on a screen", Phone().Size[Body]/Px, 15, 1e-9)
	m := MarkPaths(MarkPass, 0, 0, 1)
	near(t, "pass: line", m[0].Outline[0].P.Y, 22.5, 0)
	b, _ := m[1].Outline.Bounds()
	near(t, "pass: ring", (b.Y0+b.Y1)/2, 11, 1e-9)
	near(t, "pass: radius", (b.X1-b.X0)/2, 6.6, 1e-4)
	for _, k := range Marks {
		b := Box{1e9, 1e9, -1e9, -1e9}
		for _, p := range MarkPaths(k, 0, 0, 1) {
			q, _ := p.Outline.Bounds()
			b = Box{min(b.X0, q.X0), min(b.Y0, q.Y0), max(b.X1, q.X1), max(b.Y1, q.Y1)}
		}
		if b.X0 < 0 || b.Y0 < 0 || b.X1 > MarkBox || b.Y1 > MarkBox {
			t.Errorf("%s leaves its box: %v", k.Words(), b)
		}
	}
}

func TestExactTextBox(t *testing.T) {
	st := Desktop()
	x := st.Text(Body, 50, 20, "wheelbase 2540", Middle)
	b := x.Box()
	near(t, "middle", (b.X0+b.X1)/2, 50, 1e-9)
	near(t, "width", b.X1-b.X0, x.Width(), 1e-9)
	y := x.Turned(90).Box()
	near(t, "turned: height", y.Y1-y.Y0, x.Width(), 1e-9)
	near(t, "turned: the capitals lie left of x", y.X0, 50-font.CapHeight*x.Size, 1e-9)
	near(t, "centred", x.At(Mid).BaseLine().Y, 20+font.CapHeight*x.Size/2, 1e-12)
	v := st.Text(Body, 0, 0, "", Start).Value("68", " ± 2")
	if v.String() != "68 ± 2" || v.Pieces()[0].Face != font.Cond600 || v.Pieces()[1].Role != Ink {
		t.Errorf("value is %+v", v.Pieces())
	}
}

func TestExactWrap(t *testing.T) {
	f := font.Cond500
	s := "Most unless it is changed, 82\u00a0±\u00a02 down.\nNew line"
	got := Wrap(f, s, 4, 40)
	for _, l := range got {
		if f.Width(l, 4) > 40 && strings.Contains(l, " ") {
			t.Errorf("%q is %v mm", l, f.Width(l, 4))
		}
		if strings.HasSuffix(l, "82") {
			t.Errorf("%q parts a number from its ±", l)
		}
	}
	if strings.Join(got, " ") != strings.ReplaceAll(s, "\n", " ") {
		t.Errorf("words lost: %q", got)
	}
}

// Ticks lie on the side asked for, as the walker sees it.
func TestExactLimitSide(t *testing.T) {
	st := Desktop()
	pts := []Point{{0, 10}, {50, 10}}
	for i, s := range Ticks(st, pts, OnLeft, 2) {
		if i%2 == 1 && s.P.Y >= 10 {
			t.Fatalf("a tick of a line to the right ends at %v, expected above it on its left", s.P)
		}
	}
	ticks := Ticks(st, pts, OnRight, 2)
	if len(ticks) < 40 {
		t.Fatalf("%d steps", len(ticks))
	}
	for i, s := range ticks {
		if i%2 == 1 && (s.P.Y <= 10 || s.P.X < -1e-9) {
			t.Fatalf("a tick ends at %v, expected below the line and not before its beginning", s.P)
		}
	}
}

func TestExactDimension(t *testing.T) {
	st := ForPaper()
	find := func(g Group) (heads int, label Text) {
		for _, it := range g.Items {
			switch v := it.(type) {
			case Text:
				label = v
			case Path:
				if v.Tone == Ink {
					heads++
					b, _ := v.Outline.Bounds()
					long, wide := b.X1-b.X0, b.Y1-b.Y0
					if math.Abs(long/wide-3) > 1e-6 && math.Abs(wide/long-3) > 1e-6 {
						t.Errorf("a head of %v by %v, expected 3 : 1", long, wide)
					}
				}
			}
		}
		return heads, label
	}
	heads, l := find(Dimension(st, Pt(10, 50), Pt(100, 50), -12, "2540"))
	if heads != 2 || l.Angle != 0 || l.Y >= 62 || math.Abs(l.X-55) > 1e-9 {
		t.Errorf("level, below: %d heads, label %+v", heads, l)
	}
	_, l = find(Dimension(st, Pt(50, 100), Pt(50, 10), 12, "690"))
	if l.Angle != 90 || l.X >= 38 {
		t.Errorf("upright: label %+v, expected read from the right, left of its line", l)
	}
	_, l = find(Dimension(st, Pt(10, 50), Pt(13, 50), -12, "2540"))
	if l.X < 13+2*st.Arrow {
		t.Errorf("narrow: label at %v, expected beyond the extension lines", l.X)
	}
}

func TestExactFaults(t *testing.T) {
	st := Desktop()
	has := func(s Scene, word string) {
		t.Helper()
		for _, f := range s.Faults() {
			if strings.Contains(f.String(), word) {
				return
			}
		}
		t.Errorf("no fault with %q in %v", word, s.Faults())
	}
	s := NewScene(st, 100, 40)
	s.Add(st.Text(Body, 10, 10, "clear", Start), st.Text(Body, 40, 30, "of it", Start))
	if f := s.Faults(); len(f) != 0 {
		t.Fatalf("a sound scene has %v", f)
	}
	add := func(it ...Item) Scene { c := NewScene(st, 100, 40); c.Add(it...); return c }
	has(add(st.Text(Body, 10, 10, "one", Start), st.Text(Body, 11, 11, "two", Start)), "lies on")
	has(add(st.Text(Body, 98, 10, "outside", Start)), "leaves the sheet")
	has(add(st.Text(Body, 10, 10, "small", Start).Sized(PX(13))), "least")
	has(add(st.Text(Body, 10, 10, "Москва", Start)), "lacks")
	has(add(Line(0, 0, math.NaN(), 1).Stroke(W1.Pen())), "no number")
	g := G(st.Text(Body, 10, 10, "moved", Start)).Shift(95, 0)
	has(add(&g), "leaves the sheet")
}

func ExampleSpread() {
	at, ok := Spread([]float64{80, 82, 84, 99}, []float64{5, 5, 5, 5}, 0, 70, 118)
	fmt.Println(at, ok)
	// Output: [77 82 87 99] true
}

func ExampleScene_Faults() {
	st := Desktop()
	s := NewScene(st, 60, 20)
	s.Add(st.Text(Body, 5, 10, "sump", Start), st.Text(Body, 8, 11, "belly", Start))
	fmt.Println(s.Faults())
	// Output: ["belly": lies on "sump"]
}
