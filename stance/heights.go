package stance

import (
	"math"
	"sort"

	"jounce/num/doubt"
	"jounce/tyre"
)

// ArchHeight is the height of an arch over the floor.
type ArchHeight struct {
	Hub        float64 // hub centre over the floor: the tyre's loaded radius [m]
	HubHalf    float64 // ± of Hub [m]
	HubToArch  float64 // [m]
	Arch       float64 // arch edge over the floor [m]
	ArchHalf   float64 // ± of Arch [m]
	TreadGap   float64 // arch edge over the top of the tyre, straight up [m]; negative is inside the arch
	ScrubLine  float64 // rim-to-rim line over the floor [m]
	ScrubHalf  float64 // ± of ScrubLine [m]
	FreeRadius float64 // of the tyre [m]
}

// Arch works out the heights at a wheel from its tyre and the hub-to-arch
// reading.
//
//	arch = loaded radius + hub-to-arch
//	gap  = hub-to-arch − free radius
//
// All in [m]; half is the ± of hub-to-arch. The reading is taken straight above
// the hub.
func Arch(d tyre.Dimensions, hubToArch, half float64) (ArchHeight, error) {
	a := ArchHeight{Hub: d.LoadedRadius, HubHalf: d.LoadedHalf, HubToArch: hubToArch, FreeRadius: d.FreeRadius,
		ScrubLine: d.ScrubLine, ScrubHalf: d.ScrubHalf}
	if !above(d.LoadedRadius) {
		return a, &Missing{For: "the height of the arch", What: []string{"the tyre's size"}}
	}
	if !above(hubToArch) || hubToArch > 1 || !(half >= 0) {
		return a, bad("hub to arch [mm]", hubToArch/mm, "a height above zero and up to 1,000 mm")
	}
	a.Arch = a.Hub + hubToArch
	a.ArchHalf = doubt.Combine(a.HubHalf, half)
	a.TreadGap = hubToArch - d.FreeRadius
	return a, nil
}

// BodyPoint is a point of the body at a preset.
type BodyPoint struct {
	Back   float64 // behind the front axle [m]
	Before float64 // over the floor before [m]
	Change float64 // rise [m]
	Now    float64 // over the floor [m]
}

// At moves a point of the body with the axles: on a straight line from one axle
// to the other and beyond.
//
//	Δ(back) = Δfront + (Δrear − Δfront)·back/L
//
// back behind the front axle, before over the floor, rises of the body over
// the axles and wheelbase L [m]. Rigid body, both sides alike; the cosine of the
// pitch is taken as 1 (error 0.1 mm for a sill at 50 mm of pitch).
func At(back, before, frontChange, rearChange, wheelbase float64) (BodyPoint, error) {
	p := BodyPoint{Back: back, Before: before}
	if !above(wheelbase) || !finite(back) || !finite(before) || !finite(frontChange) || !finite(rearChange) {
		return p, bad("wheelbase [m]", wheelbase, "lengths, the wheelbase above zero")
	}
	p.Change = frontChange + (rearChange-frontChange)*back/wheelbase
	p.Now = before + p.Change
	return p, nil
}

// Confusion is a hub-to-arch reading held against the others and the tyre.
type Confusion struct {
	Read       float64 // as typed [m]
	Loaded     float64 // loaded radius of the tyre [m]
	HubToArch  float64 // Read − Loaded: what it would be if it was read from the ground [m]
	Others     float64 // middle of the other wheels' readings [m]; 0 where there are none
	LooksWrong bool    // it looks like ground to arch
}

// LooksLikeGroundToArch says whether a hub-to-arch reading was taken from the
// ground: less the loaded radius it comes within 60 mm of the other wheels'
// readings while it is more than 100 mm from them as it stands. With no other
// reading, or where the others are alike, it is suspected above 480 mm if what is
// left is 200 to 480 mm (common practice: few cars have more from hub to
// arch). Lengths in [m]. It is a question, not a correction.
// Scenario 7: 640 − 281 = 359 beside others of 360.
func LooksLikeGroundToArch(read, loaded float64, others []float64) Confusion {
	c := Confusion{Read: read, Loaded: loaded, HubToArch: read - loaded}
	if !above(read) || !above(loaded) {
		return c
	}
	if len(others) == 0 {
		c.LooksWrong = fromGround(c)
		return c
	}
	sorted := append([]float64(nil), others...)
	sort.Float64s(sorted)
	n := len(sorted)
	c.Others = (sorted[(n-1)/2] + sorted[n/2]) / 2
	alone := math.Abs(c.HubToArch-c.Others) <= 0.060 && math.Abs(read-c.Others) > 0.100
	all := math.Abs(read-c.Others) <= 0.060 && fromGround(c)
	c.LooksWrong = alone || all
	return c
}

func fromGround(c Confusion) bool {
	return c.Read > 0.480 && c.HubToArch >= 0.200 && c.HubToArch <= 0.480
}
