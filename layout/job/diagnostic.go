package job

// A Span is a stretch of bytes of one file.
type Span struct {
	File       string
	Start, End int // byte offsets, End not included; both 0 when unknown
}

// Severity ranks a diagnostic.
type Severity int

// An Error stops the job; a Warning is printed and the job goes on.
const (
	Error Severity = iota
	Warning
)

// A Diagnostic is one thing to say about a job file: what is wrong with the
// figures, where, and what to do.
type Diagnostic struct {
	Severity Severity
	ID       string // warnings only: a stable name such as W003
	Span     Span
	Message  string
	Notes    []Note
	Hint     string // what to type, empty when there is nothing to add
}

// A Note points at a second place that has part in a diagnostic.
type Note struct {
	Span    Span
	Message string
}
