package circuit

// Ends says where a cable's cold ends are.
type Ends int

// The kinds of cable: one whose cold ends are both at one end, with a cap at the other,
// and one that has to come back to the box with its far end.
const (
	OneEnd Ends = iota
	BothEnds
)

// endWords are the kinds as job files spell them.
var endWords = [...]string{OneEnd: "one", BothEnds: "both"}

// String returns the kind as the job file spells it.
func (e Ends) String() string { return endWords[e] }

// EndWords returns how job files spell the kinds, in their order.
func EndWords() []string { return endWords[:] }

// Return reports whether the far end comes back to the box by a cold lead of its own.
func (e Ends) Return() bool { return e == BothEnds }
