package tree

import (
	"strings"

	"oxturn/layout/pattern"
)

// A statement is a header or a key with its value, without the blanks and the
// comment round it.
type statement struct {
	at     Range
	header bool
	opened int // offset of a bracket that is never closed, -1: none
}

// looksNew matches a line that begins a statement whatever bracket is open: a
// header, or a bare key with its equals sign.
var looksNew = pattern.Of(`^[ \t]*(\[\[?[ \t]*[A-Za-z_][\w-]*([ \t]*\.[ \t]*[\w-]+)*[ ` +
	`\t]*(\]|#|\r?$)|[A-Za-z_][\w-]*([ \t]*\.[ \t]*[\w-]+)*[ \t]*=)`)

// aWord matches a list of one bare value on a line of its own, which is no header.
var aWord = pattern.Of(`^[ \t]*\[[ \t]*(true|false|inf|nan)[ \t]*\]`)

// statements splits a text that need not be TOML. A list that is never closed
// ends before the line that plainly begins something else.
func statements(text string) []statement {
	var out []statement
	for pos := 0; pos < len(text); {
		switch c := text[pos]; c {
		case ' ', '\t', '\r', '\n':
			pos++
		case '#':
			pos = lineEnd(text, pos)
		default:
			s := statementFrom(text, pos)
			out = append(out, s)
			pos = max(s.at.End, pos+1)
		}
	}
	return out
}

func statementFrom(text string, start int) statement {
	s := statement{at: Range{start, start}, header: text[start] == '[', opened: -1}
	var open []int
	for i := start; i < len(text); {
		switch c := text[i]; {
		case c == '\n' && (len(open) == 0 || s.header || begins(text[i+1:], text[open[len(open)-1]])):
			return s.leftOpen(open)
		case c == '#':
			i = lineEnd(text, i)
			continue
		case c == '"', c == '\'':
			i = stringEnd(text, i)
			s.at.End = i
			continue
		case c == '[', c == '{':
			open = append(open, i)
		case (c == ']' || c == '}') && len(open) > 0:
			open = open[:len(open)-1]
		}
		if !strings.ContainsRune(" \t\r\n", rune(text[i])) {
			s.at.End = i + 1
		}
		i++
	}
	return s.leftOpen(open)
}

func (s statement) leftOpen(open []int) statement {
	if len(open) > 0 && !s.header {
		s.opened = open[0]
	}
	return s
}

// begins reports whether a line begins a statement inside a bracket of a kind.
func begins(rest string, bracket byte) bool {
	line, _, _ := strings.Cut(rest, "\n")
	header := strings.HasPrefix(strings.TrimLeft(line, " \t"), "[")
	return looksNew().MatchString(line) && !aWord().MatchString(line) && (header || bracket == '[')
}

// keyOf matches a bare key, dotted or not, at the head of a statement.
var keyOf = pattern.Of(`^[A-Za-z0-9_-]+([ \t]*\.[ \t]*[A-Za-z0-9_-]+)*`)

// blankInKey matches a key of several words.
var blankInKey = pattern.Of(`^[A-Za-z][\w-]*(?:[ \t]+[\w-]+)+[ \t]*=`)

// words returns the one word that a key of several was meant to be, with the
// value; ok is false where the key is no such.
func (s statement) words(text string) (name, value string, ok bool) {
	whole := text[s.at.Start:s.at.End]
	key := blankInKey().FindString(whole)
	name = strings.Join(strings.Fields(strings.TrimSuffix(key, "=")), "_")
	return name, strings.TrimSpace(whole[len(key):]), key != ""
}

// keyAndValue splits a statement into its key and its value as typed, with what
// stands between them; name is empty where it does not begin with a bare key.
func (s statement) keyAndValue(text string) (name, between, value string, at Range) {
	whole := text[s.at.Start:s.at.End]
	name = keyOf().FindString(whole)
	rest := whole[len(name):]
	value = strings.TrimLeft(rest, " \t:=")
	between = strings.TrimSpace(rest[:len(rest)-len(value)])
	at = Range{s.at.End - len(value), s.at.End}
	if name == "" {
		return "", "", whole, s.at
	}
	return strings.Join(strings.FieldsFunc(name, func(r rune) bool { return r == ' ' || r == '\t' }), ""), between,
		value, at
}

// headerOf matches the parts of a header, right or not.
var headerOf = pattern.Of(`^(\[+)[ \t]*([A-Za-z0-9_-]+(?:[ \t]*\.[ \t]*[A-Za-z0-9_-]+)*)[ \t]*(\]*)$`)

// headerName returns a header's name and how many brackets stand before and
// after it; name is empty where it is not made of bare keys.
func headerName(header string) (name string, before, after int) {
	m := headerOf().FindStringSubmatch(header)
	if m == nil {
		return "", 0, 0
	}
	return strings.NewReplacer(" ", "", "\t", "").Replace(m[2]), len(m[1]), len(m[3])
}
