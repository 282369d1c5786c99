package study

import (
	"slices"

	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/quantity"
)

// StoodAt is how far the body of a car that stands as a picture shows it lies
// above ROAD, front and rear: 0 at ROAD, a preset's change at a preset, the
// change to ROAD turned round as received. What it waits for is a gap; the
// numbers are known where there is none.
func StoodAt(rec *job.Job, r *Result, stands string) (over [2]finding.Number, gap *finding.Gap) {
	if stands == "as received" {
		road := [2]job.Reading{rec.Presets.Road.Front, rec.Presets.Road.Rear}
		for i, name := range AxleNames {
			v, err := job.Parse(quantity.KindLength, road[i].Value)
			if err != nil {
				return [2]finding.Number{}, &finding.Gap{Path: "presets.road." + name, Label: "ROAD, " + name, Why: "says how far the car as received lies from ROAD"}
			}
			over[i] = mm(-v.SI(), 0)
		}
		return over, nil
	}
	p := slices.Index(PresetNames[:], stands)
	if p < 0 {
		return over, &finding.Gap{Path: "", Label: "The car stands at", Why: "says from where the body is moved"}
	}
	return Preset(rec, r, p)
}

// Preset is a preset's change from ROAD, front and rear, or what it waits for.
func Preset(rec *job.Job, r *Result, p int) (over [2]finding.Number, gap *finding.Gap) {
	over = r.Heights.Change[p]
	if over[0].Known() && over[1].Known() {
		return over, nil
	}
	name, axle := [4]string{"down", "road", "hump", "high"}[p], "front"
	if f, err := rec.Field("presets."+name+".front", false); err == nil && f.Content() != "" {
		axle = "rear"
	}
	return [2]finding.Number{}, &finding.Gap{Path: "presets." + name + "." + axle, Label: PresetNames[p] + ", " + axle, Why: "says where the body stands"}
}
