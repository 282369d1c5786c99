package draw

// Mark is one of the four verdict marks. Each is a picture of the rule: a limit line and the reading.
type Mark uint8

// The marks, in the order of listing them.
const (
	MarkFail    Mark = iota // a solid wedge hanging under a line
	MarkClose               // a diamond astride the line, its lower half filled
	MarkUnknown             // a dashed square, nothing in it
	MarkPass                // a ring standing clear above a line
)

// Marks lists the four marks in the order of listing.
var Marks = [4]Mark{MarkFail, MarkClose, MarkUnknown, MarkPass}

// Words is what always stands with the mark.
func (m Mark) Words() string {
	return [4]string{"Fail", "Too close to call", "Not enough known", "Pass"}[m&3]
}

// Role is the mark's role.
func (m Mark) Role() Role { return [4]Role{Fail, Close, Unknown, Pass}[m&3] }

// MarkBox is the side of the box the marks are designed in; see MarkPaths.
const MarkBox = 26.0

// markStroke is the width of the marks' lines in their box.
const markStroke = 2.3

// MarkPaths is the mark in a box of 26 by 26 with its top left corner at 0, 0, scaled by k.
func MarkPaths(m Mark, x0, y0, k float64) []Path {
	f := Frame{X0: x0, Y0: y0, SX: k, SY: k}
	pen := Pen{Role: m.Role(), MM: markStroke * k, Sharp: true}
	line := func(y float64) Path { return Line(2, y, 24, y).Map(f).Stroke(pen) }
	switch m {
	case MarkPass:
		return []Path{line(22.5), Circle(13, 11, 6.6).Map(f).Stroke(pen)}
	case MarkFail:
		return []Path{line(3.5), Polygon(Pt(4.5, 9.5), Pt(21.5, 9.5), Pt(13, 23)).Map(f).FillStroke(m.Role(), Pen{})}
	case MarkClose:
		return []Path{
			Polygon(Pt(3.5, 13), Pt(22.5, 13), Pt(13, 22.5)).Map(f).Fill(m.Role()),
			Polygon(Pt(3.5, 13), Pt(13, 3.5), Pt(22.5, 13), Pt(13, 22.5)).Map(f).Stroke(pen),
			Line(0.5, 13, 25.5, 13).Map(f).Stroke(pen),
		}
	}
	pen.Dash, pen.Dashes = OwnDashes, []float64{4.2 * k, 3 * k}
	return []Path{Rect(4, 4, 18, 18).Map(f).Stroke(pen)}
}

// VerdictMark is the mark centred at x, y in a box of the size [mm]: 30 px on a screen, 4 mm or 6 mm on paper.
func VerdictMark(m Mark, x, y, size float64) Group {
	k := size / MarkBox
	g := Group{Class: "vm", Title: m.Words()}
	for _, p := range MarkPaths(m, x-size/2, y-size/2, k) {
		g.Add(p)
	}
	return g
}
