package tyre

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

var (
	serviceForm = regexp.MustCompile(`^\(?(\d{2,3})(?:/(\d{2,3}))?([A-Z])?\)?$`)
	plyForm     = regexp.MustCompile(`^(\d{1,2})(?:PR|PLY)$`)
)

// quietMarks say nothing that matters here.
var quietMarks = map[string]bool{"TL": true, "TT": true, "TUBELESS": true, "TUBE": true, "TYPE": true,
	"M+S": true, "M&S": true, "MS": true, "M/S": true, "RADIAL": true, "E4": true, "BSW": true, "WSW": true}

// readRest reads load index, speed symbol and other marks behind the size.
func (s *Size) readRest(t, rest string) error {
	words := strings.Fields(rest)
	for i := 0; i < len(words); i++ {
		w := words[i]
		next := ""
		if i+1 < len(words) {
			next = words[i+1]
		}
		switch {
		case w == "C" && s.Use == Passenger:
			s.Use = Commercial
		case w == "LT" && s.Use == Passenger:
			s.Use = LightTruck
		case w == "XL" || w == "RF" || w == "REINF" || w == "REINFORCED":
			s.ExtraLoad = true
		case w == "EXTRA" && next == "LOAD":
			s.ExtraLoad = true
			i++
		case plyForm.MatchString(w):
			s.PlyRating, _ = strconv.Atoi(plyForm.FindStringSubmatch(w)[1])
		case len(w) <= 2 && isNumber(w) && (next == "PR" || next == "PLY"):
			s.PlyRating, _ = strconv.Atoi(w)
			i++
		case serviceForm.MatchString(w) && s.LoadIndex == 0:
			if err := s.readService(t, serviceForm.FindStringSubmatch(w)); err != nil {
				return err
			}
		case len(w) == 1 && w >= "A" && w <= "Z" && s.Symbol == "":
			if err := s.readSymbol(t, w); err != nil {
				return err
			}
		case quietMarks[w]:
			s.readQuiet(w)
		default:
			s.Unread = append(s.Unread, w)
		}
	}
	if s.Symbol != "" && s.TopSpeed == 0 {
		return s.readSymbol(t, s.Symbol)
	}
	return nil
}

func (s *Size) readQuiet(w string) {
	if w == "RADIAL" && s.Construction == UnknownConstruction {
		s.Construction = Radial
	}
}

func isNumber(s string) bool {
	_, err := strconv.Atoi(s)
	return err == nil
}

func (s *Size) readService(t string, m []string) error {
	s.LoadIndex, _ = strconv.Atoi(m[1])
	load, ok := LoadOf(s.LoadIndex)
	if !ok {
		return &Question{Read: t, Expected: fmt.Sprintf("a load index from %d to %d", firstIndex, lastIndex),
			Ask: "Is " + m[1] + " the load index?"}
	}
	s.Load = load
	if m[2] != "" {
		s.DualIndex, _ = strconv.Atoi(m[2])
		if _, ok := LoadOf(s.DualIndex); !ok || s.DualIndex > s.LoadIndex {
			return &Question{Read: t, Expected: "two load indices, the second for twin wheels and not above the first",
				Ask: "Is " + m[1] + "/" + m[2] + " a pair of load indices?"}
		}
	}
	if m[3] != "" {
		return s.readSymbol(t, m[3])
	}
	return nil
}

// readSymbol keeps a speed symbol. Z says only "over 240 km/h"; where a load
// index follows with W or Y, that one counts.
func (s *Size) readSymbol(t, w string) error {
	v, ok := SpeedOf(w)
	if !ok {
		return &Question{Read: t, Expected: "a speed symbol from J to Y", Ask: "Is " + w + " the speed symbol?"}
	}
	s.Symbol, s.TopSpeed = w, v
	return nil
}
