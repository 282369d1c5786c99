package job

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"sort"
	"strconv"
	"unicode/utf16"
	"unicode/utf8"
)

// maxDepth is how deep arrays and objects of a document may stand in each other.
const maxDepth = 100

// Canonical returns the one form of a JSON text that digests are taken of: no
// space between tokens; the members of every object sorted by the bytes of
// their names; strings in UTF-8 with only ", \ and the control characters below
// U+0020 escaped (\b \f \n \r \t, else \u00xx); numbers exactly as they were
// written, so that 1.0 and 1 stay different. Canonical of its own output gives
// the same bytes.
//
// An error names the place: text that is not JSON, more than one value, bytes
// that are not UTF-8, half a surrogate pair, an object that names one member
// twice, or values nested deeper than 100. Input is not changed.
func Canonical(text []byte) ([]byte, error) {
	if !utf8.Valid(text) {
		return nil, fmt.Errorf("byte %d: expected UTF-8", firstBadByte(text))
	}
	if !json.Valid(text) {
		return nil, syntaxError(text)
	}
	c := canon{in: text, out: make([]byte, 0, len(text))}
	if err := c.value(0); err != nil {
		return nil, err
	}
	return c.out, nil
}

// syntaxError says where a text that is not valid JSON goes wrong.
func syntaxError(text []byte) error {
	var any json.RawMessage
	err := json.Unmarshal(text, &any)
	if at, ok := errors.AsType[*json.SyntaxError](err); ok {
		line := 1 + bytes.Count(text[:min(int(at.Offset), len(text))], []byte("\n"))
		return fmt.Errorf("line %d, byte %d: not JSON: %s", line, at.Offset, at.Error())
	}
	return errors.New("not JSON")
}

// firstBadByte is the offset of the first byte that is not UTF-8.
func firstBadByte(text []byte) int {
	for i := 0; i < len(text); {
		r, n := utf8.DecodeRune(text[i:])
		if r == utf8.RuneError && n == 1 {
			return i
		}
		i += n
	}
	return len(text)
}

// canon rewrites a text that json.Valid has accepted; that is why it does not
// look for errors of syntax again.
type canon struct {
	in  []byte
	at  int
	out []byte
}

// skip moves over white space.
func (c *canon) skip() {
	for c.at < len(c.in) {
		switch c.in[c.at] {
		case ' ', '\t', '\n', '\r':
			c.at++
		default:
			return
		}
	}
}

// value appends the canonical form of the value that comes next.
func (c *canon) value(depth int) error {
	c.skip()
	switch c.in[c.at] {
	case '{':
		return c.object(depth + 1)
	case '[':
		return c.array(depth + 1)
	case '"':
		s, err := c.text()
		if err != nil {
			return err
		}
		c.out = appendText(c.out, s)
		return nil
	}
	// A number, true, false or null: copied as it stands.
	start := c.at
	for c.at < len(c.in) && !bytes.ContainsRune([]byte(" \t\n\r,]}"), rune(c.in[c.at])) {
		c.at++
	}
	c.out = append(c.out, c.in[start:c.at]...)
	return nil
}

// array appends an array.
func (c *canon) array(depth int) error {
	if depth > maxDepth {
		return fmt.Errorf("byte %d: nested deeper than %d", c.at, maxDepth)
	}
	c.at++ // [
	c.out = append(c.out, '[')
	for first := true; ; first = false {
		c.skip()
		if c.in[c.at] == ']' {
			c.at++
			c.out = append(c.out, ']')
			return nil
		}
		if !first {
			c.at++ // ,
			c.out = append(c.out, ',')
		}
		if err := c.value(depth); err != nil {
			return err
		}
	}
}

// member is one member of an object: its name and the bytes of its value,
// already canonical.
type member struct {
	name  string
	value []byte
}

