// Package job is the record of one conversion: what somebody typed or
// measured, as typed, with its unit and, where measured, the instrument, who
// and when. It is partial at any time. It holds no physics and no judgement.
//
// A job is one JSON document. Quantities are texts with units ("412 mm ± 2 mm")
// or objects that add with what, by whom and when they were read. Every item of
// a list has an id that never changes. Field tags say what a place holds:
//
//	q      the kind of quantity, the unit that its box shows, and the range
//	       outside which the value is questioned: `q:"length mm 1500..4500"`
//	label  the words beside the box
//	where  where on the car it is read
//	of     the values that a choice may take, "|" between
//	copy   what becomes of it in a job that is begun as a copy, see copy.go
package job

// Schema is the version of the document that this program writes.
const Schema = 1

// Job is the record of one conversion.
type Job struct {
	Schema      int          `json:"schema"`
	ID          string       `json:"id" label:"Job number" copy:"out"`
	Name        string       `json:"name,omitempty" label:"Name of the job" copy:"out"`
	Car         Car          `json:"car,omitzero" copy:"keep"`
	Keeper      Person       `json:"keeper,omitzero" copy:"out"`
	Place       Place        `json:"place,omitzero" copy:"out"`
	Wishes      []Wish       `json:"wishes,omitempty" label:"Wishes" copy:"owner"`
	Instruments []Instrument `json:"instruments,omitempty" label:"Instruments" copy:"all"`
	Survey      Survey       `json:"survey,omitzero" copy:"out"`
	Outline     Outline      `json:"outline,omitzero"`
	Corners     Corners      `json:"corners,omitzero" copy:"out"`
	Axles       Axles        `json:"axles,omitzero" copy:"keep"`
	Springs     []Spring     `json:"springs,omitempty" label:"Springs" copy:"all"`
	Presets     Presets      `json:"presets,omitzero" copy:"all"`
	Touch       []Touch      `json:"touch,omitempty" label:"Touch points"`
	Ways        Ways         `json:"ways,omitzero" copy:"owner"`
	Loads       Loads        `json:"loads,omitzero" copy:"keep"`
	Air         Air          `json:"air,omitzero" copy:"keep"`
	LeakTests   []LeakTest   `json:"leakTests,omitempty" label:"Leak tests" copy:"out"`
	Photos      []Photo      `json:"photos,omitempty" label:"Pictures" copy:"out"`
	Signatures  []Signature  `json:"signatures,omitempty" label:"Signatures" copy:"out"`
	Note        string       `json:"note,omitempty" label:"Note" copy:"out"`
}

// Car says which car it is, as far as anybody has typed it.
type Car struct {
	Description string  `json:"description,omitempty" label:"The car in a few words"`
	Form        string  `json:"form,omitempty" label:"Body form" of:"saloon|coupé|estate|hatch|pickup|van|open two-seater"`
	Year        string  `json:"year,omitempty" label:"Year built"`
	Plate       string  `json:"plate,omitempty" label:"Registration" copy:"out"`
	Wheels      string  `json:"wheels,omitempty" label:"Wheels" of:"4|3"`
	Drive       string  `json:"drive,omitempty" label:"Driven wheels" of:"rear|front|all"`
	Voltage     Reading `json:"voltage,omitzero" q:"voltage V 5..30" label:"System voltage" copy:"out"`
	Earth       string  `json:"earth,omitempty" label:"Which pole is earthed" of:"negative|positive" copy:"out"`
	PlatedMass  Reading `json:"platedMass,omitzero" q:"mass kg 400..4500" label:"Plated gross mass" where:"maker's plate" copy:"out"`
	PlatedFront Reading `json:"platedFront,omitzero" q:"mass kg 200..2500" label:"Plated front axle" where:"maker's plate" copy:"out"`
	PlatedRear  Reading `json:"platedRear,omitzero" q:"mass kg 200..3000" label:"Plated rear axle" where:"maker's plate" copy:"out"`
	TopSpeed    Reading `json:"topSpeed,omitzero" q:"speed km/h 40..300" label:"Top speed" copy:"keep"`
}

// Person is somebody outside the shop.
type Person struct {
	Name    string `json:"name,omitempty" label:"Keeper"`
	Contact string `json:"contact,omitempty" label:"How to reach the keeper"`
}

