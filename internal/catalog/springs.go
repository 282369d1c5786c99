package catalog

import (
	_ "embed"
	"encoding/json"
)

// exampleSprings are springs of no maker: their loads are invented, to try the
// pages with before a maker's sheet is at hand.
//
//go:embed springs.json
var exampleSprings []byte

var examples = func() []Row {
	var rows []Row
	if err := json.Unmarshal(exampleSprings, &rows); err != nil {
		panic("catalog: springs.json: " + err.Error())
	}
	return rows
}()

// Shelf is the shop's own springs, then the invented examples.
func (s *Shop) Shelf() []Row {
	return append(append([]Row(nil), s.Springs...), examples...)
}

// OnShelf finds a row of the shelf.
func (s *Shop) OnShelf(id string) (Row, bool) {
	for _, r := range s.Shelf() {
		if r.ID == id {
			return r, true
		}
	}
	return Row{}, false
}
