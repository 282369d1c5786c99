package tyre

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// Settings are the figures that the marking leaves open.
type Settings struct {
	FullSectionAspect float64 // aspect where none is marked [1]
	LoadedShare       float64 // loaded radius over free radius [1]
	FlangeHeight      float64 // rim flange above the nominal rim radius [m]
}

// DefaultSettings are the ones the program starts with: 82 % where no aspect is
// marked (S19), loaded radius 0.955 of the free one (common practice),
// flange 17.5 mm high (common practice; J flanges are made 17.3 mm high).
func DefaultSettings() Settings {
	return Settings{FullSectionAspect: 0.82, LoadedShare: 0.955, FlangeHeight: 0.0175}
}

const expected = "a size such as 185/70R14, 185R14, 6.40-13 or 31x10.50R15"

var (
	// width, aspect and rim, with any mark between them
	metricForm = regexp.MustCompile(`^(P|LT|T)? ?(\d{3})( ?[/-] ?| )(\d{2,3})( ?)(?:(/|-|D|B|[A-Z]?R|)) ?(\d{2}(?:\.5)?|\d{3})(C|LT)?(?: (.*))?$`)
	// width and rim only
	fullForm = regexp.MustCompile(`^(P|LT)? ?(\d{3}) ?(/|-|D|B|[A-Z]?R|) ?(\d{2}(?:\.5)?|\d{3})(C|LT)?(?: (.*))?$`)
	// width in inches with its point, and rim
	inchForm = regexp.MustCompile(`^(\d{1,2}\.\d{1,2}) ?(/|-|X|D|B|[A-Z]?R|S|) ?(\d{2}(?:\.5)?)(C|LT)?(?: (.*))?$`)
	// outer diameter x width, and rim
	flotationForm = regexp.MustCompile(`^(LT)? ?(\d{2}(?:\.\d{1,2})?) ?X ?(\d{1,2}(?:\.\d{1,2})?) ?(/|-|D|B|[A-Z]?R|) ?(\d{2}(?:\.5)?)(C|LT)?(?: (.*))?$`)
	// load letter, series and rim
	letterForm = regexp.MustCompile(`^([A-N])(R)?(50|60|70|78) ?(-|R|B|) ?(\d{2})(LT)?(?: (.*))?$`)
)

// Parse reads a size as marked. The error, where there is one, is a *Question.
//
// What is asked without hindering the reading stands in Size.Questions: an
// unknown construction, the pressure of a commercial tyre, an estimated
// diameter that should be measured, words that were not understood.
func Parse(text string, set Settings) (Size, error) {
	t := normal(text)
	if t == "" {
		return Size{}, &Question{Read: text, Expected: expected, Ask: "What does the sidewall say?"}
	}
	if len(t) > 80 {
		return Size{}, &Question{Read: t[:24] + "…", Expected: expected, Ask: "Which part of this is the size?"}
	}
	var first error
	for _, form := range []func(string, Settings) (Size, bool, error){
		parseFlotation, parseMetric, parseFull, parseInch, parseLetter,
	} {
		s, matched, err := form(t, set)
		if !matched {
			continue
		}
		if err == nil {
			s.Text = text
			return s, nil
		}
		if first == nil {
			first = err
		}
	}
	if first == nil {
		first = &Question{Read: text, Expected: expected, Ask: "What does the sidewall say?"}
	}
	return Size{}, first
}

func parseMetric(t string, _ Settings) (Size, bool, error) {
	m := metricForm.FindStringSubmatch(t)
	if m == nil {
		return Size{}, false, nil
	}
	s := Size{Kind: Metric, AspectFrom: "marked"}
	width, _ := strconv.Atoi(m[2])
	aspect, _ := strconv.Atoi(m[4])
	if q := checkMetric(t, width, aspect); q != nil {
		return Size{}, true, q
	}
	s.Width, s.Aspect = float64(width)/1000, float64(aspect)/100
	if err := s.setRim(t, m[7]); err != nil {
		return Size{}, true, err
	}
	s.setUse(m[1], m[8])
	s.setConstruction(m[6])
	return s.finish(t, m[9])
}

