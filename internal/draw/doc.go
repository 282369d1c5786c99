// Package draw is a drawing in millimetres that every medium shows: the same Scene becomes SVG on a screen (draw/svg)
// and vectors in a PDF (draw/pdf). A figure is a pure function of its data, a width in millimetres and a Style.
//
// # Space
//
// Millimetres of the page or screen. The origin is the top left corner, x runs right, y runs DOWN, as on paper.
// One CSS pixel is Px millimetres (25.4/96). Angles are degrees, anticlockwise as seen on the paper. Left and right of
// a line are those of somebody who walks along it, as seen on the paper. Model coordinates (car millimetres, seconds,
// bar) are brought onto the paper by a Frame (drawings) or two Axis values (charts); lettering and line widths are
// never scaled with the model.
//
// # A figure
//
//	func Travel(r Result, width float64, st draw.Style) draw.Scene {
//		s := draw.NewScene(st, width, 60)
//		s.ID, s.Title, s.Desc = "travel", "Travel of the front axle", "From 60 mm down to 45 mm up."
//		x := draw.Axis{V0: -60, V1: 45, P0: 10, P1: width - 10}
//		s.Add(
//			draw.Line(10, 30, width-10, 30).Stroke(draw.W3.Pen()),               // a stroke in ink
//			draw.Rect(10, 26, 20, 8).Fill(draw.Tyre),                             // a tone
//			draw.Rect(40, 26, 20, 8).Hatched(st.Hatch()),                         // shut off
//			draw.Polyline(pts...).Stroke(draw.W1.Pen().In(draw.Ink2).Chain()),    // a centre line
//			draw.LimitLine(st, pts, draw.OnLeft),                                 // ticks on the forbidden side
//			draw.IBar(st, draw.Point{X: x.At(-2), Y: 20}, draw.Point{X: x.At(2), Y: 20}),
//			draw.Dimension(st, a, b, -8, "2540"),
//			draw.Balloon(st, 30, 10, "3"),
//			st.Text(draw.Body, x.At(0), 40, "ROAD", draw.Middle),
//		)
//		return s
//	}
//
// Outline has the path operations (MoveTo, LineTo, CurveTo, ArcTo by bulge, Close) and the shapes Line, Polyline,
// Polygon, Rect, Circle, Arc; Stroke, Fill, FillStroke and Hatched turn it into a Path, whose methods With..., In, Dashed
// and so on return a changed copy. Group carries id, class, title, link, data attributes, a shift and a turn: "a number is
// a door" is a Group with an Href, the body that a script moves is a Group with an ID and Data. Ids are written as
// Scene.ID, a hyphen and Group.ID, so that three scenes of one figure can stand on one page.
//
// Colours are roles (Ink, Skin, Move, Fail ...), never values; widths are classes W1 to W4. The encoder gives them
// their meaning: the page's style sheet on a screen, Style.W on paper.
//
// Lettering is measured with the faces that are embedded (Style.TextWidth, Text.Width, Wrap). Spread pushes labels apart
// along a line; Scene.Faults finds lettering that collides, leaves the sheet, is too small or cannot be set, and is
// meant for the test of every figure.
package draw
