package study

import (
	"jounce/internal/finding"
)

// Leak is one leak test as its page and its certificate need it. All pressures
// of Chart are gauge pressures in pascals, its times seconds from the first
// reading.
type Leak struct {
	ID, Title string
	Refused   string // why the test is refused, empty where it is not
	State     string // "not begun", "running", "read"
	Rows      []LeakRow
	Chart     *LeakChart
	Lost      finding.Number // past the cold, as 12 h
	LostNow   finding.Number // past the cold, in the time that has passed
	Rate      finding.Number // air lost, counted at 1.013 bar and the tank's temperature
	Rate20    finding.Number // the same counted at 1.013 bar and 20 °C
	ColdAlone finding.Number // what the last reading would be by cold alone
	Tomorrow  finding.Number // what the gauge should read at the typed temperature
	TomorrowT finding.Number // the temperature typed
	Decide    float64        // seconds from the first reading at which the test can be decided; 0 unknown [s]
	DecideAt  string         // the same as a time of day: "22:17"
	Better    []Better       // when better instruments could decide
	Energy    finding.Number // what the tank holds
	Cautions  []string       // where the person stands
	Corners   [4]Sink
	Findings  []finding.Finding // of this test, in the order of the certificate: tank, corners, relief, joints
	Holds     bool              // the hold point stays shut
}

// LeakRow is one reading and what the cold alone explains.
type LeakRow struct {
	At                                  string // as typed
	Clock                               string // "18:00"
	Temperature, Gauge, ColdAlone, Lost finding.Number
}

// LeakChart is the decay chart: the cold's curve between readings, the band of
// the gauge, where pass ends and where the work stops.
type LeakChart struct {
	Time               []float64 // of the curves [s]
	Cold               []float64 // expected from temperature alone [Pa]
	PassEnds, Stops    []float64 // cold less the limits, grown over 12 h [Pa]
	Band               float64   // half-width of the gauge's band [Pa]
	ReadTime           []float64 // of the readings [s]
	Read, ReadHalf     []float64 // [Pa]
	Labels             []string  // clock of each reading
	PassText, StopText string
	Decide             float64 // [s]; 0 where not known
}

// Better is an instrument and when it could decide.
type Better struct {
	Name string
	Half float64 // [Pa]
	At   string  // "21:18"
}

// Sink is one corner over the test.
type Sink struct {
	Name                      string
	Known                     bool
	Start, End                finding.Number
	Sank, ByCold, Unexplained finding.Number // as read; unexplained as 12 h
	Verdict                   finding.Verdict
	Grade                     finding.Grade
	Gap                       string
}
