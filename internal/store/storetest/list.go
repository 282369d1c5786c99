package storetest

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"reflect"
	"strings"
	"sync"
	"testing"
	"testing/iotest"

	"jounce/internal/job"
	"jounce/internal/store"
)

// walk reads the list page by page and returns the ids in the order they came.
func walk(t *testing.T, s *store.Store, q job.ListQuery) []string {
	t.Helper()
	var ids []string
	for {
		list, err := s.List(t.Context(), q)
		if err != nil {
			t.Fatalf("list %+v: %v", q, err)
		}
		for _, r := range list.Rows {
			ids = append(ids, r.Job)
		}
		if list.Next == "" {
			return ids
		}
		if len(list.Rows) != q.Limit || len(ids) > 1000 {
			t.Fatalf("list %+v: a page of %d rows, and another after it", q, len(list.Rows))
		}
		q.After = list.Next
	}
}

func orders(t *testing.T, s *store.Store) {
	for _, v := range []job.Save{
		{Job: "0412", Name: "Quill saloon", State: "open", Due: "2026-05-29", Summary: []byte(`{"pass":12}`)},
		{Job: "0398", Name: "fenn estate", State: "open", Due: "2026-03-20"},
		{Job: "10001", Name: "Älm van", State: "handed over"},
		{Job: "0405", Name: "Hale pickup", State: "open"},
		{Job: "9000", Name: "Fenn estate", State: "refused", Due: "2026-03-20"},
	} {
		save(t, s, v)
	}
	save(t, s, job.Save{Job: "0398", Base: 1, Name: "fenn estate", State: "open", Due: "2026-03-20", Author: "A. Fenn"})
	for _, c := range []struct {
		order job.Order
		want  string
	}{
		{job.ByChange, "0398 9000 0405 10001 0412"},
		{job.ByJob, "10001 9000 0412 0405 0398"},
		{job.ByName, "10001 0398 9000 0405 0412"},
		{job.ByDue, "0398 9000 0412 0405 10001"},
	} {
		for limit := 1; limit <= 6; limit++ {
			got := strings.Join(walk(t, s, job.ListQuery{Order: c.order, Limit: limit}), " ")
			if got != c.want {
				t.Errorf("order %d, %d a page: %s, want %s", c.order, limit, got, c.want)
			}
		}
	}
	if got := strings.Join(walk(t, s, job.ListQuery{State: "open", Order: job.ByJob, Limit: 2}), " "); got != "0412 0405 0398" {
		t.Errorf("open jobs: %s", got)
	}
	first, err := s.List(t.Context(), job.ListQuery{Order: job.ByJob, Limit: 3})
	if err != nil || first.Next == "" {
		t.Fatalf("first page: %+v, %v", first, err)
	}
	if _, err := s.List(t.Context(), job.ListQuery{Order: job.ByName, After: first.Next}); !isUnfit(err) {
		t.Errorf("the mark of another order: %v; want unfit", err)
	}
	got := first.Rows[2]
	newest, err := s.Load(t.Context(), "0412")
	if err != nil {
		t.Fatal(err)
	}
	want := job.Row{Job: "0412", Name: "Quill saloon", State: "open", Due: "2026-05-29", Revision: 1, Author: "T. Marrow", At: newest.At, Summary: []byte(`{"pass":12}`)}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("row  %+v\nwant %+v", got, want)
	}
}

