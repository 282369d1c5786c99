package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/PuerkitoBio/goquery"

	"jounce/internal/demo"
	"jounce/internal/job"
	"jounce/internal/store"
	"jounce/internal/web"
)

const (
	tablets = 20
	strokes = 40                     // of each tablet
	pause   = 500 * time.Millisecond // between two posts of one tablet: a number typed without a stop
)

// typing times what the server does for a keystroke, while 20 tablets type.
func typing(ctx context.Context, dir string) ([]row, error) {
	s, err := filled(ctx, filepath.Join(dir, "typing"))
	if err != nil {
		return nil, err
	}
	defer s.Close()
	var mu sync.Mutex
	var took []float64
	handler := web.New(web.Options{Records: s, Shop: demo.Shop()})
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		start := time.Now()
		handler.ServeHTTP(w, r)
		if r.Header.Get("X-Live") != "" {
			mu.Lock()
			took = append(took, ms(time.Since(start)))
			mu.Unlock()
		}
	}))
	defer server.Close()
	errs := make(chan error, tablets)
	for n := range tablets {
		go func() { errs <- tablet(ctx, server.URL+"/jobs/0412/record/weights", n) }()
	}
	for range tablets {
		if err := <-errs; err != nil {
			return nil, err
		}
	}
	return []row{{what: "typing to new fragment, 99th percentile", how: fmt.Sprintf("%d posts of %d tablets, one each %d ms, on the server's side", len(took), tablets, pause.Milliseconds()),
		value: at(took, 0.99), aim: 30, unit: "ms", digits: 1}}, nil
}

// tablet opens the form at an address and types into it.
func tablet(ctx context.Context, address string, n int) error {
	time.Sleep(pause * time.Duration(n) / tablets)
	ask := func(method string, body string) (*http.Response, error) {
		r, err := http.NewRequestWithContext(ctx, method, address, strings.NewReader(body))
		if err != nil {
			return nil, err
		}
		r.AddCookie(&http.Cookie{Name: "jounce_name", Value: "Tablet+" + strconv.Itoa(n)})
		if method == http.MethodPost {
			r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
			r.Header.Set("X-Live", "1")
		}
		return http.DefaultClient.Do(r)
	}
	res, err := ask(http.MethodGet, "")
	if err != nil {
		return err
	}
	values, err := formOf(res)
	if err != nil {
		return err
	}
	const box = "corners.FL.weight"
	if !values.Has(box) {
		return fmt.Errorf("%s has no box %s", address, box)
	}
	for k := range strokes {
		values.Set(box, strconv.Itoa(250+k)+" kg")
		res, err := ask(http.MethodPost, values.Encode())
		if err != nil {
			return err
		}
		text, err := io.ReadAll(res.Body)
		res.Body.Close()
		if err != nil || res.StatusCode != http.StatusOK || !strings.Contains(string(text), "data-live") {
			return fmt.Errorf("a post to %s: %s, %d bytes, %w", address, res.Status, len(text), err)
		}
		time.Sleep(pause)
	}
	return nil
}

// formOf reads the boxes of the page's form as a browser would post them.
func formOf(res *http.Response) (url.Values, error) {
	defer res.Body.Close()
	doc, err := goquery.NewDocumentFromReader(res.Body)
	if err != nil {
		return nil, err
	}
	values := url.Values{}
	doc.Find("form input[name], form textarea[name]").Each(func(_ int, e *goquery.Selection) {
		name, kind := e.AttrOr("name", ""), e.AttrOr("type", "text")
		_, checked := e.Attr("checked")
		if kind == "submit" || (kind == "radio" || kind == "checkbox") && !checked {
			return
		}
		values.Set(name, e.AttrOr("value", e.Text()))
	})
	doc.Find("form select[name]").Each(func(_ int, e *goquery.Selection) {
		values.Set(e.AttrOr("name", ""), e.Find("option[selected]").AttrOr("value", ""))
	})
	return values, nil
}

// filled is a store with the demo jobs.
func filled(ctx context.Context, dir string) (*store.Store, error) {
	s, err := store.Open(ctx, dir, store.Options{})
	if err != nil {
		return nil, err
	}
	doc, err := json.Marshal(demo.Shop())
	if err == nil {
		_, err = s.Save(ctx, job.Save{Job: job.Shop, Document: doc, Author: demo.Author})
	}
	jobs, jobsErr := demo.Jobs()
	if err == nil {
		err = jobsErr
	}
	for _, rec := range jobs {
		var save job.Save
		if err == nil {
			save, err = web.Keep(rec, demo.Shop(), 0, demo.Author, "")
		}
		if err == nil {
			_, err = s.Save(ctx, save)
		}
	}
	if err != nil {
		s.Close()
		return nil, err
	}
	return s, nil
}
