package tree

import (
	"strings"

	"github.com/BurntSushi/toml"
)

// lineEnd returns the offset of the line feed that ends the line of at.
func lineEnd(text string, at int) int {
	if n := strings.IndexByte(text[at:], '\n'); n >= 0 {
		return at + n
	}
	return len(text)
}

// stringEnd returns the offset after the string that begins at at, in any of
// TOML's four kinds.
func stringEnd(text string, at int) int {
	q := text[at]
	triple := strings.Repeat(string(q), 3)
	if !strings.HasPrefix(text[at:], triple) {
		return shortEnd(text, at+1, q)
	}
	end := longEnd(text, at+3, triple)
	// up to two quotes may stand before the closing three
	for n := 0; n < 2 && end < len(text) && text[end] == q; n++ {
		end++
	}
	return end
}

func shortEnd(text string, i int, q byte) int {
	for ; i < len(text); i++ {
		switch {
		case text[i] == q:
			return i + 1
		case text[i] == '\n':
			return i
		case text[i] == '\\' && q == '"':
			i++
		}
	}
	return len(text)
}

func longEnd(text string, i int, triple string) int {
	for ; i < len(text); i++ {
		if text[i] == '\\' && triple[0] == '"' {
			i++
		} else if strings.HasPrefix(text[i:], triple) {
			return i + 3
		}
	}
	return len(text)
}

// unquoted returns what a quoted key says.
func unquoted(quoted string) string {
	var v struct{ K string }
	if _, err := toml.Decode("K = "+quoted, &v); err != nil {
		return quoted
	}
	return v.K
}