func search(t *testing.T, s *store.Store) {
	long := strings.Repeat("no such thing here; ", 20) + "the joint by the Größe cafe\u0301 ½ in drips" + strings.Repeat(" and on and on", 20)
	save(t, s, job.Save{Job: "0398", Name: "Fenn estate", Text: []job.Passage{
		{Place: "wish 1", Text: "Sit low, keep the boot"}, {Place: "note of 3 May", Text: long}, {Place: "empty", Text: " "},
	}})
	save(t, s, job.Save{Job: "0412", Name: "Quill saloon", Text: []job.Passage{{Place: "parts", Text: "Estate rear springs"}, {Place: "x", Text: "low"}}})
	for _, c := range []struct{ text, want string }{
		{"estate", "0412 0398"}, {"ESTATE", "0412 0398"}, {"estate low", "0412 0398"}, {"estate boot", "0398"}, {"  boot   0398 ", "0398"},
		{"041", "0412"}, {"grosse", "0398"}, {"GRÖSSE", "0398"}, {"café", "0398"}, {"CAFE", "0398"}, {"1⁄2", "0398"}, {"½", "0398"},
		{"bootlow", ""}, {"springslow", ""}, {"boot springs", ""}, {"", "0412 0398"},
	} {
		if got := strings.Join(walk(t, s, job.ListQuery{Text: c.text, Order: job.ByJob, Limit: 1}), " "); got != c.want {
			t.Errorf("%q found %q, want %q", c.text, got, c.want)
		}
	}
	list, err := s.List(t.Context(), job.ListQuery{Text: "estate cafe"})
	if err != nil || len(list.Rows) != 1 || len(list.Rows[0].Found) != 2 {
		t.Fatalf("estate cafe: %+v, %v", list.Rows, err)
	}
	name, note := list.Rows[0].Found[0], list.Rows[0].Found[1]
	if want := (job.Found{Place: job.PlaceName, Before: "Fenn ", Match: "estate"}); name != want {
		t.Errorf("found %+v, want %+v", name, want)
	}
	if want := (job.Found{Place: "note of 3 May", Before: "… thing here; the joint by the Größe ", Match: "cafe\u0301", After: " ½ in drips and on and on and on and…"}); note != want {
		t.Errorf("found %+v, want %+v", note, want)
	}
	// The next revision replaces what the last one gave to look for.
	save(t, s, job.Save{Job: "0398", Base: 1, Name: "Fenn van"})
	if got := walk(t, s, job.ListQuery{Text: "boot", Limit: 1}); len(got) != 0 {
		t.Errorf("found %v by a word of an old revision", got)
	}
}

