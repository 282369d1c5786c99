package gas

import (
	"fmt"
	"math"

	"jounce/num/ode"
	"jounce/quantity"
)

// Heat says how the air of a vessel exchanges heat with its wall.
type Heat int

// The two bounds. A real vessel lies between: near Adiabatic for a fill of a
// second, near Isothermal for one of minutes.
const (
	Isothermal Heat = iota // the air keeps the wall's temperature
	Adiabatic              // no heat passes
)

// TimeConstant is the time in which a choked element would empty a vessel if
// the flow stayed as it is at the start [s].
//
//	τ = V/(C·p0)·√(T0/T)
//
// V [m³], C [m³/(s·Pa)], p0 = 100 kPa and T0 = 293.15 K those of ANR, T of the
// air [K]. Sources: AEF, COURSE-S. Air is counted by p·V/T here and in the
// whole file, so that the density of the reference cancels; a count by mass
// with ρ0 = 1.185 and dry R gives times longer by 0.28 %.
func TimeConstant(volume, c float64, t quantity.Temperature) (float64, error) {
	if err := positive("volume", volume, "sonic conductance", c, "temperature", float64(t)); err != nil {
		return 0, err
	}
	return volume / (c * float64(quantity.ANR.Pressure)) * math.Sqrt(float64(quantity.ANR.Temperature)/float64(t)), nil
}

// NozzleTimeConstant is the same for a hole of an area and a discharge
// coefficient [s]: τ = V/(Cd·A·√(R·T)·0.684731). Source: AEF.
func NozzleTimeConstant(volume, area, coefficient float64, t quantity.Temperature) (float64, error) {
	if err := positive("volume", volume, "area", area, "discharge coefficient", coefficient, "temperature", float64(t)); err != nil {
		return 0, err
	}
	return volume / (coefficient * area * math.Sqrt(R*float64(t)) * ChokedParameter()), nil
}

// BlownDown is a vessel during choked emptying, over its start.
type BlownDown struct {
	Pressure    float64 // p/p0 [1]
	Temperature float64 // T/T0 [1]
	Flow        float64 // ṁ/ṁ0 [1]
}

// Blowdown is a vessel after choked emptying for a time of x time constants.
//
//	isothermal: p/p0 = ṁ/ṁ0 = e⁻ˣ
//	adiabatic:  s = 1 + (γ−1)/2·x:  p/p0 = s^(−2γ/(γ−1)), T/T0 = s⁻², ṁ/ṁ0 = s^(−(γ+1)/(γ−1))
//
// Source: AEF; older handbooks print (γ+1)/2 in s, which is wrong. Holds while
// the flow is choked. Exact.
func Blowdown(x float64, h Heat) BlownDown {
	if h == Isothermal {
		p := math.Exp(-x)
		return BlownDown{p, 1, p}
	}
	s := 1 + (Gamma-1)/2*x
	return BlownDown{
		Pressure:    math.Pow(s, -2*Gamma/(Gamma-1)),
		Temperature: 1 / (s * s),
		Flow:        math.Pow(s, -(Gamma+1)/(Gamma-1)),
	}
}

// BlowdownTime is the time of choked emptying to p/p0, in time constants [1]:
// the inverse of Blowdown.
func BlowdownTime(ratio float64, h Heat) (float64, error) {
	if !(ratio > 0 && ratio <= 1) {
		return 0, outside("pressure over that at the start", ratio, "above 0 to 1")
	}
	if h == Isothermal {
		return -math.Log(ratio), nil
	}
	return 2 / (Gamma - 1) * (math.Pow(ratio, -(Gamma-1)/(2*Gamma)) - 1), nil
}

// ChokedFillTime is the time in which a choked element brings a vessel from one
// pressure to another [s].
//
//	t = V·(p2 − p1)/(n·C·ps·p0)·√(T0/Ts), n = 1 isothermal, 1.4 adiabatic
//
// Source: COURSE-S. Range: p2 ≤ b·ps. When isothermal the vessel has the
// supply's temperature.
func ChokedFillTime(volume float64, e Element, supply quantity.AbsPressure, ts quantity.Temperature, from, to quantity.AbsPressure, h Heat) (float64, error) {
	if err := e.Check(); err != nil {
		return 0, err
	}
	tau, err := TimeConstant(volume, e.C, ts)
	if err != nil {
		return 0, err
	}
	if !(from >= 0 && from <= to) || float64(to) > e.B*float64(supply)*(1+1e-12) {
		return 0, outside("pressure to fill to", float64(to), "from the start to the critical ratio times the supply")
	}
	n := 1.0
	if h == Adiabatic {
		n = Gamma
	}
	return tau * float64(to-from) / (n * float64(supply)), nil
}

