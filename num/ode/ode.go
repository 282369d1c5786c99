// Package ode integrates ordinary differential equations that are not stiff,
// and finds the instants at which something happens.
package ode

import (
	"errors"
	"fmt"
	"math"

	"jounce/num/root"
)

// Func sets dy to the derivative of y at t. It must not keep the slices.
type Func func(t float64, y, dy []float64)

// Event is something that happens where its function crosses zero.
type Event struct {
	Cross     func(t float64, y []float64) float64 // zero at the instant [any unit]
	Direction int                                  // +1 only when rising, −1 only when falling, 0 both
	Stop      bool                                 // ends the integration
}

// Options say how closely to integrate. The zero value is not usable: Rel and
// Abs must be set.
type Options struct {
	Rel      float64                      // error allowed in one step, relative to the state [1]
	Abs      []float64                    // and absolute, one for each state or one for all [unit of the state]
	First    float64                      // first step, chosen if zero [unit of t]
	Max      float64                      // longest step, no limit if zero [unit of t]
	MaxSteps int                          // 100 000 if zero [1]
	Events   []Event                      // looked for in every step
	Watch    func(t float64, y []float64) // called at the start and after every step; must not keep y
	At       []float64                    // instants, rising, at which Sampled is filled [unit of t]
}

// Crossing is one event that happened.
type Crossing struct {
	Event int       // index in Options.Events
	T     float64   // instant [unit of t]
	Y     []float64 // state then
}

// Result is the end of an integration and what was done to get there.
type Result struct {
	T           float64     // where it ended [unit of t]
	Y           []float64   // state there
	Crossings   []Crossing  // in order of time
	Sampled     [][]float64 // states at Options.At as far as they were reached
	Stopped     bool        // an event with Stop ended it
	Steps       int         // steps taken [1]
	Rejected    int         // steps tried and thrown away [1]
	Evaluations int         // calls of the derivative [1]
}

// Errors of this package.
var (
	ErrOptions  = errors.New("the integration needs a relative error above zero, and one absolute error or one for each state")
	ErrSteps    = errors.New("the integration ran out of steps")
	ErrTooSmall = errors.New("the step became too small to advance")
	ErrNumber   = errors.New("the derivative is not a number")
)

// Solve integrates dy/dt = f(t, y) from t0 to t1, forwards or backwards.
//
// Method: the embedded Runge-Kutta pair of order 5(4) of J. R. Dormand and
// P. J. Prince (J. Comp. Appl. Math. 6 (1980) 19) with local extrapolation,
// the root mean square of the scaled error held below 1, step control by
// 0.9·err^(−1/5) within 0.2 to 5, and Shampine's continuous extension of order
// 4 for events and samples (E. Hairer, S. P. Nørsett, G. Wanner, Solving
// Ordinary Differential Equations I, section II.6). The global error is about
// the tolerance times the steps for a stable problem; it is not estimated: run
// again with a tenth of the tolerance to see it. Events are located on the
// extension to 4·2⁻⁵² of the time; two crossings of one event within one step
// are missed, so set Max below the shortest time between them. An event whose
// function is zero at the start does not fire until it has left zero.
// Not for stiff equations: there it is slow, and ends in ErrSteps.
func Solve(f Func, t0 float64, y0 []float64, t1 float64, o Options) (Result, error) {
	s, err := begin(f, t0, y0, t1, o)
	if err != nil {
		return Result{}, err
	}
	return s.run()
}

type solver struct {
	f        Func
	o        Options
	t, end   float64
	dir      float64
	h        float64
	y, next  []float64
	stage    []float64
	k        [7][]float64
	fifth    []float64 // coefficient of the continuous extension
	guard    []float64 // event functions at t
	sampleAt int
	r        Result
}

func begin(f Func, t0 float64, y0 []float64, t1 float64, o Options) (*solver, error) {
	n := len(y0)
	if !(o.Rel > 0) || (len(o.Abs) != 1 && len(o.Abs) != n) {
		return nil, ErrOptions
	}
	for _, a := range o.Abs {
		if !(a >= 0) {
			return nil, ErrOptions
		}
	}
	if math.IsNaN(t0) || math.IsNaN(t1) || math.IsInf(t0, 0) || math.IsInf(t1, 0) {
		return nil, fmt.Errorf("%w; from %g to %g", ErrOptions, t0, t1)
	}
	if o.MaxSteps <= 0 {
		o.MaxSteps = 100000
	}
	s := &solver{f: f, o: o, t: t0, end: t1, dir: math.Copysign(1, t1-t0)}
	room := make([]float64, 11*n+len(o.Events))
	cut := func(n int) []float64 { p := room[:n:n]; room = room[n:]; return p }
	s.y, s.next, s.stage, s.fifth, s.guard = cut(n), cut(n), cut(n), cut(n), cut(len(o.Events))
	for i := range s.k {
		s.k[i] = cut(n)
	}
	copy(s.y, y0)
	s.call(s.t, s.y, s.k[0])
	if bad(s.k[0]) {
		return nil, fmt.Errorf("%w at the start", ErrNumber)
	}
	for i, e := range o.Events {
		s.guard[i] = e.Cross(s.t, s.y)
	}
	s.h = s.first()
	return s, nil
}

func (s *solver) call(t float64, y, dy []float64) {
	s.f(t, y, dy)
	s.r.Evaluations++
}