// Place says where the car is and how far the job is.
type Place struct {
	Where    string `json:"where,omitempty" label:"Where the car is" of:"in a bay|in the yard|not here yet|gone home"`
	Bay      string `json:"bay,omitempty" label:"Bay"`
	Stands   string `json:"stands,omitempty" label:"How it stands" of:"own steel springs|on stands|on air"`
	Stage    string `json:"stage,omitempty" label:"Stage" of:"enquiry|booked|survey|paper|strip and fit|leak test|proof|road|sound, panels|handed over"`
	Promised string `json:"promised,omitempty" label:"Promised for"` // date, 2026-05-29
	Holds    string `json:"holds,omitempty" label:"What holds it"`
}

// Wish is one thing the customer wants, in the customer's words.
type Wish struct {
	ID      string  `json:"id"`
	Words   string  `json:"words,omitempty" label:"In the customer's words"`
	Measure string  `json:"measure,omitempty" label:"Measured by" of:"sill height at DOWN|drop from ROAD|lift from ROAD|hump cleared|ride frequency|leak in 12 h|other"`
	Target  Reading `json:"target,omitzero" q:"any" label:"Target"`
}

// Instrument is something a reading was taken with.
type Instrument struct {
	ID       string  `json:"id"`
	Name     string  `json:"name,omitempty" label:"Instrument"`
	Measures string  `json:"measures,omitempty" label:"Measures" of:"pressure|temperature|absolute-pressure|length|mass|volume|angle"`
	Accuracy Reading `json:"accuracy,omitzero" q:"any" label:"Give or take"`
	Checked  string  `json:"checked,omitempty" label:"Last checked"` // date
	Due      string  `json:"due,omitempty" label:"Check due"`        // date
}

// Survey is what was measured on the whole car, as received.
type Survey struct {
	Wheelbase     Reading `json:"wheelbase,omitzero" q:"length mm 1500..4500" label:"Wheelbase" where:"hub to hub, left side"`
	TrackFront    Reading `json:"trackFront,omitzero" q:"length mm 900..2000" label:"Track, front" where:"tyre middle to tyre middle"`
	TrackRear     Reading `json:"trackRear,omitzero" q:"length mm 900..2000" label:"Track, rear" where:"tyre middle to tyre middle"`
	Sill          Reading `json:"sill,omitzero" q:"length mm 40..700" label:"Sill above the floor" where:"left, lowest edge, mid-door"`
	FrontOverhang Reading `json:"frontOverhang,omitzero" q:"length mm 200..1500" label:"Front overhang" where:"front hub to the foremost part"`
	RearOverhang  Reading `json:"rearOverhang,omitzero" q:"length mm 200..2000" label:"Rear overhang" where:"rear hub to the rearmost part"`
	Roof          Reading `json:"roof,omitzero" q:"length mm 900..3000" label:"Roof above the floor" where:"highest point"`
	Lowest        Reading `json:"lowest,omitzero" q:"length mm 30..500" label:"Lowest hard part above the floor" where:"from below, with a lamp"`
	LowestName    string  `json:"lowestName,omitempty" label:"Which part is lowest"`
	LowestLaden   Reading `json:"lowestLaden,omitzero" q:"length mm 20..500" label:"Lowest hard part above the floor, laden" where:"people and luggage aboard"`
	LampAim       Reading `json:"lampAim,omitzero" q:"ratio % -6..3" label:"Dipped beam aim" where:"below horizontal is minus"`
	LampHeight    Reading `json:"lampHeight,omitzero" q:"length mm 300..1500" label:"Lamp centre above the floor"`
	TicketFront   Reading `json:"ticketFront,omitzero" q:"mass kg 100..2500" label:"Axle ticket, front" where:"weighbridge"`
	TicketRear    Reading `json:"ticketRear,omitzero" q:"mass kg 100..3000" label:"Axle ticket, rear" where:"weighbridge"`
	Total         Reading `json:"total,omitzero" q:"mass kg 400..3500" label:"Total weight" where:"weighbridge or pads"`
	Fuel          string  `json:"fuel,omitempty" label:"Fuel when weighed"`
	Driver        string  `json:"driver,omitempty" label:"Driver when weighed" of:"in|out"`
	DriverMass    Reading `json:"driverMass,omitzero" q:"mass kg 40..150" label:"Driver or ballast in the driver's seat"`
	DriverSide    string  `json:"driverSide,omitempty" label:"Driver sits" of:"right|left" copy:"keep"`
	Luggage       string  `json:"luggage,omitempty" label:"Luggage when weighed"`
	HeightsRead   string  `json:"heightsRead,omitempty" label:"Heights read at" of:"as received|ROAD|DOWN|HUMP|HIGH"`
}

// Corners are the four wheels, left and right as seated facing forward.
type Corners struct {
	FL Corner `json:"FL,omitzero" label:"FL"`
	FR Corner `json:"FR,omitzero" label:"FR"`
	RL Corner `json:"RL,omitzero" label:"RL"`
	RR Corner `json:"RR,omitzero" label:"RR"`
}

