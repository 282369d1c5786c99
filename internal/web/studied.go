package web

import (
	"sync"

	"jounce/internal/catalog"
	"jounce/internal/job"
	"jounce/internal/study"
)

// mostStudied is how many saved revisions keep what was found in them: the jobs
// that a shop's tablets have open at a time.
const mostStudied = 32

// studied keeps what was found in saved revisions, since every keystroke in a
// form asks for the same again. A revision never changes; its digest and the
// shop's document are all that its findings depend on. Nobody alters a result.
type studied struct {
	mu    sync.Mutex
	found map[studiedKey]*study.Result
	order []studiedKey // the oldest first
}

type studiedKey struct {
	digest string
	shop   *catalog.Shop
}

// of is the study of a revision's record.
func (k *studied) of(rev job.Revision, rec *job.Job, shop *catalog.Shop) *study.Result {
	key := studiedKey{rev.Digest, shop}
	k.mu.Lock()
	res := k.found[key]
	k.mu.Unlock()
	if res != nil {
		return res
	}
	res = study.Of(rec, shop)
	if rev.Digest == "" {
		return res
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.found == nil {
		k.found = map[studiedKey]*study.Result{}
	}
	if k.found[key] == nil {
		if len(k.order) == mostStudied {
			delete(k.found, k.order[0])
			k.order = append(k.order[:0], k.order[1:]...)
		}
		k.found[key] = res
		k.order = append(k.order, key)
	}
	return res
}
