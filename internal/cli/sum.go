package cli

import (
	"fmt"
	"sort"
	"strings"

	"github.com/spf13/cobra"

	"jounce/internal/sum"
)

func (p *program) sum() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "sum [NAME [KEY=VALUE...]]",
		Short: "Answer one question without a job",
		Long: `Alone it lists the quick sums. With NAME it says what that sum asks for, and
with values it answers, with its working. Values have their units:

  jounce sum tank-energy "pressure=10 bar" "volume=10 L"

A value may have its doubt: "pressure=9.6 bar ± 0.1 bar".`,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return p.listSums(asJSON)
			}
			s, ok := sum.Find(args[0])
			if !ok {
				return usage("%s", noSum(args[0]))
			}
			if len(args) == 1 {
				return p.describeSum(s, asJSON)
			}
			values, err := pairs(args[1:])
			if err != nil {
				return err
			}
			return p.askSum(s, values, asJSON)
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	return c
}

func noSum(name string) string {
	s := fmt.Sprintf("there is no sum %q", name)
	var near []string
	for _, f := range sum.Search(strings.ReplaceAll(name, "-", " ")) {
		near = append(near, f.Name)
	}
	if len(near) > 0 {
		return s + "; near it: " + strings.Join(near, ", ")
	}
	return s + "; \"jounce sum\" lists them"
}

// pairs reads KEY=VALUE.
func pairs(args []string) (map[string]string, error) {
	values := map[string]string{}
	for _, a := range args {
		key, value, ok := strings.Cut(a, "=")
		if !ok || key == "" {
			return nil, usage("%q: a value is given as KEY=VALUE, such as \"pressure=10 bar\"", a)
		}
		if _, twice := values[key]; twice {
			return nil, usage("%s stands twice", key)
		}
		values[key] = value
	}
	return values, nil
}

func (p *program) listSums(asJSON bool) error {
	all := sum.All()
	if asJSON {
		return p.writeJSON(all)
	}
	t, group := p.paper(), ""
	for _, s := range all {
		if s.Group != group {
			if group != "" {
				t.WriteString("\n")
			}
			group = s.Group
			t.line(0, group)
		}
		fmt.Fprintf(t, "  %-16s %s\n", s.Name, s.Question)
	}
	return p.write("", []byte(t.String()))
}

func (p *program) describeSum(s sum.Sum, asJSON bool) error {
	if asJSON {
		return p.writeJSON(s)
	}
	t := p.paper()
	t.line(0, s.Question)
	for _, in := range s.Inputs {
		t.line(2, in.Key+": "+asks(in))
	}
	var words []string
	for key, value := range s.Example {
		words = append(words, fmt.Sprintf("%q", key+"="+value))
	}
	sort.Strings(words)
	t.line(0, "Such as: jounce sum "+s.Name+" "+strings.Join(words, " "))
	return p.write("", []byte(t.String()))
}

// asks says what an input is.
func asks(in sum.Input) string {
	s := in.Label
	switch {
	case len(in.Choices) > 0:
		s += ", one of " + strings.Join(in.Choices, ", ")
	case in.Any:
		s += ", any quantity with its unit"
	case in.Quantity():
		s += ", such as " + in.Kind.Example()
	}
	if in.Where != "" {
		s += "; " + in.Where
	}
	switch {
	case in.Default != "":
		s += "; " + in.Default + " unless given [" + string(in.Mark) + "]"
	case in.Optional:
		s += "; may be left out"
	}
	return s
}

func (p *program) askSum(s sum.Sum, values map[string]string, asJSON bool) error {
	answer, problems := s.Ask(values, false)
	if len(problems) > 0 {
		lines := make([]string, len(problems))
		for i, x := range problems {
			lines[i] = x.Error()
		}
		return faulty(fmt.Errorf("%s", strings.Join(lines, "\n")))
	}
	if asJSON {
		return p.writeJSON(answer)
	}
	width, _ := measure(p.Out)
	return p.write("", []byte(answer.Text(width)))
}
