package plate

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"jounce/internal/finding"
	"jounce/internal/job"
	"jounce/internal/photo"
	"jounce/internal/study"
)

// Picture is a picture of the car from the side with what its marks say.
type Picture struct {
	job.Photo
	W, H    int            // [px]
	Marks   [4]PictureMark // front hub, rear hub, under the front tyre, under the rear tyre
	Scale   photo.Scale
	Scaled  bool
	Refused string        // why there is no scale, in sentences; empty where there is
	Notes   []string      // what the scale says of itself
	Missing []finding.Gap // what of the record it waits for; those without a path are the picture's own
}

// PictureMark is one place pointed at in a picture.
type PictureMark struct {
	Key, Label string // place in the record's picture, and its words
	Text       string // as typed
	At         photo.Point
	Set        bool
	Wrong      string // what of the text cannot be used
}

// markPlaces are the marks in the order in which they are set.
var markPlaces = [4][2]string{{"frontHub", "Middle of the front wheel"}, {"rearHub", "Middle of the rear wheel"},
	{"frontGround", "Where the front tyre stands"}, {"rearGround", "Where the rear tyre stands"}}

// PictureOf is a picture of the record, w by h pixels, with what its marks say.
func PictureOf(rec *job.Job, r *study.Result, ph job.Photo, w, h int) Picture {
	p := Picture{Photo: ph, W: w, H: h}
	for i, text := range [4]string{ph.FrontHub, ph.RearHub, ph.FrontGround, ph.RearGround} {
		p.Marks[i] = markOf(i, text, w, h)
	}
	p.scale(r)
	if _, gap := study.StoodAt(rec, r, ph.Stands); gap != nil {
		p.Missing = append(p.Missing, *gap)
	}
	return p
}

// markOf reads "412, 613": pixels from the left and from the top.
func markOf(i int, text string, w, h int) PictureMark {
	m := PictureMark{Key: markPlaces[i][0], Label: markPlaces[i][1], Text: strings.TrimSpace(text)}
	if m.Text == "" {
		return m
	}
	parts := strings.FieldsFunc(m.Text, func(r rune) bool { return r == ',' || r == ';' || r == ' ' || r == '\u00a0' })
	var v [2]float64
	for k := range v {
		err := error(strconv.ErrSyntax)
		if len(parts) == 2 {
			v[k], err = strconv.ParseFloat(parts[k], 64)
		}
		if err != nil || math.IsNaN(v[k]) || math.IsInf(v[k], 0) {
			m.Wrong = fmt.Sprintf("%s, %s. Two numbers were expected, pixels from the left and from the top, such as 412, 613.", m.Label, brief(m.Text))
			return m
		}
	}
	if v[0] < 0 || v[1] < 0 || v[0] > float64(w) || v[1] > float64(h) {
		m.Wrong = fmt.Sprintf("%s, %s. The picture has %d × %d pixels; the place lies outside.", m.Label, brief(m.Text), w, h)
		return m
	}
	m.At, m.Set = photo.Point{X: v[0], Y: v[1]}, true
	return m
}

func brief(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}

// FX and FY are where the mark lies, as shares of the picture.
func (p Picture) FX(i int) float64 { return p.Marks[i].At.X / float64(max(p.W, 1)) }

// FY is FX from the top.
func (p Picture) FY(i int) float64 { return p.Marks[i].At.Y / float64(max(p.H, 1)) }

// scale finds the scale from the marks, the wheelbase and the loaded radii.
func (p *Picture) scale(r *study.Result) {
	var at [4]*photo.Point
	for i, m := range p.Marks {
		if m.Set {
			at[i] = &p.Marks[i].At
		}
	}
	h := r.Heights
	m := photo.Marks{FrontHub: at[0], RearHub: at[1], FrontGround: at[2], RearGround: at[3]}
	if h.Wheelbase.Known() {
		m.Wheelbase = h.Wheelbase.Value
	} else {
		p.Missing = append(p.Missing, finding.Gap{Path: "survey.wheelbase", Label: "Wheelbase", Why: "gives the scale along the car"})
	}
	front, rear := h.Wheel[0].Loaded, h.Wheel[1].Loaded
	if front.Known() && rear.Known() {
		m.FrontHeight, m.RearHeight = front.Value, rear.Value
	} else if at[2] == nil || at[3] == nil {
		axle := "front"
		if front.Known() {
			axle = "rear"
		}
		p.Missing = append(p.Missing, finding.Gap{Path: "axles." + axle + ".tyreLeft", Label: title(axle) + " tyre", Why: "gives the loaded radius, the second known length"})
	}
	s, err := photo.ScaleOf(m)
	if err != nil {
		p.Refused = refused(err)
		return
	}
	if left := p.View == "left side"; (left || p.View == "right side") && s.FacesRight == left {
		p.Refused = fmt.Sprintf("The picture shows the %s, where the front of the car is on the %s; the mark of the front hub lies on the other side of that of the rear hub. Exchange the marks, or correct what the picture shows.",
			p.View, map[bool]string{true: "left", false: "right"}[left])
		return
	}
	p.Scale, p.Scaled, p.Notes = s, true, s.Notes
}

