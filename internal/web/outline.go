package web

import (
	"fmt"
	"net/http"
	"strings"

	"jounce/internal/draw"
	"jounce/internal/figure"
	"jounce/internal/photo"
	"jounce/internal/plate"
	"jounce/internal/web/form"
	"jounce/internal/web/page"
	"jounce/quantity"
)

// outlinePage is where the body's outline is set up: a form, its measures, and
// the control points that somebody puts elsewhere.
type outlinePage struct {
	page.Base
	formState
	ID, Action string
	Groups     []outlineGroup
	Points     []outlinePoint
	Drawing    sizes
	Firm, Of   int // control points that rest on measures
	Trace      *tracing
	Photos     []photoChoice
	Says       []string // why a picture is not under the drawing
	Marks      string   // where its marks are set
	Block      []page.Cell
}

type outlineGroup struct {
	Title  string
	Fields []form.Field
}

// outlinePoint is one control point with its two boxes.
type outlinePoint struct {
	ID, Label string
	X, Z      form.Field
	NowX      string // where it is drawn: "640 mm, assumed"
	NowZ      string
}

type photoChoice struct {
	Name, Href string
	Here       bool
}

// tracing is a picture under the drawing.
type tracing struct {
	Href    string
	W, H    int // [px]
	Says    []string
	S, M, L string // where it lies under the drawing at each width: "a b c d e f"
}

// outlineForms are the groups of boxes, in the order in which a body is set up.
var outlineForms = []struct {
	Title string
	Paths []string
}{
	{"Form and length", []string{"car.form", "survey.wheelbase", "survey.frontOverhang", "survey.rearOverhang"}},
	{"Heights above the floor, at ROAD", []string{"survey.roof", "outline.bonnet", "outline.waist", "outline.boot", "survey.sill", "outline.sillFront", "outline.sillRear"}},
	{"Wheels and arches", []string{"axles.front.tyreLeft", "axles.rear.tyreLeft", "corners.FL.hubToArch", "corners.RL.hubToArch", "outline.archFront", "outline.archRear"}},
	{"Across", []string{"outline.width", "survey.trackFront", "survey.trackRear"}},
}

// outline is the page of the body's outline.
func (s *server) outline(w http.ResponseWriter, r *http.Request) error {
	here := "/jobs/" + r.PathValue("id") + "/outline"
	if p := r.URL.Query().Get("photo"); p != "" {
		here += "?photo=" + p
	}
	return s.edit(w, r, func(status int, e *edit) error {
		p := &outlinePage{Base: s.jobBase(r, e.opened, "car", "Body outline"), formState: e.state(), ID: e.ID, Action: here,
			Block: s.titleBlock(e.opened, "02 Body outline")}
		p.Live = true
		for _, g := range outlineForms {
			x := outlineGroup{Title: g.Title}
			for _, path := range g.Paths {
				f := e.View.Field(path)
				if !strings.HasPrefix(path, "survey.") && !strings.HasPrefix(path, "outline.") {
					f.Label = f.Full // two axles stand here side by side
				}
				x.Fields = append(x.Fields, f)
			}
			p.Groups = append(p.Groups, x)
		}
		p.points(e)
		side := plate.Side(e.Res)
		p.Drawing = sized(func(width float64) draw.Scene {
			return figure.OutlineView(side, width, figure.StyleFor(width/draw.Px))
		}, "outline")
		s.trace(r, p, e, side)
		return s.render(w, r, status, "outline", p)
	}, func(*edit) string { return here })
}

// points lists the control points of the form.
func (p *outlinePage) points(e *edit) {
	mm, _ := quantity.UnitOf(quantity.KindLength, "mm")
	now := func(v float64, known bool) string {
		text := strings.TrimSpace(quantity.Format(quantity.KindLength, v, mm, 0))
		if known {
			return text
		}
		return text + ", assumed"
	}
	for _, st := range e.Res.Body.Stations {
		at := "outline.stations[" + st.ID + "]"
		p.Points = append(p.Points, outlinePoint{ID: st.ID, Label: st.Label, X: e.View.Field(at + ".x"), Z: e.View.Field(at + ".z"),
			NowX: now(st.X, st.KnownX), NowZ: now(st.Z, st.KnownZ)})
		p.Of += 2
		for _, k := range []bool{st.KnownX, st.KnownZ} {
			if k {
				p.Firm++
			}
		}
	}
}

// trace puts a picture under the drawing, scaled by its marks: two known lengths,
// the wheelbase along the car and the hubs above the floor.
func (s *server) trace(r *http.Request, p *outlinePage, e *edit, side figure.Side) {
	want := r.URL.Query().Get("photo")
	at := "/jobs/" + e.ID + "/outline"
	for _, ph := range e.Rec.Photos {
		if !sideView(ph.View) {
			continue
		}
		p.Photos = append(p.Photos, photoChoice{Name: photoTitle(ph), Href: at + "?photo=" + ph.ID, Here: ph.ID == want})
		if ph.ID != want {
			continue
		}
		b, err := s.photoBytes(r.Context(), e.ID, ph.File)
		var w, h int
		if err == nil {
			w, h, err = sizeOf(b)
		}
		if err != nil {
			p.Says = append(p.Says, sentence(err.Error()))
			continue
		}
		pic := plate.PictureOf(e.Rec, e.Res, ph, w, h)
		if !pic.Scaled {
			p.Says = append(p.Says, pic.Gap()+" Set the marks in the picture first.")
			p.Marks = "/jobs/" + e.ID + "/photos/" + ph.ID
			continue
		}
		t := &tracing{Href: photoSrc(e.ID, ph), W: w, H: h, Says: pic.Notes}
		for i, to := range []*string{&t.S, &t.M, &t.L} {
			width := draw.PX([]float64{widthS, widthM, widthL}[i])
			*to = matrixOf(pic.Scale, figure.OutlineFrame(side, width, figure.StyleFor(width/draw.Px)))
		}
		p.Trace = t
	}
	if len(p.Photos) > 0 {
		p.Photos = append([]photoChoice{{Name: "no picture", Href: at, Here: p.Trace == nil && len(p.Says) == 0}}, p.Photos...)
	}
}

// matrixOf brings a picture's pixels onto the drawing [CSS px].
func matrixOf(sc photo.Scale, f draw.Frame) string {
	on := func(x, y float64) draw.Point {
		m := sc.Spot(photo.Point{X: x, Y: y})
		q := f.Pt(1000*m.X, 1000*m.Z)
		return draw.Pt(q.X/draw.Px, q.Y/draw.Px)
	}
	o, x, y := on(0, 0), on(1, 0), on(0, 1)
	return fmt.Sprintf("%.5f %.5f %.5f %.5f %.3f %.3f", x.X-o.X, x.Y-o.Y, y.X-o.X, y.Y-o.Y, o.X, o.Y)
}
