package draw

// Item is what a scene is made of: Path, Text or Group.
type Item interface{ item() }

// Path is an outline with a pen, a tone or a hatch.
type Path struct {
	Outline Outline
	Pen     Pen
	Tone    Role    // filled, even-odd
	Hatch   Hatch   // lines inside the outline
	Alpha   float64 // [1] opacity of pen and tone; 0 counts as 1
	ID      string
	Class   string // further classes for a script or a style sheet
	Title   string // what it is, in words
}

func (Path) item() {}

// Stroke is the outline drawn with the pen.
func (o Outline) Stroke(p Pen) Path { return Path{Outline: o, Pen: p} }

// Fill is the outline filled with the tone.
func (o Outline) Fill(r Role) Path { return Path{Outline: o, Tone: r} }

// FillStroke is the outline filled with the tone and drawn with the pen.
func (o Outline) FillStroke(r Role, p Pen) Path { return Path{Outline: o, Tone: r, Pen: p} }

// Hatched is the outline hatched, without an edge.
func (o Outline) Hatched(h Hatch) Path { return Path{Outline: o, Hatch: h} }

// WithPen, WithTone, WithHatch and so on are the path with that one thing changed.
func (p Path) WithPen(pen Pen) Path { p.Pen = pen; return p }

// WithTone is the path filled with the role.
func (p Path) WithTone(r Role) Path { p.Tone = r; return p }

// WithHatch is the path hatched.
func (p Path) WithHatch(h Hatch) Path { p.Hatch = h; return p }

// WithAlpha is the path with the opacity a [1].
func (p Path) WithAlpha(a float64) Path { p.Alpha = a; return p }

// WithID is the path with an id.
func (p Path) WithID(id string) Path { p.ID = id; return p }

// WithClass is the path with further classes.
func (p Path) WithClass(c string) Path { p.Class = c; return p }

// WithTitle is the path with its name in words.
func (p Path) WithTitle(t string) Path { p.Title = t; return p }

// Attr is one data attribute, written "data-" and Key. Keys are small letters, figures and hyphens.
type Attr struct{ Key, Value string }

// Group is several items that belong together. Text in it is turned with it and never scaled.
type Group struct {
	Items []Item
	ID    string // written after Scene.ID and a hyphen
	Class string
	Title string // its name in words; read aloud when the group is a link
	Href  string // where it leads; the group is a link then
	Data  []Attr
	DX    float64 // [mm] shift to the right
	DY    float64 // [mm] shift down
	Angle float64 // [°] turn about About, anticlockwise as seen, before the shift
	About Point
	Clip  *Box // nothing is drawn outside; in the group's own coordinates
}

func (Group) item() {}

// G is the group of the items.
func G(items ...Item) Group { return Group{Items: items} }

// Add appends items to the group.
func (g *Group) Add(items ...Item) { g.Items = append(g.Items, items...) }

// WithID is the group with an id.
func (g Group) WithID(id string) Group { g.ID = id; return g }

// WithClass is the group with classes.
func (g Group) WithClass(c string) Group { g.Class = c; return g }

// WithTitle is the group with its name in words.
func (g Group) WithTitle(t string) Group { g.Title = t; return g }

// Link is the group as a link; title is what a screen reader says.
func (g Group) Link(href, title string) Group { g.Href, g.Title = href, title; return g }

// WithData is the group with one more data attribute.
func (g Group) WithData(key, value string) Group {
	g.Data = append(g.Data[:len(g.Data):len(g.Data)], Attr{key, value})
	return g
}

// Shift is the group moved by dx, dy [mm].
func (g Group) Shift(dx, dy float64) Group { g.DX += dx; g.DY += dy; return g }

// Turn is the group turned about the point by deg [°], anticlockwise as seen, before its shift.
func (g Group) Turn(about Point, deg float64) Group { g.About, g.Angle = about, deg; return g }

// Plain is the item by value, also when it was handed over by its address. Encoders call it on every item.
func Plain(it Item) Item {
	switch v := it.(type) {
	case *Path:
		return *v
	case *Text:
		return *v
	case *Group:
		return *v
	}
	return it
}

// Scene is a whole figure.
type Scene struct {
	W, H  float64 // [mm]
	Style Style   // for which it was drawn
	ID    string  // before every id; unique on the page
	Title string  // one line: what the figure shows
	Desc  string  // what it says, for those who cannot see it
	Items []Item
}

// NewScene is an empty scene of w by h [mm] for the style.
func NewScene(st Style, w, h float64) Scene { return Scene{W: w, H: h, Style: st} }

// Add appends items; the later ones lie on top.
func (s *Scene) Add(items ...Item) { s.Items = append(s.Items, items...) }
