package cli

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"jounce": func() { os.Exit(Main()) }})
}

// TestScripts runs the program as somebody at a terminal does. Each script is a
// file; "jounce" in it is this program.
func TestScripts(t *testing.T) {
	examples, err := filepath.Abs("../../examples")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(e *testscript.Env) error {
			e.Setenv("EXAMPLES", examples)
			e.Setenv("HOME", filepath.Join(e.WorkDir, "home"))
			e.Setenv("USER", "")
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"code": code},
	})
}

// code runs the program and holds its exit code against the first argument.
func code(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("it is used so: code N jounce ...")
	}
	err := ts.Exec(args[1], args[2:]...)
	got := 0
	if x, ok := err.(interface{ ExitCode() int }); ok {
		got = x.ExitCode()
	} else if err != nil {
		ts.Fatalf("%v", err)
	}
	if args[0] != string(rune('0'+got)) {
		ts.Fatalf("exit code %d, want %s", got, args[0])
	}
}
