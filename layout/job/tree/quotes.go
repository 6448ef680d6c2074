package tree

import (
	"strings"
	"unicode/utf8"

	"oxturn/layout/pattern"
)

// curlyQuotes matches a text between quotes as phones and word processors set them.
var curlyQuotes = pattern.Of("[“”„«]([^“”„«»\"\n]*)[“”»]|[‘’]([^‘’'\n]*)[‘’]")

// StraightQuotes returns a file that is no TOML with straight quotes for curly ones, if it
// is TOML so. Every text stays where it stands: what a curly quote is longer becomes blanks.
// first is where the first of them stands.
func StraightQuotes(data []byte) (straight []byte, first Range, ok bool) {
	text := string(data)
	at := curlyQuotes().FindStringIndex(text)
	if at == nil {
		return nil, Range{}, false
	}
	if _, err := Parse(data); err == nil {
		return nil, Range{}, false
	}
	straight = []byte(straightened(text, " "))
	_, err := Parse(straight)
	return straight, Range{at[0], at[1]}, err == nil
}

// WithStraightQuotes is StraightQuotes for a text that is to be changed: without the blanks;
// the text itself where it needs none.
func WithStraightQuotes(text string) string {
	if _, _, ok := StraightQuotes([]byte(text)); !ok {
		return text
	}
	return straightened(text, "")
}

// straightened writes straight quotes for curly ones, each with fill for the bytes that it
// is shorter.
func straightened(text, fill string) string {
	return curlyQuotes().ReplaceAllStringFunc(text, func(quoted string) string {
		open, inside := firstRune(quoted)
		inside, last := lastRune(inside)
		quote := `"`
		if strings.ContainsAny(open, "‘’") {
			quote = "'"
		}
		return strings.Repeat(fill, len(open)-1) + quote + inside + quote + strings.Repeat(fill, len(last)-1)
	})
}

func firstRune(s string) (first, rest string) {
	_, n := utf8.DecodeRuneInString(s)
	return s[:n], s[n:]
}

func lastRune(s string) (rest, last string) {
	_, n := utf8.DecodeLastRuneInString(s)
	return s[:len(s)-n], s[len(s)-n:]
}
