// Package body is the outline of a car's body from the side: a form, the
// measures that were read, and control points that somebody put elsewhere.
//
// x runs rearwards from the front hub, z upwards from the floor with the car at
// ROAD; all lengths in metres. What was measured is known, what was not is
// assumed from the form's proportions and says so.
package body
