package draw

// Role says what a line, a tone or a word is; the medium gives it a colour. The zero value draws nothing.
type Role uint8

// The roles, in the words of the palette.
const (
	None    Role = iota // not drawn
	Ink                 // lines, text
	Ink2                // captions, centre lines, extreme positions
	Rule                // row rules, floor hatch, chart grid
	Faint               // carries no meaning
	Skin                // inside the car's outline
	Tyre                // rubber, the band of a doubt; the only large tone
	Paper               // the ground
	Field               // inside an entry box
	Move                // the accent: this moves, or you can touch it
	OnMove              // text on the accent
	Pass                // verdict
	Fail                // verdict
	Close               // verdict: too close to call
	Unknown             // verdict: not enough known
)

// Roles lists all roles that draw something.
var Roles = []Role{Ink, Ink2, Rule, Faint, Skin, Tyre, Paper, Field, Move, OnMove, Pass, Fail, Close, Unknown}

var roleNames = [...]string{"none", "ink", "ink2", "rule", "faint", "skin", "tyre", "paper", "field", "move", "onmove", "pass", "fail", "close", "unknown"}

// String is the role's name as a style sheet uses it: "ink", "onmove".
func (r Role) String() string {
	if int(r) < len(roleNames) {
		return roleNames[r]
	}
	return "none"
}

// Width is a class of line width. The zero value means that the pen's own width in millimetres counts.
type Width uint8

// The classes, after ISO 128-2: thin, medium, wide, and the car's outline.
const (
	WOwn Width = iota // Pen.MM counts
	W1                // thin: shut lines, dimensions, leaders, table rules
	W2                // medium: glass, bumpers, balloons, entry boxes, limits
	W3                // wide: floor, tyres, frame, curves
	W4                // the car's outline, nothing else
)

// Pen is a pen of this width in ink, solid.
func (w Width) Pen() Pen { return Pen{Role: Ink, W: w} }

// Dash is a class of line.
type Dash uint8

// The classes, after ISO 128-2, with their lengths in Pattern.
const (
	Solid     Dash = iota
	Dashed         // hidden; a second series
	Chain          // centre lines, scrub line, strut axis
	ChainTwo       // double dot: extreme positions
	Dotted         // a third series
	OwnDashes      // Pen.Dashes counts
)

// Pattern is the lengths of dash and gap in turn [mm]; nil for a solid line. The same on a screen and on paper.
func (d Dash) Pattern() []float64 {
	switch d {
	case Dashed:
		return []float64{7 * Px, 4 * Px}
	case Chain:
		return []float64{16 * Px, 4 * Px, 3 * Px, 4 * Px}
	case ChainTwo:
		return []float64{16 * Px, 4 * Px, 3 * Px, 4 * Px, 3 * Px, 4 * Px}
	case Dotted:
		return []float64{2 * Px, 4 * Px}
	}
	return nil
}

// Pen is how a line is drawn. The zero value draws nothing.
type Pen struct {
	Role   Role
	W      Width
	MM     float64 // [mm] own width, when W is WOwn
	Dash   Dash
	Dashes []float64 // [mm] own pattern, when Dash is OwnDashes
	Round  bool      // round ends; otherwise cut square
	Sharp  bool      // mitred corners; otherwise round
}

// In is the same pen in another role.
func (p Pen) In(r Role) Pen { p.Role = r; return p }

// With is the same pen with another class of line.
func (p Pen) With(d Dash) Pen { p.Dash = d; return p }

// Dashed is a hidden line, or a second series.
func (p Pen) Dashed() Pen { return p.With(Dashed) }

// Chain is a centre line.
func (p Pen) Chain() Pen { return p.With(Chain) }

// ChainTwo is an extreme position.
func (p Pen) ChainTwo() Pen { return p.With(ChainTwo) }

// Dotted is a third series.
func (p Pen) Dotted() Pen { return p.With(Dotted) }

// Pattern is the pen's dashes [mm]; nil for solid.
func (p Pen) Pattern() []float64 {
	if p.Dash == OwnDashes {
		return p.Dashes
	}
	return p.Dash.Pattern()
}

// Draws reports whether the pen leaves a line.
func (p Pen) Draws() bool { return p.Role != None && (p.W != WOwn || p.MM > 0) }
