package study

import (
	"strings"

	"jounce/body"
	"jounce/internal/finding"
	"jounce/internal/job"
)

// bodyPaths are the places of the measures that the room body names in its
// faults.
var bodyPaths = map[string]string{
	"wheelbase": "survey.wheelbase", "frontOverhang": "survey.frontOverhang", "rearOverhang": "survey.rearOverhang", "roof": "survey.roof", "sill": "survey.sill",
	"bonnet": "outline.bonnet", "waist": "outline.waist", "boot": "outline.boot", "sillFront": "outline.sillFront", "sillRear": "outline.sillRear", "width": "outline.width",
	"arch.front": "corners.FL.hubToArch", "arch.rear": "corners.RL.hubToArch", "tyre.front": "axles.front.tyreLeft", "tyre.rear": "axles.rear.tyreLeft",
	"hub.front": "axles.front.loadedRadius", "hub.rear": "axles.rear.loadedRadius",
}

// body lays out the body's outline at ROAD and asks about what of it cannot be.
func (v *view) body() {
	v.out.Body = body.New(v.measures())
	v.across()
	for _, f := range v.out.Body.Check() {
		path := v.bodyPath(f.Of)
		label := path
		if at, ok := v.place(path); ok {
			label = at.Label
		}
		v.problems = append(v.problems, job.Problem{Path: path, Label: label, Read: v.text(path), Says: f.Says})
	}
}

// Across is what was read across the car, for the end views.
type Across struct {
	Track        [2]finding.Number // front and rear
	TyreWidth    [2]finding.Number // of the section as marked
	GroundToBody [4]finding.Number // at ROAD, FL FR RL RR
	Lamp         finding.Number    // lamp centre above the floor at ROAD
}

// across reads what the end views need, heights brought to ROAD.
func (v *view) across() {
	a := &v.out.Across
	off, _ := v.roadChange()
	raised := func(path string, by float64) finding.Number {
		n := v.read(path, "", tape).Number
		if n.Known() {
			n.Value += by
		}
		return n
	}
	for i, end := range AxleNames {
		a.Track[i] = v.read("survey.track"+upper(end), "", tape).Number
		if s, ok := v.tyreSize(i, "tyreLeft"); ok && s.Width > 0 {
			a.TyreWidth[i] = mm(s.Width, 0)
		}
	}
	for k, c := range CornerNames {
		a.GroundToBody[k] = raised("corners."+c+".groundToBody", off[k/2])
	}
	a.Lamp = raised("survey.lampHeight", off[0])
}

// bodyPath is the place in the record of the first measure that a fault is about
// and that has one.
func (v *view) bodyPath(of []string) string {
	for _, name := range of {
		if p := bodyPaths[name]; p != "" {
			if strings.HasPrefix(name, "arch.") && v.text(p) == "" { // read on the right only
				p = strings.NewReplacer("FL", "FR", "RL", "RR").Replace(p)
			}
			return p
		}
		id, dir, split := strings.Cut(name, ".")
		if !split {
			dir = "z"
		}
		return "outline.stations[" + id + "]." + dir
	}
	return "outline.stations"
}

// measures is what was read of the body, brought to ROAD: heights that were read
// elsewhere are lifted by what the axles are from ROAD there, in proportion along
// the car. Control points lie on the drawing, which is at ROAD already.
func (v *view) measures() body.Measures {
	off, _ := v.roadChange()
	base := v.read("survey.wheelbase", "", tape)
	lift := func(share float64) float64 { return off[0] + (off[1]-off[0])*share }
	length := func(path string) body.Length {
		g := v.read(path, "", tape)
		return body.Length{V: g.Value, Known: g.OK}
	}
	height := func(path string, share float64) body.Length {
		l := length(path)
		if l.Known {
			l.V += lift(share)
		}
		return l
	}
	m := body.Measures{Form: v.rec.Car.Form, Wheelbase: body.Length{V: base.Value, Known: base.OK},
		FrontOverhang: length("survey.frontOverhang"), RearOverhang: length("survey.rearOverhang"), Width: length("outline.width"),
		Roof: height("survey.roof", 0.6), Bonnet: height("outline.bonnet", 0.25), Waist: height("outline.waist", 0.5), Boot: height("outline.boot", 1.3),
		Sill: height("survey.sill", 0.5), SillFront: height("outline.sillFront", 0.15), SillRear: height("outline.sillRear", 0.85),
		ArchShape: [2]string{v.rec.Outline.ArchFront, v.rec.Outline.ArchRear}, Stations: map[string]body.Spot{}}
	for i := range AxleNames {
		w := v.out.Heights.Wheel[i]
		m.TyreRadius[i] = body.Length{V: w.Diameter.Value / 2, Known: w.Known && w.Diameter.Known()}
		m.Hub[i] = known(w.Loaded)
		m.Arch[i] = v.archAt(i)
		if m.Arch[i].Known {
			m.Arch[i].V += off[i]
		}
	}
	for _, s := range v.rec.Outline.Stations {
		at := "outline.stations[" + s.ID + "]"
		m.Stations[s.ID] = body.Spot{X: length(at + ".x"), Z: length(at + ".z")}
	}
	return m
}

// archAt is the arch of an axle as seen from the left; the right stands for it
// where the left is not read.
func (v *view) archAt(axle int) body.Length {
	for _, k := range []int{2 * axle, 2*axle + 1} {
		if h := v.out.Heights.HubToArch[k]; h.Known() {
			return known(h)
		}
	}
	return body.Length{}
}

// known is a number as a length of the body.
func known(n finding.Number) body.Length { return body.Length{V: n.Value, Known: n.Known()} }
