package catalog

import (
	"jounce/internal/finding"
	q "jounce/quantity"
	"jounce/source"
)

// The limits that the program starts with. All are common practice of the trade
// except where the mark says otherwise; each shop may change them with a note.
var start = func() []finding.Limit {
	const (
		note  = finding.Note
		signs = finding.OwnerSigns
		stops = finding.Stops
		cp    = source.CP
	)
	return []finding.Limit{
		limit("spring.pressure.least", "Spring pressure at ROAD", "least", q.KindPressure, "2.5 bar", signs, cp),
		limit("spring.pressure.most", "Spring pressure at ROAD", "most", q.KindPressure, "5.5 bar", signs, cp),
		limit("spring.pressure.fold", "Spring pressure at ROAD", "least", q.KindPressure, "1.5 bar", stops, cp),
		limit("spring.share.most", "Laden pressure, share of the spring's maximum", "most", q.KindRatio, "70 %", stops, cp),
		limit("spring.range.most", "Pressure laden over empty", "most", q.KindRatio, "2", note, cp),
		limit("travel.bump.want", "Bump left at ROAD, to solid", "least", q.KindLength, "60 mm", signs, cp),
		limit("travel.bump.least", "Bump left at ROAD, to solid", "least", q.KindLength, "45 mm", stops, cp),
		limit("travel.droop.want", "Droop left at ROAD", "least", q.KindLength, "40 mm", signs, cp),
		limit("travel.droop.least", "Droop left at ROAD", "least", q.KindLength, "30 mm", stops, cp),
		limit("travel.droop.hump", "Droop left at HUMP", "least", q.KindLength, "25 mm", stops, cp),
		limit("ride.frequency.least", "Ride frequency", "least", q.KindFrequency, "1.2 Hz", signs, cp),
		limit("ride.frequency.most", "Ride frequency", "most", q.KindFrequency, "1.8 Hz", signs, cp),
		limit("ride.rear.least", "Rear frequency above the front's", "least", q.KindRatio, "5 %", signs, cp),
		limit("ride.rear.most", "Rear frequency above the front's", "most", q.KindRatio, "20 %", signs, cp),
		limit("ride.side.most", "Frequency, left to right", "most", q.KindRatio, "5 %", signs, cp),
		limit("weight.cross.least", "Cross weight", "least", q.KindRatio, "49 %", signs, cp),
		limit("weight.cross.most", "Cross weight", "most", q.KindRatio, "51 %", signs, cp),
		limit("weight.side.most", "Weight side to side on an axle", "most", q.KindRatio, "5 %", signs, cp),
		limit("weight.ticket.want", "Corners against the tickets", "most", q.KindRatio, "2 %", signs, cp),
		limit("weight.ticket.most", "Corners against the tickets", "most", q.KindRatio, "5 %", stops, cp),
		limit("plane.residual.most", "Flat plane of four heights", "most", q.KindLength, "6 mm", stops, cp),
		limit("mount.load.most", "New spring on the damper's mounting, against what it carried", "most", q.KindRatio, "1.2", stops, cp),
		limit("leak.tank.want", "Tank, lost in 12 h past the cold", "most", q.KindPressure, "0.1 bar", signs, cp),
		limit("leak.tank.most", "Tank, lost in 12 h past the cold", "most", q.KindPressure, "0.3 bar", stops, cp),
		limit("leak.sink.want", "Corner, unexplained sink in 12 h", "most", q.KindLength, "3 mm", note, cp),
		limit("leak.sink.most", "Corner, unexplained sink in 12 h", "most", q.KindLength, "6 mm", stops, cp),
		limit("relief.lift.least", "Relief valve lifts, over cut-out", "least", q.KindRatio, "1.10", stops, cp),
		limit("relief.lift.most", "Relief valve lifts, over cut-out", "most", q.KindRatio, "1.15", stops, cp),
		limit("relief.seat.least", "Relief valve seats again, over cut-out", "least", q.KindRatio, "0.90", stops, cp),
		limit("ground.road.want", "Hard parts over the floor at ROAD, laden", "least", q.KindLength, "110 mm", signs, cp),
		limit("ground.road.least", "Hard parts over the floor at ROAD, laden", "least", q.KindLength, "90 mm", stops, cp),
		limit("ground.down.want", "Hard parts over the floor at DOWN", "least", q.KindLength, "25 mm", signs, cp),
		limit("ground.down.least", "Hard parts over the floor at DOWN", "least", q.KindLength, "0 mm", stops, cp),
		limit("room.metal.least", "Metal to anything, at every height", "least", q.KindLength, "10 mm", stops, cp),
		limit("room.bag.least", "Bag to anything, at every height", "least", q.KindLength, "12 mm", stops, cp),
		limit("room.bump.least", "Metal or bag at full bump or full droop", "least", q.KindLength, "0 mm", stops, cp),
		limit("room.tyre.least", "Tyre to anything at full bump", "least", q.KindLength, "15 mm", stops, cp),
		limit("room.liner.want", "Tyre to inner liner at DOWN", "least", q.KindLength, "8 mm", signs, cp),
		limit("room.liner.least", "Tyre to inner liner at DOWN", "least", q.KindLength, "0 mm", stops, cp),
		limit("room.slack.least", "Hose, lead, joint or link: slack in full droop", "least", q.KindLength, "15 mm", stops, cp),
		limit("way.clear.least", "Over a hump, a kerb or a driveway", "least", q.KindLength, "25 mm", signs, cp),
		limit("way.nose.least", "Angle under the nose", "least", q.KindAngle, "10°", signs, cp),
		limit("scrub.road.want", "Scrub line at ROAD, laden", "least", q.KindLength, "10 mm", note, cp),
		limit("scrub.road.least", "Scrub line at ROAD, laden", "least", q.KindLength, "0 mm", stops, cp),
		limit("lamp.aim.least", "Headlamp aim below horizontal, driving presets", "least", q.KindRatio, "0.5 %", stops, "S6"),
		limit("lamp.aim.most", "Headlamp aim below horizontal, driving presets", "most", q.KindRatio, "2.75 %", stops, "S6"),
		limit("tyre.diameter.most", "Tyre diameter against the first fitted", "most", q.KindRatio, "2.5 %", signs, cp),
		limit("tyre.reading.most", "Speed reading off", "most", q.KindRatio, "10 %", stops, "S18"),
		limit("tyre.age.want", "Tyre age", "most", q.KindTime, "2190 d", note, cp),
		limit("tyre.age.most", "Tyre age", "most", q.KindTime, "3650 d", stops, cp),
	}
}()