// refused is a refusal as a page says it.
func refused(err error) string {
	var no *photo.Refusal
	if errors.As(err, &no) {
		return no.Error()
	}
	return err.Error()
}

// Gap says in one sentence what keeps the picture from being redrawn; empty
// where nothing does.
func (p Picture) Gap() string {
	for _, m := range p.Marks {
		if m.Wrong != "" {
			return m.Wrong
		}
	}
	if p.Refused != "" {
		return p.Refused
	}
	if len(p.Missing) > 0 {
		g := p.Missing[0]
		return "Not read: " + g.Label + ". It " + g.Why + "."
	}
	return ""
}

// outlineStep is how far apart the spots of the outline are taken [m].
const outlineStep = 0.01

// shape is the body as it stands in the picture: the outline at ROAD, moved by
// what the car lies above ROAD there.
func (p Picture) shape(r *study.Result, stood photo.Change) photo.Shape {
	o := r.Body
	h := photo.Shape{TyreFront: o.Tyre[0].V, TyreRear: o.Tyre[1].V}
	for x := o.Nose.V; x <= o.Tail.V; x += outlineStep {
		top, ok := o.Top(x)
		bottom, also := o.Bottom(x)
		if !ok || !also {
			continue
		}
		d := stood.At(x, p.Scale.Wheelbase)
		h.Top = append(h.Top, photo.Spot{X: x, Z: top + d})
		h.Bottom = append(h.Bottom, photo.Spot{X: x, Z: bottom + d})
	}
	return h
}

// Move is how far the body moves in the picture from how it stands there to a
// preset, 0 to 3.
func (p Picture) Move(rec *job.Job, r *study.Result, preset int) (stood, move photo.Change, gap *finding.Gap) {
	from, gap := study.StoodAt(rec, r, p.Stands)
	if gap != nil {
		return stood, move, gap
	}
	to, gap := study.Preset(rec, r, preset)
	if gap != nil {
		return stood, move, gap
	}
	stood = photo.Change{Front: from[0].Value, Rear: from[1].Value}
	return stood, photo.Change{Front: to[0].Value - stood.Front, Rear: to[1].Value - stood.Rear}, nil
}

// At redraws the picture, whose file is given, at a preset, 0 to 3. The error
// says in a sentence why it cannot.
func (p Picture) At(rec *job.Job, r *study.Result, kept []byte, preset int) (photo.Redrawn, error) {
	if gap := p.Gap(); gap != "" {
		return photo.Redrawn{}, errors.New(gap)
	}
	stood, move, gap := p.Move(rec, r, preset)
	if gap != nil {
		return photo.Redrawn{}, fmt.Errorf("%s is not set: %s", study.PresetNames[preset], gap.Label)
	}
	img, err := photo.Open(kept)
	if err != nil {
		return photo.Redrawn{}, err
	}
	return photo.Redraw(img, p.Scale, p.shape(r, stood), move)
}

// MovedWords say how far the body is moved in a picture.
func MovedWords(stands string, c photo.Change) string {
	stood := "The car stood at " + stands
	if stands == "as received" {
		stood = "The car stood as received"
	}
	say := func(v float64) string {
		switch mm := math.Round(1000 * v); {
		case mm > 0:
			return fmt.Sprintf("%.0f\u00a0mm up", mm)
		case mm < 0:
			return fmt.Sprintf("%.0f\u00a0mm down", -mm)
		}
		return "not moved"
	}
	front, rear := say(c.Front), say(c.Rear)
	switch {
	case front != rear:
		return fmt.Sprintf("%s. The body is drawn %s at the front, %s at the rear.", stood, front, rear)
	case front == "not moved":
		return stood + ": this is the picture as it was taken."
	}
	return fmt.Sprintf("%s. The body is drawn %s over its wheels.", stood, front)
}
