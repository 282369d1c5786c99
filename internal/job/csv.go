package job

import (
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"jounce/quantity"
)

// PointTable is a maker's table as it came out of a text.
type PointTable struct {
	Points  []SpringPoint // in the order of the lines, ids p1, p2, …
	Refused []RowFault    // lines that were not taken, in their order
	Ignored []string      // columns of the header that hold something else
}

// RowFault is one line that was not taken.
type RowFault struct {
	Line int    // of the text, from 1
	Read string // what stands there
	Says string // what is wrong and what would fix it
}

// TableFault says why no line of a text could be read.
type TableFault struct {
	Line int
	Says string
}

func (f *TableFault) Error() string { return fmt.Sprintf("line %d: %s", f.Line, f.Says) }

// MostRows is the most lines that a table may have, its header among them.
const MostRows = 2000

// pointHeader is what a header looks like.
const pointHeader = "load N, pressure bar, height mm"

// column is one column of the table.
type column struct {
	name string // "load"
	unit string // as the header says it; "" where it says none
	at   int    // place in a row; −1 where there is none
	Field
}

// ReadPoints reads a maker's table of load, pressure and height from a text with
// a header row of names and units: "load N, pressure bar, height mm", in any
// order. Between the cells stands a comma; a tab or a semicolon where decimals
// are written with commas. A line that cannot be taken is named and left out; the
// others keep their texts as typed, with the unit of the header.
//
// The error is a *TableFault when there is no header that can be used.
func ReadPoints(text string) (PointTable, error) {
	var out PointTable
	lines := strings.Split(strings.ReplaceAll(strings.TrimPrefix(text, "\ufeff"), "\r\n", "\n"), "\n")
	if len(lines) > MostRows {
		return out, &TableFault{MostRows + 1, fmt.Sprintf("the text has %d lines; %d are the most", len(lines), MostRows)}
	}
	first := 0
	for first < len(lines) && strings.TrimSpace(lines[first]) == "" {
		first++
	}
	if first == len(lines) {
		return out, &TableFault{1, "there is no text; expected a header row such as \"" + pointHeader + "\""}
	}
	mark := separator(lines[first])
	cols, other, err := header(cells(lines[first], mark), first+1)
	if err != nil {
		return out, err
	}
	out.Ignored = other
	seen := map[[3]string]int{}
	for i := first + 1; i < len(lines); i++ {
		if strings.TrimSpace(strings.Trim(lines[i], string(mark))) == "" {
			continue
		}
		p, says := row(cells(lines[i], mark), cols, mark != ',')
		key := [3]string{p.Load.Value, p.Pressure.Value, p.Height.Value}
		if n := seen[key]; says == "" && n > 0 {
			says = fmt.Sprintf("the same as line %d", n)
		}
		if says != "" {
			out.Refused = append(out.Refused, RowFault{i + 1, strings.TrimSpace(lines[i]), says})
			continue
		}
		seen[key] = i + 1
		p.ID = "p" + strconv.Itoa(len(out.Points)+1)
		out.Points = append(out.Points, p)
	}
	return out, nil
}

// separator is the sign between cells: the header holds no decimals, so it tells.
func separator(head string) rune {
	for _, r := range "\t;" {
		if strings.ContainsRune(head, r) {
			return r
		}
	}
	return ','
}

// cells are the cells of a line; nil where its quotation marks do not close.
func cells(line string, mark rune) []string {
	r := csv.NewReader(strings.NewReader(line))
	r.Comma, r.FieldsPerRecord, r.TrimLeadingSpace = mark, -1, mark != '\t'
	out, err := r.Read()
	if err != nil {
		return nil
	}
	for i := range out {
		out[i] = strings.TrimSpace(strings.ReplaceAll(out[i], "\u00a0", " "))
	}
	return out
}

// columnNames are what the columns are called.
var columnNames = map[string][]string{"load": {"load", "force", "f"}, "pressure": {"pressure", "p"}, "height": {"height", "length", "h"}}

