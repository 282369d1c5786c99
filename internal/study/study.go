// Package study is where record, physics and judgement meet: one file for each
// question. It takes what the record says, names what it does not say, hands
// complete inputs to the engines and holds the answers against the shop's
// limits.
package study

import (
	"sort"

	"jounce/body"
	"jounce/internal/catalog"
	"jounce/internal/finding"
	"jounce/internal/job"
)

// Result is all that can be said of one state of the record.
type Result struct {
	Findings []finding.Finding // failures first, then by what they would hold up
	Gaps     []finding.Gap     // what is missing, by how many findings it would settle
	Problems []job.Problem     // what stands in the record and cannot be used
	Tally    finding.Tally
	Refusal  []string // why there are no numbers for this car, empty where there are
	Corners  [4]Corner
	Axles    [2]Axle
	Heights  Heights
	Path     Path         // the way of the body, and what touches on it
	Body     body.Outline // at ROAD, from what was measured of it
	Across   Across       // what was read across the car
	Weights  Weights
	Leaks    []Leak
}

// The corners in the order in which they lie on the car, front up.
const (
	FL = iota
	FR
	RL
	RR
)

// CornerNames are the marks of the corners.
var CornerNames = [4]string{"FL", "FR", "RL", "RR"}

// CornerWords are the corners in words.
var CornerWords = [4]string{"left front", "right front", "left rear", "right rear"}

// AxleNames are the ends of the car.
var AxleNames = [2]string{"front", "rear"}

// Cases are the load cases, in order.
var Cases = [3]string{"empty", "driver", "full"}

// Corner is what can be said of one wheel.
type Corner struct {
	Name     string            // "FL"
	Weight   finding.Number    // under the tyre, as weighed or derived
	Derived  bool              // the weight follows from the total
	Sprung   finding.Number    // carried by the spring
	Case     [3]finding.Number // sprung mass in the cases empty, driver, full
	Pressure [3]finding.Number // at ROAD in the three cases
	Force    finding.Number    // along the spring, driver aboard
	Rate     finding.Number    // spring, moving
	Wheel    finding.Number    // the same at the wheel
	Ride     finding.Number    // frequency
	Peak     finding.Number    // pressure at full bump
	Working  *finding.Working  // of the pressure
	Gap      string            // why there is no pressure
}

// Axle is what can be said of one end of the car.
type Axle struct {
	Name    string // "front"
	Layout  string
	Air     bool
	Refusal string // why there are no spring numbers, empty where there are
	Travel  Travel
	Chart   *SpringChart // load over height, where the maker's table allows it
}

// Travel is the budget of one axle, at the wheel from ROAD.
type Travel struct {
	Bump, Droop      finding.Number // what is left, to the first that ends it
	StopMeets        finding.Number // where the bump stop is first touched
	BumpParts        []Ending       // in the order in which they end it
	DroopParts       []Ending
	Known            bool
	Down, Hump, High finding.Number // the presets, at the wheel from ROAD, down is minus
	Gap              string
}

// Ending is one part that ends travel.
type Ending struct {
	Name string
	At   finding.Number // at the wheel from ROAD
	Ends bool           // it is the first
}

// SpringChart is what the load-over-height figure shows. Lengths in metres,
// forces in newtons, pressures in pascals above the barometer.
type SpringChart struct {
	Name      string
	Isobars   []Isobar
	Least     float64    // height at which the rubber meets itself, or the table ends [m]
	Most      float64    // greatest height, or the table's end [m]
	Road      float64    // spring height at ROAD [m]
	Low, High float64    // spring height at DOWN and HIGH, 0 where no preset is known [m]
	Loads     [3]float64 // along the spring: empty, driver, full; 0 where not known [N]
	LoadText  [3]string  // their pressures: "3.5"
	TooSmall  *Isobar    // above it the spring is too small
	TooBig    *Isobar    // below it the spring is too big
}

// Isobar is load over height at one pressure.
type Isobar struct {
	Pressure float64   // [Pa] above the barometer
	Label    string    // "4 bar"
	Heights  []float64 // [m]
	Loads    []float64 // [N]
}

