package cli

import (
	"fmt"
	"runtime"
	"runtime/debug"

	"github.com/spf13/cobra"

	"jounce/internal/job"
)

// Version is the version of the program.
const Version = "0.1"

func (p *program) version() *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "Print the version",
		Args:  names(),
		RunE: func(*cobra.Command, []string) error {
			_, err := fmt.Fprintf(p.Out, "jounce %s%s, job document %d, %s %s/%s\n", Version, commit(), job.Schema, runtime.Version(), runtime.GOOS, runtime.GOARCH)
			return err
		},
	}
}

// commit is the commit that the program was built from, where it is known.
func commit() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return ""
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" && len(s.Value) >= 10 {
			return " (" + s.Value[:10] + ")"
		}
	}
	return ""
}
