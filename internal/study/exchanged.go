package study

import (
	"fmt"

	"jounce/internal/job"
	"jounce/quantity"
	"jounce/stance"
)

// Exchanged asks about corner weights that fit an earlier state of the record
// much better with front and rear, left and right or the diagonals exchanged,
// and about a driver who made the other side heavier. It is a question, never a
// correction.
func Exchanged(before, now *job.Job) []job.Problem {
	a, ok1 := cornersOf(before)
	b, ok2 := cornersOf(now)
	if !ok1 || !ok2 || a == b {
		return nil
	}
	read := fmt.Sprintf("FL %.0f, FR %.0f, RL %.0f, RR %.0f kg", b[0].Value, b[1].Value, b[2].Value, b[3].Value)
	ask := func(says string) []job.Problem {
		return []job.Problem{{Path: "corners.FL.weight", Label: "Corner weights", Read: read, Says: says}}
	}
	if before.Survey.Driver == "out" && now.Survey.Driver == "in" && now.Survey.DriverSide != "" {
		if d, err := stance.CheckDriver(a, b, now.Survey.DriverSide == "left"); err == nil && d.Looks == stance.LeftRight {
			return ask(fmt.Sprintf("%s: the driver's side went lighter with the driver in. Left and right look exchanged. Were they?", read))
		}
		return nil
	}
	c, err := stance.LooksExchanged(a, b, 0)
	if err != nil || c.Looks == stance.NoExchange {
		return nil
	}
	words := map[stance.Exchange]string{stance.FrontRear: "Front and rear", stance.LeftRight: "Left and right", stance.Diagonals: "The diagonals"}[c.Looks]
	return ask(fmt.Sprintf("%s: %s look exchanged; before it was FL %.0f, FR %.0f, RL %.0f, RR %.0f kg. Were they?", read, lower(words), a[0].Value, a[1].Value, a[2].Value, a[3].Value))
}

func lower(s string) string { return string(s[0]|0x20) + s[1:] }

// cornersOf reads the four weights with the doubt that pads have by default: the
// question is of tens of kilograms.
func cornersOf(j *job.Job) (stance.Corners, bool) {
	var c stance.Corners
	for i, r := range []job.Reading{j.Corners.FL.Weight, j.Corners.FR.Weight, j.Corners.RL.Weight, j.Corners.RR.Weight} {
		v, err := job.Parse(quantity.KindMass, r.Value)
		if err != nil || v.SI() <= 0 {
			return c, false
		}
		c[i] = stance.Mass{Value: v.SI(), Half: pads.abs, From: stance.Read}
	}
	return c, true
}
