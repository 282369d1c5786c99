package draw

import (
	"math"
	"strings"

	"jounce/internal/draw/font"
)

// Anchor is which part of a line of lettering stands at its X.
type Anchor uint8

// The anchors.
const (
	Start  Anchor = iota // the beginning
	Middle               // the middle
	End                  // the end
)

// Base is which height of a line of lettering stands at its Y.
type Base uint8

// The heights.
const (
	Line0 Base = iota // the base line
	Mid               // half the height of the capitals: centred on Y
	Top               // the top of the capitals
)

// Span is a piece of a line in its own face and role.
type Span struct {
	S    string
	Face font.Face
	Role Role // None takes the line's role
}

// Text is one line of lettering.
type Text struct {
	X, Y   float64 // [mm]
	S      string
	Spans  []Span  // when given, the line is their sequence and S and Face are not used
	Size   float64 // [mm] the em; capitals are 0.7 of it
	Face   font.Face
	Role   Role
	Anchor Anchor
	Base   Base
	Halo   Role    // the ground drawn round the letters where lines run under them; None is without
	Angle  float64 // [°] turn about X, Y, anticlockwise as seen; 90 is read from the right
	ID     string
	Class  string
}

func (Text) item() {}

// In is the text in another role.
func (t Text) In(r Role) Text { t.Role = r; return t }

// On is the text with a halo of the ground it stands on.
func (t Text) On(r Role) Text { t.Halo = r; return t }

// At is the text with another height at Y.
func (t Text) At(b Base) Text { t.Base = b; return t }

// Turned is the text turned by deg [°], anticlockwise as seen.
func (t Text) Turned(deg float64) Text { t.Angle = deg; return t }

// Sized is the text with the size [mm].
func (t Text) Sized(mm float64) Text { t.Size = mm; return t }

// Bold is the text with weight 600.
func (t Text) Bold() Text { t.Face = t.Face.Bold(); return t }

// WithID is the text with an id.
func (t Text) WithID(id string) Text { t.ID = id; return t }

// WithClass is the text with further classes.
func (t Text) WithClass(c string) Text { t.Class = c; return t }

// Spanned is the text set in several pieces.
func (t Text) Spanned(spans ...Span) Text { t.Spans = spans; return t }

// Value is the text "68 ± 2" with its first word in weight 600, as drawings show a value with its doubt.
func (t Text) Value(value, rest string) Text {
	return t.Spanned(Span{S: value, Face: t.Face.Bold()}, Span{S: rest, Face: t.Face})
}

// Pieces is the line as spans, also when it was given as one string.
func (t Text) Pieces() []Span {
	if len(t.Spans) == 0 {
		return []Span{{S: t.S, Face: t.Face, Role: t.Role}}
	}
	out := make([]Span, len(t.Spans))
	for i, s := range t.Spans {
		if s.Role == None {
			s.Role = t.Role
		}
		out[i] = s
	}
	return out
}

// String is the whole line.
func (t Text) String() string {
	if len(t.Spans) == 0 {
		return t.S
	}
	var b strings.Builder
	for _, s := range t.Spans {
		b.WriteString(s.S)
	}
	return b.String()
}

// Width is the length of the line [mm].
func (t Text) Width() float64 {
	w := 0.0
	for _, s := range t.Pieces() {
		w += s.Face.Width(s.S, t.Size)
	}
	return w
}

// BaseLine is where the line begins on its base line, before it is turned about X, Y [mm].
func (t Text) BaseLine() Point {
	x, y := t.X, t.Y
	switch t.Anchor {
	case Middle:
		x -= t.Width() / 2
	case End:
		x -= t.Width()
	}
	switch t.Base {
	case Mid:
		y += font.CapHeight * t.Size / 2
	case Top:
		y += font.CapHeight * t.Size
	}
	return Point{x, y}
}

// Box is the box round the line, from the top of the capitals to the foot of the descenders, turned with it [mm].
func (t Text) Box() Box {
	p, w := t.BaseLine(), t.Width()
	o := Polygon(p.Add(0, -font.CapHeight*t.Size), p.Add(w, -font.CapHeight*t.Size), p.Add(w, font.Descent*t.Size), p.Add(0, font.Descent*t.Size))
	if t.Angle != 0 {
		o = o.Turn(Point{t.X, t.Y}, t.Angle)
	}
	b := Box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, s := range o[:4] {
		b = Box{math.Min(b.X0, s.P.X), math.Min(b.Y0, s.P.Y), math.Max(b.X1, s.P.X), math.Max(b.Y1, s.P.Y)}
	}
	return b
}

// Wrap breaks str at its spaces into lines of at most w [mm] in the face at size [mm]. A word longer than w stands alone.
// U+00A0 and U+202F are not broken at; a line feed always is.
func Wrap(f font.Face, str string, size, w float64) []string {
	var out []string
	for _, para := range strings.Split(str, "\n") {
		line := ""
		for _, word := range strings.Split(para, " ") {
			if word == "" {
				continue
			}
			next := word
			if line != "" {
				next = line + " " + word
			}
			if line != "" && f.Width(next, size) > w {
				out = append(out, line)
				next = word
			}
			line = next
		}
		out = append(out, line)
	}
	return out
}

// Lines is the text broken into lines of at most w [mm], one below the other; their number and the height they take
// follow from Style.Line.
func (s Style) Lines(c Size, x, y, w float64, str string, a Anchor) []Item {
	var out []Item
	for i, l := range Wrap(s.Face(c), str, s.Size[c&3], w) {
		out = append(out, s.Text(c, x, y+float64(i)*s.Line(c), l, a))
	}
	return out
}
