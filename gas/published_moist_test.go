package gas

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"jounce/internal/evidence"
	"jounce/quantity"
)

func over(c float64) float64 { return float64(must(Saturation(celsius(c)))) }

func vapour(c float64) float64 {
	return 1e3 * VapourDensity(must(Saturation(celsius(c))), celsius(c))
}

func TestPublishedMoisture(t *testing.T) {
	book := evidence.Open(t)
	for _, r := range book.Rows("IF97") {
		book.Check(r, float64(must(SaturationWater(quantity.Temperature(r.Num("t"))))))
	}
	r := book.Row("R14", "230")
	book.Check(r, float64(must(SaturationIce(quantity.Temperature(r.Num("t"))))))
	for _, r := range book.Rows("ASHRAE") {
		switch {
		case strings.HasPrefix(r.ID, "ps"):
			book.Check(r, over(r.Num("x")))
		case r.ID == "W":
			book.Check(r, must(HumidityRatio(quantity.AbsPressure(r.Num("x")), 95461)))
		}
	}
	table(book, "COURSE-M", courseMoist(), t)
	supercooled := must(SaturationWater(celsius(-5)))
	table(book, "HTAB", map[string]float64{
		"35": vapour(35), "-20": vapour(-20), "9.14": vapour(-5), "-5": 1e3 * VapourDensity(supercooled, celsius(-5)),
	}, t)
	table(book, "PM880", map[string]float64{"-40": over(-40) / mmHg, "9.14": over(-88) / mmHg}, t)
	table(book, "ALUP", map[string]float64{
		"20": vapour(20), "35": vapour(35),
		"5.4":  1e3 * must(Condense(1, celsius(35), bar, celsius(35), 8*bar)).Liquid,
		"9.12": 1e3 * must(Condense(1, celsius(35), bar, celsius(35), 9*bar)).Liquid,
	}, t)
	for _, r := range book.Rows("ETB") {
		book.Check(r, over(r.Num("t")))
	}
	for _, r := range book.Rows("PST") {
		pv := AtPressure(must(Saturation(celsius(r.Num("t")))), atm, atm+quantity.AbsPressure(r.Num("p")*bar))
		book.Check(r, must(FrostPoint(pv)).Celsius())
	}
}

func courseMoist() map[string]float64 {
	c51 := must(Condense(0.7, celsius(30), 1.013*bar, celsius(40), 8.013*bar))
	c52 := must(Condense(0.5, celsius(20), 1.013*bar, celsius(30), 8.013*bar))
	c53 := must(Condense(0.6, celsius(25), 1.013*bar, celsius(35), 8.013*bar))
	return map[string]float64{
		"ps 0": over(0), "ps 3": over(3), "9.12": over(-20), "9.12 water": float64(must(SaturationWater(celsius(-20)))),
		"ps 20": float64(Magnus(celsius(20))) / 1e3, "ps 30": float64(Magnus(celsius(30))), "ps 40": float64(Magnus(celsius(40))),
		"5.1 in": 1e3 * c51.Drawn, "5.1 out": 1e3 * c51.Carried, "5.1 day": c51.Liquid * 12 * 60 * 16,
		"5.2 in": 1e3 * c52.Drawn, "5.2 drop": 1e3 * c52.Liquid, "5.2 day": c52.Liquid * 10 * 60 * 16,
		"5.3 in": 1e3 * c53.Drawn, "5.3 drop": 1e3 * c53.Liquid, "5.3 day": c53.Liquid * 10 * 60 * 16,
	}
}

func TestPublishedAtmosphere(t *testing.T) {
	book := evidence.Open(t)
	for _, r := range book.Rows("ASHRAE") {
		switch {
		case strings.HasPrefix(r.ID, "p "):
			book.Check(r, float64(must(AtGeopotential(r.Num("x"))).Pressure))
		case strings.HasPrefix(r.ID, "t "):
			book.Check(r, must(AtGeopotential(r.Num("x"))).Temperature.Celsius())
		}
	}
	for _, r := range book.Rows("FLUIDS") {
		book.Check(r, float64(must(AtGeometric(r.Num("x"))).Pressure))
	}
}

// TestPublishedRecomputed holds our figures against those of another program.
func TestPublishedRecomputed(t *testing.T) {
	book := evidence.Open(t)
	m := recomputedFlow()
	recomputedAir(m)
	for id, v := range massey() {
		m[id] = v
	}
	for _, row := range book.Rows("CALC") {
		v, ok := m[row.ID]
		if !ok {
			t.Errorf("CALC %s: nothing computed", row.ID)
			continue
		}
		book.Check(row, v)
	}
}

