package sum

import (
	"jounce/gas"
	"jounce/quantity"
	"jounce/source"
)

var airAtHeight = Sum{
	Name: "air-at-height", Question: "What is the air like up there?", Group: Air,
	Words:  []string{"altitude", "barometer", "mountain", "pass", "standard atmosphere", "density", "thin air", "mbar", "hPa"},
	Source: []source.Mark{"ISO2533", "FLUIDS"},
	Inputs: []Input{
		of(kLength, "m", -400, 9000, Input{Key: "height", Symbol: "z", Label: "Height above the sea", Where: "map or satellite receiver", Width: Width{Fixed: 10}}),
	},
	Outputs: []Output{{"p", "Barometer", kAbs}, {"T", "Temperature", kTemp}, {"", "Free air that a pump draws, against sea level", kRatio}},
	Example: map[string]string{"height": "1500 m"},
	Run:     runAirAtHeight,
}

func runAirAtHeight(a *Args) (Answer, error) {
	z := a.Get("height")
	p, w, err := a.work(kAbs, unit(kAbs, "mbar a"), func(x []float64) (float64, error) {
		air, err := gas.AtGeometric(x[0])
		return float64(air.Pressure), err
	}, z)
	if err != nil {
		return Answer{}, err
	}
	air, err := gas.AtGeometric(z.Value)
	if err != nil {
		return Answer{}, err
	}
	sea, err := gas.AtGeometric(0)
	if err != nil {
		return Answer{}, err
	}
	share := air.Density / sea.Density
	formula(w, "p = 101325 × ({T}/{288.15})^{5.25588}", "101325 × ({"+in(kTemp, "K", float64(air.Temperature), 2)+"}/{288.15})^{5.25588}", p.String())
	step(w, "H", "Height as tables of air count it", at(kLength, "m", air.Geopotential, 0), source.Calc)
	note(w, "Standard atmosphere. Weather moves the real barometer by 3\u00a0%% either way: for a leak test read one.")
	var out Answer
	out.head("", p, w)
	out.out("p", "Barometer", p)
	out.out("T", "Temperature", at(kTemp, "°C", float64(air.Temperature), 0))
	out.out("", "Free air that a pump draws, against sea level", at(kRatio, "%", share, 0))
	out.say("A pump draws %s of the air that it draws at sea level, so it fills that much slower; a gauge set to nought there reads pressures above this barometer.", quantity.Format(kRatio, share, unit(kRatio, "%"), 0))
	return out, nil
}