func checkMetric(t string, width, aspect int) error {
	if width < 105 || width > 405 || width%5 != 0 {
		return &Question{Read: t, Expected: "a section width from 105 to 405 mm in steps of 5",
			Ask: fmt.Sprintf("Is the width %d mm?", width)}
	}
	if aspect < 25 || aspect > 100 {
		return &Question{Read: t, Expected: "an aspect from 25 to 100 %",
			Ask: fmt.Sprintf("Is the aspect %d %%?", aspect)}
	}
	return nil
}

func parseFull(t string, set Settings) (Size, bool, error) {
	m := fullForm.FindStringSubmatch(t)
	if m == nil {
		return Size{}, false, nil
	}
	width, _ := strconv.Atoi(m[2])
	if width > 405 || width%5 != 0 {
		return Size{}, true, widthOrInch(t, m[2], m[4])
	}
	if width < 105 {
		return Size{}, true, checkMetric(t, width, 80)
	}
	if set.FullSectionAspect < 0.5 || set.FullSectionAspect > 1.1 {
		return Size{}, true, &Question{Read: t, Expected: "a setting from 50 to 110 % for a tyre with no aspect marked",
			Ask: fmt.Sprintf("The setting is %g %%; which is right?", set.FullSectionAspect*100), Answers: []string{"82 %", "80 %"}}
	}
	s := Size{Kind: FullSection, Aspect: set.FullSectionAspect, AspectFrom: "setting", Width: float64(width) / 1000}
	if err := s.setRim(t, m[4]); err != nil {
		return Size{}, true, err
	}
	s.setUse(m[1], m[5])
	s.setConstruction(m[3])
	return s.finish(t, m[6])
}

// widthOrInch asks about a three-figure width that no metric tyre has: an old
// inch size with its point left out.
func widthOrInch(t, width, rim string) error {
	return &Question{Read: t, Expected: "a section width from 105 to 405 mm in steps of 5",
		Ask:     "Is this an inch size with its point left out?",
		Answers: []string{width[:1] + "." + width[1:] + "-" + rim}}
}

// parseInch reads an old inch size. Its aspect is a rule, not a marking:
// about 95 % for widths up to 8 in on rims up to 15 in, about 82 % for the
// later American widths that end in 5, about 100 % on larger rims
// (T4 and common practice). Dimensions say how far that may be off.
func parseInch(t string, _ Settings) (Size, bool, error) {
	m := inchForm.FindStringSubmatch(t)
	if m == nil {
		return Size{}, false, nil
	}
	width, _ := strconv.ParseFloat(m[1], 64)
	if width < 3 || width > 14 {
		return Size{}, true, &Question{Read: t, Expected: "a section width from 3 to 14 in", Ask: "Is the width " + m[1] + " in?"}
	}
	s := Size{Kind: Inch, Width: width * inch, AspectFrom: "rule"}
	if err := s.setRim(t, m[3]); err != nil {
		return Size{}, true, err
	}
	s.Aspect = inchAspect(width, s.Rim/inch)
	s.setUse("", m[4])
	switch m[2] {
	case "-", "X", "S", "D":
		s.Construction = Crossply
	default:
		s.setConstruction(m[2])
	}
	s.ask(t, "an overall diameter measured on the tyre", "This diameter is estimated. What does the tyre measure?")
	return s.finish(t, m[5])
}

// inchAspect is the aspect that an inch size without one is taken to have [1].
func inchAspect(width, rim float64) float64 {
	hundredths := int(math.Round(width * 100))
	switch {
	case hundredths%10 == 5 && width >= 5.5 && rim <= 15:
		return 0.82
	case width <= 8 && rim <= 15:
		return 0.95
	default:
		return 1.0
	}
}

func parseFlotation(t string, _ Settings) (Size, bool, error) {
	m := flotationForm.FindStringSubmatch(t)
	if m == nil {
		return Size{}, false, nil
	}
	od, _ := strconv.ParseFloat(m[2], 64)
	width, _ := strconv.ParseFloat(m[3], 64)
	s := Size{Kind: Flotation, Diameter: od * inch, Width: width * inch, AspectFrom: "marked"}
	if err := s.setRim(t, m[5]); err != nil {
		return Size{}, true, err
	}
	if od < 20 || od > 54 || width < 5 || width > 20 || s.Diameter < s.Rim+2*2*inch {
		return Size{}, true, &Question{Read: t,
			Expected: "an outer diameter from 20 to 54 in at least 4 in over the rim, a width from 5 to 20 in",
			Ask:      fmt.Sprintf("Is the tyre %g in high and %g in wide?", od, width)}
	}
	s.Aspect = (s.Diameter - s.Rim) / 2 / s.Width
	s.setUse(m[1], m[6])
	if m[4] == "-" {
		s.Construction = Crossply
	} else {
		s.setConstruction(m[4])
	}
	return s.finish(t, m[7])
}

