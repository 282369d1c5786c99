package sum

import (
	"jounce/gas"
	"jounce/quantity"
	"jounce/source"
)

var tankEnergy = Sum{
	Name: "tank-energy", Question: "What is in that tank if it bursts?", Group: Air,
	Words:  []string{"burst", "stored energy", "reservoir", "receiver", "bar litres", "PS × V", "joule", "kJ", "kg of air"},
	Source: []source.Mark{source.Calc},
	Inputs: []Input{
		gauge("pressure", "p", "Pressure in the tank", "gauge on the tank"),
		of(kVolume, "L", 0.05, 200, Input{Key: "volume", Symbol: "V", Label: "Volume of the tank", Where: "the tank's plate", Width: volume}),
		barometer, roomAir,
	},
	Outputs: []Output{{"W", "Energy set free", quantity.KindEnergy}, {"", "Free air in it", kVolume}, {"m", "Air in it", kMass}},
	Example: map[string]string{"pressure": "10 bar", "volume": "10 L"},
	Cautions: []string{
		"Nobody stands in line with an end cap or over a fitting while it is pumped.",
		"Bleed to nought before a joint is opened: a hand does not hold back this pressure.",
	},
	Run: runTankEnergy,
}

func runTankEnergy(a *Args) (Answer, error) {
	p, v, b, t := a.Get("pressure"), a.Get("volume"), a.Get("barometer"), a.Get("temperature")
	e, w, err := a.work(quantity.KindEnergy, unit(quantity.KindEnergy, "kJ"), func(x []float64) (float64, error) {
		return gas.StoredEnergy(quantity.AbsPressure(x[0]+x[2]), x[1], quantity.AbsPressure(x[2]))
	}, p, v, b)
	if err != nil {
		return Answer{}, err
	}
	free, _, err := a.work(kVolume, unit(kVolume, "L"), func(x []float64) (float64, error) {
		return gas.FreeAir(quantity.GaugePressure(x[0]), x[1], quantity.AbsPressure(x[2])), nil
	}, p, v, b)
	if err != nil {
		return Answer{}, err
	}
	m, _, err := a.work(kMass, unit(kMass, "kg"), func(x []float64) (float64, error) {
		return gas.Mass(quantity.AbsPressure(x[0]+x[2]), x[1], quantity.Temperature(x[3])), nil
	}, p, v, b, t)
	if err != nil {
		return Answer{}, err
	}
	m.Unit = unit(kMass, "g")
	formula(w, "W = {(p + p_{b}) V}/{γ − 1} (1 − ({p_{b}}/{p + p_{b}})^{(γ−1)/γ})", "", e.String())
	note(w, "Expansion without heat, γ = 1.4. The work done on the atmosphere is not taken off, so it errs on the high side.")
	var out Answer
	out.head("", e, w)
	out.out("W", "Energy set free", e)
	out.out("", "Free air in it", free)
	out.out("m", "Air in it", m)
	out.say("As much as %s dropped from %s.", quantity.Format(kMass, 100, unit(kMass, "kg"), 0),
		quantity.Format(kLength, e.Value/(100*quantity.StandardGravity), unit(kLength, "m"), 1))
	return out, nil
}