// Corner is what was read at one wheel.
type Corner struct {
	Weight       Reading `json:"weight,omitzero" q:"mass kg 40..1500" label:"Weight" where:"on its pad"`
	HubToArch    Reading `json:"hubToArch,omitzero" q:"length mm 150..800" label:"Hub to arch" where:"hub centre to arch edge"`
	GroundToBody Reading `json:"groundToBody,omitzero" q:"length mm 40..1000" label:"Ground to body" where:"floor to the body datum"`
	Pressure     Reading `json:"pressure,omitzero" q:"pressure bar 0..20" label:"Spring pressure read at ROAD" where:"at the valve block"`
}

// Axles are the two ends of the car.
type Axles struct {
	Front Axle `json:"front,omitzero" label:"Front"`
	Rear  Axle `json:"rear,omitzero" label:"Rear"`
}

// Axle is one end of the car: how its wheels are led and what carries it.
type Axle struct {
	Layout        string    `json:"layout,omitempty" label:"Layout" of:"strut|double wishbone|semi-trailing arm|trailing arm|five-link|live axle on links|leaf springs|swing axle|torsion bar|rubber cone|fluid|transverse leaf"`
	Springing     string    `json:"springing,omitempty" label:"Springs to be" of:"air|steel"`
	WasLeaf       string    `json:"wasLeaf,omitempty" label:"Was leaf-sprung before" of:"no|yes"`
	LinkScheme    string    `json:"linkScheme,omitempty" label:"Engineer's scheme for the links" copy:"out"`
	Control       string    `json:"control,omitempty" label:"Control" of:"height-held|pressure-held|valves shut"`
	TyreLeft      string    `json:"tyreLeft,omitempty" label:"Tyre, left, as written on it"`
	TyreRight     string    `json:"tyreRight,omitempty" label:"Tyre, right, as written on it"`
	LoadedRadius  Reading   `json:"loadedRadius,omitzero" q:"length mm 180..500" label:"Hub above the floor" copy:"out"`
	TyreDate      string    `json:"tyreDate,omitempty" label:"Tyre date code" copy:"out"`
	UnsprungLeft  Reading   `json:"unsprungLeft,omitzero" q:"mass kg 5..200" label:"Unsprung, left wheel" copy:"sheet"`
	UnsprungRight Reading   `json:"unsprungRight,omitzero" q:"mass kg 5..200" label:"Unsprung, right wheel" copy:"sheet"`
	UnsprungAxle  Reading   `json:"unsprungAxle,omitzero" q:"mass kg 10..400" label:"Unsprung, whole axle" copy:"sheet"`
	SpringRatio   Reading   `json:"springRatio,omitzero" q:"ratio 1 0.2..5" label:"Spring travel ÷ wheel travel" copy:"sheet"`
	DamperRatio   Reading   `json:"damperRatio,omitzero" q:"ratio 1 0.2..1.2" label:"Damper travel ÷ wheel travel" copy:"sheet"`
	Spring        string    `json:"spring,omitempty" label:"Spring"` // id in springs
	SpringHeight  Reading   `json:"springHeight,omitzero" q:"length mm 40..600" label:"Spring height at ROAD" where:"seat to seat" copy:"out"`
	AirVolume     Reading   `json:"airVolume,omitzero" q:"volume L 0.1..20" label:"Air, spring and line, at ROAD" copy:"sheet"`
	BumpVolume    Reading   `json:"bumpVolume,omitzero" q:"volume L 0.05..20" label:"Air left at full bump" copy:"sheet"`
	Seat          string    `json:"seat,omitempty" label:"The new spring sits" of:"in the original seat|on the damper's mounting"`
	MountCarried  Reading   `json:"mountCarried,omitzero" q:"force N 0..30000" label:"What that mounting carried before" copy:"sheet"`
	MountScheme   string    `json:"mountScheme,omitempty" label:"Engineer's scheme for the mounting" copy:"out"`
	TeedSprings   string    `json:"teedSprings,omitempty" label:"Both springs on one line" of:"no|yes"`
	Damper        Strut     `json:"damper,omitzero" label:"Damper"`
	Stop          Stop      `json:"stop,omitzero" label:"Bump stop"`
	Limiters      []Limiter `json:"limiters,omitempty" label:"Other limits of travel"`
	SteelRate     Reading   `json:"steelRate,omitzero" q:"stiffness N/mm 2..300" label:"Rate of the steel spring" copy:"sheet"`
}

