package evidence

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"
)

// Row is one printed figure and the inputs it belongs to.
type Row struct {
	Source  string // key in package source
	ID      string // number of the case
	What    string // what the figure is
	Unit    string // unit of the figure as printed
	Printed string // the figure as the source prints it
	Tol     string // tolerance as written, empty for the printed digits
	Where   string // page, table or equation
	Mark    string // S, M or R
	Note    string // what a reader must know
	Kind    string // empty, or "slip"

	expected  float64           // [Unit]
	tolerance float64           // [Unit]
	inputs    map[string]string // all other columns
	tb        testing.TB
}

// Expected is the printed figure as a number [in the row's unit].
func (r Row) Expected() float64 { return r.expected }

// Tolerance is how far the computed figure may be away [in the row's unit].
func (r Row) Tolerance() float64 { return r.tolerance }

// Has says whether the input is there and not empty.
func (r Row) Has(name string) bool { return r.inputs[name] != "" }

// Text is an input as written.
func (r Row) Text(name string) string {
	r.tb.Helper()
	s, ok := r.inputs[name]
	if !ok {
		r.tb.Fatalf("%s %s: there is no column %q", r.Source, r.ID, name)
	}
	return s
}

// Num is an input as a number [in the unit that the column's name states].
func (r Row) Num(name string) float64 {
	r.tb.Helper()
	v, _, err := parseNumber(r.Text(name))
	if err != nil {
		r.tb.Fatalf("%s %s: column %q: %v", r.Source, r.ID, name, err)
	}
	return v
}

var columns = []string{"id", "what", "unit", "printed", "tol", "where", "mark", "note", "kind"}

// readRows reads one file of printed figures. Errors name the line.
func readRows(key string, in io.Reader) ([]Row, error) {
	r := csv.NewReader(in)
	r.Comment = '#'
	head, err := r.Read()
	if err != nil {
		return nil, fmt.Errorf("%s: no header row: %w", key, err)
	}
	for _, must := range columns[:4] {
		if !contains(head, must) {
			return nil, fmt.Errorf("%s: header lacks the column %q", key, must)
		}
	}
	var rows []Row
	seen := map[string]bool{}
	for {
		rec, err := r.Read()
		if errors.Is(err, io.EOF) {
			return rows, nil
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", key, err)
		}
		line, _ := r.FieldPos(0)
		row, err := makeRow(key, head, rec)
		if err != nil {
			return nil, fmt.Errorf("%s, line %d: %w", key, line, err)
		}
		if seen[row.ID] {
			return nil, fmt.Errorf("%s, line %d: id %q stands twice", key, line, row.ID)
		}
		seen[row.ID] = true
		rows = append(rows, row)
	}
}

func makeRow(key string, head, rec []string) (Row, error) {
	row := Row{Source: key, inputs: map[string]string{}}
	for i, name := range head {
		v := strings.TrimSpace(rec[i])
		switch strings.TrimSpace(name) {
		case "id":
			row.ID = v
		case "what":
			row.What = v
		case "unit":
			row.Unit = v
		case "printed":
			row.Printed = v
		case "tol":
			row.Tol = v
		case "where":
			row.Where = v
		case "mark":
			row.Mark = v
		case "note":
			row.Note = v
		case "kind":
			row.Kind = v
		default:
			row.inputs[strings.TrimSpace(name)] = v
		}
	}
	return row, row.settle()
}

// settle works out the expected figure and its tolerance.
func (r *Row) settle() error {
	if r.ID == "" || r.What == "" {
		return errors.New("id and what must be written")
	}
	v, half, err := parseNumber(r.Printed)
	if err != nil {
		return fmt.Errorf("printed: %w", err)
	}
	r.expected, r.tolerance = v, half
	if r.Kind != "" && r.Kind != "slip" {
		return fmt.Errorf("kind %q, expected nothing or slip", r.Kind)
	}
	if r.Kind == "slip" && r.Note == "" {
		return errors.New("a slip needs a note that says what is right")
	}
	if r.Tol == "" {
		return nil
	}
	if r.Note == "" {
		return errors.New("a tolerance of its own needs a note that says where it is from")
	}
	r.tolerance, err = parseTolerance(r.Tol, v)
	return err
}

func parseTolerance(s string, of float64) (float64, error) {
	if rel, ok := strings.CutSuffix(s, "%"); ok {
		v, _, err := parseNumber(strings.TrimSpace(rel))
		if err != nil || v <= 0 {
			return 0, fmt.Errorf("tolerance %q, expected such as 0.5%%", s)
		}
		return math.Abs(of) * v / 100, nil
	}
	if abs, ok := strings.CutPrefix(s, "±"); ok {
		v, _, err := parseNumber(strings.TrimSpace(abs))
		if err != nil || v <= 0 {
			return 0, fmt.Errorf("tolerance %q, expected such as ±0.02", s)
		}
		return v, nil
	}
	return 0, fmt.Errorf("tolerance %q, expected such as 0.5%% or ±0.02", s)
}

// parseNumber reads a printed number and gives half a unit of its last digit.
// Spaces between digits and the minus sign U+2212 are read; no commas.
func parseNumber(s string) (v, half float64, err error) {
	clean := strings.NewReplacer(" ", "", "\u00a0", "", "\u202f", "", "−", "-").Replace(s)
	mantissa, exponent, _ := strings.Cut(strings.ToLower(clean), "e")
	for _, c := range mantissa {
		if (c < '0' || c > '9') && c != '.' && c != '-' && c != '+' {
			return 0, 0, fmt.Errorf("%q is no number", s)
		}
	}
	v, err = strconv.ParseFloat(clean, 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return 0, 0, fmt.Errorf("%q is no number", s)
	}
	e := 0
	if exponent != "" {
		e, err = strconv.Atoi(exponent)
		if err != nil {
			return 0, 0, fmt.Errorf("%q is no number", s)
		}
	}
	if _, frac, ok := strings.Cut(mantissa, "."); ok {
		e -= len(frac)
	}
	return v, 0.5 * math.Pow(10, float64(e)), nil
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if strings.TrimSpace(x) == s {
			return true
		}
	}
	return false
}
