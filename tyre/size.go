package tyre

// inch is the length of one inch [m], exact.
const inch = 0.0254

// Kind is the way a size is marked.
type Kind int

// The kinds of marking.
const (
	Metric       Kind = iota + 1 // 185/70R14
	FullSection                  // 185R14, no aspect marked
	Inch                         // 6.40-13, width in inches, no aspect
	Flotation                    // 31x10.50R15
	AlphaNumeric                 // G78-15
)

func (k Kind) String() string {
	return [...]string{"unknown", "metric", "metric, no aspect marked", "inch", "flotation", "alphanumeric"}[k]
}

// Construction is how the carcass is built. Two constructions never share an
// axle.
type Construction int

// The constructions.
const (
	UnknownConstruction Construction = iota
	Radial
	Crossply
	BiasBelted
)

func (c Construction) String() string {
	return [...]string{"construction unknown", "radial", "crossply", "bias-belted"}[c]
}

// Use is the service the tyre is marked for.
type Use int

// The services.
const (
	Passenger  Use = iota // no mark
	PMetric               // P in front: passenger car, American tables
	LightTruck            // LT
	Commercial            // C behind the rim
	Temporary             // T in front: temporary spare
)

func (u Use) String() string {
	return [...]string{"passenger", "P-metric passenger", "light truck", "commercial", "temporary spare"}[u]
}

// Size is a tyre's marking, read.
type Size struct {
	Text         string       // as typed
	Kind         Kind         // way of marking
	Construction Construction // carcass
	Use          Use          // service
	Width        float64      // nominal section width [m]
	Aspect       float64      // section height over section width [1]; 0 when a table gives the diameter
	AspectFrom   string       // "marked", "setting", "rule" or "table"
	Diameter     float64      // marked or tabled overall diameter [m]; 0 when it follows from width and aspect
	Rim          float64      // nominal rim diameter [m]
	MetricRim    bool         // the rim is marked in millimetres, its seat is of its own form
	LoadIndex    int          // load index, single fitting [1]; 0 when not marked
	DualIndex    int          // load index, twin fitting [1]; 0 when not marked
	Load         float64      // load that the index stands for [kg]; 0 when not marked
	Symbol       string       // speed symbol; empty when not marked
	TopSpeed     float64      // speed that the symbol stands for [m/s]; 0 when not marked or "over"
	ExtraLoad    bool         // XL, reinforced
	PlyRating    int          // ply rating [1]; 0 when not marked
	Unread       []string     // words behind the size that were not understood
	Questions    []Question   // what should be asked; none of them hinders the reading
}

// String writes the size in one plain form, without load and speed.
func (s Size) String() string {
	return s.canonical()
}

// SectionHeight is width times aspect, or half of what the diameter leaves
// over the rim [m].
func (s Size) SectionHeight() float64 {
	if s.Diameter > 0 {
		return (s.Diameter - s.Rim) / 2
	}
	return s.Width * s.Aspect
}
