// Package fonts holds the embedded faces and measures text set in them.
package fonts

// A Face is one of the embedded faces.
type Face int

// Lettering is for dimensions, tags, legends and title blocks.
const (
	Lettering Face = iota
	LetteringBold
)
