package study

import "jounce/internal/finding"

// Path is the way of the body from its highest to its lowest, one step a
// millimetre: what the handle of the height rule runs over. Its height is the
// mean change of the two axles from ROAD; between the presets the axles go in
// proportion, beyond the outermost ones alike.
type Path struct {
	Known   bool
	Steps   []Step         // the highest first
	Presets [4]*Step       // DOWN, ROAD, HUMP, HIGH; nil where not set
	Touches []Touch        // in the order in which they meet on the way down; those that never meet last
	Wishes  []WishMark     // heights that the customer asked for
	Stop    finding.Number // where the body rests: the first that ends the way down, below ROAD
	Droop   finding.Number // the highest that the travel allows, above ROAD
	Road    Ways           // what is on the customer's way
}

// Step is the body at one height.
type Step struct {
	Height       float64           // mean change from ROAD, up is plus [m]
	Front, Rear  float64           // change at the axles [m]
	Sill, Lowest finding.Number    // over the floor
	Aim          finding.Number    // dipped beam, below horizontal is minus
	NoseUp       float64           // pitch from ROAD [rad]
	Spring       [2]finding.Number // spring height, front and rear
	Pressure     [2]finding.Number // in it, driver aboard
	Bump, Droop  [2]finding.Number // travel left, to solid and to the end
	Left         []finding.Number  // room left at each of Path.Touches
}

// Touch is a place where something meets something.
type Touch struct {
	ID      string // of the touch point; "stop.front", "sill", "lowest", "lip" for those the study makes itself
	Name    string
	Path    string         // where it is typed
	Place   string         // FL, front, …
	Moves   string         // "with the body", "with the wheel", "limits droop"
	Room    finding.Number // at ROAD
	At      finding.Number // change of height at which they meet, below ROAD is minus; unknown where they never meet
	Ends    bool           // the body cannot go past it
	Rests   bool           // rubber that is meant to be rested on
	Rank    int            // 1, 2, …; 0 where they never meet on the way
	X, Z    finding.Number // where it is drawn: behind the front axle, over the floor at ROAD
	Y       finding.Number // left of the middle, right is minus; unknown where it is not read
	Assumed bool           // X or Z is assumed
	Photo   string         // id of its picture
}

// WishMark is a height that a wish asks for.
type WishMark struct {
	No     int
	Words  string
	Height finding.Number // change from ROAD
}

// Ways are what the customer's car must get over, as the drawing needs it.
type Ways struct {
	Hump, HumpLength, Kerb, RampStep, RampLength, RampRise finding.Number
}
