package quantity

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// longest is the longest text that is read [bytes].
const longest = 200

// shown tells whether a character has a picture and no hidden effect.
func shown(r rune) bool {
	return r == ' ' || unicode.IsGraphic(r) && !unicode.In(r, unicode.Cf, unicode.Mn, unicode.Me) && r != utf8.RuneError
}

// cleanText tells whether a text is short enough, UTF-8, and without
// characters that cannot be seen.
func cleanText(s string) bool {
	if len(s) > longest || !utf8.ValidString(s) {
		return false
	}
	for _, r := range s {
		if !shown(r) {
			return false
		}
	}
	return true
}

// squeeze brings spaces and minus signs to one form and trims the ends.
func squeeze(s string) string {
	plain := true
	for i := 0; i < len(s); i++ {
		if s[i] >= 0x80 || s[i] == ' ' && i+1 < len(s) && s[i+1] == ' ' {
			plain = false
			break
		}
	}
	if plain {
		return strings.TrimSpace(s)
	}
	var b strings.Builder
	gap := false
	for _, r := range s {
		switch {
		case unicode.Is(unicode.Zs, r):
			gap = b.Len() > 0
			continue
		case r == '\u2212' || r == '\uFE63' || r == '\uFF0D':
			r = '-'
		case r == '\u2044' || r == '\u2215':
			r = '/'
		}
		if gap {
			b.WriteByte(' ')
			gap = false
		}
		b.WriteRune(r)
	}
	return b.String()
}

// figure is a number as typed.
type figure struct {
	val      float64
	parted   float64 // the other reading, with a point or comma parting thousands
	twin     bool    // there is such another reading
	whole    bool    // typed as digits only
	negative bool
}

var vulgar = map[rune][2]int{
	'½': {1, 2}, '⅓': {1, 3}, '⅔': {2, 3}, '¼': {1, 4}, '¾': {3, 4},
	'⅕': {1, 5}, '⅖': {2, 5}, '⅗': {3, 5}, '⅘': {4, 5}, '⅙': {1, 6}, '⅚': {5, 6},
	'⅐': {1, 7}, '⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8}, '⅑': {1, 9}, '⅒': {1, 10},
}

// scanFigure reads the number at the start of a squeezed text and gives what
// follows it. A fault is a clause for a Problem.
func scanFigure(s string) (f figure, rest, fault string) {
	rest = s
	if rest == "" {
		return f, rest, "there is no number"
	}
	if c := rest[0]; c == '-' || c == '+' || strings.HasPrefix(rest, "–") {
		f.negative = c != '+'
		rest = strings.TrimPrefix(strings.TrimPrefix(rest[1:], "\x80\x93"), " ")
		if rest != "" && (rest[0] == '-' || rest[0] == '+') {
			return f, rest, "there are two signs before the number"
		}
	}
	fail := func(fault string) (figure, string, string) { return figure{}, "", fault }
	if n, d, after := vulgarAt(rest); d != 0 {
		f.val = float64(n) / float64(d)
		rest = after
	} else {
		token := numberToken(rest)
		if token == "" || strings.Trim(token, ".,") == "" {
			return fail("it does not begin with a number")
		}
		rest = rest[len(token):]
		if fault := f.interpret(token); fault != "" {
			return fail(fault)
		}
		if after, fault := f.tail(token, rest); fault != "" {
			return fail(fault)
		} else {
			rest = after
		}
	}
	if rest != "" && (isDigit(rune(rest[0])) || rest[0] == '.' || rest[0] == ',' && len(rest) > 1 && isDigit(rune(rest[1]))) {
		return fail("the number cannot be read")
	}
	if f.negative {
		f.val, f.parted = -f.val, -f.parted
	}
	if f.val == 0 {
		f.val = 0 // no minus nought
	}
	if bad := math.Abs(f.val); bad > 1e15 || bad != 0 && bad < 1e-15 {
		return fail("the number is out of all reach")
	}
	return f, strings.TrimPrefix(rest, " "), ""
}

// numberToken is the run of digits, points, commas and spaces before exactly
// three digits at the start of s.
func numberToken(s string) string {
	run := func(i int) int {
		for i < len(s) && isDigit(rune(s[i])) {
			i++
		}
		return i
	}
	i := run(0)
	if 1 <= i && i <= 3 && s[0] != '0' {
		for {
			j := run(min(i+1, len(s)))
			if i >= len(s) || s[i] != ' ' || j != i+4 || j < len(s) && s[j] == '/' {
				break
			}
			i = j
		}
	}
	for i < len(s) && (isDigit(rune(s[i])) || s[i] == '.' || s[i] == ',' && i+1 < len(s) && isDigit(rune(s[i+1]))) {
		i++
	}
	return s[:i]
}

