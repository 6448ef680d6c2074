package language

import (
	"maps"
	"slices"

	"golang.org/x/text/feature/plural"
)

// Also is how a text of this language reads in another: a message with its values, or several of them; empty
// where the text is none.
func (l Language) Also(text string, other Language) string { return pairs()[l][other].in(text) }

// alsoWord is Also for a message without values.
func (l Language) alsoWord(text string, other Language) string {
	key, is := text, true
	if l != English {
		key, is = l.catalogue().english()[text]
	}
	switch {
	case !is:
		return ""
	case other == English:
		return key
	}
	return other.catalogue().entries[key][plural.Other]
}

// backwards gives the English message of each text; of several the first in order.
func (c *catalogue) backwards() map[string]string {
	out := map[string]string{}
	for _, key := range slices.Sorted(maps.Keys(c.entries)) {
		said := plainBlanks(c.entries[key][plural.Other])
		if _, taken := out[said]; !taken {
			out[said] = key
		}
	}
	return out
}

// Governs says which language's text holds where two differ, in this one.
func (l Language) Governs(which Language) string {
	return [...]string{English: l.Text("English governs."), Spanish: l.Text("Spanish governs."),
		French: l.Text("French governs."), German: l.Text("German governs.")}[which]
}
