package job_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"jounce/internal/job"
)

func TestExactCanonical(t *testing.T) {
	for _, c := range []struct{ name, in, want string }{
		{"members sorted by bytes", `{"b":1,"a":2,"B":3,"ä":4,"aa":5}`, `{"B":3,"a":2,"aa":5,"b":1,"ä":4}`},
		{"space dropped", " { \"a\" : [ 1 ,\t2 ] ,\r\n\"b\" : { } } ", `{"a":[1,2],"b":{}}`},
		{"numbers as text", `[1.0,1,1e3,-0,0.10,12345678901234567890.123]`, `[1.0,1,1e3,-0,0.10,12345678901234567890.123]`},
		{"no HTML escaping", `["\u003ca href='x'>&\u2028"]`, "[\"<a href='x'>&\u2028\"]"},
		{"escapes undone", `["\u00e4\/\u0041 \ud83d\ude97"]`, `["ä/A 🚗"]`},
		{"escapes kept", `["\"\\\b\f\n\r\t\u0000\u001F\u007f"]`, `["\"\\\b\f\n\r\t\u0000\u001f` + "\x7f" + `"]`},
		{"escaped name sorts as what it says", `{"b":1,"\u0061":2}`, `{"a":2,"b":1}`},
		{"nested", `[{"z":{"y":[{"x":null,"w":true}],"a":false}}]`, `[{"z":{"a":false,"y":[{"w":true,"x":null}]}}]`},
		{"array order kept", `[3,1,2]`, `[3,1,2]`},
		{"bare value", ` "a" `, `"a"`},
		{"replacement character is a character", `["\ufffd"]`, `["` + "\ufffd" + `"]`},
	} {
		in := []byte(c.in)
		got, err := job.Canonical(in)
		if err != nil || string(got) != c.want {
			t.Errorf("%s: got %s, %v; want %s", c.name, got, err, c.want)
		}
		if string(in) != c.in {
			t.Errorf("%s: the input was changed", c.name)
		}
	}
}

func TestLimitCanonicalRefuses(t *testing.T) {
	for _, c := range []struct{ name, in, want string }{
		{"empty", ``, "line 1"},
		{"cut off", "{\n\"a\":", "line 2"},
		{"two values", `{} {}`, "byte 4"},
		{"same name twice", `{"a":1,"b":2,"a":1}`, `"a" twice`},
		{"same name twice, one escaped", `{"a":1,"\u0061":1}`, `"a" twice`},
		{"half a pair", `["\ud83d"]`, "surrogate"},
		{"half a pair before another escape", `["\ud83d\n"]`, "surrogate"},
		{"halves turned round", `["\ude97\ud83d"]`, "surrogate"},
		{"not UTF-8", "[\"a\xff\"]", "byte 3"},
		{"too deep", strings.Repeat("[", 101) + strings.Repeat("]", 101), "deeper than 100"},
		{"too deep, objects", strings.Repeat(`{"a":`, 101) + "1" + strings.Repeat("}", 101), "deeper than 100"},
		{"far too deep", strings.Repeat("[", 20000) + strings.Repeat("]", 20000), "depth"},
	} {
		got, err := job.Canonical([]byte(c.in))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %q, error %v; expected an error with %q", c.name, got, err, c.want)
		}
	}
	if _, err := job.Canonical([]byte(strings.Repeat("[", 100) + strings.Repeat("]", 100))); err != nil {
		t.Errorf("depth of 100: %v", err)
	}
}

// FuzzCanonical holds Canonical to its two promises: its output is its own
// canonical form, and it says the same as the input.
func FuzzCanonical(f *testing.F) {
	for _, s := range []string{
		`{"b":[1.0,{"x":null}],"a":"\u00e4\n"}`, `"\ud83d\ude97"`, `[]`, `-0.0e+1`, `{"a":1,"a":2}`, `[true , false]`, "\"\x7f\"",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, in []byte) {
		once, err := job.Canonical(in)
		if err != nil {
			return
		}
		twice, err := job.Canonical(once)
		if err != nil || !bytes.Equal(once, twice) {
			t.Fatalf("%q gave %q, and that gave %q, %v", in, once, twice, err)
		}
		if a, b := decode(t, in), decode(t, once); !reflect.DeepEqual(a, b) {
			t.Fatalf("%q and its canonical form %q differ: %v, %v", in, once, a, b)
		}
	})
}

// decode reads JSON with numbers as text.
func decode(t *testing.T, text []byte) any {
	t.Helper()
	d := json.NewDecoder(bytes.NewReader(text))
	d.UseNumber()
	var v any
	if err := d.Decode(&v); err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	return v
}

func ExampleCanonical() {
	text, err := job.Canonical([]byte(`{ "volume": "19 L", "end": { "gauge": "9.45 bar", "at": 12.0 } }`))
	fmt.Println(string(text), err)
	// Output: {"end":{"at":12.0,"gauge":"9.45 bar"},"volume":"19 L"} <nil>
}

func BenchmarkCanonical(b *testing.B) {
	var doc bytes.Buffer
	doc.WriteString(`{"items":[`)
	for i := range 300 {
		if i > 0 {
			doc.WriteByte(',')
		}
		fmt.Fprintf(&doc, `{"id":"i%d","value":"118 mm ± 2 mm","by":"T. Marrow","note":"read at the left, \"cold\""}`, i)
	}
	doc.WriteString(`]}`)
	b.SetBytes(int64(doc.Len()))
	for b.Loop() {
		if _, err := job.Canonical(doc.Bytes()); err != nil {
			b.Fatal(err)
		}
	}
}