// object appends an object with its members sorted.
func (c *canon) object(depth int) error {
	if depth > maxDepth {
		return fmt.Errorf("byte %d: nested deeper than %d", c.at, maxDepth)
	}
	c.at++ // {
	outer := c.out
	c.out = make([]byte, 0, 256)
	var members []member
	for first := true; ; first = false {
		c.skip()
		if c.in[c.at] == '}' {
			c.at++
			break
		}
		if !first {
			c.at++ // ,
			c.skip()
		}
		name, err := c.text()
		if err != nil {
			return err
		}
		c.skip()
		c.at++ // :
		start := len(c.out)
		if err := c.value(depth); err != nil {
			return err
		}
		members = append(members, member{name, c.out[start:len(c.out):len(c.out)]})
	}
	sort.Slice(members, func(i, j int) bool { return members[i].name < members[j].name })
	outer = append(outer, '{')
	for i, m := range members {
		if i > 0 {
			if m.name == members[i-1].name {
				return fmt.Errorf("byte %d: the object that ends here names %q twice", c.at, m.name)
			}
			outer = append(outer, ',')
		}
		outer = appendText(outer, m.name)
		outer = append(outer, ':')
		outer = append(outer, m.value...)
	}
	c.out = append(outer, '}')
	return nil
}

// text reads a string.
func (c *canon) text() (string, error) {
	c.at++ // opening quote
	start := c.at
	for c.in[c.at] != '"' && c.in[c.at] != '\\' {
		c.at++
	}
	if c.in[c.at] == '"' {
		s := string(c.in[start:c.at])
		c.at++
		return s, nil
	}
	s := append([]byte(nil), c.in[start:c.at]...)
	for {
		switch b := c.in[c.at]; b {
		case '"':
			c.at++
			return string(s), nil
		case '\\':
			r, err := c.escape()
			if err != nil {
				return "", err
			}
			s = utf8.AppendRune(s, r)
		default:
			s = append(s, b)
			c.at++
		}
	}
}

// escape reads one escape sequence, or two that make a surrogate pair.
func (c *canon) escape() (rune, error) {
	start := c.at
	kind := c.in[c.at+1]
	c.at += 2
	switch kind {
	case 'b':
		return '\b', nil
	case 'f':
		return '\f', nil
	case 'n':
		return '\n', nil
	case 'r':
		return '\r', nil
	case 't':
		return '\t', nil
	case 'u':
	default: // " \ /
		return rune(kind), nil
	}
	r := c.hex()
	if !utf16.IsSurrogate(r) {
		return r, nil
	}
	if c.at+6 <= len(c.in) && c.in[c.at] == '\\' && c.in[c.at+1] == 'u' {
		c.at += 2
		if both := utf16.DecodeRune(r, c.hex()); both != utf8.RuneError {
			return both, nil
		}
	}
	return 0, fmt.Errorf("byte %d: half a surrogate pair; expected both halves", start)
}

// hex reads four hexadecimal digits.
func (c *canon) hex() rune {
	v, _ := strconv.ParseUint(string(c.in[c.at:c.at+4]), 16, 32)
	c.at += 4
	return rune(v)
}

// appendText appends s as a JSON string with the fewest escapes JSON allows.
func appendText(out []byte, s string) []byte {
	const digits = "0123456789abcdef"
	out = append(out, '"')
	for i := 0; i < len(s); i++ {
		switch b := s[i]; {
		case b == '"' || b == '\\':
			out = append(out, '\\', b)
		case b >= 0x20:
			out = append(out, b)
		case b == '\b':
			out = append(out, '\\', 'b')
		case b == '\f':
			out = append(out, '\\', 'f')
		case b == '\n':
			out = append(out, '\\', 'n')
		case b == '\r':
			out = append(out, '\\', 'r')
		case b == '\t':
			out = append(out, '\\', 't')
		default:
			out = append(out, '\\', 'u', '0', '0', digits[b>>4], digits[b&15])
		}
	}
	return append(out, '"')
}
