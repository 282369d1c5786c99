package cli

import (
	"github.com/spf13/cobra"

	"jounce/internal/job"
)

func (p *program) schema() *cobra.Command {
	return &cobra.Command{
		Use:   "schema",
		Short: "Print the JSON Schema of the job document",
		Long: `Prints the JSON Schema (draft 2020-12) of the job document that this program
reads and writes. It is the same as docs/job.schema.json.`,
		Args: names(),
		RunE: func(*cobra.Command, []string) error { return p.write("", job.DocumentSchema()) },
	}
}
