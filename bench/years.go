package main

import (
	"context"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"jounce/internal/job"
	"jounce/internal/store"
)

const (
	yearsJobs      = 5000 // ten years of a shop
	yearsRevisions = 100  // of each job
	edits          = 320  // small edits that the growth is taken from: ten turns of what is packed together
)

// years times the list and the search in ten years of a shop, and weighs what a
// small edit adds to its data folder.
func years(ctx context.Context, dir string) ([]row, error) {
	data := filepath.Join(dir, "years")
	begun := time.Now()
	if err := fillYears(ctx, data); err != nil {
		return nil, fmt.Errorf("filling ten years: %w", err)
	}
	filling := time.Since(begun)
	s, err := store.Open(ctx, data, store.Options{})
	if err != nil {
		return nil, err
	}
	defer s.Close()
	if err := wholeYears(ctx, s); err != nil {
		return nil, err
	}
	size, err := folder(data)
	if err != nil {
		return nil, err
	}
	house := fmt.Sprintf("%d jobs of %d revisions, %.1f GB, filled in %.0f s", yearsJobs, yearsRevisions, size/1e9, filling.Seconds())
	listed, err := lists(ctx, s, house)
	if err != nil {
		return nil, err
	}
	searched, err := searches(ctx, s)
	if err != nil {
		return nil, err
	}
	if err := s.Close(); err != nil {
		return nil, err
	}
	grown, err := growth(ctx, data)
	return []row{listed, searched, grown}, err
}

// wholeYears makes sure that the store is what it is said to be: the number of
// jobs and, in a few of them, every revision and its seal.
func wholeYears(ctx context.Context, s *store.Store) error {
	c, err := s.Counts(ctx, "")
	if err != nil || c.All != yearsJobs {
		return fmt.Errorf("%d jobs instead of %d, %w", c.All, yearsJobs, err)
	}
	for _, n := range []int{1, 2, yearsJobs / 2, yearsJobs} {
		chain, err := s.Verify(ctx, yearsID(n))
		if err != nil || !chain.Whole() || chain.Revisions != yearsRevisions {
			return fmt.Errorf("%+v, %w", chain, err)
		}
	}
	return nil
}

// asks is a question that a page puts to the store: its words and its list.
type asks struct {
	name string
	list job.ListQuery
}

// slowest asks each question so many times, in turn, and gives the 99th
// percentile of all with the name of the slowest and its own.
func slowest(ctx context.Context, s *store.Store, all []asks, times int, found func(name string, n int) error) (p99 float64, which string, err error) {
	took := map[string][]float64{}
	var together []float64
	for range times {
		for _, a := range all {
			start := time.Now()
			c, err := s.Counts(ctx, a.list.Text)
			if err != nil {
				return 0, "", err
			}
			l, err := s.List(ctx, a.list)
			if err != nil {
				return 0, "", err
			}
			d := ms(time.Since(start))
			took[a.name], together = append(took[a.name], d), append(together, d)
			if err := found(a.name, c.Found); err != nil {
				return 0, "", err
			}
			if len(l.Rows) == 0 && c.Found > 0 && a.list.State == "" {
				return 0, "", fmt.Errorf("%s: %d counted, none listed", a.name, c.Found)
			}
		}
	}
	var most float64
	for _, a := range all {
		if m := at(took[a.name], 0.5); m > most {
			most, which = m, fmt.Sprintf("%s, median %.1f ms", a.name, m)
		}
	}
	return at(together, 0.99), which, nil
}

// lists times the pages of the list and the board, with their counts.
func lists(ctx context.Context, s *store.Store, house string) (row, error) {
	first, err := s.List(ctx, job.ListQuery{Order: job.ByJob, Limit: 10})
	if err != nil {
		return row{}, err
	}
	all := []asks{
		{"the board", job.ListQuery{State: "open", Order: job.ByDue, Limit: 60}},
		{"by number", job.ListQuery{Order: job.ByJob, Limit: 10}},
		{"its second page", job.ListQuery{Order: job.ByJob, Limit: 10, After: first.Next}},
		{"newest", job.ListQuery{Order: job.ByChange, Limit: 50}},
		{"by name, refused", job.ListQuery{Order: job.ByName, State: "refused", Limit: 10}},
	}
	const times = 60
	p99, which, err := slowest(ctx, s, all, times, func(string, int) error { return nil })
	return row{what: "list of ten years, 99th percentile", value: p99, aim: 20, unit: "ms", digits: 1,
		how: fmt.Sprintf("%s; %d lists with their counts; the slowest %s", house, times*len(all), which)}, err
}