// letterSizes are the alphanumeric sizes that a source gives figures for
// (T4): overall diameter and section width in inches.
var letterSizes = map[string][2]float64{"G78-15": {28.0, 8.4}}

func parseLetter(t string, _ Settings) (Size, bool, error) {
	m := letterForm.FindStringSubmatch(t)
	if m == nil {
		return Size{}, false, nil
	}
	row, ok := letterSizes[m[1]+m[3]+"-"+m[5]]
	if !ok {
		return Size{}, true, &Question{Read: t, Expected: "a size that a table gives figures for",
			Ask: "The letter is a load, not a width. What do diameter and width measure?"}
	}
	s := Size{Kind: AlphaNumeric, Diameter: row[0] * inch, Width: row[1] * inch, AspectFrom: "table"}
	if err := s.setRim(t, m[5]); err != nil {
		return Size{}, true, err
	}
	s.Aspect = (s.Diameter - s.Rim) / 2 / s.Width
	s.setUse("", m[6])
	switch {
	case m[2] == "R" || m[4] == "R":
		s.Construction = Radial
	case m[4] == "B":
		s.Construction = BiasBelted
	default:
		s.setConstruction("")
	}
	return s.finish(t, m[7])
}

// metricRims are the rim diameters that are marked in millimetres.
var metricRims = map[string]bool{"315": true, "340": true, "365": true, "390": true, "415": true}

func (s *Size) setRim(t, rim string) error {
	v, _ := strconv.ParseFloat(rim, 64)
	switch {
	case metricRims[rim]:
		s.Rim, s.MetricRim = v/1000, true
		s.ask(t, "a flange radius measured on the rim", "This rim is marked in millimetres and has its own flange. What does the flange measure?")
	case v < 10 || v > 26:
		return &Question{Read: t, Expected: "a rim from 10 to 26 in", Ask: "Is the rim " + rim + " in?"}
	default:
		s.Rim = v * inch
	}
	return nil
}

func (s *Size) setUse(front, behind string) {
	switch {
	case front == "P":
		s.Use = PMetric
	case front == "T":
		s.Use = Temporary
	case front == "LT" || behind == "LT":
		s.Use = LightTruck
	case behind == "C":
		s.Use = Commercial
	}
}

// setConstruction reads the letter before the rim. A letter before R is an old
// speed mark (165SR13, 205/55ZR16).
func (s *Size) setConstruction(mark string) {
	switch {
	case strings.HasSuffix(mark, "R"):
		s.Construction = Radial
		if len(mark) == 2 {
			s.Symbol = mark[:1]
		}
	case mark == "D":
		s.Construction = Crossply
	case mark == "B":
		s.Construction = BiasBelted
	}
}

func (s *Size) ask(read, want, ask string, answers ...string) {
	s.Questions = append(s.Questions, Question{Read: read, Expected: want, Ask: ask, Answers: answers})
}

// finish reads what stands behind the size and asks what is still open.
func (s Size) finish(t, rest string) (Size, bool, error) {
	if err := s.readRest(t, rest); err != nil {
		return Size{}, true, err
	}
	if s.Construction == UnknownConstruction {
		s.ask(t, "R for radial before the rim", "Is the tyre radial or crossply? The word stands on the sidewall.", "radial", "crossply")
	}
	if s.Use == Commercial || s.Use == LightTruck {
		s.ask(t, "the pressure that the load is carried at", "A commercial tyre carries its load at a pressure of its own. Which pressure is it run at?")
	}
	if s.Use == Temporary {
		s.ask(t, "a road tyre", "This is a temporary spare. Which tyre stands on this wheel otherwise?")
	}
	if len(s.Unread) > 0 {
		s.ask(t, "load index, speed symbol, XL, ply rating", "What does "+quoted(strings.Join(s.Unread, " "))+" mean?")
	}
	return s, true, nil
}
