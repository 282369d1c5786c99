package job

// Outline is the body as the drawing has it, beyond the measures of the survey:
// what was measured is drawn firm, the rest is assumed from the body's form.
type Outline struct {
	Bonnet      Reading   `json:"bonnet,omitzero" q:"length mm 400..2000" label:"Bonnet above the floor" where:"its rear edge, in the middle"`
	Waist       Reading   `json:"waist,omitzero" q:"length mm 500..2000" label:"Waist above the floor" where:"lower edge of the side glass"`
	Boot        Reading   `json:"boot,omitzero" q:"length mm 400..2500" label:"Boot edge above the floor" where:"the rearmost upper edge"`
	SillFront   Reading   `json:"sillFront,omitzero" q:"length mm 40..700" label:"Sill above the floor, front" where:"behind the front wheel"`
	SillRear    Reading   `json:"sillRear,omitzero" q:"length mm 40..700" label:"Sill above the floor, rear" where:"before the rear wheel"`
	Width       Reading   `json:"width,omitzero" q:"length mm 1000..2600" label:"Width of the body" where:"without mirrors"`
	ArchFront   string    `json:"archFront,omitempty" label:"Front arch" of:"round|flat|covered" copy:"keep"`
	ArchRear    string    `json:"archRear,omitempty" label:"Rear arch" of:"round|flat|covered" copy:"keep"`
	Stations    []Station `json:"stations,omitempty" label:"Points of the outline"`
	TracedPhoto string    `json:"tracedPhoto,omitempty" label:"Traced over the picture" copy:"out"` // id in photos
}

// Station is a control point of the outline that was put somewhere. Its id is
// the name of the point, such as "scuttle"; an empty reading leaves that
// direction to the form.
type Station struct {
	ID string  `json:"id"`
	X  Reading `json:"x,omitzero" q:"length mm -1600..6500" label:"Behind the front hub"`
	Z  Reading `json:"z,omitzero" q:"length mm 20..3000" label:"Above the floor"`
}

// Touch is a place where something may meet something when the body moves.
type Touch struct {
	ID    string  `json:"id"`
	Name  string  `json:"name,omitempty" label:"Part" copy:"keep"`
	Moves string  `json:"moves,omitempty" label:"How the room closes" of:"with the body|with the wheel|limits droop" copy:"keep"`
	Meets string  `json:"meets,omitempty" label:"What meets what" of:"hard part and floor|metal and metal|bag and anything|tyre and liner|tyre and anything|rubber meant to rest" copy:"keep"`
	Wheel string  `json:"wheel,omitempty" label:"At which wheel" of:"FL|FR|RL|RR|front|rear" copy:"keep"`
	Room  Reading `json:"room,omitzero" q:"length mm 0..600" label:"Room at ROAD" where:"with the fixed pointer or clay"`
	Ratio Reading `json:"ratio,omitzero" q:"ratio 1 0.1..3" label:"Room used up per millimetre of travel"`
	Lock  string  `json:"lock,omitempty" label:"Steering when read" of:"ahead|left lock|right lock" copy:"keep"`
	X     Reading `json:"x,omitzero" q:"length mm -1600..6500" label:"Behind the front axle"`
	Y     Reading `json:"y,omitzero" q:"length mm -1300..1300" label:"Left of the middle; right is minus"`
	Z     Reading `json:"z,omitzero" q:"length mm 0..2500" label:"Above the floor at ROAD"`
	Photo string  `json:"photo,omitempty" label:"Picture of the place" copy:"out"` // id in photos
	Note  string  `json:"note,omitempty" label:"Note" copy:"out"`
}

// Ways are the places that the customer's car must get over.
type Ways struct {
	Hump       Reading `json:"hump,omitzero" q:"length mm 10..250" label:"Hump, height"`
	HumpLength Reading `json:"humpLength,omitzero" q:"length mm 200..12000" label:"Hump, length along the road"`
	Kerb       Reading `json:"kerb,omitzero" q:"length mm 10..300" label:"Kerb beside the parked car"`
	RampStep   Reading `json:"rampStep,omitzero" q:"length mm 0..200" label:"Driveway, step at its foot"`
	RampLength Reading `json:"rampLength,omitzero" q:"length mm 300..30000" label:"Driveway, length of its slope"`
	RampRise   Reading `json:"rampRise,omitzero" q:"length mm 10..5000" label:"Driveway, rise over that length"`
}

// Photo is a picture kept with the job. Marks are places in it, "412, 613":
// pixels from the left and from the top of the picture as it is kept.
type Photo struct {
	ID          string `json:"id"`
	Name        string `json:"name,omitempty" label:"Picture"`
	File        string `json:"file,omitempty" label:"File"` // SHA-256 of the attachment
	View        string `json:"view,omitempty" label:"Shows" of:"left side|right side|front|rear|a detail"`
	Stands      string `json:"stands,omitempty" label:"The car stands at" of:"as received|DOWN|ROAD|HUMP|HIGH"`
	Taken       string `json:"taken,omitempty" label:"Taken"`
	FrontHub    string `json:"frontHub,omitempty" label:"Front hub in the picture"`
	RearHub     string `json:"rearHub,omitempty" label:"Rear hub in the picture"`
	FrontGround string `json:"frontGround,omitempty" label:"Under the front tyre"`
	RearGround  string `json:"rearGround,omitempty" label:"Under the rear tyre"`
	Note        string `json:"note,omitempty" label:"Note"`
}
