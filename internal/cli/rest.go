package cli

import (
	"context"
	"net/http"
	"runtime/debug"
	"sync/atomic"
	"time"
)

// resting is how long nobody must have asked for anything before memory is given
// back: a shop's PC has other things to do between two readings.
const resting = 2 * time.Second

// rested hands requests on and gives memory back to the system when none has come
// for a while. A stream that stays open counts when it begins, not while it waits.
func rested(ctx context.Context, next http.Handler) http.Handler {
	var asked atomic.Int64
	go func() {
		tick := time.NewTicker(resting)
		defer tick.Stop()
		var seen, given int64
		for {
			select {
			case <-ctx.Done():
				return
			case <-tick.C:
			}
			n := asked.Load()
			if n == seen && n != given {
				debug.FreeOSMemory()
				given = n
			}
			seen = n
		}
	}()
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		asked.Add(1)
		next.ServeHTTP(w, r)
	})
}
