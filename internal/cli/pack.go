package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"jounce/internal/catalog"
	"jounce/internal/job"
	"jounce/internal/press"
)

// The papers that pack prints.
const (
	designPaper      = "design"
	certificatePaper = "certificate"
)

func (p *program) pack() *cobra.Command {
	var out, paper, test string
	c := &cobra.Command{
		Use:   "pack FILE -o OUT.pdf",
		Short: "Print a job's papers as PDF",
		Long: `Prints a paper of the job document FILE ("-" is the standard input) as PDF: the
design page, or the certificate of a leak test. What was not read prints as
not read. A document in a file is no saved revision, so the paper says "not
yet" where a revision would stand; the pages of a server print saved ones.

The paper is printed whatever its findings say. Nobody has signed it.`,
		Example: "  jounce pack examples/0412-quill-saloon.json -o design.pdf\n" +
			"  jounce pack examples/0412-quill-saloon.json -o leak.pdf --paper certificate",
		Args: names("FILE"),
	}
	c.Flags().StringVarP(&out, "out", "o", "", "`file` to write, which is not there yet; - is the standard output")
	c.Flags().StringVar(&paper, "paper", designPaper, "which `paper`: design or certificate")
	c.Flags().StringVar(&test, "test", "", "`id` of the leak test; else the last one in the document")
	c.RunE = func(_ *cobra.Command, args []string) error {
		if out == "" {
			return usage("pack: -o names the file to write")
		}
		if paper != designPaper && paper != certificatePaper {
			return usage("pack: there is no paper %q; it prints %s and %s", paper, designPaper, certificatePaper)
		}
		b, err := p.bundle(args[0])
		if err != nil {
			return err
		}
		pdf, err := print(b, paper, test)
		if err != nil {
			return fmt.Errorf("%s: %w", args[0], err)
		}
		return p.write(out, pdf)
	}
	return c
}

// print makes one paper of a document that is no revision.
func print(b bundle, paper, test string) ([]byte, error) {
	rec := b.rec
	shop, rev := catalog.NewShop(""), job.Revision{Job: rec.ID}
	if paper == designPaper {
		return press.Design(rec, rev, shop, b.file)
	}
	if test == "" {
		if len(rec.LeakTests) == 0 {
			return nil, faulty(fmt.Errorf("leakTests: there is no leak test, so there is nothing to certify"))
		}
		test = rec.LeakTests[len(rec.LeakTests)-1].ID
	}
	return press.Certificate(rec, rev, shop, test)
}