// searches times what the search page asks: the counts and the first page.
func searches(ctx context.Context, s *store.Store) (row, error) {
	least := map[string]int{"common": yearsJobs * 9 / 10, "rare": 1, "two words": 1, "two common": 1, "part of a word": 1, "two letters": 1, "long and short": 1, "number": 1, "one letter": yearsJobs}
	all := []asks{
		{"common", job.ListQuery{Text: "pressure"}}, {"rare", job.ListQuery{Text: "keeper4711"}}, {"none", job.ListQuery{Text: "nowhere"}},
		{"two words", job.ListQuery{Text: "leather7 brass3"}}, {"two common", job.ListQuery{Text: "saloon spring"}},
		{"part of a word", job.ListQuery{Text: "ather7"}}, {"number", job.ListQuery{Text: "4712"}},
		{"two letters", job.ListQuery{Text: "kg"}}, {"two letters, none", job.ListQuery{Text: "zq"}}, {"long and short", job.ListQuery{Text: "estate k7"}},
		{"one letter", job.ListQuery{Text: "e"}}, {"one letter, none", job.ListQuery{Text: "ж"}},
	}
	for i := range all {
		all[i].list.Order, all[i].list.Limit = job.ByJob, 10
	}
	const times = 40
	p99, which, err := slowest(ctx, s, all, times, func(name string, n int) error {
		if n < least[name] || least[name] == 0 && n > 0 {
			return fmt.Errorf("search %s: %d jobs found", name, n)
		}
		return nil
	})
	return row{what: "search in ten years, 99th percentile", value: p99, aim: 50, unit: "ms", digits: 1,
		how: fmt.Sprintf("%d searches of %d kinds, first page and counts; the slowest %s", times*len(all), len(all), which)}, err
}

// growth is what a small edit of a 40 kB job adds to the folder, the log brought
// into the database. Nothing that becomes free meanwhile hides it: the index of
// words is made as small as it gets before, and the pages in use are counted as
// well as the folder; the larger of the two is taken.
func growth(ctx context.Context, data string) (row, error) {
	if err := settle(ctx, data); err != nil {
		return row{}, err
	}
	before, usedBefore, err := weigh(ctx, data)
	if err != nil {
		return row{}, err
	}
	s, err := store.Open(ctx, data, store.Options{})
	if err != nil {
		return row{}, err
	}
	defer s.Close()
	tree := newTemplate()
	rng := rand.New(rand.NewPCG(3, 4))
	size := 0
	for n := range edits {
		id := yearsID(1 + n%10)
		rev, err := s.Load(ctx, id)
		if err != nil {
			return row{}, err
		}
		rec, err := job.Decode(rev.Document)
		if err != nil {
			return row{}, err
		}
		f, err := rec.Field("corners.FL.weight", false)
		if err != nil {
			return row{}, err
		}
		f.Reading.Value = fmt.Sprintf("%d kg ± %d kg", 250+rng.IntN(200), 1+rng.IntN(5))
		f.Reading.Note = "weighed again, " + yearsWords(rng, 3)
		save, err := tree.save(rec, rev.Number)
		if err != nil {
			return row{}, err
		}
		save.Job = id // the document says the number of the job it was made from
		size = len(save.Document)
		if _, err := s.Save(ctx, save); err != nil {
			return row{}, err
		}
	}
	if err := s.Close(); err != nil {
		return row{}, err
	}
	after, usedAfter, err := weigh(ctx, data)
	grown := max(after-before, usedAfter-usedBefore) / edits
	return row{what: "growth of the data folder by a small edit", value: grown / 1000, aim: 3, unit: "kB", digits: 2,
		how: fmt.Sprintf("%d saves of one reading and its note in 10 jobs of %.0f kB, the log brought in", edits, float64(size)/1000)}, err
}

// folder is the size of all files in a folder [bytes].
func folder(dir string) (float64, error) {
	var size int64
	err := filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		info, err := os.Stat(path)
		if err == nil {
			size += info.Size()
		}
		return err
	})
	return float64(size), err
}

// yearsID is the number of the nth job.
func yearsID(n int) string { return fmt.Sprintf("%04d", n) }

// yearsWords are n words of a note; one in eight has a number behind it.
func yearsWords(rng *rand.Rand, n int) string {
	all := make([]string, n)
	for i := range all {
		all[i] = vocabulary[rng.IntN(len(vocabulary))]
		if rng.IntN(8) == 0 {
			all[i] += strconv.Itoa(rng.IntN(40))
		}
	}
	return strings.Join(all, " ")
}
