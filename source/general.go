package source

// general are the keys that stand for no text.
var general = []Citation{
	{Key: "CP", Title: "Common practice of the trade", Trust: Practice, Note: "No source; each shop may change such a figure with a note."},
	{Key: "M", Title: "From memory", Trust: FromMemory, Note: "To be verified before it is printed for a customer."},
	{Key: "CALC", Title: "Recomputed independently from the formula named in the row", Trust: Calculated,
		Note: "Double precision, by another program than the one under test; not a printed figure of anybody."},
}