// Strut is a part with a length: the damper.
type Strut struct {
	Road   Reading `json:"road,omitzero" q:"length mm 80..900" label:"Length at ROAD" where:"eye to eye" copy:"out"`
	Open   Reading `json:"open,omitzero" q:"length mm 80..1000" label:"Length open" copy:"sheet"`
	Closed Reading `json:"closed,omitzero" q:"length mm 60..900" label:"Length closed" copy:"sheet"`
}

// Stop is the rubber that ends upward travel. Its lengths are taken along the
// damper.
type Stop struct {
	Free  Reading `json:"free,omitzero" q:"length mm 0..200" label:"Stop, free length" copy:"sheet"`
	Solid Reading `json:"solid,omitzero" q:"length mm 0..150" label:"Stop, squeezed solid" copy:"sheet"`
}

// Limiter is another part that ends travel, measured at the wheel from ROAD.
type Limiter struct {
	ID    string  `json:"id"`
	Name  string  `json:"name,omitempty" label:"Part"`
	Bump  Reading `json:"bump,omitzero" q:"length mm 0..300" label:"Bump from ROAD, at the wheel" copy:"sheet"`
	Droop Reading `json:"droop,omitzero" q:"length mm 0..300" label:"Droop from ROAD, at the wheel" copy:"sheet"`
}

// Spring is an air spring by its maker's figures.
type Spring struct {
	ID         string        `json:"id"`
	Name       string        `json:"name,omitempty" label:"Spring"`
	Behaviour  string        `json:"behaviour,omitempty" label:"Kind" of:"bellows|sleeve"`
	MaxWorking Reading       `json:"maxWorking,omitzero" q:"pressure bar 2..20" label:"Maximum working pressure"`
	MaxDynamic Reading       `json:"maxDynamic,omitzero" q:"pressure bar 2..40" label:"Maximum pressure in bump"`
	Closed     Reading       `json:"closed,omitzero" q:"length mm 20..400" label:"Least height"`
	Open       Reading       `json:"open,omitzero" q:"length mm 50..700" label:"Greatest height"`
	Points     []SpringPoint `json:"points,omitempty" label:"Load, pressure, height"`
	Volumes    []VolumePoint `json:"volumes,omitempty" label:"Volume at heights"`
	Estimate   Reading       `json:"estimate,omitzero" q:"length mm 50..400" label:"Outside diameter, for an estimate only"`
}

// SpringPoint is one line of the maker's table.
type SpringPoint struct {
	ID       string  `json:"id"`
	Pressure Reading `json:"pressure,omitzero" q:"pressure bar 0.2..20" label:"Pressure"`
	Height   Reading `json:"height,omitzero" q:"length mm 20..600" label:"Height"`
	Load     Reading `json:"load,omitzero" q:"force N 50..60000" label:"Load"`
}

// VolumePoint is the air in the spring at one height.
type VolumePoint struct {
	ID     string  `json:"id"`
	Height Reading `json:"height,omitzero" q:"length mm 20..600" label:"Height"`
	Volume Reading `json:"volume,omitzero" q:"volume L 0.05..30" label:"Volume"`
}

// Presets are the saved heights. ROAD is a change from the heights as received,
// the others are changes from ROAD.
type Presets struct {
	Road Preset `json:"road,omitzero" label:"ROAD"`
	Down Preset `json:"down,omitzero" label:"DOWN"`
	Hump Preset `json:"hump,omitzero" label:"HUMP"`
	High Preset `json:"high,omitzero" label:"HIGH"`
}

// Preset is the change at the two axles.
type Preset struct {
	Front Reading `json:"front,omitzero" q:"length mm -250..250" label:"Front, change"`
	Rear  Reading `json:"rear,omitzero" q:"length mm -250..250" label:"Rear, change"`
}

// Loads say where people and luggage go.
type Loads struct {
	Seats     []Seat  `json:"seats,omitempty" label:"Seats"`
	LuggageX  Reading `json:"luggageX,omitzero" q:"length mm -1500..6000" label:"Luggage behind the front axle" copy:"sheet"`
	Luggage   Reading `json:"luggage,omitzero" q:"mass kg 0..1000" label:"Luggage" copy:"keep"`
	AddedMass Reading `json:"addedMass,omitzero" q:"mass kg 0..200" label:"Air supply fitted" copy:"keep"`
	AddedX    Reading `json:"addedX,omitzero" q:"length mm -1500..6000" label:"Air supply behind the front axle" copy:"keep"`
}

