package quantity_test

import "strings"

// plainSpaces makes no-break spaces plain, so that tables can be read.
func plainSpaces(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }
