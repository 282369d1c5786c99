// Package evidence holds the program's figures against published ones, and
// writes docs/VALIDATION.md. Test files of any package may import it; no other
// code may.
//
// # How a package uses it
//
// 1. Put what a source prints into testdata/published/<source-key>.csv of the
// package. The key stands in package source. One row is one printed figure:
//
//	id,what,unit,printed,tol,where,mark,note,c,b,p1_bar
//	1.1,choked flow,L/min,842,,valve chapter,S,,2,0.3,7.013
//
// The columns id, what, unit and printed must be there; tol, where, mark, note
// and kind may be; all others are inputs of the case, read by name. Lines that
// begin with # are comments. "printed" is written as the source prints it: its
// digits give the tolerance.
//
//	tol     empty: half a unit of the last printed digit
//	        0.5%   relative, ±0.02 absolute: then note must say where it is from
//	where   page, table, equation
//	mark    S seen in the source, M from memory, R recomputed from its formula
//	kind    empty: our figure must agree
//	        slip: the source is known to be wrong, our figure must NOT agree;
//	        note says what is right
//
// 2. Check every row in a test whose name begins with TestPublished:
//
//	func TestPublishedFlow(t *testing.T) {
//		book := evidence.Open(t)
//		for _, row := range book.Rows("COURSE-V") {
//			book.Check(row, flow(row.Num("c"), row.Num("b")))
//		}
//	}
//
// When ids need different functions, switch on row.ID or fetch one row with
// book.Row("COURSE-V", "1.1"). A test may take some rows of a file and leave
// the rest to another; a row that nobody checks fails TestEveryRowIsChecked.
// Do not check in subtests: a filtered run would leave half a record.
//
// 3. At its end the test compares what it found with its record in
// docs/validation/. Where that is stale, the test fails and says so. Records
// and page are written by
//
//	VALIDATION=write go test ./... -run TestPublished -count=1
//	VALIDATION=write go test ./internal/evidence -run TestPage -count=1
//
// The page is assembled from the records alone, so that nothing stands on it
// that a test did not compute.
package evidence
