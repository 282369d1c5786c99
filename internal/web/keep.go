package web

import (
	"jounce/internal/catalog"
	"jounce/internal/job"
	"jounce/internal/study"
)

// Keep makes what the store keeps of a record that did not come through a page:
// the document with what the board shows of it and what a search finds.
func Keep(rec *job.Job, shop *catalog.Shop, base int, author, note string) (job.Save, error) {
	return saveOf(rec, study.Of(rec, shop), base, author, note)
}
