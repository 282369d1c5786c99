package gas

import (
	"math"
	"testing"

	"jounce/internal/evidence"
	"jounce/quantity"
)

const (
	bar   = 1e5        // [Pa]
	psi   = 6894.757   // [Pa]
	dmsb  = 1e-8       // 1 dm³/(s·bar) [m³/(s·Pa)]
	litre = 1e-3       // [m³]
	lpm   = 1e-3 / 60  // 1 L/min [m³/s]
	mmHg  = 133.322387 // [Pa]
	atm   = quantity.StandardAtmosphere
	room  = quantity.Temperature(293.15)
)

func celsius(c float64) quantity.Temperature { return quantity.FromCelsius(c) }

// must is a value that cannot fail with the inputs of a test.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// table checks all rows of a source against figures computed for their ids.
func table(book *evidence.Book, key string, computed map[string]float64, t *testing.T) {
	t.Helper()
	for _, row := range book.Rows(key) {
		v, ok := computed[row.ID]
		if !ok {
			t.Errorf("%s %s: nothing computed", key, row.ID)
			continue
		}
		book.Check(row, v)
	}
}

func TestPublishedFlow(t *testing.T) {
	book := evidence.Open(t)
	for _, row := range book.Rows("COURSE-V") {
		book.Check(row, courseV(t, row))
	}
	r := book.Row("EQDOC", "1.6")
	f := must(Element{C: r.Num("c") * dmsb, B: r.Num("b")}.Flow(
		quantity.AbsPressure(r.Num("p1")*bar), celsius(r.Num("t1")), quantity.AbsPressure(r.Num("p2")*bar)))
	book.Check(r, float64(f.Mass))
	r = book.Row("CHOKETUT", "1.17")
	book.Check(r, (r.Num("b")*(r.Num("p1")+14.696))-14.696)
	book.Check(book.Row("SIMDOC", "1.Cv"), KvPerCv)
	book.Check(book.Row("WHITE", "2.1"), ChokedParameter())
}

func courseV(t *testing.T, r evidence.Row) float64 {
	e := Element{B: 0}
	if r.Has("c") {
		e = Element{C: r.Num("c") * dmsb, B: r.Num("b")}
	}
	var p1, p2 quantity.AbsPressure
	if r.Has("p1") && r.Has("p2") {
		p1, p2 = quantity.AbsPressure(r.Num("p1")*bar), quantity.AbsPressure(r.Num("p2")*bar)
	}
	switch r.ID {
	case "1.1", "1.2", "1.7":
		return must(e.Flow(p1, celsius(r.Num("t1")), p2)).FreeAir.Volume / lpm
	case "1.3 C", "1.3 b":
		fit := must(Fit(600*lpm, 360*lpm, p1, celsius(r.Num("t1")), p2))
		if r.ID == "1.3 b" {
			return fit.Element.B
		}
		return fit.Element.C / dmsb
	case "1.5":
		hot := must(e.Flow(p1, celsius(r.Num("t1")), p2))
		return 100 * (hot.FreeAir.Volume/must(e.Flow(p1, room, p2)).FreeAir.Volume - 1)
	case "1.8":
		return must(KvFlow(0.5*KvPerCv, p1, p2)).Volume / lpm
	case "9.6":
		return must(KvFlow(0.43, p1, p2)).Volume / lpm
	case "1.16":
		s, _ := e.Share(r.Num("p2"))
		return 6 * r.Num("c") * r.Num("p2") / s
	case "1.K":
		return must(KvFlow(1, 2*bar, 1*bar)).Volume / lpm
	case "1.N":
		return ChokedParameter() / math.Sqrt(287)
	case "1.S":
		return 1e-6 * dmsb / 1e-6 / NozzleConductance(1e-6)
	case "1.Cv":
		return KvPerCv
	}
	if len(r.ID) > 4 && r.ID[:4] == "1.4 " {
		s, _ := e.Share(r.Num("p2"))
		return 100 * s
	}
	t.Errorf("COURSE-V %s: nothing computed", r.ID)
	return math.NaN()
}

