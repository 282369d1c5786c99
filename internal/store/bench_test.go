package store_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"jounce/internal/job"
	"jounce/internal/store"
)

// words that the benchmark's jobs are made of; all invented or common.
var benchWords = strings.Fields(`saloon estate pickup van coach spring sleeve bellows damper strut arm link bush seat cup tank valve line joint drip soap
	gauge tape scale hub arch sill floor road hump high down locked camber toe track liner rust weld bracket plate bolt torque relay fuse cable battery
	compressor drier cooler silencer panel leather walnut brass bench keeper wishes lower boot luggage rear front left right measured read again tomorrow`)

const benchJobs = 5000

var (
	benchOnce sync.Once
	benchDir  string // removed by TestMain
)

// benchStore is a store of 5,000 jobs with 2 kB of words, hardly one of them twice
// in a job, and a document of 12 kB each.
func benchStore(b *testing.B) *store.Store {
	b.Helper()
	benchOnce.Do(func() {
		var err error
		if benchDir, err = os.MkdirTemp("", "jounce-bench-"); err != nil {
			b.Fatal(err)
		}
		s, err := store.Open(b.Context(), benchDir, store.Options{})
		if err != nil {
			b.Fatal(err)
		}
		write, _ := s.Pools()
		if _, err := write.Exec(`PRAGMA synchronous = OFF`); err != nil { // only while filling
			b.Fatal(err)
		}
		rng := rand.New(rand.NewPCG(1, 2))
		for i := range benchJobs {
			var text strings.Builder
			for text.Len() < 2000 {
				fmt.Fprintf(&text, "%s%d ", benchWords[rng.IntN(len(benchWords))], rng.IntN(40))
			}
			save(b, s, job.Save{
				Job: fmt.Sprintf("%04d", i+1), Name: fmt.Sprintf("Keeper%d %s", i, benchWords[rng.IntN(5)]), State: []string{"open", "handed over", "refused", "put back"}[rng.IntN(4)],
				Summary:  []byte(`{"pass":12,"fail":1,"close":0,"unknown":4,"stage":"Strip and fit","holds":"Four tank grommets are not in the building; due Tuesday."}`),
				Document: fmt.Appendf(nil, `{"text":%q}`, strings.Repeat(text.String(), 6)),
				Text:     []job.Passage{{Place: "wish 1", Text: text.String()[:500]}, {Place: "note", Text: text.String()[500:]}},
			})
		}
		if err := s.Close(); err != nil {
			b.Fatal(err)
		}
	})
	return open(b, benchDir)
}

// measure runs a call and reports its 99th percentile beside the mean.
func measure(b *testing.B, call func() error) {
	var took []time.Duration
	for b.Loop() {
		start := time.Now()
		if err := call(); err != nil {
			b.Fatal(err)
		}
		took = append(took, time.Since(start))
	}
	slices.Sort(took)
	b.ReportMetric(float64(took[len(took)*99/100].Microseconds())/1000, "ms-p99")
}

func BenchmarkList(b *testing.B) {
	s := benchStore(b)
	for name, q := range map[string]job.ListQuery{
		"newest":        {},
		"all open":      {State: "refused", Limit: 500},
		"by name":       {Order: job.ByName, Limit: 10},
		"common word":   {Text: "estate", Limit: 10},
		"two words":     {Text: "leather7 brass3", Limit: 10},
		"nothing found": {Text: "nowhere at all", Limit: 10},
		"short word":    {Text: "e3", Limit: 10},
		"short, none":   {Text: "zq", Limit: 10},
	} {
		b.Run(name, func(b *testing.B) {
			measure(b, func() error { _, err := s.List(b.Context(), q); return err })
		})
	}
}

func BenchmarkCounts(b *testing.B) {
	s := benchStore(b)
	for name, text := range map[string]string{"all": "", "two words": "leather7 brass3", "common": "estate", "short": "e3", "short, none": "zq"} {
		b.Run(name, func(b *testing.B) {
			measure(b, func() error { _, err := s.Counts(b.Context(), text); return err })
		})
	}
}

func BenchmarkOpen(b *testing.B) {
	benchStore(b)
	measure(b, func() error {
		s, err := store.Open(b.Context(), benchDir, store.Options{})
		if err != nil {
			return err
		}
		return s.Close()
	})
}

func BenchmarkLoad(b *testing.B) {
	s := benchStore(b)
	measure(b, func() error { _, err := s.Load(b.Context(), "0412"); return err })
}

func BenchmarkSave(b *testing.B) {
	s := open(b, b.TempDir())
	document := strings.Repeat(`{"id":"x","value":"118 mm ± 2 mm"},`, 1000)
	base := 0
	measure(b, func() error {
		_, err := s.Save(b.Context(), job.Save{Job: "j", Base: base, Author: "x", Document: fmt.Appendf(nil, `[%s%d]`, document, base)})
		base++
		return err
	})
}
