package source

import (
	"fmt"
	"strings"
	"testing"
)

func TestExactBibliography(t *testing.T) {
	all := All()
	if len(all) != len(handbook)+len(air)+len(car)+len(general) {
		t.Fatalf("%d citations in All", len(all))
	}
	trusts := map[Trust]bool{High: true, Good: true, Fair: true, Worked: true, Practice: true, FromMemory: true, Calculated: true}
	for i, c := range all {
		if i > 0 && !less(all[i-1].Key, c.Key) {
			t.Errorf("%s stands after %s", c.Key, all[i-1].Key)
		}
		if c.Title == "" || !trusts[c.Trust] {
			t.Errorf("%s: title %q, trust %q", c.Key, c.Title, c.Trust)
		}
		if strings.ContainsAny(c.Key, " /\\,") {
			t.Errorf("key %q cannot name a file", c.Key)
		}
		if got, ok := Of(c.Key); !ok || got != c {
			t.Errorf("Of(%q) gives %v, %v", c.Key, got, ok)
		}
		if low := strings.ToUpper(c.Key); low != c.Key {
			t.Errorf("key %q is not in capitals", c.Key)
		}
	}
	if _, ok := Of("S26"); ok {
		t.Error("S26 is not used")
	}
}

func TestExactMarks(t *testing.T) {
	for _, c := range []struct {
		mark             Mark
		known, published bool
	}{
		{"S31", true, true}, {"COURSE-V", true, true}, {CP, true, false}, {M, true, false}, {Calc, true, false},
		{Maker, true, false}, {Read, true, false}, {Derived, true, false}, {Typed, true, false}, {"S99", false, false}, {"", false, false},
	} {
		_, cited := c.mark.Citation()
		if c.mark.Known() != c.known || c.mark.Published() != c.published || cited != c.published {
			t.Errorf("%q: known %v, published %v, cited %v", c.mark, c.mark.Known(), c.mark.Published(), cited)
		}
		if (c.mark.Explain() != "") != c.known {
			t.Errorf("%q explains as %q", c.mark, c.mark.Explain())
		}
	}
}

func ExampleOf() {
	c, _ := Of("S1")
	fmt.Println(c)
	// Output: Health and Safety Executive, Air suspension systems on vehicles, safety bulletin EPD 1-2020, 12 May 2020. Trust: high.
}
