package job

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
)

// Reading is one quantity as it was typed, with what, by whom and when. The
// zero Reading is a gap.
type Reading struct {
	Value   string `json:"value,omitempty"`   // as typed, with its unit: "412 mm ± 2 mm"
	With    string `json:"with,omitempty"`    // id of the instrument
	By      string `json:"by,omitempty"`      // who read it
	At      string `json:"at,omitempty"`      // when, RFC 3339
	NotRead string `json:"notRead,omitempty"` // why it cannot be read today
	Note    string `json:"note,omitempty"`
}

// Typed is a reading that is no more than a text.
func Typed(text string) Reading { return Reading{Value: text} }

// IsZero tells that nothing is recorded.
func (r Reading) IsZero() bool { return r == Reading{} }

// Empty tells that there is no value to compute with.
func (r Reading) Empty() bool { return strings.TrimSpace(r.Value) == "" }

// MarshalJSON writes a bare text where nothing else is known.
func (r Reading) MarshalJSON() ([]byte, error) {
	if r == (Reading{Value: r.Value}) {
		return plainJSON(r.Value)
	}
	type bare Reading
	return plainJSON(bare(r))
}

func plainJSON(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, err
	}
	return bytes.TrimSpace(b.Bytes()), nil
}

// UnmarshalJSON reads a text or an object.
func (r *Reading) UnmarshalJSON(data []byte) error {
	data = bytes.TrimSpace(data)
	if len(data) > 0 && data[0] == '"' {
		*r = Reading{}
		return json.Unmarshal(data, &r.Value)
	}
	if len(data) > 0 && data[0] != '{' {
		return fmt.Errorf("%s: a quantity is a text with its unit, such as \"412 mm\"", data)
	}
	type bare Reading
	return json.Unmarshal(data, (*bare)(r))
}
