package cli

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"jounce/internal/job"
)

func (p *program) export() *cobra.Command {
	var out string
	c := &cobra.Command{
		Use:   "export JOB",
		Short: "Write a job's document",
		Long: `Writes the newest revision of the job with the number JOB as a document, to the
standard output or with -o to a file that is not there yet. A file that ends in
.zip is an archive of the document with its pictures. Works while a server has
the record open.`,
		Example: "  jounce export 0412 -o 0412.json\n  jounce export 0412 -o 0412.zip",
		Args:    names("JOB"),
	}
	data := dataFlag(c)
	c.Flags().StringVarP(&out, "out", "o", "", "`file` to write")
	c.RunE = func(c *cobra.Command, args []string) error {
		s, err := p.existingStore(c.Context(), *data)
		if err != nil {
			return err
		}
		defer s.Close()
		rev, err := s.Load(c.Context(), args[0])
		if errors.Is(err, job.ErrNotFound) || args[0] == job.Shop {
			return fmt.Errorf("there is no job %q in %s", args[0], s.Dir())
		}
		if err != nil {
			return err
		}
		rec, err := job.Decode(rev.Document)
		if err != nil {
			return err
		}
		if !strings.HasSuffix(out, bundleEnd) {
			if n := len(rec.Photos); n > 0 {
				p.note([]string{fmt.Sprintf("a document goes without its pictures, %d here; -o %s%s takes them along", n, rec.ID, bundleEnd)})
			}
			text, err := rec.Encode()
			if err != nil {
				return err
			}
			return p.write(out, text)
		}
		b, err := bundleOf(c.Context(), s, rec)
		if err != nil {
			return err
		}
		text, err := b.pack()
		if err != nil {
			return err
		}
		p.note(b.notes)
		return p.write(out, text)
	}
	return c
}
