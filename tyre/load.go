package tyre

import "math"

const (
	firstIndex = 60
	lastIndex  = 126
)

// loads are the masses that the load indices 60 to 126 stand for [kg].
// Indices 60 to 119: T7. 120 to 126 are from memory. One copy of the
// source prints 165 for 62; 265 is right.
var loads = [...]float64{
	250, 257, 265, 272, 280, 290, 300, 307, 315, 325, // 60
	335, 345, 355, 365, 375, 387, 400, 412, 425, 437, // 70
	450, 462, 475, 487, 500, 515, 530, 545, 560, 580, // 80
	600, 615, 630, 650, 670, 690, 710, 730, 750, 775, // 90
	800, 825, 850, 875, 900, 925, 950, 975, 1000, 1030, // 100
	1060, 1090, 1120, 1150, 1180, 1215, 1250, 1285, 1320, 1360, // 110
	1400, 1450, 1500, 1550, 1600, 1650, 1700, // 120, from memory
}

// LoadOf is the mass that one tyre of that load index may carry [kg].
// Outside 60 to 126 it reports false.
func LoadOf(index int) (kg float64, ok bool) {
	if index < firstIndex || index > lastIndex {
		return 0, false
	}
	return loads[index-firstIndex], true
}

// IndexFor is the least load index that carries so much [kg]. It reports false
// where none up to 126 does.
func IndexFor(kg float64) (index int, ok bool) {
	for i, v := range loads {
		if v >= kg {
			return firstIndex + i, true
		}
	}
	return 0, false
}

// kmh is one kilometre per hour [m/s].
const kmh = 1 / 3.6

// speeds are the speed symbols [km/h]. Q, S, T, U, H, V, W, Y: T8.
// J, K, L, M, N, P, R are from memory. Z only says "over 240": 0.
var speeds = map[string]float64{"J": 100, "K": 110, "L": 120, "M": 130, "N": 140, "P": 150, "Q": 160,
	"R": 170, "S": 180, "T": 190, "U": 200, "H": 210, "V": 240, "W": 270, "Y": 300, "Z": 0}

// SpeedOf is the speed that a symbol stands for [m/s]. Z gives 0: it says no
// more than "over 240 km/h".
func SpeedOf(symbol string) (v float64, ok bool) {
	kmPerH, ok := speeds[symbol]
	return kmPerH * kmh, ok
}

// SpeedLoadShare is the share of the load index that a tyre may carry at a
// speed [1]: 1 up to 210 km/h for V and 240 for W, from there falling in a
// straight line to 0.91 at 240 (V) and 0.85 at 270 (W). Source T9.
// Y likewise from 270 to 0.85 at 300 (from memory). Above the symbol's own
// speed, and for symbols that are not known, it reports false.
func SpeedLoadShare(symbol string, v float64) (share float64, ok bool) {
	top, known := SpeedOf(symbol)
	if !known || top == 0 || v < 0 || v > top*(1+1e-12) {
		return 0, false
	}
	var from, least float64
	switch symbol {
	case "V":
		from, least = 210*kmh, 0.91
	case "W":
		from, least = 240*kmh, 0.85
	case "Y":
		from, least = 270*kmh, 0.85
	default:
		return 1, true
	}
	if v <= from {
		return 1, true
	}
	return 1 - (1-least)*math.Min((v-from)/(top-from), 1), true
}
