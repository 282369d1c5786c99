package store

import (
	"bytes"
	"crypto/rand"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestExactPack packs any document, alone and against any other, and wants the
// same bytes back.
func TestExactPack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		anchor := []byte(strings.Repeat(rapid.StringN(0, 60, -1).Draw(t, "anchor"), rapid.IntRange(1, 60).Draw(t, "times")))
		document := []byte(rapid.String().Draw(t, "document"))
		if rapid.Bool().Draw(t, "edited") {
			document = append(append(document, anchor...), document...)
		}
		roundTrip(t, document, nil)
		roundTrip(t, document, anchor)
	})
}

type fataler interface {
	Fatalf(string, ...any)
}

// roundTrip packs and unpacks and returns the packed size.
func roundTrip(t fataler, document, anchor []byte) int {
	content, err := pack(document, anchor, 7)
	if err != nil {
		t.Fatalf("packing %d bytes against %d: %v", len(document), len(anchor), err)
	}
	u, err := newUnpacker(anchor, 7)
	if err != nil {
		t.Fatalf("%v", err)
	}
	defer u.close()
	got, err := u.unpack(content, len(document))
	if err != nil || !bytes.Equal(got, document) {
		t.Fatalf("%d bytes against %d came back as %d: %v", len(document), len(anchor), len(got), err)
	}
	return len(content)
}

// TestLimitPack packs the largest document, incompressible, against another of
// that size.
func TestLimitPack(t *testing.T) {
	large, other := make([]byte, maxDocument), make([]byte, maxDocument)
	rand.Read(large)
	rand.Read(other)
	roundTrip(t, large, nil)
	roundTrip(t, large, other)
}

// TestLimitPackedSize packs a document of about 40 kB with one reading changed:
// against the revision before it must come out a hundred times smaller, which it
// does not alone.
func TestLimitPackedSize(t *testing.T) {
	var b strings.Builder
	for i := range 400 {
		fmt.Fprintf(&b, `{"by":"T. Marrow","id":"%08x","instrument":"tape %d","value":"%d.%d mm ± 2 mm"},`, uint32(i)*2654435761, i%7, i*7919%997, i%10)
	}
	before := []byte(b.String())
	after := bytes.Replace(before, []byte("\"value\":\"1"), []byte("\"value\":\"4"), 1)
	alone, against := roundTrip(t, after, nil), roundTrip(t, after, before)
	t.Logf("%d bytes: %d alone, %d against the revision before", len(after), alone, against)
	if bytes.Equal(before, after) || against*100 > len(after) || alone*100 < len(after) {
		t.Errorf("%d bytes were packed into %d alone, %d against the revision before", len(after), alone, against)
	}
}

// TestLimitUnpack gives the unpacker what it must refuse.
func TestLimitUnpack(t *testing.T) {
	document := bytes.Repeat([]byte("118 mm ± 2 mm"), 100)
	content, err := pack(document, nil, 1)
	if err != nil {
		t.Fatal(err)
	}
	u, err := newUnpacker(nil, 1)
	if err != nil {
		t.Fatal(err)
	}
	defer u.close()
	flipped := bytes.Clone(content)
	flipped[len(flipped)/2] ^= 1
	for name, c := range map[string]struct {
		content []byte
		size    int
	}{
		"cut off": {content[:len(content)-3], len(document)}, "flipped bit": {flipped, len(document)}, "empty": {nil, 5},
		"size too small": {content, len(document) - 1}, "size too large": {content, len(document) + 1}, "size below 0": {content, -1}, "size past the limit": {content, maxDocument + 1},
	} {
		if got, err := u.unpack(c.content, c.size); err == nil {
			t.Errorf("%s: gave %d bytes and no error", name, len(got))
		}
	}
}
