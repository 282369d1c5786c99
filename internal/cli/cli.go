package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"syscall"
	"time"

	"github.com/spf13/cobra"
)

// Env is what a command has of the world.
type Env struct {
	Args   []string // without the program's name
	In     io.Reader
	Out    io.Writer
	Err    io.Writer
	Getenv func(string) string
	Now    func() time.Time
	Open   func(address string) error // shows a page in a browser
}

// The exit codes of the program.
const (
	exitDone    = 0
	exitNotDone = 1 // the program could not do it
	exitUsage   = 2 // wrong use of the command line
	exitFaulty  = 3 // what was given cannot be read or has problems
	exitStops   = 4 // read and studied; something stops the work
)

const exitCodesText = `0  done; for study: nothing stops the work
1  the program could not do it: a file that cannot be written, a job that is
   not there, an address that is taken
2  wrong use of the command line
3  what was given cannot be read or has problems: a document that is not a job,
   an entry whose unit is missing, a value that a sum cannot use
4  study only: the document was read, and something stops the work. That is a
   limit of the grade "stops the work" that is failed, too close to call or
   not known; or one of the grade "owner signs" that is failed or too close and
   not signed. The findings are printed all the same.

Where several hold, the highest is given. Nothing else is printed to the
standard output than what was asked for; what went wrong stands on the
standard error, one line each, and begins with "jounce:".`

// exit is an error with an exit code of its own. Its error may be nil: then
// everything was said already.
type exit struct {
	code int
	err  error
}

func (e exit) Error() string {
	if e.err == nil {
		return ""
	}
	return e.err.Error()
}

func (e exit) Unwrap() error { return e.err }

func usage(format string, args ...any) error { return exit{exitUsage, fmt.Errorf(format, args...)} }

func faulty(err error) error { return exit{exitFaulty, err} }

// program is one run.
type program struct {
	Env
	running bool // the command line was understood
}

// Main runs the program with this process's arguments and returns its exit code.
func Main() int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	return Run(ctx, Env{Args: os.Args[1:], In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Getenv: os.Getenv, Now: time.Now, Open: openBrowser})
}

// Run runs one command and returns its exit code. A server stops when ctx ends.
func Run(ctx context.Context, env Env) int {
	p := &program{Env: env}
	root := p.root()
	root.SetArgs(env.Args)
	root.SetIn(env.In)
	root.SetOut(env.Out)
	root.SetErr(env.Err)
	err := root.ExecuteContext(ctx)
	if err == nil {
		return exitDone
	}
	var e exit
	if !errors.As(err, &e) {
		e = exit{exitNotDone, err}
		if !p.running {
			e.code = exitUsage
		}
	}
	for _, line := range strings.Split(err.Error(), "\n") {
		if strings.TrimSpace(line) != "" {
			fmt.Fprintln(env.Err, "jounce: "+line)
		}
	}
	if e.code == exitUsage {
		fmt.Fprintln(env.Err, "jounce: \"jounce help\" lists the commands, \"jounce help NAME\" explains one")
	}
	return e.code
}

// root is the program without a command: it lists the commands.
func (p *program) root() *cobra.Command {
	c := &cobra.Command{
		Use:   "jounce",
		Short: "The build book of a workshop that converts cars to air suspension",
		Long: `Jounce engineers a conversion to air suspension before steel is cut, leads and
records the fitting, proves it with measurements and prints the papers.

jounce demo shows it with invented jobs; jounce serve runs it for the shop.`,
		SilenceUsage:  true,
		SilenceErrors: true,
		PersistentPreRun: func(*cobra.Command, []string) {
			p.running = true
		},
	}
	c.CompletionOptions.DisableDefaultCmd = true
	c.SetFlagErrorFunc(func(_ *cobra.Command, err error) error { return exit{exitUsage, err} })
	c.AddCommand(p.serve(), p.demo(), p.study(), p.check(), p.sum(), p.pack(), p.export(), p.imports(), p.backup(), p.schema(), p.version(), exitCodes())
	return c
}

// exitCodes is a page of the help.
func exitCodes() *cobra.Command {
	return &cobra.Command{Use: "exit-codes", Short: "What the exit codes say", Long: exitCodesText}
}

// names asks for the arguments of a command by their names.
func names(want ...string) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		switch {
		case len(args) < len(want):
			return usage("%s: %s is missing; it is used so: %s", c.Name(), want[len(args)], c.UseLine())
		case len(args) > len(want):
			return usage("%s: %q is one too many; it is used so: %s", c.Name(), args[len(want)], c.UseLine())
		}
		return nil
	}
}

// read reads a file; "-" is the standard input.
func (p *program) read(name string) ([]byte, error) {
	if name == "-" {
		return io.ReadAll(p.In)
	}
	return os.ReadFile(name)
}

// write writes a file that is not there yet; "" and "-" are the standard output.
func (p *program) write(name string, text []byte) error {
	if name == "" || name == "-" {
		_, err := p.Out.Write(text)
		return err
	}
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, os.ErrExist) {
		return fmt.Errorf("%s is there already; it was left as it is, another name would do", name)
	}
	if err != nil {
		return err
	}
	if _, err := f.Write(text); err != nil {
		f.Close()
		os.Remove(name)
		return err
	}
	return f.Close()
}