// FillTemperature is the temperature in a rigid vessel after filling without
// loss of heat.
//
//	Tf = pf/((pf − pi)/(γ·Ts) + pi/Ti)
//
// p absolute, pi before, pf after [Pa]; Ti before, Ts of the supply [K].
// Source: COURSE-S. From vacuum Tf = γ·Ts. The wall takes heat at once in
// reality: this is the upper bound.
func FillTemperature(ti quantity.Temperature, pi, pf quantity.AbsPressure, ts quantity.Temperature) (quantity.Temperature, error) {
	if err := positive("temperature before", float64(ti), "temperature of the supply", float64(ts), "pressure after", float64(pf)); err != nil {
		return 0, err
	}
	if !(pi >= 0 && pi <= pf) {
		return 0, outside("pressure before", float64(pi), "0 to the pressure after")
	}
	return quantity.Temperature(float64(pf) / (float64(pf-pi)/(Gamma*float64(ts)) + float64(pi)/float64(ti))), nil
}

// HeatingRate is the rise of temperature of a rigid vessel being filled, no
// heat lost [K/s]: dT/dt = ṁ·(γ·Ts − T)/m, m mass inside [kg], ṁ [kg/s]. From
// the energy balance m·cv·dT/dt = ṁ·(cp·Ts − cv·T).
func HeatingRate(mass float64, flow quantity.MassFlow, t, ts quantity.Temperature) float64 {
	return float64(flow) * (Gamma*float64(ts) - float64(t)) / mass
}

// Point is a vessel at an instant.
type Point struct {
	T           float64              // since the start [s]
	Pressure    quantity.AbsPressure // [Pa]
	Temperature quantity.Temperature // [K]
}

// Run is the filling or emptying of a vessel over time.
type Run struct {
	End         Point
	ChokedFor   float64 // time in which the flow was choked [s]
	Curve       []Point // start, every step, end
	Steps       int     // steps of the integration [1]
	Rejected    int     // steps thrown away [1]
	Relative    float64 // error allowed in a step [1]
	FreeAirUsed float64 // air that passed, at 100 kPa and 20 °C [m³]
}

// Side is what a vessel is filled from or emptied into.
type Side struct {
	Pressure    quantity.AbsPressure // held [Pa]
	Temperature quantity.Temperature // of air that comes from it [K]
}

