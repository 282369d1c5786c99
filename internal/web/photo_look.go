package web

import (
	"bytes"
	"context"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"sync"
	"time"

	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/photo"
	"jounce/internal/plate"
	"jounce/internal/study"
	"jounce/internal/web/page"
)

// mostRedrawn is how many redrawn pictures are kept: four presets of the cars
// that are looked at, some 0.3 MB each.
const mostRedrawn = 24

// redrawn keeps pictures redrawn at presets. A picture, a revision and a preset
// always give the same.
type redrawn struct {
	bench chan struct{} // one at a time
	mu    sync.Mutex
	kept  map[string]redrawing
	order []string // the oldest first
}

// redrawing is one redrawn picture.
type redrawing struct {
	jpeg   []byte
	unseen []photo.Unseen
}

func newRedrawn() *redrawn {
	return &redrawn{bench: make(chan struct{}, 1), kept: map[string]redrawing{}}
}

func (k *redrawn) get(key string) (redrawing, bool) {
	k.mu.Lock()
	defer k.mu.Unlock()
	d, ok := k.kept[key]
	return d, ok
}

func (k *redrawn) put(key string, d redrawing) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if _, ok := k.kept[key]; ok {
		return
	}
	if len(k.order) == mostRedrawn {
		delete(k.kept, k.order[0])
		k.order = append(k.order[:0], k.order[1:]...)
	}
	k.kept[key] = d
	k.order = append(k.order, key)
}

// redraw is a picture of a saved revision at a preset. What keeps it from being
// drawn is said in a sentence.
func (s *server) redraw(ctx context.Context, o *opened, ph job.Photo, preset int) (redrawing, error) {
	key := s.redrawKey(o, ph, preset)
	if d, ok := s.redrawn.get(key); ok && o.Rev.Digest != "" {
		return d, nil
	}
	select {
	case s.redrawn.bench <- struct{}{}:
		defer func() { <-s.redrawn.bench }()
	case <-ctx.Done():
		return redrawing{}, ctx.Err()
	}
	if d, ok := s.redrawn.get(key); ok && o.Rev.Digest != "" { // somebody waited for the same
		return d, nil
	}
	b, err := s.photoBytes(ctx, o.ID, ph.File)
	if err != nil {
		return redrawing{}, err
	}
	w, h, err := sizeOf(b)
	if err != nil {
		return redrawing{}, err
	}
	out, err := plate.PictureOf(o.Rec, o.Res, ph, w, h).At(o.Rec, o.Res, b, preset)
	if err != nil {
		return redrawing{}, asked{err.Error()}
	}
	d := redrawing{unseen: out.Unseen}
	if d.jpeg, err = photo.Write(out.Image); err != nil {
		return redrawing{}, err
	}
	s.redrawn.put(key, d)
	return d, nil
}

// redrawKey names a redrawn picture: revision, picture, preset, and what the
// shop's settings make of the marks.
func (s *server) redrawKey(o *opened, ph job.Photo, preset int) string {
	var radii [4]float64
	for i, w := range o.Res.Heights.Wheel {
		radii[2*i], radii[2*i+1] = w.Loaded.Value, o.Res.Body.Tyre[i].V
	}
	return fmt.Sprintf("%s-%s-%s-%s-%.5g", o.Rev.Digest, ph.ID, ph.File[:min(12, len(ph.File))], study.PresetNames[preset], radii)
}

// photoAt sends a picture redrawn at a preset: "DOWN.jpg".
func (s *server) photoAt(w http.ResponseWriter, r *http.Request) error {
	o, ph, err := s.openPhoto(r)
	if err != nil {
		return err
	}
	name, ok := strings.CutSuffix(r.PathValue("preset"), ".jpg")
	preset := slices.Index(study.PresetNames[:], name)
	if !ok || preset < 0 {
		return errNoPage
	}
	h := w.Header()
	tag := `"` + strings.ReplaceAll(s.redrawKey(o, ph, preset), " ", "-") + `"`
	if r.Header.Get("If-None-Match") == tag {
		h.Set("ETag", tag)
		w.WriteHeader(http.StatusNotModified)
		return nil
	}
	d, err := s.redraw(r.Context(), o, ph, preset)
	if err != nil {
		return err
	}
	h.Set("Content-Type", "image/jpeg")
	h.Set("ETag", tag)
	h.Set("Cache-Control", "private, no-cache")
	if v := r.URL.Query().Get("r"); len(v) >= 12 && strings.HasPrefix(o.Rev.Digest, v) {
		h.Set("Cache-Control", "private, max-age=86400")
	}
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(d.jpeg))
	return nil
}

