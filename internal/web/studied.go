package web

import (
	"sync"

	"jounce/internal/catalog"
	"jounce/internal/job"
	"jounce/internal/study"
)

// mostStudied is how many saved revisions keep their record and what was found
// in it: the jobs that a shop's tablets have open at a time.
const mostStudied = 32

// studied keeps the records of saved revisions and what was found in them, since
// every keystroke in a form asks for the same again. A revision never changes;
// its digest and the shop's document are all that its findings depend on. Nobody
// alters a record or a result from here: who wants another takes a Clone.
type studied struct {
	mu    sync.Mutex
	found map[studiedKey]found
	order []studiedKey // the oldest first
}

type studiedKey struct {
	digest string
	shop   *catalog.Shop
}

type found struct {
	rec *job.Job
	res *study.Result
}

// of is the record of a revision and its study.
func (k *studied) of(rev job.Revision, shop *catalog.Shop) (*job.Job, *study.Result, error) {
	key := studiedKey{rev.Digest, shop}
	k.mu.Lock()
	f, ok := k.found[key]
	k.mu.Unlock()
	if ok {
		return f.rec, f.res, nil
	}
	rec, err := job.Decode(rev.Document)
	if err != nil {
		return nil, nil, err
	}
	f = found{rec, study.Of(rec, shop)}
	if rev.Digest == "" {
		return f.rec, f.res, nil
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.found == nil {
		k.found = map[studiedKey]found{}
	}
	if had, ok := k.found[key]; ok {
		return had.rec, had.res, nil
	}
	if len(k.order) == mostStudied {
		delete(k.found, k.order[0])
		k.order = append(k.order[:0], k.order[1:]...)
	}
	k.found[key] = f
	k.order = append(k.order, key)
	return f.rec, f.res, nil
}
