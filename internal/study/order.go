package study

import (
	"fmt"
	"sort"
	"strings"

	"jounce/internal/finding"
	"jounce/source"
)

// What a finding would hurt if it were passed over, the worst first (common
// practice).
const (
	bursts  = iota // air lets go: spring, tank, valve
	crushes        // the car comes down, or metal lets go
	brakes         // hoses, leads and joints are torn
	burns          // a tyre is worn through or carries too much
	grounds        // it meets the road; others are dazzled
	breaks         // travel ends hard, metal meets metal
	annoys         // it rides, stands or parks badly
	wished         // the customer had hoped for more
)

// hurt ranks findings by the key of the limit that decided, or where none did by
// the end of their id, or by their topic. The longest beginning that fits counts.
var hurt = map[string]int{
	"spring.peak": bursts, "spring.share": bursts, "spring.pressure": bursts, "relief": bursts, "refused": bursts, "isolation": bursts,
	"mount": crushes, "links": crushes, "layout": crushes, "tee": crushes, "leak": crushes, "joints": crushes,
	"room.slack": brakes,
	"room.tyre":  burns, "room.liner": burns, "room.bag": burns, "tyre": burns, "tyres": burns,
	"ground": grounds, "scrub": grounds, "lamp": grounds, "heights": grounds,
	"weight.ticket": breaks, "plane": breaks, "room": breaks, "touch": breaks, "travel": breaks, "springs": breaks, "record": breaks, "weights": breaks,
	"ride": annoys, "sides": annoys, "weight": annoys, "way": annoys, "ways": annoys, "pressure.read": annoys, "half.stage": annoys,
	"wish": wished, "wishes": wished,
}

// rank is what a finding would hurt, the worst first.
func rank(f finding.Finding) int {
	if l, ok := f.Decided(); ok {
		if r, ok := ranked(l.Key); ok {
			return r
		}
	}
	if len(f.Limits) > 0 {
		if r, ok := ranked(f.Limits[0].Key); ok {
			return r
		}
	}
	for id := f.ID; id != ""; {
		if r, ok := ranked(id); ok {
			return r
		}
		_, id, _ = strings.Cut(id, ".")
	}
	if r, ok := hurt[f.Topic]; ok {
		return r
	}
	return annoys
}

// inOrder puts failures first; within a verdict what stops the work; within a
// grade what would hurt most.
func inOrder(list []finding.Finding) {
	ranks := make([]int, len(list))
	at := make([]int, len(list))
	for i, f := range list {
		ranks[i], at[i] = rank(f), i
	}
	sort.SliceStable(at, func(i, k int) bool {
		a, b := &list[at[i]], &list[at[k]]
		switch {
		case a.Verdict != b.Verdict:
			return a.Verdict < b.Verdict
		case a.Grade != b.Grade:
			return a.Grade > b.Grade
		}
		return ranks[at[i]] < ranks[at[k]]
	})
	old := append([]finding.Finding(nil), list...)
	for i, k := range at {
		list[i] = old[k]
	}
}

func ranked(key string) (int, bool) {
	for {
		if r, ok := hurt[key]; ok {
			return r, true
		}
		i := strings.LastIndex(key, ".")
		if i < 0 {
			return 0, false
		}
		key = key[:i]
	}
}

// settle names the reading that makes most of a doubt, where a finding is too
// close to call, and the place where it is typed.
func settle(f *finding.Finding) {
	if f.Verdict != finding.TooClose || f.Working == nil {
		return
	}
	var most finding.Term
	for _, t := range f.Working.Terms {
		if t.Path != "" && t.Share > most.Share {
			most = t
		}
	}
	if most.Path == "" {
		return
	}
	if f.SettleAt == "" {
		f.SettleAt = most.Path
	}
	if f.Settle != "" {
		return
	}
	f.Settle = fmt.Sprintf("Read again with less doubt: %s. It makes %.0f %% of the ±.", most.Name, 100*most.Share)
	if most.Mark == source.Maker {
		f.Settle = fmt.Sprintf("Ask the maker for the load at this very height, or measure it: the %s makes %.0f %% of the ±.", most.Name, 100*most.Share)
	}
}
