package leak

import (
	"math"

	"jounce/gas"
	"jounce/num/doubt"
	"jounce/quantity"
)

// Test is a pressure-decay test of a vessel that keeps its volume: a tank, the
// lines up to the shut valves.
type Test struct {
	Volume     float64   // [m³]
	VolumeHalf float64   // 95 % half-width [m³]
	Readings   []Reading // in order of time; the first and the last are judged
	Pumped     float64   // from the end of filling to the first reading, zero if not known [s]
	Deformable bool      // a spring or a hose: refused
}

// Part is one instrument's part of a doubt.
type Part struct {
	Name  string  // "gauge", "thermometer", "barometer", "volume", "rule", "area", "ratio"
	Half  float64 // what it adds to the 95 % half-width by itself [unit of the result: Pa, Pa·m³/s or m]
	Share float64 // of the squared half-width [1]
}

// Result is what a decay test says. Loss is positive when air went.
type Result struct {
	First, Last Reading // the two that are judged
	Time        float64 // between them [s]

	BarometerRead bool                   // at both
	B1, B2        quantity.AbsPressure   // barometer used at first and last [Pa]
	P1, P2        quantity.AbsPressure   // absolute pressures at first and last [Pa]
	ByCold        float64                // fall that cold and barometer explain [Pa]
	ColdAlone     quantity.GaugePressure // what the gauge would read at last if nothing was lost [Pa]
	LastAtStart   quantity.GaugePressure // the last reading brought to the first one's temperature and barometer [Pa]
	GaugeDrop     float64                // fall of the gauge, nothing corrected [Pa]
	AbsoluteDrop  float64                // fall of the absolute pressure, temperature not corrected [Pa]

	Lost      float64      // past the cold, at the last temperature [Pa]
	Half      float64      // its 95 % half-width, and that of ColdAlone against the gauge [Pa]
	Parts     []Part       // whose doubt it is
	Doubt     doubt.Result // of Lost: inputs in the order g1, g2, T1, T2, b1, b2
	Gained    bool         // more air at the end than at the start, beyond the doubt: somebody pumped, or a reading is wrong
	Lost12    float64      // scaled to 12 h [Pa]
	Half12    float64      // scaled to 12 h [Pa]
	Low12     float64      // least likely loss in 12 h [Pa]
	High12    float64      // greatest likely loss in 12 h [Pa]
	Rate      Rate         // the same as a flow
	Points    []Point      // every reading, for the curve
	Straying  int          // readings between that no steady leak explains [1]
	Change    float64      // fall of the absolute pressure over the first [1]
	Unsettled bool         // first read less than 20 min after pumping, as far as known
}

// Point is one reading held against the first.
type Point struct {
	At     float64                // from the first reading [s]
	Gauge  quantity.GaugePressure // read [Pa]
	Half   float64                // of the gauge [Pa]
	Known  bool                   // the temperature was read, so that the rest is known
	Cold   quantity.GaugePressure // what the cold alone would leave [Pa]
	Lost   float64                // past the cold since the first reading [Pa]
	Doubt  float64                // 95 % half-width of Lost [Pa]
	Stray  bool                   // off the straight line from first to last by more than its doubt and the line's
	Off    float64                // from that line, positive when less air was there than it says [Pa]
	Judged bool                   // first or last
}