// Heights is the heights picture: the floor is 0, x rearwards from the front
// axle. A Number that is not known is assumed or left out by the figure.
type Heights struct {
	Form          string
	Wheelbase     finding.Number
	FrontOverhang finding.Number
	RearOverhang  finding.Number
	Roof          finding.Number
	Wheel         [2]Wheel
	Sill          finding.Number    // as read
	SillAt        [4]finding.Number // at DOWN, ROAD, HUMP, HIGH
	Lowest        finding.Number
	LowestName    string
	LowestAt      [4]finding.Number
	Scrub         finding.Number // lower of the two axles
	HubToArch     [4]finding.Number
	Change        [4][2]finding.Number // DOWN, ROAD, HUMP, HIGH: front, rear, from ROAD
	Pitch         [4]finding.Number    // lamp aim change from ROAD, in percent
}

// PresetNames in the order of Heights.SillAt.
var PresetNames = [4]string{"DOWN", "ROAD", "HUMP", "HIGH"}

// Wheel is one axle's tyre as the picture needs it.
type Wheel struct {
	Known    bool
	Size     string
	Diameter finding.Number
	Loaded   finding.Number
	Flange   finding.Number // rim edge radius
	Scrub    finding.Number // loaded radius less flange radius
	Measured bool           // the loaded radius was read, not worked out
}

// Weights is what the four pads say together.
type Weights struct {
	Known bool
	Total finding.Number
	Cross finding.Number
	Front finding.Number // share on the front axle
	Left  finding.Number // share on the left
}

// Of studies a record against a shop's limits. It never fails: what cannot be
// said is a gap or a problem.
func Of(rec *job.Job, shop *catalog.Shop) *Result {
	return newView(rec, shop).run()
}

func (v *view) run() *Result {
	v.refusals()
	v.questions()
	return v.finish()
}

// finish orders what was found.
func (v *view) finish() *Result {
	r := v.out
	for i := range r.Findings {
		v.sign(&r.Findings[i])
		settle(&r.Findings[i])
	}
	inOrder(r.Findings)
	r.Tally = finding.Count(r.Findings)
	r.Gaps = v.collectGaps()
	r.Problems = once(append(v.rec.CheckFields(v.list), v.problems...))
	return r
}

// before puts failures first and, within a verdict, what stops the work.
func before(a, b finding.Finding) bool {
	if a.Verdict != b.Verdict {
		return a.Verdict < b.Verdict
	}
	return a.Grade > b.Grade
}

// sign attaches the owner's signature where there is one and it may be given.
func (v *view) sign(f *finding.Finding) {
	if f.Grade != finding.OwnerSigns {
		return
	}
	for _, s := range v.rec.Signatures {
		if s.Finding == f.ID && s.Who != "" && s.Reason != "" {
			f.Signed = &finding.Signed{Who: s.Who, Reason: s.Reason, At: s.At}
		}
	}
}

// collectGaps merges the gaps of all findings, the one that would settle most
// first.
func (v *view) collectGaps() []finding.Gap {
	at := map[string]int{}
	var out []finding.Gap
	for _, f := range v.out.Findings {
		for _, g := range f.Needs {
			i, ok := at[g.Path]
			if !ok {
				i = len(out)
				at[g.Path] = i
				out = append(out, finding.Gap{Path: g.Path, Label: g.Label, Why: g.Why})
			}
			out[i].Settles = append(out[i].Settles, f.ID)
		}
	}
	sort.SliceStable(out, func(i, k int) bool { return len(out[i].Settles) > len(out[k].Settles) })
	return out
}

// once drops problems that were met twice.
func once(list []job.Problem) []job.Problem {
	var out []job.Problem
	seen := map[[2]string]bool{}
	for _, p := range list {
		key := [2]string{p.Path, p.Says}
		if !seen[key] {
			seen[key] = true
			out = append(out, p)
		}
	}
	return out
}
