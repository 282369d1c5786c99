// Command jounce is the build book of a workshop that converts cars to air
// suspension. All it does is in package cli.
package main

import (
	"os"

	"jounce/internal/cli"
)

func main() { os.Exit(cli.Main()) }
