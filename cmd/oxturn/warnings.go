package main

import (
	"bytes"
	"fmt"
	"html"
	"slices"
	"strings"
	"unicode/utf8"

	"oxturn/drawing"
	"oxturn/drawing/web/ownersmap"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/job"
)

// unlettered warns of letters that no embedded face has: once for each text of the job file that
// has them, and once for each text of a sheet whose letters come from elsewhere.
func unlettered(src source, all []drawing.Unset) []job.Diagnostic {
	var gone []rune
	for _, u := range all {
		gone = append(gone, u.Runes...)
	}
	if gone == nil {
		return nil
	}
	var out []job.Diagnostic
	written := map[rune]bool{}
	for _, text := range job.TextsOf(src.name, src.data) {
		var of []rune
		for _, r := range fonts.Missing(fonts.Lettering, text.Value) {
			if slices.Contains(gone, r) {
				of, written[r] = append(of, r), true
			}
		}
		if of != nil {
			out = append(out, lacking(letterSpan(src, text.Span, of[0]), text.Value, "", of))
		}
	}
	return append(out, fromElsewhere(src, all, written)...)
}

// fromElsewhere warns of texts of sheets whose letters stand in no text of the job file: in a
// catalogue's, say. A map's own signs are no text of a sheet.
func fromElsewhere(src source, all []drawing.Unset, written map[rune]bool) (out []job.Diagnostic) {
	for _, u := range all {
		of := slices.DeleteFunc(slices.Clone(u.Runes), func(r rune) bool { return written[r] })
		if len(of) == 0 || u.Sheet == "" {
			continue
		}
		for _, r := range of {
			written[r] = true
		}
		out = append(out, lacking(job.Span{File: src.name}, u.Text, " on sheet "+u.Sheet, of))
	}
	return out
}

// lacking says which letters of a text no face has, and what is shown in their places.
func lacking(at job.Span, text, where string, gone []rune) job.Diagnostic {
	var letters []string
	for _, r := range gone {
		letters = append(letters, fmt.Sprintf("%q (U+%04X)", r, r))
	}
	return job.Diagnostic{Severity: job.Warning, ID: "W102", Span: at,
		Message: fmt.Sprintf("%q%s has letters that no face here has: %s; paper shows %c for each, SVG and map what "+
			"the reader's device has", text, where, strings.Join(letters, ", "), fonts.Substitute),
		Hint: "write it in letters of the Latin, Greek or Cyrillic alphabets"}
}

// letterSpan is where a letter first stands in a text as written; the text, where it is written as an
// escape.
func letterSpan(src source, at job.Span, letter rune) job.Span {
	if i := bytes.IndexRune(src.data[at.Start:at.End], letter); i >= 0 {
		at.Start += i
		at.End = at.Start + utf8.RuneLen(letter)
	}
	return at
}

// mapUnset are the letters on a plan's map that no face has. The map is set in what the reader's
// device has, which may lack them as well.
func mapUnset(p *layout.Plan) ([]drawing.Unset, error) {
	var page bytes.Buffer
	if err := ownersmap.Write(&page, p); err != nil {
		return nil, err
	}
	return []drawing.Unset{{Runes: fonts.Missing(fonts.Lettering, html.UnescapeString(page.String()))}}, nil
}

// ownExplanations are those of the warnings that the command itself gives.
func ownExplanations() []job.Explanation {
	return []job.Explanation{
		{ID: "W102", Title: "text with characters that cannot be set",
			Text: "The faces that the drawings are lettered in have no shape for some characters of a text: on paper " +
				"they are shown as a box. SVG and map are shown in what the reader's device has, which may lack " +
				"them too. " +
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
