package web

import "strings"

// section is one page of the record: the places that lie in Paths, in the order
// of the record. Together the sections hold every place.
type section struct {
	Key, Title string
	Says       string   // one sentence above the form
	Paths      []string // places, groups and lists
}

var sections = []section{
	{"job", "Job, car and keeper", "", []string{"name", "car", "keeper", "place", "note"}},
	{"wishes", "Wishes", "In the customer's own words; they are never tidied.", []string{"wishes"}},
	{"instruments", "Instruments", "A reading is evidence only with an instrument whose check is not overdue.", []string{"instruments"}},
	{"weights", "Weights and state", "Weigh with tyres at pressure, on a level floor. Say how the car stood.", []string{"corners.FL.weight", "corners.FR.weight", "corners.RL.weight", "corners.RR.weight",
		"survey.ticketFront", "survey.ticketRear", "survey.total", "survey.fuel", "survey.driver", "survey.driverMass", "survey.driverSide", "survey.luggage"}},
	{"body", "Body and heights", "Heights from the side: no hand between tyre and arch, no head under the sill. What hangs lowest is read on stands or a locked lift, never under a car that is held by air or by a jack.", []string{"corners", "survey"}},
	{"outline", "Body outline", "What is measured is drawn firm, what is assumed is drawn faint.", []string{"outline"}},
	{"touch", "Touch points", "Read with the car held at ROAD on rated stands, air let out, steering ahead and at both locks; a wheel is moved by a jack under its hub, with hands out of the arch. Never under a car that is held by air.", []string{"touch"}},
	{"ways", "Humps, kerbs and driveways", "The places that the customer's car must get over.", []string{"ways"}},
	{"photos", "Pictures", "", []string{"photos"}},
	{"axles", "Axles", "Lengths and ratios are read with the body on rated stands and the air let out; a wheel is moved by a jack under its hub, with hands out of the arch.", []string{"axles"}},
	{"springs", "Springs", "The maker's own figures. Empty is not printed by the maker, never 0.", []string{"springs"}},
	{"presets", "Presets", "ROAD is a change from the heights as received; the others are changes from ROAD. Down is minus.", []string{"presets"}},
	{"loads", "People and luggage", "", []string{"loads"}},
	{"air", "Air supply", "", []string{"air"}},
	{"leak", "Leak tests", "A filled tank stores energy: 10 L at 10 bar is enough to kill. Stand aside of end caps and fittings; nobody under the car on air alone.", []string{"leakTests"}},
	{"signatures", "Signatures", "The owner may sign for a finding graded owner signs. What stops the work cannot be signed away.", []string{"signatures"}},
}

// careful are the sections whose sentence is a caution.
var careful = map[string]bool{"body": true, "touch": true, "axles": true, "leak": true}

// sectionOf is the key of the section that holds a place; the first that does.
func sectionOf(path string) string {
	for _, s := range sections {
		for _, p := range s.Paths {
			if inside(path, p) {
				return s.Key
			}
		}
	}
	return sections[0].Key
}

// holdsPlace tells that the section is the one of a place.
func (s section) holdsPlace(path string) bool { return sectionOf(path) == s.Key }

func findSection(key string) (section, bool) {
	for _, s := range sections {
		if s.Key == key {
			return s, true
		}
	}
	return section{}, false
}

// parent is what a place lies in: "corners.FL" of "corners.FL.weight".
func parent(path string) string {
	if i := strings.LastIndexByte(path, '.'); i >= 0 {
		return path[:i]
	}
	return ""
}

// leaf is the last name of a path.
func leaf(path string) string { return path[strings.LastIndexByte(path, '.')+1:] }
