// Package photo takes a picture from a telephone and redraws a car in it at
// another height.
//
// Take is the guard: it looks at what a file is before it decodes it, turns the
// picture upright, shrinks it, and writes it anew without anything that was
// said about it, above all without the place where it was taken. ScaleOf turns
// the hubs and the wheelbase into millimetres per pixel. Redraw moves the body
// over the wheels by true millimetres, the wheels and the floor staying where
// they are.
//
// # What one picture cannot show
//
// A photograph is seen from one place. The scale is right in one upright plane,
// that of the hubs pointed at; what stands further from the camera is drawn
// smaller there, what stands nearer larger. The roof of a car stands some
// 0.25 m inboard of the outer faces of its tyres, so that at 6 m it is 4 % too
// small, its movement too. Redraw says how much that comes to and which figures
// were assumed.
//
// From a place that is not square to the car the wheelbase is foreshortened and
// heights are not: the hubs then seem to stand too high. Four points show that
// (ScaleOf compares the hubs' heights with the tyres' loaded radius); two cannot.
//
// The wheels of the far side, shadows, reflections and what is seen through the
// glass are treated as what they are in a flat picture. Wheels of the far side
// stay with the floor; what is seen through the glass goes with the body. Where
// the body uncovers something that no photograph of it has seen, the strip is
// stretched from what lies beside it, and its height is reported. A pitch turns
// the body about the floor, which also shifts the roof along the car; columns
// of the picture are moved up and down only, and that shift is reported too.
//
// # Places
//
// A Point is in pixels from the left and upper edge of the upright picture, the
// middle of the first pixel at 0.5, 0.5. A Spot is in metres: x rearwards from
// the front hub along the floor, z up from the floor, as in the outline of a
// body. The package knows nothing of jobs and bodies; the caller brings lines.
package photo
