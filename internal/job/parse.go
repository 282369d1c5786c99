package job

import (
	"sync"

	"jounce/quantity"
)

// texts remembers what was read from a text: while somebody types, all places
// but one are the same as before.
var texts struct {
	sync.RWMutex
	read map[textKey]textRead
}

type textKey struct {
	kind quantity.Kind
	text string
}

type textRead struct {
	value quantity.Value
	err   error
}

// mostTexts is how many texts are remembered before all are forgotten.
const mostTexts = 8192

// Parse reads a text of the record: quantity.Parse, remembered.
func Parse(kind quantity.Kind, text string) (quantity.Value, error) {
	key := textKey{kind, text}
	texts.RLock()
	r, ok := texts.read[key]
	texts.RUnlock()
	if ok {
		return r.value, r.err
	}
	r.value, r.err = quantity.Parse(kind, text)
	texts.Lock()
	if texts.read == nil || len(texts.read) >= mostTexts {
		texts.read = make(map[textKey]textRead, 256)
	}
	texts.read[key] = r
	texts.Unlock()
	return r.value, r.err
}
