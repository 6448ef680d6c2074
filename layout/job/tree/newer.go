package tree

import (
	"strings"

	"oxturn/layout/pattern"
)

// A Newer is a piece of a file that TOML 1.1 (December 2025) allows and TOML
// 1.0 does not: other programs and editors may refuse the file for it.
type Newer struct {
	Range Range
	What  string
	Hint  string
}

// NewerThan10 returns the first of each such piece. The file must be one that
// Parse reads.
func NewerThan10(data []byte) []Newer {
	text, err := readable(data)
	if err != nil {
		return nil
	}
	s := newScanner(text)
	s.all()
	return s.newer
}

// found notes a piece, the first of its sort.
func (s *scanner) found(start, end int, what, hint string) {
	for _, n := range s.newer {
		if n.What == what {
			return
		}
	}
	s.newer = append(s.newer, Newer{Range{start, end}, what, hint})
}

// skipInline passes over what stands between the parts of an inline table.
func (s *scanner) skipInline() {
	start := s.pos
	s.skip(true)
	if i := strings.IndexAny(s.text[start:s.pos], "\n#"); i >= 0 {
		s.found(max(0, start-1), start, "a line break inside { }",
			"keep it on one line, or write it as a table with a header")
	}
}

// comma passes over the comma after a part of an inline table.
func (s *scanner) comma() {
	at := s.pos
	s.pos++
	s.skipInline()
	if s.at('}') {
		s.found(at, at+1, "a comma before the closing }", "take the comma out")
	}
}

// escapes looks for the new ones in a string that begins at start.
func (s *scanner) escapes(start int) {
	if s.text[start] != '"' {
		return
	}
	for i := start; i+1 < s.pos; i++ {
		if s.text[i] != '\\' {
			continue
		}
		if i++; s.text[i] == 'e' || s.text[i] == 'x' {
			s.found(i-1, i+1, "the escape \\"+s.text[i:i+1], "write \\u and four hexadecimal digits")
		}
	}
}

var shortTime = pattern.Of(`^(\d{4}-\d\d-\d\d[ Tt])?\d\d:\d\d([Zz]|[-+]\d\d:\d\d)?$`)

// seconds looks whether a bare value is a time without them.
func (s *scanner) seconds(start int) {
	if s.pos-start <= len("1979-05-27 07:32+00:00") && shortTime().MatchString(s.text[start:s.pos]) {
		s.found(start, s.pos, "a time without seconds", "add :00")
	}
}
