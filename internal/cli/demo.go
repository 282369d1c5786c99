package cli

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"jounce/internal/demo"
	"jounce/internal/job"
	"jounce/internal/store"
	"jounce/internal/web"
)

func (p *program) demo() *cobra.Command {
	c := &cobra.Command{
		Use:   "demo",
		Short: "Show the program with invented jobs",
		Long: `Serves an invented workshop with three invented jobs from a data folder of its
own, which is removed when the server stops. What is typed there is lost then.`,
		Args: names(),
	}
	how := serveFlags(c)
	c.RunE = func(c *cobra.Command, _ []string) (err error) {
		dir, err := os.MkdirTemp("", "jounce-demo-")
		if err != nil {
			return err
		}
		defer func() {
			if rm := os.RemoveAll(dir); err == nil {
				err = rm
			}
		}()
		s, err := store.Open(c.Context(), dir, store.Options{Now: p.Now})
		if err != nil {
			return err
		}
		defer s.Close()
		if err := fill(c.Context(), s); err != nil {
			return err
		}
		fmt.Fprintf(p.Out, "Invented jobs in a folder that is removed at the end.\n")
		return p.listen(c.Context(), s, how)
	}
	return c
}

// fill puts the invented shop and its jobs into an empty store.
func fill(ctx context.Context, s *store.Store) error {
	shop := demo.Shop()
	doc, err := json.Marshal(shop)
	if err != nil {
		return err
	}
	if _, err := s.Save(ctx, job.Save{Job: job.Shop, Document: doc, Author: demo.Author}); err != nil {
		return err
	}
	jobs, err := demo.Jobs()
	if err != nil {
		return err
	}
	for _, rec := range jobs {
		pictures, err := demo.Hang(rec)
		if err != nil {
			return err
		}
		save, err := web.Keep(rec, shop, 0, demo.Author, "")
		if err != nil {
			return fmt.Errorf("job %s: %w", rec.ID, err)
		}
		if _, err := s.Save(ctx, save); err != nil {
			return fmt.Errorf("job %s: %w", rec.ID, err)
		}
		for _, p := range pictures {
			if _, err := s.Put(ctx, rec.ID, p.Photo.Name, "image/jpeg", bytes.NewReader(p.JPEG), int64(len(p.JPEG))); err != nil {
				return err
			}
		}
	}
	return nil
}
