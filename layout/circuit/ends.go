package circuit

// Ends says where a cable's cold ends are.
type Ends int

// The kinds of cable: one whose cold ends are both at one end, with a cap at the other,
// and one that has to come back to the box with its far end.
const (
	OneEnd Ends = iota
	BothEnds
)
