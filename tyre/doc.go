// Package tyre reads a tyre's size as it is marked on the sidewall and works
// out what a suspension needs to know of it: diameters and radii, the flange
// line of the rim, the load and the speed it is made for, what another size
// would change, and whether two tyres belong on one axle.
//
// A size that can be read in two ways is never guessed. What stands in the way
// of an answer comes back as a *Question; what only needs saying stands in
// [Size.Questions].
//
// # Kinds of marking
//
//	185/70R14       metric: width mm, aspect %, rim in
//	185R14          full section: no aspect marked, 82 % by default
//	6.40-13         inch: width in, no aspect; an estimate, to be measured
//	31x10.50R15     flotation: outer diameter in, width in, rim in
//	G78-15          alphanumeric: a load letter; only rows of a table are known
//
// Lengths are in metres, masses in kilograms, speeds in metres per second.
package tyre
