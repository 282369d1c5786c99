// Package spring is the statics of an air spring: from a maker's points of
// load, pressure and height to force, pressure, rate, travel and what a load,
// the cold or a bump do to it.
//
// # Force and area
//
// The force of an air spring is its gauge pressure times its effective area.
// The area is never taken from a diameter: it is load over pressure at the
// height in question, from the maker's points (S31). [New] takes one point or
// many; what one point cannot say is refused by name ([Missing]).
//
// # Bellows and sleeve
//
// A bellows (convoluted) spring loses area fast as it grows taller; the second
// term of its rate is often larger than the first (in case 3.1 of source FS,
// 63 %). A sleeve (rolling lobe) has a height range over which the area hardly
// changes, its plateau, and a profile of the piston may tilt it. So, where only
// one height is known, a sleeve's area is taken as constant with a doubt of 1 %
// in 10 mm (common practice), while a bellows gets no rate at all until a
// second height is known. [Spring.Behaviour] says what the points look like.
//
// # Signs and units
//
// Height is the length of the spring between its end plates and grows with
// extension. Pressures are gauge unless a name says absolute. Lengths are in
// metres, forces in newtons, rates in newtons per metre, positive when the
// spring pushes harder as it gets shorter. Doubts named Half are 95 %
// half-widths; doubts named Share are the same over the value.
package spring
