package setting

import "strings"

// A Kind is one kind of sheet, as far as it can be told without drawing one.
type Kind struct {
	ID      string   // the IDs of its sheets begin with it
	Code    string   // the letters of their labels
	Title   string   // what its sheets are called; a room's name comes behind
	Form    string   // the document type in the title block
	About   string   // what it shows, in a sentence without its full stop
	Readers []string // who needs it; never empty
	Verb    string   // the verb that draws it; empty: draw, as one of the set
}

// Has reports whether a sheet, by its ID, is of the kind.
func (k Kind) Has(id string) bool { return id == k.ID || strings.HasPrefix(id, k.ID+"-") }