// Seat is one place to sit; the driver's has the id "driver".
type Seat struct {
	ID   string  `json:"id"`
	Name string  `json:"name,omitempty" label:"Seat"`
	Mass Reading `json:"mass,omitzero" q:"mass kg 20..150" label:"Mass in it" copy:"keep"`
	X    Reading `json:"x,omitzero" q:"length mm -500..5000" label:"Behind the front axle" copy:"sheet"`
	Y    Reading `json:"y,omitzero" q:"length mm -900..900" label:"Left of the middle; right is minus" copy:"sheet"`
}

// Air is the supply as far as the first checks need it.
type Air struct {
	Tank       Reading `json:"tank,omitzero" q:"volume L 1..60" label:"Tank" copy:"keep"`
	TankMax    Reading `json:"tankMax,omitzero" q:"pressure bar 4..30" label:"Tank, greatest pressure on its plate" copy:"out"`
	CutIn      Reading `json:"cutIn,omitzero" q:"pressure bar 2..20" label:"Compressor starts at" copy:"keep"`
	CutOut     Reading `json:"cutOut,omitzero" q:"pressure bar 3..25" label:"Compressor stops at" copy:"keep"`
	Relief     Reading `json:"relief,omitzero" q:"pressure bar 3..30" label:"Relief valve set to" copy:"out"`
	Compressor Reading `json:"compressor,omitzero" q:"free-air-flow L/min_ANR 2..300" label:"Compressor, free air at working pressure" copy:"keep"`
}

// LeakTest is one pressure-decay test, from the caution to the last reading.
type LeakTest struct {
	ID        string        `json:"id"`
	Title     string        `json:"title,omitempty" label:"Test"`
	Volume    Reading       `json:"volume,omitzero" q:"volume L 0.5..100" label:"Tank and what is open to it"`
	Pressure  Reading       `json:"pressure,omitzero" q:"pressure bar 1..25" label:"Test pressure wanted"`
	Relief    Relief        `json:"relief,omitzero" label:"Relief valve"`
	Joints    Joints        `json:"joints,omitzero" label:"Joints"`
	Isolation string        `json:"isolation,omitempty" label:"Isolated by" of:"lines disconnected|valves shut|tube clamped"`
	Filled    string        `json:"filled,omitempty" label:"Filled at"` // time
	Disturbed string        `json:"disturbed,omitempty" label:"Doors opened, valves moved"`
	Readings  []LeakReading `json:"readings,omitempty" label:"Readings"`
	Tomorrow  Reading       `json:"tomorrow,omitzero" q:"temperature °C -40..60" label:"Temperature expected"`
	TestedBy  string        `json:"testedBy,omitempty" label:"Tested by"`
}

// Relief is what the relief valve did.
type Relief struct {
	Lift   Reading `json:"lift,omitzero" q:"pressure bar 1..30" label:"Lifts at"`
	Reseat Reading `json:"reseat,omitzero" q:"pressure bar 1..30" label:"Seats again at"`
}

// Joints is the soap test.
type Joints struct {
	Soaped  string `json:"soaped,omitempty" label:"Joints soaped"`
	Bubbles string `json:"bubbles,omitempty" label:"Joints with bubbles"`
	Where   string `json:"where,omitempty" label:"Where the bubbles are"`
	Steps   string `json:"steps,omitempty" label:"Pressures soaped at"`
	By      string `json:"by,omitempty" label:"Soaped by"`
}

// LeakReading is one look at the gauge, the thermometer and the rule.
type LeakReading struct {
	ID          string  `json:"id"`
	At          string  `json:"at,omitempty" label:"Time"` // 2026-04-02T18:00
	Pressure    Reading `json:"pressure,omitzero" q:"pressure bar 0..25" label:"Gauge"`
	Temperature Reading `json:"temperature,omitzero" q:"temperature °C -40..60" label:"Temperature at the tank"`
	Barometer   Reading `json:"barometer,omitzero" q:"absolute-pressure mbar 800..1100" label:"Barometer"`
	FL          Reading `json:"FL,omitzero" q:"length mm 150..800" label:"Hub to arch, FL"`
	FR          Reading `json:"FR,omitzero" q:"length mm 150..800" label:"Hub to arch, FR"`
	RL          Reading `json:"RL,omitzero" q:"length mm 150..800" label:"Hub to arch, RL"`
	RR          Reading `json:"RR,omitzero" q:"length mm 150..800" label:"Hub to arch, RR"`
}

// Signature is somebody's name under a limit that an owner may accept.
type Signature struct {
	ID      string `json:"id"`
	Finding string `json:"finding,omitempty" label:"Finding"` // id of the finding
	Who     string `json:"who,omitempty" label:"Who signs"`
	Reason  string `json:"reason,omitempty" label:"Reason"`
	At      string `json:"at,omitempty" label:"When"`
}