func searchLiteral(t *testing.T, s *store.Store) {
	save(t, s, job.Save{Job: "a", Text: []job.Passage{{Place: "p", Text: "100% of C:\\x under_score − 55 mm it’s"}, {Place: "q", Text: "zero\x00byte and \xff"}}})
	save(t, s, job.Save{Job: "b", Text: []job.Passage{{Place: "p", Text: "100 of C:x underscore + 55 mm its"}}})
	for _, c := range []struct{ text, want string }{
		{"0%", "a"}, {"r_s", "a"}, {`:\x`, "a"}, {"-", "a"}, {"−", "a"}, {"it's", "a"}, {"100", "b a"}, {"%", "a"}, {"_", "a"}, {`\`, "a"}, {"byte", "a"}, {"zero\x00byte", "a"},
	} {
		if got := strings.Join(walk(t, s, job.ListQuery{Text: c.text, Order: job.ByJob, Limit: 5}), " "); got != c.want {
			t.Errorf("%q found %q, want %q", c.text, got, c.want)
		}
	}
}

func counts(t *testing.T, s *store.Store) {
	for i, state := range []string{"open", "open", "refused", "handed over"} {
		word := "estate"
		if i == 1 {
			word = "van"
		}
		save(t, s, job.Save{Job: fmt.Sprint("j", i), State: state, Name: word})
	}
	for _, c := range []struct {
		text string
		want job.Counts
	}{
		{"", job.Counts{All: 4, Found: 4, ByState: map[string]int{"open": 2, "refused": 1, "handed over": 1}}},
		{"estate", job.Counts{All: 4, Found: 3, ByState: map[string]int{"open": 1, "refused": 1, "handed over": 1}}},
		{"pickup", job.Counts{All: 4, ByState: map[string]int{}}},
	} {
		if got, err := s.Counts(t.Context(), c.text); err != nil || !reflect.DeepEqual(got, c.want) {
			t.Errorf("%q: %+v, %v; want %+v", c.text, got, err, c.want)
		}
	}
}

func numbers(t *testing.T, s *store.Store) {
	next := func() string {
		t.Helper()
		id, err := s.NextJobNumber(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		return id
	}
	if a, b := next(), next(); a != "0001" || b != "0002" {
		t.Errorf("first numbers %s, %s", a, b)
	}
	save(t, s, job.Save{Job: "0411"})
	save(t, s, job.Save{Job: "0300"})
	save(t, s, job.Save{Job: "demo-7000"})
	if id := next(); id != "0412" {
		t.Errorf("after job 0411: %s", id)
	}
	var wg sync.WaitGroup
	got := make([]string, 20)
	for i := range got {
		wg.Go(func() { got[i], _ = s.NextJobNumber(t.Context()) })
	}
	wg.Wait()
	seen := map[string]bool{}
	for _, id := range got {
		if len(id) != 4 || seen[id] {
			t.Errorf("number %q of %v", id, got)
		}
		seen[id] = true
	}
	if id := next(); id != "0433" {
		t.Errorf("after twenty more: %s", id)
	}
	save(t, s, job.Save{Job: "9999"})
	if id := next(); id != "10000" {
		t.Errorf("after job 9999: %s", id)
	}
}

func attachments(t *testing.T, s *store.Store) {
	save(t, s, job.Save{Job: "j"})
	save(t, s, job.Save{Job: "k"})
	content := bytes.Repeat([]byte("photo "), 20000)
	put := func(id, name string, content []byte) job.Attachment {
		t.Helper()
		a, err := s.Put(t.Context(), id, name, "image/jpeg", bytes.NewReader(content), int64(len(content)))
		if err != nil {
			t.Fatal(err)
		}
		return a
	}
	first := put("j", "left rear.jpg", content)
	if first.Job != "j" || first.Name != "left rear.jpg" || first.Media != "image/jpeg" || first.Size != 120000 || len(first.SHA256) != 64 || first.At.IsZero() {
		t.Errorf("attachment %+v", first)
	}
	if again := put("j", "another name.jpg", content); again != first {
		t.Errorf("the same content again: %+v, want %+v", again, first)
	}
	empty := put("j", "empty.txt", nil)
	if want := "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"; empty.SHA256 != want { // SHA-256 of nothing, FIPS 180-4 test vectors
		t.Errorf("digest of nothing %s, want %s", empty.SHA256, want)
	}
	put("k", "same in another job.jpg", content)
	all, err := s.ListAttachments(t.Context(), "j")
	if err != nil || !reflect.DeepEqual(all, []job.Attachment{first, empty}) {
		t.Errorf("list %+v, %v", all, err)
	}
	a, r, err := s.Get(t.Context(), "j", first.SHA256)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if got, err := io.ReadAll(r); err != nil || !bytes.Equal(got, content) || a != first {
		t.Errorf("read back %d bytes, %v; %+v", len(got), err, a)
	}
	if _, err := r.Seek(6, io.SeekStart); err != nil {
		t.Error(err)
	}
	if rest, err := io.ReadAll(r); err != nil || !bytes.Equal(rest, content[6:]) {
		t.Errorf("from byte 6: %d bytes, %v", len(rest), err)
	}
	if _, _, err := s.Get(t.Context(), "k", empty.SHA256); !errors.Is(err, job.ErrNotFound) {
		t.Errorf("another job's attachment: %v", err)
	}
	if report, err := s.Check(t.Context()); err != nil || len(report.Problems) > 0 || report.Attachments != 3 {
		t.Errorf("check: %+v, %v", report, err)
	}
}

func attachmentsRefused(t *testing.T, s *store.Store) {
	save(t, s, job.Save{Job: "j"})
	put := func(name, media string, r io.Reader) error {
		_, err := s.Put(t.Context(), "j", name, media, r, 10)
		return err
	}
	if _, ok := errors.AsType[*job.TooLarge](put("n", "text/plain", strings.NewReader("01234567890"))); !ok {
		t.Error("eleven bytes with a limit of ten were not refused as too large")
	}
	broken := errors.New("the phone is gone")
	if err := put("n", "text/plain", io.MultiReader(strings.NewReader("0123"), iotest.ErrReader(broken))); !errors.Is(err, broken) {
		t.Errorf("a reader that fails: %v", err)
	}
	for _, c := range [][2]string{{" ", "text/plain"}, {"n", ""}, {"n", "text"}, {"n\x00", "text/plain"}, {strings.Repeat("n", 201), "text/plain"}} {
		if err := put(c[0], c[1], strings.NewReader("")); !isUnfit(err) {
			t.Errorf("name %q, media type %q: %v; want unfit", c[0], c[1], err)
		}
	}
	if all, err := s.ListAttachments(t.Context(), "j"); err != nil || len(all) > 0 {
		t.Errorf("after refusals: %+v, %v", all, err)
	}
}
