package source

// Mark is the small outlined word beside a number: where the number is from.
// It is a key of the bibliography, or one of the words below.
type Mark string

// Marks that are no keys of a published source.
const (
	CP      Mark = "CP"      // common practice of the trade, no source
	M       Mark = "M"       // from memory, to be verified
	Calc    Mark = "calc"    // worked out from the inputs shown
	Maker   Mark = "maker"   // a maker's figure for this part
	Read    Mark = "read"    // read on an instrument
	Derived Mark = "derived" // follows from other entries of the record
	Typed   Mark = "typed"   // typed in, no instrument named
	Shop    Mark = "shop"    // the shop's own figure, with its note
)

var words = map[Mark]string{
	CP:      "common practice, no source",
	M:       "from memory, to be verified before it is relied on",
	Calc:    "calculated from the inputs shown",
	Maker:   "maker's figure for this part",
	Read:    "read on an instrument",
	Derived: "follows from other entries",
	Typed:   "typed in, no instrument named",
	Shop:    "the shop's own figure, with its note",
}

// Known says whether the mark is one of the words or a key of the bibliography.
func (m Mark) Known() bool {
	if _, ok := words[m]; ok {
		return true
	}
	_, ok := byKey[string(m)]
	return ok
}

// Published says whether the mark is the key of a published source.
func (m Mark) Published() bool {
	c, ok := byKey[string(m)]
	return ok && c.Published()
}

// Citation is the citation behind a published mark.
func (m Mark) Citation() (Citation, bool) {
	c, ok := byKey[string(m)]
	if !ok || !c.Published() {
		return Citation{}, false
	}
	return c, true
}

// Explain is the mark in words; empty for a mark that is not known.
func (m Mark) Explain() string {
	if s, ok := words[m]; ok {
		return s
	}
	if c, ok := byKey[string(m)]; ok {
		return c.String()
	}
	return ""
}
