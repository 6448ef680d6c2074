package circuit

// Ends says where a cable's cold ends are.
type Ends int

// The kinds of cable: one whose cold ends are both at one end, with a cap at the other,
// and one that has to come back to the box with its far end.
const (
	OneEnd Ends = iota
	BothEnds
)

// Return reports whether the far end comes back to the box by a cold lead of its own.
func (e Ends) Return() bool { return e == BothEnds }
