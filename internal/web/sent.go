package web

import (
	"net/http"
	"sync"
)

// A browser that loses the network sends what was typed later, and may send it
// twice when only the answer was lost. Each such form carries a name of its own.

// mostSent is how many forms are remembered.
const mostSent = 2000

// sent remembers where a form that was taken led, by the name that the browser
// gave it. After a restart of the program a form sent again is merged with what
// it became, which changes nothing.
type sent struct {
	mu    sync.Mutex
	to    map[string]string
	order []string // the oldest first
}

// next is where a form led that was taken before; empty when it was not.
func (k *sent) next(name string) string {
	if name == "" {
		return ""
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.to[name]
}

// took remembers a form.
func (k *sent) took(name, to string) {
	if name == "" || len(name) > 64 {
		return
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.to == nil {
		k.to = map[string]string{}
	}
	if k.to[name] == "" {
		k.order = append(k.order, name)
	}
	k.to[name] = to
	if len(k.order) > mostSent {
		delete(k.to, k.order[0])
		k.order = append(k.order[:0], k.order[1:]...)
	}
}

// leadOn leads to the next page. A script that sent the form is told the address
// and goes there itself.
func leadOn(w http.ResponseWriter, r *http.Request, to string) error {
	if r.Header.Get("X-Sent") == "" {
		http.Redirect(w, r, to, http.StatusSeeOther)
		return nil
	}
	if n, ok := r.Context().Value(noteKey{}).(*noted); ok && n.number > 0 {
		to = keptAt(to, *n)
	}
	w.Header().Set("X-Next", to)
	w.WriteHeader(http.StatusNoContent)
	return nil
}
