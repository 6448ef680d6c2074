// Package language puts what sheets and maps say into the language of who reads them.
// The catalogue of a language is one file; its keys are the English messages as they
// stand in the code.
package language

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A Language is one that sheets can be read in.
type Language int

// The languages. English is what the code is written in, and has no catalogue.
const (
	English Language = iota
	Spanish
	French
	German
)

// tags are the languages by BCP 47.
var tags = [...]string{English: "en", Spanish: "es", French: "fr", German: "de"}

// Tags returns the tags of all languages (BCP 47), as a job names them.
func Tags() []string { return slices.Clone(tags[:]) }

// Named returns the language of a tag; false for a tag that has none.
func Named(tag string) (Language, bool) {
	i := slices.Index(tags[:], tag)
	return Language(max(i, 0)), i >= 0
}

// Tag is the language's tag (BCP 47).
func (l Language) Tag() string { return tags[l] }

// Text puts a message into the language: one that takes no values. Without an entry in
// the catalogue it stays English.
func (l Language) Text(message string) string {
	if l == English {
		return message
	}
	if said, ok := l.catalogue().entries[message]; ok {
		return said.counted(l, nil)
	}
	return message
}

// Texts puts each of some messages into the language, as Text does.
func (l Language) Texts(messages []string) []string {
	out := make([]string, len(messages))
	for i, m := range messages {
		out[i] = l.Text(m)
	}
	return out
}

// Textf puts a message that takes values into the language. The format is that of fmt;
// a count decides between singular and plural where the catalogue has both.
func (l Language) Textf(format string, values ...any) string {
	if l == English {
		return fmt.Sprintf(format, values...)
	}
	if said, ok := l.catalogue().entries[format]; ok {
		format = said.counted(l, values)
	}
	return fmt.Sprintf(format, l.inLanguage(values)...)
}

// Figure writes a figure, written with a decimal point, as the language does: with a comma in
// all but English (ISO 80000-1 allows either). Thousands are not grouped in any: a point or comma
// between them reads as a decimal sign next door, and drawings write 12400 Ω and 1280 mm.
func (l Language) Figure(figure string) string {
	if l == English {
		return figure
	}
	return strings.ReplaceAll(figure, ".", ",")
}

// Within writes a heading as it stands within a sentence: beginning small, but in German, which
// begins every noun with a capital.
func (l Language) Within(heading string) string {
	if l == German || heading == "" {
		return heading
	}
	first, size := utf8.DecodeRuneInString(heading)
	return string(unicode.ToLower(first)) + heading[size:]
}

// Joint is a mark such as "; " between two texts, set apart as French does.
func (l Language) Joint(mark string) string {
	if l == French && (strings.HasPrefix(mark, ";") || strings.HasPrefix(mark, ":")) {
		return "\u00a0" + mark
	}
	return mark
}
