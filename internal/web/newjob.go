package web

import (
	"net/http"
	"strings"

	"jounce/internal/job"
	"jounce/internal/study"
	"jounce/internal/web/form"
	"jounce/internal/web/page"
)

type newPage struct {
	page.Base
	Fields []form.Field
	Axles  []axleChoice
	Wrong  string
}

type axleChoice struct {
	Title             string
	Layout, Springing form.Field
}

// newPlaces are the places that a job begins with.
var newPlaces = []string{"name", "car.description", "car.form", "car.year", "keeper.name", "place.where", "place.promised"}

// newJob is the page on which a job begins.
func (s *server) newJob(w http.ResponseWriter, r *http.Request) error {
	if nameFirst(w, r) {
		return nil
	}
	return s.newForm(w, r, http.StatusOK, form.NewView(&job.Job{Schema: job.Schema}, nil), "")
}

func (s *server) newForm(w http.ResponseWriter, r *http.Request, status int, v *form.View, wrong string) error {
	p := &newPage{Wrong: wrong}
	p.Title, p.Heading, p.Room = "New job", "New job", "jobs"
	for _, path := range newPlaces {
		p.Fields = append(p.Fields, v.Field(path))
	}
	for _, a := range study.AxleNames {
		p.Axles = append(p.Axles, axleChoice{page.Joined([]string{map[string]string{"front": "Front axle", "rear": "Rear axle"}[a]}),
			v.Field("axles." + a + ".layout"), v.Field("axles." + a + ".springing")})
	}
	return s.render(w, r, status, "new", p)
}

// makeJob makes the job and goes to its first page.
func (s *server) makeJob(w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return err
	}
	signer, ok, err := s.signer(w, r)
	if !ok || err != nil {
		return err
	}
	rec := &job.Job{Schema: job.Schema}
	t := form.Read(r.PostForm)
	if err := form.Apply(rec, t.Changes(rec), form.Signature{Who: signer, At: s.Clock().Format("2006-01-02T15:04:05Z07:00")}); err != nil {
		return asked{err.Error()}
	}
	v := form.NewView(rec, rec.Check())
	if len(v.Problems) > 0 {
		return s.newForm(w, r, http.StatusUnprocessableEntity, v, "")
	}
	if strings.TrimSpace(rec.Name) == "" && strings.TrimSpace(rec.Car.Description) == "" {
		return s.newForm(w, r, http.StatusUnprocessableEntity, v, "Name of the job, empty. A name or the car in a few words was expected, so that somebody can find it.")
	}
	if rec.Place.Stage == "" {
		rec.Place.Stage = page.Stages[0]
	}
	if err := s.begin(r, rec, signer, ""); err != nil {
		return err
	}
	way := "walk"
	if r.PostFormValue(":way") == "axle" {
		way = "axle"
	}
	http.Redirect(w, r, "/jobs/"+rec.ID+"/survey?way="+way, http.StatusSeeOther)
	return nil
}