// course are the figures of the chapter on dynamics and sizing.
func course() map[string]float64 {
	sq := func(cs ...float64) float64 {
		var list []Element
		for _, c := range cs {
			list = append(list, Element{C: c * dmsb})
		}
		return must(SeriesSquare(list...)).C / dmsb
	}
	tube := func(bore, length float64) float64 { return must(NewTube(bore*1e-3, length, 0.02)).Friction.C / dmsb }
	base := sq(1.2, 1, 3)
	m := map[string]float64{
		"1.9": base, "1.10 valve": sq(2.4, 1, 3), "1.10 share": 100 * (sq(2.4, 1, 3)/base - 1),
		"9.7": sq(1.2, 2.1, 3), "1.11": sq(1, 1),
		"1.14 1": tube(4, 1), "1.14 3": tube(4, 3),
		"1.15 0.5": tube(9, 0.5), "1.15 1": tube(9, 1), "1.15 3": tube(9, 3), "1.15 10": tube(9, 10),
		"1.18 V": TubeVolume(4e-3, 1) * 1e6,
		"1.18 Q": FreeAir(6*bar, TubeVolume(4e-3, 1), 1.013*bar) / litre,
		"2.11":   must(PolytropicTemperature(room, 7*bar, bar, Gamma)).Celsius(),
	}
	courseVessels(m)
	return m
}

func courseVessels(m map[string]float64) {
	tau := must(TimeConstant(50*litre, 5*dmsb, room))
	end := 1.013 / 0.3
	m["2.2 p"] = end
	m["2.2"] = tau * must(BlowdownTime(end/8.013, Isothermal))
	e := Element{C: 1 * dmsb, B: 0.3}
	start := Point{Pressure: 1.013 * bar, Temperature: room}
	supply := Side{Pressure: 7.013 * bar, Temperature: room}
	full := Point{Pressure: 7.013 * bar, Temperature: room}
	for h, name := range map[Heat]string{Isothermal: "iso", Adiabatic: "adiab"} {
		m["2.3 "+name] = must(ChokedFillTime(litre, e, supply.Pressure, room, start.Pressure, 0.3*supply.Pressure, h))
		fill := must(Exchange(litre, start, e, supply, (1.013+0.98*6)*bar, h))
		empty := must(Exchange(litre, full, e, Side{1.013 * bar, room}, (1.013+0.02*6)*bar, h))
		m["2.4 fill "+name], m["2.4 empty "+name] = fill.End.T, empty.End.T
		if h == Adiabatic {
			m["2.4 fill T"], m["2.4 empty T"] = fill.End.Temperature.Celsius(), empty.End.Temperature.Celsius()
		}
	}
	m["2.5 from 1"] = must(FillTemperature(room, bar, 7*bar, room)).Celsius()
	m["2.5 vacuum"] = must(FillTemperature(room, 0, 7*bar, room)).Celsius()
	hot := must(FillTemperature(room, 1.013*bar, 7.013*bar, room))
	cold := Heated(7.013*bar, hot, room)
	m["2.6 abs"] = float64(cold) / bar
	m["2.6 gauge"] = float64(cold.Gauge(1.013*bar)) / bar
	pv := AtPressure(must(Saturation(celsius(3))), atm+6*bar, atm)
	m["5.5"] = must(DewPoint(pv)).Celsius()
}

func TestPublishedVessels(t *testing.T) {
	book := evidence.Open(t)
	table(book, "COURSE-S", course(), t)
	table(book, "BALMER", balmer(), t)
	table(book, "AEF", aef(), t)
	mass := (100*1e3 + 101325) * 0.1 / (287 * 293.0)
	book.Check(book.Row("FOX", "2.8"), 1e3*0.05/HeatingRate(mass, 1, 293, 293))
}