// Exchange follows a vessel that is filled from, or emptied into, a side of
// constant pressure through one element, until it reaches a target pressure.
//
//	filling:   dn/dt = q·p0/T0,            adiabatic dp/dt = γ·Ts/V·dn/dt
//	emptying:  dn/dt = −q·p0/T0, T = p·V/n, adiabatic dp/dt = γ·T/V·dn/dt
//	isothermal: p = n·T/V with T constant
//
// n = p·V/T the amount of air [Pa·m³/K], q by Element.Flow as free air at ANR
// [m³/s], V [m³]. Sources: COURSE-S; ISO 6358 for q. Dormand-Prince 5(4) with
// relative error 1e-9 a step, in time constants; the end by event location.
// Checked against the closed forms to 1e-6 where the flow is choked. A target
// that is not between the vessel's pressure and the side's is an error.
// Kinetic energy and the volume of lines are left out.
func Exchange(volume float64, start Point, e Element, side Side, target quantity.AbsPressure, h Heat) (Run, error) {
	if err := checkExchange(volume, start, e, side, target); err != nil {
		return Run{}, err
	}
	x := exchange{volume: volume, e: e, side: side, heat: h, wall: start.Temperature, fill: side.Pressure > start.Pressure}
	tau, err := TimeConstant(volume, e.C, start.Temperature)
	if err != nil {
		return Run{}, err
	}
	x.tau = tau
	p0 := float64(start.Pressure)
	scale := math.Max(p0, float64(side.Pressure))
	run := Run{Relative: 1e-9}
	o := ode.Options{
		Rel: run.Relative, Abs: []float64{1e-9 * scale, 1e-9 * scale * volume / float64(start.Temperature)},
		Events: []ode.Event{
			{Cross: func(_ float64, y []float64) float64 { return y[0] - float64(target) }, Stop: true},
			{Cross: func(_ float64, y []float64) float64 { return x.ratio(y[0]) - e.B }},
		},
		Watch: func(t float64, y []float64) { run.Curve = append(run.Curve, x.point(t, y)) },
	}
	y0 := []float64{p0, p0 * volume / float64(start.Temperature)}
	r, err := ode.Solve(x.derivative, 0, y0, horizon, o)
	if err != nil {
		return Run{}, err
	}
	if !r.Stopped {
		return Run{}, fmt.Errorf("the target was not reached in %.0f s: %w", horizon*tau, ErrRange)
	}
	run.End = x.point(r.T, r.Y)
	run.Steps, run.Rejected = r.Steps, r.Rejected
	run.FreeAirUsed = math.Abs(r.Y[1]-y0[1]) * float64(quantity.ANR.Temperature/quantity.Temperature(quantity.ANR.Pressure))
	run.ChokedFor = x.chokedFor(p0, r)
	return run, nil
}

// horizon is the longest time followed [time constants].
const horizon = 1e4

func checkExchange(volume float64, start Point, e Element, side Side, target quantity.AbsPressure) error {
	if err := e.Check(); err != nil {
		return err
	}
	if err := positive("volume", volume, "sonic conductance", e.C, "pressure at the start", float64(start.Pressure),
		"temperature at the start", float64(start.Temperature), "temperature of the other side", float64(side.Temperature)); err != nil {
		return err
	}
	lo, hi := start.Pressure, side.Pressure
	if lo > hi {
		lo, hi = hi, lo
	}
	if !(target > lo && target < hi) || !(side.Pressure >= 0) {
		return outside("target pressure", float64(target), fmt.Sprintf("between %g and %g", float64(lo), float64(hi)))
	}
	return nil
}

type exchange struct {
	volume, tau float64
	e           Element
	side        Side
	heat        Heat
	wall        quantity.Temperature
	fill        bool
}

// ratio is downstream over upstream pressure, the vessel at p [1].
func (x *exchange) ratio(p float64) float64 {
	if x.fill {
		return p / float64(x.side.Pressure)
	}
	return float64(x.side.Pressure) / p
}

func (x *exchange) temperature(y []float64) float64 {
	if x.heat == Isothermal {
		return float64(x.wall)
	}
	return y[0] * x.volume / y[1]
}

func (x *exchange) point(t float64, y []float64) Point {
	return Point{T: t * x.tau, Pressure: quantity.AbsPressure(y[0]), Temperature: quantity.Temperature(x.temperature(y))}
}

// derivative is that of pressure and amount, time in time constants.
func (x *exchange) derivative(_ float64, y, dy []float64) {
	t := x.temperature(y)
	up, from, sign := y[0], t, -1.0
	if x.fill {
		up, from, sign = float64(x.side.Pressure), float64(x.side.Temperature), 1
	}
	const p0, t0 = 100e3, 293.15 // ANR
	share, _ := x.e.Share(math.Min(1, x.ratio(y[0])))
	dn := sign * x.e.C * up * math.Sqrt(t0/from) * share * p0 / t0
	dy[1] = dn * x.tau
	if x.heat == Isothermal {
		dy[0] = dn * t / x.volume * x.tau
		return
	}
	dy[0] = Gamma * from / x.volume * dn * x.tau
}

// chokedFor is the time to the crossing of the critical ratio, the whole time
// if it began choked and stayed so, none if it began above.
func (x *exchange) chokedFor(p0 float64, r ode.Result) float64 {
	if x.ratio(p0) >= x.e.B {
		return 0
	}
	for _, c := range r.Crossings {
		if c.Event == 1 {
			return c.T * x.tau
		}
	}
	return r.T * x.tau
}
