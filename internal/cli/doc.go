// Package cli is the commands: it reads the command line, opens the store, wires
// it to the pages and writes to the terminal. The clock, the environment and the
// log live here; nobody imports it but the program itself.
//
// Each command is a file of its own and returns a *cobra.Command. docs/manual.md
// is made of them (MANUAL=write go test ./internal/cli -run TestManual -count=1).
package cli
