package leak

import (
	"jounce/gas"
	"jounce/num/doubt"
	"jounce/quantity"
)

// Reference is the state that a leak in mL/min is counted at: 1.013 bar, 20 °C.
var Reference = quantity.Workshop

// Rate is a leak as a flow.
type Rate struct {
	Throughput float64              // V·ΔP/t at 20 °C [Pa·m³/s]
	Half       float64              // its 95 % half-width [Pa·m³/s]
	FreeAir    quantity.FreeAirFlow // at 1.013 bar, 20 °C [m³/s]
	FreeHalf   float64              // its 95 % half-width [m³/s]
	AtTank     float64              // V·ΔP/(p_ref·t) with ΔP at the last temperature: free air at 1.013 bar and that temperature [m³/s]
	AtTankHalf float64              // its 95 % half-width [m³/s]
	Molar      float64              // [mol/s]
	Mass       quantity.MassFlow    // [kg/s]
	Parts      []Part               // whose doubt it is, the volume included; Half in Pa·m³/s
}

// rateOf makes a flow of the air that went between two readings; AtTank is the
// handbook's own formula, which leaves the air at the tank's last temperature.
func rateOf(in [inputs]doubt.Input, volume, volumeHalf, time float64) (Rate, error) {
	list := append(in[:], doubt.Input{Value: volume, Half: volumeHalf})
	tRef := float64(Reference.Temperature)
	d, err := doubt.Linear(func(x []float64) (float64, error) {
		return x[inputs] / time * ((x[g1]+x[b1])/x[t1] - (x[g2]+x[b2])/x[t2]) * tRef, nil
	}, list)
	if err != nil {
		return Rate{}, err
	}
	r := RateOf(d.Value)
	r.Half = d.Half
	r.FreeHalf = d.Half / float64(Reference.Pressure)
	warm := in[t2].Value / tRef
	r.AtTank, r.AtTankHalf = r.FreeAir.Volume*warm, r.FreeHalf*warm
	r.Parts = append(parts(d), Part{"volume", absolute(d.Effects[inputs]), d.Shares[inputs]})
	return r, nil
}

func absolute(v float64) float64 {
	if v < 0 {
		return -v
	}
	return v
}

// RateOf is a throughput of dry air counted at 20 °C in other measures
// (throughput [Pa·m³/s]): ṁ = Q/(R·T), ṅ = Q/(Rₘ·T), free air Q/p_ref.
func RateOf(throughput float64) Rate {
	t := float64(Reference.Temperature)
	v := throughput / float64(Reference.Pressure)
	return Rate{
		Throughput: throughput,
		FreeAir:    quantity.FreeAirFlow{Volume: v, Ref: Reference},
		AtTank:     v,
		Molar:      throughput / (gas.Molar * t),
		Mass:       quantity.MassFlow(throughput / (gas.R * t)),
	}
}
