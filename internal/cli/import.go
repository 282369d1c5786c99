package cli

import (
	"context"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"jounce/internal/job"
	"jounce/internal/store"
	"jounce/internal/web"
)

func (p *program) imports() *cobra.Command {
	var by, note string
	var revise bool
	c := &cobra.Command{
		Use:   "import FILE",
		Short: "Take a job's document into the record",
		Long: `Takes the job document FILE ("-" is the standard input) into the record as a
new job under its own number, or under the next free one when it has none.
FILE may be an archive that export made, with the job's pictures.
A document that cannot be read is refused whole. Entries that cannot be used
are kept as typed and shown on the job's pages.

When the record has a job of that number already, nothing is taken, unless
--revise says that the document is its next revision. Earlier ones stay.`,
		Example: "  jounce import 0412.json --by \"T. Marrow\"",
		Args:    names("FILE"),
	}
	data := dataFlag(c)
	c.Flags().StringVar(&by, "by", "", "`name` that signs the save; else JOUNCE_NAME, else the user's")
	c.Flags().StringVar(&note, "note", "", "why, in a few `words`")
	c.Flags().BoolVar(&revise, "revise", false, "the document is the next revision of a job that is there")
	c.RunE = func(c *cobra.Command, args []string) error {
		b, err := p.bundle(args[0])
		if err != nil {
			return err
		}
		author, err := p.signer(by)
		if err != nil {
			return err
		}
		s, err := p.openStore(c.Context(), *data)
		if err != nil {
			return err
		}
		defer s.Close()
		rev, err := take(c.Context(), s, b.rec, author, note, revise)
		if err != nil {
			return err
		}
		if err := b.keep(c.Context(), s, rev.Job); err != nil {
			return err
		}
		p.note(b.notes)
		_, err = fmt.Fprintf(p.Out, "Job %s, revision %d, signed by %s.\n", rev.Job, rev.Number, rev.Author)
		return err
	}
	return c
}

// take saves a record as a new job or as the next revision of its own.
func take(ctx context.Context, s *store.Store, rec *job.Job, author, note string, revise bool) (rev job.Revision, err error) {
	if rec.ID == job.Shop {
		return rev, faulty(fmt.Errorf("id: %q is the shop's own document, a job has a number such as 0412", rec.ID))
	}
	base := 0
	switch {
	case rec.ID == "" && revise:
		return rev, faulty(errors.New("id: the document has no job number, so it is not the next revision of any job"))
	case rec.ID == "":
		if rec.ID, err = s.NextJobNumber(ctx); err != nil {
			return rev, err
		}
	case revise:
		now, err := s.Load(ctx, rec.ID)
		if err != nil {
			return rev, fmt.Errorf("job %s: %w; without --revise it is taken as a new one", rec.ID, err)
		}
		base = now.Number
	}
	shop, err := shopOf(ctx, s)
	if err != nil {
		return rev, err
	}
	save, err := web.Keep(rec, shop, base, author, note)
	if err != nil {
		return rev, err
	}
	rev, err = s.Save(ctx, save)
	var lost *job.Conflict
	if errors.As(err, &lost) && base == 0 {
		return rev, fmt.Errorf("job %s is there already, at revision %d; --revise makes the document its next one", rec.ID, lost.Current.Number)
	}
	var unfit *job.Unfit
	if errors.As(err, &unfit) {
		return rev, faulty(err)
	}
	return rev, err
}
