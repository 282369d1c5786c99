package source

// general are the keys that stand for no text.
var general = []Citation{
	{Key: "CP", Title: "Common practice of the trade", Trust: Practice, Note: "No source; each shop may change such a figure with a note."},
	{Key: "M", Title: "From memory", Trust: FromMemory, Note: "To be verified before it is printed for a customer."},
	{Key: "CALC", Title: "Recomputed independently from the formula named in the row", Trust: Calculated,
		Note: "Double precision, by another program than the one under test; not a printed figure of anybody."},
	{Key: "NIST811", Author: "Thompson, A. and Taylor, B. N.", Title: "Guide for the Use of the International System of Units", Publisher: "NIST Special Publication 811", Year: "2008", Where: "appendix B.8", Trust: FromMemory,
		Note: "The figures are from memory; they follow from exact definitions."},
}
