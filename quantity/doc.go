// Package quantity reads and writes values with units.
//
// A value is kept as it was typed, byte for byte, beside what it means in SI.
// Reading never assumes. A text that has two sensible meanings is answered
// with a *Question, which carries the texts that would settle it; a text that
// has none is answered with a *Problem, which says what would fix it.
//
//	Parse(KindPressure, "100")      "100" has no unit. 100 psi (6.9 bar) or 100 bar?
//	Parse(KindPressure, "3,5 bar")  3.5 bar
//	Parse(KindMass, "1.250 kg")     1.25 kg or 1250 kg?
//	Parse(KindLength, "3 kg")       kg is a mass. Type a length such as 350 mm.
//
// # What is read
//
// A number is digits with a decimal point or a decimal comma, with an
// exponent (1e3), or a fraction (1/2, 3 1/2, 3-1/2, 3½). Thousands may be
// parted by spaces (1 250), or by points or commas where it is plain that they
// part thousands (1,250,000; 1.250,5). A sign is "-" or U+2212. All spaces of
// Unicode count as a space.
//
// A doubt is "± x", "+/- x" or "+- x", with its own unit, or per cent of the
// value, or with none, when it has the value's unit. Behind a value in per cent
// "± 2 %" is points, "± 2 % of value" a share. A bare ratio with "± 2 %" is a
// question unless the doubt is the larger number: 0.97 ± 1 % can only be a
// share, 1.5 ± 0.5 % may be per cent as a whole. A range is "a to b",
// "a..b" or "range a..b"; it is the middle with half the width as the doubt.
//
// # A point or a comma before exactly three digits
//
// "1.250 kg" may be one kilogram and a quarter or, where the point parts
// thousands, twelve hundred and fifty. It is a question when all of these
// hold:
//   - one separator only, one to three digits before it, exactly three after;
//   - the digits before it do not begin with a zero (0.375 in is plain);
//   - no exponent, and it is no part of a compound (5 ft 1.250 in);
//   - read with thousands, the value is one that this trade could meet for the
//     kind (1250 kg is a car; 1250 bar is nothing here, so 1.250 bar is plain).
//
// The largest value the trade could meet stands beside each kind, in the table
// of kinds. A fourth decimal makes any number plain: 1.2500 kg.
package quantity
