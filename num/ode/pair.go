package ode

import "math"

// Coefficients of the Dormand-Prince pair (Hairer, Nørsett, Wanner, table
// II.5.2), and of its continuous extension (there, equation II.6.12 and the
// program DOPRI5).
var (
	nodes = [7]float64{0, 1.0 / 5, 3.0 / 10, 4.0 / 5, 8.0 / 9, 1, 1}
	rows  = [7][6]float64{
		{},
		{1.0 / 5},
		{3.0 / 40, 9.0 / 40},
		{44.0 / 45, -56.0 / 15, 32.0 / 9},
		{19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729},
		{9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656},
		{35.0 / 384, 0, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84},
	}
	errors5 = [7]float64{71.0 / 57600, 0, -71.0 / 16695, 71.0 / 1920, -17253.0 / 339200, 22.0 / 525, -1.0 / 40}
	dense5  = [7]float64{
		-12715105075.0 / 11282082432, 0, 87487479700.0 / 32700410799, -10690763975.0 / 1880347072,
		701980252875.0 / 199316789632, -1453857185.0 / 822651844, 69997945.0 / 29380423,
	}
)

// try makes one step of h into next and returns its scaled error, not a number
// if the derivative was not one.
func (s *solver) try(h float64) float64 {
	for j := 1; j < 7; j++ {
		to := s.stage
		if j == 6 {
			to = s.next
		}
		for i := range to {
			var sum float64
			for m := 0; m < j; m++ {
				sum += rows[j][m] * s.k[m][i]
			}
			to[i] = s.y[i] + h*sum
		}
		s.call(s.t+nodes[j]*h, to, s.k[j])
		if bad(s.k[j]) {
			return math.NaN()
		}
	}
	var sum float64
	for i := range s.y {
		var e float64
		for m, c := range errors5 {
			e += c * s.k[m][i]
		}
		e *= h
		w := s.scale(i, s.y[i], s.next[i])
		if w > 0 {
			sum += (e / w) * (e / w)
		} else if e != 0 {
			return math.Inf(1)
		}
	}
	if len(s.y) == 0 {
		return 0
	}
	return math.Sqrt(sum / float64(len(s.y)))
}

// extend prepares the continuous extension of the step.
func (s *solver) extend(h float64) {
	for i := range s.y {
		var sum float64
		for m, c := range dense5 {
			sum += c * s.k[m][i]
		}
		s.fifth[i] = h * sum
	}
}

// dense is the state at the share u of the step h.
func (s *solver) dense(u, h float64, y []float64) {
	v := 1 - u
	for i := range y {
		rise := s.next[i] - s.y[i]
		bend := h*s.k[0][i] - rise
		other := rise - h*s.k[6][i] - bend
		y[i] = s.y[i] + u*(rise+v*(bend+u*(other+v*s.fifth[i])))
	}
}
