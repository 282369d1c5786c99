package web

import (
	"fmt"
	"net/http"

	"jounce/internal/plate"
	"jounce/internal/web/form"
	"jounce/internal/web/page"
)

type photoPage struct {
	page.Base
	formState
	ID, Action, List string
	Card             photoCard
	Marks            []markBox
	Fields           []form.Field // what else is typed of the picture
	Pic              plate.Picture
	Missing          []pictureGap
	Says             []string // what the scale says
	Block            []page.Cell
}

// markBox is one of the four marks with its box.
type markBox struct {
	No     int
	Up     bool // its number stands above the picture
	X, Y   string
	Set    bool
	Field  form.Field
	Wrong  string
	Needed string // what it is for
}

// pictureGap is what of the record the picture waits for.
type pictureGap struct{ Label, Why, Href string }

// markNeeds says what each mark is for.
var markNeeds = [4]string{"with the wheelbase it gives the scale", "with the wheelbase it gives the scale",
	"shows whether the picture was taken square to the car", "shows whether the picture was taken square to the car"}

// photoMarks is the page of one picture: large, with its marks and what the
// scale says.
func (s *server) photoMarks(w http.ResponseWriter, r *http.Request) error {
	_, ph, err := s.openPhoto(r)
	if err != nil {
		return err
	}
	list := "/jobs/" + r.PathValue("id") + "/photos"
	here := list + "/" + ph.ID
	return s.edit(w, r, func(status int, e *edit) error {
		for _, now := range e.Rec.Photos {
			if now.ID == ph.ID {
				ph = now
			}
		}
		p := &photoPage{Base: s.jobBase(r, e.opened, "photos", photoTitle(ph)), formState: e.state(), ID: e.ID, Action: here, List: list,
			Card: s.card(r.Context(), e.opened, ph), Block: s.titleBlock(e.opened, "Picture: "+photoTitle(ph))}
		p.Live = true
		p.marks(e)
		return s.render(w, r, status, "photo", p)
	}, func(*edit) string { return here })
}

// marks fills in the four marks and what the scale says.
func (p *photoPage) marks(e *edit) {
	p.Pic = plate.PictureOf(e.Rec, e.Res, p.Card.Photo, p.Card.W, p.Card.H)
	at := "photos[" + p.Card.ID + "]."
	for i, m := range p.Pic.Marks {
		b := markBox{No: i + 1, Up: i < 2, Set: m.Set, Field: e.View.Field(at + m.Key), Wrong: m.Wrong, Needed: markNeeds[i]}
		b.Field.Label = m.Label
		b.X, b.Y = share(p.Pic.FX(i)), share(p.Pic.FY(i))
		p.Marks = append(p.Marks, b)
	}
	for _, key := range []string{"view", "stands", "name", "taken", "note"} {
		p.Fields = append(p.Fields, e.View.Field(at+key))
	}
	for _, g := range p.Pic.Missing {
		gap := pictureGap{Label: g.Label, Why: g.Why, Href: "#" + at + "stands"}
		if g.Path != "" {
			gap.Href = hrefOf(p.ID, g.Path)
		}
		p.Missing = append(p.Missing, gap)
	}
	if !p.Pic.Scaled {
		return
	}
	sc := p.Pic.Scale
	p.Says = append(p.Says, fmt.Sprintf("One pixel is %.1f mm in the plane of the wheels, give or take %.1f %% from pointing alone.", sc.MMPerPixel, 100*sc.Doubt))
	tilt := sc.Tilt * 57.29577951308232
	switch {
	case tilt > 0.05:
		p.Says = append(p.Says, fmt.Sprintf("The floor lies at %.1f° in the picture, lower at the right; the redrawing follows it.", tilt))
	case tilt < -0.05:
		p.Says = append(p.Says, fmt.Sprintf("The floor lies at %.1f° in the picture, lower at the left; the redrawing follows it.", -tilt))
	}
	if sc.FrontSeen > 0 && sc.RearSeen > 0 && !sc.HeightsSeen && len(sc.Notes) == 0 {
		p.Says = append(p.Says, fmt.Sprintf("The hubs stand %.0f and %.0f mm above the floor in the picture, and %.0f and %.0f mm by their tyres: that fits.",
			1000*sc.FrontSeen, 1000*sc.RearSeen, 1000*sc.FrontHeight, 1000*sc.RearHeight))
	}
	p.Says = append(p.Says, p.Pic.Notes...)
}

// share is a part of a whole for a style, 0 to 1.
func share(f float64) string { return fmt.Sprintf("%.5f", f) }