func recomputedFlow() map[string]float64 {
	e := func(c, b float64) Element { return Element{C: c * dmsb, B: b} }
	equal := must(SeriesPair(e(2, 0.3), e(2, 0.3)))
	one, three := must(NewTube(4e-3, 1, 0.02)), must(NewTube(4e-3, 3, 0.02))
	m := map[string]float64{
		"1.12 C": equal.Element.C / dmsb, "1.12 b": equal.Element.B, "1.12 true": equal.TrueB,
		"1.13":          must(SeriesPair(e(3, 0.4), e(1.3, 0.2))).Element.C / dmsb,
		"1.13 reversed": must(SeriesPair(e(1.3, 0.2), e(3, 0.4))).Element.C / dmsb,
		"1.14 M1":       one.Empirical.C / dmsb, "1.14 M3": three.Empirical.C / dmsb,
		"1.14 F1": one.Fanno.C / dmsb, "1.14 F3": three.Fanno.C / dmsb,
		"1.S": dmsb / NozzleConductance(1e-6), "2.par": ChokedParameter(),
	}
	for _, b := range []float64{0.2, 0.3, 0.4, 0.5} {
		q := must(e(1, b).Flow(7.013*bar, room, 6.013*bar)).FreeAir.Volume / lpm
		m["1.q "+strconv.FormatFloat(b, 'g', -1, 64)] = q
	}
	for _, x := range []float64{0.5, 1, 2} {
		s := strconv.FormatFloat(x, 'g', -1, 64)
		down := Blowdown(x, Adiabatic)
		m["2.10 p "+s], m["2.10 T "+s], m["2.10 i "+s] = down.Pressure, down.Temperature, Blowdown(x, Isothermal).Pressure
	}
	b := balmer()
	m["2.1 adiab"], m["2.1 T"] = b["adiab"], b["T"]
	a := aef()
	m["9.1 tau"], m["9.1 adiab"], m["9.1 iso"], m["9.1 flow"], m["9.16"] = a["9.1 tau"], a["9.1 time"], a["9.1 iso"], a["9.1 old"], a["9.16"]
	return m
}

func recomputedAir(m map[string]float64) {
	cold := must(PolytropicTemperature(298, 10e6, 200e3, Gamma))
	m["2.7 T"] = float64(cold)
	m["2.7 m1"], m["2.7 m2"] = Mass(10e6, 20, 298), Mass(200e3, 20, cold)
	m["0.1 humid"], m["0.1 dry"] = must(HumidDensity(100e3, room, 0.65)), Density(100e3, room)
	for _, c := range []float64{-40, -20, -10, -5, 10, 35, 60} {
		m["5.2 "+strconv.FormatFloat(c, 'g', -1, 64)] = float64(must(SaturationWater(celsius(c))))
	}
	m["5.2 i-10"] = over(-10)
	for _, c := range []float64{-70, -40, -20, 3, 7, 10} {
		m["5.c "+strconv.FormatFloat(c, 'g', -1, 64)] = vapour(c)
	}
	for p, s := range map[quantity.AbsPressure]string{6 * bar: "", 7 * bar: "7"} {
		pv := AtPressure(must(Saturation(celsius(3))), atm+p, atm)
		m["5.5 frost"+s], m["5.5 dew"+s] = must(FrostPoint(pv)).Celsius(), must(DewPoint(pv)).Celsius()
	}
	for _, h := range []float64{-500, 500, 1000, 2000, 6000} {
		m["8 "+strconv.FormatFloat(h, 'g', -1, 64)] = float64(must(AtGeopotential(h)).Pressure)
	}
	m["8 g1000"] = float64(must(AtGeometric(1000)).Pressure)
}

// dewTolerance is the step between the two formulas at 0 °C, 0.3 ppm of the
// pressure [K].
const dewTolerance = 1e-5

func TestExactDewPointInverse(t *testing.T) {
	for c := -55.0; c <= 90; c += 5 {
		if got := must(DewPoint(must(SaturationWater(celsius(c))))).Celsius(); math.Abs(got-c) > dewTolerance {
			t.Errorf("dew point of saturated air at %v °C: %v", c, got)
		}
		if got := must(FrostPoint(must(Saturation(celsius(c))))).Celsius(); math.Abs(got-c) > dewTolerance {
			t.Errorf("frost point of saturated air at %v °C: %v", c, got)
		}
	}
}
