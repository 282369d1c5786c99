// Package stance is how a car stands: the weight on its wheels, what people and
// luggage add, whether four heights lie in a plane, how far it pitches and
// where its lamps then point, and how high body, arches and sills are.
//
// # Axes
//
// ISO 8855: x forward, y left, z up. Since a workshop measures from the front
// axle backwards, positions along the car are given as Back, the distance
// behind the front axle, and positions across as Left, the distance left of the
// centre line, left as seated facing forward. Pitch is given as NoseUp, roll as
// LeftUp, so that no sign has to be remembered.
//
// # Two heights that must not be mixed up
//
// Hub to arch says where the suspension is and does not know the tyre. Ground to
// body says what clears the road and includes the tyre. See
// [LooksLikeGroundToArch].
//
// Lengths are in metres, masses in kilograms, angles in radians, doubts named
// Half are 95 % half-widths.
package stance
