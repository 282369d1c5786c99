package stance_test

import (
	"fmt"

	"jounce/stance"
	"jounce/tyre"
)

func ExampleCorners_Shares() {
	s, err := stance.NewCorners(276, 276, 234, 234, 1).Shares()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f ± %.0f kg, front %.1f %%, cross %.1f ± %.1f %%\n", s.Total, s.TotalHalf, 100*s.FrontShare, 100*s.Cross, 100*s.CrossHalf)
	// Output: 1020 ± 2 kg, front 54.1 %, cross 50.0 ± 0.1 %
}

func ExampleAdd() {
	a, err := stance.Add(stance.NewCorners(276, 276, 234, 234, 1), stance.Base{Wheelbase: 2.540},
		[]stance.Item{{Name: "boot fit-out", Mass: 34, Back: 2.540 + 0.55}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("rear %+.0f kg, front %+.0f kg\n", a.RearChange, a.FrontChange)
	// Output: rear +41 kg, front -7 kg
}

func ExampleFlatPlane() {
	w, _ := stance.FlatPlane(stance.Heights{0.640, 0.641, 0.632, 0.645}, 0.002)
	fmt.Printf("%.0f ± %.0f mm, read %v and %v again first\n", w.Residual*1e3, w.ResidualHalf*1e3, w.First[0], w.First[1])
	// Output: 12 ± 3 mm, read RL and RR again first
}

func ExampleBestPlane() {
	at := stance.AtWheels(stance.Base{Wheelbase: 2.5, FrontTrack: 1.4, RearTrack: 1.4})
	p, _ := stance.BestPlane(stance.Heights{0.640, 0.640, 0.665, 0.665}, at)
	fmt.Printf("front %.0f mm, rises %.0f mm in a metre behind it\n", p.Front*1e3, p.SlopeBack*1e3)
	// Output: front 640 mm, rises 10 mm in a metre behind it
}

func ExampleAimAfter() {
	a, _ := stance.AimAfter(-1.2, 0.2, 0, -0.030, 0.002, 2.540)
	fmt.Printf("%+.1f %%, and −1.0 %% with the rear up by %.0f mm\n", a.Pitch, a.RearRise(-1.0)*1e3)
	// Output: +1.2 %, and −1.0 % with the rear up by 25 mm
}

func ExampleArch() {
	set := tyre.DefaultSettings()
	size, _ := tyre.Parse("185/70R13", set)
	a, _ := stance.Arch(size.Dimensions(set, tyre.Measured{}), 0.360, 0.002)
	fmt.Printf("arch %.0f mm over the floor, %.0f mm over the tread\n", a.Arch*1e3, a.TreadGap*1e3)
	// Output: arch 641 mm over the floor, 65 mm over the tread
}

func ExampleAt() {
	p, _ := stance.At(1.27, 0.138, 0, -0.030, 2.540)
	fmt.Printf("%.0f mm\n", p.Now*1e3)
	// Output: 123 mm
}

func ExampleLooksLikeGroundToArch() {
	c := stance.LooksLikeGroundToArch(0.640, 0.281, []float64{0.360, 0.360, 0.360})
	fmt.Printf("%v: 640 − 281 = %.0f\n", c.LooksWrong, c.HubToArch*1e3)
	// Output: true: 640 − 281 = 359
}

func ExampleLooksExchanged() {
	e, _ := stance.LooksExchanged(stance.NewCorners(276, 276, 234, 234, 1), stance.NewCorners(234, 234, 276, 276, 1), 0)
	fmt.Println(e.Looks)
	// Output: front and rear look exchanged
}

func ExampleCentreHeight() {
	h, _ := stance.CentreHeight(1250, 560, 583.4743, 2.5, 0.5, 0.29)
	fmt.Printf("%.2f m\n", h)
	// Output: 0.52 m
}

func ExampleOrder() {
	points := []stance.Contact{
		{Name: "exhaust joint", Moves: stance.WithBody, Room: 0.104, Half: 0.002, Back: 1.5, Wheelbase: 2.540},
		{Name: "inner liner", Moves: stance.WithWheel, Room: 0.089, Half: 0.002, Ratio: 1},
		{Name: "bump stop", Moves: stance.WithWheel, Room: 0.068, Half: 0.002, Ratio: 1},
	}
	path, _ := stance.NewPath(0.045, -0.140, [2]bool{true, true}, stance.Pose{})
	met, _ := stance.Order(points, path)
	for _, m := range met {
		left, _ := points[m.Index].At(stance.Pose{Front: -0.080, Rear: -0.080})
		fmt.Printf("%s at %.0f ± %.0f, %.0f left at −80\n", points[m.Index].Name, -m.At*1e3, m.Half*1e3, left.Left*1e3)
	}
	// Output:
	// bump stop at 68 ± 2, -12 left at −80
	// inner liner at 89 ± 2, 9 left at −80
	// exhaust joint at 104 ± 2, 24 left at −80
}

func ExampleHumpNeed() {
	short, _ := stance.HumpNeed(0.100, 0.9, 2.540)
	long, _ := stance.HumpNeed(0.100, 3.7, 2.540)
	fmt.Printf("%.0f mm short, %.0f mm long\n", short*1e3, long*1e3)
	// Output: 100 mm short, 47 mm long
}

func ExampleWay_Over() {
	drive, _ := stance.Driveway(0.020, 4.0, 0.50)
	o, _ := drive.Over(2.540, 0.281, -0.690, 2.540+0.900)
	fmt.Printf("belly %.0f, lip %.0f, tail %.0f mm\n", o.Between*1e3, o.At[0]*1e3, o.At[1]*1e3)
	// Output: belly 79, lip 94, tail 114 mm
}
