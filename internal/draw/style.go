package draw

import "jounce/internal/draw/font"

// Px is one CSS pixel [mm].
const Px = 25.4 / 96

// Pt72 is one printer's point [mm].
const Pt72 = 25.4 / 72

// PX is n CSS pixels [mm].
func PX(n float64) float64 { return n * Px }

// Medium tells a screen from paper. Figures differ in words and leaders, never in data.
type Medium uint8

// The media.
const (
	Screen Medium = iota
	Print
)

// Size is a class of lettering.
type Size uint8

// The classes.
const (
	Cap    Size = iota // captions and scale figures, in ink2
	Body               // lettering on drawings
	Bold               // the same with weight 600: names, values in force
	Number             // a figure's read-out, in the reading face, 600
)

// Style is the medium with its measures. It is plain data: a figure may copy and change it.
type Style struct {
	Medium Medium
	Name   string     // "phone", "tablet", "desktop", "paper"
	Size   [4]float64 // [mm] lettering size (the em) of Cap, Body, Bold, Number
	W      [5]float64 // [mm] line widths; W[W1] to W[W4], W[0] unused
	Least  float64    // [mm] the smallest lettering allowed
	Tick   float64    // [mm] pitch of ticks and hatch
	Arrow  float64    // [mm] length of an arrowhead; its width is a third
	Disc   float64    // [mm] radius of a balloon
	Touch  float64    // [mm] least side of something that can be touched; 0 on paper
}

func screen(name string, w1, w2, w3, w4 float64) Style {
	return Style{
		Medium: Screen, Name: name,
		Size:  [4]float64{PX(15), PX(15), PX(15), PX(22)},
		W:     [5]float64{0, PX(w1), PX(w2), PX(w3), PX(w4)},
		Least: PX(14), Tick: PX(7), Arrow: PX(11), Disc: PX(13), Touch: PX(48),
	}
}

// Phone is the style of figures about 344 px wide.
func Phone() Style { return screen("phone", 1, 1.4, 2, 2.4) }

// Tablet is the style of figures about 780 px wide.
func Tablet() Style { return screen("tablet", 1.25, 1.8, 2.5, 2.7) }

// Desktop is the style of figures of 1,060 px and more.
func Desktop() Style { return screen("desktop", 1.25, 1.8, 2.5, 3.2) }

// ForPaper is the style of a drawing on a sheet: capitals of 2.5 mm, which is a size of 3.57 mm.
func ForPaper() Style {
	return Style{
		Medium: Print, Name: "paper",
		Size:  [4]float64{8.6 * Pt72, 2.5 / font.CapHeight, 2.5 / font.CapHeight, 10.5 * Pt72},
		W:     [5]float64{0, 0.25, 0.35, 0.5, 0.7},
		Least: 7.4 * Pt72, Tick: 1.8, Arrow: 2.7, Disc: 2.5,
	}
}

// ForPaperChart is the style of a small figure among text on a sheet: the lettering of the lists round it, 8.2 pt.
func ForPaperChart() Style {
	s := ForPaper()
	s.Size = [4]float64{7.8 * Pt72, 8.2 * Pt72, 8.2 * Pt72, 10.5 * Pt72}
	s.Tick, s.Arrow, s.Disc = 1.5, 2.4, 2.1
	return s
}

// Hatch is the hatch for what is shut off: 45°, thin, in the rule's ink.
func (s Style) Hatch() Hatch { return Hatch{Angle: 45, Pitch: s.Tick, Pen: W1.Pen().In(Rule)} }

// Width is the width of the pen in this style [mm]; 0 for a pen that draws nothing.
func (s Style) Width(p Pen) float64 {
	if p.Role == None {
		return 0
	}
	if p.W == WOwn {
		return p.MM
	}
	return s.W[min(int(p.W), 4)]
}

// Face is the face of a class of lettering.
func (s Style) Face(c Size) font.Face {
	switch c {
	case Bold:
		return font.Cond600
	case Number:
		return font.Norm600
	}
	return font.Cond500
}

// Text is lettering of the class with its base line at x, y [mm].
func (s Style) Text(c Size, x, y float64, str string, a Anchor) Text {
	role := Ink
	if c == Cap {
		role = Ink2
	}
	return Text{X: x, Y: y, S: str, Size: s.Size[c&3], Face: s.Face(c), Role: role, Anchor: a}
}

// TextWidth is the length of str [mm] set at size [mm] with weight 500 or 600, condensed (lettering) or not (reading).
func (s Style) TextWidth(str string, size float64, weight int, condensed bool) float64 {
	f := font.Norm500
	if condensed {
		f = font.Cond500
	}
	if weight >= 600 {
		f = f.Bold()
	}
	return f.Width(str, size)
}

// Len is the length of str [mm] in the class of lettering.
func (s Style) Len(c Size, str string) float64 { return s.Face(c).Width(str, s.Size[c&3]) }

// Line is the usual distance of two base lines of the class [mm].
func (s Style) Line(c Size) float64 { return 1.25 * s.Size[c&3] }
