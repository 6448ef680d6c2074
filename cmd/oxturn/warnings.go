package main

import (
	"fmt"
	"slices"
	"strings"

	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/job"
)

// unsettable warns of texts that no embedded face has letters for, each once
// however many sheets show it.
func unsettable(src source, all []drawing.Unset) []job.Diagnostic {
	var out []job.Diagnostic
	said := map[string]bool{}
	for _, u := range all {
		if said[u.Text] {
			continue
		}
		said[u.Text] = true
		var gone []string
		for _, r := range u.Runes {
			gone = append(gone, fmt.Sprintf("%q (U+%04X)", r, r))
		}
		out = append(out, job.Diagnostic{Severity: job.Warning, ID: "W102", Span: runeSpan(src, u.Runes[0]),
			Message: fmt.Sprintf("%q on sheet %s has characters that no face here can set: %s", u.Text, u.Sheet,
				strings.Join(gone, ", ")),
			Hint: "write it in letters of the Latin, Greek or Cyrillic alphabets"})
	}
	return out
}

// runeSpan is where a character first stands in a job file, or the file.
func runeSpan(src source, r rune) job.Span {
	i := strings.IndexRune(string(src.data), r)
	if i < 0 {
		return job.Span{File: src.name}
	}
	return job.Span{File: src.name, Start: i, End: i + len(string(r))}
}

// ownExplanations are those of the warnings that the command itself gives.
func ownExplanations() []job.Explanation {
	return []job.Explanation{
		{ID: "W102", Title: "text with characters that cannot be set",
			Text: "The faces that the drawings are lettered in have no shape for some characters of a text: on paper " +
				"they are shown as a box. " +
				"The faces hold the Latin, Greek and Cyrillic alphabets and the trade's signs.",
			Bad: "[job]\nclient = \"王\"\n", Good: "[job]\nclient = \"Wang\"\n"},
	}
}

// explanations are those of all warnings there are, by ID.
func explanations() []job.Explanation {
	all := slices.Concat(job.Explanations(), layout.Explanations(), ownExplanations())
	slices.SortFunc(all, func(a, b job.Explanation) int { return strings.Compare(a.ID, b.ID) })
	return all
}
