package stance

// Stand is where the centres of the wheels are when the car stands on a way.
type Stand struct {
	Front, Rear Spot
}

// Stand puts the front wheel's centre over x; the rear one follows a wheelbase
// behind, both rolling on the way as circles of the radius [all m]. It errs as
// Over does.
func (w Way) Stand(x, wheelbase, radius float64) (Stand, error) {
	if !above(wheelbase) || wheelbase > 6 || !(radius >= 0 && radius <= 1) || len(w) == 0 || !(x > -100 && x < 100) {
		return Stand{}, bad("wheelbase [m]", wheelbase, "a wheelbase up to 6 m, wheels up to 1 m, a way and a place on it")
	}
	fz := w.hub(x, radius)
	rx, rz, err := w.rear(x, fz, wheelbase, radius)
	return Stand{Spot{x, fz}, Spot{rx, rz}}, err
}

// At is the height of the way over x [m]; at a step its upper edge.
func (w Way) At(x float64) float64 {
	z := 0.0
	for i, s := range w {
		if x < s.X {
			if i == 0 {
				return 0
			}
			a := w[i-1]
			return a.Z + (s.Z-a.Z)*(x-a.X)/(s.X-a.X)
		}
		z = s.Z
	}
	return z
}
