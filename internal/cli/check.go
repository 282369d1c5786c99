package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"jounce/internal/catalog"
	"jounce/internal/job"
	"jounce/internal/study"
)

func (p *program) check() *cobra.Command {
	return &cobra.Command{
		Use:   "check FILE",
		Short: "Name every problem of a job document",
		Long: `Reads the job document FILE ("-" is the standard input) and names every entry
that cannot be used, one a line: its words, its place, what is wrong and what
would fix it. A key that the record does not know is such a problem. What is
merely not read yet is none.`,
		Args: names("FILE"),
		RunE: func(_ *cobra.Command, args []string) error {
			rec, err := p.document(args[0])
			if err != nil {
				return err
			}
			problems := problemsOf(rec)
			for _, x := range problems {
				fmt.Fprintf(p.Out, "%s: %s\n", args[0], x.Error())
			}
			if len(problems) == 0 {
				_, err := fmt.Fprintf(p.Out, "%s: every entry can be read\n", args[0])
				return err
			}
			noun := "problems"
			if len(problems) == 1 {
				noun = "problem"
			}
			return faulty(fmt.Errorf("%s: %d %s", args[0], len(problems), noun))
		},
	}
}

// problemsOf is what the record and the study complain of, each once.
func problemsOf(rec *job.Job) []job.Problem {
	type key struct{ path, says string }
	seen := map[key]bool{}
	var out []job.Problem
	for _, list := range [][]job.Problem{rec.Check(), study.Of(rec, catalog.NewShop("The shop")).Problems} {
		for _, x := range list {
			if k := (key{x.Path, x.Says}); !seen[k] {
				seen[k] = true
				out = append(out, x)
			}
		}
	}
	return out
}
