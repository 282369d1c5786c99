package web

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"sync"
	"sync/atomic"

	"jounce/internal/catalog"
	"jounce/internal/job"
)

// standing is all pages of a server as the shop's document is now. A saved
// document stands new pages in the place of the old ones; what is being answered
// at that moment ends with the document that it began with.
type standing struct {
	mu     sync.Mutex
	number int // revision of the shop's document that the pages are made with; 0 till one was seen
	pages  atomic.Pointer[http.Handler]
}

// stand makes the pages of a server.
func stand(s *server) http.Handler {
	s.standing = new(standing)
	h := s.handler()
	s.standing.pages.Store(&h)
	return s.standing
}

func (k *standing) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	(*k.pages.Load()).ServeHTTP(w, r)
}

// takeShop makes every page from now on with a revision of the shop's document,
// unless a later one was taken already.
func (s *server) takeShop(number int, shop *catalog.Shop) {
	k := s.standing
	k.mu.Lock()
	defer k.mu.Unlock()
	if number <= k.number {
		return
	}
	next := *s
	next.Shop = shop
	h := next.handler()
	k.pages.Store(&h)
	k.number = number
}

// shopNow loads the newest revision of the shop's document. A shop that has
// saved none has revision 0 and what the server was started with.
func (s *server) shopNow(ctx context.Context) (job.Revision, *catalog.Shop, error) {
	rev, err := s.Records.Load(ctx, job.Shop)
	if kind(job.ErrNotFound)(err) {
		return job.Revision{Job: job.Shop}, s.Shop, nil
	}
	if err != nil {
		return rev, nil, err
	}
	shop, err := shopOf(rev)
	if err == nil {
		s.takeShop(rev.Number, shop)
	}
	return rev, shop, err
}

// shopAt is the shop's document that a form was made from.
func (s *server) shopAt(ctx context.Context, number int) (*catalog.Shop, error) {
	if number == 0 {
		return catalog.NewShop("The shop"), nil
	}
	rev, err := s.Records.LoadRevision(ctx, job.Shop, number)
	if err != nil {
		return nil, err
	}
	return shopOf(rev)
}

func shopOf(rev job.Revision) (*catalog.Shop, error) {
	shop := new(catalog.Shop)
	err := json.Unmarshal(rev.Document, shop)
	if err == nil {
		err = shop.Check()
	}
	if err != nil {
		return nil, fmt.Errorf("the shop's own document, revision %d: %w", rev.Number, err)
	}
	return shop, nil
}