// Decay works out a pressure-decay test.
//
//	ΔP = (p1 + b1)·T2/T1 − (p2 + b2)
//	ΔP₁₂ = ΔP·12 h/t,  U₁₂ = U·12 h/t
//	Q = V/t·((p1+b1)/T1 − (p2+b2)/T2)·T_ref/p_ref
//
// p gauge pressure [Pa], b barometer [Pa], T of the air in the vessel [K], t
// between the readings [s], V volume [m³], Q free air at p_ref = 1.013 bar and
// T_ref = 20 °C [m³/s]; U 95 % half-width of ΔP [Pa]. Sources: CFR for the
// mass balance, E2930 and EN13184 for its scope, handbook B26 (CP) for the way
// of comparing at the last temperature and for 12 h.
//
// Range: rigid vessels; at the first pressure to fall by less than a tenth
// (E2930), see Change. Doubts by num/doubt, linear; closed form otherwise.
//
// The first and the last reading are judged, the others only shown. A line
// fitted through all would be no better: its error is mostly the instruments'
// calibration, which no number of readings averages out, and air that is warmer
// than its thermometer for an hour bends the line without a leak. Readings
// between are held against the straight line instead; one that strays beyond
// its own doubt says that something happened.
//
// A barometer that was not read at both ends counts as unchanged ± 0.02 bar and
// as 1.013 bar or the one value read. That level being 0.1 bar wrong (1000 m)
// shifts the loss by 0.1 bar·(T2/T1 − 1): 4 mbar for 12 K. A thermometer on the
// tank's outside lags the air by minutes; wait.
func Decay(t Test) (Result, error) {
	if err := t.check(); err != nil {
		return Result{}, err
	}
	r := Result{First: t.Readings[0], Last: t.Readings[len(t.Readings)-1]}
	r.Time = r.Last.At - r.First.At
	r.Unsettled = t.Pumped > 0 && t.Pumped < Settled
	in, read := pair(r.First, r.Last)
	r.BarometerRead = read
	if err := r.loss(in); err != nil {
		return Result{}, err
	}
	scale := Night / r.Time
	r.Lost12, r.Half12 = r.Lost*scale, r.Half*scale
	r.Low12, r.High12 = r.Lost12-r.Half12, r.Lost12+r.Half12
	r.Gained = r.Lost+r.Half < 0
	rate, err := rateOf(in, t.Volume, t.VolumeHalf, r.Time)
	if err != nil {
		return Result{}, err
	}
	r.Rate = rate
	r.points(t.Readings)
	return r, nil
}

func (t Test) check() error {
	if t.Deformable {
		return ErrDeformable
	}
	n := len(t.Readings)
	if n < 2 || !(t.Readings[n-1].At > t.Readings[0].At) {
		return ErrReadings
	}
	for i, r := range t.Readings {
		if err := r.check(); err != nil {
			return err
		}
		if i > 0 && r.At < t.Readings[i-1].At {
			return ErrReadings
		}
	}
	if !t.Readings[0].Temperature.Read() || !t.Readings[n-1].Temperature.Read() {
		return ErrNoTemperature
	}
	if !(t.Volume > 0 && t.Volume < 100) || !(t.VolumeHalf >= 0 && t.VolumeHalf < t.Volume) {
		return refuse("the volume", t.Volume, "m³", "above 0 with a smaller doubt")
	}
	return nil
}

// The places of a pair's inputs.
const (
	g1 = iota
	g2
	t1
	t2
	b1
	b2
	inputs
)

// pair makes the inputs of two readings, each instrument's doubt where it
// belongs, and says whether both barometers were read.
func pair(a, b Reading) (in [inputs]doubt.Input, read bool) {
	in[g1].Value, in[g2].Value = float64(a.Gauge.Value), float64(b.Gauge.Value)
	in[g1].Half, in[g2].Half = once(a.Gauge.Half, b.Gauge.Half, a.Gauge.Instrument == b.Gauge.Instrument)
	in[t1].Value, in[t2].Value = float64(a.Temperature.Value), float64(b.Temperature.Value)
	in[t1].Half, in[t2].Half = once(a.Temperature.Half, b.Temperature.Half, a.Temperature.Instrument == b.Temperature.Instrument)
	x, y, hx, hy := barometers(a.Barometer, b.Barometer)
	in[b1], in[b2] = doubt.Input{Value: x, Half: hx}, doubt.Input{Value: y, Half: hy}
	return in, a.Barometer.Read() && b.Barometer.Read()
}

