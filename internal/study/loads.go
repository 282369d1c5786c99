package study

import "math"

func (v *view) cases()               {}
func (v *view) balance(pad [4]given) {}
func (v *view) plane()               {}
func (v *view) leaks()               {}
func hypot(a, b float64) float64     { return math.Hypot(a, b) }
