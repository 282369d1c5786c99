package tyre_test

import (
	"fmt"
	"time"

	"jounce/tyre"
)

func ExampleParse() {
	s, err := tyre.Parse("205/55 R16 91V", tyre.DefaultSettings())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s, %s, carries %.0f kg, up to %.0f km/h\n", s, s.Construction, s.Load, s.TopSpeed*3.6)
	_, err = tyre.Parse("640-13", tyre.DefaultSettings())
	fmt.Println(err)
	// Output:
	// 205/55R16, radial, carries 615 kg, up to 240 km/h
	// tyre size “640-13”: expected a section width from 105 to 405 mm in steps of 5. Is this an inch size with its point left out? (6.40-13)
}

func ExampleSize_Dimensions() {
	set := tyre.DefaultSettings()
	s, _ := tyre.Parse("185/70R13", set)
	d := s.Dimensions(set, tyre.Measured{})
	fmt.Printf("%.1f mm, stands at %.1f mm, flange line %.0f mm over the floor\n",
		d.Diameter*1000, d.LoadedRadius*1000, d.ScrubLine*1000)
	// Output: 589.2 mm, stands at 281.3 mm, flange line 99 mm over the floor
}

func ExampleCompare() {
	set := tyre.DefaultSettings()
	was, _ := tyre.Parse("185/70R13", set)
	now, _ := tyre.Parse("195/50R15", set)
	c := tyre.Compare(was.Dimensions(set, tyre.Measured{}), now.Dimensions(set, tyre.Measured{}))
	fmt.Printf("body %+.1f mm, speedometer %+.1f %%\n", c.Body*1000, c.ReadingPercent)
	// Output: body -6.3 mm, speedometer +2.3 %
}

func ExampleCheckLoad() {
	s, _ := tyre.Parse("185/70R13 75S", tyre.DefaultSettings())
	c, _ := tyre.CheckLoad(s, s, 820)
	fmt.Printf("2 × %.0f = %.0f kg for %.0f kg: enough %v, least index %d\n", c.PerTyre, c.Pair, c.Axle, c.Enough, c.Least)
	// Output: 2 × 387 = 774 kg for 820 kg: enough false, least index 77
}

func ExampleDifferences() {
	set := tyre.DefaultSettings()
	a, _ := tyre.Parse("185/70R14", set)
	b, _ := tyre.Parse("195/70R14", set)
	for _, d := range tyre.Differences(a, b) {
		fmt.Println(d.What, d.Left, d.Right)
	}
	// Output: width 185 mm 195 mm
}

func ExampleMixed() {
	fmt.Println(tyre.Mixed(tyre.Radial, tyre.Radial, tyre.Crossply, tyre.Crossply))
	// Output: radial in front, crossply behind
}

func ExampleAge() {
	m, _ := tyre.Age("2319", time.Date(2025, 11, 25, 0, 0, 0, 0, time.UTC))
	fmt.Printf("week %d of %d, %.1f years old\n", m.Week, m.Year, m.Years)
	// Output: week 23 of 2019, 6.5 years old
}

func ExampleWheel_Change() {
	c := tyre.Wheel{Width: 0.1905, Offset: 0.038}.Change(tyre.Wheel{Width: 0.2032, Offset: 0.025})
	fmt.Printf("outer edge %+.2f mm, track %+.0f mm\n", c.OuterEdge*1000, c.Track*1000)
	// Output: outer edge +19.35 mm, track +26 mm
}

func ExampleSpeedLoadShare() {
	share, _ := tyre.SpeedLoadShare("V", 240/3.6)
	fmt.Printf("%.0f %%\n", share*100)
	// Output: 91 %
}
