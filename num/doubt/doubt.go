// Package doubt carries the doubt of measured inputs through a calculation.
//
// A doubt is a 95 % half-width: the value lies within it of the figure shown
// in nineteen cases of twenty. Linear is quick and gives each input's share;
// MonteCarlo is slower, believes in no straight line and checks Linear.
//
// Inputs are taken as independent. What two readings have in common (the
// calibration of one gauge read twice) is made an input of its own, so that it
// is counted once.
package doubt

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"sort"
)

// Coverage is the half-width of 95 % of a normal distribution [standard
// deviations].
const Coverage = 1.959963984540054

// Func is a calculation: from its inputs to one number. It must not keep or
// change the slice.
type Func func(x []float64) (float64, error)

// Input is a measured quantity.
type Input struct {
	Value float64 // [unit of the quantity]
	Half  float64 // 95 % half-width, zero for an exact input [unit of the quantity]
}

// Result is the outcome of Linear.
type Result struct {
	Value    float64   // the calculation at the inputs' values [unit of the result]
	Half     float64   // 95 % half-width [unit of the result]
	Effects  []float64 // change of the result when the input grows by its half-width, linearly [unit of the result]
	Shares   []float64 // each input's part of the squared half-width; they add up to 1, or are all zero [1]
	PlusFive []float64 // change of the result when the input grows by 5 %; NaN where it cannot be calculated [unit of the result]
	OneSided int       // inputs whose effect could be found on one side only [1]
}

// Low is the least likely value [unit of the result].
func (r Result) Low() float64 { return r.Value - r.Half }

// High is the greatest likely value [unit of the result].
func (r Result) High() float64 { return r.Value + r.Half }

// Errors of this package.
var (
	ErrInput  = errors.New("an input must be a number and its half-width not below zero")
	ErrNumber = errors.New("the calculation gave no number")
	ErrFailed = errors.New("the calculation failed for too many of the samples")
	ErrCount  = errors.New("at least 100 samples are needed")
)

// smallest is the least step of a difference, relative to the value [1]. It
// keeps rounding (2⁻⁵³) four digits below the step's effect.
const smallest = 1e-8

// Linear propagates doubts by central differences.
//
//	U² = Σ (∂f/∂xᵢ · Uᵢ)²,  ∂f/∂xᵢ ≈ (f(xᵢ+d) − f(xᵢ−d)) / 2d,  d = Uᵢ/2
//
// x, U: inputs and their 95 % half-widths [own units]; U of the result [unit of
// the result]. Sources: the law of propagation of uncertainty (JCGM 100:2008,
// equation 10) for independent inputs. The step is half the half-width, so that
// a bend or a kink within the likely range is averaged over it and the
// calculation's own numerical noise does not matter. Exact for a linear and for
// a quadratic calculation's slope; for others the error of the half-width is of
// the order (U/scale of the bend)², and the shift of the mean by curvature is
// left out. Where the calculation fails on one side of an input, the other side
// is used alone and counted in OneSided.
func Linear(f Func, in []Input) (Result, error) {
	x, err := values(in)
	if err != nil {
		return Result{}, err
	}
	r := Result{
		Effects:  make([]float64, len(in)),
		Shares:   make([]float64, len(in)),
		PlusFive: make([]float64, len(in)),
	}
	if r.Value, err = call(f, x); err != nil {
		return Result{}, err
	}
	var sum float64
	for i := range in {
		if in[i].Half > 0 {
			oneSided, err := r.effect(f, x, i, in[i].Half)
			if err != nil {
				return Result{}, err
			}
			if oneSided {
				r.OneSided++
			}
			sum += r.Effects[i] * r.Effects[i]
		}
		r.PlusFive[i] = plusFive(f, x, i, r.Value)
	}
	r.Half = math.Sqrt(sum)
	if sum > 0 {
		for i, e := range r.Effects {
			r.Shares[i] = e * e / sum
		}
	}
	return r, nil
}