func (s *solver) scale(i int, a, b float64) float64 {
	abs := s.o.Abs[0]
	if len(s.o.Abs) > 1 {
		abs = s.o.Abs[i]
	}
	return abs + s.o.Rel*math.Max(math.Abs(a), math.Abs(b))
}

// first is a careful first step: the change in it is a hundredth of the state
// or of what the tolerance resolves.
func (s *solver) first() float64 {
	span := math.Abs(s.end - s.t)
	h := s.o.First
	if h <= 0 {
		var d0, d1 float64
		for i, y := range s.y {
			if w := s.scale(i, y, y); w > 0 {
				d0 += (y / w) * (y / w)
				d1 += (s.k[0][i] / w) * (s.k[0][i] / w)
			}
		}
		h = 1e-6 * span
		if d0 > 0 && d1 > 0 {
			h = math.Max(h*1e-3, 0.01*math.Sqrt(d0/d1))
		}
	}
	return s.clip(math.Min(h, span))
}

func (s *solver) clip(h float64) float64 {
	if s.o.Max > 0 {
		return math.Min(h, s.o.Max)
	}
	return h
}

func (s *solver) run() (Result, error) {
	s.watch()
	s.sample(s.t, 0)
	for s.dir*(s.end-s.t) > 0 {
		if s.r.Steps+s.r.Rejected >= s.o.MaxSteps {
			return s.finish(), fmt.Errorf("%w at %g", ErrSteps, s.t)
		}
		h, last := s.h, false
		if left := math.Abs(s.end - s.t); h >= left*(1-1e-12) {
			h, last = left, true
		}
		if h <= 4e-16*math.Abs(s.t) || h == 0 {
			return s.finish(), fmt.Errorf("%w at %g", ErrTooSmall, s.t)
		}
		err := s.try(s.dir * h)
		factor := 5.0
		switch {
		case math.IsNaN(err):
			factor = 0.2
		case err > 0:
			factor = math.Min(5, math.Max(0.2, 0.9*math.Pow(err, -0.2)))
		}
		if !(err <= 1) {
			s.r.Rejected++
			s.h = h * math.Min(factor, 0.9)
			continue
		}
		if s.accept(s.dir*h, last) {
			break
		}
		if !last || factor < 1 {
			s.h = s.clip(h * factor)
		}
	}
	return s.finish(), nil
}

func (s *solver) finish() Result {
	s.r.T = s.t
	s.r.Y = append([]float64(nil), s.y...)
	return s.r
}

func (s *solver) watch() {
	if s.o.Watch != nil {
		s.o.Watch(s.t, s.y)
	}
}

// accept looks for events in the step, then moves on. It says whether to stop.
func (s *solver) accept(h float64, last bool) bool {
	s.r.Steps++
	s.extend(h)
	stop := s.events(h)
	to := s.t + h
	if last {
		to = s.end
	}
	if stop {
		c := s.r.Crossings[len(s.r.Crossings)-1]
		s.sample(c.T, h)
		s.t = c.T
		copy(s.y, c.Y)
		s.r.Stopped = true
		s.watch()
		return true
	}
	s.sample(to, h)
	s.t = to
	s.y, s.next = s.next, s.y
	s.k[0], s.k[6] = s.k[6], s.k[0]
	s.watch()
	return false
}

// sample fills the instants asked for up to to, within the step h.
func (s *solver) sample(to, h float64) {
	for s.sampleAt < len(s.o.At) && s.dir*(s.o.At[s.sampleAt]-to) <= 0 {
		y := make([]float64, len(s.y))
		if h == 0 {
			copy(y, s.y)
		} else {
			s.dense((s.o.At[s.sampleAt]-s.t)/h, h, y)
		}
		s.r.Sampled = append(s.r.Sampled, y)
		s.sampleAt++
	}
}

// events finds the crossings in the step and sorts them by time; a stopping one
// is the last.
func (s *solver) events(h float64) (stop bool) {
	if len(s.o.Events) == 0 {
		return false
	}
	first := len(s.r.Crossings)
	for i, e := range s.o.Events {
		before := s.guard[i]
		after := e.Cross(s.t+h, s.next)
		s.guard[i] = after
		if before == 0 || (before > 0) == (after > 0) && after != 0 {
			continue
		}
		if rising := before < 0; e.Direction > 0 && !rising || e.Direction < 0 && rising {
			continue
		}
		s.insert(first, Crossing{Event: i, T: s.locate(e, h)})
	}
	for i := first; i < len(s.r.Crossings); i++ {
		c := &s.r.Crossings[i]
		c.Y = make([]float64, len(s.y))
		s.dense((c.T-s.t)/h, h, c.Y)
		if s.o.Events[c.Event].Stop {
			s.r.Crossings = s.r.Crossings[:i+1]
			return true
		}
	}
	return false
}

func (s *solver) insert(first int, c Crossing) {
	list := append(s.r.Crossings, c)
	for i := len(list) - 1; i > first && s.dir*(list[i].T-list[i-1].T) < 0; i-- {
		list[i], list[i-1] = list[i-1], list[i]
	}
	s.r.Crossings = list
}

func (s *solver) locate(e Event, h float64) float64 {
	r, err := root.Brent(func(u float64) float64 {
		s.dense(u, h, s.stage)
		return e.Cross(s.t+u*h, s.stage)
	}, 0, 1, 1e-14)
	if err != nil { // the extension and the step's end differ by rounding
		return s.t + h
	}
	return s.t + r.X*h
}

func bad(v []float64) bool {
	for _, x := range v {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return true
		}
	}
	return false
}
