package tyre

import (
	"fmt"
	"regexp"
	"strconv"
	"time"
)

// Made is when a tyre was made, by its date code.
type Made struct {
	Code      string    // the digits read
	Week      int       // week of the year [1]
	Year      int       // year [1]
	Monday    time.Time // first day of that week
	Days      int       // age in whole days from that Monday [1]
	Years     float64   // age [a], of 365.25 days; up to a week too long
	Old       bool      // a code of three figures: made before 2000, Year is the latest it can be
	WeeksLeft float64   // weeks until the tyre is ten years old [1]; negative is past
}

var dateForm = regexp.MustCompile(`(?:^|[^0-9])(\d{3,4})$`)

// Age reads a date code such as "2319" (week 23 of 2019), alone or at the end
// of the DOT marking. The day it is judged on is an argument. A code of three
// figures is from before 2000; its decade is not marked, so the latest one is
// taken and Old is set: the age is then the least it can be. Weeks are those of
// ISO 8601.
func Age(code string, today time.Time) (Made, error) {
	t := normal(code)
	m := dateForm.FindStringSubmatch(t)
	if m == nil {
		return Made{}, ageQuestion(code)
	}
	digits := m[1]
	week, _ := strconv.Atoi(digits[:2])
	made := Made{Code: digits, Week: week}
	if len(digits) == 4 {
		yy, _ := strconv.Atoi(digits[2:])
		made.Year = 2000 + yy
	} else {
		y, _ := strconv.Atoi(digits[2:])
		made.Year, made.Old = 1990+y, true
	}
	if week < 1 || week > weeksIn(made.Year) {
		return Made{}, ageQuestion(code)
	}
	made.Monday = monday(made.Year, week)
	day := time.Date(today.Year(), today.Month(), today.Day(), 0, 0, 0, 0, time.UTC)
	made.Days = int(day.Sub(made.Monday) / (24 * time.Hour))
	if made.Days < 0 {
		return Made{}, &Question{Read: code, Expected: "a date code not after today",
			Ask: fmt.Sprintf("Was the tyre made in week %d of %d?", week, made.Year)}
	}
	made.Years = float64(made.Days) / 365.25
	made.WeeksLeft = (3652.5 - float64(made.Days)) / 7
	return made, nil
}

func ageQuestion(code string) error {
	return &Question{Read: code, Expected: "four figures, week and year, such as 2319 for week 23 of 2019",
		Ask: "Which figures stand at the end of the DOT marking?"}
}

// monday is the first day of an ISO week.
func monday(year, week int) time.Time {
	jan4 := time.Date(year, 1, 4, 0, 0, 0, 0, time.UTC)
	back := (int(jan4.Weekday()) + 6) % 7
	return jan4.AddDate(0, 0, -back+7*(week-1))
}

// weeksIn is the number of ISO weeks in a year.
func weeksIn(year int) int {
	_, w := time.Date(year, 12, 28, 0, 0, 0, 0, time.UTC).ISOWeek()
	return w
}