// balmer is a tyre that blows down through its valve.
func balmer() map[string]float64 {
	const inch = 0.0254
	t70 := quantity.Temperature((70 + 459.67) / 1.8)
	area := math.Pi / 4 * math.Pow(0.0938*inch, 2)
	tau := must(NozzleTimeConstant(math.Pow(12*inch, 3), area, 1, t70))
	end := 14.7 / CriticalRatio()
	adiab := must(BlowdownTime(end/50, Adiabatic))
	return map[string]float64{
		"2.1 tau": tau, "2.1 p": end - 14.7, "2.1 t": tau * must(BlowdownTime(end/50, Isothermal)),
		"adiab": tau * adiab, "T": float64(t70) * Blowdown(adiab, Adiabatic).Temperature,
	}
}

// aef is a bottle emptied through a small hole.
func aef() map[string]float64 {
	tau := must(NozzleTimeConstant(11.1*litre, math.Pi/4*1e-6, 0.85, celsius(18)))
	down := 101325 / 20.68e6
	// V [ft³] / (Cd·A [in²]) · √(1/T[°R]) · ln: τ·A·√T/V in these units
	const ft3, in2 = 0.028316846592, 6.4516e-4
	c := must(NozzleTimeConstant(ft3, in2, 1, room)) * math.Sqrt(float64(room)*1.8)
	return map[string]float64{
		"9.1 time": tau * must(BlowdownTime(down, Adiabatic)), "9.1 iso": tau * must(BlowdownTime(down, Isothermal)),
		"9.1 tau": tau, "9.1 old": Blowdown(1, Adiabatic).Flow, "9.16": c,
	}
}

func TestPublishedCompressible(t *testing.T) {
	book := evidence.Open(t)
	for _, key := range []string{"MATTHEWS", "K14"} {
		for _, r := range book.Rows(key) {
			row := Isentropic(r.Num("m"))
			switch r.ID[:1] {
			case "p":
				book.Check(r, row.Pressure)
			case "r":
				book.Check(r, row.Density)
			case "T":
				book.Check(r, row.Temperature)
			default:
				book.Check(r, row.Area)
			}
		}
	}
	exact := massey()
	for _, key := range []string{"MASSEY", "FAROKHI"} {
		for _, r := range book.Rows(key) {
			row := Fanno(r.Num("m"))
			v, slip := exact[r.ID]
			switch {
			case slip:
				book.Check(r, v)
			case r.ID[:1] == "p":
				book.Check(r, 1/row.Pressure)
			case r.ID[:1] == "T":
				book.Check(r, row.Temperature)
			case r.ID[:1] == "t":
				book.Check(r, row.Total)
			default: // Massey's 4fL*/D is Darcy's fL*/D
				book.Check(r, row.Friction)
			}
		}
	}
}

// massey is Example 11.6 without a table: air from rest at 510 kPa and 294 K,
// 500 kPa at A, 280 kPa at B 12 m on, bore 20 mm, exit at 100 kPa.
func massey() map[string]float64 {
	ma := must(MachFromPressure(500.0 / 510))
	a := Fanno(ma)
	mb := must(MachFromFannoPressure(a.Pressure * 280 / 500))
	me := must(MachFromFannoPressure(a.Pressure * 100 / 500))
	darcy := (a.Friction - Fanno(mb).Friction) * 0.02 / 12
	t := 294 * Isentropic(ma).Temperature
	return map[string]float64{
		"2.9 MA": ma, "2.9 MB": mb, "2.9 M": me, "2.9 f": darcy / 4,
		"2.9 L": (a.Friction - Fanno(me).Friction) * 0.02 / darcy,
		"2.9 m": 500e3 / (287 * t) * ma * math.Sqrt(1.4*287*t) * math.Pi / 4 * 0.02 * 0.02,
		"9.2":   Fanno(0.17).Friction,
	}
}
