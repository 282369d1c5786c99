package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"jounce/internal/job"
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
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"code": code, "same": same},
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

// same holds two documents against each other but for the order of their keys.
func same(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 2 {
		ts.Fatalf("it is used so: same FILE FILE")
	}
	var texts [2][]byte
	for i, name := range args {
		text, err := job.Canonical([]byte(ts.ReadFile(name)))
		if err != nil {
			ts.Fatalf("%s: %v", name, err)
		}
		texts[i] = text
	}
	if bytes.Equal(texts[0], texts[1]) == neg {
		ts.Fatalf("same %v: %v", args, !neg)
	}
}
