package web

import (
	"fmt"
	"sync"
	"testing"

	"jounce/internal/catalog"
	"jounce/internal/job"
)

// TestStudiedOnce studies a saved revision once for a shop, anew for another
// shop or revision, and forgets the oldest.
func TestStudiedOnce(t *testing.T) {
	var k studied
	rec, shop := &job.Job{Schema: job.Schema, ID: "0001"}, catalog.NewShop("")
	one := job.Revision{Job: "0001", Number: 1, Digest: "a"}
	first := k.of(one, rec, shop)
	if k.of(one, rec, shop) != first {
		t.Error("the same revision was studied twice")
	}
	if k.of(one, rec, catalog.NewShop("")) == first {
		t.Error("another shop got the findings of the first")
	}
	if unsaved := (job.Revision{Job: "0001"}); k.of(unsaved, rec, shop) == k.of(unsaved, rec, shop) {
		t.Error("what is not saved was kept")
	}
	var wait sync.WaitGroup
	for n := range 4 * mostStudied {
		wait.Go(func() { k.of(job.Revision{Digest: fmt.Sprint(n)}, rec, shop) })
	}
	wait.Wait()
	if len(k.found) != mostStudied || len(k.order) != mostStudied {
		t.Errorf("%d kept in an order of %d, want %d", len(k.found), len(k.order), mostStudied)
	}
	if k.of(one, rec, shop) == first {
		t.Error("the oldest was not forgotten")
	}
}
