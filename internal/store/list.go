package store

import (
	"context"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"time"

	"jounce/internal/job"
)

// sorting says how one order of the list is asked of the database.
type sorting struct {
	column     string
	descending bool
	number     bool // the column holds an integer
}

var sortings = map[job.Order]sorting{
	job.ByChange: {column: "at", descending: true, number: true},
	job.ByJob:    {column: "job_key", descending: true},
	job.ByName:   {column: "name_key"},
	job.ByDue:    {column: "due"},
}

// filter collects the conditions of a query and their arguments.
type filter struct {
	where []string
	args  []any
}

// add adds a condition; each ? in it becomes the placeholder of the next value.
func (f *filter) add(condition string, values ...any) {
	for _, v := range values {
		f.args = append(f.args, v)
		condition = strings.Replace(condition, "?", "$"+strconv.Itoa(len(f.args)), 1)
	}
	f.where = append(f.where, condition)
}

// String is the WHERE clause.
func (f *filter) String() string { return " WHERE " + strings.Join(f.where, " AND ") + " " }

// List returns a page of the list of jobs. A page that is asked for while
// somebody saves may show a job twice or not at all when the save moved it over
// the edge of a page. *job.Unfit when the query cannot be asked.
func (s *Store) List(ctx context.Context, q job.ListQuery) (job.Listing, error) {
	ctx, cancel := s.within(ctx)
	defer cancel()
	sort, ok := sortings[q.Order]
	if !ok {
		return job.Listing{}, &job.Unfit{Field: "order", Read: strconv.Itoa(int(q.Order)), Want: "one of the four orders"}
	}
	all, err := words(q.Text)
	if err != nil {
		return job.Listing{}, err
	}
	f := &filter{}
	f.add("j.listed = 1")
	f.addWords(all)
	if q.State != "" {
		f.add("j.state = ?", strings.ToValidUTF8(q.State, ""))
	}
	if err := f.addAfter(sort, q); err != nil {
		return job.Listing{}, err
	}
	direction := "ASC"
	if sort.descending {
		direction = "DESC"
	}
	limit := pageLimit(q.Limit)
	f.args = append(f.args, limit+1)
	query := fmt.Sprintf(`SELECT j.id, j.name, j.state, j.due, j.revision, j.author, j.at, j.summary, j.%[1]s FROM job j%[2]sORDER BY j.%[1]s %[3]s, j.id %[3]s LIMIT $%[4]d`,
		sort.column, f, direction, len(f.args))
	list, err := s.rows(ctx, query, f.args, limit, q.Order)
	if err != nil {
		return job.Listing{}, s.fail("list of jobs", err)
	}
	return list, s.fail("list of jobs", s.addFound(ctx, list.Rows, all))
}

// rows reads a page and, when a row more than the page is there, its end.
func (s *Store) rows(ctx context.Context, query string, args []any, limit int, order job.Order) (job.Listing, error) {
	var list job.Listing
	rows, err := s.read.QueryContext(ctx, query, args...)
	if err != nil {
		return list, err
	}
	defer rows.Close()
	var last string // sort key of the newest row in list
	for rows.Next() {
		var r job.Row
		var at int64
		var summary, key string
		if err := rows.Scan(&r.Job, &r.Name, &r.State, &r.Due, &r.Revision, &r.Author, &at, &summary, &key); err != nil {
			return list, err
		}
		if len(list.Rows) == limit {
			list.Next = cursor{order, last, list.Rows[limit-1].Job}.String()
			break
		}
		r.At = time.UnixMicro(at).UTC()
		if r.Due == noDue {
			r.Due = ""
		}
		if summary != "" {
			r.Summary = []byte(summary)
		}
		list.Rows = append(list.Rows, r)
		last = key
	}
	return list, rows.Err()
}

// addFound says for each row where the words stand.
func (s *Store) addFound(ctx context.Context, rows []job.Row, all []string) error {
	for i := range rows {
		if len(all) == 0 {
			return nil
		}
		var text string
		err := s.read.QueryRowContext(ctx, `SELECT content FROM passage WHERE job = $1`, rows[i].Job).Scan(&text)
		if err != nil {
			return err
		}
		if rows[i].Found, err = findAll(text, all); err != nil {
			return fmt.Errorf("words of job %s: %w", rows[i].Job, err)
		}
	}
	return nil
}

// Counts says how many jobs meet the words of a query, in all and by state.
func (s *Store) Counts(ctx context.Context, text string) (job.Counts, error) {
	ctx, cancel := s.within(ctx)
	defer cancel()
	c := job.Counts{ByState: map[string]int{}}
	all, err := words(text)
	if err != nil {
		return c, err
	}
	if err := s.read.QueryRowContext(ctx, `SELECT COUNT(*) FROM job WHERE listed = 1`).Scan(&c.All); err != nil {
		return c, s.fail("count of jobs", err)
	}
	f := &filter{}
	f.add("j.listed = 1")
	f.addWords(all)
	query := `SELECT j.state, COUNT(*) FROM job j` + f.String() + `GROUP BY j.state`
	rows, err := s.read.QueryContext(ctx, query, f.args...)
	if err != nil {
		return c, s.fail("count of jobs", err)
	}
	defer rows.Close()
	for rows.Next() {
		var state string
		var n int
		if err := rows.Scan(&state, &n); err != nil {
			return c, s.fail("count of jobs", err)
		}
		c.ByState[state] = n
		c.Found += n
	}
	return c, s.fail("count of jobs", rows.Err())
}

// cursor is the end of a page: the sort key and id of its last row.
type cursor struct {
	Order job.Order
	Key   string
	ID    string
}

// String is the cursor as it stands in addresses.
func (c cursor) String() string {
	text, _ := json.Marshal([]string{strconv.Itoa(int(c.Order)), c.Key, c.ID}) // strings always marshal
	return base64.RawURLEncoding.EncodeToString(text)
}

// addAfter adds the condition that a row comes after the page before.
func (f *filter) addAfter(sort sorting, q job.ListQuery) error {
	if q.After == "" {
		return nil
	}
	unfit := &job.Unfit{Field: "page", Read: short(q.After), Want: "the mark that the page before gave, for the same order"}
	text, err := base64.RawURLEncoding.DecodeString(q.After)
	var parts []string
	if err != nil || json.Unmarshal(text, &parts) != nil || len(parts) != 3 || parts[0] != strconv.Itoa(int(q.Order)) {
		return unfit
	}
	var key any = parts[1]
	if sort.number {
		if key, err = strconv.ParseInt(parts[1], 10, 64); err != nil {
			return unfit
		}
	}
	than := ">"
	if sort.descending {
		than = "<"
	}
	f.add(fmt.Sprintf("(j.%s, j.id) %s (?, ?)", sort.column, than), key, parts[2])
	return nil
}
