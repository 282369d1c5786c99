package cli

import (
	"bytes"
	"os"
	"strings"
	"testing"
)

const manualFile = "../../docs/manual.md"

// TestManual fails when docs/manual.md is not what the commands make.
func TestManual(t *testing.T) {
	if os.Getenv("MANUAL") == "write" {
		if err := os.WriteFile(manualFile, manual(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	old, err := os.ReadFile(manualFile)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(old, manual()) {
		t.Error("docs/manual.md is stale: run MANUAL=write go test ./internal/cli -run TestManual -count=1")
	}
}

// TestManualWhole finds every command explained.
func TestManualWhole(t *testing.T) {
	for _, c := range (&program{}).root().Commands() {
		if c.Short == "" || (c.Long == "" && c.Name() != "version") {
			t.Errorf("%s has no words", c.Name())
		}
		if c.RunE != nil && !strings.Contains(string(manual()), "## jounce "+c.Name()+"\n") {
			t.Errorf("%s is not in the manual", c.Name())
		}
	}
}
