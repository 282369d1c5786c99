package study

import (
	"fmt"

	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/quantity"
	"jounce/source"
)

// refusedLayouts are the suspensions that get no spring or geometry numbers, and
// the assumption that fails (settled; all common practice).
var refusedLayouts = map[string]string{
	"leaf springs":    "the leaf spring also locates the axle; a spring swap would leave the axle loose",
	"swing axle":      "the wheel's lean changes so much with height that no one height is right",
	"torsion bar":     "the bar is spring and arm mounting in one; there is no seat for another spring",
	"rubber cone":     "the cone's rate rises with every millimetre; there is no seat for another spring",
	"fluid":           "front and rear are joined by fluid; one corner cannot be worked out alone",
	"transverse leaf": "the leaf is used as a wishbone; without it the wheel is not led",
}

func (v *view) axle(i int) *job.Axle {
	if i == 0 {
		return &v.rec.Axles.Front
	}
	return &v.rec.Axles.Rear
}

// refusals names what this car is refused for and what still works.
func (v *view) refusals() {
	if v.rec.Car.Wheels == "3" {
		v.refuse("car.wheels", "A three-wheeler gets no numbers at all.", "Two tracks are assumed; roll stability on three wheels is not covered.")
	}
	most := quantity.MustParse(quantity.KindMass, "3500 kg").SI()
	for _, path := range []string{"car.platedMass", "survey.total"} {
		if val, err := job.Parse(quantity.KindMass, v.text(path)); err == nil && val.SI() > most {
			v.refuse("car.mass", "A vehicle over 3,500 kg gets no numbers.", val.Echo()+" was read; plated or weighed, 3,500 kg is the most.")
			break
		}
	}
	for i := range v.out.Axles {
		a := v.axle(i)
		o := &v.out.Axles[i]
		o.Name, o.Layout, o.Air = AxleNames[i], a.Layout, a.Springing == "air"
		if why, no := refusedLayouts[a.Layout]; no {
			o.Refusal = why
			v.refuseAxle(i, a, why)
		}
		v.scheme(i, a)
		v.axleGaps(i, a)
	}
}

func (v *view) text(path string) string {
	f, ok := v.place(path)
	if !ok {
		return ""
	}
	return f.Content()
}

func (v *view) refuse(id, claim, why string) {
	v.out.Refusal = append(v.out.Refusal, claim+" "+why)
	v.add(finding.Finding{ID: id, Topic: "record", Claim: claim, Verdict: finding.Fail, Grade: finding.Stops, Source: source.CP,
		Shown: "refused", Why: why + " Custody, wiring, sound and records still work.",
		Least: "A paid survey and an engineered scheme by a licensed engineer."})
}

func (v *view) refuseAxle(i int, a *job.Axle, why string) {
	if a.Springing == "steel" {
		return // it stays as it is
	}
	name := AxleNames[i]
	least := "Offer a paid survey and an engineered scheme. Custody, wiring, sound and records still work."
	if a.Layout == "leaf springs" {
		least = "Helper springs can be looked at as load assist only. For links in place of the leaves an engineer's scheme is needed. Everything else of this job still works."
	}
	v.add(finding.Finding{ID: name + ".layout", Topic: "springs", Place: name, Verdict: finding.Fail, Grade: finding.Stops, Source: source.CP,
		Claim: fmt.Sprintf("No spring or geometry numbers for the %s axle: %s.", name, a.Layout), Shown: "refused",
		Why: upper(why) + ".", Least: least})
}

// scheme holds a job whose axle was leaf-sprung before until an engineer's
// scheme for the links is recorded. The numbers are worked out all the same.
func (v *view) scheme(i int, a *job.Axle) {
	if a.WasLeaf != "yes" || a.Layout == "leaf springs" {
		return
	}
	name := AxleNames[i]
	f := finding.Finding{ID: name + ".links", Topic: "springs", Place: name, Grade: finding.Stops, Source: source.CP,
		Claim: "The links that locate the " + name + " axle are an engineered scheme.", Why: "The leaf springs located this axle before."}
	if a.LinkScheme != "" {
		f.Verdict, f.Shown = finding.Pass, "recorded"
		f.Why = "Recorded: " + a.LinkScheme + ". Who signed it answers for it."
	} else {
		f.Verdict, f.Shown = finding.NotKnown, "not read"
		f.Least = "Record the scheme and the engineer who made it."
		f.Needs = []finding.Gap{{Path: "axles." + name + ".linkScheme", Label: upper(name) + " axle, engineer's scheme for the links", Why: "opens hold point 1"}}
	}
	v.add(f)
}

// axleGaps asks for the layout and for air or steel: without them an axle has no
// numbers.
func (v *view) axleGaps(i int, a *job.Axle) {
	if len(v.out.Refusal) > 0 {
		return
	}
	name := AxleNames[i]
	if a.Layout == "" {
		v.unknown(name+".layout", "springs", "How the "+name+" wheels are led.", finding.Stops, name, []finding.Gap{{Path: "axles." + name + ".layout", Label: upper(name) + ", layout", Why: "says whether spring numbers mean anything"}})
	}
	if a.Springing == "" {
		v.unknown(name+".springing", "springs", "What carries the "+name+": air or steel.", finding.Stops, name, []finding.Gap{{Path: "axles." + name + ".springing", Label: upper(name) + ", springs to be", Why: "air or steel"}})
	}
}

// works tells that an axle gets spring numbers.
func (v *view) works(i int) bool {
	return len(v.out.Refusal) == 0 && v.out.Axles[i].Refusal == "" && v.out.Axles[i].Air && v.out.Axles[i].Layout != ""
}

func upper(s string) string {
	if s == "" {
		return s
	}
	r := []rune(s)
	if r[0] >= 'a' && r[0] <= 'z' {
		r[0] -= 'a' - 'A'
	}
	return string(r)
}