// interpret finds what the points, commas and spaces of a token part.
func (f *figure) interpret(token string) (fault string) {
	digits := token
	spaced := strings.Contains(digits, " ")
	digits = strings.ReplaceAll(digits, " ", "")
	dots, commas := strings.Count(digits, "."), strings.Count(digits, ",")
	decimal := "" // the mark that parts the decimals
	switch {
	case dots == 0 && commas == 0:
		f.whole = true
	case dots+commas == 1:
		decimal = strings.Trim(digits, "0123456789")
		before, after, _ := strings.Cut(digits, decimal)
		if !spaced && len(after) == 3 && 1 <= len(before) && len(before) <= 3 && before[0] != '0' {
			f.twin = true
			f.parted, _ = strconv.ParseFloat(before+after, 64)
		}
	case spaced:
		return "the number has more than one mark for its decimals"
	case dots == 1 && commas > 0 && strings.LastIndex(digits, ",") < strings.Index(digits, "."):
		decimal = "."
	case commas == 1 && dots > 0 && strings.LastIndex(digits, ".") < strings.Index(digits, ","):
		decimal = ","
	case dots > 0 && commas > 0:
		return "the points and commas of the number do not fit together"
	}
	if dots+commas > 1 {
		whole := digits
		if decimal != "" {
			whole = digits[:strings.Index(digits, decimal)]
		}
		mark := ","
		if decimal == "," || decimal == "" && dots > 0 {
			mark = "."
		}
		if !grouped(whole, mark) {
			return "the points or commas of the number do not part thousands"
		}
		digits = strings.ReplaceAll(digits, mark, "")
	}
	if decimal == "," {
		digits = strings.Replace(digits, ",", ".", 1)
	}
	v, err := strconv.ParseFloat(digits, 64)
	if err != nil {
		return "the number is out of all reach"
	}
	f.val = v
	return ""
}

// grouped tells whether marks part a whole number into thousands.
func grouped(s, mark string) bool {
	groups := strings.Split(s, mark)
	for i, g := range groups {
		if i == 0 && (len(g) < 1 || len(g) > 3 || g[0] == '0') || i > 0 && len(g) != 3 {
			return false
		}
	}
	return true
}

// tail reads what may follow the digits of a number: an exponent, the rest of
// a fraction, or the fraction of a mixed number.
func (f *figure) tail(token, rest string) (after, fault string) {
	if e := exponentLen(rest); e > 0 {
		exp := strings.ReplaceAll(rest[1:e], "+", "")
		n, err := strconv.Atoi(exp)
		if err != nil || n > 99 || n < -99 {
			return rest, "the number is out of all reach"
		}
		// Parsed anew as one text, so that the result is correctly rounded.
		f.val, _ = strconv.ParseFloat(strconv.FormatFloat(f.val, 'g', -1, 64)+"e"+exp, 64)
		if m := strconv.FormatFloat(f.val, 'g', -1, 64); strings.ContainsAny(m, "IN") {
			return rest, "the number is out of all reach"
		}
		f.twin, f.whole = false, false
		return rest[e:], ""
	}
	if !f.whole {
		return rest, ""
	}
	if strings.HasPrefix(rest, "/") && len(rest) > 1 && isDigit(rune(rest[1])) {
		d, after, ok := denominator(rest)
		if !ok || strings.Contains(token, " ") {
			return rest, "the fraction cannot be read"
		}
		f.val, f.whole = f.val/d, false
		return after, ""
	}
	gap := 0
	if rest != "" && (rest[0] == ' ' || rest[0] == '-') {
		gap = 1
	}
	if n, d, after := vulgarAt(rest[gap:]); d != 0 {
		f.val, f.whole = f.val+float64(n)/float64(d), false
		return after, ""
	}
	n := 0
	for gap+n < len(rest) && isDigit(rune(rest[gap+n])) {
		n++
	}
	slash := gap + n
	if gap == 0 || n == 0 || n > 3 || len(rest) < slash+2 || rest[slash] != '/' || !isDigit(rune(rest[slash+1])) {
		return rest, "" // "60 1/min" has no fraction
	}
	d, after, ok := denominator(rest[slash:])
	num, _ := strconv.ParseFloat(rest[gap:gap+n], 64)
	if !ok || num >= d || num == 0 {
		return rest, "the fraction cannot be read"
	}
	// One division, so that the result is correctly rounded.
	f.val, f.whole = (f.val*d+num)/d, false
	return after, ""
}

// exponentLen is the length of an exponent at the start of s: "e3", "E-06".
func exponentLen(s string) int {
	if len(s) < 2 || s[0] != 'e' && s[0] != 'E' {
		return 0
	}
	i := 1
	if s[i] == '-' || s[i] == '+' {
		i++
	}
	start := i
	for i < len(s) && isDigit(rune(s[i])) {
		i++
	}
	if i == start {
		return 0
	}
	return i
}

// denominator reads "/8"; it may be 1 to 1000.
func denominator(s string) (d float64, after string, ok bool) {
	i := 1
	for i < len(s) && isDigit(rune(s[i])) {
		i++
	}
	d, err := strconv.ParseFloat(s[1:i], 64)
	after = s[i:]
	if err != nil || d < 1 || d > 1000 || after != "" && strings.ContainsRune("/.,", rune(after[0])) {
		return 0, s, false
	}
	return d, after, true
}

func vulgarAt(s string) (n, d int, after string) {
	r, size := utf8.DecodeRuneInString(s)
	if r < 0x80 {
		return 0, 0, s
	}
	v := vulgar[r]
	return v[0], v[1], s[size:]
}
