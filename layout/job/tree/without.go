package tree

import (
	"slices"
	"strings"
)

// Without returns a file without its comments and without the keys that drop names
// by the last part of their path, with their values; all else stays as it is written,
// but for lines that are left empty by it. The file must be one that Parse reads.
func Without(data []byte, drop func(key string) bool) ([]byte, error) {
	text, err := readable(data)
	if err != nil {
		return nil, err
	}
	s := newScanner(text)
	s.all()
	cuts := slices.Clone(s.comments)
	for _, p := range s.pairs {
		if drop(p.key) {
			cuts = append(cuts, p.cut(text))
		}
	}
	slices.SortFunc(cuts, func(a, b Range) int { return a.Start - b.Start })
	out := cutOut(text, joined(text, cuts))
	_, err = Parse([]byte(out))
	return []byte(out), err
}

// A pairAt is where a key stands with its value.
type pairAt struct {
	key    string
	at     Range
	inline bool
}

// cut is what goes with a key: within { } a comma too, the one after it or, of the
// last, the one before it.
func (p pairAt) cut(text string) Range {
	if !p.inline {
		return p.at
	}
	after := p.at.End + len(text[p.at.End:]) - len(strings.TrimLeft(text[p.at.End:], " \t\r\n"))
	if strings.HasPrefix(text[after:], ",") {
		return Range{p.at.Start, after + 1}
	}
	if before := strings.TrimRight(text[:p.at.Start], " \t\r\n"); strings.HasSuffix(before, ",") {
		return Range{len(before) - 1, p.at.End}
	}
	return p.at
}

// joined makes one of cuts that have nothing but blanks between them.
func joined(text string, cuts []Range) (out []Range) {
	for _, c := range cuts {
		if n := len(out) - 1; n >= 0 && c.Start >= out[n].End && strings.Trim(text[out[n].End:c.Start], " \t") == "" {
			out[n].End = c.End
			continue
		}
		out = append(out, c)
	}
	return out
}

// cutOut takes ranges, in their order, out of a text, and lines of which nothing is
// left.
func cutOut(text string, cuts []Range) string {
	var b strings.Builder
	pos := 0
	for _, c := range cuts {
		if c.Start < pos {
			c.Start = min(pos, c.End)
		}
		line := strings.LastIndexByte(text[:c.Start], '\n') + 1
		end := lineEnd(text, c.End)
		if line >= pos && strings.TrimSpace(text[line:c.Start]+text[c.End:end]) == "" {
			c = Range{line, min(end+1, len(text))}
		}
		b.WriteString(strings.TrimRight(text[pos:max(pos, c.Start)], " \t"))
		pos = max(pos, c.End)
	}
	b.WriteString(text[pos:])
	return b.String()
}