// barometers are the two values used and their doubts [Pa].
func barometers(a, b Barometer) (x, y, halfX, halfY float64) {
	if a.Read() && b.Read() {
		halfX, halfY = once(a.Half, b.Half, a.Instrument == b.Instrument)
		return float64(a.Value), float64(b.Value), halfX, halfY
	}
	v := float64(quantity.StandardAtmosphere)
	if a.Read() {
		v = float64(a.Value)
	}
	if b.Read() {
		v = float64(b.Value)
	}
	return v, v, 0, BarometerChange
}

// lost is the loss past the cold at the second temperature [Pa].
func lost(x []float64) (float64, error) {
	return (x[g1]+x[b1])*x[t2]/x[t1] - x[g2] - x[b2], nil
}

// names of the instruments and the inputs that are theirs.
var instruments = [3]struct {
	name string
	a, b int
}{{"gauge", g1, g2}, {"thermometer", t1, t2}, {"barometer", b1, b2}}

// loss fills in what the two judged readings say.
func (r *Result) loss(in [inputs]doubt.Input) error {
	d, err := doubt.Linear(lost, in[:])
	if err != nil {
		return err
	}
	r.Doubt, r.Lost, r.Half = d, d.Value, d.Half
	r.Parts = parts(d)
	r.B1, r.B2 = quantity.AbsPressure(in[b1].Value), quantity.AbsPressure(in[b2].Value)
	r.P1, r.P2 = r.First.Gauge.Value.Absolute(r.B1), r.Last.Gauge.Value.Absolute(r.B2)
	from, to := r.First.Temperature.Value, r.Last.Temperature.Value
	r.ColdAlone = gas.Heated(r.P1, from, to).Gauge(r.B2)
	r.ByCold = float64(r.First.Gauge.Value - r.ColdAlone)
	r.LastAtStart = gas.Heated(r.P2, to, from).Gauge(r.B1)
	r.GaugeDrop = float64(r.First.Gauge.Value - r.Last.Gauge.Value)
	r.AbsoluteDrop = float64(r.P1 - r.P2)
	r.Change = math.Abs(r.AbsoluteDrop) / float64(r.P1)
	return nil
}

func parts(d doubt.Result) []Part {
	list := make([]Part, len(instruments))
	for i, n := range instruments {
		list[i] = Part{n.name, doubt.Combine(d.Effects[n.a], d.Effects[n.b]), d.Shares[n.a] + d.Shares[n.b]}
	}
	return list
}

// points holds every reading against the first, and those between against the
// straight line from first to last.
func (r *Result) points(list []Reading) {
	r.Points = make([]Point, len(list))
	for i, x := range list {
		p := Point{At: x.At - r.First.At, Gauge: x.Gauge.Value, Half: x.Gauge.Half, Judged: i == 0 || i == len(list)-1}
		if x.Temperature.Read() {
			p.Known = true
			r.hold(&p, x)
		}
		if p.Stray {
			r.Straying++
		}
		r.Points[i] = p
	}
}

func (r *Result) hold(p *Point, x Reading) {
	in, _ := pair(r.First, x)
	if !x.Barometer.Read() { // between two read ones it lies on their line
		share := p.At / r.Time
		in[b1].Value, in[b2].Value = float64(r.B1), float64(r.B1)+share*float64(r.B2-r.B1)
	} else {
		in[b1].Value = float64(r.B1)
	}
	var v [inputs]float64
	for i := range in {
		v[i] = in[i].Value
	}
	if p.At == 0 { // the reading itself
		p.Cold = x.Gauge.Value
		return
	}
	p.Lost, _ = lost(v[:])
	p.Cold = x.Gauge.Value + quantity.GaugePressure(p.Lost)
	ratio := v[t2] / v[t1]
	p.Doubt = doubt.Combine(in[g1].Half*ratio, in[g2].Half, in[b1].Half*ratio, in[b2].Half,
		(v[g1]+v[b1])/v[t1]*ratio*in[t1].Half, (v[g1]+v[b1])/v[t1]*in[t2].Half)
	if !p.Judged {
		p.Off = p.Lost - r.Lost*p.At/r.Time
		p.Stray = math.Abs(p.Off) > doubt.Combine(p.Doubt, r.Half*p.At/r.Time)
	}
}
