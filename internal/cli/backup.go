package cli

import (
	"fmt"

	"github.com/spf13/cobra"
)

func (p *program) backup() *cobra.Command {
	c := &cobra.Command{
		Use:   "backup FILE",
		Short: "Write the whole record into one file",
		Long: `Writes all jobs with all their revisions and attachments into the zip FILE,
which must not be there yet. The copy is of one moment and was read back. It
may be made while a server has the record open.`,
		Example: "  jounce backup jounce-2026-03-14.zip",
		Args:    names("FILE"),
	}
	data := dataFlag(c)
	c.RunE = func(c *cobra.Command, args []string) error {
		s, err := p.existingStore(c.Context(), *data)
		if err != nil {
			return err
		}
		defer s.Close()
		if err := s.Backup(c.Context(), args[0]); err != nil {
			return err
		}
		_, err = fmt.Fprintf(p.Out, "%s holds all of %s.\n", args[0], s.Dir())
		return err
	}
	return c
}