type lookPage struct {
	page.Base
	ID      string
	Card    photoCard
	Presets []presetLink
	At      string // the preset shown
	Src     string
	Gap     string // why it is not drawn
	Where   string // where what is missing is typed
	Moved   string // how far the body moved from how it stood
	Overs   []lookOver
	Numbers []lookNumber
	Found   []finding.Finding
	Limits  []string // what the picture cannot show
	Block   []page.Cell
}

// lookOver is one line over the picture, with its number under it.
type lookOver struct {
	No    int
	Key   string
	Words string
	D     string // path in pixels of the picture
	Solid bool
	X, Y  string // where its leader points
}

type lookNumber struct {
	Name  string
	Value finding.Number
}

// photoLook is "How it will look": the picture at a preset with the floor and
// what the car must get over, and what holds there.
func (s *server) photoLook(w http.ResponseWriter, r *http.Request) error {
	o, ph, err := s.openPhoto(r)
	if err != nil {
		return err
	}
	preset := max(slices.Index(study.PresetNames[:], strings.ToUpper(r.URL.Query().Get("preset"))), 0)
	p := &lookPage{Base: s.jobBase(r, o, "photos", "How it will look"), ID: o.ID, Card: s.card(r.Context(), o, ph), At: study.PresetNames[preset],
		Block: s.titleBlock(o, "How it will look, "+study.PresetNames[preset])}
	p.presets(o, preset)
	d, err := s.redraw(r.Context(), o, ph, preset)
	switch {
	case err != nil && r.Context().Err() != nil:
		return err
	case err != nil:
		p.Gap, p.Where = sentence(err.Error()), p.Card.Href
		if g := whereOf(o, ph, p.Card, preset); g != "" {
			p.Where = g
		}
	default:
		p.drawn(o, ph, preset, d)
	}
	return s.render(w, r, http.StatusOK, "photo-look", p)
}

// whereOf is where what keeps a picture from being drawn is typed, where that is
// not the picture's own page.
func whereOf(o *opened, ph job.Photo, c photoCard, preset int) string {
	pic := plate.PictureOf(o.Rec, o.Res, ph, c.W, c.H)
	for _, g := range pic.Missing {
		if g.Path != "" {
			return hrefOf(o.ID, g.Path)
		}
	}
	if _, _, gap := pic.Move(o.Rec, o.Res, preset); pic.Scaled && gap != nil && gap.Path != "" {
		return hrefOf(o.ID, gap.Path)
	}
	return ""
}

func (p *lookPage) presets(o *opened, here int) {
	for i, name := range study.PresetNames {
		l := presetLink{Name: name, Href: p.Card.Href + "/look?preset=" + name, Here: i == here, Sill: "not set"}
		if c := o.Res.Heights.Change[i]; c[0].Known() {
			l.Sill = signed(500 * (c[0].Value + c[1].Value))
		}
		p.Presets = append(p.Presets, l)
	}
}

// drawn fills in what stands over and under a picture that could be drawn.
func (p *lookPage) drawn(o *opened, ph job.Photo, preset int, d redrawing) {
	p.Src = p.Card.Href + "/at/" + p.At + ".jpg?r=" + o.Rev.Digest[:min(12, len(o.Rev.Digest))]
	pic := plate.PictureOf(o.Rec, o.Res, ph, p.Card.W, p.Card.H)
	for i, v := range pic.Overs(o.Res) {
		l := lookOver{No: i + 1, Key: v.Key, Words: upperFirst(v.Words), Solid: v.Solid, X: share(v.At.X / float64(pic.W)), Y: share(v.At.Y / float64(pic.H))}
		for k, at := range v.Line {
			l.D += fmt.Sprintf("%c%.1f %.1f", "ML"[min(k, 1)], at.X, at.Y)
		}
		p.Overs = append(p.Overs, l)
	}
	if _, move, gap := pic.Move(o.Rec, o.Res, preset); gap == nil {
		p.Moved = plate.MovedWords(ph.Stands, move)
	}
	h := o.Res.Heights
	for _, n := range []lookNumber{{"Sill above the floor", h.SillAt[preset]}, {lowestName(h.LowestName) + " above the floor", h.LowestAt[preset]}} {
		if n.Value.Known() {
			p.Numbers = append(p.Numbers, n)
		}
	}
	p.Found = plate.Cleared(o.Rec, o.Res, preset)
	for _, u := range d.unseen {
		p.Limits = append(p.Limits, u.Text)
	}
	if n, of := plate.Assumed(o.Res); n > 0 {
		p.Limits = append(p.Limits, fmt.Sprintf("The edge between body and background follows the outline, which is assumed at %d of %d points.", n, of))
	}
}

func lowestName(s string) string {
	if s == "" {
		s = "lowest hard part"
	}
	return upperFirst(s)
}