// effect finds what input i does with a step on both sides, or on one.
func (r *Result) effect(f Func, x []float64, i int, half float64) (oneSided bool, err error) {
	at := x[i]
	d := math.Max(half/2, smallest*math.Abs(at))
	x[i] = at + d
	up, errUp := call(f, x)
	x[i] = at - d
	down, errDown := call(f, x)
	x[i] = at
	switch {
	case errUp != nil && errDown != nil:
		return false, fmt.Errorf("input %d, %g ± %g: %w", i+1, at, half, errUp)
	case errUp != nil:
		r.Effects[i] = (r.Value - down) / d * half
	case errDown != nil:
		r.Effects[i] = (up - r.Value) / d * half
	default:
		r.Effects[i] = (up - down) / (2 * d) * half
	}
	return errUp != nil || errDown != nil, nil
}

func plusFive(f Func, x []float64, i int, value float64) float64 {
	at := x[i]
	if at == 0 {
		return 0
	}
	x[i] = at * 1.05
	v, err := call(f, x)
	x[i] = at
	if err != nil {
		return math.NaN()
	}
	return v - value
}

// Sample is the outcome of MonteCarlo.
type Sample struct {
	Value  float64 // mean [unit of the result]
	Half   float64 // 1.96 standard deviations [unit of the result]
	Lo, Hi float64 // 2.5 and 97.5 per cent of the samples lie below [unit of the result]
	N      int     // samples the calculation answered [1]
	Failed int     // samples it did not [1]
}

// MonteCarlo propagates doubts by drawing inputs from normal distributions with
// standard deviation U/1.96.
//
// Source: JCGM 101:2008. The generator is PCG with the seed given, so the same
// seed gives the same figures. With n samples the half-width is uncertain by
// about 1/√(2n) of itself and the ends of the range by about twice that. More
// than one sample in a hundred on which the calculation fails is an error;
// fewer are counted in Failed and left out, which narrows the range slightly.
func MonteCarlo(f Func, in []Input, n int, seed uint64) (Sample, error) {
	if n < 100 {
		return Sample{}, ErrCount
	}
	x, err := values(in)
	if err != nil {
		return Sample{}, err
	}
	rng := rand.New(rand.NewPCG(seed, 0x9e3779b97f4a7c15))
	got := make([]float64, 0, n)
	var last error
	for range n {
		for i := range in {
			x[i] = in[i].Value
			if in[i].Half > 0 {
				x[i] += rng.NormFloat64() * in[i].Half / Coverage
			}
		}
		v, err := call(f, x)
		if err != nil {
			last = err
			continue
		}
		got = append(got, v)
	}
	if failed := n - len(got); failed*100 > n {
		return Sample{}, fmt.Errorf("%w: %d of %d, last: %w", ErrFailed, failed, n, last)
	}
	s := summary(got)
	s.Failed = n - len(got)
	return s, nil
}

func summary(v []float64) Sample {
	var mean, m2 float64
	for i, x := range v {
		d := x - mean
		mean += d / float64(i+1)
		m2 += d * (x - mean)
	}
	sort.Float64s(v)
	return Sample{
		Value: mean, N: len(v),
		Half: Coverage * math.Sqrt(m2/float64(len(v)-1)),
		Lo:   quantile(v, 0.025), Hi: quantile(v, 0.975),
	}
}

func quantile(sorted []float64, q float64) float64 {
	at := q * float64(len(sorted)-1)
	k := int(at)
	if k+1 >= len(sorted) {
		return sorted[len(sorted)-1]
	}
	return sorted[k] + (at-float64(k))*(sorted[k+1]-sorted[k])
}

// Combine is the half-width of a sum or difference of independent quantities
// with these half-widths: the root of the sum of their squares [their unit].
func Combine(halves ...float64) float64 {
	var sum float64
	for _, h := range halves {
		sum += h * h
	}
	return math.Sqrt(sum)
}

func values(in []Input) ([]float64, error) {
	x := make([]float64, len(in))
	for i, v := range in {
		if math.IsNaN(v.Value) || math.IsInf(v.Value, 0) || !(v.Half >= 0) || math.IsInf(v.Half, 0) {
			return nil, fmt.Errorf("%w: input %d is %g ± %g", ErrInput, i+1, v.Value, v.Half)
		}
		x[i] = v.Value
	}
	return x, nil
}

func call(f Func, x []float64) (float64, error) {
	v, err := f(x)
	if err != nil {
		return 0, err
	}
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, ErrNumber
	}
	return v, nil
}
