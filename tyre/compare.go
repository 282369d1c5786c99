package tyre

// Change is what another tyre changes on a car.
type Change struct {
	Was, Now       Dimensions
	Diameter       float64 // growth of the overall diameter [m]
	DiameterShare  float64 // the same over the old diameter [1]
	Body           float64 // rise of hub and body over the floor: growth of the loaded radius [m]
	ArchGap        float64 // change of the gap from tread to arch at one suspension height [m]; negative is less
	ScrubLine      float64 // rise of the rim-to-rim line [m]
	ScrubLow       float64 // lower of the two rim-to-rim lines [m]
	ScrubHigh      float64 // upper of the two [m]: parts between ScrubLow and ScrubHigh change sides
	Reading        float64 // change of the speedometer's reading [1]; positive reads higher than before
	ReadingPercent float64 // the same [%]
	TopSpeedLost   bool    // the new tyre's speed symbol is lower
	LoadLost       bool    // the new tyre's load index is lower
}

// Compare works out what a change from one tyre to another does.
//
//	Reading = old diameter / new diameter − 1
//
// Sign of the reading: the speedometer counts turns. A smaller tyre turns
// faster at one road speed, so the instrument shows more than before: positive
// is high. From 589.2 to 576 mm it reads 2.3 % high.
//
// The body moves by the change of the loaded radius; the gap between tread and
// arch closes by the change of the free radius, since hub-to-arch stays.
func Compare(was, now Dimensions) Change {
	c := Change{Was: was, Now: now,
		Diameter:  now.Diameter - was.Diameter,
		Body:      now.LoadedRadius - was.LoadedRadius,
		ArchGap:   was.FreeRadius - now.FreeRadius,
		ScrubLine: now.ScrubLine - was.ScrubLine,
		ScrubLow:  min(was.ScrubLine, now.ScrubLine),
		ScrubHigh: max(was.ScrubLine, now.ScrubLine),
	}
	if was.Diameter > 0 && now.Diameter > 0 {
		c.DiameterShare = c.Diameter / was.Diameter
		c.Reading = was.Diameter/now.Diameter - 1
		c.ReadingPercent = 100 * c.Reading
	}
	c.TopSpeedLost = now.Size.TopSpeed > 0 && now.Size.TopSpeed < was.Size.TopSpeed
	c.LoadLost = now.Size.Load > 0 && now.Size.Load < was.Size.Load
	return c
}

// CrossesScrubLine says of a part at a height over the floor [m] whether the
// change of tyre moves it from one side of the rim-to-rim line to the other.
func (c Change) CrossesScrubLine(height float64) bool {
	return height >= c.ScrubLow && height < c.ScrubHigh
}
