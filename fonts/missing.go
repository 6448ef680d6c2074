package fonts

import "strings"

// Substitute stands on paper for a character that a face lacks: an empty box,
// so that the gap is seen.
const Substitute = '□'

// Missing returns the characters of s that f has no glyph for, each once, in
// the order in which they come.
func Missing(f Face, s string) []rune {
	var gone []rune
	t := tableOf(f)
	for _, r := range s {
		if !t.glyph(r).known && !strings.ContainsRune(string(gone), r) {
			gone = append(gone, r)
		}
	}
	return gone
}

// Settable returns s with every character that f lacks replaced by Substitute.
func Settable(f Face, s string) string {
	t := tableOf(f)
	return strings.Map(func(r rune) rune {
		if t.glyph(r).known {
			return r
		}
		return Substitute
	}, s)
}
