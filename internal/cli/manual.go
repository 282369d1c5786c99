package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// manual is docs/manual.md: every command as its help has it.
func manual() []byte {
	root := (&program{}).root()
	root.InitDefaultHelpCmd()
	var b strings.Builder
	b.WriteString("# The commands of Jounce\n\n")
	b.WriteString("Made of the commands themselves; a test fails when it is stale.\n\n")
	b.WriteString(root.Long + "\n\n")
	for _, c := range root.Commands() {
		if c.Name() == "help" || c.Run == nil && c.RunE == nil {
			continue
		}
		section(&b, c)
	}
	b.WriteString("## Exit codes\n\n```\n" + exitCodesText + "\n```\n\n")
	b.WriteString("## Environment\n\n")
	for _, e := range environment {
		fmt.Fprintf(&b, "- `%s`: %s\n", e[0], e[1])
	}
	return []byte(b.String())
}

// environment is what the program reads of it.
var environment = [][2]string{
	{"JOUNCE_DATA", "the data folder, where `--data` does not name one"},
	{"JOUNCE_NAME", "the name that signs what `jounce import` saves, where `--by` gives none"},
	{"NO_COLOR", "when set, findings on a terminal have no colour; elsewhere they never have"},
}

func section(b *strings.Builder, c *cobra.Command) {
	fmt.Fprintf(b, "## jounce %s\n\n%s.\n\n```\n%s\n```\n\n", c.Name(), c.Short, c.UseLine())
	if c.Long != "" {
		b.WriteString(c.Long + "\n\n")
	}
	if c.Example != "" {
		b.WriteString("```\n" + strings.TrimSpace(c.Example) + "\n```\n\n")
	}
	first := true
	c.LocalFlags().VisitAll(func(f *pflag.Flag) {
		if f.Name == "help" {
			return
		}
		name, words := pflag.UnquoteUsage(f)
		flag := "--" + f.Name
		if f.Shorthand != "" {
			flag = "-" + f.Shorthand + ", " + flag
		}
		if name != "" {
			flag += " " + name
		}
		if f.DefValue != "" && f.DefValue != "false" {
			words += " (`" + f.DefValue + "` unless given)"
		}
		fmt.Fprintf(b, "- `%s`: %s\n", flag, words)
		first = false
	})
	if !first {
		b.WriteString("\n")
	}
}