// header finds the three columns in the header.
func header(head []string, line int) (cols [3]column, other []string, err error) {
	scratch := new(Job)
	for i, name := range []string{"load", "pressure", "height"} {
		f, ferr := scratch.Field("springs[s1].points[p1]."+name, true)
		if ferr != nil {
			return cols, nil, ferr
		}
		cols[i] = column{name: name, at: -1, Field: f}
	}
	for at, text := range head {
		word, unit := headWords(text)
		c := columnOf(&cols, word)
		switch {
		case c == nil:
			if text != "" {
				other = append(other, text)
			}
			continue
		case c.at >= 0:
			return cols, nil, &TableFault{line, "two columns are called " + c.name}
		}
		if unit != "" {
			if _, err := quantity.Parse(c.Kind, "1 "+unit); err != nil {
				return cols, nil, &TableFault{line, fmt.Sprintf("%s: %q is no unit of it; expected for example %q", c.name, unit, c.name+" "+c.Unit.String())}
			}
		}
		c.at, c.unit = at, unit
	}
	for _, c := range cols {
		if c.at < 0 {
			return cols, nil, &TableFault{line, fmt.Sprintf("no column is called %s; expected a header row such as %q", c.name, pointHeader)}
		}
	}
	return cols, other, nil
}

func columnOf(cols *[3]column, word string) *column {
	for i := range cols {
		for _, n := range columnNames[cols[i].name] {
			if n == word {
				return &cols[i]
			}
		}
	}
	return nil
}

// headWords takes a cell of the header apart: "Load (N)" is "load" and "N".
func headWords(text string) (word, unit string) {
	text = strings.TrimSpace(text)
	end := strings.IndexAny(text, " ([/:_")
	if end < 0 {
		return strings.ToLower(text), ""
	}
	unit = strings.Trim(text[end:], " ()[]/:_")
	unit = strings.TrimSpace(strings.TrimPrefix(unit, "in "))
	return strings.ToLower(text[:end]), unit
}

// row reads one line; says is why it is not taken.
func row(cell []string, cols [3]column, commas bool) (p SpringPoint, says string) {
	if cell == nil {
		return p, "a quotation mark is not closed"
	}
	for i, to := range []*Reading{&p.Load, &p.Pressure, &p.Height} {
		c := cols[i]
		if c.at >= len(cell) || cell[c.at] == "" {
			return p, "no " + c.name + " stands there; empty is not printed by the maker, never 0"
		}
		text, says := cellText(cell[c.at], c, commas)
		if says != "" {
			return p, says
		}
		to.Value = text
	}
	return p, ""
}

// cellText is the text of a cell as the record keeps it.
func cellText(text string, c column, commas bool) (string, string) {
	number := text
	if commas && strings.Contains(text, ",") && !strings.Contains(text, ".") {
		if thousands(text) {
			return "", fmt.Sprintf("%s %s can be read two ways; write it without the comma, or with a full stop", c.name, text)
		}
		number = strings.Replace(text, ",", ".", 1)
	}
	full := number
	if bare(number) {
		if c.unit == "" {
			return "", fmt.Sprintf("%s %s has no unit; the header can say it: %q", c.name, text, c.name+" "+c.Unit.String())
		}
		full = number + " " + c.unit
	}
	v, err := quantity.Parse(c.Kind, full)
	if err != nil {
		return "", c.name + ": " + strings.TrimSuffix(err.Error(), ".")
	}
	if x := v.In(c.Unit); x < c.Least-1e-9 || x > c.Most+1e-9 {
		return "", fmt.Sprintf("%s %s lies outside %s to %s %s", c.name, full, plain(c.Least), plain(c.Most), c.Unit)
	}
	return full, ""
}

func plain(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// bare tells that a text is a number alone.
func bare(text string) bool {
	return text != "" && strings.Trim(text, "0123456789.+-\u2212 ") == ""
}

// thousands tells that the comma of a number stands where it may part thousands.
func thousands(text string) bool {
	whole, rest, _ := strings.Cut(text, ",")
	digits := 0
	for digits < len(rest) && rest[digits] >= '0' && rest[digits] <= '9' {
		digits++
	}
	return digits == 3 && whole != "0" && len(whole) <= 3
}
