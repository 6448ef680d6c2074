package tree

import "strings"

// scan finds every key and value of a text that the library has accepted. The
// list of keys is in document order, repeats and inline keys included, just as
// the library's MetaData.Keys gives it.
func scan(text string) (*Node, [][]string) {
	s := newScanner(text)
	s.all()
	return s.root, s.keys
}

func newScanner(text string) *scanner {
	s := &scanner{text: text, root: &Node{}}
	s.root.asTable()
	s.table = s.root
	return s
}

// all reads the whole text.
func (s *scanner) all() {
	for s.skip(true); s.pos < len(s.text); s.skip(true) {
		before := s.pos
		if s.text[s.pos] == '[' {
			s.header()
		} else {
			s.pair(s.table, s.path)
		}
		if s.pos == before {
			s.pos++ // not TOML; only reached when the library was not asked first
		}
	}
}

type scanner struct {
	text  string
	pos   int
	root  *Node
	table *Node    // what the last header opened
	path  []string // of that table
	keys  [][]string
	newer []Newer

	pairs    []pairAt
	comments []Range
	inlined  int // how many { are open
}

// skip passes over blanks, and over line ends and comments where lines is true.
func (s *scanner) skip(lines bool) {
	for s.pos < len(s.text) {
		switch c := s.text[s.pos]; {
		case c == ' ' || c == '\t':
			s.pos++
		case lines && (c == '\n' || c == '\r'):
			s.pos++
		case lines && c == '#':
			end := lineEnd(s.text, s.pos)
			s.comments = append(s.comments, Range{s.pos, end})
			s.pos = end
		default:
			return
		}
	}
}

func (s *scanner) at(c byte) bool { return s.pos < len(s.text) && s.text[s.pos] == c }

// header reads [a.b] or [[a.b]] and opens the table it names.
func (s *scanner) header() {
	start := s.pos
	s.pos++
	many := s.at('[')
	if many {
		s.pos++
	}
	names, at := s.key()
	for s.at(']') {
		s.pos++
	}
	s.keys = append(s.keys, names)
	s.path = names
	span := Range{start, s.pos}
	n := s.root
	for _, name := range names[:len(names)-1] {
		n = last(n.field(name))
	}
	n = n.field(names[len(names)-1])
	if n.Key == (Range{}) {
		n.Key, n.Span = at, span
	}
	if many {
		n.Kind = Array
		n.Items = append(n.Items, &Node{Key: at, Span: span})
		n = last(n)
	}
	n.asTable()
	s.table = n
}

// last returns what a name in the middle of a header stands for: of an array
// of tables the last one.
func last(n *Node) *Node {
	if n.Kind == Array && len(n.Items) > 0 {
		return n.Items[len(n.Items)-1]
	}
	return n
}

// key reads a dotted key and returns its parts and the place of the last.
func (s *scanner) key() ([]string, Range) {
	var names []string
	var at Range
	for {
		s.skip(false)
		start := s.pos
		name := s.keyName()
		names, at = append(names, name), Range{start, s.pos}
		s.skip(false)
		if !s.at('.') {
			return names, at
		}
		s.pos++
	}
}

func (s *scanner) keyName() string {
	start := s.pos
	if s.at('"') || s.at('\'') {
		s.pos = stringEnd(s.text, s.pos)
		s.escapes(start)
		return unquoted(s.text[start:s.pos])
	}
	for s.pos < len(s.text) && !strings.ContainsRune(" \t\r\n.=]#,{}[\"'", rune(s.text[s.pos])) {
		s.pos++
	}
	return s.text[start:s.pos]
}

// pair reads key = value into table.
func (s *scanner) pair(table *Node, path []string) {
	start := s.pos
	names, at := s.key()
	full := append(append([]string{}, path...), names...)
	s.keys = append(s.keys, full)
	n := table
	for _, name := range names {
		n = last(n).field(name)
		if n.Key == (Range{}) {
			n.Key, n.Span = at, at
		}
	}
	if s.at('=') {
		s.pos++
	}
	s.skip(false)
	s.value(n, full)
	s.pairs = append(s.pairs, pairAt{names[len(names)-1], Range{start, s.pos}, s.inlined > 0})
}

// value reads one value into n.
func (s *scanner) value(n *Node, path []string) {
	start := s.pos
	switch {
	case s.at('['):
		s.array(n, path)
	case s.at('{'):
		s.inline(n, path)
	case s.at('"'), s.at('\''):
		s.pos = stringEnd(s.text, s.pos)
		s.escapes(start)
	default:
		s.bare()
		s.seconds(start)
	}
	n.Span = Range{start, s.pos}
}

// bare reads a number, a boolean or a date, which may have a blank inside.
func (s *scanner) bare() {
	start := s.pos
	for s.pos < len(s.text) && !strings.ContainsRune(",]}#\r\n", rune(s.text[s.pos])) {
		s.pos++
	}
	s.pos = start + len(strings.TrimRight(s.text[start:s.pos], " \t"))
}

func (s *scanner) array(n *Node, path []string) {
	n.Kind = Array
	s.pos++
	for s.skip(true); s.pos < len(s.text) && !s.at(']'); s.skip(true) {
		before := s.pos
		item := &Node{}
		n.Items = append(n.Items, item)
		s.value(item, path)
		s.skip(true)
		if s.at(',') {
			s.pos++
		} else if s.pos == before {
			s.pos++
		}
	}
	s.pos = min(s.pos+1, len(s.text))
}

func (s *scanner) inline(n *Node, path []string) {
	n.asTable()
	s.inlined++
	defer func() { s.inlined-- }()
	s.pos++
	for s.skipInline(); s.pos < len(s.text) && !s.at('}'); {
		before := s.pos
		s.pair(n, path)
		s.skipInline()
		if s.at(',') {
			s.comma()
		} else if s.pos == before {
			s.pos++
		}
	}
	s.pos = min(s.pos+1, len(s.text))
}
