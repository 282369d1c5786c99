package body

// Length is a measure that was read, or not.
type Length struct {
	V     float64 // [m]
	Known bool
}

// Known is a length that was read [m].
func Known(v float64) Length { return Length{v, true} }

// Measures are what was read of a body.
type Measures struct {
	Form          string // "saloon", "coupé", "estate", "hatch", "pickup", "van", "open two-seater"; anything else is drawn as a saloon
	Wheelbase     Length // hub to hub
	FrontOverhang Length // front hub to the foremost part
	RearOverhang  Length // rear hub to the rearmost part
	Roof          Length // over the floor
	Bonnet        Length // its rear edge over the floor
	Waist         Length // lower edge of the side glass over the floor
	Boot          Length // its edge over the floor
	Sill          Length // mid-door over the floor
	SillFront     Length
	SillRear      Length
	Width         Length
	TyreRadius    [2]Length       // free, front and rear
	Hub           [2]Length       // over the floor
	Arch          [2]Length       // hub to arch
	ArchShape     [2]string       // "round", "flat", "covered"
	Stations      map[string]Spot // control points that somebody put elsewhere
}

// Spot is where a control point was put; a direction not known is left to the
// form.
type Spot struct{ X, Z Length }
